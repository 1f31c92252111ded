//! Scales that come with a plane: the photo is straightened first, and all else follows on that.

use super::args::Corners;
use crate::card::{self, CardError, Tones};
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

/// The photo as seen squarely from above, and the light of a card's patches.
pub(super) fn straightened(
    photo: &Photo,
    source: PlaneSource,
    progress: &Progress<'_>,
) -> Result<(Straightened, Option<Tones>), PlaneError> {
    let (plane, tones) = match source {
        PlaneSource::Card => {
            let found = card::find(photo, progress)?;
            (found.plane, found.tones)
        }
        PlaneSource::Corners(Corners { places, sides }) => {
            let sides = sides.map(|side| side.0);
            (Plane::from_corners(places, sides, photo.bounds())?, None)
        }
    };
    Ok((straighten(photo, &plane, progress)??, tones))
}
