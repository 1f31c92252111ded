//! Reports on vouchers, and on months.

use super::args::{FrequencyArgs, ReportArgs, ReportFile};
use super::export::places;
use super::{Failure, open, today, write};
use crate::book::{Attached, Book, Evidence, Frequency, NoPhoto, Voucher};
use crate::cli::args::PaperSize;
use crate::cli::files::Output;
use crate::cli::{Outcome, say};
use crate::export::darwin_core::Places;
use crate::export::report::{self, Details, MOST_BESIDE, Report, Shown, Told};
use crate::progress::Progress;
use crate::ranges::Ranges;

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
    let report = if args.side_by_side {
        beside(&book, &vouchers, places)?
    } else {
        let told = (vouchers.iter())
            .map(|voucher| told(&book, voucher, places))
            .collect::<Result<Vec<_>, _>>()?;
        report::vouchers(&told, &Ranges::shipped()?, &today())
    };
    if places != Places::AsRecorded {
        say(
            "places are blurred or withheld in the fields for them; look whether notes and photos tell them all the same",
        );
    }
    save(&report, args.out, args.paper, args.replace)
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

/// A voucher with the pictures of its photos, one photo in memory at a time.
fn told<'a>(book: &'a Book, voucher: &'a Voucher, places: Places) -> Result<Told<'a>, Failure> {
    let mut shown = Vec::new();
    for attached in voucher.current() {
        shown.push(match look(book, voucher, attached) {
            Ok(evidence) => Shown::of(&evidence, &attached.findings)?,
            Err(why) => nothing(voucher, &why),
        });
    }
    Ok(Told {
        card: &book.card,
        voucher,
        places,
        shown,
    })
}

fn look(book: &Book, voucher: &Voucher, attached: &Attached) -> Result<Evidence, NoPhoto> {
    book.evidence(voucher, attached, &Progress::default())
}

/// What is shown where there is no photo; the report goes on without.
fn nothing(voucher: &Voucher, why: &NoPhoto) -> Shown {
    say(&format!(
        "{}: {why}; the report goes on without pictures",
        voucher.catalog_number
    ));
    Shown::nothing(why)
}

/// Vouchers beside one another: details of their first photos, all of the same size in mm.
fn beside(book: &Book, vouchers: &[&Voucher], places: Places) -> Result<Report, Failure> {
    let mut told = Vec::new();
    let mut seen = Vec::new();
    for voucher in vouchers {
        let mut shown = Shown::default();
        let evidence = match voucher.current().first() {
            None => {
                shown = Shown::nothing(&"no photo of it was measured");
                None
            }
            Some(attached) => match look(book, voucher, attached) {
                Ok(evidence) => {
                    if let Err(why) = &evidence.seen {
                        shown = Shown::nothing(why);
                    }
                    Some(evidence)
                }
                Err(why) => {
                    shown = nothing(voucher, &why);
                    None
                }
            },
        };
        told.push(Told {
            card: &book.card,
            voucher,
            places,
            shown: vec![shown],
        });
        seen.push(evidence);
    }
    let all = || {
        seen.iter()
            .flatten()
            .filter_map(|evidence| evidence.seen.as_ref().ok())
    };
    let wanted = all().map(Details::wanted_mm).fold(0.0, f64::max);
    let widest = all().map(Details::widest_mm).fold(f64::INFINITY, f64::min);
    let side_mm = wanted.min(widest);
    let details = seen
        .iter()
        .map(|evidence| match evidence {
            Some(evidence) => match &evidence.seen {
                Ok(seen) => Ok(Some(Details::of(evidence, seen, side_mm)?)),
                Err(_) => Ok(None),
            },
            None => Ok(None),
        })
        .collect::<Result<Vec<_>, Failure>>()?;
    Ok(report::side_by_side(&told, &details, side_mm, &today()))
}
