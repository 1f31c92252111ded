//! Corrections made on the picture, and their working into the results.

use super::job::Job;
use super::{Command, Results, Session, Tone, Work};
use crate::corrections::{Correction, Corrections, Kind, LeastWall};
use crate::geometry::{Point, Polygon};
use crate::pores::Pore;
use crate::segmentation::Preview;
use std::sync::Arc;

impl Session {
    /// A change of corrections.
    pub(super) fn correct(&mut self, change: Command) {
        match change {
            Command::Correct(kind, places) => self.add_correction(kind, &places),
            Command::DeleteSelected => {
                for place in self.selected_places() {
                    self.add_correction(Kind::Delete, &[place]);
                }
            }
            Command::JoinSelected => {
                // A chain: each is joined with the one nearest to it among those before it.
                let mut before: Vec<Point> = Vec::new();
                for place in self.selected_places() {
                    let nearest = before
                        .iter()
                        .copied()
                        .min_by(|a, b| a.distance(place).total_cmp(&b.distance(place)));
                    if let Some(nearest) = nearest {
                        self.add_correction(Kind::Join, &[nearest, place]);
                    }
                    before.push(place);
                }
            }
            Command::TakeCorrection(at) => self.change_corrections(|corrections| {
                if at < corrections.by_hand.len() {
                    corrections.by_hand.remove(at);
                }
            }),
            Command::ClearCorrections => {
                self.change_corrections(|corrections| corrections.by_hand.clear());
            }
            Command::SetLeastWall(least_wall) => {
                self.change_corrections(|corrections| corrections.least_wall = least_wall);
            }
            _ => {}
        }
    }

    fn change_corrections(&mut self, change: impl FnOnce(&mut Corrections)) {
        let mut corrections = Corrections::clone(&self.document.corrections);
        change(&mut corrections);
        self.document.corrections = Arc::new(corrections);
    }

    fn add_correction(&mut self, kind: Kind, places: &[Point]) {
        let outline = (kind == Kind::Draw).then(|| Polygon::new(places.to_vec()));
        if outline.is_some_and(|outline| !super::is_simple(&outline)) {
            self.refuse_shape();
            return;
        }
        let places: Vec<Point> = places
            .iter()
            .map(|p| self.document.onto_photo(*p))
            .collect();
        if let Some(correction) = Correction::new(kind, places) {
            self.change_corrections(|corrections| corrections.by_hand.push(correction));
        }
    }

    /// A place inside each selected pore.
    fn selected_places(&self) -> Vec<Point> {
        let regions = self.results.as_ref().map(|r| &r.measurement.regions);
        let selected = self.selected().iter();
        selected
            .filter_map(|at| regions?.get(*at))
            .filter_map(Pore::place_inside)
            .collect()
    }

    /// Whether corrections have been made that are not in the results yet.
    #[must_use]
    pub fn is_correcting(&self) -> bool {
        self.results
            .as_ref()
            .is_some_and(|results| !results.is_corrected_by(&self.document.corrections))
    }

    /// Each correction by hand in a few words, and whether it had an effect; `None` until that is known.
    #[must_use]
    pub fn correction_labels(&self) -> Vec<(String, Option<bool>)> {
        let applied = self.results.as_ref().map(|r| &r.traced.corrections);
        let by_hand = self.document.corrections.by_hand.iter().enumerate();
        by_hand
            .map(|(at, correction)| {
                let known = applied.filter(|applied| {
                    applied.corrections.by_hand.get(..=at)
                        == self.document.corrections.by_hand.get(..=at)
                });
                let place = middle(correction.places());
                let label = format!(
                    "{}: {} at {:.0}, {:.0} px",
                    at + 1,
                    correction.kind().done(),
                    place.x,
                    place.y
                );
                (
                    label,
                    known.and_then(|applied| applied.had_effect.get(at).copied()),
                )
            })
            .collect()
    }

    /// What outlines are previewed from while walls are being taken otherwise, and how they are taken;
    /// `None` where the outlines measured hold.
    #[must_use]
    pub fn preview(&self) -> Option<(&Arc<Preview>, LeastWall)> {
        let results = self.results.as_ref()?;
        let wanted = self.document.corrections.least_wall;
        let is_other = results.traced.corrections.corrections.least_wall != wanted;
        let preview = self.preview.as_ref().filter(|_| is_other)?;
        Some((preview, wanted))
    }

    /// Whether a preview can be had at once.
    #[must_use]
    pub const fn has_preview(&self) -> bool {
        self.preview.is_some()
    }

    /// Works corrections into the results once the person has let go of the control.
    pub(super) fn recorrect_if_needed(&mut self) {
        let (Some(results), Some(basis)) = (&self.results, self.document.basis()) else {
            return;
        };
        let wanted = &self.document.corrections;
        let is_free = match &self.work {
            Work::Idle | Work::Refiguring => true,
            Work::Correcting(under_way) => under_way != wanted,
            _ => false,
        };
        if !is_free
            || results.is_corrected_by(wanted)
            || self.is_setting_walls()
            || self.outdated_area().is_some()
        {
            return;
        }
        let job = Job::Correct {
            photo: Arc::clone(&results.photo),
            area: results.area.clone(),
            segmentation: Arc::clone(&results.traced.segmentation),
            corrections: Arc::clone(wanted),
            usable: Arc::clone(&results.usable),
            basis,
        };
        self.work = Work::Correcting(Arc::clone(wanted));
        self.worker.submit(job);
    }

    /// Goes over to another picture, and says so where a correction cannot follow.
    pub(super) fn tell_left_behind(&mut self, before: usize) {
        let left_behind = before.saturating_sub(self.document.corrections.by_hand.len());
        if left_behind > 0 {
            let these = if left_behind == 1 {
                "One correction by hand lies".to_owned()
            } else {
                format!("{left_behind} corrections by hand lie")
            };
            self.notify(
                Tone::Trouble,
                format!(
                    "{these} beyond what the straightened picture shows, and was left behind. Undo \
                     brings everything back"
                ),
            );
        }
    }
}

impl Results {
    /// Whether these corrections, and no others, are in them.
    fn is_corrected_by(&self, corrections: &Corrections) -> bool {
        self.traced.corrections.corrections == *corrections
    }
}

/// The middle of places.
fn middle(places: &[Point]) -> Point {
    let count = places.len().max(1) as f64;
    let sum = places.iter().fold(Point::new(0.0, 0.0), |sum, p| {
        Point::new(sum.x + p.x, sum.y + p.y)
    });
    Point::new(sum.x / count, sum.y / count)
}
