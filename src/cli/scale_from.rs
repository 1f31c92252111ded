//! Scales that come with a plane: the photo is straightened first, and all else follows on that.

use super::args::Corners;
use crate::card::{self, CardError};
use crate::photo::Photo;
use crate::progress::{Cancelled, Progress};
use crate::scale::ScaleError;
use crate::tilt::{Plane, Straightened, TiltError, straighten};

/// What in the plane of the surface tells it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum PlaneSource {
    /// Poreline's scale card on each photo.
    Card,
    /// The corners of a rectangle of known size.
    Corners(Corners),
}

/// Why a photo could not be straightened.
#[derive(Debug, thiserror::Error)]
pub(super) enum PlaneError {
    #[error(transparent)]
    Card(#[from] CardError),
    #[error(transparent)]
    Tilt(#[from] TiltError),
    #[error(transparent)]
    Scale(#[from] ScaleError),
    #[error(transparent)]
    Cancelled(#[from] Cancelled),
}

/// The photo as seen squarely from above.
pub(super) fn straightened(
    photo: &Photo,
    source: PlaneSource,
    progress: &Progress<'_>,
) -> Result<Straightened, PlaneError> {
    let plane = match source {
        PlaneSource::Card => card::find(photo, progress)?.plane,
        PlaneSource::Corners(Corners { places, sides }) => {
            Plane::from_corners(places, sides.map(|side| side.0), photo.bounds())?
        }
    };
    Ok(straighten(photo, &plane, progress)??)
}
