//! The photos that are open, along the bottom of the window once there are several.

use super::theme::{self, palette};
use super::{Memory, Wish};
use crate::session::{Command, FrameStanding, FrameView, Session};
use crate::wording::text;
use egui::text::{LayoutJob, TextFormat, TextWrapping};
use egui::{
    Align, Align2, Color32, FontId, Frame, Layout, Margin, Panel, Rect, Response, ScrollArea,
    Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2,
};

/// Size of a photo's place in the strip, points.
const CELL: egui::Vec2 = vec2(176.0, 58.0);
/// Side of the room for its small picture, points.
const PICTURE: f32 = 50.0;
/// Width of the buttons beside the strip, points.
const BUTTONS: f32 = 104.0;

/// A photo on its way to a voucher.
pub(crate) struct Dragged(pub(crate) usize);

/// Shows the strip, where there are several photos.
pub(crate) fn show(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let frames = session.frames();
    if frames.len() < 2 {
        return;
    }
    Panel::bottom("filmstrip")
        .frame(
            Frame::NONE
                .fill(palette(ui).rail)
                .inner_margin(Margin::symmetric(8, 6)),
        )
        .resizable(false)
        .show(ui, |ui| {
            ui.with_layout(Layout::right_to_left(Align::Min), |ui| {
                ui.allocate_ui_with_layout(
                    vec2(BUTTONS, CELL.y),
                    Layout::top_down(Align::Min),
                    |ui| buttons(ui, session, out),
                );
                ui.with_layout(Layout::left_to_right(Align::Min), |ui| {
                    photos(ui, &frames, memory, out);
                });
            });
        });
}

fn photos(ui: &mut Ui, frames: &[FrameView], memory: &mut Memory, out: &mut Vec<Wish>) {
    ScrollArea::horizontal()
        .id_salt("filmstrip")
        .auto_shrink([false, true])
        .show(ui, |ui| {
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 6.0;
                for (at, frame) in frames.iter().enumerate() {
                    let cell = one(ui, at, frame, memory, out);
                    if frame.is_present && memory.frame_shown != Some(at) {
                        memory.frame_shown = Some(at);
                        cell.scroll_to_me(Some(Align::Center));
                    }
                }
                theme::follow_focus(ui);
            });
        });
}

fn one(
    ui: &mut Ui,
    at: usize,
    frame: &FrameView,
    memory: &mut Memory,
    out: &mut Vec<Wish>,
) -> Response {
    let (rect, _) = ui.allocate_exact_size(CELL, Sense::hover());
    let id = egui::Id::unique(("photo of the strip", &frame.path));
    let response = ui.interact(rect, id, Sense::click_and_drag());
    response.widget_info(|| {
        let label = format!("{}, {}", frame.name, frame.standing.word());
        WidgetInfo::selected(egui::Role::Button, true, frame.is_present, label)
    });
    response.dnd_set_drag_payload(Dragged(at));
    paint(ui, &response, frame, memory);
    if response.clicked() {
        out.push(Wish::Do(Command::GoToFrame(at)));
    }
    if response.middle_clicked()
        || (response.has_focus() && ui.input(|i| i.key_pressed(egui::Key::Delete)))
    {
        out.push(Wish::CloseFrame(at));
    }
    if response.dragged() {
        egui::Tooltip::always_open(ui.ctx().clone(), ui.layer_id(), id, &response)
            .at_pointer()
            .show(|ui| ui.label(text!("dragged-to-a-voucher", photo = frame.name)));
        return response;
    }
    let told = frame.told.as_ref();
    let told = told.map_or_else(String::new, |told| format!("\n{told}"));
    response.on_hover_text(text!(
        "photo-of-the-strip",
        path = frame.path.display(),
        standing = frame.standing.word(),
        told = told
    ))
}

fn paint(ui: &Ui, response: &Response, frame: &FrameView, memory: &mut Memory) {
    let colours = palette(ui);
    let rect = response.rect;
    let fill = if frame.is_present {
        colours.accent_soft
    } else if response.hovered() {
        colours.button_hovered
    } else {
        colours.panel
    };
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    painter.rect_filled(rect, theme::CORNER, fill);
    let edge = if frame.is_present {
        Stroke::new(2.0, colours.accent)
    } else {
        Stroke::new(1.0, colours.line)
    };
    painter.rect_stroke(rect, theme::CORNER, edge, StrokeKind::Inside);
    let room = Rect::from_min_size(rect.min + vec2(4.0, 4.0), vec2(PICTURE, PICTURE));
    if let Some(texture) = memory.pictures.of(ui.ctx(), &frame.path) {
        let size = texture.size_vec2();
        let fit = (room.width() / size.x).min(room.height() / size.y);
        let place = Rect::from_center_size(room.center(), size * fit);
        let whole = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
        painter.image(texture.id(), place, whole, Color32::WHITE);
    } else {
        let line = Stroke::new(1.0, colours.line);
        painter.rect_stroke(room, 2.0, line, StrokeKind::Inside);
    }
    let text = Rect::from_min_max(pos2(room.right() + 8.0, rect.top()), rect.max).shrink(4.0);
    let told = match frame.standing {
        FrameStanding::Saved | FrameStanding::Measured => frame.told.as_deref(),
        _ => None,
    };
    let word = match frame.standing {
        FrameStanding::Measured => text!("not-saved"),
        standing => standing.word(),
    };
    let colour = match frame.standing {
        FrameStanding::Unreadable => colours.trouble,
        FrameStanding::NeedsScale | FrameStanding::Measured => colours.caution,
        FrameStanding::Ready => colours.accent,
        FrameStanding::Unopened | FrameStanding::Saved => colours.quiet,
    };
    let bold = FontId::new(13.0, theme::semibold());
    let small = FontId::proportional(theme::SMALL);
    let name = (frame.name.as_str(), bold, colours.text);
    let found = told.map(|told| (told, small.clone(), colours.text));
    let standing = (word, small, colour);
    let lines: Vec<_> = [Some(name), found, Some(standing)]
        .into_iter()
        .flatten()
        .collect();
    let (count, height) = (lines.len() as f32, 17.0);
    let first = text.center().y - height * (count - 1.0) / 2.0;
    for (at, (words, font, colour)) in (0_u8..).zip(lines) {
        let middle = pos2(text.left(), first + height * f32::from(at));
        line(ui, &painter, middle, text.width(), words, font, colour);
    }
}

/// One line of text from its middle left on, with an ellipsis where it is too long.
fn line(
    ui: &Ui,
    painter: &egui::Painter,
    middle: egui::Pos2,
    width: f32,
    text: &str,
    font: FontId,
    colour: Color32,
) {
    let mut job = LayoutJob::single_section(text.to_owned(), TextFormat::simple(font, colour));
    job.wrap = TextWrapping::truncate_at_width(width);
    let galley = ui.painter().layout_job(job);
    let place = Align2::LEFT_CENTER.anchor_size(middle, galley.size());
    painter.galley(place.min, galley, colour);
}

fn buttons(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    ui.spacing_mut().item_spacing.y = 4.0;
    let full = vec2(BUTTONS, 0.0);
    let why_not_scale = session.why_not_carry_scale();
    let scale = theme::small_button(text!("scale-for-all")).min_size(full);
    if ui
        .add_enabled(why_not_scale.is_none(), scale)
        .on_hover_text(text!("gives-this-photos-scale-to-all"))
        .on_disabled_hover_text(why_not_scale.unwrap_or_default())
        .clicked()
    {
        out.push(Wish::Do(Command::CarryScaleOver));
    }
    let why_not_area = session.why_not_carry_area();
    let area = theme::small_button(text!("area-for-all")).min_size(full);
    if ui
        .add_enabled(why_not_area.is_none(), area)
        .on_hover_text(text!("gives-the-outline-of-this-photos"))
        .on_disabled_hover_text(why_not_area.unwrap_or_default())
        .clicked()
    {
        out.push(Wish::Do(Command::CarryAreaOver));
    }
}
