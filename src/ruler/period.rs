//! Which row beside the dragged line repeats at the shortest distance, and in which direction.
//!
//! The row is sought among directions up to 3° off the line, since on a row that leaves the ticks half
//! of them are missing. Its repeat distance is where its autocorrelation has its first high peak.

use super::frame::Frame;
use super::quantile;
use crate::photo::Light;
use rayon::prelude::*;
use rustfft::FftPlanner;
use rustfft::num_complex::Complex;

/// How far the ruler's direction may lie off the dragged line's, and in which steps, degrees.
const OFF_DEG: f64 = 3.0;
const STEP_DEG: f64 = 0.5;
/// How far beside the line ticks are sought, px, and how far apart rows lie.
const BESIDE_PX: f64 = 48.0;
const ROW_PX: f64 = 2.0;
/// Rows that are averaged.
const ROWS: usize = 3;
/// Shortest repeat distance, px: a tick and a gap of two pixels each.
const SHORTEST_PX: usize = 4;
/// Parts of the line that the repeat distance may be at most.
const FEWEST_REPEATS: f64 = 3.8;
/// Least correlation of a row with itself moved by a tick.
const LEAST_CORRELATION: f64 = 0.35;
/// A peak as high as this share of the highest counts as the first.
const AS_HIGH: f64 = 0.75;
/// How far the row falls between two peaks at least.
const LEAST_FALL: f64 = 0.2;
/// Rows with less than this share of the strongest contrast are not looked at.
const LEAST_CONTRAST: f64 = 0.25;
/// Values beyond these quantiles are dirt or glare and cut off.
const CUT_OFF: [f64; 2] = [0.02, 0.98];
/// Repeat distances that differ by less than this share are the same.
const SAME: f64 = 1.06;

/// A row of ticks as it was first seen.
#[derive(Debug, Clone, Copy)]
pub(super) struct Seen {
    /// Along the ruler, to half a degree.
    pub(super) frame: Frame,
    /// Where the row lies across, px.
    pub(super) across: f64,
    /// From tick to tick, px.
    pub(super) period: f64,
    /// −1 where ticks are darker than their ground, 1 where they are lighter.
    pub(super) sign: f64,
}

/// A row, its correlation and contrast.
struct Row {
    seen: Seen,
    correlation: f64,
    contrast: f64,
}

/// The row where every tick is seen; `None` where nothing repeats.
pub(super) fn find(light: &Light, drawn: &Frame) -> Option<Seen> {
    let steps = (2.0 * OFF_DEG / STEP_DEG).round();
    let angles: Vec<f64> = std::iter::successors(Some(0.0), |i| Some(i + 1.0))
        .take_while(|i| *i <= steps)
        .map(|i| (i * STEP_DEG - OFF_DEG).to_radians())
        .collect();
    let rows: Vec<Row> = angles
        .into_par_iter()
        .flat_map_iter(|angle| rows(light, &drawn.turned(angle)))
        .collect();
    let strongest = rows.iter().map(|r| r.contrast).fold(0.0, f64::max);
    let clear: Vec<&Row> = rows
        .iter()
        .filter(|r| r.contrast >= LEAST_CONTRAST * strongest)
        .collect();
    let best = clear.iter().map(|r| r.correlation).fold(0.0, f64::max);
    let repeating: Vec<&Row> = clear
        .into_iter()
        .filter(|r| r.correlation >= LEAST_CORRELATION.max(AS_HIGH * best))
        .collect();
    let shortest = repeating
        .iter()
        .map(|r| r.seen.period)
        .fold(f64::INFINITY, f64::min);
    repeating
        .into_iter()
        .filter(|r| r.seen.period <= SAME * shortest)
        .max_by(|a, b| a.correlation.total_cmp(&b.correlation))
        .map(|r| r.seen)
}

/// All rows of one direction that repeat.
fn rows(light: &Light, frame: &Frame) -> Vec<Row> {
    let samples = |v: f64| -> Vec<f64> {
        std::iter::successors(Some(-frame.half), |u| Some(u + 1.0))
            .take_while(|u| *u <= frame.half)
            .map(|u| frame.light(light, u, v))
            .collect()
    };
    let across: Vec<f64> = std::iter::successors(Some(-BESIDE_PX), |v| Some(v + ROW_PX))
        .take_while(|v| *v <= BESIDE_PX)
        .collect();
    let lights: Vec<Vec<f64>> = across.iter().map(|v| samples(*v)).collect();
    let mut correlator = Correlator::new(lights[0].len());
    lights
        .windows(ROWS)
        .zip(across.windows(ROWS))
        .flat_map(|(lights, across)| {
            let row: Vec<f64> = (0..lights[0].len())
                .map(|i| lights.iter().map(|row| row[i]).sum::<f64>() / ROWS as f64)
                .collect();
            let across = across[ROWS / 2];
            repeats(&row, &mut correlator).into_iter().map(
                move |(period, correlation, contrast, sign)| Row {
                    seen: Seen {
                        frame: *frame,
                        across,
                        period,
                        sign,
                    },
                    correlation,
                    contrast,
                },
            )
        })
        .collect()
}

/// Repeat distance, correlation, contrast and sign of a row, with the light's slow changes taken out
/// over windows of several widths.
fn repeats(row: &[f64], correlator: &mut Correlator) -> Vec<(f64, f64, f64, f64)> {
    let mut found = Vec::new();
    let mut window = row.len() / 2;
    while window >= 2 * SHORTEST_PX {
        let (flat, contrast, sign) = flattened(row, window);
        let longest = window.min(whole(row.len() as f64 / FEWEST_REPEATS));
        if let Some((period, correlation)) = first_peak(&correlator.of(&flat), longest) {
            found.push((period, correlation, contrast, sign));
        }
        window /= 2;
    }
    found
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a length in whole pixels"
)]
fn whole(length: f64) -> usize {
    length as usize
}

/// The row over its own mean in a window about each place, outliers cut off; its contrast, and −1
/// where the narrow parts are dark.
fn flattened(row: &[f64], window: usize) -> (Vec<f64>, f64, f64) {
    let mut sums = vec![0.0];
    for value in row {
        sums.push(sums[sums.len() - 1] + value);
    }
    let mut flat: Vec<f64> = row
        .iter()
        .enumerate()
        .map(|(i, value)| {
            let (from, to) = (
                i.saturating_sub(window / 2),
                (i + window / 2 + 1).min(row.len()),
            );
            let mean = (sums[to] - sums[from]) / (to - from) as f64;
            value / mean.max(1e-4) - 1.0
        })
        .collect();
    let mut sorted = flat.clone();
    let low = quantile(&mut sorted, CUT_OFF[0]).unwrap_or(0.0);
    let high = quantile(&mut sorted, CUT_OFF[1]).unwrap_or(0.0);
    let mut mean = 0.0;
    for value in &mut flat {
        *value = value.clamp(low, high);
        mean += *value;
    }
    mean /= flat.len() as f64;
    let mut cubes = 0.0;
    for value in &mut flat {
        *value -= mean;
        cubes += value.powi(3);
    }
    (flat, high - low, if cubes < 0.0 { -1.0 } else { 1.0 })
}

/// Autocorrelation of rows of one length.
struct Correlator {
    planner: FftPlanner<f64>,
    length: usize,
}

impl Correlator {
    fn new(samples: usize) -> Self {
        Self {
            planner: FftPlanner::new(),
            length: (2 * samples).next_power_of_two(),
        }
    }

    /// Correlation of a row with itself at each distance, 1 at none. By the Wiener–Khinchin theorem.
    fn of(&mut self, row: &[f64]) -> Vec<f64> {
        let mut values = vec![Complex::new(0.0, 0.0); self.length];
        for (value, sample) in values.iter_mut().zip(row) {
            value.re = *sample;
        }
        self.planner
            .plan_fft_forward(self.length)
            .process(&mut values);
        for value in &mut values {
            *value = Complex::new(value.norm_sqr(), 0.0);
        }
        self.planner
            .plan_fft_inverse(self.length)
            .process(&mut values);
        let n = row.len();
        let whole = values[0].re.max(f64::MIN_POSITIVE) / n as f64;
        (0..n)
            .map(|lag| values[lag].re / (n - lag) as f64 / whole)
            .collect()
    }
}

/// Distance and height of the first of the high peaks.
fn first_peak(correlation: &[f64], longest: usize) -> Option<(f64, f64)> {
    let is_peak = |lag: &usize| {
        let [a, b, c] = [
            correlation[lag - 1],
            correlation[*lag],
            correlation[lag + 1],
        ];
        b >= LEAST_CORRELATION && b > a && b >= c
    };
    let peaks: Vec<usize> = (SHORTEST_PX..longest.min(correlation.len() - 1))
        .filter(is_peak)
        .collect();
    let highest = peaks.iter().map(|l| correlation[*l]).fold(0.0, f64::max);
    let lag = peaks
        .into_iter()
        .find(|lag| correlation[*lag] >= AS_HIGH * highest)?;
    let lowest = correlation[..lag].iter().copied().fold(1.0, f64::min);
    if correlation[lag] - lowest < LEAST_FALL {
        return None;
    }
    // The top of the parabola through the peak and its neighbours.
    let [a, b, c] = [correlation[lag - 1], correlation[lag], correlation[lag + 1]];
    let top = lag as f64 + 0.5 * (a - c) / (a - 2.0 * b + c);
    Some((top, b))
}
