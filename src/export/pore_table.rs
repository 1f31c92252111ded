//! The table of pores (or teeth) as CSV, one row a region, for a spreadsheet or a statistics program.
//!
//! UTF-8, comma-separated, decimal points, a header row (RFC 4180). All cells are numbers or
//! `true`/`false`; a figure that could not be had is an empty cell. Sizes of regions that are not
//! `whole` are those of the part that was seen: leave them out of a mean.
//!
//! | column | unit | definition |
//! |---|---|---|
//! | `number` | – | running number in reading order, from 1 |
//! | `x_px`, `y_px` | px | centroid on the upright photo, x to the right, y down, from the photo's top left corner |
//! | `area_mm2` | mm² | area inside the outline at half depth, blur taken out |
//! | `diameter_mm` | mm | diameter of the circle of the same area, √(4a/π); ISO 9276-6 x<sub>A</sub>, *area equivalent diameter* |
//! | `feret_min_mm` | mm | smallest distance between two parallel tangents; ISO 9276-6 x<sub>Fmin</sub> |
//! | `feret_max_mm` | mm | largest distance between two parallel tangents; ISO 9276-6 x<sub>Fmax</sub> |
//! | `elongation` | – | longer over shorter axis of the ellipse of the same second moments, ≥ 1; the inverse of ISO 9276-6 *ellipse ratio* |
//! | `angle_deg` | ° | direction of that ellipse's longer axis against the photo's x axis, clockwise as seen, in (−90, 90] |
//! | `circularity` | – | √(4πa/p²), p = length of the outline; ISO 9276-6 *circularity* |
//! | `solidity` | – | area over area of the convex hull; ISO 9276-6 *solidity* |
//! | `whole` | – | all of it was seen, so that its size is known |
//! | `counted` | – | it is in the count: its centroid lies in the counting area, and it is not far too large for a pore |
//! | `by_hand` | – | a person shaped it: joined, split, added or drew it |

use super::digits;
use super::parquet_table::Kind;
use crate::pores::Pore;
use crate::scale::Scale;
use crate::units::{Millimetres, Pixels};

/// Names of the columns, in order.
pub const COLUMNS: [&str; 14] = [
    "number",
    "x_px",
    "y_px",
    "area_mm2",
    "diameter_mm",
    "feret_min_mm",
    "feret_max_mm",
    "elongation",
    "angle_deg",
    "circularity",
    "solidity",
    "whole",
    "counted",
    "by_hand",
];

/// What the cells of each column hold, for tables that keep kinds apart.
pub const KINDS: [Kind; COLUMNS.len()] = {
    use Kind::{Number, Truth, Whole};
    [
        Whole, Number, Number, Number, Number, Number, Number, Number, Number, Number, Number,
        Truth, Truth, Truth,
    ]
};

/// Digits of every measured figure.
const SIGNIFICANT_DIGITS: usize = 6;

/// The table of the regions, in the order given.
///
/// # Errors
/// When a row cannot be written to memory.
pub fn csv(regions: &[Pore], scale: &Scale) -> Result<Vec<u8>, csv::Error> {
    let mut table = csv::Writer::from_writer(Vec::new());
    table.write_record(COLUMNS)?;
    for (number, region) in (1..).zip(regions) {
        table.write_record(row(number, region, scale))?;
    }
    table
        .into_inner()
        .map_err(|error| csv::Error::from(error.into_error()))
}

fn row(number: usize, region: &Pore, scale: &Scale) -> [String; COLUMNS.len()] {
    let mm = |length: Pixels| {
        let Millimetres(length) = scale.millimetres(length);
        figure(length)
    };
    [
        number.to_string(),
        figure(region.centroid().x),
        figure(region.centroid().y),
        figure(scale.square_millimetres(region.moments.area)),
        mm(region.diameter()),
        mm(Pixels(region.feret.min)),
        mm(Pixels(region.feret.max)),
        figure(region.elongation()),
        figure(region.ellipse.angle.to_degrees()),
        figure(region.circularity()),
        figure(region.solidity),
        region.whole.to_string(),
        region.counted.to_string(),
        region.by_hand.to_string(),
    ]
}

fn figure(value: f64) -> String {
    digits::rounded(value, SIGNIFICANT_DIGITS).map_or_else(String::new, |value| value.to_string())
}

#[cfg(test)]
mod tests {
    use super::super::sample;
    use super::*;
    use crate::geometry::Point;

    fn read(bytes: &[u8]) -> Vec<Vec<String>> {
        csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(bytes)
            .records()
            .map(|row| row.expect("a row").iter().map(str::to_owned).collect())
            .collect()
    }

    #[test]
    fn a_round_pore_is_measured_in_millimetres() {
        let regions = [
            sample::round_pore(Point::new(40.0, 30.5), 20.0, true),
            sample::round_pore(Point::new(5.0, 7.0), 30.0, false),
        ];
        let scale = Scale::given(100.0).expect("a scale");
        let rows = read(&csv(&regions, &scale).expect("a table"));
        assert_eq!(rows.len(), 3);
        assert_eq!(rows[0], COLUMNS);
        let figure = |column: &str| -> f64 {
            let at = COLUMNS
                .iter()
                .position(|name| *name == column)
                .expect(column);
            rows[1][at].parse().expect(column)
        };
        // A 90-cornered polygon in a circle of 0.2 mm.
        for (column, expected, tolerance) in [
            ("number", 1.0, 0.0),
            ("x_px", 40.0, 1e-4),
            ("y_px", 30.5, 1e-4),
            ("area_mm2", 0.031_416, 3e-5),
            ("diameter_mm", 0.2, 2e-4),
            ("feret_min_mm", 0.2, 2e-4),
            ("feret_max_mm", 0.2, 2e-4),
            ("elongation", 1.0, 1e-4),
            ("circularity", 1.0, 1e-3),
            ("solidity", 1.0, 1e-9),
        ] {
            assert!(
                (figure(column) - expected).abs() <= tolerance,
                "{column}: {}",
                figure(column)
            );
        }
        assert_eq!(rows[1][11..], ["true", "true", "false"]);
        assert_eq!(rows[2][0], "2");
        assert_eq!(rows[2][11..], ["false", "false", "false"]);
    }

    #[test]
    fn a_figure_that_cannot_be_had_is_an_empty_cell() {
        let mut region = sample::round_pore(Point::new(40.0, 30.0), 20.0, true);
        region.perimeter = 0.0;
        let rows = read(&csv(&[region], &Scale::given(100.0).expect("a scale")).expect("a table"));
        assert_eq!(rows[1][9], "");
    }

    #[test]
    fn every_column_is_explained() {
        let explanation = include_str!("pore_table.rs");
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
