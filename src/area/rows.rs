//! An area row by row, for whoever looks at many places of one: to ask every polygon about every place takes
//! minutes where much is left out.

use super::{Area, LeftOut, Outline};
use crate::geometry::{Point, Rect, crossing_of_row};

/// Bands of a photo whose sides are kept together.
const BANDS: usize = 512;

/// An area on a photo, ready to be looked at row by row.
pub struct Rows<'a> {
    outline: &'a Outline,
    photo: Rect,
    /// Sides of the parts left out, by the bands of the photo that they reach, in each one part after the
    /// other.
    sides: Vec<Vec<Side>>,
}

/// One side of a part that is left out.
#[derive(Debug, Clone, Copy)]
struct Side {
    part: usize,
    from: Point,
    to: Point,
}

/// What of one row of places belongs to an area.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    outline: Stretches,
    left_out: Stretches,
}

impl<'a> Rows<'a> {
    /// The rows of an area, where only those parts are left out of which `leaves_out` says so.
    pub fn of(area: &'a Area, photo: Rect, leaves_out: impl Fn(&LeftOut) -> bool) -> Self {
        let mut rows = Self {
            outline: &area.outline,
            photo,
            sides: vec![Vec::new(); BANDS],
        };
        let parts = area.left_out.iter().filter(|part| leaves_out(part));
        for (part, left_out) in parts.enumerate() {
            for (from, to) in left_out.outline.edges() {
                let first = rows.band(from.y.min(to.y));
                let last = rows.band(from.y.max(to.y));
                for band in &mut rows.sides[first..=last] {
                    band.push(Side { part, from, to });
                }
            }
        }
        rows
    }

    /// The band that a height lies in; what lies off the photo is in the nearest.
    fn band(&self, y: f64) -> usize {
        let share = (y - self.photo.y) / self.photo.height;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a share of the bands, and negative ones are the first"
        )]
        let band = (share * BANDS as f64) as usize;
        band.min(BANDS - 1)
    }

    /// Whether a place is measured.
    #[must_use]
    pub fn hold(&self, p: Point) -> bool {
        let is_in = |sides: &[Side]| {
            let crossings = sides
                .iter()
                .filter_map(|side| crossing_of_row(side.from, side.to, p.y));
            crossings.filter(|x| p.x < *x).count() % 2 == 1
        };
        self.outline.contains(p) && self.photo.contains(p) && !self.parts_about(p.y).any(is_in)
    }

    /// For each part that reaches the band of a height, its sides there.
    fn parts_about(&self, y: f64) -> impl Iterator<Item = &[Side]> {
        self.sides[self.band(y)].chunk_by(|a, b| a.part == b.part)
    }

    /// The row of places at this height.
    #[must_use]
    pub fn at(&self, y: f64) -> Row {
        let across = |rect: &Rect| {
            let holds = y >= rect.y && y < rect.y + rect.height;
            Stretches(Vec::from_iter(
                holds.then_some((rect.x, rect.x + rect.width)),
            ))
        };
        let outline = match self.outline {
            Outline::WholePhoto => across(&self.photo),
            Outline::Rectangle(rect) => across(&rect.intersection(&self.photo)),
            Outline::Polygon(polygon) => {
                Stretches::between(vec![polygon.crossings_of_row(y).collect()])
                    .common(&across(&self.photo))
            }
        };
        let ends = self.parts_about(y).map(|sides| {
            let crossings = sides.iter();
            crossings
                .filter_map(|side| crossing_of_row(side.from, side.to, y))
                .collect()
        });
        Row {
            outline,
            left_out: Stretches::between(ends.collect()),
        }
    }
}

impl Row {
    /// Whether the place at `x` is measured.
    #[must_use]
    pub fn holds(&self, x: f64) -> bool {
        self.outline.hold(x) && !self.left_out.hold(x)
    }

    /// How much of the row lies in the outline, and how much of that is left out, px.
    #[must_use]
    pub fn lengths_px(&self) -> (f64, f64) {
        let left_out = self.outline.common(&self.left_out);
        (self.outline.length(), left_out.length())
    }
}

/// Stretches of a row, sorted and apart from one another; the first place belongs to a stretch, the last
/// does not.
#[derive(Debug, Clone, PartialEq)]
struct Stretches(Vec<(f64, f64)>);

impl Stretches {
    /// What lies in any of the parts whose outlines cross the row at these places (even–odd rule in each).
    fn between(parts: Vec<Vec<f64>>) -> Self {
        let mut stretches: Vec<(f64, f64)> = Vec::new();
        for mut ends in parts {
            ends.sort_by(f64::total_cmp);
            stretches.extend(ends.chunks_exact(2).map(|pair| (pair[0], pair[1])));
        }
        stretches.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut apart: Vec<(f64, f64)> = Vec::with_capacity(stretches.len());
        for (from, to) in stretches {
            match apart.last_mut() {
                Some(last) if from <= last.1 => last.1 = last.1.max(to),
                _ => apart.push((from, to)),
            }
        }
        Self(apart)
    }

    fn hold(&self, x: f64) -> bool {
        let at = self.0.partition_point(|(_, to)| *to <= x);
        self.0.get(at).is_some_and(|(from, _)| *from <= x)
    }

    fn common(&self, other: &Self) -> Self {
        let mut common = Vec::new();
        let (mut a, mut b) = (self.0.iter().peekable(), other.0.iter().peekable());
        while let (Some(one), Some(two)) = (a.peek(), b.peek()) {
            let (from, to) = (one.0.max(two.0), one.1.min(two.1));
            if from < to {
                common.push((from, to));
            }
            if one.1 < two.1 {
                a.next();
            } else {
                b.next();
            }
        }
        Self(common)
    }

    fn length(&self) -> f64 {
        self.0.iter().map(|(from, to)| to - from).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::area::Reason;
    use crate::geometry::Polygon;
    use proptest::prelude::*;

    fn polygon() -> impl Strategy<Value = Polygon> {
        // Whole numbers, so that rows meet corners and sides lie on one another.
        proptest::collection::vec((-5_i32..45, -5_i32..35), 3..9).prop_map(|places| {
            let places = places.into_iter();
            Polygon::new(
                places
                    .map(|(x, y)| Point::new(f64::from(x), f64::from(y)))
                    .collect(),
            )
        })
    }

    proptest! {
        #[test]
        fn a_row_holds_the_places_that_the_area_holds(
            outline in proptest::option::of(polygon()),
            holes in proptest::collection::vec(polygon(), 0..4),
            y in -2_i32..66,
        ) {
            let photo = Rect::of_size(40, 30);
            let area = Area {
                outline: outline.map_or(Outline::WholePhoto, Outline::Polygon),
                left_out: holes
                    .into_iter()
                    .map(|outline| LeftOut { outline, reason: Reason::ByHand })
                    .collect(),
            };
            let y = f64::from(y) / 2.0;
            let rows = Rows::of(&area, photo, |_| true);
            let row = rows.at(y);
            for x in -4..90 {
                // A quarter off, since where a slanting side meets a row is rounded.
                let x = f64::from(x) / 2.0 + 0.25;
                let p = Point::new(x, y);
                let belongs = area.contains(p, photo);
                prop_assert_eq!(row.holds(x), belongs, "{}", x);
                prop_assert_eq!(rows.hold(p), belongs, "{}", x);
            }
        }
    }
}
