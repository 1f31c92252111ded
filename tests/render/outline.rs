//! Closed outlines: exact area, centroid, second moments and share of every pixel covered.

use super::plane::Plane;

/// A point or a vector in pixels, y down.
pub type Point = [f64; 2];

/// One pore or one tooth, known by its outline.
#[derive(Clone, Debug)]
pub struct Region {
    /// The corners of the outline in px, closed from the last to the first.
    pub outline: Vec<Point>,
    pub area_px2: f64,
    pub centroid: Point,
    /// sqrt(λ₁/λ₂) of the outline's second moments, at least 1.
    pub elongation: f64,
}

impl Region {
    /// Measures an outline that doesn't cross itself. `None` where it encloses nothing.
    pub fn new(outline: Vec<Point>) -> Option<Self> {
        let origin = *outline.first()?;
        let (mut area, mut first, mut second) = (0.0, [0.0; 2], [0.0; 3]);
        for (p, q) in sides(&outline) {
            // Relative to a corner of the outline, so that no digits are lost far from the origin.
            let [x0, y0] = minus(p, origin);
            let [x1, y1] = minus(q, origin);
            let cross = x0 * y1 - x1 * y0;
            area += cross / 2.0;
            first[0] += cross * (x0 + x1) / 6.0;
            first[1] += cross * (y0 + y1) / 6.0;
            second[0] += cross * (x0 * x0 + x0 * x1 + x1 * x1) / 12.0;
            second[1] += cross * (y0 * y0 + y0 * y1 + y1 * y1) / 12.0;
            second[2] += cross * (2.0 * (x0 * y0 + x1 * y1) + x0 * y1 + x1 * y0) / 24.0;
        }
        if area.abs() < 1e-9 {
            return None;
        }
        let mean = [first[0] / area, first[1] / area];
        let xx = second[0] / area - mean[0] * mean[0];
        let yy = second[1] / area - mean[1] * mean[1];
        let xy = second[2] / area - mean[0] * mean[1];
        let middle = f64::midpoint(xx, yy);
        let spread = ((xx - yy) / 2.0).hypot(xy);
        Some(Self {
            area_px2: area.abs(),
            centroid: [origin[0] + mean[0], origin[1] + mean[1]],
            elongation: ((middle + spread) / (middle - spread)).sqrt(),
            outline,
        })
    }

    /// Diameter of the circle of the same area, px.
    pub fn diameter_px(&self) -> f64 {
        (4.0 * self.area_px2 / std::f64::consts::PI).sqrt()
    }

    /// Adds the exact share of every pixel that lies inside the outline.
    pub fn cover(&self, plane: &mut Plane) {
        let bounds = self.outline.iter().fold(
            [f64::MAX, f64::MAX, f64::MIN, f64::MIN],
            |[l, t, r, b], &[x, y]| [l.min(x), t.min(y), r.max(x), b.max(y)],
        );
        let (left, top) = (bounds[0].floor(), bounds[1].floor());
        let width = (bounds[2] - left).ceil() as usize + 2;
        let height = (bounds[3] - top).ceil() as usize + 1;
        // What each cell adds to its row from there on: a side that falls by dy within a cell
        // covers dy of every cell to its right, and of its own cell the part right of it.
        let mut steps = vec![0.0_f64; width * height];
        for (p, q) in sides(&self.outline) {
            let (p, q) = (minus(p, [left, top]), minus(q, [left, top]));
            for pair in grid_crossings(p, q).windows(2) {
                let (from, to) = (along(p, q, pair[0]), along(p, q, pair[1]));
                let fall = to[1] - from[1];
                let middle = f64::midpoint(from[0], to[0]);
                let cell = middle.floor();
                let row = f64::midpoint(from[1], to[1]).floor() as usize;
                let index = row * width + cell as usize;
                steps[index] += fall * (cell + 1.0 - middle);
                steps[index + 1] += fall * (middle - cell);
            }
        }
        for (row, cells) in steps.chunks(width).enumerate() {
            let y = top as isize + row as isize;
            let mut covered = 0.0;
            for (column, step) in cells.iter().enumerate() {
                covered += step;
                let x = left as isize + column as isize;
                let inside = (0..plane.width as isize).contains(&x)
                    && (0..plane.height as isize).contains(&y);
                if inside {
                    let pixel = &mut plane.values[y as usize * plane.width + x as usize];
                    *pixel = (*pixel + covered.abs() as f32).min(1.0);
                }
            }
        }
    }
}

/// Where a side crosses the lines between pixels, as shares of its length from 0 to 1.
fn grid_crossings(p: Point, q: Point) -> Vec<f64> {
    let mut places = vec![0.0, 1.0];
    for axis in 0..2 {
        let (low, high) = (p[axis].min(q[axis]), p[axis].max(q[axis]));
        let mut line = low.floor() + 1.0;
        while line < high {
            places.push((line - p[axis]) / (q[axis] - p[axis]));
            line += 1.0;
        }
    }
    places.sort_by(f64::total_cmp);
    places
}

/// The part of an outline where `normal · p ≤ offset`.
pub fn clip(outline: &[Point], normal: Point, offset: f64) -> Vec<Point> {
    let beyond = |p: Point| dot(normal, p) - offset;
    let mut kept = Vec::with_capacity(outline.len() + 2);
    for (p, q) in sides(outline) {
        let (from, to) = (beyond(p), beyond(q));
        if from <= 0.0 {
            kept.push(p);
        }
        if (from < 0.0 && to > 0.0) || (from > 0.0 && to < 0.0) {
            kept.push(along(p, q, from / (from - to)));
        }
    }
    kept
}

/// A convex outline widened by `by` with rounded corners. Corners must run clockwise on screen.
pub fn widened(outline: &[Point], by: f64) -> Vec<Point> {
    const STEP: f64 = std::f64::consts::PI / 12.0;
    let count = outline.len();
    let outward = |i: usize| {
        let [x, y] = minus(outline[(i + 1) % count], outline[i]);
        (-x).atan2(y)
    };
    let mut wide = Vec::new();
    for (i, &[x, y]) in outline.iter().enumerate() {
        let start = outward((i + count - 1) % count);
        let turn = (outward(i) - start).rem_euclid(std::f64::consts::TAU);
        let pieces = (turn / STEP).ceil().max(1.0);
        for k in 0..=pieces as usize {
            let (sin, cos) = (start + turn * k as f64 / pieces).sin_cos();
            wide.push([x + by * cos, y + by * sin]);
        }
    }
    wide
}

/// An outline with corners added so that no side is longer than `longest`.
pub fn divided(outline: &[Point], longest: f64) -> Vec<Point> {
    let mut fine = Vec::new();
    for (p, q) in sides(outline) {
        let [dx, dy] = minus(q, p);
        let pieces = (dx.hypot(dy) / longest).ceil().max(1.0);
        fine.extend((0..pieces as usize).map(|k| along(p, q, k as f64 / pieces)));
    }
    fine
}

/// How far from `origin` the last crossing of a ray with an outline lies; 0 where it misses.
pub fn last_crossing(outline: &[Point], origin: Point, angle: f64) -> f64 {
    let (sin, cos) = angle.sin_cos();
    let mut furthest = 0.0_f64;
    for (p, q) in sides(outline) {
        let (p, q) = (minus(p, origin), minus(q, origin));
        let (aside_p, aside_q) = (cos * p[1] - sin * p[0], cos * q[1] - sin * q[0]);
        if (aside_p < 0.0) != (aside_q < 0.0) {
            let at = along(p, q, aside_p / (aside_p - aside_q));
            furthest = furthest.max(dot(at, [cos, sin]));
        }
    }
    furthest
}

pub fn sides(outline: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    (0..outline.len()).map(|i| (outline[i], outline[(i + 1) % outline.len()]))
}

pub fn minus(p: Point, q: Point) -> Point {
    [p[0] - q[0], p[1] - q[1]]
}

pub fn dot(p: Point, q: Point) -> f64 {
    p[0] * q[0] + p[1] * q[1]
}

pub fn along(p: Point, q: Point, share: f64) -> Point {
    [p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])]
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOX: [Point; 4] = [[1.25, 2.5], [7.25, 2.5], [7.25, 4.5], [1.25, 4.5]];

    #[test]
    fn a_box_has_the_closed_form_moments() {
        let region = Region::new(BOX.to_vec()).expect("a box encloses something");
        assert!((region.area_px2 - 12.0).abs() < 1e-12);
        assert!((region.centroid[0] - 4.25).abs() < 1e-12);
        assert!((region.centroid[1] - 3.5).abs() < 1e-12);
        assert!((region.elongation - 3.0).abs() < 1e-12);
    }

    #[test]
    fn coverage_is_exact_per_pixel_whichever_way_round() {
        for outline in [BOX.to_vec(), BOX.into_iter().rev().collect()] {
            let mut plane = Plane::uniform(10, 6, 0.0);
            let region = Region::new(outline).expect("a box encloses something");
            region.cover(&mut plane);
            assert!((plane.at(1, 2) - 0.75 * 0.5).abs() < 1e-6);
            assert!((plane.at(3, 3) - 1.0).abs() < 1e-6);
            assert!((plane.at(7, 4) - 0.25 * 0.5).abs() < 1e-6);
            assert!((plane.values.iter().sum::<f32>() - 12.0).abs() < 1e-5);
        }
    }

    #[test]
    fn coverage_of_a_slanting_side_is_exact() {
        let mut plane = Plane::uniform(4, 4, 0.0);
        let triangle = vec![[0.0, 0.0], [4.0, 0.0], [0.0, 2.0]];
        Region::new(triangle).expect("a triangle").cover(&mut plane);
        let expected = [1.0, 1.0, 0.75, 0.25, 0.75, 0.25, 0.0, 0.0];
        for (value, expected) in plane.values.iter().zip(expected) {
            assert!((value - expected).abs() < 1e-6, "{:?}", plane.values);
        }
    }

    #[test]
    fn widening_a_box_adds_its_rim_and_a_circle() {
        let wide = Region::new(widened(&BOX, 2.0)).expect("wider than a box");
        let expected = 12.0 + 2.0 * 16.0 + std::f64::consts::PI * 4.0;
        assert!(
            (wide.area_px2 / expected - 1.0).abs() < 0.01,
            "{}",
            wide.area_px2
        );
    }
}
