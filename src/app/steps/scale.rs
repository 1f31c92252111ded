//! Scale: two points a known length apart, or pixels per millimetre typed in.

use super::{complaint, explain, next};
use crate::app::theme;
use crate::app::{Memory, Wish};
use crate::session::{Command, ScaleStanding, ScaleWay, Session, Step};
use egui::{TextEdit, Ui, vec2};

/// The step's controls.
pub(crate) fn show(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    if session.document().photo.is_none() {
        explain(ui, "Open a photo first.");
        return;
    }
    let scale = &session.document().scale;
    for (way, text) in [
        (ScaleWay::Points, "Two points on the photo"),
        (ScaleWay::Typed, "Type pixels per millimetre"),
    ] {
        if ui.radio(scale.way == way, text).clicked() {
            out.push(Wish::Do(Command::UseScaleWay(way)));
        }
    }
    match scale.way {
        ScaleWay::Points => points(ui, session, memory, out),
        ScaleWay::Typed => {
            field(
                ui,
                "Pixels per millimetre",
                "such as 85.2",
                &scale.px_per_mm,
                false,
                |text| {
                    out.push(Wish::Do(Command::TypePxPerMm(text)));
                },
            );
        }
    }
    match scale.standing() {
        ScaleStanding::Wrong(why) => complaint(ui, &why),
        ScaleStanding::Set(_) if scale.way == ScaleWay::Points => explain(
            ui,
            "± is the standard uncertainty: each end can be placed to about one pixel. A longer \
             line makes it smaller.",
        ),
        ScaleStanding::Set(_) => explain(ui, "Taken as exact."),
        ScaleStanding::Needs(_) => {}
    }
    next(ui, session, Step::Scale, out);
}

fn points(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let scale = &session.document().scale;
    let focus = memory.canvas.takes_length_now();
    if scale.missing_end().is_some() {
        explain(
            ui,
            "Zoom in with the wheel and click each end. The ends can be moved afterwards.",
        );
    }
    if scale.first.is_some() {
        field(
            ui,
            "Length between the ends",
            "such as 5 mm",
            &scale.length,
            focus,
            |text| {
                out.push(Wish::Do(Command::TypeLength(text)));
            },
        );
        if ui.button("Set the ends again").clicked() {
            out.push(Wish::Do(Command::ClearScaleLine));
        }
    }
}

fn field(
    ui: &mut Ui,
    name: &str,
    hint: &'static str,
    typed: &str,
    focus: bool,
    mut changed: impl FnMut(String),
) {
    let label = ui.label(theme::quiet(ui, name));
    let mut text = typed.to_owned();
    let response = ui
        .add(
            TextEdit::singleline(&mut text)
                .id_salt(name)
                .hint_text(hint)
                .desired_width(150.0)
                .min_size(vec2(0.0, theme::PRESS_HEIGHT))
                .align(egui::Align2::LEFT_CENTER),
        )
        .labelled_by(label.id);
    if focus {
        response.request_focus();
    }
    if response.changed() {
        changed(text);
    }
}
