//! The work itself: many photos, one on each core, as many at once as memory allows.

use super::derive::in_one;
use super::glances::Glances;
use super::list::{Listed, Listing, Part};
use super::memory::{Budget, needed, needed_at};
use super::no_photo::{state_of, tells_of_the_bytes};
use super::record::{Key, Record, Trouble};
use super::results::{Results, ResultsError};
use super::run_list::{Extras, RunList, Seen, State};
use crate::area::Area;
use crate::basis::Basis;
use crate::export::{json, overlay, pore_table, preview};
use crate::geometry::Rect;
use crate::photo::{self, Glance, Photo, sha256};
use crate::progress::Progress;
use crate::segmentation::{MOTTLING, ring};
use crate::settings::{Measured, NotMeasured, Settings, photo_cause_and_remedy};
use std::io;
use std::num::NonZeroUsize;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;

/// Longer side of the small picture of each photo, px.
const SMALL_PX: u32 = 320;
/// Longer side of a picture with what was found, px.
const OVERLAY_PX: u32 = 1600;
/// Ending of the small picture.
pub(super) const SMALL: &str = "small.jpg";
/// Ending of the picture with what was found.
pub(super) const OVERLAY: &str = "overlay.jpg";
/// Ending of the table of pores.
pub(super) const PORES: &str = "pores.csv";

/// What is to be done.
#[derive(Debug, Clone)]
pub struct Batch<'a> {
    /// The files.
    pub listing: &'a Listing,
    /// Which of them.
    pub part: Part,
    /// By what they are measured.
    pub settings: &'a Settings,
    /// What is made beside the records.
    pub extras: Extras,
    /// How many photos are measured at a time at most.
    pub threads: NonZeroUsize,
    /// How much memory they may take together, bytes.
    pub memory: u64,
    /// What files told before, so that a watched folder need not be read anew each time.
    pub glances: &'a Glances,
}

/// What is told of one file as soon as it is done.
#[derive(Debug, Clone)]
pub struct Told<'a> {
    /// Its place among the part's files, from 0.
    pub at: usize,
    /// What became of it.
    pub seen: &'a Seen,
    /// Whether that was known from an earlier run.
    pub was_known: bool,
    /// What was found, or why nothing was, where there is a record.
    pub record: Option<&'a Record>,
}

impl Told<'_> {
    /// Why nothing was found on it, and what to do, where it is a photo.
    #[must_use]
    pub fn trouble(&self) -> Option<String> {
        match &self.seen.state {
            State::Failed { cause, remedy } => Some(in_one(cause, remedy)),
            State::NoPhoto { .. } => None,
            State::Kept { .. } => {
                let trouble = self.record?.trouble.as_ref()?;
                Some(in_one(&trouble.cause, &trouble.remedy))
            }
        }
    }
}

/// Why a run did not come to its end. What was measured is kept.
#[derive(Debug, thiserror::Error)]
pub enum RunError {
    /// The person who started it stopped it.
    #[error("stopped; what was measured is kept, so start again the same way to go on")]
    Stopped,
    /// Results could not be written.
    #[error(transparent)]
    Results(#[from] ResultsError),
    /// The system gives no threads.
    #[error("the work could not be begun: {0}. Close other programs, or allow fewer threads")]
    Threads(String),
}

impl Batch<'_> {
    /// Files that are this part's, in the order of their names.
    #[must_use]
    pub fn files(&self) -> Vec<&Listed> {
        self.part.share(&self.listing.files).collect()
    }

    /// Measures what has no record yet, and keeps the list of what became of each file. `tell` is called
    /// as files are done, from several threads, in no order; soon after `stop` becomes true the work ends.
    ///
    /// # Errors
    /// [`RunError`]; what is wrong with a photo is none.
    pub fn run(
        &self,
        results: &Results,
        stop: &AtomicBool,
        tell: &(dyn Fn(Told<'_>) + Sync),
    ) -> Result<RunList, RunError> {
        let files = self.files();
        let work = Work {
            batch: self,
            results,
            settings_sha256: self.settings.digest(),
            budget: Budget::new(self.memory),
            stop,
        };
        let closed: Vec<Seen> = self.closed().collect();
        let place = places(&files, &closed);
        for seen in &closed {
            tell(Told {
                at: place(&seen.name),
                seen,
                was_known: false,
                record: None,
            });
        }
        let next = AtomicUsize::new(0);
        let seen: Mutex<Vec<Option<Seen>>> = Mutex::new(vec![None; files.len()]);
        let failed: Mutex<Option<RunError>> = Mutex::new(None);
        let one_after_another = |pool: rayon::ThreadPool| {
            while !stop.load(Ordering::Relaxed) && lock(&failed).is_none() {
                let at = next.fetch_add(1, Ordering::Relaxed);
                let Some(file) = files.get(at) else { return };
                match pool.install(|| work.one(file)) {
                    Ok((now, record, was_known)) => {
                        tell(Told {
                            at: place(&now.name),
                            seen: &now,
                            was_known,
                            record: record.as_ref(),
                        });
                        lock(&seen)[at] = Some(now);
                    }
                    Err(error) => {
                        lock(&failed).get_or_insert(error);
                    }
                }
            }
        };
        thread::scope(|scope| {
            for number in 0..self.threads.get().min(files.len().max(1)) {
                // A photo keeps to one thread; the others measure other photos.
                let pool = rayon::ThreadPoolBuilder::new()
                    .num_threads(1)
                    .thread_name(move |_| format!("poreline-batch-{number}"))
                    .build();
                match pool {
                    Ok(pool) => {
                        let go = &one_after_another;
                        scope.spawn(move || go(pool));
                    }
                    Err(error) => {
                        lock(&failed).get_or_insert(RunError::Threads(error.to_string()));
                    }
                }
            }
        });
        if let Some(error) = lock(&failed).take() {
            return Err(error);
        }
        let seen = seen.into_inner().unwrap_or_else(PoisonError::into_inner);
        let photos: Option<Vec<Seen>> = seen.into_iter().collect();
        let Some(mut photos) = photos else {
            return Err(RunError::Stopped);
        };
        photos.extend(closed);
        photos.sort_by(|a, b| a.name.cmp(&b.name));
        let list = RunList::new(
            self.settings.to_json(),
            work.settings_sha256,
            self.part,
            self.list_digest(),
            self.extras,
            photos,
        );
        results.keep_list(&list)?;
        Ok(list)
    }

    /// Folders that could not be read are the first part's to tell.
    fn closed(&self) -> impl Iterator<Item = Seen> {
        let told = if self.part.number() == 1 {
            &self.listing.closed[..]
        } else {
            &[]
        };
        told.iter().map(|closed| Seen {
            name: closed.name.clone(),
            state: State::Failed {
                cause: format!("this folder or link cannot be followed: {}", closed.cause),
                remedy: "allow reading it, or leave it out".to_owned(),
            },
        })
    }

    /// How long the whole list is, and a digest of its names.
    fn list_digest(&self) -> (usize, String) {
        let names: Vec<&str> = (self.listing.files.iter())
            .map(|file| file.name.as_str())
            .collect();
        (names.len(), sha256(names.join("\n").as_bytes()))
    }
}

/// Where each name stands in the order of all names.
fn places(files: &[&Listed], closed: &[Seen]) -> impl Fn(&str) -> usize + Sync + use<> {
    let mut names: Vec<String> = (files.iter().map(|file| &file.name))
        .chain(closed.iter().map(|seen| &seen.name))
        .cloned()
        .collect();
    names.sort_unstable();
    move |name| names.partition_point(|other| other.as_str() < name)
}

/// What all threads share.
struct Work<'a> {
    batch: &'a Batch<'a>,
    results: &'a Results,
    settings_sha256: String,
    budget: Budget,
    stop: &'a AtomicBool,
}

type Done = (Seen, Option<Record>, bool);

impl Work<'_> {
    /// What becomes of one file.
    fn one(&self, file: &Listed) -> Result<Done, RunError> {
        let seen = |state: State| Seen {
            name: file.name.clone(),
            state,
        };
        let glance = match self.batch.glances.of(&file.path) {
            Ok(glance) => glance,
            Err(error) => return Ok((seen(state_of(&error)), None, false)),
        };
        let key = Key {
            photo_sha256: glance.sha256.clone(),
            settings_sha256: self.settings_sha256.clone(),
        };
        if let Some(record) = self.known(&key) {
            let state = State::Kept { record: key.word() };
            return Ok((seen(state), Some(record), true));
        }
        match self.fresh(file, &glance, key) {
            Ok((key, record)) => {
                self.results.keep(&key, &record)?;
                let state = State::Kept { record: key.word() };
                Ok((seen(state), Some(record), false))
            }
            Err(Unkept::Failed(Trouble { cause, remedy })) => {
                Ok((seen(State::Failed { cause, remedy }), None, false))
            }
            Err(Unkept::Run(error)) => Err(error),
        }
    }

    /// The record of an earlier run, where all that is wanted was made with it.
    fn known(&self, key: &Key) -> Option<Record> {
        let record = self.results.record(key)?;
        let word = key.word();
        let is_there = |ending: &str| self.results.path_of(&word, ending).is_file();
        let extras = self.batch.extras;
        let is_whole = record.findings.is_none()
            || is_there(SMALL)
                && (!extras.pores || is_there(PORES))
                && (!extras.overlays || is_there(OVERLAY));
        is_whole.then_some(record)
    }

    /// Measures a photo once there is room for it. The key is that of the bytes that were measured, even
    /// where the file changed since it was looked at.
    fn fresh(&self, file: &Listed, glance: &Glance, key: Key) -> Result<(Key, Record), Unkept> {
        let size = match &glance.size_px {
            Ok(size) => *size,
            Err(error) => {
                let trouble = trouble(photo_cause_and_remedy(error));
                let record = Record::failed(&key, trouble);
                return Ok((key, record));
            }
        };
        let mut bytes = needed(glance, size);
        loop {
            let _room = self
                .budget
                .wait_for(bytes)
                .map_err(|error| Unkept::Failed(split(&error.to_string())))?;
            let measured = || self.measured(&file.path, glance, key.clone(), bytes);
            match catch_unwind(AssertUnwindSafe(measured)) {
                // All is given back before more is waited for, so that no two wait for each other.
                Ok(Ok(Measuring::Finer { needed })) => bytes = needed,
                Ok(Ok(Measuring::Done(key, record))) => return Ok((key, *record)),
                Ok(Err(unkept)) => return Err(unkept),
                Err(_) => {
                    return Err(Unkept::Failed(Trouble {
                        cause: "measuring it broke off, which is a fault of Poreline".to_owned(),
                        remedy: "please report it, with the photo".to_owned(),
                    }));
                }
            }
        }
    }

    /// Measures a photo with so many bytes of memory.
    fn measured(
        &self,
        path: &Path,
        glance: &Glance,
        mut key: Key,
        bytes: u64,
    ) -> Result<Measuring, Unkept> {
        let photo = match photo::open(path) {
            Ok(photo) => photo,
            Err(error) => {
                let trouble = trouble(photo_cause_and_remedy(&error));
                return if tells_of_the_bytes(&error) {
                    let record = Record::failed(&key, trouble);
                    Ok(Measuring::Done(key, Box::new(record)))
                } else {
                    Err(Unkept::Failed(trouble))
                };
            }
        };
        key.photo_sha256.clone_from(&photo.sha256);
        let tell = |_| {};
        let progress = Progress::new(self.stop, &tell);
        let settings = self.batch.settings;
        let basis = match settings.basis(&photo, &progress) {
            Ok(basis) => {
                let needed = needed_by(basis.picture(&photo), glance);
                if needed > bytes {
                    return Ok(Measuring::Finer { needed });
                }
                Ok(basis)
            }
            Err(error) => Err(error),
        };
        let measured = basis.and_then(|basis| {
            let measured = settings.measure_by(&photo, &basis, &progress)?;
            Ok((basis, measured))
        });
        let record = match measured {
            Ok((basis, measured)) => self.found(&key, &photo, &basis, measured)?,
            Err(error) if error.is_cancelled() => return Err(Unkept::Run(RunError::Stopped)),
            Err(error) => Record::failed(&key, trouble(error.cause_and_remedy())),
        };
        Ok(Measuring::Done(key, Box::new(record)))
    }

    /// The findings, and what is made beside them.
    fn found(
        &self,
        key: &Key,
        photo: &Photo,
        basis: &Basis,
        measured: Measured,
    ) -> Result<Record, Unkept> {
        let Measured {
            mut measurement,
            blur_px,
            ..
        } = measured;
        let word = key.word();
        // Nothing that is kept names the file.
        measurement.findings.photo.path = PathBuf::new();
        let drawn = |error: image::ImageError| {
            Unkept::Failed(split(&format!(
                "its picture could not be made: {error}; start the batch again"
            )))
        };
        let small = preview::jpeg(&photo.rgb, SMALL_PX).map_err(drawn)?;
        self.results.write_beside(&word, SMALL, &small.jpeg)?;
        if self.batch.extras.pores {
            let table =
                pore_table::csv(&measurement.regions, &basis.scale).map_err(ResultsError::from)?;
            self.results.write_beside(&word, PORES, &table)?;
        }
        if self.batch.extras.overlays {
            let area = &measurement.findings.area.drawn;
            let picture = overlay::draw(basis.picture(photo), area, &measurement);
            let smaller = preview::jpeg(&picture, OVERLAY_PX).map_err(drawn)?;
            self.results.write_beside(&word, OVERLAY, &smaller.jpeg)?;
        }
        basis.complete(&mut measurement.findings);
        Ok(Record::found(
            key,
            json::findings(&measurement.findings),
            blur_px,
        ))
    }
}

/// How many bytes a picture takes by the spacing that its spectrum tells.
fn needed_by(picture: &Photo, glance: &Glance) -> u64 {
    let size = picture.light.dimensions();
    let whole = Rect::of_size(size.0, size.1);
    let spacing_px = ring(&picture.light, &Area::default(), whole)
        .filter(|ring| ring.modulation >= MOTTLING)
        .map_or(f64::INFINITY, |ring| ring.spacing_px);
    needed_at(glance, size, spacing_px)
}

/// How far measuring a photo came.
enum Measuring {
    /// There is something to be kept of it.
    Done(Key, Box<Record>),
    /// Its pores are so fine that it takes more memory than it was let in for.
    Finer {
        /// Bytes.
        needed: u64,
    },
}

/// Why nothing is kept of a photo.
enum Unkept {
    /// What may be otherwise next time.
    Failed(Trouble),
    /// The run cannot go on.
    Run(RunError),
}

impl From<ResultsError> for Unkept {
    fn from(error: ResultsError) -> Self {
        Self::Run(error.into())
    }
}

impl From<NotMeasured> for Trouble {
    fn from(error: NotMeasured) -> Self {
        trouble(error.cause_and_remedy())
    }
}

fn trouble((cause, remedy): (String, String)) -> Trouble {
    Trouble { cause, remedy }
}

fn split(message: &str) -> Trouble {
    let (cause, remedy) = message.split_once("; ").unwrap_or((message, ""));
    trouble((cause.to_owned(), remedy.to_owned()))
}

pub(super) fn lock<T>(mutex: &Mutex<T>) -> std::sync::MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Cores of this machine that may be used.
///
/// # Errors
/// Where the system does not tell.
pub fn cores() -> io::Result<NonZeroUsize> {
    thread::available_parallelism()
}
