//! Whether a figure rises or falls over a series.

/// 99.5th percentile of the standard normal distribution: chance gives as much in one series of a hundred.
const Z_99: f64 = 2.575_829_303_548_901;
/// Fewest figures for which S is near enough to normal (Kendall 1975, Rank Correlation Methods, 4th ed.).
const FEWEST: usize = 10;

/// A rise or fall over a series.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trend {
    /// S over its standard deviation: positive for a rise.
    pub z: f64,
    /// Relative change from the median of the first quarter to that of the last.
    pub change: f64,
}

impl Trend {
    /// Whether chance alone would give as much in less than one of a hundred series.
    #[must_use]
    pub fn is_significant(&self) -> bool {
        self.z.abs() > Z_99
    }
}

/// The test of Mann (1945, Econometrica 13: 245–259) with Kendall's correction for ties. `None` for fewer
/// than ten figures, for figures that are all alike, or that are not above zero.
#[must_use]
pub fn trend(series: &[f64]) -> Option<Trend> {
    let count = series.len();
    if count < FEWEST || !series.iter().all(|value| *value > 0.0 && value.is_finite()) {
        return None;
    }
    let rises: i64 = series
        .iter()
        .enumerate()
        .flat_map(|(at, earlier)| series[at + 1..].iter().map(move |later| (earlier, later)))
        .map(|(earlier, later)| later.total_cmp(earlier) as i64)
        .sum();
    let weight = |n: f64| n * (n - 1.0) * (2.0 * n + 5.0);
    let mut sorted = series.to_vec();
    sorted.sort_by(f64::total_cmp);
    let ties: f64 = sorted
        .chunk_by(|a, b| a.total_cmp(b).is_eq())
        .map(|tied| weight(tied.len() as f64))
        .sum();
    let variance = (weight(count as f64) - ties) / 18.0;
    if variance <= 0.0 {
        return None;
    }
    let quarter = count / 4;
    let (first, last) = (&series[..quarter], &series[count - quarter..]);
    Some(Trend {
        z: rises as f64 / variance.sqrt(),
        change: median(last)? / median(first)? - 1.0,
    })
}

/// The median; `None` of nothing.
#[must_use]
pub fn median(values: &[f64]) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let upper = *sorted.get(sorted.len() / 2)?;
    let lower = sorted[(sorted.len() - 1) / 2];
    Some(f64::midpoint(lower, upper))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_steady_rise_is_one_and_the_same_again_and_again_is_none() {
        let rising: Vec<f64> = (0..12).map(|n| 10.0 + f64::from(n)).collect();
        let found = trend(&rising).expect("enough figures");
        // S = 66 of 12 figures, its variance 12·11·29/18.
        assert!((found.z - 66.0 / (12.0 * 11.0 * 29.0 / 18.0_f64).sqrt()).abs() < 1e-12);
        assert!(found.is_significant());
        // Medians of 10, 11, 12 and of 19, 20, 21.
        assert!((found.change - (20.0 / 11.0 - 1.0)).abs() < 1e-12);
        assert_eq!(trend(&[5.0; 12]), None);
        assert_eq!(trend(&rising[..9]), None);
    }
}
