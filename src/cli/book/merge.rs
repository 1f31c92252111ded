//! Two versions of a voucher, put together or kept apart.

use super::args::{Counts, MergeArgs};
use super::vouchers::year;
use super::{Failure, open, say};
use crate::book::{Book, Versions, Voucher};
use crate::cli::Outcome;
use crate::export::book_text;

pub(super) fn run(args: &MergeArgs) -> Result<Outcome, Failure> {
    let mut book = open(&args.folder)?;
    let (mut mine, others) = versions(&book, args)?;
    for theirs in others {
        let versions = Versions::of_two(mine.clone(), &theirs);
        if args.keep_both {
            let number = book.next_number(year(&theirs))?;
            let apart = Versions::of_two(theirs, &mine).apart(number.clone());
            book.add_voucher(apart)?;
            say(&format!(
                "the other version of {} is {number} now",
                args.number
            ));
            continue;
        }
        let disputed = book_text::disputed(&versions);
        if !disputed.is_empty() && args.prefer.is_none() {
            say(&format!(
                "the two versions of {} differ in what both hold, and nothing was changed. Say which counts with --prefer book or --prefer other, or keep both as vouchers of their own with --keep-both\n{disputed}",
                args.number
            ));
            return Ok(Outcome::NothingDone);
        }
        mine = versions
            .together(args.prefer != Some(Counts::Other))
            .ok_or_else(|| Failure::NotTogether(args.number.clone()))?;
    }
    let aside = book.unite(mine)?;
    if !args.keep_both {
        say(&format!("{} is one voucher now", args.number));
    }
    for path in aside {
        say(&format!(
            "the other file is {} now, and the book does not read it",
            path.display()
        ));
    }
    Ok(Outcome::Done)
}

/// The version that stays, and the others.
fn versions(book: &Book, args: &MergeArgs) -> Result<(Voucher, Vec<Voucher>), Failure> {
    let all = book.versions(&args.number)?;
    let mut vouchers = all.into_iter().map(|(_, voucher)| voucher.clone());
    let mine = vouchers
        .next()
        .ok_or_else(|| Failure::OneVersion(args.number.clone()))?;
    let mut others: Vec<Voucher> = vouchers.collect();
    if let Some(path) = &args.with {
        let other = Book::read_voucher(path)?;
        if other.occurrence_id != mine.occurrence_id {
            return Err(Failure::OtherVoucher {
                path: path.clone(),
                number: args.number.clone(),
            });
        }
        others.push(other);
    }
    if others.is_empty() {
        return Err(Failure::OneVersion(args.number.clone()));
    }
    Ok((mine, others))
}
