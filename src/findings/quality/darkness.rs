//! Parts so dark that noise rivals the pores.
//!
//! Outlines lie at half depth, so noise rivals a pore where its ripples are half as high as the pore
//! is deep. Noise is averaged over a pore's own width before it does harm, hence it is judged after a
//! smoothing that is a share of the spacing.

use super::{each_in_area, photo_pixel};
use crate::photo::{Light, Photo};
use crate::segmentation::{PX_PER_SPACING, Segmentation};

/// Side of the parts looked at one by one, in spacings: a few pores.
const PART: f64 = 3.0;
/// Smoothing that leaves a pore's outline in place, in spacings (standard deviation of a Gaussian).
const SMOOTHING: f64 = 0.12;
/// Ripples of noise reach so many standard deviations: in a field of some thousand independent places
/// one is that high (normal distribution, two-sided chance 7 in a million).
const RIPPLE: f64 = 4.5;
/// Share of the depth at which outlines lie.
const HALF_DEPTH: f64 = 0.5;
/// Parts below this share of the typical brightness lie in the dark: one stop.
const DARK: f64 = 0.5;
/// Looks at the noise per side of a part.
const LOOKS: usize = 32;
/// The step between the two darkest numbers of 8 bits, in linear light (IEC 61966-2-1): no contrast
/// below it can be seen, even where all noise has been rounded away.
const DARKEST_STEP: f64 = 1.0 / (255.0 * 12.92);

#[derive(Clone, Copy, Default)]
struct Part {
    hollow: (f64, f64),
    wall: (f64, f64),
}

impl Part {
    fn pixels(&self) -> f64 {
        self.hollow.1 + self.wall.1
    }

    fn brightness(&self) -> f64 {
        (self.hollow.0 + self.wall.0) / self.pixels()
    }

    /// Light of the walls less that of the hollows; `None` where there is only one of them.
    fn contrast(&self) -> Option<f64> {
        (self.hollow.1 > 0.0 && self.wall.1 > 0.0)
            .then(|| self.wall.0 / self.wall.1 - self.hollow.0 / self.hollow.1)
    }
}

/// Share of the area that is darker than the rest and where noise is as strong as the pores.
pub(super) fn lost_share(photo: &Photo, segmentation: &Segmentation) -> f64 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "54 px"
    )]
    let side = (PART * PX_PER_SPACING) as usize;
    let (width, height) = segmentation.frame.size();
    let across = width.div_ceil(side);
    let mut parts = vec![Part::default(); across * height.div_ceil(side)];
    let light = segmentation.frame.light.as_raw();
    each_in_area(segmentation, |pixel, _, hollow| {
        let part = &mut parts[pixel / width / side * across + pixel % width / side];
        let (sum, count) = if hollow {
            &mut part.hollow
        } else {
            &mut part.wall
        };
        *sum += f64::from(light[pixel]);
        *count += 1.0;
    });
    let mut brightness: Vec<f64> = parts
        .iter()
        .filter(|part| part.pixels() > 0.0)
        .map(Part::brightness)
        .collect();
    brightness.sort_by(f64::total_cmp);
    let Some(typical) = brightness.get(brightness.len() / 2) else {
        return 0.0;
    };
    let (mut lost, mut all) = (0.0, 0.0);
    for (k, part) in parts.iter().enumerate().filter(|(_, p)| p.pixels() > 0.0) {
        all += part.pixels();
        if part.brightness() >= DARK * typical {
            continue;
        }
        let corner = [k % across * side, k / across * side];
        let from = photo_pixel(segmentation, corner[0], corner[1]);
        let to = photo_pixel(
            segmentation,
            (corner[0] + side).min(width) - 1,
            (corner[1] + side).min(height) - 1,
        );
        // White noise of SD s, smoothed by a Gaussian of σ px, keeps s/(2√π σ).
        let sigma_px = SMOOTHING * segmentation.spacing_px;
        let smoothed =
            noise(&photo.light, from, to) / (2.0 * std::f64::consts::PI.sqrt() * sigma_px);
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

/// Standard deviation of the noise between two photo pixels: Immerkær (1996, Comput. Vis. Image
/// Underst. 64: 300–302), with the median in place of the mean so that edges do not count as noise.
fn noise(light: &Light, from: [u32; 2], to: [u32; 2]) -> f64 {
    let raw = light.as_raw();
    let [width, height] = [light.width() as usize, light.height() as usize];
    let places = |axis: usize, side: usize| {
        let first = (from[axis] as usize).max(1);
        let last = (to[axis] as usize).min(side.saturating_sub(2));
        (first..=last).step_by((last.saturating_sub(first) / LOOKS).max(1))
    };
    let mut responses: Vec<f32> = Vec::new();
    for y in places(1, height) {
        for x in places(0, width) {
            let row = |line: usize| {
                let at = line * width + x;
                raw[at - 1] - 2.0 * raw[at] + raw[at + 1]
            };
            responses.push((row(y - 1) - 2.0 * row(y) + row(y + 1)).abs());
        }
    }
    if responses.is_empty() {
        return 0.0;
    }
    let middle = responses.len() / 2;
    let median = f64::from(*responses.select_nth_unstable_by(middle, f32::total_cmp).1);
    // Median of |N(0, σ)| = 0.6745 σ; the mask multiplies the SD of white noise by 6.
    median / (0.6745 * 6.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::Luma;
    use rand::{RngExt as _, SeedableRng as _};

    /// The variance of a rectangular distribution of width w is w²/12 (JCGM 100:2008, 4.3.7). Its
    /// responses are sums of nine samples, so nearly normal: 5 % for that and for 1000 looks.
    #[test]
    fn noise_is_read_off_beside_an_edge() {
        let width = 0.06;
        let mut random = rand_pcg::Pcg64Mcg::seed_from_u64(3);
        let light = Light::from_fn(96, 96, |x, _| {
            let level = if x < 48 { 0.2 } else { 0.7 };
            Luma([level + width * (random.random::<f32>() - 0.5)])
        });
        let found = noise(&light, [0, 0], [95, 95]);
        let true_sd = f64::from(width) / 12.0_f64.sqrt();
        assert!(
            (found / true_sd - 1.0).abs() < 0.05,
            "{found} for {true_sd}"
        );
    }
}
