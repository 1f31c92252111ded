//! The document as it is in view.

use super::view::View;
use crate::geometry::Point;
use crate::session::{Document, End, Placed};

/// The document as it is in view.
pub(super) struct Scene<'a> {
    pub(super) document: &'a Document,
    pub(super) view: &'a mut View,
    pub(super) canvas: egui::Rect,
    pub(super) px_per_screen_px: f64,
    pub(super) by_keyboard: bool,
    /// Whether ends of the scale line are put on edges now.
    pub(super) snaps: bool,
}

impl Scene<'_> {
    /// Whether a place on the screen lies on the photo.
    pub(super) fn is_on_photo(&self, at: egui::Pos2) -> bool {
        let photo = self.document.photo_rect();
        photo.contains(self.view.image_from_screen(at, self.canvas))
    }

    /// A place as closely set as the photo is shown.
    pub(super) fn placed(&self, at: Point) -> Placed {
        Placed::by_eye(at, self.px_per_screen_px)
    }

    /// An end of the scale line pointed at: on the edge there, if there is one and it is wanted.
    pub(super) fn end(&self, end: End, at: Point) -> Placed {
        let placed = self.placed(at);
        if self.snaps {
            self.document.on_edge(end, placed).unwrap_or(placed)
        } else {
            placed
        }
    }

    /// The place of the photo at, or nearest to, a place on the screen.
    pub(super) fn place_at(&self, at: egui::Pos2) -> Point {
        self.document
            .onto_photo(self.view.image_from_screen(at, self.canvas))
    }

    /// Brings a place into view; gives back the nearest one on the photo.
    pub(super) fn reveal(&mut self, place: Point) -> Point {
        let place = self.document.onto_photo(place);
        self.view
            .reveal(place, self.canvas, self.document.photo_rect());
        place
    }
}
