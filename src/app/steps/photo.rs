//! Photo: open one.

use super::{explain, first, next};
use crate::app::keys::OPEN;
use crate::app::theme::{self, palette};
use crate::app::{KeyboardTo, Memory, Wish};
use crate::session::{Command, Session, Step, Work, file_name};
use egui::{Key, Ui, UiBuilder, vec2};

/// The step's controls.
pub(crate) fn show(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    if let Some(photo) = &session.document().photo {
        let (width, height) = photo.rgb.dimensions();
        explain(ui, &format!("{width} × {height} px"));
        if let Some(taken) = &photo.taken {
            explain(ui, &format!("Taken {}", taken.replace('T', " ")));
        }
    }
    if let Work::Opening(path) = session.work() {
        opening(ui, &file_name(path), memory, out);
    } else {
        let shortcut = ui.ctx().format_shortcut(&OPEN);
        let button = ui.add_enabled(memory.dialog.is_none(), egui::Button::new("Open photo…"));
        if first(memory, button)
            .on_hover_text(format!("Choose a photo ({shortcut})"))
            .on_disabled_hover_text("Answer the file dialog that is open")
            .clicked()
        {
            out.push(Wish::AskOpen);
        }
        path_field(ui, memory, out);
    }
    next(ui, session, Step::Photo, out);
}

fn opening(ui: &mut Ui, name: &str, memory: &mut Memory, out: &mut Vec<Wish>) {
    ui.horizontal(|ui| {
        ui.spinner();
        ui.label(format!("Opening {name}"));
    });
    let cancel = ui.button("Cancel");
    if first(memory, cancel).clicked() {
        out.push(Wish::Do(Command::Cancel));
    }
}

fn path_field(ui: &mut Ui, memory: &mut Memory, out: &mut Vec<Wish>) {
    let label = ui.label(theme::quiet(ui, "Or type its path"));
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
        .add_enabled(typed, egui::Button::new("Open"))
        .on_disabled_hover_text("Type a path first")
        .clicked();
    if typed && (entered || pressed) {
        out.push(Wish::Open(memory.path.trim().into()));
    }
}

/// What stands in the middle as long as there is no photo.
pub(crate) fn empty(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    let all = ui.max_rect();
    let size = vec2(440.0_f32.min(all.width() - 40.0), 330.0);
    let place = egui::Rect::from_center_size(all.center(), size);
    ui.scope_builder(UiBuilder::new().max_rect(place), |ui| {
        if let Work::Opening(path) = session.work() {
            ui.vertical_centered(|ui| {
                ui.add_space(110.0);
                ui.heading(format!("Opening {}", file_name(path)));
            });
            return;
        }
        egui::Frame::NONE
            .fill(palette(ui).panel)
            .corner_radius(theme::CORNER + 3)
            .inner_margin(26)
            .show(ui, |ui| {
                ui.set_width(ui.available_width());
                ui.label(theme::bold("Measure the underside of a bracket fungus").size(18.0));
                ui.label(
                    "Take the photo squarely, close up, in even light, with a ruler or scale bar \
                     lying in the plane of the pores.",
                );
                ui.add_space(8.0);
                ui.label(theme::bold("Three ways to open a photo"));
                ways(ui);
                ui.add_space(8.0);
                if ui
                    .add(theme::primary_button(ui, "Choose a photo…"))
                    .clicked()
                {
                    out.push(Wish::AskOpen);
                }
            });
    });
}

fn ways(ui: &mut Ui) {
    let shortcut = ui.ctx().format_shortcut(&OPEN);
    for way in [
        format!("Press the button below ({shortcut}), or type the path on the left."),
        "Drag a photo from a folder onto this window.".to_owned(),
        "Start from a terminal: poreline underside.jpg".to_owned(),
    ] {
        ui.horizontal_top(|ui| {
            ui.label("–");
            ui.add(egui::Label::new(way).wrap());
        });
    }
}
