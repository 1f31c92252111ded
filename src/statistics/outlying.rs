//! Figures that stand apart from the others.

use super::pool::pool;
use super::trend::median;

/// Scales a median absolute deviation to a standard deviation of a normal distribution, 1/Φ⁻¹(¾).
const MAD_TO_SD: f64 = 1.482_602_218_505_602;

/// Of figures that are pooled, each with its standard error, how far each lies from the pool of the
/// others, in standard deviations of that difference: the externally studentised residual of Viechtbauer
/// & Cheung (2010, Res. Synth. Methods 1: 112–125). `None` for fewer than three, or where they cannot be
/// pooled.
#[must_use]
pub fn deleted_residuals(figures: &[(f64, f64)]) -> Option<Vec<f64>> {
    if figures.len() < 3 {
        return None;
    }
    (0..figures.len())
        .map(|at| {
            let mut others = figures.to_vec();
            let (value, error) = others.remove(at);
            let pooled = pool(&others)?;
            let variance =
                error.powi(2) + pooled.between_sd.powi(2) + pooled.standard_error.powi(2);
            (error > 0.0).then(|| (value - pooled.mean) / variance.sqrt())
        })
        .collect()
}

/// How far each figure lies from the median, in standard deviations as the median absolute deviation
/// tells them: the modified z-score of Iglewicz & Hoaglin (1993, How to Detect and Handle Outliers, ASQC
/// Quality Press). `None` where half of the figures and more are the same.
#[must_use]
pub fn from_median(figures: &[f64]) -> Option<Vec<f64>> {
    let middle = median(figures)?;
    let away: Vec<f64> = figures.iter().map(|value| (value - middle).abs()).collect();
    let deviation = MAD_TO_SD * median(&away)?;
    (deviation > 0.0).then(|| {
        figures
            .iter()
            .map(|value| (value - middle) / deviation)
            .collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_that_stands_apart_stands_out_and_does_not_hide_itself() {
        let figures = [(4.0, 0.1), (4.1, 0.1), (3.95, 0.1), (4.05, 0.1), (6.0, 0.1)];
        let away = deleted_residuals(&figures).expect("enough figures");
        assert!(away[4] > 10.0, "{away:?}");
        assert!(away[..4].iter().all(|z| z.abs() < 2.0), "{away:?}");
        assert_eq!(deleted_residuals(&figures[..2]), None);
    }

    #[test]
    fn figures_are_told_from_the_median() {
        let away = from_median(&[1.0, 2.0, 3.0, 4.0, 100.0]).expect("they differ");
        // The median is 3, the median absolute deviation 1.
        assert!((away[4] - 97.0 / MAD_TO_SD).abs() < 1e-9);
        assert_eq!(from_median(&[5.0, 5.0, 5.0, 9.0]), None);
    }
}
