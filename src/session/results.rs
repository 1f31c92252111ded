//! What came of measuring a picture, and what of it is worked out once so that showing it is quick.

use crate::Measurement;
use crate::area::Area;
use crate::basis::Basis;
use crate::export::text;
use crate::findings::{self, Note, Traced};
use crate::geometry::{Point, Polygon, Rect};
use crate::photo::Photo;
use crate::session::distributions::Distributions;
use crate::session::network::Network;
use crate::session::readout::Readout;
use crate::surface::SurfaceType;
use crate::usable::Usable;
use rayon::prelude::*;
use std::sync::Arc;

/// Corners of a simplified outline lie this far apart, as a share of the typical size: on a screen that
/// shows it 14 px wide, one pixel.
const CORNERS_APART: f64 = 0.07;

/// What came of measuring, and from what.
#[derive(Debug)]
pub struct Results {
    /// The picture that was measured.
    pub(super) photo: Arc<Photo>,
    /// The area that was measured.
    pub(super) area: Area,
    pub(super) traced: Arc<Traced>,
    pub(super) usable: Arc<Usable>,
    pub(super) basis: Arc<Basis>,
    /// Where each note can be seen, in the order of the readout.
    places: Vec<Option<Rect>>,
    /// How the regions are drawn.
    pub sketch: Sketch,
    /// How their measures spread.
    pub distributions: Distributions,
    /// Hollows against walls, where the surface has both.
    pub network: Option<Arc<Network>>,
    /// Findings and regions.
    pub measurement: Arc<Measurement>,
    /// The same in words.
    pub readout: Readout,
}

impl Results {
    /// Puts the findings into the words of the language that is spoken now.
    pub(super) fn put_into_words(&mut self) {
        self.readout = Readout::of(&self.measurement);
    }

    /// Puts findings into words, and finds out where things lie.
    pub(super) fn of(
        photo: Arc<Photo>,
        area: Area,
        traced: Arc<Traced>,
        usable: Arc<Usable>,
        basis: Basis,
        measurement: Measurement,
    ) -> Self {
        let readout = Readout::of(&measurement);
        let place = |note: &Note| findings::place_of(note.code, &photo, &area, &traced);
        Self {
            places: readout.notes.iter().map(place).collect(),
            sketch: Sketch::of(&measurement),
            distributions: Distributions::of(&measurement),
            network: (measurement.findings.surface.kind != SurfaceType::Smooth)
                .then(|| Network::of(&traced))
                .flatten()
                .map(Arc::new),
            readout,
            measurement: Arc::new(measurement),
            basis: Arc::new(basis),
            photo,
            area,
            traced,
            usable,
        }
    }

    /// All findings in words.
    #[must_use]
    pub fn as_text(&self) -> String {
        text::findings(&self.measurement.findings)
    }

    /// The notes, the gravest first, each with the place of the picture at which it can be seen.
    pub fn notes(&self) -> impl Iterator<Item = (&Note, Option<Rect>)> {
        self.readout.notes.iter().zip(self.places.iter().copied())
    }
}

/// Regions as they are drawn: where each lies, and simple outlines for where they are small.
#[derive(Debug)]
pub struct Sketch {
    /// Where each outline lies, px.
    pub bounds: Vec<Rect>,
    /// Each outline with few corners.
    pub simple: Vec<Polygon>,
    /// Median of the longer sides of the bounds, px.
    pub typical_px: f64,
}

impl Sketch {
    fn of(measurement: &Measurement) -> Self {
        let regions = &measurement.regions;
        let bounds: Vec<Rect> = regions.par_iter().map(|r| r.outline.bounds()).collect();
        let longer = |bounds: &Rect| bounds.width.max(bounds.height);
        let mut sides: Vec<f64> = bounds.iter().map(longer).collect();
        sides.sort_by(f64::total_cmp);
        let typical_px = sides.get(sides.len() / 2).copied().unwrap_or(0.0);
        let apart = CORNERS_APART * typical_px;
        Self {
            simple: regions
                .par_iter()
                .map(|region| simplified(&region.outline, apart))
                .collect(),
            bounds,
            typical_px,
        }
    }
}

/// The outline without corners that lie closer than `apart` to the one before.
fn simplified(outline: &Polygon, apart: f64) -> Polygon {
    let mut corners: Vec<Point> = Vec::new();
    for &corner in outline.vertices() {
        if corners
            .last()
            .is_none_or(|last| last.distance(corner) >= apart)
        {
            corners.push(corner);
        }
    }
    Polygon::new(corners)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_simplified_outline_keeps_to_the_whole_one() {
        let circle = |corners: u32| {
            let at = |k| f64::from(k) * std::f64::consts::TAU / f64::from(corners);
            let corners = (0..corners).map(|k| Point::new(10.0 * at(k).cos(), 10.0 * at(k).sin()));
            Polygon::new(corners.collect())
        };
        let simple = simplified(&circle(400), 1.4);
        assert!((30..=45).contains(&simple.vertices().len()));
        // A chord is at most 1.4 and one step of the circle, 20π/400, long; a circle of radius 10 bows
        // out from it by its square over 8·10.
        for corner in circle(400).vertices() {
            assert!(simple.distance(*corner) <= 1.558_f64.powi(2) / 80.0);
        }
    }
}
