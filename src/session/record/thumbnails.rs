//! Small pictures of photos for the list, made on a thread of their own, the last asked for first.

use crate::photo;
use crate::session::Wake;
use image::{RgbImage, imageops};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};
use std::thread;

/// Longest side of a small picture, px.
const SIDE_PX: u32 = 96;
/// Small pictures kept: a few screens of the list.
const KEPT: usize = 600;

/// Small pictures of photos.
pub struct Thumbnails {
    asks: Sender<PathBuf>,
    made: Receiver<(PathBuf, Option<RgbImage>)>,
    /// Photos that were asked for; `None` until the picture is there, and for those that have none.
    known: BTreeMap<PathBuf, Option<RgbImage>>,
}

impl Thumbnails {
    /// Starts the thread, which wakes the window when a picture is there. Without a thread there are no
    /// pictures, and the list goes on.
    #[must_use]
    pub fn start(wake: Wake) -> Self {
        let (asks, inbox) = channel();
        let (outbox, made) = channel();
        drop(
            thread::Builder::new()
                .name("poreline-thumbnails".to_owned())
                .spawn(move || make(&inbox, &outbox, &wake)),
        );
        Self {
            asks,
            made,
            known: BTreeMap::new(),
        }
    }

    /// The small picture of a photo, if it is there; asks for it where it is not.
    pub fn of(&mut self, photo: &Path) -> Option<&RgbImage> {
        while let Ok((path, picture)) = self.made.try_recv() {
            self.known.insert(path, picture);
        }
        if !self.known.contains_key(photo) {
            if self.known.len() >= KEPT {
                self.known.clear();
            }
            self.known.insert(photo.to_owned(), None);
            // Where there is no thread there is no picture either.
            let _ = self.asks.send(photo.to_owned());
        }
        self.known.get(photo)?.as_ref()
    }
}

fn make(inbox: &Receiver<PathBuf>, outbox: &Sender<(PathBuf, Option<RgbImage>)>, wake: &Wake) {
    let mut waiting: Vec<PathBuf> = Vec::new();
    loop {
        if waiting.is_empty() {
            match inbox.recv() {
                Ok(path) => waiting.push(path),
                Err(_) => return,
            }
        }
        loop {
            match inbox.try_recv() {
                Ok(path) => waiting.push(path),
                Err(TryRecvError::Empty) => break,
                Err(TryRecvError::Disconnected) => return,
            }
        }
        let Some(path) = waiting.pop() else { continue };
        let picture = small(&path);
        if outbox.send((path, picture)).is_err() {
            return;
        }
        wake();
    }
}

/// For the eye only, so it is made smaller on encoded values.
fn small(path: &Path) -> Option<RgbImage> {
    let photo = photo::open(path).ok()?;
    let (width, height) = photo.rgb.dimensions();
    let longest = width.max(height).max(1);
    let side = |px: u32| (px * SIDE_PX.min(longest) / longest).max(1);
    Some(imageops::thumbnail(&photo.rgb, side(width), side(height)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::Arc;
    use std::time::{Duration, Instant};

    #[test]
    fn a_photo_gets_a_small_picture_and_a_missing_one_gets_none() {
        let folder = tempfile::tempdir().expect("a folder");
        let photo = folder.path().join("a.png");
        RgbImage::new(400, 200).save(&photo).expect("a photo");
        let gone = folder.path().join("gone.png");
        let mut thumbnails = Thumbnails::start(Arc::new(|| {}));
        assert!(thumbnails.of(&gone).is_none());
        let deadline = Instant::now() + Duration::from_secs(20);
        while thumbnails.of(&photo).is_none() {
            assert!(Instant::now() < deadline, "no picture came");
            thread::sleep(Duration::from_millis(5));
        }
        let size = thumbnails.of(&photo).map(RgbImage::dimensions);
        assert_eq!(size, Some((96, 48)));
        assert!(thumbnails.of(&gone).is_none());
    }
}
