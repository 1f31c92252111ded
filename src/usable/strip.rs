//! A strip with lettering or a scale bar that an instrument printed along an edge of the photo.
//!
//! No surface shows it: line after line, at least half of the pixels have one and the same tone, and
//! then, from one line to the next, they do not. A round field in a dark surround has such lines too,
//! but there the share falls bit by bit.

use crate::geometry::{Polygon, Rect};
use image::RgbImage;

/// How far a tone may stray in the photo's 255 steps: what JPEG does to a printed tone.
const SAME_TONE: u8 = 6;
/// Share of a line that has the strip's tone; the rest is lettering.
const GROUND: f64 = 0.5;
/// Share of the strip's lines that do; frame lines across the whole strip may lie between.
const LINES: f64 = 0.85;
/// Depth of a strip, as a share of the photo: shallower is no lettering, deeper is no strip.
const DEPTH: [f64; 2] = [0.015, 0.34];
/// Pixels of a line that are looked at.
const SAMPLES: u32 = 800;

/// Strips along the four edges.
pub(super) fn strips(rgb: &RgbImage) -> Vec<Rect> {
    let (width, height) = rgb.dimensions();
    let green = |x: u32, y: u32| rgb.get_pixel(x, y).0[1];
    let (w, h) = (f64::from(width), f64::from(height));
    let rect = |x: f64, y: f64, width: f64, height: f64| Rect {
        x,
        y,
        width,
        height,
    };
    [
        depth(height, width, |line, i| green(i, line)).map(|d| rect(0.0, 0.0, w, d)),
        depth(height, width, |line, i| green(i, height - 1 - line)).map(|d| rect(0.0, h - d, w, d)),
        depth(width, height, green).map(|d| rect(0.0, 0.0, d, h)),
        depth(width, height, |line, i| green(width - 1 - line, i)).map(|d| rect(w - d, 0.0, d, h)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// A strip with a margin towards the surface.
pub(super) fn widened(strip: &Rect, margin: f64, photo: Rect) -> Polygon {
    Rect {
        x: strip.x - margin,
        y: strip.y - margin,
        width: strip.width + 2.0 * margin,
        height: strip.height + 2.0 * margin,
    }
    .intersection(&photo)
    .to_polygon()
}

/// What remains of a rectangle beside a strip along one of its edges.
pub(super) fn beside(bounds: Rect, strip: &Rect) -> Rect {
    let (mut left, mut top) = (bounds.x, bounds.y);
    let (mut right, mut bottom) = (left + bounds.width, top + bounds.height);
    if strip.width >= strip.height {
        if strip.y <= top {
            top = top.max(strip.y + strip.height);
        } else {
            bottom = bottom.min(strip.y);
        }
    } else if strip.x <= left {
        left = left.max(strip.x + strip.width);
    } else {
        right = right.min(strip.x);
    }
    Rect {
        x: left,
        y: top,
        width: (right - left).max(0.0),
        height: (bottom - top).max(0.0),
    }
}

/// How deep a strip reaches from the edge where line 0 lies, px.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "lines of the photo"
)]
fn depth(lines: u32, length: u32, at: impl Fn(u32, u32) -> u8) -> Option<f64> {
    let stride = (length / SAMPLES).max(1);
    let samples = || (0..length).step_by(stride as usize);
    let [least, most] = DEPTH.map(|share| (share * f64::from(lines)).ceil() as u32);
    if most + 2 >= lines || length == 0 {
        return None;
    }
    // The commonest tone close to the edge.
    let mut counts = [0_u32; 256];
    for line in 1..=2 {
        for i in samples() {
            counts[usize::from(at(line, i))] += 1;
        }
    }
    let tone = counts
        .iter()
        .enumerate()
        .max_by_key(|(_, count)| **count)
        .map(|(tone, _)| tone as u8)?;
    let share = |line: u32| {
        let same = samples()
            .filter(|&i| at(line, i).abs_diff(tone) <= SAME_TONE)
            .count();
        same as f64 / samples().count() as f64
    };
    // The last line of the strip's ground before lines of something else take over.
    let (mut ground, mut last) = (0.0, 0);
    for line in 0..most {
        if share(line) >= GROUND {
            ground += 1.0;
            if ground >= LINES * f64::from(line + 1) {
                last = line + 1;
            }
        } else if line > least && ground < 0.5 * f64::from(line) {
            break;
        }
    }
    let mean = |from: u32| (from..from + least).map(share).sum::<f64>() / f64::from(least);
    let is_strip = (least..most).contains(&last)
        && last + 2 + least < lines
        && mean(last + 2) < 0.5 * mean(last - least);
    // One line more, for what JPEG smears.
    is_strip.then(|| f64::from(last + 1))
}
