//! Two to four vouchers beside one another, to show why look-alikes differ.

use super::figures::{self, Figure};
use super::record::{Told, heading};
use super::{Block, Details, Picture, Report, Table};
use crate::book::{Voucher, VoucherFigures};
use crate::export::digits::significant;
use crate::statistics::Pooled;
use std::cmp::Ordering;
use std::collections::BTreeSet;

/// Vouchers beside one another at most.
pub const MOST_BESIDE: usize = 4;

/// One character of all vouchers.
struct Character {
    what: String,
    /// Of each voucher; empty where it was not seen.
    said: Vec<String>,
    standing: Standing,
}

/// A field of a record: what it is called, and what it says.
type Field = (&'static str, fn(&Voucher) -> Option<String>);

/// How far the vouchers differ in a character; the first to be shown is the smallest.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
enum Standing {
    /// Of another kind.
    Kind,
    /// 95 % intervals of some two do not meet: minus the ratio of the largest figure to the smallest.
    Apart(f64),
    /// In words, and not the same.
    Words,
    /// Without an interval, by minus the ratio.
    Unsure(f64),
    /// 95 % intervals of all meet, or nothing differs.
    Alike,
}

/// Vouchers beside one another. `details` are those of the vouchers that have any, each a piece of so
/// many mm a side.
#[must_use]
pub fn side_by_side(
    told: &[Told<'_>],
    details: &[Option<Details>],
    side_mm: f64,
    made: &str,
) -> Report {
    let numbers: Vec<&str> = (told.iter())
        .map(|one| one.voucher.catalog_number.as_str())
        .collect();
    let title = format!("{} side by side", numbers.join(", "));
    let mut report = Report::new(&title, made);
    report.blocks.push(Block::Title(title));
    let names: Vec<String> = told.iter().map(|one| heading(one.voucher)).collect();
    report.blocks.push(Block::List(names));
    pictures(&mut report, told, details, side_mm);
    report
        .blocks
        .push(Block::Heading("In what they differ".to_owned()));
    report.blocks.push(Block::Text(
        "Another kind of underside comes first. Then follow figures whose 95 % intervals do not meet, those \
         first whose largest and smallest differ by the largest factor; then what differs in words; then \
         figures without an interval; last what is alike, or not surely different. Figures in brackets are \
         95 % intervals."
            .to_owned(),
    ));
    let mut head = vec!["character".to_owned()];
    head.extend(numbers.iter().map(|number| (*number).to_owned()));
    report.blocks.push(Block::Table(Table {
        head,
        rows: characters(told)
            .into_iter()
            .map(|one| [vec![one.what], one.said].concat())
            .collect(),
    }));
    for one in told {
        for remark in one.shown.iter().flat_map(|shown| &shown.remarks) {
            let number = &one.voucher.catalog_number;
            report
                .blocks
                .push(Block::Text(format!("{number}: {remark}")));
        }
    }
    report.closed()
}

fn pictures(report: &mut Report, told: &[Told<'_>], details: &[Option<Details>], side_mm: f64) {
    let shown: Vec<(&Voucher, &Details)> = (told.iter().zip(details))
        .filter_map(|(one, details)| Some((one.voucher, details.as_ref()?)))
        .collect();
    if shown.is_empty() {
        return;
    }
    let named = |number: &str, picture: &Picture| Picture {
        says: number.to_owned(),
        ..picture.clone()
    };
    let row = |of: fn(&Details) -> &Picture| {
        let pictures = shown
            .iter()
            .map(|(voucher, details)| named(&voucher.catalog_number, of(details)));
        Block::Pictures(pictures.collect())
    };
    report.blocks.push(row(|details| &details.plain));
    report.blocks.push(row(|details| &details.outlined));
    report.blocks.push(Block::Text(format!(
        "All pictures have the same scale: each shows {} × {} mm of the underside, above as it was taken, \
         below with what was found.",
        significant(side_mm, 2),
        significant(side_mm, 2),
    )));
}

/// All characters that were seen, those first in which the vouchers differ most.
fn characters(told: &[Told<'_>]) -> Vec<Character> {
    let pooled: Vec<VoucherFigures> = told
        .iter()
        .map(|one| VoucherFigures::of(one.voucher))
        .collect();
    let kinds = pooled.iter().map(|figures| figures.surface);
    let kinds = kinds.map(|kind| kind.map_or_else(String::new, |kind| kind.word().to_owned()));
    let mut characters = vec![in_words("underside", kinds.collect(), Standing::Kind)];
    let of: Vec<Vec<Figure>> = (told.iter().zip(&pooled))
        .map(|(one, pooled)| measured(one.voucher, pooled))
        .collect();
    let mut names: Vec<&str> = Vec::new();
    for figure in of.iter().flatten() {
        if !names.contains(&figure.what.as_str()) {
            names.push(&figure.what);
        }
    }
    for name in names {
        let found: Vec<Option<&Figure>> = of
            .iter()
            .map(|figures| figures.iter().find(|figure| figure.what == name))
            .collect();
        characters.push(in_figures(name, &found));
    }
    let fields: [Field; 9] = [
        ("handbook phrase", |v| {
            let phrases = VoucherFigures::of(v).photos.into_iter();
            let phrases: Vec<String> = phrases.filter_map(|photo| photo.handbook).collect();
            (!phrases.is_empty()).then(|| phrases.join("; "))
        }),
        ("colour of the walls", |v| {
            let photo = v.current().into_iter().next()?;
            figures::text(&photo.findings, "/colour/words").map(str::to_owned)
        }),
        ("host wood", |v| v.host_wood.clone()),
        ("host", |v| v.host_taxon.clone()),
        ("colour of the underside", |v| v.underside_colour.clone()),
        ("cap width", |v| v.cap_width_cm.map(|cm| format!("{cm} cm"))),
        ("zones", |v| v.cap_zonation.clone()),
        ("hairs", |v| v.hairiness.clone()),
        ("smell", |v| v.smell.clone()),
    ];
    for (what, of) in fields {
        let said = told.iter().map(|one| of(one.voucher).unwrap_or_default());
        characters.push(in_words(what, said.collect(), Standing::Words));
    }
    characters.retain(|one| one.said.iter().any(|said| !said.is_empty()));
    // Equals stay in the order in which handbooks give them.
    characters.sort_by(|a, b| {
        a.standing
            .partial_cmp(&b.standing)
            .unwrap_or(Ordering::Equal)
    });
    characters
}

/// Figures that tell kinds apart: pooled over photos where they are, else of the first photo.
fn measured(voucher: &Voucher, pooled: &VoucherFigures) -> Vec<Figure> {
    let current = voucher.current();
    let Some(first) = current.first() else {
        return Vec::new();
    };
    let over_photos = |figure: &mut Figure, pooled: Option<Pooled>| {
        if let Some(pooled) = pooled {
            figure.value = pooled.mean;
            figure.interval = Some(pooled.interval());
        }
    };
    let mut figures = figures::figures(&first.findings);
    // How much was measured is no character of a fungus.
    figures.retain(|figure| !figure.what.ends_with("counted") && !figure.what.starts_with("area"));
    if current.len() > 1 {
        for figure in &mut figures {
            if figure.interval.is_some() && figure.what.ends_with(" per mm") {
                over_photos(figure, pooled.per_mm);
            } else if figure.what == "mean diameter" {
                over_photos(figure, pooled.diameter_mm);
            }
        }
    }
    figures
}

/// A character in words; `unlike` is how vouchers stand that are not the same in it.
fn in_words(what: &str, said: Vec<String>, unlike: Standing) -> Character {
    let seen: BTreeSet<&String> = said.iter().filter(|said| !said.is_empty()).collect();
    let standing = if seen.len() > 1 {
        unlike
    } else {
        Standing::Alike
    };
    Character {
        what: what.to_owned(),
        said,
        standing,
    }
}

fn in_figures(what: &str, found: &[Option<&Figure>]) -> Character {
    let said = found
        .iter()
        .map(|figure| {
            figure.map_or_else(String::new, |figure| {
                let interval = figure.interval_said();
                if interval.is_empty() {
                    figure.said()
                } else {
                    format!("{} ({interval})", figure.said())
                }
            })
        })
        .collect();
    let seen: Vec<&Figure> = found.iter().flatten().copied().collect();
    Character {
        what: what.to_owned(),
        said,
        standing: standing(&seen),
    }
}

fn standing(seen: &[&Figure]) -> Standing {
    let values = || seen.iter().map(|figure| figure.value);
    let (low, high) = (
        values().fold(f64::INFINITY, f64::min),
        values().fold(f64::NEG_INFINITY, f64::max),
    );
    if seen.len() < 2 || high <= low {
        return Standing::Alike;
    }
    let ratio = if low > 0.0 { high / low } else { f64::INFINITY };
    let intervals: Option<Vec<(f64, f64)>> = seen.iter().map(|figure| figure.interval).collect();
    match intervals {
        None => Standing::Unsure(-ratio),
        Some(intervals) => {
            let highest_low = intervals.iter().map(|i| i.0).fold(f64::MIN, f64::max);
            let lowest_high = intervals.iter().map(|i| i.1).fold(f64::MAX, f64::min);
            if highest_low > lowest_high {
                Standing::Apart(-ratio)
            } else {
                Standing::Alike
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn figure(value: f64, half: Option<f64>) -> Figure {
        let mut figure = Figure::new("pores per mm", value, "");
        figure.interval = half.map(|half| (value - half, value + half));
        figure
    }

    fn of(figures: &[Figure]) -> Standing {
        standing(&figures.iter().collect::<Vec<_>>())
    }

    #[test]
    fn what_differs_surely_and_most_comes_first() {
        let twice = of(&[figure(2.0, Some(0.1)), figure(4.0, Some(0.1))]);
        let somewhat = of(&[figure(3.0, Some(0.1)), figure(4.0, Some(0.1))]);
        let unsure = of(&[figure(1.0, None), figure(9.0, None)]);
        let alike = of(&[figure(3.0, Some(1.0)), figure(4.0, Some(1.0))]);
        assert_eq!(alike, Standing::Alike);
        let mut order = [
            alike,
            unsure,
            Standing::Words,
            somewhat,
            twice,
            Standing::Kind,
        ];
        order.sort_by(|a, b| a.partial_cmp(b).expect("no NaN"));
        assert_eq!(
            order,
            [
                Standing::Kind,
                twice,
                somewhat,
                Standing::Words,
                unsure,
                alike
            ]
        );
    }

    #[test]
    fn one_voucher_that_stands_apart_is_enough() {
        let three = [
            figure(2.0, Some(0.1)),
            figure(2.05, Some(0.1)),
            figure(4.0, Some(0.1)),
        ];
        assert_eq!(of(&three), Standing::Apart(-2.0));
        assert_eq!(of(&three[..1]), Standing::Alike);
    }
}
