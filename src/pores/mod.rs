//! Pores (and teeth): outlines and the measures of each, in pixels until a scale meets them.

mod contour;
mod trace;

pub use trace::trace;

use crate::geometry::{Ellipse, Feret, Moments, Point, Polygon};
use crate::units::Pixels;

/// One void region enclosed by wall, or on a toothed surface one tooth: a wall region enclosed by void.
#[derive(Debug, Clone, PartialEq)]
#[expect(clippy::struct_excessive_bools, reason = "each is a fact of its own")]
pub struct Pore {
    /// Outline at half depth, photo px.
    pub outline: Polygon,
    /// Area, centroid and second moments with blur taken out, photo px.
    pub moments: Moments,
    /// The ellipse of the same second moments.
    pub ellipse: Ellipse,
    /// Caliper widths.
    pub feret: Feret,
    /// Length of the outline, px.
    pub perimeter: f64,
    /// Area over area of the convex hull, ≤ 1.
    pub solidity: f64,
    /// Whether all of it lies in the area, so that its size is known.
    pub whole: bool,
    /// Whether its centroid lies in the counting area (associated-point rule).
    pub counted: bool,
    /// Many times larger than its neighbours: not a pore but something that lies there, such as a
    /// scale card or the background. Neither counted nor averaged.
    pub oversized: bool,
    /// Whether a person shaped it: joined, split, added or drew it.
    pub by_hand: bool,
}

impl Pore {
    /// Centre of mass.
    #[must_use]
    pub const fn centroid(&self) -> Point {
        self.moments.centroid
    }

    /// A place inside the outline: the centre of mass, or in a crescent the middle of its widest part at
    /// that height; `None` where the outline encloses nothing.
    #[must_use]
    pub fn place_inside(&self) -> Option<Point> {
        let centre = self.centroid();
        if self.outline.contains(centre) {
            return Some(centre);
        }
        let mut ends: Vec<f64> = self.outline.crossings_of_row(centre.y).collect();
        ends.sort_by(f64::total_cmp);
        ends.chunks_exact(2)
            .max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0])))
            .map(|span| Point::new(f64::midpoint(span[0], span[1]), centre.y))
    }

    /// Diameter of the circle of the same area, √(4a/π) (ISO 9276-6 `x_A`).
    #[must_use]
    pub fn diameter(&self) -> Pixels {
        Pixels((4.0 * self.moments.area / std::f64::consts::PI).sqrt())
    }

    /// Longer over shorter axis of the ellipse of the same second moments, ≥ 1.
    #[must_use]
    pub fn elongation(&self) -> f64 {
        self.ellipse.elongation()
    }

    /// Circularity √(4πa/p²) as ISO 9276-6 has it, ≤ 1 up to sampling.
    #[must_use]
    pub fn circularity(&self) -> f64 {
        (4.0 * std::f64::consts::PI * self.outline.area()).sqrt() / self.perimeter
    }
}
