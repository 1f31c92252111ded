//! Fields whose level lines wind like the walls of maze-like and gilled surfaces.

use super::packing::normal;
use super::plane::{Plane, smooth_noise};
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use rayon::prelude::*;
use std::f64::consts::TAU;

/// Grid points per period while the pattern grows; it is drawn finer afterwards.
const GRID_PER_PERIOD: f64 = 10.0;
/// Periods grown beyond the photo on every side, so that its border leaves no trace.
const BORDER_PERIODS: f64 = 3.0;

/// What the pattern grows from.
pub enum Start {
    /// Noise without direction: a labyrinth.
    Noise,
    /// Stripes running along a direction, with so much waviness (a share of the period) and so
    /// many forks per hundred square periods.
    Stripes {
        direction_deg: f64,
        waviness: f64,
        forks: f64,
    },
}

/// A smooth field whose ups and downs alternate with a period of `period_px`.
pub fn field(width: usize, height: usize, period_px: f64, start: &Start, seed: u64) -> Plane {
    let step = period_px / GRID_PER_PERIOD;
    let border = BORDER_PERIODS * GRID_PER_PERIOD;
    let columns = (width as f64 / step + 2.0 * border) as usize;
    let rows = (height as f64 / step + 2.0 * border) as usize;
    let mut random = Pcg64Mcg::seed_from_u64(seed);
    let (mut grid, rounds) = match start {
        Start::Noise => {
            let mut grid = Plane::uniform(columns, rows, 0.0);
            for value in &mut grid.values {
                *value = normal(&mut random) as f32;
            }
            (grid, 60)
        }
        Start::Stripes {
            direction_deg,
            waviness,
            forks,
        } => {
            let area = (columns * rows) as f64 / GRID_PER_PERIOD.powi(2);
            let fork = |random: &mut Pcg64Mcg| {
                let turn = if random.random::<f64>() < 0.75 {
                    1.0
                } else {
                    -1.0
                };
                [
                    random.random::<f64>() * columns as f64,
                    random.random::<f64>() * rows as f64,
                    turn,
                ]
            };
            let places: Vec<[f64; 3]> = (0..(forks * area / 100.0).round() as usize)
                .map(|_| fork(&mut random))
                .collect();
            let (sin, cos) = direction_deg.to_radians().sin_cos();
            let grid = Plane::from_fn(columns, rows, |x, y| {
                let (u, v) = (x as f64 / GRID_PER_PERIOD, y as f64 / GRID_PER_PERIOD);
                let wave =
                    smooth_noise(u / 5.0, v / 5.0, seed) + 0.3 * smooth_noise(u, v, seed + 1);
                let mut phase = TAU * (v * cos - u * sin + 2.0 * waviness * wave);
                for &[fork_x, fork_y, turn] in &places {
                    // Going once round a fork gains or loses one gill.
                    let (dx, dy) = (x as f64 - fork_x, y as f64 - fork_y);
                    phase += turn * (dy * cos - dx * sin).atan2(dx * cos + dy * sin);
                }
                phase.cos() as f32
            });
            (grid, 5)
        }
    };
    for _ in 0..rounds {
        let next = ring_filtered(&grid);
        grid.values = next.values.iter().map(|v| (1.8 * v).tanh()).collect();
    }
    let grid = ring_filtered(&grid);
    Plane::from_fn(width, height, |x, y| {
        let place = |pixel: usize| border + (pixel as f64 + 0.5) / step;
        cubic(&grid, place(x), place(y))
    })
}

/// Keeps what alternates once per period: the difference of two Gaussians, scaled to leave
/// that wavelength's strength as it is.
fn ring_filtered(grid: &Plane) -> Plane {
    const WIDER: f64 = 1.6;
    let ratio = WIDER * WIDER;
    // The difference exp(−q/2) − exp(−q·ratio/2), q = (wavenumber × sigma)², is greatest at:
    let q = 2.0 * ratio.ln() / (ratio - 1.0);
    let sigma = q.sqrt() * GRID_PER_PERIOD / TAU;
    let gain = ((-q / 2.0).exp() - (-q * ratio / 2.0).exp()) as f32;
    let (near, far) = (grid.blurred(sigma), grid.blurred(WIDER * sigma));
    let mut ring = near;
    let pairs = ring.values.par_iter_mut().zip(&far.values);
    pairs.for_each(|(value, far)| *value = (*value - far) / gain);
    ring
}

/// Smooth to the second derivative (cubic B-spline over the grid's values).
fn cubic(grid: &Plane, x: f64, y: f64) -> f32 {
    let weights = |t: f64| {
        let s = 1.0 - t;
        [
            s * s * s / 6.0,
            (3.0 * t * t * t - 6.0 * t * t + 4.0) / 6.0,
            (3.0 * s * s * s - 6.0 * s * s + 4.0) / 6.0,
            t * t * t / 6.0,
        ]
    };
    let (left, top) = (x.floor(), y.floor());
    let (across, down) = (weights(x - left), weights(y - top));
    let mut sum = 0.0;
    for (j, wy) in down.iter().enumerate() {
        for (i, wx) in across.iter().enumerate() {
            let value = grid.at(
                left as isize + i as isize - 1,
                top as isize + j as isize - 1,
            );
            sum += wx * wy * f64::from(value);
        }
    }
    sum as f32
}

/// The share of every pixel where a smooth field lies below a level, from a plane laid
/// through the field at the pixel's centre.
pub fn share_below(field: &Plane, level: f32) -> Plane {
    const PARTS: i32 = 8;
    let across = field.slope(0.0);
    let down = field.slope(90.0);
    Plane::from_fn(field.width, field.height, |x, y| {
        let index = y * field.width + x;
        let (middle, dx, dy) = (
            field.values[index],
            across.values[index],
            down.values[index],
        );
        let part = |k: i32| (k as f32 + 0.5) / PARTS as f32 - 0.5;
        let below = (0..PARTS * PARTS)
            .filter(|k| middle + dx * part(k % PARTS) + dy * part(k / PARTS) < level)
            .count();
        below as f32 / (PARTS * PARTS) as f32
    })
}
