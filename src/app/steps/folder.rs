//! A folder of photos, in the step in which photos are opened.

use super::explain;
use crate::app::dialog::Purpose;
use crate::app::theme::{self, palette};
use crate::app::{KeyboardTo, Memory, Wish};
use crate::session::{Command, Folder, FolderCommand, FolderMade, FolderProgress, Session};
use crate::wording::text;
use egui::{Button, CollapsingHeader, Label, ProgressBar, RichText, ScrollArea, TextEdit, Ui};

/// Height of the list of failures or remarks, points.
const LIST: f32 = 120.0;

/// Everything about a folder, folded up until it is wanted.
pub(super) fn show(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let progress = session.folder_progress();
    let unfold = memory.keyboard_to == Some(KeyboardTo::PhotoFolder);
    let is_wanted = unfold || progress.is_some();
    CollapsingHeader::new(text!("a-folder-of-photos"))
        .open(is_wanted.then_some(true))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 8.0;
            if let Some(progress) = progress {
                under_way(ui, &progress, out);
                return;
            }
            if let Some(made) = session.folder_made() {
                made_of_it(ui, made, out);
            }
            ask(ui, session, memory, out);
        });
}

fn under_way(ui: &mut Ui, progress: &FolderProgress, out: &mut Vec<Wish>) {
    ui.add(
        ProgressBar::new(progress.share)
            .desired_height(10.0)
            .fill(palette(ui).accent),
    )
    .accessible_name(&progress.words);
    explain(ui, &progress.words);
    if ui
        .button(text!("stop"))
        .on_hover_text(text!("what-was-measured-is-kept-start"))
        .clicked()
    {
        out.push(Wish::Do(Command::Folder(FolderCommand::Stop)));
    }
    list(ui, "failures of the folder", &progress.failures);
    explain(ui, text!("go-on-working-meanwhile-closing-the"));
}

fn made_of_it(ui: &mut Ui, made: &FolderMade, out: &mut Vec<Wish>) {
    ui.add(Label::new(theme::bold(&made.words)).wrap());
    let path = made.contact_sheet.display().to_string();
    if ui
        .button(text!("open-the-contact-sheet"))
        .on_hover_text(&path)
        .clicked()
    {
        out.push(Wish::OpenOutside(made.contact_sheet.clone()));
    }
    explain(
        ui,
        &text!("the-results-lie-in", folder = made.folder.display()),
    );
    list(ui, "remarks on the folder", &made.remarks);
    ui.separator();
}

fn list(ui: &mut Ui, name: &str, lines: &[String]) {
    if lines.is_empty() {
        return;
    }
    ScrollArea::vertical()
        .id_salt(name)
        .max_height(LIST)
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 3.0;
            for line in lines {
                ui.add(Label::new(RichText::new(line).color(palette(ui).caution)).wrap());
            }
        });
}

fn ask(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    explain(ui, text!("every-photo-in-it-is-measured"));
    let mut asked = session.folder().clone();
    let label = ui.label(theme::quiet(ui, text!("folder-of-photos")));
    let field = ui
        .add(theme::path_field(&mut asked.photos).id_salt("folder of photos"))
        .labelled_by(label.id);
    if memory
        .keyboard_to
        .take_if(|to| *to == KeyboardTo::PhotoFolder)
        .is_some()
    {
        field.request_focus();
        field.scroll_to_me(None);
    }
    let choose = ui.add_enabled(
        memory.dialog.is_none(),
        Button::new(text!("choose-the-folder")),
    );
    if choose.clicked() {
        out.push(Wish::AskFolder(Purpose::PhotoFolder));
    }
    let label = ui.label(theme::quiet(ui, text!("folder-for-the-results")));
    let beside = if asked.photos.trim().is_empty() {
        String::new()
    } else {
        asked.results_folder().display().to_string()
    };
    ui.add(
        theme::path_field(&mut asked.results)
            .id_salt("folder for results")
            .hint_text(beside),
    )
    .labelled_by(label.id);
    let no_area = session.why_no_area_of_folder();
    let area = ui.add_enabled(
        no_area.is_none(),
        egui::Checkbox::new(&mut asked.has_area, text!("its-area-on-each-photo")),
    );
    area.on_hover_text(text!("at-the-same-place-on-each"))
        .on_disabled_hover_text(no_area.unwrap_or_default());
    asked.has_area &= no_area.is_none();
    ui.checkbox(&mut asked.pores, text!("with-a-table-of-all-pores"));
    ui.checkbox(&mut asked.overlays, text!("with-pictures-with-outlines"));
    vouchers(ui, session, &mut asked);
    if asked != *session.folder() {
        out.push(Wish::Do(Command::Folder(FolderCommand::Ask(asked))));
    }
    let why_not = session.why_not_folder();
    let button = ui.add_enabled(
        why_not.is_none(),
        theme::primary_button(ui, text!("measure-the-folder")),
    );
    if button.clicked() {
        out.push(Wish::Do(Command::Folder(FolderCommand::Start)));
    }
    if let Some(why_not) = why_not {
        explain(ui, &why_not);
    }
}

/// To which vouchers the photos belong.
fn vouchers(ui: &mut Ui, session: &Session, asked: &mut Folder) {
    let label = ui.label(theme::quiet(ui, text!("voucher-in-the-photos-name")));
    ui.add(
        TextEdit::singleline(&mut asked.pattern)
            .id_salt("voucher in the name")
            .hint_text(text!("such-as-voucher-star"))
            .desired_width(f32::INFINITY),
    )
    .labelled_by(label.id)
    .on_hover_text(text!("photos-of-one-voucher-are-pooled"));
    let has_book = session.record().book().is_some();
    ui.add_enabled(
        has_book,
        egui::Checkbox::new(&mut asked.into_book, text!("attach-to-the-open-book")),
    )
    .on_hover_text(text!("photos-are-copied-into-the-book"))
    .on_disabled_hover_text(text!("open-a-book-first"));
    asked.into_book &= has_book;
}
