//! Messages above the photo, and the question before a file is replaced.

use super::Wish;
use super::theme::{self, palette};
use crate::session::{Command, Notice, Session, Tone};
use egui::text::{LayoutJob, TextFormat};
use egui::{Button, Context, FontId, Id, Label, Modal, TextStyle, Ui, vec2};
use std::path::Path;

/// All messages, the newest last.
pub(crate) fn show(ui: &mut Ui, session: &Session, out: &mut Vec<Command>) {
    for (index, notice) in session.notices().iter().enumerate() {
        ui.horizontal_top(|ui| {
            let dismiss = 80.0;
            let width = ui.available_width() - dismiss - ui.spacing().item_spacing.x;
            ui.vertical(|ui| {
                ui.set_width(width);
                ui.add_space(5.0);
                ui.add(Label::new(text(ui, notice)).wrap());
            });
            let button = Button::new("Dismiss").min_size(vec2(dismiss, 0.0));
            if ui.add(button).clicked() {
                out.push(Command::Dismiss(index));
            }
        });
    }
}

/// A message behind a word on how it is meant.
fn text(ui: &Ui, notice: &Notice) -> LayoutJob {
    let palette = palette(ui);
    let (word, colour) = match notice.tone {
        Tone::Good => ("Done", palette.accent),
        Tone::Trouble => ("Not done", palette.trouble),
    };
    let body = TextStyle::Body.resolve(ui.style());
    let mut job = LayoutJob::default();
    let bold = FontId::new(body.size, theme::semibold());
    job.append(word, 0.0, TextFormat::simple(bold, colour));
    job.append(&notice.text, 8.0, TextFormat::simple(body, palette.text));
    job
}

/// What letting go would do, while files are held over the window.
pub(crate) fn drop_hint(ui: &Ui) {
    if ui.input(|i| i.raw.hovered_files.is_empty()) {
        return;
    }
    let palette = palette(ui);
    let painter = ui.painter();
    let rect = ui.max_rect();
    painter.rect_filled(rect, 0.0, palette.accent_soft);
    painter.text(
        rect.center(),
        egui::Align2::CENTER_CENTER,
        "Let go to open the photo",
        FontId::new(theme::PHRASE, theme::semibold()),
        palette.accent,
    );
}

/// Asks whether a file may be replaced.
pub(crate) fn ask_replace(ctx: &Context, path: &Path, out: &mut Vec<Wish>) {
    let modal = Modal::new(Id::unique("replace")).show(ctx, |ui| {
        ui.set_max_width(420.0);
        ui.heading("Replace the file?");
        ui.label(format!("{} is already there.", path.display()));
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            if ui.add(theme::primary_button(ui, "Replace it")).clicked() {
                out.push(Wish::Replace(true));
            }
            if ui.button("Keep it").clicked() {
                out.push(Wish::Replace(false));
            }
        });
    });
    if modal.should_close() {
        out.push(Wish::Replace(false));
    }
}
