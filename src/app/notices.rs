//! Messages over the photo.

use super::theme::{self, palette};
use crate::session::{Command, Notice, Session, Tone};
use crate::wording::text;
use egui::text::{LayoutJob, TextFormat};
use egui::{Align2, Area, Button, FontId, Frame, Id, Label, Margin, Stroke, TextStyle, Ui, vec2};

/// Width of the button that takes a message away, points.
const DISMISS: f32 = 80.0;
/// Widest a message gets, points.
const WIDEST: f32 = 640.0;

/// All messages, the newest last, over the upper part of what stands in the middle, or over its lower
/// part where controls stand above.
pub(crate) fn show(
    ui: &Ui,
    middle: egui::Rect,
    is_above: bool,
    session: &Session,
    out: &mut Vec<Command>,
) {
    if session.notices().is_empty() {
        return;
    }
    let width = (middle.width() - 20.0).min(WIDEST);
    let (pivot, place) = if is_above {
        (Align2::CENTER_TOP, middle.center_top() + vec2(0.0, 10.0))
    } else {
        (
            Align2::CENTER_BOTTOM,
            middle.center_bottom() - vec2(0.0, 10.0),
        )
    };
    Area::new(Id::unique("notices"))
        .pivot(pivot)
        .fixed_pos(place)
        .fade_in(false)
        .show(ui.ctx(), |ui| {
            ui.set_width(width);
            for (index, notice) in session.notices().iter().enumerate() {
                Frame::NONE
                    .fill(palette(ui).panel)
                    .stroke(Stroke::new(1.0, palette(ui).line))
                    .corner_radius(theme::CORNER)
                    .inner_margin(Margin::symmetric(12, 8))
                    .show(ui, |ui| one(ui, index, notice, out));
            }
        });
}

fn one(ui: &mut Ui, index: usize, notice: &Notice, out: &mut Vec<Command>) {
    ui.horizontal_top(|ui| {
        let width = ui.available_width() - DISMISS - ui.spacing().item_spacing.x;
        ui.vertical(|ui| {
            ui.set_width(width);
            ui.add_space(5.0);
            ui.add(Label::new(text(ui, notice)).wrap());
        });
        let button = Button::new(text!("dismiss")).min_size(vec2(DISMISS, 0.0));
        if ui.add(button).clicked() {
            out.push(Command::Dismiss(index));
        }
    });
}

/// A message behind a word on how it is meant.
fn text(ui: &Ui, notice: &Notice) -> LayoutJob {
    let palette = palette(ui);
    let (word, colour) = match notice.tone {
        Tone::Good => (text!("done"), palette.accent),
        Tone::Trouble => (text!("not-done"), palette.trouble),
    };
    let body = TextStyle::Body.resolve(ui.style());
    let mut job = LayoutJob::default();
    let bold = FontId::new(body.size, theme::semibold());
    job.append(word, 0.0, TextFormat::simple(bold, colour));
    job.append(&notice.text, 8.0, TextFormat::simple(body, palette.text));
    job
}

/// What letting go would do, while files are held over the window.
pub(crate) fn drop_hint(ui: &Ui) {
    if ui.input(|i| i.raw.hovered_files.is_empty()) {
        return;
    }
    let palette = palette(ui);
    let painter = ui.painter();
    let rect = ui.max_rect();
    painter.rect_filled(rect, 0.0, palette.accent_soft);
    painter.text(
        rect.center(),
        Align2::CENTER_CENTER,
        text!("let-go-to-open-the-photo"),
        FontId::new(theme::PHRASE, theme::semibold()),
        palette.accent,
    );
}
