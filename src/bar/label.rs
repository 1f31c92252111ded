//! What a bar hides together with its label.

use super::Cut;
use super::chain::{Candidate, seen_from};
use crate::geometry::Point;
use crate::segmentation::label::{Connectivity, Labels};
use image::GrayImage;

/// How far from the bar lettering is its label, along and across it, in lengths of the bar.
const ALONG: f64 = 0.6;
const ACROSS: f64 = 0.3;
/// Letters stand no farther from bar or label than this, in lengths of the bar.
const NEAR: f64 = 0.2;
/// How far the ground about a letter may differ from the ground about the bar, of 255.
const SAME_GROUND: u8 = 28;
/// Share of a letter's surroundings that is ground; the rest is the next letter.
const GROUND: f64 = 0.75;
/// Distance from a letter's box at which its surroundings are looked at, px.
const AROUND_PX: u32 = 3;

/// A rectangle along the bar.
#[derive(Clone, Copy)]
struct Span {
    along: [f64; 2],
    across: [f64; 2],
}

impl Span {
    const NOTHING: Self = Self {
        along: [f64::INFINITY, f64::NEG_INFINITY],
        across: [f64::INFINITY, f64::NEG_INFINITY],
    };

    fn with(self, other: &Self) -> Self {
        let hull = |a: [f64; 2], b: [f64; 2]| [a[0].min(b[0]), a[1].max(b[1])];
        Self {
            along: hull(self.along, other.along),
            across: hull(self.across, other.across),
        }
    }

    fn grown(self, along: f64, across: f64) -> Self {
        Self {
            along: [self.along[0] - along, self.along[1] + along],
            across: [self.across[0] - across, self.across[1] + across],
        }
    }

    fn holds(&self, other: &Self) -> bool {
        let within = |a: [f64; 2], b: [f64; 2]| a[0] <= b[0] && b[1] <= a[1];
        within(self.along, other.along) && within(self.across, other.across)
    }

    fn meets(&self, other: &Self) -> bool {
        let meet = |a: [f64; 2], b: [f64; 2]| a[0] <= b[1] && b[0] <= a[1];
        meet(self.along, other.along) && meet(self.across, other.across)
    }
}

/// Corners of the rectangle that holds the bar and its label, px of the searched picture.
pub(super) fn hidden(grey: &GrayImage, cut: Cut, bar: &Candidate) -> [Point; 4] {
    let (origin, along, length) = (bar.ends[0].at, bar.along(), bar.length());
    let marks = bar
        .ends
        .iter()
        .filter_map(|end| end.mark)
        .flat_map(|mark| mark.reach);
    let half = marks.fold(bar.thickness, f64::max);
    let own = Span {
        along: [0.0, length],
        across: [-half, half],
    };
    let reach = own.grown(ALONG * length, ACROSS * length);
    let mut letters = letters(grey, cut, origin, along, &reach);
    let mut hidden = own;
    while let Some(next) = letters
        .iter()
        .position(|letter| hidden.grown(NEAR * length, NEAR * length).meets(letter))
    {
        hidden = hidden.with(&letters.swap_remove(next));
    }
    let rim = bar.thickness.max(2.0);
    let Span {
        along: [left, right],
        across: [top, bottom],
    } = hidden.grown(rim, rim);
    [(left, top), (right, top), (right, bottom), (left, bottom)].map(|(u, v)| {
        Point::new(
            origin.x + u * along[0] - v * along[1],
            origin.y + u * along[1] + v * along[0],
        )
    })
}

/// What has the bar's tone, lies wholly within reach of it and on ground like the bar's own.
fn letters(grey: &GrayImage, cut: Cut, origin: Point, along: [f64; 2], reach: &Span) -> Vec<Span> {
    let (width, height) = grey.dimensions();
    let labels = Labels::of(
        width,
        height,
        |x, y| cut.holds(grey.get_pixel(x, y).0[0]),
        Connectivity::Eight,
    );
    let mut spans = vec![(Span::NOTHING, Extent::NOTHING); labels.count as usize + 1];
    for (&label, (x, y, _)) in labels.of_pixel.iter().zip(grey.enumerate_pixels()) {
        let place = Point::new(f64::from(x) + 0.5, f64::from(y) + 0.5);
        let (u, v) = seen_from(origin, along, place);
        let (span, around) = &mut spans[label as usize];
        *span = span.with(&Span {
            along: [u, u],
            across: [v, v],
        });
        around.add(x, y);
    }
    let own = ground_beside(grey, cut, origin, along, reach);
    spans
        .into_iter()
        .skip(1)
        .filter(|(span, around)| reach.holds(span) && around.is_on(grey, own))
        .map(|(span, _)| span)
        .collect()
}

/// The commonest tone on the ground's side of the cut right beside the bar.
fn ground_beside(grey: &GrayImage, cut: Cut, origin: Point, along: [f64; 2], reach: &Span) -> u8 {
    let length = (reach.along[1] - reach.along[0]) / (1.0 + 2.0 * ALONG);
    let beside = 0.05 * length;
    let half = 0.5 * (reach.across[1] - reach.across[0]) - ACROSS * length;
    let mut tones: Vec<u8> = grey
        .enumerate_pixels()
        .filter(|(x, y, tone)| {
            let place = Point::new(f64::from(*x) + 0.5, f64::from(*y) + 0.5);
            let (u, v) = seen_from(origin, along, place);
            (0.0..=length).contains(&u)
                && (half..=half + beside.max(3.0)).contains(&v.abs())
                && !cut.holds(tone.0[0])
        })
        .map(|(_, _, tone)| tone.0[0])
        .collect();
    tones.sort_unstable();
    tones.get(tones.len() / 2).copied().unwrap_or(cut.level)
}

/// Columns and rows that a component takes up.
#[derive(Clone, Copy)]
struct Extent {
    x: [u32; 2],
    y: [u32; 2],
}

impl Extent {
    const NOTHING: Self = Self {
        x: [u32::MAX, 0],
        y: [u32::MAX, 0],
    };

    fn add(&mut self, x: u32, y: u32) {
        self.x = [self.x[0].min(x), self.x[1].max(x)];
        self.y = [self.y[0].min(y), self.y[1].max(y)];
    }

    /// Whether it is surrounded by the given tone.
    fn is_on(self, grey: &GrayImage, ground: u8) -> bool {
        let (width, height) = grey.dimensions();
        let [left, right] = [
            self.x[0].saturating_sub(AROUND_PX),
            (self.x[1] + AROUND_PX).min(width - 1),
        ];
        let [top, bottom] = [
            self.y[0].saturating_sub(AROUND_PX),
            (self.y[1] + AROUND_PX).min(height - 1),
        ];
        let rows = (left..=right).flat_map(|x| [(x, top), (x, bottom)]);
        let columns = (top..=bottom).flat_map(|y| [(left, y), (right, y)]);
        let (mut all, mut alike) = (0.0, 0.0);
        for (x, y) in rows.chain(columns) {
            all += 1.0;
            alike += f64::from(u8::from(
                grey.get_pixel(x, y).0[0].abs_diff(ground) <= SAME_GROUND,
            ));
        }
        alike >= GROUND * all
    }
}
