//! Catalogue numbers: a pattern of the recorder's own, and the next number in it.

use std::fmt;

/// A pattern such as `AF-{year}-{number:4}`: `{year}` is the year of collecting, `{number}` counts up,
/// `{number:4}` is filled with zeros to four digits.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pattern {
    before: String,
    digits: usize,
    after: String,
}

/// Why a pattern gives no numbers.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PatternError {
    /// No place for the number, or more than one.
    #[error(
        "“{0}” is no pattern of catalogue numbers: write {{number}} or {{number:4}} just once in it"
    )]
    NoNumber(String),
    /// Too many digits.
    #[error("“{0}” asks for more digits than the 12 that a catalogue number may have")]
    TooManyDigits(String),
}

/// Most digits of a number: no collection has more specimens.
const MOST_DIGITS: usize = 12;

impl Pattern {
    /// Reads a pattern.
    ///
    /// # Errors
    /// [`PatternError`] without just one place for the number.
    pub fn new(typed: &str) -> Result<Self, PatternError> {
        let none = || PatternError::NoNumber(typed.to_owned());
        let (before, rest) = typed.split_once("{number").ok_or_else(none)?;
        let (digits, after) = rest.split_once('}').ok_or_else(none)?;
        if after.contains("{number") {
            return Err(none());
        }
        let digits = match digits.strip_prefix(':') {
            None if digits.is_empty() => 1,
            None => return Err(none()),
            Some(digits) => digits.parse().map_err(|_| none())?,
        };
        if digits > MOST_DIGITS {
            return Err(PatternError::TooManyDigits(typed.to_owned()));
        }
        Ok(Self {
            before: before.to_owned(),
            digits,
            after: after.to_owned(),
        })
    }

    /// The number after the highest that is taken in this pattern; 1 where none is.
    #[must_use]
    pub fn next<'a>(&self, year: i16, taken: impl IntoIterator<Item = &'a str>) -> String {
        let (before, after) = (in_year(&self.before, year), in_year(&self.after, year));
        let highest = taken
            .into_iter()
            .filter_map(|number| number.strip_prefix(&before)?.strip_suffix(&after))
            .filter(|digits| digits.len() <= MOST_DIGITS)
            .filter_map(|digits| digits.parse::<u64>().ok())
            .max()
            .unwrap_or(0);
        format!(
            "{before}{:0width$}{after}",
            highest + 1,
            width = self.digits
        )
    }
}

fn in_year(text: &str, year: i16) -> String {
    text.replace("{year}", &year.to_string())
}

impl fmt::Display for Pattern {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{{number:{}}}{}", self.before, self.digits, self.after)
    }
}

/// A name's words.
pub(super) fn words(name: &str) -> impl Iterator<Item = &str> {
    name.split_whitespace()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_next_number_follows_the_highest_of_the_year() {
        let pattern = Pattern::new("AF-{year}-{number:4}").expect("a pattern");
        let next = |taken: &[&str]| pattern.next(2026, taken.iter().copied());
        assert_eq!(next(&[]), "AF-2026-0001");
        assert_eq!(
            next(&["AF-2026-0003", "AF-2026-0001", "AF-2025-0900"]),
            "AF-2026-0004"
        );
        assert_eq!(next(&["AF-2026-9999"]), "AF-2026-10000");
        assert_eq!(next(&["AF-2026-x", "AF-2026-", "12"]), "AF-2026-0001");
    }

    #[test]
    fn a_pattern_has_just_one_number() {
        for typed in [
            "AF",
            "{number}-{number}",
            "{number",
            "{number:x}",
            "{numbers}",
        ] {
            assert!(
                matches!(Pattern::new(typed), Err(PatternError::NoNumber(_))),
                "{typed}"
            );
        }
        assert!(Pattern::new("{number:99}").is_err());
        assert_eq!(
            Pattern::new("{number}").expect("a pattern").next(1, []),
            "1"
        );
    }
}
