//! What is bright and what is dark here: local light levels of walls and voids.
//!
//! Light falls off across a photo, so one grey level for all of it will not do. Starting from the
//! local mean, the level half-way between the local means of what lies below and above it is found
//! by iteration (Ridler & Calvard 1978, IEEE Trans. SMC 8: 630–632, done locally).

use super::gaussian;
use crate::photo::Light;
use rayon::prelude::*;

/// Side of a cell of the coarse grid on which means are kept, as a share of the spacing.
const CELL: f64 = 0.5;
/// Standard deviation of the neighbourhood over which levels are averaged, in spacings.
const REACH: f64 = 1.5;
/// Rounds of the iteration; the level moves by less than 1 % after four.
const ROUNDS: usize = 5;
/// Contrast below this share of the photo's median counts as this share, so that noise on a
/// structureless part is not blown up into pores.
const CONTRAST_FLOOR: f64 = 0.45;

/// Local light levels on a coarse grid.
#[derive(Debug, Clone)]
pub struct Levels {
    /// Frame px per cell.
    cell: f64,
    void: Light,
    wall: Light,
    /// Median over the area of (wall − void) / wall.
    pub contrast: f64,
}

/// Sums over the pixels of each cell.
struct Sums {
    weight: Light,
    light: Light,
}

impl Levels {
    /// Finds the levels of a plane with `px_per_spacing` px per spacing, from pixels in `area` only.
    #[must_use]
    pub fn find(light: &Light, area: &[bool], px_per_spacing: f64) -> Self {
        let cell = CELL * px_per_spacing;
        let reach = REACH / CELL;
        let [_, all] = Sums::of(light, area, cell, None);
        let all = local_mean(&all, reach);
        let mut void = all.clone();
        let mut wall = all;
        for _ in 0..ROUNDS {
            let middle = mean_of(&void, &wall);
            let [below, above] = Sums::of(light, area, cell, Some(&middle));
            void = local_mean(&below, reach);
            wall = local_mean(&above, reach);
        }
        let mut levels = Self {
            cell,
            void,
            wall,
            contrast: 0.0,
        };
        levels.contrast = levels.median_contrast(area, light.width() as usize);
        levels
    }

    /// Depth of every pixel: 0 at the level of the walls, 1 at that of the voids.
    #[must_use]
    pub fn depth(&self, light: &Light) -> Light {
        let width = light.width() as usize;
        #[expect(clippy::cast_possible_truncation, reason = "a share")]
        let floor = (CONTRAST_FLOOR * self.contrast) as f32;
        let places = places(width, self.wall.width() as usize, self.cell);
        let mut depth = light.clone();
        depth
            .par_chunks_mut(width.max(1))
            .enumerate()
            .for_each(|(y, row)| {
                let walls = across(&self.wall, y, self.cell);
                let voids = across(&self.void, y, self.cell);
                for (value, place) in row.iter_mut().zip(&places) {
                    let wall = place.on(&walls);
                    let void = place.on(&voids);
                    let contrast = (wall - void).max(floor * wall).max(1e-6);
                    *value = ((wall - *value) / contrast).clamp(-1.0, 2.0);
                }
            });
        depth
    }

    fn median_contrast(&self, area: &[bool], width: usize) -> f64 {
        let cells = self.void.width() as usize;
        let mut ratios: Vec<f32> = self
            .void
            .as_raw()
            .iter()
            .zip(self.wall.as_raw())
            .enumerate()
            .filter(|(i, (_, wall))| {
                **wall > 0.0 && {
                    #[expect(
                        clippy::cast_possible_truncation,
                        clippy::cast_sign_loss,
                        clippy::cast_precision_loss,
                        reason = "pixel numbers"
                    )]
                    let centre = |cell: usize| ((cell as f64 + 0.5) * self.cell) as usize;
                    let (x, y) = (centre(i % cells), centre(i / cells));
                    x < width && area.get(y * width + x).copied().unwrap_or(false)
                }
            })
            .map(|(_, (void, wall))| (wall - void) / wall)
            .collect();
        if ratios.is_empty() {
            return 0.0;
        }
        let middle = ratios.len() / 2;
        f64::from(*ratios.select_nth_unstable_by(middle, f32::total_cmp).1)
    }
}

impl Sums {
    /// Of what lies below a level given on the coarse grid, and of all else.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "pixel and cell numbers"
    )]
    fn of(light: &Light, area: &[bool], cell: f64, level: Option<&Light>) -> [Self; 2] {
        let (width, height) = (light.width() as usize, light.height() as usize);
        let cells = |pixels: usize| ((pixels as f64 / cell).ceil() as usize).max(1);
        let (columns, down) = (cells(width), cells(height));
        let column: Vec<usize> = (0..width)
            .map(|x| ((x as f64 / cell) as usize).min(columns - 1))
            .collect();
        let places = places(width, columns, cell);
        let rows: Vec<[[Vec<f32>; 2]; 2]> = (0..down)
            .into_par_iter()
            .map(|row| {
                let mut sums: [[Vec<f32>; 2]; 2] =
                    std::array::from_fn(|_| std::array::from_fn(|_| vec![0.0_f32; columns]));
                let from = ((row as f64 * cell).ceil() as usize).min(height);
                let to = (((row + 1) as f64 * cell).ceil() as usize).min(height);
                for y in from..to {
                    let level = level.map(|level| across(level, y, cell));
                    let row = y * width..(y + 1) * width;
                    let pixels = light.as_raw()[row.clone()].iter().zip(&area[row]);
                    for (x, (&value, _)) in pixels.enumerate().filter(|(_, (_, inside))| **inside) {
                        let is_below = level
                            .as_ref()
                            .is_some_and(|level| value < places[x].on(level));
                        let [weight, light] = &mut sums[usize::from(!is_below)];
                        weight[column[x]] += 1.0;
                        light[column[x]] += value;
                    }
                }
                sums
            })
            .collect();
        std::array::from_fn(|side| {
            let plane = |which: usize| {
                let rows = rows.iter().flat_map(|sums| &sums[side][which]);
                let plane = rows.copied().collect();
                Light::from_raw(columns as u32, down as u32, plane).unwrap_or_default()
            };
            Self {
                weight: plane(0),
                light: plane(1),
            }
        })
    }
}

/// Mean light about each cell. Cells far from any pixel that counts take the overall mean.
fn local_mean(sums: &Sums, reach: f64) -> Light {
    #[expect(clippy::cast_possible_truncation, reason = "a few cells")]
    let reach = reach as f32;
    let mut weight = gaussian::blur(&sums.weight, reach);
    let mut light = gaussian::blur(&sums.light, reach);
    // A faint share of the wider neighbourhood fills places that have none of their own.
    let wide_weight = gaussian::blur(&weight, 6.0 * reach);
    let wide_light = gaussian::blur(&light, 6.0 * reach);
    let total = sums.weight.as_raw().iter().sum::<f32>();
    let mean = if total > 0.0 {
        sums.light.as_raw().iter().sum::<f32>() / total
    } else {
        0.0
    };
    for ((w, l), (ww, wl)) in weight
        .iter_mut()
        .zip(light.iter_mut())
        .zip(wide_weight.iter().zip(wide_light.iter()))
    {
        *w += 0.02 * ww + 1e-6;
        *l += 0.02 * wl + 1e-6 * mean;
        *l /= *w;
    }
    light
}

fn mean_of(a: &Light, b: &Light) -> Light {
    let mut mean = a.clone();
    for (m, b) in mean.iter_mut().zip(b.iter()) {
        *m = f32::midpoint(*m, *b);
    }
    mean
}

/// Where the centre of a pixel lies between two cells of the coarse grid.
#[derive(Clone, Copy)]
struct Place {
    first: usize,
    second: usize,
    share_of_second: f32,
}

impl Place {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "cell numbers"
    )]
    fn of(pixel: usize, cells: usize, cell: f64) -> Self {
        let last = cells.saturating_sub(1);
        let position = ((pixel as f64 + 0.5) / cell - 0.5).clamp(0.0, last as f64);
        let first = (position as usize).min(cells.saturating_sub(2));
        Self {
            first,
            second: (first + 1).min(last),
            share_of_second: (position - first as f64) as f32,
        }
    }

    fn between(self, first: f32, second: f32) -> f32 {
        first * (1.0 - self.share_of_second) + second * self.share_of_second
    }

    /// The value on a row of cells.
    fn on(self, row: &[f32]) -> f32 {
        self.between(row[self.first], row[self.second])
    }
}

/// Places of all pixels of a row.
fn places(width: usize, cells: usize, cell: f64) -> Vec<Place> {
    (0..width).map(|x| Place::of(x, cells, cell)).collect()
}

/// The coarse plane at the height of a row of pixels; with [`Place::on`] bilinear.
fn across(plane: &Light, y: usize, cell: f64) -> Vec<f32> {
    let width = plane.width() as usize;
    let place = Place::of(y, plane.height() as usize, cell);
    let row = |j: usize| &plane.as_raw()[j * width..(j + 1) * width];
    row(place.first)
        .iter()
        .zip(row(place.second))
        .map(|(a, b)| place.between(*a, *b))
        .collect()
}
