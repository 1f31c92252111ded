//! Bars out of strokes: one stroke alone, two with the label between them, or a row of equal blocks.

use super::Cut;
use super::stroke::{End, Stroke};
use crate::geometry::Point;

/// Least length of a bar as a share of the photo's width.
const LEAST_LENGTH: f64 = 0.1;
/// Least length over thickness of a bar.
const LEAST_SLENDER: f64 = 6.0;
/// Most width of its stroke or blocks as a share of the photo's shorter side.
const MOST_WIDTH: f64 = 0.05;
/// How far lengths and widths of the parts of one bar may differ, a share.
const ALIKE: f64 = 0.15;
/// Gaps between blocks in a row, in lengths of a block.
const GAP: [f64; 2] = [0.5, 1.4];
/// Shortest gap between two halves, in lengths of one: a label stands in it.
const LABEL_GAP: f64 = 0.08;
/// Slenderness from which on two strokes alone can be the two halves of a bar.
const HALF_SLENDER: f64 = 4.0;
/// Least width of a block whose outline shows as two lines with something between, px.
const WIDE_ENOUGH_PX: f64 = 5.0;
/// Sine of the angle between parts of one bar at most, beside what their pixels leave open.
const PARALLEL: f64 = 0.02;

/// What could be a bar, on the searched picture.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Candidate {
    /// Its two ends, on the middle lines of its outer parts.
    pub(super) ends: [End; 2],
    /// Width of the stroke at the ends, px.
    pub(super) width: f64,
    /// Thickness of the whole, px.
    pub(super) thickness: f64,
    /// Whether its ink is darker than the ground.
    pub(super) is_dark: bool,
    /// Its blocks, where they stand on one line and are wide enough to have an outline.
    pub(super) blocks: Option<Blocks>,
}

/// A row of blocks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Blocks {
    /// Length of a filled one, px.
    pub(super) filled: f64,
    /// From a filled one to the next, px.
    pub(super) gap: f64,
}

impl Candidate {
    pub(super) fn length(&self) -> f64 {
        self.ends[0].at.distance(self.ends[1].at)
    }

    /// Its direction from first to last end, a unit vector.
    pub(super) fn along(&self) -> [f64; 2] {
        direction(self.ends[0].at, self.ends[1].at)
    }

    /// Whether another lies on it lengthwise.
    pub(super) fn holds(&self, other: &Self) -> bool {
        let along = self.along();
        let slack = self.thickness.max(other.thickness) + 4.0;
        other.ends.iter().all(|end| {
            let (u, v) = seen_from(self.ends[0].at, along, end.at);
            (-slack..=self.length() + slack).contains(&u) && v.abs() <= slack
        })
    }

    fn of(
        ends: [End; 2],
        [width, thickness]: [f64; 2],
        blocks: Option<Blocks>,
        cut: Cut,
        photo: (u32, u32),
    ) -> Option<Self> {
        let blocks = blocks.filter(|_| width >= WIDE_ENOUGH_PX && thickness <= width);
        let candidate = Self {
            ends,
            width,
            thickness,
            is_dark: cut.is_dark,
            blocks,
        };
        let length = candidate.length();
        let shorter = f64::from(photo.0.min(photo.1));
        (length >= LEAST_LENGTH * f64::from(photo.0)
            && length >= LEAST_SLENDER * thickness
            && width <= MOST_WIDTH * shorter)
            .then_some(candidate)
    }
}

fn direction(a: Point, b: Point) -> [f64; 2] {
    let length = a.distance(b);
    [(b.x - a.x) / length, (b.y - a.y) / length]
}

/// A place along and across a direction.
pub(super) fn seen_from(origin: Point, [cos, sin]: [f64; 2], p: Point) -> (f64, f64) {
    let (dx, dy) = (p.x - origin.x, p.y - origin.y);
    (dx * cos + dy * sin, dy * cos - dx * sin)
}

/// A stroke as seen along another.
#[derive(Clone, Copy)]
struct Part {
    from: f64,
    to: f64,
    across: f64,
    ends: [End; 2],
}

/// Everything that could be a bar among the strokes of one cut.
pub(super) fn candidates(strokes: &[Stroke], cut: Cut, photo: (u32, u32)) -> Vec<Candidate> {
    let alone = strokes.iter().filter_map(|s| {
        let alone = Blocks {
            filled: s.length(),
            gap: s.length(),
        };
        Candidate::of(s.ends, [s.width; 2], Some(alone), cut, photo)
    });
    let rows = strokes
        .iter()
        .filter_map(|seed| row(seed, strokes, cut, photo));
    alone.chain(rows).collect()
}

/// The row that begins with the given block.
fn row(seed: &Stroke, strokes: &[Stroke], cut: Cut, photo: (u32, u32)) -> Option<Candidate> {
    let (length, width) = (seed.length(), seed.width);
    let origin = seed.ends[0].at;
    let along = direction(origin, seed.ends[1].at);
    let mut parts: Vec<Part> = strokes
        .iter()
        .filter(|s| {
            (s.length() / length - 1.0).abs() <= ALIKE
                && (s.width - width).abs() <= (ALIKE * width).max(1.0)
        })
        .filter_map(|s| {
            let (a, va) = seen_from(origin, along, s.ends[0].at);
            let (b, vb) = seen_from(origin, along, s.ends[1].at);
            let is_parallel = (va - vb).abs() <= PARALLEL * length + 1.0;
            let ends = if a <= b {
                s.ends
            } else {
                [s.ends[1], s.ends[0]]
            };
            is_parallel.then_some(Part {
                from: a.min(b),
                to: a.max(b),
                across: f64::midpoint(va, vb),
                ends,
            })
        })
        .collect();
    parts.sort_by(|a, b| a.from.total_cmp(&b.from));

    let first = *parts
        .iter()
        .find(|p| p.from.abs() < 1.0 && p.across.abs() < 1.0)?;
    // One that continues another begins no row.
    if parts.iter().any(|p| follows(p, &first, length, width)) {
        return None;
    }
    let mut row = vec![first];
    while let Some(next) = row
        .last()
        .and_then(|last| parts.iter().find(|p| follows(last, p, length, width)))
    {
        row.push(*next);
    }
    if row.len() == 1
        && length >= HALF_SLENDER * width
        && let Some(half) = parts
            .iter()
            .find(|p| is_other_half(&first, p, length, width))
    {
        row.push(*half);
    }
    let last = row.last()?;
    let enough = if length >= HALF_SLENDER * width { 2 } else { 3 };
    if row.len() < enough {
        return None;
    }
    let reach = row.iter().map(|p| p.across.abs()).fold(0.0, f64::max);
    let is_double = reach > 0.5 * width;
    let thickness = if is_double { 2.0 * width } else { width };
    let blocks = Blocks {
        filled: length,
        gap: row[1].from - first.to,
    };
    let ends = [first.ends[0], last.ends[1]];
    Candidate::of(ends, [width, thickness], Some(blocks), cut, photo)
}

/// Whether a stroke is the other half of one that a label interrupts.
fn is_other_half(first: &Part, other: &Part, length: f64, width: f64) -> bool {
    let gap = other.from - first.to;
    is_in_line(first, other, width) && (LABEL_GAP * length..=GAP[1] * length).contains(&gap)
}

fn is_in_line(a: &Part, b: &Part, width: f64) -> bool {
    (a.across - b.across).abs() <= 0.12 * width + 0.8
}

/// Whether a block is the next after another: in line with it after a gap, or beside it and at its
/// end, where blocks stand in two rows.
fn follows(last: &Part, next: &Part, length: f64, width: f64) -> bool {
    let gap = next.from - last.to;
    let aside = (next.across - last.across).abs();
    let in_line = is_in_line(last, next, width);
    let beside = (aside - width).abs() <= 0.25 * width + 1.0;
    (in_line && (GAP[0] * length..=GAP[1] * length).contains(&gap))
        || (beside && gap.abs() <= 0.15 * length + 2.0)
}
