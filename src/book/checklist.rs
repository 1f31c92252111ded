//! Checklists of walks as CSV, so that a club's spreadsheet comes in and goes out.
//!
//! UTF-8, commas (or semicolons, as spreadsheets write them where the comma is the decimal sign), a header
//! row (RFC 4180), one row a taxon. Columns in any order; those that are not
//! listed here are passed over.
//!
//! | column | meaning |
//! |---|---|
//! | `eventDate` | when the walk was, ISO 8601; needed |
//! | `locality` | where; needed |
//! | `eventID` | which walk, where the same day and place had two |
//! | `peopleCount` | how many walked |
//! | `eventRemarks` | notes on the walk |
//! | `scientificName` | what was seen; empty on a walk on which nothing was |
//! | `identificationQualifier` | `cf.` or `aff.` |
//! | `catalogNumber` | the voucher that was kept |
//! | `occurrenceRemarks` | notes on what was seen |

use super::cell::{guarded, unguarded};
use super::date::day;
use super::error::BookError;
use super::foray::{Foray, Sighting};
use super::store::{Book, Saved};
use super::term::parted;
use std::collections::BTreeMap;

/// Names of the columns, in the order in which they are written.
pub const CHECKLIST_COLUMNS: [&str; 9] = [
    "eventID",
    "eventDate",
    "locality",
    "peopleCount",
    "eventRemarks",
    "scientificName",
    "identificationQualifier",
    "catalogNumber",
    "occurrenceRemarks",
];

/// Why a checklist cannot be read.
#[derive(Debug, thiserror::Error)]
pub enum ChecklistError {
    /// Not CSV.
    #[error("the checklist cannot be read as CSV: {0}. Save it as UTF-8 text with commas")]
    NotCsv(#[from] csv::Error),
    /// A column that must be there is not.
    #[error("the checklist has no column “{0}”; its first row has to name the columns")]
    NoColumn(&'static str),
    /// A cell that makes no sense.
    #[error("row {row} of the checklist: “{cell}” in column {column} is not {wanted}")]
    Cell {
        /// Row of the file, the header being row 1.
        row: u64,
        /// Name of the column.
        column: &'static str,
        /// What stands there.
        cell: String,
        /// What should stand there.
        wanted: &'static str,
    },
}

/// What came of taking walks in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct TakenIn {
    /// Walks that were not in the book.
    pub walks: usize,
    /// Sightings that were not in the book.
    pub sightings: usize,
    /// Walks left alone because somebody else changed them meanwhile.
    pub changed: usize,
}

/// What stands between cells: the semicolon where spreadsheets write decimal commas, else the comma.
fn delimiter(csv: &[u8]) -> u8 {
    let header = csv.split(|byte| *byte == b'\n').next().unwrap_or_default();
    let has = |byte| header.contains(&byte);
    if has(b';') && !has(b',') { b';' } else { b',' }
}

/// Reads walks with their checklists, in the order in which they first come. The identifier is empty
/// where the table names none; [`Book::take_in`] gives one.
///
/// # Errors
/// [`ChecklistError`] with the row and the column.
pub fn read_checklists(csv: &[u8]) -> Result<Vec<Foray>, ChecklistError> {
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(delimiter(csv))
        .from_reader(csv);
    let columns: BTreeMap<String, usize> = reader
        .headers()?
        .iter()
        .enumerate()
        .map(|(at, name)| (name.trim_start_matches('\u{feff}').trim().to_owned(), at))
        .collect();
    for needed in ["eventDate", "locality"] {
        if !columns.contains_key(needed) {
            return Err(ChecklistError::NoColumn(needed));
        }
    }
    let mut walks: Vec<Foray> = Vec::new();
    for record in reader.records() {
        let record = record?;
        let row = record.position().map_or(0, csv::Position::line);
        let cell = |column: &str| -> Option<&str> {
            let text = unguarded(record.get(*columns.get(column)?)?).trim();
            (!text.is_empty()).then_some(text)
        };
        let wrong = |column: &'static str, wanted: &'static str| ChecklistError::Cell {
            row,
            column,
            cell: cell(column).unwrap_or_default().to_owned(),
            wanted,
        };
        let date = cell("eventDate")
            .filter(|date| day(date).is_some())
            .ok_or_else(|| wrong("eventDate", "a date as ISO 8601, such as 2026-10-04"))?;
        let place = cell("locality").ok_or_else(|| wrong("locality", "a place"))?;
        let id = cell("eventID");
        let at = walks
            .iter()
            .position(|walk| is_same(walk, id, date, place))
            .unwrap_or_else(|| {
                walks.push(Foray {
                    event_id: id.unwrap_or_default().to_owned(),
                    ..Foray::new(date, place)
                });
                walks.len() - 1
            });
        let walk = &mut walks[at];
        if let Some(people) = cell("peopleCount") {
            let people = people
                .parse()
                .map_err(|_| wrong("peopleCount", "a whole number such as 7"))?;
            walk.people_count = Some(people);
        }
        if let Some(remarks) = cell("eventRemarks") {
            walk.event_remarks = Some(remarks.to_owned());
        }
        if let Some(name) = cell("scientificName") {
            let (scientific_name, said) = parted(name);
            let qualifier = cell("identificationQualifier").map(str::to_owned);
            walk.checklist.push(Sighting {
                scientific_name,
                identification_qualifier: qualifier.or(said),
                catalog_number: cell("catalogNumber").map(str::to_owned),
                occurrence_remarks: cell("occurrenceRemarks").map(str::to_owned),
                ..Sighting::default()
            });
        }
    }
    Ok(walks)
}

/// Writes walks with their checklists; [`read_checklists`] reads them again.
///
/// # Errors
/// When a row cannot be written to memory.
pub fn write_checklists<'a>(
    walks: impl IntoIterator<Item = &'a Foray>,
) -> Result<Vec<u8>, csv::Error> {
    let mut table = csv::Writer::from_writer(Vec::new());
    table.write_record(CHECKLIST_COLUMNS)?;
    let nothing_seen = [Sighting::default()];
    for walk in walks {
        let people = walk.people_count.map(|n| n.to_string());
        let seen = if walk.checklist.is_empty() {
            &nothing_seen[..]
        } else {
            &walk.checklist
        };
        for sighting in seen {
            let row = [
                Some(&walk.event_id),
                Some(&walk.event_date),
                Some(&walk.locality),
                people.as_ref(),
                walk.event_remarks.as_ref(),
                Some(&sighting.scientific_name),
                sighting.identification_qualifier.as_ref(),
                sighting.catalog_number.as_ref(),
                sighting.occurrence_remarks.as_ref(),
            ];
            table.write_record(row.map(|cell| cell.map_or_else(String::new, |c| guarded(c))))?;
        }
    }
    table
        .into_inner()
        .map_err(|error| csv::Error::from(error.into_error()))
}

/// A walk is known by its identifier, or else by day and place.
fn is_same(walk: &Foray, id: Option<&str>, date: &str, place: &str) -> bool {
    match id {
        Some(id) => walk.event_id == id,
        None => walk.event_date == date && walk.locality == place,
    }
}

impl Book {
    /// Takes walks in, known by their identifiers or else by day and place. Of a walk that the book has, only what its checklist lacks is added, so that the
    /// same table can be taken in twice.
    ///
    /// # Errors
    /// [`BookError::Io`].
    pub fn take_in(&mut self, walks: Vec<Foray>) -> Result<TakenIn, BookError> {
        let mut taken = TakenIn::default();
        for mut walk in walks {
            let id = (!walk.event_id.is_empty()).then_some(walk.event_id.as_str());
            let known = self
                .forays()
                .find(|known| is_same(known, id, &walk.event_date, &walk.locality))
                .cloned();
            let Some(mut known) = known else {
                taken.walks += 1;
                taken.sightings += walk.checklist.len();
                if walk.event_id.is_empty() {
                    walk.event_id = Foray::new("", "").event_id;
                }
                self.add_foray(walk)?;
                continue;
            };
            let before = known.clone();
            for sighting in walk.checklist {
                if !known.checklist.contains(&sighting) {
                    known.checklist.push(sighting);
                }
            }
            known.people_count = walk.people_count.or(known.people_count);
            known.event_remarks = walk.event_remarks.or(known.event_remarks);
            if known == before {
                continue;
            }
            let more = known.checklist.len() - before.checklist.len();
            match self.save_foray(known)? {
                Saved::Written(_) => taken.sightings += more,
                Saved::Changed(_) => taken.changed += 1,
            }
        }
        Ok(taken)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::BookCard;

    const CLUB: &str = "\u{feff}locality,eventDate,scientificName,catalogNumber,weather\r\n\
        \"Alder Fen, north\",2026-10-04,Trametes cf. hirsuta,AF-1,rain\r\n\
        \"Alder Fen, north\",2026-10-04,Stereum hirsutum,,\r\n\
        Ottermouth,2026-10-11,,,fog\r\n";

    #[test]
    fn a_clubs_table_comes_in() {
        let walks = read_checklists(CLUB.as_bytes()).expect("walks");
        assert_eq!(walks.len(), 2);
        assert_eq!(walks[0].locality, "Alder Fen, north");
        let first = &walks[0].checklist[0];
        assert_eq!(first.scientific_name, "Trametes hirsuta");
        assert_eq!(first.identification_qualifier.as_deref(), Some("cf."));
        assert_eq!(first.catalog_number.as_deref(), Some("AF-1"));
        assert!(walks[1].checklist.is_empty());
    }

    #[test]
    fn semicolons_stand_for_commas() {
        let csv =
            "eventDate;locality;scientificName\n2026-10-04;Alder Fen, north;Stereum hirsutum\n";
        let walks = read_checklists(csv.as_bytes()).expect("walks");
        assert_eq!(walks[0].locality, "Alder Fen, north");
        assert_eq!(walks[0].checklist[0].scientific_name, "Stereum hirsutum");
    }

    #[test]
    fn what_goes_out_comes_in_the_same() {
        let mut walks = read_checklists(CLUB.as_bytes()).expect("walks");
        walks[0].people_count = Some(7);
        walks[0].event_remarks = Some("=cold, \"wet\"\nand windy".to_owned());
        walks[0].checklist[1].occurrence_remarks = Some("- on a stump".to_owned());
        // The same day and place twice: kept apart by their identifiers.
        walks.push(Foray::new("2026-10-04", "Alder Fen, north"));
        for (number, walk) in walks.iter_mut().enumerate() {
            walk.event_id = format!("urn:test:{number}");
        }
        let csv = write_checklists(&walks).expect("CSV");
        assert_eq!(read_checklists(&csv).expect("walks"), walks);
        let folder = tempfile::tempdir().expect("a folder");
        let card = BookCard::new("Alder Fen Foray Group", "{number}");
        let mut book = Book::init(folder.path(), card).expect("a book");
        assert_eq!(book.take_in(walks).expect("taken in").walks, 3);
    }

    #[test]
    fn what_makes_no_sense_is_refused_with_its_place() {
        for (csv, says) in [
            ("eventDate\n2026-10-04\n", "no column “locality”"),
            ("eventDate,locality\n4 Oct,Fen\n", "row 2"),
            ("eventDate,locality\n2026-10-04,\n", "column locality"),
            (
                "eventDate,locality,peopleCount\n2026-10-04,Fen,few\n",
                "“few”",
            ),
            ("eventDate,locality\n2026-10-04\n", "CSV"),
        ] {
            let error = read_checklists(csv.as_bytes()).expect_err(csv).to_string();
            assert!(error.contains(says), "{csv}: {error}");
        }
    }

    #[test]
    fn the_same_table_twice_adds_nothing() {
        let folder = tempfile::tempdir().expect("a folder");
        let card = BookCard::new("Alder Fen Foray Group", "{number}");
        let mut book = Book::init(folder.path(), card).expect("a book");
        let walks = || read_checklists(CLUB.as_bytes()).expect("walks");
        let first = book.take_in(walks()).expect("taken in");
        assert_eq!((first.walks, first.sightings), (2, 2));
        assert_eq!(book.take_in(walks()).expect("again"), TakenIn::default());
        let mut more = walks();
        more[1].checklist.push(Sighting {
            scientific_name: "Fomes fomentarius".to_owned(),
            ..Sighting::default()
        });
        let third = book.take_in(more).expect("taken in");
        assert_eq!((third.walks, third.sightings), (0, 1));
        assert_eq!(book.forays().len(), 2);
    }
}
