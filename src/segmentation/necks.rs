//! Voids joined through a gap in a broken wall, parted at the gap.
//!
//! Where a piece of wall has broken out, or a dark hair lies across it, two pores are joined at full
//! depth and no height rule can part them. A person still counts two, because the gap is narrow. So
//! does this: the distance to the nearest wall is flooded like a landscape, and two floods stay
//! apart where the gap is less than two thirds as wide as the narrower of the two voids (a height rule on the
//! distance transform; Soille 2003, Morphological Image Analysis, ch. 9). A drawn-out pore has no
//! such waist.

use super::basins::Basins;
use crate::photo::Light;
use image::{GrayImage, Luma};
use imageproc::distance_transform::euclidean_squared_distance_transform;
use rayon::prelude::*;

/// A gap up to this share of the narrower void's width parts it from its neighbour.
const GAP: f32 = 2.0 / 3.0;
/// A part narrower than this share of the photo's typical void is a notch in the outline, not a pore.
const NOTCH: f32 = 0.4;
/// Pixels deeper than this are void.
const VOID: f32 = 0.5;
/// Distances are taken in bands of so many rows, each seen with a margin. What lies further from a wall than the
/// margin, three spacings, counts as being that far: nothing so wide is a pore.
const BAND: u32 = 512;
const MARGIN: u32 = 54;
/// Doublings of the distance per unit of the flooded plane, which runs from −1 to 2.
const DOUBLINGS: f32 = 4.0;

/// The same basins, those with a narrow gap in them parted there.
#[must_use]
pub fn part(basins: &Basins, depth: &Light) -> Basins {
    let distance = distance_to_wall(basins, depth);
    let plane = Light::from_raw(
        depth.width(),
        depth.height(),
        distance
            .iter()
            .zip(depth.iter())
            .map(|(distance, depth)| {
                if *distance > 0.0 {
                    distance.log2() / DOUBLINGS
                } else {
                    // Off the voids the flood goes on by depth, below all that is void.
                    (0.6 * (depth - VOID)).clamp(-0.9, 0.0) - 0.1
                }
            })
            .collect(),
    )
    .unwrap_or_default();
    let typical = typical_half_width(basins, &distance);
    let notch = (NOTCH * typical).max(1.0).log2() / DOUBLINGS;
    let rule = -GAP.log2() / DOUBLINGS;
    basins.parted(
        &plane,
        |lower, pass| lower - pass < rule || lower < notch,
        depth,
    )
}

/// Distance of every void pixel's centre to the nearest side of a pixel that is wall or another void, px;
/// 0 elsewhere.
fn distance_to_wall(basins: &Basins, depth: &Light) -> Vec<f32> {
    let width = depth.width() as usize;
    let of = &basins.of_pixel;
    let height = depth.height();
    let is_wall = |x: u32, y: u32| {
        let pixel = y as usize * width + x as usize;
        let border = [
            (x + 1 < depth.width()).then(|| pixel + 1),
            (y + 1 < height).then(|| pixel + width),
        ]
        .into_iter()
        .flatten()
        .any(|neighbour| of[neighbour] != of[pixel]);
        of[pixel] == 0 || depth.as_raw()[pixel] <= VOID || border
    };
    let bands: Vec<Vec<f32>> = (0..height.div_ceil(BAND))
        .into_par_iter()
        .map(|band| {
            let (from, to) = (band * BAND, ((band + 1) * BAND).min(height));
            let (top, bottom) = (from.saturating_sub(MARGIN), (to + MARGIN).min(height));
            let walls = GrayImage::from_fn(depth.width(), bottom - top, |x, y| {
                Luma([if is_wall(x, top + y) { 255 } else { 0 }])
            });
            let squares = euclidean_squared_distance_transform(&walls);
            let skipped = (from - top) as usize * width;
            let of_band = squares
                .iter()
                .skip(skipped)
                .take((to - from) as usize * width);
            let distances = of_band.map(|square| {
                #[expect(clippy::cast_possible_truncation, reason = "pixel distances")]
                let distance = (square.sqrt().min(f64::from(MARGIN)) - 0.5) as f32;
                distance.max(0.0)
            });
            distances.collect()
        })
        .collect();
    bands.concat()
}

/// Median over the basins of the greatest distance to the wall.
fn typical_half_width(basins: &Basins, distance: &[f32]) -> f32 {
    let mut widest = vec![0.0_f32; basins.count() + 1];
    for (label, distance) in basins.of_pixel.iter().zip(distance) {
        let widest = &mut widest[*label as usize];
        *widest = widest.max(*distance);
    }
    let mut widest: Vec<f32> = widest.into_iter().skip(1).filter(|w| *w > 0.0).collect();
    if widest.is_empty() {
        return 0.0;
    }
    let middle = widest.len() / 2;
    *widest.select_nth_unstable_by(middle, f32::total_cmp).1
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::segmentation::floods::{Floods, sunk_by_less_than};

    /// Two round voids of 12 px, 20 px apart, with a channel between them.
    fn dumb_bell(channel: f32) -> Light {
        Light::from_fn(60, 40, |x, y| {
            let (x, y) = (x as f32 + 0.5, y as f32 + 0.5);
            let disc = |cx: f32| (x - cx).hypot(y - 20.0) < 8.0;
            let bridge = (20.0..40.0).contains(&x) && (y - 20.0).abs() < channel / 2.0;
            Luma([if disc(20.0) || disc(40.0) || bridge {
                1.0
            } else {
                0.0
            }])
        })
    }

    fn voids(depth: &Light) -> usize {
        let void: Vec<bool> = depth.iter().map(|depth| *depth > VOID).collect();
        let (whole, _) = Floods::of(depth, &void).joined(sunk_by_less_than(0.3));
        assert_eq!(whole.count(), 1, "one flood by depth");
        let parted = part(&whole, depth);
        assert_eq!(parted.of_pixel.len(), 60 * 40);
        parted.count()
    }

    #[test]
    fn a_gap_in_a_wall_parts_two_pores() {
        assert_eq!(voids(&dumb_bell(4.0)), 2);
    }

    #[test]
    fn a_waist_does_not() {
        assert_eq!(voids(&dumb_bell(13.0)), 1);
    }

    #[test]
    fn nor_does_a_drawn_out_pore_with_a_ragged_edge_fall_apart() {
        let depth = Light::from_fn(60, 40, |x, y| {
            let half_width = 8.0 + (1.7 * x as f32).sin();
            let inside = (6..54).contains(&x) && (y as f32 - 19.5).abs() < half_width;
            Luma([if inside { 1.0 } else { 0.0 }])
        });
        assert_eq!(voids(&depth), 1);
    }
}
