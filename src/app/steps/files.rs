//! Buttons that save files of findings and of the book.

use super::{explain, first};
use crate::app::actions;
use crate::app::files::File;
use crate::app::theme;
use crate::app::{Memory, Wish};
use crate::export::darwin_core::Places;
use crate::session::record::Outgoing;
use crate::session::{Export, Session};
use crate::wording::text;
use egui::{Button, CollapsingHeader, ComboBox, Ui};

fn of_findings(export: Export) -> (&'static str, &'static str) {
    match export {
        Export::Findings => (
            text!("save-findings-json"),
            text!("all-figures-with-intervals-notes-and"),
        ),
        Export::PoreTable => (text!("save-pores-csv"), text!("one-line-per-pore-with-its")),
        Export::Overlay => (text!("save-overlay-png"), text!("a-copy-of-the-photo-with")),
        Export::Corrections => (
            text!("save-corrections-json"),
            text!("what-was-corrected-by-hand-for"),
        ),
    }
}

fn of_book(what: Outgoing) -> (&'static str, &'static str) {
    match what {
        Outgoing::ReportPdf => (
            text!("save-report-pdf"),
            text!("on-the-voucher-that-is-picked"),
        ),
        Outgoing::ReportHtml => (text!("save-report-html"), text!("the-same-as-one-page-for")),
        Outgoing::Labels => (
            text!("save-labels-pdf"),
            text!("one-label-for-each-voucher-in"),
        ),
        Outgoing::Table => (text!("save-table-csv"), text!("one-line-per-voucher-for-a")),
        Outgoing::DarwinCore => (
            text!("save-darwin-core-zip"),
            text!("a-darwin-core-archive-of-all"),
        ),
        Outgoing::Walks => (
            text!("walks-and-checklists-csv"),
            text!("one-line-per-sighting-for-a"),
        ),
        Outgoing::Months => (
            text!("charts-by-month-pdf"),
            text!("on-which-share-of-each-months"),
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
    let shortcut = actions::keys_of(ui.ctx(), "do-save");
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
    CollapsingHeader::new(text!("without-a-file-dialog"))
        .id_salt("findings without a dialog")
        .default_open(false)
        .open(std::mem::take(&mut memory.unfolds_folder).then_some(true))
        .show_unindented(ui, |ui| {
            let files: Vec<(File, &str)> = offered(session)
                .map(|export| {
                    let name = match export {
                        Export::Findings => text!("findings-json"),
                        Export::PoreTable => text!("pores-csv"),
                        Export::Overlay => text!("overlay-png"),
                        Export::Corrections => text!("corrections-json"),
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
            text!("pick-a-voucher-first"),
        );
    }
    for what in Outgoing::OF_BOOK {
        ask(
            ui,
            memory,
            out,
            what,
            can,
            text!("the-book-is-being-read-or"),
        );
    }
    let label = ui.label(theme::quiet(ui, text!("places-in-these-files")));
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
    CollapsingHeader::new(text!("without-a-file-dialog"))
        .id_salt("book without a dialog")
        .default_open(false)
        .open(std::mem::take(&mut memory.unfolds_book_folder).then_some(true))
        .show_unindented(ui, |ui| {
            let files = [
                (File::Book(Outgoing::ReportPdf), text!("report-pdf")),
                (File::Book(Outgoing::ReportHtml), text!("report-html")),
                (File::Book(Outgoing::Labels), text!("labels-pdf")),
                (File::Book(Outgoing::Table), text!("table-csv")),
                (File::Book(Outgoing::DarwinCore), text!("darwin-core-zip")),
                (File::Book(Outgoing::Walks), text!("walks-csv")),
                (File::Book(Outgoing::Months), text!("months-pdf")),
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

fn places(places: Places) -> &'static str {
    match places {
        Places::AsRecorded => text!("as-recorded"),
        Places::Blurred => text!("only-to-a-cell-of-0"),
        Places::Withheld => text!("the-country-only"),
    }
}

/// Saving under the proposed names in a folder typed in.
fn in_folder(ui: &mut Ui, memory: &mut Memory, out: &mut Vec<Wish>, files: &[(File, &str)]) {
    let label = ui.label(theme::quiet(ui, text!("folder-to-save-in")));
    ui.add(theme::path_field(&mut memory.folder).id_salt(files.len()))
        .labelled_by(label.id);
    ui.horizontal_wrapped(|ui| {
        for (file, text) in files {
            if ui
                .button(*text)
                .on_hover_text(text!("save-into-this-folder-asks-before"))
                .clicked()
            {
                out.push(Wish::SaveInFolder(*file));
            }
        }
    });
}
