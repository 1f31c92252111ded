//! Scale against published regressions and uncertainties.

use super::support::{near, near_relative, rows};
use poreline::geometry::Point;
use poreline::scale::{END_PLACEMENT_PX, How, Line, Proportion, Scale};
use poreline::units::{Millimetres, Pixels};
use std::f64::consts::FRAC_1_SQRT_2;

#[test]
fn a_line_through_norris_has_the_certified_values() {
    // NIST Statistical Reference Datasets, linear regression, Norris: certified values.
    let data = rows(include_str!("facts/nist_norris.csv"));
    assert_eq!(data.len(), 36);
    let pairs = data.iter().map(|row| (row.number("x"), row.number("y")));
    let line = Line::fit(pairs).expect("36 pairs");
    for (what, got, certified) in [
        ("intercept", line.intercept, -0.262_323_073_774_029),
        ("slope", line.slope, 1.002_116_818_020_45),
        (
            "standard error of the intercept",
            line.intercept_standard_error,
            0.232_818_234_301_152,
        ),
        (
            "standard error of the slope",
            line.slope_standard_error,
            0.429_796_848_199_937e-3,
        ),
        ("residual SD", line.residual_sd, 0.884_796_396_144_373),
    ] {
        near_relative(what, got, certified, 1e-11);
    }
}

#[test]
fn lines_through_the_origin_have_the_certified_values() {
    // NIST Statistical Reference Datasets, linear regression, NoInt1 and NoInt2: certified values,
    // which are the exact fractions 251/121, 2/121 and 8/11, √(3/1694).
    for (name, data, slope, error, residual_sd) in [
        (
            "NoInt1",
            include_str!("facts/nist_noint1.csv"),
            2.074_380_165_289_26,
            0.016_528_925_619_834_7,
            3.567_530_340_063_38,
        ),
        (
            "NoInt2",
            include_str!("facts/nist_noint2.csv"),
            0.727_272_727_272_727,
            0.042_082_731_807_843_2,
            0.369_274_472_937_998,
        ),
    ] {
        let data = rows(data);
        let pairs = data.iter().map(|row| (row.number("x"), row.number("y")));
        let line = Proportion::fit(pairs).expect("more than one pair");
        near_relative(&format!("{name}, slope"), line.slope, slope, 1e-12);
        near_relative(
            &format!("{name}, its error"),
            line.slope_standard_error,
            error,
            1e-12,
        );
        near_relative(
            &format!("{name}, residual SD"),
            line.residual_sd,
            residual_sd,
            1e-12,
        );
    }
}

/// The thermometer's line, fitted about 20 °C as the source does.
fn thermometer() -> Line {
    let data = rows(include_str!("facts/gum_h3_thermometer.csv"));
    assert_eq!(data.len(), 11);
    Line::fit(data.iter().map(|row| {
        (
            row.number("reading_degc") - 20.0,
            row.number("correction_degc"),
        )
    }))
    .expect("11 pairs")
}

#[test]
fn the_thermometer_calibration_of_the_gum_comes_out_as_printed() {
    // JCGM 100:2008, H.3.3: y1 = −0.1712 °C (0.0029), y2 = 0.002 18 (0.000 67), s = 0.0035 °C.
    let line = thermometer();
    near("intercept", line.intercept, -0.1712, 5e-5);
    near("its error", line.intercept_standard_error, 0.0029, 5e-5);
    near("slope", line.slope, 0.002_18, 5e-6);
    near("its error", line.slope_standard_error, 0.000_67, 5e-6);
    near("residual SD", line.residual_sd, 0.0035, 5e-5);
    // The same to more digits, worked out with NumPy from the same data.
    near("intercept", line.intercept, -0.171_203_790, 1e-9);
    near(
        "its error",
        line.intercept_standard_error,
        0.002_877_598,
        1e-9,
    );
    near("slope", line.slope, 0.002_182_698, 1e-9);
    near("its error", line.slope_standard_error, 0.000_667_939, 1e-9);
    near("residual SD", line.residual_sd, 0.003_497_564, 1e-9);
}

#[test]
fn a_ruler_with_marks_in_error_gives_the_slope_and_its_error() {
    // Norris again (see above), its x read as marks in mm and its y as their places in px.
    let data = rows(include_str!("facts/nist_norris.csv"));
    let marks: Vec<_> = data
        .iter()
        .map(|row| (Millimetres(row.number("x")), Pixels(row.number("y"))))
        .collect();
    let scale = Scale::from_marks(&marks).expect("36 marks");
    near_relative("scale", scale.px_per_mm, 1.002_116_818_020_45, 1e-11);
    near_relative(
        "its uncertainty",
        scale.standard_uncertainty,
        0.429_796_848_199_937e-3,
        1e-11,
    );
    assert_eq!(scale.how, How::Ticks);
    // Read from the far end the ruler is the same.
    let reversed: Vec<_> = marks
        .iter()
        .map(|(mm, px)| (Millimetres(1000.0 - mm.0), *px))
        .collect();
    let reversed = Scale::from_marks(&reversed).expect("36 marks");
    near_relative("scale", reversed.px_per_mm, scale.px_per_mm, 1e-11);
}

#[test]
fn a_scale_from_two_points_is_the_quotient_of_the_gum() {
    // A 10 mm bar true within ±0.05 mm (rectangular), 1234 px long, each end placed with
    // u = 0.5 px; a pore of 45 px with u = 0.8 px. Worked out from JCGM 100:2008, 5.1.6 (the
    // relative variances of a quotient add) and 4.3.7 (u = a/√3 of a rectangular distribution).
    let bar = Millimetres(10.0);
    let (from, to) = (Point::new(100.0, 50.0), Point::new(1334.0, 50.0));
    let scale = Scale::from_points(from, to, bar).expect("two places");
    assert_eq!(scale.how, How::Points);
    near_relative(
        "mm per px",
        1.0 / scale.px_per_mm,
        0.008_103_727_714_75,
        1e-11,
    );
    let pore = scale.millimetres(Pixels(45.0));
    near_relative("pore", pore.0, 0.364_667_747_164, 1e-11);

    // The scale holds the share of its two ends, placed within ±1 px, and not the bar's own
    // tolerance; the example places each end with u = 0.5 px instead.
    near_relative("an end", END_PLACEMENT_PX, 1.0 / 3_f64.sqrt(), 1e-15);
    let ends = scale.relative_uncertainty() * 0.5 / END_PLACEMENT_PX;
    near_relative("both ends", ends, FRAC_1_SQRT_2 / 1234.0, 1e-12);
    let whole = ends.hypot(0.05 / 3_f64.sqrt() / bar.0);
    near_relative("scale", whole, 0.002_943_074_132, 1e-7);
    let pore_uncertainty = pore.0 * whole.hypot(0.8 / 45.0);
    near_relative("pore", pore_uncertainty, 0.006_571_218_379, 1e-7);
}
