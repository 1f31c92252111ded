//! Where pores sit and which cell of tissue each one gets.

use super::outline::{Point, Region, clip, divided, dot, minus, widened};
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use rayon::prelude::*;
use std::f64::consts::TAU;

/// How the centres are arranged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Packing {
    /// A triangular lattice, every centre moved by a normal deviate of this share of the spacing.
    Lattice { jitter: f64 },
    /// Centres thrown at random, none closer than 0.68 spacings, then evened out by moving each
    /// to the centroid of its cell, so many times over.
    Relaxed { steps: u32 },
}

/// A line a pore may not cross: the border of its cell towards one neighbour.
struct Border {
    normal: Point,
    /// From the centre, along `normal`.
    distance: f64,
}

/// One centre with its surroundings.
pub struct Cell {
    pub centre: Point,
    pub neighbours: Vec<usize>,
    borders: Vec<Border>,
    reach: f64,
    /// Radius of the largest circle in the cell.
    inradius: f64,
}

/// How a pore fills its cell.
pub struct Fill {
    /// Half the thickness of the walls, px.
    pub half_wall: f64,
    /// 0 = corners as sharp as the cell's, 1 = as round as fits.
    pub rounding: f64,
    /// Unevenness of the outline, a share of the pore's radius.
    pub wobble: f64,
    /// Growth along x (and shrinkage along y) of this one pore, 1 = none.
    pub stretch: f64,
    /// Decides the shape of the unevenness.
    pub seed: u64,
}

impl Cell {
    /// The cell itself, all its tissue included.
    pub fn outline(&self) -> Vec<Point> {
        self.within(0.0)
    }

    /// The part of the cell that keeps a distance from every border.
    fn within(&self, inset: f64) -> Vec<Point> {
        let [x, y] = self.centre;
        let r = self.reach;
        let mut outline = vec![
            [x - r, y - r],
            [x + r, y - r],
            [x + r, y + r],
            [x - r, y + r],
        ];
        for border in &self.borders {
            let offset = dot(border.normal, self.centre) + border.distance - inset;
            outline = clip(&outline, border.normal, offset);
        }
        outline
    }

    /// The pore in this cell; `None` where the walls leave it no room.
    pub fn pore(&self, fill: &Fill) -> Option<Region> {
        let room = self.inradius - fill.half_wall;
        if room <= 0.0 {
            return None;
        }
        let corner = 0.97 * fill.rounding * room;
        let mut outline = self.within(fill.half_wall + corner);
        outline.dedup_by(|p, q| {
            let [dx, dy] = minus(*p, *q);
            dx.hypot(dy) < 1e-6 * self.reach
        });
        if corner > 0.0 && outline.len() > 2 {
            outline = widened(&outline, corner);
        }
        outline = uneven(outline, fill)?;
        if (fill.stretch - 1.0).abs() > 1e-9 {
            let [x, y] = Region::new(outline.clone())?.centroid;
            for p in &mut outline {
                *p = [x + (p[0] - x) * fill.stretch, y + (p[1] - y) / fill.stretch];
            }
            // A drawn-out pore thins its walls, but never by more than half.
            for border in &self.borders {
                let offset = dot(border.normal, self.centre) + border.distance;
                outline = clip(&outline, border.normal, offset - 0.5 * fill.half_wall);
            }
        }
        Region::new(outline)
    }

    /// The inset at which nothing of the cell is left.
    fn largest_inset(&self) -> f64 {
        let (mut some, mut none) = (0.0, self.reach);
        for _ in 0..12 {
            let inset = f64::midpoint(some, none);
            if self.within(inset).len() > 2 {
                some = inset;
            } else {
                none = inset;
            }
        }
        some
    }
}

/// Draws an outline in, here more and there less, never out, so that walls stay whole.
fn uneven(outline: Vec<Point>, fill: &Fill) -> Option<Vec<Point>> {
    if fill.wobble <= 0.0 {
        return Some(outline);
    }
    let pore = Region::new(outline)?;
    let mut random = Pcg64Mcg::seed_from_u64(fill.seed);
    let waves: Vec<(f64, f64)> = (2..=6)
        .map(|turns| (f64::from(turns), TAU * random.random::<f64>()))
        .collect();
    let most: f64 = waves.iter().map(|(turns, _)| 2.0 / turns).sum();
    let [x, y] = pore.centroid;
    let inward = |p: Point| {
        let [dx, dy] = minus(p, pore.centroid);
        let angle = dy.atan2(dx);
        let ripple = |&(turns, phase): &(f64, f64)| (1.0 + (turns * angle + phase).cos()) / turns;
        let draw = fill.wobble * waves.iter().map(ripple).sum::<f64>() / most;
        [x + dx * (1.0 - draw), y + dy * (1.0 - draw)]
    };
    let fine = divided(&pore.outline, 0.12 * pore.diameter_px());
    Some(fine.into_iter().map(inward).collect())
}

/// The cells of a field `width` × `height` px with a border of three spacings around it.
/// `size_variation` is the standard deviation of the cells' own radii, a share of the mean radius:
/// the larger one pushes the common border away from itself.
pub fn cells(
    [width, height]: [f64; 2],
    spacing: f64,
    packing: Packing,
    size_variation: f64,
    seed: u64,
) -> Vec<Cell> {
    let mut random = Pcg64Mcg::seed_from_u64(seed);
    let margin = 3.0 * spacing;
    let size = [width + 2.0 * margin, height + 2.0 * margin];
    let mut centres = match packing {
        Packing::Lattice { jitter } => lattice(size, spacing, jitter, &mut random),
        Packing::Relaxed { .. } => thrown(size, spacing, &mut random),
    };
    for p in &mut centres {
        *p = [p[0] - margin, p[1] - margin];
    }
    if let Packing::Relaxed { steps } = packing {
        for _ in 0..steps {
            let even = vec![0.0; centres.len()];
            centres = arranged(&centres, &even, spacing)
                .into_iter()
                .map(|cell| Region::new(cell.outline()).map_or(cell.centre, |r| r.centroid))
                .collect();
        }
    }
    let weights: Vec<f64> = centres
        .iter()
        .map(|_| {
            let radius =
                (1.0 + size_variation * normal(&mut random).clamp(-2.0, 2.0)) * spacing / 2.0;
            radius * radius
        })
        .collect();
    arranged(&centres, &weights, spacing)
}

fn lattice([width, height]: Point, spacing: f64, jitter: f64, random: &mut Pcg64Mcg) -> Vec<Point> {
    let row_height = spacing * 0.75_f64.sqrt();
    let start = [
        random.random::<f64>() * spacing,
        random.random::<f64>() * row_height,
    ];
    let rows = (height / row_height) as usize;
    let columns = (width / spacing) as usize;
    let mut centres = Vec::with_capacity(rows * columns);
    for row in 0..rows {
        for column in 0..columns {
            let x = start[0] + (column as f64 + 0.5 * (row % 2) as f64) * spacing;
            let y = start[1] + row as f64 * row_height;
            let moved = [normal(random), normal(random)].map(|d| d * jitter * spacing);
            centres.push([x + moved[0], y + moved[1]]);
        }
    }
    centres
}

fn thrown([width, height]: Point, spacing: f64, random: &mut Pcg64Mcg) -> Vec<Point> {
    let wanted = (width * height / (0.75_f64.sqrt() * spacing * spacing)) as usize;
    let least = 0.68 * spacing;
    let mut near = Near::new(spacing);
    let mut centres = Vec::with_capacity(wanted);
    while centres.len() < wanted {
        let p = [
            random.random::<f64>() * width,
            random.random::<f64>() * height,
        ];
        if near.around(&centres, p, least).is_empty() {
            near.add(centres.len(), p);
            centres.push(p);
        }
    }
    centres
}

/// Cells whose borders lie where two neighbours' powers (distance² − weight) are equal.
fn arranged(centres: &[Point], weights: &[f64], spacing: f64) -> Vec<Cell> {
    let mut near = Near::new(spacing);
    for (i, &p) in centres.iter().enumerate() {
        near.add(i, p);
    }
    let cell = |(i, &centre): (usize, &Point)| {
        let neighbours = near.around(centres, centre, 2.6 * spacing);
        let neighbours: Vec<usize> = neighbours.into_iter().filter(|&j| j != i).collect();
        let border = |&j: &usize| {
            let [dx, dy] = minus(centres[j], centre);
            let apart = dx.hypot(dy);
            Border {
                normal: [dx / apart, dy / apart],
                distance: (apart * apart + weights[i] - weights[j]) / (2.0 * apart),
            }
        };
        let mut cell = Cell {
            centre,
            borders: neighbours.iter().map(border).collect(),
            neighbours,
            reach: 1.5 * spacing,
            inradius: 0.0,
        };
        // The nearest borders cut most away; what they leave few others touch.
        cell.borders
            .sort_by(|a, b| a.distance.total_cmp(&b.distance));
        cell.inradius = cell.largest_inset();
        cell
    };
    centres.par_iter().enumerate().map(cell).collect()
}

/// Points sorted into squares, to find the ones near a place.
struct Near {
    side: f64,
    squares: std::collections::HashMap<(i64, i64), Vec<usize>>,
}

impl Near {
    fn new(side: f64) -> Self {
        Self {
            side,
            squares: std::collections::HashMap::new(),
        }
    }

    fn square(&self, p: Point) -> (i64, i64) {
        (
            (p[0] / self.side).floor() as i64,
            (p[1] / self.side).floor() as i64,
        )
    }

    fn add(&mut self, index: usize, p: Point) {
        self.squares.entry(self.square(p)).or_default().push(index);
    }

    /// The points within `reach` of a place, in the order they were added within each square.
    fn around(&self, points: &[Point], p: Point, reach: f64) -> Vec<usize> {
        let steps = (reach / self.side).ceil() as i64;
        let (column, row) = self.square(p);
        let mut found = Vec::new();
        for y in row - steps..=row + steps {
            for x in column - steps..=column + steps {
                let here = self.squares.get(&(x, y)).into_iter().flatten();
                found.extend(here.filter(|&&i| {
                    let [dx, dy] = minus(points[i], p);
                    dx.hypot(dy) <= reach
                }));
            }
        }
        found
    }
}

/// A normal deviate of mean 0 and standard deviation 1 (Box–Muller).
pub fn normal(random: &mut Pcg64Mcg) -> f64 {
    let radius = (-2.0 * (1.0 - random.random::<f64>()).ln()).sqrt();
    radius * (TAU * random.random::<f64>()).cos()
}
