//! Light along a ruler, averaged over rows.

use super::frame::Frame;
use crate::photo::Light;

/// Distance between samples along the ruler, px.
const STEP_PX: f64 = 0.25;
/// Levels between ground and tick at which a tick's two sides are read off.
const LEVELS: [f64; 3] = [0.35, 0.5, 0.65];

/// Light along a row, with ticks upwards whichever tone they have.
pub(super) struct Profile {
    start: f64,
    values: Vec<f64>,
}

/// A tick as seen on a profile.
#[derive(Debug, Clone, Copy)]
pub(super) struct Peak {
    /// Its middle along the ruler, px.
    pub(super) u: f64,
    /// How far it rises above the ground on either side.
    pub(super) rise: f64,
}

impl Profile {
    /// The mean over rows a pixel apart, from `across[0]` to `across[1]`; `sign` is −1 where ticks are
    /// dark.
    pub(super) fn of(light: &Light, frame: &Frame, across: [f64; 2], sign: f64) -> Self {
        let [from, to] = across;
        let rows = (to - from).max(0.0).floor() + 1.0;
        let first = f64::midpoint(from, to) - 0.5 * (rows - 1.0);
        let samples = (2.0 * frame.half / STEP_PX).floor() + 1.0;
        let counted = |n: f64| {
            std::iter::successors(Some(0.0), |i| Some(i + 1.0)).take_while(move |i| *i < n)
        };
        let values = counted(samples)
            .map(|i| {
                let u = -frame.half + i * STEP_PX;
                let sum: f64 = counted(rows)
                    .map(|row| frame.light(light, u, first + row))
                    .sum();
                sign * sum / rows
            })
            .collect();
        Self {
            start: -frame.half,
            values,
        }
    }

    fn u(&self, index: usize) -> f64 {
        self.start + index as f64 * STEP_PX
    }

    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held within the profile"
    )]
    fn index(&self, u: f64) -> usize {
        let last = self.values.len() - 1;
        (((u - self.start) / STEP_PX).round().max(0.0) as usize).min(last)
    }

    fn between(&self, from: f64, to: f64) -> &[f64] {
        &self.values[self.index(from)..=self.index(to)]
    }

    fn covers(&self, from: f64, to: f64) -> bool {
        from >= self.start && to <= self.u(self.values.len() - 1)
    }

    /// The tick within a quarter of the repeat distance of a place.
    pub(super) fn tick_near(&self, u: f64, period: f64) -> Option<Peak> {
        let reach = 0.25 * period;
        if !self.covers(u - reach, u + reach) {
            return None;
        }
        let (from, to) = (self.index(u - reach), self.index(u + reach));
        let top = (from..=to).max_by(|a, b| self.values[*a].total_cmp(&self.values[*b]))?;
        self.tick_at(top, period)
    }

    /// All ticks: what is the highest within two fifths of the repeat distance.
    pub(super) fn ticks(&self, period: f64) -> Vec<Peak> {
        let near = self.index(self.start + 0.4 * period).max(1);
        let last = self.values.len() - 1;
        (0..=last)
            .filter(|&i| {
                let around = &self.values[i.saturating_sub(near)..=(i + near).min(last)];
                let highest = around.iter().copied().fold(f64::NEG_INFINITY, f64::max);
                self.values[i] >= highest
            })
            .filter_map(|i| self.tick_at(i, period))
            .collect()
    }

    /// The middle between a tick's two sides, read off at several levels above the ground, which may
    /// slope.
    fn tick_at(&self, top: usize, period: f64) -> Option<Peak> {
        let at = self.u(top);
        let (left, right) = (at - 0.5 * period, at + 0.5 * period);
        if !self.covers(left, right) {
            return None;
        }
        let mean = |values: &[f64]| values.iter().sum::<f64>() / values.len() as f64;
        let ground = [
            mean(self.between(left, at - 0.38 * period)),
            mean(self.between(at + 0.38 * period, right)),
        ];
        // Straight from the ground on the left to that on the right, 0.44 periods off.
        let slope = (ground[1] - ground[0]) / (0.88 * period);
        let above = |i: usize| {
            self.values[i] - f64::midpoint(ground[0], ground[1]) - slope * (self.u(i) - at)
        };
        let rise = above(top);
        if rise <= 0.0 {
            return None;
        }
        let (first, last) = (self.index(left), self.index(right));
        let crossing = |inner: usize, outer: usize, level: f64| {
            let (a, b) = (above(inner), above(outer));
            (a >= level && b < level)
                .then(|| self.u(inner) + (self.u(outer) - self.u(inner)) * (a - level) / (a - b))
        };
        let mut sum = 0.0;
        for share in LEVELS {
            let level = share * rise;
            let before = (first..top).rev().find_map(|i| crossing(i + 1, i, level))?;
            let after = (top..last).find_map(|i| crossing(i, i + 1, level))?;
            sum += f64::midpoint(before, after);
        }
        Some(Peak {
            u: sum / LEVELS.len() as f64,
            rise,
        })
    }
}
