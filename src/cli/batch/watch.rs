//! Photos measured as they arrive in a folder, until somebody stops it.

use super::{Failure, Plan, listing};
use crate::cli::{Outcome, say};
use notify::event::{AccessKind, AccessMode};
use notify::{Event, EventKind, RecursiveMode, Watcher as _};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::time::Duration;

/// How long nothing has to happen in the folder before what arrived is taken to be complete: cameras
/// write a photo in several goes.
const QUIET: Duration = Duration::from_millis(1500);

/// What wakes the watch.
enum Woken {
    /// Something happened in the folder.
    Arrived,
    /// The system can watch no longer.
    Broken(notify::Error),
    /// Ctrl-C.
    Stopped,
}

/// Measures what is there, then what arrives, until Ctrl-C.
pub(super) fn watch(plan: &Plan, stop: &Arc<AtomicBool>) -> Result<Outcome, Failure> {
    let folder = plan.args.folder.clone().unwrap_or_default();
    let (wake, woken) = channel();
    let at_once = (Arc::clone(stop), wake.clone());
    // Where Ctrl-C cannot be caught it ends the program at once, which loses nothing that is kept.
    drop(ctrlc::set_handler(move || {
        at_once.0.store(true, Ordering::Relaxed);
        drop(at_once.1.send(Woken::Stopped));
    }));
    let out = plan.out.canonicalize().unwrap_or_else(|_| plan.out.clone());
    let mut watcher =
        notify::recommended_watcher(move |event: notify::Result<Event>| match event {
            Ok(event) if is_of_photos(&event, &out) => drop(wake.send(Woken::Arrived)),
            Ok(_) => {}
            Err(error) => drop(wake.send(Woken::Broken(error))),
        })?;
    watcher.watch(
        &folder.canonicalize().unwrap_or(folder.clone()),
        RecursiveMode::Recursive,
    )?;
    loop {
        let outcome = plan.once(&listing(&plan.args, &plan.out)?, stop)?;
        if stop.load(Ordering::Relaxed) {
            return Ok(outcome);
        }
        say("waiting for photos; Ctrl-C ends");
        match woken.recv() {
            Ok(Woken::Arrived) => {}
            Ok(Woken::Broken(error)) => return Err(error.into()),
            Ok(Woken::Stopped) | Err(_) => return Ok(outcome),
        }
        loop {
            match woken.recv_timeout(QUIET) {
                Ok(Woken::Arrived) => {}
                Ok(Woken::Broken(error)) => return Err(error.into()),
                Ok(Woken::Stopped) | Err(RecvTimeoutError::Disconnected) => return Ok(outcome),
                Err(RecvTimeoutError::Timeout) => break,
            }
        }
    }
}

/// Whether something was written, renamed or removed outside the results' folder; being read is no
/// reason to look again.
fn is_of_photos(event: &Event, out: &Path) -> bool {
    let is_change = match event.kind {
        EventKind::Create(_) | EventKind::Modify(_) | EventKind::Remove(_) => true,
        EventKind::Access(kind) => kind == AccessKind::Close(AccessMode::Write),
        EventKind::Any | EventKind::Other => false,
    };
    is_change
        && event
            .paths
            .iter()
            .any(|path: &PathBuf| !path.starts_with(out))
}
