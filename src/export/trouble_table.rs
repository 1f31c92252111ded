//! What could not be measured as a CSV table, one row a file or folder: UTF-8, commas, a header row
//! (RFC 4180). Cells that a spreadsheet would carry out as formulas bear an apostrophe in front.
//!
//! | column | meaning |
//! |---|---|
//! | `photo` | its name, or the folder's |
//! | `kind` | `photo` for what failed; `no photo` for files that nobody took for one, which are left alone |
//! | `cause` | what happened |
//! | `remedy` | what to do |

use crate::book::guarded;

/// Names of the columns, in order.
pub const COLUMNS: [&str; 4] = ["photo", "kind", "cause", "remedy"];

/// What could not be measured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Name of the file or folder.
    pub name: String,
    /// Whether somebody took it for a photo.
    pub is_photo: bool,
    /// What happened.
    pub cause: String,
    /// What to do.
    pub remedy: String,
}

/// The table, in the order given.
///
/// # Errors
/// When a row cannot be written to memory.
pub fn csv(rows: &[Row]) -> Result<Vec<u8>, csv::Error> {
    let mut table = csv::Writer::from_writer(Vec::new());
    table.write_record(COLUMNS)?;
    for row in rows {
        let kind = if row.is_photo { "photo" } else { "no photo" };
        let cells = [&row.name, kind, &row.cause, &row.remedy];
        table.write_record(cells.map(guarded))?;
    }
    table
        .into_inner()
        .map_err(|error| csv::Error::from(error.into_error()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_with_commas_and_formulas_stays_one_cell() {
        let row = Row {
            name: "=1,\"2\".jpg".to_owned(),
            is_photo: true,
            cause: "the file is empty".to_owned(),
            remedy: "copy it again from the card".to_owned(),
        };
        let bytes = csv(std::slice::from_ref(&row)).expect("a table");
        let mut reader = csv::Reader::from_reader(&bytes[..]);
        let read = reader.records().next().expect("a row").expect("a row");
        assert_eq!(&read[0], "'=1,\"2\".jpg");
        assert_eq!(&read[3], row.remedy);
    }
}
