//! Which voucher a photo belongs to: told by its file's name, or by a table.

use regex::Regex;
use std::collections::BTreeMap;
use std::path::Path;

/// Where the catalogue number stands in a pattern.
const VOUCHER: &str = "{voucher}";
/// What the columns of a table are called.
const TABLE_COLUMNS: [&str; 2] = ["photo", "catalogNumber"];

/// How photos are assigned to vouchers.
#[derive(Debug, Clone)]
pub enum Grouping {
    /// By a pattern of names.
    Pattern {
        /// Finds the number.
        finds: Regex,
        /// Whether folders are part of the pattern.
        with_folders: bool,
    },
    /// By a table: names of photos, and catalogue numbers.
    Table(BTreeMap<String, String>),
}

/// Why photos cannot be assigned so.
#[derive(Debug, thiserror::Error)]
pub enum GroupingError {
    /// A pattern that says nothing of the number.
    #[error(
        "“{0}” is no pattern of names: write {{voucher}} just once, where the catalogue number stands, and * \
         for whatever else may follow, such as \"{{voucher}}_*\""
    )]
    Pattern(String),
    /// A table without the columns.
    #[error(
        "{0} has no columns photo and catalogNumber; give the table these two heads, and save it as CSV"
    )]
    NoColumns(String),
    /// A photo in two places.
    #[error("{path} assigns {photo} to two vouchers, {first} and {second}; keep one of the rows")]
    Twice {
        /// The table.
        path: String,
        /// The photo.
        photo: String,
        /// One number.
        first: String,
        /// The other.
        second: String,
    },
    /// A table that is none.
    #[error("{path} cannot be read as a table: {error}. Save it as CSV, UTF-8, with commas")]
    Table {
        /// The table.
        path: String,
        /// What is wrong.
        error: csv::Error,
    },
}

impl Grouping {
    /// A pattern such as `{voucher}_*`: `{voucher}` is the catalogue number, as short as can be, `*` is
    /// anything or nothing. It is held against the whole name without its ending; where it has a `/`,
    /// against the path from the folder on, so that `{voucher}/*` takes folders for vouchers.
    ///
    /// # Errors
    /// [`GroupingError::Pattern`].
    pub fn pattern(typed: &str) -> Result<Self, GroupingError> {
        let none = || GroupingError::Pattern(typed.to_owned());
        let (before, after) = typed.split_once(VOUCHER).ok_or_else(none)?;
        if after.contains(VOUCHER) {
            return Err(none());
        }
        let literal = |text: &str| regex::escape(text).replace("\\*", ".*");
        let finds = format!("(?s)^{}([^/]+?){}$", literal(before), literal(after));
        Ok(Self::Pattern {
            finds: Regex::new(&finds).map_err(|_| none())?,
            with_folders: typed.contains('/'),
        })
    }

    /// A CSV table with the columns `photo` (names as in the results, or file names alone) and
    /// `catalogNumber`; others may be there too.
    ///
    /// # Errors
    /// [`GroupingError`] where it is no such table.
    pub fn table(path: &Path) -> Result<Self, GroupingError> {
        let named = path.display().to_string();
        let unread = |error| GroupingError::Table {
            path: named.clone(),
            error,
        };
        let mut reader = csv::ReaderBuilder::new()
            .trim(csv::Trim::All)
            .from_path(path)
            .map_err(unread)?;
        let heads = reader.headers().map_err(unread)?.clone();
        let column = |wanted: &str| {
            heads
                .iter()
                .position(|head| head.trim_start_matches('\u{feff}') == wanted)
                .ok_or_else(|| GroupingError::NoColumns(named.clone()))
        };
        let [photo, number] = [column(TABLE_COLUMNS[0])?, column(TABLE_COLUMNS[1])?];
        let mut table: BTreeMap<String, String> = BTreeMap::new();
        for row in reader.records() {
            let row = row.map_err(unread)?;
            let [Some(photo), Some(number)] = [row.get(photo), row.get(number)] else {
                continue;
            };
            if photo.is_empty() || number.is_empty() {
                continue;
            }
            if let Some(first) = table.insert(photo.to_owned(), number.to_owned())
                && first != number
            {
                return Err(GroupingError::Twice {
                    path: named,
                    photo: photo.to_owned(),
                    first,
                    second: number.to_owned(),
                });
            }
        }
        Ok(Self::Table(table))
    }

    /// Catalogue number of the voucher that a photo belongs to, where the name tells.
    #[must_use]
    pub fn voucher(&self, name: &str) -> Option<String> {
        let file = name.rsplit('/').next().unwrap_or(name);
        match self {
            Self::Pattern {
                finds,
                with_folders,
            } => {
                let whole = if *with_folders { name } else { file };
                let held = match whole.rsplit_once('.') {
                    Some((before, ending)) if !ending.contains('/') && !before.is_empty() => before,
                    _ => whole,
                };
                Some(finds.captures(held)?.get(1)?.as_str().trim().to_owned())
            }
            Self::Table(table) => table.get(name).or_else(|| table.get(file)).cloned(),
        }
        .filter(|number| !number.is_empty())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    #[test]
    fn names_tell_the_voucher() {
        for (pattern, name, voucher) in [
            ("{voucher}_*", "AF-2026-0001_a.jpg", Some("AF-2026-0001")),
            ("{voucher}_*", "stand/AF-1_b_2.JPG", Some("AF-1")),
            ("{voucher}", "AF-1.jpg", Some("AF-1")),
            ("{voucher}_*", "IMG1234.jpg", None),
            ("IMG * {voucher}-?", "IMG 7 AF.1-?.tif", Some("AF.1")),
            ("{voucher}/*", "AF-1/a.jpg", Some("AF-1")),
            ("{voucher}/*", "a.jpg", None),
            ("*/{voucher}/*", "2026/AF-1/a.b.jpg", Some("AF-1")),
        ] {
            let grouping = Grouping::pattern(pattern).expect(pattern);
            assert_eq!(
                grouping.voucher(name).as_deref(),
                voucher,
                "{pattern} {name}"
            );
        }
        for pattern in ["", "*_*", "{voucher}{voucher}", "{number}"] {
            assert!(Grouping::pattern(pattern).is_err(), "{pattern}");
        }
    }

    #[test]
    fn a_table_tells_the_voucher_by_path_or_by_name() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("table.csv");
        let table = |text: &str| {
            fs::write(&path, text).expect("written");
            Grouping::table(&path)
        };
        let grouping =
            table("\u{feff}photo,seen,catalogNumber\na.jpg,x,AF-1\nwalk/b.jpg,,AF-2\nc.jpg,,\n")
                .expect("a table");
        assert_eq!(grouping.voucher("walk/a.jpg").as_deref(), Some("AF-1"));
        assert_eq!(grouping.voucher("walk/b.jpg").as_deref(), Some("AF-2"));
        assert_eq!(grouping.voucher("b.jpg"), None);
        assert_eq!(grouping.voucher("c.jpg"), None);
        assert!(matches!(
            table("file,number\n"),
            Err(GroupingError::NoColumns(_))
        ));
        assert!(matches!(
            table("photo,catalogNumber\na.jpg,1\na.jpg,2\n"),
            Err(GroupingError::Twice { .. })
        ));
    }
}
