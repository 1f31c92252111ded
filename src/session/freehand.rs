//! An outline that was drawn in one go.

use super::document::is_simple;
use crate::geometry::{Point, Polygon};

/// How far the outline's edge may run from where it was drawn, pixels of the screen: no farther than a
/// hand can tell.
const WITHIN_SCREEN_PX: f64 = 1.5;

/// The outline along which a hand went, with a reasonable number of corners. Where its beginning and end
/// run past each other, what sticks out is cut off.
#[must_use]
pub fn drawn_freely(way: &[Point], px_per_screen_px: f64) -> Polygon {
    let drawn = Polygon::new(loop_of(way));
    let simple = drawn.simplified(WITHIN_SCREEN_PX * px_per_screen_px);
    // Narrow necks may close when corners are left away.
    if is_simple(&simple) { simple } else { drawn }
}

/// The longest part of a way that closes on itself; all of it where it does nowhere.
fn loop_of(way: &[Point]) -> Vec<Point> {
    let stretches: Vec<[Point; 2]> = way.windows(2).map(|ends| [ends[0], ends[1]]).collect();
    let mut longest: Option<(usize, usize, Point)> = None;
    for (i, &one) in stretches.iter().enumerate() {
        for (j, &other) in stretches.iter().enumerate().skip(i + 2) {
            if longest.is_none_or(|(from, to, _)| j - i > to - from)
                && let Some(meeting) = meeting(one, other)
            {
                longest = Some((i, j, meeting));
            }
        }
    }
    match longest {
        // Less than half of it is a knot in the way and not the outline.
        Some((from, to, meeting)) if 2 * (to - from) > stretches.len() => {
            let inner = way[from + 1..=to].iter().copied();
            std::iter::once(meeting).chain(inner).collect()
        }
        _ => way.to_vec(),
    }
}

/// Where two stretches cross.
fn meeting([a, b]: [Point; 2], [c, d]: [Point; 2]) -> Option<Point> {
    let (r, s) = ((b.x - a.x, b.y - a.y), (d.x - c.x, d.y - c.y));
    let across = r.0 * s.1 - r.1 * s.0;
    let (x, y) = (c.x - a.x, c.y - a.y);
    let (t, u) = ((x * s.1 - y * s.0) / across, (x * r.1 - y * r.0) / across);
    let is_inside = |share: f64| (0.0..=1.0).contains(&share);
    (across != 0.0 && is_inside(t) && is_inside(u))
        .then(|| Point::new(a.x + t * r.0, a.y + t * r.1))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::TAU;

    /// A way around a circle of 100 px from one turn to another, in full turns.
    fn around(from: f64, to: f64) -> Vec<Point> {
        (0..=200)
            .map(|k| {
                let turn = TAU * (from + (to - from) * f64::from(k) / 200.0);
                // Slightly inwards, so that the end runs past the beginning.
                let radius = 100.0 - 3.0 * (turn / TAU - 0.5);
                Point::new(300.0 + radius * turn.cos(), 300.0 + radius * turn.sin())
            })
            .collect()
    }

    #[test]
    fn once_around_is_an_outline_of_few_corners_that_keeps_its_area() {
        let whole = std::f64::consts::PI * 1e4;
        let outline = drawn_freely(&around(0.0, 0.99), 1.0);
        assert!(is_simple(&outline));
        assert!(
            (8..60).contains(&outline.vertices().len()),
            "{}",
            outline.vertices().len()
        );
        assert!(
            (outline.area() / whole - 1.0).abs() < 0.03,
            "{}",
            outline.area()
        );
    }

    #[test]
    fn an_end_that_crosses_the_beginning_is_cut_off() {
        let mut way = around(0.0, 0.97);
        // The beginning, crossed from inside to outside, and a tail.
        way.extend([
            Point::new(380.0, 297.0),
            Point::new(420.0, 310.0),
            Point::new(440.0, 350.0),
        ]);
        let outline = drawn_freely(&way, 1.0);
        assert!(is_simple(&outline), "{outline:?}");
        assert!(outline.bounds().x + outline.bounds().width < 405.0);
        let whole = std::f64::consts::PI * 1e4;
        assert!(
            (outline.area() / whole - 1.0).abs() < 0.05,
            "{}",
            outline.area()
        );
    }

    #[test]
    fn an_eight_is_no_outline() {
        let way: Vec<Point> = (0..100)
            .map(|k| {
                let turn = TAU * f64::from(k) / 100.0;
                Point::new(100.0 * turn.sin(), 50.0 * (2.0 * turn).sin())
            })
            .collect();
        assert!(!is_simple(&drawn_freely(&way, 1.0)));
    }
}
