//! Pores at the edge: weights of Miles and Lantuéjoul, and the associated-point rule.

use super::drawing::{Canvas, Shape, mean_and_error, packed};
use super::support::{near, rows};
use poreline::area::{Area, Outline};
use poreline::geometry::{Point, Polygon, Rect};
use poreline::photo::Photo;
use poreline::pores::Pore;
use poreline::progress::Progress;
use poreline::scale::Scale;
use poreline::statistics::{Place, chance_to_be_whole, weighted_mean};
use poreline::{Measurement, measure};
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use std::f64::consts::TAU;

/// A pore of the given outline.
fn pore(outline: Polygon) -> Pore {
    let moments = outline.moments().expect("an area");
    Pore {
        moments,
        ellipse: moments.ellipse().expect("a width"),
        feret: outline.feret(),
        perimeter: outline.perimeter(),
        solidity: 1.0,
        outline,
        whole: true,
        counted: true,
        oversized: false,
        by_hand: false,
    }
}

fn window(width: f64, height: f64) -> Rect {
    Rect {
        x: 0.0,
        y: 0.0,
        width,
        height,
    }
}

/// Points spread evenly over a window, so many across and down.
fn spread_over(window: Rect, across: u32, down: u32) -> Vec<Place> {
    let at = |k: u32, n: u32| (f64::from(k) + 0.5) / f64::from(n);
    (0..across * down)
        .map(|k| Place {
            at: Point::new(
                window.x + window.width * at(k % across, across),
                window.y + window.height * at(k / across, down),
            ),
            clear_px: f64::INFINITY,
        })
        .collect()
}

#[test]
fn the_chance_to_be_whole_is_that_of_miles_and_lantuejoul() {
    // (W − w)(H − h)/(W H), facts/miles_lantuejoul.csv. Places 0.01 apart lie half-way between the
    // edges of every box in the table, so that their share is exact.
    for row in rows(include_str!("facts/miles_lantuejoul.csv")) {
        let window = window(row.number("frame_W"), row.number("frame_H"));
        let places = spread_over(window, 1000, 800);
        let (w, h) = (row.number("feret_w"), row.number("feret_h"));
        // The same box as a rectangle, and as a rhombus, whose box it is as well.
        let rectangle = Rect {
            x: 3.0,
            y: 1.0,
            width: w,
            height: h,
        };
        let rhombus = Polygon::new(vec![
            Point::new(3.0, 1.0 + h / 2.0),
            Point::new(3.0 + w / 2.0, 1.0),
            Point::new(3.0 + w, 1.0 + h / 2.0),
            Point::new(3.0 + w / 2.0, 1.0 + h),
        ]);
        for outline in [rectangle.to_polygon(), rhombus] {
            let chance = chance_to_be_whole(&pore(outline), &places, window);
            let what = format!("{w} × {h}");
            near(&what, chance, row.number("prob_inside"), 1e-9);
            let weight = row.number("weight");
            near(&what, 1.0 / chance, weight, 1e-8 * weight);
        }
    }
}

/// A regular polygon of 32 corners that stands for a disc.
fn disc(at: Point, diameter: f64) -> Polygon {
    let corner = |k| {
        let (sin, cos) = (TAU * f64::from(k) / 32.0).sin_cos();
        Point::new(at.x + diameter / 2.0 * cos, at.y + diameter / 2.0 * sin)
    };
    Polygon::new((0..32).map(corner).collect())
}

#[test]
fn weights_take_the_bias_off_a_mean_over_whole_discs() {
    // Windows of 10 × 10 on discs of 0.2 and of 1.0 in equal number: of every thousand of each,
    // (9.8/10)² and (9/10)² are whole, so that the plain mean tends to
    // (0.2 · 960.4 + 1.0 · 810)/1770.4 = 0.566 019 and the weighted one to 0.6. Worked out from
    // Miles 1974 and Lantuéjoul 1978 (formula as in facts/README.md).
    // Bounds, before the run: three standard errors, from the scatter between 600 windows; the
    // bias must come out at more than ten of them.
    let window = window(10.0, 10.0);
    let places = spread_over(window, 400, 400);
    let mut random = Pcg64Mcg::seed_from_u64(1974);
    let weight_of = |diameter| {
        let disc = pore(disc(Point::new(5.0, 5.0), diameter));
        1.0 / chance_to_be_whole(&disc, &places, window)
    };
    let sizes = [0.2, 1.0].map(|diameter| (diameter, weight_of(diameter)));
    let (mut plain, mut weighted) = (Vec::new(), Vec::new());
    for _ in 0..600 {
        let whole: Vec<(f64, f64)> = (0..400)
            .map(|_| {
                let (diameter, weight) = sizes[random.random_range(0..2)];
                let mut within = || {
                    let at = 10.0 * random.random::<f64>();
                    at > diameter / 2.0 && at < 10.0 - diameter / 2.0
                };
                let whole = within() & within();
                (diameter, weight, whole)
            })
            .filter(|(_, _, whole)| *whole)
            .map(|(diameter, weight, _)| (diameter, weight))
            .collect();
        let alike: Vec<(f64, f64)> = whole.iter().map(|(d, _)| (*d, 1.0)).collect();
        plain.push(weighted_mean(&alike).expect("discs"));
        weighted.push(weighted_mean(&whole).expect("discs"));
    }
    assert!(weighted.len() > 110, "{} of 120 measured", weighted.len());
    let (plain, plain_error) = mean_and_error(&plain);
    let (weighted, error) = mean_and_error(&weighted);
    near("plain mean", plain, 0.566_019, 3.0 * plain_error);
    near("weighted mean", weighted, 0.6, 3.0 * error);
    assert!(0.6 - plain > 10.0 * plain_error, "{plain} ± {plain_error}");
}

/// Diameters of the discs on the photos below, px.
const DISCS: [f64; 2] = [10.0, 24.0];

/// Discs of two sizes, of each as many, 30 px apart and in random order.
fn two_sizes(side: usize) -> Canvas {
    let mut random = Pcg64Mcg::seed_from_u64(1978);
    let mut canvas = Canvas::new(side, side);
    let mut waiting = Vec::new();
    for place in packed(&mut random, side, side, 30.0, 0.05) {
        // Four at a time, two of each size: small pieces of the surface hold about as many of each.
        if waiting.is_empty() {
            waiting = vec![DISCS[0], DISCS[0], DISCS[1], DISCS[1]];
        }
        let next = random.random_range(0..waiting.len());
        canvas.cut(Shape::Disc, waiting.swap_remove(next), place, 0.0);
    }
    canvas
}

fn measured(photo: &Photo, area: &Area) -> Measurement {
    let scale = Scale::given(100.0).expect("more than zero");
    measure(photo, scale, area, &Progress::default()).expect("the area lies on the photo")
}

#[test]
fn small_photos_of_a_surface_give_its_mean_diameter_without_bias() {
    // Of the discs with their centre on a photo of 140 px a side, (130/140)² of the small and
    // (116/140)² of the large are whole (Miles–Lantuéjoul, facts/README.md), so that the plain mean
    // over whole discs tends to 16.206 px instead of 17 px.
    // Bounds, before the run: three standard errors over 120 photos, and 1 % of the diameter for
    // what the engine makes of a disc; the bias of the plain mean, 4.7 %, must be seen beyond both.
    const SIDE: f64 = 140.0;
    let chances = DISCS.map(|d| ((SIDE - d) / SIDE).powi(2));
    let expected_plain =
        (DISCS[0] * chances[0] + DISCS[1] * chances[1]) / (chances[0] + chances[1]);
    let surface = two_sizes(1000);
    let mut random = Pcg64Mcg::seed_from_u64(140);
    let (mut plain, mut weighted) = (Vec::new(), Vec::new());
    for _ in 0..120 {
        let mut at = || random.random_range(0..=1000 - 140);
        let measured = measured(&surface.part(at(), at(), 140).photo(), &Area::default());
        // So small a photo may show too few pores away from its edge for any figure.
        let Some(pores) = measured.findings.pores else {
            continue;
        };
        weighted.push(pores.diameter_mm.mean.value * 100.0);
        let whole: Vec<(f64, f64)> = measured
            .regions
            .iter()
            .filter(|pore| pore.whole)
            .map(|pore| (pore.diameter().0, 1.0))
            .collect();
        plain.push(weighted_mean(&whole).expect("whole pores"));
    }
    let (plain, plain_error) = mean_and_error(&plain);
    let (weighted, error) = mean_and_error(&weighted);
    near(
        "plain mean",
        plain,
        expected_plain,
        3.0 * plain_error + 0.17,
    );
    near("weighted mean", weighted, 17.0, 3.0 * error + 0.17);
    assert!(
        17.0 - plain > 3.0 * plain_error + 0.17,
        "the plain mean shows its bias: {plain} ± {plain_error}"
    );
}

#[test]
fn areas_laid_side_by_side_count_every_pore_once() {
    // The associated-point rule: whatever the shape of a pore, it belongs where its centroid does,
    // once in a tessellation of frames (Gundersen 1977, J. Microsc. 111: 219–223, from memory).
    let photo = two_sizes(700).photo();
    let all = measured(&photo, &Area::default());
    let whole = all.findings.pores.expect("pores").count;
    let (across, side) = (4_u32, 175.0);
    let tiles = (0..across * across).map(|k| Rect {
        x: f64::from(k % across) * side,
        y: f64::from(k / across) * side,
        width: side,
        height: side,
    });
    let counted: usize = tiles
        .map(|tile| {
            let area = Area {
                outline: Outline::Rectangle(tile),
                left_out: Vec::new(),
            };
            measured(&photo, &area).findings.pores.expect("pores").count
        })
        .sum();
    // Each tile is looked at on its own, with its own spacing, which moves centroids by a fraction
    // of a pixel and the guard band at the photo's edge by a few: pores that lie so near to a line
    // may change sides, and no others.
    let unsure = all
        .regions
        .iter()
        .filter(|pore| {
            let near_line = |v: f64| {
                let from_tile = (v / side - (v / side).round()).abs() * side;
                let from_edge = v.min(700.0 - v);
                from_tile < 0.5 || (from_edge - 30.0).abs() < 3.0
            };
            near_line(pore.centroid().x) || near_line(pore.centroid().y)
        })
        .count();
    assert!(whole > 400, "{whole} pores");
    assert!(unsure < whole / 10, "{unsure} of {whole} lie near a line");
    assert!(
        counted.abs_diff(whole) <= unsure,
        "{counted} counted in tiles, {whole} at once, {unsure} near a line"
    );
}
