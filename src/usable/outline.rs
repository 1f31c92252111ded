//! From a set of tiles to simple outlines on the photo.

use super::looks::Grid;
use super::mask::pieces;
use crate::geometry::{Point, Polygon};
use imageproc::geometry::approximate_polygon_dp;
use std::collections::BTreeSet;

/// How far an outline may stray from the tiles' own, in tiles: the steps of a slanting edge go.
const SLACK: f64 = 0.4;
/// Outward directions of a tile's four sides, clockwise on the photo.
const SIDES: [(i32, i32); 4] = [(0, -1), (1, 0), (0, 1), (-1, 0)];

/// Outlines around one connected piece of tiles.
///
/// An outline cannot hold a hole, so a piece with one is cut in two through the hole.
pub(super) fn outlines(grid: &Grid, piece: &[usize]) -> Vec<Polygon> {
    let set: BTreeSet<usize> = piece.iter().copied().collect();
    let loops = loops(grid, &set);
    if let Some(hole) = loops.iter().find(|ring| turning(ring) < 0.0) {
        let (low, high) = hole
            .iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), p| {
                (low.min(p.x), high.max(p.x))
            });
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a column of the grid"
        )]
        let cut = f64::midpoint(low, high) as usize;
        // Both have the column of the cut, so that no gap is left between them.
        let halves = [0..=cut, cut..=grid.columns];
        return halves
            .into_iter()
            .flat_map(|columns| {
                pieces(grid, |tile| {
                    set.contains(&tile) && columns.contains(&(tile % grid.columns))
                })
            })
            .flat_map(|part| outlines(grid, &part))
            .collect();
    }
    loops
        .iter()
        .filter_map(|ring| on_photo(grid, ring))
        .collect()
}

/// Every closed line along sides of tiles, through the middles of the sides, in tiles: clockwise
/// about the tiles, anticlockwise about holes. The photo's own edge lies one tile further out.
fn loops(grid: &Grid, set: &BTreeSet<usize>) -> Vec<Vec<Point>> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_possible_wrap,
        reason = "tile numbers"
    )]
    let (columns, rows) = (grid.columns as i32, grid.rows as i32);
    let holds = |x: i32, y: i32| {
        let inner = (-1..=columns).contains(&x) && (-1..=rows).contains(&y);
        let (x, y) = (x.clamp(0, columns - 1), y.clamp(0, rows - 1));
        inner && set.contains(&((y * columns + x).unsigned_abs() as usize))
    };
    let mut starts = BTreeSet::new();
    for y in -1..=rows {
        for x in -1..=columns {
            for (side, (dx, dy)) in SIDES.iter().enumerate() {
                if holds(x, y) && !holds(x + dx, y + dy) {
                    starts.insert((y, x, side));
                }
            }
        }
    }
    let mut loops = Vec::new();
    while let Some(start) = starts.first().copied() {
        let mut ring = Vec::new();
        let mut at = start;
        while starts.remove(&at) {
            let (y, x, side) = at;
            let (out, on) = (SIDES[side], SIDES[(side + 1) % 4]);
            ring.push(Point::new(
                f64::from(x) + 0.5 + 0.5 * f64::from(out.0),
                f64::from(y) + 0.5 + 0.5 * f64::from(out.1),
            ));
            at = if !holds(x + on.0, y + on.1) {
                (y, x, (side + 1) % 4)
            } else if !holds(x + on.0 + out.0, y + on.1 + out.1) {
                (y + on.1, x + on.0, side)
            } else {
                (y + on.1 + out.1, x + on.0 + out.0, (side + 3) % 4)
            };
        }
        loops.push(ring);
    }
    loops
}

/// Twice the area enclosed: positive when the line runs clockwise on the photo.
fn turning(ring: &[Point]) -> f64 {
    ring.iter()
        .zip(ring.iter().cycle().skip(1))
        .map(|(a, b)| a.x * b.y - b.x * a.y)
        .sum()
}

/// The line with few corners, on the photo, cut off at the photo's edge.
fn on_photo(grid: &Grid, ring: &[Point]) -> Option<Polygon> {
    let curve: Vec<_> = ring
        .iter()
        .map(|p| imageproc::point::Point::new(p.x, p.y))
        .collect();
    let edge = |at: f64, tiles: usize, from: f64, length: f64| {
        // The last tile reaches to the edge.
        if at > tiles as f64 - 0.25 {
            from + length
        } else {
            from + (at * grid.tile_px).clamp(0.0, length)
        }
    };
    let bounds = grid.bounds;
    let mut corners: Vec<Point> = approximate_polygon_dp(&curve, SLACK, true)
        .iter()
        .map(|p| {
            Point::new(
                edge(p.x, grid.columns, bounds.x, bounds.width),
                edge(p.y, grid.rows, bounds.y, bounds.height),
            )
        })
        .collect();
    corners.dedup();
    let polygon = Polygon::new(corners);
    (polygon.area() > 0.0).then_some(polygon)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Rect;

    fn grid(columns: usize, rows: usize) -> Grid {
        Grid {
            bounds: Rect {
                x: 5.0,
                y: 7.0,
                width: columns as f64 * 10.0 + 4.0,
                height: rows as f64 * 10.0 + 3.0,
            },
            tile_px: 10.0,
            columns,
            rows,
        }
    }

    #[test]
    fn a_piece_that_fills_the_photo_has_the_photos_corners() {
        let grid = grid(6, 4);
        let piece: Vec<usize> = (0..24).collect();
        let [polygon] = &outlines(&grid, &piece)[..] else {
            panic!("one outline");
        };
        assert!((polygon.area() - 64.0 * 43.0).abs() < 1e-9, "{polygon:?}");
    }

    /// A disc keeps its area to a few per cent: the slack takes as much as it gives.
    #[test]
    fn a_surround_is_cut_in_two_and_leaves_the_field_out() {
        let grid = grid(40, 40);
        let inside = |tile: usize| {
            let p = grid.middle(tile);
            (p.x - 205.0).hypot(p.y - 207.0) < 150.0
        };
        let piece: Vec<usize> = (0..1600).filter(|&tile| !inside(tile)).collect();
        let parts = outlines(&grid, &piece);
        assert_eq!(parts.len(), 2, "{parts:?}");
        let places = (0..200).flat_map(|y| (0..200).map(move |x| (x, y)));
        let left = places.filter(|&(x, y)| {
            let p = Point::new(5.0 + 2.02 * f64::from(x), 7.0 + 2.015 * f64::from(y));
            !parts.iter().any(|part| part.contains(p))
        });
        let field = left.count() as f64 * 2.02 * 2.015;
        let disc = std::f64::consts::PI * 150.0 * 150.0;
        assert!((field / disc - 1.0).abs() < 0.04, "{field} for {disc}");
        assert!(!parts.iter().any(|p| p.contains(Point::new(205.0, 207.0))));
        assert!(parts.iter().all(|p| p.vertices().len() < 30), "{parts:?}");
    }
}
