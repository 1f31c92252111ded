//! What goes out of a book.

use super::args::ExportArgs;
use super::{Failure, open, write};
use crate::book::Voucher;
use crate::cli::{Outcome, say};
use crate::export::book_csv;
use crate::export::darwin_core::{ArchiveOptions, Places, archive};

pub(super) fn run(args: ExportArgs) -> Result<Outcome, Failure> {
    let book = open(&args.folder)?;
    let vouchers: Vec<&Voucher> = book.vouchers().collect();
    let places = places(args.blur_places, args.no_places);
    if let Some(path) = args.darwin_core {
        let options = ArchiveOptions {
            places,
            photos_at: args.photos_at.clone(),
            published: args.published,
        };
        write(
            path,
            args.replace,
            &archive(&book.card, &vouchers, &options)?,
        )?;
        if book.card.license.is_none() {
            say(
                "the book states no licence, so nobody may use the data; add \"license\" to book.json",
            );
        }
    }
    if let Some(path) = args.csv {
        write(
            path,
            args.replace,
            &book_csv::csv(&book.card, &vouchers, places)?,
        )?;
    }
    if places != Places::AsRecorded {
        say(
            "places are blurred or withheld in the fields for them; look whether notes tell them all the same",
        );
        if args.photos_at.is_some() {
            say(
                "photos may hold the place in their files; take it out before putting them on the web",
            );
        }
    }
    Ok(Outcome::Done)
}

/// How much is told of where specimens were found.
pub(super) const fn places(blur: bool, withhold: bool) -> Places {
    match (blur, withhold) {
        (_, true) => Places::Withheld,
        (true, false) => Places::Blurred,
        (false, false) => Places::AsRecorded,
    }
}
