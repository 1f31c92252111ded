//! Reports on vouchers, and on months.

use super::args::{FrequencyArgs, ReportArgs, ReportFile};
use super::export::places;
use super::{Failure, open, today, write};
use crate::book::{Book, Frequency, Voucher};
use crate::cli::args::PaperSize;
use crate::cli::files::Output;
use crate::cli::{Outcome, say};
use crate::export::darwin_core::Places;
use crate::export::report::{self, MOST_BESIDE, Report};
use crate::progress::Progress;
use crate::reporting;

pub(super) fn run(args: ReportArgs) -> Result<Outcome, Failure> {
    let book = open(&args.folder)?;
    let vouchers: Vec<&Voucher> = (args.numbers.iter())
        .map(|number| book.voucher(number))
        .collect::<Result<_, _>>()?;
    if args.side_by_side && !(2..=MOST_BESIDE).contains(&vouchers.len()) {
        return Err(Failure::NotBeside(vouchers.len()));
    }
    // Photos are measured once more, so a name that cannot be written is told before.
    let (ReportFile::Html(path) | ReportFile::Pdf(path)) = &args.out;
    Output::planned(path.clone(), args.replace, &[])?;
    let places = places(args.blur_places, args.no_places);
    let (today, progress) = (today(), Progress::default());
    let made = if args.side_by_side {
        reporting::side_by_side(&book, &vouchers, places, &today, &progress)?
    } else {
        reporting::vouchers(&book, &vouchers, places, &today, &progress)?
    };
    for why in made.without {
        say(&format!("{why}; the report goes on without pictures"));
    }
    if places != Places::AsRecorded {
        say(
            "places are blurred or withheld in the fields for them; look whether notes and photos tell them all the same",
        );
    }
    save(&made.report, args.out, args.paper, args.replace)
}

/// A report of months for the taxa of a table.
pub(super) fn season(
    book: &Book,
    table: &[Frequency],
    file: ReportFile,
    args: &FrequencyArgs,
) -> Result<Outcome, Failure> {
    let report = report::season(&book.card.dataset_name, table, &today());
    save(&report, file, args.paper, args.replace)
}

fn save(
    report: &Report,
    file: ReportFile,
    paper: PaperSize,
    replace: bool,
) -> Result<Outcome, Failure> {
    match file {
        ReportFile::Html(path) => write(path, replace, &report::html(report)),
        ReportFile::Pdf(path) => write(path, replace, &report::pdf(report, paper.into())?),
    }
}
