//! By which measure outlines are coloured, and what the colours mean.

use crate::app::theme::{self, palette};
use crate::session::{Distribution, Measure, Results, ramp};
use egui::{Color32, ComboBox, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};

/// Width and height of the strip of colours, points.
const STRIP: [f32; 2] = [72.0, 12.0];
/// Colours in it.
const STEPS: usize = 24;

/// The choice, and beside it the colours with the figures that they stand for.
pub(super) fn show(ui: &mut Ui, by: &mut Option<Measure>, results: &Results) {
    if results.distributions.measures.is_empty() {
        return;
    }
    let name = |by: Option<Measure>| by.map_or("Counted or not", Measure::name);
    let label = ui.label(theme::quiet(ui, "Colour by"));
    ComboBox::from_id_salt("colour by")
        .selected_text(name(*by))
        .width(120.0)
        .show_ui(ui, |ui| {
            let all = std::iter::once(None).chain(Measure::ALL.map(Some));
            for one in all {
                ui.selectable_value(by, one, name(one));
            }
        })
        .response
        .labelled_by(label.id);
    if let Some(one) = by.and_then(|measure| results.distributions.measure(measure)) {
        let [low, high] = one.ends();
        ui.label(theme::quiet(ui, &low));
        strip(ui, one);
        ui.label(theme::quiet(ui, &high));
    }
}

fn strip(ui: &mut Ui, one: &Distribution) {
    let (rect, response) = ui.allocate_exact_size(STRIP.into(), Sense::hover());
    let [low, high] = one.ends();
    let meaning = format!(
        "{}: dark blue is {low} or less, pale yellow {high} or more. Nine tenths of the pores lie between",
        one.measure.name()
    );
    response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, &meaning));
    let width = rect.width() / STEPS as f32;
    for k in 0..STEPS {
        let [red, green, blue] = ramp(k as f32 / (STEPS - 1) as f32);
        let left = rect.left() + width * k as f32;
        let block = Rect::from_min_size(pos2(left, rect.top()), vec2(width + 0.5, rect.height()));
        ui.painter()
            .rect_filled(block, 0.0, Color32::from_rgb(red, green, blue));
    }
    let line = Stroke::new(1.0, palette(ui).line);
    ui.painter()
        .rect_stroke(rect, 0.0, line, StrokeKind::Outside);
    response.on_hover_text(meaning);
}
