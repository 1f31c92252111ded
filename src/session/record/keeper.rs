//! The book's keeper: a thread of its own through which all reading and writing of the book goes, one
//! errand after the other, so that none is lost and the window never waits.

use super::listing::OpenBook;
use super::outgoing::{Chosen, Contents, Outgoing, contents};
use super::walks::Walked;
use crate::book::{
    Attached, Book, BookCard, BookError, Complaint, Copying, Foray, PhotoLink, Saved, Sighting,
    Voucher, check,
};
use crate::demo;
use crate::progress::Progress;
use crate::session::Wake;
use crate::session::document::sentence;
use crate::session::save::write_book_file;
use crate::wording::text;
use serde_json::{Map, Value};
use std::cmp::Reverse;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread::{self, JoinHandle};

/// What the keeper is asked for.
pub(super) enum Errand {
    /// Read the book in a folder.
    Open(PathBuf),
    /// Make a book in a folder.
    Make(PathBuf, BookCard),
    /// Make the demo book in a folder of its own.
    MakeDemo,
    /// Add a walk.
    AddWalk(Foray),
    /// Add to the checklist of the walk of this identifier.
    See(String, Sighting),
    /// Go over the book; today is an ISO 8601 date.
    Check(String),
    /// Make a file of the book.
    Export {
        /// Which.
        what: Outgoing,
        /// Of which vouchers.
        chosen: Chosen,
        /// Where to.
        path: PathBuf,
    },
    /// Write a voucher.
    Keep {
        /// It, filled in.
        voucher: Box<Voucher>,
        /// Whether the book has none such yet.
        is_new: bool,
        /// What is to be attached to it.
        findings: Option<Box<Measured>>,
    },
}

/// Findings on their way into a voucher.
pub(super) struct Measured {
    /// Where the photo lies.
    pub photo: PathBuf,
    /// Its SHA-256.
    pub sha256: String,
    /// Whether the photo is copied into the book.
    pub is_copied: bool,
    /// The findings, when and by whom.
    pub attached: Attached,
}

/// What came of it.
pub(super) enum Reply {
    /// A book is open.
    Opened(Box<OpenBook>),
    /// A walk is on the disk; this is the book with it.
    Walked(Box<OpenBook>, Walked),
    /// What is wrong in the book.
    Checked(Vec<Complaint>),
    /// The file is on the disk.
    Exported {
        /// Where.
        path: PathBuf,
        /// What is to be said of it.
        remarks: Vec<String>,
    },
    /// The voucher is on the disk.
    Kept(Box<Voucher>),
    /// Somebody else changed the voucher; nothing was overwritten.
    Changed {
        /// What was to be written, with what was to be attached.
        mine: Box<Voucher>,
        /// What stands on the disk.
        theirs: Map<String, Value>,
    },
    /// Nothing was done; the sentence says why.
    Failed(String),
}

/// The thread, seen from the window's side.
pub(super) struct Keeper {
    errands: Option<Sender<Errand>>,
    replies: Receiver<Reply>,
    pending: usize,
    stop: Arc<AtomicBool>,
    thread: Option<JoinHandle<()>>,
}

impl Keeper {
    /// Starts the thread.
    ///
    /// # Errors
    /// When the system gives no thread.
    pub(super) fn start(wake: Wake) -> std::io::Result<Self> {
        let (errands, inbox) = channel();
        let (outbox, replies) = channel();
        let stop = Arc::new(AtomicBool::new(false));
        let told_to_stop = Arc::clone(&stop);
        let thread = thread::Builder::new()
            .name("poreline-book".to_owned())
            .spawn(move || keep(&inbox, &outbox, &wake, &told_to_stop))?;
        Ok(Self {
            errands: Some(errands),
            replies,
            pending: 0,
            stop,
            thread: Some(thread),
        })
    }

    /// Asks for something.
    pub(super) fn ask(&mut self, errand: Errand) {
        if let Some(errands) = &self.errands
            && errands.send(errand).is_ok()
        {
            self.pending += 1;
        }
    }

    /// Whether something was asked for and not answered yet.
    pub(super) const fn is_busy(&self) -> bool {
        self.pending > 0
    }

    /// What was answered since the last look.
    pub(super) fn reply(&mut self) -> Option<Reply> {
        let reply = self.replies.try_recv().ok()?;
        self.pending -= 1;
        Some(reply)
    }
}

/// What is to be written is written before the window goes.
impl Drop for Keeper {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
        self.errands = None;
        if let Some(thread) = self.thread.take() {
            drop(thread.join());
        }
    }
}

fn keep(inbox: &Receiver<Errand>, outbox: &Sender<Reply>, wake: &Wake, stop: &AtomicBool) {
    let mut book = None;
    while let Ok(errand) = inbox.recv() {
        // A fault in the engine must not leave the window waiting for an answer for ever.
        let reply = catch_unwind(AssertUnwindSafe(|| run(errand, &mut book, stop)))
            .unwrap_or_else(|_| Reply::Failed(text!("poreline-met-a-fault-of-its-own").to_owned()));
        drop(outbox.send(reply));
        wake();
    }
}

fn run(errand: Errand, book: &mut Option<Book>, stop: &AtomicBool) -> Reply {
    let opened = match errand {
        Errand::Keep {
            voucher,
            is_new,
            findings,
        } => {
            return on(book, |book| write(book, *voucher, is_new, findings));
        }
        Errand::AddWalk(walk) => return on(book, |book| add_walk(book, walk)),
        Errand::See(id, sighting) => return on(book, |book| see(book, &id, &sighting)),
        Errand::Check(today) => {
            return on(book, |book| Ok(Reply::Checked(gone_over(book, &today))));
        }
        Errand::Export { what, chosen, path } => {
            return match book {
                Some(book) => export(book, what, &chosen, path, stop).unwrap_or_else(Reply::Failed),
                None => Reply::Failed(text!("open-a-book-first").to_owned()),
            };
        }
        Errand::Open(folder) => Book::open(&folder).map_err(|error| in_words(&error)),
        Errand::Make(folder, card) => Book::init(&folder, card).map_err(|error| in_words(&error)),
        Errand::MakeDemo => demo_book(stop),
    };
    match opened {
        Ok(opened) => {
            let reply = Reply::Opened(Box::new(OpenBook::of(&opened)));
            *book = Some(opened);
            reply
        }
        Err(why) => Reply::Failed(why),
    }
}

fn on(book: &mut Option<Book>, work: impl FnOnce(&mut Book) -> Result<Reply, BookError>) -> Reply {
    match book {
        Some(book) => work(book).unwrap_or_else(|error| refused(&error)),
        None => Reply::Failed(text!("open-a-book-first").to_owned()),
    }
}

/// What is wrong, the gravest first.
fn gone_over(book: &Book, today: &str) -> Vec<Complaint> {
    let mut found = check(book, today);
    found.sort_by_key(|complaint| Reverse(complaint.gravity));
    found
}

fn add_walk(book: &mut Book, walk: Foray) -> Result<Reply, BookError> {
    let walked = Walked::New(walk.event_id.clone());
    book.add_foray(walk)?;
    Ok(Reply::Walked(Box::new(OpenBook::of(book)), walked))
}

/// What somebody else wrote to the walk meanwhile stays: the sighting is added to what is on the disk.
fn see(book: &mut Book, id: &str, sighting: &Sighting) -> Result<Reply, BookError> {
    let walk = |book: &Book| {
        let mut walk = book.foray(id)?.clone();
        walk.checklist.push(sighting.clone());
        Ok::<Foray, BookError>(walk)
    };
    let mut saved = book.save_foray(walk(book)?)?;
    if let Saved::Changed(_) = saved {
        *book = Book::open(book.folder())?;
        saved = book.save_foray(walk(book)?)?;
    }
    match saved {
        Saved::Written(_) => Ok(Reply::Walked(Box::new(OpenBook::of(book)), Walked::Seen)),
        Saved::Changed(_) => Err(BookError::Changed(book.foray(id)?.title())),
    }
}

fn export(
    book: &Book,
    what: Outgoing,
    chosen: &Chosen,
    path: PathBuf,
    stop: &AtomicBool,
) -> Result<Reply, String> {
    let progress = Progress::new(stop, &|_| {});
    let Contents { bytes, remarks } = contents(book, what, chosen, &progress)?;
    write_book_file(&path, &bytes).map_err(|error| sentence(&error))?;
    Ok(Reply::Exported { path, remarks })
}

fn demo_book(stop: &AtomicBool) -> Result<Book, String> {
    let folder = tempfile::Builder::new()
        .prefix("poreline-demo-book-")
        .tempdir()
        .map_err(|error| text!("the-demo-book-could-not-be", error = error))?;
    let progress = Progress::new(stop, &|_| {});
    let book = demo::write(folder.path(), &progress).map_err(|error| sentence(&error))?;
    // It stays until the system clears its temporary files away.
    let _ = folder.keep();
    Ok(book)
}

fn write(
    book: &mut Book,
    mut voucher: Voucher,
    is_new: bool,
    findings: Option<Box<Measured>>,
) -> Result<Reply, BookError> {
    if let Some(measured) = findings {
        let Measured {
            photo,
            sha256,
            is_copied,
            attached,
        } = *measured;
        let link: PhotoLink = book.link_photo(&photo, &sha256, Copying::of(&voucher, is_copied))?;
        voucher.attach(link, attached);
    }
    if is_new {
        let number = voucher.catalog_number.clone();
        book.add_voucher(voucher)?;
        return Ok(Reply::Kept(Box::new(book.voucher(&number)?.clone())));
    }
    let id = voucher.occurrence_id.clone();
    match book.save_voucher(voucher.clone())? {
        Saved::Written(_) => {
            let kept = book.vouchers().find(|v| v.occurrence_id == id);
            Ok(Reply::Kept(Box::new(kept.cloned().unwrap_or(voucher))))
        }
        Saved::Changed(theirs) => Ok(Reply::Changed {
            mine: Box::new(voucher),
            theirs,
        }),
    }
}

fn refused(error: &BookError) -> Reply {
    Reply::Failed(in_words(error))
}

/// What went wrong, as a sentence for the window, where nobody types commands.
fn in_words(error: &BookError) -> String {
    match error {
        BookError::NotABook(folder) => text!("there-is-no-book-in", folder = folder.display()),
        BookError::AlreadyABook(folder) => text!("there-is-a-book-in", folder = folder.display()),
        BookError::NumberTaken(number) => text!("the-catalogue-number-is-taken", number = number),
        BookError::Missing { kind, name } => {
            text!("the-book-has-it-no-more", kind = kind, name = name)
        }
        error => sentence(error),
    }
}
