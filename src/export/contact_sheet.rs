//! A page on which all photos of a batch are seen beside their figures, to be sorted by any of them.
//!
//! The page lies in the results' folder and shows the small pictures that lie there. It fetches nothing
//! from elsewhere; the one script on it sorts the table, and its policy allows no other.

use super::html_text::escaped;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest as _, Sha256};
use std::fmt::Write as _;

/// What the page says of one photo.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Entry {
    /// Its name.
    pub name: String,
    /// Where its small picture lies, from the page on; none of a photo that was not measured.
    pub small: Option<String>,
    /// Where its picture with what was found lies.
    pub overlay: Option<String>,
    /// Catalogue number of its voucher.
    pub voucher: Option<String>,
    /// Kind of underside.
    pub surface: String,
    /// The figure per mm, to sort by, and in words.
    pub per_mm: Option<(f64, String)>,
    /// The phrase a handbook would print.
    pub phrase: String,
    /// What to know before relying on the figures, the gravest first.
    pub notes: Vec<Remark>,
    /// When it was taken.
    pub taken: String,
}

/// One thing to know.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remark {
    /// How much it matters.
    pub gravity: Gravity,
    /// In words.
    pub text: String,
}

/// How much something matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Gravity {
    /// Good to know.
    Info,
    /// A figure is less sure than it looks, or stands apart.
    Caution,
    /// There is no figure.
    Stop,
}

impl Gravity {
    /// Shape and word, so that colour is not needed.
    const fn mark(self) -> (&'static str, &'static str) {
        match self {
            Self::Info => ("○", "Good to know"),
            Self::Caution => ("▲", "Caution"),
            Self::Stop => ("■", "No figure"),
        }
    }

    const fn class(self) -> &'static str {
        match self {
            Self::Info => "info",
            Self::Caution => "caution",
            Self::Stop => "stop",
        }
    }
}

/// The page's heads: what one can sort by.
const HEADS: [&str; 8] = [
    "Picture",
    "Photo",
    "Voucher",
    "Underside",
    "Per mm",
    "Handbook",
    "Notes",
    "Taken",
];

const STYLE: &str = "
:root { color-scheme: light dark; --ground: #fff; --ink: #1c1c1c; --quiet: #555; --line: #ccc;
        --caution: #a04000; --stop: #8a3063 }
@media (prefers-color-scheme: dark) {
  :root { --ground: #1b1b1b; --ink: #eee; --quiet: #bbb; --line: #444; --caution: #f0a060; --stop: #e59fc4 } }
body { font: 15px/1.4 'Inter', 'Helvetica Neue', Arial, sans-serif; color: var(--ink);
       background: var(--ground); margin: 1.5rem; overflow-wrap: break-word }
h1 { font-size: 1.4rem; margin: 0 0 .3rem }
p { margin: 0 0 .8rem; max-width: 70ch }
table { border-collapse: collapse; width: 100% }
th, td { text-align: left; vertical-align: top; padding: .5rem .8rem .5rem 0;
         border-bottom: 1px solid var(--line); font-variant-numeric: tabular-nums }
thead th { position: sticky; top: 0; background: var(--ground) }
th button { font: inherit; font-weight: 600; color: inherit; background: none; border: 0; padding: 0;
            cursor: pointer; text-decoration: underline dotted }
th[aria-sort=ascending] button::after { content: ' ↑' }
th[aria-sort=descending] button::after { content: ' ↓' }
td img { display: block; width: 160px; height: auto }
ul { list-style: none; margin: 0; padding: 0 }
li { margin: 0 0 .3rem; max-width: 60ch }
.caution b { color: var(--caution) } .stop b { color: var(--stop) }
summary { cursor: pointer }
.plot img { width: 100%; max-width: 180mm; height: auto }
small { color: var(--quiet) }
";

/// Sorts rows by what their cells say, or by `data-sort` where they bear it. Equals stay in order.
const SCRIPT: &str = "
const table = document.querySelector('table');
const heads = [...table.tHead.rows[0].cells];
heads.forEach((head, column) => {
  const button = head.querySelector('button');
  if (!button) return;
  button.addEventListener('click', () => {
    const turn = head.getAttribute('aria-sort') === 'ascending' ? -1 : 1;
    heads.forEach(other => other.removeAttribute('aria-sort'));
    head.setAttribute('aria-sort', turn === 1 ? 'ascending' : 'descending');
    const key = row => row.cells[column].dataset.sort ?? row.cells[column].textContent.trim();
    const rows = [...table.tBodies[0].rows];
    rows.sort((a, b) => {
      const [left, right] = [key(a), key(b)];
      if (left === '' || right === '') return (left === '') - (right === '');
      const [x, y] = [Number(left), Number(right)];
      const both = Number.isNaN(x) || Number.isNaN(y);
      return turn * (both ? left.localeCompare(right, 'en', { numeric: true }) : x - y);
    });
    table.tBodies[0].append(...rows);
  });
});
";

/// The page as pieces of UTF-8: its beginning, a row for each entry, its end. So not all of it need be in
/// memory.
#[derive(Debug, Clone, Copy)]
pub struct ContactSheet;

impl ContactSheet {
    /// What stands above the rows; `summary` is said first, `plot` lies beside the page, `remarks` are of
    /// the batch as a whole.
    #[must_use]
    pub fn beginning(summary: &str, plot: Option<&str>, remarks: &[String]) -> String {
        let digest = STANDARD.encode(Sha256::digest(SCRIPT));
        let mut page = format!(
            "<!DOCTYPE html>\n<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\"/>\n\
             <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src 'self' file:; \
             style-src 'unsafe-inline'; script-src 'sha256-{digest}'\"/>\n\
             <meta name=\"viewport\" content=\"width=device-width\"/>\n<title>Contact sheet</title>\n\
             <style>{STYLE}</style>\n</head>\n<body>\n<h1>Contact sheet</h1>\n<p>{}</p>\n",
            escaped(summary)
        );
        // Writing to a string cannot fail.
        if !remarks.is_empty() {
            page.push_str("<h2>What stands out over the series</h2>\n<ul>\n");
            for remark in remarks {
                let _ = writeln!(page, "<li>{}</li>", escaped(remark));
            }
            page.push_str("</ul>\n");
        }
        if let Some(plot) = plot {
            let _ = writeln!(
                page,
                "<details class=\"plot\"><summary>Figures per mm by group</summary>\
                 <img src=\"{}\" alt=\"Figures per mm of each photo, by group\"/></details>",
                address(plot)
            );
        }
        page.push_str("<table>\n<thead><tr>");
        for (at, head) in HEADS.iter().enumerate() {
            let _ = if at == 0 {
                write!(page, "<th scope=\"col\">{head}</th>")
            } else {
                write!(
                    page,
                    "<th scope=\"col\"><button type=\"button\" title=\"Sort by this\">{head}</button></th>"
                )
            };
        }
        page.push_str("</tr></thead>\n<tbody>\n");
        page
    }

    /// A row.
    #[must_use]
    pub fn row(entry: &Entry) -> String {
        let mut row = String::from("<tr><td>");
        if let Some(small) = &entry.small {
            let shown = entry.overlay.as_ref().unwrap_or(small);
            let says = if entry.overlay.is_some() {
                "what was found on"
            } else {
                "photo"
            };
            let _ = write!(
                row,
                "<a href=\"{}\"><img src=\"{}\" loading=\"lazy\" alt=\"{says} {}\"/></a>",
                address(shown),
                address(small),
                escaped(&entry.name)
            );
            if let Some(overlay) = &entry.overlay {
                let _ = write!(
                    row,
                    "<details><summary>What was found</summary><a href=\"{0}\"><img src=\"{0}\" \
                     loading=\"lazy\" alt=\"what was found on {1}\"/></a></details>",
                    address(overlay),
                    escaped(&entry.name)
                );
            }
        }
        let _ = write!(
            row,
            "</td><td>{}</td><td>{}</td><td>{}</td>",
            escaped(&entry.name),
            escaped(entry.voucher.as_deref().unwrap_or_default()),
            escaped(&entry.surface)
        );
        let _ = match &entry.per_mm {
            Some((value, words)) => {
                write!(row, "<td data-sort=\"{value}\">{}</td>", escaped(words))
            }
            None => write!(row, "<td></td>"),
        };
        let _ = write!(row, "<td>{}</td>", escaped(&entry.phrase));
        notes(&mut row, &entry.notes);
        let _ = writeln!(row, "<td>{}</td></tr>", escaped(&entry.taken));
        row
    }

    /// What stands below the rows, with the cautions.
    #[must_use]
    pub fn end(cautions: &str) -> String {
        format!(
            "</tbody>\n</table>\n<h2>Cautions</h2>\n<p>{}</p>\n<p><small>Made with Poreline {}.</small></p>\n\
             <script>{SCRIPT}</script>\n</body>\n</html>\n",
            escaped(&cautions.replace('\n', " ")),
            env!("CARGO_PKG_VERSION")
        )
    }
}

/// Sorted by the gravest, then by how many.
fn notes(row: &mut String, notes: &[Remark]) {
    let grave = |gravity: Gravity| notes.iter().filter(|n| n.gravity == gravity).count();
    let order =
        10_000 * grave(Gravity::Stop) + 100 * grave(Gravity::Caution) + grave(Gravity::Info);
    let _ = write!(row, "<td data-sort=\"{order}\">");
    let put = |row: &mut String, notes: &[&Remark]| {
        row.push_str("<ul>");
        for note in notes {
            let (mark, word) = note.gravity.mark();
            let _ = write!(
                row,
                "<li class=\"{}\"><b>{mark} {word}</b> {}</li>",
                note.gravity.class(),
                escaped(&note.text)
            );
        }
        row.push_str("</ul>");
    };
    let (grave, light): (Vec<&Remark>, Vec<&Remark>) =
        notes.iter().partition(|note| note.gravity == Gravity::Stop);
    if !grave.is_empty() {
        put(row, &grave);
    }
    if !light.is_empty() {
        let cautions = light
            .iter()
            .filter(|n| n.gravity == Gravity::Caution)
            .count();
        let words = match (cautions, light.len() - cautions) {
            (0, info) => format!("{info} good to know"),
            (1, 0) => "1 caution".to_owned(),
            (cautions, 0) => format!("{cautions} cautions"),
            (1, info) => format!("1 caution, {info} good to know"),
            (cautions, info) => format!("{cautions} cautions, {info} good to know"),
        };
        let _ = write!(row, "<details><summary>{words}</summary>");
        put(row, &light);
        row.push_str("</details>");
    }
    row.push_str("</td>");
}

/// A path as an address: letters that mean something in addresses are written as percent and number
/// (RFC 3986).
fn address(path: &str) -> String {
    let mut safe = String::with_capacity(path.len());
    for byte in path.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~/".contains(&byte) {
            safe.push(char::from(byte));
        } else {
            let _ = write!(safe, "%{byte:02X}");
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_become_neither_markup_nor_script() {
        let row = ContactSheet::row(&Entry {
            name: "<script>alert(1)</script>\".jpg".to_owned(),
            small: Some("photos/a b?.small.jpg".to_owned()),
            ..Entry::default()
        });
        assert!(!row.contains("<script"));
        assert!(row.contains("photos/a%20b%3F.small.jpg"));
    }

    #[test]
    fn only_the_sorting_script_may_run() {
        let page = ContactSheet::beginning("2 photos", None, &[]) + &ContactSheet::end("None.");
        let from = page.find("<script>").expect("a script") + "<script>".len();
        let to = page.find("</script>").expect("its end");
        let digest = STANDARD.encode(Sha256::digest(&page[from..to]));
        assert!(page.contains(&format!("script-src 'sha256-{digest}'")));
        assert!(!page.contains("http:") && !page.contains("https:"));
    }

    #[test]
    fn what_is_graver_sorts_higher() {
        let order = |gravities: &[Gravity]| -> u32 {
            let notes: Vec<Remark> = gravities
                .iter()
                .map(|gravity| Remark {
                    gravity: *gravity,
                    text: String::new(),
                })
                .collect();
            let mut row = String::new();
            super::notes(&mut row, &notes);
            let (_, rest) = row.split_once("data-sort=\"").expect("a key");
            let (key, _) = rest.split_once('"').expect("its end");
            key.parse().expect("a number")
        };
        let [caution, info, stop] = [Gravity::Caution, Gravity::Info, Gravity::Stop];
        assert!(order(&[stop]) > order(&[caution, caution, info]));
        assert!(order(&[caution]) > order(&[info, info, info]));
        assert!(order(&[info]) > order(&[]));
    }
}
