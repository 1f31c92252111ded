//! What lies over the window until it is answered: questions, and the list of shortcuts.

use super::files::File;
use super::theme::{self, palette};
use super::{Memory, Wish, finder, keys, preferences, terms};
use crate::session::record::{Conflict, NUMBER};
use crate::session::{BookCommand, Session, file_name};
use crate::wording::text;
use egui::{Button, Context, Frame, Grid, Id, Label, Modal, Response, ScrollArea, Ui};
use std::path::{Path, PathBuf};

/// Something that lies over the window.
pub(crate) enum Sheet {
    /// A file would be replaced.
    Replace(File, PathBuf),
    /// A set-up of this name would be replaced.
    ReplaceSetUp(String),
    /// Findings would be lost.
    Lose(Leaving),
    /// What was typed into a voucher would be lost by this command, or by closing the window.
    LoseVoucher(Option<BookCommand>),
    /// Somebody else changed the voucher.
    Conflict,
    /// The photo belongs to the voucher of this number already.
    AttachedElsewhere(String),
    /// A program before this one did not come to its end.
    Leftovers,
    /// What can be done, by name.
    Finder,
    /// What a person likes.
    Preferences,
    /// What the trade's words mean.
    Terms,
    /// The list of shortcuts.
    Shortcuts,
}

/// What would take the findings with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Leaving {
    /// Closing this photo of the strip.
    Photo(usize),
    /// Closing the window.
    Close,
}

/// What a person answers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Answer {
    /// Leave everything as it is.
    Cancel,
    /// Save beside the file that is there.
    KeepBoth,
    /// Replace the file that is there.
    Replace,
    /// Save the findings, then go on.
    SaveFirst,
    /// Go on without them.
    Discard,
    /// Go on with what was open.
    TakeUp,
    /// Put two versions together; where both changed the same, mine counts.
    Mine,
    /// The same; theirs counts.
    Theirs,
}

/// Shows the sheet that lies there, if any.
pub(crate) fn show(ctx: &Context, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let is_new = std::mem::take(&mut memory.sheet_is_new);
    let Some(sheet) = memory.sheet.take() else {
        return;
    };
    let frame = Frame::popup(&ctx.global_style()).inner_margin(20);
    let modal = Modal::new(Id::unique("sheet"))
        .frame(frame)
        .show(ctx, |ui| {
            let width = (ctx.content_rect().width() - 120.0).min(560.0);
            ui.set_width(width);
            ui.spacing_mut().item_spacing.y = 10.0;
            let height = ctx.content_rect().height() - 80.0;
            // Or a sheet would get no higher than the one before it.
            ui.set_max_height(height);
            let contents = ScrollArea::vertical().max_height(height);
            let contents = contents.auto_shrink([false, true]).show(ui, |ui| {
                let first = match &sheet {
                    Sheet::Replace(_, path) => replace(ui, path, out),
                    Sheet::ReplaceSetUp(name) => replace_set_up(ui, name, out),
                    Sheet::Lose(leaving) => lose(ui, session, leaving, out),
                    Sheet::LoseVoucher(then) => lose_voucher(ui, session, then.as_ref(), out),
                    Sheet::Conflict => match session.record().conflict() {
                        Some(found) => conflict(ui, found, out),
                        None => answer(ui, Button::new(text!("close")), Answer::Cancel, out),
                    },
                    Sheet::AttachedElsewhere(number) => elsewhere(ui, session, number, out),
                    Sheet::Leftovers => leftovers(ui, session, out),
                    Sheet::Finder => {
                        let field = finder::show(ui, session, memory, out);
                        finder::foot(ui);
                        field
                    }
                    Sheet::Preferences => preferences::show(ui, session, out),
                    Sheet::Terms => terms::show(ui, out),
                    Sheet::Shortcuts => shortcuts(ui, out),
                };
                theme::follow_focus(ui);
                first
            });
            if is_new {
                contents.inner.request_focus();
            }
        });
    memory.sheet = Some(sheet);
    if modal.should_close() {
        out.push(Wish::Answer(Answer::Cancel));
    }
}

fn answer(ui: &mut Ui, button: Button<'_>, answer: Answer, out: &mut Vec<Wish>) -> Response {
    let response = ui.add(button);
    if response.clicked() {
        out.push(Wish::Answer(answer));
    }
    response
}

fn replace(ui: &mut Ui, path: &Path, out: &mut Vec<Wish>) -> Response {
    ui.heading(text!("a-file-of-that-name-is"));
    ui.add(Label::new(path.display().to_string()).wrap());
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        let keep_both = theme::primary_button(ui, text!("keep-both"));
        let first = answer(ui, keep_both, Answer::KeepBoth, out);
        answer(ui, Button::new(text!("cancel")), Answer::Cancel, out);
        answer(ui, Button::new(text!("replace-it")), Answer::Replace, out);
        first
    })
    .inner
}

fn replace_set_up(ui: &mut Ui, name: &str, out: &mut Vec<Wish>) -> Response {
    ui.heading(text!("a-set-up-of-that-name"));
    ui.add(Label::new(name).wrap());
    ui.label(theme::quiet(ui, text!("photos-measured-by-the-old-one")));
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        let first = answer(ui, Button::new(text!("cancel")), Answer::Cancel, out);
        answer(ui, Button::new(text!("replace-it")), Answer::Replace, out);
        first
    })
    .inner
}

fn lose(ui: &mut Ui, session: &Session, leaving: &Leaving, out: &mut Vec<Wish>) -> Response {
    ui.heading(text!("the-findings-are-not-saved"));
    let unsaved = session.unsaved_photos();
    let present = session.document().photo.as_ref();
    let present = present.map_or_else(String::new, |photo| file_name(&photo.path));
    let (what, lost) = match leaving {
        Leaving::Photo(_) => (text!("closing-the-photo"), present),
        Leaving::Close => (text!("closing-the-window"), unsaved.join(", ")),
    };
    ui.add(
        Label::new(text!(
            "would-lose-what-was-measured",
            doing = what,
            photos = lost
        ))
        .wrap(),
    );
    if *leaving == Leaving::Close && (unsaved.len() > 1 || !session.has_unsaved_findings()) {
        ui.add_space(4.0);
        return ui
            .horizontal_wrapped(|ui| {
                let cancel = theme::primary_button(ui, text!("go-back-and-save-them"));
                let first = answer(ui, cancel, Answer::Cancel, out);
                answer(ui, Button::new(text!("discard-all")), Answer::Discard, out);
                first
            })
            .inner;
    }
    let why_not = session.why_not_save();
    if let Some(why) = why_not {
        ui.label(theme::quiet(
            ui,
            text!("they-cannot-be-saved-now", why = why),
        ));
    }
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        let first = why_not.is_none().then(|| {
            let save_first = theme::primary_button(ui, text!("save-first"));
            answer(ui, save_first, Answer::SaveFirst, out)
        });
        answer(ui, Button::new(text!("discard")), Answer::Discard, out);
        let cancel = answer(ui, Button::new(text!("cancel")), Answer::Cancel, out);
        first.unwrap_or(cancel)
    })
    .inner
}

fn elsewhere(ui: &mut Ui, session: &Session, number: &str, out: &mut Vec<Wish>) -> Response {
    let form = session.record().form();
    let to = form.map_or("", |form| form.text(NUMBER));
    ui.heading(text!(
        "this-photo-belongs-to-another-voucher",
        number = number
    ));
    let text = text!("attach-only-if-both-are-shown", this = to, other = number);
    ui.add(Label::new(text).wrap());
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        let cancel = theme::primary_button(ui, text!("cancel"));
        let first = answer(ui, cancel, Answer::Cancel, out);
        let both = Button::new(text!("attach-to-this-too", this = to));
        answer(ui, both, Answer::KeepBoth, out);
        first
    })
    .inner
}

fn leftovers(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) -> Response {
    ui.heading(text!("poreline-did-not-come-to-its"));
    ui.label(text!("this-was-open-with-everything-that"));
    ScrollArea::vertical().max_height(200.0).show(ui, |ui| {
        for name in session.leftovers() {
            ui.add(Label::new(format!("–  {name}")).wrap());
        }
    });
    ui.label(theme::quiet(
        ui,
        text!("photos-that-were-measured-are-measured"),
    ));
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        let take_up = theme::primary_button(ui, text!("go-on-where-it-stopped"));
        let first = answer(ui, take_up, Answer::TakeUp, out);
        answer(ui, Button::new(text!("drop-it")), Answer::Discard, out);
        first
    })
    .inner
}

fn lose_voucher(
    ui: &mut Ui,
    session: &Session,
    then: Option<&BookCommand>,
    out: &mut Vec<Wish>,
) -> Response {
    let form = session.record().form();
    let number = form.map_or("", |form| form.text(NUMBER));
    ui.heading(text!("the-voucher-is-not-saved"));
    let what = match then {
        None => text!("closing-the-window-would-lose"),
        Some(BookCommand::Drop) => text!("this-drops"),
        Some(_) => text!("going-on-would-lose"),
    };
    ui.add(
        Label::new(text!(
            "would-lose-what-you-typed",
            doing = what,
            number = number
        ))
        .wrap(),
    );
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        let first = (then != Some(&BookCommand::Drop)).then(|| {
            let save_first = theme::primary_button(ui, text!("save-first"));
            answer(ui, save_first, Answer::SaveFirst, out)
        });
        answer(ui, Button::new(text!("discard")), Answer::Discard, out);
        let cancel = answer(ui, Button::new(text!("cancel")), Answer::Cancel, out);
        first.unwrap_or(cancel)
    })
    .inner
}

fn conflict(ui: &mut Ui, found: &Conflict, out: &mut Vec<Wish>) -> Response {
    ui.heading(text!(
        "voucher-changed-by-somebody-else",
        number = found.number()
    ));
    let is_disputed = !found.disputed.is_empty();
    let text = if is_disputed {
        text!("since-you-began-another-window-or-person")
    } else {
        text!("since-you-began-another-window-or")
    };
    ui.add(Label::new(text).wrap());
    if is_disputed {
        Grid::new("disputed")
            .num_columns(3)
            .spacing([18.0, 7.0])
            .min_row_height(20.0)
            .show(ui, |ui| {
                for title in [text!("field"), text!("yours"), text!("theirs")] {
                    ui.label(theme::bold(title));
                }
                ui.end_row();
                for field in &found.disputed {
                    ui.label(theme::quiet(ui, &field.label));
                    for said in [&field.mine, &field.theirs] {
                        ui.add(Label::new(said).wrap());
                    }
                    ui.end_row();
                }
            });
    }
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        let text = if is_disputed {
            text!("put-together-yours-in-these-fields")
        } else {
            text!("put-together")
        };
        let together = theme::primary_button(ui, text);
        let first = answer(ui, together, Answer::Mine, out);
        if is_disputed {
            let theirs = Button::new(text!("put-together-theirs-in-these-fields"));
            answer(ui, theirs, Answer::Theirs, out);
        }
        let both = answer(ui, Button::new(text!("keep-both")), Answer::KeepBoth, out);
        both.on_hover_text(text!("theirs-stays-as-it-is-yours"));
        answer(ui, Button::new(text!("go-on-typing")), Answer::Cancel, out);
        first
    })
    .inner
}

fn shortcuts(ui: &mut Ui, out: &mut Vec<Wish>) -> Response {
    ui.heading(text!("shortcuts"));
    let height = (ui.ctx().content_rect().height() - 200.0).max(200.0);
    ScrollArea::vertical()
        .max_height(height)
        // Or it would grow only once it is worked on, and Close would move away from the pointer.
        .min_scrolled_height(height)
        .auto_shrink([false, true])
        .show(ui, |ui| {
            Grid::new("shortcuts")
                .num_columns(2)
                .spacing([18.0, 7.0])
                .min_row_height(20.0)
                .show(ui, |ui| {
                    for (keys, meaning) in keys::list(ui.ctx()) {
                        ui.label(theme::bold(keys));
                        let meaning = egui::RichText::new(meaning).color(palette(ui).text);
                        ui.add(Label::new(meaning).wrap());
                        ui.end_row();
                    }
                });
        });
    answer(ui, Button::new(text!("close")), Answer::Cancel, out)
}
