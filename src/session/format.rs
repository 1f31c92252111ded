//! Numbers as people read them: the digits follow the uncertainty, a unit stands after a space.

use crate::findings::Estimate;

/// Decimals to show for a figure of this uncertainty: two significant digits of the uncertainty
/// when it begins with 1 or 2, else one (at most two, JCGM 100:2008, 7.2.6).
#[must_use]
pub fn decimals_for(uncertainty: f64) -> usize {
    if !(uncertainty > 0.0 && uncertainty.is_finite()) {
        return 3;
    }
    let magnitude = uncertainty.log10().floor();
    let leading = uncertainty / 10_f64.powf(magnitude);
    let digits = if leading < 3.0 { 1.0 } else { 0.0 };
    decimals(digits - magnitude)
}

/// A number of decimals out of a place value, kept within what a screen can show.
fn decimals(place: f64) -> usize {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to 0–6"
    )]
    {
        place.clamp(0.0, 6.0) as usize
    }
}

/// The figure alone, with as many decimals as its interval supports.
#[must_use]
pub fn value(estimate: Estimate) -> String {
    let decimals = decimals_for((estimate.high - estimate.low) / 2.0);
    format!("{:.decimals$}", estimate.value)
}

/// The interval alone, `4.38–4.69`, with the decimals of its figure.
#[must_use]
pub fn interval(estimate: Estimate) -> String {
    let decimals = decimals_for((estimate.high - estimate.low) / 2.0);
    format!("{:.decimals$}–{:.decimals$}", estimate.low, estimate.high)
}

/// A figure without an interval, to three significant digits.
#[must_use]
pub fn plain(figure: f64) -> String {
    if figure == 0.0 || !figure.is_finite() {
        return format!("{figure}");
    }
    let decimals = decimals(2.0 - figure.abs().log10().floor());
    format!("{figure:.decimals$}")
}

/// A value with its standard uncertainty, `40.12 ± 0.16`.
#[must_use]
pub fn with_uncertainty(figure: f64, standard_uncertainty: f64) -> String {
    if standard_uncertainty > 0.0 {
        let decimals = decimals_for(standard_uncertainty);
        format!("{figure:.decimals$} ± {standard_uncertainty:.decimals$}")
    } else {
        plain(figure)
    }
}

/// A share as whole per cent.
#[must_use]
pub fn per_cent(share: f64) -> String {
    format!("{:.0} %", share * 100.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_follow_the_uncertainty() {
        for (figure, low, high, text, between) in [
            (4.5312, 4.3777, 4.6901, "4.53", "4.38–4.69"),
            (0.152_34, 0.148_11, 0.156_02, "0.152", "0.148–0.156"),
            (4.5312, 3.6, 5.4, "4.5", "3.6–5.4"),
            (212.4, 187.0, 238.0, "212", "187–238"),
        ] {
            let estimate = Estimate {
                value: figure,
                low,
                high,
            };
            assert_eq!(value(estimate), text);
            assert_eq!(interval(estimate), between);
        }
    }

    #[test]
    fn plain_figures_have_three_significant_digits() {
        for (figure, text) in [
            (0.0432, "0.0432"),
            (4.5678, "4.57"),
            (45.678, "45.7"),
            (4567.8, "4568"),
            (0.0, "0"),
        ] {
            assert_eq!(plain(figure), text);
        }
    }

    #[test]
    fn a_scale_shows_its_uncertainty_only_where_there_is_one() {
        assert_eq!(with_uncertainty(40.1234, 0.1633), "40.12 ± 0.16");
        assert_eq!(with_uncertainty(40.0, 0.0), "40.0");
    }
}
