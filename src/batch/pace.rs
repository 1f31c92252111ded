//! How fast a batch goes, and how long it will take.

use std::time::Duration;

/// How far a batch is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Pace {
    /// Files that are done.
    pub done: usize,
    /// Those of them that were measured in this run; what was done before tells nothing of how long the
    /// others take.
    pub fresh: usize,
}

impl Pace {
    /// Files measured a minute, since it began; `None` before the first.
    #[must_use]
    pub fn a_minute(self, elapsed: Duration) -> Option<f64> {
        let minutes = elapsed.as_secs_f64() / 60.0;
        (self.fresh > 0 && minutes > 0.0).then(|| self.fresh as f64 / minutes)
    }

    /// How long the rest of so many files will take.
    #[must_use]
    pub fn left(self, files: usize, elapsed: Duration) -> Option<Duration> {
        let left = files.saturating_sub(self.done) as f64;
        let seconds = 60.0 * left / self.a_minute(elapsed)?;
        Duration::try_from_secs_f64(seconds).ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_done_before_does_not_count_for_the_pace() {
        let pace = Pace {
            done: 60,
            fresh: 10,
        };
        let elapsed = Duration::from_mins(2);
        assert_eq!(pace.a_minute(elapsed), Some(5.0));
        assert_eq!(pace.left(100, elapsed), Some(Duration::from_mins(8)));
        assert_eq!(pace.left(50, elapsed), Some(Duration::ZERO));
        assert_eq!(Pace::default().a_minute(elapsed), None);
        assert_eq!(pace.left(100, Duration::ZERO), None);
    }
}
