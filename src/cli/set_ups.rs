//! `poreline set-ups`: what was saved by name.

use super::terminal::harmless;
use super::{Outcome, say};
use crate::set_up::{SetUp, SetUpError, SetUps};
use std::io::{self, Write as _};

/// Carries out `poreline set-ups`.
pub(super) fn run() -> Outcome {
    let set_ups = match SetUps::of_person() {
        Ok(set_ups) => set_ups,
        Err(error) => {
            say(&error.to_string());
            return Outcome::NothingDone;
        }
    };
    let names = set_ups.names();
    if names.is_empty() {
        say("no set-up has been saved yet; add --save-set-up NAME to `poreline measure`");
    }
    let mut out = io::stdout().lock();
    for name in names {
        match load(&set_ups, &name) {
            // Whoever reads may have read enough.
            Ok(set_up) => {
                let _ = writeln!(
                    out,
                    "{}",
                    harmless(&format!("{name}: {}", set_up.in_words()))
                );
            }
            Err(error) => say(&error.to_string()),
        }
    }
    Outcome::Done
}

fn load(set_ups: &SetUps, name: &str) -> Result<SetUp, SetUpError> {
    SetUp::load(&set_ups.path(name)?)
}
