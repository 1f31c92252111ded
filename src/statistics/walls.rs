//! Wall thickness between neighbouring pores (the trade's dissepiments).

use crate::geometry::Point;
use rayon::prelude::*;
use spade::{DelaunayTriangulation, Point2, Triangulation as _};

/// Neighbours further apart than this many spacings have a gap between them, not a wall.
const FURTHEST: f64 = 1.7;

/// Wall lengths on the segments that join neighbouring centroids, in the unit of the centroids.
///
/// Neighbours are those of the Delaunay triangulation. `wall_on` gives the length of wall on a segment.
#[must_use]
pub fn wall_thickness(
    centroids: &[Point],
    spacing: f64,
    wall_on: impl Fn(Point, Point) -> f64 + Sync,
) -> Vec<f64> {
    let points = centroids.iter().map(|c| Point2::new(c.x, c.y)).collect();
    let Ok(triangulation) = DelaunayTriangulation::<Point2<f64>>::bulk_load_stable(points) else {
        return Vec::new();
    };
    let neighbours: Vec<[Point; 2]> = triangulation
        .undirected_edges()
        .map(|edge| edge.positions().map(|p| Point::new(p.x, p.y)))
        .filter(|[a, b]| a.distance(*b) <= FURTHEST * spacing)
        .collect();
    neighbours
        .into_par_iter()
        .map(|[a, b]| wall_on(a, b))
        .filter(|length| *length > 0.0)
        .collect()
}
