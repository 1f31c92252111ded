//! The ends of a bar to a part of a pixel, on the full picture's light.
//!
//! Light is averaged across the stroke's width, so that noise averages down, and an edge lies where it
//! passes half-way from the bar's tone to the ground's: there a symmetrical blur leaves it.

use super::chain::Candidate;
use crate::geometry::Point;
use crate::photo::{Light, light_between as between};
use crate::scale::crossings;

/// Distance between samples along the bar, px.
const STEP_PX: f64 = 0.25;
/// Share of the stroke's width that is averaged over.
const INNER: f64 = 0.6;
/// Lines across the width that are averaged over.
const LINES: u32 = 9;
/// Share of the strongest contrast at an end that the bar's inside must have; below it the end is the
/// outline of an empty block.
const FILLED: f64 = 0.6;
/// How far the tone of a plain ground strays, as a share of the bar's contrast to it.
const PLAIN: f64 = 0.25;
/// Samples that are averaged where the ground is not plain, so that noise makes no edges.
const SMOOTH: usize = 3;
/// Steepness from which on a rise is an edge, as a share of the steepest …
const EDGE: f64 = 0.4;
/// … and below which it is over, as a share of its own steepest.
const FOOT: f64 = 0.2;
/// How far an edge may lie from where it was seen where the ground is not plain, px of the searched
/// picture.
const STRAY_PX: f64 = 2.0;

/// Where a bar's length begins and ends, px of the photo; `None` where no edge is seen.
pub(super) fn refined(light: &Light, candidate: &Candidate, times: [f64; 2]) -> Option<[Point; 2]> {
    let full = |p: Point| Point::new(p.x * times[0], p.y * times[1]);
    let pixel = times[0].max(times[1]);
    let [first, last] = candidate.ends.map(|end| full(end.at));
    let length = first.distance(last);
    let thickness = candidate.width * pixel;
    let [cos, sin] = [(last.x - first.x) / length, (last.y - first.y) / length];
    // The two ends of a row of blocks may lie on different lines; each is walked along its own.
    let mut found = [0.0, 0.0];
    for (i, at) in [first, last].into_iter().enumerate() {
        // Outwards from the bar.
        let outwards = if i == 0 { [-cos, -sin] } else { [cos, sin] };
        let walk = |at: Point, thickness: f64| {
            let near = (3.0 * pixel).max(0.5 * thickness);
            Walk {
                light,
                is_dark: candidate.is_dark,
                at,
                outwards,
                pixel,
                near: near.min(0.1 * length),
                far: (near + (5.0 * pixel).max(0.5 * thickness)).min(0.25 * length),
            }
        };
        found[i] = match candidate.ends[i].mark {
            Some(mark) => {
                // Left and right swap for whoever walks towards the first end.
                let [left, right] = mark.reach.map(|r| r * pixel);
                let reach = if i == 0 { [right, left] } else { [left, right] };
                let half = 0.5 * mark.thickness * pixel;
                let middle = Point::new(at.x - half * outwards[0], at.y - half * outwards[1]);
                // From its middle on a mark has half its thickness to each side, and then its blur.
                let over = walk(middle, 2.0 * (half + 2.0 * pixel));
                match over.middle_of_mark(reach, thickness) {
                    Some(out) => out - half,
                    None => walk(at, thickness).edge(thickness)? - half,
                }
            }
            None => walk(at, thickness).edge(thickness)?,
        };
    }
    Some([
        Point::new(first.x - found[0] * cos, first.y - found[0] * sin),
        Point::new(last.x + found[1] * cos, last.y + found[1] * sin),
    ])
}

/// A walk outwards over one end.
struct Walk<'a> {
    light: &'a Light,
    /// Whether the bar's ink is darker than the ground.
    is_dark: bool,
    /// Where the end was seen.
    at: Point,
    outwards: [f64; 2],
    /// Beyond this distance from the end tones are free of the edge's blur, px …
    near: f64,
    /// … and up to this distance they are those of bar and ground, px.
    far: f64,
    /// A pixel of the searched picture, px.
    pixel: f64,
}

impl Walk<'_> {
    /// Light along the walk from `-far` to `far`, averaged over lines at the given distances aside.
    fn profile(&self, aside: &[f64]) -> Vec<(f64, f64)> {
        let [cos, sin] = self.outwards;
        let steps = (2.0 * self.far / STEP_PX).ceil();
        let mut profile = Vec::new();
        let mut step = 0.0;
        while step <= steps {
            let u = -self.far + step * STEP_PX;
            let sum: f64 = aside
                .iter()
                .map(|v| {
                    let (x, y) = (self.at.x + u * cos - v * sin, self.at.y + u * sin + v * cos);
                    between(self.light, x, y)
                })
                .sum();
            profile.push((u, sum / aside.len() as f64));
            step += 1.0;
        }
        profile
    }

    /// How far out the stroke ends; where it was seen to when no tone beside it tells more.
    fn edge(&self, thickness: f64) -> Option<f64> {
        let reach = 0.5 * INNER * thickness;
        let profile = self.profile(&spread(-reach, reach));
        let inside = median(&profile, -self.far, -self.near)?;
        // The ground farther out is free of blur, but on a bare surface it may be another wall or
        // hollow than the one that the bar ends on.
        let beyond = median(&profile, self.near, self.far)?;
        let is_plain = self.is_plain(&profile, beyond, (inside - beyond).abs());
        let stray = STRAY_PX * self.pixel;
        let stray = if is_plain {
            self.near.max(stray)
        } else {
            stray
        };
        let most = if is_plain { self.near } else { stray };
        let (top, ink) = extreme(&profile, self.is_dark, -self.near, most)?;
        let unlike = if is_plain {
            beyond
        } else {
            extreme(&profile, !self.is_dark, -self.near, stray)?.1
        };
        // What has ink only at its very end is an empty block in an outline.
        let (tone, from) = if (inside - unlike) / (ink - unlike) >= FILLED {
            (inside, -stray)
        } else {
            (ink, top)
        };
        let (outside, stray) = if is_plain {
            (beyond, self.near.max(stray))
        } else {
            (next_tone(&profile, tone, from, 2.0 * stray)?, stray)
        };
        let edge = crossings(&profile, f64::midpoint(tone, outside))
            .filter(|(u, rises)| *rises == (outside > tone) && u.abs() <= stray)
            .map(|(u, _)| u)
            .min_by(|a, b| a.abs().total_cmp(&b.abs()));
        Some(edge.unwrap_or(0.0))
    }

    /// Whether the ground beyond the end has one tone, as a card has.
    fn is_plain(&self, profile: &[(f64, f64)], ground: f64, contrast: f64) -> bool {
        profile
            .iter()
            .filter(|(u, _)| *u >= self.near)
            .all(|(_, tone)| (tone - ground).abs() <= PLAIN * contrast)
    }

    /// How far out the middle of the mark across the end lies.
    fn middle_of_mark(&self, reach: [f64; 2], thickness: f64) -> Option<f64> {
        let half_width = 0.5 * thickness;
        let mut aside = Vec::new();
        for (reach, side) in reach.into_iter().zip([-1.0, 1.0]) {
            let beyond = reach - half_width;
            if beyond >= 1.0 {
                let wing = spread(half_width + 0.35 * beyond, half_width + 0.75 * beyond);
                aside.extend(wing.into_iter().map(|v| side * v));
            }
        }
        if aside.is_empty() {
            return None;
        }
        let profile = self.profile(&aside);
        let ground = f64::midpoint(
            median(&profile, self.near, self.far)?,
            median(&profile, -self.far, -self.near)?,
        );
        let (top, peak) = extreme(&profile, self.is_dark, -self.near, self.near)?;
        let half = f64::midpoint(peak, ground);
        let before = crossings(&profile, half).map(|c| c.0).rfind(|u| *u < top)?;
        let after = crossings(&profile, half).map(|c| c.0).find(|u| *u > top)?;
        Some(f64::midpoint(before, after))
    }
}

/// Lines evenly spread over a stretch.
fn spread(from: f64, to: f64) -> Vec<f64> {
    (0..LINES)
        .map(|k| from + (to - from) * f64::from(k) / f64::from(LINES - 1))
        .collect()
}

fn median(profile: &[(f64, f64)], from: f64, to: f64) -> Option<f64> {
    let mut tones: Vec<f64> = profile
        .iter()
        .filter(|(u, _)| (from..=to).contains(u))
        .map(|(_, tone)| *tone)
        .collect();
    tones.sort_by(f64::total_cmp);
    tones.get(tones.len() / 2).copied()
}

/// The tone right beyond the first edge that is met on the way out: where the tone no longer moves away
/// from the bar's own. What comes after, a frame or a hollow or the next wall, is not what the bar ends on.
fn next_tone(profile: &[(f64, f64)], own: f64, from: f64, to: f64) -> Option<f64> {
    let off: Vec<f64> = profile
        .windows(SMOOTH)
        .filter(|some| some[0].0 >= from && some[SMOOTH - 1].0 <= to)
        .map(|some| some.iter().map(|(_, tone)| tone - own).sum::<f64>() / SMOOTH as f64)
        .collect();
    let rises: Vec<f64> = off
        .windows(2)
        .map(|pair| pair[1].abs() - pair[0].abs())
        .collect();
    let steepest = rises.iter().copied().fold(0.0, f64::max);
    let first = rises.iter().position(|rise| *rise >= EDGE * steepest)?;
    // Up to the top of that edge's slope, and down to its foot.
    let mut at = first;
    while at + 1 < rises.len() && rises[at + 1] >= rises[at] {
        at += 1;
    }
    let foot = FOOT * rises[at];
    while at + 1 < rises.len() && rises[at + 1] > foot {
        at += 1;
    }
    Some(own + off[at + 1])
}

/// The place in a stretch that is darkest or lightest, and its tone.
fn extreme(profile: &[(f64, f64)], is_dark: bool, from: f64, to: f64) -> Option<(f64, f64)> {
    let more = |tone: f64| if is_dark { -tone } else { tone };
    profile
        .iter()
        .filter(|(u, _)| (from..=to).contains(u))
        .copied()
        .max_by(|a, b| more(a.1).total_cmp(&more(b.1)))
}
