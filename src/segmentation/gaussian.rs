//! Gaussian blur in linear light.
//!
//! Own code because the outline rests on it: the kernel reaches to 4 σ, where ready ones cut at 2 σ,
//! and rows run in parallel.

use crate::photo::Light;
use pulp::Arch;
use rayon::prelude::*;

/// Half of a symmetric kernel of unit sum, centre first.
fn half_kernel(sigma: f32) -> Vec<f32> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a few pixels"
    )]
    let radius = (4.0 * sigma).ceil() as usize;
    #[expect(clippy::cast_precision_loss, reason = "a few pixels")]
    let mut kernel: Vec<f32> = (0..=radius)
        .map(|i| (-0.5 * (i as f32 / sigma).powi(2)).exp())
        .collect();
    let sum = kernel[0] + 2.0 * kernel[1..].iter().sum::<f32>();
    for k in &mut kernel {
        *k /= sum;
    }
    kernel
}

/// Neighbouring pixels that are summed at once, so that the sums stay in registers.
const AT_ONCE: usize = 32;

/// The plane blurred with a Gaussian of standard deviation `sigma` px; the border pixel continues outside.
///
/// A `sigma` below 0.05 px changes nothing.
#[must_use]
pub fn blur(plane: &Light, sigma: f32) -> Light {
    let (width, height) = plane.dimensions();
    let (w, h) = (width as usize, height as usize);
    if sigma < 0.05 || w == 0 || h == 0 {
        return plane.clone();
    }
    let kernel = half_kernel(sigma);
    let radius = kernel.len() - 1;
    let source = plane.as_raw();

    // Each row is summed down and then across while it is at hand, so that no plane lies between.
    let mut blurred = vec![0.0_f32; w * h];
    blurred.par_chunks_mut(w).enumerate().for_each_init(
        || vec![0.0_f32; w + 2 * radius],
        |padded, (y, out)| {
            let lines: Vec<&[f32]> = (0..=2 * radius)
                .map(|i| (y + i).saturating_sub(radius).min(h - 1))
                .map(|line| &source[line * w..(line + 1) * w])
                .collect();
            sum(&mut padded[radius..radius + w], &kernel, &lines);
            let (first, last) = (padded[radius], padded[radius + w - 1]);
            padded[..radius].fill(first);
            padded[radius + w..].fill(last);
            let shifted: Vec<&[f32]> = (0..=2 * radius).map(|i| &padded[i..i + w]).collect();
            sum(out, &kernel, &shifted);
        },
    );
    Light::from_raw(width, height, blurred).unwrap_or_else(|| plane.clone())
}

/// The lines weighted by the kernel, the middle one by its centre, added up.
fn sum(out: &mut [f32], kernel: &[f32], lines: &[&[f32]]) {
    let radius = kernel.len() - 1;
    Arch::new().dispatch(|| {
        let mut from = 0;
        while from < out.len() {
            let to = (from + AT_ONCE).min(out.len());
            let mut sums = [0.0_f32; AT_ONCE];
            if to - from == AT_ONCE {
                let part = |i: usize| -> &[f32; AT_ONCE] {
                    lines[i][from..].first_chunk().unwrap_or(&[0.0; AT_ONCE])
                };
                for (sum, a) in sums.iter_mut().zip(part(radius)) {
                    *sum = kernel[0] * a;
                }
                for (i, k) in kernel.iter().enumerate().skip(1) {
                    let (left, right) = (part(radius - i), part(radius + i));
                    for ((sum, a), b) in sums.iter_mut().zip(left).zip(right) {
                        *sum += k * (a + b);
                    }
                }
            } else {
                for (sum, x) in sums.iter_mut().zip(from..to) {
                    *sum = kernel[0] * lines[radius][x];
                    for (i, k) in kernel.iter().enumerate().skip(1) {
                        *sum += k * (lines[radius - i][x] + lines[radius + i][x]);
                    }
                }
            }
            out[from..to].copy_from_slice(&sums[..to - from]);
            from = to;
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::Luma;

    #[test]
    fn a_point_spreads_to_the_gaussian_and_keeps_its_light() {
        let mut plane = Light::new(41, 41);
        plane.put_pixel(20, 20, Luma([1.0]));
        let blurred = blur(&plane, 2.0);
        let total: f32 = blurred.as_raw().iter().sum();
        assert!((total - 1.0).abs() < 1e-4, "light is kept: {total}");
        let peak = blurred.get_pixel(20, 20).0[0];
        let expected = 1.0 / (2.0 * std::f32::consts::PI * 4.0);
        assert!((peak / expected - 1.0).abs() < 0.01, "1/(2πσ²): {peak}");
    }
}
