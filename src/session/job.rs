//! Long work on a thread of its own: the newest request wins, stale answers are dropped.

use crate::MeasureError;
use crate::area::{Area, Outline};
use crate::bar::{self, Bar, Search};
use crate::basis::{Basis, PlaneError};
use crate::corrections::Corrections;
use crate::findings::{self, Traced};
use crate::geometry::Point;
use crate::photo::{self, Photo};
use crate::progress::{Cancelled, Progress, Stage};
use crate::ruler::{self, Between, RulerError};
use crate::segmentation::{Preview, Segmentation};
use crate::session::document::sentence;
use crate::session::flat::Flat;
use crate::session::overview::Overview;
use crate::session::results::Results;
use crate::session::scale_setting::{RulerRead, Sought};
use crate::session::scale_words;
use crate::usable::{self, Usable};
use crate::wording::text;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread;

/// Called from the worker whenever there is something to fetch.
pub type Wake = Arc<dyn Fn() + Send + Sync>;

/// What can be asked of the worker.
pub enum Job {
    /// Read a photo.
    Open(PathBuf),
    /// Look on a photo for what gives its scale.
    Seek {
        /// The photo as it was taken.
        photo: Arc<Photo>,
        /// What to look for.
        sought: Sought,
    },
    /// Measure a picture from the beginning.
    Measure {
        /// The picture.
        photo: Arc<Photo>,
        /// Where to measure.
        area: Area,
        /// What is corrected in the pores.
        corrections: Arc<Corrections>,
        /// By what.
        basis: Basis,
        /// What of all of the picture can be used.
        usable: Arc<Usable>,
    },
    /// Trace outlines anew with other corrections, from what was segmented.
    Correct {
        /// The picture.
        photo: Arc<Photo>,
        /// The area that was segmented.
        area: Area,
        /// What was segmented.
        segmentation: Arc<Segmentation>,
        /// What is corrected in the pores.
        corrections: Arc<Corrections>,
        /// What of the picture can be used.
        usable: Arc<Usable>,
        /// By what it is measured.
        basis: Basis,
    },
    /// Make new figures at another scale out of what was already seen.
    Figure {
        /// The picture.
        photo: Arc<Photo>,
        /// The area that was traced.
        area: Area,
        /// What was seen in it.
        traced: Arc<Traced>,
        /// What of it can be used.
        usable: Arc<Usable>,
        /// With the new scale.
        basis: Basis,
    },
}

/// How a job came out.
pub enum Outcome {
    /// A photo was read.
    Opened {
        /// The photo.
        photo: Arc<Photo>,
        /// It at the size of a screen.
        overview: Arc<Overview>,
        /// What of it can be used.
        usable: Arc<Usable>,
    },
    /// What could be the scale bar, the longest first.
    Bars(Vec<Bar>),
    /// A ruler was read, or cannot be.
    Ruler(Arc<RulerRead>),
    /// A photo was straightened.
    Straightened(Arc<Flat>),
    /// Figures are there.
    Measured(Box<Results>),
    /// It came to nothing; the sentence says why and what to do.
    Failed(String),
    /// It was stopped.
    Cancelled,
}

/// What the worker tells while it works.
pub enum Report {
    /// A stage of the work has begun.
    Stage(Stage),
    /// The job is over.
    Finished(Outcome),
    /// After measuring: what outlines can be previewed from, where there are any.
    Preview(Option<Arc<Preview>>),
}

struct Request {
    generation: u64,
    cancel: Arc<AtomicBool>,
    job: Job,
}

/// The thread that does the long work, seen from the window's side.
pub struct Worker {
    requests: Sender<Request>,
    reports: Receiver<(u64, Report)>,
    generation: u64,
    cancel: Arc<AtomicBool>,
}

impl Worker {
    /// Starts the thread.
    ///
    /// # Errors
    /// When the system gives no thread.
    pub fn start(wake: Wake) -> std::io::Result<Self> {
        let (requests, inbox) = channel();
        let (outbox, reports) = channel();
        thread::Builder::new()
            .name("poreline-worker".to_owned())
            .spawn(move || work(&inbox, &outbox, &wake))?;
        Ok(Self {
            requests,
            reports,
            generation: 0,
            cancel: Arc::default(),
        })
    }

    /// Asks for a job. Whatever was asked before is stopped, and its answer will not be heard.
    pub fn submit(&mut self, job: Job) {
        self.cancel();
        let request = Request {
            generation: self.generation,
            cancel: Arc::clone(&self.cancel),
            job,
        };
        // The worker lives as long as this sender, and a panic inside a job is caught there.
        drop(self.requests.send(request));
    }

    /// Stops what is running; nothing more will be heard of it.
    pub fn cancel(&mut self) {
        self.cancel.store(true, Ordering::Relaxed);
        self.cancel = Arc::default();
        self.generation += 1;
    }

    /// What was reported on the newest request since the last look, in order.
    pub fn reports(&mut self) -> Vec<Report> {
        self.reports
            .try_iter()
            .filter(|(generation, _)| *generation == self.generation)
            .map(|(_, report)| report)
            .collect()
    }
}

impl Drop for Worker {
    fn drop(&mut self) {
        self.cancel.store(true, Ordering::Relaxed);
    }
}

fn work(inbox: &Receiver<Request>, outbox: &Sender<(u64, Report)>, wake: &Wake) {
    let mut preview: Option<Arc<Preview>> = None;
    while let Ok(first) = inbox.recv() {
        let request = inbox.try_iter().last().unwrap_or(first);
        let Request {
            generation,
            cancel,
            job,
        } = request;
        let outbox = outbox.clone();
        let tell = |stage: Stage| {
            drop(outbox.send((generation, Report::Stage(stage))));
            wake();
        };
        let progress = Progress::new(&cancel, &tell);
        // A fault in the engine must not leave the window waiting for an answer for ever.
        let outcome = catch_unwind(AssertUnwindSafe(|| run(job, &progress)))
            .unwrap_or_else(|_| Outcome::Failed(text!("poreline-met-a-fault-of-its").to_owned()));
        let traced = match &outcome {
            Outcome::Measured(results) => Some(Arc::clone(&results.traced)),
            _ => None,
        };
        drop(outbox.send((generation, Report::Finished(outcome))));
        wake();
        if let Some(traced) = traced
            && !cancel.load(Ordering::Relaxed)
        {
            preview = preview_of(&traced, preview.take());
            drop(outbox.send((generation, Report::Preview(preview.clone()))));
            wake();
        }
    }
}

/// What outlines are previewed from: what is there already, where it is of the same frame.
fn preview_of(traced: &Traced, before: Option<Arc<Preview>>) -> Option<Arc<Preview>> {
    let phase = traced.surface.kind.regions()?;
    let segmentation = &traced.segmentation;
    before
        .filter(|preview| preview.is_of(segmentation, phase))
        .or_else(|| Some(Arc::new(Preview::of(segmentation, phase))))
}

fn run(job: Job, progress: &Progress<'_>) -> Outcome {
    match job {
        Job::Open(path) => match photo::open(&path) {
            Ok(photo) => match usable::survey(&photo, &Area::default(), progress) {
                Ok(usable) => Outcome::Opened {
                    overview: Arc::new(Overview::of(&photo.rgb)),
                    usable: Arc::new(usable),
                    photo: Arc::new(photo),
                },
                Err(Cancelled) => Outcome::Cancelled,
            },
            Err(error) => Outcome::Failed(sentence(&error)),
        },
        Job::Seek { photo, sought } => seek(&photo, sought, progress),
        Job::Measure {
            photo,
            area,
            corrections,
            basis,
            usable,
        } => {
            let usable = match area.outline {
                Outline::WholePhoto => usable,
                // Shares and a verdict of the part that was drawn, not of the photo about it.
                Outline::Rectangle(_) | Outline::Polygon(_) => {
                    match usable::survey(&photo, &area, progress) {
                        Ok(usable) => Arc::new(usable),
                        Err(Cancelled) => return Outcome::Cancelled,
                    }
                }
            };
            match Segmentation::of(&photo.light, &area, progress) {
                Ok(seen) => traced(
                    photo,
                    area,
                    &Arc::new(seen),
                    &corrections,
                    usable,
                    basis,
                    progress,
                ),
                Err(error) => failed(&error.into()),
            }
        }
        Job::Correct {
            photo,
            area,
            segmentation,
            corrections,
            usable,
            basis,
        } => traced(
            photo,
            area,
            &segmentation,
            &corrections,
            usable,
            basis,
            progress,
        ),
        Job::Figure {
            photo,
            area,
            traced,
            usable,
            basis,
        } => figures(photo, area, traced, usable, basis),
    }
}

/// Outlines and figures from what was segmented.
fn traced(
    photo: Arc<Photo>,
    area: Area,
    segmentation: &Arc<Segmentation>,
    corrections: &Corrections,
    usable: Arc<Usable>,
    basis: Basis,
    progress: &Progress<'_>,
) -> Outcome {
    match crate::trace_corrected(&photo, &area, segmentation, corrections, progress) {
        Ok(traced) => figures(photo, area, Arc::new(traced), usable, basis),
        Err(error) => failed(&error),
    }
}

fn failed(error: &MeasureError) -> Outcome {
    match error {
        MeasureError::Cancelled(_) => Outcome::Cancelled,
        MeasureError::Area(_) => Outcome::Failed(sentence(error)),
    }
}

fn seek(photo: &Photo, sought: Sought, progress: &Progress<'_>) -> Outcome {
    match sought {
        Sought::Bar => match bar::find(photo, progress) {
            Ok(Search::Nothing) => Outcome::Bars(Vec::new()),
            Ok(Search::One(bar)) => Outcome::Bars(vec![bar]),
            Ok(Search::Several(bars)) => Outcome::Bars(bars),
            Err(Cancelled) => Outcome::Cancelled,
        },
        Sought::Ruler(line, between) => read(photo, line, between, progress),
        Sought::Plane(source) => match Flat::of(photo, source, progress) {
            Ok(flat) => Outcome::Straightened(Arc::new(flat)),
            Err(PlaneError::Cancelled(_)) => Outcome::Cancelled,
            Err(error) => Outcome::Failed(sentence(&error)),
        },
    }
}

fn read(photo: &Photo, line: [Point; 2], between: Between, progress: &Progress<'_>) -> Outcome {
    let result = match ruler::read(photo, line, between, progress) {
        Ok(reading) => Ok(reading),
        Err(RulerError::Cancelled(_)) => return Outcome::Cancelled,
        Err(RulerError::Ambiguous(possible)) => Err(scale_words::ambiguous(&possible)),
        Err(error) => Err(sentence(&error)),
    };
    Outcome::Ruler(Arc::new(RulerRead {
        line,
        between,
        result,
    }))
}

fn figures(
    photo: Arc<Photo>,
    area: Area,
    traced: Arc<Traced>,
    usable: Arc<Usable>,
    basis: Basis,
) -> Outcome {
    let mut measurement = crate::figure(&photo, &area, &traced, basis.scale);
    if let Some(note) = findings::unusable_parts(&area, &usable) {
        measurement.findings.add(note);
    }
    if let Some(white) = &basis.white {
        measurement.refer_to(white);
    }
    basis.complete(&mut measurement.findings);
    Outcome::Measured(Box::new(Results::of(
        photo,
        area,
        traced,
        usable,
        basis,
        measurement,
    )))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    /// A worker, and where it tells that there is something to fetch.
    fn worker() -> (Worker, Receiver<()>) {
        let (bell, rung) = channel();
        let wake = Arc::new(move || {
            let _ = bell.send(());
        });
        (Worker::start(wake).expect("a thread"), rung)
    }

    fn failures(worker: &mut Worker) -> Vec<String> {
        let reports = worker.reports().into_iter();
        reports
            .filter_map(|report| match report {
                Report::Finished(Outcome::Failed(why)) => Some(why),
                _ => None,
            })
            .collect()
    }

    #[test]
    fn only_the_newest_request_is_answered() {
        let (mut worker, rung) = worker();
        for name in ["first.jpg", "second.jpg", "third.jpg"] {
            worker.submit(Job::Open(PathBuf::from(name)));
        }
        let mut heard = Vec::new();
        while heard.is_empty() {
            rung.recv_timeout(Duration::from_mins(1))
                .expect("an answer");
            heard.extend(failures(&mut worker));
        }
        assert_eq!(heard.len(), 1);
        assert!(heard[0].contains("third.jpg"), "{heard:?}");
    }

    #[test]
    fn nothing_is_heard_of_what_was_cancelled() {
        let (mut worker, rung) = worker();
        worker.submit(Job::Open(PathBuf::from("first.jpg")));
        worker.cancel();
        rung.recv_timeout(Duration::from_mins(1))
            .expect("the worker's call");
        assert!(worker.reports().is_empty());
    }
}
