//! Where the card's printed edges lie on the photo, to a part of a pixel.
//!
//! Edges are read off in linear light: the edge of a square lies where the light is half-way between
//! that on either side of it, a tick's middle line where the middle of its darkness is. Ink that spreads
//! moves opposite edges apart and leaves middles where they are.

use super::layout::Card;
use crate::photo::Light;
use crate::tilt::{Homography, Sighting};

/// Ends of a square's side that are not looked at, in sides: corners are rounded by blur.
const CORNER: f64 = 0.15;
/// How far an edge is looked at on either side, in sides of the square; pores and quiet paper are
/// farther away.
const PROFILE: f64 = 0.12;
/// How far a tick is looked at on either side, mm; the next one stands 1 mm away.
const TICK_PROFILE_MM: f64 = 0.42;
/// Most places along one edge.
const MOST_STATIONS: f64 = 24.0;
/// Least difference of light across an edge, as a share of the light on the paper: ink in the shade of
/// glare.
const LEAST_CONTRAST: f64 = 0.25;
/// The same for a tick, which may be finer than a pixel.
const LEAST_TICK: f64 = 0.12;

/// One printed straight edge, or the middle line of a tick, and the places at which it was seen.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Edge {
    pub(super) sightings: Vec<Sighting>,
}

impl Edge {
    /// Mean distance from where it should be, mm.
    pub(super) fn residual(&self, to_plane: &Homography) -> f64 {
        let sum: f64 = self.sightings.iter().map(|s| to_plane.residual(s)).sum();
        sum / self.sightings.len() as f64
    }

    /// Where it is printed, mm from the middle of the card, and in which direction that is.
    pub(super) fn printed(&self) -> ([f64; 2], f64) {
        (self.sightings[0].across, self.sightings[0].offset)
    }
}

/// The edges of those squares that are to be seen (`marks`: which), and the ticks.
pub(super) fn edges(
    light: &Light,
    card: &Card,
    marks: &[usize],
    to_photo: &Homography,
) -> Vec<Edge> {
    let squares = marks.iter().flat_map(|&mark| {
        let corners = card.mark_corners(mark);
        (0..4).filter_map(move |k| {
            let (a, b) = (corners[k], corners[(k + 1) % 4]);
            square_edge(light, to_photo, a, b, card.mark_mm)
        })
    });
    let ticks = card
        .ticks()
        .into_iter()
        .filter_map(|tick| tick_line(light, to_photo, tick.from, tick.to));
    squares.chain(ticks).collect()
}

/// A straight line on the plane, its length, and the unit vector to its left as it is walked with y
/// down.
struct Walk {
    from: [f64; 2],
    along: [f64; 2],
    across: [f64; 2],
    length: f64,
}

impl Walk {
    fn new(from: [f64; 2], to: [f64; 2]) -> Self {
        let length = (to[0] - from[0]).hypot(to[1] - from[1]);
        let along = [0, 1].map(|k| (to[k] - from[k]) / length);
        Self {
            from,
            along,
            across: [along[1], -along[0]],
            length,
        }
    }

    fn at(&self, share: f64, aside: f64) -> [f64; 2] {
        [0, 1].map(|k| self.from[k] + share * self.length * self.along[k] + aside * self.across[k])
    }

    fn offset(&self) -> f64 {
        self.across[0] * self.from[0] + self.across[1] * self.from[1]
    }

    /// Length on the photo, px.
    fn px(&self, to_photo: &Homography, aside: f64) -> f64 {
        let (a, b) = if aside == 0.0 {
            (self.at(0.0, 0.0), self.at(1.0, 0.0))
        } else {
            (self.at(0.5, -aside), self.at(0.5, aside))
        };
        let ([ax, ay], [bx, by]) = (to_photo.map(a), to_photo.map(b));
        (ax - bx).hypot(ay - by)
    }

    /// Places along the line from `first` to `last`, shares of its length.
    fn stations(&self, to_photo: &Homography, first: f64, last: f64) -> Vec<f64> {
        let count = (0.5 * self.px(to_photo, 0.0))
            .clamp(5.0, MOST_STATIONS)
            .floor();
        let mut stations = Vec::new();
        let mut k = 0.5;
        while k < count {
            stations.push(first + (last - first) * k / count);
            k += 1.0;
        }
        stations
    }

    /// Light across the line at a station, from `-aside` to `aside`, at even steps.
    fn profile(
        &self,
        light: &Light,
        to_photo: &Homography,
        station: f64,
        aside: f64,
    ) -> Option<Vec<(f64, f64)>> {
        let steps = (2.0 * self.px(to_photo, aside)).clamp(12.0, 120.0).round();
        let mut profile = Vec::new();
        let mut k = 0.0;
        while k <= steps {
            let place = aside * (2.0 * k / steps - 1.0);
            let value = light_at(light, to_photo.map(self.at(station, place)))?;
            profile.push((place, value));
            k += 1.0;
        }
        Some(profile)
    }

    fn sighting(&self, to_photo: &Homography, station: f64, place: f64) -> Sighting {
        Sighting {
            at: to_photo.map(self.at(station, place)),
            across: self.across,
            offset: self.offset(),
        }
    }
}

/// A side of a square: dark on the one side, paper on the other. It is walked clockwise, so that what
/// lies to the left is outside.
fn square_edge(
    light: &Light,
    to_photo: &Homography,
    from: [f64; 2],
    to: [f64; 2],
    side: f64,
) -> Option<Edge> {
    let walk = Walk::new(from, to);
    let sightings: Vec<Sighting> = walk
        .stations(to_photo, CORNER, 1.0 - CORNER)
        .into_iter()
        .filter_map(|station| {
            let profile = walk.profile(light, to_photo, station, PROFILE * side)?;
            let place = half_way(&profile)?;
            Some(walk.sighting(to_photo, station, place))
        })
        .collect();
    (sightings.len() >= 4).then_some(Edge { sightings })
}

/// Where a profile from dark to bright is half-way between its ends.
fn half_way(profile: &[(f64, f64)]) -> Option<f64> {
    let quarter = profile.len() / 4;
    let mean =
        |part: &[(f64, f64)]| part.iter().map(|(_, value)| value).sum::<f64>() / part.len() as f64;
    let dark = mean(&profile[..quarter]);
    let bright = mean(&profile[profile.len() - quarter..]);
    if bright - dark < LEAST_CONTRAST * bright {
        return None;
    }
    let half = f64::midpoint(dark, bright);
    profile
        .windows(2)
        .filter(|pair| pair[0].1 < half && pair[1].1 >= half)
        .map(|pair| {
            let share = (half - pair[0].1) / (pair[1].1 - pair[0].1);
            pair[0].0 + share * (pair[1].0 - pair[0].0)
        })
        .min_by(|a, b| a.abs().total_cmp(&b.abs()))
}

/// The middle line of a tick.
fn tick_line(light: &Light, to_photo: &Homography, from: [f64; 2], to: [f64; 2]) -> Option<Edge> {
    let walk = Walk::new(from, to);
    let sightings: Vec<Sighting> = walk
        .stations(to_photo, CORNER, 1.0 - CORNER)
        .into_iter()
        .filter_map(|station| {
            let profile = walk.profile(light, to_photo, station, TICK_PROFILE_MM)?;
            let place = middle_of_darkness(&profile)?;
            Some(walk.sighting(to_photo, station, place))
        })
        .collect();
    (sightings.len() >= 4).then_some(Edge { sightings })
}

/// The middle of what is darker than the paper on either side.
fn middle_of_darkness(profile: &[(f64, f64)]) -> Option<f64> {
    let fifth = profile.len() / 5;
    let mean =
        |part: &[(f64, f64)]| part.iter().map(|(_, value)| value).sum::<f64>() / part.len() as f64;
    let (left, right) = (
        mean(&profile[..fifth]),
        mean(&profile[profile.len() - fifth..]),
    );
    let (first, last) = (profile[0].0, profile[profile.len() - 1].0);
    let (mut sum, mut moment, mut deepest) = (0.0, 0.0, 0.0_f64);
    for (place, value) in &profile[fifth..profile.len() - fifth] {
        let share = (place - first) / (last - first);
        let paper = left + share * (right - left);
        let dark = 1.0 - value / paper;
        // Noise on the paper is not darkness.
        if dark > 0.25 * LEAST_TICK {
            sum += dark;
            moment += dark * place;
            deepest = deepest.max(dark);
        }
    }
    (deepest >= LEAST_TICK).then(|| moment / sum)
}

/// Light at a place of the photo, linear between pixel middles; `None` off the photo.
pub(super) fn light_at(light: &Light, [x, y]: [f64; 2]) -> Option<f64> {
    let (width, height) = light.dimensions();
    let (u, v) = (x - 0.5, y - 0.5);
    let inside = u >= 0.0 && v >= 0.0 && u < f64::from(width) - 1.0 && v < f64::from(height) - 1.0;
    if !inside {
        return None;
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "on the photo"
    )]
    let (column, row) = (u as u32, v as u32);
    let (s, t) = (u.fract(), v.fract());
    let value = |dx: u32, dy: u32| f64::from(light.get_pixel(column + dx, row + dy).0[0]);
    let upper = value(0, 0) * (1.0 - s) + value(1, 0) * s;
    let lower = value(0, 1) * (1.0 - s) + value(1, 1) * s;
    Some(upper * (1.0 - t) + lower * t)
}
