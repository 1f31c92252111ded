//! Labels for packets.

use super::args::LabelsArgs;
use super::{Failure, open, write};
use crate::book::{Index, Voucher};
use crate::cli::Outcome;
use crate::export::labels;

pub(super) fn run(args: LabelsArgs) -> Result<Outcome, Failure> {
    let book = open(&args.folder)?;
    let all: Vec<Voucher> = book.vouchers().cloned().collect();
    let vouchers: Vec<&Voucher> = if args.numbers.is_empty() {
        let found = Index::of(&all).find(args.search.as_deref().unwrap_or_default());
        found.into_iter().map(|at| &all[at]).collect()
    } else {
        let of = |number: &String| book.voucher(number);
        args.numbers.iter().map(of).collect::<Result<_, _>>()?
    };
    if vouchers.is_empty() {
        return Err(Failure::NoLabels);
    }
    let sheets = labels::sheets(&book.card, &vouchers, args.paper.into())?;
    write(args.out, args.replace, &sheets)
}
