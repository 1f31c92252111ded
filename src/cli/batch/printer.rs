//! What is told while a batch runs: findings in order on standard output, progress and failures on
//! standard error.

use crate::batch::{Pace, Told};
use crate::cli::say;
use crate::export::json;
use indicatif::{HumanDuration, ProgressBar, ProgressState, ProgressStyle};
use serde_json::Value;
use std::collections::BTreeMap;
use std::io::{self, IsTerminal as _, Write as _};
use std::path::Path;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

/// Counts that the progress bar shows.
#[derive(Debug, Default)]
struct Counts {
    done: AtomicUsize,
    fresh: AtomicUsize,
    failed: AtomicUsize,
}

/// Lines that wait for those before them.
#[derive(Debug, Default)]
struct Lines {
    next: usize,
    waiting: BTreeMap<usize, Option<String>>,
    error: Option<io::Error>,
}

/// Tells of files as they are done.
pub(super) struct Printer<'a> {
    as_json: bool,
    stop: &'a AtomicBool,
    bar: ProgressBar,
    counts: Arc<Counts>,
    lines: Mutex<Lines>,
}

impl<'a> Printer<'a> {
    pub(super) fn new(files: usize, as_json: bool, stop: &'a AtomicBool) -> Self {
        let counts = Arc::new(Counts::default());
        let bar = if io::stderr().is_terminal() {
            ProgressBar::new(files as u64)
        } else {
            ProgressBar::hidden()
        };
        bar.set_style(style(Arc::clone(&counts), Instant::now()));
        bar.enable_steady_tick(Duration::from_millis(500));
        Self {
            as_json,
            stop,
            bar,
            counts,
            lines: Mutex::default(),
        }
    }

    /// Tells of one file.
    pub(super) fn tell(&self, told: &Told<'_>) {
        let name = &told.seen.name;
        let trouble = told.trouble();
        self.counts.done.fetch_add(1, Ordering::Relaxed);
        if !told.was_known {
            self.counts.fresh.fetch_add(1, Ordering::Relaxed);
        }
        if let Some(trouble) = &trouble {
            self.counts.failed.fetch_add(1, Ordering::Relaxed);
            self.bar.suspend(|| say(&format!("{name}: {trouble}")));
        }
        self.bar.inc(1);
        if self.as_json {
            let found = told.record.and_then(|record| record.findings_of(name));
            let failed = trouble.map(|trouble| json::failure(Path::new(name), &trouble));
            self.print(told.at, found.or(failed).as_ref());
        }
    }

    /// Prints a line as soon as all before it are printed, so that the same lines come in the same order
    /// whatever the number of threads.
    fn print(&self, at: usize, line: Option<&Value>) {
        let mut lines = self.lines.lock().unwrap_or_else(PoisonError::into_inner);
        lines.waiting.insert(at, line.map(Value::to_string));
        let mut ready = String::new();
        while let Some(line) = {
            let next = lines.next;
            lines.waiting.remove(&next)
        } {
            lines.next += 1;
            if let Some(line) = line {
                ready.push_str(&line);
                ready.push('\n');
            }
        }
        if ready.is_empty() {
            return;
        }
        let mut out = io::stdout().lock();
        if let Err(error) = out.write_all(ready.as_bytes()).and_then(|()| out.flush()) {
            // Whoever reads has read enough, or cannot: either way there is no more to do.
            lines.error = Some(error);
            self.stop.store(true, Ordering::Relaxed);
        }
    }

    /// Wipes the progress away; tells how many files are done, and how many of them failed.
    pub(super) fn finish(&self) -> (usize, usize) {
        self.bar.finish_and_clear();
        let count = |of: &AtomicUsize| of.load(Ordering::Relaxed);
        (count(&self.counts.done), count(&self.counts.failed))
    }

    /// Why printing failed, but for a reader who has read enough.
    pub(super) fn error(&self) -> Option<io::Error> {
        let mut lines = self.lines.lock().unwrap_or_else(PoisonError::into_inner);
        let error = lines.error.take();
        error.filter(|error| error.kind() != io::ErrorKind::BrokenPipe)
    }
}

fn style(counts: Arc<Counts>, began: Instant) -> ProgressStyle {
    let fallback = ProgressStyle::default_bar();
    let Ok(style) = ProgressStyle::with_template("{wide_bar} {pos} of {len} files{pace}") else {
        return fallback;
    };
    style.with_key(
        "pace",
        move |state: &ProgressState, out: &mut dyn std::fmt::Write| {
            let count = |of: &AtomicUsize| of.load(Ordering::Relaxed);
            let (done, fresh, failed) = (
                count(&counts.done),
                count(&counts.fresh),
                count(&counts.failed),
            );
            let (pace, elapsed) = (Pace { done, fresh }, began.elapsed());
            let files = usize::try_from(state.len().unwrap_or_default()).unwrap_or(usize::MAX);
            if let (Some(a_minute), Some(left)) =
                (pace.a_minute(elapsed), pace.left(files, elapsed))
            {
                let _ = write!(
                    out,
                    ", {a_minute:.1} a minute, about {} left",
                    HumanDuration(left)
                );
            }
            if failed > 0 {
                let _ = write!(out, ", {failed} failed");
            }
        },
    )
}
