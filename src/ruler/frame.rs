//! Places along and across a ruler.

use crate::geometry::Point;
use crate::photo::{Light, light_between};

/// Axes along and across a line on the photo, with their origin at its middle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Frame {
    middle: Point,
    angle: f64,
    /// Half the length of the line, px.
    pub(super) half: f64,
}

impl Frame {
    pub(super) fn along([from, to]: [Point; 2]) -> Self {
        Self {
            middle: Point::new(f64::midpoint(from.x, to.x), f64::midpoint(from.y, to.y)),
            angle: (to.y - from.y).atan2(to.x - from.x),
            half: 0.5 * from.distance(to),
        }
    }

    /// The same turned about its middle.
    pub(super) fn turned(self, angle: f64) -> Self {
        Self {
            angle: self.angle + angle,
            ..self
        }
    }

    /// The place on the photo `u` along and `v` across, px.
    pub(super) fn place(&self, u: f64, v: f64) -> Point {
        let (sin, cos) = self.angle.sin_cos();
        Point::new(
            self.middle.x + u * cos - v * sin,
            self.middle.y + u * sin + v * cos,
        )
    }

    /// Light on the photo there.
    pub(super) fn light(&self, light: &Light, u: f64, v: f64) -> f64 {
        let Point { x, y } = self.place(u, v);
        light_between(light, x, y)
    }
}
