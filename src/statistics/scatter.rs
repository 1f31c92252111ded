//! How far a count could be off because only this piece of surface was counted.
//!
//! Pores keep their distance from one another, so a count in a window varies less than that of
//! points strewn at random, and much of it varies only along the window's edge. Drawing tiles with
//! replacement counts every tile's edge as if it were the photo's, and gives intervals that are too
//! wide. So the variance of the count is looked at in sliding square windows of two sizes, parted
//! into a share that grows with the window's area and one that grows with its edge, and carried to
//! the whole area.

use crate::geometry::{Point, Rect};

/// Cells of the counting grid per spacing.
const CELLS: f64 = 2.0;
/// Sides of the windows, spacings: blocks of at least three spacings.
const SMALL: f64 = 3.0;
const LARGE: f64 = 6.0;
/// Fewest disjoint large windows in the area for their variance to be trusted.
const FEWEST_LARGE: f64 = 5.0;
/// A window belongs when at least this share of it lies in the area.
const INSIDE: f64 = 0.98;

/// Standard error of the number of points in an area; `None` when no small window fits.
///
/// `bounds` encloses the area, `inside` tells what belongs to it, lengths are in px.
#[must_use]
pub fn count_standard_error(
    points: &[Point],
    bounds: Rect,
    inside: impl Fn(Point) -> bool,
    spacing_px: f64,
) -> Option<f64> {
    let counts = points.iter().map(|&p| (p, 1.0));
    sum_standard_error(counts, bounds, inside, spacing_px)
}

/// The same for a sum of amounts, such as lengths of outline, each at its place.
#[must_use]
pub fn sum_standard_error(
    amounts: impl Iterator<Item = (Point, f64)>,
    bounds: Rect,
    inside: impl Fn(Point) -> bool,
    spacing_px: f64,
) -> Option<f64> {
    let grid = Grid::of(amounts, bounds, inside, spacing_px / CELLS)?;
    let small = grid.variance(SMALL * CELLS)?;
    let area = grid.total_area() / (CELLS * CELLS);
    let edge = 4.0 * area.sqrt();
    let enough = area >= FEWEST_LARGE * LARGE * LARGE;
    let variance = match grid.variance(LARGE * CELLS).filter(|_| enough) {
        Some(large) => {
            // variance = by_area · side² + by_edge · 4 side
            let by_area = ((large / LARGE - small / SMALL) / (LARGE - SMALL))
                .clamp(0.0, small / SMALL.powi(2));
            let by_edge = ((small - by_area * SMALL.powi(2)) / (4.0 * SMALL)).max(0.0);
            by_area * area + by_edge * edge
        }
        // One size tells nothing of the shares: as if half of it grew with the area.
        None => 0.5 * small * (area / SMALL.powi(2) + edge / (4.0 * SMALL)),
    };
    Some(variance.max(0.0).sqrt())
}

/// Amounts and areas summed from the top left corner, so that any window costs four look-ups.
struct Grid {
    across: usize,
    down: usize,
    sum: Vec<f64>,
    area: Vec<f64>,
}

impl Grid {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "cell numbers"
    )]
    fn of(
        amounts: impl Iterator<Item = (Point, f64)>,
        bounds: Rect,
        inside: impl Fn(Point) -> bool,
        cell: f64,
    ) -> Option<Self> {
        let (across, down) = (
            (bounds.width / cell).floor() as usize,
            (bounds.height / cell).floor() as usize,
        );
        if across == 0 || down == 0 {
            return None;
        }
        let stride = across + 1;
        let mut sum = vec![0.0; stride * (down + 1)];
        let mut area = sum.clone();
        for j in 0..down {
            for i in 0..across {
                // Nine looks a cell.
                let looks = (0..9)
                    .filter(|k| {
                        let at =
                            |n: usize, part: usize| (n as f64 + (part as f64 + 0.5) / 3.0) * cell;
                        inside(Point::new(bounds.x + at(i, k % 3), bounds.y + at(j, k / 3)))
                    })
                    .count();
                area[(j + 1) * stride + i + 1] = looks as f64 / 9.0;
            }
        }
        for (p, amount) in amounts {
            let (i, j) = (
                ((p.x - bounds.x) / cell).floor(),
                ((p.y - bounds.y) / cell).floor(),
            );
            if i >= 0.0 && j >= 0.0 && (i as usize) < across && (j as usize) < down {
                sum[(j as usize + 1) * stride + i as usize + 1] += amount;
            }
        }
        for sums in [&mut sum, &mut area] {
            for j in 1..=down {
                for i in 1..=across {
                    sums[j * stride + i] += sums[(j - 1) * stride + i] + sums[j * stride + i - 1]
                        - sums[(j - 1) * stride + i - 1];
                }
            }
        }
        Some(Self {
            across,
            down,
            sum,
            area,
        })
    }

    fn total_area(&self) -> f64 {
        self.area.last().copied().unwrap_or(0.0)
    }

    /// Variance of the sum in square windows `side` cells wide, about what their area would hold at
    /// the mean density, freed of the share that the mean has taken from it.
    fn variance(&self, side: f64) -> Option<f64> {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a few cells"
        )]
        let side = side as usize;
        let stride = self.across + 1;
        let total = self.total_area();
        let density = self.sum.last().copied().unwrap_or(0.0) / total;
        let full = (side * side) as f64;
        let window = |sums: &[f64], i: usize, j: usize| {
            sums[(j + side) * stride + i + side]
                - sums[j * stride + i + side]
                - sums[(j + side) * stride + i]
                + sums[j * stride + i]
        };
        let (mut squares, mut windows) = (0.0, 0.0);
        for j in 0..=self.down.checked_sub(side)? {
            for i in 0..=self.across.checked_sub(side)? {
                let area = window(&self.area, i, j);
                if area >= INSIDE * full {
                    squares += (window(&self.sum, i, j) - density * area).powi(2);
                    windows += 1.0;
                }
            }
        }
        let free = 1.0 - full / total;
        (windows > 0.0 && free > 0.0).then(|| squares / windows / free)
    }
}
