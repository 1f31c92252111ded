//! Empty blocks at the ends of a row: what shows of them is their outline, which may be too fine for a
//! cut that shows the filled ones.
//!
//! If fine lines run along both sides of the gap between two filled blocks, the row stands in an outline;
//! where the same lines go on beyond its last filled block, one more block, an empty one, follows. A
//! single filled block may have an empty one beside it likewise.

use super::Cut;
use super::chain::{Blocks, Candidate};
use super::tone::Tones;
use crate::geometry::Point;

/// Contrast of a filled block to the ground, of 255; below it a row is the empty blocks of another.
const LEAST_FILLED: f64 = 12.0;
/// Contrast of a line along a gap to what is on both its sides, as a share of that of a filled block to
/// the ground; below it there is no outline.
const LEAST_CONTRAST: f64 = 0.15;
/// Contrast of the lines that go on, as a share of that along the gap.
const AS_CLEAR: f64 = 0.5;
/// Middle part of a stretch that is looked at, beyond the blur of its ends.
const MIDDLE: [f64; 2] = [0.25, 0.75];
/// How far beside the row the ground is looked at, px.
const GROUND_PX: f64 = 3.5;
/// How far from the edge of the blocks a line lies at most: px, and a share of the width.
const NEAR_EDGE: (f64, f64) = (1.5, 0.2);
/// How far from where it is expected the line across the end of an empty block lies at most, in widths.
const NEAR_END: f64 = 0.5;
/// Distance between samples, px.
const STEP_PX: f64 = 0.5;

/// The row with the empty blocks at its ends.
pub(super) fn completed(tones: &Tones<'_>, cut: Cut, mut row: Candidate) -> Candidate {
    let Some(Blocks { filled, gap }) = row.blocks else {
        return row;
    };
    let along = row.along();
    let (length, width) = (row.length(), row.width);
    let lines = Lines {
        tones,
        is_dark: cut.is_dark,
        origin: row.ends[0].at,
        along,
        width,
    };
    let contrast = lines.filled(0.0, filled);
    if contrast < LEAST_FILLED {
        return row;
    }
    let least = LEAST_CONTRAST * contrast;
    let least = if length > filled {
        let within = lines.contrast(filled, filled + gap);
        if within < least {
            return row;
        }
        AS_CLEAR * within
    } else {
        least
    };
    for (end, from, to) in [(0, -gap, 0.0), (1, length, length + gap)] {
        let outer = if end == 0 { from } else { to };
        if lines.contrast(from, to) < least {
            continue;
        }
        let Some(closed) = lines.closed(outer, least) else {
            continue;
        };
        let at = lines.place(closed, 0.0);
        if tones.hold(at) {
            row.ends[end].at = at;
        }
    }
    row
}

/// What lies along a row of blocks.
struct Lines<'a> {
    tones: &'a Tones<'a>,
    is_dark: bool,
    origin: Point,
    along: [f64; 2],
    width: f64,
}

impl Lines<'_> {
    /// How much ink there is at a distance from the middle line, on average along a stretch; 0–255, more
    /// is more.
    fn ink(&self, from: f64, to: f64, across: f64) -> f64 {
        let [from, to] = MIDDLE.map(|share| self.place(from + share * (to - from), across));
        self.ink_between(from, to)
    }

    fn ink_between(&self, from: Point, to: Point) -> f64 {
        let tone = self.tones.mean(from, to);
        if self.is_dark { 255.0 - tone } else { tone }
    }

    fn place(&self, along: f64, across: f64) -> Point {
        let [cos, sin] = self.along;
        Point::new(
            self.origin.x + along * cos - across * sin,
            self.origin.y + along * sin + across * cos,
        )
    }

    /// Contrast of the fainter of the lines on both sides of a stretch to what is beside it.
    fn contrast(&self, from: f64, to: f64) -> f64 {
        let middle = self.ink(from, to, 0.0);
        let half = 0.5 * self.width;
        let reach = NEAR_EDGE.0.max(NEAR_EDGE.1 * self.width);
        [-1.0, 1.0]
            .map(|side| {
                let outside = self.ink(from, to, side * (half + GROUND_PX));
                let mut line = f64::NEG_INFINITY;
                let mut off = -reach;
                while off <= reach {
                    line = line.max(self.ink(from, to, side * (half + off)));
                    off += STEP_PX;
                }
                line - outside.max(middle)
            })
            .into_iter()
            .fold(f64::INFINITY, f64::min)
    }

    /// Where a line across closes an empty block; `None` if none has the least contrast to what is right
    /// before and behind it.
    fn closed(&self, end: f64, least: f64) -> Option<f64> {
        let across = |u: f64| {
            let reach = 0.25 * self.width;
            self.ink_between(self.place(u, -reach), self.place(u, reach))
        };
        let reach = NEAR_END * self.width;
        let (mut at, mut clearest) = (end, least);
        let mut off = -reach;
        let mut is_closed = false;
        while off <= reach {
            let u = end + off;
            let beside = across(u - GROUND_PX).max(across(u + GROUND_PX));
            let contrast = across(u) - beside;
            if contrast >= clearest {
                (at, clearest, is_closed) = (u, contrast, true);
            }
            off += STEP_PX;
        }
        is_closed.then_some(at)
    }

    /// Contrast of a filled block to the ground.
    fn filled(&self, from: f64, to: f64) -> f64 {
        let aside = 0.5 * self.width + GROUND_PX;
        let ground = f64::midpoint(self.ink(from, to, -aside), self.ink(from, to, aside));
        self.ink(from, to, 0.0) - ground
    }
}
