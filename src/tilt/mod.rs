//! Planes seen at an angle: the homography between photo and plane, how far the camera was tilted,
//! and the photo as it would look squarely from above.
//!
//! Places on a plane are `[x, y]` in mm, places on a photo `[x, y]` or [`Point`] in px. Formulas are
//! those of R. Hartley & A. Zisserman, *Multiple View Geometry in Computer Vision*, 2nd ed.,
//! Cambridge University Press 2004.

mod angle;
mod homography;
mod straighten;

pub use angle::{Tilt, tilt};
pub use homography::{Homography, Sighting};
pub use straighten::{Straightened, straighten};

use crate::geometry::{Point, Polygon, Rect};
use crate::scale::How;

/// Corners closer together than this cannot be told apart well enough to tell a tilt, px.
const SHORTEST_SIDE_PX: f64 = 20.0;
/// Sine of the flattest corner that still counts as one: 2°.
const FLATTEST_CORNER: f64 = 0.035;

/// Why no plane could be had.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum TiltError {
    /// Two sides cross each other.
    #[error(
        "the sides between the corners cross; give the corners one after the other round the rectangle"
    )]
    Crossed,
    /// Three corners lie on a straight line.
    #[error(
        "three of the corners lie on one line, so they are not those of a rectangle; set each on its own corner"
    )]
    InLine,
    /// One corner lies within the triangle of the others.
    #[error(
        "one corner lies inside the other three, which no photo of a rectangle shows; set it anew"
    )]
    NotConvex,
    /// The corners lie on top of each other.
    #[error(
        "the corners lie so close together that they tell no tilt; give the corners of something larger"
    )]
    TooSmall,
    /// Fewer than four places, or places that leave the plane open.
    #[error(
        "these places do not fix a plane; at least four are needed, no three of them on one line"
    )]
    TooFew,
}

/// A flat surface as a photo shows it.
#[derive(Debug, Clone, PartialEq)]
pub struct Plane {
    /// From the photo, px, to the plane, mm.
    pub to_plane: Homography,
    /// Standard uncertainty of lengths on the plane, as a share of them.
    pub relative_uncertainty: f64,
    /// How it was obtained.
    pub how: How,
    /// Across what it was obtained, mm.
    pub span_mm: f64,
    /// How far the camera's axis was from standing upright on the plane.
    pub tilt: Tilt,
    /// What lies in the plane and is not the specimen, px of the photo.
    pub hidden: Option<Polygon>,
}

impl Plane {
    /// The plane of a rectangle of known size, from its four corners on a photo, set by hand. They run
    /// round the rectangle either way; the first side is `width_mm` long. `placement_px` is the standard
    /// uncertainty of placing one of them, [`END_PLACEMENT_PX`](crate::scale::END_PLACEMENT_PX) where the
    /// photo's own pixels were seen.
    ///
    /// # Errors
    /// [`TiltError`] where they are not the corners of a rectangle seen on a photo.
    pub fn from_corners(
        corners: [Point; 4],
        [width_mm, height_mm]: [f64; 2],
        placement_px: f64,
        photo: Rect,
    ) -> Result<Self, TiltError> {
        checked(&corners)?;
        let on_plane = [
            [0.0, 0.0],
            [width_mm, 0.0],
            [width_mm, height_mm],
            [0.0, height_mm],
        ];
        let pairs: Vec<([f64; 2], [f64; 2])> =
            corners.iter().map(|c| [c.x, c.y]).zip(on_plane).collect();
        let to_plane = Homography::through(&pairs)?;
        let side = |a: usize, b: usize| corners[a].distance(corners[b]);
        // Two sides of each length, each between two ends (JCGM 100:2008, 5.1.2).
        let sides = [
            f64::midpoint(side(0, 1), side(2, 3)),
            f64::midpoint(side(1, 2), side(3, 0)),
        ];
        let [across, along] = sides.map(|side| placement_px / side);
        let span_px = sides[0].hypot(sides[1]);
        Ok(Self {
            tilt: tilt(&to_plane, photo, &corners, placement_px / span_px),
            to_plane,
            // Lengths in all directions rest on both.
            relative_uncertainty: 0.5 * across.hypot(along),
            how: How::Corners,
            span_mm: width_mm.hypot(height_mm),
            hidden: None,
        })
    }
}

/// Whether four corners can be those of a rectangle on a photo.
fn checked(corners: &[Point; 4]) -> Result<(), TiltError> {
    let near = (0..4).any(|i| {
        (i + 1..4).any(|j| {
            let distance = corners[i].distance(corners[j]);
            // What is not a number is no distance.
            !(SHORTEST_SIDE_PX..=f64::MAX).contains(&distance)
        })
    });
    if near {
        return Err(TiltError::TooSmall);
    }
    let sines: [f64; 4] = std::array::from_fn(|i| {
        let (a, b, c) = (corners[i], corners[(i + 1) % 4], corners[(i + 2) % 4]);
        let cross = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
        cross / (a.distance(b) * b.distance(c))
    });
    if sines.iter().any(|sine| sine.abs() < FLATTEST_CORNER) {
        return Err(TiltError::InLine);
    }
    match sines.iter().filter(|sine| **sine > 0.0).count() {
        0 | 4 => Ok(()),
        2 => Err(TiltError::Crossed),
        _ => Err(TiltError::NotConvex),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plane(corners: [[f64; 2]; 4]) -> Result<Plane, TiltError> {
        Plane::from_corners(
            corners.map(|[x, y]| Point::new(x, y)),
            [30.0, 20.0],
            crate::scale::END_PLACEMENT_PX,
            Rect::of_size(1600, 1200),
        )
    }

    #[test]
    fn corners_of_no_rectangle_are_refused_with_the_reason() {
        let square = [
            [100.0, 100.0],
            [700.0, 100.0],
            [700.0, 500.0],
            [100.0, 500.0],
        ];
        assert!(plane(square).is_ok());
        let [a, b, c, d] = square;
        for (corners, error) in [
            ([a, c, b, d], TiltError::Crossed),
            ([a, b, c, [400.0, 300.5]], TiltError::InLine),
            ([a, b, c, [500.0, 250.0]], TiltError::NotConvex),
            ([a, [105.0, 100.0], c, d], TiltError::TooSmall),
            ([a, b, c, a], TiltError::TooSmall),
            ([a, b, c, [f64::NAN, 0.0]], TiltError::TooSmall),
        ] {
            assert_eq!(plane(corners).err(), Some(error), "{corners:?}");
        }
    }

    #[test]
    fn either_way_round_and_from_any_corner_gives_the_same_lengths() {
        let corners = [
            [100.0, 100.0],
            [700.0, 130.0],
            [720.0, 560.0],
            [90.0, 500.0],
        ];
        let lengths = |corners| {
            let plane = plane(corners).expect("a rectangle");
            let at = |x, y| plane.to_plane.map([x, y]);
            let ([ax, ay], [bx, by]) = (at(300.0, 200.0), at(450.0, 380.0));
            (ax - bx).hypot(ay - by)
        };
        let [a, b, c, d] = corners;
        let expected = lengths(corners);
        for turned in [[c, d, a, b], [b, a, d, c], [d, c, b, a]] {
            assert!((lengths(turned) - expected).abs() < 1e-9);
        }
    }
}
