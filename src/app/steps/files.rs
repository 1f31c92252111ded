//! Buttons that save files of findings and of the book.

use super::{explain, first};
use crate::app::files::File;
use crate::app::keys::SAVE;
use crate::app::theme;
use crate::app::{Memory, Wish};
use crate::export::darwin_core::Places;
use crate::session::record::Outgoing;
use crate::session::{Export, Session};
use egui::{Button, CollapsingHeader, ComboBox, Ui};

const fn of_findings(export: Export) -> (&'static str, &'static str) {
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
        Export::Corrections => (
            "Save corrections (JSON)…",
            "What was corrected by hand, for `poreline measure --corrections` to correct it again",
        ),
    }
}

const fn of_book(what: Outgoing) -> (&'static str, &'static str) {
    match what {
        Outgoing::ReportPdf => (
            "Report (PDF)…",
            "On the voucher that is picked: photos with what was counted, figures, published ranges and the record, to print or to send",
        ),
        Outgoing::ReportHtml => ("Report (HTML)…", "The same as one page for a browser"),
        Outgoing::Labels => (
            "Labels (PDF)…",
            "One label for each voucher in the list, to print and cut out",
        ),
        Outgoing::Table => ("Table (CSV)…", "One line per voucher, for a spreadsheet"),
        Outgoing::DarwinCore => (
            "Darwin Core (ZIP)…",
            "A Darwin Core Archive of all vouchers with their measurements, for a collection or a portal",
        ),
        Outgoing::Walks => (
            "Walks and checklists (CSV)…",
            "One line per sighting, for a spreadsheet",
        ),
        Outgoing::Months => (
            "Charts by month (PDF)…",
            "On which share of each month’s walks each taxon was met",
        ),
    }
}

/// Corrections are a file only where there are any.
fn offered(session: &Session) -> impl Iterator<Item = Export> {
    let is_corrected = !session.document().corrections.is_empty();
    let all = Export::ALL.into_iter();
    all.filter(move |export| *export != Export::Corrections || is_corrected)
}

/// Files of the findings.
pub(super) fn findings(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let why_not = session.why_not_save();
    let shortcut = ui.ctx().format_shortcut(&SAVE);
    let has_book = session.record().book().is_some();
    for export in offered(session) {
        let (text, meaning) = of_findings(export);
        let hover = match export {
            Export::Findings => format!("{meaning} ({shortcut})"),
            _ => meaning.to_owned(),
        };
        let button = match (export, why_not) {
            (Export::Findings, None) if !has_book => theme::primary_button(ui, text),
            _ => Button::new(text),
        };
        let button = ui.add_enabled(why_not.is_none() && memory.dialog.is_none(), button);
        if first(memory, button).on_hover_text(hover).clicked() {
            out.push(Wish::AskSave(File::Findings(export)));
        }
    }
    if let Some(why) = why_not {
        explain(ui, why);
        return;
    }
    CollapsingHeader::new("Without a file dialog")
        .id_salt("findings without a dialog")
        .default_open(false)
        .open(std::mem::take(&mut memory.unfolds_folder).then_some(true))
        .show_unindented(ui, |ui| {
            let files: Vec<(File, &str)> = offered(session)
                .map(|export| {
                    let name = match export {
                        Export::Findings => "Findings (JSON)",
                        Export::PoreTable => "Pores (CSV)",
                        Export::Overlay => "Overlay (PNG)",
                        Export::Corrections => "Corrections (JSON)",
                    };
                    (File::Findings(export), name)
                })
                .collect();
            in_folder(ui, memory, out, &files);
        });
}

/// Files of the book.
pub(super) fn book(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let can = session.why_not_book().is_none();
    let is_picked = session.record().form().is_some_and(|form| !form.is_new());
    for what in Outgoing::OF_VOUCHER {
        ask(
            ui,
            memory,
            out,
            what,
            can && is_picked,
            "Pick a voucher first",
        );
    }
    for what in Outgoing::OF_BOOK {
        ask(
            ui,
            memory,
            out,
            what,
            can,
            "The book is being read or written",
        );
    }
    let label = ui.label(theme::quiet(ui, "Places in these files"));
    ComboBox::from_id_salt("places")
        .selected_text(places(memory.places))
        .width(ui.available_width())
        .show_ui(ui, |ui| {
            for choice in [Places::AsRecorded, Places::Blurred, Places::Withheld] {
                ui.selectable_value(&mut memory.places, choice, places(choice));
            }
        })
        .response
        .labelled_by(label.id);
    CollapsingHeader::new("Without a file dialog")
        .id_salt("book without a dialog")
        .default_open(false)
        .open(std::mem::take(&mut memory.unfolds_book_folder).then_some(true))
        .show_unindented(ui, |ui| {
            let files = [
                (File::Book(Outgoing::ReportPdf), "Report (PDF)"),
                (File::Book(Outgoing::ReportHtml), "Report (HTML)"),
                (File::Book(Outgoing::Labels), "Labels (PDF)"),
                (File::Book(Outgoing::Table), "Table (CSV)"),
                (File::Book(Outgoing::DarwinCore), "Darwin Core (ZIP)"),
                (File::Book(Outgoing::Walks), "Walks (CSV)"),
                (File::Book(Outgoing::Months), "Months (PDF)"),
            ];
            in_folder(ui, memory, out, &files);
        });
}

/// A button that asks where to save a file of the book.
pub(crate) fn ask(
    ui: &mut Ui,
    memory: &Memory,
    out: &mut Vec<Wish>,
    what: Outgoing,
    can: bool,
    why_not: &str,
) {
    let (text, meaning) = of_book(what);
    let button = ui.add_enabled(can && memory.dialog.is_none(), Button::new(text));
    if button
        .on_hover_text(meaning)
        .on_disabled_hover_text(why_not)
        .clicked()
    {
        out.push(Wish::AskSave(File::Book(what)));
    }
}

const fn places(places: Places) -> &'static str {
    match places {
        Places::AsRecorded => "as recorded",
        Places::Blurred => "only to a cell of 0.1°",
        Places::Withheld => "the country only",
    }
}

/// Saving under the proposed names in a folder typed in.
fn in_folder(ui: &mut Ui, memory: &mut Memory, out: &mut Vec<Wish>, files: &[(File, &str)]) {
    let label = ui.label(theme::quiet(ui, "Folder to save in"));
    ui.add(theme::path_field(&mut memory.folder).id_salt(files.len()))
        .labelled_by(label.id);
    ui.horizontal_wrapped(|ui| {
        for (file, text) in files {
            if ui
                .button(*text)
                .on_hover_text("Save into this folder; asks before a file is replaced")
                .clicked()
            {
                out.push(Wish::SaveInFolder(*file));
            }
        }
    });
}
