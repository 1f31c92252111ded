//! `poreline book forays …` as typed.

use crate::cli::args::day;
use clap::{Args, Subcommand};
use std::path::PathBuf;

/// What to do with walks.
#[derive(Debug, Clone, PartialEq, Subcommand)]
pub(in crate::cli) enum ForayCommand {
    /// Add a walk
    Add(ForayAddArgs),
    /// Write down what was seen on a walk that is in the book
    Seen(ForaySeenArgs),
    /// List the walks
    List(ForayListArgs),
    /// Show a walk with its checklist
    Show(ForayShowArgs),
    /// Take in a table of walks and what was seen on them
    Import(ForayImportArgs),
    /// Write all walks and their checklists to a table
    Export(ForayExportArgs),
}

/// `poreline book forays add` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct ForayAddArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// When, ISO 8601
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub(super) date: String,

    /// Where
    #[arg(long, value_name = "PLACE")]
    pub(super) place: String,

    /// How many walked
    #[arg(long, value_name = "NUMBER")]
    pub(super) people: Option<u32>,

    /// Notes
    #[arg(long, value_name = "NOTES")]
    pub(super) notes: Option<String>,

    /// A taxon that was seen, and the voucher where one was kept; may be repeated
    #[arg(long, value_name = "NAME[=NUMBER]")]
    pub(super) seen: Vec<String>,
}

/// `poreline book forays list` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct ForayListArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// Print one JSON object a walk and line, as the book keeps it
    #[arg(long)]
    pub(super) json: bool,
}

/// `poreline book forays seen` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct ForaySeenArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// The walk: its date, its place or both
    pub(super) foray: String,

    /// A taxon that was seen, and the voucher where one was kept
    #[arg(value_name = "NAME[=NUMBER]", required = true)]
    pub(super) seen: Vec<String>,
}

/// `poreline book forays show` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct ForayShowArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// The walk: its date, its place or both
    pub(super) foray: String,

    /// Print it as JSON, as the book keeps it
    #[arg(long)]
    pub(super) json: bool,
}

/// `poreline book forays import` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct ForayImportArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// The table: CSV with the columns eventDate, locality and scientificName; eventID, peopleCount,
    /// eventRemarks, identificationQualifier, catalogNumber and occurrenceRemarks where there are any
    #[arg(value_name = "CSV")]
    pub(super) table: PathBuf,
}

/// `poreline book forays export` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct ForayExportArgs {
    /// The book's folder
    pub(super) folder: PathBuf,

    /// The table to write
    #[arg(value_name = "CSV")]
    pub(super) table: PathBuf,

    /// Write over a file that is already there
    #[arg(long)]
    pub(super) replace: bool,
}
