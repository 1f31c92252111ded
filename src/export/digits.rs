//! How many digits of a figure are worth giving.

use crate::findings::Estimate;

/// The figure rounded to so many significant digits; `None` when it is not a finite number.
pub fn rounded(value: f64, significant: usize) -> Option<f64> {
    if !value.is_finite() {
        return None;
    }
    format!("{value:.*e}", significant.saturating_sub(1))
        .parse()
        .ok()
}

/// The figure in plain decimals with so many significant digits, for a person to read.
pub fn significant(value: f64, digits: i32) -> String {
    decimals(value, digits - 1 - order(value))
}

/// The figure to the decimal place its uncertainty reaches (JCGM 100:2008, 7.2.6: two digits of an
/// uncertainty at most): the second digit where the first is 1 or 2, else the first. With three
/// significant digits where the uncertainty is not known.
pub fn as_sure_as(value: f64, uncertainty: f64) -> String {
    if uncertainty > 0.0 && uncertainty.is_finite() {
        let order = order(uncertainty);
        let leading = uncertainty / 10_f64.powi(order);
        decimals(value, if leading < 3.0 { 1 - order } else { -order })
    } else {
        significant(value, 3)
    }
}

/// Whether the interval says anything: a mean of a single value has none.
#[must_use]
pub fn has_interval(estimate: &Estimate) -> bool {
    let width = estimate.high - estimate.low;
    width > 0.0 && width.is_finite()
}

/// The figure and its interval, where it has one, to the digits the interval bears out.
#[must_use]
pub fn with_interval(estimate: &Estimate) -> String {
    let Estimate { value, low, high } = *estimate;
    if !has_interval(estimate) {
        return significant(value, 3);
    }
    let half_width = (high - low) / 2.0;
    format!(
        "{} (95 % interval {} to {})",
        as_sure_as(value, half_width),
        as_sure_as(low, half_width),
        as_sure_as(high, half_width)
    )
}

/// The power of ten of the leading digit; 0 for zero, which has none.
fn order(value: f64) -> i32 {
    if value == 0.0 || !value.is_finite() {
        return 0;
    }
    #[expect(clippy::cast_possible_truncation, reason = "at most ±324")]
    let order = value.abs().log10().floor() as i32;
    order
}

/// At most this many decimals: finer than any measurement on a photo.
const MOST_DECIMALS: i32 = 6;

fn decimals(value: f64, places: i32) -> String {
    let places = usize::try_from(places.clamp(0, MOST_DECIMALS)).unwrap_or(0);
    format!("{value:.places$}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn json_figures_keep_six_digits_and_never_hold_nan() {
        assert_eq!(rounded(4.312_345_678, 6), Some(4.312_35));
        assert_eq!(rounded(123_456_789.0, 6), Some(123_457_000.0));
        assert_eq!(rounded(0.0, 6), Some(0.0));
        assert_eq!(rounded(f64::NAN, 6), None);
        assert_eq!(rounded(f64::INFINITY, 6), None);
    }

    #[test]
    fn digits_follow_the_uncertainty() {
        for (value, uncertainty, expected) in [
            (4.312_34, 0.21, "4.31"),
            (4.312_34, 1.4, "4.3"),
            (4.312_34, 0.51, "4.3"),
            (61.402, 0.118, "61.40"),
            (412.3, 35.0, "412"),
            (0.183_21, 0.0041, "0.183"),
            (4.312_34, 0.0, "4.31"),
        ] {
            assert_eq!(
                as_sure_as(value, uncertainty),
                expected,
                "{value} ± {uncertainty}"
            );
        }
    }

    #[test]
    fn an_interval_that_says_nothing_is_left_away() {
        let of = |low, high| Estimate {
            value: 0.183_2,
            low,
            high,
        };
        for (estimate, expected) in [
            (of(0.1791, 0.1873), "0.183 (95 % interval 0.179 to 0.187)"),
            (of(0.1832, 0.1832), "0.183"),
            (of(f64::NEG_INFINITY, f64::INFINITY), "0.183"),
            (of(f64::NAN, f64::NAN), "0.183"),
        ] {
            assert_eq!(with_interval(&estimate), expected);
        }
    }

    #[test]
    fn significant_digits_are_plain_decimals() {
        for (value, digits, expected) in [
            (0.051_23, 2, "0.051"),
            (22.163, 3, "22.2"),
            (1834.2, 3, "1834"),
            (0.0, 2, "0.0"),
        ] {
            assert_eq!(significant(value, digits), expected, "{value}");
        }
    }
}
