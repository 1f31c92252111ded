//! All vouchers of the book.

use crate::app::filmstrip::Dragged;
use crate::app::findings;
use crate::app::theme::{self, palette};
use crate::app::{KeyboardTo, Memory, Wish};
use crate::book::{Complaint, Gravity};
use crate::session::record::{Column, OpenBook, Row};
use crate::session::{BookCommand, Command, Session};
use crate::wording::{self, text};
use egui::{
    Align2, Color32, FontFamily, FontId, Frame, Key, Label, Margin, Panel, Rect, Response,
    ScrollArea, Sense, TextEdit, Ui, WidgetInfo, pos2, vec2,
};

/// Height of a row, points.
const ROW: f32 = 40.0;
/// Width of the small picture, points.
const PICTURE: f32 = 48.0;
/// Height of what the check found, points.
const CHECKED: f32 = 150.0;
/// Space between cells, points.
const GAP: f32 = 8.0;
/// Widths of number, date, underside and figure, points; name and place share the rest.
const NUMBER: f32 = 104.0;
const DATE: f32 = 86.0;
const UNDERSIDE: f32 = 92.0;
const PER_MM: f32 = 58.0;

pub(super) fn show(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let Some(book) = session.record().book() else {
        super::page(ui, "no book", |ui| {
            super::empty(
                ui,
                text!("no-book-is-open"),
                text!("open-one-on-the-left-or"),
            );
        });
        return;
    };
    head(ui, session, book, memory, out);
    checked(ui, session, out);
    findings::caution(ui);
    Frame::NONE
        .inner_margin(Margin::symmetric(theme::MARGIN, 6))
        .show(ui, |ui| {
            let columns = columns(ui.available_width() - f32::from(theme::MARGIN));
            titles(ui, book, columns, out);
            rows(ui, session, book, memory, columns, out);
        });
}

/// Finding, and what can be done with the voucher that is picked.
fn head(ui: &mut Ui, session: &Session, book: &OpenBook, memory: &mut Memory, out: &mut Vec<Wish>) {
    Panel::top("book head")
        .frame(
            Frame::NONE
                .fill(palette(ui).panel)
                .inner_margin(Margin::symmetric(theme::MARGIN, 8)),
        )
        .resizable(false)
        .show(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                let label = ui.label(text!("find-in-the-book"));
                let mut typed = book.filter().to_owned();
                let field = ui
                    .add(
                        TextEdit::singleline(&mut typed)
                            .id_salt("find in the book")
                            .hint_text(text!("number-name-place-person"))
                            .desired_width(220.0)
                            .min_size(vec2(0.0, theme::PRESS_HEIGHT))
                            .align(Align2::LEFT_CENTER),
                    )
                    .labelled_by(label.id);
                if memory
                    .keyboard_to
                    .take_if(|to| *to == KeyboardTo::Find)
                    .is_some()
                {
                    field.request_focus();
                }
                if field.changed() {
                    out.push(Wish::Book(BookCommand::Find(typed)));
                }
                let shown = book.shown().len();
                ui.label(theme::quiet(
                    ui,
                    text!("vouchers-shown", shown = shown, all = book.count()),
                ));
                picked(ui, session, out);
                let check = ui.add_enabled(
                    session.why_not_book().is_none(),
                    egui::Button::new(text!("check-the-book")),
                );
                if check
                    .on_hover_text(text!("looks-for-dates-and-places-that"))
                    .clicked()
                {
                    out.push(Wish::Book(BookCommand::Check));
                }
            });
            for fault in book.faults() {
                let text = egui::RichText::new(fault).color(palette(ui).trouble);
                ui.add(Label::new(text).wrap());
            }
            let hint = text!("double-click-or-enter-on-a");
            ui.label(theme::quiet(ui, hint));
        });
}

/// What the check found.
fn checked(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    let Some(found) = session.record().checked() else {
        return;
    };
    Panel::top("book checked")
        .frame(
            Frame::NONE
                .fill(palette(ui).rail)
                .inner_margin(Margin::symmetric(theme::MARGIN, 6)),
        )
        .resizable(false)
        .show(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                ui.label(theme::bold(text!("things-to-look-at", count = found.len())));
                if ui.add(theme::small_button(text!("hide"))).clicked() {
                    out.push(Wish::Book(BookCommand::HideCheck));
                }
            });
            if found.is_empty() {
                return;
            }
            ScrollArea::vertical()
                .id_salt("complaints")
                .max_height(CHECKED)
                .min_scrolled_height(CHECKED)
                .show(ui, |ui| {
                    for complaint in found {
                        ui.horizontal_wrapped(|ui| said(ui, session, complaint, out));
                    }
                    theme::follow_focus(ui);
                });
        });
}

/// One thing that is wrong, with a way to the voucher.
fn said(ui: &mut Ui, session: &Session, complaint: &Complaint, out: &mut Vec<Wish>) {
    let colour = match complaint.gravity {
        Gravity::Wrong => palette(ui).trouble,
        Gravity::Look => palette(ui).quiet,
    };
    ui.label(theme::bold(wording::word(complaint.gravity.word())).color(colour));
    let book = session.record().book();
    let voucher = book.and_then(|book| book.numbered(&complaint.record));
    match voucher {
        None => {
            ui.label(&complaint.record);
        }
        Some(voucher) => {
            let button = ui.add(theme::small_button(&complaint.record));
            if button
                .on_hover_text(text!("fill-in-this-voucher"))
                .clicked()
            {
                let id = voucher.occurrence_id.clone();
                out.push(Wish::Book(BookCommand::Pick(id)));
                out.push(Wish::Show(super::View::Voucher));
            }
        }
    }
    ui.add(Label::new(&complaint.text).wrap());
}

fn picked(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    let record = session.record();
    let Some(form) = record.form().filter(|form| !form.is_new()) else {
        return;
    };
    if ui
        .button(text!("fill-in"))
        .on_hover_text(text!("shows-the-voucher-that-is-picked"))
        .clicked()
    {
        out.push(Wish::Show(super::View::Voucher));
    }
    let again = record.newest_photo(form.base());
    let open = ui.add_enabled(again.is_some(), egui::Button::new(text!("open-its-photo")));
    if open
        .on_disabled_hover_text(text!("no-photo-of-it-was-measured"))
        .clicked()
        && let Some(again) = again
    {
        out.push(Wish::Book(BookCommand::OpenAgain(again)));
    }
}

/// Left edge and width of each column.
fn columns(width: f32) -> [(f32, f32); 6] {
    let fixed = PICTURE + NUMBER + DATE + UNDERSIDE + PER_MM + 6.0 * GAP;
    let rest = (width - fixed).max(160.0);
    let widths = [NUMBER, DATE, rest * 0.58, rest * 0.42, UNDERSIDE, PER_MM];
    let mut left = PICTURE + GAP;
    widths.map(|width| {
        let at = left;
        left += width + GAP;
        (at, width)
    })
}

fn titles(ui: &mut Ui, book: &OpenBook, columns: [(f32, f32); 6], out: &mut Vec<Wish>) {
    let (by, is_falling) = book.sorted_by();
    let (line, _) = ui.allocate_exact_size(
        vec2(ui.available_width(), theme::PRESS_HEIGHT),
        Sense::hover(),
    );
    for (column, (left, width)) in Column::ALL.into_iter().zip(columns) {
        let rect = Rect::from_min_size(line.min + vec2(left, 0.0), vec2(width, line.height()));
        let title = ui.interact(rect, ui.scope_id().with(column.label()), Sense::click());
        let order = match (by == column, is_falling) {
            (false, _) => "",
            (true, false) => text!("rising"),
            (true, true) => text!("falling"),
        };
        title.widget_info(|| {
            let label = text!(
                "sort-by-column",
                column = wording::mid_sentence(column.label()),
                order = order
            );
            WidgetInfo::labeled(egui::Role::Button, true, label)
        });
        let mark = match (by == column, is_falling) {
            (false, _) => "",
            (true, false) => " ↑",
            (true, true) => " ↓",
        };
        let colour = if title.hovered() {
            palette(ui).accent
        } else {
            palette(ui).text
        };
        let text = format!("{}{mark}", column.label());
        cell(ui, rect, &text, theme::semibold(), colour);
        if title
            .on_hover_cursor(egui::CursorIcon::PointingHand)
            .clicked()
        {
            out.push(Wish::Book(BookCommand::SortBy(column)));
        }
    }
    ui.separator();
}

fn rows(
    ui: &mut Ui,
    session: &Session,
    book: &OpenBook,
    memory: &mut Memory,
    columns: [(f32, f32); 6],
    out: &mut Vec<Wish>,
) {
    if book.shown().len() == 0 {
        let text = if book.count() == 0 {
            text!("the-book-has-no-voucher-yet")
        } else {
            text!("no-voucher-holds-all-of-these")
        };
        ui.label(theme::quiet(ui, text));
        return;
    }
    ui.spacing_mut().item_spacing.y = 0.0;
    ScrollArea::vertical()
        .id_salt("vouchers")
        .auto_shrink(false)
        .show_rows(ui, ROW, book.shown().len(), |ui, range| {
            for row in range.filter_map(|at| book.row(at)) {
                one(ui, session, row, memory, columns, out);
            }
            theme::follow_focus(ui);
        });
}

fn one(
    ui: &mut Ui,
    session: &Session,
    row: &Row,
    memory: &mut Memory,
    columns: [(f32, f32); 6],
    out: &mut Vec<Wish>,
) {
    let record = session.record();
    let id = &row.voucher.occurrence_id;
    let is_picked = record.form().is_some_and(|form| form.id() == id);
    let (line, _) = ui.allocate_exact_size(vec2(ui.available_width(), ROW), Sense::hover());
    // By the voucher and not by its place, so that the keyboard stays with it when the list changes.
    let response = ui.interact(line, egui::Id::unique(("voucher", id)), Sense::click());
    response
        .widget_info(|| WidgetInfo::selected(egui::Role::Button, true, is_picked, row.in_words()));
    let is_target = response.dnd_hover_payload::<Dragged>().is_some();
    paint(ui, &response, row, columns, is_picked || is_target);
    if let Some(photo) = response.dnd_release_payload::<Dragged>() {
        out.push(Wish::Do(Command::AttachFrame {
            frame: photo.0,
            voucher: id.clone(),
            is_copied: memory.copies_photo,
        }));
    }
    picture(ui, line, row, memory);
    let entered = response.has_focus() && ui.input(|i| i.key_pressed(Key::Enter));
    if response.clicked() || entered {
        out.push(Wish::Book(BookCommand::Pick(id.clone())));
    }
    if response.double_clicked() || entered {
        match record.newest_photo(&row.voucher) {
            Some(again) => out.push(Wish::Book(BookCommand::OpenAgain(again))),
            None => out.push(Wish::Show(super::View::Voucher)),
        }
    }
}

fn paint(ui: &Ui, response: &Response, row: &Row, columns: [(f32, f32); 6], is_picked: bool) {
    let colours = palette(ui);
    let line = response.rect;
    if is_picked || response.hovered() {
        let fill = if is_picked {
            colours.accent_soft
        } else {
            colours.rail
        };
        ui.painter().rect_filled(line, theme::CORNER, fill);
    }
    for (text, (left, width)) in row.cells.iter().zip(columns) {
        let rect = Rect::from_min_size(line.min + vec2(left, 0.0), vec2(width, ROW));
        cell(ui, rect, text, FontFamily::Proportional, colours.text);
    }
}

/// The first photo of the voucher, small; an empty frame until it is there, or where there is none.
fn picture(ui: &Ui, line: Rect, row: &Row, memory: &mut Memory) {
    let room = Rect::from_min_size(line.min, vec2(PICTURE, ROW)).shrink(2.0);
    let Some(photo) = &row.photo else { return };
    let Some(texture) = memory.pictures.of(ui.ctx(), photo) else {
        let line = egui::Stroke::new(1.0, palette(ui).line);
        let inside = egui::StrokeKind::Inside;
        ui.painter().rect_stroke(room, 2.0, line, inside);
        return;
    };
    let size = texture.size_vec2();
    let fit = (room.width() / size.x).min(room.height() / size.y);
    let place = Rect::from_center_size(room.center(), size * fit);
    let whole = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
    ui.painter()
        .image(texture.id(), place, whole, Color32::WHITE);
}

/// Text in a cell, with an ellipsis where it is too long.
fn cell(ui: &Ui, rect: Rect, text: &str, family: FontFamily, colour: Color32) {
    let mut job = egui::text::LayoutJob::simple_singleline(
        text.to_owned(),
        FontId::new(13.5, family),
        colour,
    );
    job.wrap = egui::text::TextWrapping::truncate_at_width(rect.width());
    let galley = ui.painter().layout_job(job);
    let top = rect.center().y - galley.size().y / 2.0;
    ui.painter()
        .galley(pos2(rect.left() + 4.0, top), galley, colour);
}
