//! Spacing from the power spectrum of the flattened luminance, without any segmentation.
//!
//! Windowed tiles of the photo at several resolutions give the power per unit of log frequency;
//! structure that repeats stands out as a ring. The ring's radius, taken direction by direction so
//! that drawn-out pores do not mislead it, gives the spacing.

use crate::area::Area;
use crate::geometry::{Point, Rect};
use crate::photo::Light;
use nalgebra::{Matrix3, Vector3};
use rayon::prelude::*;
use rustfft::num_complex::Complex;
use rustfft::{Fft, FftPlanner};
use std::sync::Arc;

/// Side of a tile, px of its level.
const TILE: usize = 128;
/// At most so many tiles across and down a level.
const TILES_A_SIDE: usize = 6;
/// Fewest periods in a tile for which the ring is resolved.
const FEWEST_PERIODS: f64 = 5.0;
/// Shortest period that a level of the pyramid shows undamped, px.
const SHORTEST_PERIOD: f64 = 4.0;
/// Width of a bin of ln frequency.
const LN_STEP: f64 = 0.08;
/// Sectors into which the half circle of directions is divided.
const SECTORS: usize = 12;
/// A lower peak of this share of the strongest one's power is the fundamental, the strongest its overtone.
const OVERTONE: f64 = 0.4;
const SECTOR_OVERTONE: f64 = 0.4;
/// Overtones looked for lie up to this factor above the fundamental: √3 and 2 on a triangular lattice.
const OVERTONE_REACH: f64 = 2.2;
/// Spacing × ring frequency. A triangular lattice has 2/√3 = 1.155, a square one of equal density
/// 1.075; irregular packings lie between.
const SPACING_TIMES_FREQUENCY: f64 = 1.12;

/// Modulation up to which a surface is mottled only.
///
/// Two phases in equal shares that differ by a fifth of the light give 0.10; tissue varies by some
/// hundredths (common practice, no source).
pub const MOTTLING: f64 = 0.06;

/// What the spectrum says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ring {
    /// Spacing of a triangular lattice of the same density, photo px.
    pub spacing_px: f64,
    /// 0 when all directions carry equal power, 1 when a single direction carries all.
    pub alignment: f64,
    /// Root of the variance of relative luminance in an octave about the ring.
    pub modulation: f64,
}

/// Mean power over the tiles of one level of the pyramid.
struct Level {
    /// Photo px per px of the level.
    step: f64,
    side: usize,
    /// Spectral density by row of ky (wrapped) and kx 0..=side/2.
    density: Vec<f64>,
}

/// Looks for the ring; `None` when the area is too small for any tile or quite flat.
#[must_use]
pub fn ring(light: &Light, area: &Area, bounds: Rect) -> Option<Ring> {
    let photo = Rect::of_size(light.width(), light.height());
    let inside = |p: Point| area.contains(p, photo);
    let mut levels = pyramid(light, bounds, &inside);
    without_noise(&mut levels);
    let profile = Profile::of(&levels)?;
    let peak = profile.strongest()?;
    let frequency = profile.frequency(peak);
    let (level, _) = levels
        .iter()
        .map(|level| {
            #[expect(clippy::cast_precision_loss, reason = "128 at most")]
            let periods = frequency * level.step * level.side as f64;
            (level, (periods / 14.0).ln().abs())
        })
        .min_by(|a, b| a.1.total_cmp(&b.1))?;
    let sectors = level.sectors(frequency);
    let total: f64 = sectors.iter().map(|s| s.power).sum();
    let strongest = sectors.iter().max_by(|a, b| a.power.total_cmp(&b.power))?;
    let mean_square = ellipse_through(&sectors).unwrap_or(strongest.frequency.powi(2));
    // Length of the mean of unit vectors at twice the angle.
    let (c, s) = sectors.iter().fold((0.0, 0.0), |(c, s), sector| {
        let (sin, cos) = (2.0 * sector.angle).sin_cos();
        (c + sector.power * cos, s + sector.power * sin)
    });
    Some(Ring {
        spacing_px: SPACING_TIMES_FREQUENCY / mean_square.sqrt(),
        alignment: if total > 0.0 { c.hypot(s) / total } else { 0.0 },
        modulation: profile.modulation(peak),
    })
}

/// Takes white noise off every level: its density is read where the finest level has nothing else,
/// at the highest frequencies, and falls with the square of the step as pixels are averaged.
fn without_noise(levels: &mut [Level]) {
    let Some(finest) = levels.first() else {
        return;
    };
    let mut highest: Vec<f64> = finest
        .bins()
        .filter(|(fx, fy, _)| fx.hypot(*fy) > 0.42)
        .map(|(_, _, density)| density)
        .collect();
    if highest.is_empty() {
        return;
    }
    highest.sort_by(f64::total_cmp);
    let floor = highest[highest.len() / 2] * finest.step * finest.step;
    for level in levels {
        let floor = floor / (level.step * level.step);
        for density in &mut level.density {
            *density = (*density - floor).max(0.0);
        }
    }
}

fn halve(plane: &Light) -> Light {
    let (w, h) = (plane.width() / 2, plane.height() / 2);
    let source = plane.as_raw();
    let stride = plane.width() as usize;
    let mut out = vec![0.0_f32; (w * h) as usize];
    if w > 0 {
        out.par_chunks_mut(w as usize)
            .enumerate()
            .for_each(|(y, row)| {
                let top = &source[2 * y * stride..];
                let bottom = &source[(2 * y + 1) * stride..];
                for (x, value) in row.iter_mut().enumerate() {
                    *value =
                        0.25 * (top[2 * x] + top[2 * x + 1] + bottom[2 * x] + bottom[2 * x + 1]);
                }
            });
    }
    Light::from_raw(w, h, out).unwrap_or_default()
}

fn pyramid(light: &Light, bounds: Rect, inside: &(dyn Fn(Point) -> bool + Sync)) -> Vec<Level> {
    let mut levels = Vec::new();
    let mut plane: Option<Light> = None;
    let mut step = 1.0;
    loop {
        let current = plane.as_ref().unwrap_or(light);
        let across = bounds.width / step;
        let down = bounds.height / step;
        let smaller = across.min(down);
        #[expect(clippy::cast_precision_loss, reason = "128")]
        let side = if smaller >= TILE as f64 {
            TILE
        } else if smaller >= 64.0 {
            64
        } else {
            return levels;
        };
        if let Some(level) = Level::of(current, bounds, step, side, inside) {
            levels.push(level);
        }
        plane = Some(halve(current));
        step *= 2.0;
    }
}

impl Level {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "pixel numbers"
    )]
    fn of(
        plane: &Light,
        bounds: Rect,
        step: f64,
        side: usize,
        inside: &(dyn Fn(Point) -> bool + Sync),
    ) -> Option<Self> {
        let starts = |from: f64, length: f64, limit: u32| -> Vec<usize> {
            let first = (from / step).ceil().max(0.0) as usize;
            let last = (((from + length) / step).floor() as usize)
                .min(limit as usize)
                .saturating_sub(side);
            if last < first {
                return Vec::new();
            }
            let count = ((last - first) / side + 1).min(TILES_A_SIDE);
            (0..count)
                .map(|i| {
                    if count == 1 {
                        usize::midpoint(first, last)
                    } else {
                        first + (last - first) * i / (count - 1)
                    }
                })
                .collect()
        };
        let columns = starts(bounds.x, bounds.width, plane.width());
        let rows = starts(bounds.y, bounds.height, plane.height());
        let origins: Vec<(usize, usize)> = rows
            .iter()
            .flat_map(|&y| columns.iter().map(move |&x| (x, y)))
            .filter(|&(x, y)| {
                // A tile belongs when its middle and its corners do.
                let at = |fx: f64, fy: f64| {
                    inside(Point::new(
                        (x as f64 + fx * side as f64) * step,
                        (y as f64 + fy * side as f64) * step,
                    ))
                };
                at(0.5, 0.5) && at(0.02, 0.02) && at(0.98, 0.02) && at(0.02, 0.98) && at(0.98, 0.98)
            })
            .collect();
        let fft = FftPlanner::new().plan_fft_forward(side);
        let tiles: Vec<Vec<f64>> = origins
            .par_iter()
            .filter_map(|&(x, y)| tile_density(plane, x, y, side, &fft))
            .collect();
        if tiles.is_empty() {
            return None;
        }
        // The strongest quarter of the tiles is dropped, frequency by frequency, so that a scale bar
        // or a crack in some of them does not speak for all.
        let bins = tiles[0].len();
        let density = (0..bins)
            .into_par_iter()
            .map(|bin| {
                let mut values: Vec<f64> = tiles.iter().map(|tile| tile[bin]).collect();
                values.sort_by(f64::total_cmp);
                if values.len() >= 8 {
                    values.truncate(values.len() * 3 / 4);
                }
                values.iter().sum::<f64>() / values.len() as f64
            })
            .collect();
        Some(Self {
            step,
            side,
            density,
        })
    }

    /// Frequencies of all bins but the constant: (fx, fy) in cycles per px of the level.
    #[expect(clippy::cast_precision_loss, reason = "128 at most")]
    fn bins(&self) -> impl Iterator<Item = (f64, f64, f64)> + '_ {
        let half = self.side / 2 + 1;
        let n = self.side as f64;
        self.density
            .iter()
            .enumerate()
            .skip(1)
            .map(move |(i, &density)| {
                let (ky, kx) = (i / half, i % half);
                let fy = if ky > self.side / 2 {
                    ky as f64 - n
                } else {
                    ky as f64
                } / n;
                (kx as f64 / n, fy, density)
            })
    }

    /// Where the power lies in each direction, near a frequency given in cycles per photo px.
    #[expect(
        clippy::cast_precision_loss,
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "sectors"
    )]
    fn sectors(&self, frequency: f64) -> Vec<Sector> {
        let centre = frequency * self.step;
        let (low, high) = (centre / 3.2, (centre * 2.0).min(0.45));
        let bins = ((high / low).ln() / LN_STEP).ceil() as usize + 1;
        let mut power = vec![vec![(0.0, 0.0); bins]; SECTORS];
        for (fx, fy, density) in self.bins() {
            let f = fx.hypot(fy);
            if f < low || f >= high {
                continue;
            }
            let angle = fy.atan2(fx);
            let sector = ((angle / std::f64::consts::PI * SECTORS as f64)
                .round()
                .rem_euclid(SECTORS as f64) as usize)
                .min(SECTORS - 1);
            let bin = ((f / low).ln() / LN_STEP) as usize;
            let cell = &mut power[sector][bin.min(bins - 1)];
            cell.0 += density * f * f;
            cell.1 += 1.0;
        }
        (0..SECTORS)
            .map(|sector| {
                // Directions fade into one another: neighbours count half, so do neighbouring radii.
                let smoothed: Vec<f64> = (0..bins)
                    .map(|bin| {
                        let (mut sum, mut weight) = (0.0, 0.0);
                        for (ds, ws) in [(SECTORS - 1, 0.5), (0, 1.0), (1, 0.5)] {
                            let row = &power[(sector + ds) % SECTORS];
                            let from = bin.saturating_sub(2);
                            for (other, cell) in row.iter().enumerate().take(bin + 3).skip(from) {
                                let w = ws * (-0.5 * (bin as f64 - other as f64).powi(2)).exp();
                                sum += w * cell.0;
                                weight += w * cell.1;
                            }
                        }
                        if weight > 0.0 { sum / weight } else { 0.0 }
                    })
                    .collect();
                let best = fundamental(&smoothed, SECTOR_OVERTONE);
                let power = smoothed[best];
                Sector {
                    angle: sector as f64 * std::f64::consts::PI / SECTORS as f64,
                    frequency: low * ((best as f64 + 0.5) * LN_STEP).exp() / self.step,
                    power,
                }
            })
            .collect()
    }
}

/// The lowest peak that is no weaker than `share` of the strongest and within an octave and a bit
/// below it: sharp walls on a regular pattern put more power into its overtones than into itself.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "bins"
)]
fn fundamental(power: &[f64], share: f64) -> usize {
    let strongest = power
        .iter()
        .enumerate()
        .max_by(|a, b| a.1.total_cmp(b.1))
        .map_or(0, |(bin, _)| bin);
    let reach = (OVERTONE_REACH.ln() / LN_STEP).round() as usize;
    (strongest.saturating_sub(reach).max(2)..strongest)
        .find(|&bin| {
            power[bin] >= share * power[strongest]
                && (bin - 2..=bin + 2).all(|near| power.get(near).is_none_or(|p| *p <= power[bin]))
        })
        .unwrap_or(strongest)
}

/// ρ² of the circle as large as the ellipse that runs through the peaks of all directions: a surface
/// drawn out in one direction has its ring drawn in. On a lattice only some directions carry power, so
/// the ellipse is fitted (least squares of 1/ρ², by power squared so that overtones in the directions
/// between count little) and not averaged over directions. `None` when the
/// peaks lie on no ellipse.
fn ellipse_through(sectors: &[Sector]) -> Option<f64> {
    let (mut normal, mut right) = (Matrix3::zeros(), Vector3::zeros());
    for sector in sectors {
        let (sin, cos) = sector.angle.sin_cos();
        let row = Vector3::new(cos * cos, 2.0 * cos * sin, sin * sin);
        let weight = sector.power * sector.power;
        normal += weight * row * row.transpose();
        right += weight / sector.frequency.powi(2) * row;
    }
    let form = normal.lu().solve(&right)?;
    let determinant = form.x * form.z - form.y * form.y;
    (form.x > 0.0 && determinant > 0.0).then(|| determinant.sqrt().recip())
}

/// Strongest frequency in one direction.
struct Sector {
    /// Direction of the wave, radians.
    angle: f64,
    /// Cycles per photo px.
    frequency: f64,
    power: f64,
}

/// Power density of one tile, its mean plane divided out and Hann windowed.
#[expect(clippy::cast_precision_loss, reason = "128 at most")]
fn tile_density(
    plane: &Light,
    x: usize,
    y: usize,
    side: usize,
    fft: &Arc<dyn Fft<f64>>,
) -> Option<Vec<f64>> {
    let stride = plane.width() as usize;
    let source = plane.as_raw();
    let n = side as f64;
    let middle = (n - 1.0) / 2.0;
    let (mut mean, mut slope_x, mut slope_y) = (0.0, 0.0, 0.0);
    for j in 0..side {
        for i in 0..side {
            let value = f64::from(source[(y + j) * stride + x + i]);
            mean += value;
            slope_x += value * (i as f64 - middle);
            slope_y += value * (j as f64 - middle);
        }
    }
    mean /= n * n;
    let square_sum = n * n * (n * n - 1.0) / 12.0;
    slope_x /= square_sum;
    slope_y /= square_sum;
    if mean <= 1e-4 {
        return None;
    }
    let window: Vec<f64> = (0..side)
        .map(|i| (std::f64::consts::PI * (i as f64 + 0.5) / n).sin().powi(2))
        .collect();
    let mut field: Vec<Complex<f64>> = (0..side * side)
        .map(|k| {
            let (i, j) = (k % side, k / side);
            let level = mean + slope_x * (i as f64 - middle) + slope_y * (j as f64 - middle);
            let relative =
                f64::from(source[(y + j) * stride + x + i]) / level.max(0.2 * mean) - 1.0;
            Complex::new(relative * window[i] * window[j], 0.0)
        })
        .collect();
    fft.process(&mut field);
    let mut turned: Vec<Complex<f64>> = (0..side * side)
        .map(|k| field[(k % side) * side + k / side])
        .collect();
    fft.process(&mut turned);
    let half = side / 2 + 1;
    let window_power: f64 = window.iter().map(|w| w * w).sum::<f64>().powi(2);
    Some(
        (0..side * half)
            .map(|k| turned[(k % half) * side + k / half].norm_sqr() / window_power)
            .collect(),
    )
}

/// Power per unit of ln frequency, all levels joined.
struct Profile {
    ln_first: f64,
    /// 2π f² S(f) per bin; `None` where no level reaches.
    power: Vec<Option<f64>>,
}

impl Profile {
    #[expect(
        clippy::cast_precision_loss,
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "bins"
    )]
    fn of(levels: &[Level]) -> Option<Self> {
        let lowest = levels
            .iter()
            .map(|l| FEWEST_PERIODS / (l.side as f64 * l.step))
            .fold(f64::INFINITY, f64::min);
        if !lowest.is_finite() {
            return None;
        }
        let ln_first = lowest.ln();
        let bins = (((1.0 / SHORTEST_PERIOD).ln() - ln_first) / LN_STEP).ceil() as usize + 1;
        let mut sums = vec![(0.0, 0.0); bins];
        for level in levels {
            let from = FEWEST_PERIODS / level.side as f64;
            for (fx, fy, density) in level.bins() {
                let f = fx.hypot(fy);
                if f < from || f > 1.0 / SHORTEST_PERIOD {
                    continue;
                }
                // Each bin of the spectrum is spread over the width that it covers.
                let ln_f = (f / level.step).ln() - ln_first;
                let width = (1.0 / (f * level.side as f64)).max(LN_STEP);
                let first = ((ln_f - width / 2.0) / LN_STEP).max(0.0) as usize;
                let last = (((ln_f + width / 2.0) / LN_STEP) as usize).min(bins - 1);
                let value = std::f64::consts::TAU * f * f * density;
                for sum in &mut sums[first.min(bins - 1)..=last] {
                    sum.0 += value;
                    sum.1 += 1.0;
                }
            }
        }
        Some(Self {
            ln_first,
            power: sums
                .into_iter()
                .map(|(sum, weight)| (weight > 0.0).then(|| sum / weight))
                .collect(),
        })
    }

    #[expect(clippy::cast_precision_loss, reason = "bins")]
    fn frequency(&self, bin: usize) -> f64 {
        (self.ln_first + (bin as f64 + 0.5) * LN_STEP).exp()
    }

    fn strongest(&self) -> Option<usize> {
        let power: Vec<f64> = self.power.iter().map(|p| p.unwrap_or(0.0)).collect();
        let best = fundamental(&power, OVERTONE);
        power.get(best).is_some_and(|p| *p > 0.0).then_some(best)
    }

    /// Root of the variance within half an octave either side of the peak.
    fn modulation(&self, peak: usize) -> f64 {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "bins"
        )]
        let half_octave = (0.5 * std::f64::consts::LN_2 / LN_STEP).round() as usize;
        let from = peak.saturating_sub(half_octave);
        self.power
            .iter()
            .take(peak + half_octave + 1)
            .skip(from)
            .flatten()
            .sum::<f64>()
            .max(0.0)
            .sqrt()
            * LN_STEP.sqrt()
    }
}
