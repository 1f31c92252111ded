//! By which measure outlines are coloured, and what the colours mean.

use crate::app::theme::{self, PRESS_HEIGHT, palette};
use crate::session::{Distribution, Measure, Results, ramp};
use crate::wording::text;
use egui::{
    Color32, ComboBox, FontId, Galley, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2,
};
use std::sync::Arc;

/// Width and height of the strip of colours, points.
const STRIP: [f32; 2] = [72.0, 12.0];
/// Between the strip and the figures beside it, points.
const GAP: f32 = 6.0;
/// Room that the choice takes with its words, points.
const TOGETHER: f32 = 220.0;
/// Colours in it.
const STEPS: usize = 24;

/// The choice, and beside it the colours with the figures that they stand for.
pub(super) fn show(ui: &mut Ui, by: &mut Option<Measure>, results: &Results) {
    if results.distributions.measures.is_empty() {
        return;
    }
    let name = |by: Option<Measure>| by.map_or(text!("counted-or-not"), Measure::name);
    if ui.available_size_before_wrap().x < TOGETHER {
        // The words stay beside what they name.
        ui.end_row();
    }
    let label = ui.label(theme::quiet(ui, text!("colour-by")));
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
        legend(ui, one);
    }
}

/// The strip of colours between the figures at its ends, in one piece.
fn legend(ui: &mut Ui, one: &Distribution) {
    let quiet = palette(ui).quiet;
    let ends = one.ends();
    let [low, high] = ends.each_ref().map(|end| {
        let font = FontId::proportional(theme::SMALL);
        ui.painter().layout_no_wrap(end.clone(), font, quiet)
    });
    let [width, height] = STRIP;
    let all = vec2(
        low.size().x + width + high.size().x + 2.0 * GAP,
        PRESS_HEIGHT,
    );
    let (rect, response) = ui.allocate_exact_size(all, Sense::hover());
    let meaning = text!(
        "what-the-colours-mean",
        measure = one.measure.name(),
        low = ends[0],
        high = ends[1]
    );
    response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, &meaning));
    let middle = rect.center().y;
    let left = rect.left() + low.size().x + GAP;
    let words = |galley: Arc<Galley>, x: f32| {
        let top = middle - galley.size().y / 2.0;
        ui.painter().galley(pos2(x, top), galley, quiet);
    };
    words(low, rect.left());
    words(high, left + width + GAP);
    let strip = Rect::from_min_size(pos2(left, middle - height / 2.0), STRIP.into());
    let step = width / STEPS as f32;
    for k in 0..STEPS {
        let [red, green, blue] = ramp(k as f32 / (STEPS - 1) as f32);
        let corner = pos2(left + step * k as f32, strip.top());
        let block = Rect::from_min_size(corner, vec2(step + 0.5, height));
        ui.painter()
            .rect_filled(block, 0.0, Color32::from_rgb(red, green, blue));
    }
    let line = Stroke::new(1.0, palette(ui).line);
    ui.painter()
        .rect_stroke(strip, 0.0, line, StrokeKind::Outside);
    response.on_hover_text(meaning);
}
