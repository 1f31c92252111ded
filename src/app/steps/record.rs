//! Record: keep the findings as files.

use super::explain;
use crate::app::theme;
use crate::app::{Memory, SAVE, Wish};
use crate::session::{Export, Session};
use egui::{CollapsingHeader, TextEdit, Ui, vec2};

const fn name(export: Export) -> (&'static str, &'static str) {
    match export {
        Export::Findings => (
            "Save findings…",
            "All figures with intervals, notes and settings (JSON), for scripts and for the record",
        ),
        Export::PoreTable => (
            "Save table of pores…",
            "One line per pore with its place and its measures (CSV), for a spreadsheet",
        ),
        Export::Overlay => (
            "Save overlay picture…",
            "A copy of the photo with the outlines drawn on it (PNG): the evidence to show",
        ),
    }
}

/// The step's controls.
pub(crate) fn show(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let why_not = session.why_not_save();
    let shortcut = ui.ctx().format_shortcut(&SAVE);
    for export in Export::ALL {
        let (text, meaning) = name(export);
        let hover = match export {
            Export::Findings => format!("{meaning} ({shortcut})"),
            _ => meaning.to_owned(),
        };
        let button = match (export, why_not) {
            (Export::Findings, None) => theme::primary_button(ui, text),
            _ => egui::Button::new(text),
        };
        if ui
            .add_enabled(why_not.is_none() && memory.dialog.is_none(), button)
            .on_hover_text(hover)
            .clicked()
        {
            out.push(Wish::AskSave(export));
        }
    }
    if let Some(why) = why_not {
        explain(ui, why);
        return;
    }
    CollapsingHeader::new("Without a file dialog")
        .default_open(false)
        .open(memory.no_dialogs.then_some(true))
        .show_unindented(ui, |ui| in_folder(ui, memory, out));
}

/// Saving under the proposed names in a folder typed in.
fn in_folder(ui: &mut Ui, memory: &mut Memory, out: &mut Vec<Wish>) {
    let label = ui.label(theme::quiet(ui, "Folder to save in"));
    ui.add(
        TextEdit::singleline(&mut memory.folder)
            .desired_width(f32::INFINITY)
            .min_size(vec2(0.0, theme::PRESS_HEIGHT))
            .align(egui::Align2::LEFT_CENTER),
    )
    .labelled_by(label.id);
    ui.horizontal_wrapped(|ui| {
        for (export, text) in [
            (Export::Findings, "Findings"),
            (Export::PoreTable, "Table"),
            (Export::Overlay, "Overlay"),
        ] {
            if ui
                .button(text)
                .on_hover_text("Save into this folder; asks before a file is replaced")
                .clicked()
            {
                out.push(Wish::SaveInFolder(export));
            }
        }
    });
}
