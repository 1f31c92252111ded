//! Tones of the searched picture at any place.

use crate::geometry::Point;
use image::{GrayImage, imageops};

/// Distance between samples along a line, px.
const STEP_PX: f64 = 0.5;

/// A picture in shades of grey, 0 black to 255 white.
pub(super) struct Tones<'a>(pub(super) &'a GrayImage);

impl Tones<'_> {
    /// Tone between pixel centres (bilinear); the picture's edge goes on beyond it.
    #[expect(
        clippy::cast_possible_truncation,
        reason = "held within the picture, whose sides are exact in f32"
    )]
    pub(super) fn at(&self, p: Point) -> f64 {
        let (width, height) = self.0.dimensions();
        let hold = |p: f64, side: u32| (p - 0.5).clamp(0.0, f64::from(side) - 1.0) as f32;
        imageops::interpolate_bilinear(self.0, hold(p.x, width), hold(p.y, height))
            .map_or(0.0, |pixel| f64::from(pixel.0[0]))
    }

    /// Whether a place lies on the picture.
    pub(super) fn hold(&self, p: Point) -> bool {
        let (width, height) = self.0.dimensions();
        (0.0..=f64::from(width)).contains(&p.x) && (0.0..=f64::from(height)).contains(&p.y)
    }

    /// Mean tone along a line.
    pub(super) fn mean(&self, from: Point, to: Point) -> f64 {
        let steps = (from.distance(to) / STEP_PX).ceil().max(1.0);
        let (mut sum, mut step) = (0.0, 0.0);
        while step <= steps {
            let share = step / steps;
            sum += self.at(Point::new(
                from.x + share * (to.x - from.x),
                from.y + share * (to.y - from.y),
            ));
            step += 1.0;
        }
        sum / (steps + 1.0)
    }
}
