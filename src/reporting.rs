//! Reports on vouchers of a book: looks at their photos once more, and puts together what is shown.

use crate::book::{Book, BookError, Foray, NoPhoto, Voucher};
use crate::export::darwin_core::Places;
use crate::export::report::{self, Details, PictureError, Report, Shown, Told};
use crate::progress::Progress;

/// Why there is no report.
#[derive(Debug, thiserror::Error)]
pub enum ReportError {
    /// The book, or its own table of ranges, cannot be read.
    #[error(transparent)]
    Book(#[from] BookError),
    /// A picture could not be made.
    #[error(transparent)]
    Picture(#[from] PictureError),
}

/// A report, and what it had to do without.
#[derive(Debug)]
pub struct Made {
    /// The report.
    pub report: Report,
    /// Vouchers some picture of which could not be shown, a sentence each that says why.
    pub without: Vec<String>,
}

/// A report on vouchers, one after the other; `today` is an ISO 8601 date.
///
/// # Errors
/// [`ReportError`]. A photo that is gone or has changed is none: the report goes on without.
pub fn vouchers(
    book: &Book,
    vouchers: &[&Voucher],
    places: Places,
    today: &str,
    progress: &Progress<'_>,
) -> Result<Made, ReportError> {
    let mut without = Vec::new();
    let mut told = Vec::new();
    for voucher in vouchers {
        // One photo in memory at a time.
        let mut shown = Vec::new();
        for attached in voucher.current() {
            shown.push(match book.evidence(voucher, attached, progress) {
                Ok(evidence) => Shown::of(&evidence, &attached.findings)?,
                Err(why) => nothing(voucher, &why, &mut without),
            });
        }
        told.push(Told {
            card: &book.card,
            voucher,
            walk: walk(book, voucher, places),
            places,
            shown,
        });
    }
    let report = report::vouchers(&told, &book.ranges()?, today);
    Ok(Made { report, without })
}

/// Vouchers beside one another: details of their first photos, all of the same size in mm.
///
/// # Errors
/// As [`vouchers`].
pub fn side_by_side(
    book: &Book,
    vouchers: &[&Voucher],
    places: Places,
    today: &str,
    progress: &Progress<'_>,
) -> Result<Made, ReportError> {
    let mut without = Vec::new();
    let mut told = Vec::new();
    let mut seen = Vec::new();
    for voucher in vouchers {
        let mut shown = Shown::default();
        let evidence = match voucher.current().first() {
            None => {
                shown = Shown::nothing(&"no photo of it was measured");
                None
            }
            Some(attached) => match book.evidence(voucher, attached, progress) {
                Ok(evidence) => {
                    if let Err(why) = &evidence.seen {
                        shown = Shown::nothing(why);
                    }
                    Some(evidence)
                }
                Err(why) => {
                    shown = nothing(voucher, &why, &mut without);
                    None
                }
            },
        };
        told.push(Told {
            card: &book.card,
            voucher,
            walk: walk(book, voucher, places),
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
        .collect::<Result<Vec<_>, ReportError>>()?;
    let report = report::side_by_side(&told, &details, side_mm, today);
    Ok(Made { report, without })
}

/// The foray, whose name tells the place.
fn walk(book: &Book, voucher: &Voucher, places: Places) -> Option<String> {
    let id = voucher.event_id.as_ref()?;
    (places == Places::AsRecorded).then(|| book.foray(id).map_or_else(|_| id.clone(), Foray::title))
}

/// What is shown where there is no photo.
fn nothing(voucher: &Voucher, why: &NoPhoto, without: &mut Vec<String>) -> Shown {
    without.push(format!("{}: {why}", voucher.catalog_number));
    Shown::nothing(why)
}
