//! `poreline card`: the sheet of scale cards, written to a file.

use super::args::CardArgs;
use super::files::{Output, OutputError};
use super::{Outcome, say};
use crate::export::card_pdf;

/// Carries out `poreline card`.
pub(super) fn run(args: CardArgs) -> Outcome {
    let output = match Output::planned(args.out, args.replace, &[]) {
        Ok(output) => output,
        Err(error) => {
            say(&error.to_string());
            return Outcome::BadUsage;
        }
    };
    match output.write(&card_pdf::sheet(args.paper.into())) {
        Ok(()) => {
            say(&format!(
                "wrote {}. Print it at 100 %, without fitting to the page, and check the 50 mm line with a ruler",
                output.path().display()
            ));
            Outcome::Done
        }
        Err(error @ OutputError::AlreadyThere(_)) => {
            say(&error.to_string());
            Outcome::BadUsage
        }
        Err(error) => {
            say(&error.to_string());
            Outcome::NothingDone
        }
    }
}
