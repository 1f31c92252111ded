//! Undersides of bracket fungi made by rule, so that what is on them is known and not measured.
//!
//! [`Surface::render`] turns a description into a [`Pattern`]: which share of every pixel is void,
//! and the outline of every pore or tooth. Nothing here knows light or lenses.

use super::outline::{Point, Region, last_crossing, minus};
use super::packing::{Cell, Fill, Packing, cells};
use super::plane::{Plane, Rect, mottling, smooth_noise};
use super::stripes::{self, Start};
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use rayon::prelude::*;
use std::f64::consts::{FRAC_PI_2, TAU};

/// Over how many spacings pores dwindle towards the sterile margin.
const FADING_SPACINGS: f64 = 2.5;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    Poroid,
    Toothed,
    MazeLike,
    Gilled,
    Smooth,
}

impl Kind {
    /// The name used in `truth.json`.
    pub fn name(self) -> &'static str {
        match self {
            Self::Poroid => "poroid",
            Self::Toothed => "toothed",
            Self::MazeLike => "maze-like",
            Self::Gilled => "gilled",
            Self::Smooth => "smooth",
        }
    }
}

/// A description of one underside. Take [`Surface::default`] and change what matters.
#[derive(Clone, Debug)]
pub struct Surface {
    pub kind: Kind,
    pub width_px: usize,
    pub height_px: usize,
    pub px_per_mm: f64,
    /// Distance between the centres of neighbouring pores or teeth of a triangular lattice of the
    /// same density; the period of a maze or of gills.
    pub spacing_px: f64,
    /// Share of the surface that is wall (tooth, gill edge).
    pub wall_share: f64,
    pub packing: Packing,
    /// 0 = pores as angular as their cells, 1 = as round as fits.
    pub rounding: f64,
    /// Spread of the cells' radii, a share of the mean.
    pub size_variation: f64,
    /// Unevenness of outlines, a share of the pore's radius.
    pub wobble: f64,
    /// All pores drawn out by this factor along `direction_deg`, their density kept.
    pub elongation: f64,
    /// Standard deviation of the pores' own further stretch, a share.
    pub elongation_spread: f64,
    /// Along which pores are drawn out or gills run; 0 = along x, clockwise on screen.
    pub direction_deg: f64,
    /// Toothed: share of teeth picked to grow together with a neighbour; some find none in reach.
    pub merged: f64,
    /// Gilled: how far gills stray, a share of the period.
    pub waviness: f64,
    /// Gilled: forks per hundred square periods.
    pub forks: f64,
    /// Smooth: warts per photo; cracks per photo.
    pub warts: usize,
    pub cracks: usize,
    /// The cap's edge, where it is in the picture.
    pub margin: Option<Margin>,
    pub seed: u64,
}

impl Default for Surface {
    fn default() -> Self {
        Self {
            kind: Kind::Poroid,
            width_px: 800,
            height_px: 600,
            px_per_mm: 80.0,
            spacing_px: 20.0,
            wall_share: 0.45,
            packing: Packing::Relaxed { steps: 3 },
            rounding: 0.5,
            size_variation: 0.06,
            wobble: 0.05,
            elongation: 1.0,
            elongation_spread: 0.0,
            direction_deg: 0.0,
            merged: 0.0,
            waviness: 0.3,
            forks: 1.5,
            warts: 0,
            cracks: 0,
            margin: None,
            seed: 1,
        }
    }
}

/// The cap's edge: a wavy circle.
#[derive(Clone, Copy, Debug)]
pub struct Margin {
    pub centre: Point,
    pub radius_px: f64,
    pub wave_px: f64,
    /// Width of the band along the edge that bears no pores.
    pub sterile_px: f64,
}

impl Margin {
    /// Distance from the edge, px: positive on the cap, negative off it.
    pub fn inward(&self, p: Point) -> f64 {
        let [dx, dy] = minus(p, self.centre);
        let distance = dx.hypot(dy).max(1.0);
        let rim = [dx, dy].map(|d| d / distance * self.radius_px / 260.0);
        let wave =
            smooth_noise(rim[0], rim[1], 77) + 0.16 * smooth_noise(3.4 * rim[0], 3.4 * rim[1], 78);
        self.radius_px + self.wave_px * wave - distance
    }
}

/// A rendered surface and what is known about it.
#[derive(Clone, Debug)]
pub struct Pattern {
    pub surface: Surface,
    /// Share of every pixel that is void, 0 to 1.
    pub void: Plane,
    /// Height of the tissue in px towards the viewer: warts, cracks and waves of smooth surfaces.
    pub relief: Plane,
    /// Pores of a poroid surface, teeth of a toothed one, else empty. Those cut by the photo's
    /// edge are whole here, and some centroids lie outside.
    pub regions: Vec<Region>,
}

/// What is true of one rectangle of a pattern. `None` where a figure has no meaning there.
#[derive(Clone, Debug)]
pub struct Truth {
    pub kind: Kind,
    pub px_per_mm: f64,
    pub area_mm2: f64,
    /// Pores or teeth whose centroid lies in the rectangle.
    pub count: Option<usize>,
    pub per_mm2: Option<f64>,
    /// Pores or teeth: `sqrt(√3/2 · per_mm2)`. Gills: gills met by lines at right angles to them.
    /// Mazes: voids met by random lines × π/2.
    pub per_mm: Option<f64>,
    /// Of the counted pores or teeth: area-equivalent diameter and elongation.
    pub mean_diameter_mm: Option<f64>,
    pub median_elongation: Option<f64>,
    pub void_fraction: Option<f64>,
}

impl Surface {
    /// Pores or teeth per mm² that the description asks for.
    pub fn nominal_per_mm2(&self) -> f64 {
        let spacing_mm = self.spacing_px / self.px_per_mm;
        2.0 / (3.0_f64.sqrt() * spacing_mm * spacing_mm)
    }

    /// Makes the surface. The same description gives the same pattern.
    pub fn render(&self) -> Pattern {
        let empty = Plane::uniform(self.width_px, self.height_px, 0.0);
        let mut pattern = Pattern {
            surface: self.clone(),
            void: empty.clone(),
            relief: empty,
            regions: Vec::new(),
        };
        match self.kind {
            Kind::Poroid | Kind::Toothed => {
                pattern.regions = self.regions();
                for region in &pattern.regions {
                    region.cover(&mut pattern.void);
                }
                if self.kind == Kind::Toothed {
                    self.hollow_out(&mut pattern.void);
                }
            }
            Kind::MazeLike => pattern.void = self.winding(&Start::Noise),
            Kind::Gilled => {
                pattern.void = self.winding(&Start::Stripes {
                    direction_deg: self.direction_deg,
                    waviness: self.waviness,
                    forks: self.forks,
                });
            }
            Kind::Smooth => pattern.relief = self.crust(),
        }
        pattern
    }

    /// Whether a rectangle keeps clear of the margin and of the pores that shrink towards it.
    pub fn even_in(&self, rect: Rect) -> bool {
        (0..=100).all(|k| {
            let share = f64::from(k) / 100.0;
            let (x, y) = (rect.x + share * rect.w, rect.y + share * rect.h);
            let border = [
                [x, rect.y],
                [x, rect.y + rect.h],
                [rect.x, y],
                [rect.x + rect.w, y],
            ];
            border
                .iter()
                .all(|&p| self.fertile(p) >= FADING_SPACINGS * self.spacing_px)
        })
    }

    /// How far a place lies inside the fertile part, px; everywhere far inside without a margin.
    fn fertile(&self, p: Point) -> f64 {
        self.margin.map_or(f64::MAX, |m| m.inward(p) - m.sterile_px)
    }

    fn regions(&self) -> Vec<Region> {
        let frame = Frame::of(self);
        let cells = cells(
            frame.size,
            self.spacing_px,
            self.packing,
            self.size_variation,
            self.seed,
        );
        let region_share = match self.kind {
            Kind::Toothed => self.wall_share,
            _ => 1.0 - self.wall_share,
        };
        let half_wall = self.half_wall(&cells, frame.size, region_share);
        let made: Vec<Option<Region>> = cells
            .par_iter()
            .enumerate()
            .map(|(i, cell)| cell.pore(&self.fill(i, half_wall)))
            .collect();
        let mut outlines: Vec<Option<Vec<Point>>> = made
            .into_iter()
            .map(|region| region.map(|r| r.outline))
            .collect();
        self.merge(&cells, &mut outlines);

        let smallest = 0.03 * self.spacing_px * self.spacing_px;
        outlines
            .into_iter()
            .flatten()
            .filter_map(|outline| {
                let placed = outline.into_iter().map(|p| frame.place(p)).collect();
                self.fading_out(Region::new(placed)?)
            })
            .filter(|region| region.area_px2 > smallest && frame.shows(region))
            .collect()
    }

    /// Pores shrink towards the sterile margin and are missing on it.
    fn fading_out(&self, region: Region) -> Option<Region> {
        let depth = self.fertile(region.centroid) / (FADING_SPACINGS * self.spacing_px);
        if depth >= 1.0 {
            return Some(region);
        }
        let scale = 0.45 + 0.55 * depth.max(0.0);
        let [x, y] = region.centroid;
        let shrink = |p: &Point| [x + scale * (p[0] - x), y + scale * (p[1] - y)];
        let outline: Vec<Point> = region.outline.iter().map(shrink).collect();
        let clear = outline.iter().all(|&p| self.fertile(p) > 0.0);
        clear.then(|| Region::new(outline)).flatten()
    }

    fn fill(&self, index: usize, half_wall: f64) -> Fill {
        let mut random = Pcg64Mcg::seed_from_u64(self.seed.wrapping_mul(1_000_003) + index as u64);
        let deviate = super::packing::normal(&mut random).clamp(-2.5, 2.5);
        Fill {
            half_wall,
            rounding: self.rounding,
            wobble: self.wobble,
            stretch: (deviate * self.elongation_spread / 2.0).exp(),
            seed: random.random(),
        }
    }

    /// The wall thickness at which the regions of a sample of cells cover the share asked for.
    fn half_wall(&self, cells: &[Cell], size: [f64; 2], region_share: f64) -> f64 {
        // Cells beyond the photo's frame may be open to the outside and are not typical.
        let [w, h] = size;
        let frame = Rect {
            x: 0.0,
            y: 0.0,
            w,
            h,
        };
        let mut sample: Vec<(usize, &Cell)> = cells.iter().enumerate().collect();
        sample.retain(|(_, cell)| frame.contains(cell.centre));
        let step = (sample.len() / 1000).max(1);
        let sample: Vec<(usize, &Cell)> = sample.into_iter().step_by(step).collect();
        let area = |outline: Vec<Point>| Region::new(outline).map_or(0.0, |r| r.area_px2);
        let all: f64 = sample.iter().map(|(_, cell)| area(cell.outline())).sum();
        let (mut thin, mut thick) = (0.0, self.spacing_px / 2.0);
        for _ in 0..18 {
            let half_wall = f64::midpoint(thin, thick);
            let pores: f64 = sample
                .par_iter()
                .map(|(i, cell)| {
                    cell.pore(&self.fill(*i, half_wall))
                        .map_or(0.0, |r| r.area_px2)
                })
                .collect::<Vec<f64>>()
                .iter()
                .sum();
            if pores > region_share * all {
                thin = half_wall;
            } else {
                thick = half_wall;
            }
        }
        f64::midpoint(thin, thick)
    }

    /// Joins some neighbouring teeth by a bridge between them.
    fn merge(&self, cells: &[Cell], outlines: &mut [Option<Vec<Point>>]) {
        if self.merged <= 0.0 {
            return;
        }
        let mut random = Pcg64Mcg::seed_from_u64(self.seed ^ 0x7EE7);
        let mut joined = vec![false; cells.len()];
        for i in 0..cells.len() {
            // Each pair takes two teeth out of the pool, hence half the share.
            if random.random::<f64>() >= 0.5 * self.merged || joined[i] {
                continue;
            }
            let distance = |j: usize| {
                let [dx, dy] = minus(cells[j].centre, cells[i].centre);
                dx.hypot(dy)
            };
            let mut free: Vec<usize> = cells[i].neighbours.clone();
            free.retain(|&j| !joined[j] && distance(j) < 1.1 * self.spacing_px);
            let Some(&j) = free.get(random.random_range(0..free.len().max(1))) else {
                continue;
            };
            let (Some(one), Some(other)) = (outlines[i].clone(), outlines[j].clone()) else {
                continue;
            };
            let pair = self.joined(&one, &other);
            // A bridge that would touch a third tooth is not built.
            let others = cells[i].neighbours.iter().chain(&cells[j].neighbours);
            let mut thirds = others.filter(|&&k| k != i && k != j);
            let apart = |&k: &usize| {
                let third = outlines[k].as_deref().unwrap_or_default();
                nearest_corners(&pair, third) > 0.12 * self.spacing_px
            };
            if !thirds.all(apart) {
                continue;
            }
            outlines[i] = Some(pair);
            outlines[j] = None;
            joined[i] = true;
            joined[j] = true;
        }
    }

    /// One outline around two teeth and a bridge between them, as seen from the bridge's middle.
    fn joined(&self, one: &[Point], other: &[Point]) -> Vec<Point> {
        let centre = |outline: &[Point]| {
            let count = outline.len() as f64;
            let sum = outline
                .iter()
                .fold([0.0, 0.0], |s, p| [s[0] + p[0], s[1] + p[1]]);
            [sum[0] / count, sum[1] / count]
        };
        let (a, b) = (centre(one), centre(other));
        let middle = [f64::midpoint(a[0], b[0]), f64::midpoint(a[1], b[1])];
        let [dx, dy] = minus(b, a);
        let length = dx.hypot(dy);
        let half = 0.3 * self.spacing_px;
        let side = [-dy / length * half, dx / length * half];
        let bridge = [
            [a[0] - side[0], a[1] - side[1]],
            [b[0] - side[0], b[1] - side[1]],
            [b[0] + side[0], b[1] + side[1]],
            [a[0] + side[0], a[1] + side[1]],
        ];
        (0..144)
            .map(|k| {
                let angle = TAU * f64::from(k) / 144.0;
                let reach = [one, other, &bridge[..]]
                    .map(|outline| last_crossing(outline, middle, angle))
                    .into_iter()
                    .fold(0.0, f64::max);
                [
                    middle[0] + reach * angle.cos(),
                    middle[1] + reach * angle.sin(),
                ]
            })
            .collect()
    }

    /// Turns the coverage of teeth into that of the hollow around them, which ends at the margin.
    fn hollow_out(&self, teeth: &mut Plane) {
        let width = teeth.width;
        for (index, value) in teeth.values.iter_mut().enumerate() {
            let p = [(index % width) as f64 + 0.5, (index / width) as f64 + 0.5];
            let fertile = (self.fertile(p) + 0.5).clamp(0.0, 1.0) as f32;
            *value = (1.0 - *value) * fertile;
        }
    }

    /// Voids of maze-like and gilled surfaces: where a winding field lies low.
    fn winding(&self, start: &Start) -> Plane {
        let mut field = stripes::field(
            self.width_px,
            self.height_px,
            self.spacing_px,
            start,
            self.seed,
        );
        let mut sorted = field.values.clone();
        sorted.sort_by(f32::total_cmp);
        let level = sorted[((1.0 - self.wall_share) * (sorted.len() - 1) as f64) as usize];
        // Towards the margin the voids close.
        let width = field.width;
        for (index, value) in field.values.iter_mut().enumerate() {
            let p = [(index % width) as f64 + 0.5, (index / width) as f64 + 0.5];
            let depth = (self.fertile(p) / (FADING_SPACINGS * self.spacing_px)).clamp(-1.0, 1.0);
            *value += 2.5 * (1.0 - depth) as f32;
        }
        stripes::share_below(&field, level)
    }

    /// Height of a smooth crust: waves at several wavelengths, warts and cracks.
    fn crust(&self) -> Plane {
        let (width, height) = (self.width_px, self.height_px);
        let s = self.spacing_px;
        let mut relief = mottling(width, height, &[12.0 * s, 5.0 * s], self.seed);
        let small = mottling(width, height, &[1.5 * s, 0.6 * s], self.seed + 50);
        for (value, small) in relief.values.iter_mut().zip(&small.values) {
            *value = (0.22 * *value + 0.011 * small) * s as f32;
        }
        let mut random = Pcg64Mcg::seed_from_u64(self.seed ^ 0xC0A7);
        for _ in 0..self.warts {
            let at = [
                random.random::<f64>() * width as f64,
                random.random::<f64>() * height as f64,
            ];
            let radius = s * (0.25 + 0.5 * random.random::<f64>());
            stamp(&mut relief, at, 3.0 * radius, |distance| {
                0.3 * radius * (-0.5 * (distance / radius).powi(4)).exp()
            });
        }
        let mut groove = Plane::uniform(width, height, 0.0);
        for _ in 0..self.cracks {
            let at = [
                random.random::<f64>() * width as f64,
                random.random::<f64>() * height as f64,
            ];
            let heading = TAU * random.random::<f64>();
            self.crack(
                &mut groove,
                at,
                heading,
                s * (5.0 + 9.0 * random.random::<f64>()),
                &mut random,
            );
        }
        for (value, groove) in relief.values.iter_mut().zip(&groove.values) {
            *value -= groove;
        }
        relief
    }

    /// Cuts a crack that narrows towards its end and may branch.
    fn crack(
        &self,
        groove: &mut Plane,
        at: Point,
        heading: f64,
        length: f64,
        random: &mut Pcg64Mcg,
    ) {
        let (mut at, mut heading, mut bend) = (at, heading, 0.0);
        let whole = 12.0 * self.spacing_px;
        for step in 0..length as usize {
            let left = (length - step as f64) / whole;
            let half = 0.45 + 1.9 * left.sqrt() * (0.05 * step as f64).min(1.0);
            for (index, share) in disc(groove, at, half) {
                let depth = (share * half * 1.1) as f32;
                groove.values[index] = groove.values[index].max(depth);
            }
            if left > 0.15 && random.random::<f64>() < 0.1 / self.spacing_px {
                let side = if random.random::<bool>() { 1.0 } else { -1.0 };
                let rest = 0.6 * (length - step as f64);
                self.crack(groove, at, heading + side * 0.8, rest, random);
            }
            bend = 0.8 * bend + 0.022 * super::packing::normal(random);
            heading += bend;
            at = [at[0] + heading.cos(), at[1] + heading.sin()];
        }
    }
}

/// Least distance between the corners of two outlines, px.
fn nearest_corners(one: &[Point], other: &[Point]) -> f64 {
    let pairs = one
        .iter()
        .flat_map(|&p| other.iter().map(move |&q| minus(p, q)));
    pairs.fold(f64::MAX, |least, [dx, dy]| least.min(dx.hypot(dy)))
}

/// Adds a round shape of given height by distance to a plane.
fn stamp(plane: &mut Plane, at: Point, reach: f64, height: impl Fn(f64) -> f64) {
    for (index, _) in disc(plane, at, reach) {
        let p = [
            (index % plane.width) as f64 + 0.5,
            (index / plane.width) as f64 + 0.5,
        ];
        let [dx, dy] = minus(p, at);
        plane.values[index] += height(dx.hypot(dy)) as f32;
    }
}

/// The pixels of a disc with a soft rim one pixel wide, and how much each belongs to it.
pub fn disc(plane: &Plane, at: Point, radius: f64) -> Vec<(usize, f64)> {
    let span = |centre: f64, size: usize| {
        let low = (centre - radius - 1.0).floor().max(0.0) as usize;
        let high = (centre + radius + 1.0).ceil().clamp(0.0, size as f64) as usize;
        low..high.max(low)
    };
    let mut pixels = Vec::new();
    for y in span(at[1], plane.height) {
        for x in span(at[0], plane.width) {
            let distance = (x as f64 + 0.5 - at[0]).hypot(y as f64 + 0.5 - at[1]);
            let share = (radius + 0.5 - distance).clamp(0.0, 1.0);
            if share > 0.0 {
                pixels.push((y * plane.width + x, share));
            }
        }
    }
    pixels
}

/// The unstretched field the cells live in, and the way from it into the photo.
struct Frame {
    size: [f64; 2],
    photo: [f64; 2],
    cos: f64,
    sin: f64,
    stretch: f64,
}

impl Frame {
    fn of(surface: &Surface) -> Self {
        let (sin, cos) = surface.direction_deg.to_radians().sin_cos();
        let photo = [surface.width_px as f64, surface.height_px as f64];
        let stretch = surface.elongation.sqrt();
        let along = photo[0] * cos.abs() + photo[1] * sin.abs();
        let across = photo[0] * sin.abs() + photo[1] * cos.abs();
        Self {
            size: [along / stretch, across * stretch],
            photo,
            cos,
            sin,
            stretch,
        }
    }

    /// A point of the field, as it lies in the photo.
    fn place(&self, p: Point) -> Point {
        let along = (p[0] - self.size[0] / 2.0) * self.stretch;
        let across = (p[1] - self.size[1] / 2.0) / self.stretch;
        [
            self.photo[0] / 2.0 + along * self.cos - across * self.sin,
            self.photo[1] / 2.0 + along * self.sin + across * self.cos,
        ]
    }

    /// Whether any corner of a region lies in the photo.
    fn shows(&self, region: &Region) -> bool {
        let photo = Rect {
            x: 0.0,
            y: 0.0,
            w: self.photo[0],
            h: self.photo[1],
        };
        region.outline.iter().any(|&p| photo.contains(p))
    }
}

impl Pattern {
    /// The whole photo.
    pub fn whole(&self) -> Rect {
        self.void.whole()
    }

    /// The pores or teeth whose centroid lies in a rectangle.
    pub fn pores_in(&self, rect: Rect) -> Vec<&Region> {
        let inside = self.regions.iter();
        inside
            .filter(|region| rect.contains(region.centroid))
            .collect()
    }

    /// What is true of a rectangle.
    pub fn truth(&self, rect: Rect) -> Truth {
        let surface = &self.surface;
        let scale = surface.px_per_mm;
        let area_mm2 = rect.w * rect.h / (scale * scale);
        let mut truth = Truth {
            kind: surface.kind,
            px_per_mm: scale,
            area_mm2,
            count: None,
            per_mm2: None,
            per_mm: None,
            mean_diameter_mm: None,
            median_elongation: None,
            void_fraction: (surface.kind != Kind::Smooth).then(|| self.void.mean_in(rect)),
        };
        match surface.kind {
            Kind::Poroid | Kind::Toothed => {
                let regions = self.pores_in(rect);
                let per_mm2 = regions.len() as f64 / area_mm2;
                truth.count = Some(regions.len());
                truth.per_mm2 = Some(per_mm2);
                truth.per_mm = Some((0.75_f64.sqrt() * per_mm2).sqrt());
                if !regions.is_empty() {
                    let sum: f64 = regions.iter().map(|r| r.diameter_px()).sum();
                    truth.mean_diameter_mm = Some(sum / regions.len() as f64 / scale);
                    let mut drawn_out: Vec<f64> = regions.iter().map(|r| r.elongation).collect();
                    drawn_out.sort_by(f64::total_cmp);
                    truth.median_elongation = Some(drawn_out[drawn_out.len() / 2]);
                }
            }
            Kind::MazeLike => {
                truth.per_mm = Some(FRAC_PI_2 * scale * self.voids_per_px(rect, None));
            }
            Kind::Gilled => {
                let across = surface.direction_deg.to_radians() + FRAC_PI_2;
                truth.per_mm = Some(scale * self.voids_per_px(rect, Some(across)));
            }
            Kind::Smooth => {}
        }
        truth
    }

    /// Voids met per px by long lines through a rectangle, at a given angle or at random ones.
    fn voids_per_px(&self, rect: Rect, angle: Option<f64>) -> f64 {
        const LINES: usize = 6_000;
        const STEP_PX: f64 = 0.5;
        let mut random = Pcg64Mcg::seed_from_u64(6_000);
        let (mut voids, mut length) = (0_u64, 0.0);
        // A circle about the rectangle: chords of it at random angle and distance from its centre
        // are lines of even density, of which the part in the rectangle counts.
        let centre = [rect.x + rect.w / 2.0, rect.y + rect.h / 2.0];
        let radius = rect.w.hypot(rect.h) / 2.0;
        for _ in 0..LINES {
            let turn: f64 = random.random();
            let (sin, cos) = angle.unwrap_or(TAU * turn).sin_cos();
            let aside = radius * (2.0 * random.random::<f64>() - 1.0);
            let mut before = None;
            let mut along = -radius;
            while along < radius {
                let p = [
                    centre[0] + along * cos - aside * sin,
                    centre[1] + along * sin + aside * cos,
                ];
                if rect.contains(p) {
                    let void = self.void.between(p[0], p[1]) > 0.5;
                    // Each void is met once where the line enters it and once where it leaves.
                    voids += u64::from(before.is_some_and(|b| b != void));
                    if before.is_some() {
                        length += STEP_PX;
                    }
                    before = Some(void);
                }
                along += STEP_PX;
            }
        }
        voids as f64 / 2.0 / length
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn voids_cover_what_their_outlines_enclose() {
        let surface = Surface {
            elongation: 1.7,
            direction_deg: 25.0,
            elongation_spread: 0.1,
            ..Surface::default()
        };
        let pattern = surface.render();
        let covered: f64 = pattern.void.values.iter().map(|&v| f64::from(v)).sum();
        let photo = pattern.whole();
        let corners = |r: &Region| r.outline.iter().all(|&p| photo.contains(p));
        let whole = pattern.regions.iter().filter(|r| corners(r));
        let cut = pattern.regions.iter().filter(|r| !corners(r));
        let least: f64 = whole.map(|r| r.area_px2).sum();
        let most: f64 = least + cut.map(|r| r.area_px2).sum::<f64>();
        assert!(
            covered > least && covered < most,
            "{least} {covered} {most}"
        );
    }

    #[test]
    fn an_undisturbed_lattice_has_one_pore_per_spacing_along_its_rows() {
        let surface = Surface {
            packing: Packing::Lattice { jitter: 0.0 },
            size_variation: 0.0,
            width_px: 1200,
            height_px: 1200,
            ..Surface::default()
        };
        let pattern = surface.render();
        let per_mm = pattern.truth(pattern.whole()).per_mm.unwrap_or(0.0);
        assert!((per_mm * 20.0 / 80.0 - 1.0).abs() < 0.01, "{per_mm}");
    }

    #[test]
    fn walls_take_the_share_asked_for() {
        for (kind, wall_share) in [
            (Kind::Poroid, 0.3),
            (Kind::Poroid, 0.65),
            (Kind::Toothed, 0.45),
        ] {
            let surface = Surface {
                kind,
                wall_share,
                ..Surface::default()
            };
            let pattern = surface.render();
            let void = pattern.void.mean_in(pattern.whole());
            assert!(
                (1.0 - void - wall_share).abs() < 0.015,
                "{kind:?} {wall_share} {void}"
            );
        }
    }

    #[test]
    fn straight_gills_are_met_once_per_period() {
        let surface = Surface {
            kind: Kind::Gilled,
            waviness: 0.0,
            forks: 0.0,
            direction_deg: 30.0,
            ..Surface::default()
        };
        let pattern = surface.render();
        let per_mm = pattern
            .truth(pattern.whole().inset(20.0))
            .per_mm
            .unwrap_or(0.0);
        assert!((per_mm * 20.0 / 80.0 - 1.0).abs() < 0.01, "{per_mm}");
    }

    #[test]
    fn no_two_regions_touch() {
        for kind in [Kind::Poroid, Kind::Toothed] {
            let surface = Surface {
                kind,
                spacing_px: 30.0,
                elongation: 1.3,
                elongation_spread: 0.3,
                size_variation: 0.12,
                merged: if kind == Kind::Toothed { 0.4 } else { 0.0 },
                ..Surface::default()
            };
            let pattern = surface.render();
            let inside = |x, y| {
                let void = pattern.void.at(x as isize, y as isize) > 0.5;
                image::Luma([u8::from(void == (kind == Kind::Poroid))])
            };
            let mask = image::GrayImage::from_fn(800, 600, inside);
            let labels = imageproc::region_labelling::connected_components(
                &mask,
                imageproc::region_labelling::Connectivity::Four,
                image::Luma([0]),
            );
            let regions = pattern.pores_in(pattern.whole());
            let label = |r: &&Region| {
                labels
                    .get_pixel(r.centroid[0] as u32, r.centroid[1] as u32)
                    .0[0]
            };
            let mut found: Vec<u32> = regions.iter().map(label).collect();
            found.sort_unstable();
            found.dedup();
            assert!(
                !found.contains(&0),
                "{kind:?}: a centroid lies outside its region"
            );
            assert_eq!(found.len(), regions.len(), "{kind:?}");
        }
    }

    #[test]
    fn merging_joins_teeth_without_losing_any_wall() {
        let apart = Surface {
            kind: Kind::Toothed,
            ..Surface::default()
        };
        let together = Surface {
            merged: 0.4,
            ..apart.clone()
        };
        let (apart, together) = (apart.render(), together.render());
        assert!(together.regions.len() < apart.regions.len() * 9 / 10);
        let void = |p: &Pattern| p.void.mean_in(p.whole());
        assert!(void(&together) < void(&apart));
    }
}
