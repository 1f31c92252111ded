//! What the findings agree with.

use super::empty;
use crate::app::theme::{self, palette};
use crate::ranges::{Agreement, CAUTIONS};
use crate::session::Session;
use crate::session::record::{Next, Taxon};
use crate::wording::{self, text};
use egui::{Frame, Label, Margin, RichText, Stroke, Ui};

/// Widest a line of text gets, points.
const WIDEST: f32 = 760.0;

pub(super) fn show(ui: &mut Ui, session: &Session) {
    ui.set_max_width(WIDEST.min(ui.available_width()));
    let comparison = session.record().comparison();
    if comparison.taxa.is_empty() {
        empty(
            ui,
            text!("nothing-to-compare-yet"),
            text!("measure-a-photo-or-pick-a"),
        );
        return;
    }
    ui.heading(text!("what-agrees-with-it-and-what"));
    ui.add(Label::new(&comparison.of).wrap());
    cautions(ui);
    if let Some(next) = &comparison.next {
        look_next(ui, next);
    }
    for taxon in &comparison.taxa {
        one(ui, taxon);
    }
    if comparison.more > 0 {
        ui.label(theme::quiet(
            ui,
            text!("more-taxa-agree-in-less", count = comparison.more),
        ));
    }
}

/// They stand above the names, where nobody can miss them.
fn cautions(ui: &mut Ui) {
    framed(ui, palette(ui).caution, |ui| {
        let text = CAUTIONS.replace('\n', " ");
        let text = text!("several-taxa-can-agree", cautions = text);
        let caution = RichText::new(text)
            .size(theme::SMALL)
            .color(palette(ui).caution);
        ui.add(Label::new(caution).wrap());
    });
}

fn look_next(ui: &mut Ui, next: &Next) {
    framed(ui, palette(ui).accent, |ui| {
        let [first, second] = &next.taxa;
        let title = text!("to-tell-two-apart", first = first, second = second);
        ui.add(Label::new(theme::bold(title)).wrap());
        for look in &next.looks {
            bullet(ui, look);
        }
        if next.looks.is_empty() {
            ui.label(text!("the-table-says-the-same-of"));
        }
    });
}

fn one(ui: &mut Ui, taxon: &Taxon) {
    framed(ui, palette(ui).line, |ui| {
        ui.horizontal_wrapped(|ui| {
            ui.label(theme::bold(&taxon.name).size(15.0));
            ui.label(theme::quiet(ui, &taxon.tally));
        });
        for character in &taxon.characters {
            let palette = palette(ui);
            let colour = match character.agreement {
                Agreement::Agrees => palette.accent,
                Agreement::Near => palette.quiet,
                Agreement::SpeaksAgainst => palette.trouble,
            };
            ui.horizontal_wrapped(|ui| {
                ui.label(theme::bold(wording::word(character.agreement.label())).color(colour));
                ui.label(text!(
                    "character-as-seen",
                    character = character.label,
                    seen = character.seen
                ));
            });
            for printed in &character.printed {
                ui.indent(printed, |ui| {
                    ui.add(
                        Label::new(theme::quiet(ui, text!("as-printed", range = printed))).wrap(),
                    );
                });
            }
        }
    });
}

fn bullet(ui: &mut Ui, text: &str) {
    ui.horizontal_top(|ui| {
        ui.label("–");
        ui.add(Label::new(text).wrap());
    });
}

fn framed(ui: &mut Ui, edge: egui::Color32, contents: impl FnOnce(&mut Ui)) {
    Frame::NONE
        .stroke(Stroke::new(1.0, edge))
        .corner_radius(theme::CORNER)
        .inner_margin(Margin::symmetric(12, 8))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 3.0;
            // Nothing here is pressed, so lines can stand close.
            ui.spacing_mut().interact_size.y = 18.0;
            contents(ui);
        });
}
