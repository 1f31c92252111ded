//! Setting on a photo what was set on it before: the scale first, then what lies on the picture that it
//! leads to, then measuring again.

use super::filmstrip::changed;
use super::settings::Settings;
use super::{Session, Tone, Work};

impl Session {
    /// Begins to set on the photo that was opened what was written down.
    pub(super) fn begin_restoring(&mut self, settings: Settings) {
        let Some(photo) = &self.document.photo else {
            return;
        };
        if !settings.are_of(photo) {
            self.notify(Tone::Trouble, changed());
            return;
        }
        let has_to_seek = settings.set_scale(&mut self.document);
        self.restoring = Some(settings);
        if has_to_seek {
            self.seek();
        } else {
            self.go_on_restoring();
        }
    }

    /// Sets the rest once nothing is being looked for any more, and measures again what was measured.
    pub(super) fn go_on_restoring(&mut self) {
        if self.work != Work::Idle {
            return;
        }
        let Some(settings) = self.restoring.take() else {
            return;
        };
        let (is_measured, is_saved) = (settings.is_measured, settings.is_saved);
        let set = settings.set_rest(&mut self.document);
        self.history.clear();
        self.act = None;
        self.take_carried();
        match set {
            Ok(()) if is_measured => {
                self.measure();
                self.record.measures_again = is_saved;
            }
            Ok(()) => {}
            Err(why) => self.notify(Tone::Trouble, why),
        }
    }
}
