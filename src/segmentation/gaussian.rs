//! Gaussian blur in linear light.
//!
//! Own code because the outline rests on it: the kernel reaches to 4 σ, where ready ones cut at 2 σ,
//! and rows run in parallel.

use crate::photo::Light;
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

    let mut across = vec![0.0_f32; w * h];
    across
        .par_chunks_mut(w)
        .zip(source.par_chunks(w))
        .for_each_init(
            || vec![0.0_f32; w + 2 * radius],
            |padded, (out, row)| {
                padded[..radius].fill(row[0]);
                padded[radius..radius + w].copy_from_slice(row);
                padded[radius + w..].fill(row[w - 1]);
                for (x, value) in out.iter_mut().enumerate() {
                    *value = kernel[0] * padded[x + radius];
                }
                for (i, k) in kernel.iter().enumerate().skip(1) {
                    let left = &padded[radius - i..radius - i + w];
                    let right = &padded[radius + i..radius + i + w];
                    for ((value, a), b) in out.iter_mut().zip(left).zip(right) {
                        *value += k * (a + b);
                    }
                }
            },
        );

    let mut down = vec![0.0_f32; w * h];
    down.par_chunks_mut(w).enumerate().for_each(|(y, out)| {
        let row = |offset: isize| {
            let line = y.saturating_add_signed(offset).min(h - 1);
            &across[line * w..(line + 1) * w]
        };
        for (value, a) in out.iter_mut().zip(row(0)) {
            *value = kernel[0] * a;
        }
        for (i, k) in kernel.iter().enumerate().skip(1) {
            let i = i.cast_signed();
            for ((value, a), b) in out.iter_mut().zip(row(-i)).zip(row(i)) {
                *value += k * (a + b);
            }
        }
    });
    Light::from_raw(width, height, down).unwrap_or_else(|| plane.clone())
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
