//! Which pixels drain to the same deepest point: one basin for every void.
//!
//! The depth plane is flooded from its deepest points up. Where two floods meet they stay apart if
//! both have sunk by at least the height rule since their deepest points, and become one if not
//! (dynamics of minima: Grimaud 1992, Proc. SPIE 1769: 292–305). A wall that blur has made faint
//! still parts two voids; a ripple of noise on the floor of one void does not.

use super::label::Connectivity;
use crate::photo::Light;
use std::collections::BTreeMap;

/// Labels from 1; 0 where nothing was flooded.
#[derive(Debug, Clone)]
pub struct Basins {
    /// Row by row.
    pub of_pixel: Vec<u32>,
    /// Deepest depth of each basin; index 0 is unused.
    pub deepest: Vec<f32>,
}

const LEVELS: usize = 1 << 14;

/// Depths run from −1 to 2.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "clamped to the levels"
)]
fn level_of(depth: f32) -> usize {
    (((2.0 - depth) / 3.0).clamp(0.0, 1.0) * (LEVELS - 1) as f32) as usize
}

/// Pixel numbers from the deepest to the shallowest, reading order within a level.
fn by_depth(depth: &Light, allowed: &[bool]) -> Vec<u32> {
    let mut starts = vec![0_usize; LEVELS + 1];
    for (value, _) in depth.iter().zip(allowed).filter(|(_, ok)| **ok) {
        starts[level_of(*value) + 1] += 1;
    }
    for i in 0..LEVELS {
        starts[i + 1] += starts[i];
    }
    let mut order = vec![0_u32; starts[LEVELS]];
    for ((value, _), pixel) in depth
        .iter()
        .zip(allowed)
        .zip(0_u32..)
        .filter(|((_, ok), _)| **ok)
    {
        let slot = &mut starts[level_of(*value)];
        order[*slot] = pixel;
        *slot += 1;
    }
    order
}

fn root(parent: &mut [u32], mut label: u32) -> u32 {
    while parent[label as usize] != label {
        let up = parent[parent[label as usize] as usize];
        parent[label as usize] = up;
        label = up;
    }
    label
}

/// Floods a plane from its deepest points up: for every pixel its flood, for every flood the one it has
/// joined, and its deepest point. Only neighbours that are the `same` meet.
fn flooded(
    depth: &Light,
    allowed: &[bool],
    same: impl Fn(usize, usize) -> bool,
    joins: impl Fn(f32, f32) -> bool,
) -> (Vec<u32>, Vec<u32>, Vec<f32>) {
    let (width, height) = (depth.width() as usize, depth.height() as usize);
    let raw = depth.as_raw();
    let mut of_pixel = vec![0_u32; width * height];
    let mut parent = vec![0_u32];
    let mut deepest = vec![f32::NEG_INFINITY];
    for pixel in by_depth(depth, allowed) {
        let pixel = pixel as usize;
        let (x, y) = (pixel % width, pixel / width);
        let here = raw[pixel];
        let mut joined = 0_u32;
        let mut joined_by = f32::NEG_INFINITY;
        let mut met = [0_u32; 8];
        let mut count = 0;
        for ny in y.saturating_sub(1)..=(y + 1).min(height - 1) {
            for nx in x.saturating_sub(1)..=(x + 1).min(width - 1) {
                let neighbour = ny * width + nx;
                let label = of_pixel[neighbour];
                if label == 0 || !same(pixel, neighbour) {
                    continue;
                }
                let label = root(&mut parent, label);
                if raw[neighbour] > joined_by {
                    joined_by = raw[neighbour];
                    joined = label;
                }
                if !met[..count].contains(&label) {
                    met[count] = label;
                    count += 1;
                }
            }
        }
        if count == 0 {
            #[expect(clippy::cast_possible_truncation, reason = "fewer than pixels")]
            let label = parent.len() as u32;
            parent.push(label);
            deepest.push(here);
            of_pixel[pixel] = label;
            continue;
        }
        let met = &mut met[..count];
        met.sort_by(|a, b| {
            deepest[*b as usize]
                .total_cmp(&deepest[*a as usize])
                .then(a.cmp(b))
        });
        for i in 1..count {
            if joins(deepest[met[i] as usize], here) {
                parent[met[i] as usize] = met[0];
            }
        }
        of_pixel[pixel] = root(&mut parent, joined);
    }
    (of_pixel, parent, deepest)
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
    pub(super) fn tops(&self, passes: &[((u32, u32), f32)], rule: f32) -> Vec<u32> {
        let mut parent: Vec<u32> = (0_u32..).take(self.deepest.len()).collect();
        for &((a, b), pass) in passes {
            let (a, b) = (root(&mut parent, a), root(&mut parent, b));
            let (upper, lower) = if self.deepest[a as usize] >= self.deepest[b as usize] {
                (a, b)
            } else {
                (b, a)
            };
            if self.deepest[lower as usize] - pass < rule {
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

    /// The passes between neighbouring basins, across corners too, the deepest first.
    pub(super) fn sorted_passes(&self, depth: &Light) -> Vec<((u32, u32), f32)> {
        let mut passes: Vec<_> = self
            .passes(depth, Connectivity::Eight)
            .into_iter()
            .collect();
        passes.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
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

    /// The deepest pass between each pair of neighbouring basins, lower label first, across
    /// pixel sides only or across corners too, as the flood goes.
    #[must_use]
    pub fn passes(&self, depth: &Light, corners: Connectivity) -> BTreeMap<(u32, u32), f32> {
        let raw = depth.as_raw();
        let mut passes = BTreeMap::new();
        self.borders(depth.width() as usize, corners, |pair, a, b| {
            let pass = raw[a].min(raw[b]);
            passes
                .entry(pair)
                .and_modify(|deepest: &mut f32| *deepest = deepest.max(pass))
                .or_insert(pass);
        });
        passes
    }

    /// Calls `visit` once with every two neighbouring pixels of different basins, in rows of `width`,
    /// and with the basins' labels, the lower first.
    pub fn borders(
        &self,
        width: usize,
        corners: Connectivity,
        mut visit: impl FnMut((u32, u32), usize, usize),
    ) {
        let corners = corners == Connectivity::Eight;
        for pixel in 0..self.of_pixel.len() {
            let label = self.of_pixel[pixel];
            // Each pair is looked at once.
            let (first, last) = (pixel % width == 0, pixel % width + 1 == width);
            let neighbours = [
                (!last).then_some(pixel + 1),
                (corners && !first).then_some(pixel + width - 1),
                Some(pixel + width),
                (corners && !last).then_some(pixel + width + 1),
            ];
            for neighbour in neighbours.into_iter().flatten() {
                let Some(&other) = self.of_pixel.get(neighbour) else {
                    continue;
                };
                if label != other && label != 0 && other != 0 {
                    visit((label.min(other), label.max(other)), pixel, neighbour);
                }
            }
        }
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
        let pass = basins.passes(&depth, Connectivity::Four)[&(1, 2)];
        assert!((pass - 0.6).abs() < 1e-6, "{pass}");
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
