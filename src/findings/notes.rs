//! Notes: what is wrong with a photo, what it does to the figures, what to do.

use super::{Findings, Note, Severity, Traced};
use crate::area::{Area, Reason};
use crate::segmentation::PX_PER_SPACING;
use crate::surface::SurfaceType;
use crate::usable::Usable;

/// Spacings below this many photo px are too coarse to trust.
const FEWEST_PX_PER_SPACING: f64 = 8.0;
/// Blur above this share of the spacing (standard deviation) leaves sizes off by some per cent.
const STRONGEST_BLUR: f64 = 0.1;
/// Fewer regions than this make a wide interval.
const FEWEST_REGIONS: usize = 30;
/// Relative difference between count and spectrum that is worth a note.
const DISAGREEMENT: f64 = 0.10;

/// Share left out beyond which the figures stand for the smaller part of what was photographed.
const MOST_LEFT_OUT: f64 = 0.5;
/// Share of a drawn area that is worth a word when it cannot be used.
const WORTH_LEAVING_OUT: f64 = 0.1;

/// Widths of photos of a bracket's underside, mm; beyond them the scale is likely mistyped.
const NARROWEST_MM: f64 = 0.5;
const WIDEST_MM: f64 = 500.0;

/// All notes on a photo, the gravest first.
pub(super) fn notes(findings: &Findings, traced: &Traced) -> Vec<Note> {
    let mut notes = Vec::new();
    notes.extend(few_pixels(traced));
    notes.extend(blurred(traced));
    notes.extend(few_regions(findings));
    notes.extend(oversized(traced));
    notes.extend(no_line_fits(findings));
    notes.extend(doubtful_scale(findings));
    notes.extend(second_opinion(findings));
    notes.extend(undecided(findings));
    notes.extend(left_out(findings));
    by_gravity(&mut notes);
    notes
}

/// Puts the gravest first, and leaves equals in their order.
pub(super) fn by_gravity(notes: &mut [Note]) {
    notes.sort_by_key(|note| std::cmp::Reverse(note.severity));
}

/// What was left out without a person's doing.
fn left_out(findings: &Findings) -> Option<Note> {
    let found: Vec<(Reason, f64)> = findings
        .area
        .left_out
        .iter()
        .filter(|part| part.reason != Reason::ByHand)
        .map(|part| (part.reason, part.share))
        .collect();
    let share: f64 = found.iter().map(|(_, share)| share).sum();
    (share > 0.0).then(|| Note {
        severity: if share > MOST_LEFT_OUT {
            Severity::Caution
        } else {
            Severity::Info
        },
        code: "left-out",
        text: format!(
            "{} of the photo was left out: {}. The figures hold for the rest. Look at the outlines, and \
             measure the whole photo where you disagree.",
            per_cent(share),
            listed(&found)
        ),
    })
}

/// What a person should know of parts that cannot be used, where they were not left out: they lie in
/// an outline that was drawn on purpose, or next to nothing would remain.
#[must_use]
pub fn unusable_parts(measured: &Area, usable: &Usable) -> Option<Note> {
    let mut found: Vec<(Reason, f64)> = Vec::new();
    for proposal in &usable.proposals {
        match found
            .iter_mut()
            .find(|(reason, _)| *reason == proposal.reason)
        {
            Some((_, share)) => *share += proposal.share,
            None => found.push((proposal.reason, proposal.share)),
        }
    }
    if usable.is_hopeless {
        return Some(Note {
            severity: Severity::Stop,
            code: "unusable",
            text: format!(
                "Hardly any of the surface can be measured: {}. Take the photo again, or draw an area by \
                 hand if you see pores that are sharp.",
                listed(&found)
            ),
        });
    }
    let was_left_out = measured
        .left_out
        .iter()
        .any(|part| part.reason != Reason::ByHand);
    (!was_left_out && usable.share() > WORTH_LEAVING_OUT).then(|| Note {
        severity: Severity::Caution,
        code: "partly-unusable",
        text: format!(
            "{} of the area had better be left out: {}. It was measured as you drew it. Leave such parts \
             out, or draw the area round the rest.",
            per_cent(usable.share()),
            listed(&found)
        ),
    })
}

/// Reasons with their shares, in words.
fn listed(found: &[(Reason, f64)]) -> String {
    found
        .iter()
        .map(|(reason, share)| format!("{} ({})", reason.label(), per_cent(*share)))
        .collect::<Vec<_>>()
        .join(", ")
}

fn per_cent(share: f64) -> String {
    let share = 100.0 * share;
    if share < 1.0 {
        "less than 1 %".to_owned()
    } else {
        format!("{share:.0} %")
    }
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

fn blurred(traced: &Traced) -> Option<Note> {
    let model = traced.model.as_ref()?;
    let share = f64::from(model.look.blur) / PX_PER_SPACING;
    (share > STRONGEST_BLUR).then(|| Note {
        severity: Severity::Caution,
        code: "blurred",
        text: format!(
            "Edges are smeared over {:.0} % of the distance from pore to pore. Counts hold, but \
             diameters, shapes and the void fraction are less sure than their intervals say. Focus \
             again, use a support, or choose the sharp part.",
            // From a tenth to nine tenths of an edge: 2.56 standard deviations of the blur.
            256.0 * share
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

fn oversized(traced: &Traced) -> Option<Note> {
    let count = traced.regions.iter().filter(|r| r.oversized).count();
    (count > 0).then(|| Note {
        severity: Severity::Caution,
        code: "foreign-parts",
        text: format!(
            "{} in the area {} many times larger than the rest, as a scale card, background or damage \
             would be. It is not counted, but its surface is, which makes the count per mm too low. \
             Draw the area round clean surface only, or leave such parts out.",
            if count == 1 { "One region".to_owned() } else { format!("{count} regions") },
            if count == 1 { "is" } else { "are" },
        ),
    })
}

fn no_line_fits(findings: &Findings) -> Option<Note> {
    let pores = findings.pores.as_ref()?;
    pores.count_lines.is_empty().then(|| Note {
        severity: Severity::Caution,
        code: "small-area",
        text:
            "The area is too small for a 1 mm line, so there is no spread of counts to give as a \
               handbook does. Choose a larger area."
                .to_owned(),
    })
}

fn doubtful_scale(findings: &Findings) -> Option<Note> {
    let across = f64::from(findings.photo.width_px) / findings.scale.px_per_mm;
    (!(NARROWEST_MM..=WIDEST_MM).contains(&across)).then(|| Note {
        severity: Severity::Caution,
        code: "doubtful-scale",
        text: format!(
            "By this scale the photo is {across:.3} mm wide, which is unusual for the underside of a \
             bracket. Check the scale: every figure in mm rests on it."
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
