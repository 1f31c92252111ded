//! Photo: open one.

use super::{explain, first, folder, next};
use crate::app::actions;
use crate::app::theme::{self, palette};
use crate::app::{KeyboardTo, Memory, Wish};
use crate::session::{Command, RecentPhoto, Session, Step, Work, file_name};
use crate::wording::text;
use egui::{Key, ScrollArea, Ui, UiBuilder, Vec2, vec2};

/// Largest size of what stands in the middle as long as there is no photo, points.
const CARD: Vec2 = vec2(440.0, 340.0);
/// What photos opened before add to its height.
const WITH_PHOTOS: f32 = 150.0;

/// Photos opened before that are offered there; the step has all of them.
const OFFERED: usize = 3;

/// The step's controls.
pub(crate) fn show(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    if let Some(photo) = &session.document().photo {
        let (width, height) = photo.rgb.dimensions();
        explain(ui, &format!("{width} × {height} px"));
        if let Some(taken) = &photo.taken {
            explain(ui, &text!("taken-at", when = taken.replace('T', " ")));
        }
    }
    if let Work::Opening(path) = session.work() {
        opening(ui, &file_name(path), memory, out);
    } else {
        let shortcut = actions::keys_of(ui.ctx(), "do-open-photos");
        let button = ui.add_enabled(
            memory.dialog.is_none(),
            egui::Button::new(text!("choose-photos-here")),
        );
        if first(memory, button)
            .on_hover_text(text!("choose-one-photo-or-several", shortcut = shortcut))
            .on_disabled_hover_text(text!("answer-the-file-dialog-that-is"))
            .clicked()
        {
            out.push(Wish::AskOpen);
        }
        path_field(ui, memory, out);
        recent(ui, session, out);
    }
    folder::show(ui, session, memory, out);
    next(ui, session, Step::Photo, out);
}

/// Photos opened before.
fn recent(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    let recent = session.recent_photos();
    if recent.is_empty() {
        return;
    }
    ui.label(theme::quiet(ui, text!("photos-opened-before")));
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = 3.0;
        for photo in recent {
            let name = file_name(&photo.path);
            let told = photo.path.display();
            let line = theme::small_button(&name)
                .truncate()
                .min_size(vec2(ui.available_width(), 0.0));
            if ui
                .add_enabled(!photo.is_missing, line)
                .on_hover_text(told.to_string())
                .on_disabled_hover_text(text!("it-is-not-there-any-more-told", told = told))
                .clicked()
            {
                out.push(Wish::Do(Command::Open(photo.path.clone())));
            }
            if photo.is_missing {
                ui.label(theme::quiet(ui, text!("not-there-any-more")));
            }
        }
    });
}

fn opening(ui: &mut Ui, name: &str, memory: &mut Memory, out: &mut Vec<Wish>) {
    ui.horizontal(|ui| {
        theme::working(ui);
        ui.label(text!("opening-name", name = name));
    });
    let cancel = ui.button(text!("cancel"));
    if first(memory, cancel).clicked() {
        out.push(Wish::Do(Command::Cancel));
    }
}

fn path_field(ui: &mut Ui, memory: &mut Memory, out: &mut Vec<Wish>) {
    let label = ui.label(theme::quiet(ui, text!("or-type-its-path")));
    let typed = !memory.path.trim().is_empty();
    let field = ui
        .add(theme::path_field(&mut memory.path))
        .labelled_by(label.id);
    if memory
        .keyboard_to
        .take_if(|to| *to == KeyboardTo::Path)
        .is_some()
    {
        field.request_focus();
    }
    let entered = field.has_focus() && ui.input(|i| i.key_pressed(Key::Enter));
    let pressed = ui
        .add_enabled(typed, egui::Button::new(text!("open")))
        .on_disabled_hover_text(text!("type-a-path-first"))
        .clicked();
    if typed && (entered || pressed) {
        out.push(Wish::Do(Command::Open(memory.path.trim().into())));
    }
}

/// What stands in the middle as long as there is no photo.
pub(crate) fn empty(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    let all = ui.max_rect();
    let more = if offered(session).is_empty() {
        0.0
    } else {
        WITH_PHOTOS
    };
    let size = vec2(CARD.x, CARD.y + more).min(all.size() - vec2(40.0, 20.0));
    let place = egui::Rect::from_center_size(all.center(), size);
    ui.scope_builder(UiBuilder::new().max_rect(place), |ui| {
        if let Work::Opening(path) = session.work() {
            ui.vertical_centered(|ui| {
                ui.add_space(110.0);
                ui.heading(text!("opening-path", path = file_name(path)));
            });
            return;
        }
        egui::Frame::NONE
            .fill(palette(ui).panel)
            .corner_radius(theme::CORNER + 3)
            .inner_margin(26)
            .show(ui, |ui| {
                ScrollArea::vertical()
                    .max_height(size.y - 52.0)
                    .auto_shrink([false, true])
                    .show(ui, |ui| {
                        welcome(ui, session, out);
                        theme::follow_focus(ui);
                    });
            });
    });
}

fn welcome(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    ui.label(theme::bold(text!("measure-the-underside-of-a-bracket")).size(18.0));
    ui.label(text!("take-the-photo-squarely-close-up"));
    ui.add_space(8.0);
    ui.label(theme::bold(text!("three-ways-to-open-photos")));
    ways(ui);
    ui.add_space(8.0);
    ui.horizontal_wrapped(|ui| {
        if ui
            .add(theme::primary_button(ui, text!("choose-photos")))
            .clicked()
        {
            out.push(Wish::AskOpen);
        }
        if ui
            .button(text!("try-it-on-a-sample-photo"))
            .on_hover_text(text!("opens-a-photo-and-leads-you"))
            .clicked()
        {
            out.push(Wish::BeginGuide);
        }
    });
    let offered = offered(session);
    if !offered.is_empty() {
        ui.add_space(8.0);
        ui.label(theme::bold(text!("photos-opened-before")));
    }
    for photo in offered {
        let line = egui::Button::new(file_name(&photo.path)).truncate();
        let told = photo.path.display().to_string();
        if ui.add(line).on_hover_text(told).clicked() {
            out.push(Wish::Do(Command::Open(photo.path.clone())));
        }
    }
}

/// The last photos that are still there.
fn offered(session: &Session) -> Vec<&RecentPhoto> {
    let recent = session.recent_photos().iter();
    let there = recent.filter(|photo| !photo.is_missing);
    there.take(OFFERED).collect()
}

fn ways(ui: &mut Ui) {
    let shortcut = actions::keys_of(ui.ctx(), "do-open-photos");
    for way in [
        text!("press-the-button-below", shortcut = shortcut),
        text!("drag-photos-from-a-folder-onto").to_owned(),
        text!("start-from-a-terminal-poreline-underside").to_owned(),
    ] {
        ui.horizontal_top(|ui| {
            ui.label("–");
            ui.add(egui::Label::new(way).wrap());
        });
    }
}
