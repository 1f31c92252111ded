//! How far each tick reaches from the ruler's edge.

use super::chain::Mark;
use super::frame::Frame;
use super::row::Row;
use super::{median, quantile};
use crate::geometry::Polygon;
use crate::photo::Light;

/// Longest tick, in repeat distances: the inch ticks of a ruler in sixty-fourths.
const LONGEST: f64 = 32.0;
/// Longest tick, px.
const LONGEST_PX: f64 = 900.0;
/// A tick reaches as far as it has this share of its rise.
const SEEN: f64 = 0.5;
/// Gaps within a tick up to this length are noise or dirt, in repeat distances and px.
const GAP: f64 = 0.15;
const GAP_PX: f64 = 2.0;

/// Reaches of all ticks.
pub(super) struct Lengths {
    /// From the edge, px, tick by tick.
    pub(super) reach: Vec<f64>,
    /// Where the edge that ticks stand on lies across, px, and where the longest tick ends.
    span: [f64; 2],
}

/// Measures all ticks of a row.
pub(super) fn measured(light: &Light, row: &Row<'_>, marks: &[Mark]) -> Lengths {
    let rises: Vec<f64> = marks
        .iter()
        .map(|mark| smoothed(row, mark.u, row.middle()))
        .collect();
    let usual = median(rises).unwrap_or(0.0);
    let longest = (LONGEST * row.period)
        .min(LONGEST_PX)
        .min(f64::from(light.width().max(light.height())));
    let ends = |side: f64| -> Vec<f64> {
        marks
            .iter()
            .map(|mark| row.middle() + side * end(row, mark.u, side, usual, longest))
            .collect()
    };
    let (low, high) = (ends(-1.0), ends(1.0));
    // Ticks begin at one line and end where their length says.
    let (base, tips) = if spread(&low) <= spread(&high) {
        (low, high)
    } else {
        (high, low)
    };
    let edge = median(base).unwrap_or(0.0);
    let reach: Vec<f64> = tips.iter().map(|tip| (tip - edge).abs()).collect();
    let tip = tips
        .iter()
        .copied()
        .max_by(|a, b| (a - edge).abs().total_cmp(&(b - edge).abs()))
        .unwrap_or(edge);
    Lengths {
        reach,
        span: [edge, tip],
    }
}

impl Lengths {
    /// The strip from the edge to the end of the longest tick, along the dragged line or the ticks,
    /// whichever reaches farther.
    pub(super) fn strip(&self, frame: &Frame, marks: &[Mark]) -> Polygon {
        let [edge, tip] = self.span;
        let left = marks.first().map_or(-frame.half, |m| m.u.min(-frame.half));
        let right = marks.last().map_or(frame.half, |m| m.u.max(frame.half));
        let rim = 2.0_f64.copysign(edge - tip);
        Polygon::new(
            [
                (left, edge + rim),
                (right, edge + rim),
                (right, tip - rim),
                (left, tip - rim),
            ]
            .map(|(u, v)| frame.place(u, v))
            .to_vec(),
        )
    }
}

/// How far the middle two thirds of the ends lie apart.
fn spread(ends: &[f64]) -> f64 {
    let mut ends = ends.to_vec();
    let high = quantile(&mut ends, 5.0 / 6.0).unwrap_or(0.0);
    high - quantile(&mut ends, 1.0 / 6.0).unwrap_or(0.0)
}

/// The rise over three rows, so that noise averages down.
fn smoothed(row: &Row<'_>, u: f64, v: f64) -> f64 {
    [-1.0, 0.0, 1.0]
        .iter()
        .map(|dv| row.rise(u, v + dv))
        .sum::<f64>()
        / 3.0
}

/// How far a tick goes on from the row's middle to one side, px.
fn end(row: &Row<'_>, u: f64, side: f64, usual: f64, longest: f64) -> f64 {
    let own = smoothed(row, u, row.middle());
    let level = SEEN * own.min(usual);
    let gap = (GAP * row.period).max(GAP_PX);
    let mut last = (0.0, own);
    let mut beyond = None;
    let mut distance = 1.0;
    while distance <= longest && distance - last.0 <= gap + 1.0 {
        let rise = smoothed(row, u, row.middle() + side * distance);
        if rise >= level {
            last = (distance, rise);
            beyond = None;
        } else if beyond.is_none() {
            beyond = Some(rise);
        }
        distance += 1.0;
    }
    // Where the rise passes the level, between the last row with it and the first without.
    match beyond {
        Some(rise) => last.0 + (last.1 - level) / (last.1 - rise),
        None => last.0,
    }
}
