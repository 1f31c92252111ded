//! The table of published ranges: one row is what one source prints of one taxon.
//!
//! CSV, UTF-8, header row. Columns, all of which may be empty but the first and the one for the source:
//!
//! | column | meaning |
//! |---|---|
//! | `taxon` | accepted name |
//! | `name_in_source` | the name the source uses |
//! | `surface` | kinds of underside, blank-separated: `smooth`, `poroid`, `maze-like`, `gilled`, `toothed` |
//! | `per_mm_lowest`, `per_mm_low`, `per_mm_high`, `per_mm_highest` | pores per mm; the outer two are extremes printed in brackets |
//! | `width_mm_low`, `width_mm_high` | width of a pore, mm |
//! | `gills_per_mm_low`, `gills_per_mm_high` | gills per mm |
//! | `host` | `hardwood`, `conifer` or `both` |
//! | `host_rarely` | the other wood, where the source calls it rare |
//! | `host_genera` | genera of trees, blank-separated |
//! | `colour` | colour of the fresh underside, as printed |
//! | `cap_cm_low`, `cap_cm_high` | width of the cap, cm |
//! | `hymenophore`, `walls`, `size_as_printed`, `cap_as_printed`, `host_as_printed` | the source's statements that the columns above were read from |
//! | `source` | who says so |
//! | `seen` | where that was read, or `from memory` |

use super::character::Wood;
use super::hue::{Hue, hues};
use super::printed::Printed;
use crate::surface::SurfaceType;
use std::collections::{BTreeMap, BTreeSet};

/// Ranges shipped with the program.
const SHIPPED: &str = include_str!("../../assets/published-ranges.csv");

/// Kinds of underside that a table can name.
const SURFACES: [SurfaceType; 5] = [
    SurfaceType::Smooth,
    SurfaceType::Poroid,
    SurfaceType::MazeLike,
    SurfaceType::Gilled,
    SurfaceType::Toothed,
];

/// What one source prints of one taxon.
#[derive(Debug, Clone, PartialEq)]
pub struct Published {
    /// Accepted name.
    pub taxon: String,
    /// The name the source uses.
    pub name_in_source: String,
    /// Kinds of underside; none where the source does not say.
    pub surfaces: Vec<SurfaceType>,
    /// Pores per mm.
    pub pores_per_mm: Printed,
    /// Width of a pore, mm.
    pub pore_width_mm: Printed,
    /// Gills per mm.
    pub gills_per_mm: Printed,
    /// Woods it grows on, and whether the source calls that rare.
    pub woods: BTreeMap<Wood, bool>,
    /// Genera of trees that the source names.
    pub genera: Vec<String>,
    /// Colour as printed.
    pub colour: String,
    /// The families of that colour.
    pub hues: BTreeSet<Hue>,
    /// Width of the cap, cm.
    pub cap_width_cm: Printed,
    /// Kind of underside as printed.
    pub hymenophore: String,
    /// Who says so.
    pub source: String,
    /// Where that was read, or `from memory`.
    pub seen: String,
    /// Whether it stands in a table of one's own and not in the one that is part of the program.
    pub is_own: bool,
}

impl Published {
    /// Kind of underside as printed, or else as the table has it.
    #[must_use]
    pub fn underside(&self) -> String {
        if !self.hymenophore.is_empty() {
            return self.hymenophore.clone();
        }
        let kinds: Vec<&str> = self.surfaces.iter().map(|kind| kind.word()).collect();
        kinds.join(" or ")
    }

    /// Who says so, and that it is of one's own table where it is.
    #[must_use]
    pub fn said_by(&self) -> String {
        if self.is_own {
            format!("{}, in your own table", self.source)
        } else {
            self.source.clone()
        }
    }
}

/// Why a table cannot be read.
#[derive(Debug, thiserror::Error)]
pub enum RangesError {
    /// Not CSV.
    #[error(
        "the table of published ranges cannot be read as CSV: {0}. Save it as UTF-8 text with commas"
    )]
    NotCsv(#[from] csv::Error),
    /// A column that must be there is not.
    #[error(
        "the table of published ranges has no column “{0}”; its first row has to name the columns"
    )]
    NoColumn(&'static str),
    /// A cell that makes no sense.
    #[error(
        "row {row} of the table of published ranges: “{cell}” in column {column} is not {wanted}"
    )]
    Cell {
        /// Row of the file, the header being row 1.
        row: usize,
        /// Name of the column.
        column: &'static str,
        /// What stands there.
        cell: String,
        /// What should stand there.
        wanted: &'static str,
    },
}

/// All rows, the shipped ones first.
#[derive(Debug, Clone, PartialEq)]
pub struct Ranges {
    /// The rows in the order of the files.
    pub rows: Vec<Published>,
}

impl Ranges {
    /// The ranges shipped with the program.
    ///
    /// # Errors
    /// Never in a program whose tests passed.
    pub fn shipped() -> Result<Self, RangesError> {
        Self::read(SHIPPED.as_bytes())
    }

    /// Reads a table.
    ///
    /// # Errors
    /// [`RangesError`] with the row and the column.
    pub fn read(csv: &[u8]) -> Result<Self, RangesError> {
        let mut reader = csv::Reader::from_reader(csv);
        let columns: BTreeMap<String, usize> = reader
            .headers()?
            .iter()
            .enumerate()
            .map(|(i, name)| (name.trim_start_matches('\u{feff}').trim().to_owned(), i))
            .collect();
        for needed in ["taxon", "source"] {
            if !columns.contains_key(needed) {
                return Err(RangesError::NoColumn(needed));
            }
        }
        let mut rows = Vec::new();
        for (i, record) in reader.records().enumerate() {
            let record = record?;
            rows.push(
                Row {
                    columns: &columns,
                    record: &record,
                    number: i + 2,
                }
                .published()?,
            );
        }
        Ok(Self { rows })
    }

    /// These rows, and below them those of a table of one's own, marked as such.
    #[must_use]
    pub fn with_own(mut self, own: Self) -> Self {
        let own = own.rows.into_iter().map(|row| Published {
            is_own: true,
            ..row
        });
        self.rows.extend(own);
        self
    }

    /// Accepted names, in alphabetical order.
    #[must_use]
    pub fn taxa(&self) -> BTreeSet<&str> {
        self.rows.iter().map(|row| row.taxon.as_str()).collect()
    }

    /// What is printed of a taxon.
    pub fn of<'a>(&'a self, taxon: &'a str) -> impl Iterator<Item = &'a Published> {
        self.rows.iter().filter(move |row| row.taxon == taxon)
    }
}

/// A row while it is read.
struct Row<'a> {
    columns: &'a BTreeMap<String, usize>,
    record: &'a csv::StringRecord,
    number: usize,
}

impl Row<'_> {
    fn cell(&self, column: &str) -> &str {
        let at = self.columns.get(column).copied();
        at.and_then(|at| self.record.get(at)).unwrap_or("").trim()
    }

    fn wrong(&self, column: &'static str, wanted: &'static str) -> RangesError {
        RangesError::Cell {
            row: self.number,
            column,
            cell: self.cell(column).to_owned(),
            wanted,
        }
    }

    fn needed(&self, column: &'static str) -> Result<String, RangesError> {
        match self.cell(column) {
            "" => Err(self.wrong(column, "filled in, and it has to be")),
            text => Ok(text.to_owned()),
        }
    }

    fn number(&self, column: &'static str) -> Result<Option<f64>, RangesError> {
        match self.cell(column) {
            "" => Ok(None),
            text => match text.parse() {
                Ok(number) if f64::is_finite(number) && number >= 0.0 => Ok(Some(number)),
                _ => Err(self.wrong(column, "a number such as 4 or 0.5")),
            },
        }
    }

    /// Unit of the last digit printed in any of the cells.
    fn step(&self, columns: &[&'static str]) -> f64 {
        let decimals = columns
            .iter()
            .filter_map(|column| self.cell(column).split_once('.'))
            .map(|(_, decimals)| decimals.len())
            .max();
        decimals.map_or(1.0, |n| 0.1_f64.powi(i32::try_from(n).unwrap_or(i32::MAX)))
    }

    fn range(&self, [low, high]: [&'static str; 2]) -> Result<Printed, RangesError> {
        self.ordered(
            Printed {
                low: self.number(low)?,
                high: self.number(high)?,
                step: self.step(&[low, high]),
                ..Printed::default()
            },
            high,
        )
    }

    fn ordered(&self, range: Printed, last: &'static str) -> Result<Printed, RangesError> {
        let printed = [range.lowest, range.low, range.high, range.highest];
        let given: Vec<f64> = printed.into_iter().flatten().collect();
        if given.is_sorted() {
            Ok(range)
        } else {
            Err(self.wrong(last, "at least what stands before it"))
        }
    }

    fn woods(&self) -> Result<BTreeMap<Wood, bool>, RangesError> {
        let mut woods = BTreeMap::new();
        for (column, is_rare) in [("host_rarely", true), ("host", false)] {
            match self.cell(column) {
                "" => {}
                "both" => {
                    woods.extend([Wood::Hardwood, Wood::Conifer].map(|wood| (wood, is_rare)));
                }
                word => {
                    let wood = Wood::from_word(word)
                        .ok_or_else(|| self.wrong(column, "hardwood, conifer or both"))?;
                    woods.insert(wood, is_rare);
                }
            }
        }
        Ok(woods)
    }

    fn published(&self) -> Result<Published, RangesError> {
        let surface = |word: &str| SURFACES.into_iter().find(|kind| kind.word() == word);
        let surfaces: Option<Vec<SurfaceType>> = self
            .cell("surface")
            .split_whitespace()
            .map(surface)
            .collect();
        let per_mm = [
            "per_mm_lowest",
            "per_mm_low",
            "per_mm_high",
            "per_mm_highest",
        ];
        let pores_per_mm = Printed {
            lowest: self.number(per_mm[0])?,
            low: self.number(per_mm[1])?,
            high: self.number(per_mm[2])?,
            highest: self.number(per_mm[3])?,
            step: self.step(&per_mm),
        };
        let colour = self.cell("colour").to_owned();
        Ok(Published {
            taxon: self.needed("taxon")?,
            name_in_source: self.cell("name_in_source").to_owned(),
            surfaces: surfaces.ok_or_else(|| {
                self.wrong(
                    "surface",
                    "one or more of smooth, poroid, maze-like, gilled, toothed",
                )
            })?,
            pores_per_mm: self.ordered(pores_per_mm, per_mm[3])?,
            pore_width_mm: self.range(["width_mm_low", "width_mm_high"])?,
            gills_per_mm: self.range(["gills_per_mm_low", "gills_per_mm_high"])?,
            woods: self.woods()?,
            genera: self
                .cell("host_genera")
                .split_whitespace()
                .map(str::to_owned)
                .collect(),
            hues: hues(&colour),
            colour,
            cap_width_cm: self.range(["cap_cm_low", "cap_cm_high"])?,
            hymenophore: self.cell("hymenophore").to_owned(),
            source: self.needed("source")?,
            seen: self.cell("seen").to_owned(),
            is_own: false,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_shipped_table_is_read_and_every_row_has_a_source() {
        let ranges = Ranges::shipped().expect("the shipped table");
        assert_eq!(ranges.rows.len(), 93);
        for row in &ranges.rows {
            assert!(
                !row.source.is_empty() && !row.seen.is_empty(),
                "{}",
                row.taxon
            );
            assert!(!row.surfaces.is_empty(), "{}", row.taxon);
        }
    }

    #[test]
    fn a_row_is_what_its_source_prints() {
        // Chang, BCRC Fungi of Taiwan: Trametes hirsuta (2–)3–4 per mm.
        let ranges = Ranges::shipped().expect("the shipped table");
        let row = ranges.of("Trametes hirsuta").next().expect("a row");
        assert_eq!(row.pores_per_mm.to_string(), "(2–)3–4");
        // Peintner et al. 2019: Fomes inzengae, 32–40 pores per cm.
        let row = ranges.of("Fomes inzengae").next().expect("a row");
        assert_eq!(row.pores_per_mm.usual(), (3.2 - 0.05, 4.0 + 0.05));
        assert_eq!(row.genera, ["Quercus", "Populus"]);
    }

    #[test]
    fn a_row_of_ones_own_says_so() {
        let own = Ranges::read(b"taxon,source,surface\nNova species,A. N. Other,poroid toothed\n");
        let ranges = Ranges::shipped().expect("the shipped table");
        let ranges = ranges.with_own(own.expect("a table"));
        let row = ranges.of("Nova species").next().expect("a row");
        assert_eq!(row.said_by(), "A. N. Other, in your own table");
        assert_eq!(row.underside(), "poroid or toothed");
        let shipped = ranges.of("Trametes hirsuta").next().expect("a row");
        assert_eq!(shipped.said_by(), shipped.source);
    }

    #[test]
    fn what_makes_no_sense_is_refused_with_its_place() {
        for (csv, says) in [
            ("source\nme\n", "no column “taxon”"),
            ("taxon,source\n,me\n", "row 2"),
            (
                "taxon,source,per_mm_low\nA b,me,four\n",
                "“four” in column per_mm_low",
            ),
            (
                "taxon,source,per_mm_low,per_mm_high\nA b,me,5,4\n",
                "at least what stands before",
            ),
            (
                "taxon,source,host\nA b,me,oak\n",
                "hardwood, conifer or both",
            ),
            ("taxon,source,surface\nA b,me,bumpy\n", "bumpy"),
            ("taxon,source,per_mm_low\nA b,me,NaN\n", "NaN"),
            ("taxon,source\nA b\n", "CSV"),
        ] {
            let error = Ranges::read(csv.as_bytes()).expect_err(csv).to_string();
            assert!(error.contains(says), "{csv}: {error}");
        }
    }
}
