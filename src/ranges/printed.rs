//! A range as printed: `(2–)3–4(–5)`.

use std::fmt;

/// A range as printed, in whatever unit its column has; either end may be missing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Printed {
    /// Lowest extreme, printed in brackets.
    pub lowest: Option<f64>,
    /// Where the usual begins.
    pub low: Option<f64>,
    /// Where the usual ends.
    pub high: Option<f64>,
    /// Highest extreme, printed in brackets.
    pub highest: Option<f64>,
    /// Unit of the last digit printed: 1 for `4–5`, 0.1 for `3.2–4.0`.
    pub step: f64,
}

/// Where a figure stands against a printed range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Standing {
    Within,
    Near,
    Outside,
}

impl Printed {
    /// Whether anything was printed.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.low.is_none() && self.high.is_none()
    }

    /// What the usual range covers: a printed number stands for all that round to it.
    #[must_use]
    pub fn usual(&self) -> (f64, f64) {
        (
            self.low
                .map_or(f64::NEG_INFINITY, |low| low - self.step / 2.0),
            self.high
                .map_or(f64::INFINITY, |high| high + self.step / 2.0),
        )
    }

    /// What the range covers with its extremes.
    #[must_use]
    pub fn widest(&self) -> (f64, f64) {
        let (low, high) = self.usual();
        (
            self.lowest.map_or(low, |e| e - self.step / 2.0),
            self.highest.map_or(high, |e| e + self.step / 2.0),
        )
    }

    /// Where a figure with its interval stands: within when the figure lies in the usual range; near
    /// when it lies among the extremes, or its interval reaches them; else outside.
    pub(super) fn standing(&self, figure: f64, interval: (f64, f64)) -> Standing {
        let (low, high) = self.usual();
        let (lowest, highest) = self.widest();
        if (low..=high).contains(&figure) {
            Standing::Within
        } else if (lowest..=highest).contains(&figure)
            || (interval.0 <= highest && lowest <= interval.1)
        {
            Standing::Near
        } else {
            Standing::Outside
        }
    }
}

impl fmt::Display for Printed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(lowest) = self.lowest {
            write!(f, "({lowest}–)")?;
        }
        match (self.low, self.high) {
            #[expect(clippy::float_cmp, reason = "the same number printed once")]
            (Some(low), Some(high)) if low == high => write!(f, "{low}")?,
            (Some(low), Some(high)) => write!(f, "{low}–{high}")?,
            (None, Some(high)) => write!(f, "up to {high}")?,
            (Some(low), None) => write!(f, "from {low}")?,
            (None, None) => {}
        }
        match self.highest {
            Some(highest) => write!(f, "(–{highest})"),
            None => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const HIRSUTA: Printed = Printed {
        lowest: Some(2.0),
        low: Some(3.0),
        high: Some(4.0),
        highest: None,
        step: 1.0,
    };

    #[test]
    fn a_printed_number_stands_for_all_that_round_to_it() {
        assert_eq!(HIRSUTA.usual(), (2.5, 4.5));
        assert_eq!(HIRSUTA.widest(), (1.5, 4.5));
        assert_eq!(HIRSUTA.to_string(), "(2–)3–4");
    }

    #[test]
    fn a_figure_stands_within_near_or_outside() {
        for (figure, interval, standing) in [
            (3.2, (3.1, 3.3), Standing::Within),
            (2.5, (2.4, 2.6), Standing::Within),
            (1.9, (1.8, 2.0), Standing::Near),
            (4.7, (4.4, 5.0), Standing::Near),
            (4.7, (4.6, 4.8), Standing::Outside),
            (1.2, (1.0, 1.4), Standing::Outside),
        ] {
            assert_eq!(HIRSUTA.standing(figure, interval), standing, "{figure}");
        }
    }
}
