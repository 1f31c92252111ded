//! Pores at the edges of what is left out: a lattice of discs, whose density and mean diameter are
//! known by construction, with a rectangle left out of it.

use image::{Rgb, RgbImage};
use poreline::area::{Area, LeftOut, Outline, Reason};
use poreline::geometry::{Point, Polygon, Rect};
use poreline::photo::Photo;
use poreline::progress::Progress;
use poreline::scale::Scale;

const SPACING_PX: f64 = 24.0;
const PX_PER_MM: f64 = 96.0;
/// Every third disc is large, so that a rule that favours small pores shows.
const RADII_PX: [f64; 3] = [6.0, 6.0, 9.5];
/// Written down before the first run.
const BOUND: f64 = 0.01;

const SIZE: (u32, u32) = (720, 560);

fn part() -> Polygon {
    Rect {
        x: 180.0,
        y: 150.0,
        width: 330.0,
        height: 210.0,
    }
    .to_polygon()
}

/// The nearest disc of a triangular lattice that is turned by half a radian, as an offset and a radius.
fn nearest(p: Point, shift: [f64; 2]) -> (f64, f64) {
    let (sin, cos) = 0.5_f64.sin_cos();
    let (x, y) = (p.x + shift[0], p.y + shift[1]);
    let (u, v) = (x * cos + y * sin, y * cos - x * sin);
    let row_height = SPACING_PX * 0.75_f64.sqrt();
    let middle = (v / row_height).round();
    let discs = (-1..=1).flat_map(|row| {
        let row = middle + f64::from(row);
        let column = (u / SPACING_PX - row / 2.0).round();
        (-1..=1).map(move |k| {
            let column = column + f64::from(k);
            let (du, dv) = (u - SPACING_PX * (column + row / 2.0), v - row_height * row);
            let kind = (column - row).rem_euclid(3.0);
            let radius = if kind < 1.5 { RADII_PX[0] } else { RADII_PX[2] };
            (du.hypot(dv) - radius, radius)
        })
    });
    discs
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .expect("nine discs are looked at")
}

/// Dark discs on bright tissue; where `card` is set, a white card lies on them in [`part`].
fn photo(shift: [f64; 2], card: bool) -> Photo {
    let card = card.then(part);
    let picture = RgbImage::from_fn(SIZE.0, SIZE.1, |x, y| {
        let light: f64 = (0..16)
            .map(|k| {
                let at = |i: u32, k: u32| f64::from(i) + (f64::from(k) + 0.5) / 4.0;
                let p = Point::new(at(x, k % 4), at(y, k / 4));
                if card.as_ref().is_some_and(|card| card.contains(p)) {
                    0.95
                } else if nearest(p, shift).0 < 0.0 {
                    0.06
                } else {
                    0.55
                }
            })
            .sum();
        let encoded = 255.0 * (1.055 * (light / 16.0).powf(1.0 / 2.4) - 0.055);
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "from 0 to 255"
        )]
        Rgb([encoded.round() as u8; 3])
    });
    Photo::from_rgb("lattice.png", picture)
}

/// Density per mm² and mean diameter, mm, over lattices that lie differently, so that what a lattice
/// has more or less at a straight edge by chance is averaged.
fn means(card: bool, area: &Area) -> [f64; 2] {
    let (mut count, mut mm2, mut diameters) = (0.0, 0.0, 0.0);
    let lattices = 6;
    for k in 0..lattices {
        let shift = [7.3 * f64::from(k), 11.9 * f64::from(k)];
        let scale = Scale::given(PX_PER_MM).expect("a scale");
        let findings = poreline::measure(&photo(shift, card), scale, area, &Progress::default())
            .expect("the area lies on the photo")
            .findings;
        let pores = findings.pores.unwrap_or_else(|| {
            panic!("{:?} {:?}", findings.surface, findings.notes);
        });
        #[allow(clippy::cast_precision_loss, reason = "a count")]
        let pores_counted = pores.count as f64;
        count += pores_counted;
        mm2 += findings.area.mm2;
        diameters += pores.diameter_mm.mean.value;
    }
    [count / mm2, diameters / f64::from(lattices)]
}

fn check(what: &str, card: bool, area: &Area) {
    let density = 2.0 / 3.0_f64.sqrt() * (PX_PER_MM / SPACING_PX).powi(2);
    let diameter = 2.0 * RADII_PX.iter().sum::<f64>() / 3.0 / PX_PER_MM;
    let errors: Vec<f64> = means(card, area)
        .into_iter()
        .zip([density, diameter])
        .map(|(found, truth)| found / truth - 1.0)
        .collect();
    println!(
        "{what}: density {:+.2} %, mean diameter {:+.2} %",
        100.0 * errors[0],
        100.0 * errors[1]
    );
    assert!(
        errors.iter().all(|error| error.abs() < BOUND),
        "{what}: {errors:?}"
    );
}

fn leaving_out(reason: Reason) -> Area {
    Area {
        outline: Outline::WholePhoto,
        left_out: vec![LeftOut {
            outline: part(),
            reason,
        }],
    }
}

#[test]
fn the_whole_lattice_is_right() {
    check("whole photo", false, &Area::default());
}

#[test]
fn a_part_left_out_by_hand_cuts_pores_as_the_photos_edge_does() {
    check(
        "by hand, lattice beneath",
        false,
        &leaving_out(Reason::ByHand),
    );
    check("by hand, card beneath", true, &leaving_out(Reason::ByHand));
}

#[test]
fn a_part_that_was_found_cuts_none() {
    check("found", false, &leaving_out(Reason::Foreign));
}

#[test]
fn an_outline_cuts_none() {
    let outline = Outline::Polygon(Polygon::new(
        [
            (60.0, 90.0),
            (640.0, 50.0),
            (660.0, 300.0),
            (500.0, 520.0),
            (90.0, 460.0),
        ]
        .map(|(x, y)| Point::new(x, y))
        .to_vec(),
    ));
    let area = Area {
        outline,
        left_out: Vec::new(),
    };
    check("outline", false, &area);
}
