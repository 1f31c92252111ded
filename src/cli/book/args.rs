//! `poreline book …` as typed.

use super::foray_args::ForayCommand;
use crate::cli::args::{Field, PaperSize, day, field};
use clap::builder::NonEmptyStringValueParser;
use clap::{ArgGroup, Args, Subcommand, ValueEnum};
use std::ffi::OsStr;
use std::path::PathBuf;

/// What to do with a book.
#[derive(Debug, Clone, PartialEq, Subcommand)]
pub(in crate::cli) enum BookCommand {
    /// Make an invented book to try things on, with photos that were made by rule
    Demo(FolderArgs),
    /// Make a book in a folder
    Init(InitArgs),
    /// Add a voucher, with photos and findings where there are any
    Add(Box<AddArgs>),
    /// List the vouchers
    List(ListArgs),
    /// Show all of one voucher
    Show(ShowArgs),
    /// Change fields of a voucher
    Set(SetArgs),
    /// Compare a voucher with published ranges
    Compare(CompareArgs),
    /// Give a voucher a name; the one it had is kept in its history
    Determine(DetermineArgs),
    /// Attach photos, or findings printed by `poreline measure --json`
    Attach(AttachArgs),
    /// Take a photo off that was attached by mistake, with what was measured on it
    Detach(DetachArgs),
    /// Put two versions of a voucher together, as a shared folder can leave them, or keep both
    Merge(MergeArgs),
    /// Look for what is wrong: dates, places, photos that changed, numbers given twice
    Check(CheckArgs),
    /// How often each taxon was met on the forays
    Frequency(FrequencyArgs),
    /// Write the book as a Darwin Core Archive, or as a table
    Export(ExportArgs),
    /// Make labels for the packets, to print and cut out
    Labels(LabelsArgs),
    /// Make a report on vouchers to read, print and pass on, with photos, outlines and figures
    Report(ReportArgs),
    /// Walks and their checklists
    #[command(subcommand)]
    Forays(ForayCommand),
}

/// A book and no more.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct FolderArgs {
    /// The book's folder
    pub(super) folder: PathBuf,
}

/// `poreline book init` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct InitArgs {
    /// The folder; it is made where it is missing
    pub(super) folder: PathBuf,

    /// What the book is called; the folder's name unless given
    #[arg(long, value_name = "NAME")]
    pub(super) name: Option<String>,

    /// How catalogue numbers look: {year} is the year of collecting, {number:4} counts up in four digits
    #[arg(long, value_name = "PATTERN", default_value = "{year}-{number:4}")]
    pub(super) numbers: String,

    /// Acronym of the institution
    #[arg(long, value_name = "CODE")]
    pub(super) institution: Option<String>,

    /// Acronym of the collection
    #[arg(long, value_name = "CODE")]
    pub(super) collection: Option<String>,

    /// Who owns the rights and answers for the records
    #[arg(long, value_name = "NAME")]
    pub(super) rights_holder: Option<String>,

    /// Address of the licence, such as <http://creativecommons.org/publicdomain/zero/1.0/legalcode>
    #[arg(long, value_name = "ADDRESS")]
    pub(super) license: Option<String>,
}

/// `poreline book add` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct AddArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// A photo of it; may be repeated
    #[arg(long, value_name = "PHOTO")]
    pub(super) photo: Vec<PathBuf>,

    /// Findings printed by `poreline measure --json`
    #[arg(long, value_name = "FINDINGS.jsonl")]
    pub(super) from: Option<PathBuf>,

    /// A field by its name in Darwin Core, such as locality="Alder Fen"; may be repeated
    #[arg(long, value_name = "TERM=VALUE", value_parser = field)]
    pub(super) set: Vec<Field>,

    /// The foray it was collected on: its date, its place or both; gives date and place too
    #[arg(long, value_name = "FORAY")]
    pub(super) foray: Option<String>,

    #[command(flatten)]
    pub(super) measured: MeasuredArgs,
}

/// About photos and findings.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct MeasuredArgs {
    /// Leave photos where they are; otherwise they are copied into the book
    #[arg(long)]
    pub(super) in_place: bool,

    /// Who measured
    #[arg(long, value_name = "NAME")]
    pub(super) measured_by: Option<String>,
}

/// `poreline book list` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct ListArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// Only vouchers that hold all these words, anywhere and in any case
    #[arg(long, value_name = "WORDS")]
    pub(super) search: Option<String>,

    /// Print one JSON object a voucher and line, as the book keeps it
    #[arg(long)]
    pub(super) json: bool,
}

/// `poreline book show` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct ShowArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// Its catalogue number
    pub(super) number: String,

    /// Compare it with published ranges
    #[arg(long, conflicts_with = "json")]
    pub(super) compare: bool,

    /// Print it as JSON, as the book keeps it
    #[arg(long)]
    pub(super) json: bool,
}

/// `poreline book compare` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct CompareArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// Its catalogue number
    pub(super) number: String,

    /// One more table of your own, besides the book's ranges.csv
    #[arg(long, value_name = "FILE.csv")]
    pub(super) ranges: Option<PathBuf>,

    /// Print it as JSON, all taxa of the tables
    #[arg(long)]
    pub(super) json: bool,
}

/// `poreline book merge` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct MergeArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// Its catalogue number
    pub(super) number: String,

    /// The other version's file, where it is not in the book
    #[arg(long, value_name = "FILE.json")]
    pub(super) with: Option<PathBuf>,

    /// Which counts where both hold something else
    #[arg(long, value_enum, conflicts_with = "keep_both")]
    pub(super) prefer: Option<Counts>,

    /// Keep the other version as a voucher of its own
    #[arg(long)]
    pub(super) keep_both: bool,
}

/// Which of two versions counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum Counts {
    /// The book's own file
    Book,
    /// The other file
    Other,
}

/// `poreline book check` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct CheckArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// Print one JSON object a line: record, gravity, code and text
    #[arg(long)]
    pub(super) json: bool,
}

/// About changing what is in the book.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct ChangeArgs {
    /// Only if it still has this revision, as `book show --json` told it
    #[arg(long, value_name = "NUMBER")]
    pub(super) revision: Option<u64>,
}

/// `poreline book set` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct SetArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// Its catalogue number
    pub(super) number: String,

    /// Fields by their names in Darwin Core; an empty value takes a field away
    #[arg(value_name = "TERM=VALUE", value_parser = field, required = true)]
    pub(super) fields: Vec<Field>,

    #[command(flatten)]
    pub(super) change: ChangeArgs,
}

/// `poreline book determine` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct DetermineArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// Its catalogue number
    pub(super) number: String,

    /// The name, such as "Trametes versicolor"
    pub(super) name: String,

    /// How sure: cf. or aff.
    #[arg(long, value_name = "cf.|aff.", value_parser = qualifier)]
    pub(super) qualifier: Option<String>,

    /// Who says so
    #[arg(long, value_name = "NAME", value_parser = NonEmptyStringValueParser::new())]
    pub(super) by: String,

    /// Why
    #[arg(long, value_name = "WHY")]
    pub(super) because: Option<String>,

    /// When, ISO 8601; today unless given
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub(super) date: Option<String>,

    #[command(flatten)]
    pub(super) change: ChangeArgs,
}

/// `poreline book attach` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct AttachArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// Its catalogue number
    pub(super) number: String,

    /// Photos, and findings in files that end in .json or .jsonl
    #[arg(value_name = "FILE", required = true)]
    pub(super) files: Vec<PathBuf>,

    #[command(flatten)]
    pub(super) change: ChangeArgs,

    #[command(flatten)]
    pub(super) measured: MeasuredArgs,
}

/// `poreline book detach` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct DetachArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// Its catalogue number
    pub(super) number: String,

    /// The photo's file name, as `poreline book show` prints it, or the beginning of its SHA-256
    #[arg(value_parser = NonEmptyStringValueParser::new())]
    pub(super) photo: String,

    #[command(flatten)]
    pub(super) change: ChangeArgs,
}

/// `poreline book frequency` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct FrequencyArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// Only these taxa; may be repeated
    #[arg(long, value_name = "NAME")]
    pub(super) taxon: Vec<String>,

    /// Write the table to this file, with months
    #[arg(long, value_name = "FILE")]
    pub(super) csv: Option<PathBuf>,

    /// Write a chart of months for each taxon to this file, as HTML or PDF
    #[arg(long, value_name = "FILE.html|FILE.pdf", value_parser = report_file)]
    pub(super) report: Option<ReportFile>,

    /// Paper of a report in PDF
    #[arg(long, value_enum, default_value_t = PaperSize::A4)]
    pub(super) paper: PaperSize,

    /// Write over files that are already there
    #[arg(long)]
    pub(super) replace: bool,
}

/// `poreline book export` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
#[command(group(ArgGroup::new("what").args(["darwin_core", "csv"]).required(true).multiple(true)))]
pub(in crate::cli) struct ExportArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// Write a Darwin Core Archive to this file, for a collection or a portal
    #[arg(long, value_name = "FILE.zip")]
    pub(super) darwin_core: Option<PathBuf>,

    /// Write a table for a spreadsheet to this file
    #[arg(long, value_name = "FILE.csv")]
    pub(super) csv: Option<PathBuf>,

    /// Tell places only to a cell of 0.1° by 0.1°, and not in words
    #[arg(long)]
    pub(super) blur_places: bool,

    /// Tell no places but the country
    #[arg(long, conflicts_with = "blur_places")]
    pub(super) no_places: bool,

    /// Address of the folder in which the photos lie on the web
    #[arg(long, value_name = "ADDRESS", requires = "darwin_core")]
    pub(super) photos_at: Option<String>,

    /// Day of publication, ISO 8601; the last day that any record names unless given
    #[arg(long, value_name = "DATE", value_parser = day, requires = "darwin_core")]
    pub(super) published: Option<String>,

    /// Write over files that are already there
    #[arg(long)]
    pub(super) replace: bool,
}

/// `poreline book labels` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct LabelsArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// Catalogue numbers; all vouchers unless given
    #[arg(value_name = "NUMBER")]
    pub(super) numbers: Vec<String>,

    /// Only vouchers that hold all these words
    #[arg(long, value_name = "WORDS", conflicts_with = "numbers")]
    pub(super) search: Option<String>,

    /// Write the sheets to this file, as PDF
    #[arg(long, value_name = "FILE.pdf")]
    pub(super) out: PathBuf,

    /// Paper to print on
    #[arg(long, value_enum, default_value_t = PaperSize::A4)]
    pub(super) paper: PaperSize,

    /// Write over a file that is already there
    #[arg(long)]
    pub(super) replace: bool,
}

/// `poreline book report` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is an option that is typed or not"
)]
pub(in crate::cli) struct ReportArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// Catalogue numbers
    #[arg(value_name = "NUMBER", required = true)]
    pub(super) numbers: Vec<String>,

    /// Set two to four vouchers beside one another, pictures at one scale, what differs most first
    #[arg(long)]
    pub(super) side_by_side: bool,

    /// Write it to this file, as HTML or PDF by its ending
    #[arg(long, value_name = "FILE.html|FILE.pdf", value_parser = report_file)]
    pub(super) out: ReportFile,

    /// Paper of a PDF
    #[arg(long, value_enum, default_value_t = PaperSize::A4)]
    pub(super) paper: PaperSize,

    /// Tell places only to a cell of 0.1° by 0.1°, and not in words
    #[arg(long)]
    pub(super) blur_places: bool,

    /// Tell no places but the country
    #[arg(long, conflicts_with = "blur_places")]
    pub(super) no_places: bool,

    /// Write over a file that is already there
    #[arg(long)]
    pub(super) replace: bool,
}

/// A report's file, whose ending tells what is written.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::cli) enum ReportFile {
    Html(PathBuf),
    Pdf(PathBuf),
}

fn report_file(typed: &str) -> Result<ReportFile, String> {
    let path = PathBuf::from(typed);
    let ending = path.extension().map(OsStr::to_ascii_lowercase);
    match ending.as_ref().and_then(|end| end.to_str()) {
        Some("html" | "htm") => Ok(ReportFile::Html(path)),
        Some("pdf") => Ok(ReportFile::Pdf(path)),
        _ => Err("a report is HTML or PDF; let the name end in .html or .pdf".to_owned()),
    }
}

/// A qualifier as Darwin Core keeps it, with its dot.
fn qualifier(typed: &str) -> Result<String, String> {
    match typed.trim().trim_end_matches('.') {
        word @ ("cf" | "aff") => Ok(format!("{word}.")),
        _ => Err(
            "write cf. where it is to be compared with the species, aff. where it is akin to it; \
                  put anything else in --because"
                .to_owned(),
        ),
    }
}
