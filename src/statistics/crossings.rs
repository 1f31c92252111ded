//! Random lines across the surface: how often they enter a void (Heyn's lineal counts, ASTM E112).

use super::scatter::sum_standard_error;
use crate::geometry::{Point, Rect};
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use rayon::prelude::*;

/// Lines laid across the frame.
const LINES: u32 = 720;
/// Distance between looks along a line, frame px.
const STRIDE: f64 = 0.5;
/// A fixed seed: the same photo gives the same lines.
const SEED: u64 = 0x11E5;

/// What random lines met.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossings {
    /// Voids entered per px of line.
    pub per_px: f64,
    /// Standard error of `per_px` as a figure of this piece of surface, from the scatter between lines.
    pub standard_error: f64,
}

/// Lays random lines over a plane of `width` × `height` px and counts how often its level rises
/// through ½, inside the area only. Each void is counted where it is entered, so that the ends of a
/// line add nothing (the end effect of finite lines). Angles are spread evenly, places are random.
///
/// `None` when the area is smaller than a few lines' worth.
#[must_use]
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "pixel numbers"
)]
pub fn crossings(level: &[f32], inside: &[bool], width: usize, height: usize) -> Option<Crossings> {
    let mut random = Pcg64Mcg::seed_from_u64(SEED);
    let radius = (width as f64).hypot(height as f64) / 2.0;
    let (cx, cy) = (width as f64 / 2.0, height as f64 / 2.0);
    let at = |x: f64, y: f64| -> Option<f32> {
        let (fx, fy) = (x - 0.5, y - 0.5);
        if fx < 0.0 || fy < 0.0 {
            return None;
        }
        let (i, j) = (fx as usize, fy as usize);
        if i + 1 >= width || j + 1 >= height || !inside[(y as usize) * width + x as usize] {
            return None;
        }
        let (tx, ty) = ((fx - i as f64) as f32, (fy - j as f64) as f32);
        let k = j * width + i;
        let top = level[k] * (1.0 - tx) + level[k + 1] * tx;
        let bottom = level[k + width] * (1.0 - tx) + level[k + width + 1] * tx;
        Some(top * (1.0 - ty) + bottom * ty)
    };
    // Drawn one after the other, so that they are the same whatever the number of threads.
    let laid: Vec<(f64, f64)> = (0..LINES)
        .map(|i| {
            let angle =
                std::f64::consts::PI * (f64::from(i) + random.random::<f64>()) / f64::from(LINES);
            let offset = radius * (2.0 * random.random::<f64>() - 1.0);
            (angle, offset)
        })
        .collect();
    let met = |(angle, offset): (f64, f64)| {
        let (sin, cos) = angle.sin_cos();
        let (x0, y0) = (cx - offset * sin, cy + offset * cos);
        let (mut entered, mut length) = (0.0, 0.0);
        let mut before: Option<bool> = None;
        let steps = (2.0 * radius / STRIDE) as usize;
        for step in 0..steps {
            let t = step as f64 * STRIDE - radius;
            let void = at(x0 + t * cos, y0 + t * sin).map(|v| v > 0.5);
            if let (Some(was), Some(is)) = (before, void) {
                length += STRIDE;
                if is && !was {
                    entered += 1.0;
                }
            }
            before = void;
        }
        (entered, length)
    };
    let mut lines: Vec<(f64, f64)> = laid.into_par_iter().map(met).collect();
    lines.retain(|(_, length)| *length > 0.0);
    let length: f64 = lines.iter().map(|l| l.1).sum();
    let n = lines.len() as f64;
    if n < 20.0 {
        return None;
    }
    let per_px = lines.iter().map(|l| l.0).sum::<f64>() / length;
    // Ratio estimator: residuals of counts against lengths.
    let residuals: f64 = lines.iter().map(|l| (l.0 - per_px * l.1).powi(2)).sum();
    Some(Crossings {
        per_px,
        standard_error: (n / (n - 1.0) * residuals).sqrt() / length,
    })
}

/// Relative standard error of the length of outline, and so of crossings, because only this piece of
/// surface was seen: however many lines are laid across it, they meet the same outlines. It is looked
/// at in sliding windows of some spacings (`spacing_px`), as for pores.
///
/// The length is taken from where rows, columns and both diagonals enter a void (Crofton in four
/// directions); diagonals lie closer by √2.
#[must_use]
#[expect(clippy::cast_precision_loss, reason = "pixel numbers")]
pub fn outline_scatter(
    level: &[f32],
    inside: &[bool],
    width: usize,
    height: usize,
    spacing_px: f64,
) -> f64 {
    let mut met: Vec<(Point, f64)> = Vec::new();
    for y in 0..height {
        for x in 0..width {
            for (dx, dy, amount) in [
                (1, 0, 1.0),
                (0, 1, 1.0),
                (1, 1, std::f64::consts::FRAC_1_SQRT_2),
                (-1, 1, std::f64::consts::FRAC_1_SQRT_2),
            ] {
                let (Some(to_x), to_y) = (x.checked_add_signed(dx), y + dy) else {
                    continue;
                };
                if to_x >= width || to_y >= height {
                    continue;
                }
                let (from, to) = (y * width + x, to_y * width + to_x);
                if inside[from] && inside[to] && (level[from] > 0.5) != (level[to] > 0.5) {
                    met.push((Point::new(x as f64 + 0.5, y as f64 + 0.5), amount));
                }
            }
        }
    }
    let total: f64 = met.iter().map(|(_, amount)| amount).sum();
    let bounds = Rect {
        x: 0.0,
        y: 0.0,
        width: width as f64,
        height: height as f64,
    };
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a place in the plane"
    )]
    let is_inside = |p: Point| {
        let (x, y) = (p.x as usize, p.y as usize);
        x < width && y < height && inside[y * width + x]
    };
    sum_standard_error(met.iter().copied(), bounds, is_inside, spacing_px).map_or_else(
        // Where no window fits: as of so many pieces of a spacing square strewn at random.
        || {
            let area = inside.iter().filter(|is| **is).count() as f64;
            spacing_px / area.max(1.0).sqrt()
        },
        |error| error / total.max(f64::MIN_POSITIVE),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Buffon and Crofton: parallel stripes of period p are entered 2/(πp) times per px.
    #[test]
    fn stripes_are_entered_as_buffon_says() {
        let (size, period) = (400_usize, 20.0_f32);
        #[expect(clippy::cast_precision_loss, reason = "small")]
        let level: Vec<f32> = (0..size * size)
            .map(|k| 0.5 + 0.5 * (std::f32::consts::TAU * (k % size) as f32 / period).sin())
            .collect();
        let met = crossings(&level, &vec![true; size * size], size, size).expect("lines");
        let expected = 2.0 / (std::f64::consts::PI * f64::from(period));
        assert!(
            (met.per_px / expected - 1.0).abs() < 0.02,
            "{} for {expected}",
            met.per_px
        );
    }
}
