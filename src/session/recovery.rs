//! What is open and what was set on it, on disk at each act, so that a crash costs one act at most.
//!
//! Each running program has a file of its own, and holds a lock on another beside it. A file whose lock
//! nobody holds was left by a program that did not come to its end; what it tells is offered at the next
//! start. A program that ends as it should takes its file with it.

use super::record::Draft;
use super::settings::OpenPhoto;
use super::{Session, Tone, file_name};
use crate::reading;
use crate::wording::text;
use etcetera::BaseStrategy as _;
use serde::{Deserialize, Serialize};
use std::fs::{self, File};
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread::{self, JoinHandle};
use uuid::Uuid;

/// Name and version of the form; the version rises when a key changes its meaning or goes away.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
enum Schema {
    #[serde(rename = "poreline-recovery/1")]
    One,
}

/// Everything that would be lost.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct Kept {
    schema: Schema,
    /// Photos that are open.
    photos: Vec<OpenPhoto>,
    /// Which of them is worked on.
    present: Option<usize>,
    /// A voucher that was not saved.
    voucher: Option<OpenVoucher>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct OpenVoucher {
    book: PathBuf,
    draft: Draft,
}

impl Kept {
    fn is_empty(&self) -> bool {
        self.photos.is_empty() && self.voucher.is_none()
    }
}

/// What a program left that did not come to its end.
struct Leftover {
    kept: Kept,
    file: PathBuf,
    /// Held, so that no other program offers the same.
    _lock: Lock,
}

/// The recovery file of this program, and what others left.
#[derive(Default)]
pub(super) struct Recovery {
    keeper: Option<Keeper>,
    /// What was written last.
    last: Option<Kept>,
    leftovers: Vec<Leftover>,
    /// A voucher to be gone on with once its book is open.
    voucher: Option<OpenVoucher>,
}

impl Session {
    /// Keeps what is done safe from a crash, with the person's own files, and looks for what a crash
    /// left.
    pub fn keep_safe(&mut self) {
        if let Some(folder) = of_person() {
            self.keep_safe_in(&folder);
        }
    }

    /// The same in a folder of its own.
    pub fn keep_safe_in(&mut self, folder: &Path) {
        match Keeper::start(folder) {
            Ok(keeper) => self.recovery.keeper = Some(keeper),
            Err(error) => self.tell_unsafe(&error.to_string()),
        }
        let (leftovers, damaged) = leftovers(folder);
        self.recovery.leftovers = leftovers;
        for file in damaged {
            self.notify(
                Tone::Trouble,
                text!("what-was-open-when-poreline-ended", file = file.display()),
            );
        }
    }

    /// What was open when a program did not come to its end: names of photos and of vouchers.
    #[must_use]
    pub fn leftovers(&self) -> Vec<String> {
        let leftovers = self.recovery.leftovers.iter();
        leftovers
            .flat_map(|leftover| {
                let photos = leftover
                    .kept
                    .photos
                    .iter()
                    .map(|photo| file_name(&photo.path));
                let voucher = leftover.kept.voucher.iter();
                photos.chain(
                    voucher.map(|open| text!("voucher-so-numbered", number = open.draft.number())),
                )
            })
            .collect()
    }

    /// Takes up what was open, or drops it.
    pub(super) fn settle_leftovers(&mut self, takes_up: bool) {
        let mut done = Vec::new();
        for leftover in std::mem::take(&mut self.recovery.leftovers) {
            if takes_up {
                self.open_written(leftover.kept.photos, leftover.kept.present);
                if let Some(open) = leftover.kept.voucher {
                    self.recovery.voucher = Some(open);
                }
            }
            done.push(leftover.file);
        }
        self.go_on_with_voucher();
        let kept = self.kept();
        match &self.recovery.keeper {
            // What they held is written anew before they go.
            Some(keeper) if takes_up => keeper.write(kept.clone(), done),
            _ => done.iter().for_each(|file| remove(file)),
        }
        self.recovery.last = Some(kept);
    }

    /// Goes on with the voucher that was open, or opens its book first.
    pub(super) fn go_on_with_voucher(&mut self) {
        let Some(open) = &self.recovery.voucher else {
            return;
        };
        let is_open = |book: &super::record::OpenBook| book.folder() == open.book;
        if self.record.book().is_some_and(is_open) {
            if let Some(open) = self.recovery.voucher.take() {
                self.record.take_draft(open.draft);
            }
        } else if !self.record.is_busy() {
            let command = super::BookCommand::Open(open.book.clone());
            self.work_on_book(command);
        }
    }

    /// Writes down what is open, where it has changed.
    pub(super) fn keep_for_recovery(&mut self) {
        let Some(keeper) = &self.recovery.keeper else {
            return;
        };
        if let Some(trouble) = keeper.trouble() {
            self.tell_unsafe(&trouble);
            return;
        }
        let kept = self.kept();
        if self.recovery.last.as_ref() != Some(&kept) {
            keeper.write(kept.clone(), Vec::new());
            self.recovery.last = Some(kept);
        }
    }

    fn kept(&self) -> Kept {
        let voucher = self.record.book().zip(self.record.form());
        let voucher = voucher.filter(|_| self.has_unsaved_voucher());
        let waiting = self.recovery.voucher.clone();
        Kept {
            schema: Schema::One,
            photos: self.written(),
            present: self.present_frame(),
            voucher: waiting.or_else(|| {
                voucher.map(|(book, form)| OpenVoucher {
                    book: book.folder().to_owned(),
                    draft: form.draft(),
                })
            }),
        }
    }

    fn tell_unsafe(&mut self, why: &str) {
        self.recovery.keeper = None;
        self.notify(Tone::Trouble, text!("what-you-do-now-would-be", why = why));
    }
}

/// The folder for what a crash must not take; `None` where there is no home.
fn of_person() -> Option<PathBuf> {
    let base = etcetera::choose_base_strategy().ok()?;
    let state = base.state_dir().unwrap_or_else(|| base.data_dir());
    Some(state.join("poreline").join("recovery"))
}

/// A lock on a file beside the one that it guards; it goes when it is let go of, or the program ends in
/// any way.
struct Lock {
    _file: File,
    path: PathBuf,
}

impl Lock {
    fn of(file: &Path) -> std::io::Result<Self> {
        let path = file.with_extension("lock");
        let lock = File::options().create(true).append(true).open(&path)?;
        lock.try_lock().map_err(std::io::Error::from)?;
        Ok(Self { _file: lock, path })
    }
}

impl Drop for Lock {
    fn drop(&mut self) {
        remove(&self.path);
    }
}

fn remove(file: &Path) {
    // Whoever finds it again next time is asked again, and nothing else is harmed.
    let _ = fs::remove_file(file);
}

/// What others left in the folder, the newest first, and files that had to be set aside.
fn leftovers(folder: &Path) -> (Vec<Leftover>, Vec<PathBuf>) {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let mut files: Vec<PathBuf> = entries
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .collect();
    let written = |file: &PathBuf| fs::metadata(file).and_then(|about| about.modified()).ok();
    files.sort_by_key(|file| std::cmp::Reverse(written(file)));
    let (mut found, mut damaged) = (Vec::new(), Vec::new());
    for file in files {
        let Ok(lock) = Lock::of(&file) else { continue };
        let Ok(text) = reading::bytes(&file) else {
            continue;
        };
        match serde_json::from_slice::<Kept>(&text) {
            Ok(kept) if kept.is_empty() => remove(&file),
            Ok(kept) => found.push(Leftover {
                kept,
                file,
                _lock: lock,
            }),
            Err(_) => {
                let aside = file.with_extension("damaged");
                if fs::rename(&file, &aside).is_ok() {
                    damaged.push(aside);
                }
            }
        }
    }
    (found, damaged)
}

struct Order {
    kept: Kept,
    /// Files that are not needed any more once this is written.
    done: Vec<PathBuf>,
}

/// The thread that writes.
struct Keeper {
    orders: Option<Sender<Order>>,
    troubles: Receiver<String>,
    thread: Option<JoinHandle<()>>,
    file: PathBuf,
    _lock: Lock,
}

impl Keeper {
    fn start(folder: &Path) -> std::io::Result<Self> {
        fs::create_dir_all(folder)?;
        let file = folder.join(format!("{}.json", Uuid::new_v4()));
        let lock = Lock::of(&file)?;
        let (orders, inbox) = channel();
        let (outbox, troubles) = channel();
        let written = file.clone();
        let thread = thread::Builder::new()
            .name("poreline-recovery".to_owned())
            .spawn(move || keep(&written, &inbox, &outbox))?;
        Ok(Self {
            orders: Some(orders),
            troubles,
            thread: Some(thread),
            file,
            _lock: lock,
        })
    }

    fn write(&self, kept: Kept, done: Vec<PathBuf>) {
        if let Some(orders) = &self.orders {
            // Where the thread is gone, it has told why.
            let _ = orders.send(Order { kept, done });
        }
    }

    fn trouble(&self) -> Option<String> {
        self.troubles.try_recv().ok()
    }
}

impl Drop for Keeper {
    fn drop(&mut self) {
        self.orders = None;
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
        // A fault of the program's own is a crash like any other.
        if !thread::panicking() {
            remove(&self.file);
        }
    }
}

fn keep(file: &Path, inbox: &Receiver<Order>, troubles: &Sender<String>) {
    while let Ok(mut order) = inbox.recv() {
        for newer in inbox.try_iter() {
            order.kept = newer.kept;
            order.done.extend(newer.done);
        }
        match write(file, &order.kept) {
            Ok(()) => order.done.iter().for_each(|file| remove(file)),
            Err(error) => {
                let _ = troubles.send(error.to_string());
                return;
            }
        }
    }
}

fn write(file: &Path, kept: &Kept) -> std::io::Result<()> {
    let folder = file.parent().unwrap_or(Path::new("."));
    let mut written = tempfile::NamedTempFile::new_in(folder)?;
    written.write_all(&serde_json::to_vec(kept)?)?;
    written.as_file().sync_all()?;
    written.persist(file)?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::area::Outline;
    use crate::corrections::Kind;
    use crate::geometry::{Point, Rect};
    use crate::session::filmstrip::tests::{photo_in, session, type_scale, wait};
    use crate::session::{Command, FrameStanding, ScaleWay};
    use image::{Rgb, RgbImage};

    /// What is on the disk once the session has written all it has to, as if it had been killed.
    fn killed(session: Session, folder: &Path) -> Vec<u8> {
        let file = session.recovery.keeper.as_ref().expect("kept").file.clone();
        let last = serde_json::to_vec(&session.kept()).expect("JSON");
        let deadline = std::time::Instant::now() + std::time::Duration::from_secs(20);
        while fs::read(&file).ok().as_ref() != Some(&last) {
            assert!(std::time::Instant::now() < deadline, "it was not written");
            thread::sleep(std::time::Duration::from_millis(5));
        }
        drop(session);
        assert_eq!(fs::read_dir(folder).expect("a folder").count(), 0);
        fs::write(&file, &last).expect("written");
        last
    }

    #[test]
    fn what_was_set_and_corrected_is_there_again_with_the_same_findings() {
        let photos = tempfile::tempdir().expect("a folder");
        let safe = tempfile::tempdir().expect("a folder");
        let (mut first, rung) = session();
        first.keep_safe_in(safe.path());
        let paths = vec![
            photo_in(&photos, "a.png", 20),
            photo_in(&photos, "b.png", 24),
        ];
        first.apply(Command::OpenAll(paths));
        wait(&mut first, &rung);
        type_scale(&mut first, "80.1");
        first.apply(Command::SetOutline(Outline::Rectangle(Rect {
            x: 40.25,
            y: 30.1,
            width: 380.0,
            height: 300.7,
        })));
        first.apply(Command::Measure);
        wait(&mut first, &rung);
        first.apply(Command::Correct(
            Kind::Delete,
            vec![Point::new(110.0, 110.0)],
        ));
        wait(&mut first, &rung);
        let before = first.results().expect("results").as_text();
        let set = first.document().clone();
        killed(first, safe.path());

        let (mut second, rung) = session();
        second.keep_safe_in(safe.path());
        assert_eq!(second.leftovers(), ["a.png", "b.png"]);
        // Another program started meanwhile is not offered the same.
        let (mut third, _rung) = session();
        third.keep_safe_in(safe.path());
        assert!(third.leftovers().is_empty());
        second.apply(Command::SettleLeftovers(true));
        wait(&mut second, &rung);
        assert_eq!(second.results().expect("results").as_text(), before);
        assert!(second.document().is_set_like(&set));
        assert_eq!(second.frames()[1].standing, FrameStanding::Unopened);
        drop((second, third));
        assert_eq!(fs::read_dir(safe.path()).expect("a folder").count(), 0);
    }

    #[test]
    fn a_bar_that_was_found_and_named_is_found_again() {
        let photos = tempfile::tempdir().expect("a folder");
        let safe = tempfile::tempdir().expect("a folder");
        let path = photos.path().join("bar.png");
        RgbImage::from_fn(600, 400, |x, y| {
            let is_bar = (100..400).contains(&x) && (200..208).contains(&y);
            Rgb([if is_bar { 10 } else { 220 }; 3])
        })
        .save(&path)
        .expect("a photo");
        let (mut first, rung) = session();
        first.keep_safe_in(safe.path());
        first.apply(Command::Open(path));
        wait(&mut first, &rung);
        first.apply(Command::UseScaleWay(ScaleWay::Bar));
        wait(&mut first, &rung);
        first.apply(Command::TypeBarLength("5 mm".to_owned()));
        let scale = first.document().scale.scale();
        assert!(scale.is_some());
        killed(first, safe.path());
        let (mut second, rung) = session();
        second.keep_safe_in(safe.path());
        second.apply(Command::SettleLeftovers(true));
        wait(&mut second, &rung);
        assert_eq!(second.document().scale.scale(), scale);
    }

    #[test]
    fn what_is_dropped_is_gone_and_a_damaged_file_is_set_aside_by_name() {
        let photos = tempfile::tempdir().expect("a folder");
        let safe = tempfile::tempdir().expect("a folder");
        let (mut first, rung) = session();
        first.keep_safe_in(safe.path());
        first.apply(Command::Open(photo_in(&photos, "a.png", 20)));
        wait(&mut first, &rung);
        let whole = killed(first, safe.path());
        let half = safe.path().join("half.json");
        fs::write(&half, &whole[..whole.len() / 2]).expect("written");

        let (mut second, _rung) = session();
        second.keep_safe_in(safe.path());
        let told = &second.notices().last().expect("a word").text;
        assert!(told.contains("half.damaged"), "{told}");
        assert_eq!(
            fs::read(half.with_extension("damaged")).expect("kept"),
            &whole[..whole.len() / 2]
        );
        second.apply(Command::SettleLeftovers(false));
        assert!(second.frames().is_empty());
        drop(second);
        let (mut third, _rung) = session();
        third.keep_safe_in(safe.path());
        assert!(third.leftovers().is_empty());
    }
}
