//! Whether 95 % intervals of mean diameters, and of hollows and gills per mm, hold the truth as often
//! as they say. A field is a small part of a pattern many times as large, as a photo is of a cap; the
//! truth is the large pattern's. Takes minutes: `cargo test --release --test intervals -- --ignored
//! --nocapture`.

#[path = "render/mod.rs"]
mod render;

use poreline::area::{Area, Outline};
use poreline::findings::{Estimate, Findings};
use poreline::geometry::Rect;
use poreline::photo::Photo;
use poreline::progress::Progress;
use poreline::scale::Scale;
use rayon::prelude::*;
use render::camera::{Camera, Tissue};
use render::packing::Packing;
use render::surface::{Kind, Surface, Truth};

const SPACING_PX: f64 = 16.0;
const PX_PER_MM: f64 = 64.0;
const FIELDS_ACROSS: u32 = 5;
const GAP: f64 = 2.0;
/// Written down before the first run: the share of fields that hold the truth, and of how many.
const LEAST_COVERAGE: f64 = 0.90;
const FEWEST_FIELDS: usize = 150;

struct Series {
    what: &'static str,
    kind: Kind,
    packings: &'static [Packing],
    /// Of a field, spacings.
    size: [f64; 2],
    /// Standard deviations of the blur, spacings.
    blurs: &'static [f64],
    figure: fn(&Findings) -> Option<Estimate>,
    truth: fn(&Truth) -> Option<f64>,
}

/// Figure and truth of every field on one large photo.
fn fields(series: &Series, packing: Packing, blur: f64, seed: u64) -> Vec<(Estimate, f64)> {
    let across = f64::from(FIELDS_ACROSS);
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a thousand pixels or two"
    )]
    let [width_px, height_px] = series
        .size
        .map(|side| (SPACING_PX * (across * (side + GAP) + GAP)) as usize);
    let surface = Surface {
        kind: series.kind,
        width_px,
        height_px,
        px_per_mm: PX_PER_MM,
        spacing_px: SPACING_PX,
        packing,
        seed,
        ..Surface::default()
    };
    let camera = Camera {
        blur_px: blur * SPACING_PX,
        noise: 0.02,
        seed: seed + 2_000,
        ..Camera::default()
    };
    let pattern = surface.render();
    let photo = Photo::from_rgb(
        "rendered.png",
        camera.photograph(&pattern, &Tissue::default()),
    );
    let truth = pattern.truth(pattern.whole().inset(SPACING_PX));
    let truth = (series.truth)(&truth).expect("a truth of that kind");
    (0..FIELDS_ACROSS * FIELDS_ACROSS)
        .into_par_iter()
        .filter_map(|k| {
            let start = |i: u32, side: f64| SPACING_PX * (GAP + f64::from(i) * (side + GAP));
            let area = Area {
                outline: Outline::Rectangle(Rect {
                    x: start(k % FIELDS_ACROSS, series.size[0]),
                    y: start(k / FIELDS_ACROSS, series.size[1]),
                    width: SPACING_PX * series.size[0],
                    height: SPACING_PX * series.size[1],
                }),
                left_out: Vec::new(),
            };
            let scale = Scale::given(PX_PER_MM).expect("a scale");
            let findings = poreline::measure(&photo, scale, &area, &Progress::default())
                .expect("the area lies on the photo")
                .findings;
            Some(((series.figure)(&findings)?, truth))
        })
        .collect()
}

#[allow(clippy::cast_precision_loss, reason = "a count of fields")]
fn share(of: &[(Estimate, f64)], holds: impl Fn(&(Estimate, f64)) -> f64) -> f64 {
    of.iter().map(holds).sum::<f64>() / of.len() as f64
}

fn report(what: &str, of: &[(Estimate, f64)]) -> f64 {
    let covered = share(of, |(e, truth)| {
        f64::from(u8::from((e.low..=e.high).contains(truth)))
    });
    let half = share(of, |(e, truth)| (e.high - e.low) / 2.0 / truth);
    let bias = share(of, |(e, truth)| e.value / truth - 1.0);
    let error = share(of, |(e, truth)| (e.value / truth - 1.0).powi(2)).sqrt();
    println!(
        "{what}: {:.1} % of {} fields; mean half-width {:.2} %, error {:.2} %, of it common {:+.2} %",
        100.0 * covered,
        of.len(),
        100.0 * half,
        100.0 * error,
        100.0 * bias
    );
    covered
}

fn check(series: &Series, photos: u64) {
    let mut all = Vec::new();
    for &packing in series.packings {
        for &blur in series.blurs {
            let of: Vec<_> = (0..photos)
                .flat_map(|seed| fields(series, packing, blur, 31_000 + seed))
                .collect();
            if !of.is_empty() {
                report(&format!("{}, {packing:?}, blur {blur}", series.what), &of);
            }
            all.extend(of);
        }
    }
    assert!(all.len() >= FEWEST_FIELDS, "{} fields", all.len());
    let covered = report(&format!("{}, all", series.what), &all);
    assert!(covered >= LEAST_COVERAGE, "{}: {covered}", series.what);
}

#[test]
#[ignore = "takes minutes"]
fn intervals_of_mean_diameters_hold_the_truth() {
    check(
        &Series {
            what: "mean diameter",
            kind: Kind::Poroid,
            packings: &[
                Packing::Relaxed { steps: 0 },
                Packing::Lattice { jitter: 0.17 },
                Packing::Relaxed { steps: 1 },
                Packing::Relaxed { steps: 3 },
                Packing::Lattice { jitter: 0.05 },
            ],
            size: [12.0, 9.0],
            blurs: &[0.04, 0.09],
            figure: |findings| Some(findings.pores.as_ref()?.diameter_mm.mean),
            truth: |truth| truth.mean_diameter_mm,
        },
        2,
    );
}

#[test]
#[ignore = "takes minutes"]
fn intervals_of_mazes_hold_the_truth() {
    check(
        &Series {
            what: "hollows per mm of mazes",
            kind: Kind::MazeLike,
            packings: &[Packing::Relaxed { steps: 3 }],
            size: [16.0, 12.0],
            blurs: &[0.04],
            figure: |findings| Some(findings.maze.as_ref()?.per_mm),
            truth: |truth| truth.per_mm,
        },
        10,
    );
}

#[test]
#[ignore = "takes minutes"]
fn intervals_of_gills_hold_the_truth() {
    check(
        &Series {
            what: "gills per mm",
            kind: Kind::Gilled,
            packings: &[Packing::Relaxed { steps: 3 }],
            size: [16.0, 12.0],
            blurs: &[0.04],
            figure: |findings| Some(findings.gills.as_ref()?.per_mm),
            truth: |truth| truth.per_mm,
        },
        10,
    );
}
