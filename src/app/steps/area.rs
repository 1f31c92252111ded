//! Area: which part of the surface to measure.

use super::{complaint, explain, first, next};
use crate::app::canvas::AreaTool;
use crate::app::{Memory, Wish};
use crate::area::Outline;
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
                "Drag a rectangle over a part that is not to be measured, or click round it: damage, dirt, a ruler",
            ),
        ] {
            let chosen = memory.canvas.area_tool() == tool;
            let button = ui.add(Button::selectable(chosen, text).frame_when_inactive(true));
            if first(memory, button)
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
            AreaTool::LeaveOut => {
                "Drag a rectangle over what is not to be measured, or click around it."
            }
        },
    );
    explain(ui, "By keyboard: P, arrow keys, Enter at each corner.");
    ui.horizontal_wrapped(|ui| {
        for (offered, text, meaning, command) in [
            (
                area.outline != Outline::WholePhoto || !session.document().area_is_chosen,
                "Whole photo",
                "Measure all of the photo but what is left out",
                Command::SetOutline(Outline::WholePhoto),
            ),
            (
                area.outline != Outline::WholePhoto,
                "Clear outline",
                "Take the outline away; parts that are left out stay",
                Command::ClearOutline,
            ),
            (
                !area.left_out.is_empty(),
                "Clear left-out parts",
                "Leave nothing out; the outline stays",
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
        complaint(
            ui,
            "Hardly any of this photo can be measured. Take it again, or draw an area where pores are sharp.",
        );
        for (label, _) in labels {
            explain(ui, &label);
        }
        return;
    }
    explain(
        ui,
        "Found unusable and left out, hatched on the photo. Untick what is to be measured anyway.",
    );
    for (part, (label, mut is_left_out)) in labels.into_iter().enumerate() {
        let tick = ui.checkbox(&mut is_left_out, label);
        if tick
            .on_hover_text("Ticked: left out. Not ticked: measured like the rest")
            .changed()
        {
            out.push(Wish::Do(Command::LeaveOutFound(part, is_left_out)));
            out.push(Wish::Do(Command::EndAct));
        }
    }
}
