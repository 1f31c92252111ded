//! Where the photo lies on the screen.

use crate::geometry::{Point, Rect};
use egui::{Pos2, pos2};

/// Screen points per photo pixel, at most.
const MOST_ZOOM: f64 = 64.0;

/// The part of the photo in view: photo pixels in `f64`, made into screen points only to paint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct View {
    /// Screen points per photo pixel.
    zoom: f64,
    /// The place of the photo in the middle of the canvas.
    centre: Point,
    /// Whether the photo is kept filling the canvas.
    fits: bool,
    /// A part to be shown as soon as the canvas' size is known.
    wanted: Option<Rect>,
}

impl Default for View {
    fn default() -> Self {
        Self {
            zoom: 1.0,
            centre: Point::new(0.0, 0.0),
            fits: true,
            wanted: None,
        }
    }
}

impl View {
    /// Shows all of the photo from now on.
    pub(crate) const fn fit(&mut self) {
        self.fits = true;
    }

    /// Takes the canvas' size into account; call it before anything is placed.
    pub(crate) fn settle(&mut self, canvas: egui::Rect, photo: Rect) {
        if let Some(part) = self.wanted.take() {
            self.fill(canvas, part);
            self.keep_in_sight(photo);
        } else if self.fits && photo.width > 0.0 && photo.height > 0.0 {
            self.fill(canvas, photo);
        }
    }

    fn fill(&mut self, canvas: egui::Rect, part: Rect) {
        let margin = 16.0;
        let across = (f64::from(canvas.width()) - margin) / part.width.max(1.0);
        let down = (f64::from(canvas.height()) - margin) / part.height.max(1.0);
        self.zoom = across.min(down).clamp(1e-3, MOST_ZOOM);
        self.centre = Point::new(part.x + part.width / 2.0, part.y + part.height / 2.0);
    }

    /// Shows a part of the photo as large as it goes, from the next time it settles on.
    pub(crate) const fn show(&mut self, part: Rect) {
        self.fits = false;
        self.wanted = Some(part);
    }

    /// Screen points per photo pixel.
    pub(crate) const fn zoom(&self) -> f64 {
        self.zoom
    }

    /// Photo pixels along the side of a screen pixel.
    pub(crate) fn px_per_screen_px(&self, pixels_per_point: f32) -> f64 {
        1.0 / (self.zoom * f64::from(pixels_per_point))
    }

    /// Zooms to `zoom` and keeps the place under `anchor` where it is.
    pub(crate) fn zoom_about(&mut self, zoom: f64, anchor: Pos2, canvas: egui::Rect, photo: Rect) {
        let fixed = self.image_from_screen(anchor, canvas);
        let least = (32.0 / photo.width.max(photo.height).max(1.0)).min(1.0);
        self.zoom = zoom.clamp(least, MOST_ZOOM);
        self.centre = Point::new(
            fixed.x - f64::from(anchor.x - canvas.center().x) / self.zoom,
            fixed.y - f64::from(anchor.y - canvas.center().y) / self.zoom,
        );
        self.fits = false;
        self.keep_in_sight(photo);
    }

    /// Moves the photo with the pointer.
    pub(crate) fn pan(&mut self, by: egui::Vec2, photo: Rect) {
        self.centre.x -= f64::from(by.x) / self.zoom;
        self.centre.y -= f64::from(by.y) / self.zoom;
        self.fits = false;
        self.keep_in_sight(photo);
    }

    /// Moves just so far that a place is on the canvas.
    pub(crate) fn reveal(&mut self, place: Point, canvas: egui::Rect, photo: Rect) {
        let at = self.screen_from_image(place, canvas);
        let inner = canvas.shrink(24.0);
        if !inner.contains(at) {
            self.pan(inner.clamp(at) - at, photo);
        }
    }

    /// The middle of the canvas stays on the photo.
    fn keep_in_sight(&mut self, photo: Rect) {
        self.centre.x = self.centre.x.clamp(0.0, photo.width);
        self.centre.y = self.centre.y.clamp(0.0, photo.height);
    }

    /// A place of the photo on the screen.
    #[expect(clippy::cast_possible_truncation, reason = "the screen counts in f32")]
    pub(crate) fn screen_from_image(&self, p: Point, canvas: egui::Rect) -> Pos2 {
        pos2(
            (f64::from(canvas.center().x) + (p.x - self.centre.x) * self.zoom) as f32,
            (f64::from(canvas.center().y) + (p.y - self.centre.y) * self.zoom) as f32,
        )
    }

    /// A place on the screen as a place of the photo.
    pub(crate) fn image_from_screen(&self, p: Pos2, canvas: egui::Rect) -> Point {
        Point::new(
            self.centre.x + f64::from(p.x - canvas.center().x) / self.zoom,
            self.centre.y + f64::from(p.y - canvas.center().y) / self.zoom,
        )
    }

    /// The part of the photo's plane that the canvas shows.
    pub(crate) fn visible(&self, canvas: egui::Rect) -> Rect {
        Rect::from_corners(
            self.image_from_screen(canvas.min, canvas),
            self.image_from_screen(canvas.max, canvas),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::vec2;

    fn setting() -> (View, egui::Rect, Rect) {
        let canvas = egui::Rect::from_min_size(pos2(300.0, 50.0), vec2(616.0, 416.0));
        let photo = Rect {
            x: 0.0,
            y: 0.0,
            width: 12_000.0,
            height: 8_000.0,
        };
        let mut view = View::default();
        view.settle(canvas, photo);
        (view, canvas, photo)
    }

    #[test]
    fn a_fitting_photo_lies_in_the_middle_with_its_edges_in_sight() {
        let (view, canvas, photo) = setting();
        assert!((view.zoom() - 0.05).abs() < 1e-12);
        let corner = view.screen_from_image(Point::new(0.0, 0.0), canvas);
        assert!(
            corner.distance(canvas.min + vec2(8.0, 8.0)) < 0.01,
            "{corner:?}"
        );
        let far = view.screen_from_image(Point::new(photo.width, photo.height), canvas);
        assert!(far.distance(canvas.max - vec2(8.0, 8.0)) < 0.01, "{far:?}");
    }

    #[test]
    fn a_part_that_is_asked_for_fills_the_canvas() {
        let (mut view, canvas, photo) = setting();
        let part = Rect {
            x: 3_000.0,
            y: 1_000.0,
            width: 600.0,
            height: 100.0,
        };
        view.show(part);
        view.settle(canvas, photo);
        view.settle(canvas, photo);
        assert!((view.zoom() - 1.0).abs() < 1e-12);
        let middle = view.screen_from_image(Point::new(3_300.0, 1_050.0), canvas);
        assert!(middle.distance(canvas.center()) < 0.01, "{middle:?}");
    }

    #[test]
    fn zooming_keeps_the_place_under_the_pointer() {
        let (mut view, canvas, photo) = setting();
        let pointer = pos2(500.0, 200.0);
        let before = view.image_from_screen(pointer, canvas);
        for zoom in [0.2, 3.0, 40.0] {
            view.zoom_about(zoom, pointer, canvas, photo);
            let after = view.image_from_screen(pointer, canvas);
            assert!(before.distance(after) < 1e-6, "{before:?} {after:?}");
        }
    }

    #[test]
    fn a_place_out_of_sight_is_brought_back() {
        let (mut view, canvas, photo) = setting();
        view.zoom_about(2.0, canvas.center(), canvas, photo);
        let place = Point::new(11_000.0, 300.0);
        view.reveal(place, canvas, photo);
        assert!(canvas.contains(view.screen_from_image(place, canvas)));
    }
}
