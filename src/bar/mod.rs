//! The scale bar on a photo, printed on a card or drawn into the picture, found by itself.
//!
//! A bar is what no underside grows: a straight stroke of one width with square ends, alone or as a
//! row of equal blocks, and set off from all that is about it by more than one tone. So the photo is
//! cut at many levels of brightness, and what is a bar at several of them, at the same place, is
//! taken for one. Light that falls off across the photo does not matter, for a bar needs only some
//! level that parts it from what is right beside it.
//!
//! A plain bar and a row of blocks are as long as from outer edge to outer edge; one with marks across
//! its ends as long as from the middle of one mark to the middle of the other
//! (`common practice, no source`).

mod chain;
mod corner;
mod ends;
mod label;
mod outline;
mod stroke;
mod tone;

use crate::area::{LeftOut, Reason};
use crate::geometry::{Point, Polygon};
use crate::photo::Photo;
use crate::progress::{Cancelled, Progress, Stage};
use chain::Candidate;
use image::{GrayImage, imageops};
use rayon::prelude::*;
use tone::Tones;

/// Longest side of the picture that bars are sought on, px: they are drawn to be seen on a screen.
const SEARCH_SIDE_PX: u32 = 1600;
/// Steps of brightness between one cut and the next, of 255 …
const LEVEL_STEP: usize = 8;
/// … and near black and white, where a bar drawn into the picture stands out from deep hollows and
/// bright walls by less.
const OUTER_LEVELS: [u8; 10] = [3, 6, 9, 14, 19, 236, 241, 246, 249, 252];
/// Cuts in a row that show a bar: at three, it is set off by two steps at least, far beyond what noise
/// and JPEG blocks do to a printed tone.
const FEWEST_LEVELS: usize = 3;
/// Ends that differ by less than this share of the length are those of one bar …
const SAME_END: f64 = 0.015;
/// … or by less than so many px of the searched picture.
const SAME_END_PX: f64 = 3.0;

/// Measured ends that differ by less than this share of the length, the error that is aimed at, are those
/// of one bar.
const SAME_BAR: f64 = 0.003;
/// A patch is thicker than the bar that is drawn on it, this share of its thickness at most, …
const THINNER: f64 = 0.6;
/// … and not much longer than it: the bar is this share of its length at least.
const SHORTER: f64 = 0.5;

/// A scale bar on a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// Where its length begins and ends on the upright photo, px.
    pub ends: [Point; 2],
    /// What it hides with its label, px of the upright photo.
    pub hidden: Polygon,
}

/// What a search for a scale bar came to.
#[derive(Debug, Clone, PartialEq)]
pub enum Search {
    /// No bar.
    Nothing,
    /// One bar and nothing like it.
    One(Bar),
    /// Several strokes that could be the bar, the longest first; a person has to choose.
    Several(Vec<Bar>),
}

impl Bar {
    /// Length on the photo, px.
    #[must_use]
    pub fn length_px(&self) -> f64 {
        self.ends[0].distance(self.ends[1])
    }

    /// The bar and its label as an area leaves them out.
    #[must_use]
    pub fn left_out(&self) -> LeftOut {
        LeftOut {
            outline: self.hidden.clone(),
            reason: Reason::Scale,
        }
    }
}

/// One cut through the brightness: which side of which level.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Cut {
    level: u8,
    is_dark: bool,
}

impl Cut {
    fn holds(self, grey: u8) -> bool {
        (grey < self.level) == self.is_dark
    }

    fn all() -> Vec<Self> {
        let (low, high) = OUTER_LEVELS.split_at(OUTER_LEVELS.len() / 2);
        let inner = (27..=228).step_by(LEVEL_STEP);
        low.iter()
            .copied()
            .chain(inner)
            .chain(high.iter().copied())
            .flat_map(|level| [true, false].map(|is_dark| Self { level, is_dark }))
            .collect()
    }
}

/// Candidates that are one and the same, seen at several cuts.
struct Seen {
    candidate: Candidate,
    cuts: Vec<Cut>,
}

impl Seen {
    /// Whether it ends where another does, but for a rim.
    fn is_about(&self, inner: &Self) -> bool {
        let rim = 2.0 * inner.candidate.thickness.max(4.0);
        self.candidate.length() - inner.candidate.length() <= rim
    }

    /// Whether it is the patch or the paper that another is drawn on.
    fn is_ground_of(&self, inner: &Self) -> bool {
        self.cuts[0].is_dark != inner.cuts[0].is_dark
            && inner.candidate.thickness <= THINNER * self.candidate.thickness
            && inner.candidate.length() >= SHORTER * self.candidate.length()
    }

    /// A seam runs round the whole bar, has the opposite tone, and is seen at few cuts, the bar in it
    /// at many.
    fn is_seam_of(&self, inner: &Self) -> bool {
        self.is_about(inner)
            && self.cuts[0].is_dark != inner.cuts[0].is_dark
            && 2 * self.cuts.len() < inner.cuts.len()
    }
}

/// Looks for the scale bar of a photo.
///
/// Finds bars from about a tenth of the photo's width on, at any place and angle, dark on light
/// and light on dark, that touch no edge of the photo.
///
/// # Errors
/// [`Cancelled`].
pub fn find(photo: &Photo, progress: &Progress<'_>) -> Result<Search, Cancelled> {
    progress.enter(Stage::Scale)?;
    let grey = searched(photo);
    let tones = Tones(&grey);
    let found: Vec<(Cut, Candidate)> = Cut::all()
        .into_par_iter()
        .flat_map_iter(|cut| {
            let strokes = match progress.check() {
                Ok(()) => stroke::strokes(&grey, cut),
                Err(Cancelled) => Vec::new(),
            };
            chain::candidates(&strokes, cut, grey.dimensions())
                .into_iter()
                .filter(|candidate| !corner::turns(&tones, cut, candidate))
                .map(|candidate| (cut, outline::completed(&tones, cut, candidate)))
                .collect::<Vec<_>>()
        })
        .collect();
    progress.check()?;
    let (clear, doubtful) = standing_alone(gathered(found));
    let bars_of = |seen: &[Seen]| -> Vec<Bar> {
        seen.iter()
            .filter_map(|seen| measured(photo, &grey, seen))
            .collect()
    };
    let mut bars = bars_of(&clear);
    if bars.len() == 1 {
        bars.extend(bars_of(&doubtful));
    }
    bars.sort_by(|a, b| b.length_px().total_cmp(&a.length_px()));
    // What differs only in how it was first seen is one.
    bars.dedup_by(|a, b| is_same_bar(a, b));
    Ok(match bars.len() {
        0 => Search::Nothing,
        1 => Search::One(bars.remove(0)),
        _ => Search::Several(bars),
    })
}

/// The picture that bars are sought on.
fn searched(photo: &Photo) -> GrayImage {
    let grey = imageops::grayscale(&photo.rgb);
    let (width, height) = grey.dimensions();
    match width.max(height).div_ceil(SEARCH_SIDE_PX) {
        0 | 1 => grey,
        times => imageops::thumbnail(&grey, (width / times).max(1), (height / times).max(1)),
    }
}

/// Puts together what is the same bar at several cuts.
fn gathered(found: Vec<(Cut, Candidate)>) -> Vec<Seen> {
    let mut groups: Vec<Vec<(Cut, Candidate)>> = Vec::new();
    for one in found {
        let same = groups
            .iter_mut()
            .find(|group| group[0].0.is_dark == one.0.is_dark && is_same(&group[0].1, &one.1));
        match same {
            Some(group) => group.push(one),
            None => groups.push(vec![one]),
        }
    }
    groups
        .into_iter()
        .filter_map(|group| {
            let mut cuts: Vec<Cut> = group.iter().map(|(cut, _)| *cut).collect();
            cuts.dedup();
            // In the middle of its levels an outline is where the edge is.
            let (_, candidate) = group.into_iter().nth(cuts.len() / 2)?;
            Some(Seen { candidate, cuts })
        })
        .collect()
}

fn is_same(a: &Candidate, b: &Candidate) -> bool {
    let near = (SAME_END * a.length()).max(SAME_END_PX);
    let meet = |i: usize, j: usize| a.ends[i].at.distance(b.ends[j].at) <= near;
    (meet(0, 0) && meet(1, 1)) || (meet(0, 1) && meet(1, 0))
}

fn is_same_bar(a: &Bar, b: &Bar) -> bool {
    let near = SAME_BAR * b.length_px();
    let meet = |i: usize, j: usize| a.ends[i].distance(b.ends[j]) <= near;
    (meet(0, 0) && meet(1, 1)) || (meet(0, 1) && meet(1, 0))
}

/// Bars without their own parts, the patch they are drawn on and the seam that sharpening leaves round
/// them; and what is seen at too few cuts but would make a bar a mere part of something longer.
fn standing_alone(mut seen: Vec<Seen>) -> (Vec<Seen>, Vec<Seen>) {
    seen.sort_by(|a, b| b.candidate.length().total_cmp(&a.candidate.length()));
    let (clear, faint): (Vec<Seen>, Vec<Seen>) = seen
        .into_iter()
        .partition(|seen| seen.cuts.len() >= FEWEST_LEVELS);
    let mut kept: Vec<Seen> = Vec::new();
    for one in clear {
        match kept.iter_mut().find(|k| k.candidate.holds(&one.candidate)) {
            Some(outer) if outer.is_seam_of(&one) || outer.is_ground_of(&one) => *outer = one,
            Some(_) => {}
            None => kept.push(one),
        }
    }
    let doubtful = faint
        .into_iter()
        .filter(|faint| {
            kept.iter().any(|bar| {
                faint.candidate.holds(&bar.candidate)
                    && !faint.is_about(bar)
                    && !faint.is_ground_of(bar)
                    && faint.candidate.length() > bar.candidate.length()
            })
        })
        .take(1)
        .collect();
    (kept, doubtful)
}

/// The bar with its ends found to a part of a pixel; `None` where the full picture shows no edge.
fn measured(photo: &Photo, grey: &GrayImage, seen: &Seen) -> Option<Bar> {
    let (width, height) = photo.light.dimensions();
    let candidate = &seen.candidate;
    let times = [
        f64::from(width) / f64::from(grey.width()),
        f64::from(height) / f64::from(grey.height()),
    ];
    let ends = ends::refined(&photo.light, candidate, times)?;
    // The cut next to the ground's tone shows even thin and pale letters.
    let cut = seen.cuts.iter().copied().reduce(|a, b| {
        if (b.level < a.level) == b.is_dark {
            a
        } else {
            b
        }
    })?;
    let hidden =
        label::hidden(grey, cut, candidate).map(|p| Point::new(p.x * times[0], p.y * times[1]));
    Some(Bar {
        ends,
        hidden: Polygon::new(hidden.to_vec()),
    })
}
