//! Corrections made on the picture, and their working into the results.

use super::job::Job;
use super::{Command, Results, Session, Tone, Work};
use crate::corrections::{Correction, Corrections, Kind, LeastWall};
use crate::geometry::{Point, Polygon};
use crate::pores::Pore;
use crate::segmentation::Preview;
use crate::wording::{self, text};
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
                let label = text!(
                    "correction-in-words",
                    number = at + 1,
                    done = wording::word(correction.kind().done()),
                    x = format!("{:.0}", place.x),
                    y = format!("{:.0}", place.y)
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
            self.notify(
                Tone::Trouble,
                text!("corrections-left-behind", count = left_behind),
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::json;
    use crate::photo::Photo;
    use crate::progress::Progress;
    use crate::session::job::Outcome;
    use crate::session::{Overview, ScaleWay};
    use image::{Rgb, RgbImage};
    use std::sync::mpsc::{Receiver, channel};
    use std::time::Duration;

    /// Pores 20 px apart, the first centre at (9.5, 9.5), measured.
    fn session() -> (Session, Receiver<()>) {
        let (bell, rung) = channel();
        let wake = Arc::new(move || {
            let _ = bell.send(());
        });
        let mut session = Session::new(wake).expect("a thread");
        let picture = RgbImage::from_fn(480, 400, |x, y| {
            let (dx, dy) = (f64::from(x % 20) - 9.5, f64::from(y % 20) - 9.5);
            Rgb([if dx.hypot(dy) < 7.0 { 70 } else { 200 }; 3])
        });
        session.finish(Outcome::Opened {
            overview: Arc::new(Overview::of(&picture)),
            photo: Arc::new(Photo::from_rgb("pores.png", picture)),
            usable: Arc::default(),
        });
        session.apply(Command::UseScaleWay(ScaleWay::Typed));
        session.apply(Command::TypePxPerMm("80".to_owned()));
        session.apply(Command::Measure);
        wait(&mut session, &rung);
        (session, rung)
    }

    fn wait(session: &mut Session, rung: &Receiver<()>) {
        while session.is_busy() {
            rung.recv_timeout(Duration::from_mins(1))
                .expect("an answer");
            session.poll();
        }
    }

    fn pore(column: u32, row: u32) -> Point {
        Point::new(f64::from(20 * column) + 10.0, f64::from(20 * row) + 10.0)
    }

    fn count(session: &Session) -> usize {
        let results = session.results().expect("results");
        let pores = results.measurement.findings.pores.as_ref();
        pores.expect("pores").count
    }

    #[test]
    fn each_correction_is_worked_in_at_once_and_is_an_act_of_its_own() {
        let (mut session, rung) = session();
        let before = count(&session);
        let written = |session: &Session| {
            let results = session.results().expect("results");
            json::findings(&results.measurement.findings).to_string()
        };
        let plain = written(&session);
        session.apply(Command::Correct(Kind::Delete, vec![pore(6, 6)]));
        assert!(session.is_correcting() && session.results().is_some());
        assert_eq!(session.why_not_save(), Some("Working the corrections in"));
        wait(&mut session, &rung);
        assert_eq!(count(&session), before - 1);
        session.apply(Command::Correct(Kind::Delete, vec![pore(7, 7)]));
        session.apply(Command::Correct(Kind::Join, vec![pore(9, 9), pore(10, 9)]));
        wait(&mut session, &rung);
        assert_eq!(count(&session), before - 3);
        for left in [2, 1, 0] {
            session.apply(Command::Undo);
            assert_eq!(session.document().corrections.by_hand.len(), left);
        }
        wait(&mut session, &rung);
        assert_eq!(written(&session), plain);
        session.apply(Command::Redo);
        session.apply(Command::Measure);
        wait(&mut session, &rung);
        assert_eq!(count(&session), before - 1, "they outlive measuring again");
    }

    #[test]
    fn the_window_and_the_engine_come_to_the_same_findings() {
        let (mut session, rung) = session();
        let corrections = [
            (
                Kind::Split,
                vec![Point::new(121.0, 130.0), Point::new(139.0, 131.0)],
            ),
            (Kind::Join, vec![pore(9, 9), pore(10, 9)]),
        ];
        for (kind, places) in corrections {
            session.apply(Command::Correct(kind, places));
            wait(&mut session, &rung);
        }
        let results = session.results().expect("results");
        let anew = crate::measure_corrected(
            &results.photo,
            results.basis.scale,
            &results.area,
            &session.document().corrections,
            &Progress::default(),
        )
        .expect("the photo");
        assert_eq!(anew.findings, results.measurement.findings);
    }

    #[test]
    fn walls_are_worked_in_when_the_person_lets_go_and_previewed_before() {
        let (mut session, rung) = session();
        while !session.has_preview() {
            rung.recv_timeout(Duration::from_mins(1)).expect("a call");
            session.poll();
        }
        assert!(session.preview().is_none());
        for multiple in [1.2, 1.4] {
            let least_wall = LeastWall::new(multiple).expect("in range");
            session.apply(Command::SetLeastWall(least_wall));
            assert_eq!(session.preview().map(|(_, wall)| wall), Some(least_wall));
            assert!(!session.is_busy(), "not while the control moves");
        }
        session.apply(Command::EndAct);
        assert!(session.is_busy());
        wait(&mut session, &rung);
        assert!(session.preview().is_none() && !session.is_correcting());
        session.apply(Command::Undo);
        assert!(session.document().corrections.is_empty(), "one act");
    }

    #[test]
    fn what_is_selected_stays_selected_where_it_lies_and_is_deleted_or_joined() {
        let (mut session, rung) = session();
        let before = count(&session);
        let at = |session: &Session, place| session.pore_at(place).expect("a pore");
        let far = [pore(12, 12), pore(13, 12)];
        let chosen = far.map(|place| at(&session, place));
        session.apply(Command::Select(chosen.into_iter().collect()));
        session.apply(Command::Correct(Kind::Delete, vec![pore(2, 2)]));
        wait(&mut session, &rung);
        let moved = far.map(|place| at(&session, place));
        assert_ne!(moved, chosen, "one pore fewer comes before them");
        assert!(session.selected().iter().eq(&moved));
        session.apply(Command::JoinSelected);
        wait(&mut session, &rung);
        assert_eq!(count(&session), before - 2);
        assert_eq!(at(&session, far[0]), at(&session, far[1]));
        session.apply(Command::DeleteSelected);
        wait(&mut session, &rung);
        assert_eq!(count(&session), before - 3);
        assert!(session.pore_at(far[0]).is_none() && session.selected().is_empty());
        let effects = session.correction_labels().into_iter().map(|(_, had)| had);
        assert_eq!(effects.collect::<Vec<_>>(), [Some(true); 3]);
        session.apply(Command::TakeCorrection(0));
        session.apply(Command::Correct(Kind::Delete, vec![far[0]]));
        wait(&mut session, &rung);
        let last = session.correction_labels().pop().expect("the last");
        assert_eq!(last.1, Some(false), "nothing is left there: {last:?}");
        session.apply(Command::Correct(Kind::Draw, vec![far[0], far[1], far[0]]));
        assert!(
            session
                .notices()
                .iter()
                .any(|n| n.text.contains("encloses nothing"))
        );
    }
}
