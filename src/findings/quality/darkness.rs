//! Parts so dark that noise rivals the pores.
//!
//! Outlines lie at half depth, so noise rivals a pore where its ripples are half as high as the pore
//! is deep. Noise is averaged over a pore's own width before it does harm, hence it is judged after a
//! smoothing that is a share of the spacing.

use super::parts::{Part, parts};
use crate::photo::Photo;
use crate::segmentation::Segmentation;

/// Smoothing that leaves a pore's outline in place, in spacings (standard deviation of a Gaussian).
const SMOOTHING: f64 = 0.12;
/// Ripples of noise reach so many standard deviations: in a field of some thousand independent places
/// one is that high (normal distribution, two-sided chance 7 in a million).
const RIPPLE: f64 = 4.5;
/// Share of the depth at which outlines lie.
const HALF_DEPTH: f64 = 0.5;
/// Parts below this share of the typical brightness lie in the dark: one stop.
const DARK: f64 = 0.5;
/// The step between the two darkest numbers of 8 bits, in linear light (IEC 61966-2-1): no contrast
/// below it can be seen, even where all noise has been rounded away.
const DARKEST_STEP: f64 = 1.0 / (255.0 * 12.92);

/// Share of the area that is darker than the rest and where noise is as strong as the pores.
pub(super) fn lost_share(photo: &Photo, segmentation: &Segmentation) -> f64 {
    let parts = parts(segmentation);
    let mut brightness: Vec<f64> = parts.iter().map(Part::brightness).collect();
    brightness.sort_by(f64::total_cmp);
    let Some(typical) = brightness.get(brightness.len() / 2) else {
        return 0.0;
    };
    let (mut lost, mut all) = (0.0, 0.0);
    for part in &parts {
        all += part.pixels();
        if part.brightness() >= DARK * typical {
            continue;
        }
        // White noise of SD s, smoothed by a Gaussian of σ px, keeps s/(2√π σ).
        let sigma_px = SMOOTHING * segmentation.spacing_px;
        let smoothed = part.noise(photo) / (2.0 * std::f64::consts::PI.sqrt() * sigma_px);
        let ripple = (RIPPLE * smoothed).max(DARKEST_STEP);
        if part
            .contrast()
            .is_none_or(|contrast| ripple >= HALF_DEPTH * contrast)
        {
            lost += part.pixels();
        }
    }
    lost / all
}
