//! A line across the canvas, to the left of which the photo is shown without outlines.

use super::handles::arrows;
use crate::app::theme::on_photo;
use crate::wording::text;
use egui::{
    CursorIcon, EventFilter, Painter, Rect, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2,
};

/// How far an arrow key moves it, points.
const STEP: f64 = 10.0;
/// Width of the place that can be grabbed, points.
const GRAB: f32 = 14.0;
/// It stays so far from the canvas' edges, as a share of its width.
const LEAST: f32 = 0.02;

/// Where it stands on the canvas.
pub(super) fn place(share: f32, canvas: Rect) -> f32 {
    canvas.left() + share * canvas.width()
}

/// Lets it be moved, by dragging or by arrow keys.
pub(super) fn interact(ui: &Ui, canvas: Rect, share: &mut f32) {
    let x = place(*share, canvas);
    let spot = Rect::from_x_y_ranges(x - GRAB / 2.0..=x + GRAB / 2.0, canvas.y_range());
    let id = ui.scope_id().with("divider");
    let response = ui
        .interact(spot.intersect(canvas), id, Sense::click_and_drag())
        .on_hover_cursor(CursorIcon::ResizeHorizontal)
        .on_hover_text(text!("left-of-it-the-photo-without"));
    response.widget_info(|| {
        WidgetInfo::slider(
            true,
            f64::from(100.0 * *share),
            text!("divider-per-cent-of-the-width"),
        )
    });
    let mut moved = response.drag_delta().x;
    if response.has_focus() {
        ui.memory_mut(|memory| {
            let filter = EventFilter {
                horizontal_arrows: true,
                ..EventFilter::default()
            };
            memory.set_focus_lock_filter(id, filter);
        });
        #[expect(clippy::cast_possible_truncation, reason = "a few points")]
        let by_keys = arrows(ui, STEP, 1.0).0 as f32;
        moved += by_keys;
    }
    *share = (*share + moved / canvas.width().max(1.0)).clamp(LEAST, 1.0 - LEAST);
}

/// Paints it with its grip.
pub(super) fn paint(painter: &Painter, canvas: Rect, share: f32) {
    let x = place(share, canvas);
    let middle = pos2(x, canvas.center().y);
    for (width, colour) in [(5.0, on_photo::CASING), (2.0, on_photo::AREA)] {
        painter.vline(x, canvas.y_range(), Stroke::new(width, colour));
    }
    let grip = Rect::from_center_size(middle, vec2(22.0, 30.0));
    painter.rect_filled(grip.expand(1.5), 6.0, on_photo::AREA);
    painter.rect_filled(grip, 5.0, on_photo::PLATE);
    for way in [-1.0, 1.0] {
        let arrow = [vec2(7.0, 0.0), vec2(3.0, -4.0), vec2(3.0, 4.0)];
        let corners = arrow.map(|off| middle + vec2(way * off.x, off.y));
        painter.add(Shape::convex_polygon(
            corners.to_vec(),
            on_photo::AREA,
            Stroke::NONE,
        ));
    }
}
