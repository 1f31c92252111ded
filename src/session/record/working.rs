//! Working on the book: what a person wants done, and what came of it.

use super::conflict::{Conflict, Settling};
use super::desk::{self, Desk};
use super::fields::WALK;
use super::form::Form;
use super::keeper::{Errand, Keeper, Measured, Reply};
use super::walks::Walked;
use super::{BookCommand, Comparison, OpenBook, Record, Sent, pooled_in_words, today};
use crate::Measurement;
use crate::book::{Attached, BookCard, Voucher, is_book};
use crate::export::json;
use crate::session::{ScaleWay, Session, StepStanding, Tone, Work};
use crate::wording::text;
use jiff::ZonedDateTime;
use serde_json::{Map, Value};
use std::path::PathBuf;
use std::sync::Arc;

impl Session {
    /// The book beside the photo.
    #[must_use]
    pub const fn record(&self) -> &Record {
        &self.record
    }

    /// Remembers the book from one start to the next with the person's settings, and opens the one
    /// that was open last.
    pub fn remember_book(&mut self) {
        if let Some(file) = desk::of_person() {
            self.remember_book_in(file);
        }
    }

    /// The same in a file of its own.
    pub fn remember_book_in(&mut self, file: PathBuf) {
        self.record.desk = Desk::read(&file);
        self.record.desk_file = Some(file);
        match self.record.desk.book.clone() {
            Some(folder) if is_book(&folder) => self.work_on_book(BookCommand::Open(folder)),
            Some(folder) => self.notify(
                Tone::Trouble,
                text!("the-book-that-was-open-last", folder = folder.display()),
            ),
            None => {}
        }
    }

    /// Whether a voucher was filled in and not saved.
    #[must_use]
    pub fn has_unsaved_voucher(&self) -> bool {
        self.record.form.as_ref().is_some_and(Form::is_changed)
    }

    /// Whether a command would lose what was typed.
    #[must_use]
    pub fn would_lose_voucher(&self, command: &BookCommand) -> bool {
        let is_other = match command {
            BookCommand::Open(_)
            | BookCommand::Make { .. }
            | BookCommand::MakeDemo
            | BookCommand::New => true,
            BookCommand::Pick(id) => self.record.form.as_ref().is_some_and(|f| f.id() != id),
            _ => false,
        };
        is_other && self.has_unsaved_voucher()
    }

    /// Why nothing can be done with the book now; `None` when it can.
    #[must_use]
    pub fn why_not_book(&self) -> Option<&'static str> {
        self.record
            .is_busy()
            .then_some(text!("wait-until-the-book-is-written"))
    }

    /// Why the voucher cannot be saved now; `None` when it can.
    #[must_use]
    pub fn why_not_save_voucher(&self) -> Option<&'static str> {
        let form = self.record.form.as_ref();
        self.why_not_book().or_else(|| match form {
            None => Some(text!("pick-a-voucher-or-make-a")),
            Some(form) if !form.is_new() && !form.is_changed() => Some(text!("it-is-saved")),
            Some(_) => None,
        })
    }

    /// Why the findings cannot be attached now; `None` when they can.
    #[must_use]
    pub fn why_not_attach(&self) -> Option<&'static str> {
        if self.record.form.is_none() {
            Some(text!("pick-a-voucher-or-make-a"))
        } else {
            self.why_not_book().or_else(|| self.why_not_save())
        }
    }

    /// The number of another voucher that has findings on the present photo already; a photo of two
    /// specimens is a slip more often than not.
    #[must_use]
    pub fn attached_elsewhere(&self) -> Option<String> {
        let photo = self.document.photo.as_ref()?;
        let book = self.record.book()?;
        let to = self.record.form.as_ref().map(Form::id);
        let other = book.other_with_photo(&photo.sha256, to)?;
        Some(other.catalog_number.clone())
    }

    /// Does what a person wants with the book.
    #[expect(clippy::too_many_lines, reason = "a few lines for each thing wanted")]
    pub(in crate::session) fn work_on_book(&mut self, command: BookCommand) {
        let record = &mut self.record;
        match command {
            BookCommand::Open(folder) => self.ask(text!("opening-the-book"), Errand::Open(folder)),
            BookCommand::Make {
                folder,
                name,
                numbers,
            } => {
                let card = BookCard::new(name.trim(), numbers.trim());
                self.ask(text!("making-the-book"), Errand::Make(folder, card));
            }
            BookCommand::MakeDemo => {
                record.makes_demo = true;
                self.ask(text!("making-the-demo-book"), Errand::MakeDemo);
            }
            BookCommand::ReadAnew => {
                if let Some(folder) = record.book().map(|book| book.folder().to_owned()) {
                    self.ask(text!("reading-the-book-anew"), Errand::Open(folder));
                }
            }
            BookCommand::Find(typed) => {
                if let Some(book) = &mut record.book {
                    book.find(typed);
                }
            }
            BookCommand::SortBy(column) => {
                if let Some(book) = &mut record.book {
                    book.sort_by(column);
                }
            }
            // Whoever picks the same again goes on filling it in.
            BookCommand::Pick(id) if record.form().is_some_and(|form| form.id() == id) => {}
            BookCommand::Pick(id) => record.pick(&id),
            BookCommand::New => {
                let mut form = Form::new();
                if let Some(photo) = &self.document.photo {
                    form.fill_from(photo);
                }
                record.form = Some(form);
                record.propose_number();
            }
            BookCommand::Drop => {
                let id = record.form.take().map(|form| form.id().to_owned());
                if let Some(id) = id {
                    record.pick(&id);
                }
            }
            BookCommand::Write(term, text) => {
                if let Some(form) = &mut record.form {
                    let walk = (record.book.as_deref())
                        .filter(|_| term == WALK)
                        .and_then(|book| book.walk(&text));
                    if let Some(walk) = walk {
                        form.fill_from_walk(walk);
                    }
                    form.write(term, text);
                }
                record.propose_number();
            }
            BookCommand::TakeFromPhoto => {
                if let (Some(form), Some(photo)) = (&mut record.form, &self.document.photo) {
                    form.fill_from(photo);
                }
                record.propose_number();
            }
            BookCommand::Detach(sha256) => {
                if let Some(form) = &mut record.form {
                    form.detach(&sha256);
                }
            }
            BookCommand::BlurPlace => {
                if let Some(form) = &mut record.form {
                    form.blur_place();
                }
            }
            BookCommand::Save => self.send_voucher(None),
            BookCommand::WriteMeasuredBy(name) => record.desk.measured_by = name,
            BookCommand::Attach { is_copied } => self.attach(is_copied),
            BookCommand::Settle(settling) => self.settle(settling),
            BookCommand::Compare => record.compares = true,
            BookCommand::Check => self.ask(text!("checking-the-book"), Errand::Check(today())),
            BookCommand::HideCheck => record.checked = None,
            BookCommand::Export { what, path, places } => self.export_book(what, path, places),
            BookCommand::PickWalk(id) => record.walk = Some(id),
            BookCommand::WriteWalk(form) => record.walk_form = form,
            BookCommand::AddWalk if record.walk_form.why_no_walk().is_none() => {
                let walk = record.walk_form.walk();
                self.ask(text!("saving-the-walk"), Errand::AddWalk(walk));
            }
            BookCommand::AddSighting if record.walk_form.why_no_sighting().is_none() => {
                let seen = record.walk_form.sighting();
                if let Some(id) = record.walk.clone() {
                    self.ask(text!("saving-the-walk"), Errand::See(id, seen));
                }
            }
            BookCommand::AddWalk | BookCommand::AddSighting => {}
            BookCommand::OpenAgain(again) => {
                self.open(&again.path.clone());
                self.record.again = Some(again);
                // The photo may be open already.
                if self.work == Work::Idle {
                    self.history.keep(self.document.clone());
                    self.take_again();
                }
            }
        }
        self.compare_anew();
    }

    pub(super) fn ask(&mut self, doing: &'static str, errand: Errand) {
        self.notices.forget_trouble();
        let keeper = match self.record.keeper.take() {
            Some(keeper) => Ok(keeper),
            None => Keeper::start(Arc::clone(&self.wake)),
        };
        match keeper {
            Ok(mut keeper) => {
                keeper.ask(errand);
                self.record.doing = Some(doing);
                self.record.keeper = Some(keeper);
            }
            Err(error) => self.notify(
                Tone::Trouble,
                text!("the-book-cannot-be-reached", error = error),
            ),
        }
    }

    /// Fetches what came of the book's errands.
    pub(in crate::session) fn hear_of_book(&mut self) -> bool {
        let mut has_heard = false;
        while let Some(reply) = self.record.keeper.as_mut().and_then(Keeper::reply) {
            has_heard = true;
            if !self.record.is_busy() {
                self.record.doing = None;
            }
            match reply {
                Reply::Opened(book) => self.take_book(book),
                Reply::Walked(book, walked) => {
                    self.take_book(book);
                    self.record.walk_form.forget(&walked);
                    if let Walked::New(id) = walked {
                        self.record.walk = Some(id);
                    }
                }
                Reply::Checked(found) => self.record.checked = Some(found),
                Reply::Exported { path, remarks } => {
                    self.notify(Tone::Good, text!("saved-file", file = path.display()));
                    for remark in remarks {
                        self.notify(Tone::Trouble, remark);
                    }
                }
                Reply::Kept(voucher) => self.take_kept(*voucher),
                Reply::Changed { mine, theirs } => self.take_conflict(*mine, theirs),
                Reply::Failed(why) => {
                    self.record.sent = None;
                    self.record.makes_demo = false;
                    self.notify(Tone::Trouble, why);
                }
            }
            self.compare_anew();
        }
        has_heard
    }

    fn take_book(&mut self, mut book: Box<OpenBook>) {
        let is_demo = std::mem::take(&mut self.record.makes_demo);
        let record = &mut self.record;
        // Its own ranges may have changed.
        record.comparison = Comparison::default();
        let old = record.book.take();
        if let Some(old) = old.filter(|old| old.folder() == book.folder()) {
            book.arranged_like(&old);
            record.book = Some(book);
            if let Some(form) = record
                .form
                .take_if(|form| !form.is_changed() && !form.is_new())
            {
                record.pick(form.id());
            }
            record.propose_number();
            self.go_on_with_voucher();
            return;
        }
        record.form = None;
        record.walk = None;
        record.checked = None;
        record.book = Some(book);
        if !is_demo {
            record.desk.book = record.book().map(|book| book.folder().to_owned());
            self.write_desk();
        }
        self.go_on_with_voucher();
    }

    fn take_kept(&mut self, voucher: Voucher) {
        let sent = self.record.sent.take();
        let record = &mut self.record;
        let number = voucher.catalog_number.clone();
        if let Some(book) = &mut record.book {
            book.take(Arc::new(voucher.clone()));
        }
        let Some(sent) = sent else { return };
        let pooled = pooled_in_words(&voucher);
        if let Some(form) = record
            .form
            .as_mut()
            .filter(|form| form.id() == sent.form.id())
        {
            form.saved(voucher, &sent.form);
        }
        let Some(measurement) = sent.measurement else {
            self.notify(Tone::Good, text!("saved-voucher", number = number));
            return;
        };
        self.mark_saved(&measurement);
        let together =
            pooled.map_or_else(String::new, |pooled| text!("pooled-now", pooled = pooled));
        self.notify(
            Tone::Good,
            text!("attached-to-voucher", number = number, together = together),
        );
    }

    fn take_conflict(&mut self, mine: Voucher, theirs: Map<String, Value>) {
        if let Some(sent) = &self.record.sent {
            self.record.conflict = Some(Conflict::of(sent.form.base(), mine, theirs));
        }
    }

    /// Sends the voucher off as it is filled in.
    fn send_voucher(&mut self, measurement: Option<(Arc<Measurement>, Measured)>) {
        let Some(form) = self
            .record
            .form
            .clone()
            .filter(|_| self.why_not_book().is_none())
        else {
            return;
        };
        if !self.record.complaints().is_empty() {
            self.notify(Tone::Trouble, text!("mend-the-fields-that-are-marked"));
            return;
        }
        let Ok(voucher) = form.voucher(&today()) else {
            return;
        };
        let (measurement, findings) = measurement.unzip();
        self.send(form, voucher, measurement, findings);
    }

    fn send(
        &mut self,
        form: Form,
        voucher: Voucher,
        measurement: Option<Arc<Measurement>>,
        findings: Option<Measured>,
    ) {
        let errand = Errand::Keep {
            voucher: Box::new(voucher),
            is_new: form.is_new(),
            findings: findings.map(Box::new),
        };
        self.record.sent = Some(Sent { form, measurement });
        self.ask(text!("saving-the-voucher"), errand);
    }

    fn attach(&mut self, is_copied: bool) {
        let (None, Some(results), Some(photo)) =
            (self.why_not_attach(), &self.results, &self.document.photo)
        else {
            return;
        };
        let measurement = Arc::clone(&results.measurement);
        let by = self.record.desk.measured_by.trim();
        let measured = Measured {
            photo: photo.path.clone(),
            sha256: photo.sha256.clone(),
            is_copied,
            attached: Attached {
                measurement_determined_date: ZonedDateTime::now()
                    .strftime("%Y-%m-%dT%H:%M:%S%:z")
                    .to_string(),
                measurement_determined_by: (!by.is_empty()).then(|| by.to_owned()),
                findings: json::findings(&measurement.findings),
            },
        };
        self.write_desk();
        self.send_voucher(Some((measurement, measured)));
    }

    /// Attaches the findings on a photo of the strip to a voucher.
    pub(in crate::session) fn attach_frame(&mut self, frame: usize, id: String, is_copied: bool) {
        if self.would_lose_voucher(&BookCommand::Pick(id.clone())) {
            let text = text!("save-the-voucher-that-is-being");
            self.notify(Tone::Trouble, text);
            return;
        }
        self.go_to_frame(frame);
        if let Some(why_not) = self.why_not_save() {
            self.notify(Tone::Trouble, text!("nothing-was-attached", why = why_not));
            return;
        }
        self.work_on_book(BookCommand::Pick(id));
        if let Some(number) = self.attached_elsewhere() {
            self.notify(
                Tone::Trouble,
                text!("nothing-was-attached-photo-belongs", number = number),
            );
            return;
        }
        self.attach(is_copied);
    }

    fn settle(&mut self, settling: Settling) {
        let Some(conflict) = self.record.conflict.take() else {
            return;
        };
        let measurement = self.record.sent.take().and_then(|sent| sent.measurement);
        if settling == Settling::Later {
            return;
        }
        let Some(theirs) = conflict.versions.theirs() else {
            self.notify(
                Tone::Trouble,
                text!(
                    "the-file-of-a-voucher-is-damaged",
                    number = conflict.number()
                ),
            );
            return;
        };
        let form = if settling == Settling::Both {
            if let Some(book) = &mut self.record.book {
                book.take(Arc::new(theirs));
            }
            let year = self.record.form.as_ref().and_then(Form::year);
            let year = year.unwrap_or_else(|| ZonedDateTime::now().year());
            let next = self
                .record
                .book
                .as_ref()
                .and_then(|book| book.next_number(year));
            next.map(|number| Form::beginning_with(conflict.versions.apart(number)))
        } else {
            let together = conflict.versions.together(settling == Settling::Mine);
            together.map(|voucher| Form::changed(theirs, voucher))
        };
        let Some(form) = form else {
            self.notify(Tone::Trouble, text!("the-two-could-not-be-put"));
            return;
        };
        let voucher = form.rest().clone();
        self.record.form = Some(form.clone());
        self.send(form, voucher, measurement, None);
    }

    fn write_desk(&mut self) {
        if let Some(file) = &self.record.desk_file
            && let Err(error) = self.record.desk.write(file)
        {
            let text = text!("which-book-is-open-could-not", error = error);
            self.notify(Tone::Trouble, text);
        }
    }

    /// A photo of the book has been opened again: sets its scale and area, and measures.
    pub(in crate::session) fn take_again(&mut self) {
        let Some(again) = self.record.again.take() else {
            return;
        };
        if let Some(why_not) = again.set(&mut self.document) {
            self.notify(Tone::Trouble, why_not);
        }
        if self.document.scale.way == ScaleWay::Card {
            self.seek();
        } else {
            self.measure();
            self.record.measures_again = true;
        }
    }

    /// How the last step stands.
    pub(in crate::session) fn record_state(&self) -> (StepStanding, String) {
        use StepStanding::{Done, Later, NeedsYou, Working};
        let of_book = self.record.book().map(|book| {
            text!(
                "book-and-vouchers",
                book = book.name(),
                count = book.count()
            )
        });
        if let Some(doing) = self.record.doing {
            return (Working(text!("working")), doing.to_owned());
        }
        if self.has_unsaved_voucher() {
            return (NeedsYou, text!("the-voucher-is-not-saved-yet").to_owned());
        }
        match (self.document.photo.is_some(), self.why_not_save().is_some()) {
            (false, _) => (
                Later,
                of_book.unwrap_or_else(|| text!("keep-the-findings").to_owned()),
            ),
            (true, true) => (
                Later,
                of_book.unwrap_or_else(|| text!("keep-the-findings-once-they-are").to_owned()),
            ),
            (true, false) if self.saved => (Done, text!("saved-save-more-or-open-the").to_owned()),
            (true, false) if of_book.is_some() => (
                NeedsYou,
                text!("attach-the-findings-to-a-voucher").to_owned(),
            ),
            (true, false) => (NeedsYou, text!("save-the-findings-to-keep-them").to_owned()),
        }
    }
}
