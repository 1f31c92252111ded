//! Shape measures of ISO 9276-6 on pores drawn on photos: what pixels cost.

use super::drawing::{Canvas, Shape, mean_and_error, packed};
use super::support::{Row, near, near_relative, rows};
use poreline::area::Area;
use poreline::pores::Pore;
use poreline::progress::Progress;
use poreline::scale::Scale;
use poreline::segmentation::PX_PER_SPACING;
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use std::f64::consts::{PI, TAU};

/// Whole pores of about `count` shapes, `spacing` px apart.
fn pores(shape: Shape, size: f64, spacing: f64, count: f64, whole_pixels: bool) -> Vec<Pore> {
    let mut random = Pcg64Mcg::seed_from_u64(9276);
    // Two rows at every edge are cut or left out.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a few thousand pixels"
    )]
    let side = (((count * 0.866).sqrt() + 1.0) * spacing) as usize;
    let mut canvas = if whole_pixels {
        Canvas::of_whole_pixels(side, side)
    } else {
        Canvas::new(side, side)
    };
    for place in packed(&mut random, side, side, spacing, 0.03) {
        canvas.cut(shape, size, place, TAU * random.random::<f64>());
    }
    let scale = Scale::given(100.0).expect("more than zero");
    let measured = poreline::measure(
        &canvas.photo(),
        scale,
        &Area::default(),
        &Progress::default(),
    )
    .expect("the area lies on the photo");
    assert!(measured.findings.pores.is_some(), "{shape:?}: no pores");
    let mut pores = measured.regions;
    pores.retain(|pore| pore.whole);
    assert!(
        pores.len() as f64 > 0.7 * count,
        "{shape:?}: {} pores",
        pores.len()
    );
    pores
}

#[test]
fn discs_of_whole_pixels_are_measured_as_well_as_by_counting_pixels() {
    // facts/digitised_disk_errors.csv: what counting the pixels of a digitised disc gives, over 400
    // places of its centre. The spacing is 1.5 diameters, so the engine sees a disc 12 px wide
    // however large it is on the photo; a disc that is larger there can only gain.
    // Bounds: single discs are no worse than by counting pixels at the coarser of the two
    // resolutions, as far as 400 discs there and as many here can tell. Three standard errors are
    // 3 √(1/2n + 1/2n) for the ratio of two standard deviations, 3 √2 of a mean's for the difference
    // of two. Below the least ellipse ratio of the table fewer than 10 lie (of equal samples k lie
    // below the other's least with chance 2⁻ᵏ). The mean diameter is right within 1 %.
    let table = rows(include_str!("facts/digitised_disk_errors.csv"));
    let seen = PX_PER_SPACING / 1.5;
    let mut checked = 0;
    for row in &table {
        let diameter = row.number("diameter_px");
        if !(8.0..=50.0).contains(&diameter) {
            continue;
        }
        // The nearest row of the table that is no finer than what the engine sees.
        let coarser = |row: &&Row| row.number("diameter_px") <= diameter.min(seen);
        let bound = table.iter().rfind(coarser).expect("a coarser row");
        let pores = pores(Shape::Disc, diameter, 1.5 * diameter, 400.0, true);
        let sizes: Vec<f64> = pores
            .iter()
            .map(|pore| pore.diameter().0 / diameter)
            .collect();
        let (mean, error) = mean_and_error(&sizes);
        let deviation = error * (sizes.len() as f64).sqrt();
        let what = format!("{diameter} px");
        near(&what, mean, 1.0, 0.01);
        let most = bound.number("eq_diam_rel_sd") * (1.0 + 3.0 / (sizes.len() as f64).sqrt());
        assert!(
            deviation <= most,
            "{what}: a diameter scatters by {deviation}, {most} allowed"
        );
        // ISO's ellipse ratio is the inverse of the elongation.
        let ratios: Vec<f64> = pores.iter().map(|pore| 1.0 / pore.elongation()).collect();
        let (mean_ratio, error) = mean_and_error(&ratios);
        near(
            &what,
            mean_ratio.min(bound.number("ellipse_ratio_mean")),
            bound.number("ellipse_ratio_mean"),
            3.0 * 2.0_f64.sqrt() * error,
        );
        let least = bound.number("ellipse_ratio_min");
        let below = ratios.iter().filter(|ratio| **ratio < least).count();
        assert!(below < 10, "{what}: {below} ellipse ratios below {least}");
        // Closed form: outline π d, circularity 1; where the photo's own pixels are coarser than
        // the engine's, their stairs are part of the picture.
        if diameter > seen {
            let mean_of = |measure: fn(&Pore) -> f64| {
                pores.iter().map(measure).sum::<f64>() / pores.len() as f64
            };
            near_relative(&what, mean_of(|p| p.perimeter), PI * diameter, 0.01);
            near(&what, mean_of(Pore::circularity), 1.0, 0.01);
        }
        checked += 1;
    }
    assert_eq!(checked, 6);
}

/// Of the middle pore in the order of a measure.
fn median(pores: &[Pore], measure: impl Fn(&Pore) -> f64) -> f64 {
    let mut values: Vec<f64> = pores.iter().map(measure).collect();
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

/// Shapes drawn 36 px apart, which is [`FINER`] times as fine as the engine looks at them.
const SPACING: f64 = 36.0;
const FINER: f64 = SPACING / PX_PER_SPACING;

/// How far rounding may take the tip of a right-angled corner back, photo px.
///
/// A blur of σ takes it back by √2 t σ with Φ(t)² = ½, 0.77 σ; outlines are blurred by no more than
/// 1.3 of the engine's pixels, as said before the run.
const TIP: f64 = 0.77 * 1.3 * FINER;

#[test]
fn ellipses_have_the_measures_of_their_closed_form() {
    // facts/shape_closed_forms.csv; ellipse ratio after ISO 9276-6:2008 (from memory).
    // Bounds: 1 % of the diameter and 3 % of the elongation, as of the accuracy photos; 2 % of
    // widths and outline, whose tips have a radius of 2 of the engine's pixels.
    let (shape, size) = (Shape::Ellipse, 7.5);
    let pores = pores(shape, size, SPACING, 300.0, false);
    let fact = |column: &str| size * shape.fact(column);
    near_relative(
        "diameter",
        median(&pores, |p| p.diameter().0),
        fact("diameter"),
        0.01,
    );
    near_relative(
        "outline",
        median(&pores, |p| p.perimeter),
        fact("perimeter"),
        0.02,
    );
    near_relative(
        "least width",
        median(&pores, |p| p.feret.min),
        fact("feret_min"),
        0.02,
    );
    near_relative(
        "greatest width",
        median(&pores, |p| p.feret.max),
        fact("feret_max"),
        0.02,
    );
    near_relative("elongation", median(&pores, Pore::elongation), 2.0, 0.03);
    let circularity = shape.fact("circularity");
    near_relative(
        "circularity",
        median(&pores, Pore::circularity),
        circularity,
        0.01,
    );
    near("solidity", median(&pores, |p| p.solidity), 1.0, 0.01);
}

#[test]
fn squares_have_the_measures_of_their_closed_form_but_for_their_corners() {
    // facts/shape_closed_forms.csv. Bounds, before the run: 1 % of the diameter and 2 % of the least
    // width, which corners do not touch; the greatest width may lack both of its tips, and the
    // outline twice √2 − 1 of a tip at each corner (a tip cut off square).
    let (shape, size) = (Shape::Square, 20.0);
    let pores = pores(shape, size, SPACING, 300.0, false);
    let fact = |column: &str| size * shape.fact(column);
    near_relative(
        "diameter",
        median(&pores, |p| p.diameter().0),
        fact("diameter"),
        0.01,
    );
    near_relative(
        "least width",
        median(&pores, |p| p.feret.min),
        fact("feret_min"),
        0.02,
    );
    let greatest = median(&pores, |p| p.feret.max);
    near("greatest width", greatest, fact("feret_max") - TIP, TIP);
    let lost = 4.0 * 2.0 * (2.0_f64.sqrt() - 1.0) * TIP;
    let outline = median(&pores, |p| p.perimeter);
    near(
        "outline",
        outline,
        fact("perimeter") - lost / 2.0,
        lost / 2.0 + 0.01 * fact("perimeter"),
    );
    // Equal second moments all round: only pixels make it longer than wide.
    let elongation = median(&pores, Pore::elongation);
    assert!((1.0..1.03).contains(&elongation), "elongation {elongation}");
}

#[test]
fn a_bay_shows_as_a_lack_of_solidity() {
    // facts/shape_nonconvex.csv. Bounds: the two tips beside the bay may be taken back, and the
    // hull's side across the bay, √2 units long, with them; what corners lose besides is taken off
    // the figure and its hull alike, 1 %.
    let (shape, size) = (Shape::Tromino, 12.0);
    let pores = pores(shape, size, SPACING, 300.0, false);
    let diameter = size * (4.0 * shape.fact("area") / PI).sqrt();
    near_relative(
        "diameter",
        median(&pores, |p| p.diameter().0),
        diameter,
        0.01,
    );
    let (least, most) = (
        shape.fact("solidity"),
        shape.fact("area") / (shape.fact("hull_area") - 2.0_f64.sqrt() * TIP / size),
    );
    near(
        "solidity",
        median(&pores, |p| p.solidity),
        f64::midpoint(least, most),
        (most - least) / 2.0 + 0.01,
    );
}
