//! Looking for what gives the scale: when it begins, and what becomes of what was found.

use super::flat::Flat;
use super::job::Job;
use super::scale_setting::Sought;
use super::{Command, Session, Step, Work};
use crate::bar::Bar;
use crate::basis::PlaneSource;
use std::sync::Arc;

impl Session {
    /// Why nothing can be looked for now; `None` when it can.
    #[must_use]
    pub fn why_not_seek(&self) -> Option<&'static str> {
        match self.work {
            Work::Opening(_) | Work::Measuring(_) => {
                Some("Wait until the present work is done, or cancel it")
            }
            Work::Idle | Work::Refiguring | Work::Seeking(..) => None,
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
        if begins && matches!(self.work, Work::Idle | Work::Refiguring) {
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
            self.document.straighten(flat);
        }
    }
}
