//! How the measures of the pores spread, class by class with the pores of each: so that charts, the
//! table and the photo can point at the same pores.

use crate::Measurement;
use crate::pores::Pore;
use crate::scale::Scale;
use crate::session::format::plain;
use crate::statistics::Histogram;
use crate::wording::text;
use std::f64::consts::PI;

/// Sectors of half a turn, of 15° each.
const SECTORS: usize = 12;
/// A pore rounder than this has no direction that could be told from chance.
const LEAST_ELONGATION: f64 = 1.2;
/// Share of the pores beyond either end of a range of colours.
const TAIL: f64 = 0.05;

/// A measure of one pore.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Measure {
    /// Diameter of the circle of the same area, mm.
    Diameter,
    /// Longer over shorter axis.
    Elongation,
}

impl Measure {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Diameter, Self::Elongation];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Diameter => text!("diameter"),
            Self::Elongation => text!("elongation"),
        }
    }

    /// Its unit, with a space before it; nothing where it has none.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Diameter => " mm",
            Self::Elongation => "",
        }
    }

    /// The figure of a pore.
    #[must_use]
    pub fn of(self, pore: &Pore, scale: &Scale) -> f64 {
        match self {
            Self::Diameter => scale.millimetres(pore.diameter()).0,
            Self::Elongation => pore.elongation(),
        }
    }
}

/// In which order pores are listed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Order {
    /// By a measure, or else by their numbers.
    by: Option<Measure>,
    is_falling: bool,
}

impl Order {
    /// What stands above a column, with an arrow where the list is sorted by it.
    #[must_use]
    pub fn title(self, column: Option<Measure>) -> String {
        let name = column.map_or(text!("number"), Measure::name);
        match (self.by == column, self.is_falling) {
            (false, _) => name.to_owned(),
            (true, false) => format!("{name} ↑"),
            (true, true) => format!("{name} ↓"),
        }
    }

    /// The order after a column's title was pressed: by it, or the other way round.
    #[must_use]
    pub fn pressed(self, column: Option<Measure>) -> Self {
        Self {
            by: column,
            is_falling: self.by == column && !self.is_falling,
        }
    }
}

/// Pores as they are listed.
#[derive(Debug, Clone, Copy)]
pub struct Rows<'a> {
    rising: &'a [usize],
    is_falling: bool,
}

impl Rows<'_> {
    /// How many there are.
    #[must_use]
    pub const fn len(&self) -> usize {
        self.rising.len()
    }

    /// Whether there are none.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.rising.is_empty()
    }

    /// The pore in a row.
    #[must_use]
    pub fn pore(&self, row: usize) -> Option<usize> {
        let row = if self.is_falling {
            self.len().checked_sub(row + 1)?
        } else {
            row
        };
        self.rising.get(row).copied()
    }

    /// The row of a pore.
    #[must_use]
    pub fn row_of(&self, pore: usize) -> Option<usize> {
        let row = self.rising.iter().position(|at| *at == pore)?;
        Some(if self.is_falling {
            self.len() - 1 - row
        } else {
            row
        })
    }
}

/// How one measure spreads over the whole pores that are counted.
#[derive(Debug, Clone, PartialEq)]
pub struct Distribution {
    /// Of what.
    pub measure: Measure,
    /// How many are in each class.
    pub histogram: Histogram,
    /// Which: their places among the regions that were measured, class by class.
    pub members: Vec<Vec<usize>>,
    /// All of them, the smallest figure first.
    rising: Vec<usize>,
    /// The figures that all but a twentieth of the pores at either end lie between.
    pub middle: (f64, f64),
}

impl Distribution {
    fn of(measure: Measure, measurement: &Measurement) -> Option<Self> {
        let scale = &measurement.findings.scale;
        let mut figures: Vec<(usize, f64)> = sized(measurement)
            .map(|(at, pore)| (at, measure.of(pore, scale)))
            .filter(|(_, figure)| figure.is_finite())
            .collect();
        figures.sort_by(|(_, a), (_, b)| a.total_cmp(b));
        let histogram = Histogram::of(figures.iter().map(|(_, figure)| *figure).collect())?;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a place in a list"
        )]
        let at = |share: f64| figures[(share * (figures.len() - 1) as f64).round() as usize].1;
        let middle = (at(TAIL), at(1.0 - TAIL));
        let mut members = vec![Vec::new(); histogram.counts.len()];
        for (at, figure) in &figures {
            members[histogram.class(*figure)].push(*at);
        }
        Some(Self {
            measure,
            histogram,
            members,
            rising: figures.into_iter().map(|(at, _)| at).collect(),
            middle,
        })
    }

    /// Where a figure lies between the ends of the middle, 0–1.
    #[must_use]
    pub fn share(&self, figure: f64) -> f32 {
        let (low, high) = self.middle;
        #[expect(clippy::cast_possible_truncation, reason = "a share")]
        let share = ((figure - low) / (high - low).max(f64::MIN_POSITIVE)) as f32;
        share.clamp(0.0, 1.0)
    }

    /// The ends of the middle in words, as the classes are told.
    #[must_use]
    pub fn ends(&self) -> [String; 2] {
        let (low, high) = self.middle;
        [
            plain(low),
            format!("{}{}", plain(high), self.measure.unit()),
        ]
    }

    /// A class in words, `0.12–0.13 mm`.
    #[must_use]
    pub fn class(&self, class: usize) -> String {
        let (low, high) = (self.histogram.edge(class), self.histogram.edge(class + 1));
        format!("{low}–{high}{}", self.measure.unit())
    }
}

/// Which way the longer axes point.
#[derive(Debug, Clone, PartialEq)]
pub struct Rose {
    /// Pores whose longer axis lies in each sector of half a turn, from along the photo's width on,
    /// anticlockwise as seen.
    pub members: Vec<Vec<usize>>,
    /// Whole pores that are too round to have a direction.
    pub round: usize,
}

impl Rose {
    fn of(measurement: &Measurement) -> Option<Self> {
        let mut members = vec![Vec::new(); SECTORS];
        let mut round = 0;
        for (at, pore) in sized(measurement) {
            if pore.elongation() < LEAST_ELONGATION {
                round += 1;
                continue;
            }
            members[sector(pore.ellipse.angle)].push(at);
        }
        members
            .iter()
            .any(|sector| !sector.is_empty())
            .then_some(Self { members, round })
    }

    /// A sector in words, `30–45°`.
    #[must_use]
    pub fn sector(&self, sector: usize) -> String {
        let width = 180 / self.members.len();
        format!("{}–{}°", sector * width, (sector + 1) * width)
    }
}

/// The sector of an axis that lies `angle` radians clockwise from the photo's width.
fn sector(angle: f64) -> usize {
    let turned = (-angle).rem_euclid(PI);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "0 to 12"
    )]
    let sector = (turned / PI * SECTORS as f64) as usize;
    sector.min(SECTORS - 1)
}

/// Everything that is charted.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Distributions {
    /// Of each measure, where there are pores enough.
    pub measures: Vec<Distribution>,
    /// Which way the pores point, where any does.
    pub rose: Option<Rose>,
    /// On how many lines of 1 mm how many pores were counted: from the fewest to the most.
    pub counts: Vec<(usize, usize)>,
    /// The pores whose size is known, by their numbers.
    numbered: Vec<usize>,
}

impl Distributions {
    /// Of the pores of findings that are not withheld; nothing on other surfaces.
    pub(super) fn of(measurement: &Measurement) -> Self {
        let Some(pores) = &measurement.findings.pores else {
            return Self::default();
        };
        if measurement.findings.withheld() {
            return Self::default();
        }
        let counted = pores.count_lines.iter().map(|line| line.pores);
        let counts = match (counted.clone().min(), counted.clone().max()) {
            (Some(fewest), Some(most)) => (fewest..=most)
                .map(|count| (count, counted.clone().filter(|c| *c == count).count()))
                .collect(),
            _ => Vec::new(),
        };
        Self {
            measures: Measure::ALL
                .into_iter()
                .filter_map(|measure| Distribution::of(measure, measurement))
                .collect(),
            rose: Rose::of(measurement),
            counts,
            numbered: sized(measurement).map(|(at, _)| at).collect(),
        }
    }

    /// The pores whose size is known, in an order.
    #[must_use]
    pub fn in_order(&self, order: Order) -> Rows<'_> {
        let by = order.by.and_then(|measure| self.measure(measure));
        Rows {
            rising: by.map_or(&self.numbered, |one| &one.rising),
            is_falling: order.is_falling,
        }
    }

    /// How a measure spreads.
    #[must_use]
    pub fn measure(&self, measure: Measure) -> Option<&Distribution> {
        self.measures.iter().find(|one| one.measure == measure)
    }
}

/// The counted pores whose size is known, with their places.
fn sized(measurement: &Measurement) -> impl Iterator<Item = (usize, &Pore)> {
    let regions = measurement.regions.iter().enumerate();
    regions.filter(|(_, pore)| pore.whole && pore.counted)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_run_either_way() {
        let rows = |is_falling| Rows {
            rising: &[4, 2, 9],
            is_falling,
        };
        let order = Order::default().pressed(None);
        assert!(order.is_falling, "numbers rise at first");
        let all = |rows: Rows<'_>| (0..rows.len()).filter_map(|row| rows.pore(row)).collect();
        let (rising, falling): (Vec<usize>, Vec<usize>) = (all(rows(false)), all(rows(true)));
        assert_eq!((rising, falling), (vec![4, 2, 9], vec![9, 2, 4]));
        assert_eq!((rows(true).row_of(9), rows(true).pore(3)), (Some(0), None));
    }

    #[test]
    fn a_direction_falls_into_the_sector_that_a_person_sees() {
        // y runs down, so that what rises to the right has a negative angle.
        for (degrees, expected) in [
            (0.0, 0),
            (-20.0, 1),
            (-89.0, 5),
            (-91.0, 6),
            (90.0, 6),
            (20.0, 10),
            (1.0, 11),
        ] {
            assert_eq!(sector(f64::to_radians(degrees)), expected, "{degrees}");
        }
    }
}
