//! Corrections and picked pores as they are drawn on the photo, and the figures beside the pointer.

use super::overlay::Pencil;
use crate::app::theme::{self, on_photo};
use crate::corrections::{Correction, Kind};
use crate::session::{PoreCard, Session};
use egui::{Color32, Grid, Stroke, Ui, vec2};

/// Every correction where it was made. The one that the list points at bears its number.
pub(crate) fn paint(pencil: &Pencil<'_>, session: &Session, pointed_at: Option<usize>) {
    let by_hand = &session.document().corrections.by_hand;
    for (at, correction) in by_hand.iter().enumerate() {
        mark(pencil, correction);
        if pointed_at == Some(at)
            && let Some(place) = correction.places().first()
        {
            pencil.target(*place, on_photo::SCALE);
            pencil.words(*place, &(at + 1).to_string());
        }
    }
}

fn mark(pencil: &Pencil<'_>, correction: &Correction) {
    let places = correction.places();
    match correction.kind() {
        Kind::Join => {
            pencil.line(places, on_photo::BY_HAND, false);
            for place in places {
                pencil.dot(*place, on_photo::BY_HAND);
            }
        }
        Kind::Split => pencil.line(places, on_photo::BY_HAND, true),
        Kind::Delete => pencil.cross(places[0], on_photo::BY_HAND),
        Kind::Add => pencil.dot(places[0], on_photo::BY_HAND),
        Kind::Draw => {
            let mut outline = places.to_vec();
            outline.extend(places.first());
            pencil.line(&outline, on_photo::BY_HAND, true);
        }
    }
}

/// Selected pores with a thick white line and a square in the middle; the one pointed at with a thick line
/// of its own colour.
pub(crate) fn paint_picked(pencil: &Pencil<'_>, session: &Session) {
    let Some(results) = session.results() else {
        return;
    };
    let regions = &results.measurement.regions;
    let outline = |at: usize, width: f32, colour: Color32| {
        if let Some(region) = regions.get(at) {
            pencil.closed(&region.outline, Stroke::new(width, colour));
        }
    };
    if let Some(at) = session.pointed_at() {
        let colour = match regions.get(at) {
            Some(region) if region.counted => on_photo::COUNTED,
            _ => on_photo::UNCOUNTED,
        };
        outline(at, 3.2, colour);
    }
    for &at in session.selected() {
        outline(at, 2.4, on_photo::AREA);
        if let Some(region) = regions.get(at) {
            pencil.corner(region.centroid());
        }
    }
}

/// A pore's figures, one line each.
pub(crate) fn card(ui: &mut Ui, card: &PoreCard) {
    ui.spacing_mut().item_spacing = vec2(10.0, 2.0);
    ui.spacing_mut().interact_size.y = 0.0;
    ui.label(theme::bold(card.name.as_str()));
    Grid::new("pore").num_columns(2).show(ui, |ui| {
        for (name, figure) in &card.rows {
            ui.label(theme::quiet(ui, *name));
            ui.label(figure);
            ui.end_row();
        }
    });
    ui.label(theme::quiet(ui, card.standing.as_str()));
}
