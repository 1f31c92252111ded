//! Which pores a person has picked out: by the photo, by the histogram, by a table. None of it
//! belongs to the document, and measuring anew keeps what lies where it lay.

use super::{Results, Session};
use crate::geometry::{Point, Rect};
use crate::pores::Pore;
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

impl Results {
    /// Where the outlines lie, so that a place is not held against each of them.
    pub(super) fn bounds_of(regions: &[Pore]) -> Vec<Rect> {
        regions.iter().map(|r| r.outline.bounds()).collect()
    }

    /// The pore whose outline holds a place of the picture; the smallest, where outlines overlap.
    pub(super) fn pore_at(&self, place: Point) -> Option<usize> {
        let regions = &self.measurement.regions;
        let held = self.bounds.iter().enumerate();
        held.filter(|(at, bounds)| bounds.contains(place) && regions[*at].outline.contains(place))
            .min_by(|(a, _), (b, _)| {
                let area = |at: &usize| regions[*at].moments.area;
                area(a).total_cmp(&area(b))
            })
            .map(|(at, _)| at)
    }
}
