//! Pores: measure, look at what was found, and correct it.

use super::{explain, first, next};
use crate::app::actions;
use crate::app::canvas::{self, PoreTool};
use crate::app::theme::{self, on_photo, palette};
use crate::app::{Memory, Wish};
use crate::corrections::{Kind, LeastWall};
use crate::progress::Stage;
use crate::session::{Command, Readout, Session, Step, Work};
use crate::wording::{self, text};
use egui::{
    Button, Frame, Key, Margin, ProgressBar, RichText, ScrollArea, Sense, Shape, Slider, Stroke,
    Ui, vec2,
};

/// Height of the list of corrections at most, points.
const LIST: f32 = 132.0;

/// What is done to pores, its name, and what it means.
const TOOLS: [(PoreTool, &str, &str); 6] = [
    (PoreTool::Select, "select", "click-a-pore-to-see-its"),
    (
        PoreTool::Correct(Kind::Add),
        "add",
        "click-a-hollow-that-was-not-seen",
    ),
    (
        PoreTool::Correct(Kind::Draw),
        "draw",
        "drag-once-around-a-pore-or-click",
    ),
    (
        PoreTool::Correct(Kind::Split),
        "split",
        "drag-a-stroke-right-across-a-pore",
    ),
    (
        PoreTool::Correct(Kind::Join),
        "join",
        "drag-from-one-pore-to-a",
    ),
    (
        PoreTool::Correct(Kind::Delete),
        "take-away",
        "click-what-was-taken-for-a",
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
    let (share, label) = stage.map_or((0.0, text!("starting")), |stage| {
        (stage.share_done(), wording::word(stage.label()))
    });
    ui.add(
        ProgressBar::new(share)
            .desired_height(10.0)
            .fill(palette(ui).accent),
    )
    .accessible_name(label);
    let cancel = ui.button(text!("cancel"));
    if first(memory, cancel).clicked() {
        out.push(Wish::Do(Command::Cancel));
    }
}

fn measure_button(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    if session.document().photo.is_some() && !session.document().area_is_chosen {
        let text = match session.scale_left_out() {
            Some(_) => text!("no-area-is-drawn-the-whole-photo"),
            None => {
                text!("no-area-is-drawn-the-whole")
            }
        };
        ui.label(RichText::new(text).color(palette(ui).caution));
    }
    let why_not = session.why_not_measure();
    let current =
        session.results().is_some() && (session.outdated().is_none() || session.is_correcting());
    let button = if current {
        Button::new(text!("measure-again"))
    } else if why_not.is_some() {
        Button::new(text!("measure"))
    } else {
        theme::primary_button(ui, text!("measure"))
    };
    let shortcut = actions::keys_of(ui.ctx(), "do-measure");
    let button = ui.add_enabled(why_not.is_none(), button);
    if first(memory, button)
        .on_hover_text(text!("find-and-measure-the-pores-in", shortcut = shortcut))
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
    explain(ui, text!("correct-by-hand"));
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
        for (tool, name, meaning) in TOOLS {
            let chosen = memory.canvas.pore_tool() == tool;
            let button =
                ui.add(Button::selectable(chosen, wording::said(name)).frame_when_inactive(true));
            if button.on_hover_text(wording::said(meaning)).clicked() {
                memory.canvas.take_pore_tool(tool);
            }
        }
    });
    explain(ui, text!("by-keyboard-p-arrow-keys-enter-at"));
    selected(ui, session, out);
    list(ui, session, memory, out);
    if session.is_correcting() {
        ui.horizontal(|ui| {
            theme::working(ui);
            explain(ui, text!("working-the-corrections-in"));
        });
    }
}

/// How faint a wall still parts two pores.
fn walls(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    let set = session.document().corrections.least_wall;
    let mut multiple = set.multiple();
    let [faintest, highest] = LeastWall::RANGE;
    let label = ui.label(text!("walls-that-part-pores"));
    ui.horizontal(|ui| {
        ui.spacing_mut().slider_width = (ui.available_width() - 64.0).clamp(80.0, 160.0);
        let slider = Slider::new(&mut multiple, faintest..=highest)
            .logarithmic(true)
            .step_by(0.01)
            .show_value(false);
        let slider = ui
            .add(slider)
            .labelled_by(label.id)
            .on_hover_text(text!("left-faint-walls-part-pores-too"));
        if slider.changed()
            && let Ok(least_wall) = LeastWall::new(multiple)
        {
            out.push(Wish::Do(Command::SetLeastWall(least_wall)));
            if !slider.dragged() {
                out.push(Wish::Do(Command::EndAct));
            }
        }
        let usual = ui.add_enabled(!set.is_usual(), Button::new(text!("usual")));
        if usual
            .on_hover_text(text!("take-walls-as-usual-accuracy-was"))
            .clicked()
        {
            out.push(Wish::Do(Command::SetLeastWall(LeastWall::USUAL)));
            out.push(Wish::Do(Command::EndAct));
        }
    });
    let words = if set.is_usual() {
        text!("as-usual").to_owned()
    } else {
        {
            let multiple = wording::digits(set.multiple().to_string());
            text!("walls-from-a-height-on", multiple = multiple)
        }
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
                    ui.label(theme::bold(text!("pores-selected", count = selected.len())));
                }
            }
            ui.horizontal_wrapped(|ui| {
                let delete = ui
                    .button(text!("delete-selected"))
                    .on_hover_text(text!("there-is-no-pore-here-delete"));
                if delete.clicked() || by_key {
                    out.push(Wish::Do(Command::DeleteSelected));
                }
                if selected.len() > 1
                    && ui
                        .button(text!("join-selected"))
                        .on_hover_text(text!("these-are-one-pore"))
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
    let count = text!("corrections-by-hand", count = labels.len());
    ui.label(theme::bold(count));
    ScrollArea::vertical()
        .id_salt("corrections")
        .max_height(LIST)
        .show(ui, |ui| {
            for (at, (label, had_effect)) in labels.into_iter().enumerate() {
                let row = ui.horizontal(|ui| {
                    let take = ui
                        .button("×")
                        .accessible_name(text!("take-away-correction", number = at + 1))
                        .on_hover_text(text!("take-this-correction-away"));
                    if take.clicked() {
                        out.push(Wish::Do(Command::TakeCorrection(at)));
                    }
                    let words = match had_effect {
                        Some(false) => text!("nothing-there-to-act-on", correction = label),
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
        .button(text!("take-all-away"))
        .on_hover_text(text!("pores-as-they-were-found-undo"))
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
        (readout.counted, on_photo::COUNTED, false, text!("counted")),
        (
            readout.uncounted,
            on_photo::UNCOUNTED,
            true,
            text!("not-counted-at-the-edge-or"),
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
