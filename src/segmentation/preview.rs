//! How the outlines would run with walls of another height, at once and roughly, for the part in view.
//!
//! Floods as fine as can be asked for are kept, and the passes between them. To join them by another rule
//! is a matter of those passes alone; to draw them, of the pixels on the screen. Neither blur nor narrow
//! gaps are reckoned with: the full measurement follows.

use super::basins::Basins;
use super::borders::{self, Border};
use super::floods::{Floods, parents, sunk_by_less_than};
use super::frame::Frame;
use super::label::Connectivity;
use super::{Phase, Segmentation, rule, turned, usual_rule};
use crate::corrections::LeastWall;
use crate::geometry::Point;
use crate::photo::Light;
use rayon::prelude::*;
use std::sync::Arc;

/// Deeper than this is void.
const VOID: f32 = 0.5;

/// What outlines are previewed from.
#[derive(Debug)]
pub struct Preview {
    phase: Phase,
    frame: Arc<Frame>,
    /// Depth, turned round where regions are walls.
    plane: Arc<Light>,
    floods: Basins,
    /// The deepest pass first.
    borders: Vec<Border>,
    usual: f32,
}

/// Which floods are one at a height of walls.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Joined(Vec<u32>);

impl Preview {
    /// Gets ready to preview the regions of a phase.
    #[must_use]
    pub fn of(segmentation: &Segmentation, phase: Phase) -> Self {
        let plane = match phase {
            Phase::Void => Arc::clone(&segmentation.depth),
            Phase::Wall => Arc::new(turned(&segmentation.depth)),
        };
        let seen = &segmentation.seen;
        let floods = Floods::of(&plane, seen);
        let usual = usual_rule(&floods);
        let [least, _] = LeastWall::RANGE;
        #[expect(clippy::cast_possible_truncation, reason = "a multiple of order one")]
        let finest = usual * least as f32;
        let (floods, mut borders) = floods.joined(sunk_by_less_than(finest));
        borders::deepest_first(&mut borders);
        Self {
            phase,
            frame: Arc::clone(&segmentation.frame),
            plane,
            floods,
            borders,
            usual,
        }
    }

    /// Whether it is what [`Self::of`] would make of a segmentation.
    #[must_use]
    pub fn is_of(&self, segmentation: &Segmentation, phase: Phase) -> bool {
        self.phase == phase && Arc::ptr_eq(&self.frame, &segmentation.frame)
    }

    /// Which floods are one where walls have to be so high.
    #[must_use]
    pub fn joined(&self, least_wall: LeastWall) -> Joined {
        let rule = rule(self.usual, least_wall);
        let passes = borders::passes(&self.borders, Connectivity::Eight);
        Joined(parents(
            &self.floods.deepest,
            passes,
            sunk_by_less_than(rule),
        ))
    }

    /// How many regions there are of floods so joined, with what lies in the margin about the area.
    #[must_use]
    pub fn count(&self, joined: &Joined) -> usize {
        let tops = joined.0.iter().zip(0_u32..).skip(1);
        tops.filter(|(top, label)| *top == label).count()
    }

    /// Which pixels of a screen lie on an outline, row by row. `place` tells where on the photo a pixel
    /// lies.
    #[must_use]
    pub fn outlines(
        &self,
        joined: &Joined,
        [width, height]: [usize; 2],
        place: impl Fn(f64, f64) -> Point + Sync,
    ) -> Vec<bool> {
        // One row and one column more, so that the last ones have neighbours too.
        let columns = width + 1;
        let region: Vec<u32> = (0..columns * (height + 1))
            .into_par_iter()
            .with_min_len(columns)
            .map(|pixel| {
                let (x, y) = ((pixel % columns) as f64, (pixel / columns) as f64);
                self.region_at(joined, place(x + 0.5, y + 0.5))
            })
            .collect();
        (0..width * height)
            .map(|pixel| {
                let at = pixel / width * columns + pixel % width;
                region[at] != region[at + 1] || region[at] != region[at + columns]
            })
            .collect()
    }

    /// The region that holds a place of the photo; 0 in walls.
    fn region_at(&self, joined: &Joined, place: Point) -> u32 {
        let p = self.frame.frame_from_photo(place);
        let (width, height) = self.frame.size();
        let inside = p.x >= 0.0 && p.y >= 0.0 && p.x < width as f64 && p.y < height as f64;
        if !inside || self.depth_at(p) <= VOID {
            return 0;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "inside the frame"
        )]
        let pixel = p.y as usize * width + p.x as usize;
        joined.0[self.floods.of_pixel[pixel] as usize]
    }

    /// Depth at a place of the frame, between pixel centres in proportion.
    fn depth_at(&self, p: Point) -> f32 {
        let (width, height) = self.frame.size();
        let raw = self.plane.as_raw();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped to the frame"
        )]
        let along = |at: f64, length: usize| {
            let at = (at - 0.5).clamp(0.0, (length - 1) as f64);
            let first = at as usize;
            (first, (first + 1).min(length - 1), (at - at.floor()) as f32)
        };
        let (left, right, x) = along(p.x, width);
        let (up, down, y) = along(p.y, height);
        let row = |line: usize| {
            let line = &raw[line * width..];
            line[left] + x * (line[right] - line[left])
        };
        let (upper, lower) = (row(up), row(down));
        upper + y * (lower - upper)
    }
}
