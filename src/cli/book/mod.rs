//! `poreline book …`: vouchers, forays and what comes out of them.

pub(super) mod args;
mod export;
mod foray_args;
mod forays;
mod labels;
mod merge;
mod report;
mod vouchers;

use super::files::{Output, OutputError};
use super::ranges::TableError;
use super::terminal::harmless;
use super::{Outcome, say};
use crate::book::{
    Book, BookCard, BookError, ChecklistError, FindingsError, Gravity, TermError, check,
    frequencies,
};
use crate::demo::{self, DemoError};
use crate::export::darwin_core::ArchiveError;
use crate::export::labels::FaceError;
use crate::export::report::MOST_BESIDE;
use crate::export::{book_text, frequency_csv};
use crate::photo::PhotoError;
use crate::progress::Progress;
use crate::reporting::ReportError;
use args::{BookCommand, CheckArgs, FolderArgs, FrequencyArgs, InitArgs};
use jiff::ZonedDateTime;
use std::io::{self, Write as _};
use std::path::PathBuf;

/// Why a command on a book was not carried out.
#[derive(Debug, thiserror::Error)]
enum Failure {
    #[error(transparent)]
    Book(#[from] BookError),
    #[error(transparent)]
    Term(#[from] TermError),
    #[error("{path}: {error}")]
    Findings { path: PathBuf, error: FindingsError },
    #[error("{path}: {error}")]
    Checklist {
        path: PathBuf,
        error: ChecklistError,
    },
    #[error(transparent)]
    Photo(#[from] PhotoError),
    #[error(transparent)]
    Ranges(#[from] TableError),
    #[error(transparent)]
    Demo(#[from] DemoError),
    #[error("{path} could not be read: {error}; check the name")]
    Unreadable { path: PathBuf, error: io::Error },
    #[error("the table could not be made: {0}")]
    Table(#[from] csv::Error),
    #[error(transparent)]
    Archive(#[from] ArchiveError),
    #[error(transparent)]
    Face(#[from] FaceError),
    #[error(transparent)]
    Report(#[from] ReportError),
    #[error(
        "side by side stand two to {MOST_BESIDE} vouchers, and {0} were named; name as many, or leave out --side-by-side"
    )]
    NotBeside(usize),
    #[error("the book has one version of {0} only; name the file of the other with --with")]
    OneVersion(String),
    #[error(
        "{path} is another voucher than {number}: their identifiers differ. Name a version of the same one"
    )]
    OtherVoucher { path: PathBuf, number: String },
    #[error("the versions of {0} make no voucher when put together; keep both with --keep-both")]
    NotTogether(String),
    #[error("{number} has no photo {photo}; `poreline book show` tells which it has")]
    NoSuchPhoto { number: String, photo: String },
    #[error("there is no such voucher, so there is nothing to print")]
    NoLabels,
    #[error("the record could not be printed: {0}")]
    Json(#[from] serde_json::Error),
    #[error("printing failed: {0}")]
    Print(io::Error),
    #[error(transparent)]
    Output(#[from] OutputError),
}

impl Failure {
    /// Whether what was typed was at fault, rather than the disk or the book.
    const fn is_usage(&self) -> bool {
        matches!(
            self,
            Self::Term(_)
                | Self::NotBeside(_)
                | Self::OneVersion(_)
                | Self::NoSuchPhoto { .. }
                | Self::OtherVoucher { .. }
                | Self::Ranges(_)
                | Self::Demo(DemoError::Book(BookError::AlreadyABook(_)))
                | Self::Book(
                    BookError::NotABook(_)
                        | BookError::AlreadyABook(_)
                        | BookError::Missing { .. }
                        | BookError::Several(_)
                        | BookError::NumberTaken(_)
                        | BookError::Empty(_)
                        | BookError::Pattern(_)
                )
                | Self::Output(
                    OutputError::AlreadyThere(_)
                        | OutputError::IsFolder(_)
                        | OutputError::NoFolder(_)
                        | OutputError::IsPhoto(_)
                )
        )
    }
}

/// Carries out `poreline book …`.
pub(super) fn run(command: BookCommand) -> Outcome {
    let done = match command {
        BookCommand::Demo(args) => make_demo(&args),
        BookCommand::Init(args) => init(args),
        BookCommand::Add(args) => vouchers::add(&args),
        BookCommand::List(args) => vouchers::list(&args),
        BookCommand::Show(args) => vouchers::show(&args),
        BookCommand::Compare(args) => vouchers::compare(&args),
        BookCommand::Set(args) => vouchers::set(&args),
        BookCommand::Determine(args) => vouchers::determine(args),
        BookCommand::Attach(args) => vouchers::attach(&args),
        BookCommand::Detach(args) => vouchers::detach(&args),
        BookCommand::Merge(args) => merge::run(&args),
        BookCommand::Check(args) => look_through(&args),
        BookCommand::Frequency(args) => frequency(&args),
        BookCommand::Export(args) => export::run(args),
        BookCommand::Labels(args) => labels::run(args),
        BookCommand::Report(args) => report::run(args),
        BookCommand::Forays(command) => forays::run(command),
    };
    match done {
        Ok(outcome) => outcome,
        // Whoever reads has read enough.
        Err(Failure::Print(error)) if error.kind() == io::ErrorKind::BrokenPipe => Outcome::Done,
        Err(failure) => {
            say(&failure.to_string());
            if failure.is_usage() {
                Outcome::BadUsage
            } else {
                Outcome::NothingDone
            }
        }
    }
}

/// Opens a book and says which of its files are damaged.
fn open(folder: &std::path::Path) -> Result<Book, Failure> {
    let book = Book::open(folder)?;
    for damaged in book.damaged() {
        say(&format!(
            "{} cannot be read and was left alone: {}",
            damaged.path.display(),
            damaged.why
        ));
    }
    Ok(book)
}

/// Prints what people read.
fn print(text: &str) -> Result<Outcome, Failure> {
    print_bytes(harmless(text).as_bytes())
}

/// Prints what programs read, as it is.
fn print_json(text: &str) -> Result<Outcome, Failure> {
    print_bytes(text.as_bytes())
}

fn print_bytes(bytes: &[u8]) -> Result<Outcome, Failure> {
    let mut out = io::stdout().lock();
    out.write_all(bytes)
        .and_then(|()| out.flush())
        .map_err(Failure::Print)?;
    Ok(Outcome::Done)
}

/// Writes a table where it was asked for, and says so.
fn write(path: PathBuf, replace: bool, bytes: &[u8]) -> Result<Outcome, Failure> {
    let output = Output::planned(path, replace, &[])?;
    output.write(bytes)?;
    say(&format!("wrote {}", output.path().display()));
    Ok(Outcome::Done)
}

/// Today where the person is, ISO 8601.
fn today() -> String {
    ZonedDateTime::now().date().to_string()
}

fn init(args: InitArgs) -> Result<Outcome, Failure> {
    let named = args.name.unwrap_or_else(|| {
        let name = args.folder.file_name();
        name.map_or_else(String::new, |name| name.to_string_lossy().into_owned())
    });
    let card = BookCard {
        institution_code: args.institution,
        collection_code: args.collection,
        rights_holder: args.rights_holder,
        license: args.license,
        ..BookCard::new(named, args.numbers)
    };
    let book = Book::init(&args.folder, card)?;
    say(&format!(
        "made the book “{}” in {}",
        book.card.dataset_name,
        book.folder().display()
    ));
    Ok(Outcome::Done)
}

fn make_demo(args: &FolderArgs) -> Result<Outcome, Failure> {
    let book = demo::write(&args.folder, &Progress::default())?;
    say(&format!(
        "made the invented book “{}” in {}: {} vouchers, {} walks",
        book.card.dataset_name,
        book.folder().display(),
        book.vouchers().len(),
        book.forays().len()
    ));
    Ok(Outcome::Done)
}

fn look_through(args: &CheckArgs) -> Result<Outcome, Failure> {
    let book = Book::open(&args.folder)?;
    let found = check(&book, &today());
    if args.json {
        print_json(&book_text::complaints_json(&found))?;
    } else {
        print(&book_text::complaints(&found))?;
    }
    let is_wrong = found.iter().any(|one| one.gravity == Gravity::Wrong);
    Ok(if is_wrong {
        Outcome::NothingDone
    } else {
        Outcome::Done
    })
}

fn frequency(args: &FrequencyArgs) -> Result<Outcome, Failure> {
    let book = open(&args.folder)?;
    let mut table = frequencies(&book.walks());
    if !args.taxon.is_empty() {
        table.retain(|one| args.taxon.contains(&one.taxon));
    }
    if let Some(path) = &args.csv {
        write(path.clone(), args.replace, &frequency_csv::csv(&table)?)?;
    }
    if let Some(file) = &args.report {
        report::season(&book, &table, file.clone(), args)?;
    }
    if args.csv.is_none() && args.report.is_none() {
        return print(&book_text::frequencies(&table));
    }
    Ok(Outcome::Done)
}
