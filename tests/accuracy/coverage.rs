//! Whether the 95 % interval of pores per mm contains the truth as often as it says.
//!
//! A field is a small part of a pattern many times as large; the truth is the large pattern's
//! density, as it would be of a whole cap of which a photo shows a part. Fields are simulated
//! twice: as centroids alone, many of them and of many sizes, with the tool's own statistics; and
//! as rendered photos, measured from end to end.

use super::bounds;
use super::nuisances::{Nuisances, packing_name};
use super::shot::{developed, measured};
use crate::render::packing::{Packing, cells};
use crate::render::plane::Rect;
use crate::render::surface::{Kind, Surface};
use poreline::geometry::{self, Point};
use poreline::statistics::{count_standard_error, pores_per_mm};
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use rayon::prelude::*;
use std::f64::consts::TAU;
use std::sync::OnceLock;

/// From strewn to regular.
const PACKINGS: [Packing; 5] = [
    Packing::Relaxed { steps: 0 },
    Packing::Lattice { jitter: 0.17 },
    Packing::Relaxed { steps: 1 },
    Packing::Relaxed { steps: 3 },
    Packing::Lattice { jitter: 0.05 },
];

/// Sizes of the simulated fields, spacings.
const SIZES: [[f64; 2]; 4] = [[10.0, 8.0], [15.0, 12.0], [20.0, 15.0], [30.0, 20.0]];
/// The large pattern, spacings: fields cut from it leave its density almost free to vary.
const PATTERN: [f64; 2] = [200.0, 140.0];
/// Patterns per packing, each giving this many fields of every size.
const PATTERNS: u64 = 6;
const FIELDS_PER_PATTERN: u32 = 25;
/// What a pattern's rim is not typical of, spacings.
const RIM: f64 = 4.0;
/// Fields of one kind: how many contain the truth.
#[derive(Clone, Debug)]
pub struct Covered {
    pub what: String,
    pub fields: usize,
    pub containing: usize,
    /// Mean half-width of the interval and root-mean-square error, both shares of the truth.
    pub half_width: f64,
    pub error: f64,
}

/// One field: the figure with its interval, and the truth.
#[derive(Clone, Copy)]
struct Field {
    value: f64,
    low: f64,
    high: f64,
    truth: f64,
}

impl Covered {
    #[allow(clippy::cast_precision_loss, reason = "a count of fields")]
    fn of(what: String, fields: &[Field]) -> Self {
        let count = fields.len() as f64;
        let mean = |share: fn(&Field) -> f64| fields.iter().map(share).sum::<f64>() / count;
        Self {
            what,
            fields: fields.len(),
            containing: fields
                .iter()
                .filter(|f| f.low <= f.truth && f.truth <= f.high)
                .count(),
            half_width: mean(|f| (f.high - f.low) / 2.0 / f.truth),
            error: mean(|f| (f.value / f.truth - 1.0).powi(2)).sqrt(),
        }
    }

    #[allow(clippy::cast_precision_loss, reason = "a count of fields")]
    pub fn share(&self) -> f64 {
        self.containing as f64 / self.fields as f64
    }

    fn print(&self) {
        println!(
            "coverage, {}: {:.1} % of {} fields; mean half-width {:.2} %, error {:.2} %",
            self.what,
            100.0 * self.share(),
            self.fields,
            100.0 * self.half_width,
            100.0 * self.error
        );
    }

    fn check(&self) {
        assert!(self.fields >= bounds::FIELDS, "{self:?}");
        assert!(
            bounds::COVERAGE.contains(&self.share()),
            "{}: the 95 % interval contains the truth in {:.2} % of {} fields",
            self.what,
            100.0 * self.share(),
            self.fields
        );
    }
}

/// By packing and size, and all together last.
pub fn of_centroids() -> &'static [Covered] {
    static COVERED: OnceLock<Vec<Covered>> = OnceLock::new();
    COVERED.get_or_init(|| {
        let mut all = Vec::new();
        let mut rows = Vec::new();
        for packing in PACKINGS {
            let by_pattern: Vec<[Vec<Field>; SIZES.len()]> = (0..PATTERNS)
                .into_par_iter()
                .map(|seed| simulated(packing, 7_000 + seed))
                .collect();
            for (k, [across, down]) in SIZES.into_iter().enumerate() {
                let fields: Vec<Field> = by_pattern.iter().flat_map(|f| &f[k]).copied().collect();
                let what = format!("{}, {across} × {down} spacings", packing_name(packing));
                rows.push(Covered::of(what, &fields));
                all.extend(fields);
            }
        }
        rows.push(Covered::of("all simulated".to_owned(), &all));
        rows
    })
}

/// Fields of every size laid at random over one large pattern, 1 px to the spacing and to the
/// millimetre, and turned at random, as nobody lines a photo up with rows of pores.
fn simulated(packing: Packing, seed: u64) -> [Vec<Field>; SIZES.len()] {
    let pattern = cells(PATTERN, 1.0, packing, 0.0, seed);
    let centres: Vec<Point> = pattern
        .iter()
        .map(|cell| Point::new(cell.centre[0], cell.centre[1]))
        .collect();
    let whole = rectangle(PATTERN).shrunk(RIM);
    let truth = pores_per_mm(density(&centres, whole));
    let mut random = Pcg64Mcg::seed_from_u64(seed);
    SIZES.map(|size| {
        let bounds = rectangle(size);
        (0..FIELDS_PER_PATTERN)
            .map(|_| {
                let room = whole.shrunk(size[0].hypot(size[1]) / 2.0);
                let middle = Point::new(
                    room.x + random.random::<f64>() * room.width,
                    room.y + random.random::<f64>() * room.height,
                );
                let (sin, cos) = (TAU * random.random::<f64>()).sin_cos();
                let in_field = |p: &Point| {
                    let (dx, dy) = (p.x - middle.x, p.y - middle.y);
                    Point::new(
                        size[0] / 2.0 + dx * cos + dy * sin,
                        size[1] / 2.0 + dy * cos - dx * sin,
                    )
                };
                let inside: Vec<Point> = centres
                    .iter()
                    .map(in_field)
                    .filter(|&p| bounds.contains(p))
                    .collect();
                let (low, high) = interval(&inside, bounds);
                let value = pores_per_mm(density(&inside, bounds));
                Field {
                    value,
                    low: low.min(value),
                    high: high.max(value),
                    truth,
                }
            })
            .collect()
    })
}

fn rectangle([width, height]: [f64; 2]) -> geometry::Rect {
    geometry::Rect {
        x: 0.0,
        y: 0.0,
        width,
        height,
    }
}

#[allow(clippy::cast_precision_loss, reason = "a count")]
fn density(centres: &[Point], bounds: geometry::Rect) -> f64 {
    let count = centres.iter().filter(|&&p| bounds.contains(p)).count();
    count as f64 / (bounds.width * bounds.height)
}

/// The interval as the findings have it: from the standard error of the count.
#[allow(clippy::cast_precision_loss, reason = "a count")]
fn interval(centres: &[Point], bounds: geometry::Rect) -> (f64, f64) {
    let error =
        count_standard_error(centres, bounds, |p| bounds.contains(p), 1.0).expect("a window fits");
    let count = centres.len() as f64;
    let area = bounds.width * bounds.height;
    let at = |count: f64| pores_per_mm(count.max(0.0) / area);
    (at(count - 1.96 * error), at(count + 1.96 * error))
}

/// Photos per packing; 5 × 5 fields of 12 × 9 spacings are measured on each.
const PHOTOS: u64 = 4;
const FIELDS_ACROSS: u32 = 5;
const FIELD: [f64; 2] = [12.0, 9.0];
const GAP: f64 = 2.0;

/// By packing, and all together last.
pub fn of_photos() -> &'static [Covered] {
    static COVERED: OnceLock<Vec<Covered>> = OnceLock::new();
    COVERED.get_or_init(|| {
        let mut all = Vec::new();
        let mut rows = Vec::new();
        for packing in PACKINGS {
            let fields: Vec<Field> = (0..PHOTOS)
                .flat_map(|seed| photographed(packing, 8_000 + seed))
                .collect();
            rows.push(Covered::of(packing_name(packing), &fields));
            all.extend(fields);
        }
        rows.push(Covered::of("all photographed".to_owned(), &all));
        rows
    })
}

/// Fields measured on one large photo.
fn photographed(packing: Packing, seed: u64) -> Vec<Field> {
    let nuisances = Nuisances {
        px_per_spacing: 16.0,
        packing,
        ..Nuisances::default()
    };
    let s = nuisances.px_per_spacing;
    let across = f64::from(FIELDS_ACROSS);
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a thousand pixels"
    )]
    let [width_px, height_px] = FIELD.map(|side| (s * (across * (side + GAP) + GAP)) as usize);
    let surface = Surface {
        width_px,
        height_px,
        ..nuisances.surface(Kind::Poroid, seed)
    };
    let camera = nuisances.camera(seed);
    let pattern = surface.render();
    let photo = developed(
        &camera,
        &camera.photograph(&pattern, &nuisances.tissue(seed)),
    );
    let truth = pattern
        .truth(pattern.whole().inset(s))
        .per_mm
        .expect("pores");
    (0..FIELDS_ACROSS * FIELDS_ACROSS)
        .into_par_iter()
        .filter_map(|k| {
            let start = |i: u32, side: f64| s * (GAP + f64::from(i) * (side + GAP));
            let rect = Rect {
                x: start(k % FIELDS_ACROSS, FIELD[0]),
                y: start(k / FIELDS_ACROSS, FIELD[1]),
                w: s * FIELD[0],
                h: s * FIELD[1],
            };
            let per_mm = measured(&photo, rect, surface.px_per_mm).pores?.per_mm;
            Some(Field {
                value: per_mm.value,
                low: per_mm.low,
                high: per_mm.high,
                truth,
            })
        })
        .collect()
}

#[test]
fn intervals_of_simulated_fields_contain_the_truth() {
    let rows = of_centroids();
    rows.iter().for_each(Covered::print);
    rows.last().expect("some fields").check();
}

#[test]
fn intervals_of_photographed_fields_contain_the_truth() {
    let rows = of_photos();
    rows.iter().for_each(Covered::print);
    rows.last().expect("some fields").check();
}
