//! Area: which part of the surface to measure.

use super::{complaint, explain, first, next};
use crate::app::canvas::AreaTool;
use crate::app::{Memory, Wish};
use crate::area::Outline;
use crate::session::{Command, Session, Step};
use crate::wording::text;
use egui::{Button, Ui};

/// The step's controls.
pub(crate) fn show(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    if session.document().photo.is_none() {
        explain(ui, text!("nothing-without-a-photo"));
        return;
    }
    let area = &session.document().area;
    explain(ui, text!("draw-with"));
    ui.horizontal_wrapped(|ui| {
        for (tool, text, meaning) in [
            (
                AreaTool::Rectangle,
                text!("rectangle"),
                text!("drag-from-corner-to-corner-or"),
            ),
            (
                AreaTool::Polygon,
                text!("outline"),
                text!("click-corner-by-corner-enter-a"),
            ),
            (
                AreaTool::Freehand,
                text!("freehand"),
                text!("drag-once-around-the-part-to"),
            ),
            (
                AreaTool::LeaveOut,
                text!("leave-out-a-part"),
                text!("drag-a-rectangle-over-a-part"),
            ),
        ] {
            let chosen = memory.canvas.area_tool() == tool;
            let button = ui.add(Button::selectable(chosen, text).frame_when_inactive(true));
            if first(memory, button).on_hover_text(meaning).clicked() {
                memory.canvas.take_area_tool(tool);
            }
        }
    });
    explain(
        ui,
        match memory.canvas.area_tool() {
            AreaTool::Rectangle => text!("drag-a-rectangle-over-pores-that"),
            AreaTool::Polygon => text!("click-around-pores-that-are-sharp"),
            AreaTool::Freehand => text!("drag-around-pores-that-are-sharp"),
            AreaTool::LeaveOut => {
                text!("drag-a-rectangle-over-what-is")
            }
        },
    );
    explain(ui, text!("by-keyboard-p-arrow-keys-enter"));
    ui.horizontal_wrapped(|ui| {
        for (offered, text, meaning, command) in [
            (
                area.outline != Outline::WholePhoto || !session.document().area_is_chosen,
                text!("whole-photo"),
                text!("measure-all-of-the-photo-but"),
                Command::SetOutline(Outline::WholePhoto),
            ),
            (
                area.outline != Outline::WholePhoto,
                text!("clear-outline"),
                text!("take-the-outline-away-parts-that"),
                Command::ClearOutline,
            ),
            (
                !area.left_out.is_empty(),
                text!("clear-left-out-parts"),
                text!("leave-nothing-out-the-outline-stays"),
                Command::ClearLeftOut,
            ),
        ] {
            if offered && ui.button(text).on_hover_text(meaning).clicked() {
                out.push(Wish::Do(command));
            }
        }
    });
    if let Some(text) = session.scale_left_out() {
        explain(ui, text);
    }
    found(ui, session, out);
    next(ui, session, Step::Area, out);
}

/// Parts that were found to be unusable, each to be left out or measured anyway.
fn found(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    let labels = session.found_labels();
    if labels.is_empty() {
        return;
    }
    ui.add_space(4.0);
    if session.document().usable().is_hopeless {
        complaint(ui, text!("hardly-any-of-this-photo-can"));
        for (label, _) in labels {
            explain(ui, &label);
        }
        return;
    }
    explain(ui, text!("found-unusable-and-left-out-hatched"));
    for (part, (label, mut is_left_out)) in labels.into_iter().enumerate() {
        let tick = ui.checkbox(&mut is_left_out, label);
        if tick
            .on_hover_text(text!("ticked-left-out-not-ticked-measured"))
            .changed()
        {
            out.push(Wish::Do(Command::LeaveOutFound(part, is_left_out)));
            out.push(Wish::Do(Command::EndAct));
        }
    }
}
