//! Outlines at half depth with the blur taken out.
//!
//! A blurred photo of a small pore shows its half-depth outline too far in, and a thin wall too
//! faint. So the outlines are not read off the photo alone: they are the outlines of a model, pure
//! void and pure wall, that looks like the photo once it is blurred as the photo is. The blur is
//! found on the way, as the one with which the model fits best.

use super::basins::Basins;
use super::gaussian;
use super::Phase;
use super::levels::Levels;
use crate::photo::Light;
use rayon::prelude::*;

/// Smoothing of the depth before outlines are traced, frame px; part of the blur that is modelled.
const SMOOTHING: f32 = 0.6;
/// Corrections of the outline.
const ROUNDS: usize = 6;
/// Depth given to a wall that is too faint to show as one: enough to be traced, to be corrected at once.
const FAINT_WALL: f32 = 0.35;
/// Standard deviations of the blur that are tried, frame px (18 px a spacing), finest last.
const BLURS: (f32, f32) = (0.5, 4.5);

/// A two-phase model of the surface.
#[derive(Debug, Clone)]
pub struct Model {
    /// Level function: void where above ½, outline where equal to ½.
    pub surface: Light,
    /// Share of each pixel that is void, 0–1.
    pub cover: Light,
    /// Standard deviation of the photo's blur, smoothing included, frame px.
    pub blur: f32,
    /// Root mean square difference between photo and blurred model, in depth.
    pub misfit: f32,
    /// The depth that the model was fitted to.
    pub depth: Light,
}

impl Model {
    /// Fits the model to a frame's light, given the basins that part the regions of a phase, if any.
    ///
    /// For [`Phase::Wall`] all is turned round: 1 stands for wall, and regions are teeth.
    #[must_use]
    pub fn fit(
        light: &Light,
        levels: &Levels,
        basins: Option<&Basins>,
        area: &[bool],
        phase: Phase,
    ) -> Self {
        let smooth = gaussian::blur(light, SMOOTHING);
        let depth_at = |levels: &Levels| {
            let mut depth = levels.depth(&smooth);
            if phase == Phase::Wall {
                depth.iter_mut().for_each(|d| *d = 1.0 - *d);
            }
            depth
        };
        let mut depth = depth_at(levels);
        let faint = basins.map_or_else(Vec::new, |basins| faint_walls(&depth, basins));
        let part = |surface: &mut Light| {
            for &pixel in &faint {
                let value = &mut surface.as_mut()[pixel];
                *value = value.min(FAINT_WALL);
            }
        };
        let mut surface = depth.clone();
        part(&mut surface);
        let mut cover = cover_of(&surface);
        let mut blur = best_blur(&cover, &depth, area, BLURS);
        for round in 0..ROUNDS {
            let seen = gaussian::blur(&cover, blur);
            let (inner, outer) = class_means(&seen, area);
            let mut stretched = levels.clone();
            match phase {
                Phase::Void => stretched.stretch(inner, outer),
                Phase::Wall => stretched.stretch(1.0 - outer, 1.0 - inner),
            }
            depth = depth_at(&stretched);
            if round == 0 {
                surface = depth.clone();
                part(&mut surface);
            } else {
                correct(&mut surface, &depth, &seen);
            }
            cover = cover_of(&surface);
            if round < 3 {
                blur = best_blur(&cover, &depth, area, BLURS);
            }
        }
        let seen = gaussian::blur(&cover, blur);
        Self {
            misfit: misfit(&seen, &depth, area),
            surface,
            cover,
            blur,
            depth,
        }
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

/// Moves the level function by what the blurred model lacks. Only near outlines: inside a void or a
/// wall a difference is shading or mottling, not a misplaced outline.
fn correct(surface: &mut Light, depth: &Light, seen: &Light) {
    surface
        .as_mut()
        .par_iter_mut()
        .zip(depth.as_raw())
        .zip(seen.as_raw())
        .for_each(|((level, depth), seen)| {
            let near = (4.0 * seen * (1.0 - seen)).clamp(0.0, 1.0);
            *level += near * (depth - seen);
        });
}

/// Share of each pixel above ½, from bilinear interpolation at 4 × 4 places.
fn cover_of(surface: &Light) -> Light {
    let (width, height) = (surface.width() as usize, surface.height() as usize);
    let raw = surface.as_raw();
    let mut cover = vec![0.0_f32; raw.len()];
    cover
        .par_chunks_mut(width.max(1))
        .enumerate()
        .for_each(|(y, out)| {
            let row = |line: usize| &raw[line * width..(line + 1) * width];
            let (up, here, down) = (
                row(y.saturating_sub(1)),
                row(y),
                row((y + 1).min(height - 1)),
            );
            for (x, value) in out.iter_mut().enumerate() {
                let (l, r) = (x.saturating_sub(1), (x + 1).min(width - 1));
                let around = [
                    [up[l], up[x], up[r]],
                    [here[l], here[x], here[r]],
                    [down[l], down[x], down[r]],
                ];
                *value = share_above_half(&around);
            }
        });
    Light::from_raw(surface.width(), surface.height(), cover).unwrap_or_default()
}

fn share_above_half(around: &[[f32; 3]; 3]) -> f32 {
    let flat = || around.iter().flatten();
    if flat().all(|v| *v > 0.5) {
        return 1.0;
    }
    if flat().all(|v| *v <= 0.5) {
        return 0.0;
    }
    // Offsets of the 4 × 4 places from the pixel's centre.
    const OFFSETS: [f32; 4] = [-0.375, -0.125, 0.125, 0.375];
    let blend = |a: f32, b: f32, c: f32, t: f32| {
        if t < 0.0 {
            b + t * (b - a)
        } else {
            b + t * (c - b)
        }
    };
    let mut above = 0.0;
    for dy in OFFSETS {
        let row: [f32; 3] =
            std::array::from_fn(|i| blend(around[0][i], around[1][i], around[2][i], dy));
        for dx in OFFSETS {
            if blend(row[0], row[1], row[2], dx) > 0.5 {
                above += 1.0;
            }
        }
    }
    above / 16.0
}

/// Mean depth of the blurred model in its void and in its wall pixels, parted in the way in which
/// [`Levels`] parts the photo.
fn class_means(seen: &Light, area: &[bool]) -> (f32, f32) {
    let mut middle = 0.5;
    let (mut void, mut wall) = (1.0, 0.0);
    for _ in 0..6 {
        let (mut above, mut below) = ((0.0_f64, 0.0_f64), (0.0_f64, 0.0_f64));
        for (value, _) in seen.iter().zip(area).filter(|(_, inside)| **inside) {
            let class = if *value > middle {
                &mut above
            } else {
                &mut below
            };
            class.0 += f64::from(*value);
            class.1 += 1.0;
        }
        if above.1 == 0.0 || below.1 == 0.0 {
            return (1.0, 0.0);
        }
        #[expect(clippy::cast_possible_truncation, reason = "means of 0–1")]
        {
            void = (above.0 / above.1) as f32;
            wall = (below.0 / below.1) as f32;
        }
        middle = f32::midpoint(void, wall);
    }
    (void, wall)
}

fn misfit(seen: &Light, depth: &Light, area: &[bool]) -> f32 {
    let (sum, count) = seen
        .iter()
        .zip(depth.iter())
        .zip(area)
        .filter(|(_, inside)| **inside)
        .fold((0.0_f64, 0.0_f64), |(sum, count), ((s, d), _)| {
            (sum + f64::from((s - d).clamp(-1.0, 1.0)).powi(2), count + 1.0)
        });
    #[expect(clippy::cast_possible_truncation, reason = "of order one")]
    let root = (sum / count.max(1.0)).sqrt() as f32;
    root
}

/// The blur with which the model looks most like the photo, by golden section.
fn best_blur(cover: &Light, depth: &Light, area: &[bool], (from, to): (f32, f32)) -> f32 {
    const GOLDEN: f32 = 0.618_034;
    let try_blur = |sigma: f32| misfit(&gaussian::blur(cover, sigma), depth, area);
    let (mut low, mut high) = (from, to);
    let (mut a, mut b) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
    let (mut at_a, mut at_b) = (try_blur(a), try_blur(b));
    for _ in 0..9 {
        if at_a < at_b {
            (high, b, at_b) = (b, a, at_a);
            a = high - GOLDEN * (high - low);
            at_a = try_blur(a);
        } else {
            (low, a, at_a) = (a, b, at_b);
            b = low + GOLDEN * (high - low);
            at_b = try_blur(b);
        }
    }
    f32::midpoint(low, high)
}
