//! Record: keep the findings as files.

use super::{explain, first};
use crate::app::keys::SAVE;
use crate::app::theme;
use crate::app::{Memory, Wish};
use crate::session::{Export, Session};
use egui::{CollapsingHeader, Ui};

const fn name(export: Export) -> (&'static str, &'static str) {
    match export {
        Export::Findings => (
            "Save findings (JSON)…",
            "All figures with intervals, notes and settings, for scripts and for the record",
        ),
        Export::PoreTable => (
            "Save pores (CSV)…",
            "One line per pore with its place and its measures, for a spreadsheet",
        ),
        Export::Overlay => (
            "Save overlay (PNG)…",
            "A copy of the photo with the outlines drawn on it: the evidence to show",
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
        let button = ui.add_enabled(why_not.is_none() && memory.dialog.is_none(), button);
        if first(memory, button).on_hover_text(hover).clicked() {
            out.push(Wish::AskSave(export));
        }
    }
    if let Some(why) = why_not {
        explain(ui, why);
        return;
    }
    CollapsingHeader::new("Without a file dialog")
        .default_open(false)
        .open(std::mem::take(&mut memory.unfolds_folder).then_some(true))
        .show_unindented(ui, |ui| in_folder(ui, memory, out));
}

/// Saving under the proposed names in a folder typed in.
fn in_folder(ui: &mut Ui, memory: &mut Memory, out: &mut Vec<Wish>) {
    let label = ui.label(theme::quiet(ui, "Folder to save in"));
    ui.add(theme::path_field(&mut memory.folder))
        .labelled_by(label.id);
    ui.horizontal_wrapped(|ui| {
        for (export, text) in [
            (Export::Findings, "Findings (JSON)"),
            (Export::PoreTable, "Pores (CSV)"),
            (Export::Overlay, "Overlay (PNG)"),
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
