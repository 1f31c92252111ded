//! The photos that are open: one is worked on, the others wait as they were left.

use super::document::Document;
use super::history::History;
use super::job::Job;
use super::overview::Overview;
use super::picking::Picking;
use super::results::Results;
use super::settings::{OpenPhoto, Settings};
use super::{ScaleStanding, Session, Tone, Work, file_name};
use crate::Measurement;
use crate::demo;
use crate::photo::Photo;
use crate::segmentation::Preview;
use crate::session::carrying::Carried;
use crate::usable::Usable;
use crate::wording::text;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Pixels of photos that wait in memory with all that was found on them. Beyond that, those that were
/// left longest ago are read and measured again when they are wanted. A pixel takes some twelve bytes.
const IN_MEMORY_PX: u64 = 120_000_000;

/// The photos that are open, in the order in which they were opened.
pub(super) struct Filmstrip {
    pub(super) frames: Vec<Frame>,
    /// Which of them is worked on.
    pub(super) present: Option<usize>,
    /// Which of them is being read.
    pub(super) opening: Option<Opening>,
    /// Rises each time a photo is left.
    times_left: u64,
    /// Pixels of photos that may wait in memory.
    in_memory_px: u64,
}

impl Default for Filmstrip {
    fn default() -> Self {
        Self {
            frames: Vec::new(),
            present: None,
            opening: None,
            times_left: 0,
            in_memory_px: IN_MEMORY_PX,
        }
    }
}

/// A photo being read.
#[derive(Debug, Clone, Copy)]
pub(super) struct Opening {
    pub(super) frame: usize,
    /// Whether its frame goes again if it cannot be read.
    is_new_alone: bool,
}

/// One photo.
pub(super) struct Frame {
    path: PathBuf,
    pub(super) kept: Kept,
    /// What was carried over to it and waits for its picture.
    pub(super) carried: Carried,
    /// What stands against it, as a sentence.
    why_not: Option<String>,
}

/// What is kept of a photo.
pub(super) enum Kept {
    /// It has not been opened.
    Unopened,
    /// It is worked on, and all of it is in the session.
    Present,
    /// It was left with everything.
    Left(Box<Left>),
    /// It was left, and has to be read again.
    PutAway(Box<PutAway>),
    /// What was set on it was written down before.
    Written(Box<Settings>),
}

/// A photo as it was left.
pub(super) struct Left {
    pub(super) document: Document,
    pub(super) history: History<Document>,
    overview: Option<Arc<Overview>>,
    results: Option<Results>,
    picking: Picking,
    preview: Option<Arc<Preview>>,
    saved: bool,
    is_to_be_measured: bool,
    /// The greater, the later it was left.
    since: u64,
}

/// What was set on a photo, without its picture.
pub(super) struct PutAway {
    document: Document,
    history: History<Document>,
    sha256: String,
    standing: FrameStanding,
    phrase: Option<String>,
    settings: Settings,
}

/// How far a photo has got.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FrameStanding {
    /// It has not been looked at.
    Unopened,
    /// It cannot be read.
    Unreadable,
    /// Its scale is missing.
    NeedsScale,
    /// It can be measured.
    Ready,
    /// There are findings that are not saved.
    Measured,
    /// There are findings, saved or attached.
    Saved,
}

impl FrameStanding {
    /// In a word or two.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Unopened => text!("not-opened-yet"),
            Self::Unreadable => text!("cannot-be-read"),
            Self::NeedsScale => text!("needs-its-scale"),
            Self::Ready => text!("can-be-measured"),
            Self::Measured => text!("measured-not-saved"),
            Self::Saved => text!("saved"),
        }
    }
}

/// One photo of the strip, as it is shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FrameView {
    /// Where it lies.
    pub path: PathBuf,
    /// Its name.
    pub name: String,
    /// Whether it is the one that is worked on.
    pub is_present: bool,
    /// How far it has got.
    pub standing: FrameStanding,
    /// What was found, in the handbook's way, or what is wrong with it.
    pub told: Option<String>,
}

impl Session {
    /// The photos that are open.
    #[must_use]
    pub fn frames(&self) -> Vec<FrameView> {
        let frames = self.strip.frames.iter().enumerate();
        frames
            .map(|(at, frame)| {
                let (standing, told) = self.standing_of(frame);
                FrameView {
                    path: frame.path.clone(),
                    name: file_name(&frame.path),
                    is_present: self.strip.present == Some(at),
                    standing,
                    told,
                }
            })
            .collect()
    }

    /// The place in the strip of the photo that is worked on.
    #[must_use]
    pub const fn present_frame(&self) -> Option<usize> {
        self.strip.present
    }

    /// The next photo of the strip that can be read, or the one before.
    #[must_use]
    pub fn neighbour_frame(&self, is_next: bool) -> Option<usize> {
        let present = self.strip.present?;
        let frames = &self.strip.frames;
        let can_be_read = |at: &usize| frames[*at].why_not.is_none();
        if is_next {
            (present + 1..frames.len()).find(can_be_read)
        } else {
            (0..present).rev().find(can_be_read)
        }
    }

    /// Names of photos with findings that were not saved.
    #[must_use]
    pub fn unsaved_photos(&self) -> Vec<String> {
        let frames = self.frames().into_iter();
        frames
            .filter(|frame| frame.standing == FrameStanding::Measured)
            .map(|frame| frame.name)
            .collect()
    }

    fn standing_of(&self, frame: &Frame) -> (FrameStanding, Option<String>) {
        if let Some(why_not) = &frame.why_not {
            return (FrameStanding::Unreadable, Some(why_not.clone()));
        }
        match &frame.kept {
            Kept::Unopened => (FrameStanding::Unopened, None),
            Kept::Present => standing(&self.document, self.results.as_ref(), self.saved),
            Kept::Left(left) => standing(&left.document, left.results.as_ref(), left.saved),
            Kept::PutAway(away) => (away.standing, away.phrase.clone()),
            Kept::Written(settings) => match (settings.is_measured, settings.is_saved) {
                (true, true) => (FrameStanding::Saved, None),
                (true, false) => (FrameStanding::Measured, None),
                (false, _) => (FrameStanding::Unopened, None),
            },
        }
    }

    /// Opens a photo beside those that are open, or goes to it where it is open already.
    pub(super) fn open(&mut self, path: &Path) {
        self.record.again = None;
        if let Some(at) = self.strip.place_of(path) {
            self.go_to_frame(at);
        } else {
            let frame = self.strip.add(path.to_owned());
            self.read_frame(frame, true);
        }
    }

    /// Opens the sample photo, laid in a scratch folder.
    pub(super) fn open_sample(&mut self) {
        let folder = std::env::temp_dir().join("poreline-sample");
        match demo::lay_sample(&folder) {
            Ok(path) => self.open(&path),
            Err(error) => self.notify(
                Tone::Trouble,
                text!(
                    "the-sample-photo-could-not-be",
                    folder = folder.display(),
                    error = error
                ),
            ),
        }
    }

    /// Opens photos, and goes to the first of them.
    pub(super) fn open_all(&mut self, paths: Vec<PathBuf>) {
        if let [path] = &paths[..] {
            self.open(path);
            return;
        }
        let mut first = None;
        for path in paths {
            let at = self.strip.place_of(&path);
            let at = at.unwrap_or_else(|| self.strip.add(path));
            first.get_or_insert(at);
        }
        if let Some(first) = first {
            self.go_to_frame(first);
        }
    }

    /// Puts photos with what was set on them into the strip, and goes to one of them.
    pub(super) fn open_written(&mut self, photos: Vec<OpenPhoto>, present: Option<usize>) {
        let mut goes_to = None;
        for (i, photo) in photos.into_iter().enumerate() {
            if self.strip.place_of(&photo.path).is_some() {
                continue;
            }
            let at = self.strip.add(photo.path);
            if let Some(settings) = photo.settings {
                self.strip.frames[at].kept = Kept::Written(Box::new(settings));
            }
            if present == Some(i) || goes_to.is_none() {
                goes_to = Some(at);
            }
        }
        if let Some(at) = goes_to {
            self.go_to_frame(at);
        }
    }

    /// Goes to a photo of the strip.
    pub(super) fn go_to_frame(&mut self, at: usize) {
        if self.strip.present == Some(at) && self.strip.opening.is_none() {
            return;
        }
        let Some(frame) = self.strip.frames.get_mut(at) else {
            return;
        };
        if let Kept::Left(_) = frame.kept {
            let Kept::Left(left) = std::mem::replace(&mut frame.kept, Kept::Present) else {
                return;
            };
            self.stop_work();
            self.strip.opening = None;
            self.leave_present();
            self.strip.present = Some(at);
            self.take_up(*left);
        } else if self.strip.present == Some(at) {
            // Back to it before another was read.
            self.stop_work();
            self.strip.opening = None;
        } else {
            self.read_frame(at, false);
        }
    }

    fn read_frame(&mut self, at: usize, is_new_alone: bool) {
        let Some(frame) = self.strip.frames.get_mut(at) else {
            return;
        };
        frame.why_not = None;
        let path = frame.path.clone();
        self.notices.forget_trouble();
        self.stop_work();
        self.strip.opening = Some(Opening {
            frame: at,
            is_new_alone,
        });
        self.work = Work::Opening(path.clone());
        self.worker.submit(Job::Open(path));
    }

    /// Stops what is done on the present photo; it is begun again when the photo is worked on again.
    fn stop_work(&mut self) {
        let was_measuring = matches!(self.work, Work::Measuring(_));
        self.is_to_be_measured |= was_measuring;
        self.worker.cancel();
        self.work = Work::Idle;
        self.stopped = None;
    }

    /// Takes a photo that was read.
    pub(super) fn take_opened(
        &mut self,
        photo: Arc<Photo>,
        overview: Arc<Overview>,
        usable: Arc<Usable>,
    ) {
        let at = match self.strip.opening.take() {
            Some(opening) => opening.frame,
            None => self.strip.add(photo.path.clone()),
        };
        self.leave_present();
        self.strip.present = Some(at);
        self.document = Document::of(photo, usable);
        self.overview = Some(overview);
        let Some(frame) = self.strip.frames.get_mut(at) else {
            return;
        };
        match std::mem::replace(&mut frame.kept, Kept::Present) {
            Kept::PutAway(away) => self.take_up_again(*away),
            Kept::Written(settings) => self.begin_restoring(*settings),
            Kept::Unopened | Kept::Left(_) | Kept::Present => {}
        }
        self.remember_photo();
        if self.restoring.is_none() {
            self.take_carried();
        }
        self.take_again();
    }

    /// The photo that was to be opened cannot be read, or is not wanted any more.
    pub(super) fn leave_unopened(&mut self, why_not: Option<&str>) {
        let Some(opening) = self.strip.opening.take() else {
            return;
        };
        if opening.is_new_alone {
            self.strip.remove(opening.frame);
            return;
        }
        let Some(frame) = self.strip.frames.get_mut(opening.frame) else {
            return;
        };
        let Some(why_not) = why_not else { return };
        frame.why_not = Some(why_not.to_owned());
        // Of many that were opened together the next one serves.
        if self.strip.present.is_none() {
            let is_next = |frame: &Frame| frame.why_not.is_none();
            if let Some(next) = self.strip.frames.iter().position(is_next) {
                self.read_frame(next, false);
            }
        }
    }

    /// Takes the photo that is worked on into the strip with everything.
    fn leave_present(&mut self) {
        self.act = None;
        self.strip.times_left += 1;
        let left = Left {
            document: std::mem::take(&mut self.document),
            history: std::mem::take(&mut self.history),
            overview: self.overview.take(),
            results: self.results.take(),
            picking: std::mem::take(&mut self.picking),
            preview: self.preview.take(),
            saved: std::mem::take(&mut self.saved),
            is_to_be_measured: std::mem::take(&mut self.is_to_be_measured),
            since: self.strip.times_left,
        };
        if let Some(frame) = self
            .strip
            .present
            .take()
            .and_then(|at| self.strip.frames.get_mut(at))
        {
            frame.kept = Kept::Left(Box::new(left));
        }
        self.strip.put_away_surplus();
    }

    /// Works on a photo again that was left.
    fn take_up(&mut self, left: Left) {
        self.document = left.document;
        self.history = left.history;
        self.overview = left.overview;
        self.results = left.results;
        self.picking = left.picking;
        self.preview = left.preview;
        self.saved = left.saved;
        self.notices.forget_trouble();
        if left.is_to_be_measured {
            self.measure();
        }
        self.compare_anew();
    }

    /// Sets on a photo that was read again what had been set on it.
    fn take_up_again(&mut self, mut away: PutAway) {
        let Some(photo) = self.document.photo.clone() else {
            return;
        };
        if photo.sha256 != away.sha256 {
            self.notify(Tone::Trouble, changed());
            return;
        }
        let usable = Arc::clone(&self.document.usable_as_taken);
        for state in away.history.states_mut().chain([&mut away.document]) {
            state.photo = Some(Arc::clone(&photo));
            state.usable_as_taken = Arc::clone(&usable);
        }
        self.document = away.document;
        self.history = away.history;
        self.saved = away.settings.is_saved;
        if away.settings.is_measured {
            self.measure();
            self.record.measures_again = self.saved;
        }
    }

    /// Takes a photo out of the strip; its file stays.
    pub(super) fn close_frame(&mut self, at: usize) {
        if at >= self.strip.frames.len() {
            return;
        }
        if self.strip.opening.is_some() {
            self.stop_work();
            self.strip.opening = None;
        }
        if self.strip.present != Some(at) {
            self.strip.remove(at);
            return;
        }
        self.stop_work();
        self.leave_present();
        self.take_results(None);
        self.strip.remove(at);
        let next = at.min(self.strip.frames.len().saturating_sub(1));
        if self.strip.frames.is_empty() {
            self.is_to_be_measured = false;
        } else {
            self.go_to_frame(next);
        }
    }

    /// Findings were saved: on whichever photo they were made.
    pub(super) fn mark_saved(&mut self, measurement: &Arc<Measurement>) {
        let are_these = |results: Option<&Results>| {
            results.is_some_and(|results| Arc::ptr_eq(&results.measurement, measurement))
        };
        self.saved |= are_these(self.results.as_ref());
        for frame in &mut self.strip.frames {
            if let Kept::Left(left) = &mut frame.kept {
                left.saved |= are_these(left.results.as_ref());
            }
        }
    }

    /// All photos with what is set on them.
    pub(super) fn written(&self) -> Vec<OpenPhoto> {
        let frames = self.strip.frames.iter();
        frames
            .map(|frame| OpenPhoto {
                path: whole(&frame.path),
                settings: match &frame.kept {
                    Kept::Unopened => None,
                    Kept::Present => self.present_settings(),
                    Kept::Left(left) => {
                        Settings::of(&left.document, left.results.is_some(), left.saved)
                    }
                    Kept::PutAway(away) => Some(away.settings.clone()),
                    Kept::Written(settings) => Some(Settings::clone(settings)),
                },
            })
            .collect()
    }

    fn present_settings(&self) -> Option<Settings> {
        match &self.restoring {
            Some(restoring) => Some(restoring.clone()),
            None => Settings::of(&self.document, self.results.is_some(), self.saved),
        }
    }
}

/// What is said where a photo is not the one any more on which something was set.
pub(super) fn changed() -> &'static str {
    text!("this-is-not-the-photo-as")
}

fn whole(path: &Path) -> PathBuf {
    std::path::absolute(path).unwrap_or_else(|_| path.to_owned())
}

fn standing(
    document: &Document,
    results: Option<&Results>,
    saved: bool,
) -> (FrameStanding, Option<String>) {
    let standing = match (results, document.scale.standing()) {
        (Some(_), _) if saved => FrameStanding::Saved,
        (Some(_), _) => FrameStanding::Measured,
        (None, ScaleStanding::Set(_)) => FrameStanding::Ready,
        (None, _) => FrameStanding::NeedsScale,
    };
    (standing, results.map(|results| results.readout.title()))
}

impl Filmstrip {
    /// Puts the findings on photos that were left into the words of the language that is spoken now.
    pub(super) fn put_into_words(&mut self) {
        for frame in &mut self.frames {
            if let Kept::Left(left) = &mut frame.kept
                && let Some(results) = &mut left.results
            {
                results.put_into_words();
            }
        }
    }

    fn place_of(&self, path: &Path) -> Option<usize> {
        let sought = whole(path);
        self.frames
            .iter()
            .position(|frame| whole(&frame.path) == sought)
    }

    fn add(&mut self, path: PathBuf) -> usize {
        self.frames.push(Frame {
            path,
            kept: Kept::Unopened,
            carried: Carried::default(),
            why_not: None,
        });
        self.frames.len() - 1
    }

    fn remove(&mut self, at: usize) {
        self.frames.remove(at);
        self.present = match self.present {
            Some(present) if present == at => None,
            Some(present) if present > at => Some(present - 1),
            present => present,
        };
    }

    /// Lets go of the pictures of those that were left longest ago, until the others fit in.
    fn put_away_surplus(&mut self) {
        let mut left: Vec<(u64, usize, u64)> = Vec::new();
        for (at, frame) in self.frames.iter().enumerate() {
            if let Kept::Left(kept) = &frame.kept {
                left.push((kept.since, at, kept.size_px()));
            }
        }
        left.sort_unstable_by(|a, b| b.cmp(a));
        let mut together = 0;
        for (_, at, size_px) in left {
            together += size_px;
            if together > self.in_memory_px {
                self.frames[at].put_away();
            }
        }
    }
}

impl Frame {
    pub(super) fn name(&self) -> String {
        file_name(&self.path)
    }

    fn put_away(&mut self) {
        let Kept::Left(left) = &mut self.kept else {
            return;
        };
        let (standing, phrase) = standing(&left.document, left.results.as_ref(), left.saved);
        let is_measured = left.results.is_some() || left.is_to_be_measured;
        let Some(settings) = Settings::of(&left.document, is_measured, left.saved) else {
            return;
        };
        let mut document = std::mem::take(&mut left.document);
        let mut history = std::mem::take(&mut left.history);
        let is_straightened = |state: &Document| state.scale.flat.is_some();
        let any_is_straightened = history.states_mut().any(|state| is_straightened(state));
        if any_is_straightened || is_straightened(&document) {
            // A straightened picture is as large as the photo, and is made again from what was set.
            self.kept = Kept::Written(Box::new(settings));
            return;
        }
        let sha256 = settings.sha256.clone();
        for state in history.states_mut().chain([&mut document]) {
            state.photo = None;
            state.usable_as_taken = Arc::default();
        }
        self.kept = Kept::PutAway(Box::new(PutAway {
            document,
            history,
            sha256,
            standing,
            phrase,
            settings,
        }));
    }
}

impl Left {
    fn size_px(&self) -> u64 {
        let size =
            |photo: &Arc<Photo>| u64::from(photo.rgb.width()) * u64::from(photo.rgb.height());
        let flat = self.document.scale.flat.as_ref();
        let flat = flat.map(|flat| &flat.straightened.photo);
        self.document.photo.iter().chain(flat).map(size).sum()
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::corrections::Kind;
    use crate::geometry::{Point, Rect};
    use crate::session::{Command, Outline, ScaleWay};
    use image::{Rgb, RgbImage};
    use std::sync::mpsc::{Receiver, channel};
    use std::time::Duration;
    use tempfile::TempDir;

    /// A file with pores so many px apart.
    pub(in crate::session) fn photo_in(folder: &TempDir, name: &str, apart: u32) -> PathBuf {
        let picture = RgbImage::from_fn(480, 400, |x, y| {
            let middle = f64::from(apart) / 2.0 - 0.5;
            let (dx, dy) = (f64::from(x % apart) - middle, f64::from(y % apart) - middle);
            let is_pore = dx.hypot(dy) < 0.35 * f64::from(apart);
            Rgb(if is_pore { [70; 3] } else { [200; 3] })
        });
        let path = folder.path().join(name);
        picture.save(&path).expect("a photo");
        path
    }

    pub(in crate::session) fn session() -> (Session, Receiver<()>) {
        let (bell, rung) = channel();
        let wake = Arc::new(move || {
            let _ = bell.send(());
        });
        (Session::new(wake).expect("a thread"), rung)
    }

    pub(in crate::session) fn wait(session: &mut Session, rung: &Receiver<()>) {
        session.poll();
        while session.is_busy() {
            rung.recv_timeout(Duration::from_mins(1))
                .expect("an answer");
            session.poll();
        }
    }

    pub(in crate::session) fn type_scale(session: &mut Session, px_per_mm: &str) {
        session.apply(Command::UseScaleWay(ScaleWay::Typed));
        session.apply(Command::TypePxPerMm(px_per_mm.to_owned()));
        session.apply(Command::EndAct);
    }

    fn standings(session: &Session) -> Vec<FrameStanding> {
        session
            .frames()
            .iter()
            .map(|frame| frame.standing)
            .collect()
    }

    const PART: Rect = Rect {
        x: 40.0,
        y: 30.0,
        width: 380.0,
        height: 300.0,
    };

    /// Two photos; the first is measured with a correction, and the second is worked on.
    fn two(folder: &TempDir) -> (Session, Receiver<()>) {
        let photos = vec![photo_in(folder, "a.png", 20), photo_in(folder, "b.png", 24)];
        let (mut session, rung) = session();
        session.apply(Command::OpenAll(photos));
        wait(&mut session, &rung);
        type_scale(&mut session, "80");
        session.apply(Command::SetOutline(Outline::Rectangle(PART)));
        session.apply(Command::EndAct);
        session.apply(Command::Measure);
        wait(&mut session, &rung);
        session.apply(Command::Correct(
            Kind::Delete,
            vec![Point::new(110.0, 110.0)],
        ));
        wait(&mut session, &rung);
        session.apply(Command::GoToFrame(1));
        wait(&mut session, &rung);
        (session, rung)
    }

    #[test]
    fn a_photo_waits_with_everything_while_another_is_worked_on() {
        use FrameStanding::{Measured, NeedsScale, Ready};
        let folder = tempfile::tempdir().expect("a folder");
        let (mut session, rung) = two(&folder);
        assert_eq!(standings(&session), [Measured, NeedsScale]);
        assert!(session.results().is_none() && !session.can_undo());
        type_scale(&mut session, "96");
        assert_eq!(standings(&session), [Measured, Ready]);
        session.apply(Command::GoToFrame(0));
        assert_eq!(*session.work(), Work::Idle);
        let count = |session: &Session| {
            let results = session.results().expect("results");
            results.measurement.regions.len()
        };
        let corrected = count(&session);
        assert_eq!(session.outdated(), None);
        session.apply(Command::Undo);
        wait(&mut session, &rung);
        assert_eq!(
            count(&session),
            corrected + 1,
            "the correction was not taken back"
        );
        session.apply(Command::GoToFrame(1));
        let scale = session.document().scale.scale().expect("a scale");
        assert!((scale.px_per_mm - 96.0).abs() < 1e-12);
    }

    #[test]
    fn a_photo_that_was_put_away_comes_back_with_its_settings_its_findings_and_its_undo() {
        let folder = tempfile::tempdir().expect("a folder");
        let (mut session, rung) = two(&folder);
        session.apply(Command::GoToFrame(0));
        let before = session.results().expect("results").as_text();
        session.strip.in_memory_px = 100_000;
        session.apply(Command::GoToFrame(1));
        wait(&mut session, &rung);
        assert!(matches!(session.strip.frames[0].kept, Kept::PutAway(_)));
        assert_eq!(session.frames()[0].standing, FrameStanding::Measured);
        assert_eq!(session.unsaved_photos(), ["a.png"]);
        session.apply(Command::GoToFrame(0));
        wait(&mut session, &rung);
        assert_eq!(session.results().expect("results").as_text(), before);
        for _ in 0..2 {
            session.apply(Command::Undo);
        }
        assert_eq!(session.document().area.outline, Outline::WholePhoto);
    }

    #[test]
    fn a_file_that_changed_meanwhile_is_told_and_nothing_is_set_on_it() {
        let folder = tempfile::tempdir().expect("a folder");
        let (mut session, rung) = two(&folder);
        session.strip.in_memory_px = 0;
        session.apply(Command::GoToFrame(0));
        session.apply(Command::GoToFrame(1));
        wait(&mut session, &rung);
        photo_in(&folder, "a.png", 30);
        session.apply(Command::GoToFrame(0));
        wait(&mut session, &rung);
        assert_eq!(session.document().scale.scale(), None);
        assert_eq!(
            session.notices().last().map(|n| n.text.as_str()),
            Some(changed())
        );
    }

    #[test]
    fn scale_and_area_are_carried_over_to_open_photos_and_to_those_to_be_opened() {
        let folder = tempfile::tempdir().expect("a folder");
        let (mut session, rung) = two(&folder);
        let third = photo_in(&folder, "c.png", 28);
        session.apply(Command::OpenAll(vec![third, folder.path().join("d.png")]));
        wait(&mut session, &rung);
        session.apply(Command::GoToFrame(0));
        assert_eq!(session.why_not_carry_scale(), None);
        assert_eq!(session.why_not_carry_area(), None);
        session.apply(Command::CarryScaleOver);
        session.apply(Command::CarryAreaOver);
        photo_in(&folder, "d.png", 22);
        for frame in 1..4 {
            session.apply(Command::GoToFrame(frame));
            wait(&mut session, &rung);
            let scale = session.document().scale.scale().expect("a scale");
            assert!((scale.px_per_mm - 80.0).abs() < 1e-12);
            assert_eq!(session.document().area.outline, Outline::Rectangle(PART));
            assert!(
                session.can_undo(),
                "it cannot be taken back on photo {frame}"
            );
        }
        // A photo of another size takes the scale at a person's word only, and no area.
        let other = folder.path().join("e.png");
        RgbImage::new(300, 300).save(&other).expect("a photo");
        session.apply(Command::Open(other));
        wait(&mut session, &rung);
        session.apply(Command::GoToFrame(0));
        session.apply(Command::CarryScaleOver);
        session.apply(Command::CarryAreaOver);
        assert!(
            session
                .notices()
                .last()
                .expect("a word")
                .text
                .contains("e.png")
        );
        session.apply(Command::GoToFrame(4));
        assert!(matches!(
            session.document().scale.standing(),
            ScaleStanding::Asks(_)
        ));
        assert_eq!(session.document().area.outline, Outline::WholePhoto);
    }

    #[test]
    fn what_cannot_be_read_stays_named_among_many_and_the_next_is_shown() {
        let folder = tempfile::tempdir().expect("a folder");
        let bad = folder.path().join("notes.png");
        std::fs::write(&bad, "no photo").expect("a file");
        let good = photo_in(&folder, "a.png", 20);
        let (mut session, rung) = session();
        session.apply(Command::OpenAll(vec![bad.clone(), good]));
        wait(&mut session, &rung);
        assert_eq!(
            standings(&session),
            [FrameStanding::Unreadable, FrameStanding::NeedsScale]
        );
        assert_eq!(session.present_frame(), Some(1));
        assert!(
            session.frames()[0]
                .told
                .as_ref()
                .expect("why")
                .contains("notes.png")
        );
        session.apply(Command::CloseFrame(0));
        assert_eq!(standings(&session), [FrameStanding::NeedsScale]);
        // Alone it leaves no trace but the message.
        session.apply(Command::Open(bad));
        wait(&mut session, &rung);
        assert_eq!(session.frames().len(), 1);
        session.apply(Command::CloseFrame(0));
        assert!(session.frames().is_empty() && session.document().photo.is_none());
    }
}
