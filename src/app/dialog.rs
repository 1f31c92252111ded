//! The system's file dialogs, waited for on a thread so that the window goes on.

use super::files::File;
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
    /// Choose a photo.
    Open,
    /// Choose the folder of a book.
    Book,
    /// Choose where to save.
    Save(File),
}

/// What a dialog said.
pub(crate) enum Answer {
    /// This file.
    File(Purpose, PathBuf),
    /// Nothing; it was closed.
    Nothing,
    /// There is no dialog on this system.
    NoDialog(Purpose),
}

/// A dialog that is open.
pub(crate) struct Dialog {
    purpose: Purpose,
    opened: Instant,
    answer: Receiver<Option<PathBuf>>,
}

impl Dialog {
    /// Asks for a photo.
    pub(crate) fn open(wake: impl Fn() + Send + 'static) -> Self {
        let dialog = rfd::AsyncFileDialog::new()
            .set_title("Open a photo")
            .add_filter("Photos", &PHOTO_ENDINGS)
            .add_filter("All files", &["*"]);
        Self::show(Purpose::Open, dialog.pick_file(), wake)
    }

    /// Asks for the folder of a book.
    pub(crate) fn book(wake: impl Fn() + Send + 'static) -> Self {
        let dialog = rfd::AsyncFileDialog::new().set_title("Open a book: choose its folder");
        Self::show(Purpose::Book, dialog.pick_folder(), wake)
    }

    /// Asks where to save.
    pub(crate) fn save(
        file: File,
        name: &str,
        folder: Option<&Path>,
        wake: impl Fn() + Send + 'static,
    ) -> Self {
        let mut dialog = rfd::AsyncFileDialog::new()
            .set_title("Save")
            .set_file_name(name)
            .add_filter(file.extension().to_uppercase(), &[file.extension()]);
        if let Some(folder) = folder {
            dialog = dialog.set_directory(folder);
        }
        Self::show(Purpose::Save(file), dialog.save_file(), wake)
    }

    fn show(
        purpose: Purpose,
        choice: impl Future<Output = Option<rfd::FileHandle>> + Send + 'static,
        wake: impl Fn() + Send + 'static,
    ) -> Self {
        let (outbox, answer) = channel();
        // Without a thread the sender is dropped, which reads as a system without dialogs.
        drop(
            thread::Builder::new()
                .name("poreline-dialog".to_owned())
                .spawn(move || {
                    let file = pollster::block_on(choice).map(|file| file.path().to_owned());
                    drop(outbox.send(file));
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
            Ok(Some(path)) => Some(Answer::File(self.purpose, path)),
            Ok(None) if self.opened.elapsed() < TOO_FAST_FOR_A_PERSON => {
                Some(Answer::NoDialog(self.purpose))
            }
            Ok(None) => Some(Answer::Nothing),
            Err(TryRecvError::Empty) => None,
            Err(TryRecvError::Disconnected) => Some(Answer::NoDialog(self.purpose)),
        }
    }
}
