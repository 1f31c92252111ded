//! How often each taxon was met, as CSV for a spreadsheet: one row a taxon, UTF-8, commas (RFC 4180).
//!
//! | column | meaning |
//! |---|---|
//! | `scientificName` | the name on the checklists |
//! | `walks` | walks on which it was recorded |
//! | `ofWalks` | all walks |
//! | `share` | their ratio, 0–1 |
//! | `shareLow`, `shareHigh` | Wilson's 95 % interval of the share |
//! | `firstDate`, `lastDate` | first and last walk on which it was recorded |
//! | `jan` … `dec` | walks on which it was recorded, by month |

use crate::book::{Frequency, guarded};

/// Names of the columns, in order.
pub const COLUMNS: [&str; 20] = [
    "scientificName",
    "walks",
    "ofWalks",
    "share",
    "shareLow",
    "shareHigh",
    "firstDate",
    "lastDate",
    "jan",
    "feb",
    "mar",
    "apr",
    "may",
    "jun",
    "jul",
    "aug",
    "sep",
    "oct",
    "nov",
    "dec",
];

/// The table, in the order given.
///
/// # Errors
/// When a row cannot be written to memory.
pub fn csv(frequencies: &[Frequency]) -> Result<Vec<u8>, csv::Error> {
    let mut table = csv::Writer::from_writer(Vec::new());
    table.write_record(COLUMNS)?;
    for one in frequencies {
        let share = |share: f64| format!("{share:.3}");
        let mut row = vec![
            guarded(&one.taxon),
            one.walks.to_string(),
            one.of.to_string(),
            share(one.share),
            share(one.interval.0),
            share(one.interval.1),
            guarded(&one.first),
            guarded(&one.last),
        ];
        row.extend(one.by_month.iter().map(usize::to_string));
        table.write_record(row)?;
    }
    table
        .into_inner()
        .map_err(|error| csv::Error::from(error.into_error()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::{Foray, Sighting, frequencies};

    #[test]
    fn a_taxon_is_a_row() {
        let walk = |date: &str, name: &str| Foray {
            checklist: vec![Sighting {
                scientific_name: name.to_owned(),
                ..Sighting::default()
            }],
            ..Foray::new(date, "Alder Fen")
        };
        let walks = [
            walk("2026-09-12", "Trametes versicolor"),
            walk("2026-10-03", "=cmd"),
        ];
        let bytes = csv(&frequencies(&walks)).expect("a table");
        let rows: Vec<csv::StringRecord> = csv::Reader::from_reader(&bytes[..])
            .records()
            .map(|row| row.expect("a row"))
            .collect();
        assert_eq!(&rows[0][0], "'=cmd");
        assert_eq!(&rows[1][0], "Trametes versicolor");
        // 1 of 2; Wilson 1927 gives 0.0945 to 0.9055 (scipy.stats.binomtest(1, 2).proportion_ci(method="wilson")).
        assert_eq!(
            rows[1].iter().skip(1).take(5).collect::<Vec<_>>(),
            ["1", "2", "0.500", "0.095", "0.905"]
        );
        assert_eq!(&rows[1][16], "1");
        assert_eq!(rows[1].len(), COLUMNS.len());
    }
}
