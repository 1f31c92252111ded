//! Scale: two points a known length apart, or pixels per millimetre typed in.

use super::{complaint, explain, first, next};
use crate::app::theme::{self, palette};
use crate::app::{Memory, Wish};
use crate::session::{Command, ScaleStanding, ScaleWay, Session, Step, is_coarse};
use egui::{Key, Response, RichText, TextEdit, Ui, vec2};

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
        let radio = ui.radio(scale.way == way, text);
        if first(memory, radio).clicked() {
            out.push(Wish::Do(Command::UseScaleWay(way)));
        }
    }
    match scale.way {
        ScaleWay::Points => points(ui, session, memory, out),
        ScaleWay::Typed => {
            let name = "Pixels per millimetre";
            let typed = field(ui, name, "such as 85.2", &scale.px_per_mm, false);
            typed.tell(session, Command::TypePxPerMm, out);
        }
    }
    match scale.standing() {
        ScaleStanding::Wrong(why) => complaint(ui, &why),
        ScaleStanding::Set(_) if scale.way == ScaleWay::Points => explain(
            ui,
            "± is the standard uncertainty: each end is placed to about one pixel of the photo, \
             or of the screen where that is coarser. A longer line makes it smaller.",
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
            "Zoom in with the wheel and click each end; move the ends afterwards. By keyboard: P, \
             arrow keys, Enter.",
        );
        let px = memory.canvas.px_per_screen_px(ui.ctx());
        if is_coarse(px) {
            let here = format!("A pixel of the screen covers {px:.0} px of the photo: ");
            caution(ui, &format!("{here}zoom in for a surer scale."));
        }
    } else if scale.was_set_coarsely() {
        caution(
            ui,
            "The ends were set on a small picture: zoom in for a surer scale, and move them.",
        );
    }
    if scale.first.is_some() {
        let name = "Length between the ends";
        let typed = field(ui, name, "such as 5 mm", &scale.length, focus);
        typed.tell(session, Command::TypeLength, out);
        if ui.button("Set the ends again").clicked() {
            out.push(Wish::Do(Command::ClearScaleLine));
        }
    }
}

fn caution(ui: &mut Ui, text: &str) {
    ui.label(RichText::new(text).color(palette(ui).caution));
}

/// What happened in a field.
struct Typed {
    field: Response,
    text: Option<String>,
    entered: bool,
}

impl Typed {
    /// Passes on what was typed; Enter leads to the next step once there is a scale.
    fn tell(self, session: &Session, command: fn(String) -> Command, out: &mut Vec<Wish>) {
        if let Some(text) = self.text {
            out.push(Wish::Do(command(text)));
        }
        if self.entered {
            match (session.document().scale.scale(), Step::Scale.next()) {
                (Some(_), Some(next)) => out.push(Wish::Go(next)),
                _ => self.field.request_focus(),
            }
        }
    }
}

fn field(ui: &mut Ui, name: &str, hint: &'static str, typed: &str, focus: bool) -> Typed {
    let label = ui.label(theme::quiet(ui, name));
    let mut text = typed.to_owned();
    let field = ui
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
        field.request_focus();
    }
    Typed {
        text: field.changed().then_some(text),
        entered: field.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter)),
        field,
    }
}
