//! Outlines at half depth with the blur taken out.
//!
//! A blurred photo of a small pore shows its half-depth outline too far in, and a thin wall too
//! faint. So the outlines are not read off the photo alone: they are the outlines of a model, pure
//! void and pure wall, that looks like the photo once it is blurred as the photo is. The blur is
//! found on the way, as the one with which the model fits best.

use super::Phase;
use super::basins::Basins;
use super::gaussian;
use super::levels::Levels;
use super::parabola::Parabola;
use crate::photo::Light;
use nalgebra::{SMatrix, SVector};
use pulp::Arch;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Smoothing of the depth before outlines are traced, frame px; part of the blur that is modelled.
const SMOOTHING: f32 = 0.6;
/// Corrections, while blur and levels are sought and once they are known.
const ROUNDS: usize = 20;
/// What the blurred model lacks is smoothed before the outline is moved by it, so that outlines follow
/// the surface and not the noise: by this share of the blur, or by this share of the smoothing that
/// the noise asked for, whichever is more. Then it is enlarged, and a correction goes on with a share
/// of the one before it (heavy ball: Polyak 1964, USSR Comput. Math. Math. Phys. 4(5): 1–17), since
/// fine detail under a wide blur comes to rest slowly.
const SMOOTHED_BY_BLUR: f32 = 1.1;
const SMOOTHED_BY_NOISE: f32 = 1.4;
const GAIN: f32 = 2.0;
const MOMENTUM: f32 = 0.8;
/// How far from an outline the light still changes, frame px (standard deviation): a fifth of the
/// spacing, about half of a pore's radius.
const RELIEF_REACH: f32 = 3.6;
/// Fields of light that relief gives: floors that darken inwards, and slopes of walls and of floors that
/// face the light or turn away from it, across and down.
const RELIEFS: usize = 5;
/// Levels and reliefs that are learnt.
const UNKNOWNS: usize = 2 + RELIEFS;
/// They are the same all over, so they are learnt from every so many pixels.
const LEARN_FROM: usize = 5;
/// Smoothing of the outlines that are drawn, frame px: hooks one pixel wide are noise. Areas and
/// moments are taken from the cover, which is not smoothed.
const OUTLINE_SMOOTHING: f32 = 1.0;
/// Depth given to a wall that is too faint to show as one: enough to be traced, to be corrected at once.
const FAINT_WALL: f32 = 0.35;
/// Side of the part of the frame on which blur and levels are sought, frame px.
const PATCH: usize = 216;
/// Least and greatest blur that are tried, frame px (18 a spacing), and how often the bracket is narrowed.
const BLURS: (f32, f32) = (0.4, 4.5);
const NARROWINGS: usize = 5;
/// Then blurs are tried in steps of so much, frame px.
const BLUR_STEP: f32 = 0.08;
/// Outlines settle in pieces up to this side, frame px, so that all that is needed of one stays in fast memory …
const PIECE: usize = 1024;
/// … each seen with two and a half spacings around it, further than an outline feels.
const AROUND: usize = 45;

/// A two-phase model of the surface.
#[derive(Debug, Clone)]
pub struct Model {
    /// Level function for drawing: void where above ½, outline where equal to ½.
    pub surface: Light,
    /// Share of each pixel that is void, 0–1.
    pub cover: Light,
    /// How the photo blurs and lights the model.
    pub look: Look,
    /// The phase whose regions are kept apart, and which `surface` and `cover` call void.
    phase: Phase,
}

/// How pure void and pure wall look on the photo.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Look {
    /// Standard deviation of the blur, smoothing included, frame px.
    pub blur: f32,
    /// Apparent depth of pure wall; 0 when the local levels were right.
    pub wall: f32,
    /// Apparent depth of pure void at its outline; 1 when the local levels were right.
    pub void: f32,
    /// What relief adds to the apparent depth, for each field of [`Fields`].
    pub relief: [f32; RELIEFS],
}

/// Where relief makes light and shade on the model, before any blur.
///
/// Light falls into a void from above, so its floor darkens away from the wall; and a slope is as bright
/// as it faces the light (Lambert 1760). The surface is a step at each outline, rounded over
/// [`RELIEF_REACH`]: its slope is the gradient of the smoothed cover, and walls and floors each have a
/// brightness of their own.
struct Fields([Light; RELIEFS]);

impl Fields {
    fn of(cover: &Light) -> Self {
        let (width, height) = cover.dimensions();
        let rounded = gaussian::blur(cover, RELIEF_REACH);
        let mut fields: [Vec<f32>; RELIEFS] = std::array::from_fn(|_| vec![0.0; cover.len()]);
        for y in 0..height as usize {
            for (at, here) in (y * width as usize..).zip(slopes(cover, &rounded, y)) {
                for (field, here) in fields.iter_mut().zip(here) {
                    field[at] = here;
                }
            }
        }
        Self(fields.map(|field| Light::from_raw(width, height, field).unwrap_or_default()))
    }

    /// All of them together by a given look.
    fn sum(&self, look: Look) -> Light {
        let mut sum = Light::new(self.0[0].width(), self.0[0].height());
        for (field, share) in self.0.iter().zip(look.relief) {
            for (sum, value) in sum.iter_mut().zip(field.iter()) {
                *sum += share * value;
            }
        }
        sum
    }

    fn blurred(self, blur: f32) -> Self {
        Self(self.0.map(|field| gaussian::blur(&field, blur)))
    }
}

/// What the fields are along one row of the frame, given the cover and the same rounded.
fn slopes<'a>(
    cover: &'a Light,
    rounded: &'a Light,
    y: usize,
) -> impl Iterator<Item = [f32; RELIEFS]> + 'a {
    let (width, height) = (cover.width() as usize, cover.height() as usize);
    let row = |y: usize| &rounded.as_raw()[y * width..(y + 1) * width];
    let (up, here, down) = (
        row(y.saturating_sub(1)),
        row(y),
        row((y + 1).min(height - 1)),
    );
    let cover = &cover.as_raw()[y * width..(y + 1) * width];
    (0..width).map(move |x| {
        let (left, right) = (x.saturating_sub(1), (x + 1).min(width - 1));
        let across = RELIEF_REACH / 2.0 * (here[right] - here[left]);
        let along = RELIEF_REACH / 2.0 * (down[x] - up[x]);
        let void = cover[x];
        [
            // −½ at a lone wall, 0 at a straight outline, ½ far inside a void.
            (here[x] - 0.5) * void,
            across * (1.0 - void),
            along * (1.0 - void),
            across * void,
            along * void,
        ]
    })
}

/// What relief adds by a look that is known, before any blur.
fn relief_on(cover: &Light, look: Look) -> Light {
    let rounded = gaussian::blur(cover, RELIEF_REACH);
    let mut relief = Light::new(cover.width(), cover.height());
    relief
        .as_mut()
        .chunks_mut((cover.width() as usize).max(1))
        .enumerate()
        .for_each(|(y, out)| {
            for (sum, fields) in out.iter_mut().zip(slopes(cover, &rounded, y)) {
                for (field, share) in fields.into_iter().zip(look.relief) {
                    *sum += share * field;
                }
            }
        });
    relief
}

impl Model {
    /// Fits the model to a frame's light, given the basins that part the regions of a phase.
    ///
    /// For [`Phase::Wall`] all is turned round: 1 stands for wall, and regions are teeth.
    #[must_use]
    pub fn fit(
        light: &Light,
        levels: &Levels,
        basins: &Basins,
        area: &[bool],
        smoothing: f32,
        phase: Phase,
    ) -> Self {
        let mut depth = levels.depth(&gaussian::blur(light, SMOOTHING));
        if phase == Phase::Wall {
            for depth in depth.iter_mut() {
                *depth = 1.0 - *depth;
            }
        }
        let faint = faint_walls(&depth, basins);
        let view = View {
            depth,
            faint,
            area: area.to_vec(),
            smoothing,
        };
        let look = view.patch().best_look();
        let (mut surface, cover) = view.settle_in_pieces(look);
        for level in surface.iter_mut() {
            *level = level.clamp(0.0, 1.0);
        }
        Self {
            surface: without_shrinking(&surface, OUTLINE_SMOOTHING),
            cover,
            look,
            phase,
        }
    }

    /// Takes what a person said of single pixels, a share of the regions' phase, before what fits.
    pub(super) fn overrule(&mut self, told: &BTreeMap<usize, f32>) {
        for (&pixel, &share) in told {
            self.surface.as_mut()[pixel] = share;
            self.cover.as_mut()[pixel] = share;
        }
    }

    /// Share of void in what the photo shows at each pixel, blurred as the photo is, 0–1.
    pub(super) fn void_seen(&self) -> Light {
        let mut seen = gaussian::blur(&self.cover, self.blur_of_photo());
        if self.phase == Phase::Wall {
            for share in seen.iter_mut() {
                *share = 1.0 - *share;
            }
        }
        seen
    }

    /// Standard deviation of the photo's own blur, frame px: without the smoothing before the outlines.
    #[must_use]
    pub fn blur_of_photo(&self) -> f32 {
        (self.look.blur.powi(2) - SMOOTHING.powi(2)).max(0.0).sqrt()
    }
}

/// Smooths a level function and leaves its outlines where they are.
///
/// A Gaussian moves an outline of radius R inwards by σ²/2R, and two of them by twice as much. So
/// twice the first less the second takes hooks off without making round pores smaller; corners
/// sharper than the blur are rounded all the same.
fn without_shrinking(surface: &Light, sigma: f32) -> Light {
    let mut once = gaussian::blur(surface, sigma);
    let twice = gaussian::blur(&once, sigma);
    for (level, twice) in once.iter_mut().zip(twice.iter()) {
        *level = 2.0 * *level - twice;
    }
    once
}

/// Outlines that have come to rest.
struct Settled {
    surface: Light,
    cover: Light,
    look: Look,
    misfit: f32,
}

/// What the model is compared with.
struct View {
    /// Depth by the local levels.
    depth: Light,
    /// Wall pixels that do not look like wall by themselves.
    faint: Vec<usize>,
    area: Vec<bool>,
    /// Smoothing that the noise asked for, frame px.
    smoothing: f32,
}

impl View {
    /// The square of the frame with the most area in it, near its middle.
    fn patch(&self) -> Self {
        let (width, height) = (self.depth.width() as usize, self.depth.height() as usize);
        let (w, h) = (width.min(PATCH), height.min(PATCH));
        let (mut left, mut top) = ((width - w) / 2, (height - h) / 2);
        let mut most = 0;
        for y in (0..=height - h).step_by(PATCH / 4) {
            for x in (0..=width - w).step_by(PATCH / 4) {
                let inside = (0..h * w)
                    .step_by(61)
                    .filter(|k| self.area[(y + k / w) * width + x + k % w])
                    .count();
                if inside > most {
                    (most, left, top) = (inside, x, y);
                }
            }
        }
        self.part(left, top, w, h)
    }

    /// A rectangle of it.
    fn part(&self, left: usize, top: usize, w: usize, h: usize) -> Self {
        let width = self.depth.width() as usize;
        let rows = || (top..top + h).map(|y| y * width + left..y * width + left + w);
        let raw = self.depth.as_raw();
        let depth: Vec<f32> = rows().flat_map(|row| &raw[row]).copied().collect();
        let of_rows = |pixel: usize| self.faint.partition_point(|&faint| faint < pixel);
        let faint = &self.faint[of_rows(top * width)..of_rows((top + h) * width)];
        #[expect(clippy::cast_possible_truncation, reason = "no larger than the frame")]
        let (sides_w, sides_h) = (w as u32, h as u32);
        Self {
            depth: Light::from_raw(sides_w, sides_h, depth).unwrap_or_default(),
            faint: faint
                .iter()
                .map(|pixel| (pixel % width, pixel / width))
                .filter(|(x, _)| (left..left + w).contains(x))
                .map(|(x, y)| (y - top) * w + x - left)
                .collect(),
            smoothing: self.smoothing,
            area: rows().flat_map(|row| &self.area[row]).copied().collect(),
        }
    }

    /// Level function and cover of the outlines that fit best by a look that is known.
    fn settle_in_pieces(&self, look: Look) -> (Light, Light) {
        let (width, height) = (self.depth.width() as usize, self.depth.height() as usize);
        let mut surface = self.depth.clone();
        let mut cover = self.depth.clone();
        let side = |whole: usize| whole.div_ceil(whole.div_ceil(PIECE).max(1)).max(1);
        let (across, down) = (side(width), side(height));
        let band = width.max(1) * down;
        surface
            .as_mut()
            .par_chunks_mut(band)
            .zip(cover.as_mut().par_chunks_mut(band))
            .enumerate()
            .for_each(|(at, (surface, cover))| {
                let rows = at * down..((at + 1) * down).min(height);
                let top = rows.start.saturating_sub(AROUND);
                let bottom = (rows.end + AROUND).min(height);
                for from in (0..width).step_by(across) {
                    let to = (from + across).min(width);
                    let left = from.saturating_sub(AROUND);
                    let right = (to + AROUND).min(width);
                    let piece = self.part(left, top, right - left, bottom - top);
                    let settled = piece.settle(look, ROUNDS, false);
                    for y in rows.clone() {
                        let of_piece = (y - top) * (right - left) + from - left;
                        let of_band = (y - rows.start) * width + from;
                        for (band, piece) in [
                            (&mut *surface, &settled.surface),
                            (&mut *cover, &settled.cover),
                        ] {
                            band[of_band..of_band + to - from]
                                .copy_from_slice(&piece.as_raw()[of_piece..of_piece + to - from]);
                        }
                    }
                }
            });
        (surface, cover)
    }

    /// The outlines that fit best under a given blur; levels and relief are learnt in each round, or
    /// kept as they are.
    fn settle(&self, start: Look, rounds: usize, learning: bool) -> Settled {
        let mut look = start;
        let mut surface = self.depth_in(look, None);
        for &pixel in &self.faint {
            let value = &mut surface.as_mut()[pixel];
            *value = value.min(FAINT_WALL);
        }
        let mut cover = cover_of(&surface);
        let mut seen = gaussian::blur(&cover, look.blur);
        let mut depth = surface.clone();
        let mut speed = Light::new(surface.width(), surface.height());
        for round in 1..=rounds {
            if learning {
                let fields = Fields::of(&cover).blurred(look.blur);
                look = self.levels_given(&seen, &fields, look);
                depth = self.depth_in(look, Some(&fields.sum(look)));
            } else if round.is_power_of_two() {
                // Outlines move less and less, and relief is wide: it need not follow each of their steps.
                let relief = gaussian::blur(&relief_on(&cover, look), look.blur);
                depth = self.depth_in(look, Some(&relief));
            }
            let lack = lack(&depth, &seen, self.smoothing_under(look.blur));
            let levels = surface.iter_mut().zip(speed.iter_mut()).zip(lack.iter());
            Arch::new().dispatch(|| {
                for ((level, speed), lack) in levels {
                    *speed = MOMENTUM * *speed + GAIN * lack;
                    *level += *speed;
                }
            });
            cover = cover_of(&surface);
            seen = gaussian::blur(&cover, look.blur);
        }
        Settled {
            misfit: misfit(&seen, &depth, &self.area) * (look.void - look.wall),
            surface,
            cover,
            look,
        }
    }

    /// Smoothing of what the model lacks, frame px.
    fn smoothing_under(&self, blur: f32) -> f32 {
        (SMOOTHED_BY_BLUR * blur).max(SMOOTHED_BY_NOISE * self.smoothing)
    }

    /// The raw depth, with pure wall at 0 and pure void at 1 by a given look, and relief taken off.
    fn depth_in(&self, look: Look, relief: Option<&Light>) -> Light {
        let mut depth = self.depth.clone();
        let span = look.void - look.wall;
        match relief {
            Some(relief) => {
                for (d, relief) in depth.iter_mut().zip(relief.iter()) {
                    *d = (*d - relief - look.wall) / span;
                }
            }
            None => {
                for d in depth.iter_mut() {
                    *d = (*d - look.wall) / span;
                }
            }
        }
        depth
    }

    /// Levels and relief by least squares of the raw depth on the blurred model. Floors that brighten
    /// away from the wall are not sought.
    fn levels_given(&self, seen: &Light, fields: &Fields, look: Look) -> Look {
        let mut normal = SMatrix::<f64, UNKNOWNS, UNKNOWNS>::zeros();
        let mut right = SVector::<f64, UNKNOWNS>::zeros();
        let looked_at = self.area.iter().enumerate().step_by(LEARN_FROM);
        for (at, _) in looked_at.filter(|(_, inside)| **inside) {
            let mut row = SVector::<f64, UNKNOWNS>::zeros();
            row[0] = 1.0;
            row[1] = f64::from(seen.as_raw()[at]);
            for (value, field) in row.iter_mut().skip(2).zip(&fields.0) {
                *value = f64::from(field.as_raw()[at]);
            }
            normal += row * row.transpose();
            right += f64::from(self.depth.as_raw()[at]) * row;
        }
        let darkening = normal.lu().solve(&right).filter(|levels| levels[2] > 0.0);
        let flat = || {
            let mut normal = normal;
            normal.fill_row(2, 0.0);
            normal.fill_column(2, 0.0);
            normal[(2, 2)] = 1.0;
            let mut right = right;
            right[2] = 0.0;
            normal.lu().solve(&right)
        };
        let Some(levels) = darkening.or_else(flat).filter(|levels| levels[1] > 0.0) else {
            return look;
        };
        #[expect(clippy::cast_possible_truncation, reason = "of order one")]
        Look {
            blur: look.blur,
            wall: levels[0] as f32,
            void: (levels[0] + levels[1]) as f32,
            relief: std::array::from_fn(|i| levels[2 + i] as f32),
        }
    }

    /// Blur and levels for which the settled model looks most like the photo. Golden section comes near;
    /// there the misfit is a parabola with a little chance on top, so it and the levels are smoothed over
    /// even steps of blur.
    fn best_look(&self) -> Look {
        let middle = self.blur_near_the_best();
        let steps = Parabola::PLACES.into_par_iter();
        let tried: Vec<Settled> = steps
            .map(|place| self.learnt(middle + place * BLUR_STEP))
            .collect();
        let over = |value: &dyn Fn(&Settled) -> f32| Parabola::through(tried.iter().map(value));
        let place = over(&|settled| settled.misfit).lowest();
        let there = |value: &dyn Fn(&Look) -> f32| over(&|settled| value(&settled.look)).at(place);
        Look {
            blur: middle + place * BLUR_STEP,
            wall: there(&|look| look.wall),
            void: there(&|look| look.void),
            relief: std::array::from_fn(|field| there(&|look| look.relief[field])),
        }
    }

    /// The outlines that fit best under a blur, with the levels that go with it.
    fn learnt(&self, blur: f32) -> Settled {
        let start = Look {
            blur,
            wall: 0.0,
            void: 1.0,
            relief: [0.0; RELIEFS],
        };
        self.settle(start, ROUNDS, true)
    }

    /// About the blur with the least misfit, by golden section.
    fn blur_near_the_best(&self) -> f32 {
        const GOLDEN: f32 = 0.618_034;
        let (mut low, mut high) = BLURS;
        let (mut a, mut b) = rayon::join(
            || self.learnt(high - GOLDEN * (high - low)),
            || self.learnt(low + GOLDEN * (high - low)),
        );
        for _ in 0..NARROWINGS {
            if a.misfit < b.misfit {
                high = b.look.blur;
                b = a;
                a = self.learnt(high - GOLDEN * (high - low));
            } else {
                low = a.look.blur;
                a = b;
                b = self.learnt(low + GOLDEN * (high - low));
            }
        }
        let best = if a.misfit < b.misfit { a } else { b };
        best.look.blur.max(BLURS.0 + 3.0 * BLUR_STEP)
    }
}

/// Pixels on the border between two basins that do not look like wall by themselves.
fn faint_walls(depth: &Light, basins: &Basins) -> Vec<usize> {
    let width = depth.width() as usize;
    let raw = depth.as_raw();
    let mut faint = Vec::new();
    for pixel in 0..raw.len() {
        let label = basins.of_pixel[pixel];
        let right = (pixel % width + 1 < width).then_some(pixel + 1);
        for neighbour in [right, Some(pixel + width)].into_iter().flatten() {
            let Some(&other) = basins.of_pixel.get(neighbour) else {
                continue;
            };
            if label != other && label != 0 && other != 0 {
                let wall = if raw[pixel] < raw[neighbour] {
                    pixel
                } else {
                    neighbour
                };
                if raw[wall] > FAINT_WALL {
                    faint.push(wall);
                }
            }
        }
    }
    faint.sort_unstable();
    faint.dedup();
    faint
}

/// What the blurred model lacks, smoothed. Only near outlines: inside a void or a wall a difference is
/// shading or mottling, not a misplaced outline.
fn lack(depth: &Light, seen: &Light, smoothing: f32) -> Light {
    let mut lack = depth.clone();
    let pixels = lack.iter_mut().zip(seen.iter());
    Arch::new().dispatch(|| {
        for (depth, seen) in pixels {
            let near = (4.0 * seen * (1.0 - seen)).clamp(0.0, 1.0);
            *depth = near * (*depth - seen);
        }
    });
    gaussian::blur(&lack, smoothing)
}

/// Offsets of the 4 × 4 places from a pixel's centre.
const OFFSETS: [f32; 4] = [-0.375, -0.125, 0.125, 0.375];

/// Share of each pixel above ½, from bilinear interpolation at 4 × 4 places.
fn cover_of(surface: &Light) -> Light {
    const PLACE: f32 = 1.0 / (OFFSETS.len() * OFFSETS.len()) as f32;
    let (width, height) = (surface.width() as usize, surface.height() as usize);
    let raw = surface.as_raw();
    let mut cover = vec![0.0_f32; raw.len()];
    cover
        .par_chunks_mut(width.max(1))
        .enumerate()
        .for_each_init(
            || vec![0.0_f32; width + 2],
            |between, (y, out)| {
                let row = |line: usize| &raw[line * width..(line + 1) * width];
                let here = row(y);
                for offset in OFFSETS {
                    let towards = if offset < 0.0 {
                        row(y.saturating_sub(1))
                    } else {
                        row((y + 1).min(height - 1))
                    };
                    let down = offset.abs();
                    Arch::new().dispatch(|| {
                        let rows = here.iter().zip(towards);
                        for (between, (here, towards)) in between[1..].iter_mut().zip(rows) {
                            *between = here + down * (towards - here);
                        }
                    });
                    // The border pixel continues outside.
                    (between[0], between[width + 1]) = (between[1], between[width]);
                    for offset in OFFSETS {
                        let towards = if offset < 0.0 {
                            &between[..width]
                        } else {
                            &between[2..]
                        };
                        let across = offset.abs();
                        Arch::new().dispatch(|| {
                            let columns = between[1..].iter().zip(towards);
                            for (out, (here, towards)) in out.iter_mut().zip(columns) {
                                let level = here + across * (towards - here);
                                *out += if level > 0.5 { PLACE } else { 0.0 };
                            }
                        });
                    }
                }
            },
        );
    Light::from_raw(surface.width(), surface.height(), cover).unwrap_or_default()
}

/// Mean difference of model and photo. Not its square: grain, debris and voids of unlike depth would
/// weigh more than all outlines, and those alone tell the blur.
fn misfit(seen: &Light, depth: &Light, area: &[bool]) -> f32 {
    let (sum, count) = seen
        .iter()
        .zip(depth.iter())
        .zip(area)
        .filter(|(_, inside)| **inside)
        .fold((0.0_f64, 0.0_f64), |(sum, count), ((s, d), _)| {
            (sum + f64::from((s - d).abs().min(1.0)), count + 1.0)
        });
    #[expect(clippy::cast_possible_truncation, reason = "of order one")]
    let mean = (sum / count.max(1.0)) as f32;
    mean
}
