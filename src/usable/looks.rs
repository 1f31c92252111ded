//! How each tile of one spacing looks: its light, its colour, how strong the pattern is about it and
//! how much of that is fine detail.
//!
//! A tile is small, so light and colour are its own. A pattern needs room: it is read from the power
//! spectrum of a window of four spacings about the tile, weighted towards its middle.

use crate::geometry::{Point, Rect};
use crate::photo::{Light, Photo};
use crate::segmentation::Frame;
use rayon::prelude::*;
use rustfft::num_complex::Complex;
use rustfft::{Fft, FftPlanner};
use std::f32::consts::PI;
use std::sync::Arc;

/// Pixels per spacing: the finest detail looked at repeats four times a spacing.
pub(super) const TILE: usize = 8;
/// Spacings across a window.
const WINDOW_SPACINGS: usize = 4;
/// Side of a window, px.
const SIDE: usize = TILE * WINDOW_SPACINGS;
/// The pattern itself: periods from two spacings down to where detail begins.
const PATTERN: [f32; 2] = [0.5, 1.6];
/// Detail that sharp edges have and smeared ones lose, in periods per spacing: far enough above the
/// pattern that blur takes clearly more of it.
const DETAIL: [f32; 2] = [2.0, 3.2];
/// From here on even sharp edges have next to nothing, and what is seen is noise.
const NOISE: f32 = 3.5;
/// Light from which on a pixel is as good as white: JPEG keeps white within two of 255 steps.
const WHITE: f32 = 0.97;

/// One tile.
#[derive(Debug, Clone, Copy)]
pub(super) struct Look {
    /// Mean linear luminance.
    pub(super) light: f32,
    /// Share of the tile that is as good as white, 0–1.
    pub(super) white: f32,
    /// Mean red and blue, each over green, drawn towards grey where there is little of them.
    pub(super) colour: [f32; 2],
    /// Variance of relative luminance at the pattern's own periods, noise taken off.
    pub(super) pattern: f32,
    /// The same in detail.
    pub(super) detail: f32,
}

/// Tiles in rows over a part of the photo.
pub(super) struct Looks {
    /// Where they lie.
    pub(super) grid: Grid,
    /// Row by row.
    pub(super) tiles: Vec<Look>,
    /// The part of the photo, [`TILE`] px per spacing.
    pub(super) frame: Frame,
}

/// Tiles of equal size laid over a rectangle of the photo; the last ones reach to its edge.
#[derive(Debug, Clone, Copy)]
pub(super) struct Grid {
    /// What is covered, photo px.
    pub(super) bounds: Rect,
    /// Side of a tile, photo px.
    pub(super) tile_px: f64,
    /// Tiles across.
    pub(super) columns: usize,
    /// Tiles down.
    pub(super) rows: usize,
}

impl Grid {
    /// Middle of a tile on the photo.
    pub(super) fn middle(&self, tile: usize) -> Point {
        Point::new(
            self.bounds.x + ((tile % self.columns) as f64 + 0.5) * self.tile_px,
            self.bounds.y + ((tile / self.columns) as f64 + 0.5) * self.tile_px,
        )
    }
}

impl Looks {
    /// Looks at a part of the photo; `None` where not even one window fits.
    pub(super) fn of(photo: &Photo, bounds: Rect, spacing_px: f64) -> Option<Self> {
        let frame = Frame::of(&photo.light, bounds, spacing_px / TILE as f64);
        let (width, height) = frame.size();
        if width < SIDE || height < SIDE {
            return None;
        }
        let grid = Grid {
            bounds,
            tile_px: spacing_px,
            columns: width / TILE,
            rows: height / TILE,
        };
        let spectrum = Spectrum::new(frame.step >= 1.0);
        let tiles = (0..grid.rows)
            .into_par_iter()
            .flat_map_iter(|row| {
                let mut line: Vec<Look> = (0..grid.columns)
                    .map(|column| plain_look(photo, &frame, &grid, column, row))
                    .collect();
                spectrum.read_row(&frame.light, row, &mut line);
                line
            })
            .collect();
        Some(Self { grid, tiles, frame })
    }
}

/// Light and colour of a tile; the pattern is still to be read.
fn plain_look(photo: &Photo, frame: &Frame, grid: &Grid, column: usize, row: usize) -> Look {
    let stride = frame.size().0;
    let (mut light, mut white) = (0.0, 0.0);
    for y in row * TILE..(row + 1) * TILE {
        for value in &frame.light.as_raw()[y * stride + column * TILE..][..TILE] {
            light += value;
            white += f32::from(u8::from(*value >= WHITE));
        }
    }
    let count = (TILE * TILE) as f32;
    Look {
        light: light / count,
        white: white / count,
        colour: colour(
            photo,
            grid.middle(row * grid.columns + column),
            grid.tile_px,
        ),
        pattern: 0.0,
        detail: 0.0,
    }
}

/// Mean red and blue over green about a place, from eight by eight pixels of the photo.
///
/// The square of a sample is its light to within some per cent, which is all that a comparison of
/// hues needs.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "places on the photo"
)]
fn colour(photo: &Photo, middle: Point, tile_px: f64) -> [f32; 2] {
    let (width, height) = photo.rgb.dimensions();
    let mut sum = [1.0_f32; 3];
    let at = |middle: f64, i: usize, limit: u32| {
        let offset = (i as f64 + 0.5) / TILE as f64 - 0.5;
        ((middle + offset * tile_px).max(0.0) as u32).min(limit - 1)
    };
    for j in 0..TILE {
        for i in 0..TILE {
            let pixel = photo
                .rgb
                .get_pixel(at(middle.x, i, width), at(middle.y, j, height));
            for (sum, sample) in sum.iter_mut().zip(pixel.0) {
                *sum += f32::from(sample).powi(2);
            }
        }
    }
    // A tenth of all light added to each: the hue of what is nearly black means little.
    let some = 0.1 * (sum[0] + sum[1] + sum[2]);
    [0, 2].map(|c: usize| (sum[c] + some) / (sum[1] + some))
}

/// Where in a window's spectrum a frequency belongs.
#[derive(Clone, Copy)]
enum Band {
    Pattern,
    Detail,
    Noise,
}

/// Reads windows by Fourier transform, two at a time: one as the real part, one as the imaginary.
struct Spectrum {
    fft: Arc<dyn Fft<f32>>,
    /// Hann window along one side.
    window: Vec<f32>,
    /// Frequencies that count, with what makes up for the averaging into pixels.
    bins: Vec<(usize, Band, f32)>,
    /// Frequencies in pattern and detail.
    counts: [f32; 2],
}

impl Spectrum {
    fn new(pixels_are_means: bool) -> Self {
        let signed = |k: usize| {
            if k > SIDE / 2 {
                k as f32 - SIDE as f32
            } else {
                k as f32
            }
        };
        // A mean over a pixel's width damps by the sinc of the frequency.
        let damping = |k: f32| {
            let x = PI * k / SIDE as f32;
            if pixels_are_means && x != 0.0 {
                (x.sin() / x).powi(2)
            } else {
                1.0
            }
        };
        let mut counts = [0.0; 2];
        let bins = (0..SIDE * SIDE)
            .filter_map(|bin| {
                let (kx, ky) = (signed(bin % SIDE), signed(bin / SIDE));
                let per_spacing = kx.hypot(ky) / WINDOW_SPACINGS as f32;
                let within = |[from, to]: [f32; 2]| (from..to).contains(&per_spacing);
                let band = if within(PATTERN) {
                    Band::Pattern
                } else if within(DETAIL) {
                    Band::Detail
                } else if per_spacing >= NOISE {
                    Band::Noise
                } else {
                    return None;
                };
                if let Some(count) = counts.get_mut(band as usize) {
                    *count += 1.0;
                }
                Some((bin, band, 1.0 / (damping(kx) * damping(ky))))
            })
            .collect();
        Self {
            fft: FftPlanner::new().plan_fft_forward(SIDE),
            window: (0..SIDE)
                .map(|i| (PI * (i as f32 + 0.5) / SIDE as f32).sin().powi(2))
                .collect(),
            bins,
            counts,
        }
    }

    /// Fills in pattern and detail along one row of tiles.
    fn read_row(&self, light: &Light, row: usize, line: &mut [Look]) {
        let start = |tile: usize, limit: u32| {
            (tile * TILE + TILE / 2)
                .saturating_sub(SIDE / 2)
                .min(limit as usize - SIDE)
        };
        let y = start(row, light.height());
        let mut field = vec![Complex::new(0.0, 0.0); SIDE * SIDE];
        let mut turned = field.clone();
        let mut first = 0;
        for pair in line.chunks_mut(2) {
            field.fill(Complex::new(0.0, 0.0));
            for i in 0..pair.len() {
                self.cut(
                    light,
                    start(first + i, light.width()),
                    y,
                    &mut field,
                    i == 1,
                );
            }
            self.transform(&mut field, &mut turned);
            for (i, look) in pair.iter_mut().enumerate() {
                [look.pattern, look.detail] = self.read(&field, i == 1);
            }
            first += 2;
        }
    }

    /// Cuts out a window, its light relative to the plane that fits it best.
    fn cut(
        &self,
        light: &Light,
        x: usize,
        y: usize,
        field: &mut [Complex<f32>],
        as_imaginary: bool,
    ) {
        let stride = light.width() as usize;
        let rows = || light.as_raw()[y * stride + x..].chunks(stride).take(SIDE);
        let middle = (SIDE as f32 - 1.0) / 2.0;
        let (mut mean, mut slope_x, mut slope_y) = (0.0, 0.0, 0.0);
        for (j, values) in rows().enumerate() {
            for (i, value) in values[..SIDE].iter().enumerate() {
                mean += value;
                slope_x += value * (i as f32 - middle);
                slope_y += value * (j as f32 - middle);
            }
        }
        let count = (SIDE * SIDE) as f32;
        let square_sum = count * (count - 1.0) / 12.0;
        mean /= count;
        slope_x /= square_sum;
        slope_y /= square_sum;
        // Where there is no light there is no pattern either.
        if mean <= 1e-4 {
            return;
        }
        for (j, values) in rows().enumerate() {
            for (i, value) in values[..SIDE].iter().enumerate() {
                let level = mean + slope_x * (i as f32 - middle) + slope_y * (j as f32 - middle);
                let relative =
                    (value / level.max(0.2 * mean) - 1.0) * self.window[i] * self.window[j];
                let cell = &mut field[j * SIDE + i];
                if as_imaginary {
                    cell.im = relative;
                } else {
                    cell.re = relative;
                }
            }
        }
    }

    /// Transforms along both sides; what comes out is transposed, which no ring minds.
    fn transform(&self, field: &mut [Complex<f32>], turned: &mut [Complex<f32>]) {
        self.fft.process(field);
        for (k, cell) in turned.iter_mut().enumerate() {
            *cell = field[(k % SIDE) * SIDE + k / SIDE];
        }
        self.fft.process(turned);
        field.copy_from_slice(turned);
    }

    /// Variance of pattern and of detail in one of the two windows.
    fn read(&self, field: &[Complex<f32>], imaginary: bool) -> [f32; 2] {
        let mut power = [0.0_f32; 2];
        let mut noise: Vec<f32> = Vec::with_capacity(self.bins.len());
        for &(bin, band, gain) in &self.bins {
            let opposite = (SIDE - bin / SIDE) % SIDE * SIDE + (SIDE - bin % SIDE) % SIDE;
            let (here, there) = (field[bin], field[opposite].conj());
            let part = if imaginary {
                here - there
            } else {
                here + there
            };
            let part = 0.25 * part.norm_sqr() * gain;
            match band {
                Band::Pattern | Band::Detail => power[band as usize] += part,
                Band::Noise => noise.push(part),
            }
        }
        // Power of noise is distributed exponentially, its median ln 2 of its mean. The median,
        // because overtones of straight walls stand out of the noise in a few directions.
        let floor = super::quantile(noise.into_iter(), 0.5) / std::f32::consts::LN_2;
        // Mean square of the window, and the transform's own factor.
        let mean_square = (self.window.iter().map(|w| w * w).sum::<f32>() / SIDE as f32).powi(2);
        let scale = 1.0 / ((SIDE * SIDE) as f32).powi(2) / mean_square;
        [Band::Pattern, Band::Detail].map(|band| {
            let noise = floor * self.counts[band as usize];
            (power[band as usize] - noise).max(0.0) * scale
        })
    }
}
