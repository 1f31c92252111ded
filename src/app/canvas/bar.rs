//! What stands under the photo.

use super::tools::Tool;
use super::{Canvas, colouring, has_outlines, id};
use crate::app::{actions, theme};
use crate::geometry::Rect;
use crate::session::{Session, Step};
use crate::wording::text;
use egui::{Align, Key, Layout, Ui};

/// Zoom factor of one press of a zoom button.
const ZOOM_STEP: f64 = 1.5;

impl Canvas {
    /// Buttons, what to do, and where the pointer is.
    pub(crate) fn bar(&mut self, ui: &mut Ui, session: &Session, step: Step) {
        let has_photo = session.document().photo.is_some();
        let photo = session.document().photo_rect();
        ui.horizontal_wrapped(|ui| {
            ui.add_enabled_ui(has_photo, |ui| {
                self.zoom_buttons(ui, photo);
                self.looks.menu(ui, &mut self.view);
            });
            if has_outlines(session) {
                ui.separator();
                ui.checkbox(&mut self.shows_outlines, text!("show-outlines"))
                    .on_hover_text(text!("outlines-of-what-was-found-solid"));
                self.looks.compare(ui, self.shows_outlines);
                if let Some(results) = session.results() {
                    colouring::show(ui, &mut self.colour_by, results);
                }
            }
            self.looks.reminder(ui);
        });
        if !has_photo {
            return;
        }
        let tool = Tool::at(step, session.document(), &self.drawing);
        ui.add(egui::Label::new(theme::quiet(ui, tool.hint(&self.drawing.draft))).wrap());
        let place = self.drawing.crosshair.or(self.pointer);
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.set_height(16.0);
            let zoom = 1.0 / self.px_per_screen_px(ui.ctx());
            let turn = self.view.turn_deg();
            let turned = if turn == 0.0 {
                String::new()
            } else {
                text!("turned-by", degrees = format!("{turn:.0}"))
            };
            ui.label(theme::quiet(ui, format!("{:.0} %{turned}", zoom * 100.0)));
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                let place = place.map_or_else(String::new, |at| session.place_label(at));
                ui.label(theme::quiet(ui, place));
            });
        });
    }

    fn zoom_buttons(&mut self, ui: &mut Ui, photo: Rect) {
        let canvas = canvas_rect(ui);
        let about = canvas.center();
        let whole_pixel = 1.0 / f64::from(ui.ctx().pixels_per_point());
        let typing = ui.ctx().text_edit_focused();
        let key = |ui: &Ui, key| !typing && ui.is_enabled() && ui.input(|i| i.key_pressed(key));
        let press = |ui: &mut Ui, text: &str, name: &str, shortcut: Key| {
            let response = ui
                .add(egui::Button::new(text).min_size(egui::vec2(theme::PRESS_HEIGHT, 0.0)))
                .on_hover_text(format!("{name} ({})", shortcut.symbol_or_name()))
                .accessible_name(name);
            response.clicked() || key(ui, shortcut)
        };
        if press(ui, "−", text!("zoom-out"), Key::Minus) {
            self.view
                .zoom_about(self.view.zoom() / ZOOM_STEP, about, canvas, photo);
        }
        if press(ui, "+", text!("zoom-in"), Key::Plus) || key(ui, Key::Equals) {
            self.view
                .zoom_about(self.view.zoom() * ZOOM_STEP, about, canvas, photo);
        }
        let fit = ui
            .add(egui::Button::new(text!("fit")).min_size(egui::vec2(theme::PRESS_HEIGHT, 0.0)))
            .on_hover_text(format!(
                "{} ({})",
                text!("show-all-of-the-photo"),
                actions::keys_of(ui.ctx(), "do-show-all-of-the-photo")
            ))
            .accessible_name(text!("show-all-of-the-photo"));
        if fit.clicked() {
            self.view.fit();
        }
        if press(
            ui,
            "100 %",
            text!("one-photo-pixel-per-screen-pixel"),
            Key::Num0,
        ) {
            self.view.zoom_about(whole_pixel, about, canvas, photo);
        }
    }
}

/// Where the canvas was painted last.
fn canvas_rect(ui: &Ui) -> egui::Rect {
    ui.ctx()
        .read_response(id())
        .map_or(ui.max_rect(), |response| response.rect)
}
