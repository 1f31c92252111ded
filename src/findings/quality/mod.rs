//! How well a photo lets its surface be seen, measured on the photo itself and against the pores' own
//! scale. It does not depend on the scale in mm.

mod blocks;
mod clipping;
mod darkness;
mod drift;
mod grain;
mod parts;
mod places;

pub use drift::Drift;
pub use places::place_of;

use crate::photo::Photo;
use crate::pores::Pore;
use crate::segmentation::Segmentation;

/// What stands between the surface and its figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Quality {
    /// Share of the hollows' pixels that are black to the end of the file's range, 0–1.
    pub black_hollows: f64,
    /// Share of the walls' pixels that are white to the end of the file's range, 0–1.
    pub white_walls: f64,
    /// Share of the area that lies in the dark and where noise is as strong as the pores, 0–1.
    pub lost_in_the_dark: f64,
    /// Standard deviation of the noise from pixel to pixel as a share of the contrast between hollows
    /// and walls, where there are both.
    pub grain: Option<f64>,
    /// Step across the borders of a JPEG file's blocks, beyond what is found elsewhere, as a share of
    /// the contrast between hollows and walls; `None` of other files.
    pub jpeg_step: Option<f64>,
    /// Steady change of the distance between neighbouring regions, where enough are counted.
    pub drift: Option<Drift>,
}

impl Quality {
    /// Looks at the photo where it was segmented.
    #[must_use]
    pub fn of(photo: &Photo, segmentation: &Segmentation, regions: &[Pore]) -> Self {
        let (ends_of_range, ((lost_in_the_dark, grain), (jpeg_step, drift))) = rayon::join(
            || clipping::ends_of_range(photo, segmentation),
            || {
                rayon::join(
                    || {
                        let lost = darkness::lost_share(photo, segmentation);
                        (lost, grain::grain(photo, segmentation))
                    },
                    || {
                        let step = blocks::step(photo, segmentation);
                        (step, drift::drift(regions, segmentation.spacing_px))
                    },
                )
            },
        );
        let (black_hollows, white_walls) = ends_of_range;
        Self {
            black_hollows,
            white_walls,
            lost_in_the_dark,
            grain,
            jpeg_step,
            drift,
        }
    }
}

/// Calls `visit` with every frame pixel of the area: the photo pixel at its centre, and whether it is
/// dark enough for a hollow.
fn each_in_area(segmentation: &Segmentation, mut visit: impl FnMut(usize, [u32; 2], bool)) {
    let (width, _) = segmentation.frame.size();
    let depth = segmentation.depth.as_raw();
    for pixel in (0..depth.len()).filter(|pixel| segmentation.area[*pixel]) {
        visit(
            pixel,
            photo_pixel(segmentation, pixel % width, pixel / width),
            depth[pixel] > 0.5,
        );
    }
}

/// The photo pixel at the centre of a frame pixel that lies on the photo.
fn photo_pixel(segmentation: &Segmentation, x: usize, y: usize) -> [u32; 2] {
    let centre = segmentation
        .frame
        .photo_from_frame(crate::geometry::Point::new(x as f64 + 0.5, y as f64 + 0.5));
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "the frame lies on the photo"
    )]
    [centre.x as u32, centre.y as u32]
}
