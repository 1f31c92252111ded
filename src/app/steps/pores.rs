//! Pores: measure, look at what was found, and correct it.

use super::{explain, first, next};
use crate::app::canvas::{self, PoreTool};
use crate::app::keys::MEASURE;
use crate::app::theme::{self, on_photo, palette};
use crate::app::{Memory, Wish};
use crate::corrections::{Kind, LeastWall};
use crate::progress::Stage;
use crate::session::{Command, Readout, Session, Step, Work};
use egui::{
    Button, Frame, Key, Margin, ProgressBar, RichText, ScrollArea, Sense, Shape, Slider, Stroke,
    Ui, vec2,
};

/// Height of the list of corrections at most, points.
const LIST: f32 = 132.0;

/// What is done to pores, its name, and what it means.
const TOOLS: [(PoreTool, &str, &str); 6] = [
    (
        PoreTool::Select,
        "Select",
        "Click a pore to see its figures and to work on it; with Ctrl one more",
    ),
    (
        PoreTool::Correct(Kind::Add),
        "Add",
        "Click a hollow that was not seen: what is dark about that place becomes a pore",
    ),
    (
        PoreTool::Correct(Kind::Draw),
        "Draw",
        "Drag once around a pore, or click its outline corner by corner",
    ),
    (
        PoreTool::Correct(Kind::Split),
        "Split",
        "Drag a stroke right across a pore that is two",
    ),
    (
        PoreTool::Correct(Kind::Join),
        "Join",
        "Drag from one pore to a neighbour that is part of it",
    ),
    (
        PoreTool::Correct(Kind::Delete),
        "Delete",
        "Click what was taken for a pore and is none",
    ),
];

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
        if results.takes_corrections() || !session.document().corrections.is_empty() {
            correcting(ui, session, memory, out);
        }
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
    let current =
        session.results().is_some() && (session.outdated().is_none() || session.is_correcting());
    let button = if current {
        Button::new("Measure again")
    } else if why_not.is_some() {
        Button::new("Measure")
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

/// Everything by which outlines are corrected.
fn correcting(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    walls(ui, session, out);
    explain(ui, "Correct by hand");
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
        for (tool, text, meaning) in TOOLS {
            let chosen = memory.canvas.pore_tool() == tool;
            let button = ui.add(Button::selectable(chosen, text).frame_when_inactive(true));
            if button.on_hover_text(meaning).clicked() {
                memory.canvas.take_pore_tool(tool);
            }
        }
    });
    explain(ui, "By keyboard: P, arrow keys, Enter at each place.");
    selected(ui, session, out);
    list(ui, session, memory, out);
    if session.is_correcting() {
        ui.horizontal(|ui| {
            ui.spinner();
            explain(ui, "Working the corrections in …");
        });
    }
}

/// How faint a wall still parts two pores.
fn walls(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    let set = session.document().corrections.least_wall;
    let mut multiple = set.multiple();
    let [faintest, highest] = LeastWall::RANGE;
    let label = ui.label("Walls that part pores");
    ui.horizontal(|ui| {
        ui.spacing_mut().slider_width = (ui.available_width() - 64.0).clamp(80.0, 160.0);
        let slider = Slider::new(&mut multiple, faintest..=highest)
            .logarithmic(true)
            .step_by(0.01)
            .show_value(false);
        let slider = ui
            .add(slider)
            .labelled_by(label.id)
            .on_hover_text("Left: faint walls part pores too. Right: only high walls do");
        if slider.changed()
            && let Ok(least_wall) = LeastWall::new(multiple)
        {
            out.push(Wish::Do(Command::SetLeastWall(least_wall)));
            if !slider.dragged() {
                out.push(Wish::Do(Command::EndAct));
            }
        }
        let usual = ui.add_enabled(!set.is_usual(), Button::new("Usual"));
        if usual
            .on_hover_text("Take walls as usual; accuracy was proved for that only")
            .clicked()
        {
            out.push(Wish::Do(Command::SetLeastWall(LeastWall::USUAL)));
            out.push(Wish::Do(Command::EndAct));
        }
    });
    let words = if set.is_usual() {
        "As usual".to_owned()
    } else {
        format!("From {} times the usual height on", set.multiple())
    };
    explain(ui, &words);
}

/// What is selected: the figures of one pore, or the number of several, and what can be done to them.
fn selected(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    let selected = session.selected();
    let Some(&first) = selected.first() else {
        return;
    };
    let by_key = ui.is_enabled()
        && !ui.ctx().text_edit_focused()
        && ui.input(|input| input.key_pressed(Key::Delete));
    Frame::NONE
        .stroke(Stroke::new(1.0, palette(ui).line))
        .corner_radius(theme::CORNER)
        .inner_margin(Margin::symmetric(10, 7))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 4.0;
            match session.pore_card(first) {
                Some(card) if selected.len() == 1 => canvas::card(ui, &card),
                _ => {
                    ui.label(theme::bold(format!("{} selected", selected.len())));
                }
            }
            ui.horizontal_wrapped(|ui| {
                let delete = ui
                    .button("Delete selected")
                    .on_hover_text("There is no pore here (Delete)");
                if delete.clicked() || by_key {
                    out.push(Wish::Do(Command::DeleteSelected));
                }
                if selected.len() > 1
                    && ui
                        .button("Join selected")
                        .on_hover_text("These are one pore")
                        .clicked()
                {
                    out.push(Wish::Do(Command::JoinSelected));
                }
            });
        });
}

/// Corrections that were made, each with a button to take it away.
fn list(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    memory.canvas.correction = None;
    let labels = session.correction_labels();
    if labels.is_empty() {
        return;
    }
    let count = match labels.len() {
        1 => "1 correction by hand".to_owned(),
        n => format!("{n} corrections by hand"),
    };
    ui.label(theme::bold(count));
    ScrollArea::vertical()
        .id_salt("corrections")
        .max_height(LIST)
        .show(ui, |ui| {
            for (at, (label, had_effect)) in labels.into_iter().enumerate() {
                let row = ui.horizontal(|ui| {
                    let take = ui
                        .button("×")
                        .accessible_name(format!("Take away correction {}", at + 1))
                        .on_hover_text("Take this correction away");
                    if take.clicked() {
                        out.push(Wish::Do(Command::TakeCorrection(at)));
                    }
                    let words = match had_effect {
                        Some(false) => format!("{label}: nothing there to act on"),
                        _ => label,
                    };
                    ui.add(egui::Label::new(theme::quiet(ui, words)).wrap());
                    take.has_focus()
                });
                if row.inner || row.response.contains_pointer() {
                    memory.canvas.correction = Some(at);
                }
            }
        });
    if ui
        .button("Take all away")
        .on_hover_text("Pores as they were found; Undo brings the corrections back")
        .clicked()
    {
        out.push(Wish::Do(Command::ClearCorrections));
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
