//! The bounds, each checked by itself on the same photos.

use super::bounds::{self, Bound};
use super::grid;
use super::shot::Outcome;
use crate::render::surface::Kind;
use poreline::surface::SurfaceType;

/// Photos the bounds speak of.
pub fn in_range() -> impl Iterator<Item = &'static Outcome> {
    grid::outcomes()
        .iter()
        .filter(|o| o.shot.nuisances.px_per_spacing >= bounds::FEWEST_PX_PER_SPACING)
}

/// The signed errors of one figure, the largest first.
pub struct Errors {
    pub figure: &'static str,
    pub bound: Option<Bound>,
    pub photos: usize,
    pub measured: Vec<(&'static Outcome, f64)>,
}

impl Errors {
    fn of(
        figure: &'static str,
        kind: Kind,
        bound: Option<Bound>,
        error: fn(&Outcome) -> Option<f64>,
    ) -> Self {
        let photos: Vec<&Outcome> = in_range().filter(|o| o.kind() == kind).collect();
        let mut measured: Vec<(&Outcome, f64)> = photos
            .iter()
            .filter_map(|&o| Some((o, error(o)?)))
            .collect();
        measured.sort_by(|a, b| b.1.abs().total_cmp(&a.1.abs()));
        Self {
            figure,
            bound,
            photos: photos.len(),
            measured,
        }
    }

    /// Median of the errors' sizes.
    pub fn median(&self) -> Option<f64> {
        let count = self.measured.len();
        let size = |i: usize| self.measured[i].1.abs();
        (count > 0).then(|| f64::midpoint(size((count - 1) / 2), size(count / 2)))
    }

    /// The photo that was measured worst.
    pub fn worst(&self) -> Option<(&'static Outcome, f64)> {
        self.measured.first().copied()
    }

    /// How far the errors lie to one side.
    pub fn mean(&self) -> f64 {
        let sum: f64 = self.measured.iter().map(|(_, error)| error).sum();
        #[allow(clippy::cast_precision_loss, reason = "a count of photos")]
        let count = self.measured.len() as f64;
        sum / count
    }

    fn check(&self) {
        let bound = self.bound.expect("a figure with a bound");
        let median = self.median().expect("some photo was measured");
        let beyond: Vec<String> = self
            .measured
            .iter()
            .filter(|(_, error)| error.abs() > bound.worst)
            .map(|(outcome, error)| format!("{:+.2} %: {outcome}", 100.0 * error))
            .collect();
        println!(
            "{}: median {:.2} % (bound {:.1} %), worst {:.2} % (bound {:.1} %), mean {:+.2} %, {} of {} photos",
            self.figure,
            100.0 * median,
            100.0 * bound.median,
            100.0 * self.measured[0].1.abs(),
            100.0 * bound.worst,
            100.0 * self.mean(),
            self.measured.len(),
            self.photos,
        );
        assert!(
            median <= bound.median && beyond.is_empty(),
            "{}: median error {:.3} % for {:.1} %; {} photos beyond {:.1} %:\n{}",
            self.figure,
            100.0 * median,
            100.0 * bound.median,
            beyond.len(),
            100.0 * bound.worst,
            beyond.join("\n")
        );
    }
}

pub fn pores_per_mm() -> Errors {
    let bound = Some(bounds::PORES_PER_MM);
    Errors::of("pores per mm", Kind::Poroid, bound, Outcome::per_mm_error)
}

pub fn mean_diameter() -> Errors {
    let bound = Some(bounds::MEAN_DIAMETER);
    let error = Outcome::diameter_error;
    Errors::of("mean pore diameter", Kind::Poroid, bound, error)
}

pub fn median_elongation() -> Errors {
    let bound = Some(bounds::MEDIAN_ELONGATION);
    let error = Outcome::elongation_error;
    Errors::of("median elongation", Kind::Poroid, bound, error)
}

pub fn void_fraction() -> Errors {
    let bound = Some(bounds::VOID_FRACTION);
    let error = Outcome::void_fraction_error;
    Errors::of("void fraction", Kind::Poroid, bound, error)
}

pub fn teeth_per_mm() -> Errors {
    let bound = Some(bounds::TEETH_PER_MM);
    Errors::of("teeth per mm", Kind::Toothed, bound, Outcome::per_mm_error)
}

pub fn gills_per_mm() -> Errors {
    let bound = Some(bounds::GILLS_PER_MM);
    Errors::of("gills per mm", Kind::Gilled, bound, Outcome::per_mm_error)
}

/// Reported without a bound: a maze has no one right count.
pub fn maze_per_mm() -> Errors {
    let error = Outcome::per_mm_error;
    Errors::of("voids of mazes per mm", Kind::MazeLike, None, error)
}

#[test]
fn pores_per_mm_keep_their_bound() {
    pores_per_mm().check();
}

#[test]
fn mean_diameter_keeps_its_bound() {
    mean_diameter().check();
}

#[test]
fn median_elongation_keeps_its_bound() {
    median_elongation().check();
}

#[test]
fn void_fraction_keeps_its_bound() {
    void_fraction().check();
}

#[test]
fn teeth_per_mm_keep_their_bound() {
    teeth_per_mm().check();
}

#[test]
fn gills_per_mm_keep_their_bound() {
    gills_per_mm().check();
}

#[test]
fn a_surface_type_is_right_or_undecided_or_unsure() {
    let mut wrong = Vec::new();
    for outcome in in_range().filter(|o| !o.is_right_type()) {
        let surface = &outcome.findings.surface;
        let reasons = surface.reasons.join(" ");
        println!("{outcome}: {reasons}");
        let undecided = surface.kind == SurfaceType::Undecided;
        if undecided && reasons.is_empty() || !undecided && surface.confidence > bounds::SURE {
            wrong.push(format!("{outcome}: {reasons}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn few_surfaces_go_without_figures() {
    let structured = || in_range().filter(|o| o.kind() != Kind::Smooth);
    let without: Vec<String> = structured()
        .filter(|o| o.per_mm().is_none())
        .map(ToString::to_string)
        .collect();
    #[allow(clippy::cast_precision_loss, reason = "a count of photos")]
    let share = without.len() as f64 / structured().count() as f64;
    println!("without figures: {:.1} % of photos", 100.0 * share);
    assert!(
        share <= bounds::UNMEASURED,
        "{:.1} % of photos without figures:\n{}",
        100.0 * share,
        without.join("\n")
    );
}

/// At any resolution.
#[test]
fn a_smooth_surface_bears_no_pores() {
    let invented: Vec<String> = grid::outcomes()
        .iter()
        .filter(|o| o.kind() == Kind::Smooth && o.findings.pores.is_some())
        .map(ToString::to_string)
        .collect();
    assert!(invented.is_empty(), "{}", invented.join("\n"));
}
