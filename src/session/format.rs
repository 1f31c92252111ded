//! Numbers as people read them: the digits follow the uncertainty, a unit stands after a space.

use crate::export::digits;
use crate::findings::Estimate;
use crate::wording;

/// A figure with as many decimals as its uncertainty supports, in the digits of the language.
#[must_use]
pub fn as_sure_as(figure: f64, uncertainty: f64) -> String {
    wording::digits(digits::as_sure_as(figure, uncertainty))
}

/// A figure to so many significant digits, in the digits of the language.
#[must_use]
pub fn significant(figure: f64, count: i32) -> String {
    wording::digits(digits::significant(figure, count))
}

/// The figure alone, with as many decimals as its interval supports.
#[must_use]
pub fn value(estimate: Estimate) -> String {
    as_sure_as(estimate.value, half_width(estimate))
}

/// The interval alone, `4.38–4.69`, with the decimals of its figure.
#[must_use]
pub fn interval(estimate: Estimate) -> String {
    ends(estimate).join("–")
}

/// The ends of an interval, with as many digits as its width allows.
#[must_use]
pub fn ends(estimate: Estimate) -> [String; 2] {
    let half = half_width(estimate);
    [estimate.low, estimate.high].map(|end| as_sure_as(end, half))
}

fn half_width(estimate: Estimate) -> f64 {
    (estimate.high - estimate.low) / 2.0
}

/// A figure without an interval, to three significant digits.
#[must_use]
pub fn plain(figure: f64) -> String {
    significant(figure, 3)
}

/// A value with its standard uncertainty, `40.12 ± 0.16`.
#[must_use]
pub fn with_uncertainty(figure: f64, standard_uncertainty: f64) -> String {
    if standard_uncertainty > 0.0 {
        format!(
            "{} ± {}",
            as_sure_as(figure, standard_uncertainty),
            as_sure_as(standard_uncertainty, standard_uncertainty)
        )
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
            (0.0, "0.00"),
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
