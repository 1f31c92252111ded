//! The card's corner marks: dark squares that hold one to four bright pores in their known places.

use super::layout::{pore_width, pores};
use crate::geometry::{Point, Polygon};
use crate::segmentation::label::{Connectivity, Labels};
use crate::tilt::Homography;
use image::GrayImage;
use rayon::prelude::*;

/// Brightness of cuts, of 255: wherever shade or glare falls on the card, some of them part its black
/// from its white.
const LEVELS: std::ops::Range<u8> = 20..232;
const LEVEL_STEP: usize = 10;
/// Cuts that have to show a mark.
const FEWEST_LEVELS: usize = 2;
/// Smallest side of a mark, px of the searched picture: pores below three pixels close up.
const SMALLEST_PX: u32 = 14;
/// Share of its convex hull that a square fills with its pores, and of the hull that four corners span.
const FILLED: f64 = 0.88;
/// Longest over shortest side of a square that is tilted by 60° at most.
const LONGEST: f64 = 2.2;
/// How far a pore may lie off its place, in sides of the mark.
const PORE_OFF: f64 = 0.07;
/// Area of a pore, in what it should be: cuts and blur shrink and swell it.
const PORE_AREA: std::ops::Range<f64> = 0.2..2.5;
/// Holes smaller than this share of the square are dust.
const DUST: f64 = 0.004;
/// Marks nearer than this, in their sides, are one and the same.
const SAME: f64 = 0.3;

/// A mark as it was seen, px.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Mark {
    /// How many pores it holds, 1–4.
    pub(super) pores: usize,
    /// Its corners, in order.
    pub(super) corners: [Point; 4],
    /// Where its diagonals cross: the middle of a square however it is tilted.
    pub(super) centre: Point,
    /// Cuts that showed it.
    levels: usize,
}

impl Mark {
    /// Mean length of its sides, px.
    pub(super) fn side(&self) -> f64 {
        (0..4)
            .map(|k| self.corners[k].distance(self.corners[(k + 1) % 4]) / 4.0)
            .sum()
    }

    /// The same on a picture of another size.
    pub(super) fn enlarged(mut self, times: [f64; 2]) -> Self {
        let large = |p: Point| Point::new(p.x * times[0], p.y * times[1]);
        self.corners = self.corners.map(large);
        self.centre = large(self.centre);
        self
    }
}

/// All marks on a picture, those that most cuts show first.
pub(super) fn marks(grey: &GrayImage) -> Vec<Mark> {
    let levels: Vec<u8> = LEVELS.step_by(LEVEL_STEP).collect();
    let seen: Vec<Vec<Mark>> = levels
        .par_iter()
        .map(|&level| marks_below(grey, level))
        .collect();
    let mut groups: Vec<Vec<Mark>> = Vec::new();
    for mark in seen.into_iter().flatten() {
        let same = groups.iter_mut().find(|group| {
            group[0].pores == mark.pores
                && group[0].centre.distance(mark.centre) < SAME * mark.side()
        });
        match same {
            Some(group) => group.push(mark),
            None => groups.push(vec![mark]),
        }
    }
    let mut marks: Vec<Mark> = groups
        .into_iter()
        .filter(|group| group.len() >= FEWEST_LEVELS)
        .map(|mut group| {
            let levels = group.len();
            // In the middle of its levels an outline is where the edge is.
            let mut mark = group.swap_remove(levels / 2);
            mark.levels = levels;
            mark
        })
        .collect();
    marks.sort_by_key(|mark| std::cmp::Reverse(mark.levels));
    marks
}

/// What is known of a dark component.
#[derive(Clone)]
struct Dark {
    pixels: f64,
    left: u32,
    right: u32,
    top: u32,
    bottom: u32,
    /// Areas and middles of the holes.
    holes: Vec<(f64, Point)>,
}

/// Marks that are darker than a level.
fn marks_below(grey: &GrayImage, level: u8) -> Vec<Mark> {
    let (width, height) = grey.dimensions();
    let raw = grey.as_raw();
    let at = |x: u32, y: u32| y as usize * width as usize + x as usize;
    let dark = |x: u32, y: u32| raw[at(x, y)] < level;
    let solid = Labels::of(width, height, dark, Connectivity::Eight);
    let bright = Labels::of(width, height, |x, y| !dark(x, y), Connectivity::Four);

    let mut darks = vec![
        Dark {
            pixels: 0.0,
            left: u32::MAX,
            right: 0,
            top: u32::MAX,
            bottom: 0,
            holes: Vec::new(),
        };
        solid.count as usize + 1
    ];
    // Per bright component: pixels, sums of x and y, the dark component about it.
    let mut brights = vec![(0.0, 0.0, 0.0, 0_u32); bright.count as usize + 1];
    for y in 0..height {
        for x in 0..width {
            let label = solid.of_pixel[at(x, y)];
            if label != 0 {
                let dark = &mut darks[label as usize];
                dark.pixels += 1.0;
                dark.left = dark.left.min(x);
                dark.right = dark.right.max(x);
                dark.top = dark.top.min(y);
                dark.bottom = dark.bottom.max(y);
                continue;
            }
            let bright = &mut brights[bright.of_pixel[at(x, y)] as usize];
            if bright.0 == 0.0 && y > 0 {
                // What lies above its first pixel is what lies about it, if anything does.
                bright.3 = solid.of_pixel[at(x, y - 1)];
            }
            bright.0 += 1.0;
            bright.1 += f64::from(x) + 0.5;
            bright.2 += f64::from(y) + 0.5;
        }
    }
    for (pixels, x, y, about) in brights {
        if about != 0 {
            let middle = Point::new(x / pixels, y / pixels);
            darks[about as usize].holes.push((pixels, middle));
        }
    }
    darks
        .iter()
        .enumerate()
        .skip(1)
        .filter_map(|(label, dark)| mark(dark, label, &solid))
        .collect()
}

/// A dark component as a mark, if it is one.
fn mark(dark: &Dark, label: usize, solid: &Labels) -> Option<Mark> {
    let (wide, high) = (dark.right - dark.left + 1, dark.bottom - dark.top + 1);
    let touches_edge = dark.left == 0
        || dark.top == 0
        || dark.right + 1 == solid.width
        || dark.bottom + 1 == solid.height;
    if touches_edge || wide < SMALLEST_PX || high < SMALLEST_PX {
        return None;
    }
    let whole = dark.pixels + dark.holes.iter().map(|hole| hole.0).sum::<f64>();
    let holes: Vec<&(f64, Point)> = dark
        .holes
        .iter()
        .filter(|hole| hole.0 > DUST * whole)
        .collect();
    let count = holes.len();
    // A square that stands on a corner fills half of its upright box.
    if !(1..=4).contains(&count) || whole < 0.3 * f64::from(wide) * f64::from(high) {
        return None;
    }
    let hull = hull(dark, label, solid);
    let corners = four_corners(hull.vertices())?;
    let square = Polygon::new(corners.to_vec());
    let hull_area = hull.area();
    if whole < FILLED * hull_area || square.area() < FILLED * hull_area {
        return None;
    }
    let sides: Vec<f64> = (0..4)
        .map(|k| corners[k].distance(corners[(k + 1) % 4]))
        .collect();
    let (shortest, longest) = sides.iter().fold((f64::MAX, 0.0_f64), |(s, l), side| {
        (s.min(*side), l.max(*side))
    });
    if longest > LONGEST * shortest {
        return None;
    }
    let unit = [[-0.5, -0.5], [0.5, -0.5], [0.5, 0.5], [-0.5, 0.5]];
    let pairs: Vec<_> = corners.iter().map(|c| [c.x, c.y]).zip(unit).collect();
    let to_unit = Homography::through(&pairs).ok()?;
    let expected_area = whole * std::f64::consts::PI / 4.0 * pore_width(count).powi(2);
    if !holes
        .iter()
        .all(|hole| PORE_AREA.contains(&(hole.0 / expected_area)))
    {
        return None;
    }
    let places: Vec<[f64; 2]> = holes
        .iter()
        .map(|hole| to_unit.map([hole.1.x, hole.1.y]))
        .collect();
    let [x, y] = to_unit.inverse().map([0.0, 0.0]);
    is_pattern(&places).then(|| Mark {
        pores: count,
        corners,
        centre: Point::new(x, y),
        levels: 0,
    })
}

/// Whether pores lie as they are printed, the mark turned any way.
fn is_pattern(places: &[[f64; 2]]) -> bool {
    let expected = pores(places.len());
    (0..4).any(|quarter| {
        let turned = expected.iter().map(|&[x, y]| match quarter {
            0 => [x, y],
            1 => [-y, x],
            2 => [-x, -y],
            _ => [y, -x],
        });
        turned
            .into_iter()
            .all(|[x, y]| places.iter().any(|[u, v]| (u - x).hypot(v - y) <= PORE_OFF))
    })
}

/// The convex hull of a component's pixels as squares.
fn hull(dark: &Dark, label: usize, solid: &Labels) -> Polygon {
    let mut ends = Vec::new();
    for y in dark.top..=dark.bottom {
        let row = y as usize * solid.width as usize;
        let inside = |x: &u32| solid.of_pixel[row + *x as usize] as usize == label;
        let columns = || dark.left..=dark.right;
        let (Some(first), Some(last)) = (columns().find(inside), columns().rfind(inside)) else {
            continue;
        };
        for (x, y) in [(first, y), (first, y + 1), (last + 1, y), (last + 1, y + 1)] {
            ends.push(Point::new(f64::from(x), f64::from(y)));
        }
    }
    Polygon::new(ends).hull()
}

/// The four corners of a convex polygon that span the most.
fn four_corners(hull: &[Point]) -> Option<[Point; 4]> {
    let cross =
        |a: Point, b: Point, c: Point| (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
    let count = hull.len();
    let mut best: Option<(f64, [Point; 4])> = None;
    for i in 0..count {
        for k in i + 2..count {
            let farthest = |range: &mut dyn Iterator<Item = usize>| {
                range
                    .map(|j| (cross(hull[i], hull[k], hull[j % count]).abs(), j % count))
                    .max_by(|a, b| a.0.total_cmp(&b.0))
            };
            let one = farthest(&mut (i + 1..k));
            let other = farthest(&mut (k + 1..i + count));
            if let (Some((a, j)), Some((b, l))) = (one, other)
                && best.is_none_or(|(area, _)| a + b > area)
            {
                best = Some((a + b, [hull[i], hull[j], hull[k], hull[l]]));
            }
        }
    }
    best.map(|(_, corners)| corners)
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::Luma;

    /// A black square on white, turned, with pores.
    fn drawn(count: usize, turn_deg: f64) -> GrayImage {
        let (sin, cos) = turn_deg.to_radians().sin_cos();
        let places = pores(count);
        GrayImage::from_fn(160, 140, |x, y| {
            let (dx, dy) = (f64::from(x) - 79.5, f64::from(y) - 69.5);
            let (u, v) = ((cos * dx + sin * dy) / 60.0, (cos * dy - sin * dx) / 60.0);
            let in_square = u.abs().max(v.abs()) < 0.5;
            let in_pore = places
                .iter()
                .any(|[px, py]| (u - px).hypot(v - py) < pore_width(count) / 2.0);
            Luma([if in_square && !in_pore { 40 } else { 200 }])
        })
    }

    #[test]
    fn marks_are_read_at_any_rotation() {
        for count in 1..=4 {
            for turn in [0.0, 13.0, 45.0, 77.0, 160.0, 271.0] {
                let marks = marks(&drawn(count, turn));
                assert_eq!(marks.len(), 1, "{count} pores at {turn}°");
                assert_eq!(marks[0].pores, count);
                assert!(marks[0].centre.distance(Point::new(80.0, 70.0)) < 0.7);
                assert!((marks[0].side() - 60.0).abs() < 2.0);
            }
        }
    }

    #[test]
    fn other_dark_things_are_no_marks() {
        let mut blank = drawn(4, 20.0);
        for (x, y, pixel) in blank.enumerate_pixels_mut() {
            if x.abs_diff(80) < 20 && y.abs_diff(70) < 20 {
                *pixel = Luma([40]);
            }
        }
        assert!(marks(&blank).is_empty());
        let round = GrayImage::from_fn(100, 100, |x, y| {
            let radius = f64::from(x.abs_diff(50)).hypot(f64::from(y.abs_diff(50)));
            Luma([if (8.0..40.0).contains(&radius) {
                40
            } else {
                200
            }])
        });
        assert!(marks(&round).is_empty());
    }
}
