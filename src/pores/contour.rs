//! Closed contours of a grid of values by marching squares (Lorensen & Cline 1987, in the plane).

use crate::geometry::{Point, Polygon};

/// One end of a contour piece: on the grid edge from a node to the right (0) or down (1).
type Edge = (usize, u8);

/// The closed contour at `level` that encloses the largest area, with nodes at whole coordinates.
///
/// Values along the rim of the grid must lie below the level, so that every contour closes.
/// At a saddle the higher corners are kept apart (4-connected), as basins are.
#[must_use]
pub(super) fn longest(grid: &[f32], width: usize, height: usize, level: f32) -> Option<Vec<Point>> {
    let above = |node: usize| grid[node] > level;
    // Pieces run with the higher side on their left; each starts where another ends.
    let number = |(node, down): Edge| 2 * node + usize::from(down);
    let mut next: Vec<Option<Edge>> = vec![None; 2 * grid.len()];
    for y in 0..height.saturating_sub(1) {
        for x in 0..width.saturating_sub(1) {
            let node = y * width + x;
            let (top, right) = ((node, 0), (node + 1, 1));
            let (bottom, left) = ((node + width, 0), (node, 1));
            let corners = u8::from(above(node))
                | u8::from(above(node + 1)) << 1
                | u8::from(above(node + width + 1)) << 2
                | u8::from(above(node + width)) << 3;
            let pieces: &[(Edge, Edge)] = match corners {
                0b0001 => &[(top, left)],
                0b0010 => &[(right, top)],
                0b0011 => &[(right, left)],
                0b0100 => &[(bottom, right)],
                0b0101 => &[(top, left), (bottom, right)],
                0b0110 => &[(bottom, top)],
                0b0111 => &[(bottom, left)],
                0b1000 => &[(left, bottom)],
                0b1001 => &[(top, bottom)],
                0b1010 => &[(right, top), (left, bottom)],
                0b1011 => &[(right, bottom)],
                0b1100 => &[(left, right)],
                0b1101 => &[(top, right)],
                0b1110 => &[(left, top)],
                _ => &[],
            };
            for (from, to) in pieces {
                next[number(*from)] = Some(*to);
            }
        }
    }
    #[expect(clippy::cast_precision_loss, reason = "grid coordinates")]
    let place = |(node, down): Edge| {
        let other = if down == 1 { node + width } else { node + 1 };
        let t = f64::from((level - grid[node]) / (grid[other] - grid[node]));
        let (x, y) = ((node % width) as f64, (node / width) as f64);
        if down == 1 {
            Point::new(x, y + t)
        } else {
            Point::new(x + t, y)
        }
    };
    let mut best: Option<(f64, Vec<Point>)> = None;
    for start in (0..grid.len()).flat_map(|node| [(node, 0), (node, 1)]) {
        let mut points = Vec::new();
        let mut at = start;
        while let Some(to) = next[number(at)].take() {
            points.push(place(at));
            at = to;
        }
        if points.is_empty() {
            continue;
        }
        let area = Polygon::new(points.clone()).area();
        if best.as_ref().is_none_or(|(largest, _)| area > *largest) {
            best = Some((area, points));
        }
    }
    best.map(|(_, points)| points)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cone_has_a_circle_for_its_contour() {
        let (size, radius) = (41_usize, 12.3_f32);
        #[expect(clippy::cast_precision_loss, reason = "small")]
        let grid: Vec<f32> = (0..size * size)
            .map(|k| {
                let (x, y) = ((k % size) as f32 - 20.0, (k / size) as f32 - 20.0);
                0.5 + 0.1 * (radius - x.hypot(y))
            })
            .collect();
        let outline = Polygon::new(longest(&grid, size, size, 0.5).expect("a contour"));
        let expected = std::f64::consts::PI * f64::from(radius).powi(2);
        assert!(
            (outline.area() / expected - 1.0).abs() < 0.005,
            "{} for {expected}",
            outline.area()
        );
    }

    #[test]
    fn corners_that_touch_are_kept_apart() {
        let grid = [
            0.0, 0.0, 0.0, 0.0, //
            0.0, 1.0, 0.0, 0.0, //
            0.0, 0.0, 1.0, 0.0, //
            0.0, 0.0, 0.0, 0.0,
        ];
        let points = longest(&grid, 4, 4, 0.5).expect("a contour");
        assert_eq!(points.len(), 4, "a diamond around one node: {points:?}");
    }
}
