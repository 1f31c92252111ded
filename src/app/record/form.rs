//! The voucher to fill in.

use super::{empty, page};
use crate::app::Wish;
use crate::app::theme::{self, palette};
use crate::session::record::{
    Complaints, Entry, FIELDS, Field, Form, OpenBook, Part, PhotoLine, former_names, photo_lines,
    pooled_in_words,
};
use crate::session::{BookCommand, Session};
use crate::wording::{self, text};
use egui::{
    CollapsingHeader, ComboBox, Frame, Label, Margin, Panel, Response, RichText, TextEdit, Ui, vec2,
};

/// Below this width fields stand under one another, points.
const TWO_COLUMNS: f32 = 460.0;
/// Widest a pair of fields gets, points.
const WIDEST: f32 = 860.0;

pub(super) fn show(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    let record = session.record();
    let Some(form) = record.form() else {
        page(ui, "no voucher", |ui| {
            empty(
                ui,
                text!("no-voucher-is-picked"),
                text!("pick-one-in-the-book-or"),
            );
        });
        return;
    };
    head(ui, session, form, out);
    let complaints = record.complaints();
    page(ui, "voucher", |ui| {
        ui.set_max_width(WIDEST.min(ui.available_width()));
        for (part, title) in [
            (Part::Found, text!("found")),
            (Part::Specimen, text!("specimen")),
            (Part::Named, text!("name-and-notes")),
        ] {
            section(ui, title);
            fields(ui, session, form, part, &complaints, out);
            if part == Part::Found {
                place(ui, session, form, out);
            }
        }
        ui.add_space(4.0);
        CollapsingHeader::new(text!("more-about-the-specimen"))
            .default_open(false)
            .show_unindented(ui, |ui| {
                fields(ui, session, form, Part::More, &complaints, out);
            });
        measurements(ui, session, form, out);
    });
}

/// What it is, and saving it: always in sight.
fn head(ui: &mut Ui, session: &Session, form: &Form, out: &mut Vec<Wish>) {
    let standing = match (form.is_new(), form.is_changed()) {
        (true, _) => text!("new-not-saved-yet"),
        (false, true) => text!("changed-not-saved-yet"),
        (false, false) => text!("saved"),
    };
    Panel::top("voucher head")
        .frame(
            Frame::NONE
                .fill(palette(ui).panel)
                .inner_margin(Margin::symmetric(theme::MARGIN, 8)),
        )
        .resizable(false)
        .show(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                let number = form.text(crate::session::record::NUMBER);
                ui.label(theme::bold(number).size(16.0));
                ui.label(theme::quiet(ui, standing));
                let why_not = session.why_not_save_voucher();
                let save = match why_not {
                    None => theme::primary_button(ui, text!("save-voucher")),
                    Some(_) => egui::Button::new(text!("save-voucher")),
                };
                let save = ui.add_enabled(why_not.is_none(), save);
                if save
                    .on_disabled_hover_text(why_not.unwrap_or_default())
                    .clicked()
                {
                    out.push(Wish::Book(BookCommand::Save));
                }
                if form.is_changed() && ui.button(text!("drop-changes")).clicked() {
                    out.push(Wish::AskDrop);
                }
            });
        });
}

fn section(ui: &mut Ui, title: &str) {
    ui.add_space(4.0);
    ui.label(theme::bold(title).size(15.0));
}

/// The fields of a part, two beside one another where there is room; long ones across.
fn fields(
    ui: &mut Ui,
    session: &Session,
    form: &Form,
    part: Part,
    complaints: &Complaints,
    out: &mut Vec<Wish>,
) {
    let all: Vec<&Field> = FIELDS.iter().filter(|field| field.part == part).collect();
    let columns = if ui.available_width() < TWO_COLUMNS {
        1
    } else {
        2
    };
    let mut left = &all[..];
    while let Some(first) = left.first() {
        let across = first.entry == Entry::Lines;
        let count = if across { 1 } else { columns.min(left.len()) };
        let (row, rest) = left.split_at(count);
        ui.columns(if across { 1 } else { columns }, |columns| {
            for (ui, field) in columns.iter_mut().zip(row) {
                ui.spacing_mut().item_spacing.y = 3.0;
                one(ui, session, form, field, complaints, out);
            }
        });
        ui.add_space(2.0);
        left = rest;
    }
}

fn one(
    ui: &mut Ui,
    session: &Session,
    form: &Form,
    field: &Field,
    complaints: &Complaints,
    out: &mut Vec<Wish>,
) {
    let label = ui.label(theme::quiet(ui, field.label()));
    let mut text = form.text(field.term).to_owned();
    let control = match field.entry {
        Entry::Choice(choices) => {
            let choices: Vec<_> = choices
                .iter()
                .map(|word| (*word, wording::word(word).to_owned()))
                .collect();
            choice(ui, field, &choices, &mut text)
        }
        Entry::Walk => {
            let walks = session.record().book().map_or(&[][..], OpenBook::walks);
            let choices: Vec<_> = (walks.iter().rev())
                .map(|walk| (walk.event_id.as_str(), walk.title()))
                .collect();
            choice(ui, field, &choices, &mut text)
        }
        Entry::Lines => ui.add(
            TextEdit::multiline(&mut text)
                .id_salt(field.term)
                .desired_rows(2)
                .desired_width(f32::INFINITY),
        ),
        Entry::Line | Entry::Number => ui.add(
            TextEdit::singleline(&mut text)
                .id_salt(field.term)
                .hint_text(field.hint())
                .desired_width(f32::INFINITY)
                .min_size(vec2(0.0, theme::PRESS_HEIGHT))
                .align(egui::Align2::LEFT_CENTER),
        ),
    }
    .labelled_by(label.id);
    // Whoever is still writing is not told that it is not finished.
    match complaints.get(field.term) {
        Some(complaint) if !control.has_focus() => {
            ui.label(
                RichText::new(complaint)
                    .size(theme::SMALL)
                    .color(palette(ui).trouble),
            );
        }
        _ if form.is_from_photo(field.term) => {
            ui.label(theme::quiet(ui, text!("from-the-photos-file")));
        }
        _ => {}
    }
    if text != form.text(field.term) {
        out.push(Wish::Book(BookCommand::Write(field.term, text)));
    }
}

/// One of several: what is written of each, and what is said of it.
fn choice(ui: &mut Ui, field: &Field, choices: &[(&str, String)], text: &mut String) -> Response {
    let chosen = choices.iter().find(|(written, _)| written == text);
    let said = match (chosen, text.is_empty()) {
        (Some((_, said)), _) => said.clone(),
        (None, true) => "–".to_owned(),
        (None, false) => text.clone(),
    };
    ComboBox::from_id_salt(field.term)
        .selected_text(said)
        .width(ui.available_width())
        .truncate()
        .show_ui(ui, |ui| {
            let nothing = ("", "–".to_owned());
            for (written, said) in std::iter::once(&nothing).chain(choices) {
                if ui.selectable_label(text == written, said).clicked() {
                    (*written).clone_into(text);
                }
            }
        })
        .response
}

/// What can be done with the coordinates.
fn place(ui: &mut Ui, session: &Session, form: &Form, out: &mut Vec<Wish>) {
    ui.horizontal_wrapped(|ui| {
        let has_photo = session.document().photo.is_some();
        let take = ui.add_enabled(
            has_photo,
            theme::small_button(text!("take-date-and-place-from-the")),
        );
        if take
            .on_hover_text(text!("fills-in-what-the-photos-file"))
            .on_disabled_hover_text(text!("no-photo-is-open"))
            .clicked()
        {
            out.push(Wish::Book(BookCommand::TakeFromPhoto));
        }
        let blur = ui.add_enabled(
            form.has_place(),
            theme::small_button(text!("blur-the-place-to-0-1")),
        );
        if blur
            .on_hover_text(text!("for-rare-finds-tells-only-in"))
            .on_disabled_hover_text(text!("there-are-no-coordinates"))
            .clicked()
        {
            out.push(Wish::Book(BookCommand::BlurPlace));
        }
    });
    let said = form
        .done_to_place()
        .unwrap_or(text!("coordinates-are-those-of-phones-and"));
    ui.label(theme::quiet(ui, said));
}

/// Photos of the voucher with what was measured on them.
fn measurements(ui: &mut Ui, session: &Session, form: &Form, out: &mut Vec<Wish>) {
    let voucher = form.with_photos();
    ui.add_space(4.0);
    section(ui, text!("photos-and-measurements"));
    if let Some(pooled) = pooled_in_words(voucher) {
        ui.add(Label::new(theme::bold(text!("pooled-together", pooled = pooled))).wrap());
    }
    let lines = photo_lines(voucher);
    if lines.is_empty() {
        let text = text!("none-yet-attach-these-findings-on");
        ui.label(theme::quiet(ui, text));
    }
    for line in &lines {
        photo(ui, session, form, line, out);
    }
    let former = former_names(voucher);
    if !former.is_empty() {
        ui.add_space(4.0);
        section(ui, text!("names-it-had-before"));
        for name in former {
            ui.add(Label::new(name).wrap());
        }
    }
}

fn photo(ui: &mut Ui, session: &Session, form: &Form, line: &PhotoLine, out: &mut Vec<Wish>) {
    Frame::NONE
        .stroke(egui::Stroke::new(1.0, palette(ui).line))
        .corner_radius(theme::CORNER)
        .inner_margin(Margin::symmetric(10, 7))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 3.0;
            ui.add(Label::new(theme::bold(&line.name)).wrap());
            ui.add(Label::new(&line.found).wrap());
            ui.add(Label::new(theme::quiet(ui, &line.measured)).wrap());
            for earlier in &line.earlier {
                let text = text!("name-before-that", names = earlier);
                ui.add(Label::new(theme::quiet(ui, text)).wrap());
            }
            let again = session.record().photo_again(form.base(), &line.sha256);
            let text = text!("open-photo-again", photo = line.name);
            let button = ui.add_enabled(again.is_some(), theme::small_button(&text));
            if button
                .on_hover_text(text!("opens-the-photo-with-its-scale"))
                .on_disabled_hover_text(text!("its-findings-do-not-tell-scale"))
                .clicked()
                && let Some(again) = again
            {
                out.push(Wish::Book(BookCommand::OpenAgain(again)));
            }
            let text = text!("take-photo-off", photo = line.name);
            let off = ui.add(theme::small_button(&text));
            if off
                .on_hover_text(text!("takes-the-photo-and-what-was"))
                .clicked()
            {
                let sha256 = line.sha256.clone();
                out.push(Wish::Book(BookCommand::Detach(sha256)));
            }
        });
}
