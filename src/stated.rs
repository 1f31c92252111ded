//! What a photo's file says of its scale, where that can be believed.
//!
//! Microscopes and scanners know how large a pixel is on the object and write it down. Cameras and
//! picture programs fill in the same place as well, with the density of a screen or of paper that the
//! picture might be printed on. So such a scale is a proposal, never taken unasked.

use crate::photo::{Density, DensityIn, Photo};
use crate::scale::{How, Scale, ScaleError};

/// Millimetres in an inch.
const MM_PER_INCH: f64 = 25.4;

/// Densities that programs fill in without knowing the object, px per inch: of screens (72, 96, twice
/// them), of print (100 to 360) and those that cameras write (72, 180, 240, 300, 350). Common
/// practice, no source. From 400 upwards densities are those of flatbed scanners, and taken.
const FILLED_IN: [f64; 15] = [
    72.0, 75.0, 90.0, 96.0, 100.0, 120.0, 144.0, 150.0, 180.0, 192.0, 200.0, 240.0, 300.0, 350.0,
    360.0,
];

/// How near a density lies to one of [`FILLED_IN`] that was rounded to whole pixels per centimetre, as a
/// share: 28.35 px per cm is written as 28.3 or 28.4.
const SAME: f64 = 0.005;

/// A scale that a file states.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stated {
    /// The scale, [`How::Metadata`], taken as exact: files say nothing of uncertainty.
    pub scale: Scale,
    /// Where in the file it is written.
    pub written_in: DensityIn,
}

/// Why what a file says is no scale.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum StatedError {
    /// It says nothing.
    #[error(
        "the file says nothing about its scale; take the scale from something of known length on the photo"
    )]
    Nothing,
    /// A density that programs fill in by themselves.
    #[error(
        "the file says {:.0} px per inch ({}), which cameras, screens and picture programs fill in \
         without knowing the object; take the scale from something of known length on the photo",
        .dpi,
        .written_in.words()
    )]
    FilledIn {
        /// Pixels per inch.
        dpi: f64,
        /// Where it is written.
        written_in: DensityIn,
    },
    /// Pixels that are no squares.
    #[error(
        "the file says {x:.4} px per mm across and {y:.4} down ({}), but pixels of a photo are square; \
         take the scale from something of known length on the photo",
        .written_in.words()
    )]
    NotSquare {
        /// Along rows, px/mm.
        x: f64,
        /// Along columns, px/mm.
        y: f64,
        /// Where it is written.
        written_in: DensityIn,
    },
    /// Two places in the file disagree.
    #[error(
        "the file says {:.4} px per mm in one place ({}) and {:.4} in another ({}); take the scale from \
         something of known length on the photo",
        .0.px_per_mm[0],
        .0.written_in.words(),
        .1.px_per_mm[0],
        .1.written_in.words()
    )]
    Contradictory(Density, Density),
    /// A figure that is no scale.
    #[error(transparent)]
    Scale(#[from] ScaleError),
}

/// The scale that a photo's file states.
///
/// # Errors
/// [`StatedError`] where it states none, or none that can be believed.
pub fn stated(photo: &Photo) -> Result<Stated, StatedError> {
    let mut known = photo.densities.iter().filter(|said| !is_filled_in(said));
    let Some(&density) = known.next() else {
        return Err(photo
            .densities
            .first()
            .map_or(StatedError::Nothing, |said| StatedError::FilledIn {
                dpi: said.px_per_mm[0] * MM_PER_INCH,
                written_in: said.written_in,
            }));
    };
    let ([x, y], written_in) = (density.px_per_mm, density.written_in);
    if !is_same(x, y) {
        return Err(StatedError::NotSquare { x, y, written_in });
    }
    if let Some(&other) = known.find(|other| !is_same(other.px_per_mm[0], x)) {
        return Err(StatedError::Contradictory(density, other));
    }
    Ok(Stated {
        scale: Scale {
            how: How::Metadata,
            ..Scale::given(f64::midpoint(x, y))?
        },
        written_in,
    })
}

/// Lengths in OME-XML are of the object; nothing else writes there.
fn is_filled_in(said: &Density) -> bool {
    said.written_in != DensityIn::Ome
        && said.px_per_mm.iter().all(|px_per_mm| {
            FILLED_IN
                .iter()
                .any(|dpi| is_same(px_per_mm * MM_PER_INCH, *dpi))
        })
}

fn is_same(a: f64, b: f64) -> bool {
    (a / b - 1.0).abs() <= SAME
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::RgbImage;

    fn said(densities: &[([f64; 2], DensityIn)]) -> Result<Stated, StatedError> {
        let mut photo = Photo::from_rgb("photo.tif", RgbImage::new(4, 4));
        photo.densities = densities
            .iter()
            .map(|&(px_per_mm, written_in)| Density {
                px_per_mm,
                written_in,
            })
            .collect();
        stated(&photo)
    }

    #[test]
    fn what_is_filled_in_is_not_believed() {
        for dpi in [72.0, 96.0, 150.0, 180.0, 240.0, 299.72, 300.0, 350.0] {
            let error = said(&[([dpi / 25.4; 2], DensityIn::Exif)]).expect_err("filled in");
            assert!(matches!(error, StatedError::FilledIn { .. }), "{error}");
        }
        assert_eq!(said(&[]), Err(StatedError::Nothing));
    }

    #[test]
    fn scanners_and_microscopes_are_believed() {
        for dpi in [400.0, 600.0, 1200.0, 2400.0, 4800.0, 3007.4] {
            let found = said(&[([dpi / 25.4; 2], DensityIn::Tiff)]).expect("a scale");
            assert!((found.scale.px_per_mm * 25.4 / dpi - 1.0).abs() < 1e-12);
            assert_eq!(found.scale.how, How::Metadata);
        }
        let coarse = said(&[([300.0 / 25.4; 2], DensityIn::Ome)]).expect("a scale");
        assert_eq!(coarse.written_in, DensityIn::Ome);
        let beside = said(&[
            ([72.0 / 25.4; 2], DensityIn::Jfif),
            ([118.4; 2], DensityIn::Exif),
        ]);
        assert_eq!(beside.expect("a scale").written_in, DensityIn::Exif);
    }

    #[test]
    fn what_contradicts_itself_is_refused() {
        assert!(matches!(
            said(&[([118.0, 120.0], DensityIn::Tiff)]),
            Err(StatedError::NotSquare { .. })
        ));
        assert!(matches!(
            said(&[([118.0; 2], DensityIn::Ome), ([236.0; 2], DensityIn::Tiff)]),
            Err(StatedError::Contradictory(..))
        ));
    }
}
