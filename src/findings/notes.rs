//! Notes: what is wrong with a photo, what it does to the figures, what to do.

use super::{Findings, Note, Severity, Traced};
use crate::surface::SurfaceType;

/// Spacings below this many photo px are too coarse to trust.
const FEWEST_PX_PER_SPACING: f64 = 8.0;
/// Fewer regions than this make a wide interval.
const FEWEST_REGIONS: usize = 30;
/// Relative difference between count and spectrum that is worth a note.
const DISAGREEMENT: f64 = 0.10;

/// All notes on a photo, the gravest first.
pub(super) fn notes(findings: &Findings, traced: &Traced) -> Vec<Note> {
    let mut notes = Vec::new();
    notes.extend(few_pixels(traced));
    notes.extend(few_regions(findings));
    notes.extend(second_opinion(findings));
    notes.extend(undecided(findings));
    notes.sort_by_key(|note| std::cmp::Reverse(note.severity));
    notes
}

fn few_pixels(traced: &Traced) -> Option<Note> {
    let spacing = traced.segmentation.spacing_px;
    let structured = traced.surface.kind != SurfaceType::Smooth;
    (structured && spacing < FEWEST_PX_PER_SPACING).then(|| Note {
        severity: Severity::Caution,
        code: "few-pixels",
        text: format!(
            "There are only {spacing:.1} pixels from one pore to the next. Walls may be missed and \
             sizes are rough. Go closer or use a larger magnification."
        ),
    })
}

fn few_regions(findings: &Findings) -> Option<Note> {
    let (count, what) = match (&findings.pores, &findings.teeth) {
        (Some(pores), _) => (pores.count, "pores"),
        (_, Some(teeth)) => (teeth.count, "teeth"),
        _ => return None,
    };
    (count < FEWEST_REGIONS).then(|| Note {
        severity: Severity::Caution,
        code: "few-pores",
        text: format!(
            "Only {count} {what} were counted, so the figures are uncertain. Choose a larger area \
             or take a photo that shows more of the surface."
        ),
    })
}

fn second_opinion(findings: &Findings) -> Option<Note> {
    let pores = findings.pores.as_ref()?;
    let spectrum = 1.0 / pores.spacing_second_opinion_mm?;
    let difference = spectrum / pores.per_mm.value - 1.0;
    (difference.abs() > DISAGREEMENT).then(|| Note {
        severity: Severity::Caution,
        code: "second-opinion",
        text: format!(
            "The count gives {:.2} pores per mm, the repeat distance of the pattern by itself {:.2}. \
             One of them is misled: look at the outlines before you rely on the figure.",
            pores.per_mm.value, spectrum
        ),
    })
}

fn undecided(findings: &Findings) -> Option<Note> {
    (findings.surface.kind == SurfaceType::Undecided).then(|| Note {
        severity: Severity::Stop,
        code: "undecided",
        text:
            "The photo does not show clearly what kind of surface this is, so no count is given. \
               Choose an area of even, sharp surface, or take the photo again in raking light."
                .to_owned(),
    })
}
