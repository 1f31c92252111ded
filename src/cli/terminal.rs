//! Words for people, on a terminal.

use std::borrow::Cow;
use std::io::{self, Write as _};

/// Says something on standard error; where that is closed there is nobody to tell.
pub fn say(words: &str) {
    let _ = writeln!(io::stderr(), "poreline: {}", harmless(words));
}

/// The same text without what a terminal would obey (ECMA-48) or what turns the order of letters about
/// (Unicode Standard Annex 9): records and names of files come from anybody, and are to be read only.
/// A mark (U+FFFD) stands in each place.
pub(super) fn harmless(text: &str) -> Cow<'_, str> {
    let is_order = |letter| matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let is_obeyed =
        |letter: char| letter.is_control() && !matches!(letter, '\n' | '\t') || is_order(letter);
    if text.contains(is_obeyed) {
        Cow::Owned(text.replace(is_obeyed, "\u{fffd}"))
    } else {
        Cow::Borrowed(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_terminal_is_told_nothing_but_text() {
        assert!(matches!(harmless("Fen\tmoor, größer\n"), Cow::Borrowed(_)));
        assert_eq!(
            harmless("a\u{1b}[2Jb\rc\u{9b}d\u{202e}e\u{7f}"),
            "a\u{fffd}[2Jb\u{fffd}c\u{fffd}d\u{fffd}e\u{fffd}"
        );
    }
}
