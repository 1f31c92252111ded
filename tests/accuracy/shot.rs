//! One photo: rendered, written as JPEG, read back, measured, and held against its truth.

use super::nuisances::Nuisances;
use crate::render::camera::{Camera, Tissue};
use crate::render::plane::Rect;
use crate::render::surface::{Kind, Surface, Truth};
use image::RgbImage;
use poreline::area::{Area, Outline};
use poreline::findings::{Findings, Note};
use poreline::photo::Photo;
use poreline::progress::Progress;
use poreline::scale::Scale;
use std::fmt;

/// One photo to be taken.
#[derive(Clone, Debug)]
pub struct Shot {
    /// Which nuisance this photo varies.
    pub series: &'static str,
    pub nuisances: Nuisances,
    pub surface: Surface,
    pub tissue: Tissue,
    pub camera: Camera,
}

/// What became of it.
#[derive(Debug)]
pub struct Outcome {
    pub shot: Shot,
    pub truth: Truth,
    pub findings: Findings,
}

impl Shot {
    pub fn new(series: &'static str, kind: Kind, nuisances: Nuisances, seed: u64) -> Self {
        Self {
            series,
            surface: nuisances.surface(kind, seed),
            tissue: nuisances.tissue(seed),
            camera: nuisances.camera(seed),
            nuisances,
        }
    }

    /// Well inside the photo, so that truth and measurement speak of the same pores: the tool keeps
    /// one spacing clear of the photo's own edge, where pores are cut.
    fn area(&self, whole: Rect) -> Rect {
        whole.inset((2.0 * self.surface.spacing_px * self.surface.elongation.sqrt()).ceil())
    }

    pub fn take(self) -> Outcome {
        let pattern = self.surface.render();
        let photo = developed(
            &self.camera,
            &self.camera.photograph(&pattern, &self.tissue),
        );
        let rect = self.area(pattern.whole());
        Outcome {
            truth: pattern.truth(rect),
            findings: measured(&photo, rect, self.surface.px_per_mm),
            shot: self,
        }
    }
}

/// The photo as it comes back from its file.
pub fn developed(camera: &Camera, picture: &RgbImage) -> Photo {
    let file = camera.file(picture).expect("a picture can be encoded");
    let picture = image::load_from_memory(&file).expect("what was encoded can be decoded");
    Photo::from_rgb("rendered.jpg", picture.into_rgb8())
}

pub fn measured(photo: &Photo, rect: Rect, px_per_mm: f64) -> Findings {
    let area = Area {
        outline: Outline::Rectangle(poreline::geometry::Rect {
            x: rect.x,
            y: rect.y,
            width: rect.w,
            height: rect.h,
        }),
        left_out: Vec::new(),
    };
    let scale = Scale::given(px_per_mm).expect("a scale");
    poreline::measure(photo, scale, &area, &Progress::default())
        .expect("an area on the photo is measured")
        .findings
}

impl Outcome {
    pub fn kind(&self) -> Kind {
        self.shot.surface.kind
    }

    pub fn is_right_type(&self) -> bool {
        self.findings.surface.kind.word() == self.kind().name()
    }

    /// Pores, teeth, gills or voids of a maze per mm, where the type was seen right.
    pub fn per_mm(&self) -> Option<f64> {
        let findings = &self.findings;
        match self.kind() {
            Kind::Poroid => findings.pores.as_ref().map(|p| p.per_mm.value),
            Kind::Toothed => findings.teeth.as_ref().map(|t| t.per_mm.value),
            Kind::Gilled => findings.gills.as_ref().map(|g| g.per_mm.value),
            Kind::MazeLike => findings.maze.as_ref().map(|m| m.per_mm.value),
            Kind::Smooth => None,
        }
    }

    // Errors are relative and signed; `None` where there is no figure.

    pub fn per_mm_error(&self) -> Option<f64> {
        error(self.per_mm(), self.truth.per_mm)
    }

    pub fn diameter_error(&self) -> Option<f64> {
        let pores = self.findings.pores.as_ref()?;
        error(
            Some(pores.diameter_mm.mean.value),
            self.truth.mean_diameter_mm,
        )
    }

    pub fn elongation_error(&self) -> Option<f64> {
        let elongation = match self.kind() {
            Kind::Toothed => self.findings.teeth.as_ref()?.elongation,
            _ => self.findings.pores.as_ref()?.elongation,
        };
        error(Some(elongation.median), self.truth.median_elongation)
    }

    pub fn void_fraction_error(&self) -> Option<f64> {
        let pores = self.findings.pores.as_ref()?;
        error(Some(pores.void_fraction), self.truth.void_fraction)
    }

    pub fn note_codes(&self) -> Vec<&'static str> {
        self.findings.notes.iter().map(|n: &Note| n.code).collect()
    }
}

fn error(value: Option<f64>, truth: Option<f64>) -> Option<f64> {
    Some(value? / truth? - 1.0)
}

impl fmt::Display for Outcome {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let surface = &self.findings.surface;
        write!(
            f,
            "{} [{}] seed {}: {}; seen as {} ({:.2})",
            self.kind().name(),
            self.shot.series,
            self.shot.surface.seed,
            self.shot.nuisances,
            surface.kind.word(),
            surface.confidence
        )
    }
}
