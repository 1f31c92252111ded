//! A folder of photos measured as the open photo is, on threads of its own, while one works on.

use super::scale_setting::ScaleWay;
use super::{Session, Tone, Wake};
use crate::area::{Area, Outline};
use crate::basis::PlaneSource;
use crate::batch::{
    Batch, CONTACT_SHEET, Entering, Extras, Glances, Grouping, Listing, Made, Pace, Part, Results,
    RunError, Told, cores, half_of_the_machine,
};
use crate::corrections::Corrections;
use crate::session::format;
use crate::settings::{ScaleSource, Settings};
use crate::units::Millimetres;
use crate::wording::text;
use jiff::ZonedDateTime;
use std::fmt;
use std::num::NonZeroUsize;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

/// Failures that are told while it is under way; all of them stand in a file at its end.
const TOLD: usize = 20;

/// What is asked for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
#[expect(clippy::struct_excessive_bools, reason = "each is asked for or not")]
pub struct Folder {
    /// The folder of photos, as typed.
    pub photos: String,
    /// The folder for the results, as typed; one beside the photos where nothing is typed.
    pub results: String,
    /// Whether the area of the open photo is measured on each, at the same place.
    pub has_area: bool,
    /// Whether a table of all pores is made.
    pub pores: bool,
    /// Whether pictures with outlines are made.
    pub overlays: bool,
    /// Where the catalogue number of the voucher stands in a photo's name, `{voucher}_*`.
    pub pattern: String,
    /// Whether the findings are attached to the vouchers of the open book.
    pub into_book: bool,
}

impl Folder {
    /// The folder for the results: the one typed, or else one beside the photos.
    #[must_use]
    pub fn results_folder(&self) -> PathBuf {
        if self.results.trim().is_empty() {
            let photos = self.photos.trim().trim_end_matches(['/', '\\']);
            PathBuf::from(format!("{photos}-results"))
        } else {
            PathBuf::from(self.results.trim())
        }
    }
}

/// What is wanted of a folder of photos.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FolderCommand {
    /// Ask for this from now on.
    Ask(Folder),
    /// Begin, or go on where it was left.
    Start,
    /// Stop soon; what was measured is kept.
    Stop,
}

/// How far it is.
#[derive(Debug, Clone, PartialEq)]
pub struct FolderProgress {
    /// Share of the files that are done, 0–1.
    pub share: f32,
    /// The same in words, with pace and time left.
    pub words: String,
    /// What could not be measured and why, the newest first.
    pub failures: Vec<String>,
}

/// What came of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FolderMade {
    /// In words.
    pub words: String,
    /// What stands out among the photos.
    pub remarks: Vec<String>,
    /// The folder of results.
    pub folder: PathBuf,
    /// The page that shows all photos.
    pub contact_sheet: PathBuf,
}

/// What the threads have told so far.
#[derive(Debug, Default)]
struct Heard {
    files: usize,
    pace: Pace,
    failures: Vec<String>,
    outcome: Option<Result<FolderMade, Ended>>,
}

/// Why it did not come to its end.
#[derive(Debug)]
enum Ended {
    Stopped,
    Failed(String),
}

/// A batch under way.
struct Running {
    stop: Arc<AtomicBool>,
    heard: Arc<Mutex<Heard>>,
    began: Instant,
    thread: Option<JoinHandle<()>>,
}

impl Drop for Running {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
        if let Some(thread) = self.thread.take() {
            // A fault of the thread was told as its outcome, or can be told to nobody any more.
            drop(thread.join());
        }
    }
}

/// A folder of photos: what is asked, what is under way and what came last.
#[derive(Default)]
pub(super) struct FolderWork {
    asked: Folder,
    running: Option<Running>,
    made: Option<FolderMade>,
}

impl fmt::Debug for FolderWork {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("FolderWork")
            .field("asked", &self.asked)
            .field("is_running", &self.running.is_some())
            .finish_non_exhaustive()
    }
}

/// All that a thread needs.
struct Plan {
    photos: PathBuf,
    results: PathBuf,
    settings: Settings,
    extras: Extras,
    grouping: Option<Grouping>,
    book: Option<(PathBuf, String)>,
}

impl Session {
    /// What is asked of a folder of photos.
    #[must_use]
    pub const fn folder(&self) -> &Folder {
        &self.folder.asked
    }

    /// What came of the last folder that was measured to its end.
    #[must_use]
    pub const fn folder_made(&self) -> Option<&FolderMade> {
        self.folder.made.as_ref()
    }

    /// How far a folder is; `None` where none is under way.
    #[must_use]
    pub fn folder_progress(&self) -> Option<FolderProgress> {
        let running = self.folder.running.as_ref()?;
        let heard = running.heard.lock().unwrap_or_else(PoisonError::into_inner);
        Some(progress(&heard, running.began.elapsed()))
    }

    /// Why a folder cannot be measured now; `None` when it can.
    #[must_use]
    pub fn why_not_folder(&self) -> Option<String> {
        if self.folder.running.is_some() {
            return Some(text!("a-folder-is-being-measured").to_owned());
        }
        if self.document.photo.is_none() {
            return Some(text!("open-one-of-its-photos-first").to_owned());
        }
        if let Err(why) = self.scale_of_folder() {
            return Some(why);
        }
        let asked = &self.folder.asked;
        if asked.photos.trim().is_empty() {
            return Some(text!("type-the-folder-of-photos-first").to_owned());
        }
        if asked.has_area && self.why_no_area_of_folder().is_some() {
            return self.why_no_area_of_folder().map(str::to_owned);
        }
        if asked.into_book && self.record().book().is_none() {
            return Some(text!("open-a-book-first").to_owned());
        }
        if asked.into_book && asked.pattern.trim().is_empty() {
            return Some(text!("say-where-the-voucher-stands").to_owned());
        }
        grouping(&asked.pattern).err()
    }

    /// Why the area of the open photo cannot be measured on each photo; `None` when it can.
    #[must_use]
    pub fn why_no_area_of_folder(&self) -> Option<&'static str> {
        if self.document.scale.flat.is_some() {
            Some(text!("the-area-lies-on-a-straightened"))
        } else if matches!(self.document.area.outline, Outline::WholePhoto) {
            Some(text!("draw-an-area-first"))
        } else {
            None
        }
    }

    /// Where each photo's scale comes from: found anew on each where it can be, or else that of the open
    /// photo, as a set-up.
    fn scale_of_folder(&self) -> Result<ScaleSource, String> {
        let setting = &self.document.scale;
        if setting.scale().is_none() {
            return Err(text!("set-the-scale-first").to_owned());
        }
        match setting.way {
            ScaleWay::Bar => match setting.bar_length.parse::<Millimetres>() {
                Ok(length) => Ok(ScaleSource::Bar(length)),
                Err(error) => Err(super::document::sentence(&error)),
            },
            ScaleWay::Card => Ok(ScaleSource::Plane(PlaneSource::Card)),
            ScaleWay::Stated => Ok(ScaleSource::File),
            _ => Ok(ScaleSource::SetUp {
                set_up: Box::new(self.set_up_to_carry()?),
                fits: false,
            }),
        }
    }

    fn plan(&self) -> Result<Plan, String> {
        let asked = &self.folder.asked;
        let outline = if asked.has_area {
            self.document.area.outline.clone()
        } else {
            Outline::WholePhoto
        };
        let book = self.record().book().filter(|_| asked.into_book);
        Ok(Plan {
            photos: PathBuf::from(asked.photos.trim()),
            results: asked.results_folder(),
            settings: Settings {
                scale: self.scale_of_folder()?,
                scale_is_right: false,
                area: Area {
                    outline,
                    ..Area::default()
                },
                whole_photo: false,
                corrections: Corrections {
                    least_wall: self.document.corrections.least_wall,
                    ..Corrections::default()
                },
                white: None,
            },
            extras: Extras {
                pores: asked.pores,
                overlays: asked.overlays,
                parquet: false,
            },
            grouping: grouping(&asked.pattern)?,
            book: book.map(|book| {
                (
                    book.folder().to_owned(),
                    self.record().measured_by().to_owned(),
                )
            }),
        })
    }

    pub(super) fn work_on_folder(&mut self, command: FolderCommand) {
        match command {
            FolderCommand::Ask(asked) => self.folder.asked = asked,
            FolderCommand::Start => self.start_folder(),
            FolderCommand::Stop => {
                if let Some(running) = &self.folder.running {
                    running.stop.store(true, Ordering::Relaxed);
                }
            }
        }
    }

    fn start_folder(&mut self) {
        if self.why_not_folder().is_some() {
            return;
        }
        let plan = match self.plan() {
            Ok(plan) => plan,
            Err(why) => return self.notify(Tone::Trouble, why),
        };
        let stop = Arc::new(AtomicBool::new(false));
        let heard = Arc::new(Mutex::new(Heard::default()));
        let (stops, hears, wake) = (
            Arc::clone(&stop),
            Arc::clone(&heard),
            Arc::clone(&self.wake),
        );
        let thread = thread::Builder::new()
            .name("poreline-folder".to_owned())
            .spawn(move || {
                let outcome = carry_out(&plan, &stops, &hears, &wake);
                hears.lock().unwrap_or_else(PoisonError::into_inner).outcome = Some(outcome);
                wake();
            });
        match thread {
            Ok(thread) => {
                self.folder.made = None;
                self.folder.running = Some(Running {
                    stop,
                    heard,
                    began: Instant::now(),
                    thread: Some(thread),
                });
            }
            Err(error) => self.notify(
                Tone::Trouble,
                text!("the-folder-was-not-begun", error = error),
            ),
        }
    }

    /// Takes what came of a folder.
    pub(super) fn hear_of_folder(&mut self) {
        let Some(running) = &self.folder.running else {
            return;
        };
        let outcome = running
            .heard
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .outcome
            .take();
        let is_gone = running.thread.as_ref().is_some_and(JoinHandle::is_finished);
        let outcome = match outcome {
            Some(outcome) => outcome,
            None if is_gone => Err(Ended::Failed(
                text!("poreline-met-a-fault-of-its").to_owned(),
            )),
            None => return,
        };
        self.folder.running = None;
        match outcome {
            Ok(made) => {
                self.notify(Tone::Good, made.words.clone());
                if self.folder.asked.into_book && self.why_not_book().is_none() {
                    self.work_on_book(super::record::BookCommand::ReadAnew);
                }
                self.folder.made = Some(made);
            }
            Err(Ended::Stopped) => self.notify(Tone::Good, text!("the-folder-was-stopped")),
            Err(Ended::Failed(why)) => self.notify(Tone::Trouble, why),
        }
    }
}

fn grouping(pattern: &str) -> Result<Option<Grouping>, String> {
    let pattern = pattern.trim();
    if pattern.is_empty() {
        return Ok(None);
    }
    Grouping::pattern(pattern)
        .map(Some)
        .map_err(|error| super::document::sentence(&error))
}

/// The work of the thread.
fn carry_out(
    plan: &Plan,
    stop: &AtomicBool,
    heard: &Mutex<Heard>,
    wake: &Wake,
) -> Result<FolderMade, Ended> {
    let failed = |error: &dyn std::error::Error| Ended::Failed(super::document::sentence(error));
    let listing = Listing::of_folder(&plan.photos, &plan.results).map_err(|e| failed(&e))?;
    let results = Results::open(&plan.results).map_err(|e| failed(&e))?;
    let glances = Glances::default();
    let batch = Batch {
        listing: &listing,
        part: Part::WHOLE,
        settings: &plan.settings,
        extras: plan.extras,
        threads: cores().unwrap_or(NonZeroUsize::MIN),
        memory: half_of_the_machine(),
        glances: &glances,
    };
    let lock = || heard.lock().unwrap_or_else(PoisonError::into_inner);
    lock().files = batch.files().len() + listing.closed.len();
    let tell = |told: Told<'_>| {
        let mut heard = lock();
        heard.pace.done += 1;
        heard.pace.fresh += usize::from(!told.was_known);
        if let Some(trouble) = told.trouble() {
            heard
                .failures
                .insert(0, format!("{}: {trouble}", told.seen.name));
        }
        drop(heard);
        wake();
    };
    let list = batch
        .run(&results, stop, &tell)
        .map_err(|error| match error {
            RunError::Stopped => Ended::Stopped,
            error => failed(&error),
        })?;
    let made = results
        .derive(&list, plan.grouping.as_ref())
        .map_err(|e| failed(&e))?;
    let mut words = in_words(&made);
    if let Some((book, by)) = &plan.book {
        let when = ZonedDateTime::now()
            .strftime("%Y-%m-%dT%H:%M:%S%:z")
            .to_string();
        let entered = Entering {
            book,
            when: &when,
            by: (!by.is_empty()).then_some(by.as_str()),
            in_place: false,
            add_vouchers: false,
        }
        .enter(&made.photos, &listing, &results)
        .map_err(|e| failed(&e))?;
        words.push(' ');
        words.push_str(&text!(
            "folder-attached",
            count = entered.attached,
            before = entered.already_there
        ));
        if !entered.missing.is_empty() {
            words.push(' ');
            words.push_str(&text!(
                "folder-without-vouchers",
                numbers = entered.missing.join(", ")
            ));
        }
    }
    Ok(FolderMade {
        words,
        remarks: made.remarks.iter().map(remark).collect(),
        contact_sheet: whole(&plan.results).join(CONTACT_SHEET),
        folder: whole(&plan.results),
    })
}

fn whole(path: &Path) -> PathBuf {
    std::path::absolute(path).unwrap_or_else(|_| path.to_owned())
}

fn remark(remark: &crate::batch::Remark) -> String {
    match &remark.photo {
        Some(photo) => format!("{photo}: {}", remark.text),
        None => remark.text.clone(),
    }
}

fn in_words(made: &Made) -> String {
    text!(
        "folder-measured",
        count = made.photos.len(),
        failed = made.failed,
        others = made.no_photos
    )
}

fn progress(heard: &Heard, elapsed: Duration) -> FolderProgress {
    let Pace { done, .. } = heard.pace;
    let mut words = text!("folder-files-done", done = done, files = heard.files);
    if let (Some(a_minute), Some(left)) = (
        heard.pace.a_minute(elapsed),
        heard.pace.left(heard.files, elapsed),
    ) {
        let minutes = (left.as_secs() + 30) / 60;
        words.push_str(&text!(
            "folder-pace",
            rate = format::significant(a_minute, 2),
            minutes = minutes
        ));
    }
    if !heard.failures.is_empty() {
        words.push_str(&text!("folder-failed", count = heard.failures.len()));
    }
    FolderProgress {
        share: done as f32 / heard.files.max(1) as f32,
        words,
        failures: heard.failures.iter().take(TOLD).cloned().collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::{Command, Work};
    use image::{Rgb, RgbImage};
    use std::fs;
    use tempfile::TempDir;

    /// Dark discs in rows, 20 px apart, and a first pixel that makes the file another.
    fn photo(path: &Path, mark: u8) {
        let mut picture = RgbImage::from_fn(300, 240, |x, y| {
            let (dx, dy) = ((x % 20) as f32 - 9.5, (y % 20) as f32 - 9.5);
            Rgb(if dx.hypot(dy) < 6.0 {
                [60; 3]
            } else {
                [200; 3]
            })
        });
        picture.put_pixel(0, 0, Rgb([mark; 3]));
        picture.save(path).expect("a photo");
    }

    fn photos(count: u8) -> TempDir {
        let folder = TempDir::new().expect("a folder");
        fs::create_dir(folder.path().join("drawer")).expect("a folder");
        for number in 0..count {
            photo(
                &folder.path().join(format!("drawer/AF-{number}_a.png")),
                number,
            );
        }
        folder
    }

    fn wait(session: &mut Session, mut is_over: impl FnMut(&Session) -> bool) {
        let deadline = Instant::now() + Duration::from_mins(2);
        while !is_over(session) {
            session.poll();
            assert!(Instant::now() < deadline, "it never ended");
            thread::sleep(Duration::from_millis(5));
        }
    }

    fn session(folder: &TempDir) -> Session {
        let mut session = Session::new(Arc::new(|| {})).expect("a thread");
        session.apply(Command::Open(folder.path().join("drawer/AF-0_a.png")));
        wait(&mut session, |session| *session.work() == Work::Idle);
        session
    }

    fn ask(session: &mut Session, change: impl FnOnce(&mut Folder)) {
        let mut asked = session.folder().clone();
        change(&mut asked);
        session.apply(Command::Folder(FolderCommand::Ask(asked)));
    }

    fn set_scale(session: &mut Session) {
        session.apply(Command::UseScaleWay(ScaleWay::Typed));
        session.apply(Command::TypePxPerMm("80".to_owned()));
    }

    fn start(session: &mut Session) {
        session.apply(Command::Folder(FolderCommand::Start));
    }

    fn measured(session: &mut Session) -> FolderMade {
        start(session);
        wait(session, |session| session.folder_progress().is_none());
        session.folder_made().expect("it came to its end").clone()
    }

    #[test]
    fn what_is_missing_is_told_one_after_the_other() {
        let folder = photos(1);
        let mut session = Session::new(Arc::new(|| {})).expect("a thread");
        let told = |session: &Session| session.why_not_folder().expect("something is missing");
        assert!(told(&session).contains("photos first"));
        session.apply(Command::Open(folder.path().join("drawer/AF-0_a.png")));
        wait(&mut session, |session| *session.work() == Work::Idle);
        assert!(told(&session).contains("scale"));
        set_scale(&mut session);
        assert!(told(&session).contains("folder of photos"));
        let drawer = folder.path().join("drawer").display().to_string();
        ask(&mut session, |asked| asked.photos.clone_from(&drawer));
        assert_eq!(session.why_not_folder(), None);
        assert_eq!(
            session.folder().results_folder(),
            PathBuf::from(format!("{drawer}-results"))
        );
        ask(&mut session, |asked| asked.pattern = "no braces".to_owned());
        assert!(told(&session).contains("{voucher}"));
        ask(&mut session, |asked| {
            asked.pattern = "{voucher}_*".to_owned();
        });
        assert_eq!(session.why_not_folder(), None);
        ask(&mut session, |asked| asked.has_area = true);
        assert!(told(&session).contains("area"));
        ask(&mut session, |asked| {
            asked.has_area = false;
            asked.into_book = true;
        });
        assert!(told(&session).contains("book"));
    }

    #[test]
    fn every_photo_is_measured_and_what_is_done_is_not_done_again() {
        let folder = photos(3);
        fs::write(folder.path().join("drawer/bad.png"), "no photo").expect("a file");
        fs::write(folder.path().join("drawer/notes.txt"), "notes").expect("a file");
        let mut session = session(&folder);
        set_scale(&mut session);
        let drawer = folder.path().join("drawer").display().to_string();
        ask(&mut session, |asked| {
            asked.photos = drawer;
            asked.pattern = "{voucher}_*".to_owned();
            asked.overlays = true;
        });
        let made = measured(&mut session);
        assert!(
            made.words.starts_with("3 photos of the folder measured"),
            "{}",
            made.words
        );
        assert!(made.contact_sheet.is_file());
        let summary = fs::read_to_string(made.folder.join("summary.csv")).expect("a table");
        assert_eq!(summary.lines().count(), 4);
        let vouchers = fs::read_to_string(made.folder.join("vouchers.csv")).expect("a table");
        assert!(vouchers.contains("AF-2"));
        // The same settings as the command line would take, and the same figure as the window's.
        session.apply(Command::Measure);
        wait(&mut session, |session| *session.work() == Work::Idle);
        let figure = session
            .results()
            .expect("findings")
            .measurement
            .findings
            .pores
            .clone();
        let figure = figure.expect("pores").per_mm.value;
        let findings = fs::read_to_string(made.folder.join("findings.jsonl")).expect("findings");
        for line in findings.lines() {
            let found: serde_json::Value = serde_json::from_str(line).expect("JSON");
            if let Some(value) = found.pointer("/pores/per_mm/value") {
                let value = value.as_f64().expect("a number");
                assert!((value / figure - 1.0).abs() < 0.01, "{value} {figure}");
            }
        }

        let photos_kept = || {
            fs::read_dir(made.folder.join("photos"))
                .expect("kept")
                .count()
        };
        let before = photos_kept();
        photo(&folder.path().join("drawer/AF-9_a.png"), 0);
        let again = measured(&mut session);
        assert!(again.words.starts_with("4 photos"), "{}", again.words);
        // The same bytes as another: one record for both.
        assert_eq!(photos_kept(), before);
    }

    #[test]
    fn it_stops_when_it_is_told_to_and_goes_on() {
        let folder = photos(12);
        let mut session = session(&folder);
        set_scale(&mut session);
        let drawer = folder.path().join("drawer").display().to_string();
        ask(&mut session, |asked| asked.photos = drawer);
        start(&mut session);
        wait(&mut session, |session| {
            session
                .folder_progress()
                .is_none_or(|progress| progress.share > 0.0)
        });
        session.apply(Command::Folder(FolderCommand::Stop));
        wait(&mut session, |session| session.folder_progress().is_none());
        assert!(session.folder_made().is_none());
        assert!(
            session
                .notices()
                .iter()
                .any(|notice| notice.text.contains("stopped"))
        );
        assert!(measured(&mut session).words.starts_with("12 photos"));
    }

    #[test]
    fn a_folder_that_is_not_there_is_told() {
        let folder = photos(1);
        let mut session = session(&folder);
        set_scale(&mut session);
        ask(&mut session, |asked| {
            asked.photos = "nowhere/at all".to_owned();
        });
        start(&mut session);
        wait(&mut session, |session| session.folder_progress().is_none());
        assert!(
            session
                .notices()
                .iter()
                .any(|notice| notice.text.contains("nowhere"))
        );
    }

    #[test]
    fn progress_tells_files_pace_time_left_and_failures() {
        let heard = Heard {
            files: 100,
            pace: Pace {
                done: 40,
                fresh: 20,
            },
            failures: vec!["bad.png: no photo".to_owned()],
            outcome: None,
        };
        let told = progress(&heard, Duration::from_mins(2));
        assert_eq!(
            told.words,
            "40 of 100 files, 10 a minute, about 6 minutes left, 1 not measured"
        );
        assert!((told.share - 0.4).abs() < 1e-6);
    }
}
