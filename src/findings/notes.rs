//! Notes: what is wrong with a photo, what it does to the figures, what to do.
//!
//! A note of severity *stop* withholds every figure; notes that speak of figures are then left out.

use super::budget::{Figure, Source};
use super::{Findings, Note, Severity, Traced};
use crate::area::{Area, Reason};
use crate::colour::{Colour, WHITE_LIGHTNESS, WhiteError};
use crate::geometry::Point;
use crate::ruler::Reading;
use crate::scale::{END_PLACEMENT_PX, Scale};
use crate::segmentation::{MOTTLING, PX_PER_SPACING};
use crate::set_up::{Mismatch, SetUp};
use crate::stated::Stated;
use crate::surface::SurfaceType;
use crate::units::Millimetres;
use crate::usable::Usable;

/// Spacings below this many photo px are too coarse to trust, …
const FEWEST_PX_PER_SPACING: f64 = 8.0;
/// … and below this many a wall is no wider than a pixel or two, so that nothing is given.
const TOO_FEW_PX_PER_SPACING: f64 = 5.0;
/// Blur above this share of the spacing (standard deviation) leaves sizes off by some per cent.
const STRONGEST_BLUR: f64 = 0.1;
/// A wall thinner than so many standard deviations of the blur nowhere shows its full brightness: in the
/// middle of one of two, a Gaussian leaves 68 % of it.
const BLURS_IN_A_WALL: f64 = 2.0;
/// Fewer regions than this make a wide interval, …
const FEWEST_REGIONS: usize = 30;
/// … and fewer than this none that means anything.
const TOO_FEW_REGIONS: usize = 5;
/// Relative difference between count and spectrum that is worth a note.
const DISAGREEMENT: f64 = 0.10;
/// Share of hollows or walls at the end of the file's range from which on the levels between which
/// half depth lies are guessed.
const MUCH_CLIPPED: f64 = 0.05;
/// Share of the area that may be lost in the dark.
const MUCH_IN_THE_DARK: f64 = 0.05;
/// Steps at the borders of blocks, as a share of the contrast. Hollows are told apart by walls from a
/// tenth of the contrast on, and twice the mean step is common.
const STRONGEST_BLOCKS: f64 = 0.05;
/// Change of the distance between neighbours across the area that is worth a note.
const MUCH_DRIFT: f64 = 0.10;
/// Marks shorter than this many spacings make a scale that rests on where their ends were set.
const SHORTEST_MARK_SPACINGS: f64 = 10.0;
/// The finest pores handbooks give: 6–8 per mm in *Fuscoporia gilva* (Emberger, G., 2008 onward,
/// *Fungi Growing on Wood*, Messiah University).
const FINEST_PER_MM: f64 = 8.0;

/// Noise, averaged over the tip of a pore, as a share of the depth, from which on tips are lost.
const GRAINY_TIPS: f64 = 0.02;

/// Share left out beyond which the figures stand for the smaller part of what was photographed.
const MOST_LEFT_OUT: f64 = 0.5;
/// Share of a drawn area that is worth a word when it cannot be used.
const WORTH_LEAVING_OUT: f64 = 0.1;

/// Tilt up to which taking it out was proved to keep figures, degrees (`tests/card.rs`).
const STEEPEST_DEG: f64 = 35.0;

/// Three standard uncertainties: what is beyond them is no matter of placing.
const COVERAGE: f64 = 3.0;
/// How far a stretch of known length may be off the scale of all of them, a share.
const MOST_STRETCHES_DIFFER: f64 = 0.01;

/// Pores per mm beyond which the scale is likely mistyped: half more than the finest that handbooks give
/// ([`FINEST_PER_MM`]), …
const UNHEARD_OF_PER_MM: f64 = 1.5 * FINEST_PER_MM;
/// … and a fifth per mm, beyond the coarsest: pores to 3 mm wide in *Cerioporus squamosus* and to 4 mm in
/// *Daedalea quercina* (`assets/published-ranges.csv` names the sources).
const SPARSEST_PER_MM: f64 = 0.2;

/// Widths of photos of a bracket's underside, mm; beyond them the scale is likely mistyped.
const NARROWEST_MM: f64 = 0.5;
const WIDEST_MM: f64 = 500.0;

/// All notes on a photo, the gravest first.
pub(super) fn notes(findings: &Findings, traced: &Traced) -> Vec<Note> {
    let mut notes: Vec<Note> = [
        undecided(findings),
        few_pixels(findings, traced),
        counted(traced).and_then(|count| too_few_regions(traced.surface.kind, count)),
        nothing_to_average(findings, traced),
        oversized(traced),
        hairs(findings, traced),
        black_hollows(traced),
        white_walls(traced),
        lost_in_the_dark(traced),
        jpeg_blocks(traced),
        unseen_pores(findings),
        doubtful_scale(findings),
        short_mark(findings, traced),
        left_out(findings),
        least_wall(findings),
        corrected(findings),
        without_effect(findings),
    ]
    .into_iter()
    .flatten()
    .collect();
    if notes.iter().all(|note| note.severity != Severity::Stop) {
        let of_figures = [
            blurred(findings, traced),
            grainy(findings, traced),
            counted(traced).and_then(|count| few_regions(traced.surface.kind, count)),
            no_line_fits(findings),
            drift(traced),
            second_opinion(findings),
        ];
        notes.extend(of_figures.into_iter().flatten());
    }
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
        .filter(|part| !matches!(part.reason, Reason::ByHand | Reason::OffPhoto))
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

/// That walls were taken otherwise than the accuracy was proved for.
fn least_wall(findings: &Findings) -> Option<Note> {
    let least = findings.corrections.as_ref()?.made.least_wall;
    (!least.is_usual()).then(|| {
        note(
            Severity::Info,
            "least-wall",
            format!(
                "A wall parted two pores from {} times the usual height on, as was set by hand. How \
                 accurate figures are was proved at the usual height only. Look at the outlines, and \
                 give this setting along with the figures.",
                least.multiple()
            ),
        )
    })
}

/// How much of what is counted a person shaped.
fn corrected(findings: &Findings) -> Option<Note> {
    let facts = findings.corrections.as_ref()?;
    let done = facts.in_words();
    (!done.is_empty()).then(|| {
        let (things, _) = findings.counted();
        note(
            Severity::Info,
            "corrected",
            format!(
                "Corrected by hand: {done}. Of the {things} counted, {} ({}) were shaped by hand, and \
                 the figures rest on that. The findings keep each correction with its place.",
                facts.counted_by_hand,
                per_cent(facts.share_by_hand)
            ),
        )
    })
}

/// Corrections that found nothing to act on.
fn without_effect(findings: &Findings) -> Option<Note> {
    let count = findings.corrections.as_ref()?.without_effect();
    (count > 0).then(|| {
        let these = if count == 1 {
            "1 correction by hand had".to_owned()
        } else {
            format!("{count} corrections by hand had")
        };
        note(
            Severity::Info,
            "correction-without-effect",
            format!(
                "{these} no effect: there was nothing at that place to act on, as when the area or the \
                 height of walls was changed since. Nothing was dropped; take away what is not meant \
                 any more."
            ),
        )
    })
}

/// What a person should know of the ruler that the scale was read from.
#[must_use]
pub fn ruler_notes(reading: &Reading) -> Vec<Note> {
    let tilted = reading.tilt.map(|change| {
        note(
            Severity::Caution,
            "ruler-tilted",
            format!(
                "From one end of the ruler to the other the distance from tick to tick changes by \
                 {:.1} %. The ruler, and likely the surface, lies at an angle to the camera; then the \
                 scale holds in one place only. Take the photo squarely, with the ruler in the plane of \
                 the surface, or draw the line along the ruler just beside the area.",
                100.0 * change.abs()
            ),
        )
    });
    let contradicted = reading.contradiction().map(|seen| {
        note(
            Severity::Caution,
            "ruler-ticks",
            format!(
                "By its long and short ticks the ruler is divided into {}, but {} was given for what \
                 lies between two neighbours. Every figure in mm rests on it: look at the ruler again.",
                seen.word(),
                reading.between
            ),
        )
    });
    tilted.into_iter().chain(contradicted).collect()
}

/// Why a card that gave the scale gives no white.
#[must_use]
pub fn card_white_note(error: &WhiteError) -> Note {
    note(
        Severity::Info,
        "card-white",
        format!("The card gives the scale, but no white for the colour: {error}."),
    )
}

/// Stretches of known length that contradict each other: one of them was likely set or typed wrong.
#[must_use]
pub fn points_note(stretches: &[(Point, Point, Millimetres)], scale: &Scale) -> Option<Note> {
    let (index, off) = stretches
        .iter()
        .map(|(a, b, length)| {
            let px = a.distance(*b);
            let placing = std::f64::consts::SQRT_2 * END_PLACEMENT_PX / px;
            let off = px / (length.0 * scale.px_per_mm) - 1.0;
            (
                off,
                off.abs() > (COVERAGE * placing).max(MOST_STRETCHES_DIFFER),
            )
        })
        .enumerate()
        .filter(|(_, (_, is_beyond))| *is_beyond)
        .map(|(index, (off, _))| (index, off))
        .max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))?;
    Some(note(
        Severity::Caution,
        "points-differ",
        format!(
            "The {} stretches of known length do not tell the same scale: by number {} it would be {:.1} % \
             {} than by all of them together, far more than placing the ends explains. One of the places \
             or lengths is likely mistyped, or the photo was not taken squarely. Every figure in mm rests \
             on it: check them.",
            stretches.len(),
            index + 1,
            100.0 * off.abs(),
            if off > 0.0 { "larger" } else { "smaller" }
        ),
    ))
}

/// What a person should know of a scale that was carried over: where it comes from, and that somebody
/// said it fits where it does not seem to.
#[must_use]
pub fn set_up_note(set_up: &SetUp, mismatch: Option<&Mismatch>) -> Note {
    let day = set_up.saved().split('T').next().unwrap_or_default();
    let origin = format!(
        "The scale was carried over from {}, where it was obtained by {} and saved on {day}.",
        set_up.from_photo(),
        set_up.obtained().in_words()
    );
    match mismatch {
        Some(mismatch) => note(
            Severity::Caution,
            "set-up-differs",
            format!(
                "{origin} It was used at a person's word although it does not seem to fit: {mismatch}. If \
                 it does not, every figure in mm is wrong."
            ),
        ),
        None => note(
            Severity::Info,
            "set-up",
            format!(
                "{origin} It holds only while camera, lens, zoom and distance are as they were: a distance \
                 1 % longer makes lengths about 1 % too short. A ruler on one photo of every session tells."
            ),
        ),
    }
}

/// What a person should know of a scale that the file states.
#[must_use]
pub fn stated_note(stated: &Stated) -> Note {
    note(
        Severity::Caution,
        "scale-from-file",
        format!(
            "The scale is what the file says of itself ({}), and nobody has checked it. A scanner's holds \
             only for what lay flat on the glass, and none holds once the picture was made smaller or \
             larger. Measure something of known length on the photo to be sure.",
            stated.written_in.words()
        ),
    )
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

/// Codes of the notes that speak of the colour.
const NO_WHITE: &str = "no-white";
const DARK_WHITE: &str = "dark-white";

/// Whether a note speaks of the colour.
pub(super) fn is_of_colour(note: &Note) -> bool {
    [NO_WHITE, DARK_WHITE].contains(&note.code)
}

/// What a person should know of a colour.
pub(super) fn of_colour(colour: &Colour) -> Option<Note> {
    match colour.white {
        None => Some(note(
            Severity::Info,
            NO_WHITE,
            "There is no white reference: colour is indicative only. It rests on how the camera balanced \
             it, until it is referred to something white beside the surface, in the same light: a place \
             marked as white, or the white of Poreline's scale card."
                .to_owned(),
        )),
        Some(_) if colour.lab.l > WHITE_LIGHTNESS => Some(note(
            Severity::Caution,
            DARK_WHITE,
            format!(
                "The surface comes out lighter (L* {:.0}) than the white it was referred to (L* \
                 {WHITE_LIGHTNESS:.0}), so that lay in less light or was not white. Colour is \
                 indicative only. Give a white beside the surface, in the same light.",
                colour.lab.l
            ),
        )),
        Some(_) => None,
    }
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

fn note(severity: Severity, code: &'static str, text: String) -> Note {
    Note {
        severity,
        code,
        text,
    }
}

/// One of what is counted.
const fn thing(kind: SurfaceType) -> &'static str {
    match kind {
        SurfaceType::Toothed => "tooth",
        SurfaceType::Gilled => "gill",
        SurfaceType::MazeLike => "hollow",
        _ => "pore",
    }
}

const fn things(kind: SurfaceType) -> &'static str {
    match kind {
        SurfaceType::Toothed => "teeth",
        _ => "pores",
    }
}

/// Distance between neighbours on the photo, px: by the count, else by the spectrum where it sees a
/// structure.
fn px_per_spacing(findings: &Findings, traced: &Traced) -> Option<f64> {
    let per_mm = match (&findings.pores, &findings.teeth) {
        (Some(pores), _) => Some(pores.per_mm.value),
        (_, Some(teeth)) => Some(teeth.per_mm.value),
        _ => None,
    };
    if let Some(per_mm) = per_mm {
        return Some(findings.scale.px_per_mm / per_mm);
    }
    let ring = traced.segmentation.ring?;
    (ring.modulation >= MOTTLING).then_some(ring.spacing_px)
}

fn few_pixels(findings: &Findings, traced: &Traced) -> Option<Note> {
    let spacing = px_per_spacing(findings, traced)?;
    let one = thing(traced.surface.kind);
    let seen = format!("There are only {spacing:.1} pixels from one {one} to the next");
    if spacing < TOO_FEW_PX_PER_SPACING {
        Some(note(
            Severity::Stop,
            "few-pixels",
            format!(
                "{seen}, too few to tell hollows from walls, so no figure is given. Go closer or use \
                 a larger magnification."
            ),
        ))
    } else if spacing < FEWEST_PX_PER_SPACING {
        Some(note(
            Severity::Caution,
            "few-pixels",
            format!(
                "{seen}. Walls may be missed and sizes are rough. Go closer or use a larger \
                 magnification."
            ),
        ))
    } else {
        None
    }
}

/// On a surface that looks smooth: how fine pores would have to be to stay unseen.
fn unseen_pores(findings: &Findings) -> Option<Note> {
    if findings.surface.kind != SurfaceType::Smooth {
        return None;
    }
    let finest = findings.scale.px_per_mm / FEWEST_PX_PER_SPACING;
    let unseen = format!(
        "Pores finer than {finest:.1} per mm would not show on this photo, because they would stand \
         less than {FEWEST_PX_PER_SPACING} pixels apart"
    );
    Some(if finest < FINEST_PER_MM {
        note(
            Severity::Caution,
            "unseen-pores",
            format!(
                "{unseen}, and handbooks know pores as fine as {FINEST_PER_MM} per mm. The surface may \
                 be poroid all the same. Go closer or use a larger magnification."
            ),
        )
    } else {
        note(
            Severity::Info,
            "unseen-pores",
            format!(
                "{unseen}; the finest in handbooks are about {FINEST_PER_MM} per mm. Where the photo \
                 is sharp, there is nothing to do."
            ),
        )
    })
}

fn blurred(findings: &Findings, traced: &Traced) -> Option<Note> {
    let model = traced.model.as_ref()?;
    let share = f64::from(model.look.blur) / PX_PER_SPACING;
    let blur_px = share * traced.segmentation.spacing_px;
    let wall_mm = findings.pores.as_ref().and_then(|p| p.wall_mm_median);
    let is_thin =
        wall_mm.is_some_and(|mm| mm * findings.scale.px_per_mm < BLURS_IN_A_WALL * blur_px);
    (share > STRONGEST_BLUR || is_thin).then(|| {
        let one = thing(traced.surface.kind);
        note(
            Severity::Caution,
            "blurred",
            format!(
                "Edges are smeared over {:.0} % of the distance from {one} to {one}. Counts hold, but \
                 diameters are uncertain, as their interval shows, and so are shapes and the hollow \
                 share. Focus again, use a support, or choose the sharp part.",
                // From a tenth to nine tenths of an edge: 2.56 standard deviations of the blur.
                256.0 * share
            ),
        )
    })
}

/// Regions that count, on surfaces where regions do.
fn counted(traced: &Traced) -> Option<usize> {
    traced.surface.kind.regions()?;
    Some(traced.regions.iter().filter(|r| r.counted).count())
}

fn too_few_regions(kind: SurfaceType, count: usize) -> Option<Note> {
    let what = match count {
        0 => format!("No {} lies", thing(kind)),
        1 => format!("Only one {} lies", thing(kind)),
        _ => format!("Only {count} {} lie", things(kind)),
    };
    (count < TOO_FEW_REGIONS).then(|| {
        note(
            Severity::Stop,
            "few-pores",
            format!(
                "{what} in the area, away from the photo's edge: too few to stand for a surface, so no \
                 figure is given. Choose a larger area or take a photo that shows more of the surface."
            ),
        )
    })
}

fn few_regions(kind: SurfaceType, count: usize) -> Option<Note> {
    (count < FEWEST_REGIONS).then(|| {
        note(
            Severity::Caution,
            "few-pores",
            format!(
                "Only {count} {} were counted, so the figures are uncertain. Choose a larger area or \
                 take a photo that shows more of the surface.",
                things(kind)
            ),
        )
    })
}

/// Regions were counted or stripes seen, but none lies so that it can be measured.
fn nothing_to_average(findings: &Findings, traced: &Traced) -> Option<Note> {
    let has_figures = findings.pores.is_some()
        || findings.teeth.is_some()
        || findings.gills.is_some()
        || findings.maze.is_some();
    let kind = traced.surface.kind;
    if has_figures || matches!(kind, SurfaceType::Smooth | SurfaceType::Undecided) {
        return None;
    }
    if counted(traced).is_some_and(|count| count < TOO_FEW_REGIONS) {
        return None;
    }
    Some(note(
        Severity::Stop,
        "small-area",
        format!(
            "No {} lies wholly in the area, so none can be measured and no figure is given. Choose a \
             larger area or take a photo that shows more of the surface.",
            thing(kind)
        ),
    ))
}

fn oversized(traced: &Traced) -> Option<Note> {
    let count = traced.regions.iter().filter(|r| r.oversized).count();
    let (what, are) = match count {
        0 => return None,
        1 => ("One region".to_owned(), "is"),
        _ => (format!("{count} regions"), "are"),
    };
    Some(note(
        Severity::Caution,
        "foreign-parts",
        format!(
            "{what} in the area {are} many times larger than the rest, as a scale card, background or \
             damage would be. It is not counted, but its surface is, which makes the count per mm too \
             low. Draw the area round clean surface only, or leave such parts out."
        ),
    ))
}

/// Pale hairs that were taken out of the picture, where anything was counted.
fn hairs(findings: &Findings, traced: &Traced) -> Option<Note> {
    let share = traced.segmentation.under_hairs();
    (share > 0.0 && findings.pores.is_some()).then(|| {
        note(
            Severity::Caution,
            "hairs",
            format!(
                "Pale hairs or fibres lie across {} of the area. They were taken out of the picture, and \
                 what they hide was filled in from both sides, so that they part no pores; where several \
                 cross, the count may still be off by some per cent. Look at the outlines there, or brush \
                 the surface and take the photo again.",
                per_cent(share)
            ),
        )
    })
}

fn black_hollows(traced: &Traced) -> Option<Note> {
    let share = traced.quality.black_hollows;
    (share >= MUCH_CLIPPED).then(|| {
        note(
            Severity::Caution,
            "black-hollows",
            format!(
                "{:.0} % of the hollows are pure black, so the photo does not say how dark they are, \
                 and where half of the depth is has to be guessed. Widths and the hollow share are \
                 less sure than they look. Give more light or expose longer.",
                100.0 * share
            ),
        )
    })
}

fn white_walls(traced: &Traced) -> Option<Note> {
    let share = traced.quality.white_walls;
    (share >= MUCH_CLIPPED).then(|| {
        note(
            Severity::Caution,
            "white-walls",
            format!(
                "{:.0} % of the bright tissue is pure white, so the photo does not say how bright it \
                 is, and faint structure there is lost. Widths and the hollow share are less sure than \
                 they look. Expose more briefly or soften the light.",
                100.0 * share
            ),
        )
    })
}

fn lost_in_the_dark(traced: &Traced) -> Option<Note> {
    let share = traced.quality.lost_in_the_dark;
    let structured = traced.surface.kind != SurfaceType::Smooth;
    (structured && share >= MUCH_IN_THE_DARK).then(|| {
        note(
            Severity::Caution,
            "uneven-light",
            format!(
                "{:.0} % of the area is so dark that noise is as strong as the {} there: some are \
                 missed and some are invented. Brightening the photo afterwards does not help. Light \
                 the surface evenly, or leave the dark part out of the area.",
                100.0 * share,
                things(traced.surface.kind)
            ),
        )
    })
}

fn jpeg_blocks(traced: &Traced) -> Option<Note> {
    let step = traced.quality.jpeg_step?;
    let structured = traced.surface.kind != SurfaceType::Smooth;
    (structured && step >= STRONGEST_BLOCKS).then(|| {
        note(
            Severity::Caution,
            "jpeg-blocks",
            format!(
                "The file was compressed so strongly that its square blocks show: their edges are {:.0} \
                 % as strong as the difference between hollows and walls. Thin walls may be missed and \
                 outlines follow the blocks. Use the camera's own file, or save with a higher quality.",
                100.0 * step
            ),
        )
    })
}

/// A drawn-out pore ends in a tip about as wide as the spacing over its elongation, and as long. Where
/// noise averaged over so few pixels still shows against the depth, outlines lose the tips.
fn grainy(findings: &Findings, traced: &Traced) -> Option<Note> {
    let grain = traced.quality.grain?;
    let elongation = findings.pores.as_ref()?.elongation.median;
    let tip_px = traced.segmentation.spacing_px / elongation;
    (grain / tip_px > GRAINY_TIPS).then(|| {
        note(
            Severity::Caution,
            "grainy",
            format!(
                "The photo is grainy: noise is {:.0} % of the difference between hollows and walls, and \
                 the narrow ends of the pores are only about {tip_px:.0} pixels wide. Counts hold, but the \
                 elongation may be a tenth too low. Use more light or a lower ISO setting, or go closer.",
                100.0 * grain
            ),
        )
    })
}

fn drift(traced: &Traced) -> Option<Note> {
    let drift = traced.quality.drift?;
    (drift.significant && drift.change > MUCH_DRIFT).then(|| {
        let one = thing(traced.surface.kind);
        note(
            Severity::Caution,
            "tilted",
            format!(
                "From one end of the area to the other the distance from {one} to {one} grows by {:.0} \
                 %. Either the surface itself changes, or the photo was taken at an angle; then the \
                 scale holds in one place only, and the figures are means over a changing \
                 magnification. Take the photo squarely, with the scale in the plane of the surface, \
                 or choose a smaller area beside the scale.",
                100.0 * drift.change
            ),
        )
    })
}

/// On a straightened photo.
pub(super) fn steep_tilt(tilt_deg: f64) -> Option<Note> {
    (tilt_deg > STEEPEST_DEG).then(|| {
        note(
            Severity::Caution,
            "steep-tilt",
            format!(
                "The camera was tilted by about {tilt_deg:.0}° against the surface. That was taken out, but \
                 from so low one looks at the walls inside the pores instead of their mouths, and far \
                 parts are out of focus. Take the photo more squarely, within {STEEPEST_DEG}°."
            ),
        )
    })
}

fn no_line_fits(findings: &Findings) -> Option<Note> {
    let pores = findings.pores.as_ref()?;
    pores.count_lines.is_empty().then(|| {
        note(
            Severity::Caution,
            "small-area",
            "The area is too small for a 1 mm line, so there is no spread of counts to give as a \
             handbook does. Choose a larger area."
                .to_owned(),
        )
    })
}

fn doubtful_scale(findings: &Findings) -> Option<Note> {
    let across = f64::from(findings.photo.width_px) / findings.scale.px_per_mm;
    if let Some(pores) = &findings.pores
        && let per_mm = pores.per_mm.value
        && !(SPARSEST_PER_MM..=UNHEARD_OF_PER_MM).contains(&per_mm)
    {
        return Some(note(
            Severity::Caution,
            "doubtful-scale",
            format!(
                "By this scale there are {per_mm:.2} pores per mm, which no handbook gives for a bracket. \
                 Check the scale, above all the length that was typed for it and its unit: every figure in \
                 mm rests on it."
            ),
        ));
    }
    (!(NARROWEST_MM..=WIDEST_MM).contains(&across)).then(|| {
        note(
            Severity::Caution,
            "doubtful-scale",
            format!(
                "By this scale the photo is {across:.*} mm wide, which is unusual for the underside of a bracket. \
                 Check the scale: every figure in mm rests on it.",
                if across < 1.0 { 3 } else { 0 }
            ),
        )
    })
}

/// A short mark is a caution where setting its ends makes most of the count's uncertainty.
fn short_mark(findings: &Findings, traced: &Traced) -> Option<Note> {
    let mark_px = findings.scale.mark_px?;
    let spacings = mark_px / px_per_spacing(findings, traced)?;
    let dominates = findings.uncertainty.iter().any(|budget| {
        budget.figure == Figure::PerMm && matches!(budget.largest(), (Source::Scale, _))
    });
    (spacings < SHORTEST_MARK_SPACINGS).then(|| {
        note(
            if dominates {
                Severity::Caution
            } else {
                Severity::Info
            },
            "short-mark",
            format!(
                "The scale was taken from a mark {mark_px:.0} pixels long, only {spacings:.1} times the \
                 distance from {one} to {one}. An end set one pixel off changes every figure in mm by \
                 {:.1} %. Set the scale on a longer stretch of the ruler, or on several.",
                100.0 / mark_px,
                one = thing(traced.surface.kind)
            ),
        )
    })
}

fn second_opinion(findings: &Findings) -> Option<Note> {
    let pores = findings.pores.as_ref()?;
    let spectrum = 1.0 / pores.spacing_second_opinion_mm?;
    let difference = spectrum / pores.per_mm.value - 1.0;
    (difference.abs() > DISAGREEMENT).then(|| {
        note(
            Severity::Caution,
            "second-opinion",
            format!(
                "The count gives {:.2} pores per mm, the repeat distance of the pattern by itself \
                 {spectrum:.2}. One of them is misled: look at the outlines before you rely on the \
                 figure.",
                pores.per_mm.value
            ),
        )
    })
}

fn undecided(findings: &Findings) -> Option<Note> {
    (findings.surface.kind == SurfaceType::Undecided).then(|| {
        note(
            Severity::Stop,
            "undecided",
            "The photo does not show clearly what kind of surface this is, so no count is given. \
             Choose an area of even, sharp surface, or take the photo again in raking light."
                .to_owned(),
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn four_regions_are_no_surface_and_five_are_few() {
        let code = |note: Option<Note>| note.map(|n| (n.severity, n.code));
        for count in 0..5 {
            let note = too_few_regions(SurfaceType::Poroid, count);
            assert_eq!(code(note), Some((Severity::Stop, "few-pores")), "{count}");
        }
        assert_eq!(too_few_regions(SurfaceType::Poroid, 5), None);
        let few = few_regions(SurfaceType::Toothed, 29);
        assert!(few.as_ref().is_some_and(|n| n.text.contains("29 teeth")));
        assert_eq!(code(few), Some((Severity::Caution, "few-pores")));
        assert_eq!(few_regions(SurfaceType::Poroid, 30), None);
    }
}
