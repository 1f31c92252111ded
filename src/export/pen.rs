//! How thick lines are drawn on a photo, and how large letters.

use crate::pores::Pore;
use image::RgbImage;

/// Sizes that grow with the photo, so that the overlay looks the same at any resolution.
#[derive(Clone, Copy)]
pub(super) struct Pen {
    /// Width of outlines, px.
    pub(super) outline: f64,
    /// Width of the area's edge and of count lines, px.
    pub(super) line: f64,
    /// What the casing adds on each side, px.
    pub(super) casing: f64,
    /// Height of letters, px.
    pub(super) font: f32,
}

impl Pen {
    /// `letters` is the height of letters as a share of the longer side.
    pub(super) fn fitting(picture: &RgbImage, regions: &[Pore], letters: f64) -> Self {
        let side = f64::from(picture.width().max(picture.height()));
        let line = (side / 600.0).max(1.5);
        // Small pores get thin outlines, or they would drown in them.
        let mut diameters: Vec<f64> = regions.iter().map(|region| region.diameter().0).collect();
        diameters.sort_by(f64::total_cmp);
        let outline = diameters
            .get(diameters.len() / 2)
            .map_or(line, |median| line.min(median / 15.0).max(1.0));
        #[expect(clippy::cast_possible_truncation, reason = "a few thousand at most")]
        let font = (side * letters).max(13.0) as f32;
        Self {
            outline,
            line,
            casing: outline * 0.6,
            font,
        }
    }
}
