//! Pores: measure, and look at what was found.

use super::{explain, first, next};
use crate::app::keys::MEASURE;
use crate::app::theme::{self, on_photo, palette};
use crate::app::{Memory, Wish};
use crate::progress::Stage;
use crate::session::{Command, Readout, Session, Step, Work};
use egui::{ProgressBar, RichText, Sense, Shape, Stroke, Ui, vec2};

/// The step's controls.
pub(crate) fn show(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    match session.work() {
        Work::Measuring(stage) => measuring(ui, *stage, memory, out),
        _ => measure_button(ui, session, memory, out),
    }
    if let Some(results) = session.results()
        && session.outdated_area().is_none()
    {
        legend(ui, &results.readout);
    }
    next(ui, session, Step::Pores, out);
}

fn measuring(ui: &mut Ui, stage: Option<Stage>, memory: &mut Memory, out: &mut Vec<Wish>) {
    let (share, label) = stage.map_or((0.0, "Starting"), |stage| {
        (stage.share_done(), stage.label())
    });
    ui.add(
        ProgressBar::new(share)
            .desired_height(10.0)
            .fill(palette(ui).accent),
    )
    .accessible_name(label);
    let cancel = ui.button("Cancel");
    if first(memory, cancel).clicked() {
        out.push(Wish::Do(Command::Cancel));
    }
}

fn measure_button(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    if session.document().photo.is_some() && !session.document().area_is_chosen {
        let text = match session.scale_left_out() {
            Some(_) => "No area is drawn: the whole photo will be measured, background included.",
            None => {
                "No area is drawn: the whole photo will be measured, card and background included."
            }
        };
        ui.label(RichText::new(text).color(palette(ui).caution));
    }
    let why_not = session.why_not_measure();
    let current = session.results().is_some() && session.outdated().is_none();
    let button = if current {
        egui::Button::new("Measure again")
    } else if why_not.is_some() {
        egui::Button::new("Measure")
    } else {
        theme::primary_button(ui, "Measure")
    };
    let shortcut = ui.ctx().format_shortcut(&MEASURE);
    let button = ui.add_enabled(why_not.is_none(), button);
    if first(memory, button)
        .on_hover_text(format!(
            "Find and measure the pores in the area ({shortcut})"
        ))
        .clicked()
    {
        out.push(Wish::Do(Command::Measure));
    }
    if let Some(why) = why_not {
        explain(ui, why);
    }
}

/// What the lines on the photo mean.
fn legend(ui: &mut Ui, readout: &Readout) {
    if let Some(why) = readout.why_no_outlines {
        explain(ui, why);
    }
    for (number, colour, dashed, text) in [
        (readout.counted, on_photo::COUNTED, false, "counted"),
        (
            readout.uncounted,
            on_photo::UNCOUNTED,
            true,
            "not counted: at the edge, or no pore",
        ),
    ] {
        if number == 0 {
            continue;
        }
        ui.horizontal(|ui| {
            let (rect, _) = ui.allocate_exact_size(vec2(30.0, 16.0), Sense::hover());
            let ends = [rect.left_center(), rect.right_center()];
            let painter = ui.painter();
            painter.line_segment(ends, Stroke::new(4.0, on_photo::CASING));
            let stroke = Stroke::new(2.2, colour);
            if dashed {
                painter.extend(Shape::dashed_line(&ends, stroke, 5.0, 4.0));
            } else {
                painter.line_segment(ends, stroke);
            }
            ui.add(egui::Label::new(theme::quiet(ui, format!("{number} {text}"))).wrap());
        });
    }
}
