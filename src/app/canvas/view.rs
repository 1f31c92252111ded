//! Where the photo lies on the screen.

use crate::geometry::{Point, Polygon, Rect};
use egui::{Pos2, Vec2, pos2};

/// Screen points per photo pixel, at most.
const MOST_ZOOM: f64 = 64.0;

/// The part of the photo in view: photo pixels in `f64`, made into screen points only to paint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct View {
    /// Screen points per photo pixel.
    zoom: f64,
    /// The place of the photo in the middle of the canvas.
    centre: Point,
    /// How far the photo is turned clockwise, degrees from −180 to 180.
    turn_deg: f64,
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
            turn_deg: 0.0,
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
        let (sin, cos) = self.turn_deg.to_radians().sin_cos();
        let (sin, cos) = (sin.abs(), cos.abs());
        let width = part.width * cos + part.height * sin;
        let height = part.width * sin + part.height * cos;
        let across = (f64::from(canvas.width()) - margin) / width.max(1.0);
        let down = (f64::from(canvas.height()) - margin) / height.max(1.0);
        self.zoom = across.min(down).clamp(1e-3, MOST_ZOOM);
        self.centre = Point::new(part.x + part.width / 2.0, part.y + part.height / 2.0);
    }

    /// Shows a part of the photo as large as it goes, from the next time it settles on.
    pub(crate) const fn show(&mut self, part: Rect) {
        self.fits = false;
        self.wanted = Some(part);
    }

    /// The photo turned like this, with a place in the middle and so many points per photo pixel.
    pub(crate) const fn about(&self, place: Point, zoom: f64) -> Self {
        Self {
            zoom,
            centre: place,
            turn_deg: self.turn_deg,
            fits: false,
            wanted: None,
        }
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
        let off = self.photo_way(anchor - canvas.center());
        self.centre = Point::new(fixed.x - off.x, fixed.y - off.y);
        self.fits = false;
        self.keep_in_sight(photo);
    }

    /// Moves the photo with the pointer.
    pub(crate) fn pan(&mut self, by: Vec2, photo: Rect) {
        let by = self.photo_way(by);
        self.centre.x -= by.x;
        self.centre.y -= by.y;
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

    /// How far the photo is turned clockwise, degrees from −180 to 180.
    pub(crate) const fn turn_deg(&self) -> f64 {
        self.turn_deg
    }

    /// Turns the photo about the middle of the canvas, to so many degrees clockwise from upright.
    pub(crate) fn turn_to(&mut self, degrees: f64) {
        let turns = ((degrees + 180.0) / 360.0).floor();
        self.turn_deg = degrees - 360.0 * turns;
    }

    /// A way across the screen, in points, as a way across the photo, in px.
    pub(crate) fn photo_way(&self, way: Vec2) -> Point {
        let way = self.turned_back(f64::from(way.x), f64::from(way.y));
        Point::new(way.x / self.zoom, way.y / self.zoom)
    }

    /// A way across the screen along the photo's own sides, as long as it was.
    pub(crate) fn turned_back(&self, right: f64, down: f64) -> Point {
        let (sin, cos) = self.turn_deg.to_radians().sin_cos();
        Point::new(cos * right + sin * down, cos * down - sin * right)
    }

    /// A place of the photo on the screen.
    #[expect(clippy::cast_possible_truncation, reason = "the screen counts in f32")]
    pub(crate) fn screen_from_image(&self, p: Point, canvas: egui::Rect) -> Pos2 {
        let (sin, cos) = self.turn_deg.to_radians().sin_cos();
        let (x, y) = (p.x - self.centre.x, p.y - self.centre.y);
        pos2(
            (f64::from(canvas.center().x) + (cos * x - sin * y) * self.zoom) as f32,
            (f64::from(canvas.center().y) + (sin * x + cos * y) * self.zoom) as f32,
        )
    }

    /// A place on the screen as a place of the photo.
    pub(crate) fn image_from_screen(&self, p: Pos2, canvas: egui::Rect) -> Point {
        let off = self.photo_way(p - canvas.center());
        Point::new(self.centre.x + off.x, self.centre.y + off.y)
    }

    /// The upright rectangle about the part of the photo's plane that the canvas shows.
    pub(crate) fn visible(&self, canvas: egui::Rect) -> Rect {
        let corners = [
            canvas.left_top(),
            canvas.right_top(),
            canvas.right_bottom(),
            canvas.left_bottom(),
        ];
        Polygon::new(
            corners
                .map(|corner| self.image_from_screen(corner, canvas))
                .to_vec(),
        )
        .bounds()
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

    #[test]
    fn a_turned_photo_fits_and_places_come_back() {
        let (mut view, canvas, photo) = setting();
        for degrees in [90.0, -90.0, 180.0, 33.0] {
            view.turn_to(degrees);
            view.fit();
            view.settle(canvas, photo);
            for place in photo.to_polygon().vertices() {
                let at = view.screen_from_image(*place, canvas);
                assert!(canvas.expand(0.1).contains(at), "{degrees}°: {at:?}");
                let back = view.image_from_screen(at, canvas);
                assert!(back.distance(*place) < 0.1, "{degrees}°: {back:?}");
            }
        }
        view.turn_to(90.0);
        view.settle(canvas, photo);
        // Clockwise: what was on top is on the right.
        let top = view.screen_from_image(Point::new(6_000.0, 0.0), canvas);
        assert!(top.x > canvas.center().x && (top.y - canvas.center().y).abs() < 0.01);
        let right = view.turned_back(1.0, 0.0);
        assert!(
            right.x.abs() < 1e-9 && (right.y + 1.0).abs() < 1e-9,
            "{right:?}"
        );
    }

    #[test]
    fn a_turn_is_told_by_less_than_half_a_turn() {
        let mut view = View::default();
        for (degrees, told) in [
            (450.0, 90.0),
            (-270.0, 90.0),
            (180.0, -180.0),
            (-45.0, -45.0),
        ] {
            view.turn_to(degrees);
            assert!((view.turn_deg() - told).abs() < 1e-9, "{degrees}");
        }
    }

    #[test]
    fn a_turned_photo_is_moved_with_the_pointer_and_zoomed_about_it() {
        let (mut view, canvas, photo) = setting();
        view.turn_to(33.0);
        view.zoom_about(0.5, canvas.center(), canvas, photo);
        let pointer = pos2(500.0, 200.0);
        let under = view.image_from_screen(pointer, canvas);
        view.pan(vec2(30.0, -20.0), photo);
        let moved = view.screen_from_image(under, canvas);
        assert!(
            moved.distance(pointer + vec2(30.0, -20.0)) < 0.01,
            "{moved:?}"
        );
        view.zoom_about(3.0, moved, canvas, photo);
        assert!(view.screen_from_image(under, canvas).distance(moved) < 0.01);
    }
}
