//! Which photos are taken: each nuisance swept by itself, and combinations of all.

use super::nuisances::{Hue, Nuisances, PACKINGS};
use super::shot::{Outcome, Shot};
use crate::render::packing::Packing;
use crate::render::surface::Kind;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, OnceLock};

/// The series over px per spacing, which the plot shows; it starts below what the tool is meant for.
pub const RESOLUTION: &str = "px per spacing";
const PX_PER_SPACING: [f64; 13] = [
    3.0, 4.0, 5.0, 6.0, 8.0, 9.0, 10.0, 12.0, 16.0, 24.0, 40.0, 80.0, 160.0,
];
const SEEDS_PER_RESOLUTION: u64 = 3;
const COMBINATIONS: usize = 24;

/// Every photo of the suite, taken once and shared by all checks.
pub fn outcomes() -> &'static [Outcome] {
    static OUTCOMES: OnceLock<Vec<Outcome>> = OnceLock::new();
    OUTCOMES.get_or_init(|| {
        let mut shots = poroid();
        shots.extend(toothed());
        shots.extend(gilled());
        shots.extend(maze_like());
        shots.extend(smooth());
        taken(&shots)
    })
}

/// Takes the photos, one at a time on each core: they are large, and the work on one of them
/// already spreads over all cores where it can.
fn taken(shots: &[Shot]) -> Vec<Outcome> {
    let next = AtomicUsize::new(0);
    let outcomes: Vec<Mutex<Option<Outcome>>> = shots.iter().map(|_| Mutex::new(None)).collect();
    // The largest first, so that no core is left with one of them at the end.
    let mut order: Vec<usize> = (0..shots.len()).collect();
    order.sort_by_key(|&i| std::cmp::Reverse(shots[i].surface.width_px));
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..cores {
            scope.spawn(|| {
                while let Some(&i) = order.get(next.fetch_add(1, Ordering::Relaxed)) {
                    let outcome = shots[i].clone().take();
                    *outcomes[i].lock().expect("no photo failed") = Some(outcome);
                }
            });
        }
    });
    outcomes
        .into_iter()
        .filter_map(|outcome| outcome.into_inner().expect("no photo failed"))
        .collect()
}

fn poroid() -> Vec<Shot> {
    let base = Nuisances::default;
    let mut plan: Vec<(&'static str, Nuisances)> = vec![("baseline", base()); 3];
    let mut sweep = |series, variants: Vec<Nuisances>| {
        plan.extend(variants.into_iter().map(|variant| (series, variant)));
    };
    let of = |values: &[f64], set: fn(&mut Nuisances, f64)| -> Vec<Nuisances> {
        let varied = |&value: &f64| {
            let mut nuisances = base();
            set(&mut nuisances, value);
            nuisances
        };
        values.iter().map(varied).collect()
    };
    for _ in 0..SEEDS_PER_RESOLUTION {
        sweep(RESOLUTION, of(&PX_PER_SPACING, |n, v| n.px_per_spacing = v));
    }
    sweep(
        "pores per mm",
        of(&[1.5, 2.5, 5.5, 8.0], |n, v| n.per_mm = v),
    );
    sweep(
        "wall share",
        of(&[0.25, 0.33, 0.42, 0.6, 0.7], |n, v| n.wall_share = v),
    );
    sweep("blur", of(&[0.0, 0.07, 0.10, 0.13], |n, v| n.blur = v));
    sweep("noise", of(&[0.0, 0.01, 0.04, 0.06], |n, v| n.noise = v));
    sweep("light", of(&[1.0, 2.0, 2.5, 3.0], |n, v| n.falloff = v));
    let hues = Hue::ALL[1..].iter();
    sweep(
        "tissue",
        hues.map(|&hue| Nuisances { hue, ..base() }).collect(),
    );
    sweep(
        "elongation",
        of(&[1.25, 1.5, 2.0, 2.5, 3.0], |n, v| n.elongation = v),
    );
    let other = PACKINGS.iter().filter(|&&p| p != base().packing);
    sweep(
        "packing",
        other
            .map(|&packing| Nuisances { packing, ..base() })
            .collect(),
    );
    sweep(
        "rounding",
        of(&[0.0, 0.25, 0.75, 1.0], |n, v| n.rounding = v),
    );
    let qualities = [75, 80, 85, 95].iter();
    sweep(
        "JPEG",
        qualities
            .map(|&jpeg_quality| Nuisances {
                jpeg_quality,
                ..base()
            })
            .collect(),
    );
    sweep("combination", Nuisances::combinations(COMBINATIONS, 24));
    (100..)
        .zip(plan)
        .map(|(seed, (series, nuisances))| Shot::new(series, Kind::Poroid, nuisances, seed))
        .collect()
}

fn toothed() -> Vec<Shot> {
    // px per spacing, wall share, elongation, share of teeth grown together, hue, blur
    let plan = [
        (18.0, 0.40, 1.00, 0.0, Hue::Pale, 0.04),
        (24.0, 0.46, 1.25, 0.1, Hue::Tan, 0.06),
        (30.0, 0.35, 1.50, 0.0, Hue::Violet, 0.04),
        (36.0, 0.46, 1.25, 0.2, Hue::Grey, 0.04),
        (42.0, 0.55, 1.25, 0.1, Hue::Pale, 0.08),
        (60.0, 0.46, 1.00, 0.2, Hue::Tan, 0.03),
    ];
    let shot = |(seed, (px_per_spacing, wall_share, elongation, merged, hue, blur))| {
        let nuisances = Nuisances {
            per_mm: 2.0,
            px_per_spacing,
            wall_share,
            elongation,
            hue,
            blur,
            rounding: 0.8,
            packing: Packing::Relaxed { steps: 3 },
            ..Nuisances::default()
        };
        let mut shot = Shot::new("teeth", Kind::Toothed, nuisances, seed);
        shot.surface.merged = merged;
        shot.surface.elongation_spread = 0.3;
        shot.surface.size_variation = 0.12;
        shot.surface.wobble = 0.14;
        shot
    };
    (300..).zip(plan).map(shot).collect()
}

fn gilled() -> Vec<Shot> {
    // px per spacing, wall share, waviness, forks, hue, blur
    let plan = [
        (16.0, 0.45, 0.20, 0.8, Hue::Pale, 0.04),
        (24.0, 0.35, 0.30, 1.3, Hue::Tan, 0.06),
        (30.0, 0.50, 0.00, 0.0, Hue::Violet, 0.04),
        (40.0, 0.60, 0.30, 1.0, Hue::Grey, 0.08),
        (54.0, 0.45, 0.35, 1.3, Hue::Pale, 0.04),
        (80.0, 0.40, 0.25, 0.5, Hue::Tan, 0.03),
    ];
    let shot = |(seed, (px_per_spacing, wall_share, waviness, forks, hue, blur))| {
        let nuisances = Nuisances {
            per_mm: 1.2,
            px_per_spacing,
            wall_share,
            hue,
            blur,
            ..Nuisances::default()
        };
        let mut shot = Shot::new("gills", Kind::Gilled, nuisances, seed);
        shot.surface.waviness = waviness;
        shot.surface.forks = forks;
        shot
    };
    (400..).zip(plan).map(shot).collect()
}

fn maze_like() -> Vec<Shot> {
    let plan = [
        (16.0, 0.50, Hue::Pale, 0.04),
        (24.0, 0.45, Hue::Tan, 0.06),
        (30.0, 0.52, Hue::Violet, 0.04),
        (40.0, 0.55, Hue::Grey, 0.08),
        (56.0, 0.52, Hue::Tan, 0.04),
        (80.0, 0.48, Hue::Pale, 0.03),
    ];
    let shot = |(seed, (px_per_spacing, wall_share, hue, blur))| {
        let nuisances = Nuisances {
            per_mm: 1.2,
            px_per_spacing,
            wall_share,
            hue,
            blur,
            ..Nuisances::default()
        };
        Shot::new("maze", Kind::MazeLike, nuisances, seed)
    };
    (500..).zip(plan).map(shot).collect()
}

fn smooth() -> Vec<Shot> {
    // px per spacing sets the wavelengths of waves and blotches; warts; cracks; mottling; grain; hue; noise
    let plan = [
        (12.0, 0, 0, 0.03, 0.02, Hue::Pale, 0.01),
        (18.0, 0, 0, 0.08, 0.03, Hue::Tan, 0.02),
        (30.0, 30, 0, 0.05, 0.03, Hue::Violet, 0.02),
        (34.0, 40, 7, 0.10, 0.035, Hue::Tan, 0.01),
        (45.0, 0, 10, 0.05, 0.06, Hue::Grey, 0.02),
        (60.0, 80, 0, 0.10, 0.03, Hue::Pale, 0.04),
        (24.0, 120, 4, 0.06, 0.05, Hue::Grey, 0.06),
        (90.0, 20, 3, 0.12, 0.04, Hue::Violet, 0.03),
    ];
    let shot = |(seed, (wavelength_px, warts, cracks, mottling, grain, hue, noise))| {
        let nuisances = Nuisances {
            px_per_spacing: wavelength_px,
            hue,
            noise,
            ..Nuisances::default()
        };
        let mut shot = Shot::new("smooth", Kind::Smooth, nuisances, seed);
        shot.surface.warts = warts;
        shot.surface.cracks = cracks;
        shot.tissue.mottling = mottling;
        shot.tissue.grain = grain;
        shot
    };
    (600..).zip(plan).map(shot).collect()
}
