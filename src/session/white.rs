//! Something white that a person marked on the picture, to which colours are referred.

use super::document::sentence;
use super::{Session, Tone};
use crate::colour::White;
use crate::geometry::{Polygon, Rect};
use crate::wording::text;
use serde::{Deserialize, Serialize};

/// Something white on the picture.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct MarkedWhite {
    /// Where it lies, px of the picture.
    pub outline: Polygon,
    /// Its light.
    pub white: White,
}

impl Session {
    /// What colours are referred to, as a sentence.
    #[must_use]
    pub fn white_words(&self) -> &'static str {
        let flat = self.document.scale.flat.as_ref();
        if self.document.white.is_some() {
            text!("colours-are-referred-to-the-white")
        } else if flat.is_some_and(|flat| flat.white.is_some()) {
            text!("colours-are-referred-to-the-cards")
        } else {
            text!("without-one-colours-are-indicative-only")
        }
    }

    /// Takes part of the picture as white, or says why it cannot be.
    pub(super) fn mark_white(&mut self, patch: Rect) {
        let Some(picture) = self.document.picture() else {
            return;
        };
        self.notices.forget_trouble();
        match White::of_patch(picture, patch) {
            Ok(white) => {
                self.document.white = Some(MarkedWhite {
                    outline: patch.to_polygon(),
                    white,
                });
            }
            Err(error) => self.notify(Tone::Trouble, sentence(&error)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::WhiteSource;
    use crate::photo::Photo;
    use crate::session::job::Outcome;
    use crate::session::{Command, Overview, ScaleWay};
    use image::{Rgb, RgbImage};
    use std::sync::Arc;
    use std::sync::mpsc::{Receiver, channel};
    use std::time::Duration;

    /// Pores 20 px apart and, in a corner, paper.
    fn session() -> (Session, Receiver<()>) {
        let (bell, rung) = channel();
        let wake = Arc::new(move || {
            let _ = bell.send(());
        });
        let mut session = Session::new(wake).expect("a thread");
        let picture = RgbImage::from_fn(480, 400, |x, y| {
            let (dx, dy) = (f64::from(x % 20) - 9.5, f64::from(y % 20) - 9.5);
            let is_paper = x < 60 && y < 40;
            Rgb(match (is_paper, dx.hypot(dy) < 7.0) {
                (true, _) => [235; 3],
                (false, true) => [70; 3],
                (false, false) => [200; 3],
            })
        });
        session.finish(Outcome::Opened {
            overview: Arc::new(Overview::of(&picture)),
            photo: Arc::new(Photo::from_rgb("pores.png", picture)),
            usable: Arc::default(),
        });
        session.apply(Command::UseScaleWay(ScaleWay::Typed));
        session.apply(Command::TypePxPerMm("80".to_owned()));
        (session, rung)
    }

    fn wait(session: &mut Session, rung: &Receiver<()>) {
        while session.is_busy() {
            rung.recv_timeout(Duration::from_mins(1))
                .expect("an answer");
            session.poll();
        }
    }

    const PAPER: Rect = Rect {
        x: 5.0,
        y: 5.0,
        width: 40.0,
        height: 25.0,
    };

    #[test]
    fn a_white_changes_the_colour_and_nothing_is_seen_anew() {
        let (mut session, rung) = session();
        session.apply(Command::Measure);
        wait(&mut session, &rung);
        let seen = |session: &Session| {
            let results = session.results().expect("results");
            let colour = results.measurement.findings.colour;
            (Arc::clone(&results.traced), colour.expect("a colour"))
        };
        let (traced, plain) = seen(&session);
        assert_eq!(plain.white, None);
        session.apply(Command::MarkWhite(PAPER));
        assert!(session.outdated().is_some());
        wait(&mut session, &rung);
        let (again, referred) = seen(&session);
        assert!(Arc::ptr_eq(&traced, &again));
        assert_eq!(referred.white, Some(WhiteSource::Patch));
        // L* of sRGB 200 where 235 has L* 95, and without a white: computed with scikit-image.
        assert!((referred.lab.l - 82.34).abs() < 1.0, "{referred:?}");
        assert!((plain.lab.l - 80.60).abs() < 1.0, "{plain:?}");
        for (command, white) in [
            (Command::Undo, None),
            (Command::Redo, Some(WhiteSource::Patch)),
            (Command::ClearWhite, None),
        ] {
            session.apply(command);
            wait(&mut session, &rung);
            assert_eq!(seen(&session).1.white, white);
            assert_eq!(session.outdated(), None);
        }
        assert!(Arc::ptr_eq(&traced, &seen(&session).0));
    }

    #[test]
    fn what_cannot_be_white_is_refused_and_the_white_before_it_stays() {
        let (mut session, _rung) = session();
        session.apply(Command::MarkWhite(PAPER));
        session.apply(Command::EndAct);
        let tiny = Rect {
            width: 3.0,
            height: 3.0,
            ..PAPER
        };
        session.apply(Command::MarkWhite(tiny));
        let outline = session.document().white.as_ref().map(|w| w.outline.clone());
        assert_eq!(outline, Some(PAPER.to_polygon()));
        let [notice] = session.notices() else {
            panic!("no word of it");
        };
        assert!(notice.text.contains("only 9 pixels"), "{notice:?}");
        session.apply(Command::Undo);
        assert_eq!(session.document().white, None);
    }
}
