//! What can go wrong with a book, and what to do about it.

use super::number::PatternError;
use crate::photo::PhotoError;
use crate::ranges::RangesError;
use std::io;
use std::path::PathBuf;

/// Why something could not be done with a book.
#[derive(Debug, thiserror::Error)]
pub enum BookError {
    /// A photo of which a copy without the place was to be made.
    #[error(transparent)]
    Photo(#[from] PhotoError),
    /// The folder has no `book.json`.
    #[error("{0} is no book: it has no book.json. Make one with `poreline book init`")]
    NotABook(PathBuf),
    /// There is one already.
    #[error("{0} is a book already; nothing was changed")]
    AlreadyABook(PathBuf),
    /// A file could not be read or written.
    #[error(
        "{path}: {action} failed: {error}. Nothing was lost; check the disk and its permissions, and try again"
    )]
    Io {
        /// Which file.
        path: PathBuf,
        /// What was tried.
        action: &'static str,
        /// What the system said.
        error: io::Error,
    },
    /// A file is damaged.
    #[error(
        "{path} is damaged: {why}. Mend it in a text editor, or take it from a copy of the book"
    )]
    Damaged {
        /// Which file.
        path: PathBuf,
        /// What is wrong with it.
        why: String,
    },
    /// The file on the disk has been changed since it was read.
    #[error(
        "{0} was changed by somebody else since you looked at it; nothing was overwritten. Look at it anew, and try again"
    )]
    Changed(String),
    /// The number is taken.
    #[error("the catalogue number {0} is taken; take the next one")]
    NumberTaken(String),
    /// There is no such voucher or foray.
    #[error(
        "the book has no {kind} {name}; `poreline book list` and `poreline book forays list` show what there is"
    )]
    Missing {
        /// `voucher` or `foray`.
        kind: &'static str,
        /// What was asked for.
        name: String,
    },
    /// Several forays could be meant.
    #[error("several forays could be meant; give the identifier of one of them: {}", .0.join(", "))]
    Several(Vec<String>),
    /// A number or name that cannot be one.
    #[error("a {0} must not be empty")]
    Empty(&'static str),
    /// The book's own table of published ranges.
    #[error("{path}: {error}. Mend the table, or move it out of the book")]
    Ranges {
        /// Which file.
        path: PathBuf,
        /// What is wrong with it.
        error: RangesError,
    },
    /// The pattern of catalogue numbers in `book.json`.
    #[error(transparent)]
    Pattern(#[from] PatternError),
}

impl From<Damaged> for BookError {
    fn from(Damaged { path, why }: Damaged) -> Self {
        Self::Damaged { path, why }
    }
}

/// A file of the book that could not be read. It stays where it is, and is left alone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Damaged {
    /// Which file.
    pub path: PathBuf,
    /// What is wrong with it.
    pub why: String,
}
