//! A book as one table for a spreadsheet, one row a voucher: UTF-8, commas, a header row (RFC 4180).
//!
//! First the columns of a Darwin Core occurrence under their terms, then those of the book that Darwin
//! Core has no terms for, then figures from the photos. Cells that a spreadsheet would carry out as
//! formulas bear an apostrophe in front ([`guarded`]).
//!
//! | column | meaning |
//! |---|---|
//! | `hostWood`, `substrate`, `decayStage`, `capZonation`, `hairiness`, `flexibility`, `undersideColour`, `smell`, `sporePrint` | as in the book |
//! | `capWidthCm` | width of the widest cap, cm |
//! | `surfaceType` | kind of underside on which most photos agree |
//! | `perMm`, `perMmLow`, `perMmHigh` | pores, teeth, gills or hollows per mm, all photos, with the 95 % interval |
//! | `poreDiameterMm`, `poreDiameterMmLow`, `poreDiameterMmHigh` | mean pore diameter, mm, likewise |
//! | `handbook` | the phrase a handbook would print, of each photo, parted by ` \| ` |
//! | `photoCount` | photos of it |

use super::darwin_core::{OCCURRENCE_TERMS, Places, occurrence_row, term_name};
use super::digits;
use crate::book::{BookCard, Voucher, VoucherFigures, guarded};
use crate::statistics::Pooled;

/// Columns after those of the occurrence.
const OWN: [&str; 19] = [
    "hostWood",
    "substrate",
    "decayStage",
    "capZonation",
    "hairiness",
    "flexibility",
    "undersideColour",
    "smell",
    "sporePrint",
    "capWidthCm",
    "surfaceType",
    "perMm",
    "perMmLow",
    "perMmHigh",
    "poreDiameterMm",
    "poreDiameterMmLow",
    "poreDiameterMmHigh",
    "handbook",
    "photoCount",
];
/// Digits of every measured figure.
const SIGNIFICANT_DIGITS: usize = 4;

/// The table, in the order given.
///
/// # Errors
/// When a row cannot be written to memory.
pub fn csv(card: &BookCard, vouchers: &[&Voucher], places: Places) -> Result<Vec<u8>, csv::Error> {
    let mut table = csv::Writer::from_writer(Vec::new());
    table.write_record(OCCURRENCE_TERMS.iter().map(|t| term_name(t)).chain(OWN))?;
    for voucher in vouchers {
        let row = occurrence_row(card, voucher, places).into_iter();
        table.write_record(row.chain(own(voucher)).map(|cell: String| guarded(&cell)))?;
    }
    table
        .into_inner()
        .map_err(|error| csv::Error::from(error.into_error()))
}

fn own(voucher: &Voucher) -> [String; OWN.len()] {
    let figures = VoucherFigures::of(voucher);
    let text = |text: &Option<String>| text.clone().unwrap_or_default();
    let [per_mm, per_mm_low, per_mm_high] = pooled(figures.per_mm);
    let [diameter, diameter_low, diameter_high] = pooled(figures.diameter_mm);
    let phrases: Vec<String> = (figures.photos.iter())
        .filter_map(|photo| photo.handbook.clone())
        .collect();
    [
        text(&voucher.host_wood),
        text(&voucher.substrate),
        text(&voucher.decay_stage),
        text(&voucher.cap_zonation),
        text(&voucher.hairiness),
        text(&voucher.flexibility),
        text(&voucher.underside_colour),
        text(&voucher.smell),
        text(&voucher.spore_print),
        voucher
            .cap_width_cm
            .map_or_else(String::new, |cm| cm.to_string()),
        figures
            .surface
            .map_or_else(String::new, |kind| kind.word().to_owned()),
        per_mm,
        per_mm_low,
        per_mm_high,
        diameter,
        diameter_low,
        diameter_high,
        phrases.join(" | "),
        voucher.photos.len().to_string(),
    ]
}

fn pooled(pooled: Option<Pooled>) -> [String; 3] {
    pooled.map_or_else(Default::default, |pooled| {
        let (low, high) = pooled.interval();
        [pooled.mean, low, high].map(|figure| {
            digits::rounded(figure, SIGNIFICANT_DIGITS)
                .map_or_else(String::new, |figure| figure.to_string())
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::{Attached, PhotoLink};
    use serde_json::json;

    #[test]
    fn a_voucher_is_a_row_and_no_cell_a_formula() {
        let card = BookCard::new("Alder Fen Foray Group", "{number}");
        let mut voucher = Voucher::new("AF-1");
        voucher.occurrence_remarks = Some("=HYPERLINK(\"x\")".to_owned());
        voucher.set("decimalLongitude", "-1.139").expect("set");
        let attached = Attached {
            findings: json!({
                "photo": {"sha256": "ab"},
                "surface": {"type": "poroid"},
                "pores": {"handbook": "(3–)4–5 per mm", "per_mm": {"value": 4.5, "low": 4.25, "high": 4.75}},
            }),
            ..Attached::default()
        };
        voucher.attach(
            PhotoLink {
                path: "photos/a.jpg".to_owned(),
                sha256: "ab".to_owned(),
                ..PhotoLink::default()
            },
            attached,
        );
        let bytes = csv(&card, &[&voucher], Places::AsRecorded).expect("a table");
        let mut reader = csv::Reader::from_reader(&bytes[..]);
        let header = reader.headers().expect("a header").clone();
        let row = reader.records().next().expect("a row").expect("a row");
        let cell = |name: &str| &row[header.iter().position(|h| h == name).expect(name)];
        assert_eq!(cell("occurrenceRemarks"), "'=HYPERLINK(\"x\")");
        assert_eq!(cell("decimalLongitude"), "-1.139");
        assert_eq!(
            (cell("perMm"), cell("perMmLow"), cell("perMmHigh")),
            ("4.5", "4.25", "4.75")
        );
        assert_eq!(
            (cell("handbook"), cell("surfaceType"), cell("photoCount")),
            ("(3–)4–5 per mm", "poroid", "1")
        );
    }

    #[test]
    fn every_column_is_explained() {
        let explanation = include_str!("book_csv.rs");
        for column in OWN {
            assert!(
                explanation
                    .lines()
                    .any(|line| line.starts_with("//! |") && line.contains(&format!("`{column}`"))),
                "{column} is not in the table of columns"
            );
        }
    }
}
