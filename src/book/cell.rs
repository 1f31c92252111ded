//! Text in the cells of a CSV table that a person opens in a spreadsheet.
//!
//! A spreadsheet takes a cell that begins with `=`, `+`, `-` or `@` for a formula and carries it out, so
//! that a remark somebody else wrote could run on the reader's computer. Such a cell gets an apostrophe
//! in front, which spreadsheets take to mean *text* (OWASP, *CSV Injection*). Numbers are left as they
//! are, so that a longitude of −1.25 stays a number. Reading takes the apostrophe off again.
//!
//! Darwin Core Archives are read by programs and not by spreadsheets; there text stays as it was written.

/// What a formula begins with, and the blanks that spreadsheets skip before it.
const STARTS_A_FORMULA: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];

/// The text, so that no spreadsheet carries it out.
#[must_use]
pub fn guarded(text: &str) -> String {
    if text.starts_with(STARTS_A_FORMULA) && !is_number(text) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}

/// What [`guarded`] was given.
#[must_use]
pub fn unguarded(cell: &str) -> &str {
    match cell.strip_prefix('\'') {
        Some(text) if text.starts_with(STARTS_A_FORMULA) => text,
        _ => cell,
    }
}

fn is_number(text: &str) -> bool {
    text.parse::<f64>().is_ok_and(f64::is_finite)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_that_a_spreadsheet_would_carry_out_is_left() {
        // The first three: OWASP, CSV Injection.
        for text in [
            "=1+2\";=1+2",
            "@SUM(1+1)*cmd|' /C calc'!A0",
            "+cmd|' /C calc'!A0",
            "-2+3",
            "\t=1",
            "- on a stump",
        ] {
            let cell = guarded(text);
            assert!(cell.starts_with('\''), "{text}");
            assert_eq!(unguarded(&cell), text);
        }
    }

    #[test]
    fn numbers_and_ordinary_words_stay_as_they_are() {
        for text in ["-1.25", "+3", "4", "", "Fagus = beech", "'quoted'", "cf."] {
            assert_eq!(guarded(text), text);
            assert_eq!(unguarded(text), text);
        }
    }
}
