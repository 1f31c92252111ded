//! How voids and walls hang together: which phase comes in closed-off pieces of pore size.

use super::PX_PER_SPACING;
use super::basins::Basins;
use super::borders::{self, Border};
use super::euler::euler_number;
use super::label::Connectivity;
use crate::photo::Light;
use rayon::prelude::*;

/// Pieces up to this many cells count as pore-sized; irregular packings have pores of three.
const LARGEST_PIECE: f64 = 3.5;
/// Pieces below this many cells are specks.
const SMALLEST_PIECE: f64 = 0.08;
/// A wall this high above the floor of the shallower of two voids closes them off too, in enclosures.
const CLOSING_HEIGHT: f32 = 0.5;
/// Share of isolated void, and number of voids, from which on their count tells the spacing.
const NEARLY_ALL: f64 = 0.8;
const FEW: usize = 8;
/// A pass below this depth closes two voids off from each other.
const CLOSED: f32 = 0.5;

/// Isolation of the two phases.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Topology {
    /// Share of the void phase that lies in pore-sized pieces, 0–1.
    pub void_isolation: f64,
    /// Share of the wall phase that lies in pore-sized pieces, 0–1.
    pub wall_isolation: f64,
    /// The same as `void_isolation`, where a wall counts that rises by half the contrast above the
    /// void's floor, though it does not reach half-way to the brightest tissue near by: pores in
    /// sunken fields.
    pub void_enclosure: f64,
    /// The same of the wall phase.
    pub wall_enclosure: f64,
    /// Pore-sized closed-off voids in the area.
    pub voids: usize,
    /// Pore-sized closed-off walls in the area.
    pub walls: usize,
    /// Euler number of the voids (pieces less holes) per cell: about 1 where pores lie in a connected
    /// wall, −1 where teeth stand in a connected void, near 0 where neither is isolated.
    pub void_euler: f64,
    /// How far the slopes of the surface point one way: 0 all ways alike, 1 perfectly parallel.
    pub alignment: f64,
    /// Pixels of the area.
    pub area_px: usize,
}

/// Area in cells of one spacing: √3/2 · spacing².
#[expect(clippy::cast_precision_loss, reason = "pixel counts")]
fn cells(pixels: usize) -> f64 {
    pixels as f64 / (3.0_f64.sqrt() / 2.0 * PX_PER_SPACING * PX_PER_SPACING)
}

impl Topology {
    /// Looks at both phases, each given by its depth (that of walls is 1 less that of voids) and by its basins
    /// with their borders.
    #[must_use]
    pub fn of(
        (depth, voids): (&Light, &(Basins, Vec<Border>)),
        (turned, walls): (&Light, &(Basins, Vec<Border>)),
        area: &[bool],
    ) -> Self {
        let looked_at = |depth: &Light, (basins, borders): &(Basins, Vec<Border>)| {
            let sizes = sizes(depth, basins, area);
            let (enclosure, _) = isolation(basins, borders, &sizes, CLOSING_HEIGHT);
            let (isolation, pieces) = isolation(basins, borders, &sizes, f32::INFINITY);
            (enclosure, isolation, pieces)
        };
        let ((void_enclosure, void_isolation, voids), (wall_enclosure, wall_isolation, walls)) =
            rayon::join(|| looked_at(depth, voids), || looked_at(turned, walls));
        let area_px = area.iter().filter(|inside| **inside).count();
        let width = depth.width();
        let is_void = |x: u32, y: u32| {
            let pixel = (y * width + x) as usize;
            area[pixel] && depth.as_raw()[pixel] > CLOSED
        };
        let (euler, alignment) = rayon::join(
            || euler_number(width, depth.height(), is_void, Connectivity::Four),
            || alignment(depth, area),
        );
        Self {
            void_euler: euler as f64 / cells(area_px),
            void_isolation,
            wall_isolation,
            void_enclosure,
            wall_enclosure,
            voids,
            walls,
            alignment,
            area_px,
        }
    }

    /// Area per isolated void, frame px²; `None` unless nearly all of the void is isolated and many
    /// are: what hangs together would be missing from the count.
    #[must_use]
    pub fn cells_px(&self) -> Option<f64> {
        #[expect(clippy::cast_precision_loss, reason = "pixel counts")]
        let cells = self.area_px as f64 / self.voids as f64;
        (self.void_isolation > NEARLY_ALL && self.voids > FEW).then_some(cells)
    }

    /// How many spacings squared fit in the area.
    #[must_use]
    pub fn cells(&self) -> f64 {
        cells(self.area_px)
    }
}

/// The piece that basin `i` has become part of.
fn top(parent: &mut [usize], mut i: usize) -> usize {
    while parent[i] != i {
        parent[i] = parent[parent[i]];
        i = parent[i];
    }
    i
}

/// Pixels of each basin in the area that are of the phase.
fn sizes(depth: &Light, basins: &Basins, area: &[bool]) -> Vec<usize> {
    let mut sizes = vec![0_usize; basins.count() + 1];
    let pixels = basins.of_pixel.iter().zip(depth.iter()).zip(area);
    for ((label, value), inside) in pixels {
        sizes[*label as usize] += usize::from(*inside && *value > CLOSED);
    }
    sizes[0] = 0;
    sizes
}

/// Share of the phase's area in pore-sized pieces, and how many such pieces there are, given the size of each
/// basin. Two basins are of one piece when the pass between them is not closed and lower than
/// `closing_height`.
fn isolation(
    basins: &Basins,
    borders: &[Border],
    of_basins: &[usize],
    closing_height: f32,
) -> (f64, usize) {
    let mut parent: Vec<usize> = (0..=basins.count()).collect();
    for ((a, b), pass) in borders::passes(borders, Connectivity::Four) {
        let height = basins.deepest[a as usize].min(basins.deepest[b as usize]) - pass;
        if pass > CLOSED && height < closing_height {
            let (a, b) = (top(&mut parent, a as usize), top(&mut parent, b as usize));
            parent[a.max(b)] = a.min(b);
        }
    }
    let mut sizes = vec![0_usize; parent.len()];
    for (label, size) in of_basins.iter().enumerate() {
        sizes[top(&mut parent, label)] += size;
    }
    let total: usize = sizes.iter().sum();
    let pieces: Vec<usize> = sizes
        .into_iter()
        .filter(|size| (SMALLEST_PIECE..=LARGEST_PIECE).contains(&cells(*size)))
        .collect();
    #[expect(clippy::cast_precision_loss, reason = "pixel counts")]
    let share = pieces.iter().sum::<usize>() as f64 / total.max(1) as f64;
    (share, pieces.len())
}

/// Coherence of the structure tensor summed over the area (Bigün & Granlund 1987):
/// `|Σ (gx + i·gy)²| / Σ |g|²`.
fn alignment(depth: &Light, area: &[bool]) -> f64 {
    let (width, height) = (depth.width() as usize, depth.height() as usize);
    let raw = depth.as_raw();
    let rows: Vec<[f64; 3]> = (1..height.saturating_sub(1))
        .into_par_iter()
        .map(|y| {
            let [mut along, mut across, mut all] = [0.0_f64; 3];
            for x in 1..width.saturating_sub(1) {
                let pixel = y * width + x;
                if area[pixel] {
                    let gx = f64::from(raw[pixel + 1] - raw[pixel - 1]);
                    let gy = f64::from(raw[pixel + width] - raw[pixel - width]);
                    along += gx * gx - gy * gy;
                    across += 2.0 * gx * gy;
                    all += gx * gx + gy * gy;
                }
            }
            [along, across, all]
        })
        .collect();
    let [along, across, all] =
        [0, 1, 2].map(|which| rows.iter().map(|row| row[which]).sum::<f64>());
    if all > 0.0 {
        along.hypot(across) / all
    } else {
        0.0
    }
}
