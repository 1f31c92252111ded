//! Findings of a batch on their way into the vouchers of a book.

use super::facts::Facts;
use super::list::Listing;
use super::results::Results;
use crate::book::{Attached, Book, BookError, Copying, PhotoLink, Saved, Voucher};
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// How often a change is made anew on top of what others save at the same moment.
const TRIES: usize = 20;

/// What is to be put into which book, and how.
#[derive(Debug, Clone)]
pub struct Entering<'a> {
    /// The book's folder.
    pub book: &'a Path,
    /// When, ISO 8601.
    pub when: &'a str,
    /// Who measured.
    pub by: Option<&'a str>,
    /// Whether photos stay where they are; otherwise they are copied into the book.
    pub in_place: bool,
    /// Whether vouchers that the book does not have are added to it.
    pub add_vouchers: bool,
}

/// What came of it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Entered {
    /// Findings that were attached.
    pub attached: usize,
    /// Findings that the book has already.
    pub already_there: usize,
    /// Vouchers that were added.
    pub added: Vec<String>,
    /// Vouchers that the book does not have, so that nothing was attached to them.
    pub missing: Vec<String>,
}

/// Why the findings are not all in the book.
#[derive(Debug, thiserror::Error)]
pub enum EnteringError {
    /// The book cannot be read or written.
    #[error(transparent)]
    Book(#[from] BookError),
    /// A record cannot be read.
    #[error(transparent)]
    Results(#[from] super::results::ResultsError),
}

impl Entering<'_> {
    /// Attaches the findings of all photos to the vouchers they belong to. What the book has already is
    /// not attached twice, so it may be done again.
    ///
    /// # Errors
    /// [`EnteringError`]. What was saved until then is whole.
    pub fn enter(
        &self,
        photos: &[Facts],
        listing: &Listing,
        results: &Results,
    ) -> Result<Entered, EnteringError> {
        let paths: BTreeMap<&str, &PathBuf> = (listing.files.iter())
            .map(|file| (file.name.as_str(), &file.path))
            .collect();
        let once: Vec<&Facts> = photos.iter().filter(|p| p.same_as.is_none()).collect();
        let mut book = Book::open(self.book)?;
        let mut entered = Entered::default();
        for (number, photos) in super::gate::vouchers(&once) {
            let mut findings: Vec<(&Path, Value)> = Vec::new();
            for photo in photos {
                let path = paths.get(photo.name.as_str());
                let path = path.map_or(Path::new(&photo.name), |path| path.as_path());
                findings.extend(
                    results
                        .record_at(&photo.word)?
                        .findings_of(&photo.name)
                        .map(|findings| (path, findings)),
                );
            }
            self.enter_voucher(&mut book, number, &findings, &mut entered)?;
        }
        Ok(entered)
    }

    fn enter_voucher(
        &self,
        book: &mut Book,
        number: &str,
        photos: &[(&Path, Value)],
        entered: &mut Entered,
    ) -> Result<(), BookError> {
        if !self.add_vouchers && matches!(book.voucher(number), Err(BookError::Missing { .. })) {
            entered.missing.push(number.to_owned());
            return Ok(());
        }
        for _ in 0..TRIES {
            match book.voucher(number) {
                Ok(voucher) => {
                    let mut voucher = voucher.clone();
                    let attached = self.attach(book, &mut voucher, photos)?;
                    let already_there = photos.len() - attached;
                    if attached == 0 {
                        entered.already_there += already_there;
                        return Ok(());
                    }
                    if let Saved::Written(_) = book.save_voucher(voucher)? {
                        entered.attached += attached;
                        entered.already_there += already_there;
                        return Ok(());
                    }
                    *book = Book::open(self.book)?;
                }
                Err(BookError::Missing { .. }) => {
                    let mut voucher = Voucher::new(number);
                    let attached = self.attach(book, &mut voucher, photos)?;
                    match book.add_voucher(voucher) {
                        // Somebody else added it at the same moment.
                        Err(BookError::NumberTaken(_)) => *book = Book::open(self.book)?,
                        Err(error) => return Err(error),
                        Ok(()) => {
                            entered.attached += attached;
                            entered.added.push(number.to_owned());
                            return Ok(());
                        }
                    }
                }
                Err(error) => return Err(error),
            }
        }
        Err(BookError::Changed(number.to_owned()))
    }

    /// How many findings were new to the voucher.
    fn attach(
        &self,
        book: &Book,
        voucher: &mut Voucher,
        photos: &[(&Path, Value)],
    ) -> Result<usize, BookError> {
        let mut attached = 0;
        for (path, findings) in photos {
            if voucher
                .current()
                .iter()
                .any(|has| has.findings == *findings)
            {
                continue;
            }
            let sha256 = findings.pointer("/photo/sha256").and_then(Value::as_str);
            let sha256 = sha256.unwrap_or_default();
            let link: PhotoLink =
                book.link_photo(path, sha256, Copying::of(voucher, !self.in_place))?;
            let new = Attached {
                measurement_determined_date: self.when.to_owned(),
                measurement_determined_by: self.by.map(str::to_owned),
                findings: findings.clone(),
            };
            voucher.attach(link, new);
            attached += 1;
        }
        Ok(attached)
    }
}
