//! The system's file dialogs, waited for on a thread so that the window goes on.

use super::files::File;
use crate::wording::text;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread;
use std::time::{Duration, Instant};

/// Endings of the photos that can be read.
const PHOTO_ENDINGS: [&str; 7] = ["jpg", "jpeg", "png", "tif", "tiff", "webp", "bmp"];

/// No person answers a dialog this fast; the system has none to show.
const TOO_FAST_FOR_A_PERSON: Duration = Duration::from_millis(400);

/// What a dialog is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Purpose {
    /// Choose photos.
    Open,
    /// Choose the folder of a book.
    Book,
    /// Choose a folder of photos.
    PhotoFolder,
    /// Choose where to save.
    Save(File),
}

/// What a dialog said.
pub(crate) enum Answer {
    /// This file.
    File(Purpose, PathBuf),
    /// These photos.
    Photos(Vec<PathBuf>),
    /// Nothing; it was closed.
    Nothing,
    /// There is no dialog on this system.
    NoDialog(Purpose),
}

/// A dialog that is open.
pub(crate) struct Dialog {
    purpose: Purpose,
    opened: Instant,
    answer: Receiver<Vec<PathBuf>>,
}

impl Dialog {
    /// Asks for photos.
    pub(crate) fn open(folder: Option<&Path>, wake: impl Fn() + Send + 'static) -> Self {
        let mut dialog = rfd::AsyncFileDialog::new()
            .set_title(text!("open-photos"))
            .add_filter(text!("photos"), &PHOTO_ENDINGS)
            .add_filter(text!("all-files"), &["*"]);
        if let Some(folder) = folder {
            dialog = dialog.set_directory(folder);
        }
        let chosen = dialog.pick_files();
        Self::show(
            Purpose::Open,
            async { chosen.await.unwrap_or_default() },
            wake,
        )
    }

    /// Asks for a folder, of a book or of photos.
    pub(crate) fn folder(purpose: Purpose, wake: impl Fn() + Send + 'static) -> Self {
        let title = match purpose {
            Purpose::PhotoFolder => text!("choose-a-folder-of-photos"),
            _ => text!("open-a-book-choose-its-folder"),
        };
        let dialog = rfd::AsyncFileDialog::new().set_title(title);
        let chosen = dialog.pick_folder();
        Self::show(purpose, async { chosen.await.into_iter().collect() }, wake)
    }

    /// Asks where to save.
    pub(crate) fn save(
        file: File,
        name: &str,
        folder: Option<&Path>,
        wake: impl Fn() + Send + 'static,
    ) -> Self {
        let mut dialog = rfd::AsyncFileDialog::new()
            .set_title(text!("save"))
            .set_file_name(name)
            .add_filter(file.extension().to_uppercase(), &[file.extension()]);
        if let Some(folder) = folder {
            dialog = dialog.set_directory(folder);
        }
        let chosen = dialog.save_file();
        Self::show(
            Purpose::Save(file),
            async { chosen.await.into_iter().collect() },
            wake,
        )
    }

    fn show(
        purpose: Purpose,
        choice: impl Future<Output = Vec<rfd::FileHandle>> + Send + 'static,
        wake: impl Fn() + Send + 'static,
    ) -> Self {
        let (outbox, answer) = channel();
        // Without a thread the sender is dropped, which reads as a system without dialogs.
        drop(
            thread::Builder::new()
                .name("poreline-dialog".to_owned())
                .spawn(move || {
                    let files = pollster::block_on(choice).into_iter();
                    drop(outbox.send(files.map(|file| file.path().to_owned()).collect()));
                    wake();
                }),
        );
        Self {
            purpose,
            opened: Instant::now(),
            answer,
        }
    }

    /// The answer, once there is one.
    pub(crate) fn answer(&self) -> Option<Answer> {
        match self.answer.try_recv() {
            Ok(paths) if self.purpose == Purpose::Open && !paths.is_empty() => {
                Some(Answer::Photos(paths))
            }
            Ok(paths) => Some(match paths.into_iter().next() {
                Some(path) => Answer::File(self.purpose, path),
                None if self.opened.elapsed() < TOO_FAST_FOR_A_PERSON => {
                    Answer::NoDialog(self.purpose)
                }
                None => Answer::Nothing,
            }),
            Err(TryRecvError::Empty) => None,
            Err(TryRecvError::Disconnected) => Some(Answer::NoDialog(self.purpose)),
        }
    }
}
