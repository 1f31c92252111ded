//! Walks: their checklists, and how often each taxon was met.

use super::{empty, page};
use crate::app::steps::files;
use crate::app::theme::{self, palette};
use crate::app::{Memory, Wish, findings};
use crate::book::{Foray, Frequency, MONTHS};
use crate::session::record::{OpenBook, Outgoing, WalkForm};
use crate::session::{BookCommand, Session};
use crate::wording::{self, text};
use egui::{Align2, Button, CollapsingHeader, Grid, Label, TextEdit, Ui, vec2};

/// Width of a field for a date or a number, points.
const SHORT: f32 = 150.0;
/// Height of the list of walks, points.
const LIST: f32 = 296.0;
/// Width of a field for a place or a name, points.
const LONG: f32 = 220.0;

pub(super) fn show(ui: &mut Ui, session: &Session, memory: &Memory, out: &mut Vec<Wish>) {
    let Some(book) = session.record().book() else {
        page(ui, "no book for walks", |ui| {
            empty(
                ui,
                text!("no-book-is-open"),
                text!("open-one-on-the-left-or"),
            );
        });
        return;
    };
    findings::caution(ui);
    page(ui, "walks", |ui| {
        let before = session.record().walk_form();
        let mut form = before.clone();
        new(ui, session, &mut form, book.walks().is_empty(), out);
        list(ui, session, book, out);
        if let Some(walk) = session.record().walk() {
            checklist(ui, session, walk, &mut form, out);
        }
        if form != *before {
            out.push(Wish::Book(BookCommand::WriteWalk(form)));
        }
        if !book.frequencies().is_empty() {
            frequencies(ui, book);
            ui.add_space(6.0);
            ui.horizontal_wrapped(|ui| {
                for what in Outgoing::OF_WALKS {
                    let can = session.why_not_book().is_none();
                    files::ask(
                        ui,
                        memory,
                        out,
                        what,
                        can,
                        text!("the-book-is-being-read-or"),
                    );
                }
            });
        }
    });
}

/// A walk to be added.
fn new(ui: &mut Ui, session: &Session, form: &mut WalkForm, is_first: bool, out: &mut Vec<Wish>) {
    CollapsingHeader::new(text!("a-new-walk"))
        .default_open(is_first)
        .show_unindented(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                field(
                    ui,
                    text!("date-of-the-walk"),
                    text!("such-as-2026-10-04"),
                    SHORT,
                    &mut form.date,
                );
                field(
                    ui,
                    text!("place-of-the-walk"),
                    text!("in-words"),
                    LONG,
                    &mut form.place,
                );
                field(
                    ui,
                    text!("how-many-walked"),
                    text!("such-as-7"),
                    SHORT,
                    &mut form.people,
                );
            });
            add(
                ui,
                text!("add-the-walk"),
                session.why_not_book().or_else(|| form.why_no_walk()),
                BookCommand::AddWalk,
                out,
            );
        });
}

/// All walks, to pick one.
fn list(ui: &mut Ui, session: &Session, book: &OpenBook, out: &mut Vec<Wish>) {
    ui.add_space(4.0);
    ui.label(theme::bold(text!(
        "walks-of-the-book",
        count = book.walks().len()
    )));
    let picked = session.record().walk().map(|walk| &walk.event_id);
    egui::ScrollArea::vertical()
        .id_salt("list of walks")
        .max_height(LIST)
        .show(ui, |ui| {
            // The newest are looked for most.
            for walk in book.walks().iter().rev() {
                one_walk(ui, walk, picked == Some(&walk.event_id), out);
            }
            theme::follow_focus(ui);
        });
}

fn one_walk(ui: &mut Ui, walk: &Foray, is_picked: bool, out: &mut Vec<Wish>) {
    let people = walk
        .people_count
        .map_or_else(String::new, |n| text!("people-on-the-walk", count = n));
    let seen = text!("sightings-on-the-walk", count = walk.checklist.len());
    let text = format!("{}{people}, {seen}", walk.title());
    let button = Button::selectable(is_picked, text).min_size(vec2(ui.available_width(), 0.0));
    if ui.add(button).clicked() {
        out.push(Wish::Book(BookCommand::PickWalk(walk.event_id.clone())));
    }
}

/// What was seen on the walk that is picked, and one more.
fn checklist(
    ui: &mut Ui,
    session: &Session,
    walk: &Foray,
    form: &mut WalkForm,
    out: &mut Vec<Wish>,
) {
    ui.add_space(8.0);
    ui.label(theme::bold(text!("seen-on-walk", walk = walk.title())).size(15.0));
    if let Some(remarks) = &walk.event_remarks {
        ui.add(Label::new(theme::quiet(ui, remarks)).wrap());
    }
    if walk.checklist.is_empty() {
        ui.label(theme::quiet(ui, text!("nothing-yet")));
    }
    Grid::new("checklist")
        .num_columns(2)
        .spacing([24.0, 5.0])
        .min_row_height(18.0)
        .show(ui, |ui| {
            for sighting in &walk.checklist {
                ui.label(sighting.name());
                let kept = sighting.catalog_number.as_deref();
                let kept = kept.map_or_else(String::new, |n| text!("kept-as-voucher", number = n));
                let remarks = sighting.occurrence_remarks.as_deref().unwrap_or_default();
                ui.label(theme::quiet(ui, format!("{kept} {remarks}").trim()));
                ui.end_row();
            }
        });
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        field(
            ui,
            text!("also-seen"),
            text!("such-as-stereum-hirsutum"),
            LONG,
            &mut form.name,
        );
        field(
            ui,
            text!("voucher-of-it"),
            text!("its-number"),
            SHORT,
            &mut form.number,
        );
    });
    add(
        ui,
        text!("add-to-the-checklist"),
        session.why_not_book().or_else(|| form.why_no_sighting()),
        BookCommand::AddSighting,
        out,
    );
}

/// A table of all taxa: on how many walks, with the interval, from when to when, and by month.
fn frequencies(ui: &mut Ui, book: &OpenBook) {
    ui.add_space(10.0);
    ui.label(theme::bold(text!("how-often-each-taxon-was-met")).size(15.0));
    ui.label(theme::quiet(ui, text!("share-of-all-walks-with-wilsons")));
    egui::ScrollArea::horizontal()
        .id_salt("frequencies")
        .show(ui, |ui| {
            Grid::new("frequency table")
                .num_columns(16)
                .spacing([12.0, 5.0])
                .min_row_height(20.0)
                .striped(true)
                .show(ui, |ui| {
                    for title in [
                        text!("taxon"),
                        text!("walks"),
                        text!("share-of-walks"),
                        text!("column-first-to-last"),
                    ] {
                        ui.label(theme::bold(title));
                    }
                    for month in MONTHS {
                        ui.label(theme::bold(wording::word(month)));
                    }
                    ui.end_row();
                    for one in book.frequencies() {
                        frequency(ui, one);
                        ui.end_row();
                    }
                });
        });
}

fn frequency(ui: &mut Ui, one: &Frequency) {
    ui.label(&one.taxon);
    ui.label(text!("walks-met-of-all", met = one.walks, all = one.of));
    let percent = |share: f64| format!("{:.0}", 100.0 * share);
    ui.label(format!(
        "{} % ({}–{} %)",
        percent(one.share),
        percent(one.interval.0),
        percent(one.interval.1)
    ));
    let span = if one.first == one.last {
        one.first.clone()
    } else {
        text!("first-to-last-date", first = one.first, last = one.last)
    };
    ui.label(theme::quiet(ui, span));
    for (met, walks) in one.by_month.iter().zip(one.walks_by_month) {
        match (walks, met) {
            (0, _) => ui.label(""),
            (_, 0) => ui.label(theme::quiet(ui, format!("0/{walks}"))),
            _ => ui.label(theme::bold(format!("{met}/{walks}")).color(palette(ui).accent)),
        };
    }
}

fn field(ui: &mut Ui, name: &str, hint: &'static str, width: f32, text: &mut String) {
    ui.vertical(|ui| {
        ui.spacing_mut().item_spacing.y = 3.0;
        ui.set_width(width);
        let label = ui.label(theme::quiet(ui, name));
        ui.add(
            TextEdit::singleline(text)
                .id_salt(name)
                .hint_text(hint)
                .desired_width(width)
                .min_size(vec2(0.0, theme::PRESS_HEIGHT))
                .align(Align2::LEFT_CENTER),
        )
        .labelled_by(label.id);
    });
}

fn add(
    ui: &mut Ui,
    text: &str,
    why_not: Option<&'static str>,
    command: BookCommand,
    out: &mut Vec<Wish>,
) {
    ui.horizontal_wrapped(|ui| {
        let button = ui.add_enabled(why_not.is_none(), Button::new(text));
        if button.clicked() {
            out.push(Wish::Book(command));
        }
        if let Some(why) = why_not {
            ui.label(theme::quiet(ui, why));
        }
    });
}
