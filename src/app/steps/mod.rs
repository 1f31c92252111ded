//! The controls of each step.

pub(crate) mod area;
pub(crate) mod files;
mod folder;
pub(crate) mod photo;
pub(crate) mod pores;
pub(crate) mod record;
pub(crate) mod scale;

use super::theme::{self, palette};
use super::{KeyboardTo, Memory, Wish};
use crate::session::{Session, Step, StepStanding};
use crate::wording::{self, text};
use egui::{Response, Ui};

/// An error message under the field it belongs to.
fn complaint(ui: &mut Ui, text: &str) {
    ui.label(egui::RichText::new(text).color(palette(ui).trouble));
}

/// A word of explanation.
fn explain(ui: &mut Ui, text: &str) {
    ui.label(theme::quiet(ui, text));
}

/// The first control of a step: it gets the keyboard when the step opens.
fn first(memory: &mut Memory, control: Response) -> Response {
    if memory
        .keyboard_to
        .take_if(|to| *to == KeyboardTo::FirstControl)
        .is_some()
    {
        control.request_focus();
    }
    control
}

/// The button that leads on, once a step is done.
fn next(ui: &mut Ui, session: &Session, step: Step, out: &mut Vec<Wish>) {
    if let Some(next) = step.next()
        && session.step(step).standing == StepStanding::Done
    {
        ui.add_space(2.0);
        let text = text!("next-step", step = wording::mid_sentence(next.name()));
        if ui.add(theme::primary_button(ui, &text)).clicked() {
            out.push(Wish::Go(next));
        }
    }
}
