//! Text within HTML and XML.

/// Text that no reader of HTML or XML takes for anything but text.
pub(super) fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            // XML 1.0 has no control characters but these (section 2.2).
            letter if letter.is_control() && !matches!(letter, '\t' | '\n' | '\r') => {
                safe.push(' ');
            }
            '\u{fffe}' | '\u{ffff}' => safe.push(' '),
            letter => safe.push(letter),
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_written_becomes_markup() {
        assert_eq!(
            escaped("<script>\u{1}a & 'b' \"c\"</script>"),
            "&lt;script&gt; a &amp; &#39;b&#39; &quot;c&quot;&lt;/script&gt;"
        );
    }
}
