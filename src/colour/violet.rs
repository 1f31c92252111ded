//! How much of the walls has a violet tint.

use super::{Lab, Patch};
use std::ops::RangeInclusive;

/// Hue angles of CIELAB that are called violet, degrees: from bluish violet to reddish purple. Where
/// one hue ends and the next begins is a matter of words; the boundaries are ours.
const VIOLET_DEG: RangeInclusive<f64> = 285.0..=350.0;
/// Chroma below which a tint is not told from grey: papers are up to this far from neutral, and a white
/// of such a paper tints everything by as much (`common practice, no source`).
const LEAST_CHROMA: f64 = 4.0;
/// A tint stands out from noise when it is this many standard deviations away from grey; of greys one in
/// ninety does.
const CLEAR_OF_NOISE: f64 = 3.0;
/// Median over standard deviation per axis of how far noise carries a colour in a plane (Rayleigh's
/// distribution, √(2 ln 2)).
const MEDIAN_TO_SD: f64 = 1.177_4;

/// Share of the walls whose hue is violet and whose chroma is more than noise gives, 0–1.
pub(super) fn share(patches: &[Patch], lab: impl Fn([f64; 3]) -> Lab) -> f64 {
    let least = LEAST_CHROMA.max(CLEAR_OF_NOISE * noise(patches, &lab));
    let pixels = |is_counted: &dyn Fn(Lab) -> bool| -> f64 {
        patches
            .iter()
            .filter(|patch| is_counted(lab(patch.light())))
            .map(|patch| patch.pixels)
            // From zero: the sum of nothing is −0 otherwise.
            .fold(0.0, |sum, pixels| sum + pixels)
    };
    let violet =
        pixels(&|colour| VIOLET_DEG.contains(&colour.hue_deg()) && colour.chroma() >= least);
    let all = pixels(&|_| true);
    if all > 0.0 { violet / all } else { 0.0 }
}

/// Standard deviation per axis, a* or b*, of a patch by noise alone: both halves of a patch have the
/// same hue, so half of what parts them is how far noise carries their mean.
fn noise(patches: &[Patch], lab: impl Fn([f64; 3]) -> Lab) -> f64 {
    let mut apart: Vec<f64> = patches
        .iter()
        .map(|patch| {
            let [one, other] = patch.halves.map(&lab);
            (one.a - other.a).hypot(one.b - other.b) / 2.0
        })
        .collect();
    apart.sort_by(f64::total_cmp);
    apart.get(apart.len() / 2).copied().unwrap_or(0.0) / MEDIAN_TO_SD
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Twenty patches whose halves are off by `off` in blue, either way in turn.
    fn patches(light: [f64; 3], off: f64) -> Vec<Patch> {
        (0..20)
            .map(|k| {
                let side = if k % 2 == 0 { off } else { -off };
                let half = |side: f64| [light[0], light[1], light[2] + side];
                Patch {
                    halves: [half(side), half(-side)],
                    pixels: 10.0,
                }
            })
            .collect()
    }

    const VIOLET: [f64; 3] = [0.36, 0.29, 0.36];
    const CREAM: [f64; 3] = [0.7, 0.62, 0.48];

    #[test]
    fn the_share_is_that_of_wall_not_of_patches() {
        let mut mixed = patches(CREAM, 0.0);
        let mut violet = patches(VIOLET, 0.0);
        for patch in &mut violet {
            patch.pixels = 30.0;
        }
        mixed.extend(violet);
        assert!((share(&mixed, Lab::of_light) - 0.75).abs() < 1e-12);
        assert!(share(&[], Lab::of_light).abs() < 1e-12);
    }

    #[test]
    fn a_tint_drowned_by_noise_is_not_counted() {
        assert!(share(&patches(VIOLET, 0.01), Lab::of_light) > 0.99);
        assert!(share(&patches(VIOLET, 0.15), Lab::of_light) < 0.01);
    }

    #[test]
    fn greys_and_other_hues_have_none() {
        for light in [[0.4; 3], CREAM, [0.4, 0.25, 0.2], [0.40, 0.395, 0.405]] {
            assert!(
                share(&patches(light, 0.0), Lab::of_light) < 0.01,
                "{light:?}"
            );
        }
    }
}
