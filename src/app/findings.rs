//! The findings on the right, in words and digits the session prepared.

use super::Wish;
use super::charts;
use super::theme::{self, palette};
use crate::findings::budget::Source;
use crate::findings::{Note, Severity};
use crate::geometry::Rect;
use crate::session::readout::{Headline, Part, Parts, Row};
use crate::session::{Results, Session, Work};
use egui::{
    Align, CollapsingHeader, Frame, Label, Layout, Margin, Panel, RichText, ScrollArea, Sense,
    Stroke, Ui, WidgetInfo, pos2, vec2,
};

/// Height of a bar of an uncertainty, points.
const PARTS: f32 = 10.0;

/// Stands under the findings at all times.
const CAUTION: &str = "A measurement agrees with or speaks against published figures; it does not \
                       name a species. Never eat or dose on the strength of it; ask an expert.";

/// Shows the findings.
pub(crate) fn show(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    caution(ui);
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        Frame::NONE
            .inner_margin(Margin::same(theme::MARGIN))
            .show(ui, |ui| {
                ui.set_width(ui.available_width());
                ui.heading("Findings");
                match session.results() {
                    None => nothing_yet(ui, session),
                    Some(results) => {
                        let outdated = session.outdated();
                        if let Some(why) = outdated {
                            ui.label(theme::bold(why).color(palette(ui).caution));
                        }
                        ui.scope(|ui| {
                            if outdated.is_some() {
                                ui.set_opacity(0.55);
                            }
                            readout(ui, session, results, out);
                        });
                    }
                }
            });
        theme::follow_focus(ui);
    });
}

/// The caution that stands wherever names or figures do, along the lower edge.
pub(crate) fn caution(ui: &mut Ui) {
    Panel::bottom("caution")
        .resizable(false)
        .show_separator_line(false)
        .frame(
            Frame::NONE
                .fill(palette(ui).rail)
                .inner_margin(Margin::same(theme::MARGIN)),
        )
        .show(ui, |ui| {
            ui.label(
                RichText::new(CAUTION)
                    .size(theme::SMALL)
                    .color(palette(ui).caution),
            );
        });
}

fn nothing_yet(ui: &mut Ui, session: &Session) {
    let text = match session.work() {
        Work::Measuring(_) => "Measuring. The findings will stand here.",
        _ => {
            "Once the photo is measured, this is where you read what kind of surface it is, how \
             many pores there are per mm, how wide they are, how sure each figure is, and what \
             to watch out for."
        }
    };
    if let Some(note) = session.warning() {
        notes(ui, [(&note, None)], &mut Vec::new());
    }
    ui.label(RichText::new(text).color(palette(ui).quiet));
}

fn readout(ui: &mut Ui, session: &Session, results: &Results, out: &mut Vec<Wish>) {
    let readout = &results.readout;
    ui.label(
        RichText::new(format!("{} surface, {}", readout.surface, readout.sureness))
            .color(palette(ui).quiet),
    )
    .on_hover_text("How sure the kind of surface is, from 0 to 1; the reasons stand below");
    if let Some(headline) = &readout.headline {
        headline_ui(ui, headline);
    } else if readout.withheld {
        ui.label(theme::bold("The figures are withheld; the notes say why").size(16.0));
    } else {
        ui.label(theme::bold("No count on this kind of surface").size(16.0));
    }
    notes(ui, results.notes(), out);
    if !readout.reasons.is_empty() {
        section(ui, &format!("Why {}", readout.surface.to_lowercase()));
        for reason in &readout.reasons {
            ui.horizontal_top(|ui| {
                ui.label("–");
                ui.add(Label::new(reason.as_str()).wrap());
            });
        }
        if let Some(network) = &results.network {
            charts::network(ui, network);
        }
    }
    section(ui, "Figures");
    for row in &readout.rows {
        row_ui(ui, row);
    }
    ui.horizontal_wrapped(|ui| {
        let text = ui.add(theme::small_button("Copy as text"));
        if text.on_hover_text("Copies all findings in words").clicked() {
            ui.copy_text(results.as_text());
        }
        let table = ui.add(theme::small_button("Copy as table"));
        if table
            .on_hover_text("Copies the figures, to be pasted into a spreadsheet")
            .clicked()
        {
            ui.copy_text(readout.as_table());
        }
    });
    meanings(ui, &readout.rows);
    if !readout.uncertainty.is_empty() {
        section(ui, "What the uncertainty is made of");
        for parts in &readout.uncertainty {
            parts_ui(ui, parts);
        }
    }
    if let Some(sentence) = &readout.main_uncertainty {
        ui.add(Label::new(sentence.as_str()).wrap());
    }
    charts::show(ui, session, results, out);
}

fn section(ui: &mut Ui, title: &str) {
    ui.add_space(8.0);
    ui.label(theme::bold(title));
}

fn headline_ui(ui: &mut Ui, headline: &Headline) {
    Frame::NONE
        .fill(palette(ui).accent_soft)
        .corner_radius(theme::CORNER)
        .inner_margin(Margin::symmetric(12, 10))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 3.0;
            let large = |text: &str| Label::new(theme::bold(text).size(theme::PHRASE)).wrap();
            if let Some(handbook) = &headline.handbook {
                ui.add(large(&handbook.text));
                let copy = ui.add(theme::small_button("Copy"));
                if copy
                    .on_hover_text("Copies the phrase")
                    .accessible_name("Copy the phrase")
                    .clicked()
                {
                    ui.copy_text(handbook.text.clone());
                }
                ui.label(theme::quiet(ui, handbook.meaning));
                ui.add_space(6.0);
                ui.label(theme::bold(&headline.figure).size(16.0));
            } else {
                ui.add(large(&headline.figure));
            }
            ui.label(format!("95 % interval {}", headline.interval));
            ui.add_space(2.0);
            ui.label(theme::quiet(ui, &headline.sentence));
        });
}

/// What every figure means, for whoever unfolds it.
fn meanings(ui: &mut Ui, rows: &[Row]) {
    ui.add_space(2.0);
    CollapsingHeader::new("What do these mean?")
        .default_open(false)
        .show_unindented(ui, |ui| {
            for row in rows {
                ui.add(Label::new(theme::bold(row.name).size(theme::SMALL)).wrap());
                ui.add(Label::new(theme::quiet(ui, row.meaning)).wrap());
            }
        });
}

/// Name on the left, figure and range on the right; the meaning on hovering.
fn row_ui(ui: &mut Ui, row: &Row) {
    let response = ui
        .scope(|ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            ui.columns(2, |columns| {
                if let [left, right] = columns {
                    let name = RichText::new(row.name).color(palette(left).quiet);
                    column(left, |ui| {
                        ui.add(Label::new(name).wrap());
                    });
                    column(right, |ui| {
                        ui.add(Label::new(theme::bold(&row.figure)).wrap());
                        if !row.range.is_empty() {
                            ui.add(Label::new(theme::quiet(ui, &row.range)).wrap());
                        }
                    });
                }
            });
        })
        .response;
    response.on_hover_text(row.meaning);
}

/// The figure, a bar in three tones, and below it the parts in words in the order of the bar.
fn parts_ui(ui: &mut Ui, parts: &Parts) {
    let palette = palette(ui);
    let words: Vec<String> = parts.parts.iter().map(Part::words).collect();
    let words = words.join(", ");
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = 3.0;
        ui.horizontal(|ui| {
            ui.label(RichText::new(&parts.name).color(palette.quiet));
            ui.label(theme::bold(&parts.half_width));
        });
        let size = vec2(ui.available_width(), PARTS);
        let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
        response.widget_info(|| {
            let label = format!("Parts of the uncertainty of {}: {words}", parts.name);
            WidgetInfo::labeled(egui::Role::Image, true, label)
        });
        let mut left = rect.left();
        for part in &parts.parts {
            let right = left + rect.width() * part.share;
            // A gap of a point, so that blocks are told apart without their colours.
            let block = egui::Rect::from_min_max(
                pos2(left, rect.top()),
                pos2((right - 1.0).max(left), rect.bottom()),
            );
            let colour = match part.source {
                Source::Sampling => palette.accent,
                Source::Scale => palette.quiet,
                Source::Outline => palette.caution,
            };
            ui.painter().rect_filled(block, 0.0, colour);
            left = right;
        }
        ui.add(Label::new(theme::quiet(ui, words.as_str())).wrap());
    });
}

/// Lines that begin at the left, and are not stretched to the right.
fn column(ui: &mut Ui, contents: impl FnOnce(&mut Ui)) {
    ui.with_layout(Layout::top_down(Align::LEFT), contents);
}

fn notes<'a>(
    ui: &mut Ui,
    notes: impl IntoIterator<Item = (&'a Note, Option<Rect>)>,
    out: &mut Vec<Wish>,
) {
    for (note, place) in notes {
        let palette = palette(ui);
        let (word, colour) = match note.severity {
            Severity::Stop => ("Withheld", palette.trouble),
            Severity::Caution => ("Caution", palette.caution),
            Severity::Info => ("Good to know", palette.quiet),
        };
        Frame::NONE
            .stroke(Stroke::new(1.0, colour))
            .corner_radius(theme::CORNER)
            .inner_margin(Margin::symmetric(10, 7))
            .show(ui, |ui| {
                ui.set_width(ui.available_width());
                ui.spacing_mut().item_spacing.y = 2.0;
                ui.label(theme::bold(word).color(colour));
                ui.add(Label::new(note.text.as_str()).wrap());
                if let Some(place) = place
                    && ui
                        .add(theme::small_button("Show me"))
                        .on_hover_text("Shows on the photo where this is seen best")
                        .clicked()
                {
                    out.push(Wish::ShowPlace(place));
                }
            });
    }
}
