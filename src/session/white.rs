//! Something white that a person marked on the picture, to which colours are referred.

use super::document::sentence;
use super::{Session, Tone};
use crate::colour::White;
use crate::geometry::{Polygon, Rect};

/// Something white on the picture.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkedWhite {
    /// Where it lies, px of the picture.
    pub outline: Polygon,
    /// Its light.
    pub white: White,
}

impl Session {
    /// What colours are referred to, as a sentence.
    #[must_use]
    pub fn white_words(&self) -> &'static str {
        let flat = self.document.scale.flat.as_ref();
        if self.document.white.is_some() {
            "Colours are referred to the white that you marked."
        } else if flat.is_some_and(|flat| flat.white.is_some()) {
            "Colours are referred to the card's own white."
        } else {
            "Without one, colours are indicative only."
        }
    }

    /// Takes part of the picture as white, or says why it cannot be.
    pub(super) fn mark_white(&mut self, patch: Rect) {
        let Some(picture) = self.document.picture() else {
            return;
        };
        self.notices.forget_trouble();
        match White::of_patch(picture, patch) {
            Ok(white) => {
                self.document.white = Some(MarkedWhite {
                    outline: patch.to_polygon(),
                    white,
                });
            }
            Err(error) => self.notify(Tone::Trouble, sentence(&error)),
        }
    }
}
