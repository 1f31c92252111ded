//! How far a camera was tilted, from what it made of a plane.

use super::Homography;
use crate::geometry::{Point, Rect};
use nalgebra::{Complex, Matrix3, Vector3};

/// How many times its own uncertainty convergence or foreshortening has to be before the focal length
/// is read off it.
const WELL_KNOWN: f64 = 5.0;
/// Uncertainty of convergence and of foreshortening in units of that of one end over the span: each is
/// a difference of two lengths, and each length has two ends.
const ENDS: f64 = 2.0;
/// Focal lengths of cameras and microscopes, in longest sides of the photo.
const FOCAL_LENGTHS: std::ops::Range<f64> = 0.3..100.0;

/// How far the camera's axis was from standing upright on a plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tilt {
    /// The angle, 0–90.
    pub deg: f64,
    /// Focal length, px, where the photo tells it.
    pub focal_px: Option<f64>,
}

/// The tilt of a camera against a plane, by the pinhole model with square pixels and the principal
/// point in the middle of the photo.
///
/// With h₁, h₂ the first two columns of the homography from plane to photo and ω = diag(1/f², 1/f², 1)
/// the image of the absolute conic, h₁ᵀωh₂ = 0 and h₁ᵀωh₁ = h₂ᵀωh₂ (Hartley & Zisserman, section 8.8,
/// example 8.18). Both are the real and the imaginary part of one complex equation, (a₁ + ia₂)²/f² +
/// (c₁ + ic₂)² = 0 with aₖ the upper two and cₖ the third component of hₖ, which gives 1/f² by least
/// squares whichever way the plane's axes run. Then K⁻¹h₁ × K⁻¹h₂ is upright on the plane, and the
/// tilt is its angle with the camera's axis.
///
/// Where the photo shows too little convergence or foreshortening for that, beyond what setting the
/// places on it leaves open (`end_share`: standard uncertainty of a place over their span), the tilt
/// comes from foreshortening alone, cos θ = shorter over longer axis of the ellipse that a small circle
/// becomes, which is exact from far away.
#[must_use]
pub fn tilt(to_plane: &Homography, photo: Rect, known: &[Point], end_share: f64) -> Tilt {
    let (cx, cy) = (photo.x + photo.width / 2.0, photo.y + photo.height / 2.0);
    let centred = Matrix3::new(1.0, 0.0, -cx, 0.0, 1.0, -cy, 0.0, 0.0, 1.0);
    let to_photo = to_plane.inverse();
    let h = centred * to_photo.matrix();
    let count = known.len().max(1) as f64;
    let middle = known.iter().fold([0.0; 2], |sum, p| {
        [sum[0] + p.x / count, sum[1] + p.y / count]
    });
    let on_plane: Vec<[f64; 2]> = known.iter().map(|p| to_plane.map([p.x, p.y])).collect();
    let span = on_plane.iter().enumerate().fold(0.0_f64, |span, (i, a)| {
        on_plane[..i]
            .iter()
            .fold(span, |span, b| span.max((a[0] - b[0]).hypot(a[1] - b[1])))
    });
    let place = to_plane.map(middle);

    let upper: Complex<f64> = (0..2)
        .map(|row| Complex::new(h[(row, 0)], h[(row, 1)]).powi(2))
        .sum();
    let size: f64 = (0..2)
        .map(|row| h[(row, 0)].powi(2) + h[(row, 1)].powi(2))
        .sum();
    let third = Complex::new(h[(2, 0)], h[(2, 1)]);
    let least = WELL_KNOWN * ENDS * end_share;
    let convergence = third.norm() * span / to_photo.depth(place);
    let foreshortening = upper.norm() / size;
    if convergence > least && foreshortening > least {
        let inverse_square = -(upper.conj() * third.powi(2)).re / upper.norm_sqr();
        let focal_px = inverse_square.sqrt().recip();
        let longest = photo.width.max(photo.height);
        if FOCAL_LENGTHS.contains(&(focal_px / longest)) {
            let axis = |column: usize| {
                Vector3::new(
                    h[(0, column)] / focal_px,
                    h[(1, column)] / focal_px,
                    h[(2, column)],
                )
            };
            let upright = axis(0).cross(&axis(1));
            return Tilt {
                deg: (upright.z.abs() / upright.norm())
                    .min(1.0)
                    .acos()
                    .to_degrees(),
                focal_px: Some(focal_px),
            };
        }
    }
    let axes = to_photo.jacobian(place).singular_values();
    Tilt {
        deg: (axes.min() / axes.max()).min(1.0).acos().to_degrees(),
        focal_px: None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A camera of the given focal length above a plane, its axis tilted.
    fn seen(
        tilt_deg: f64,
        turn_deg: f64,
        focal_px: f64,
        distance_mm: f64,
    ) -> (Homography, Vec<Point>) {
        let (sin, cos) = tilt_deg.to_radians().sin_cos();
        let (s, c) = turn_deg.to_radians().sin_cos();
        let to_photo = |[x, y]: [f64; 2]| {
            let (x, y) = (c * x - s * y, s * x + c * y);
            let depth = distance_mm + y * sin;
            Point::new(
                800.0 + focal_px * x / depth,
                600.0 + focal_px * y * cos / depth,
            )
        };
        let plane = [[-15.0, -10.0], [15.0, -10.0], [15.0, 10.0], [-15.0, 10.0]];
        let known = plane.map(to_photo);
        let pairs: Vec<_> = known.iter().map(|p| [p.x, p.y]).zip(plane).collect();
        (
            Homography::through(&pairs).expect("four corners"),
            known.to_vec(),
        )
    }

    #[test]
    fn tilt_and_focal_length_are_those_of_the_camera() {
        let photo = Rect::of_size(1600, 1200);
        for tilt_deg in [4.0, 10.0, 20.0, 35.0, 50.0] {
            for turn_deg in [0.0, 30.0, 90.0, 200.0] {
                let (plane, known) = seen(tilt_deg, turn_deg, 4000.0, 120.0);
                let found = tilt(&plane, photo, &known, 1e-6);
                assert!((found.deg - tilt_deg).abs() < 0.01, "{found:?}");
                assert!((found.focal_px.expect("told") / 4000.0 - 1.0).abs() < 0.001);
            }
        }
    }

    /// cos θ: `tilt_foreshortening.csv`, a table of 1/cos θ to eight digits.
    #[test]
    fn from_far_away_foreshortening_tells() {
        let photo = Rect::of_size(1600, 1200);
        for (tilt_deg, cos) in [
            (0.0, 1.0),
            (8.1, 0.990_023_66),
            (25.84, 0.900_014_70),
            (30.0, 0.866_025_40),
        ] {
            let (plane, known) = seen(tilt_deg, 17.0, 4e6, 120_000.0);
            let found = tilt(&plane, photo, &known, 1e-3);
            assert_eq!(found.focal_px, None);
            assert!(
                (found.deg.to_radians().cos() - cos).abs() < 1e-6,
                "{found:?}"
            );
        }
    }
}
