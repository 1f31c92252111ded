//! Pale hairs that lie across pores, taken out of the picture before pores are counted.
//!
//! A hair parts a hollow as a wall does, but not where a wall would. The two sides of a wall are each as
//! large as hollows are; the two sides of a hair are too small, and one as large as the rest once the
//! hair is gone. One such pair is chance. Several of them on one straight line that is bright from end
//! to end are a hair: walls go round the hollows, and a line along them is dark somewhere or has whole
//! hollows on both sides.

use super::PX_PER_SPACING;
use super::basins::Basins;
use super::borders::Border;
use crate::geometry::Point;
use crate::photo::Light;
use std::collections::{BTreeMap, BTreeSet};

/// Shortest and longest stretch of a hair that is taken for straight, spacings.
const SHORTEST: f64 = 1.0;
const LONGEST: f64 = 5.0;
/// How far from the line a pass between two hollows may lie, frame px.
const ASIDE: f64 = 1.5;
/// Fewest pairs on a line that are one hollow rather than two, …
const FEWEST: usize = 3;
/// … and fewest of them that no other line has claimed.
const FEWEST_NEW: usize = 2;
/// How much more like the rest two have to be as one for that to tell anything: a tenth.
const LEAST_GAIN: f64 = 0.1;
/// How far beside a line, in spacings, no more of them may lie than on it: …
const BESIDE: f64 = 1.0;
/// … and the least share of all such pairs that lines have to explain. Where pairs that are too small are
/// common, as where pores lie in groups, some stand in line by chance.
const EXPLAINED: f64 = 1.0 / 3.0;
/// Deeper than this a line is dark: what is half-way is still wall, and a thin hair lets some dark through.
const DARK: f32 = 0.6;
/// What does not reach this depth, or is smaller than this share of the rest, is no part of a hollow but a
/// dimple in a wall; it is not counted as a pore either.
const SHALLOWEST: f32 = 0.55;
const SPECK: f64 = 0.06;
/// How far beyond its last pair a stretch is followed where it stays bright, spacings: over the rest of
/// the hollow that the pair makes.
const ONWARD: f64 = 0.6;
/// How far beside a straight line a bent hair is looked for, frame px, in steps of half a pixel.
const BENT: i32 = 5;
/// Length over which its middle is looked for, spacings: walls that it crosses are as bright.
const MIDDLE: f64 = 0.7;
/// Half of the width that is taken out: a hair up to a sixth of a spacing wide, and its blur, frame px.
const HALF_WIDTH: f64 = 2.5;
/// Sweeps that fill what was taken out; a strip so narrow is at rest after forty.
const SWEEPS: usize = 60;

/// The deepest place of the border between two hollows.
struct Pass {
    /// Labels of the two, the lower first.
    pair: (u32, u32),
    at: Point,
    /// How much more like the rest the two are as one than as two, beyond what has to be; negative where
    /// they are two.
    gain: f64,
}

/// A straight line from one pass to another.
struct Stretch {
    from: Point,
    /// Unit vector along it.
    along: Point,
    length: f64,
}

impl Stretch {
    fn between(from: Point, to: Point) -> Self {
        let length = from.distance(to);
        let along = Point::new((to.x - from.x) / length, (to.y - from.y) / length);
        Self {
            from,
            along,
            length,
        }
    }

    /// The place so far along and so far beside.
    fn at(&self, along: f64, beside: f64) -> Point {
        Point::new(
            self.from.x + along * self.along.x - beside * self.along.y,
            self.from.y + along * self.along.y + beside * self.along.x,
        )
    }

    /// How far beside it a place lies; `None` where that is beyond its ends.
    fn beside(&self, p: Point) -> Option<f64> {
        let (dx, dy) = (p.x - self.from.x, p.y - self.from.y);
        let along = dx * self.along.x + dy * self.along.y;
        let beside = dy * self.along.x - dx * self.along.y;
        (-1.0..=self.length + 1.0)
            .contains(&along)
            .then_some(beside.abs())
    }

    /// Whether it is bright at a place along it, or next to there.
    fn is_bright(&self, depth: &Light, along: f64) -> bool {
        [0.0, -1.0, 1.0]
            .iter()
            .filter_map(|beside| value(depth, self.at(along, *beside)))
            .any(|depth| depth < DARK)
    }

    /// How far it goes on being bright beyond an end, px.
    fn onward(&self, depth: &Light, end: f64, step: f64) -> f64 {
        let most = (ONWARD * PX_PER_SPACING).floor();
        let mut reached = 0.0;
        while reached < most && self.is_bright(depth, end + step * (reached + 1.0)) {
            reached += 1.0;
        }
        reached
    }

    /// The hair's middle, a place every pixel.
    fn middle(&self, depth: &Light) -> Vec<Point> {
        let first = -self.onward(depth, 0.0, -1.0);
        let length = self.length + self.onward(depth, self.length, 1.0) - first;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a few spacings"
        )]
        let (steps, reach) = (
            length.floor() as usize + 1,
            (MIDDLE * PX_PER_SPACING / 2.0) as usize,
        );
        let places = |i: usize| i.saturating_sub(reach)..(i + reach + 1).min(steps);
        let beside: Vec<f64> = (0..steps)
            .map(|i| {
                let depth_at = |beside: f64| -> f32 {
                    places(i)
                        .map(|j| value(depth, self.at(first + j as f64, beside)).unwrap_or(DARK))
                        .sum()
                };
                (-BENT..=BENT)
                    .map(|half| 0.5 * f64::from(half))
                    .map(|beside| (depth_at(beside), beside))
                    .min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.abs().total_cmp(&b.1.abs())))
                    .map_or(0.0, |(_, beside)| beside)
            })
            .collect();
        (0..steps)
            .map(|i| {
                let near = places(i);
                let mean = beside[near.clone()].iter().sum::<f64>() / near.len() as f64;
                self.at(first + i as f64, mean)
            })
            .collect()
    }
}

/// Which pixels of hollows lie under a hair. Over a wall it is left where it is, as bright as the wall.
pub(super) fn covered(
    voids: &Basins,
    borders: &[Border],
    depth: &Light,
    inside: &[bool],
) -> Vec<bool> {
    let (width, height) = (depth.width() as usize, depth.height() as usize);
    let mut covered = vec![false; width * height];
    let passes = passes(voids, borders, depth, inside);
    let parted: BTreeSet<(u32, u32)> = passes
        .iter()
        .filter(|pass| pass.gain > 0.0)
        .map(|pass| pass.pair)
        .collect();
    let at = |p: Point| index(p, width, height);
    let label = |p: Point| at(p).map_or(0, |pixel| voids.of_pixel[pixel]);
    for hair in hairs(&passes, depth) {
        for p in hair.middle(depth) {
            let beside = |along: f64, beside: f64| {
                let (dx, dy) = (hair.along.x, hair.along.y);
                Point::new(
                    p.x + along * dx - beside * dy,
                    p.y + along * dy + beside * dx,
                )
            };
            let (a, b) = (
                label(beside(0.0, -HALF_WIDTH - 1.0)),
                label(beside(0.0, HALF_WIDTH + 1.0)),
            );
            if a == 0 || b == 0 || (a != b && !parted.contains(&(a.min(b), a.max(b)))) {
                continue;
            }
            // In steps of half a pixel, so that none is skipped.
            for along in [0.0, 0.5] {
                let mut side = -HALF_WIDTH;
                while side <= HALF_WIDTH {
                    if let Some(pixel) = at(beside(along, side)) {
                        covered[pixel] = true;
                    }
                    side += 0.5;
                }
            }
        }
    }
    covered
}

/// Fills pixels evenly from what lies about them, as a soap film is spanned (Laplace's equation).
pub(super) fn filled(light: &Light, covered: &[bool]) -> Light {
    let (width, height) = (light.width() as usize, light.height() as usize);
    let pixels: Vec<usize> = (0..covered.len()).filter(|&pixel| covered[pixel]).collect();
    let mut light = light.clone();
    let raw: &mut [f32] = &mut light;
    for _ in 0..SWEEPS {
        for &pixel in &pixels {
            let (x, y) = (pixel % width, pixel / width);
            let left = raw[y * width + x.saturating_sub(1)];
            let right = raw[y * width + (x + 1).min(width - 1)];
            let up = raw[y.saturating_sub(1) * width + x];
            let down = raw[(y + 1).min(height - 1) * width + x];
            raw[pixel] = (left + right + up + down) / 4.0;
        }
    }
    light
}

/// A stretch that may be of a hair, and the passes about it.
struct Candidate {
    gain: f64,
    stretch: Stretch,
    on: Vec<usize>,
    /// Those that are one hollow too, beside it.
    beside: Vec<usize>,
}

/// Every stretch of a hair.
fn hairs(passes: &[Pass], depth: &Light) -> Vec<Stretch> {
    let is_one = |&k: &usize| passes[k].gain > 0.0;
    let by_cell = Cells::of(passes);
    let all: Vec<usize> = (0..passes.len()).filter(is_one).collect();
    let mut candidates = candidates(passes, &all, &by_cell, depth);
    // The clearest first; what it explains tells nothing more of another.
    candidates.sort_by(|a, b| b.gain.total_cmp(&a.gain));
    let mut claimed = BTreeSet::new();
    let mut hairs = Vec::new();
    for candidate in candidates {
        let unclaimed = |passes: &[usize]| {
            let of_these = passes.iter().filter(|k| is_one(k) && !claimed.contains(*k));
            of_these.count()
        };
        let on = candidate.on.iter().filter(|k| is_one(k)).count();
        if unclaimed(&candidate.on) >= FEWEST_NEW && on >= unclaimed(&candidate.beside) {
            claimed.extend(candidate.on);
            hairs.push(candidate.stretch);
        }
    }
    let explained = claimed.iter().filter(|k| is_one(k)).count();
    if explained as f64 >= EXPLAINED * all.len() as f64 {
        hairs
    } else {
        Vec::new()
    }
}

/// Bright straight lines between two of the passes that are `one` hollow, with more of these on them.
fn candidates(passes: &[Pass], one: &[usize], by_cell: &Cells, depth: &Light) -> Vec<Candidate> {
    let far = LONGEST * PX_PER_SPACING;
    let is_one = |k: usize| passes[k].gain > 0.0;
    let mut found = Vec::new();
    for &i in one {
        let from = passes[i].at;
        for j in by_cell.within(from, from, far) {
            let to = passes[j].at;
            let length = from.distance(to);
            let fits = (SHORTEST * PX_PER_SPACING..=far).contains(&length);
            if j <= i || !is_one(j) || !fits {
                continue;
            }
            let stretch = Stretch::between(from, to);
            let mut along = 0.0;
            while along <= length && stretch.is_bright(depth, along) {
                along += 1.0;
            }
            if along <= length {
                continue;
            }
            let (mut on, mut beside) = (Vec::new(), Vec::new());
            for k in by_cell.within(from, to, BESIDE * PX_PER_SPACING) {
                match stretch.beside(passes[k].at) {
                    Some(distance) if distance <= ASIDE => on.push(k),
                    Some(distance) if distance <= BESIDE * PX_PER_SPACING && is_one(k) => {
                        beside.push(k);
                    }
                    _ => {}
                }
            }
            let gain: f64 = on.iter().map(|&k| passes[k].gain).sum();
            if gain > 0.0 && on.iter().filter(|k| is_one(**k)).count() >= FEWEST {
                found.push(Candidate {
                    gain,
                    stretch,
                    on,
                    beside,
                });
            }
        }
    }
    found
}

/// The pass of every two neighbouring hollows that lie wholly `inside` the area.
fn passes(voids: &Basins, borders: &[Border], depth: &Light, inside: &[bool]) -> Vec<Pass> {
    let (width, height) = (depth.width() as usize, depth.height() as usize);
    let raw = depth.as_raw();
    let mut area = vec![0.0_f64; voids.count() + 1];
    let mut cut = vec![false; area.len()];
    for (pixel, &label) in voids.of_pixel.iter().enumerate() {
        let (x, y) = (pixel % width, pixel / width);
        area[label as usize] += f64::from(u8::from(raw[pixel] > 0.5));
        cut[label as usize] |=
            x == 0 || y == 0 || x + 1 == width || y + 1 == height || !inside[pixel];
    }
    for (cut, deepest) in cut.iter_mut().zip(&voids.deepest) {
        *cut |= *deepest < SHALLOWEST;
    }
    let mut sizes: Vec<f64> = area
        .iter()
        .zip(&cut)
        .skip(1)
        .filter(|(area, cut)| !**cut && **area > 0.0)
        .map(|(area, _)| *area)
        .collect();
    if sizes.is_empty() {
        return Vec::new();
    }
    let middle = sizes.len() / 2;
    let typical = *sizes.select_nth_unstable_by(middle, f64::total_cmp).1;
    // How unlike the rest a size is; half as large and twice as large is as unlike as counts.
    let unlike = |area: f64| {
        let ratio = area.max(1.0) / typical;
        ratio.ln().abs().min(std::f64::consts::LN_2)
    };
    borders
        .iter()
        .filter(|border| {
            [border.pair.0 as usize, border.pair.1 as usize]
                .iter()
                .all(|&i| !cut[i] && area[i] > SPECK * typical)
        })
        .map(|border| {
            let (a, b) = (area[border.pair.0 as usize], area[border.pair.1 as usize]);
            let [first, second] = border.at.map(|pixel| pixel as usize);
            let middle = |at: fn(usize, usize) -> usize| {
                f64::midpoint(at(first, width) as f64, at(second, width) as f64) + 0.5
            };
            Pass {
                pair: border.pair,
                at: Point::new(middle(|p, w| p % w), middle(|p, w| p / w)),
                gain: f64::midpoint(unlike(a), unlike(b)) - unlike(a + b) - LEAST_GAIN,
            }
        })
        .collect()
}

/// Passes by where they lie, so that not all of them have to be looked at.
struct Cells {
    of: BTreeMap<(usize, usize), Vec<usize>>,
}

impl Cells {
    fn of(passes: &[Pass]) -> Self {
        let mut of: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
        for (i, pass) in passes.iter().enumerate() {
            of.entry((cell(pass.at.y), cell(pass.at.x)))
                .or_default()
                .push(i);
        }
        Self { of }
    }

    /// Those in the rectangle of two corners, and at least `reach` about it.
    fn within(&self, a: Point, b: Point, reach: f64) -> Vec<usize> {
        let columns = cell(a.x.min(b.x) - reach)..=cell(a.x.max(b.x) + reach);
        (cell(a.y.min(b.y) - reach)..=cell(a.y.max(b.y) + reach))
            .flat_map(|row| {
                self.of
                    .range((row, *columns.start())..=(row, *columns.end()))
            })
            .flat_map(|(_, passes)| passes.iter().copied())
            .collect()
    }
}

/// Number of the cell, one spacing wide, of a place along one axis.
fn cell(at: f64) -> usize {
    pixel(at / PX_PER_SPACING, usize::MAX)
}

/// Number of the pixel of a place along one axis.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "never below zero"
)]
fn pixel(at: f64, last: usize) -> usize {
    (at.max(0.0) as usize).min(last)
}

/// Index of the pixel at a place; `None` off the plane.
fn index(p: Point, width: usize, height: usize) -> Option<usize> {
    let (x, y) = (pixel(p.x, width), pixel(p.y, height));
    (p.x >= 0.0 && p.y >= 0.0 && x < width && y < height).then_some(y * width + x)
}

/// What a plane holds at a place; `None` off it.
fn value(plane: &Light, p: Point) -> Option<f32> {
    let pixel = index(p, plane.width() as usize, plane.height() as usize)?;
    Some(plane.as_raw()[pixel])
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::Luma;

    /// A slope is harmonic, so that it is what Laplace's equation makes of its own edges.
    #[test]
    fn a_strip_across_a_slope_is_filled_with_the_slope() {
        let slope = Light::from_fn(40, 30, |x, y| {
            Luma([0.2 + 0.01 * x as f32 + 0.005 * y as f32])
        });
        let covered: Vec<bool> = (0..40 * 30)
            .map(|pixel| (12..17).contains(&(pixel % 40)))
            .collect();
        let mut spoilt = slope.clone();
        for (value, _) in spoilt.iter_mut().zip(&covered).filter(|(_, c)| **c) {
            *value = 1.0;
        }
        let filled = filled(&spoilt, &covered);
        let inner = |pixel: usize| (8..22).contains(&(pixel / 40));
        for pixel in (0..40 * 30).filter(|pixel| inner(*pixel)) {
            let (found, truth) = (filled.as_raw()[pixel], slope.as_raw()[pixel]);
            assert!(
                (found - truth).abs() < 0.003,
                "{pixel}: {found} for {truth}"
            );
        }
    }

    #[test]
    fn a_place_lies_on_a_stretch_or_beyond_its_ends() {
        let stretch = Stretch::between(Point::new(0.0, 0.0), Point::new(30.0, 40.0));
        let beside = stretch.beside(Point::new(15.0 - 4.0, 20.0 + 3.0));
        assert!(beside.is_some_and(|distance| (distance - 5.0).abs() < 1e-9));
        assert_eq!(stretch.beside(Point::new(33.0, 44.0)), None);
        let back = stretch.at(25.0, 5.0);
        assert!(back.distance(Point::new(11.0, 23.0)) < 1e-9, "{back:?}");
    }
}
