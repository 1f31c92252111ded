//! Smooth lines and plates on a picture, by distance to the shape.

use crate::geometry::{Point, Polygon, Rect};
use image::{GrayImage, Rgb, RgbImage};

/// Longest piece of a line that is drawn at once, px: keeps the box around a slanted line small.
const PIECE_PX: f64 = 64.0;
/// Corners closer to the last one are passed over, px: nobody sees them, and outlines have many.
const SHORTEST_PX: f64 = 1.0;

/// A sheet over a part of the picture that says how much of each pixel is covered.
///
/// Shapes of one colour go onto one sheet, where the larger cover wins, so that lines which meet
/// or cross do not show their joints.
pub(super) struct Sheet {
    left: u32,
    top: u32,
    cover: GrayImage,
}

impl Sheet {
    /// A clear sheet over what the picture and the rectangle share.
    pub(super) fn over(picture: &RgbImage, part: Rect) -> Self {
        let columns = pixels(part.x, part.width, picture.width());
        let rows = pixels(part.y, part.height, picture.height());
        Self {
            left: columns.start,
            top: rows.start,
            cover: GrayImage::new(
                columns.end.saturating_sub(columns.start),
                rows.end.saturating_sub(rows.start),
            ),
        }
    }

    /// A line through the points with round joints and ends.
    pub(super) fn line(&mut self, path: &[Point], width: f64) {
        let Some((&first, rest)) = path.split_first() else {
            return;
        };
        let mut from = first;
        for (i, &to) in rest.iter().enumerate() {
            let length = from.distance(to);
            if length < SHORTEST_PX && i + 1 < rest.len() {
                continue;
            }
            let pieces = (length / PIECE_PX).ceil().max(1.0);
            let mut done = 0.0;
            while done < pieces {
                self.capsule(
                    between(from, to, done / pieces),
                    between(from, to, (done + 1.0) / pieces),
                    width / 2.0,
                );
                done += 1.0;
            }
            from = to;
        }
    }

    /// A filled upright rectangle with rounded corners.
    pub(super) fn plate(&mut self, rect: Rect, corner: f64) {
        let (half_width, half_height) = (rect.width / 2.0, rect.height / 2.0);
        let (x, y) = (rect.x + half_width, rect.y + half_height);
        let corner = corner.min(half_width).min(half_height);
        self.cover(rect, |p| {
            let dx = (p.x - x).abs() - half_width + corner;
            let dy = (p.y - y).abs() - half_height + corner;
            dx.max(0.0).hypot(dy.max(0.0)) + dx.max(dy).min(0.0) - corner
        });
    }

    fn capsule(&mut self, a: Point, b: Point, radius: f64) {
        let mut bounds = Rect::from_corners(a, b);
        bounds.x -= radius;
        bounds.y -= radius;
        bounds.width += 2.0 * radius;
        bounds.height += 2.0 * radius;
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let length2 = dx * dx + dy * dy;
        self.cover(bounds, |p| {
            let along = if length2 > 0.0 {
                (((p.x - a.x) * dx + (p.y - a.y) * dy) / length2).clamp(0.0, 1.0)
            } else {
                0.0
            };
            let (x, y) = (a.x + along * dx - p.x, a.y + along * dy - p.y);
            (x * x + y * y).sqrt() - radius
        });
    }

    /// Covers the pixels of a box by their signed distance to a shape's edge, negative inside.
    fn cover(&mut self, bounds: Rect, outside: impl Fn(Point) -> f64) {
        let (width, height) = self.cover.dimensions();
        let (left, top) = (f64::from(self.left), f64::from(self.top));
        for y in pixels(bounds.y - top, bounds.height, height) {
            for x in pixels(bounds.x - left, bounds.width, width) {
                let centre = Point::new(left + f64::from(x) + 0.5, top + f64::from(y) + 0.5);
                let share = (0.5 - outside(centre)).clamp(0.0, 1.0);
                let pixel = &mut self.cover.get_pixel_mut(x, y).0[0];
                *pixel = (*pixel).max(level(255.0 * share));
            }
        }
    }

    /// Lets the colour through where the sheet is covered; `opacity` in 0–1.
    pub(super) fn print(self, picture: &mut RgbImage, colour: Rgb<u8>, opacity: f64) {
        for (x, y, cover) in self.cover.enumerate_pixels() {
            if cover.0[0] > 0 {
                let share = opacity * f64::from(cover.0[0]) / 255.0;
                let pixel = picture.get_pixel_mut(self.left + x, self.top + y);
                for (below, above) in pixel.0.iter_mut().zip(colour.0) {
                    let (from, to) = (f64::from(*below), f64::from(above));
                    *below = level(from + share * (to - from));
                }
            }
        }
    }
}

/// How dark casings are.
const CASING_OPACITY: f64 = 0.55;
const BLACK: Rgb<u8> = Rgb([0, 0, 0]);

/// Draws the paths in the colour, over a dark casing that adds so much on each side.
pub(super) fn trace(
    picture: &mut RgbImage,
    paths: &[Vec<Point>],
    width: f64,
    casing: f64,
    colour: Rgb<u8>,
) {
    if paths.is_empty() {
        return;
    }
    for (width, colour, opacity) in [
        (width + 2.0 * casing, BLACK, CASING_OPACITY),
        (width, colour, 1.0),
    ] {
        let mut sheet = Sheet::over(picture, bounds(paths, width));
        for path in paths {
            sheet.line(path, width);
        }
        sheet.print(picture, colour, opacity);
    }
}

/// The smallest rectangle around lines of the given width through the paths.
fn bounds(paths: &[Vec<Point>], width: f64) -> Rect {
    let mut bounds = Polygon::new(paths.concat()).bounds();
    bounds.x -= width / 2.0;
    bounds.y -= width / 2.0;
    bounds.width += width;
    bounds.height += width;
    bounds
}

/// Pixels that a stretch touches, one more on each side for its soft edge, cut off at `end`.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to the picture"
)]
fn pixels(from: f64, length: f64, end: u32) -> std::ops::Range<u32> {
    let clamp = |place: f64| place.clamp(0.0, f64::from(end)) as u32;
    clamp((from - 1.0).floor())..clamp((from + length + 1.0).ceil())
}

/// A level of 0–255, rounded.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "callers stay within 0–255, and the cast saturates"
)]
fn level(value: f64) -> u8 {
    value.round() as u8
}

fn between(a: Point, b: Point, share: f64) -> Point {
    Point::new(a.x + share * (b.x - a.x), a.y + share * (b.y - a.y))
}

/// The outline as a path that ends where it began.
pub(super) fn closed(vertices: &[Point]) -> Vec<Point> {
    vertices.iter().chain(vertices.first()).copied().collect()
}

/// A path cut into dashes of about the given length with equal gaps, evenly spread over the path.
pub(super) fn dashed(path: &[Point], dash: f64) -> Vec<Vec<Point>> {
    let length: f64 = path.windows(2).map(|ends| ends[0].distance(ends[1])).sum();
    if length <= 0.0 {
        return Vec::new();
    }
    // Three dashes at the least, or a small outline would look like a solid one.
    let half_period = length / (2.0 * (length / (2.0 * dash)).round().max(3.0));
    let mut dashes = Vec::new();
    let mut dash: Vec<Point> = path.first().copied().into_iter().collect();
    let (mut drawing, mut left) = (true, half_period);
    for ends in path.windows(2) {
        let (mut from, to) = (ends[0], ends[1]);
        let mut rest = from.distance(to);
        while rest > left {
            from = between(from, to, left / rest);
            rest -= left;
            left = half_period;
            if drawing {
                dash.push(from);
                dashes.push(std::mem::take(&mut dash));
            } else {
                dash = vec![from];
            }
            drawing = !drawing;
        }
        left -= rest;
        if drawing {
            dash.push(to);
        }
    }
    if drawing && dash.len() > 1 {
        dashes.push(dash);
    }
    dashes
}

#[cfg(test)]
mod tests {
    use super::*;

    const RED: Rgb<u8> = Rgb([255, 0, 0]);
    const ALL: Rect = Rect {
        x: 0.0,
        y: 0.0,
        width: 100.0,
        height: 100.0,
    };

    #[test]
    fn a_line_covers_its_width_wherever_it_lies() {
        // 20 px long, 3 px wide, round ends: 20·3 + π·1.5² px², at any slant and offset.
        for angle in [0.0_f64, 0.3, 0.8, 1.5] {
            let picture = RgbImage::new(60, 60);
            let mut sheet = Sheet::over(&picture, ALL);
            let from = Point::new(20.3, 20.7);
            let to = Point::new(from.x + 20.0 * angle.cos(), from.y + 20.0 * angle.sin());
            sheet.line(&[from, to], 3.0);
            let covered: f64 = sheet
                .cover
                .pixels()
                .map(|p| f64::from(p.0[0]) / 255.0)
                .sum();
            let expected = 60.0 + std::f64::consts::PI * 2.25;
            assert!(
                (covered - expected).abs() < 1.5,
                "{angle}: {covered}, not {expected}"
            );
        }
    }

    #[test]
    fn a_plate_is_solid_inside_and_round_at_its_corners() {
        let mut picture = RgbImage::new(40, 40);
        let plate = Rect {
            x: 10.0,
            y: 10.0,
            width: 20.0,
            height: 10.0,
        };
        let mut sheet = Sheet::over(&picture, plate);
        sheet.plate(plate, 4.0);
        sheet.print(&mut picture, RED, 1.0);
        assert_eq!(picture.get_pixel(20, 15), &RED);
        assert_eq!(picture.get_pixel(10, 15), &RED);
        assert_eq!(picture.get_pixel(9, 15), &Rgb([0, 0, 0]));
        assert_eq!(picture.get_pixel(10, 10), &Rgb([0, 0, 0]));
    }

    #[test]
    fn what_lies_off_the_picture_is_not_drawn() {
        let mut picture = RgbImage::new(8, 8);
        let mut sheet = Sheet::over(&picture, ALL);
        sheet.line(&[Point::new(-50.0, -50.0), Point::new(-10.0, 90.0)], 4.0);
        sheet.print(&mut picture, RED, 1.0);
        assert_eq!(picture, RgbImage::new(8, 8));
    }

    #[test]
    fn dashes_cover_half_the_path() {
        let path = closed(&[
            Point::new(0.0, 0.0),
            Point::new(30.0, 0.0),
            Point::new(30.0, 10.0),
        ]);
        let length =
            |path: &[Point]| -> f64 { path.windows(2).map(|ends| ends[0].distance(ends[1])).sum() };
        let dashes = dashed(&path, 4.0);
        let drawn: f64 = dashes.iter().map(|dash| length(dash)).sum();
        assert!((drawn - length(&path) / 2.0).abs() < 1e-9, "{drawn}");
        assert_eq!(dashes.len(), 9);
    }
}
