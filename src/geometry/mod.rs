//! Points, rectangles and polygons on the upright photo.
//!
//! Said once for the whole crate: x runs right, y runs **down**, in pixels, and the centre of the
//! first pixel lies at (0.5, 0.5), so that pixel *i* covers the interval from *i* to *i* + 1.

mod moments;
mod polygon;
mod simplify;

pub use moments::{Ellipse, Moments};
pub(crate) use polygon::crossing_of_row;
pub use polygon::{Feret, Polygon};

use serde::{Deserialize, Serialize};

/// A place on the photo, in pixels.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(from = "[f64; 2]", into = "[f64; 2]")]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

impl Point {
    /// The point (x, y).
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Distance to another point, px.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        (self.x - other.x).hypot(self.y - other.y)
    }
}

/// In a file a place is `[x, y]`.
impl From<[f64; 2]> for Point {
    fn from([x, y]: [f64; 2]) -> Self {
        Self { x, y }
    }
}

impl From<Point> for [f64; 2] {
    fn from(p: Point) -> Self {
        [p.x, p.y]
    }
}

/// An upright rectangle, in pixels; half-open, so that rectangles laid side by side share no pixel.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Rect {
    /// Left edge.
    pub x: f64,
    /// Top edge.
    pub y: f64,
    /// Width, ≥ 0.
    pub width: f64,
    /// Height, ≥ 0.
    pub height: f64,
}

impl Rect {
    /// The rectangle of a picture of so many pixels.
    #[must_use]
    pub fn of_size(width: u32, height: u32) -> Self {
        Self {
            x: 0.0,
            y: 0.0,
            width: f64::from(width),
            height: f64::from(height),
        }
    }

    /// The rectangle spanned by two opposite corners, in any order.
    #[must_use]
    pub fn from_corners(a: Point, b: Point) -> Self {
        Self {
            x: a.x.min(b.x),
            y: a.y.min(b.y),
            width: (a.x - b.x).abs(),
            height: (a.y - b.y).abs(),
        }
    }

    /// Whether the point lies in the rectangle.
    #[must_use]
    pub fn contains(&self, p: Point) -> bool {
        p.x >= self.x && p.x < self.x + self.width && p.y >= self.y && p.y < self.y + self.height
    }

    /// The common part of two rectangles; of no width or height where they do not meet.
    #[must_use]
    pub fn intersection(&self, other: &Self) -> Self {
        let x = self.x.max(other.x);
        let y = self.y.max(other.y);
        Self {
            x,
            y,
            width: ((self.x + self.width).min(other.x + other.width) - x).max(0.0),
            height: ((self.y + self.height).min(other.y + other.height) - y).max(0.0),
        }
    }

    /// The rectangle less a band of `margin` px along every edge; of no size where none is left.
    #[must_use]
    pub fn shrunk(&self, margin: f64) -> Self {
        Self {
            x: self.x + margin,
            y: self.y + margin,
            width: (self.width - 2.0 * margin).max(0.0),
            height: (self.height - 2.0 * margin).max(0.0),
        }
    }

    /// The rectangle as a polygon.
    #[must_use]
    pub fn to_polygon(self) -> Polygon {
        Polygon::new(vec![
            Point::new(self.x, self.y),
            Point::new(self.x + self.width, self.y),
            Point::new(self.x + self.width, self.y + self.height),
            Point::new(self.x, self.y + self.height),
        ])
    }
}
