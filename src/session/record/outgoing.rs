//! What goes out of the book: files for collections, spreadsheets, packets and readers.

use super::keeper::Errand;
use super::{OpenBook, today};
use crate::book::{Book, Voucher, frequencies, write_checklists};
use crate::export::card_pdf::Paper;
use crate::export::darwin_core::{ArchiveOptions, Places, archive};
use crate::export::report::{Report, html, pdf, season};
use crate::export::{book_csv, labels};
use crate::progress::Progress;
use crate::reporting;
use crate::session::Session;
use crate::wording::text;
use std::fmt::Display;
use std::path::PathBuf;

/// A file that can be made of a book.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outgoing {
    /// A report on the voucher that is picked, to print.
    ReportPdf,
    /// The same as a page for a browser.
    ReportHtml,
    /// Labels for the packets of the vouchers in the list.
    Labels,
    /// All vouchers for a spreadsheet.
    Table,
    /// All vouchers for a collection or a portal.
    DarwinCore,
    /// All walks with their checklists.
    Walks,
    /// On which share of each month's walks each taxon was met.
    Months,
}

impl Outgoing {
    /// What is made of the whole book, in the order in which it is offered.
    pub const OF_BOOK: [Self; 3] = [Self::Labels, Self::Table, Self::DarwinCore];
    /// What is made of one voucher.
    pub const OF_VOUCHER: [Self; 2] = [Self::ReportPdf, Self::ReportHtml];
    /// What is made of the walks.
    pub const OF_WALKS: [Self; 2] = [Self::Walks, Self::Months];

    /// The ending of the file's name.
    #[must_use]
    pub const fn extension(self) -> &'static str {
        match self {
            Self::ReportPdf | Self::Labels | Self::Months => "pdf",
            Self::ReportHtml => "html",
            Self::Table | Self::Walks => "csv",
            Self::DarwinCore => "zip",
        }
    }

    /// The name proposed for the file; `number` is that of the voucher.
    #[must_use]
    pub fn file_name(self, number: &str) -> String {
        let stem = match self {
            Self::ReportPdf | Self::ReportHtml => format!("report-{}", plain(number)),
            Self::Labels => "labels".to_owned(),
            Self::Table => "vouchers".to_owned(),
            Self::DarwinCore => "darwin-core".to_owned(),
            Self::Walks => "walks".to_owned(),
            Self::Months => "months".to_owned(),
        };
        format!("{stem}.{}", self.extension())
    }

    /// Whether it tells places.
    #[must_use]
    pub const fn tells_places(self) -> bool {
        !matches!(self, Self::Labels | Self::Walks | Self::Months)
    }
}

/// A number as every file system takes it.
fn plain(number: &str) -> String {
    let keep = |c: char| if c.is_alphanumeric() { c } else { '-' };
    number.chars().map(keep).collect()
}

/// Which vouchers, and how much is told of their places.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Chosen {
    /// Identifier of the voucher that is picked.
    pub picked: Option<String>,
    /// Identifiers of the vouchers in the list, in its order.
    pub shown: Vec<String>,
    /// How much is told of places.
    pub places: Places,
    /// ISO 8601.
    pub today: String,
}

impl Session {
    /// Has a file made of the book.
    pub(super) fn export_book(&mut self, what: Outgoing, path: PathBuf, places: Places) {
        let shown = self.record.book().map(OpenBook::shown);
        let chosen = Chosen {
            picked: (self.record.form.as_ref())
                .filter(|form| !form.is_new())
                .map(|form| form.id().to_owned()),
            shown: shown
                .into_iter()
                .flatten()
                .map(|row| row.voucher.occurrence_id.clone())
                .collect(),
            places,
            today: today(),
        };
        self.ask(
            text!("making-the-file"),
            Errand::Export { what, chosen, path },
        );
    }
}

/// The file's bytes, and what is to be said of them.
pub(super) struct Contents {
    pub bytes: Vec<u8>,
    pub remarks: Vec<String>,
}

/// Makes a file; the error is a sentence for people.
pub(super) fn contents(
    book: &Book,
    what: Outgoing,
    chosen: &Chosen,
    progress: &Progress<'_>,
) -> Result<Contents, String> {
    let mut remarks = Vec::new();
    let all: Vec<&Voucher> = book.vouchers().collect();
    let places = chosen.places;
    let bytes = match what {
        Outgoing::ReportPdf => printed(&report(book, chosen, progress, &mut remarks)?)?,
        Outgoing::ReportHtml => html(&report(book, chosen, progress, &mut remarks)?),
        Outgoing::Months => printed(&season(
            &book.card.dataset_name,
            &frequencies(&book.walks()),
            &chosen.today,
        ))?,
        Outgoing::Labels => {
            let shown: Vec<&Voucher> = (chosen.shown.iter())
                .filter_map(|id| all.iter().copied().find(|v| v.occurrence_id == *id))
                .collect();
            if shown.is_empty() {
                return Err(text!("the-list-is-empty-so-there").to_owned());
            }
            labels::sheets(&book.card, &shown, Paper::A4).map_err(in_words)?
        }
        Outgoing::Table | Outgoing::DarwinCore if all.is_empty() => {
            return Err(text!("the-book-has-no-voucher-yet-so").to_owned());
        }
        Outgoing::Table => book_csv::csv(&book.card, &all, places).map_err(in_words)?,
        Outgoing::Walks => write_checklists(book.forays()).map_err(in_words)?,
        Outgoing::DarwinCore => {
            if book.card.license.is_none() {
                remarks.push(text!("the-book-states-no-licence-so").to_owned());
            }
            let options = ArchiveOptions {
                places,
                published: Some(chosen.today.clone()),
                ..ArchiveOptions::default()
            };
            archive(&book.card, &all, &options).map_err(in_words)?
        }
    };
    if what.tells_places() && places != Places::AsRecorded {
        remarks.push(text!("look-whether-notes-and-photos-tell").to_owned());
    }
    Ok(Contents { bytes, remarks })
}

fn report(
    book: &Book,
    chosen: &Chosen,
    progress: &Progress<'_>,
    remarks: &mut Vec<String>,
) -> Result<Report, String> {
    let picked = chosen.picked.as_deref();
    let voucher = book
        .vouchers()
        .find(|voucher| Some(voucher.occurrence_id.as_str()) == picked)
        .ok_or(text!("pick-a-voucher-first-and-save"))?;
    let made = reporting::vouchers(book, &[voucher], chosen.places, &chosen.today, progress)
        .map_err(in_words)?;
    remarks.extend(
        (made.without.iter()).map(|why| text!("the-report-goes-without-a-picture", why = why)),
    );
    Ok(made.report)
}

fn printed(report: &Report) -> Result<Vec<u8>, String> {
    pdf(report, Paper::A4).map_err(in_words)
}

fn in_words(error: impl Display) -> String {
    text!("nothing-was-saved", error = error.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::BookCard;

    fn made(what: Outgoing, vouchers: usize) -> Result<Contents, String> {
        let folder = tempfile::tempdir().expect("a folder");
        let card = BookCard::new("Alder Fen Foray Group", "{number}");
        let mut book = Book::init(folder.path(), card).expect("a book");
        for number in 0..vouchers {
            let voucher = Voucher::new(number.to_string());
            book.add_voucher(voucher).expect("added");
        }
        let ids: Vec<String> = book.vouchers().map(|v| v.occurrence_id.clone()).collect();
        let chosen = Chosen {
            picked: ids.first().cloned(),
            shown: ids,
            places: Places::Blurred,
            today: "2026-11-26".to_owned(),
        };
        contents(&book, what, &chosen, &Progress::default())
    }

    #[test]
    fn each_file_begins_as_its_kind_does() {
        // PDF 1.7 (ISO 32000-1) 7.5.2; PKWARE APPNOTE 4.3.7, local file header.
        for (what, begins) in [
            (Outgoing::ReportPdf, &b"%PDF-"[..]),
            (Outgoing::ReportHtml, b"<!DOCTYPE html>"),
            (Outgoing::Labels, b"%PDF-"),
            (Outgoing::DarwinCore, b"PK\x03\x04"),
            (Outgoing::Walks, b"eventID,"),
            (Outgoing::Months, b"%PDF-"),
        ] {
            let made = made(what, 2).expect("made");
            assert!(made.bytes.starts_with(begins), "{what:?}");
            let warns = made
                .remarks
                .iter()
                .any(|text| text.contains("notes and photos"));
            assert_eq!(warns, what.tells_places(), "{what:?}");
        }
    }

    #[test]
    fn of_nothing_nothing_is_made() {
        for what in Outgoing::OF_BOOK {
            assert!(made(what, 0).is_err(), "{what:?}");
        }
        let refused = made(Outgoing::ReportPdf, 0).err().expect("refused");
        assert!(refused.contains("Pick a voucher"));
    }

    #[test]
    fn names_of_files_hold_nothing_that_a_file_system_refuses() {
        assert_eq!(
            Outgoing::ReportPdf.file_name("AF/26:1"),
            "report-AF-26-1.pdf"
        );
        assert_eq!(Outgoing::Table.file_name(""), "vouchers.csv");
    }
}
