//! The book's files: the only place that reads and writes them.

mod files;
mod versions;

use super::error::{BookError, Damaged};
use super::foray::Foray;
use super::number::Pattern;
use super::voucher::Voucher;
use crate::photo;
use crate::ranges::Ranges;
use crate::reading;
use files::{Kept, add, insert, io_error, put, read_all, safe, save, sweep, write};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use serde_with::skip_serializing_none;
use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

/// The schema's name in `book.json`.
const SCHEMA: &str = "poreline-book/1";
const CARD: &str = "book.json";
const LOCK: &str = ".lock";
const VOUCHERS: &str = "vouchers";
const FORAYS: &str = "forays";
const PHOTOS: &str = "photos";
const RANGES: &str = "ranges.csv";
/// Longest name of a file made from a number or a place, characters: file systems take 255 bytes.
const LONGEST_NAME: usize = 60;

/// What `book.json` says of the book.
#[skip_serializing_none]
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(rename_all = "camelCase", default)]
pub struct BookCard {
    /// `poreline-book/1`.
    pub schema: String,
    /// Darwin Core `datasetName`: what the book is called.
    pub dataset_name: String,
    /// Darwin Core: the institution, as its acronym.
    pub institution_code: Option<String>,
    /// Darwin Core: the collection, as its acronym.
    pub collection_code: Option<String>,
    /// Darwin Core `rightsHolder`: who owns the rights, and answers for the records.
    pub rights_holder: Option<String>,
    /// Darwin Core `license`: under what terms records may be used, as the address of a licence.
    pub license: Option<String>,
    /// Pattern of catalogue numbers, such as `AF-{year}-{number:4}`.
    pub catalog_number_pattern: String,
    /// Keys that this version does not know; they are kept.
    #[serde(flatten)]
    pub other: Map<String, Value>,
}

impl BookCard {
    /// A book of this name with numbers of this pattern.
    #[must_use]
    pub fn new(dataset_name: impl Into<String>, pattern: impl Into<String>) -> Self {
        Self {
            schema: SCHEMA.to_owned(),
            dataset_name: dataset_name.into(),
            catalog_number_pattern: pattern.into(),
            ..Self::default()
        }
    }
}

/// What came of saving.
#[derive(Debug, Clone, PartialEq)]
pub enum Saved {
    /// It is on the disk, with this revision.
    Written(u64),
    /// Somebody changed the file since it was read; nothing was overwritten. This is what they wrote.
    Changed(Map<String, Value>),
}

/// An open book.
#[derive(Debug, Clone)]
pub struct Book {
    folder: PathBuf,
    /// What `book.json` says.
    pub card: BookCard,
    vouchers: Vec<Kept<Voucher>>,
    forays: Vec<Kept<Foray>>,
    damaged: Vec<Damaged>,
}

/// Whether a folder is a book.
#[must_use]
pub fn is_book(folder: &Path) -> bool {
    folder.join(CARD).is_file()
}

impl Book {
    /// Makes a book in a folder, which is made too where it is missing.
    ///
    /// # Errors
    /// [`BookError::AlreadyABook`], [`BookError::Pattern`], [`BookError::Io`].
    pub fn init(folder: &Path, card: BookCard) -> Result<Self, BookError> {
        Pattern::new(&card.catalog_number_pattern)?;
        if is_book(folder) {
            return Err(BookError::AlreadyABook(folder.into()));
        }
        for name in [VOUCHERS, FORAYS, PHOTOS] {
            let path = folder.join(name);
            fs::create_dir_all(&path).map_err(io_error(&path, "making the folder"))?;
        }
        let book = Self {
            folder: folder.into(),
            card,
            vouchers: Vec::new(),
            forays: Vec::new(),
            damaged: Vec::new(),
        };
        let _lock = book.lock()?;
        let path = folder.join(CARD);
        if path.exists() {
            return Err(BookError::AlreadyABook(folder.into()));
        }
        write(&path, &book.card)?;
        Ok(book)
    }

    /// Opens a book. Damaged files are named in [`Self::damaged`], and the rest opens.
    ///
    /// # Errors
    /// [`BookError::NotABook`], [`BookError::Damaged`] of `book.json` itself, [`BookError::Io`].
    pub fn open(folder: &Path) -> Result<Self, BookError> {
        let path = folder.join(CARD);
        let text = match reading::bytes(&path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => {
                return Err(BookError::NotABook(folder.into()));
            }
            read => read.map_err(io_error(&path, "reading"))?,
        };
        let damaged = |why: String| BookError::Damaged {
            path: path.clone(),
            why,
        };
        let card: BookCard =
            serde_json::from_slice(&text).map_err(|error| damaged(error.to_string()))?;
        if card.schema != SCHEMA {
            return Err(damaged(format!(
                "its schema is “{}” and not “{SCHEMA}”",
                card.schema
            )));
        }
        let (vouchers, mut damaged) = read_all(folder)?;
        let (forays, more) = read_all(folder)?;
        damaged.extend(more);
        Ok(Self {
            folder: folder.into(),
            card,
            vouchers,
            forays,
            damaged,
        })
    }

    /// Where it is.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// All vouchers, by catalogue number.
    pub fn vouchers(&self) -> impl ExactSizeIterator<Item = &Voucher> {
        self.vouchers.iter().map(|kept| &kept.record)
    }

    /// All forays, by date.
    pub fn forays(&self) -> impl ExactSizeIterator<Item = &Foray> {
        self.forays.iter().map(|kept| &kept.record)
    }

    /// Files that could not be read. They are left alone.
    #[must_use]
    pub fn damaged(&self) -> &[Damaged] {
        &self.damaged
    }

    /// The voucher of a number.
    ///
    /// # Errors
    /// [`BookError::Missing`].
    pub fn voucher(&self, catalog_number: &str) -> Result<&Voucher, BookError> {
        self.vouchers()
            .find(|voucher| voucher.catalog_number == catalog_number)
            .ok_or_else(|| BookError::Missing {
                kind: "voucher",
                name: catalog_number.to_owned(),
            })
    }

    /// The foray of that identifier, or the only one of that date, place, or date and place.
    ///
    /// # Errors
    /// [`BookError::Missing`], [`BookError::Several`].
    pub fn foray(&self, told: &str) -> Result<&Foray, BookError> {
        let is_meant = |foray: &&Foray| {
            [&foray.event_id, &foray.event_date, &foray.locality].contains(&&told.to_owned())
                || foray.title() == told
        };
        let meant: Vec<&Foray> = self.forays().filter(is_meant).collect();
        match meant[..] {
            [foray] => Ok(foray),
            [] => Err(BookError::Missing {
                kind: "foray",
                name: told.to_owned(),
            }),
            _ => Err(BookError::Several(
                meant
                    .iter()
                    .map(|foray| format!("{} ({})", foray.title(), foray.event_id))
                    .collect(),
            )),
        }
    }

    /// The next catalogue number of a year.
    ///
    /// # Errors
    /// [`BookError::Pattern`] when `book.json` has a pattern that is none.
    pub fn next_number(&self, year: i16) -> Result<String, BookError> {
        let pattern = Pattern::new(&self.card.catalog_number_pattern)?;
        Ok(pattern.next(
            year,
            self.vouchers()
                .map(|voucher| voucher.catalog_number.as_str()),
        ))
    }

    /// Adds a voucher.
    ///
    /// # Errors
    /// [`BookError::NumberTaken`], [`BookError::Empty`], [`BookError::Io`].
    pub fn add_voucher(&mut self, voucher: Voucher) -> Result<(), BookError> {
        if voucher.catalog_number.trim().is_empty() {
            return Err(BookError::Empty("catalogue number"));
        }
        let taken = BookError::NumberTaken(voucher.catalog_number.clone());
        if self.voucher(&voucher.catalog_number).is_ok() {
            return Err(taken);
        }
        let _lock = self.lock()?;
        match add(&self.folder, voucher, false)? {
            Some(kept) => {
                insert(&mut self.vouchers, kept);
                Ok(())
            }
            None => Err(taken),
        }
    }

    /// Adds a foray; a second one at the same place and date gets a file of its own.
    ///
    /// # Errors
    /// [`BookError::Empty`] without date and place, [`BookError::Io`].
    pub fn add_foray(&mut self, foray: Foray) -> Result<(), BookError> {
        if foray.event_date.trim().is_empty() || foray.locality.trim().is_empty() {
            return Err(BookError::Empty("foray's date or place"));
        }
        let _lock = self.lock()?;
        if let Some(kept) = add(&self.folder, foray, true)? {
            insert(&mut self.forays, kept);
        }
        Ok(())
    }

    /// Saves a voucher that was read from this book and changed.
    ///
    /// # Errors
    /// [`BookError::Missing`] when it is not of this book, [`BookError::NumberTaken`] when its new number
    /// is another's, [`BookError::Io`].
    pub fn save_voucher(&mut self, voucher: Voucher) -> Result<Saved, BookError> {
        let is_taken = self.vouchers().any(|other| {
            other.catalog_number == voucher.catalog_number
                && other.occurrence_id != voucher.occurrence_id
        });
        if is_taken {
            return Err(BookError::NumberTaken(voucher.catalog_number));
        }
        let _lock = self.lock()?;
        let at = self
            .vouchers
            .iter()
            .position(|kept| kept.record.occurrence_id == voucher.occurrence_id)
            .ok_or_else(|| BookError::Missing {
                kind: "voucher",
                name: voucher.catalog_number.clone(),
            })?;
        save(&mut self.vouchers[at], voucher)
    }

    /// Saves a foray that was read from this book and changed.
    ///
    /// # Errors
    /// [`BookError::Missing`] when it is not of this book, [`BookError::Io`].
    pub fn save_foray(&mut self, foray: Foray) -> Result<Saved, BookError> {
        let _lock = self.lock()?;
        let at = self
            .forays
            .iter()
            .position(|kept| kept.record.event_id == foray.event_id)
            .ok_or_else(|| BookError::Missing {
                kind: "foray",
                name: foray.title(),
            })?;
        save(&mut self.forays[at], foray)
    }

    /// Published ranges: those that are part of the program, and below them the book's own.
    ///
    /// # Errors
    /// [`BookError::Ranges`], [`BookError::Io`].
    pub fn ranges(&self) -> Result<Ranges, BookError> {
        let path = self.folder.join(RANGES);
        let refused = |error| BookError::Ranges {
            path: path.clone(),
            error,
        };
        let shipped = Ranges::shipped().map_err(refused)?;
        match reading::bytes(&path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(shipped),
            read => {
                let bytes = read.map_err(io_error(&path, "reading"))?;
                Ok(shipped.with_own(Ranges::read(&bytes).map_err(refused)?))
            }
        }
    }

    /// The path of a photo as a voucher tells it.
    #[must_use]
    pub fn photo_path(&self, told: &str) -> PathBuf {
        self.folder.join(told)
    }

    /// Copies a photo into the book and tells its path there, relative to the book. A copy of the same
    /// bytes is made once.
    ///
    /// # Errors
    /// [`BookError::Io`].
    pub fn copy_photo(&self, photo: &Path, sha256: &str) -> Result<String, BookError> {
        let folder = self.folder.join(PHOTOS);
        fs::create_dir_all(&folder).map_err(io_error(&folder, "making the folder"))?;
        let stem = photo
            .file_stem()
            .map_or_else(String::new, |s| s.to_string_lossy().into_owned());
        let extension = photo
            .extension()
            .map_or_else(String::new, |e| e.to_string_lossy().into_owned());
        let short: String = sha256.chars().take(8).collect();
        let name = format!("{}-{short}.{}", safe(&stem), safe(&extension));
        let target = folder.join(&name);
        if !target.exists() {
            let mut source = reading::open(photo).map_err(io_error(photo, "reading"))?;
            put(&target, |file| io::copy(&mut source, file).map(drop))?;
        }
        Ok(format!("{PHOTOS}/{name}"))
    }

    /// Copies a photo's pixels into the book, and nothing else that the file says; tells the copy's path
    /// there and its SHA-256. The copy's name does not tell that of the photo, which may name the place.
    ///
    /// # Errors
    /// [`BookError::Photo`], [`BookError::Io`].
    pub fn copy_pixels(&self, photo: &Path) -> Result<(String, String), BookError> {
        let folder = self.folder.join(PHOTOS);
        fs::create_dir_all(&folder).map_err(io_error(&folder, "making the folder"))?;
        let pixels = photo::pixels_only(photo)?;
        let sha256 = photo::sha256(&pixels);
        let short: String = sha256.chars().take(8).collect();
        let name = format!("photo-{short}.png");
        let target = folder.join(&name);
        if !target.exists() {
            put(&target, |file| file.write_all(&pixels))?;
        }
        Ok((format!("{PHOTOS}/{name}"), sha256))
    }

    /// Keeps other programs of this kind from writing until it is dropped.
    fn lock(&self) -> Result<File, BookError> {
        let path = self.folder.join(LOCK);
        let failed = io_error(&path, "locking the book");
        File::options()
            .create(true)
            .append(true)
            .open(&path)
            .and_then(|file| file.lock().map(|()| file))
            .map_err(failed)
            .inspect(|_| {
                for records in [VOUCHERS, FORAYS] {
                    sweep(&self.folder.join(records));
                }
            })
    }
}

#[cfg(test)]
mod tests {
    use super::files::file_name;
    use super::*;
    use serde_json::json;

    fn book() -> (tempfile::TempDir, Book) {
        let folder = tempfile::tempdir().expect("a folder");
        let card = BookCard::new("Alder Fen Foray Group", "AF-{year}-{number:4}");
        let book = Book::init(&folder.path().join("book"), card).expect("a book");
        (folder, book)
    }

    fn reopened(book: &Book) -> Book {
        Book::open(book.folder()).expect("the same book")
    }

    #[test]
    fn vouchers_come_back_as_they_were_saved() {
        let (_folder, mut book) = book();
        let number = book.next_number(2026).expect("a number");
        assert_eq!(number, "AF-2026-0001");
        let mut voucher = Voucher::new(&number);
        voucher.locality = Some("Alder Fen".to_owned());
        voucher.other.insert("sampleMass".to_owned(), json!(3));
        book.add_voucher(voucher).expect("added");
        let mut again = reopened(&book);
        let read = again.voucher(&number).expect("the voucher").clone();
        assert_eq!(read.other["sampleMass"], json!(3));
        assert_eq!(again.next_number(2026).expect("a number"), "AF-2026-0002");
        let mut changed = read.clone();
        changed.smell = Some("anise".to_owned());
        assert_eq!(
            again.save_voucher(changed).expect("saved"),
            Saved::Written(2)
        );
        let third = reopened(&book);
        let voucher = third.voucher(&number).expect("the voucher");
        assert_eq!(voucher.smell.as_deref(), Some("anise"));
        assert_eq!(voucher.other["sampleMass"], json!(3));
    }

    #[test]
    fn two_windows_never_overwrite_each_other() {
        let (_folder, mut first) = book();
        first
            .add_voucher(Voucher::new("AF-2026-0001"))
            .expect("added");
        let mut second = reopened(&first);
        let change = |book: &Book, smell: &str| {
            let mut voucher = book.voucher("AF-2026-0001").expect("the voucher").clone();
            voucher.smell = Some(smell.to_owned());
            voucher
        };
        let (mine, theirs) = (change(&first, "anise"), change(&second, "flour"));
        assert_eq!(
            second.save_voucher(theirs).expect("saved"),
            Saved::Written(2)
        );
        let Saved::Changed(on_disk) = first.save_voucher(mine).expect("an answer") else {
            panic!("the other window's change was overwritten");
        };
        assert_eq!(on_disk["smell"], json!("flour"));
        let taken = Voucher::new("AF-2026-0001");
        assert!(matches!(
            first.add_voucher(taken.clone()),
            Err(BookError::NumberTaken(_))
        ));
        // Not yet known here, but there on the disk.
        second
            .add_voucher(Voucher::new("AF-2026-0002"))
            .expect("added");
        assert!(matches!(
            first.add_voucher(Voucher::new("AF-2026-0002")),
            Err(BookError::NumberTaken(_))
        ));
    }

    #[test]
    fn what_was_changed_by_hand_under_the_same_revision_is_not_written_over() {
        let (_folder, mut book) = book();
        book.add_voucher(Voucher::new("1")).expect("added");
        let file = book.folder().join("vouchers/1.json");
        let text = fs::read_to_string(&file).expect("a file");
        let by_hand = text.replacen('{', "{ \"smell\": \"anise\",", 1);
        fs::write(&file, &by_hand).expect("written");
        let mut mine = book.voucher("1").expect("it").clone();
        mine.habitat = Some("carr".to_owned());
        for _ in 0..2 {
            let Saved::Changed(theirs) = book.save_voucher(mine.clone()).expect("told") else {
                panic!("written over");
            };
            assert_eq!(theirs["smell"], "anise");
            assert_eq!(fs::read_to_string(&file).expect("a file"), by_hand);
            // Whoever has looked at it can write it, under the revision that was told.
            let mut theirs: Voucher =
                serde_json::from_value(Value::Object(theirs)).expect("a voucher");
            theirs.habitat = Some("fen".to_owned());
            assert_eq!(theirs.revision, 2);
        }
        mine.revision = 2;
        assert_eq!(book.save_voucher(mine).expect("saved"), Saved::Written(3));
        let again = reopened(&book);
        assert_eq!(again.voucher("1").expect("it").revision, 3);
    }

    #[test]
    fn what_a_crash_left_half_written_is_taken_away_with_the_next_save() {
        let (_folder, mut book) = book();
        let half = book.folder().join("vouchers/.unfinished-a1b2c3");
        fs::write(&half, "{").expect("written");
        assert!(reopened(&book).damaged().is_empty());
        assert!(half.exists(), "reading writes nothing");
        book.add_voucher(Voucher::new("1")).expect("added");
        assert!(!half.exists());
        let mut names = fs::read_dir(book.folder().join("vouchers")).expect("a folder");
        let only = names.next().expect("a file").expect("an entry").file_name();
        assert_eq!(only, "1.json");
        assert!(names.next().is_none());
    }

    #[test]
    fn a_damaged_file_is_named_and_the_rest_opens() {
        let (_folder, mut book) = book();
        for number in ["AF-1", "AF-2", "AF-3"] {
            book.add_voucher(Voucher::new(number)).expect("added");
        }
        let path = book.folder().join("vouchers/AF-2.json");
        let whole = fs::read(&path).expect("the file");
        for damage in [
            &whole[..whole.len() / 2],
            b"",
            b"[]",
            b"{\"schema\":\"other/1\"}",
        ] {
            fs::write(&path, damage).expect("damaged");
            let again = reopened(&book);
            assert_eq!(again.vouchers().len(), 2);
            assert_eq!(again.damaged().len(), 1);
            assert_eq!(again.damaged()[0].path, path);
            assert_eq!(fs::read(&path).expect("still there"), damage);
        }
        // Its number stays its own.
        let mut again = reopened(&book);
        assert!(matches!(
            again.add_voucher(Voucher::new("AF-2")),
            Err(BookError::NumberTaken(_))
        ));
    }

    #[test]
    fn forays_on_one_day_at_one_place_have_files_of_their_own() {
        let (_folder, mut book) = book();
        for _ in 0..2 {
            book.add_foray(Foray::new("2026-10-04", "Alder Fen / north"))
                .expect("added");
        }
        assert!(
            book.folder()
                .join("forays/2026-10-04-Alder-Fen-north.json")
                .is_file()
        );
        assert_eq!(reopened(&book).forays().len(), 2);
        assert!(book.add_foray(Foray::new("", "Alder Fen")).is_err());
    }

    #[test]
    fn names_of_files_are_safe_everywhere() {
        for (title, name) in [
            ("AF-2026-0001", "AF-2026-0001"),
            ("../../etc/passwd", "etc-passwd"),
            ("a/b\\c:d", "a-b-c-d"),
            ("…", "record"),
            ("Öd / Ærø", "Öd-Ærø"),
            ("con\nlines", "con-lines"),
        ] {
            assert_eq!(file_name(title), name);
        }
        assert!(file_name(&"x".repeat(500)).len() <= LONGEST_NAME);
    }

    #[test]
    fn a_folder_is_a_book_once() {
        let (_folder, book) = book();
        let again = Book::init(book.folder(), BookCard::new("b", "{number}"));
        assert!(matches!(again, Err(BookError::AlreadyABook(_))));
        let elsewhere = tempfile::tempdir().expect("a folder");
        assert!(matches!(
            Book::open(elsewhere.path()),
            Err(BookError::NotABook(_))
        ));
        let bad = Book::init(&elsewhere.path().join("b"), BookCard::new("b", "none"));
        assert!(matches!(bad, Err(BookError::Pattern(_))));
    }

    #[test]
    fn photos_are_copied_once_and_safely() {
        let (folder, book) = book();
        let photo = folder.path().join("my photo.jpg");
        fs::write(&photo, b"bytes").expect("a photo");
        let told = book.copy_photo(&photo, "0123456789abcdef").expect("copied");
        assert_eq!(told, "photos/my-photo-01234567.jpg");
        assert_eq!(
            book.copy_photo(&photo, "0123456789abcdef").expect("known"),
            told
        );
        assert_eq!(
            fs::read(book.photo_path(&told)).expect("the copy"),
            b"bytes"
        );
    }
}
