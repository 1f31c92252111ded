//! Which pixels drain to the same deepest point: one basin for every void.
//!
//! The depth plane is flooded from its deepest points up. Where two floods meet they stay apart if
//! both have sunk by at least the height rule since their deepest points, and become one if not
//! (dynamics of minima: Grimaud 1992, Proc. SPIE 1769: 292–305). A wall that blur has made faint
//! still parts two voids; a ripple of noise on the floor of one void does not.

use super::label::Connectivity;
use crate::photo::Light;
use rayon::prelude::*;
use std::ops::Range;

/// Labels from 1; 0 where nothing was flooded.
#[derive(Debug, Clone)]
pub struct Basins {
    /// Row by row.
    pub of_pixel: Vec<u32>,
    /// Deepest depth of each basin; index 0 is unused.
    pub deepest: Vec<f32>,
}

/// Two basins, the lower label first, and the deepest pass between them.
pub type Pass = ((u32, u32), f32);

/// In place of a pixel's deepest neighbour: this pixel is itself the deepest, and the rest is its number.
const SUMMIT: u32 = 1 << 31;
/// Rows whose passes are gathered at once.
const BAND: usize = 64;

fn root(parent: &mut [u32], mut label: u32) -> u32 {
    while parent[label as usize] != label {
        let up = parent[parent[label as usize] as usize];
        parent[label as usize] = up;
        label = up;
    }
    label
}

/// For every pixel the deepest of it and its neighbours that are the `same`, the first in reading order
/// where several are.
fn deepest_neighbours(
    depth: &Light,
    allowed: &[bool],
    same: impl Fn(usize, usize) -> bool + Sync,
) -> Vec<u32> {
    let (width, height) = (depth.width() as usize, depth.height() as usize);
    let raw = depth.as_raw();
    let mut deepest = vec![0_u32; width * height];
    deepest
        .par_chunks_mut(width.max(1))
        .enumerate()
        .for_each(|(y, out)| {
            let rows = y.saturating_sub(1)..=(y + 1).min(height - 1);
            for (x, out) in out.iter_mut().enumerate() {
                let pixel = y * width + x;
                let (mut best, mut best_at) = (f32::NEG_INFINITY, pixel);
                for row in rows.clone() {
                    let from = row * width + x.saturating_sub(1);
                    let to = row * width + (x + 1).min(width - 1);
                    for at in from..=to {
                        if raw[at] > best && allowed[at] && same(pixel, at) {
                            (best, best_at) = (raw[at], at);
                        }
                    }
                }
                #[expect(clippy::cast_possible_truncation, reason = "a pixel number")]
                let best_at = best_at as u32;
                *out = best_at;
            }
        });
    deepest
}

/// Floods a plane: for every pixel its flood, for every flood the one it has joined, and its deepest point.
/// Only neighbours that are the `same` meet.
///
/// Flooding pixel by pixel in the order of their depth gives each to the flood of its deepest neighbour, and
/// so to the summit that one comes to by always going deeper; and floods meet in the order of their passes.
/// So does this, but without going all over the plane for every next pixel.
fn flooded(
    depth: &Light,
    allowed: &[bool],
    same: impl Fn(usize, usize) -> bool + Sync,
    joins: impl Fn(f32, f32) -> bool,
) -> (Vec<u32>, Vec<u32>, Vec<f32>) {
    let width = depth.width() as usize;
    let mut next = deepest_neighbours(depth, allowed, &same);
    let mut deepest = vec![f32::NEG_INFINITY];
    for (pixel, next) in next.iter_mut().enumerate() {
        if *next as usize == pixel && allowed[pixel] {
            #[expect(clippy::cast_possible_truncation, reason = "fewer than pixels")]
            let number = deepest.len() as u32;
            *next = SUMMIT | number;
            deepest.push(depth.as_raw()[pixel]);
        }
    }
    let of_pixel: Vec<u32> = (0..next.len())
        .into_par_iter()
        .map(|pixel| {
            if !allowed[pixel] {
                return 0;
            }
            let mut at = next[pixel];
            while at & SUMMIT == 0 {
                at = next[at as usize];
            }
            at & !SUMMIT
        })
        .collect();
    drop(next);
    let mut passes = passes_between(&of_pixel, depth, width, Connectivity::Eight, same);
    sort_by_depth(&mut passes);
    let parent = parents(&deepest, &passes, joins);
    (of_pixel, parent, deepest)
}

/// For each flood the one it has joined at last, where `joins` tells whether a flood joins another, given its
/// deepest point and their pass. The deepest passes come first.
fn parents(deepest: &[f32], passes: &[Pass], joins: impl Fn(f32, f32) -> bool) -> Vec<u32> {
    let mut parent: Vec<u32> = (0_u32..).take(deepest.len()).collect();
    for &((a, b), pass) in passes {
        let (a, b) = (root(&mut parent, a), root(&mut parent, b));
        let (upper, lower) = if deepest[a as usize] >= deepest[b as usize] {
            (a, b)
        } else {
            (b, a)
        };
        if upper != lower && joins(deepest[lower as usize], pass) {
            parent[lower as usize] = upper;
        }
    }
    for label in 0..parent.len() {
        #[expect(clippy::cast_possible_truncation, reason = "fewer than pixels")]
        let top = root(&mut parent, label as u32);
        parent[label] = top;
    }
    parent
}

fn sort_by_depth(passes: &mut [Pass]) {
    passes.par_sort_unstable_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
}

/// The deepest pass between each pair of neighbouring floods, by pair; only neighbours that are the `same`
/// meet.
fn passes_between(
    of_pixel: &[u32],
    depth: &Light,
    width: usize,
    corners: Connectivity,
    same: impl Fn(usize, usize) -> bool + Sync,
) -> Vec<Pass> {
    let raw = depth.as_raw();
    let height = of_pixel.len().checked_div(width).unwrap_or(0);
    let bands: Vec<Vec<Pass>> = (0..height.div_ceil(BAND))
        .into_par_iter()
        .map(|band| {
            let mut gathered = Gathered::default();
            let rows = band * BAND..((band + 1) * BAND).min(height);
            borders(of_pixel, width, rows, corners, |pair, a, b| {
                if same(a, b) {
                    gathered.take((pair, raw[a].min(raw[b])));
                }
            });
            let mut passes = gathered.all();
            deepest_only(&mut passes);
            passes
        })
        .collect();
    let mut passes = bands.concat();
    deepest_only(&mut passes);
    passes
}

/// Passes as they are come upon. A border is followed pixel by pixel, so that most pairs are among those that
/// came lately.
struct Gathered {
    passes: Vec<Pass>,
    /// One place for each of some remainders of the labels; no pair has a label 0.
    lately: Vec<Pass>,
}

impl Default for Gathered {
    fn default() -> Self {
        Self {
            passes: Vec::new(),
            lately: vec![((0, 0), f32::NEG_INFINITY); 1 << Self::PLACES_LOG2],
        }
    }
}

impl Gathered {
    const PLACES_LOG2: u32 = 11;

    fn take(&mut self, pass: Pass) {
        let (a, b) = pass.0;
        // Spreads labels over the places (Knuth 1998, The Art of Computer Programming 3, 6.4: multiplying by
        // the golden ratio's share of the word).
        let spread = (a ^ b.rotate_left(16)).wrapping_mul(0x9e37_79b9);
        let place = &mut self.lately[(spread >> (32 - Self::PLACES_LOG2)) as usize];
        if place.0 == pass.0 {
            place.1 = place.1.max(pass.1);
        } else {
            let before = std::mem::replace(place, pass);
            if before.0 != (0, 0) {
                self.passes.push(before);
            }
        }
    }

    fn all(mut self) -> Vec<Pass> {
        let lately = self.lately.into_iter();
        self.passes.extend(lately.filter(|pass| pass.0 != (0, 0)));
        self.passes
    }
}

/// Sorts passes by pair and keeps the deepest of each.
fn deepest_only(passes: &mut Vec<Pass>) {
    passes.sort_unstable_by(|a, b| a.0.cmp(&b.0).then(b.1.total_cmp(&a.1)));
    passes.dedup_by_key(|pass| pass.0);
}

/// Calls `visit` once with every two neighbouring pixels of different floods, the first of them in these
/// rows, and with the floods' labels, the lower first.
fn borders(
    of_pixel: &[u32],
    width: usize,
    rows: Range<usize>,
    corners: Connectivity,
    mut visit: impl FnMut((u32, u32), usize, usize),
) {
    let corners = corners == Connectivity::Eight;
    for y in rows {
        let here = &of_pixel[y * width..(y + 1) * width];
        let below = of_pixel.get((y + 1) * width..(y + 2) * width);
        for (x, &label) in here.iter().enumerate() {
            if label == 0 {
                continue;
            }
            let pixel = y * width + x;
            let mut look = |other: Option<&u32>, neighbour| {
                if let Some(&other) = other
                    && other != label
                    && other != 0
                {
                    visit((label.min(other), label.max(other)), pixel, neighbour);
                }
            };
            // Each pair is looked at once.
            look(here.get(x + 1), pixel + 1);
            let Some(below) = below else { continue };
            if corners && x > 0 {
                look(below.get(x - 1), pixel + width - 1);
            }
            look(below.get(x), pixel + width);
            if corners {
                look(below.get(x + 1), pixel + width + 1);
            }
        }
    }
}

impl Basins {
    /// Floods `depth` where `allowed`; floods that have sunk by less than `rule` are joined.
    #[must_use]
    pub fn flood(depth: &Light, allowed: &[bool], rule: f32) -> Self {
        let (of_pixel, mut parent, deepest) = flooded(
            depth,
            allowed,
            |_, _| true,
            |deepest, pass| deepest - pass < rule,
        );
        Self::numbered(of_pixel, &mut parent, &deepest)
    }

    /// Each basin flooded again by another plane, within its own bounds. `joins` is told how deep the
    /// shallower of two floods goes, and how deep their pass is. The depths stay those of `depth`.
    #[must_use]
    pub fn parted(&self, plane: &Light, joins: impl Fn(f32, f32) -> bool, depth: &Light) -> Self {
        let allowed: Vec<bool> = self.of_pixel.iter().map(|label| *label != 0).collect();
        let same = |a: usize, b: usize| self.of_pixel[a] == self.of_pixel[b];
        let (of_pixel, mut parent, deepest) = flooded(plane, &allowed, same, joins);
        let mut parted = Self::numbered(of_pixel, &mut parent, &deepest);
        parted.deepest.fill(f32::NEG_INFINITY);
        for (label, depth) in parted.of_pixel.iter().zip(depth.iter()) {
            if *label != 0 {
                let deepest = &mut parted.deepest[*label as usize];
                *deepest = deepest.max(*depth);
            }
        }
        parted
    }

    /// The same basins with a higher rule: what flooding with it would have given, since floods meet
    /// in the order of their passes.
    #[must_use]
    pub fn joined(self, depth: &Light, rule: f32) -> Self {
        let mut parent = self.tops(&self.sorted_passes(depth), rule);
        Self::numbered(self.of_pixel, &mut parent, &self.deepest)
    }

    /// For each basin the one that it is part of with a higher rule, given the passes between basins, the
    /// deepest first.
    pub(super) fn tops(&self, passes: &[Pass], rule: f32) -> Vec<u32> {
        parents(&self.deepest, passes, |deepest, pass| deepest - pass < rule)
    }

    /// The passes between neighbouring basins, across corners too, the deepest first.
    pub(super) fn sorted_passes(&self, depth: &Light) -> Vec<Pass> {
        let mut passes = self.passes(depth, Connectivity::Eight);
        sort_by_depth(&mut passes);
        passes
    }

    /// Basins numbered in reading order, once it is known which have become one.
    fn numbered(mut of_pixel: Vec<u32>, parent: &mut [u32], deepest: &[f32]) -> Self {
        let mut numbers = vec![0_u32; parent.len()];
        let mut kept = vec![f32::NEG_INFINITY];
        for label in &mut of_pixel {
            if *label == 0 {
                continue;
            }
            let top = root(parent, *label) as usize;
            if numbers[top] == 0 {
                #[expect(clippy::cast_possible_truncation, reason = "fewer than pixels")]
                let number = kept.len() as u32;
                numbers[top] = number;
                kept.push(deepest[top]);
            }
            *label = numbers[top];
        }
        Self {
            of_pixel,
            deepest: kept,
        }
    }

    /// Basins numbered in reading order, after their pixels were given out anew; with them what was
    /// known of each label.
    #[must_use]
    pub(super) fn renumbered(self, known: &[bool]) -> (Self, Vec<bool>) {
        let mut parent: Vec<u32> = (0_u32..).take(self.deepest.len()).collect();
        let before = self.of_pixel.clone();
        let numbered = Self::numbered(self.of_pixel, &mut parent, &self.deepest);
        let mut carried = vec![false; numbered.deepest.len()];
        for (now, before) in numbered.of_pixel.iter().zip(before) {
            carried[*now as usize] = known[before as usize];
        }
        (numbered, carried)
    }

    /// How many basins there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.deepest.len() - 1
    }

    /// Median height of the passes between neighbouring basins above the shallower of the two.
    #[must_use]
    pub fn typical_wall(&self, depth: &Light) -> f32 {
        let mut heights: Vec<f32> = self
            .passes(depth, Connectivity::Four)
            .into_iter()
            .map(|((a, b), pass)| self.deepest[a as usize].min(self.deepest[b as usize]) - pass)
            .collect();
        if heights.is_empty() {
            return 0.0;
        }
        let middle = heights.len() / 2;
        *heights.select_nth_unstable_by(middle, f32::total_cmp).1
    }

    /// The deepest pass between each pair of neighbouring basins, by pair, across pixel sides only or across
    /// corners too, as the flood goes.
    #[must_use]
    pub fn passes(&self, depth: &Light, corners: Connectivity) -> Vec<Pass> {
        let width = depth.width() as usize;
        passes_between(&self.of_pixel, depth, width, corners, |_, _| true)
    }

    /// Calls `visit` once with every two neighbouring pixels of different basins, in rows of `width`,
    /// and with the basins' labels, the lower first.
    pub fn borders(
        &self,
        width: usize,
        corners: Connectivity,
        visit: impl FnMut((u32, u32), usize, usize),
    ) {
        let height = self.of_pixel.len().checked_div(width).unwrap_or(0);
        borders(&self.of_pixel, width, 0..height, corners, visit);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(depths: &[f32]) -> Light {
        Light::from_raw(
            u32::try_from(depths.len()).expect("short"),
            1,
            depths.to_vec(),
        )
        .expect("as long as wide")
    }

    #[test]
    fn a_wall_higher_than_the_rule_parts_two_voids() {
        let depth = row(&[0.9, 1.0, 0.6, 0.95, 0.1]);
        let basins = Basins::flood(&depth, &[true; 5], 0.2);
        assert_eq!(basins.count(), 2, "{:?}", basins.of_pixel);
        assert_eq!(basins.of_pixel[0], basins.of_pixel[1]);
        assert_ne!(basins.of_pixel[1], basins.of_pixel[3]);
        assert_eq!(basins.passes(&depth, Connectivity::Four), [((1, 2), 0.6)]);
    }

    #[test]
    fn a_ripple_lower_than_the_rule_does_not() {
        let depth = row(&[0.9, 1.0, 0.85, 0.95, 0.1]);
        assert_eq!(Basins::flood(&depth, &[true; 5], 0.2).count(), 1);
    }

    #[test]
    fn joining_gives_what_flooding_with_the_higher_rule_gives() {
        let depth = Light::from_fn(60, 40, |x, y| {
            let (x, y) = (x as f32, y as f32);
            image::Luma([0.5
                + 0.3 * (0.7 * x).sin() * (0.9 * y).cos()
                + 0.2 * (0.13 * x * y).sin()])
        });
        let allowed = vec![true; 60 * 40];
        let flooded = Basins::flood(&depth, &allowed, 0.25);
        let joined = Basins::flood(&depth, &allowed, 0.1).joined(&depth, 0.25);
        assert!(flooded.count() > 3, "{} basins", flooded.count());
        assert_eq!(flooded.count(), joined.count());
        let sorted = |basins: &Basins| {
            let mut deepest = basins.deepest.clone();
            deepest.sort_by(f32::total_cmp);
            deepest
        };
        assert_eq!(sorted(&flooded), sorted(&joined));
    }

    #[test]
    fn nothing_is_flooded_where_it_is_not_allowed() {
        let depth = row(&[0.9, 1.0, 0.85]);
        let basins = Basins::flood(&depth, &[true, false, true], 0.2);
        assert_eq!(basins.of_pixel, [1, 0, 2]);
    }
}
