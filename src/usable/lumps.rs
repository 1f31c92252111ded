//! What lies on the surface and hides it: grains, crumbs of soil, bits of leaf, heaps of spores.
//!
//! It need not differ in light or colour from walls and hollows, but it is larger than either. Where
//! pores are, no disc nearly two spacings across is all wall or all hollow.

use super::looks::{Grid, Looks, TILE};
use super::mask::grown;
use crate::segmentation::Levels;
use image::{GrayImage, Luma};
use imageproc::distance_transform::euclidean_squared_distance_transform;

/// Radius of a disc of wall or hollow alone that has no place between pores, spacings. Where one pore of
/// a triangular lattice is missing, the next centres are 1 spacing away, where three are 1.15, and
/// their pores reach at least 0.3 nearer.
const LUMP: f64 = 0.85;
/// Where a disc of this radius still fits, a lump goes on; between pores there is no room for it.
const GOES_ON: f64 = 0.6;
/// Margin about a lump, spacings: pores that it hides in part have their visible centroid there. It is half
/// the width of round pores on a triangular lattice that make half of the surface, √(√3/(4π)).
const MARGIN: f64 = 0.37;
/// Depth between the levels of wall and hollow.
const HALF_WAY: f32 = 0.5;

/// Which tiles hold a part of a lump, or lie within its margin. Tiles where surface is `seen` tell what
/// is wall and what is hollow; lumps begin there, or where something is known that `hides` it.
pub(super) fn lumps(looks: &Looks, seen: &[bool], hides: &[bool]) -> Vec<bool> {
    let Looks { grid, frame, .. } = looks;
    let (width, height) = frame.size();
    let tile_of = |pixel: usize| {
        let (x, y) = (pixel % width / TILE, pixel / width / TILE);
        y.min(grid.rows - 1) * grid.columns + x.min(grid.columns - 1)
    };
    let surface: Vec<bool> = (0..width * height).map(|p| seen[tile_of(p)]).collect();
    let depth = Levels::find(&frame.light, &surface, TILE as f64).depth(&frame.light);
    let pixels = Grid {
        tile_px: grid.tile_px / TILE as f64,
        columns: width,
        rows: height,
        ..*grid
    };
    let lumps_of = |hollow: bool| {
        let mut tiles = vec![false; seen.len()];
        let is_other = |pixel: usize| (depth.as_raw()[pixel] > HALF_WAY) != hollow;
        let room = distances(width, height, is_other);
        let wide: Vec<bool> = room.iter().map(|room| *room >= GOES_ON).collect();
        let lump: Vec<bool> = (room.iter().enumerate())
            .map(|(pixel, room)| *room >= LUMP && (surface[pixel] || hides[tile_of(pixel)]))
            .collect();
        if !lump.contains(&true) {
            return tiles;
        }
        let core = grown(&pixels, &lump, &wide);
        let from_core = distances(width, height, |pixel| core[pixel]);
        for (pixel, _) in from_core
            .iter()
            .enumerate()
            .filter(|(_, distance)| **distance <= GOES_ON + MARGIN)
        {
            tiles[tile_of(pixel)] = true;
        }
        tiles
    };
    let (of_hollow, of_wall) = rayon::join(|| lumps_of(true), || lumps_of(false));
    of_hollow
        .iter()
        .zip(of_wall)
        .map(|(a, b)| *a || b)
        .collect()
}

/// Distance of every pixel to the nearest one for which `is_there` holds, spacings; where none is, as far
/// as the frame reaches.
#[expect(clippy::cast_possible_truncation, reason = "sides of a photo")]
fn distances(width: usize, height: usize, is_there: impl Fn(usize) -> bool) -> Vec<f64> {
    let mask = GrayImage::from_fn(width as u32, height as u32, |x, y| {
        Luma([255 * u8::from(is_there(y as usize * width + x as usize))])
    });
    euclidean_squared_distance_transform(&mask)
        .iter()
        .map(|square| square.sqrt().min((width + height) as f64) / TILE as f64)
        .collect()
}
