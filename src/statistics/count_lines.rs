//! Count lines: simulated 1 mm lines along which pores are counted, as handbooks do.

use crate::geometry::Point;
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;

/// Lines laid.
const LINES: usize = 400;
/// Tries per line before the area is held to be too small for it.
const TRIES: usize = 200;
/// A fixed seed: the same photo gives the same lines.
const SEED: u64 = 0x0C0D_E11E;

/// One simulated 1 mm line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CountLine {
    /// One end, px.
    pub from: Point,
    /// The other end, px.
    pub to: Point,
    /// Pores counted along it.
    pub pores: usize,
}

/// Lays lines of 1 mm (`px_per_mm` px) at random place and angle, wholly `inside` the area within
/// `bounds`, and counts the centroids in a strip about each.
///
/// The strip is √3/(2P) mm wide (`per_mm` = P), the distance between rows of closely packed pores,
/// so that the expected count is P: density × width × 1 mm = 2P²/√3 · √3/(2P). Empty when no line fits.
#[must_use]
pub fn count_lines(
    centroids: &[Point],
    per_mm: f64,
    px_per_mm: f64,
    bounds: crate::geometry::Rect,
    inside: impl Fn(Point) -> bool,
) -> Vec<CountLine> {
    let mut random = Pcg64Mcg::seed_from_u64(SEED);
    let half_width = 3.0_f64.sqrt() / 4.0 / per_mm * px_per_mm;
    let mut lines = Vec::with_capacity(LINES);
    'lines: for _ in 0..LINES {
        for _ in 0..TRIES {
            let line = random_line(&mut random, bounds, px_per_mm);
            let fits = (0..=8).all(|i| {
                let t = f64::from(i) / 8.0;
                inside(Point::new(
                    line.0.x + t * (line.1.x - line.0.x),
                    line.0.y + t * (line.1.y - line.0.y),
                ))
            });
            if fits {
                lines.push(CountLine {
                    from: line.0,
                    to: line.1,
                    pores: centroids
                        .iter()
                        .filter(|c| in_strip(**c, line, px_per_mm, half_width))
                        .count(),
                });
                continue 'lines;
            }
        }
        return Vec::new();
    }
    lines
}

fn random_line(
    random: &mut Pcg64Mcg,
    bounds: crate::geometry::Rect,
    length: f64,
) -> (Point, Point) {
    let x = bounds.x + bounds.width * random.random::<f64>();
    let y = bounds.y + bounds.height * random.random::<f64>();
    let (sin, cos) = (std::f64::consts::PI * random.random::<f64>()).sin_cos();
    let (dx, dy) = (cos * length / 2.0, sin * length / 2.0);
    (Point::new(x - dx, y - dy), Point::new(x + dx, y + dy))
}

fn in_strip(c: Point, (from, to): (Point, Point), length: f64, half_width: f64) -> bool {
    let (ux, uy) = ((to.x - from.x) / length, (to.y - from.y) / length);
    let (dx, dy) = (c.x - from.x, c.y - from.y);
    let along = dx * ux + dy * uy;
    let aside = dx * uy - dy * ux;
    (0.0..length).contains(&along) && aside.abs() < half_width
}
