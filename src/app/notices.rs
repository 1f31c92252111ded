//! Messages above the photo, and the question before a file is replaced.

use super::Wish;
use super::theme::{self, palette};
use crate::session::{Command, Session, Tone};
use egui::{Align, Context, FontId, Id, Layout, Modal, Ui};
use std::path::Path;

/// All messages, the newest last.
pub fn show(ui: &mut Ui, session: &Session, out: &mut Vec<Command>) {
    for (index, notice) in session.notices().iter().enumerate() {
        ui.with_layout(Layout::right_to_left(Align::TOP), |ui| {
            if ui.button("Dismiss").clicked() {
                out.push(Command::Dismiss(index));
            }
            ui.with_layout(
                Layout::left_to_right(Align::TOP).with_main_wrap(true),
                |ui| {
                    let (colour, word) = match notice.tone {
                        Tone::Good => (palette(ui).accent, "Done"),
                        Tone::Trouble => (palette(ui).trouble, "Not done"),
                    };
                    ui.add_space(2.0);
                    ui.label(theme::bold(word).color(colour));
                    ui.label(&notice.text);
                },
            );
        });
    }
}

/// What letting go would do, while files are held over the window.
pub fn drop_hint(ui: &Ui) {
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
pub fn ask_replace(ctx: &Context, path: &Path, out: &mut Vec<Wish>) {
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
