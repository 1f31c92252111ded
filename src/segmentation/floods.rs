//! The plane flooded from its deepest points up.
//!
//! Where two floods meet they stay apart if both have sunk by at least the height rule since their deepest
//! points, and become one if not (dynamics of minima: Grimaud 1992, Proc. SPIE 1769: 292–305). A wall that
//! blur has made faint still parts two voids; a ripple of noise on the floor of one void does not.
//!
//! The plane is gone over once; to join floods by one rule or another is a matter of their borders alone.

use super::basins::Basins;
use super::borders::{self, Border, Pass};
use super::label::Connectivity;
use crate::photo::Light;
use pulp::Arch;
use rayon::prelude::*;

/// Floods that have not yet joined, one for every deepest point.
pub struct Floods {
    /// Row by row, from 1; 0 where nothing was flooded.
    of_pixel: Vec<u32>,
    /// Deepest depth of each flood; index 0 is unused.
    deepest: Vec<f32>,
    /// The deepest pass first.
    borders: Vec<Border>,
}

/// In place of a pixel's deepest neighbour: this pixel is itself the deepest, and the rest is its number.
const SUMMIT: u32 = 1 << 31;
/// Pixels whose summits are sought by one thread.
const AT_ONCE: usize = 1 << 18;

impl Floods {
    /// Floods `depth`. What lies `within` nothing (false, or 0) is left dry, and only neighbours within the same
    /// meet.
    ///
    /// Flooding pixel by pixel in the order of their depth gives each to the flood of its deepest neighbour, and
    /// so to the summit that one comes to by always going deeper; and floods meet in the order of their passes.
    /// So does this, but without going all over the plane for every next pixel.
    #[must_use]
    pub fn of<T: Copy + Default + PartialEq + Sync>(depth: &Light, within: &[T]) -> Self {
        let nothing = T::default();
        let mut next = deepest_neighbours(depth, within);
        let mut deepest = vec![f32::NEG_INFINITY];
        for (pixel, next) in next.iter_mut().enumerate() {
            if *next as usize == pixel && within[pixel] != nothing {
                #[expect(clippy::cast_possible_truncation, reason = "fewer than pixels")]
                let number = deepest.len() as u32;
                *next = SUMMIT | number;
                deepest.push(depth.as_raw()[pixel]);
            }
        }
        let of_pixel = summits(&next, |pixel| within[pixel] != nothing);
        drop(next);
        let mut borders = borders::between(&of_pixel, depth, within);
        borders::deepest_first(&mut borders);
        Self {
            of_pixel,
            deepest,
            borders,
        }
    }

    /// Median height of the passes above the shallower of two neighbours, once floods that have sunk by less
    /// than `rule` are joined.
    #[must_use]
    pub fn typical_wall(&self, rule: f32) -> f32 {
        let parent = self.parents(sunk_by_less_than(rule));
        let borders = borders::relabelled(&self.borders, |label| parent[label as usize]);
        let mut heights: Vec<f32> = borders::passes(&borders, Connectivity::Four)
            .map(|((a, b), pass)| self.deepest[a as usize].min(self.deepest[b as usize]) - pass)
            .collect();
        if heights.is_empty() {
            return 0.0;
        }
        let middle = heights.len() / 2;
        *heights.select_nth_unstable_by(middle, f32::total_cmp).1
    }

    /// Basins in reading order, and their borders by pair. `joins` tells whether a flood joins another, given
    /// how deep the shallower of the two goes and how deep their pass is.
    #[must_use]
    pub fn joined(self, joins: impl Fn(f32, f32) -> bool) -> (Basins, Vec<Border>) {
        let parent = self.parents(joins);
        let (basins, label) = Basins::numbered(self.of_pixel, &parent, &self.deepest);
        let borders = borders::relabelled(&self.borders, |flood| label[flood as usize]);
        (basins, borders)
    }

    fn parents(&self, joins: impl Fn(f32, f32) -> bool) -> Vec<u32> {
        let passes = borders::passes(&self.borders, Connectivity::Eight);
        parents(&self.deepest, passes, joins)
    }
}

/// The height rule: a flood joins another where it has sunk by less than that.
pub fn sunk_by_less_than(rule: f32) -> impl Fn(f32, f32) -> bool {
    move |deepest, pass| deepest - pass < rule
}

/// For each flood or basin the one it has joined at last, given their deepest points and their passes, the
/// deepest first.
pub fn parents(
    deepest: &[f32],
    passes: impl Iterator<Item = Pass>,
    joins: impl Fn(f32, f32) -> bool,
) -> Vec<u32> {
    let mut parent: Vec<u32> = (0_u32..).take(deepest.len()).collect();
    for ((a, b), pass) in passes {
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

fn root(parent: &mut [u32], mut label: u32) -> u32 {
    while parent[label as usize] != label {
        let up = parent[parent[label as usize] as usize];
        parent[label as usize] = up;
        label = up;
    }
    label
}

/// Follows every pixel's deepest neighbours to their summit; 0 where it is dry.
fn summits(next: &[u32], is_wet: impl Fn(usize) -> bool + Sync) -> Vec<u32> {
    let mut of_pixel = vec![0; next.len()];
    of_pixel.par_chunks_mut(AT_ONCE).enumerate().for_each_init(
        Vec::new,
        |way: &mut Vec<usize>, (piece, found)| {
            let first = piece * AT_ONCE;
            for pixel in (first..first + found.len()).filter(|pixel| is_wet(*pixel)) {
                let mut at = pixel;
                let summit = loop {
                    match at.checked_sub(first).and_then(|at| found.get(at)) {
                        // Somebody has gone on from here before.
                        Some(&known) if known != 0 => break known,
                        Some(_) => way.push(at),
                        None => {}
                    }
                    let to = next[at];
                    if to & SUMMIT != 0 {
                        break to & !SUMMIT;
                    }
                    at = to as usize;
                };
                for at in way.drain(..) {
                    found[at - first] = summit;
                }
            }
        },
    );
    of_pixel
}

/// For every pixel the deepest of it and its neighbours within the same, the first in reading order where
/// several are.
fn deepest_neighbours<T: Copy + Default + PartialEq + Sync>(
    depth: &Light,
    within: &[T],
) -> Vec<u32> {
    let (width, height) = (depth.width() as usize, depth.height() as usize);
    let raw = depth.as_raw();
    let mut deepest = vec![0_u32; width * height];
    // Rows bear a dry pixel at each end, so that every pixel has all its neighbours.
    let rim = || {
        (
            vec![f32::NEG_INFINITY; width + 2],
            vec![T::default(); width + 2],
        )
    };
    deepest
        .par_chunks_mut(width.max(1))
        .enumerate()
        .for_each_init(
            || (rim(), vec![f32::NEG_INFINITY; width]),
            |((depths, tags), best), (y, out)| {
                let own = &within[y * width..(y + 1) * width];
                best.fill(f32::NEG_INFINITY);
                for row in y.saturating_sub(1)..=(y + 1).min(height - 1) {
                    depths[1..=width].copy_from_slice(&raw[row * width..(row + 1) * width]);
                    tags[1..=width].copy_from_slice(&within[row * width..(row + 1) * width]);
                    for aside in 0..3 {
                        #[expect(clippy::cast_possible_truncation, reason = "a pixel number")]
                        let first = (row * width + aside).wrapping_sub(1) as u32;
                        let theirs = depths[aside..].iter().zip(&tags[aside..]);
                        let pixels = out.iter_mut().zip(best.iter_mut()).zip(own).zip(theirs);
                        Arch::new().dispatch(|| {
                            for (x, (((out, best), own), (depth, tag))) in (0_u32..).zip(pixels) {
                                let is_deeper = *depth > *best && *tag == *own;
                                *best = if is_deeper { *depth } else { *best };
                                *out = if is_deeper {
                                    first.wrapping_add(x)
                                } else {
                                    *out
                                };
                            }
                        });
                    }
                }
            },
        );
    deepest
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

    fn flooded(depth: &Light, rule: f32) -> (Basins, Vec<Border>) {
        let all = vec![true; depth.as_raw().len()];
        Floods::of(depth, &all).joined(sunk_by_less_than(rule))
    }

    #[test]
    fn a_wall_higher_than_the_rule_parts_two_voids() {
        let (basins, borders) = flooded(&row(&[0.9, 1.0, 0.6, 0.95, 0.1]), 0.2);
        assert_eq!(basins.count(), 2, "{:?}", basins.of_pixel);
        assert_eq!(basins.of_pixel[0], basins.of_pixel[1]);
        assert_ne!(basins.of_pixel[1], basins.of_pixel[3]);
        let passes: Vec<Pass> = borders::passes(&borders, Connectivity::Four).collect();
        assert_eq!(passes, [((1, 2), 0.6)]);
    }

    #[test]
    fn a_ripple_lower_than_the_rule_does_not() {
        let (basins, borders) = flooded(&row(&[0.9, 1.0, 0.85, 0.95, 0.1]), 0.2);
        assert_eq!((basins.count(), borders.len()), (1, 0));
    }

    /// Pixel by pixel in the order of their depth, as the method is written down.
    #[test]
    fn flooding_pixel_by_pixel_gives_the_same_basins() {
        const RULE: f32 = 0.15;
        let (width, height) = (60_usize, 40_usize);
        let depth = Light::from_fn(60, 40, |x, y| {
            let (x, y) = (x as f32, y as f32);
            image::Luma([0.5
                + 0.3 * (0.7 * x).sin() * (0.9 * y).cos()
                + 0.2 * (0.13 * x * y).sin()])
        });
        let raw = depth.as_raw();
        let mut order: Vec<usize> = (0..raw.len()).collect();
        order.sort_by(|a, b| raw[*b].total_cmp(&raw[*a]));
        let mut flood: Vec<Option<usize>> = vec![None; raw.len()];
        let mut parent: Vec<usize> = (0..raw.len()).collect();
        let top = |parent: &[usize], mut at: usize| {
            while parent[at] != at {
                at = parent[at];
            }
            at
        };
        for pixel in order {
            let (x, y) = (pixel % width, pixel / width);
            let mut wet: Vec<usize> = (y.saturating_sub(1)..=(y + 1).min(height - 1))
                .flat_map(|y| {
                    (x.saturating_sub(1)..=(x + 1).min(width - 1)).map(move |x| y * width + x)
                })
                .filter(|near| flood[*near].is_some())
                .collect();
            wet.sort_by(|a, b| raw[*b].total_cmp(&raw[*a]));
            flood[pixel] = wet.first().map_or(Some(pixel), |deepest| flood[*deepest]);
            for near in wet {
                let of = |pixel: usize| flood[pixel].map(|flood| top(&parent, flood));
                if let (Some(a), Some(b)) = (of(pixel), of(near))
                    && a != b
                {
                    let (upper, lower) = if raw[a] >= raw[b] { (a, b) } else { (b, a) };
                    if raw[lower] - raw[pixel] < RULE {
                        parent[lower] = upper;
                    }
                }
            }
        }
        let (basins, _) = flooded(&depth, RULE);
        let expected: Vec<usize> = flood
            .iter()
            .flatten()
            .map(|flood| top(&parent, *flood))
            .collect();
        let mut both: Vec<(u32, usize)> = basins.of_pixel.iter().copied().zip(expected).collect();
        both.sort_unstable();
        both.dedup();
        assert!(basins.count() > 3, "{} basins", basins.count());
        assert_eq!(both.len(), basins.count(), "one for one");
    }

    #[test]
    fn nothing_is_flooded_where_it_is_left_dry_and_only_the_same_meet() {
        let depth = row(&[0.9, 1.0, 0.85]);
        let (basins, _) = Floods::of(&depth, &[true, false, true]).joined(|_, _| true);
        assert_eq!(basins.of_pixel, [1, 0, 2]);
        let (basins, _) = Floods::of(&depth, &[7_u32, 7, 8]).joined(|_, _| true);
        assert_eq!(basins.of_pixel, [1, 1, 2]);
    }
}
