//! Straight strokes of one width among what lies on one side of a level of brightness.

use super::Cut;
use crate::geometry::Point;
use crate::segmentation::label::{Connectivity, Labels};
use image::GrayImage;

/// Fewest pixels of a stroke.
const FEWEST_PIXELS: f64 = 12.0;
/// Least length over width of a stroke or block.
const LEAST_SLENDER: f64 = 1.3;
/// Least length as a share of the photo's width; what is shorter is lettering.
const LEAST_LENGTH: f64 = 0.012;
/// How far the width may stray: a share of it …
const SAME_WIDTH: f64 = 0.15;
/// … or so many px, what cutting into pixels does at both edges.
const SAME_WIDTH_PX: f64 = 1.2;
/// Share of a stroke's length that may be narrower: dust, a scratch.
const MOST_NARROW: f64 = 0.05;
/// Share of a stroke's length that may be wider: marks across it.
const MOST_WIDE: f64 = 0.25;
/// How far the middle of a straight stroke strays: px, and shares of width and length (a lens bends
/// straight lines).
const STRAIGHT: [f64; 3] = [0.35, 0.03, 0.0008];
/// A mark across an end reaches beyond the stroke by this factor of the stroke's width and so many px.
const MARK: (f64, f64) = (1.5, 2.0);
/// How far a mark reaches along a stroke at most, a share of its length.
const MOST_MARK: f64 = 0.2;
/// Width right at an end without a mark, as a share of the stroke's.
const SQUARE_END: f64 = 0.65;

/// Share of a stroke that has its tone; the rest is what a picture's noise does to it.
const FILLED: f64 = 0.85;
/// Share of the width that an outline leaves of an empty block at most.
const OUTLINED: f64 = 0.7;
/// How far blocks in one outline may differ in length: a share, and px.
const ALIKE: (f64, f64) = (0.15, 2.0);
/// Px along the photo's edge where a stroke may be cut off.
const EDGE_PX: u32 = 3;

/// One end of a stroke.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct End {
    /// Where the middle line ends, px of the searched picture.
    pub(super) at: Point,
    /// The mark across it.
    pub(super) mark: Option<Mark>,
}

/// A mark across the end of a stroke.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Mark {
    /// How far it reaches on either side of the stroke's middle line, px; left and right as seen along
    /// the stroke's direction from first to last end.
    pub(super) reach: [f64; 2],
    /// How far it reaches along the stroke, px.
    pub(super) thickness: f64,
}

/// A straight stroke of one width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stroke {
    pub(super) ends: [End; 2],
    /// Width, px.
    pub(super) width: f64,
}

impl Stroke {
    pub(super) fn length(&self) -> f64 {
        self.ends[0].at.distance(self.ends[1].at)
    }
}

/// Sums over the pixels of one component.
#[derive(Clone, Copy, Default)]
struct Sums {
    n: f64,
    x: f64,
    y: f64,
    xx: f64,
    yy: f64,
    xy: f64,
    touches_edge: bool,
}

/// A component's own axes.
#[derive(Clone, Copy)]
struct Axes {
    centre: Point,
    along: [f64; 2],
}

impl Sums {
    fn add(&mut self, x: u32, y: u32) {
        let (x, y) = (f64::from(x) + 0.5, f64::from(y) + 0.5);
        self.n += 1.0;
        self.x += x;
        self.y += y;
        self.xx += x * x;
        self.yy += y * y;
        self.xy += x * y;
    }

    /// The axes of what could be a stroke.
    fn axes(&self, photo_width: f64) -> Option<Axes> {
        if self.touches_edge || self.n < FEWEST_PIXELS {
            return None;
        }
        let (mx, my) = (self.x / self.n, self.y / self.n);
        let xx = self.xx / self.n - mx * mx;
        let yy = self.yy / self.n - my * my;
        let xy = self.xy / self.n - mx * my;
        let mean = f64::midpoint(xx, yy);
        let spread = (0.5 * (xx - yy)).hypot(xy);
        // A rectangle of length a has the second moment a²/12 along it.
        let length = (12.0 * (mean + spread)).sqrt();
        let width = (12.0 * (mean - spread)).max(1.0).sqrt();
        let angle = 0.5 * (2.0 * xy).atan2(xx - yy);
        (length >= LEAST_SLENDER * width && length >= LEAST_LENGTH * photo_width).then(|| Axes {
            centre: Point::new(mx, my),
            along: [angle.cos(), angle.sin()],
        })
    }
}

/// All strokes on one side of a level.
pub(super) fn strokes(grey: &GrayImage, cut: Cut) -> Vec<Stroke> {
    let (width, height) = grey.dimensions();
    let raw = grey.as_raw();
    let index = |x: u32, y: u32| y as usize * width as usize + x as usize;
    let labels = Labels::of(
        width,
        height,
        |x, y| cut.holds(raw[index(x, y)]),
        Connectivity::Four,
    );
    let mut sums = vec![Sums::default(); labels.count as usize + 1];
    for y in 0..height {
        for x in 0..width {
            let label = labels.of_pixel[index(x, y)];
            if label != 0 {
                let sum = &mut sums[label as usize];
                sum.add(x, y);
                sum.touches_edge |=
                    x < EDGE_PX || y < EDGE_PX || x + EDGE_PX >= width || y + EDGE_PX >= height;
            }
        }
    }
    let axes: Vec<Option<Axes>> = sums.iter().map(|s| s.axes(f64::from(width))).collect();
    let mut pixels: Vec<Vec<[f64; 2]>> = vec![Vec::new(); axes.len()];
    for y in 0..height {
        for x in 0..width {
            let label = labels.of_pixel[index(x, y)] as usize;
            if let Some(axes) = &axes[label] {
                let (dx, dy) = (
                    f64::from(x) + 0.5 - axes.centre.x,
                    f64::from(y) + 0.5 - axes.centre.y,
                );
                let [cos, sin] = axes.along;
                pixels[label].push([dx * cos + dy * sin, dy * cos - dx * sin]);
            }
        }
    }
    axes.iter()
        .zip(&pixels)
        .filter_map(|(axes, pixels)| straight(&(*axes)?, pixels))
        .collect()
}

/// How far a component reaches across its axis, at one place along it.
#[derive(Clone, Copy)]
struct Slice {
    u: f64,
    low: f64,
    high: f64,
    pixels: f64,
}

impl Slice {
    fn width(&self) -> f64 {
        self.high - self.low
    }

    fn middle(&self) -> f64 {
        f64::midpoint(self.low, self.high)
    }
}

/// The slices of a component, a pixel apart; holes do not count.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a place along a component, from its own start"
)]
fn slices(pixels: &[[f64; 2]]) -> Vec<Slice> {
    let start = pixels.iter().map(|p| p[0]).fold(f64::INFINITY, f64::min);
    let mut slices: Vec<Slice> = Vec::new();
    for &[u, v] in pixels {
        let place = (u - start) as usize;
        while slices.len() <= place {
            slices.push(Slice {
                u: start + slices.len() as f64 + 0.5,
                low: f64::INFINITY,
                high: f64::NEG_INFINITY,
                pixels: 0.0,
            });
        }
        let slice = &mut slices[place];
        slice.low = slice.low.min(v - 0.5);
        slice.high = slice.high.max(v + 0.5);
        slice.pixels += 1.0;
    }
    slices.retain(|slice| slice.low.is_finite());
    slices
}

/// The component as a straight stroke of one width, if it is one.
fn straight(axes: &Axes, pixels: &[[f64; 2]]) -> Option<Stroke> {
    let slices = slices(pixels);
    let mut widths: Vec<f64> = slices.iter().map(Slice::width).collect();
    widths.sort_by(f64::total_cmp);
    let width = *widths.get(widths.len() / 2)?;
    let (first, last) = pixels
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| {
            (a.min(p[0]), b.max(p[0]))
        });
    let (first, last) = (first - 0.5, last + 0.5);
    let length = last - first;

    let stray = (SAME_WIDTH * width).max(SAME_WIDTH_PX);
    let is_mark = |s: &Slice| s.width() >= (MARK.0 * width).max(width + MARK.1);
    let end_zone = (1.5 * width).max(4.0).min(0.2 * length);
    let inwards: Vec<&Slice> = slices.iter().collect();
    let outwards: Vec<&Slice> = slices.iter().rev().collect();
    let marks = [(first, inwards), (last, outwards)].map(|(end, from_end)| {
        let is_beyond = |s: &Slice| (s.u - end).abs() > MOST_MARK * length;
        let here: Vec<&Slice> = from_end
            .into_iter()
            .skip_while(|s| (s.u - end).abs() <= end_zone && !is_mark(s))
            .take_while(|s| is_mark(s) && !is_beyond(s))
            .collect();
        let inner = here.last()?;
        Some(Mark {
            reach: here.iter().fold([0.0_f64, 0.0_f64], |reach, s| {
                [reach[0].max(-s.low), reach[1].max(s.high)]
            }),
            thickness: (inner.u - end).abs() + 0.5,
        })
    });
    let is_in_mark = |s: &Slice| {
        [first, last].iter().zip(&marks).any(|(end, mark)| {
            mark.is_some_and(|mark| (s.u - end).abs() <= end_zone.max(mark.thickness + 2.0))
        })
    };
    let body: Vec<&Slice> = slices.iter().filter(|s| !is_in_mark(s)).collect();
    let share = |is: &dyn Fn(&Slice) -> bool| {
        body.iter().filter(|s| is(s)).count() as f64 / body.len() as f64
    };
    // The first and last slice are cut by chance.
    let allowed = MOST_NARROW + 2.0 / body.len() as f64;
    if body.is_empty()
        || share(&|s| s.width() < width - stray) > allowed
        || share(&|s| s.width() > width + stray) > MOST_WIDE
    {
        return None;
    }
    let filled = body.iter().map(|s| s.pixels).sum::<f64>() / (body.len() as f64 * width);
    if filled < FILLED && !is_row_of_blocks(&body, width) {
        return None;
    }
    let even: Vec<[f64; 2]> = body
        .iter()
        .filter(|s| (s.width() - width).abs() <= stray)
        .map(|s| [s.u, s.middle()])
        .collect();
    let (offset, slope, scatter) = line(&even)?;
    if scatter > STRAIGHT[0] + STRAIGHT[1] * width + STRAIGHT[2] * length {
        return None;
    }
    for (end, mark) in [first, last].iter().zip(&marks) {
        let near = 1.0 + 0.1 * width;
        let is_square = mark.is_some()
            || slices
                .iter()
                .filter(|s| (near..near + 1.5).contains(&(s.u - end).abs()))
                .all(|s| s.width() >= SQUARE_END * width);
        if !is_square {
            return None;
        }
    }
    let [cos, sin] = axes.along;
    let at = |u: f64| {
        let v = offset + slope * u;
        Point::new(
            axes.centre.x + u * cos - v * sin,
            axes.centre.y + u * sin + v * cos,
        )
    };
    let end = |u: f64, mark: Option<Mark>| End {
        at: at(u),
        mark: mark.map(|mark| {
            let [left, right] = mark.reach;
            let v = offset + slope * u;
            Mark {
                reach: [left + v, right - v],
                ..mark
            }
        }),
    };
    Some(Stroke {
        ends: [end(first, marks[0]), end(last, marks[1])],
        width,
    })
}

/// Whether what an outline holds is filled and empty by turns, block by block.
fn is_row_of_blocks(body: &[&Slice], width: f64) -> bool {
    let is_empty = |s: &&Slice| s.pixels < OUTLINED * width;
    let mut lengths: Vec<f64> = body
        .chunk_by(|a, b| is_empty(a) == is_empty(b))
        .map(|block| block.len() as f64)
        .collect();
    // The outline's own ends before an empty block.
    lengths.retain(|length| *length > width.min(4.0));
    let longest = lengths.iter().copied().fold(0.0, f64::max);
    let shortest = lengths.iter().copied().fold(f64::INFINITY, f64::min);
    lengths.len() >= 3 && longest - shortest <= 2.0 * (ALIKE.0 * longest + ALIKE.1)
}

/// Least squares: value at zero, slope, scatter about the line.
fn line(places: &[[f64; 2]]) -> Option<(f64, f64, f64)> {
    let n = places.len() as f64;
    if n < 3.0 {
        return None;
    }
    let mean = |of: &dyn Fn(&[f64; 2]) -> f64| places.iter().map(of).sum::<f64>() / n;
    let (mu, mv) = (mean(&|p| p[0]), mean(&|p| p[1]));
    let uu = mean(&|p| (p[0] - mu).powi(2));
    let uv = mean(&|p| (p[0] - mu) * (p[1] - mv));
    if uu <= 0.0 {
        return None;
    }
    let slope = uv / uu;
    let offset = mv - slope * mu;
    let scatter = mean(&|p| (p[1] - offset - slope * p[0]).powi(2)).sqrt();
    Some((offset, slope, scatter))
}
