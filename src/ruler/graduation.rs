//! What lies between two ticks, told by which of them are long.

use super::{median, quantile};
use crate::units::Millimetres;
use serde::{Deserialize, Serialize};

const MM_PER_INCH: f64 = 25.4;
/// Ticks of one rank differ in length by less than this share of the shortest ticks' length …
const SAME_LENGTH: f64 = 0.07;
/// … or so many px.
const SAME_LENGTH_PX: f64 = 1.5;
/// Ticks of the next rank are longer by so many times that.
const LONGER: f64 = 1.6;
/// Share of the ticks that have the length of their rank; the rest are dirty or covered.
const FITTING: f64 = 0.85;
/// Ticks of a rank that show that it is there.
const FEWEST_OF_A_RANK: usize = 2;

/// How a ruler is divided.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Graduation {
    /// Millimetres: each fifth tick is longer, each tenth the longest.
    Mm,
    /// Half millimetres: each second tick is longer, then each tenth and twentieth.
    HalfMm,
    /// Eighths of an inch: halves, quarters and eighths, each shorter than the one before.
    Inch8,
    /// Sixteenths of an inch.
    Inch16,
    /// Thirty-seconds of an inch.
    Inch32,
    /// Sixty-fourths of an inch.
    Inch64,
}

impl Graduation {
    /// All that are known.
    pub const ALL: [Self; 6] = [
        Self::Mm,
        Self::HalfMm,
        Self::Inch8,
        Self::Inch16,
        Self::Inch32,
        Self::Inch64,
    ];

    /// What lies between two neighbouring ticks.
    #[must_use]
    pub fn between(self) -> Millimetres {
        Millimetres(match self {
            Self::Mm => 1.0,
            Self::HalfMm => 0.5,
            Self::Inch8 => MM_PER_INCH / 8.0,
            Self::Inch16 => MM_PER_INCH / 16.0,
            Self::Inch32 => MM_PER_INCH / 32.0,
            Self::Inch64 => MM_PER_INCH / 64.0,
        })
    }

    /// As one types it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Mm => "1mm",
            Self::HalfMm => "0.5mm",
            Self::Inch8 => "1/8in",
            Self::Inch16 => "1/16in",
            Self::Inch32 => "1/32in",
            Self::Inch64 => "1/64in",
        }
    }

    /// After how many ticks the pattern begins anew.
    const fn repeat(self) -> i32 {
        match self {
            Self::Mm => 10,
            Self::HalfMm => 20,
            Self::Inch8 => 8,
            Self::Inch16 => 16,
            Self::Inch32 => 32,
            Self::Inch64 => 64,
        }
    }

    /// Rank of a tick by its number from a longest one: 0 are the shortest.
    fn rank(self, number: i32) -> usize {
        let number = number.rem_euclid(self.repeat());
        let divisors: &[i32] = match self {
            Self::Mm => &[5, 10],
            Self::HalfMm => &[2, 10, 20],
            Self::Inch8 => &[2, 4, 8],
            Self::Inch16 => &[2, 4, 8, 16],
            Self::Inch32 => &[2, 4, 8, 16, 32],
            Self::Inch64 => &[2, 4, 8, 16, 32, 64],
        };
        divisors.iter().filter(|n| number % *n == 0).count()
    }

    /// Ranks that have to be seen before the pattern is this one and no other.
    const fn telling_ranks(self) -> usize {
        match self {
            Self::Mm => 2,
            _ => 3,
        }
    }

    /// Whether the topmost rank may be as long as the one below it; many rulers in millimetres have
    /// only the fifth ticks longer.
    const fn top_may_equal(self) -> bool {
        matches!(self, Self::Mm | Self::HalfMm)
    }

    /// How many ticks have the length that this ruler gives them, where numbers and lengths can be
    /// those of this ruler.
    fn fits(self, ticks: &[(i32, f64)], same: f64) -> Option<usize> {
        (0..self.repeat())
            .filter_map(|phase| self.fits_from(phase, ticks, same))
            .max()
    }

    fn fits_from(self, phase: i32, ticks: &[(i32, f64)], same: f64) -> Option<usize> {
        let mut by_rank: Vec<Vec<f64>> = Vec::new();
        for (number, length) in ticks {
            let rank = self.rank(number + phase);
            if by_rank.len() <= rank {
                by_rank.resize(rank + 1, Vec::new());
            }
            by_rank[rank].push(*length);
        }
        let seen: Vec<(usize, f64)> = by_rank
            .iter()
            .enumerate()
            .filter_map(|(rank, lengths)| Some((rank, median(lengths.clone())?)))
            .collect();
        let enough = (0..self.telling_ranks())
            .filter(|rank| {
                // Of the topmost telling rank, all longer ticks show that there is one.
                let from = *rank + 1 == self.telling_ranks();
                let count: usize = if from {
                    by_rank.iter().skip(*rank).map(Vec::len).sum()
                } else {
                    by_rank.get(*rank).map_or(0, Vec::len)
                };
                count >= FEWEST_OF_A_RANK
            })
            .count();
        if enough < self.telling_ranks() {
            return None;
        }
        let top = seen.len() - 1;
        let rises = seen.windows(2).enumerate().all(|(i, pair)| {
            let longer = pair[1].1 - pair[0].1;
            longer >= LONGER * same
                || (self.top_may_equal() && i + 1 == top && top + 1 > 2 && longer >= -same)
        });
        let fitting: usize = seen
            .iter()
            .map(|(rank, length)| {
                by_rank[*rank]
                    .iter()
                    .filter(|l| (*l - length).abs() <= same)
                    .count()
            })
            .sum();
        (rises && fitting as f64 >= FITTING * ticks.len() as f64).then_some(fitting)
    }
}

/// All graduations that the lengths of numbered ticks agree with; where none fits, all, since then
/// lengths tell nothing.
///
/// Sixteenths fit a ruler in eighths but for the few longest ticks, which could as well be dirty; so
/// one that leaves a whole rank more unexplained than another is not it.
pub(super) fn possible(ticks: &[(i32, f64)]) -> Vec<Graduation> {
    let mut lengths: Vec<f64> = ticks.iter().map(|tick| tick.1).collect();
    let short = quantile(&mut lengths, 0.2).unwrap_or(0.0);
    let same = (SAME_LENGTH * short).max(SAME_LENGTH_PX);
    let fitting: Vec<(Graduation, usize)> = Graduation::ALL
        .into_iter()
        .filter_map(|graduation| Some((graduation, graduation.fits(ticks, same)?)))
        .collect();
    let Some(best) = fitting.iter().map(|fit| fit.1).max() else {
        return Graduation::ALL.to_vec();
    };
    fitting
        .into_iter()
        .filter(|fit| fit.1 + FEWEST_OF_A_RANK > best)
        .map(|fit| fit.0)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lengths(of: Graduation, from: i32, ticks: i32) -> Vec<(i32, f64)> {
        (0..ticks)
            .map(|k| {
                let rank = of.rank(from + k);
                (k, 40.0 + 14.0 * f64::from(u8::try_from(rank).unwrap()))
            })
            .collect()
    }

    #[test]
    fn a_long_row_tells_its_graduation_and_a_short_one_none_but_it() {
        for of in Graduation::ALL {
            for from in 0..of.repeat() {
                let ticks = 2 * of.repeat() + 3;
                assert_eq!(possible(&lengths(of, from, ticks)), [of], "{of:?} {from}");
                for ticks in 5..of.repeat() {
                    let possible = possible(&lengths(of, from, ticks));
                    assert!(possible.contains(&of), "{of:?} from {from}: {ticks}");
                }
            }
        }
    }

    #[test]
    fn ticks_of_one_length_tell_nothing() {
        let ticks: Vec<(i32, f64)> = (0..40).map(|k| (k, 50.0)).collect();
        assert_eq!(possible(&ticks), Graduation::ALL);
    }
}
