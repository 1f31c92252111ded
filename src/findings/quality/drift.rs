//! Distances between neighbours that change steadily across the area, as on a photo taken at an angle.

use crate::geometry::Point;
use crate::pores::Pore;
use nalgebra::{Matrix3, Vector2, Vector3};
use spade::{DelaunayTriangulation, Point2, Triangulation as _};

/// Neighbours further apart than this many spacings have a gap between them.
const FURTHEST: f64 = 1.7;
/// Fewest regions for a plane through their distances.
const FEWEST: usize = 30;
/// Each region has three edges of its own, but only as many places as there are regions are
/// independent; standard errors grow by √3.
const EDGES_A_REGION: f64 = 3.0;
/// 99th percentile of χ² with two degrees of freedom, −2 ln 0.01.
const CHI_SQUARE_99: f64 = 9.210_340;

/// A steady change of the distance between neighbours.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drift {
    /// Relative change from the end where they stand closest to the end where they stand furthest
    /// apart, ≥ 0.
    pub change: f64,
    /// Whether chance alone would give as much in less than one of a hundred photos.
    pub significant: bool,
}

/// The drift among counted regions; `None` where they are too few to tell.
pub(super) fn drift(regions: &[Pore], spacing_px: f64) -> Option<Drift> {
    let centroids: Vec<Point> = regions
        .iter()
        .filter(|region| region.counted)
        .map(Pore::centroid)
        .collect();
    of_points(&centroids, spacing_px)
}

/// Fits ln(length of a Delaunay edge) = a + b·x + c·y by least squares.
fn of_points(points: &[Point], spacing_px: f64) -> Option<Drift> {
    if points.len() < FEWEST {
        return None;
    }
    let vertices = points.iter().map(|p| Point2::new(p.x, p.y)).collect();
    let triangulation = DelaunayTriangulation::<Point2<f64>>::bulk_load_stable(vertices).ok()?;
    let count = points.len() as f64;
    let middle = Point::new(
        points.iter().map(|p| p.x).sum::<f64>() / count,
        points.iter().map(|p| p.y).sum::<f64>() / count,
    );
    // In spacings about the middle, which keeps the digits.
    let place =
        |x: f64, y: f64| Vector2::new((x - middle.x) / spacing_px, (y - middle.y) / spacing_px);
    let edges: Vec<(Vector3<f64>, f64)> = triangulation
        .undirected_edges()
        .map(|edge| edge.positions())
        .filter_map(|[a, b]| {
            let length = (a.x - b.x).hypot(a.y - b.y) / spacing_px;
            let at = place(f64::midpoint(a.x, b.x), f64::midpoint(a.y, b.y));
            (length > 0.0 && length <= FURTHEST)
                .then(|| (Vector3::new(1.0, at.x, at.y), length.ln()))
        })
        .collect();
    let mut normal = Matrix3::zeros();
    let mut right = Vector3::zeros();
    for (row, value) in &edges {
        normal += row * row.transpose();
        right += row * *value;
    }
    let inverse = normal.try_inverse()?;
    let plane = inverse * right;
    let squares: f64 = edges
        .iter()
        .map(|(row, value)| (value - plane.dot(row)).powi(2))
        .sum();
    let variance = EDGES_A_REGION * squares / (edges.len() as f64 - 3.0);
    let slope = Vector2::new(plane[1], plane[2]);
    let covariance = inverse.fixed_view::<2, 2>(1, 1) * variance;
    let (low, high) = points
        .iter()
        .map(|p| slope.dot(&place(p.x, p.y)))
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), along| {
            (low.min(along), high.max(along))
        });
    Some(Drift {
        change: (high - low).exp_m1(),
        significant: slope.dot(&(covariance.try_inverse()? * slope)) > CHI_SQUARE_99,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use rand::{RngExt as _, SeedableRng as _};

    const SPACING: f64 = 20.0;

    /// Points of a triangular lattice of 20 × 20, each moved at random by up to a quarter spacing.
    fn strewn(seed: u64) -> Vec<Point> {
        let mut random = rand_pcg::Pcg64Mcg::seed_from_u64(seed);
        let mut jitter = || 0.5 * SPACING * (random.random::<f64>() - 0.5);
        (0..400)
            .map(|k| {
                let (column, row) = (f64::from(k % 20), f64::from(k / 20));
                let shift = if k / 20 % 2 == 0 { 0.0 } else { 0.5 };
                Point::new(
                    SPACING * (column + shift) + jitter(),
                    SPACING * 0.75_f64.sqrt() * row + jitter(),
                )
            })
            .collect()
    }

    /// Of a hundred flat surfaces about one may be called tilted; of those with chance 1 in 100 each,
    /// more than 5 are seen once in 200 times (binomial).
    #[test]
    fn chance_alone_hardly_ever_is_a_drift() {
        let called = (0..100)
            .filter_map(|seed| of_points(&strewn(seed), SPACING))
            .filter(|drift| drift.significant)
            .count();
        assert!(called <= 5, "{called} of 100");
    }

    /// A plane seen by a pinhole camera at an angle: x' = x/(1 + kx), y' = y/(1 + kx). Lengths along y
    /// shrink by 1 + kx, those along x by its square. In every direction alike that is a change of ln
    /// length of −1.5·ln(1 + kx) on average, to within half of it one way or the other.
    #[test]
    fn a_photo_taken_at_an_angle_drifts_as_perspective_says() {
        let width = 20.0 * SPACING;
        let k = 0.12 / width;
        let tilted: Vec<Point> = strewn(7)
            .iter()
            .map(|p| Point::new(p.x / (1.0 + k * p.x), p.y / (1.0 + k * p.x)))
            .collect();
        let drift = of_points(&tilted, SPACING).expect("enough points");
        let expected = 1.12_f64.powf(1.5) - 1.0;
        assert!(drift.significant, "{drift:?}");
        assert!(
            (drift.change - expected).abs() < expected / 3.0,
            "{drift:?} for {expected}"
        );
    }

    #[test]
    fn too_few_points_tell_nothing() {
        assert_eq!(of_points(&strewn(1)[..29], SPACING), None);
    }
}
