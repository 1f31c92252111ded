//! Keeping the comparison with published ranges up to date.

use super::{Comparison, today};
use crate::book::{Voucher, observation};
use crate::ranges::{Observation, Ranges};
use crate::session::document::sentence;
use crate::session::{Session, Tone, file_name};
use crate::wording::text;
use std::borrow::Cow;

impl Session {
    /// Compares once more where something that is compared has changed.
    pub(in crate::session) fn compare_anew(&mut self) {
        if !self.record.compares {
            return;
        }
        let voucher = self
            .record
            .form
            .as_ref()
            .map(|form| form.filled_in(&today()).0);
        let (of, seen) = self.seen(voucher);
        let record = &mut self.record;
        if record.seen == seen && record.comparison.of == of {
            return;
        }
        let of_book = record.book.as_ref().and_then(|book| book.ranges());
        let ranges = of_book.map_or_else(
            || Ranges::shipped().map(Cow::Owned),
            |ranges| Ok(Cow::Borrowed(ranges)),
        );
        match ranges {
            Ok(ranges) => {
                record.comparison = Comparison::made(of, &seen, &ranges);
                record.seen = seen;
            }
            Err(error) => self.notify(Tone::Trouble, sentence(&error)),
        }
    }

    /// What is compared: the present findings, or else the voucher's, with what its form says.
    fn seen(&self, voucher: Option<Voucher>) -> (String, Observation) {
        let of_voucher = voucher.as_ref().map(observation).unwrap_or_default();
        let form = voucher.map(|voucher| voucher.catalog_number);
        let current = self.results.as_ref().filter(|_| self.outdated().is_none());
        match (current, &self.document.photo, form) {
            (Some(results), Some(photo), form) => {
                let with = form.map_or_else(String::new, |number| {
                    text!("with-host-colour-and-cap-of", number = number)
                });
                let seen = Observation {
                    host: of_voucher.host,
                    colour: of_voucher.colour,
                    cap_width_cm: of_voucher.cap_width_cm,
                    ..Observation::of(&results.measurement.findings)
                };
                let of = text!(
                    "the-findings-on-photo",
                    photo = file_name(&photo.path),
                    with = with
                );
                (of, seen)
            }
            (_, _, Some(number)) => (
                text!("all-that-stands-in-voucher", number = number),
                of_voucher,
            ),
            (_, _, None) => (text!("nothing-compared-yet").to_owned(), of_voucher),
        }
    }
}
