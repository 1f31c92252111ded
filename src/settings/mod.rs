//! What photos are measured by, settled once for any number of them: where the scale comes from, the
//! area, what the colour is referred to.
//!
//! Photo bytes and settings are all that findings rest on. A single photo and a folder of them go through
//! the same two steps here: [`Settings::basis`] tells by what a photo is measured, [`Settings::measure_by`]
//! measures it.

mod not_measured;
mod told;

pub use not_measured::{NotMeasured, photo_cause_and_remedy};

use crate::area::{Area, Outline};
use crate::bar::{self, Search};
use crate::basis::{self, Basis, PlaneSource};
use crate::colour::White;
use crate::corrections::Corrections;
use crate::findings;
use crate::geometry::{Point, Rect};
use crate::photo::Photo;
use crate::progress::Progress;
use crate::ruler::{self, Between, RulerError};
use crate::scale::Scale;
use crate::segmentation::Segmentation;
use crate::set_up::SetUp;
use crate::stated::stated;
use crate::units::{Millimetres, Pixels};
use crate::usable;
use crate::{MeasureError, Measurement, figure, trace_corrected};
use std::sync::Arc;

/// Where the scale comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum ScaleSource {
    /// The same for all photos.
    Known(Scale),
    /// Stretches of known length, at the same places on all photos.
    Points(Vec<(Point, Point, Millimetres)>),
    /// The bar of this length on each photo.
    Bar(Millimetres),
    /// The ruler along this line on each photo.
    Ruler {
        /// Where the line begins and ends, px.
        ends: [Point; 2],
        /// What lies between two neighbouring ticks.
        between: Between,
    },
    /// Something in the plane of the surface, by which each photo is straightened.
    Plane(PlaneSource),
    /// That of another photo, taken by the same camera at the same distance.
    SetUp {
        /// The set-up.
        set_up: Box<SetUp>,
        /// Whether it is used on photos that it does not seem to fit.
        fits: bool,
    },
    /// What each photo's file says of itself.
    File,
}

impl ScaleSource {
    /// The places that have to lie on each photo.
    #[must_use]
    pub fn places(&self) -> Vec<Point> {
        match self {
            Self::Points(stretches) => stretches.iter().flat_map(|s| [s.0, s.1]).collect(),
            Self::Ruler { ends, .. } => ends.to_vec(),
            Self::Plane(PlaneSource::Corners(corners)) => corners.places.to_vec(),
            Self::Known(_)
            | Self::Bar(_)
            | Self::Plane(PlaneSource::Card)
            | Self::SetUp { .. }
            | Self::File => Vec::new(),
        }
    }
}

/// All that findings rest on beside the photo.
#[derive(Debug, Clone, PartialEq)]
pub struct Settings {
    /// Where the scale comes from.
    pub scale: ScaleSource,
    /// Whether a scale that cannot be is believed.
    pub scale_is_right: bool,
    /// The area, px of the photo.
    pub area: Area,
    /// Whether nothing is to be left out but what the area leaves out.
    pub whole_photo: bool,
    /// What is corrected in the pores, px of the photo.
    pub corrections: Corrections,
    /// Something white on each photo, px.
    pub white: Option<Rect>,
}

/// What came of one photo, on the picture that was measured.
#[derive(Debug, Clone)]
pub struct Measured {
    /// Findings, still of the picture: [`Basis::complete`] makes them those of the photo.
    pub measurement: Measurement,
    /// Standard deviation of the blur over the outlines, px; `None` where there are none.
    pub blur_px: Option<f64>,
    /// Corrections that lie beyond what could be straightened, and were not made.
    pub left_behind: usize,
}

impl Settings {
    /// By what a photo is measured.
    ///
    /// # Errors
    /// [`NotMeasured`] where the scale cannot be had, or cannot be right.
    pub fn basis(&self, photo: &Photo, progress: &Progress<'_>) -> Result<Basis, NotMeasured> {
        self.check_places(photo)?;
        // Whoever gives a white means it, card or no card.
        let given = self
            .white
            .map(|patch| White::of_patch(photo, patch))
            .transpose()?;
        let mut basis = self.by_scale(photo, progress)?;
        basis.white = given.or(basis.white);
        if !self.scale_is_right {
            let (width, height) = basis.picture(photo).rgb.dimensions();
            let longer_side = Pixels(f64::from(width.max(height)));
            basis.scale.check_likely(longer_side)?;
        }
        Ok(basis)
    }

    /// Measures the area as drawn, or else what of the photo can be used.
    ///
    /// # Errors
    /// [`NotMeasured::Measure`].
    pub fn measure_by(
        &self,
        photo: &Photo,
        basis: &Basis,
        progress: &Progress<'_>,
    ) -> Result<Measured, NotMeasured> {
        let area = self.area_by(basis);
        let picture = basis.picture(photo);
        let corrections = self.corrections_by(basis);
        let usable = if self.whole_photo {
            None
        } else {
            Some(usable::survey(picture, &area, progress).map_err(MeasureError::from)?)
        };
        let area = match (&usable, &area.outline) {
            (Some(usable), Outline::WholePhoto) => usable.within(&area),
            // Whoever draws an outline means it.
            _ => area,
        };
        let segmentation =
            Segmentation::of(&picture.light, &area, progress).map_err(MeasureError::from)?;
        let traced = trace_corrected(
            picture,
            &area,
            &Arc::new(segmentation),
            &corrections,
            progress,
        )?;
        let mut measurement = figure(picture, &area, &traced, basis.scale);
        if let Some(note) = usable.and_then(|usable| findings::unusable_parts(&area, &usable)) {
            measurement.findings.add(note);
        }
        if let Some(white) = &basis.white {
            measurement.refer_to(white);
        }
        Ok(Measured {
            measurement,
            blur_px: traced.blur_px(),
            left_behind: self.corrections.by_hand.len() - corrections.by_hand.len(),
        })
    }

    fn by_scale(&self, photo: &Photo, progress: &Progress<'_>) -> Result<Basis, NotMeasured> {
        match self.scale {
            ScaleSource::Known(scale) => Ok(Basis::known(scale)),
            ScaleSource::Points(ref stretches) => Ok(Basis::points(stretches)?),
            ScaleSource::SetUp { ref set_up, fits } => {
                let mismatch = match set_up.check(photo) {
                    Err(mismatch) if !fits => return Err(mismatch.into()),
                    checked => checked.err(),
                };
                Ok(Basis::set_up(set_up, mismatch.as_ref()))
            }
            ScaleSource::File => Ok(Basis::stated(&stated(photo)?)),
            ScaleSource::Plane(source) => {
                let (straightened, white) = basis::straightened(photo, source, progress)?;
                Ok(Basis::plane(Arc::new(straightened), white))
            }
            ScaleSource::Bar(length) => {
                match bar::find(photo, progress).map_err(MeasureError::from)? {
                    Search::Nothing => Err(NotMeasured::NoBar(length)),
                    Search::Several(bars) => Err(NotMeasured::SeveralBars(bars, length)),
                    Search::One(bar) => Ok(Basis::bar(&bar, length)?),
                }
            }
            ScaleSource::Ruler { ends, between } => {
                match ruler::read(photo, ends, between, progress) {
                    Ok(reading) => Ok(Basis::ruler(&reading)),
                    Err(RulerError::Cancelled(error)) => Err(MeasureError::from(error).into()),
                    Err(error) => Err(error.into()),
                }
            }
        }
    }

    /// The area as drawn, on the picture that is measured, without what the scale was taken from.
    fn area_by(&self, basis: &Basis) -> Area {
        let drawn = basis.straightened.as_ref().map_or_else(
            || self.area.clone(),
            |straightened| straightened.area_from_photo(&self.area),
        );
        basis.area(drawn)
    }

    /// The corrections on the picture that is measured.
    fn corrections_by(&self, basis: &Basis) -> Corrections {
        basis.straightened.as_ref().map_or_else(
            || self.corrections.clone(),
            |straightened| straightened.corrections_from_photo(&self.corrections),
        )
    }

    /// A scale from places that are not on the photo is a scale of some other photo.
    fn check_places(&self, photo: &Photo) -> Result<(), NotMeasured> {
        let (width, height) = photo.rgb.dimensions();
        let lies_on = |place: &Point| {
            (0.0..=f64::from(width)).contains(&place.x)
                && (0.0..=f64::from(height)).contains(&place.y)
        };
        match self
            .scale
            .places()
            .into_iter()
            .find(|place| !lies_on(place))
        {
            Some(place) => Err(NotMeasured::PlaceOffPhoto {
                place,
                width,
                height,
            }),
            None => Ok(()),
        }
    }
}
