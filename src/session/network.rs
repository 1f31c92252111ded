//! A small picture of why a surface is what it is said to be: a piece of it with its hollows, and the same
//! piece with its walls, each with its largest connected part set apart.

use crate::findings::Traced;
use crate::segmentation::PX_PER_SPACING;
use crate::segmentation::label::{Connectivity, Labels};
use crate::wording::text;

/// Side of the piece, in spacings.
const PIECE: f64 = 9.0;
/// Outlines lie at half depth.
const HALF_DEPTH: f32 = 0.5;
/// Parts smaller than this share of a cell are specks, and not told.
const SPECK: f64 = 0.08;

/// What a pixel belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The other phase.
    Other,
    /// The largest connected part.
    Largest,
    /// Another part.
    Separate,
}

/// One phase of the piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Web {
    /// Row by row, what each pixel belongs to.
    pub of_pixel: Vec<Part>,
    /// How many parts there are, specks left out.
    pub parts: usize,
    /// Share of the phase that lies in the largest part, per cent.
    pub largest_per_cent: usize,
}

/// The piece with both phases.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Network {
    /// Width and height, px.
    pub size: [usize; 2],
    /// Hollows.
    pub hollows: Web,
    /// Walls.
    pub walls: Web,
}

impl Network {
    /// A piece from the middle of what was segmented; `None` where there is none of that size.
    pub(super) fn of(traced: &Traced) -> Option<Self> {
        let segmentation = &traced.segmentation;
        let (width, height) = segmentation.frame.size();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "162 px"
        )]
        let side = (PIECE * PX_PER_SPACING) as usize;
        let [across, down] = [width.min(side), height.min(side)];
        let corner = fullest(&segmentation.area, [width, height], [across, down])?;
        let depth = segmentation.depth.as_raw();
        let is_hollow = |x: u32, y: u32| {
            let (x, y) = (corner[0] + x as usize, corner[1] + y as usize);
            depth[y * width + x] > HALF_DEPTH
        };
        Some(Self {
            size: [across, down],
            hollows: web([across, down], is_hollow, Connectivity::Four)?,
            walls: web([across, down], |x, y| !is_hollow(x, y), Connectivity::Eight)?,
        })
    }

    /// What it shows, in words.
    #[must_use]
    pub fn words(&self) -> String {
        let says = |web: &Web| {
            text!(
                "pieces-of-a-phase",
                count = web.parts,
                per_cent = web.largest_per_cent
            )
        };
        text!(
            "hollows-and-walls",
            hollows = says(&self.hollows),
            walls = says(&self.walls)
        )
    }
}

/// The corner of the piece that lies wholly in the area, as near the middle as there is one, or else that
/// with most of it.
fn fullest(
    area: &[bool],
    [width, height]: [usize; 2],
    [across, down]: [usize; 2],
) -> Option<[usize; 2]> {
    let steps = 8;
    let places = |all: usize, piece: usize| (0..=steps).map(move |k| (all - piece) * k / steps);
    let middle = [(width - across) / 2, (height - down) / 2];
    let inside = |[left, top]: [usize; 2]| {
        (top..top + down)
            .map(|y| &area[y * width + left..y * width + left + across])
            .map(|row| row.iter().filter(|inside| **inside).count())
            .sum::<usize>()
    };
    let corners = places(height, down).flat_map(|y| places(width, across).map(move |x| [x, y]));
    corners
        .map(|corner| {
            let away = corner[0].abs_diff(middle[0]) + corner[1].abs_diff(middle[1]);
            (inside(corner), std::cmp::Reverse(away), corner)
        })
        .max()
        .filter(|(inside, ..)| *inside > 0)
        .map(|(.., corner)| corner)
}

/// One phase; `None` where there is nothing of it.
fn web(
    [across, down]: [usize; 2],
    is_of: impl Fn(u32, u32) -> bool,
    connectivity: Connectivity,
) -> Option<Web> {
    let labels = Labels::of(
        u32::try_from(across).ok()?,
        u32::try_from(down).ok()?,
        is_of,
        connectivity,
    );
    let mut sizes = vec![0_usize; labels.count as usize + 1];
    for label in &labels.of_pixel {
        sizes[*label as usize] += 1;
    }
    let sizes = &sizes[1..];
    let (largest, most) = sizes.iter().enumerate().max_by_key(|(_, size)| **size)?;
    let cell = 3.0_f64.sqrt() / 2.0 * PX_PER_SPACING * PX_PER_SPACING;
    let all: usize = sizes.iter().sum();
    Some(Web {
        of_pixel: labels
            .of_pixel
            .iter()
            .map(|label| match *label as usize {
                0 => Part::Other,
                label if label == largest + 1 => Part::Largest,
                _ => Part::Separate,
            })
            .collect(),
        parts: sizes
            .iter()
            .filter(|size| **size as f64 >= SPECK * cell)
            .count()
            .max(1),
        largest_per_cent: (100 * most + all / 2) / all,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn separate_hollows_in_one_wall_are_told_from_it() {
        // Squares of 8 px every 18 px.
        let is_hollow = |x: u32, y: u32| x % 18 < 8 && y % 18 < 8;
        let hollows = web([72, 72], is_hollow, Connectivity::Four).expect("hollows");
        assert_eq!((hollows.parts, hollows.largest_per_cent), (16, 6));
        let walls = web([72, 72], |x, y| !is_hollow(x, y), Connectivity::Eight).expect("walls");
        assert_eq!((walls.parts, walls.largest_per_cent), (1, 100));
        assert_eq!(web([72, 72], |_, _| false, Connectivity::Four), None);
    }
}
