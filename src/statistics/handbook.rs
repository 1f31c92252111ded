//! The phrase a handbook would print.
//!
//! Form `(a–)b–c(–d)`: the middle nine tenths outside the brackets, the extremes inside, and those
//! only where they differ (Tulloss & Lindgren 2005, Mycotaxon 91: 193–194, written for spores).

use super::{CountLine, Spread};
use std::fmt;

/// The phrase a handbook would print, such as `(3–)4–5(–6) per mm`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Handbook(pub String);

impl fmt::Display for Handbook {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// The phrase for counts along 1 mm lines.
///
/// `None` without lines, and where pores are so large that one line in twenty meets none: no handbook
/// prints *0 per mm*, it gives their width instead ([`diameter_phrase`]).
#[must_use]
pub fn phrase(lines: &[CountLine]) -> Option<Handbook> {
    let mut counts: Vec<usize> = lines.iter().map(|line| line.pores).collect();
    counts.sort_unstable();
    let (&low, &high) = (counts.first()?, counts.last()?);
    let at = |percent: usize| counts[(counts.len() - 1) * percent / 100];
    let (from, to) = (at(5), at(95));
    let low = if low == 0 { from } else { low };
    (from > 0).then(|| {
        Handbook(format!(
            "{} per mm",
            range(low, from, to, high, |n| n.to_string())
        ))
    })
}

/// The phrase where no 1 mm line fits in the area, so that there is no spread to give.
#[must_use]
pub fn rough_phrase(per_mm: f64) -> Handbook {
    Handbook(format!("about {per_mm:.0} per mm"))
}

/// The phrase for pores too large to count in a millimetre: their diameters, in mm.
#[must_use]
pub fn diameter_phrase(smallest: f64, diameters: Spread, largest: f64) -> Handbook {
    let tenths = |mm: f64| {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "some tens of millimetres at most"
        )]
        let tenths = (mm * 10.0).round().max(0.0) as usize;
        tenths
    };
    Handbook(format!(
        "{} mm wide",
        range(
            tenths(smallest),
            tenths(diameters.p5),
            tenths(diameters.p95),
            tenths(largest),
            |n| format!("{}.{}", n / 10, n % 10)
        )
    ))
}

fn range(
    low: usize,
    from: usize,
    to: usize,
    high: usize,
    write: impl Fn(usize) -> String,
) -> String {
    let part = |there: bool, text: String| if there { text } else { String::new() };
    [
        part(low < from, format!("({}–)", write(low))),
        write(from),
        part(to > from, format!("–{}", write(to))),
        part(high > to, format!("(–{})", write(high))),
    ]
    .concat()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Point;

    fn lines(counts: &[(usize, usize)]) -> Vec<CountLine> {
        let p = Point::new(0.0, 0.0);
        counts
            .iter()
            .flat_map(|&(pores, times)| {
                std::iter::repeat_n(
                    CountLine {
                        from: p,
                        to: p,
                        pores,
                    },
                    times,
                )
            })
            .collect()
    }

    #[test]
    fn extremes_stand_in_brackets_only_where_they_differ() {
        for (counts, expected) in [
            (vec![(3, 4), (4, 96), (5, 96), (6, 4)], "(3–)4–5(–6) per mm"),
            (vec![(4, 100), (5, 100)], "4–5 per mm"),
            (vec![(4, 200)], "4 per mm"),
            (vec![(4, 198), (5, 2)], "4(–5) per mm"),
        ] {
            assert_eq!(
                phrase(&lines(&counts)).map(|h| h.0).as_deref(),
                Some(expected)
            );
        }
        assert_eq!(phrase(&[]), None);
        assert_eq!(phrase(&lines(&[(0, 50), (1, 100), (2, 50)])), None);
    }

    #[test]
    fn large_pores_are_given_by_width() {
        let spread = Spread {
            p5: 1.02,
            median: 1.5,
            p95: 2.0,
        };
        assert_eq!(
            diameter_phrase(0.81, spread, 2.04).0,
            "(0.8–)1.0–2.0 mm wide"
        );
    }
}
