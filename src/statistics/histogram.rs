//! How many pores have which diameter, or another measure.

/// Counts in classes of equal, round width.
#[derive(Debug, Clone, PartialEq)]
pub struct Histogram {
    /// Lower edge of the first class, in the unit of the values.
    pub start: f64,
    /// Width of a class, in the same unit.
    pub width: f64,
    /// Values per class.
    pub counts: Vec<usize>,
}

impl Histogram {
    /// Classes by the rule of Freedman and Diaconis (1981), 2 · IQR / ∛n, rounded to 1, 2 or 5. None below
    /// ten values.
    #[must_use]
    pub fn of(mut values: Vec<f64>) -> Option<Self> {
        values.retain(|value| value.is_finite());
        values.sort_by(f64::total_cmp);
        let n = values.len();
        if n < 10 {
            return None;
        }
        let (low, high) = (values[0], values[n - 1]);
        let quartiles = values[3 * n / 4] - values[n / 4];
        let wanted = 2.0 * quartiles / f64::from(u32::try_from(n).ok()?).cbrt();
        // Never more than about 40 classes, and one class when all are alike.
        let width = round_width(wanted.max((high - low) / 40.0).max(high * 1e-3))?;
        let start = (low / width).floor() * width;
        let mut histogram = Self {
            start,
            width,
            counts: Vec::new(),
        };
        histogram.counts.resize(histogram.class(high) + 1, 0);
        for value in values {
            let class = histogram.class(value);
            histogram.counts[class] += 1;
        }
        Some(histogram)
    }

    /// The class of one of the values it is of.
    #[must_use]
    pub fn class(&self, value: f64) -> usize {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "≥ 0 and at most some 40 classes"
        )]
        {
            ((value - self.start) / self.width) as usize
        }
    }

    /// How tall each class stands, the fullest being 1.
    #[must_use]
    pub fn heights(&self) -> impl ExactSizeIterator<Item = f32> + '_ {
        let tallest = self.counts.iter().copied().max().unwrap_or(1).max(1);
        self.counts
            .iter()
            .map(move |&count| count as f32 / tallest as f32)
    }

    /// The lower edge of a class, or the upper edge of the last, with the decimals that the
    /// classes' width asks for.
    #[must_use]
    pub fn edge(&self, class: usize) -> String {
        let edge = self.start + self.width * class as f64;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped to 0–6"
        )]
        let decimals = (-self.width.log10().floor()).clamp(0.0, 6.0) as usize;
        format!("{edge:.decimals$}")
    }
}

/// The next 1, 2 or 5 × 10ⁿ at or above a width.
fn round_width(wanted: f64) -> Option<f64> {
    if !(wanted > 0.0 && wanted.is_finite()) {
        return None;
    }
    let power = 10_f64.powf(wanted.log10().floor());
    [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|step| step * power)
        .find(|&width| width >= wanted * (1.0 - 1e-9))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_value_falls_into_a_class_of_round_width() {
        let values: Vec<f64> = (0..100).map(|i| 0.1 + 0.001 * f64::from(i)).collect();
        let histogram = Histogram::of(values).expect("a histogram");
        assert_eq!(histogram.counts.iter().sum::<usize>(), 100);
        assert!((histogram.width - 0.05).abs() < 1e-12, "{histogram:?}");
        assert_eq!(
            (histogram.edge(0), histogram.edge(2)),
            ("0.10".to_owned(), "0.20".to_owned())
        );
    }

    #[test]
    fn alike_values_make_one_class_and_few_make_none() {
        assert_eq!(
            Histogram::of(vec![0.2; 12]).map(|h| h.counts),
            Some(vec![12])
        );
        assert_eq!(Histogram::of(vec![0.2; 9]), None);
    }
}
