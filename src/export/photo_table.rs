//! Findings on many photos as one CSV table, one row a photo, for a spreadsheet or a statistics program.
//!
//! UTF-8, comma-separated, decimal points, a header row (RFC 4180). A figure that could not be had is an
//! empty cell. Cells that a spreadsheet would carry out as formulas bear an apostrophe in front
//! ([`guarded`]).
//!
//! | column | unit | meaning |
//! |---|---|---|
//! | `photo` | – | its name |
//! | `voucher` | – | catalogue number of the voucher it belongs to |
//! | `taken` | – | when it was taken, ISO 8601 |
//! | `surface` | – | kind of underside |
//! | `surface_confidence` | – | how sure that is, 0–1 |
//! | `counted` | – | pores or teeth that were counted |
//! | `per_mm`, `per_mm_low`, `per_mm_high` | 1/mm | pores, teeth, gills or hollows per mm, with the 95 % interval |
//! | `handbook` | – | the phrase a handbook would print |
//! | `diameter_mm`, `diameter_mm_low`, `diameter_mm_high` | mm | mean diameter of pores or teeth, with the 95 % interval |
//! | `elongation` | – | median elongation |
//! | `wall_mm` | mm | median thickness of walls |
//! | `void_fraction` | – | share of the area that is hollow |
//! | `area_mm2` | mm² | measured area |
//! | `px_per_mm`, `px_per_mm_uncertainty` | px/mm | the scale, with its standard uncertainty |
//! | `scale_how` | – | how the scale was obtained |
//! | `blur_px` | px | standard deviation of the blur over the outlines |
//! | `notes` | – | codes of the notes, the gravest first, parted by blanks |
//! | `remarks` | – | codes of what stands out among the photos, parted by blanks |
//! | `same_as` | – | another photo with the same bytes, which stands for both in pooled figures |
//! | `sha256` | – | SHA-256 of the photo's file |
//! | `width_px`, `height_px` | px | size of the upright photo |

use super::digits;
use super::parquet_table::Kind;
use crate::book::guarded;
use serde_json::Value;

/// Names of the columns, in order.
pub const COLUMNS: [&str; 27] = [
    "photo",
    "voucher",
    "taken",
    "surface",
    "surface_confidence",
    "counted",
    "per_mm",
    "per_mm_low",
    "per_mm_high",
    "handbook",
    "diameter_mm",
    "diameter_mm_low",
    "diameter_mm_high",
    "elongation",
    "wall_mm",
    "void_fraction",
    "area_mm2",
    "px_per_mm",
    "px_per_mm_uncertainty",
    "scale_how",
    "blur_px",
    "notes",
    "remarks",
    "same_as",
    "sha256",
    "width_px",
    "height_px",
];

/// A photo's row before it is set: its findings, and what is known of it beside them.
#[derive(Debug, Clone, Copy)]
pub struct PhotoRow<'a> {
    /// Its name.
    pub name: &'a str,
    /// Catalogue number of its voucher.
    pub voucher: Option<&'a str>,
    /// A `poreline-findings/1` object.
    pub findings: &'a Value,
    /// Standard deviation of the blur over the outlines, px.
    pub blur_px: Option<f64>,
    /// Codes of what stands out.
    pub remarks: &'a [&'a str],
    /// Another photo with the same bytes.
    pub same_as: Option<&'a str>,
}

/// Figures per mm and mean diameters are called differently on different surfaces.
const THINGS: [&str; 4] = ["pores", "teeth", "gills", "maze"];

/// What the cells of each column hold, for tables that keep kinds apart.
pub const KINDS: [Kind; COLUMNS.len()] = {
    use Kind::{Number, Text, Whole};
    [
        Text, Text, Text, Text, Number, Whole, Number, Number, Number, Text, Number, Number,
        Number, Number, Number, Number, Number, Number, Number, Text, Number, Text, Text, Text,
        Text, Whole, Whole,
    ]
};

/// A row under [`COLUMNS`], for a spreadsheet.
#[must_use]
pub fn row(photo: &PhotoRow<'_>) -> [String; COLUMNS.len()] {
    cells(photo).map(|cell| guarded(&cell))
}

/// A row under [`COLUMNS`], text as it is.
#[must_use]
pub fn cells(photo: &PhotoRow<'_>) -> [String; COLUMNS.len()] {
    let at = |pointer: &str| cell(photo.findings.pointer(pointer));
    let of_things = |pointer: &str| {
        THINGS
            .iter()
            .find_map(|things| photo.findings.pointer(&format!("/{things}/{pointer}")))
            .map_or_else(String::new, |value| cell(Some(value)))
    };
    let notes = photo.findings["notes"].as_array();
    let codes: Vec<&str> = notes
        .into_iter()
        .flatten()
        .filter_map(|note| note["code"].as_str())
        .collect();
    [
        photo.name.to_owned(),
        photo.voucher.unwrap_or_default().to_owned(),
        at("/photo/taken"),
        at("/surface/type"),
        at("/surface/confidence"),
        of_things("count"),
        of_things("per_mm/value"),
        of_things("per_mm/low"),
        of_things("per_mm/high"),
        at("/pores/handbook"),
        of_things("diameter_mm/mean"),
        of_things("diameter_mm/low"),
        of_things("diameter_mm/high"),
        of_things("elongation/median"),
        at("/pores/wall_mm/median"),
        at("/pores/void_fraction"),
        at("/area/mm2"),
        at("/scale/px_per_mm"),
        at("/scale/standard_uncertainty"),
        at("/scale/how"),
        photo
            .blur_px
            .and_then(|px| digits::rounded(px, 4))
            .map_or_else(String::new, |px| px.to_string()),
        codes.join(" "),
        photo.remarks.join(" "),
        photo.same_as.unwrap_or_default().to_owned(),
        at("/photo/sha256"),
        at("/photo/width_px"),
        at("/photo/height_px"),
    ]
}

/// The head of the table, or a row, as a line of CSV.
///
/// # Errors
/// When it cannot be written to memory.
pub fn line<T: AsRef<[u8]>>(cells: impl IntoIterator<Item = T>) -> Result<Vec<u8>, csv::Error> {
    let mut table = csv::Writer::from_writer(Vec::new());
    table.write_record(cells)?;
    table
        .into_inner()
        .map_err(|error| csv::Error::from(error.into_error()))
}

fn cell(value: Option<&Value>) -> String {
    match value {
        None | Some(Value::Null) => String::new(),
        Some(Value::String(text)) => text.clone(),
        Some(value) => value.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn findings_are_set_under_their_columns() {
        let findings = json!({
            "photo": {"sha256": "ab", "taken": null, "width_px": 640, "height_px": 480},
            "scale": {"px_per_mm": 80.0, "standard_uncertainty": 0.4, "how": "given"},
            "area": {"mm2": 12.5},
            "surface": {"type": "toothed", "confidence": 0.9},
            "pores": null,
            "teeth": {"count": 41, "per_mm": {"value": 2.1, "low": 2.0, "high": 2.2}},
            "notes": [{"code": "few-pores"}, {"code": "blurred"}],
        });
        let row = row(&PhotoRow {
            name: "=walk/a.jpg",
            voucher: Some("AF-1"),
            findings: &findings,
            blur_px: None,
            remarks: &["less-sharp"],
            same_as: None,
        });
        let under = |column: &str| {
            let at = COLUMNS.iter().position(|name| *name == column);
            row[at.expect(column)].as_str()
        };
        assert_eq!(under("photo"), "'=walk/a.jpg");
        assert_eq!(under("surface"), "toothed");
        assert_eq!((under("counted"), under("per_mm")), ("41", "2.1"));
        assert_eq!(under("notes"), "few-pores blurred");
        assert_eq!(under("remarks"), "less-sharp");
        for empty in ["taken", "handbook", "diameter_mm", "blur_px", "same_as"] {
            assert_eq!(under(empty), "", "{empty}");
        }
    }

    #[test]
    fn every_column_is_explained() {
        let explanation = include_str!("photo_table.rs");
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
