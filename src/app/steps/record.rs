//! Record: attach the findings to a voucher of the book, compare them, keep them as files.

use super::{explain, files, first};
use crate::app::dialog::Purpose;
use crate::app::record::View;
use crate::app::theme;
use crate::app::{KeyboardTo, Memory, Wish};
use crate::session::record::{NUMBER, OpenBook};
use crate::session::{BookCommand, Session};
use crate::wording::text;
use egui::{Button, CollapsingHeader, Label, TextEdit, Ui, vec2};

/// The pattern of numbers that a new book is proposed.
pub(crate) const NUMBERS: &str = "{year}-{number:4}";

/// The step's controls.
pub(crate) fn show(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    if let Some(doing) = session.record().doing() {
        ui.horizontal(|ui| {
            theme::working(ui);
            ui.label(doing);
        });
    }
    if let Some(book) = session.record().book() {
        in_book(ui, session, book, memory, out);
        CollapsingHeader::new(text!("files-of-the-book"))
            .default_open(false)
            .open(memory.unfolds_book_folder.then_some(true))
            .show_unindented(ui, |ui| files::book(ui, session, memory, out));
        CollapsingHeader::new(text!("files-of-the-findings"))
            .default_open(false)
            .open(memory.unfolds_folder.then_some(true))
            .show_unindented(ui, |ui| files::findings(ui, session, memory, out));
        CollapsingHeader::new(text!("another-book"))
            .default_open(false)
            .open(std::mem::take(&mut memory.unfolds_book).then_some(true))
            .show_unindented(ui, |ui| another_book(ui, session, memory, out));
    } else {
        files::findings(ui, session, memory, out);
        compare(ui, session, out);
        ui.add_space(4.0);
        ui.separator();
        ui.label(theme::bold(text!("voucher-book")));
        explain(ui, text!("a-book-is-a-folder-of"));
        books(ui, session, memory, out);
    }
}

fn another_book(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let can = session.why_not_book().is_none();
    let anew = ui.add_enabled(can, Button::new(text!("read-this-book-anew")));
    if anew
        .on_hover_text(text!("shows-what-others-have-changed-in"))
        .clicked()
    {
        out.push(Wish::Book(BookCommand::ReadAnew));
    }
    books(ui, session, memory, out);
}

/// The voucher that is picked, and what goes into it.
fn in_book(
    ui: &mut Ui,
    session: &Session,
    book: &OpenBook,
    memory: &mut Memory,
    out: &mut Vec<Wish>,
) {
    ui.add(Label::new(theme::bold(book.name())).wrap());
    explain(ui, &book.folder().display().to_string());
    let form = session.record().form();
    ui.horizontal_wrapped(|ui| {
        let new = ui.add_enabled(
            session.why_not_book().is_none(),
            Button::new(text!("new-voucher")),
        );
        if first(memory, new).clicked() {
            out.push(Wish::Book(BookCommand::New));
        }
        if ui.button(text!("pick-a-voucher")).clicked() {
            out.push(Wish::Show(View::Book));
        }
    });
    match form {
        None => explain(ui, text!("no-voucher-is-picked-sentence")),
        Some(form) => {
            let name = form.text(crate::session::record::NAME);
            let new = if form.is_new() { text!("new") } else { "" };
            ui.add(Label::new(theme::bold(format!("{}{new}", form.text(NUMBER)))).wrap());
            if !name.is_empty() {
                explain(ui, name);
            }
        }
    }
    attach(ui, session, memory, out);
    compare(ui, session, out);
}

fn attach(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let why_not = session.why_not_attach();
    let text = text!("attach-these-findings");
    let button = match why_not {
        None if session.has_unsaved_findings() => theme::primary_button(ui, text),
        _ => Button::new(text),
    };
    if ui
        .add_enabled(why_not.is_none(), button)
        .on_hover_text(text!("keeps-all-figures-scale-and-area"))
        .clicked()
    {
        out.push(Wish::Attach);
    }
    if let Some(why) = why_not {
        explain(ui, why);
    }
    ui.checkbox(
        &mut memory.copies_photo,
        text!("copy-the-photo-into-the-book"),
    )
    .on_hover_text(text!("otherwise-the-book-only-tells-where"));
    let mut by = session.record().measured_by().to_owned();
    if line(ui, text!("measured-by"), text!("your-name"), &mut by) {
        out.push(Wish::Book(BookCommand::WriteMeasuredBy(by)));
    }
}

fn compare(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    let can = session.why_not_save().is_none() || session.record().form().is_some();
    let button = ui.add_enabled(can, Button::new(text!("compare-with-published-ranges")));
    if button
        .on_hover_text(text!("which-published-figures-the-findings-agree"))
        .on_disabled_hover_text(text!("measure-or-pick-a-voucher"))
        .clicked()
    {
        out.push(Wish::Book(BookCommand::Compare));
        out.push(Wish::Show(View::Ranges));
    }
}

/// Opening a book, or making one.
fn books(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let can = session.why_not_book().is_none();
    ui.horizontal_wrapped(|ui| {
        let open = ui.add_enabled(
            can && memory.dialog.is_none(),
            Button::new(text!("open-a-book")),
        );
        if open.clicked() {
            out.push(Wish::AskFolder(Purpose::Book));
        }
        let demo = ui.add_enabled(can, Button::new(text!("open-the-demo-book")));
        if demo
            .on_hover_text(text!("an-invented-book-in-a-folder"))
            .clicked()
        {
            out.push(Wish::Book(BookCommand::MakeDemo));
        }
    });
    let label = ui.label(theme::quiet(ui, text!("or-type-its-folder")));
    let field = ui
        .add(theme::path_field(&mut memory.book_folder).id_salt("folder of the book"))
        .labelled_by(label.id);
    if memory
        .keyboard_to
        .take_if(|to| *to == KeyboardTo::BookFolder)
        .is_some()
    {
        field.request_focus();
    }
    let typed = !memory.book_folder.trim().is_empty();
    let entered = field.has_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter));
    let pressed = ui
        .add_enabled(can && typed, Button::new(text!("open-this-book")))
        .on_disabled_hover_text(text!("type-a-folder-first"))
        .clicked();
    if can && typed && (entered || pressed) {
        let folder = memory.book_folder.trim().into();
        out.push(Wish::Book(BookCommand::Open(folder)));
    }
    CollapsingHeader::new(text!("make-a-new-book"))
        .default_open(false)
        .show_unindented(ui, |ui| new_book(ui, can, memory, out));
}

fn new_book(ui: &mut Ui, can: bool, memory: &mut Memory, out: &mut Vec<Wish>) {
    let new = &mut memory.new_book;
    line(
        ui,
        text!("name-of-the-book"),
        text!("such-as-alder-fen-foray-group"),
        &mut new.name,
    );
    let label = ui.label(theme::quiet(ui, text!("folder-to-make-it-in")));
    ui.add(theme::path_field(&mut new.folder).id_salt("folder of a new book"))
        .labelled_by(label.id);
    line(ui, text!("catalogue-numbers"), NUMBERS, &mut new.numbers);
    explain(ui, text!("year-stands-for-the-year-of"));
    let is_whole = [&new.name, &new.folder, &new.numbers]
        .iter()
        .all(|text| !text.trim().is_empty());
    let make = ui.add_enabled(can && is_whole, Button::new(text!("make-the-book")));
    if make
        .on_disabled_hover_text(text!("fill-in-name-folder-and-numbers"))
        .clicked()
    {
        out.push(Wish::Book(BookCommand::Make {
            folder: new.folder.trim().into(),
            name: new.name.clone(),
            numbers: new.numbers.clone(),
        }));
    }
}

/// A field for one line; whether something was typed into it.
fn line(ui: &mut Ui, name: &str, hint: &'static str, text: &mut String) -> bool {
    let label = ui.label(theme::quiet(ui, name));
    ui.add(
        TextEdit::singleline(text)
            .id_salt(name)
            .hint_text(hint)
            .desired_width(f32::INFINITY)
            .min_size(vec2(0.0, theme::PRESS_HEIGHT))
            .align(egui::Align2::LEFT_CENTER),
    )
    .labelled_by(label.id)
    .changed()
}
