//! What a photo is measured by: its scale, the straightened picture where there is one, and what the
//! scale was taken from, which belongs in no area.
//!
//! Window and command line ask for the scale in different ways; what follows from an answer is here.

use crate::area::{Area, LeftOut};
use crate::bar::Bar;
use crate::card::{self, CardError};
use crate::colour::{White, WhiteError};
use crate::findings::{self, Findings, Note};
use crate::geometry::{Point, Rect};
use crate::photo::Photo;
use crate::progress::{Cancelled, Progress, Stage};
use crate::ruler::Reading;
use crate::scale::{Scale, ScaleError};
use crate::set_up::{Mismatch, SetUp};
use crate::stated::Stated;
use crate::tilt::{Plane, Straightened, TiltError, straighten};
use crate::units::Millimetres;
use std::sync::Arc;

/// The corners of a rectangle of known size in the plane of the surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corners {
    /// Where they are, one after the other round the rectangle, px of the photo.
    pub places: [Point; 4],
    /// Length of the first side and of the second.
    pub sides: [Millimetres; 2],
    /// Standard uncertainty of placing one of them, px.
    pub placement_px: f64,
}

/// What in the plane of the surface tells how the camera saw it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PlaneSource {
    /// Poreline's scale card, found by itself.
    Card,
    /// A rectangle of known size.
    Corners(Corners),
}

/// Why a photo could not be straightened.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PlaneError {
    /// There is no card to go by.
    #[error(transparent)]
    Card(CardError),
    /// The corners are not those of a rectangle.
    #[error(transparent)]
    Tilt(#[from] TiltError),
    /// The plane has no extent on the photo.
    #[error(transparent)]
    Scale(#[from] ScaleError),
    /// Stopped by the person who started it.
    #[error(transparent)]
    Cancelled(#[from] Cancelled),
}

impl From<CardError> for PlaneError {
    fn from(error: CardError) -> Self {
        match error {
            CardError::Cancelled(error) => Self::Cancelled(error),
            error => Self::Card(error),
        }
    }
}

impl Corners {
    /// The plane they lie in, as a photo of the given size shows it.
    ///
    /// # Errors
    /// [`TiltError`] where they are not the corners of a rectangle seen on a photo.
    pub fn plane(&self, photo: Rect) -> Result<Plane, TiltError> {
        let sides = self.sides.map(|side| side.0);
        Plane::from_corners(self.places, sides, self.placement_px, photo)
    }
}

/// The photo as seen squarely from above, and the white of a card, or why its patch cannot serve.
///
/// # Errors
/// [`PlaneError`] where nothing tells the plane, or the work was stopped.
pub fn straightened(
    photo: &Photo,
    source: PlaneSource,
    progress: &Progress<'_>,
) -> Result<(Straightened, Option<Result<White, WhiteError>>), PlaneError> {
    let (plane, white) = match source {
        PlaneSource::Card => {
            let found = card::find(photo, progress)?;
            // A card whose patch is overexposed or dark is a scale all the same.
            let white = found.tones.as_ref().map(White::of_card);
            (found.plane, white)
        }
        PlaneSource::Corners(corners) => (corners.plane(photo.bounds())?, None),
    };
    progress.enter(Stage::Straightening)?;
    Ok((straighten(photo, &plane, progress)??, white))
}

/// What one photo is measured by.
#[derive(Debug, Clone)]
pub struct Basis {
    /// The scale of the picture that is measured.
    pub scale: Scale,
    /// The picture that is measured, where it is not the photo as it was taken.
    pub straightened: Option<Arc<Straightened>>,
    /// What the colour can be referred to.
    pub white: Option<White>,
    /// What the scale was taken from, where it is known to hide the surface; px of the picture.
    source: Option<LeftOut>,
    /// What is to be said of the scale.
    notes: Vec<Note>,
}

impl Basis {
    /// A scale that is known, or was taken from something that may well lie on the surface.
    #[must_use]
    pub const fn known(scale: Scale) -> Self {
        Self {
            scale,
            straightened: None,
            white: None,
            source: None,
            notes: Vec::new(),
        }
    }

    /// Stretches of known length, and whether they tell the same scale.
    ///
    /// # Errors
    /// [`ScaleError`] as of [`Scale::from_stretches`].
    pub fn points(stretches: &[(Point, Point, Millimetres)]) -> Result<Self, ScaleError> {
        let scale = Scale::from_stretches(stretches)?;
        Ok(Self {
            notes: findings::points_note(stretches, &scale)
                .into_iter()
                .collect(),
            ..Self::known(scale)
        })
    }

    /// A scale bar of a known length.
    ///
    /// # Errors
    /// [`ScaleError::NoLength`] when its ends coincide.
    pub fn bar(bar: &Bar, length: Millimetres) -> Result<Self, ScaleError> {
        Ok(Self {
            source: Some(bar.left_out()),
            ..Self::known(Scale::from_bar(bar.ends, length)?)
        })
    }

    /// A ruler that was read.
    #[must_use]
    pub fn ruler(reading: &Reading) -> Self {
        Self {
            source: Some(reading.left_out()),
            notes: findings::ruler_notes(reading),
            ..Self::known(reading.scale)
        }
    }

    /// A set-up, though it may not seem to fit the photo.
    #[must_use]
    pub fn set_up(set_up: &SetUp, mismatch: Option<&Mismatch>) -> Self {
        Self {
            notes: vec![findings::set_up_note(set_up, mismatch)],
            ..Self::known(set_up.scale())
        }
    }

    /// What the photo's file says of itself.
    #[must_use]
    pub fn stated(stated: &Stated) -> Self {
        Self {
            notes: vec![findings::stated_note(stated)],
            ..Self::known(stated.scale)
        }
    }

    /// A straightened picture, and the white of the card it was straightened by.
    #[must_use]
    pub fn plane(
        straightened: Arc<Straightened>,
        white: Option<Result<White, WhiteError>>,
    ) -> Self {
        let notes = match &white {
            Some(Err(error)) => vec![findings::card_white_note(error)],
            _ => Vec::new(),
        };
        Self {
            scale: straightened.scale,
            white: white.and_then(Result::ok),
            source: straightened.hidden().cloned(),
            straightened: Some(straightened),
            notes,
        }
    }

    /// The picture that is measured.
    #[must_use]
    pub fn picture<'a>(&'a self, taken: &'a Photo) -> &'a Photo {
        self.straightened
            .as_ref()
            .map_or(taken, |straightened| &straightened.photo)
    }

    /// An area drawn on the picture, without what the photo does not show of it.
    #[must_use]
    pub fn shown(&self, mut drawn: Area) -> Area {
        if let Some(straightened) = &self.straightened {
            drawn.left_out.push(straightened.beyond().clone());
        }
        drawn
    }

    /// The same, and without what the scale was taken from, where that lies on it: nobody counts pores
    /// on a bar.
    #[must_use]
    pub fn area(&self, drawn: Area) -> Area {
        let mut area = self.shown(drawn);
        if let Some(source) = &self.source
            && area
                .bounds(source.outline.bounds())
                .is_ok_and(|common| common.width > 0.0)
        {
            area.left_out.push(source.clone());
        }
        area
    }

    /// Adds what is to be said of the scale, and tells of the photo as it was taken.
    pub fn complete(&self, findings: &mut Findings) {
        for note in &self.notes {
            findings.add(note.clone());
        }
        if let Some(straightened) = &self.straightened {
            findings.on_photo(straightened);
        }
    }

    /// Whether findings by the other are the same, given what was seen on the same picture.
    #[must_use]
    pub fn figures_like(&self, other: &Self) -> bool {
        (self.scale, self.white, &self.notes) == (other.scale, other.white, &other.notes)
    }

    /// What is to be said of the scale.
    #[must_use]
    pub fn notes(&self) -> &[Note] {
        &self.notes
    }
}
