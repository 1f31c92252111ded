//! Area: which part of the surface to measure.

use super::{explain, next};
use crate::app::canvas::AreaTool;
use crate::app::{Memory, Wish};
use crate::area::{Area, Outline};
use crate::session::{Command, Session, Step};
use egui::{Button, Ui};

/// The step's controls.
pub(crate) fn show(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    if session.document().photo.is_none() {
        explain(ui, "Open a photo first.");
        return;
    }
    let area = &session.document().area;
    explain(ui, "Draw with");
    ui.horizontal_wrapped(|ui| {
        for (tool, text, meaning) in [
            (
                AreaTool::Rectangle,
                "Rectangle",
                "Drag from corner to corner, or click two opposite corners",
            ),
            (
                AreaTool::Polygon,
                "Outline",
                "Click corner by corner; Enter, a double click or a click on the first corner closes it",
            ),
            (
                AreaTool::LeaveOut,
                "Leave out a part",
                "Go round a part that is not to be measured: damage, dirt, a ruler",
            ),
        ] {
            let chosen = memory.canvas.area_tool() == tool;
            if ui
                .add(Button::selectable(chosen, text).frame_when_inactive(true))
                .on_hover_text(meaning)
                .clicked()
            {
                memory.canvas.take_area_tool(tool);
            }
        }
    });
    explain(
        ui,
        match memory.canvas.area_tool() {
            AreaTool::Rectangle => "Drag a rectangle over pores that are sharp and seen squarely.",
            AreaTool::Polygon => "Click around pores that are sharp and seen squarely.",
            AreaTool::LeaveOut => "Click around what is not to be measured.",
        },
    );
    if area != &Area::default() {
        ui.horizontal_wrapped(|ui| {
            if area.outline != Outline::WholePhoto && ui.button("Whole photo").clicked() {
                out.push(Wish::Do(Command::SetOutline(Outline::WholePhoto)));
            }
            if ui
                .button("Clear")
                .on_hover_text("Back to the whole photo, with nothing left out")
                .clicked()
            {
                out.push(Wish::Do(Command::ClearArea));
            }
        });
    }
    next(ui, session, Step::Area, out);
}
