//! Interval of a share.

/// 97.5th percentile of the standard normal distribution.
const Z: f64 = 1.959_963_984_540_054;

/// Wilson's 95 % score interval of a share of `successes` among `trials`, without continuity
/// correction (Wilson 1927, J. Am. Stat. Assoc. 22: 209–212). From 0 to 1 where nothing was tried.
#[must_use]
pub fn wilson(successes: usize, trials: usize) -> (f64, f64) {
    if trials == 0 {
        return (0.0, 1.0);
    }
    let (x, n) = (successes as f64, trials as f64);
    let share = x / n;
    let middle = (share + Z * Z / (2.0 * n)) / (1.0 + Z * Z / n);
    let half = Z * (share * (1.0 - share) / n + Z * Z / (4.0 * n * n)).sqrt() / (1.0 + Z * Z / n);
    // At 0 and at all the bound is exactly 0 and 1, which rounding may miss.
    let low = if successes == 0 { 0.0 } else { middle - half };
    let high = if successes == trials {
        1.0
    } else {
        middle + half
    };
    (low, high)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Newcombe 1998, Stat. Med. 17: 857–872, table I, method 3 (`from memory`).
    #[test]
    fn published_intervals_come_out() {
        for (x, n, low, high) in [
            (81, 263, 0.2553, 0.3662),
            (15, 148, 0.0624, 0.1605),
            (0, 20, 0.0, 0.1611),
            (1, 29, 0.0061, 0.1718),
        ] {
            let (l, h) = wilson(x, n);
            assert!(
                (l - low).abs() < 5e-5 && (h - high).abs() < 5e-5,
                "{x}/{n}: {l} {h}"
            );
        }
    }

    #[test]
    fn an_interval_holds_its_share_and_stays_a_share() {
        for n in 0..40 {
            for x in 0..=n {
                let (low, high) = wilson(x, n);
                assert!((0.0..=1.0).contains(&low) && (0.0..=1.0).contains(&high));
                if n > 0 {
                    let share = x as f64 / n as f64;
                    assert!(low <= share && share <= high, "{x}/{n}");
                }
            }
        }
    }
}
