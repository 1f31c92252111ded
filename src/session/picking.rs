//! Which pores a person has picked out: by the photo, by the histogram, by a table. None of it
//! belongs to the document, and measuring anew keeps what lies where it lay.

use super::format::plain;
use super::{Measure, Results, Session};
use crate::findings::Findings;
use crate::geometry::Point;
use crate::pores::Pore;
use crate::surface::SurfaceType;
use crate::units::Pixels;
use crate::wording::text;
use std::collections::BTreeSet;

/// Pores picked out, by their place in the regions that were measured.
#[derive(Debug, Default)]
pub(super) struct Picking {
    pub(super) selected: BTreeSet<usize>,
    pub(super) pointed_at: Option<usize>,
}

impl Session {
    /// Pores that are selected, by their place in the regions that were measured.
    #[must_use]
    pub const fn selected(&self) -> &BTreeSet<usize> {
        &self.picking.selected
    }

    /// The pore under the pointer, wherever it points at one.
    #[must_use]
    pub const fn pointed_at(&self) -> Option<usize> {
        self.picking.pointed_at
    }

    /// The pore whose outline holds a place of the picture; the smallest, where outlines overlap.
    #[must_use]
    pub fn pore_at(&self, place: Point) -> Option<usize> {
        self.results.as_ref()?.pore_at(place)
    }

    /// A measured pore's figures, as a person reads them.
    #[must_use]
    pub fn pore_card(&self, pore: usize) -> Option<PoreCard> {
        let measurement = &self.results.as_ref()?.measurement;
        let region = measurement.regions.get(pore)?;
        Some(PoreCard::of(
            pore,
            region,
            &measurement.regions,
            &measurement.findings,
        ))
    }

    /// What is selected once these are pressed: these alone, or none where they were selected already;
    /// or these beside the others.
    #[must_use]
    pub fn toggled(&self, pores: &[usize], adds: bool) -> BTreeSet<usize> {
        let pressed: BTreeSet<usize> = pores.iter().copied().collect();
        let selected = self.selected();
        match (adds, pressed.is_subset(selected)) {
            (true, true) => selected.difference(&pressed).copied().collect(),
            (true, false) => selected.union(&pressed).copied().collect(),
            (false, _) if pressed == *selected => BTreeSet::new(),
            (false, _) => pressed,
        }
    }

    /// A pore in one line of a table: number, diameter, elongation.
    #[must_use]
    pub fn pore_line(&self, pore: usize) -> Option<[String; 3]> {
        let measurement = &self.results.as_ref()?.measurement;
        let region = measurement.regions.get(pore)?;
        let scale = &measurement.findings.scale;
        let [diameter, elongation] = Measure::ALL
            .map(|measure| format!("{}{}", plain(measure.of(region, scale)), measure.unit()));
        Some([(pore + 1).to_string(), diameter, elongation])
    }

    /// Selects pores; those that were not measured are none.
    pub(super) fn select(&mut self, pores: BTreeSet<usize>) {
        let measured = self.measured_pores();
        self.picking.selected = pores.into_iter().filter(|at| *at < measured).collect();
    }

    /// Points at a pore.
    pub(super) fn point_at(&mut self, pore: Option<usize>) {
        let measured = self.measured_pores();
        self.picking.pointed_at = pore.filter(|at| *at < measured);
    }

    fn measured_pores(&self) -> usize {
        self.results
            .as_ref()
            .map_or(0, |results| results.measurement.regions.len())
    }

    /// Takes new results. What is selected stays selected where a pore still lies there.
    pub(super) fn take_results(&mut self, results: Option<Results>) {
        let before = self.results.take();
        let picked = std::mem::take(&mut self.picking.selected);
        self.picking.pointed_at = None;
        if let (Some(before), Some(now)) = (before, &results)
            && std::sync::Arc::ptr_eq(&before.photo, &now.photo)
        {
            let places = picked
                .into_iter()
                .filter_map(|at| before.measurement.regions.get(at))
                .map(Pore::centroid);
            self.picking.selected = places.filter_map(|place| now.pore_at(place)).collect();
        }
        self.results = results;
    }
}

/// One pore's figures, as a person reads them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PoreCard {
    /// What it is, with its number in the table of pores: `Pore 41`.
    pub name: String,
    /// Each figure with its name.
    pub rows: Vec<(&'static str, String)>,
    /// Whether it is counted, and if not, why; whether a person shaped it.
    pub standing: String,
}

impl PoreCard {
    fn of(at: usize, pore: &Pore, all: &[Pore], findings: &Findings) -> Self {
        let scale = &findings.scale;
        let mm = |px: f64| plain(scale.millimetres(Pixels(px)).0);
        let mut areas: Vec<f64> = all
            .iter()
            .filter(|pore| pore.whole && pore.counted)
            .map(|pore| pore.moments.area)
            .collect();
        areas.sort_by(f64::total_cmp);
        let median = areas.get(areas.len() / 2).copied();
        let area = plain(scale.square_millimetres(pore.moments.area));
        let thing = match findings.surface.kind {
            SurfaceType::Toothed => text!("tooth"),
            _ => text!("pore"),
        };
        let standing = if pore.oversized {
            text!("not-counted-far-too-large")
        } else if !pore.counted {
            text!("not-counted-at-the-edge")
        } else if pore.whole {
            text!("counted-pore")
        } else {
            text!("counted-but-cut-not-in-mean")
        };
        let by_hand = if pore.by_hand {
            text!("shaped-by-hand")
        } else {
            ""
        };
        let mut rows = vec![
            (text!("diameter"), format!("{} mm", mm(pore.diameter().0))),
            (
                text!("width-of-the-rectangle"),
                format!("{}–{} mm", mm(pore.feret.min), mm(pore.feret.max)),
            ),
            (text!("elongation"), plain(pore.elongation())),
            (text!("area"), format!("{area} mm²")),
        ];
        if let Some(median) = median.filter(|median| *median > 0.0) {
            let times = plain(pore.moments.area / median);
            rows.push((
                text!("of-the-median"),
                text!("times-the-median", times = times),
            ));
        }
        Self {
            name: format!("{thing} {}", at + 1),
            rows,
            standing: format!("{standing}{by_hand}"),
        }
    }
}

impl Results {
    /// Whether there are outlines that corrections can act on.
    #[must_use]
    pub fn takes_corrections(&self) -> bool {
        self.traced.surface.kind.regions().is_some()
    }

    /// The pore whose outline holds a place of the picture; the smallest, where outlines overlap.
    pub(super) fn pore_at(&self, place: Point) -> Option<usize> {
        let regions = &self.measurement.regions;
        let held = self.sketch.bounds.iter().enumerate();
        held.filter(|(at, bounds)| bounds.contains(place) && regions[*at].outline.contains(place))
            .min_by(|(a, _), (b, _)| {
                let area = |at: &usize| regions[*at].moments.area;
                area(a).total_cmp(&area(b))
            })
            .map(|(at, _)| at)
    }
}
