//! Which pixels drain to the same deepest point: one basin for every void.

use super::floods::Floods;
use crate::photo::Light;

/// Labels from 1; 0 where nothing was flooded.
#[derive(Debug, Clone)]
pub struct Basins {
    /// Row by row.
    pub of_pixel: Vec<u32>,
    /// Deepest depth of each basin; index 0 is unused.
    pub deepest: Vec<f32>,
}

impl Basins {
    /// Basins numbered in reading order, once it is known which floods have become one, and the number that
    /// each flood has now.
    #[must_use]
    pub(super) fn numbered(
        mut of_pixel: Vec<u32>,
        parent: &[u32],
        deepest: &[f32],
    ) -> (Self, Vec<u32>) {
        let mut numbers = vec![0_u32; parent.len()];
        let mut kept = vec![f32::NEG_INFINITY];
        for label in &mut of_pixel {
            if *label == 0 {
                continue;
            }
            let top = parent[*label as usize] as usize;
            if numbers[top] == 0 {
                #[expect(clippy::cast_possible_truncation, reason = "fewer than pixels")]
                let number = kept.len() as u32;
                numbers[top] = number;
                kept.push(deepest[top]);
            }
            *label = numbers[top];
        }
        let numbers = parent.iter().map(|top| numbers[*top as usize]).collect();
        let basins = Self {
            of_pixel,
            deepest: kept,
        };
        (basins, numbers)
    }

    /// Each basin flooded again by another plane, within its own bounds. `joins` is told how deep the
    /// shallower of two floods goes, and how deep their pass is. The depths stay those of `depth`.
    #[must_use]
    pub fn parted(&self, plane: &Light, joins: impl Fn(f32, f32) -> bool, depth: &Light) -> Self {
        let (mut parted, _) = Floods::of(plane, &self.of_pixel).joined(joins);
        parted.deepest.fill(f32::NEG_INFINITY);
        for (label, depth) in parted.of_pixel.iter().zip(depth.iter()) {
            if *label != 0 {
                let deepest = &mut parted.deepest[*label as usize];
                *deepest = deepest.max(*depth);
            }
        }
        parted
    }

    /// Basins numbered in reading order, after their pixels were given out anew; with them what was
    /// known of each label.
    #[must_use]
    pub(super) fn renumbered(self, known: &[bool]) -> (Self, Vec<bool>) {
        let parent: Vec<u32> = (0_u32..).take(self.deepest.len()).collect();
        let before = self.of_pixel.clone();
        let (numbered, _) = Self::numbered(self.of_pixel, &parent, &self.deepest);
        let mut carried = vec![false; numbered.deepest.len()];
        for (now, before) in numbered.of_pixel.iter().zip(before) {
            carried[*now as usize] = known[before as usize];
        }
        (numbered, carried)
    }

    /// How many basins there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.deepest.len() - 1
    }
}
