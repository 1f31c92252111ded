//! Where neighbouring floods or basins meet, and how deep.

use super::label::Connectivity;
use crate::photo::Light;
use rayon::prelude::*;
use std::ops::Range;

/// Two neighbours, the lower label first, and the deepest pass between them.
pub type Pass = ((u32, u32), f32);

/// How two neighbours meet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Border {
    /// Their labels, the lower first.
    pub pair: (u32, u32),
    /// The deepest pass between them, across corners too, as a flood goes.
    pub pass: f32,
    /// The two pixels of that pass, the first such in reading order.
    pub at: [u32; 2],
    /// The deepest pass across pixel sides; −∞ where they meet at corners only.
    pub side: f32,
}

/// Rows that are looked at by one thread.
const BAND: usize = 64;

impl Border {
    /// No border yet; no label is 0.
    const NONE: Self = Self {
        pair: (0, 0),
        pass: f32::NEG_INFINITY,
        at: [0, 0],
        side: f32::NEG_INFINITY,
    };

    /// Takes in another piece of the same border.
    fn extend(&mut self, other: &Self) {
        if other.pass > self.pass || (other.pass >= self.pass && other.at < self.at) {
            (self.pass, self.at) = (other.pass, other.at);
        }
        self.side = self.side.max(other.side);
    }
}

/// The border of every two neighbouring floods, by pair. Only neighbours `within` the same meet.
pub fn between<T: Copy + PartialEq + Sync>(
    of_pixel: &[u32],
    depth: &Light,
    within: &[T],
) -> Vec<Border> {
    let width = depth.width() as usize;
    let height = of_pixel.len().checked_div(width).unwrap_or(0);
    let bands: Vec<Vec<Border>> = (0..height.div_ceil(BAND))
        .into_par_iter()
        .map(|band| {
            let mut gathered = Gathered::default();
            let rows = band * BAND..((band + 1) * BAND).min(height);
            follow(of_pixel, depth, within, rows, |piece| gathered.take(piece));
            let mut borders = gathered.all();
            join_pieces(&mut borders);
            borders
        })
        .collect();
    let mut borders = bands.concat();
    join_pieces(&mut borders);
    borders
}

/// The same borders where floods have become parts of larger ones, by pair.
pub fn relabelled(borders: &[Border], label: impl Fn(u32) -> u32) -> Vec<Border> {
    let mut relabelled: Vec<Border> = borders
        .iter()
        .map(|border| {
            let (a, b) = (label(border.pair.0), label(border.pair.1));
            Border {
                pair: (a.min(b), a.max(b)),
                ..*border
            }
        })
        .filter(|border| border.pair.0 != border.pair.1)
        .collect();
    join_pieces(&mut relabelled);
    relabelled
}

/// The deepest pass of each border, across pixel sides only or across corners too, in their order.
pub fn passes(borders: &[Border], corners: Connectivity) -> impl Iterator<Item = Pass> + '_ {
    let pass = move |border: &Border| match corners {
        Connectivity::Four => border.side,
        Connectivity::Eight => border.pass,
    };
    let passes = borders
        .iter()
        .map(move |border| (border.pair, pass(border)));
    passes.filter(|(_, pass)| *pass > f32::NEG_INFINITY)
}

/// Brings borders into the order in which floods meet that rise from the deepest places.
pub fn deepest_first(borders: &mut [Border]) {
    borders.par_sort_unstable_by(|a, b| b.pass.total_cmp(&a.pass).then(a.pair.cmp(&b.pair)));
}

/// Sorts by pair and makes one border of all the pieces of each.
fn join_pieces(borders: &mut Vec<Border>) {
    borders.par_sort_unstable_by_key(|border| (border.pair, border.at));
    borders.dedup_by(|piece, border| {
        let is_of_it = piece.pair == border.pair;
        if is_of_it {
            border.extend(piece);
        }
        is_of_it
    });
}

/// Pieces as they are come upon. A border is followed pixel by pixel, so that most are of one that came lately.
struct Gathered {
    pieces: Vec<Border>,
    /// One place for each of some remainders of the labels.
    lately: Vec<Border>,
}

impl Default for Gathered {
    fn default() -> Self {
        Self {
            pieces: Vec::new(),
            lately: vec![Border::NONE; 1 << Self::PLACES_LOG2],
        }
    }
}

impl Gathered {
    const PLACES_LOG2: u32 = 11;

    fn take(&mut self, piece: Border) {
        let (a, b) = piece.pair;
        // Spreads labels over the places (Knuth 1998, The Art of Computer Programming 3, 6.4: multiplying by
        // the golden ratio's share of the word).
        let spread = (a ^ b.rotate_left(16)).wrapping_mul(0x9e37_79b9);
        let place = &mut self.lately[(spread >> (32 - Self::PLACES_LOG2)) as usize];
        if place.pair == piece.pair {
            place.extend(&piece);
        } else {
            let before = std::mem::replace(place, piece);
            if before.pair != Border::NONE.pair {
                self.pieces.push(before);
            }
        }
    }

    fn all(mut self) -> Vec<Border> {
        let lately = self.lately.into_iter();
        let pieces = lately.filter(|piece| piece.pair != Border::NONE.pair);
        self.pieces.extend(pieces);
        self.pieces
    }
}

/// Calls `take` once with every two neighbouring pixels of different floods, the first of them in these rows.
fn follow<T: Copy + PartialEq>(
    of_pixel: &[u32],
    depth: &Light,
    within: &[T],
    rows: Range<usize>,
    mut take: impl FnMut(Border),
) {
    let width = depth.width() as usize;
    let height = of_pixel.len() / width;
    let raw = depth.as_raw();
    for y in rows {
        let here = &of_pixel[y * width..(y + 1) * width];
        // Under the last row there is nothing to meet.
        let is_last = y + 1 == height;
        let below = if is_last {
            here
        } else {
            &of_pixel[(y + 1) * width..(y + 2) * width]
        };
        for (x, &label) in here.iter().enumerate() {
            let (left, right) = (x.saturating_sub(1), (x + 1).min(width - 1));
            let around = [here[right], below[left], below[x], below[right]];
            if label == 0 || around == [label; 4] {
                continue;
            }
            let pixel = y * width + x;
            let mut meet = |other: u32, neighbour: usize, is_side: bool| {
                if other == label || other == 0 || within[pixel] != within[neighbour] {
                    return;
                }
                let pass = raw[pixel].min(raw[neighbour]);
                #[expect(clippy::cast_possible_truncation, reason = "pixel numbers")]
                take(Border {
                    pair: (label.min(other), label.max(other)),
                    pass,
                    at: [pixel as u32, neighbour as u32],
                    side: if is_side { pass } else { f32::NEG_INFINITY },
                });
            };
            if x + 1 < width {
                meet(around[0], pixel + 1, true);
            }
            if is_last {
                continue;
            }
            if x > 0 {
                meet(around[1], pixel + width - 1, false);
            }
            meet(around[2], pixel + width, true);
            if x + 1 < width {
                meet(around[3], pixel + width + 1, false);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two floods that meet at a corner and along a side, and one that touches the second at a corner only.
    #[test]
    fn the_deepest_pass_is_told_across_corners_and_across_sides() {
        let depth = Light::from_raw(3, 3, vec![0.9, 0.2, 0.1, 0.5, 0.8, 0.3, 0.4, 0.4, 0.7]);
        let depth = depth.expect("nine");
        let of_pixel = [1, 2, 2, 1, 2, 2, 1, 2, 3];
        let borders = between(&of_pixel, &depth, &[true; 9]);
        let pairs: Vec<(u32, u32)> = borders.iter().map(|border| border.pair).collect();
        assert_eq!(pairs, [(1, 2), (2, 3)]);
        assert_eq!(
            borders[0],
            Border {
                pair: (1, 2),
                pass: 0.8,
                at: [0, 4],
                side: 0.5
            }
        );
        assert_eq!((borders[1].pass, borders[1].side), (0.7, 0.4));
        let as_one = relabelled(&borders, |label| label.min(2));
        assert_eq!(as_one, borders[..1]);
    }
}
