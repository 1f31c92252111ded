//! The row where every tick is seen, along the ruler's true direction.
//!
//! Ticks stand at right angles to their ruler. Where the frame is turned against the ruler, their
//! middles move along as one goes across, all by the same; that tells how far it is turned, far
//! more exactly than the edge does.

use super::chain::{self, Mark, Marks};
use super::frame::Frame;
use super::period::Seen;
use super::profile::Profile;
use super::{RulerError, median, quantile, slope};
use crate::photo::Light;
use crate::progress::Progress;

/// How often the frame is turned to the ticks.
const TURNS: usize = 3;
/// Rows either side of the first one where ticks are sought, in repeat distances.
const BESIDE: f64 = 4.0;
/// All but this share of the ticks have to be seen on a row …
const MISSING: f64 = 0.15;
/// … with this share of their rise.
const SEEN: f64 = 0.6;
/// Share of the row's height at either side that is left to blur.
const RIM: f64 = 0.12;
/// Groups of rows between which ticks are compared.
const GROUPS: u32 = 8;
/// Height of a row below which ticks are too short to tell a direction, px.
const LEAST_HEIGHT_PX: f64 = 6.0;
/// Share of the numbers between the first and the last tick that have to be there.
const LEAST_THERE: f64 = 0.5;
/// Standard deviation of a tick's place at most, in repeat distances: rulers are divided far more
/// evenly than anything that grows, and what remains is a tenth of a pixel of noise.
const UNEVEN: f64 = 0.03;

/// A row of ticks.
pub(super) struct Row<'a> {
    light: &'a Light,
    pub(super) frame: Frame,
    /// From where to where across every tick is seen, px.
    pub(super) across: [f64; 2],
    /// From tick to tick, px.
    pub(super) period: f64,
    /// −1 where ticks are darker than their ground, 1 where they are lighter.
    pub(super) sign: f64,
}

/// Turns the first sight of a row to its ticks.
pub(super) fn aligned<'a>(
    light: &'a Light,
    seen: Seen,
    progress: &Progress<'_>,
) -> Result<Row<'a>, RulerError> {
    let mut row = Row {
        light,
        frame: seen.frame,
        across: [seen.across - 2.0, seen.across + 2.0],
        period: seen.period,
        sign: seen.sign,
    };
    for turn in 0..=TURNS {
        progress.check()?;
        let Marks { marks, .. } = row.marks();
        if marks.len() < super::FEWEST_TICKS {
            return Err(match marks.len() {
                0 => RulerError::NoPeriodicMarks,
                few => RulerError::TooFewTicks(few),
            });
        }
        let pairs: Vec<(f64, f64)> = marks.iter().map(|m| (f64::from(m.number), m.u)).collect();
        if let Some((period, _)) = slope(&pairs) {
            row.period = period;
        }
        row.across = row.where_all_are(&marks);
        if turn < TURNS && row.across[1] - row.across[0] >= LEAST_HEIGHT_PX {
            row.frame = row.frame.turned(row.lean(&marks));
        }
    }
    Ok(row)
}

impl Row<'_> {
    /// Its ticks.
    pub(super) fn marks(&self) -> Marks {
        chain::marks(&self.profile(self.across), self.period)
    }

    /// Where its middle lies across, px.
    pub(super) fn middle(&self) -> f64 {
        f64::midpoint(self.across[0], self.across[1])
    }

    /// Whether marks are ticks: most of the numbers from first to last are there, and evenly spaced.
    pub(super) fn is_ruler(&self, marks: &[Mark]) -> bool {
        let numbers = marks[marks.len() - 1].number - marks[0].number + 1;
        let squares = chain::off_the_parabola(marks)
            .map(|off| off.iter().map(|o| o * o).sum::<f64>() / (marks.len() as f64 - 3.0));
        marks.len() as f64 >= LEAST_THERE * f64::from(numbers)
            && squares.is_some_and(|squares| squares.sqrt() <= UNEVEN * self.period)
    }

    fn profile(&self, across: [f64; 2]) -> Profile {
        Profile::of(self.light, &self.frame, across, self.sign)
    }

    /// How far a tick's middle rises above the ground half-way to its neighbours, at one place across.
    /// The ground is the side that is less like a tick, since numbers stand on some sides.
    pub(super) fn rise(&self, u: f64, v: f64) -> f64 {
        let light = |du: f64| self.sign * self.frame.light(self.light, u + du, v);
        let aside = 0.42 * self.period;
        let ground = light(-aside).min(light(aside));
        light(0.0) - ground
    }

    /// From where to where across all ticks but a few are seen, about the row as it is now.
    fn where_all_are(&self, marks: &[Mark]) -> [f64; 2] {
        let middle = self.middle();
        // Below it are those that may be missing.
        let seen = |v: f64| {
            let mut rises: Vec<f64> = marks.iter().map(|mark| self.rise(mark.u, v)).collect();
            quantile(&mut rises, MISSING).unwrap_or(0.0)
        };
        let least = SEEN * seen(middle);
        let reach = (BESIDE * self.period).max(12.0);
        let end = |side: f64| {
            std::iter::successors(Some(0.0), |d| Some(d + 1.0))
                .take_while(|d| *d <= reach && seen(middle + side * d) >= least)
                .last()
                .unwrap_or(0.0)
        };
        let (from, to) = (middle - end(-1.0), middle + end(1.0));
        let rim = (RIM * (to - from)).max(1.0).min(0.5 * (to - from));
        [from + rim, to - rim]
    }

    /// By how much the frame has to be turned for the ticks to stand across it, rad.
    fn lean(&self, marks: &[Mark]) -> f64 {
        let [from, to] = self.across;
        let height = (to - from) / f64::from(GROUPS);
        let moved: Vec<(f64, f64)> = (0..GROUPS)
            .filter_map(|group| {
                let low = from + f64::from(group) * height;
                let profile = self.profile([low, low + height]);
                let moved = marks
                    .iter()
                    .filter_map(|m| Some(profile.tick_near(m.u, self.period)?.u - m.u))
                    .collect();
                Some((low + 0.5 * height, median(moved)?))
            })
            .collect();
        slope(&moved).map_or(0.0, |(slope, _)| -slope.atan())
    }
}
