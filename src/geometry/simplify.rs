//! Outlines with no more corners than they need.

use super::{Point, Polygon};

impl Polygon {
    /// The outline with fewer corners, from which no corner left away lies farther than `within` px:
    /// Douglas & Peucker, *Cartographica* 10 (1973), 112–122. A closed outline is cut into two lines, at
    /// its first corner and the one farthest from it.
    #[must_use]
    pub fn simplified(&self, within: f64) -> Self {
        let corners = self.vertices();
        let Some(&first) = corners.first() else {
            return self.clone();
        };
        let from_first = |&(_, a): &(usize, &Point), &(_, b): &(usize, &Point)| {
            first.distance(*a).total_cmp(&first.distance(*b))
        };
        let farthest = corners.iter().enumerate().max_by(from_first);
        let farthest = farthest.map_or(0, |(i, _)| i);
        let closed: Vec<Point> = corners.iter().copied().chain([first]).collect();
        let mut is_kept = vec![false; closed.len()];
        is_kept[0] = true;
        is_kept[farthest] = true;
        let mut stretches = vec![(0, farthest), (farthest, closed.len() - 1)];
        while let Some((from, to)) = stretches.pop() {
            let off = |i: usize| distance(closed[i], closed[from], closed[to]);
            let worst = (from + 1..to).max_by(|&a, &b| off(a).total_cmp(&off(b)));
            if let Some(worst) = worst.filter(|&worst| off(worst) > within) {
                is_kept[worst] = true;
                stretches.push((from, worst));
                stretches.push((worst, to));
            }
        }
        let kept = corners.iter().zip(is_kept).filter(|(_, is_kept)| *is_kept);
        Self::new(kept.map(|(&corner, _)| corner).collect())
    }
}

/// Distance from a place to the stretch between two others.
fn distance(p: Point, a: Point, b: Point) -> f64 {
    let (x, y) = (b.x - a.x, b.y - a.y);
    let square = x * x + y * y;
    if square == 0.0 {
        return p.distance(a);
    }
    let share = ((p.x - a.x) * x + (p.y - a.y) * y) / square;
    let share = share.clamp(0.0, 1.0);
    p.distance(Point::new(a.x + share * x, a.y + share * y))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::TAU;

    /// Whether every corner of one lies within so much of the edge of the other.
    fn lies_within(whole: &Polygon, simple: &Polygon, within: f64) -> bool {
        let kept = simple.vertices();
        let edges = || kept.iter().zip(kept.iter().cycle().skip(1));
        whole
            .vertices()
            .iter()
            .all(|&corner| edges().any(|(&a, &b)| distance(corner, a, b) <= within + 1e-9))
    }

    #[test]
    fn corners_on_a_straight_side_go_and_those_of_the_shape_stay() {
        let mut places = Vec::new();
        for (from, to) in [
            ((0.0, 0.0), (60.0, 0.0)),
            ((60.0, 0.0), (60.0, 40.0)),
            ((60.0, 40.0), (0.0, 40.0)),
            ((0.0, 40.0), (0.0, 0.0)),
        ] {
            for k in 0..10 {
                let share = f64::from(k) / 10.0;
                places.push(Point::new(
                    from.0 + share * (to.0 - from.0),
                    from.1 + share * (to.1 - from.1),
                ));
            }
        }
        let simple = Polygon::new(places).simplified(0.5);
        assert_eq!(simple.vertices().len(), 4, "{simple:?}");
        assert!((simple.area() - 2400.0).abs() < 1e-9);
    }

    #[test]
    fn what_is_left_keeps_within_the_bound_and_takes_no_more_corners_than_a_circle_needs() {
        let wavy = |k: u32, waves: f64, height: f64| {
            let turn = TAU * f64::from(k) / 400.0;
            let radius = 100.0 + height * (waves * turn).sin();
            Point::new(200.0 + radius * turn.cos(), 200.0 + radius * turn.sin())
        };
        for within in [0.3, 1.0, 4.0] {
            for (waves, height) in [(0.0, 0.0), (7.0, 12.0), (40.0, 0.2)] {
                let whole = Polygon::new((0..400).map(|k| wavy(k, waves, height)).collect());
                let simple = whole.simplified(within);
                assert!(lies_within(&whole, &simple, within), "{within} {waves}");
                assert!(simple.vertices().len() < 400);
                if height < within {
                    // A chord of a circle of 100 px bulges by s at 2·acos(1 − s/100) each; halving chords
                    // takes at most twice as many, and two more for the cut.
                    let least = TAU / (2.0 * (1.0 - (within - height) / 100.0).acos());
                    let count = f64::from(u32::try_from(simple.vertices().len()).expect("a count"));
                    assert!(count <= 2.0 * least + 2.0, "{count} corners at {within}");
                }
            }
        }
    }

    #[test]
    fn what_has_no_corners_to_spare_stays_as_it_is() {
        for corners in [
            vec![],
            vec![Point::new(3.0, 4.0)],
            vec![
                Point::new(0.0, 0.0),
                Point::new(9.0, 0.0),
                Point::new(0.0, 9.0),
            ],
        ] {
            let polygon = Polygon::new(corners);
            assert_eq!(polygon.simplified(1.0), polygon);
        }
    }
}
