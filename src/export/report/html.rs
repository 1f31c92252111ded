//! A report as one HTML file: pictures and style lie in it, nothing is fetched and nothing runs. All
//! elements are closed, so it is well-formed XML too.

use super::chart::{LETTERS_MM, Shape};
use super::{Block, Chart, Picture, Report, Table};
use crate::export::html_text::escaped;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use std::fmt::Write as _;

/// Width of a chart, mm.
const CHART_MM: f64 = 120.0;

const STYLE: &str = "
@page { size: A4; margin: 15mm }
body { font: 10.5pt/1.4 'Inter', 'Helvetica Neue', Arial, sans-serif; color: #1c1c1c; background: #fff;
       max-width: 180mm; margin: 8mm auto; padding: 0 4mm; overflow-wrap: break-word }
td { overflow-wrap: anywhere }
h1 { font-size: 17pt; line-height: 1.2; margin: 0 0 2mm }
h1:not(:first-of-type) { break-before: page; margin-top: 12mm }
h2 { font-size: 13pt; margin: 7mm 0 2mm }
h3 { font-size: 10.5pt; margin: 4mm 0 1mm }
h1, h2, h3 { break-after: avoid }
p, ul, ol { margin: 0 0 2mm }
ul, ol { padding-left: 6mm }
.lead { font-size: 14pt; font-weight: 600; margin: 3mm 0 }
table { border-collapse: collapse; width: 100%; font-size: 9.5pt; margin: 0 0 3mm }
th, td { text-align: left; vertical-align: top; padding: .8mm 3mm .8mm 0; border-bottom: .2mm solid #ccc;
         font-variant-numeric: tabular-nums }
tbody th { font-weight: 400; color: #444; width: 28% }
tr, figure { break-inside: avoid }
.pictures { display: flex; gap: 4mm; margin: 2mm 0; align-items: flex-start }
figure { margin: 0; flex: 1 1 0; min-width: 0 }
figure img { width: 100%; height: auto; display: block }
figcaption { font-size: 9pt; color: #444 }
svg { width: 100%; max-width: 120mm; height: auto; display: block }
";

/// The report as the bytes of an HTML file, UTF-8.
#[must_use]
pub fn html(report: &Report) -> Vec<u8> {
    let mut page = String::from(
        "<!DOCTYPE html>\n<html lang=\"en-GB\" xmlns=\"http://www.w3.org/1999/xhtml\">\n",
    );
    // The policy holds even where something slipped through: no script, nothing from elsewhere.
    page.push_str(
        "<head>\n<meta charset=\"utf-8\"/>\n<meta http-equiv=\"Content-Security-Policy\" \
         content=\"default-src 'none'; img-src data:; style-src 'unsafe-inline'\"/>\n\
         <meta name=\"viewport\" content=\"width=device-width\"/>\n",
    );
    // Writing to a string cannot fail.
    let _ = write!(
        page,
        "<title>{}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n",
        escaped(&report.title)
    );
    for block in &report.blocks {
        put(&mut page, block);
    }
    page.push_str("</body>\n</html>\n");
    page.into_bytes()
}

fn put(page: &mut String, block: &Block) {
    let mut element = |name: &str, text: &str| {
        let end = name.split(' ').next().unwrap_or(name);
        let _ = writeln!(page, "<{name}>{}</{end}>", escaped(text));
    };
    match block {
        Block::Title(text) => element("h1", text),
        Block::Heading(text) => element("h2", text),
        Block::Subheading(text) => element("h3", text),
        Block::Lead(text) => element("p class=\"lead\"", text),
        Block::Text(text) => element("p", text),
        Block::List(items) => list(page, "ul", items),
        Block::Numbered(items) => list(page, "ol", items),
        Block::Table(table) => put_table(page, table),
        Block::Pictures(pictures) => put_pictures(page, pictures),
        Block::Chart(chart) => put_chart(page, chart),
    }
}

fn list(page: &mut String, name: &str, items: &[String]) {
    let _ = writeln!(page, "<{name}>");
    for item in items {
        let _ = writeln!(page, "<li>{}</li>", escaped(item));
    }
    let _ = writeln!(page, "</{name}>");
}

fn put_table(page: &mut String, table: &Table) {
    page.push_str("<table>\n");
    if !table.head.is_empty() {
        page.push_str("<thead><tr>");
        for cell in &table.head {
            let _ = write!(page, "<th scope=\"col\">{}</th>", escaped(cell));
        }
        page.push_str("</tr></thead>\n");
    }
    page.push_str("<tbody>\n");
    for row in &table.rows {
        page.push_str("<tr>");
        for (column, cell) in row.iter().enumerate() {
            let cell = escaped(cell);
            let _ = if column == 0 {
                write!(page, "<th scope=\"row\">{cell}</th>")
            } else {
                write!(page, "<td>{cell}</td>")
            };
        }
        page.push_str("</tr>\n");
    }
    page.push_str("</tbody>\n</table>\n");
}

fn put_pictures(page: &mut String, pictures: &[Picture]) {
    page.push_str("<div class=\"pictures\">\n");
    for picture in pictures {
        let says = escaped(&picture.says);
        let _ = writeln!(
            page,
            "<figure><img alt=\"{says}\" width=\"{}\" height=\"{}\" src=\"data:image/jpeg;base64,{}\"/>\
             <figcaption>{says}</figcaption></figure>",
            picture.width_px,
            picture.height_px,
            STANDARD.encode(&picture.jpeg)
        );
    }
    page.push_str("</div>\n");
}

fn put_chart(page: &mut String, chart: &Chart) {
    let says = escaped(&chart.says);
    let _ = writeln!(
        page,
        "<figure><svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {CHART_MM} {:.1}\" role=\"img\" \
         aria-label=\"{says}\" font-size=\"{LETTERS_MM}\" text-anchor=\"middle\">",
        chart.height_mm()
    );
    for shape in chart.shapes(CHART_MM) {
        let _ = match shape {
            Shape::Block {
                from: [x, y],
                size: [width, height],
            } => writeln!(
                page,
                "<rect fill=\"#0072b2\" x=\"{x:.2}\" y=\"{y:.2}\" width=\"{width:.2}\" height=\"{height:.2}\"/>"
            ),
            Shape::Line {
                from: [x1, y1],
                to: [x2, y2],
            } => writeln!(
                page,
                "<line stroke=\"#1c1c1c\" stroke-width=\"0.2\" x1=\"{x1:.2}\" y1=\"{y1:.2}\" x2=\"{x2:.2}\" y2=\"{y2:.2}\"/>"
            ),
            Shape::Words { foot: [x, y], text } => writeln!(
                page,
                "<text x=\"{x:.2}\" y=\"{y:.2}\">{}</text>",
                escaped(&text)
            ),
        };
    }
    let _ = writeln!(page, "</svg><figcaption>{says}</figcaption></figure>");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn charts_are_as_wide_as_they_are_drawn() {
        assert!(STYLE.contains(&format!("max-width: {CHART_MM}mm; height: auto")));
    }
}
