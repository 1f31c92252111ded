//! Figures pooled over the photos of each voucher as a CSV table, one row a voucher: UTF-8, commas, a
//! header row (RFC 4180). Cells that a spreadsheet would carry out as formulas bear an apostrophe in
//! front.
//!
//! | column | unit | meaning |
//! |---|---|---|
//! | `voucher` | – | catalogue number |
//! | `photos` | – | photos of it that were measured, each counted once |
//! | `surface` | – | kind of underside on which most of them agree |
//! | `surfaces_differ` | – | whether they do not all agree |
//! | `pooled` | – | photos in the pooled figure per mm |
//! | `per_mm`, `per_mm_low`, `per_mm_high` | 1/mm | pores, teeth, gills or hollows per mm, pooled as random effects (DerSimonian & Laird 1986), with the 95 % interval |
//! | `per_mm_between_photos` | 1/mm² | variance between photos beyond what their own errors explain, τ² |
//! | `diameter_mm`, `diameter_mm_low`, `diameter_mm_high` | mm | mean pore diameter, pooled likewise |
//! | `diameter_between_photos` | mm² | variance between photos, τ² |

use super::digits;
use crate::book::{VoucherFigures, guarded};
use crate::statistics::Pooled;

/// Names of the columns, in order.
pub const COLUMNS: [&str; 13] = [
    "voucher",
    "photos",
    "surface",
    "surfaces_differ",
    "pooled",
    "per_mm",
    "per_mm_low",
    "per_mm_high",
    "per_mm_between_photos",
    "diameter_mm",
    "diameter_mm_low",
    "diameter_mm_high",
    "diameter_between_photos",
];
/// Digits of every figure.
const SIGNIFICANT_DIGITS: usize = 6;

/// The table of vouchers by their catalogue numbers, in the order given.
///
/// # Errors
/// When a row cannot be written to memory.
pub fn csv<'a>(
    vouchers: impl IntoIterator<Item = (&'a str, &'a VoucherFigures)>,
) -> Result<Vec<u8>, csv::Error> {
    let mut table = csv::Writer::from_writer(Vec::new());
    table.write_record(COLUMNS)?;
    for (number, figures) in vouchers {
        table.write_record(row(number, figures).map(|cell| guarded(&cell)))?;
    }
    table
        .into_inner()
        .map_err(|error| csv::Error::from(error.into_error()))
}

fn row(number: &str, figures: &VoucherFigures) -> [String; COLUMNS.len()] {
    let [per_mm, low, high, between] = pooled(figures.per_mm);
    let [diameter, diameter_low, diameter_high, diameter_between] = pooled(figures.diameter_mm);
    [
        number.to_owned(),
        figures.photos.len().to_string(),
        (figures.surface).map_or_else(String::new, |kind| kind.word().to_owned()),
        figures.is_mixed.to_string(),
        figures.per_mm.map_or(0, |pooled| pooled.photos).to_string(),
        per_mm,
        low,
        high,
        between,
        diameter,
        diameter_low,
        diameter_high,
        diameter_between,
    ]
}

fn pooled(figure: Option<Pooled>) -> [String; 4] {
    let Some(figure) = figure else {
        return Default::default();
    };
    let (low, high) = figure.interval();
    [figure.mean, low, high, figure.between_sd.powi(2)].map(|value| {
        digits::rounded(value, SIGNIFICANT_DIGITS)
            .map_or_else(String::new, |value| value.to_string())
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::statistics::pool;
    use crate::surface::SurfaceType;

    #[test]
    fn a_voucher_is_a_row_with_its_pooled_figure() {
        let figures = VoucherFigures {
            photos: Vec::new(),
            surface: Some(SurfaceType::Poroid),
            is_mixed: false,
            per_mm: pool(&[(3.0, 0.1), (4.0, 0.1), (5.0, 0.1)]),
            diameter_mm: None,
        };
        let bytes = csv([("AF-1", &figures)]).expect("a table");
        let text = String::from_utf8(bytes).expect("UTF-8");
        // Equal errors: τ² is the variance between photos less their own, 1 − 0.01; the error of the
        // mean √(1/3), its interval 1.96 times as far.
        let last = text.lines().last().expect("a row");
        assert_eq!(last, "AF-1,0,poroid,false,3,4,2.86841,5.13159,0.99,,,,");
    }

    #[test]
    fn every_column_is_explained() {
        let explanation = include_str!("voucher_table.rs");
        for column in COLUMNS {
            assert!(
                explanation
                    .lines()
                    .any(|line| line.starts_with("//! |") && line.contains(&format!("`{column}`"))),
                "{column} is not in the table of columns"
            );
        }
    }
}
