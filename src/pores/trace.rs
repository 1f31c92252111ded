//! From a fitted model to regions: one outline and one set of measures for each basin.

use super::Pore;
use crate::area::{Area, Rows};
use crate::geometry::{Moments, Point, Polygon, Rect};
use crate::segmentation::{Basins, Corrected, Frame, Model, SHALLOWEST, SPECK};
use rayon::prelude::*;

/// Regions above this many times the median area are no pores.
const OVERSIZED: f64 = 10.0;

/// Sums over one region, frame px.
#[derive(Clone, Copy)]
struct Sums {
    cover: f64,
    x: f64,
    y: f64,
    xx: f64,
    yy: f64,
    xy: f64,
    left: usize,
    right: usize,
    top: usize,
    bottom: usize,
    /// Touches the frame's edge or a part left out, so that some of it may be missing.
    cut: bool,
}

impl Sums {
    const EMPTY: Self = Self {
        cover: 0.0,
        x: 0.0,
        y: 0.0,
        xx: 0.0,
        yy: 0.0,
        xy: 0.0,
        left: usize::MAX,
        right: 0,
        top: usize::MAX,
        bottom: 0,
        cut: false,
    };

    /// Moments about the centroid. Each pixel is a square: it adds its own 1/12 px².
    fn moments(&self, frame: &Frame) -> Moments {
        let (cx, cy) = (self.x / self.cover, self.y / self.cover);
        let square = frame.step * frame.step;
        Moments {
            area: self.cover * square,
            centroid: frame.photo_from_frame(Point::new(cx, cy)),
            xx: (self.xx / self.cover - cx * cx + 1.0 / 12.0) * square,
            yy: (self.yy / self.cover - cy * cy + 1.0 / 12.0) * square,
            xy: (self.xy / self.cover - cx * cy) * square,
        }
    }
}

/// Traces every region of a model: those whose centroid lies in the area, in reading order of their
/// topmost pixels.
///
/// `counts` tells whether a region with its centroid there is counted.
#[must_use]
pub fn trace(
    model: &Model,
    regions: &Corrected,
    frame: &Frame,
    seen: &[bool],
    area: &Area,
    photo: Rect,
    counts: impl Fn(Point) -> bool + Sync,
) -> Vec<Pore> {
    let basins = &regions.basins;
    let sums = sums_of(model, basins, seen, frame.size());
    let mut areas: Vec<f64> = sums
        .iter()
        .map(|s| s.cover)
        .filter(|cover| *cover > 1.0)
        .collect();
    areas.sort_by(f64::total_cmp);
    let typical = areas.get(areas.len() / 2).copied().unwrap_or(0.0);
    let in_area = Rows::of(area, photo, |_| true);
    sums.par_iter()
        .enumerate()
        .filter(|(label, s)| {
            let is_found = || s.cover > SPECK * typical && basins.deepest[*label] >= SHALLOWEST;
            s.cover > 1.0 && (regions.by_hand[*label] || is_found())
        })
        .filter_map(|(label, s)| {
            let moments = s.moments(frame);
            let ellipse = moments.ellipse()?;
            if !in_area.hold(moments.centroid) {
                return None;
            }
            let outline = outline(model, basins, label, s, frame)?;
            let hull = outline.hull();
            let oversized = s.cover > OVERSIZED * typical;
            Some(Pore {
                feret: hull.feret(),
                perimeter: outline.perimeter(),
                solidity: (outline.area() / hull.area()).min(1.0),
                whole: !s.cut && !oversized,
                counted: counts(moments.centroid) && !oversized,
                oversized,
                by_hand: regions.by_hand[label],
                outline,
                moments,
                ellipse,
            })
        })
        .collect()
}

#[expect(clippy::cast_precision_loss, reason = "pixel numbers")]
fn sums_of(
    model: &Model,
    basins: &Basins,
    seen: &[bool],
    (width, height): (usize, usize),
) -> Vec<Sums> {
    let mut sums = vec![Sums::EMPTY; basins.count() + 1];
    for (pixel, (&label, &cover)) in basins.of_pixel.iter().zip(model.cover.as_raw()).enumerate() {
        if label == 0 || cover <= 0.0 {
            continue;
        }
        let (x, y) = (pixel % width, pixel / width);
        let s = &mut sums[label as usize];
        let weight = f64::from(cover);
        let (px, py) = (x as f64 + 0.5, y as f64 + 0.5);
        s.cover += weight;
        s.x += weight * px;
        s.y += weight * py;
        s.xx += weight * px * px;
        s.yy += weight * py * py;
        s.xy += weight * px * py;
        s.left = s.left.min(x);
        s.right = s.right.max(x);
        s.top = s.top.min(y);
        s.bottom = s.bottom.max(y);
        let edge = x == 0 || y == 0 || x + 1 == width || y + 1 == height;
        s.cut |= edge
            || !(seen[pixel - 1] && seen[pixel + 1] && seen[pixel - width] && seen[pixel + width]);
    }
    sums
}

/// The longest closed contour of one region at ½, photo px, by marching squares.
fn outline(
    model: &Model,
    basins: &Basins,
    label: usize,
    s: &Sums,
    frame: &Frame,
) -> Option<Polygon> {
    let (width, height) = frame.size();
    // A border of one pixel on every side, outside the frame counted as the other phase.
    let (w, h) = (s.right - s.left + 3, s.bottom - s.top + 3);
    let value = |i: usize, j: usize| -> f32 {
        let (Some(x), Some(y)) = (
            (s.left + i).checked_sub(1).filter(|x| *x < width),
            (s.top + j).checked_sub(1).filter(|y| *y < height),
        ) else {
            return 0.0;
        };
        let pixel = y * width + x;
        let level = model.surface.as_raw()[pixel];
        if basins.of_pixel[pixel] as usize == label {
            level
        } else {
            level.min(0.4)
        }
    };
    let grid: Vec<f32> = (0..w * h).map(|k| value(k % w, k / w)).collect();
    super::contour::longest(&grid, w, h, 0.5).map(|points| {
        Polygon::new(
            points
                .into_iter()
                .map(|p| {
                    #[expect(clippy::cast_precision_loss, reason = "pixel numbers")]
                    let (left, top) = (s.left as f64, s.top as f64);
                    frame.photo_from_frame(Point::new(left + p.x - 0.5, top + p.y - 0.5))
                })
                .collect(),
        )
    })
}
