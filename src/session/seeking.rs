//! Looking for what gives the scale: when it begins, and what becomes of what was found.

use super::flat::Flat;
use super::job::Job;
use super::scale_setting::Sought;
use super::{Command, Session, Step, Work};
use crate::bar::Bar;
use crate::basis::PlaneSource;
use crate::wording::text;
use std::sync::Arc;

impl Session {
    /// Why nothing can be looked for now; `None` when it can.
    #[must_use]
    pub fn why_not_seek(&self) -> Option<&'static str> {
        match self.work {
            Work::Opening(_) | Work::Measuring(_) => Some(text!("wait-until-the-present-work-is")),
            Work::Idle | Work::Refiguring | Work::Correcting(_) | Work::Seeking(..) => None,
        }
    }

    /// Looks for what the chosen way needs.
    pub(super) fn seek(&mut self) {
        if self.why_not_seek().is_none()
            && let (Some(photo), Some(sought)) =
                (&self.document.photo, self.document.scale.sought())
        {
            self.worker.submit(Job::Seek {
                photo: Arc::clone(photo),
                sought,
            });
            self.stopped = None;
            self.notices.forget_trouble();
            self.work = Work::Seeking(sought, None);
        }
    }

    /// Stops looking for what is not wanted any more; begins what follows from what was just set.
    pub(super) fn seek_as_set(&mut self, chooses_way: bool) {
        let setting = &self.document.scale;
        let sought = setting.sought();
        if let Work::Seeking(present, _) = self.work
            && sought != Some(present)
        {
            self.worker.cancel();
            self.work = Work::Idle;
        }
        let begins = match sought {
            // Whoever chooses such a way wants it found.
            Some(Sought::Bar | Sought::Plane(PlaneSource::Card)) => chooses_way,
            // A line is drawn to be read.
            Some(Sought::Ruler(..)) => {
                setting.ruler_read().is_none() && self.stopped != Some(Step::Scale)
            }
            Some(Sought::Plane(_)) | None => false,
        };
        if begins
            && matches!(
                self.work,
                Work::Idle | Work::Refiguring | Work::Correcting(_)
            )
        {
            self.seek();
        }
    }

    /// Whether a command begins a way anew that was stopped.
    pub(super) const fn begins_scale_anew(command: &Command) -> bool {
        matches!(
            command,
            Command::UseScaleWay(_)
                | Command::SetRuler(_)
                | Command::SetRulerEnd(..)
                | Command::UseTicks(_)
        )
    }

    /// Takes what could be the scale bar.
    pub(super) fn take_bars(&mut self, bars: Vec<Bar>) {
        self.history.keep(self.document.clone());
        self.act = None;
        let setting = &mut self.document.scale;
        setting.bar = (bars.len() == 1).then_some(0);
        setting.bars = Some(bars.into());
    }

    /// Takes a straightened picture, if it is still wanted.
    pub(super) fn take_flat(&mut self, flat: Arc<Flat>) {
        if self.document.scale.sought() == Some(Sought::Plane(flat.source)) {
            self.history.keep(self.document.clone());
            self.act = None;
            let corrections = self.document.corrections.by_hand.len();
            self.document.straighten(flat);
            self.tell_left_behind(corrections);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::corrections::Kind;
    use crate::geometry::{Point, Rect};
    use crate::photo::Photo;
    use crate::session::{Outcome, Placed, ScaleStanding, ScaleWay};
    use image::{Rgb, RgbImage};
    use std::sync::mpsc::{Receiver, channel};
    use std::time::Duration;

    /// A session on a plain photo with one black bar of 300 px, and where it calls.
    fn session() -> (Session, Receiver<()>) {
        let (bell, rung) = channel();
        let wake = Arc::new(move || {
            let _ = bell.send(());
        });
        let mut session = Session::new(wake).expect("a thread");
        let picture = RgbImage::from_fn(600, 400, |x, y| {
            let is_bar = (100..400).contains(&x) && (200..208).contains(&y);
            Rgb([if is_bar { 10 } else { 220 }; 3])
        });
        session.finish(Outcome::Opened {
            overview: Arc::new(crate::session::Overview::of(&picture)),
            photo: Arc::new(Photo::from_rgb("bar.png", picture)),
            usable: Arc::default(),
        });
        (session, rung)
    }

    fn wait(session: &mut Session, rung: &Receiver<()>) {
        while session.is_busy() {
            rung.recv_timeout(Duration::from_mins(1))
                .expect("an answer");
            session.poll();
        }
    }

    fn placed(x: f64, y: f64) -> Placed {
        Placed::by_eye(Point::new(x, y), 1.0)
    }

    fn set_corners(session: &mut Session) {
        session.apply(Command::UseScaleWay(ScaleWay::Corners));
        for (i, (x, y)) in [
            (100.0, 100.0),
            (500.0, 100.0),
            (460.0, 300.0),
            (140.0, 300.0),
        ]
        .into_iter()
        .enumerate()
        {
            session.apply(Command::SetCorner(i, placed(x, y)));
            session.apply(Command::EndAct);
        }
        session.apply(Command::TypeSide(0, "30 mm".to_owned()));
        session.apply(Command::TypeSide(1, "20 mm".to_owned()));
    }

    #[test]
    fn choosing_the_bar_looks_for_it_and_a_length_makes_the_scale() {
        let (mut session, rung) = session();
        session.apply(Command::UseScaleWay(ScaleWay::Bar));
        assert_eq!(session.work(), &Work::Seeking(Sought::Bar, None));
        wait(&mut session, &rung);
        session.apply(Command::TypeBarLength("3 mm".to_owned()));
        let scale = session.document().scale.scale().expect("a scale");
        assert!((scale.px_per_mm - 100.0).abs() < 0.5, "{scale:?}");
        assert_eq!(session.document().measured_area().left_out.len(), 1);
    }

    #[test]
    fn what_is_not_wanted_any_more_is_stopped_and_not_heard_of() {
        let (mut session, rung) = session();
        session.apply(Command::UseScaleWay(ScaleWay::Bar));
        session.apply(Command::UseScaleWay(ScaleWay::Typed));
        assert_eq!(session.work(), &Work::Idle);
        rung.recv_timeout(Duration::from_mins(1))
            .expect("the worker's call");
        session.poll();
        assert_eq!(session.document().scale.bars, None);
    }

    #[test]
    fn what_was_drawn_goes_with_the_picture_and_comes_back() {
        let (mut session, rung) = session();
        let drawn = Rect {
            x: 200.0,
            y: 150.0,
            width: 150.0,
            height: 100.0,
        };
        session.apply(Command::SetOutline(crate::area::Outline::Rectangle(drawn)));
        let stroke = [Point::new(210.0, 160.0), Point::new(240.0, 190.0)];
        session.apply(Command::Correct(Kind::Split, stroke.to_vec()));
        set_corners(&mut session);
        session.apply(Command::Seek);
        wait(&mut session, &rung);
        assert!(matches!(
            session.document().scale.standing(),
            ScaleStanding::Set(_)
        ));
        assert_ne!(session.document().photo_rect(), Rect::of_size(600, 400));
        let corrected = |session: &Session| session.document().corrections.by_hand[0].clone();
        let flat = session.document().scale.flat.clone().expect("straightened");
        for (place, on_photo) in corrected(&session).places().iter().zip(stroke) {
            let back = flat.straightened.to_photo(*place);
            assert!(back.distance(on_photo) < 0.01, "{back:?}");
        }
        session.apply(Command::ShowAsTaken);
        let area = session.document().area.clone();
        assert_eq!(session.document().photo_rect(), Rect::of_size(600, 400));
        let size = area.size_px2(Rect::of_size(600, 400)).measured_px2;
        assert!((size / 15_000.0 - 1.0).abs() < 1e-3, "{size}");
        assert!(area.left_out.is_empty());
        for (place, on_photo) in corrected(&session).places().iter().zip(stroke) {
            assert!(place.distance(on_photo) < 0.01, "{place:?}");
        }
        // Both acts are taken back.
        session.apply(Command::Undo);
        assert!(session.document().scale.flat.is_some());
        session.apply(Command::Undo);
        assert!(session.document().scale.flat.is_none());
    }

    #[test]
    fn a_correction_beyond_what_can_be_straightened_is_left_behind_with_a_word() {
        let (mut session, rung) = session();
        for y in [5.0, 250.0] {
            session.apply(Command::Correct(Kind::Add, vec![Point::new(300.0, y)]));
        }
        session.apply(Command::UseScaleWay(ScaleWay::Corners));
        // A path that vanishes within the photo.
        for (i, (x, y)) in [(270.0, 80.0), (330.0, 80.0), (500.0, 390.0), (100.0, 390.0)]
            .into_iter()
            .enumerate()
        {
            session.apply(Command::SetCorner(i, placed(x, y)));
            session.apply(Command::EndAct);
        }
        session.apply(Command::TypeSide(0, "10 mm".to_owned()));
        session.apply(Command::TypeSide(1, "40 mm".to_owned()));
        session.apply(Command::Seek);
        wait(&mut session, &rung);
        assert!(session.document().scale.flat.is_some());
        assert_eq!(session.document().corrections.by_hand.len(), 1);
        let said = session.notices().iter();
        assert!(
            said.clone().any(|n| n.text.contains("was left behind")),
            "{said:?}"
        );
        session.apply(Command::Undo);
        assert_eq!(session.document().corrections.by_hand.len(), 2);
    }

    #[test]
    fn another_way_shows_the_photo_as_taken() {
        let (mut session, rung) = session();
        set_corners(&mut session);
        session.apply(Command::Seek);
        wait(&mut session, &rung);
        session.apply(Command::UseScaleWay(ScaleWay::Points));
        assert!(session.document().scale.flat.is_none());
        session.apply(Command::Undo);
        assert!(session.document().scale.flat.is_some());
    }

    #[test]
    fn corners_that_cross_are_refused_before_their_lengths_are_asked_for() {
        let (mut session, _rung) = session();
        set_corners(&mut session);
        session.apply(Command::TypeSide(0, String::new()));
        session.apply(Command::SetCorner(1, placed(460.0, 300.0)));
        session.apply(Command::SetCorner(2, placed(500.0, 100.0)));
        let ScaleStanding::Wrong(why) = session.document().scale.standing() else {
            panic!("taken for a rectangle");
        };
        assert!(why.contains("cross"), "{why}");
        session.apply(Command::Seek);
        assert_eq!(session.work(), &Work::Idle);
    }
}
