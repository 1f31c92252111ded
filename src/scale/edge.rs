//! Edges of a ruler's ticks or of a scale bar, to a part of a pixel, where a person points at them.
//!
//! An edge lies where light passes half-way from the tone before it to the tone behind it: there a
//! symmetrical blur leaves it. Light is read between pixel centres by their nearness, which moves the
//! crossing of an edge that no lens has blurred by up to 3/2 − √2 = 0.09 px, and hardly at all that of
//! one which is blurred by a pixel or more.

use super::BAR_END_PX;
use crate::geometry::Point;
use crate::photo::{Light, light_between};
use std::f64::consts::PI;

/// Distance between samples along a walk, px.
const STEP_PX: f64 = 0.25;
/// Samples on each side over which a slope is taken, so that it is one over a pixel.
const HALF_PIXEL: usize = 2;
/// Walks side by side that are averaged, and how far the outermost lies off, px.
const WALKS: u32 = 5;
const ASIDE_PX: f64 = 1.0;
/// How far aside the walks lie from which noise is taken, px.
const NOISE_WALKS_PX: [f64; 3] = [-3.0, 0.0, 3.0];
/// How far a walk goes on beyond the reach, px, so that the tone behind an edge is seen too.
const BEYOND_PX: f64 = 6.0;
/// Slope at which an edge is over, as a share of its own steepest.
const FOOT: f64 = 0.1;
/// How many times its own noise, that of a difference of two tones, a step has to be to be seen at all:
/// Rose, *Journal of the Optical Society of America* 38 (1948), 196–208.
const ABOVE_NOISE: f64 = 5.0;
/// The least step, as a share of the brighter tone, that the eye takes for an edge (`common practice, no
/// source`).
const LEAST_CONTRAST: f64 = 0.02;
/// Edges of at least this share of the highest step may be the one that was meant.
const RIVAL: f64 = 0.5;
/// Directions in which an edge is looked for where none is given, over half a turn.
const DIRECTIONS: u32 = 12;
/// Edges that lie on one straight line to within so much are one, px.
const ONE_LINE_PX: f64 = 1.0;

/// An edge on the photo.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// A place on it, photo px.
    pub at: Point,
    /// Standard uncertainty of the place across the edge, px: what an end of a scale bar has
    /// ([`BAR_END_PX`]), and what the photo's noise adds.
    pub uncertainty_px: f64,
    /// Whether no other edge within the reach could have been meant.
    pub is_only_one: bool,
}

impl Edge {
    /// The edge nearest to a place on the line from `from` through that place; `None` where none is
    /// seen within `reach_px`.
    #[must_use]
    pub fn along(light: &Light, from: Point, at: Point, reach_px: f64) -> Option<Self> {
        let length = from.distance(at);
        if length <= 0.0 {
            return Self::near(light, at, reach_px);
        }
        let way = [(at.x - from.x) / length, (at.y - from.y) / length];
        let rises = rises(light, at, way, reach_px);
        let (nearest, rivals) = nearest(&rises)?;
        Some(nearest.edge(at, way, rivals == 1))
    }

    /// The edge nearest to a place in any direction; `None` where none is seen within `reach_px`.
    #[must_use]
    pub fn near(light: &Light, at: Point, reach_px: f64) -> Option<Self> {
        let ways = (0..DIRECTIONS).map(|k| {
            let (sin, cos) = (PI * f64::from(k) / f64::from(DIRECTIONS)).sin_cos();
            [cos, sin]
        });
        let mut seen: Vec<([f64; 2], Rise)> = ways
            .flat_map(|way| {
                rises(light, at, way, reach_px)
                    .into_iter()
                    .map(move |rise| (way, rise))
            })
            .collect();
        let highest = seen.iter().map(|(_, rise)| rise.step).fold(0.0, f64::max);
        seen.retain(|(_, rise)| rise.step >= RIVAL * highest);
        let &(way, nearest) = seen
            .iter()
            .min_by(|a, b| a.1.out.abs().total_cmp(&b.1.out.abs()))?;
        let places: Vec<Point> = seen
            .iter()
            .map(|&(way, rise)| rise.place(at, way))
            .collect();
        let is_only_one = stray(&places) <= ONE_LINE_PX;
        Some(nearest.edge(at, way, is_only_one))
    }
}

/// Light rising or falling along a walk.
#[derive(Debug, Clone, Copy)]
struct Rise {
    /// How far along it passes half-way, px; below zero is backwards.
    out: f64,
    /// How much, > 0.
    step: f64,
    /// Standard uncertainty that noise gives the place, px.
    noise_px: f64,
}

impl Rise {
    fn place(self, at: Point, way: [f64; 2]) -> Point {
        Point::new(at.x + self.out * way[0], at.y + self.out * way[1])
    }

    fn edge(self, at: Point, way: [f64; 2], is_only_one: bool) -> Edge {
        Edge {
            at: self.place(at, way),
            uncertainty_px: BAR_END_PX.hypot(self.noise_px),
            is_only_one,
        }
    }
}

/// The nearest of the rises that could be meant, and how many these are.
fn nearest(rises: &[Rise]) -> Option<(Rise, usize)> {
    let highest = rises.iter().map(|rise| rise.step).fold(0.0, f64::max);
    let rivals = || rises.iter().filter(|rise| rise.step >= RIVAL * highest);
    let nearest = rivals().min_by(|a, b| a.out.abs().total_cmp(&b.out.abs()))?;
    Some((*nearest, rivals().count()))
}

/// All rises within the reach that stand out of the noise.
fn rises(light: &Light, at: Point, way: [f64; 2], reach_px: f64) -> Vec<Rise> {
    let walk = walk(light, at, way, reach_px + BEYOND_PX);
    let slope: Vec<f64> = (0..walk.len())
        .map(|i| {
            let (low, high) = (
                i.saturating_sub(HALF_PIXEL),
                (i + HALF_PIXEL).min(walk.len() - 1),
            );
            (walk[high].1 - walk[low].1) / (walk[high].0 - walk[low].0)
        })
        .collect();
    let noise = noise(light, at, way, reach_px + BEYOND_PX);
    let mut by_steepness: Vec<usize> = (0..slope.len()).collect();
    by_steepness.sort_by(|&a, &b| slope[b].abs().total_cmp(&slope[a].abs()));
    let mut is_taken = vec![false; slope.len()];
    let mut rises = Vec::new();
    for top in by_steepness {
        if is_taken[top] || slope[top] == 0.0 {
            continue;
        }
        let goes_on = |i: usize| {
            !is_taken[i] && slope[i] * slope[top] > 0.0 && slope[i].abs() > FOOT * slope[top].abs()
        };
        let first = (0..top)
            .rev()
            .take_while(|&i| goes_on(i))
            .last()
            .unwrap_or(top);
        let last = (top + 1..slope.len())
            .take_while(|&i| goes_on(i))
            .last()
            .unwrap_or(top);
        // What trails off beyond its foot is no edge of its own.
        let trails = |i: usize| {
            !is_taken[i]
                && slope[i] * slope[top] >= 0.0
                && slope[i].abs() <= FOOT * slope[top].abs()
        };
        let trail = (0..first)
            .rev()
            .take_while(|&i| trails(i))
            .last()
            .unwrap_or(first)
            ..=(last + 1..slope.len())
                .take_while(|&i| trails(i))
                .last()
                .unwrap_or(last);
        is_taken[trail].fill(true);
        let foot = first.saturating_sub(1);
        let head = (last + 1).min(walk.len() - 1);
        let (before, behind) = (walk[foot].1, walk[head].1);
        let step = (behind - before).abs();
        let is_seen = step >= ABOVE_NOISE * noise
            && step >= LEAST_CONTRAST * before.max(behind)
            && step > 0.0;
        if let Some(out) = crossing(&walk[foot..=head], f64::midpoint(before, behind))
            && is_seen
            && out.abs() <= reach_px
        {
            let noise_px = noise / slope[top].abs();
            rises.push(Rise {
                out,
                step,
                noise_px,
            });
        }
    }
    rises
}

/// Light along a straight walk from `-far` to `far` about a place, averaged over walks side by side.
fn walk(light: &Light, at: Point, [cos, sin]: [f64; 2], far: f64) -> Vec<(f64, f64)> {
    let mut walk = Vec::new();
    let mut out = -far;
    while out <= far {
        let sum: f64 = (0..WALKS)
            .map(|k| {
                let aside = ASIDE_PX * (2.0 * f64::from(k) / f64::from(WALKS - 1) - 1.0);
                light_between(
                    light,
                    at.x + out * cos - aside * sin,
                    at.y + out * sin + aside * cos,
                )
            })
            .sum();
        walk.push((out, sum / f64::from(WALKS)));
        out += STEP_PX;
    }
    walk
}

/// Standard deviation of a walk's noise, from the median of the steps over two pixels of this and some walks
/// beside it, which a few edges do not move and which share no pixel (1.4826 makes it the standard
/// deviation of normal noise, √2 that of one place).
fn noise(light: &Light, at: Point, way: [f64; 2], far: f64) -> f64 {
    const TWO_PIXELS: usize = 4 * HALF_PIXEL;
    let mut steps: Vec<f64> = NOISE_WALKS_PX
        .iter()
        .flat_map(|aside| {
            let beside = Point::new(at.x - aside * way[1], at.y + aside * way[0]);
            let walk = walk(light, beside, way, far);
            let pairs = walk.iter().zip(walk.iter().skip(TWO_PIXELS));
            pairs.map(|(a, b)| (b.1 - a.1).abs()).collect::<Vec<f64>>()
        })
        .collect();
    steps.sort_by(f64::total_cmp);
    let median = steps.get(steps.len() / 2).copied().unwrap_or(0.0);
    1.4826 * median / std::f64::consts::SQRT_2
}

/// Where a rise passes a tone.
fn crossing(rise: &[(f64, f64)], tone: f64) -> Option<f64> {
    crossings(rise, tone).next().map(|(out, _)| out)
}

/// Where a walk passes a tone, and whether it rises there.
pub(crate) fn crossings(
    walk: &[(f64, f64)],
    tone: f64,
) -> impl DoubleEndedIterator<Item = (f64, bool)> + '_ {
    walk.windows(2).filter_map(move |pair| {
        let [(u, a), (w, b)] = [pair[0], pair[1]];
        ((a < tone) != (b < tone)).then(|| (u + (w - u) * (tone - a) / (b - a), b > a))
    })
}

/// How far some places lie off the straight line that fits them best, the farthest of them, px.
fn stray(places: &[Point]) -> f64 {
    let count = places.len() as f64;
    let mean = |of: fn(&Point) -> f64| places.iter().map(of).sum::<f64>() / count;
    let (x, y) = (mean(|p| p.x), mean(|p| p.y));
    let moment = |of: fn(f64, f64) -> f64| places.iter().map(|p| of(p.x - x, p.y - y)).sum::<f64>();
    let (xx, yy, xy) = (
        moment(|x, _| x * x),
        moment(|_, y| y * y),
        moment(|x, y| x * y),
    );
    // The line runs along the longer axis of the places' second moments.
    let (sin, cos) = (0.5 * (2.0 * xy).atan2(xx - yy)).sin_cos();
    let off = |p: &Point| (cos * (p.y - y) - sin * (p.x - x)).abs();
    places.iter().map(off).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::photo::{encoded_sample, linear_sample};
    use image::{ImageBuffer, Luma};

    /// Worst place of an edge as sharp as pixels allow, px: 3/2 − √2 from reading between pixels, and
    /// what rounding to 256 tones and averaging over oblique walks do. Written before the run.
    const WORST_SHARP_PX: f64 = 0.10;
    /// The same of an edge that a lens has blurred. Written before the run.
    const WORST_BLURRED_PX: f64 = 0.05;

    const SIDE: u32 = 64;

    /// A picture as a camera takes it: light gathered over each pixel, then rounded to 256 encoded
    /// tones. `tone` tells the light at a place.
    fn photo(tone: impl Fn(f64, f64) -> f64) -> Light {
        const FINE: u32 = 16;
        ImageBuffer::from_fn(SIDE, SIDE, |x, y| {
            let part =
                |whole: u32, k: u32| f64::from(whole) + (f64::from(k) + 0.5) / f64::from(FINE);
            let sum: f64 = (0..FINE * FINE)
                .map(|k| tone(part(x, k % FINE), part(y, k / FINE)))
                .sum();
            #[expect(clippy::cast_possible_truncation, reason = "light is kept in f32")]
            let light = (sum / f64::from(FINE * FINE)) as f32;
            Luma([linear_sample(encoded_sample(light))])
        })
    }

    /// Dark up to `off` px from (32, 32) along `way`, bright behind; blurred by a symmetrical,
    /// bell-shaped blur of this width.
    fn edge(off: f64, way: [f64; 2], blur_px: f64) -> Light {
        photo(|x, y| {
            let out = (x - 32.0) * way[0] + (y - 32.0) * way[1] - off;
            let share = if blur_px > 0.0 {
                1.0 / (1.0 + (-out / blur_px).exp())
            } else {
                f64::from(u8::from(out > 0.0))
            };
            0.06 + 0.6 * share
        })
    }

    fn way(degrees: f64) -> [f64; 2] {
        let (sin, cos) = degrees.to_radians().sin_cos();
        [cos, sin]
    }

    #[test]
    fn an_edge_is_found_where_it_was_drawn_whatever_its_place_between_pixels() {
        for degrees in [0.0, 17.0, 45.0, 90.0] {
            let way = way(degrees);
            for off in [0.0, 0.125, 0.25, 0.29, 0.5, 0.71, 0.875] {
                for (blur_px, worst) in [
                    (0.0, WORST_SHARP_PX),
                    (0.6, WORST_BLURRED_PX),
                    (1.2, WORST_BLURRED_PX),
                ] {
                    let light = edge(off, way, blur_px);
                    let pointed = Point::new(32.0 + 2.0 * way[0], 32.0 + 2.0 * way[1]);
                    let from = Point::new(32.0 - 20.0 * way[0], 32.0 - 20.0 * way[1]);
                    for found in [
                        Edge::along(&light, from, pointed, 5.0),
                        Edge::near(&light, pointed, 5.0),
                    ] {
                        let found = found.expect("an edge");
                        let out = (found.at.x - 32.0) * way[0] + (found.at.y - 32.0) * way[1];
                        assert!(
                            (out - off).abs() <= worst,
                            "{degrees}°, {off} px, blur {blur_px}: {out}"
                        );
                        assert!(found.is_only_one);
                    }
                }
            }
        }
    }

    /// Even noise, the same every time (a linear congruential generator; constants of Knuth's MMIX).
    fn noisy(light: &Light, seed: u64, spread: f64) -> Light {
        let mut state = seed;
        let mut light = light.clone();
        for tone in light.iter_mut() {
            // Twelve even draws add up to nearly normal noise of standard deviation 1.
            let sum: f64 = (0..12)
                .map(|_| {
                    state = state
                        .wrapping_mul(6_364_136_223_846_793_005)
                        .wrapping_add(1_442_695_040_888_963_407);
                    #[expect(clippy::cast_precision_loss, reason = "a draw")]
                    let draw = (state >> 11) as f64 / (1_u64 << 53) as f64;
                    draw - 0.5
                })
                .sum();
            #[expect(clippy::cast_possible_truncation, reason = "light is kept in f32")]
            let noise = (spread * sum) as f32;
            *tone += noise;
        }
        light
    }

    #[test]
    fn in_noise_the_stated_uncertainty_holds_the_truth_as_often_as_it_should() {
        let plain = edge(0.3, way(0.0), 1.0);
        for spread in [0.01, 0.04] {
            let mut held = 0;
            for seed in 0..200 {
                let light = noisy(&plain, seed, spread);
                let pointed = Point::new(33.0, 32.0);
                let found =
                    Edge::along(&light, Point::new(8.0, 32.0), pointed, 4.0).expect("an edge");
                held += u32::from((found.at.x - 32.3).abs() <= 2.0 * found.uncertainty_px);
            }
            // Twice the standard uncertainty holds 95 % of normal errors.
            assert!(held >= 190, "{held} of 200 at noise {spread}");
        }
    }

    #[test]
    fn noise_alone_is_no_edge() {
        let even = photo(|_, _| 0.3);
        assert_eq!(Edge::near(&even, Point::new(32.0, 32.0), 6.0), None);
        let found = (0..100)
            .filter(|&seed| {
                let light = noisy(&even, seed, 0.02);
                Edge::along(&light, Point::new(8.0, 32.0), Point::new(32.0, 32.0), 6.0).is_some()
            })
            .count();
        assert!(
            found <= 5,
            "an edge was seen in {found} of 100 even pictures"
        );
    }

    #[test]
    fn of_two_edges_the_nearer_is_taken_and_it_is_told_that_there_are_two() {
        // A tick 6 px wide.
        let tick = photo(|x, _| if (28.0..34.0).contains(&x) { 0.05 } else { 0.7 });
        let found = Edge::along(&tick, Point::new(5.0, 32.0), Point::new(30.0, 32.0), 8.0);
        let found = found.expect("an edge");
        assert!((found.at.x - 28.0).abs() <= WORST_SHARP_PX, "{found:?}");
        assert!(!found.is_only_one);
        assert!(
            !Edge::near(&tick, Point::new(30.0, 32.0), 8.0)
                .expect("an edge")
                .is_only_one
        );
        let close = Edge::along(&tick, Point::new(5.0, 32.0), Point::new(33.5, 32.0), 3.0);
        let close = close.expect("an edge");
        assert!((close.at.x - 34.0).abs() <= WORST_SHARP_PX, "{close:?}");
        assert!(close.is_only_one);
    }

    #[test]
    fn beyond_the_reach_and_beside_the_photo_nothing_is_found() {
        let light = edge(0.0, way(0.0), 1.0);
        let pointed = Point::new(40.0, 32.0);
        assert_eq!(Edge::near(&light, pointed, 5.0), None);
        assert_eq!(
            Edge::along(&light, Point::new(8.0, 32.0), pointed, 5.0),
            None
        );
        assert_eq!(Edge::near(&light, Point::new(200.0, 90.0), 5.0), None);
    }
}
