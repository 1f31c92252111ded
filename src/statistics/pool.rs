//! One figure out of several photos of the same specimen.

/// 97.5th percentile of the standard normal distribution.
const Z: f64 = 1.959_963_984_540_054;

/// A figure pooled over photos.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pooled {
    /// The mean.
    pub mean: f64,
    /// Its standard error.
    pub standard_error: f64,
    /// Standard deviation between photos beyond what their own errors explain, τ.
    pub between_sd: f64,
    /// How many photos.
    pub photos: usize,
}

impl Pooled {
    /// 95 % interval.
    #[must_use]
    pub fn interval(&self) -> (f64, f64) {
        (
            self.mean - Z * self.standard_error,
            self.mean + Z * self.standard_error,
        )
    }
}

/// Pools figures, each with its standard error, as random effects: photos of one specimen differ by
/// more than their own errors, since each shows another piece of it (`DerSimonian` & Laird 1986, Control.
/// Clin. Trials 7: 177–188). `None` without figures, or where an error is zero or not a number.
#[must_use]
pub fn pool(figures: &[(f64, f64)]) -> Option<Pooled> {
    let sound =
        |&(value, error): &(f64, f64)| value.is_finite() && error.is_finite() && error > 0.0;
    if figures.is_empty() || !figures.iter().all(sound) {
        return None;
    }
    let weighted = |tau_squared: f64| {
        let weight = |error: f64| 1.0 / (error * error + tau_squared);
        let sum: f64 = figures.iter().map(|&(_, error)| weight(error)).sum();
        let mean = figures
            .iter()
            .map(|&(value, error)| weight(error) * value)
            .sum::<f64>()
            / sum;
        (mean, sum)
    };
    let (fixed, sum) = weighted(0.0);
    let squares: f64 = figures.iter().map(|&(_, error)| error.powi(-4)).sum();
    let q: f64 = figures
        .iter()
        .map(|&(value, error)| ((value - fixed) / error).powi(2))
        .sum();
    let freedom = figures.len() as f64 - 1.0;
    let spread = sum - squares / sum;
    let tau_squared = if spread > 0.0 {
        ((q - freedom) / spread).max(0.0)
    } else {
        0.0
    };
    let (mean, sum) = weighted(tau_squared);
    Some(Pooled {
        mean,
        standard_error: sum.sqrt().recip(),
        between_sd: tau_squared.sqrt(),
        photos: figures.len(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_photo_is_itself() {
        let pooled = pool(&[(4.2, 0.1)]).expect("a figure");
        assert!((pooled.mean - 4.2).abs() < 1e-12 && (pooled.standard_error - 0.1).abs() < 1e-12);
        assert!(pooled.between_sd.abs() < 1e-12);
    }

    #[test]
    fn photos_that_agree_are_surer_together_and_those_that_do_not_are_less_sure() {
        let agree = pool(&[(4.0, 0.1), (4.05, 0.1), (3.95, 0.1)]).expect("a figure");
        assert!((agree.standard_error - 0.1 / 3.0_f64.sqrt()).abs() < 1e-12);
        let differ = pool(&[(3.0, 0.1), (4.0, 0.1), (5.0, 0.1)]).expect("a figure");
        // Equal errors: τ² is the variance between photos less their own, 1 − 0.01.
        assert!((differ.between_sd.powi(2) - 0.99).abs() < 1e-12);
        assert!((differ.standard_error - (1.0_f64 / 3.0).sqrt()).abs() < 1e-12);
    }

    #[test]
    fn nothing_comes_of_nothing() {
        assert_eq!(pool(&[]), None);
        assert_eq!(pool(&[(4.0, 0.0)]), None);
        assert_eq!(pool(&[(f64::NAN, 0.1)]), None);
    }
}
