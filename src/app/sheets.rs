//! What lies over the window until it is answered: questions, and the list of shortcuts.

use super::files::File;
use super::theme::{self, palette};
use super::{Memory, Wish, keys};
use crate::session::record::{Again, Conflict, NUMBER};
use crate::session::{BookCommand, Session, file_name};
use egui::{Button, Context, Frame, Grid, Id, Label, Modal, Response, Ui};
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
    /// The list of shortcuts.
    Shortcuts,
}

/// What would take the findings with it.
pub(crate) enum Leaving {
    /// Opening this photo.
    Open(PathBuf),
    /// Opening this photo of the book again.
    OpenAgain(Again),
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
    /// Put two versions together; where both changed the same, mine counts.
    Mine,
    /// The same; theirs counts.
    Theirs,
}

/// Shows the sheet that lies there, if any.
pub(crate) fn show(ctx: &Context, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let is_new = std::mem::take(&mut memory.sheet_is_new);
    let Some(sheet) = &memory.sheet else { return };
    let frame = Frame::popup(&ctx.global_style()).inner_margin(20);
    let modal = Modal::new(Id::unique("sheet"))
        .frame(frame)
        .show(ctx, |ui| {
            let width = (ctx.content_rect().width() - 120.0).min(560.0);
            ui.set_width(width);
            ui.spacing_mut().item_spacing.y = 10.0;
            let first = match sheet {
                Sheet::Replace(_, path) => replace(ui, path, out),
                Sheet::ReplaceSetUp(name) => replace_set_up(ui, name, out),
                Sheet::Lose(leaving) => lose(ui, session, leaving, out),
                Sheet::LoseVoucher(then) => lose_voucher(ui, session, then.as_ref(), out),
                Sheet::Conflict => match session.record().conflict() {
                    Some(found) => conflict(ui, found, out),
                    None => answer(ui, Button::new("Close"), Answer::Cancel, out),
                },
                Sheet::Shortcuts => shortcuts(ui, out),
            };
            if is_new {
                first.request_focus();
            }
        });
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
    ui.heading("A file of that name is already there");
    ui.add(Label::new(path.display().to_string()).wrap());
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        let keep_both = theme::primary_button(ui, "Keep both");
        let first = answer(ui, keep_both, Answer::KeepBoth, out);
        answer(ui, Button::new("Cancel"), Answer::Cancel, out);
        answer(ui, Button::new("Replace it"), Answer::Replace, out);
        first
    })
    .inner
}

fn replace_set_up(ui: &mut Ui, name: &str, out: &mut Vec<Wish>) -> Response {
    ui.heading("A set-up of that name is already there");
    ui.add(Label::new(name).wrap());
    ui.label(theme::quiet(
        ui,
        "Photos measured by the old one keep their figures.",
    ));
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        let first = answer(ui, Button::new("Cancel"), Answer::Cancel, out);
        answer(ui, Button::new("Replace it"), Answer::Replace, out);
        first
    })
    .inner
}

fn lose(ui: &mut Ui, session: &Session, leaving: &Leaving, out: &mut Vec<Wish>) -> Response {
    ui.heading("The findings are not saved");
    let photo = session.document().photo.as_ref();
    let name = photo.map_or_else(String::new, |photo| file_name(&photo.path));
    let what = match leaving {
        Leaving::Open(path) => format!("Opening {}", file_name(path)),
        Leaving::OpenAgain(again) => format!("Opening {} again", file_name(&again.path)),
        Leaving::Close => "Closing the window".to_owned(),
    };
    ui.add(Label::new(format!("{what} would lose what was measured on {name}.")).wrap());
    let why_not = session.why_not_save();
    if let Some(why) = why_not {
        ui.label(theme::quiet(
            ui,
            format!("They cannot be saved now: {why}."),
        ));
    }
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        let first = why_not.is_none().then(|| {
            let save_first = theme::primary_button(ui, "Save first");
            answer(ui, save_first, Answer::SaveFirst, out)
        });
        answer(ui, Button::new("Discard"), Answer::Discard, out);
        let cancel = answer(ui, Button::new("Cancel"), Answer::Cancel, out);
        first.unwrap_or(cancel)
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
    ui.heading("The voucher is not saved");
    let what = match then {
        None => "Closing the window would lose",
        Some(BookCommand::Drop) => "This drops",
        Some(_) => "Going on would lose",
    };
    ui.add(
        Label::new(format!(
            "{what} what you typed into {number} since it was saved."
        ))
        .wrap(),
    );
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        let first = (then != Some(&BookCommand::Drop)).then(|| {
            let save_first = theme::primary_button(ui, "Save first");
            answer(ui, save_first, Answer::SaveFirst, out)
        });
        answer(ui, Button::new("Discard"), Answer::Discard, out);
        let cancel = answer(ui, Button::new("Cancel"), Answer::Cancel, out);
        first.unwrap_or(cancel)
    })
    .inner
}

fn conflict(ui: &mut Ui, found: &Conflict, out: &mut Vec<Wish>) -> Response {
    ui.heading(format!("{} was changed by somebody else", found.number()));
    let is_disputed = !found.disputed.is_empty();
    let text = if is_disputed {
        "Since you began, another window or person saved this voucher. Nothing was overwritten. Both \
         of you changed these fields:"
    } else {
        "Since you began, another window or person saved this voucher. Nothing was overwritten, and \
         you changed different things, so that both fit together."
    };
    ui.add(Label::new(text).wrap());
    if is_disputed {
        Grid::new("disputed")
            .num_columns(3)
            .spacing([18.0, 7.0])
            .min_row_height(20.0)
            .show(ui, |ui| {
                for title in ["Field", "Yours", "Theirs"] {
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
            "Put together, yours in these fields"
        } else {
            "Put together"
        };
        let together = theme::primary_button(ui, text);
        let first = answer(ui, together, Answer::Mine, out);
        if is_disputed {
            let theirs = Button::new("Put together, theirs in these fields");
            answer(ui, theirs, Answer::Theirs, out);
        }
        let both = answer(ui, Button::new("Keep both"), Answer::KeepBoth, out);
        both.on_hover_text("Theirs stays as it is; yours becomes a voucher with the next number");
        answer(ui, Button::new("Go on typing"), Answer::Cancel, out);
        first
    })
    .inner
}

fn shortcuts(ui: &mut Ui, out: &mut Vec<Wish>) -> Response {
    ui.heading("Shortcuts");
    Grid::new("shortcuts")
        .num_columns(2)
        .spacing([18.0, 7.0])
        .min_row_height(20.0)
        .show(ui, |ui| {
            for (keys, meaning) in keys::list(ui.ctx()) {
                ui.label(theme::bold(keys));
                ui.label(egui::RichText::new(meaning).color(palette(ui).text));
                ui.end_row();
            }
        });
    answer(ui, Button::new("Close"), Answer::Cancel, out)
}
