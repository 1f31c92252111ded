//! A bar of a round length in the lower left corner of the canvas.

use super::overlay::Pencil;
use crate::app::theme::{self, on_photo};
use crate::session::Session;
use crate::units::Pixels;
use crate::wording::text;
use egui::{FontId, Rect, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

/// Its greatest length, points, and as a share of the canvas' width.
const LONGEST: f32 = 180.0;
const LONGEST_SHARE: f32 = 0.4;
/// From the canvas' edges to its plate, and from that to the bar, points.
const MARGIN: f32 = 12.0;
const PADDING: egui::Vec2 = vec2(10.0, 6.0);
/// Thickness of the bar, points.
const THICK: f32 = 4.0;

/// Paints it, once there is a scale.
pub(super) fn show(ui: &Ui, pencil: &Pencil<'_>, session: &Session) {
    let (painter, canvas, zoom) = (pencil.painter, pencil.canvas, pencil.view.zoom());
    let longest = LONGEST.min(LONGEST_SHARE * canvas.width());
    let Some(bar) = session.scale_bar(Pixels(f64::from(longest) / zoom)) else {
        return;
    };
    #[expect(clippy::cast_possible_truncation, reason = "a length on the screen")]
    let length = (bar.on_photo.0 * zoom) as f32;
    let font = FontId::new(theme::SMALL, theme::semibold());
    let words = painter.layout_no_wrap(bar.label.clone(), font, on_photo::AREA);
    let inner = vec2(length.max(words.size().x), words.size().y + 2.0 + THICK);
    let corner = canvas.left_bottom() + vec2(MARGIN, -MARGIN);
    let plate = Rect::from_min_max(
        corner - vec2(0.0, inner.y + 2.0 * PADDING.y),
        corner + vec2(inner.x + 2.0 * PADDING.x, 0.0),
    );
    painter.rect_filled(plate, theme::CORNER, on_photo::PLATE);
    let middle = plate.center().x;
    let foot = plate.bottom() - PADDING.y;
    painter.galley(
        pos2(middle - words.size().x / 2.0, plate.top() + PADDING.y),
        words,
        on_photo::AREA,
    );
    let line = Rect::from_min_max(
        pos2(middle - length / 2.0, foot - THICK),
        pos2(middle + length / 2.0, foot),
    );
    painter.rect_filled(line, 0.0, on_photo::AREA);
    for x in [line.left(), line.right()] {
        painter.vline(
            x,
            line.top() - 3.0..=line.bottom(),
            Stroke::new(1.5, on_photo::AREA),
        );
    }
    let response = ui.interact(plate, ui.scope_id().with("scale bar"), Sense::hover());
    response.widget_info(|| {
        WidgetInfo::labeled(
            egui::Role::Image,
            true,
            text!("scale-bar-of", length = bar.label),
        )
    });
    response.on_hover_text(text!("how-long-this-bar-is", length = bar.label));
}
