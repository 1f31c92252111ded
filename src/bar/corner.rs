//! Sides of a frame, which are straight strokes too: at its corners a line goes on at right angles.

use super::Cut;
use super::chain::Candidate;
use super::tone::Tones;
use crate::geometry::Point;

/// Marks across the end of a bar reach this many widths to one side at most …
const MOST_REACH: f64 = 12.0;
/// … or this share of its length; a line that goes on beyond is another side of a frame.
const MOST_REACH_SHARE: f64 = 0.06;
/// Share of that line which stands out from what is beside it …
const MOSTLY: f64 = 0.9;
/// … by this share of what the stroke does.
const AS_CLEAR: f64 = 0.25;
/// Length over width from which on a stroke is a drawn line rather than a row of blocks.
const THIN: f64 = 40.0;
/// Parts of a stroke, the fullest of which shows its tone: blocks may be empty by turns.
const PARTS: u32 = 10;
/// How far beside the stroke the ground is looked at, px.
const GROUND_PX: f64 = 3.5;
/// Distance between samples, px.
const STEP_PX: f64 = 1.0;

/// Whether a stroke turns a corner at one of its ends.
pub(super) fn turns(tones: &Tones<'_>, cut: Cut, stroke: &Candidate) -> bool {
    let [cos, sin] = stroke.along();
    let (width, length) = (stroke.width, stroke.length());
    let start = stroke.ends[0].at;
    let place =
        |u: f64, v: f64| Point::new(start.x + u * cos - v * sin, start.y + u * sin + v * cos);
    let middle = |v: f64| tones.mean(place(0.3 * length, v), place(0.7 * length, v));
    let own = (0..PARTS)
        .map(|part| {
            let [from, to] = [part, part + 1].map(|n| f64::from(n) / f64::from(PARTS) * length);
            tones.mean(place(from, 0.0), place(to, 0.0))
        })
        .reduce(if cut.is_dark { f64::min } else { f64::max })
        .unwrap_or_default();
    let more = |tone: f64| if cut.is_dark { 255.0 - tone } else { tone };
    let aside = 0.5 * width + GROUND_PX;
    let ground = [-aside, aside].map(|v| more(middle(v)));
    let least = AS_CLEAR * (more(own) - ground[0].max(ground[1]));
    let reach = (MOST_REACH * width).max(MOST_REACH_SHARE * length);
    let half = f64::midpoint(more(own), ground[0].min(ground[1]));
    // The ground beside the line that goes on may be another than beside the stroke: nearly of its ink's
    // tone. Beside a thin line, the card may end within a few pixels and what lies there be as dark; no such
    // thing happens all along a thick one.
    let is_thin = length > THIN * width;
    let is_of_line = |u: f64, v: f64| {
        let [here, before, behind] =
            [0.0, -aside, aside].map(|off| more(tones.at(place(u + off, v))));
        let is_like = here >= half && (is_thin || before.min(behind) < half);
        is_like || here - before.max(behind) >= least
    };
    [-1.0, 1.0].into_iter().any(|side: f64| {
        [0.5 * width, length - 0.5 * width].into_iter().any(|u| {
            let (mut count, mut of_line, mut v) = (0.0, 0.0, width);
            while v <= reach {
                // The line may lie a pixel off where the stroke was seen to end.
                let is_line = [-1.0, 0.0, 1.0]
                    .into_iter()
                    .any(|off| is_of_line(u + off, side * v));
                count += 1.0;
                of_line += f64::from(u8::from(is_line));
                v += STEP_PX;
            }
            count > 0.0 && of_line >= MOSTLY * count
        })
    })
}
