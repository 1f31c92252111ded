//! The controls of each step.

pub(crate) mod area;
pub(crate) mod photo;
pub(crate) mod pores;
pub(crate) mod record;
pub(crate) mod scale;

use super::Wish;
use super::theme::{self, palette};
use crate::session::{Session, Step, StepStanding};
use egui::Ui;

/// An error message under the field it belongs to.
fn complaint(ui: &mut Ui, text: &str) {
    ui.label(egui::RichText::new(text).color(palette(ui).trouble));
}

/// A word of explanation.
fn explain(ui: &mut Ui, text: &str) {
    ui.label(theme::quiet(ui, text));
}

/// The button that leads on, once a step is done.
fn next(ui: &mut Ui, session: &Session, step: Step, out: &mut Vec<Wish>) {
    if let Some(next) = step.next()
        && session.step(step).standing == StepStanding::Done
    {
        ui.add_space(2.0);
        let text = format!("Next: {}", next.name().to_lowercase());
        if ui.add(theme::primary_button(ui, &text)).clicked() {
            out.push(Wish::Go(next));
        }
    }
}
