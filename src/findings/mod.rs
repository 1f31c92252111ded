//! Findings: everything measured on one photo, with intervals, notes and provenance.

mod assemble;
pub mod budget;
mod confidence;
mod notes;
mod quality;

pub use assemble::{Applied, Traced, assemble};
pub use budget::Budget;
pub use confidence::confidence;
pub use notes::{
    card_white_note, points_note, ruler_notes, set_up_note, stated_note, unusable_parts,
};
pub use quality::{Drift, Quality, place_of};

use crate::area::{Area, Reason};
use crate::colour::Colour;
use crate::corrections::{Corrections, Kind};
use crate::photo::Place;
use crate::scale::Scale;
use crate::statistics::{CountLine, Handbook, Spread};
use crate::surface::{Surface, SurfaceType};
use crate::tilt::Straightened;
use std::path::PathBuf;

/// A figure with its 95 % interval, all in the same unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The figure.
    pub value: f64,
    /// Lower end of the 95 % interval.
    pub low: f64,
    /// Upper end of the 95 % interval.
    pub high: f64,
}

/// Which photo was measured.
#[derive(Debug, Clone, PartialEq)]
pub struct PhotoFacts {
    /// Where it was read from.
    pub path: PathBuf,
    /// SHA-256 of the file's bytes.
    pub sha256: String,
    /// Width of the upright photo.
    pub width_px: u32,
    /// Height of the upright photo.
    pub height_px: u32,
    /// When it was taken, ISO 8601.
    pub taken: Option<String>,
    /// Where it was taken.
    pub place: Option<Place>,
}

/// How much of the surface was measured, and where.
#[derive(Debug, Clone, PartialEq)]
pub struct AreaFacts {
    /// The area as drawn, px of the upright photo, so that somebody else can measure it again.
    pub drawn: Area,
    /// Measured area A, mm².
    pub mm2: f64,
    /// Area inside the outline that was left out, mm².
    pub left_out_mm2: f64,
    /// What was left out and why, one entry a reason, and how much of the drawn outline it takes.
    pub left_out: Vec<LeftOutFacts>,
    /// Area of the guard bands along the photo's own edge and about parts left out by hand, where pores
    /// are cut and none is counted, mm².
    pub guard_mm2: f64,
}

/// How much was left out for one reason.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeftOutFacts {
    /// Why.
    pub reason: Reason,
    /// Share of the area inside the drawn outline, 0–1.
    pub share: f64,
}

/// What a person corrected in the pores, and how much rests on it.
#[derive(Debug, Clone, PartialEq)]
pub struct CorrectionFacts {
    /// The corrections, px of the upright photo, so that somebody else can make them again.
    pub made: Corrections,
    /// For each correction by hand, whether it found something to act on.
    pub had_effect: Vec<bool>,
    /// Counted pores or teeth that a person shaped.
    pub counted_by_hand: usize,
    /// Their share of all that were counted, 0–1.
    pub share_by_hand: f64,
}

impl CorrectionFacts {
    /// How many corrections of a kind had an effect.
    #[must_use]
    pub fn effective(&self, kind: Kind) -> usize {
        let each = self.made.by_hand.iter().zip(&self.had_effect);
        each.filter(|(correction, had)| **had && correction.kind() == kind)
            .count()
    }

    /// How many found nothing to act on.
    #[must_use]
    pub fn without_effect(&self) -> usize {
        self.had_effect.iter().filter(|had| !**had).count()
    }

    /// What was done with an effect, in words: `2 joined, 1 deleted`; empty when nothing was.
    #[must_use]
    pub fn in_words(&self) -> String {
        let kinds = Kind::ALL.into_iter();
        let done = kinds.map(|kind| (self.effective(kind), kind.done()));
        done.filter(|(count, _)| *count > 0)
            .map(|(count, done)| format!("{count} {done}"))
            .collect::<Vec<_>>()
            .join(", ")
    }
}

/// Diameters of pores, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DiameterFacts {
    /// Mean over whole pores, each weighted by the inverse of its chance to lie wholly inside.
    pub mean: Estimate,
    /// 5th percentile, median and 95th percentile.
    pub spread: Spread,
}

/// What was found on a poroid surface.
#[derive(Debug, Clone, PartialEq)]
pub struct PoreFindings {
    /// Pores whose centroid lies in the counting area.
    pub count: usize,
    /// Density `N_A`, pores per mm².
    pub per_mm2: f64,
    /// Pores per mm, P = √(√3/2 · `N_A`).
    pub per_mm: Estimate,
    /// Pores per mm across and along drawn-out pores; only where the median elongation exceeds 1.5.
    pub across_and_along_per_mm: Option<(f64, f64)>,
    /// The phrase a handbook would print.
    pub handbook: Handbook,
    /// Pores hit by random lines, per mm of line (`N_L`).
    pub line_crossings_per_mm: f64,
    /// Spacing from the power spectrum alone, mm.
    pub spacing_second_opinion_mm: Option<f64>,
    /// Area-equivalent diameters.
    pub diameter_mm: DiameterFacts,
    /// Elongation √(λ₁/λ₂), ≥ 1.
    pub elongation: Spread,
    /// Median wall thickness between neighbouring pores, mm.
    pub wall_mm_median: Option<f64>,
    /// Void area over measured area.
    pub void_fraction: f64,
    /// The 1 mm lines along which pores were counted.
    pub count_lines: Vec<CountLine>,
}

/// What was found on a toothed surface.
#[derive(Debug, Clone, PartialEq)]
pub struct ToothFindings {
    /// Teeth whose centroid lies in the counting area.
    pub count: usize,
    /// Teeth per mm².
    pub per_mm2: f64,
    /// Teeth per mm, √(√3/2 · density).
    pub per_mm: Estimate,
    /// Area-equivalent diameters of tooth regions.
    pub diameter_mm: DiameterFacts,
    /// Elongation of tooth regions.
    pub elongation: Spread,
}

/// What was found on a gilled surface.
#[derive(Debug, Clone, PartialEq)]
pub struct GillFindings {
    /// Gills crossed by a line at right angles to them, per mm.
    pub per_mm: Estimate,
}

/// What was found on a maze-like surface.
#[derive(Debug, Clone, PartialEq)]
pub struct MazeFindings {
    /// Voids crossed per mm of random lines × π/2; 1/spacing on a straight-walled surface.
    pub per_mm: Estimate,
}

/// How much a note matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Good to know.
    Info,
    /// A figure is less sure than it looks.
    Caution,
    /// A figure is withheld.
    Stop,
}

impl Findings {
    /// Whether a note withholds the figures.
    #[must_use]
    pub fn withheld(&self) -> bool {
        self.notes
            .iter()
            .any(|note| note.severity == Severity::Stop)
    }

    /// What is counted on such a surface, and how many of them, where single ones are.
    #[must_use]
    pub fn counted(&self) -> (&'static str, Option<usize>) {
        let things = match self.surface.kind {
            SurfaceType::Toothed => "teeth",
            SurfaceType::Gilled => "gills",
            SurfaceType::MazeLike => "hollows",
            _ => "pores",
        };
        let count = match (&self.pores, &self.teeth) {
            (Some(pores), _) => Some(pores.count),
            (_, Some(teeth)) => Some(teeth.count),
            _ => None,
        };
        (things, count)
    }

    /// Where most of the uncertainty comes from and what would help most, in one plain sentence.
    #[must_use]
    pub fn main_uncertainty(&self) -> Option<String> {
        let (things, count) = self.counted();
        budget::sentence(&self.uncertainty, things, count)
    }
}

impl Severity {
    /// The word used in findings.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Info => "info",
            Self::Caution => "caution",
            Self::Stop => "stop",
        }
    }
}

/// A quality remark: what is wrong, what it does to the figure, what to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Note {
    /// How much it matters.
    pub severity: Severity,
    /// A stable name for scripts, such as `few-pores`.
    pub code: &'static str,
    /// Cause, effect and remedy in plain words.
    pub text: String,
}

/// Everything measured on one photo.
#[derive(Debug, Clone, PartialEq)]
pub struct Findings {
    /// Which photo.
    pub photo: PhotoFacts,
    /// The scale used.
    pub scale: Scale,
    /// How far the camera was tilted against the surface, degrees, where that was taken out before
    /// measuring.
    pub tilt_deg: Option<f64>,
    /// How much was measured.
    pub area: AreaFacts,
    /// What kind of surface it is, and why.
    pub surface: Surface,
    /// On poroid surfaces only.
    pub pores: Option<PoreFindings>,
    /// On toothed surfaces only.
    pub teeth: Option<ToothFindings>,
    /// On gilled surfaces only.
    pub gills: Option<GillFindings>,
    /// On maze-like surfaces only.
    pub maze: Option<MazeFindings>,
    /// Colour of the walls; `None` where hardly any wall was seen, or where figures are withheld.
    pub colour: Option<Colour>,
    /// What a person corrected; `None` where nothing was.
    pub corrections: Option<CorrectionFacts>,
    /// What the uncertainty of each figure with an interval is made of; none where no figure is given.
    pub uncertainty: Vec<Budget>,
    /// What to know before relying on the figures, the gravest first.
    pub notes: Vec<Note>,
}

impl Findings {
    /// Findings of a straightened photo as those of the photo it was made from: the area is given where
    /// it lies on the photo, and the tilt with a note on it.
    pub fn on_photo(&mut self, straightened: &Straightened) {
        let photo = straightened.photo_bounds();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "sides of a photo, which are whole"
        )]
        let [width, height] = [photo.width, photo.height].map(|side| side as u32);
        (self.photo.width_px, self.photo.height_px) = (width, height);
        self.area.drawn = straightened.area_on_photo(&self.area.drawn);
        if let Some(corrections) = &mut self.corrections {
            corrections.made = straightened.corrections_on_photo(&corrections.made);
        }
        self.tilt_deg = Some(straightened.tilt_deg);
        if let Some(note) = notes::steep_tilt(straightened.tilt_deg) {
            self.add(note);
        }
    }

    /// The colour of the walls with the note that goes with it, in place of any before.
    pub fn set_colour(&mut self, colour: Option<Colour>) {
        self.colour = colour.filter(|_| !self.withheld());
        self.notes.retain(|note| !notes::is_of_colour(note));
        if let Some(note) = self.colour.as_ref().and_then(notes::of_colour) {
            self.add(note);
        }
    }

    /// One more note, in its place among the others.
    pub fn add(&mut self, note: Note) {
        self.notes.push(note);
        notes::by_gravity(&mut self.notes);
    }
}
