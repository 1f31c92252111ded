//! What lies over the window until it is answered: questions, and the list of shortcuts.

use super::theme::{self, palette};
use super::{Memory, Wish, keys};
use crate::session::{Export, Session, file_name};
use egui::{Button, Context, Frame, Grid, Id, Label, Modal, Response, Ui};
use std::path::{Path, PathBuf};

/// Something that lies over the window.
pub(crate) enum Sheet {
    /// A file would be replaced.
    Replace(Export, PathBuf),
    /// A set-up of this name would be replaced.
    ReplaceSetUp(String),
    /// Findings would be lost.
    Lose(Leaving),
    /// The list of shortcuts.
    Shortcuts,
}

/// What would take the findings with it.
pub(crate) enum Leaving {
    /// Opening this photo.
    Open(PathBuf),
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
