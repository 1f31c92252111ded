//! Dates as records write them.

use jiff::civil::{Date, DateTime};

/// The day of an ISO 8601 date, date-time or interval; `None` where it is none of them. A year or a
/// month alone counts from its first day.
pub(super) fn day(text: &str) -> Option<Date> {
    let (first, rest) = text
        .split_once('/')
        .map_or((text, None), |(a, b)| (a, Some(b)));
    let one = |text: &str| -> Option<Date> {
        let padded = match text.len() {
            4 => format!("{text}-01-01"),
            7 => format!("{text}-01"),
            _ => text.to_owned(),
        };
        padded
            .parse::<Date>()
            .or_else(|_| padded.parse::<DateTime>().map(DateTime::date))
            .ok()
    };
    if let Some(rest) = rest {
        one(rest)?;
    }
    one(first)
}
