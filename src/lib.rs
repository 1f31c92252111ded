//! Poreline measures the underside of bracket fungi from a macro photo.
//!
//! Data flows one way: photo → scale → area → segmentation → pores → statistics → surface type →
//! findings → export. [`measure`] is that line. [`trace`] is its first half, in pixels; [`figure`] its
//! second, in millimetres. The window ([`app`], over [`session`]) and the command line ([`cli`]) sit on
//! top, and nothing below knows them.
//!
//! ```
//! use poreline::{area::Area, photo::Photo, progress::Progress, scale::Scale};
//!
//! // Dark discs on a square lattice, 20 px apart.
//! let picture = image::RgbImage::from_fn(480, 480, |x, y| {
//!     let (dx, dy) = ((x % 20) as f32 - 9.5, (y % 20) as f32 - 9.5);
//!     image::Rgb(if dx.hypot(dy) < 7.0 { [70; 3] } else { [200; 3] })
//! });
//! let photo = Photo::from_rgb("discs.png", picture);
//! let scale = Scale::given(100.0).expect("greater than zero");
//! let measured = poreline::measure(&photo, scale, &Area::default(), &Progress::default())
//!     .expect("the area lies on the photo");
//! let pores = measured.findings.pores.expect("a poroid surface");
//! assert!((pores.diameter_mm.mean.value - 0.14).abs() < 0.005);
//! ```

#![cfg_attr(
    not(test),
    warn(clippy::unwrap_used, clippy::print_stdout, clippy::print_stderr)
)]

#[cfg(feature = "window")]
pub mod app;
pub mod area;
pub mod bar;
pub mod basis;
pub mod batch;
pub mod book;
pub mod card;
pub mod cli;
pub mod colour;
pub mod corrections;
pub mod demo;
pub mod export;
pub mod findings;
pub mod geometry;
pub mod photo;
pub mod pores;
pub mod progress;
pub mod ranges;
pub mod reading;
pub mod reporting;
pub mod ruler;
pub mod scale;
pub mod segmentation;
pub mod session;
pub mod set_up;
pub mod settings;
pub mod stated;
pub mod statistics;
pub mod surface;
pub mod tilt;
pub mod units;
pub mod usable;
pub mod wording;

use area::{Area, AreaError, Rows};
use colour::{Colour, Tissue, White};
use corrections::Corrections;
use findings::{Applied, Findings, Quality, Traced};
use photo::Photo;
use pores::Pore;
use progress::{Cancelled, Progress, Stage};
use scale::Scale;
use segmentation::{Phase, Segmentation, SegmentationError};
use std::sync::Arc;
use surface::SurfaceType;

/// Why a photo was not measured.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum MeasureError {
    /// The area cannot be measured.
    #[error(transparent)]
    Area(#[from] AreaError),
    /// Stopped by the person who started it.
    #[error(transparent)]
    Cancelled(#[from] Cancelled),
}

impl From<SegmentationError> for MeasureError {
    fn from(error: SegmentationError) -> Self {
        match error {
            SegmentationError::Area(error) => Self::Area(error),
            SegmentationError::Cancelled(error) => Self::Cancelled(error),
        }
    }
}

/// Findings together with the regions they rest on.
#[derive(Debug, Clone, PartialEq)]
pub struct Measurement {
    /// Figures, verdict, notes.
    pub findings: Findings,
    /// Every pore (or tooth) with its centroid in the area, counted or not.
    pub regions: Vec<Pore>,
    /// Light of the walls, from which their colour follows; `None` where hardly any wall was seen.
    pub tissue: Option<Tissue>,
}

impl Measurement {
    /// Refers the colour to something white on the photo; nothing is measured anew.
    pub fn refer_to(&mut self, white: &White) {
        let colour = self.tissue.as_ref().map(|t| Colour::of(t, Some(white)));
        self.findings.set_colour(colour);
    }

    /// Diameters of the counted pores or teeth that lie wholly in the area, mm.
    #[must_use]
    pub fn diameters_mm(&self) -> Vec<f64> {
        let scale = self.findings.scale;
        self.regions
            .iter()
            .filter(|region| region.whole && region.counted)
            .map(|region| scale.millimetres(region.diameter()).0)
            .collect()
    }
}

/// The whole line: photo, scale and area in, findings out.
///
/// # Errors
/// [`MeasureError::Area`] when the area holds nothing, [`MeasureError::Cancelled`] when told to stop.
pub fn measure(
    photo: &Photo,
    scale: Scale,
    area: &Area,
    progress: &Progress<'_>,
) -> Result<Measurement, MeasureError> {
    measure_corrected(photo, scale, area, &Corrections::default(), progress)
}

/// The whole line with what a person corrected in the pores.
///
/// # Errors
/// As [`measure`].
pub fn measure_corrected(
    photo: &Photo,
    scale: Scale,
    area: &Area,
    corrections: &Corrections,
    progress: &Progress<'_>,
) -> Result<Measurement, MeasureError> {
    let segmentation = Arc::new(Segmentation::of(&photo.light, area, progress)?);
    let traced = trace_corrected(photo, area, &segmentation, corrections, progress)?;
    Ok(figure(photo, area, &traced, scale))
}

/// Photo and area in; voids, walls, verdict and outlines out, all in pixels.
///
/// # Errors
/// As [`measure`].
pub fn trace(photo: &Photo, area: &Area, progress: &Progress<'_>) -> Result<Traced, MeasureError> {
    let segmentation = Arc::new(Segmentation::of(&photo.light, area, progress)?);
    trace_corrected(
        photo,
        area,
        &segmentation,
        &Corrections::default(),
        progress,
    )
}

/// The second half of [`trace`], with what a person corrected. A changed correction needs only this.
///
/// # Errors
/// [`Cancelled`] when told to stop.
pub fn trace_corrected(
    photo: &Photo,
    area: &Area,
    segmentation: &Arc<Segmentation>,
    corrections: &Corrections,
    progress: &Progress<'_>,
) -> Result<Traced, MeasureError> {
    progress.enter(Stage::Pores)?;
    let segmentation = if segmentation.least_wall == corrections.least_wall {
        Arc::clone(segmentation)
    } else {
        Arc::new(segmentation.with_least_wall(corrections.least_wall))
    };
    let surface = surface::judge(&segmentation);
    let phase = surface.kind.regions();
    let found = phase.map(|phase| segmentation.regions(phase, &corrections.by_hand));
    progress.check()?;
    let model = phase
        .zip(found.as_ref())
        .map(|(phase, found)| segmentation.model(phase, found));
    let counting = photo.bounds().shrunk(segmentation.spacing_px);
    let guarded = area.guarded(segmentation.spacing_px);
    let counted = Rows::of(&guarded, counting, |_| true);
    let regions = match (&model, &found) {
        (Some(model), Some(found)) => pores::trace(
            model,
            found,
            &segmentation.frame,
            &segmentation.seen,
            area,
            photo.bounds(),
            |centroid| counted.hold(centroid),
        ),
        _ => Vec::new(),
    };
    progress.enter(Stage::Statistics)?;
    let quality = Quality::of(photo, &segmentation, &regions);
    let mut void_seen = match surface.kind {
        // All of it is wall.
        SurfaceType::Smooth => vec![0.0; segmentation.area.len()],
        _ => segmentation.void_seen(model.as_ref()).into_raw(),
    };
    if let (Some(Phase::Void), Some(found)) = (phase, &found) {
        // What is dark and no pore is no tissue either whose colour could be told.
        for (&pixel, _) in found.told.iter().filter(|(_, share)| **share == 0.0) {
            void_seen[pixel] = 1.0;
        }
    }
    let tissue = Tissue::of(photo, &segmentation, &void_seen);
    Ok(Traced {
        segmentation,
        surface,
        model,
        regions,
        counting,
        guarded,
        quality,
        tissue,
        corrections: Applied {
            corrections: corrections.clone(),
            had_effect: found.map_or_else(
                || vec![false; corrections.by_hand.len()],
                |found| found.had_effect,
            ),
        },
    })
}

/// What was seen, and a scale, made into findings. A changed scale needs only this.
#[must_use]
pub fn figure(photo: &Photo, area: &Area, traced: &Traced, scale: Scale) -> Measurement {
    Measurement {
        findings: findings::assemble(photo, area, traced, scale),
        regions: traced.regions.clone(),
        tissue: traced.tissue.clone(),
    }
}
