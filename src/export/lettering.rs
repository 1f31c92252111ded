//! Words on a picture.

use crate::geometry::Point;
use ab_glyph::FontRef;
use image::{Rgb, RgbImage};
use imageproc::drawing::{draw_text_mut, text_size};

pub(super) static FONT: &[u8] = include_bytes!("../../assets/fonts/Inter-Regular.otf");
pub(super) static BOLD: &[u8] = include_bytes!("../../assets/fonts/Inter-SemiBold.otf");

/// One line of text, with its size known before it is drawn.
pub(super) struct Words {
    text: String,
    size: f32,
    /// How far it runs, px.
    pub(super) width: f64,
    /// From the top of the highest to the foot of the lowest letter, px.
    pub(super) height: f64,
    font: FontRef<'static>,
}

impl Words {
    /// The text in letters of so many pixels.
    pub(super) fn new(text: impl Into<String>, size: f32) -> Self {
        let text = text.into();
        let font = FontRef::try_from_slice(FONT).expect("the font is part of the program");
        let (width, height) = text_size(size, &font, &text);
        Self {
            text,
            size,
            width: f64::from(width),
            height: f64::from(height),
            font,
        }
    }

    /// Draws it; what lies off the picture is not drawn.
    pub(super) fn write(&self, picture: &mut RgbImage, top_left: Point, colour: Rgb<u8>) {
        #[expect(
            clippy::cast_possible_truncation,
            reason = "saturates; off the picture is not drawn"
        )]
        let (x, y) = (top_left.x.round() as i32, top_left.y.round() as i32);
        draw_text_mut(picture, colour, x, y, self.size, &self.font, &self.text);
    }
}

/// The pieces set one after the other with dots between, in lines no wider than `width` px. Only a
/// single word can be wider.
pub(super) fn lines(pieces: &[String], width: f64, size: f32) -> Vec<Words> {
    if pieces.is_empty() {
        return Vec::new();
    }
    // The dot stays with the word before it.
    let text = pieces.join("\u{a0}· ");
    let mut lines: Vec<Words> = Vec::new();
    for word in text.split(' ') {
        let longer = lines.last().map(|line| format!("{} {word}", line.text));
        match longer.map(|text| Words::new(text, size)) {
            Some(longer) if longer.width <= width => {
                lines.pop();
                lines.push(longer);
            }
            _ => lines.push(Words::new(word, size)),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_font_has_what_the_labels_need() {
        use ab_glyph::Font as _;
        let font = FontRef::try_from_slice(FONT).expect("a font");
        for letter in "0123456789 \u{a0}·%():mmµ,.-_Pabcdefghijklmnopqrstuvwxyz".chars() {
            assert_ne!(font.glyph_id(letter).0, 0, "no glyph for {letter:?}");
        }
    }

    #[test]
    fn lines_break_between_words_and_lose_none() {
        let pieces = ["tray 3.jpg".to_owned(), "poroid surface".to_owned()];
        let second = Words::new("poroid surface", 16.0).width;
        for (width, expected) in [
            (1000.0, &["tray 3.jpg\u{a0}· poroid surface"][..]),
            (second, &["tray 3.jpg\u{a0}·", "poroid surface"]),
            (1.0, &["tray", "3.jpg\u{a0}·", "poroid", "surface"]),
        ] {
            let lines = lines(&pieces, width, 16.0);
            let texts: Vec<&str> = lines.iter().map(|line| line.text.as_str()).collect();
            assert_eq!(texts, expected, "{width}");
        }
    }
}
