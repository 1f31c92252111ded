//! A label that says what it means, to the pointer and to the keyboard.

use egui::{Label, Response, RichText, Sense, Tooltip, Ui};

/// A label that can get the keyboard; while it has it, or the pointer rests on it, its meaning stands
/// beside it, and screen readers say it after the label.
pub(crate) fn label(ui: &mut Ui, text: impl Into<RichText>, meaning: &str) -> Response {
    let label = Label::new(text.into()).wrap();
    let response = ui.add(label.sense(Sense::focusable_noninteractive()));
    let describe = |node: &mut egui::accesskit::Node| node.set_description(meaning);
    ui.ctx().accesskit_node_builder(response.id, describe);
    let response = if response.has_focus() {
        Tooltip::for_widget(&response).show(|ui| ui.label(meaning));
        response
    } else {
        response.on_hover_text(meaning)
    };
    response.on_hover_cursor(egui::CursorIcon::Help)
}
