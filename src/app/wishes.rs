//! What the window does about a wish: at once, or after asking where something would be lost.

use super::dialog::Dialog;
use super::files::File;
use super::finder::Finder;
use super::guide::Guide;
use super::record::View;
use super::sheets::{Answer, Leaving, Sheet};
use super::{AfterVoucher, App, KeyboardTo, Wish};
use crate::session::Tone;
use crate::session::record::Settling;
use crate::session::{BookCommand, Command, Export, FrameStanding, Step, free_name};
use crate::wording::text;
use egui::{Context, ViewportCommand};
use std::path::PathBuf;

impl App {
    /// Closes the window or a photo, after asking where findings would be lost.
    pub(super) fn leave(&mut self, ctx: &Context, leaving: Leaving) {
        let loses = match leaving {
            Leaving::Photo(at) => {
                let frame = self.session.frames().into_iter().nth(at);
                frame.is_some_and(|frame| frame.standing == FrameStanding::Measured)
            }
            Leaving::Close => !self.session.unsaved_photos().is_empty(),
        };
        if loses {
            if let Leaving::Photo(at) = leaving {
                // So that it is seen what would be lost, and can be saved.
                self.session.apply(Command::GoToFrame(at));
            }
            self.lay(Sheet::Lose(leaving));
        } else {
            self.leave_at_once(ctx, leaving);
        }
    }

    /// Works on the book, after asking where something typed would be lost.
    pub(super) fn work_on_book(&mut self, command: BookCommand) {
        if self.session.would_lose_voucher(&command) {
            self.lay(Sheet::LoseVoucher(Some(command)));
        } else {
            self.work_on_book_at_once(command);
        }
    }

    fn work_on_book_at_once(&mut self, command: BookCommand) {
        let is_new = command == BookCommand::New;
        self.session.apply(Command::Book(command));
        if is_new {
            self.memory.view = View::Voucher;
        }
    }

    pub(super) fn leave_at_once(&mut self, ctx: &Context, leaving: Leaving) {
        match leaving {
            Leaving::Photo(at) => self.session.apply(Command::CloseFrame(at)),
            Leaving::Close => {
                self.memory.may_close = true;
                ctx.send_viewport_cmd(ViewportCommand::Close);
            }
        }
    }

    /// Goes on with what was asked for before the voucher was saved, if it was.
    pub(super) fn go_on_after_voucher(&mut self, ctx: &Context) {
        if self.memory.after_voucher.is_none() || self.session.record().doing().is_some() {
            return;
        }
        let then = self.memory.after_voucher.take();
        if self.session.has_unsaved_voucher() {
            return;
        }
        match then {
            Some(AfterVoucher::Book(command)) => self.work_on_book_at_once(command),
            Some(AfterVoucher::Close) => self.leave(ctx, Leaving::Close),
            None => {}
        }
    }

    pub(super) fn grant(&mut self, ctx: &Context, wish: Wish) {
        let waker = ctx.clone();
        let wake = move || waker.request_repaint();
        let wants_photo = matches!(
            wish,
            Wish::ShowPlace(_) | Wish::ShowPore(_) | Wish::MarkWhite | Wish::KeyboardToPhoto
        );
        self.memory.shows_findings &= !wants_photo;
        match wish {
            Wish::Do(command) => self.session.apply(command),
            Wish::Go(step) => self.go(step),
            Wish::CloseFrame(at) => self.leave(ctx, Leaving::Photo(at)),
            Wish::Book(command) => self.work_on_book(command),
            Wish::Show(view) => {
                self.memory.view = view;
                if view == View::Book {
                    self.memory.keyboard_to = Some(KeyboardTo::Find);
                }
            }
            Wish::AskFolder(purpose) if self.memory.dialog.is_none() => {
                self.memory.dialog = Some(Dialog::folder(purpose, wake));
            }
            Wish::AskDrop => self.lay(Sheet::LoseVoucher(Some(BookCommand::Drop))),
            Wish::AskOpen if self.memory.dialog.is_none() => {
                self.memory.step = Step::Photo;
                let folder = self.session.preferences().open_folder();
                self.memory.dialog = Some(Dialog::open(folder, wake));
            }
            Wish::AskSave(file) if self.memory.dialog.is_none() => {
                if let Some(name) = file.name(&self.session) {
                    let last = self.session.preferences().save_folder.as_deref();
                    let last = last.filter(|folder| folder.is_dir());
                    let folder = last.or_else(|| file.folder(&self.session));
                    self.memory.dialog = Some(Dialog::save(file, &name, folder, wake));
                }
            }
            Wish::AskOpen | Wish::AskSave(_) | Wish::AskFolder(_) => {}
            Wish::SaveInFolder(file) => {
                if let Some(name) = file.name(&self.session) {
                    let path = PathBuf::from(self.memory.folder.trim()).join(name);
                    if path.exists() {
                        self.lay(Sheet::Replace(file, path));
                    } else {
                        self.session.apply(file.saving(path, &self.memory));
                    }
                }
            }
            Wish::Attach => match self.session.attached_elsewhere() {
                Some(number) => self.lay(Sheet::AttachedElsewhere(number)),
                None => self.attach(),
            },
            Wish::ShowPlace(place) => {
                self.memory.view = View::Photo;
                self.memory.canvas.show_place(place);
            }
            Wish::ShowPore(pore) => {
                if let Some(results) = self.session.results()
                    && let Some(region) = results.measurement.regions.get(pore)
                {
                    self.memory.view = View::Photo;
                    self.memory.canvas.reveal_next(region.centroid());
                }
            }
            // Not before the frame is over, or the key that pressed the button would begin to draw.
            Wish::MarkWhite => self.memory.canvas.mark_white(ctx),
            Wish::SaveSetUp => {
                let name = self.memory.set_up_name.trim().to_owned();
                if self.session.has_set_up(&name) {
                    self.lay(Sheet::ReplaceSetUp(name));
                } else {
                    let replace = false;
                    self.session.apply(Command::SaveSetUp { name, replace });
                }
            }
            Wish::Lay(sheet) => {
                self.memory.finder = Finder::default();
                self.lay(sheet);
            }
            Wish::BeginGuide => {
                self.memory.guide = Some(Guide::Ends);
                self.memory.view = View::Photo;
                self.session.apply(Command::OpenSample);
            }
            Wish::Look(look) => self.memory.canvas.look(look),
            Wish::KeyboardToPhoto => self.memory.canvas.take_keyboard(ctx),
            Wish::Answer(answer) => self.take_answer(ctx, answer),
            Wish::Prefer(preferences) => self.session.prefer(|before| *before = *preferences),
            Wish::ToFolder => {
                self.memory.step = Step::Photo;
                self.memory.keyboard_to = Some(KeyboardTo::PhotoFolder);
            }
            Wish::OpenOutside(path) => {
                if let Err(error) = opener::open(&path) {
                    let path = path.display();
                    let said = text!("nothing-opens-it", path = path, error = error.to_string());
                    self.session.notify(Tone::Trouble, said);
                }
            }
            Wish::ShowFindings(shows) => self.memory.shows_findings = shows,
        }
    }

    fn attach(&mut self) {
        let is_copied = self.memory.copies_photo;
        self.work_on_book(BookCommand::Attach { is_copied });
    }

    fn take_answer(&mut self, ctx: &Context, answer: Answer) {
        self.memory.keyboard_to = Some(KeyboardTo::FirstControl);
        match (self.memory.sheet.take(), answer) {
            (Some(Sheet::Replace(file, path)), Answer::KeepBoth) => {
                let path = free_name(&path);
                self.session.apply(file.saving(path, &self.memory));
            }
            (Some(Sheet::Replace(file, path)), Answer::Replace) => {
                self.session.apply(file.saving(path, &self.memory));
            }
            (Some(Sheet::ReplaceSetUp(name)), Answer::Replace) => {
                let replace = true;
                self.session.apply(Command::SaveSetUp { name, replace });
            }
            (Some(Sheet::Lose(leaving)), Answer::SaveFirst) => {
                self.memory.after_saving = Some(leaving);
                self.go(Step::Record);
                self.grant(ctx, Wish::AskSave(File::Findings(Export::Findings)));
            }
            (Some(Sheet::Lose(leaving)), Answer::Discard) => self.leave_at_once(ctx, leaving),
            (Some(Sheet::LoseVoucher(then)), Answer::SaveFirst) => {
                self.memory.after_voucher =
                    Some(then.map_or(AfterVoucher::Close, AfterVoucher::Book));
                self.session.apply(Command::Book(BookCommand::Save));
                self.go(Step::Record);
                self.memory.view = View::Voucher;
            }
            (Some(Sheet::LoseVoucher(then)), Answer::Discard) => {
                self.session.apply(Command::Book(BookCommand::Drop));
                match then {
                    Some(command) => self.work_on_book_at_once(command),
                    None => self.leave(ctx, Leaving::Close),
                }
            }
            (Some(Sheet::AttachedElsewhere(_)), Answer::KeepBoth) => self.attach(),
            (Some(Sheet::Leftovers), Answer::TakeUp) => {
                self.session.apply(Command::SettleLeftovers(true));
            }
            (Some(Sheet::Leftovers), Answer::Discard) => {
                self.session.apply(Command::SettleLeftovers(false));
            }
            (Some(Sheet::Conflict), answer) => {
                let settling = match answer {
                    Answer::Mine => Settling::Mine,
                    Answer::Theirs => Settling::Theirs,
                    Answer::KeepBoth => Settling::Both,
                    _ => Settling::Later,
                };
                self.session
                    .apply(Command::Book(BookCommand::Settle(settling)));
            }
            _ => {}
        }
    }
}
