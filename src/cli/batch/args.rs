//! `poreline batch` as typed.

use crate::batch::Part;
use crate::cli::args::SettingsArgs;
use clap::{Args, Subcommand};
use std::num::NonZeroUsize;
use std::path::PathBuf;

/// What `--help` says at its end.
pub(in crate::cli) const ABOUT: &str = "\
Results
  findings.jsonl      findings, one JSON object a photo and line, as of `measure --json`
  summary.csv         one row a photo
  vouchers.csv        one row a voucher, pooled over its photos (with --voucher-pattern
                      or --voucher-table)
  pores.csv           one row a pore (with --pores)
  summary.parquet, pores.parquet
                      the same two tables for analysis engines (with --parquet)
  failures.csv        what could not be measured, why, and what to do
  remarks.csv         photos that stand out of their voucher, and a scale or a sharpness
                      that drifts over the series
  per-mm.svg          figures per mm of each photo, by voucher or else by folder
  contact-sheet.html  all photos with their figures, to be sorted
  photos, parts       what the others are made from

  Started again the same way, it goes on where it was left: a photo that was measured
  by the same settings is not measured again, one that changed is. Photos are never
  altered.

Examples
  poreline batch evening --set-up stand --out results
  poreline batch evening --set-up stand --out results --voucher-pattern \"{voucher}_*\" \\
      --book fen --in-place
  find drawer -name '*.tif' | poreline batch --list - --set-up stand --out results --json
  poreline batch drawer --set-up stand --out results --part 3/16
  poreline batch join results --out results

Exit status
  0  every photo was measured     1  no photo could be measured
  2  what was typed is wrong      3  some could not be measured, or the run was stopped";

const WHICH: &str = "Which photos";
const HOW: &str = "How it is done";
const RESULTS: &str = "Results";
const VOUCHERS: &str = "Vouchers";

/// `poreline batch` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
#[command(args_conflicts_with_subcommands = true, subcommand_negates_reqs = true)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is an option that is typed or not"
)]
pub(in crate::cli) struct BatchArgs {
    #[command(subcommand)]
    pub(super) command: Option<BatchCommand>,

    /// Folder of photos; those in the folders in it are measured too
    #[arg(
        value_name = "FOLDER",
        required_unless_present = "list",
        conflicts_with = "list"
    )]
    pub(super) folder: Option<PathBuf>,

    /// Measure the photos that this file names, one a line; - reads the names from standard input
    #[arg(long, value_name = "FILE", help_heading = WHICH)]
    pub(super) list: Option<PathBuf>,

    /// Measure one share of the photos only, such as 3/16; `poreline batch join` puts shares together
    #[arg(long, value_name = "PART/PARTS", default_value_t = Part::WHOLE, hide_default_value = true, help_heading = WHICH)]
    pub(super) part: Part,

    /// Go on waiting for photos that arrive in the folder, until stopped with Ctrl-C
    #[arg(long, conflicts_with_all = ["list", "part"], help_heading = WHICH)]
    pub(super) watch: bool,

    /// Folder to keep the results in
    #[arg(long, value_name = "RESULTS", required = true, help_heading = RESULTS)]
    pub(super) out: Option<PathBuf>,

    /// Write the table of pores of all photos too, one row a pore
    #[arg(long, help_heading = RESULTS)]
    pub(super) pores: bool,

    /// Write the tables of photos and of pores as Parquet files too
    #[arg(long, help_heading = RESULTS)]
    pub(super) parquet: bool,

    /// Keep a picture of each photo with the pores outlined too
    #[arg(long, help_heading = RESULTS)]
    pub(super) overlays: bool,

    /// Print one JSON object per photo and line, for scripts
    #[arg(long, help_heading = RESULTS)]
    pub(super) json: bool,

    #[command(flatten)]
    pub(super) grouping: GroupingArgs,

    /// Attach the findings to the vouchers of this book
    #[arg(long, value_name = "BOOK", requires = "grouping", conflicts_with = "part", help_heading = VOUCHERS)]
    pub(super) book: Option<PathBuf>,

    /// Add vouchers that the book does not have
    #[arg(long, requires = "book", help_heading = VOUCHERS)]
    pub(super) add_vouchers: bool,

    /// Leave photos where they are; otherwise they are copied into the book
    #[arg(long, requires = "book", help_heading = VOUCHERS)]
    pub(super) in_place: bool,

    /// Who measured
    #[arg(long, value_name = "NAME", requires = "book", help_heading = VOUCHERS)]
    pub(super) measured_by: Option<String>,

    /// How many photos are measured at a time at most; as many as there are cores unless given
    #[arg(long, value_name = "NUMBER", help_heading = HOW)]
    pub(super) threads: Option<NonZeroUsize>,

    /// How much memory photos may take together, such as 4GB or 500MB; half of what there is unless given
    #[arg(long, value_name = "SIZE", value_parser = memory, help_heading = HOW)]
    pub(super) memory: Option<u64>,

    #[command(flatten)]
    pub(super) settings: SettingsArgs,
}

/// How photos are assigned to vouchers.
#[derive(Debug, Clone, PartialEq, Args)]
#[group(id = "grouping", multiple = false)]
pub(in crate::cli) struct GroupingArgs {
    /// Tell the voucher by the photo's name: {voucher} is its catalogue number, * anything else, such as
    /// "{voucher}_*"; with a /, such as "{voucher}/*", by folders and name
    #[arg(long, value_name = "PATTERN", help_heading = VOUCHERS)]
    pub(super) voucher_pattern: Option<String>,

    /// Tell the voucher by a table with the columns photo and catalogNumber
    #[arg(long, value_name = "FILE.csv", help_heading = VOUCHERS)]
    pub(super) voucher_table: Option<PathBuf>,
}

/// What else can be done.
#[derive(Debug, Clone, PartialEq, Subcommand)]
pub(in crate::cli) enum BatchCommand {
    /// Put parts together, and check that none is missing
    Join(JoinArgs),
}

/// `poreline batch join` as typed.
#[derive(Debug, Clone, PartialEq, Args)]
pub(in crate::cli) struct JoinArgs {
    /// Folders that parts were kept in; one, where all parts share it
    #[arg(value_name = "RESULTS", required = true)]
    pub(super) folders: Vec<PathBuf>,

    /// Folder to keep the whole in; may be one of those
    #[arg(long, value_name = "RESULTS")]
    pub(super) out: PathBuf,

    #[command(flatten)]
    pub(super) grouping: GroupingArgs,
}

/// A size that is none.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("“{0}” is no size; write it like 4GB or 500MB")]
pub(super) struct NoSize(String);

fn memory(typed: &str) -> Result<u64, NoSize> {
    let none = || NoSize(typed.to_owned());
    let unit_at = typed
        .find(|c: char| !c.is_ascii_digit() && c != '.')
        .ok_or_else(none)?;
    let (number, unit) = typed.split_at(unit_at);
    let bytes = match unit.trim().to_ascii_uppercase().as_str() {
        "MB" => 1e6,
        "GB" => 1e9,
        _ => return Err(none()),
    };
    let bytes = number.parse::<f64>().map_err(|_| none())? * bytes;
    if (1.0..1e18).contains(&bytes) {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between 1 and 10¹⁸"
        )]
        let bytes = bytes as u64;
        Ok(bytes)
    } else {
        Err(none())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_have_a_number_and_a_unit() {
        assert_eq!(memory("4GB"), Ok(4_000_000_000));
        assert_eq!(memory("1.5 gb"), Ok(1_500_000_000));
        assert_eq!(memory("500MB"), Ok(500_000_000));
        for typed in ["", "4", "GB", "0GB", "-4GB", "4TB", "4.4.4GB", "1e3GB"] {
            assert!(memory(typed).is_err(), "{typed}");
        }
    }
}
