//! Simple polygons: area, perimeter, moments, hull, Feret diameters.

use super::{Moments, Point, Rect};
use serde::{Deserialize, Serialize};

/// A closed simple polygon; the last vertex joins the first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Polygon {
    vertices: Vec<Point>,
}

/// Smallest and largest distance between parallel tangents (caliper width), px.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Feret {
    /// ISO 9276-6 `x_Fmin`.
    pub min: f64,
    /// ISO 9276-6 `x_Fmax`.
    pub max: f64,
}

/// Where the horizontal line at `y` crosses the side from `a` to `b`. Of both ends that lie on it, only one
/// counts.
pub(crate) fn crossing_of_row(a: Point, b: Point, y: f64) -> Option<f64> {
    let crosses = (a.y > y) != (b.y > y);
    crosses.then(|| (b.x - a.x) * (y - a.y) / (b.y - a.y) + a.x)
}

impl Polygon {
    /// A polygon through the vertices in order.
    #[must_use]
    pub const fn new(vertices: Vec<Point>) -> Self {
        Self { vertices }
    }

    /// The corners, in order.
    #[must_use]
    pub fn vertices(&self) -> &[Point] {
        &self.vertices
    }

    /// Pairs of neighbouring vertices, the closing edge included.
    pub(crate) fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let next = self.vertices.iter().cycle().skip(1);
        self.vertices.iter().copied().zip(next.copied())
    }

    /// Enclosed area, px², whichever way round the vertices run.
    #[must_use]
    pub fn area(&self) -> f64 {
        let Some(&origin) = self.vertices.first() else {
            return 0.0;
        };
        // About the first vertex: small polygons far from the origin keep their digits.
        self.edges()
            .map(|(a, b)| (a.x - origin.x) * (b.y - origin.y) - (b.x - origin.x) * (a.y - origin.y))
            .sum::<f64>()
            .abs()
            / 2.0
    }

    /// Length of the outline, px.
    #[must_use]
    pub fn perimeter(&self) -> f64 {
        self.edges().map(|(a, b)| a.distance(b)).sum()
    }

    /// Exact moments of the enclosed region, or `None` when it has no area.
    #[must_use]
    pub fn moments(&self) -> Option<Moments> {
        let origin = *self.vertices.first()?;
        let (mut m, mut mx, mut my) = (0.0, 0.0, 0.0);
        let (mut mxx, mut myy, mut mxy) = (0.0, 0.0, 0.0);
        for (a, b) in self.edges() {
            let (ax, ay) = (a.x - origin.x, a.y - origin.y);
            let (bx, by) = (b.x - origin.x, b.y - origin.y);
            let cross = ax * by - bx * ay;
            m += cross / 2.0;
            mx += cross * (ax + bx) / 6.0;
            my += cross * (ay + by) / 6.0;
            mxx += cross * (ax * ax + ax * bx + bx * bx) / 12.0;
            myy += cross * (ay * ay + ay * by + by * by) / 12.0;
            mxy += cross * (ax * (2.0 * ay + by) + bx * (ay + 2.0 * by)) / 24.0;
        }
        if m == 0.0 {
            return None;
        }
        let (cx, cy) = (mx / m, my / m);
        Some(Moments {
            area: m.abs(),
            centroid: Point::new(origin.x + cx, origin.y + cy),
            xx: mxx / m - cx * cx,
            yy: myy / m - cy * cy,
            xy: mxy / m - cx * cy,
        })
    }

    /// Whether the point lies inside (even–odd rule).
    #[must_use]
    pub fn contains(&self, p: Point) -> bool {
        self.crossings_of_row(p.y).filter(|x| p.x < *x).count() % 2 == 1
    }

    /// Distance from a place to the outline, px, from inside as from outside.
    #[must_use]
    pub fn distance(&self, p: Point) -> f64 {
        self.edges()
            .map(|(a, b)| {
                let (dx, dy) = (b.x - a.x, b.y - a.y);
                let along = ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy);
                // Where both ends are one place, `along` is no number, and `clamp` leaves it so.
                let t = if along.is_nan() {
                    0.0
                } else {
                    along.clamp(0.0, 1.0)
                };
                p.distance(Point::new(a.x + t * dx, a.y + t * dy))
            })
            .fold(f64::INFINITY, f64::min)
    }

    /// The places no farther than `reach` px from one of the edges, as one polygon an edge: they, and
    /// the polygon itself, are it widened by `reach`. Round ends are regular polygons of the area of
    /// the circle.
    pub(crate) fn bands(&self, reach: f64) -> impl Iterator<Item = Self> + '_ {
        /// Corners of half a circle.
        const CORNERS: u32 = 8;
        let step = std::f64::consts::PI / f64::from(CORNERS);
        let radius = reach * (step / step.sin()).sqrt();
        self.edges().map(move |(a, b)| {
            let along = (b.y - a.y).atan2(b.x - a.x);
            let round = |end: Point, from: f64| {
                (0..CORNERS).map(move |k| {
                    let (sin, cos) = (from + step * (f64::from(k) + 0.5)).sin_cos();
                    Point::new(end.x + radius * cos, end.y + radius * sin)
                })
            };
            let quarter = std::f64::consts::FRAC_PI_2;
            Self::new(
                round(a, along + quarter)
                    .chain(round(b, along - quarter))
                    .collect(),
            )
        })
    }

    /// Where the horizontal line at `y` crosses the outline, unsorted.
    pub(crate) fn crossings_of_row(&self, y: f64) -> impl Iterator<Item = f64> + '_ {
        self.edges()
            .filter_map(move |(a, b)| crossing_of_row(a, b, y))
    }

    /// The smallest upright rectangle around it.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let Some(&first) = self.vertices.first() else {
            return Rect {
                x: 0.0,
                y: 0.0,
                width: 0.0,
                height: 0.0,
            };
        };
        let (mut low, mut high) = (first, first);
        for v in &self.vertices {
            low = Point::new(low.x.min(v.x), low.y.min(v.y));
            high = Point::new(high.x.max(v.x), high.y.max(v.y));
        }
        Rect::from_corners(low, high)
    }

    /// Convex hull: the smallest convex polygon around the vertices.
    #[must_use]
    pub fn hull(&self) -> Self {
        let mut points = self.vertices.clone();
        points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
        points.dedup();
        if points.len() < 3 {
            return Self::new(points);
        }
        // Andrew's monotone chain: lower hull left to right, upper hull back.
        let turn =
            |o: Point, a: Point, b: Point| (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
        let chain = |points: &mut dyn Iterator<Item = Point>| {
            let mut hull: Vec<Point> = Vec::new();
            for p in points {
                while let [.., o, a] = hull[..]
                    && turn(o, a, p) <= 0.0
                {
                    hull.pop();
                }
                hull.push(p);
            }
            hull.pop();
            hull
        };
        let mut hull = chain(&mut points.iter().copied());
        hull.extend(chain(&mut points.iter().rev().copied()));
        Self::new(hull)
    }

    /// Feret diameters of the polygon.
    #[must_use]
    pub fn feret(&self) -> Feret {
        let hull = self.hull();
        let max = hull
            .vertices
            .iter()
            .flat_map(|a| {
                let square = |b: &Point| (a.x - b.x).powi(2) + (a.y - b.y).powi(2);
                hull.vertices.iter().map(square)
            })
            .fold(0.0, f64::max)
            .sqrt();
        // The narrowest caliper always rests on an edge of the hull (Freeman & Shapira 1975).
        let min = hull
            .edges()
            .filter(|(a, b)| a != b)
            .map(|(a, b)| {
                let length = a.distance(b);
                hull.vertices
                    .iter()
                    .map(|p| ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)).abs() / length)
                    .fold(0.0, f64::max)
            })
            .fold(f64::INFINITY, f64::min);
        Feret {
            min: if min.is_finite() { min } else { 0.0 },
            max,
        }
    }
}
