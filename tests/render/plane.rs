//! Grey planes of numbers: what every stage of the renderer hands to the next.

use rayon::prelude::*;
use std::sync::LazyLock;

/// A rectangle in pixels; x to the right, y down, the photo's corner at (0, 0).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    pub x: f64,
    pub y: f64,
    pub w: f64,
    pub h: f64,
}

impl Rect {
    /// Whether a point lies inside; the left and upper sides belong to the rectangle.
    pub fn contains(&self, [x, y]: [f64; 2]) -> bool {
        x >= self.x && x < self.x + self.w && y >= self.y && y < self.y + self.h
    }

    /// The rectangle less a band of `by` pixels on all sides.
    pub fn inset(&self, by: f64) -> Self {
        Self {
            x: self.x + by,
            y: self.y + by,
            w: self.w - 2.0 * by,
            h: self.h - 2.0 * by,
        }
    }
}

/// One value per pixel, row by row. Pixel centres lie at +0.5.
#[derive(Clone, Debug)]
pub struct Plane {
    pub width: usize,
    pub height: usize,
    pub values: Vec<f32>,
}

impl Plane {
    /// A plane of one value.
    pub fn uniform(width: usize, height: usize, value: f32) -> Self {
        Self {
            width,
            height,
            values: vec![value; width * height],
        }
    }

    /// A plane whose values follow from column and row alone.
    pub fn from_fn(
        width: usize,
        height: usize,
        value: impl Fn(usize, usize) -> f32 + Sync,
    ) -> Self {
        let mut plane = Self::uniform(width, height, 0.0);
        plane
            .values
            .par_chunks_mut(width)
            .enumerate()
            .for_each(|(y, row)| {
                for (x, cell) in row.iter_mut().enumerate() {
                    *cell = value(x, y);
                }
            });
        plane
    }

    /// The whole plane as a rectangle.
    pub fn whole(&self) -> Rect {
        Rect {
            x: 0.0,
            y: 0.0,
            w: self.width as f64,
            h: self.height as f64,
        }
    }

    /// The value of one pixel, the border pixel standing in for what lies beyond.
    pub fn at(&self, x: isize, y: isize) -> f32 {
        let column = x.clamp(0, self.width as isize - 1) as usize;
        let row = y.clamp(0, self.height as isize - 1) as usize;
        self.values[row * self.width + column]
    }

    /// The value at a point, linear between pixel centres.
    pub fn between(&self, x: f64, y: f64) -> f32 {
        let (u, v) = (x - 0.5, y - 0.5);
        let (left, top) = (u.floor(), v.floor());
        let (s, t) = ((u - left) as f32, (v - top) as f32);
        let (column, row) = (left as isize, top as isize);
        let upper = self.at(column, row) * (1.0 - s) + self.at(column + 1, row) * s;
        let lower = self.at(column, row + 1) * (1.0 - s) + self.at(column + 1, row + 1) * s;
        upper * (1.0 - t) + lower * t
    }

    /// The mean over the pixels whose centres lie in a rectangle.
    pub fn mean_in(&self, rect: Rect) -> f64 {
        let (mut sum, mut count) = (0.0, 0_u32);
        for (index, &value) in self.values.iter().enumerate() {
            let centre = [
                (index % self.width) as f64 + 0.5,
                (index / self.width) as f64 + 0.5,
            ];
            if rect.contains(centre) {
                sum += f64::from(value);
                count += 1;
            }
        }
        sum / f64::from(count)
    }

    /// The plane blurred by a Gaussian of standard deviation `sigma_px`.
    pub fn blurred(&self, sigma_px: f64) -> Self {
        if sigma_px < 0.05 {
            return self.clone();
        }
        let kernel = gaussian(sigma_px);
        let reach = kernel.len() / 2;
        let (width, height) = (self.width, self.height);
        let mut across = Self::uniform(width, height, 0.0);
        let rows = across
            .values
            .par_chunks_mut(width)
            .zip(self.values.par_chunks(width));
        rows.for_each(|(sums, row)| {
            let mut wide = vec![row[0]; width + 2 * reach];
            wide[reach..reach + width].copy_from_slice(row);
            wide[reach + width..].fill(row[width - 1]);
            for (k, weight) in kernel.iter().enumerate() {
                add_weighted(sums, *weight, &wide[k..k + width]);
            }
        });
        let mut both = Self::uniform(width, height, 0.0);
        let rows = both.values.par_chunks_mut(width).enumerate();
        rows.for_each(|(y, sums)| {
            for (k, weight) in kernel.iter().enumerate() {
                let from = (y + k).saturating_sub(reach).min(height - 1) * width;
                add_weighted(sums, *weight, &across.values[from..from + width]);
            }
        });
        both
    }

    /// How fast the values rise along a direction, per pixel (central differences).
    pub fn slope(&self, direction_deg: f64) -> Self {
        let (sin, cos) = direction_deg.to_radians().sin_cos();
        Self::from_fn(self.width, self.height, |x, y| {
            let (x, y) = (x as isize, y as isize);
            let along_x = (self.at(x + 1, y) - self.at(x - 1, y)) / 2.0;
            let along_y = (self.at(x, y + 1) - self.at(x, y - 1)) / 2.0;
            along_x * cos as f32 + along_y * sin as f32
        })
    }
}

/// The weights of a Gaussian, summing to 1, out to four standard deviations.
fn gaussian(sigma_px: f64) -> Vec<f32> {
    let reach = (4.0 * sigma_px).ceil() as i32;
    let weights: Vec<f64> = (-reach..=reach)
        .map(|k| (-0.5 * (f64::from(k) / sigma_px).powi(2)).exp())
        .collect();
    let sum: f64 = weights.iter().sum();
    weights.iter().map(|w| (w / sum) as f32).collect()
}

fn add_weighted(sums: &mut [f32], weight: f32, values: &[f32]) {
    for (sum, value) in sums.iter_mut().zip(values) {
        *sum += weight * value;
    }
}

/// Mottling: smooth noise at several wavelengths of equal strength, mean 0, standard deviation 1.
pub fn mottling(width: usize, height: usize, wavelengths_px: &[f64], seed: u64) -> Plane {
    let mut plane = Plane::from_fn(width, height, |x, y| {
        let layers = wavelengths_px.iter().enumerate();
        layers
            .map(|(layer, wavelength)| {
                // Each layer is turned, so that no two share the grid they are made on.
                let (sin, cos) = (0.6 + 1.1 * layer as f64).sin_cos();
                let (u, v) = ((x as f64 + 0.5) / wavelength, (y as f64 + 0.5) / wavelength);
                smooth_noise(u * cos - v * sin, u * sin + v * cos, seed + layer as u64) as f32
            })
            .sum()
    });
    let count = plane.values.len() as f64;
    let mean = plane.values.iter().map(|&v| f64::from(v)).sum::<f64>() / count;
    let squares: f64 = plane
        .values
        .iter()
        .map(|&v| (f64::from(v) - mean).powi(2))
        .sum();
    let deviation = (squares / count).sqrt().max(1e-9);
    for value in &mut plane.values {
        *value = ((f64::from(*value) - mean) / deviation) as f32;
    }
    plane
}

/// Smooth noise with features about one unit across, between −1 and 1 and 0 on average:
/// a random slope at every whole-numbered point, blended between them.
pub fn smooth_noise(x: f64, y: f64, seed: u64) -> f64 {
    let (left, top) = (x.floor(), y.floor());
    let (s, t) = (x - left, y - top);
    let corner = |dx: f64, dy: f64| {
        let [cos, sin] = SLOPES[hashed(left + dx, top + dy, seed)];
        cos * (s - dx) + sin * (t - dy)
    };
    let ease = |u: f64| u * u * u * (u * (6.0 * u - 15.0) + 10.0);
    let upper_left = corner(0.0, 0.0);
    let upper = upper_left + ease(s) * (corner(1.0, 0.0) - upper_left);
    let lower_left = corner(0.0, 1.0);
    let lower = lower_left + ease(s) * (corner(1.0, 1.0) - lower_left);
    upper + ease(t) * (lower - upper)
}

/// Unit vectors all round: working them out anew for every pixel would take most of the time.
static SLOPES: LazyLock<[[f64; 2]; 64]> = LazyLock::new(|| {
    std::array::from_fn(|k| {
        let (sin, cos) = (std::f64::consts::TAU * k as f64 / 64.0).sin_cos();
        [cos, sin]
    })
});

/// A number from 0 to 63 that depends on a grid point and a seed and on nothing else.
fn hashed(x: f64, y: f64, seed: u64) -> usize {
    let mut bits = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15);
    for part in [x as i64 as u64, y as i64 as u64] {
        bits = (bits ^ part).wrapping_mul(0xD6E8_FEB8_6659_FD93);
        bits ^= bits >> 32;
        bits = bits.wrapping_mul(0xD6E8_FEB8_6659_FD93);
        bits ^= bits >> 29;
    }
    (bits >> 58) as usize
}
