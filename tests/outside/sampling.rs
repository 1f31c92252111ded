//! Standard errors, intervals and count lines against what chance does.

use super::drawing::{Canvas, Shape, mean_and_error, packed};
use super::support::{near, near_relative, rows};
use poreline::area::Area;
use poreline::geometry::{Point, Rect};
use poreline::progress::Progress;
use poreline::scale::{How, Scale};
use poreline::statistics::{
    Tile, count_lines, count_standard_error, resample, standard_error, weighted_mean,
};
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use std::collections::BTreeMap;
use std::f64::consts::TAU;

/// Two-sided 95 % of the normal distribution: the last row of the t table, JCGM 100:2008, table G.2
/// (1.960 there), to six digits.
const T95_INFINITE: f64 = 1.959_964;

fn normal(random: &mut Pcg64Mcg) -> f64 {
    let radius = (-2.0 * (1.0 - random.random::<f64>()).ln()).sqrt();
    radius * (TAU * random.random::<f64>()).cos()
}

#[test]
fn as_many_pores_as_the_standard_asks_for_give_the_precision_it_promises() {
    // facts/n_particles.csv: how many log-normal sizes of spread σ_g make a mean good to ± δ at 95 %.
    // Bounds, before the run: of 3000 means 95 % lie within δ, ± 1.2 % (three standard errors) and
    // 1 % for the skewness of the sizes; the standard error, times 1.96, is δ within 3 % (sample
    // standard deviations of skewed sizes come out up to 2 % low at 50 values).
    let mut checked = 0;
    for row in rows(include_str!("facts/n_particles.csv")) {
        let pores = row.integer("pores");
        if !(50..=700).contains(&pores) {
            continue;
        }
        let (sigma, delta) = (
            row.number("sigma_g").ln(),
            row.number("relative_half_width"),
        );
        let expected = (sigma * sigma / 2.0).exp();
        let mut random = Pcg64Mcg::seed_from_u64(13_322);
        let (mut within, mut half_widths) = (0.0, 0.0);
        for _ in 0..3000 {
            let sizes: Vec<(f64, f64)> = (0..pores)
                .map(|_| ((sigma * normal(&mut random)).exp(), 1.0))
                .collect();
            let mean = weighted_mean(&sizes).expect("sizes");
            half_widths += T95_INFINITE * standard_error(&sizes, mean) / mean / 3000.0;
            if (mean / expected - 1.0).abs() <= delta {
                within += 1.0 / 3000.0;
            }
        }
        let what = format!("σ_g {}, ± {delta}, {pores} pores", row.text("sigma_g"));
        near(&what, within, 0.95, 0.012 + 0.01);
        near_relative(&what, half_widths, delta, 0.03);
        checked += 1;
    }
    assert_eq!(checked, 8);
}

#[test]
fn resampling_the_mice_gives_the_exact_percentiles() {
    // Efron & Tibshirani 1993, table 2.1, treated mice. All 7⁷ draws can be counted here, so the
    // exact distribution of the mean is known; its 2.5th and 97.5th percentiles are 43.4286 and
    // 134.4286. Of 2000 draws, percentiles lie within three standard errors of their rank,
    // 3 √(0.025 · 0.975/2000) = 0.0105.
    let survived: [u32; 7] = [94, 197, 16, 38, 99, 141, 23];
    let mut ways = BTreeMap::from([(0_u32, 1_u32)]);
    for _ in 0..7 {
        let mut more = BTreeMap::new();
        for (sum, n) in &ways {
            for days in survived {
                *more.entry(sum + days).or_insert(0) += n;
            }
        }
        ways = more;
    }
    let exact = |share: f64| {
        let mut reached = 0.0;
        let at = ways.iter().find(|(_, n)| {
            reached += f64::from(**n) / 7_f64.powi(7);
            reached >= share
        });
        f64::from(*at.expect("a share below 1").0) / 7.0
    };
    near("2.5 %", exact(0.025), 43.4286, 5e-5);
    near("97.5 %", exact(0.975), 134.4286, 5e-5);
    let tiles = survived.map(|days| Tile {
        amount: f64::from(days),
        base: 1.0,
    });
    let drawn = resample(&tiles).expect("more than four tiles");
    for (got, share) in [(drawn.low, 0.025), (drawn.high, 0.975)] {
        let (low, high) = (exact(share - 0.0105), exact(share + 0.0105));
        assert!(
            (low..=high).contains(&got),
            "{got} is not within {low} to {high}"
        );
    }
}

/// A square of so many units a side.
fn square(side: f64) -> Rect {
    Rect {
        x: 0.0,
        y: 0.0,
        width: side,
        height: side,
    }
}

/// As many points as chance has it for a mean of `mean`, strewn over a square.
fn strewn(random: &mut Pcg64Mcg, mean: f64, side: f64) -> Vec<Point> {
    // A Poisson process along a line: exponential steps up to the mean.
    let mut points = Vec::new();
    let mut along = 0.0;
    loop {
        along -= (1.0 - random.random::<f64>()).ln();
        if along > mean {
            return points;
        }
        points.push(Point::new(
            side * random.random::<f64>(),
            side * random.random::<f64>(),
        ));
    }
}

#[test]
fn points_strewn_at_random_have_the_standard_error_of_poisson() {
    // The variance of a Poisson count is its mean. Bounds, before the run: an area of 90 × 90
    // spacings holds 225 large windows side by side, so their variance scatters by √(2/225) = 9 %
    // and what is carried over to the whole area by about twice that, and is cut off above; that
    // leaves it at most half of 18 % low on average. Ten fields scatter by three times 18 %/√10 at
    // worst, which the cut halves: 9 %.
    let mut random = Pcg64Mcg::seed_from_u64(1837);
    let side = 90.0;
    let expected = side * side / 0.75_f64.sqrt();
    let variances: Vec<f64> = (0..10)
        .map(|_| {
            let points = strewn(&mut random, expected, side);
            let error = count_standard_error(&points, square(side), |_| true, 1.0);
            error.expect("windows fit").powi(2)
        })
        .collect();
    let (mean, _) = mean_and_error(&variances);
    near_relative("variance", mean, expected, 0.09 + 0.09);
}

#[test]
fn count_lines_count_what_the_density_says() {
    // The strip about a line of 1 mm is √3/(2 P) mm wide, and N = 2 P²/√3 to the mm²: P are expected
    // in it, and on points strewn at random their variance is P too (Poisson). 400 lines lie on
    // 400 mm²: they share few points. Bounds, before the run: three standard errors over 40 fields
    // of the mean, and of the variance √(2/400/40) of it and as much again for shared points.
    let (side, px_per_mm) = (20.0, 10.0);
    let mut random = Pcg64Mcg::seed_from_u64(1985);
    for per_mm in [2.0, 5.0] {
        let expected = side * side * per_mm * per_mm / 0.75_f64.sqrt();
        let (mut means, mut variances) = (Vec::new(), Vec::new());
        for _ in 0..40 {
            let points: Vec<Point> = strewn(&mut random, expected, side * px_per_mm);
            let bounds = square(side * px_per_mm);
            let lines = count_lines(&points, per_mm, px_per_mm, bounds, |p| bounds.contains(p));
            let counts: Vec<f64> = lines.iter().map(|line| line.pores as f64).collect();
            assert_eq!(counts.len(), 400);
            let (mean, error) = mean_and_error(&counts);
            means.push(mean);
            variances.push(error * error * counts.len() as f64);
        }
        let (mean, error) = mean_and_error(&means);
        near("mean", mean, per_mm, 3.0 * error);
        let (variance, _) = mean_and_error(&variances);
        near_relative(
            "variance",
            variance,
            per_mm,
            6.0 * (2.0_f64 / 400.0 / 40.0).sqrt(),
        );
    }
}

#[test]
fn the_scale_widens_intervals_by_the_normal_quantile() {
    // JCGM 100:2008, 5.1.2 and table G.2: what the scale adds in quadrature to a half-width is
    // 1.959 964 times its relative standard uncertainty.
    let mut random = Pcg64Mcg::seed_from_u64(95);
    let mut canvas = Canvas::new(300, 300);
    for place in packed(&mut random, 300, 300, 20.0, 0.1) {
        canvas.cut(Shape::Disc, 13.0, place, 0.0);
    }
    let photo = canvas.photo();
    let area = Area::default();
    let traced = poreline::trace(&photo, &area, &Progress::default()).expect("the whole photo");
    let with = |standard_uncertainty: f64| {
        let scale = Scale {
            mark_px: None,
            px_per_mm: 80.0,
            standard_uncertainty,
            how: How::Points,
        };
        let measured = poreline::figure(&photo, &area, &traced, scale);
        let pores = measured.findings.pores.expect("pores");
        [pores.per_mm, pores.diameter_mm.mean]
    };
    for (exact, unsure) in with(0.0).into_iter().zip(with(1.6)) {
        near_relative("value", unsure.value, exact.value, 1e-12);
        let added =
            |wide: f64, narrow: f64| (wide * wide - narrow * narrow).sqrt() / exact.value / 0.02;
        let low = added(unsure.value - unsure.low, exact.value - exact.low);
        let high = added(unsure.high - unsure.value, exact.high - exact.value);
        near("low end", low, T95_INFINITE, 1e-6);
        near("high end", high, T95_INFINITE, 1e-6);
    }
}
