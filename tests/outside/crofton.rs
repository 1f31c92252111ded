//! Line crossings and outlines against Cauchy and Crofton.
//!
//! Lines at random enter shapes strewn N to the mm² N · P/π times per mm, P being the length of a
//! shape's outline, convex or not: they cross outlines of L mm to the mm² 2L/π times per mm, half
//! of the times inwards (Crofton 1868, Phil. Trans. R. Soc. 158: 181–199, from memory). Outlines
//! are those of `facts/shape_closed_forms.csv` and `facts/shape_nonconvex.csv`.

use super::drawing::{Canvas, Shape, packed};
use super::support::{near, near_relative};
use poreline::Measurement;
use poreline::area::Area;
use poreline::geometry::Point;
use poreline::progress::Progress;
use poreline::scale::Scale;
use poreline::statistics::{Crossings, crossings};
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use std::f64::consts::{PI, TAU};

/// Each shape lies in a square of this side, px …
const PITCH: f64 = 40.0;
/// … of which the plane has so many a side.
const ACROSS: u32 = 40;
const SIDE: usize = 1600;

/// What lines met on a plane of shapes. What juts over one edge comes in again at the opposite one,
/// so that the plane holds exactly as much outline as its shapes have.
fn met(shape: Shape, size: f64, turned_by: impl Fn(&mut Pcg64Mcg) -> f64) -> Crossings {
    let mut random = Pcg64Mcg::seed_from_u64(1868);
    let mut canvas = Canvas::new(SIDE, SIDE);
    // Shapes move within their squares, and none comes nearer than 1 px to its square's edge.
    let free = PITCH / 2.0 - size * shape.reach() - 1.0;
    assert!(free > 1.0, "{shape:?} is too large");
    for k in 0..ACROSS * ACROSS {
        let mut along = |square: u32| {
            (f64::from(square) + 0.87) * PITCH + free * (2.0 * random.random::<f64>() - 1.0)
        };
        let (x, y) = (along(k % ACROSS), along(k / ACROSS));
        let angle = turned_by(&mut random);
        let length = f64::from(ACROSS) * PITCH;
        for (right, down) in [(0.0, 0.0), (length, 0.0), (0.0, length), (length, length)] {
            canvas.cut(shape, size, Point::new(x - right, y - down), angle);
        }
    }
    crossings(&canvas.void, &vec![true; SIDE * SIDE], SIDE, SIDE).expect("enough lines")
}

#[test]
fn lines_enter_shapes_as_often_as_their_outline_is_long() {
    let at_random = |random: &mut Pcg64Mcg| TAU * random.random::<f64>();
    // Lines come from all sides, so that shapes which lie all one way are met as often.
    let all_alike = |_: &mut Pcg64Mcg| 0.4;
    for (shape, size, corners) in [
        (Shape::Disc, 22.0, 0.0),
        (Shape::Ellipse, 7.0, 0.0),
        (Shape::Square, 19.0, 4.0),
        (Shape::Tromino, 11.0, 6.0),
    ] {
        let outline = size * shape.fact("perimeter");
        let expected = outline / PI / (PITCH * PITCH);
        // Chords under 1 px, across a right-angled corner or the wall within one, may go unseen:
        // 1/(2π) lines per corner (Coleman 1969, J. Appl. Prob. 6: 430–441, from memory), a share
        // of corners/(2 P).
        let unseen = expected * corners / (2.0 * outline);
        for (how, met) in [
            ("turned at random", met(shape, size, at_random)),
            ("all alike", met(shape, size, all_alike)),
        ] {
            let what = format!("{shape:?}, {how}");
            assert!(met.standard_error < 0.012 * met.per_px, "{what}: {met:?}");
            near(
                &what,
                met.per_px,
                expected - unseen / 2.0,
                unseen / 2.0 + 3.0 * met.standard_error,
            );
        }
    }
}

/// A photo of shapes closely packed, 24 px apart, measured at 80 px per mm.
fn measured(shape: Shape, size: f64) -> Measurement {
    let mut random = Pcg64Mcg::seed_from_u64(1832);
    let mut canvas = Canvas::new(720, 600);
    for place in packed(&mut random, 720, 600, 24.0, 0.05) {
        canvas.cut(shape, size, place, TAU * random.random::<f64>());
    }
    let scale = Scale::given(80.0).expect("more than zero");
    poreline::measure(
        &canvas.photo(),
        scale,
        &Area::default(),
        &Progress::default(),
    )
    .expect("the area lies on the photo")
}

#[test]
fn on_a_photo_too_lines_enter_pores_as_often_as_their_outline_is_long() {
    for (shape, size) in [(Shape::Disc, 15.0), (Shape::Ellipse, 5.0)] {
        let measured = measured(shape, size);
        let pores = measured.findings.pores.expect("pores");
        let outline_mm = size * shape.fact("perimeter") / 80.0;
        let expected = pores.per_mm2 * outline_mm / PI;
        // 720 lines across 30 × 25 pores scatter by under 1 % (three times that is allowed), and
        // the outlines' length may be 1 % off, as the mean diameter.
        near_relative(
            &format!("{shape:?}"),
            pores.line_crossings_per_mm,
            expected,
            0.03 + 0.01,
        );
    }
}

#[test]
fn the_mean_width_of_measured_pores_is_their_outline_over_pi() {
    // Cauchy 1832 (from memory): the mean caliper width of a convex shape over all directions is
    // P/π; figures in facts/shape_closed_forms.csv, column mean_feret.
    const DIRECTIONS: u32 = 180;
    for (shape, size) in [(Shape::Disc, 15.0), (Shape::Ellipse, 5.0)] {
        let measured = measured(shape, size);
        let whole: Vec<_> = measured.regions.iter().filter(|pore| pore.whole).collect();
        assert!(whole.len() > 400, "{} pores", whole.len());
        let count = whole.len() as f64;
        let outline = whole.iter().map(|pore| pore.perimeter).sum::<f64>() / count;
        let width = whole
            .iter()
            .flat_map(|pore| {
                (0..DIRECTIONS).map(|k| {
                    let (sin, cos) = (PI * f64::from(k) / f64::from(DIRECTIONS)).sin_cos();
                    let along = |p: &Point| cos * p.x + sin * p.y;
                    let vertices = pore.outline.vertices().iter().map(along);
                    vertices.clone().fold(f64::NEG_INFINITY, f64::max)
                        - vertices.fold(f64::INFINITY, f64::min)
                })
            })
            .sum::<f64>()
            / count
            / f64::from(DIRECTIONS);
        // An outline of a measured pore wavers by a few hundredths of a pixel: 0.2 % of its length
        // in bays that no caliper feels. Both are the closed form's: within 1 %, as the diameter,
        // and where tips have a radius under 2 of the engine's pixels within 2 %.
        let bound = if shape == Shape::Disc { 0.01 } else { 0.02 };
        let what = format!("{shape:?}");
        near_relative(&what, width, outline / PI, 0.002);
        near_relative(&what, width, size * shape.fact("mean_feret"), bound);
        near_relative(&what, outline, size * shape.fact("perimeter"), bound);
    }
}
