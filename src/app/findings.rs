//! The findings on the right, in words and digits the session prepared.

use super::Wish;
use super::charts;
use super::explained;
use super::terms;
use super::theme::{self, palette};
use crate::findings::budget::Source;
use crate::findings::{Note, Severity};
use crate::geometry::Rect;
use crate::session::readout::{Headline, Part, Parts, Row};
use crate::session::{Results, Session, Work};
use crate::wording::text;
use egui::{
    Align, CollapsingHeader, Frame, Label, Layout, Margin, Panel, RichText, ScrollArea, Sense,
    Stroke, Ui, WidgetInfo, pos2, vec2,
};

/// Height of a bar of an uncertainty, points.
const PARTS: f32 = 10.0;

/// Shows the findings.
pub(crate) fn show(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    caution(ui);
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        Frame::NONE
            .inner_margin(Margin::same(theme::MARGIN))
            .show(ui, |ui| {
                ui.set_width(ui.available_width());
                ui.heading(text!("findings"));
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
                RichText::new(text!("a-measurement-agrees-with-or-speaks"))
                    .size(theme::SMALL)
                    .color(palette(ui).caution),
            );
        });
}

fn nothing_yet(ui: &mut Ui, session: &Session) {
    let text = match session.work() {
        Work::Measuring(_) => text!("measuring-the-findings-will-stand-here"),
        _ => {
            text!("once-the-photo-is-measured-this")
        }
    };
    if let Some(note) = session.warning() {
        notes(ui, [(&note, None)], &mut Vec::new());
    }
    ui.label(RichText::new(text).color(palette(ui).quiet));
}

fn readout(ui: &mut Ui, session: &Session, results: &Results, out: &mut Vec<Wish>) {
    let readout = &results.readout;
    let kind = text!(
        "surface-and-sureness",
        surface = readout.surface,
        sureness = readout.sureness
    );
    let kind = RichText::new(kind).color(palette(ui).quiet);
    let sureness = text!("how-sure-the-kind-of-surface");
    let kinds = terms::meaning(terms::KINDS).unwrap_or_default();
    explained::label(ui, kind, &format!("{sureness}\n\n{kinds}"));
    if let Some(headline) = &readout.headline {
        headline_ui(ui, headline);
    } else if readout.withheld {
        ui.label(theme::bold(text!("the-figures-are-withheld-the-notes")).size(16.0));
    } else {
        ui.label(theme::bold(text!("no-count-on-this-kind-of")).size(16.0));
    }
    notes(ui, results.notes(), out);
    if !readout.reasons.is_empty() {
        section(
            ui,
            &text!("why-this-kind", kind = readout.surface.to_lowercase()),
        );
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
    section(ui, text!("figures"));
    for row in &readout.rows {
        row_ui(ui, row);
    }
    ui.horizontal_wrapped(|ui| {
        let text = ui.add(theme::small_button(text!("copy-as-text")));
        if text
            .on_hover_text(text!("copies-all-findings-in-words"))
            .clicked()
        {
            ui.copy_text(results.as_text());
        }
        let table = ui.add(theme::small_button(text!("copy-as-table")));
        if table
            .on_hover_text(text!("copies-the-figures-to-be-pasted"))
            .clicked()
        {
            ui.copy_text(readout.as_table());
        }
    });
    meanings(ui, &readout.rows);
    if !readout.uncertainty.is_empty() {
        section(ui, text!("what-the-uncertainty-is-made-of"));
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
            let large = |text: &str| theme::bold(text).size(theme::PHRASE);
            let meaning = |word| terms::meaning(word).unwrap_or_default();
            if let Some(handbook) = &headline.handbook {
                explained::label(ui, large(&handbook.text), meaning(terms::PHRASE));
                let copy = ui.add(theme::small_button(text!("copy")));
                if copy
                    .on_hover_text(text!("copies-the-phrase"))
                    .accessible_name(text!("copy-the-phrase"))
                    .clicked()
                {
                    ui.copy_text(handbook.text.clone());
                }
                ui.label(theme::quiet(ui, handbook.meaning));
                ui.add_space(6.0);
                let figure = theme::bold(&headline.figure).size(16.0);
                explained::label(ui, figure, meaning(terms::PORES_PER_MM));
            } else {
                ui.add(Label::new(large(&headline.figure)).wrap());
            }
            let interval = text!("within-interval", interval = headline.interval);
            explained::label(ui, interval, meaning(terms::INTERVAL));
            ui.add_space(2.0);
            ui.label(theme::quiet(ui, &headline.sentence));
        });
}

/// What every figure means, for whoever unfolds it.
fn meanings(ui: &mut Ui, rows: &[Row]) {
    ui.add_space(2.0);
    CollapsingHeader::new(text!("what-do-these-mean"))
        .default_open(false)
        .show_unindented(ui, |ui| {
            for row in rows {
                ui.add(Label::new(theme::bold(row.name).size(theme::SMALL)).wrap());
                ui.add(Label::new(theme::quiet(ui, row.meaning)).wrap());
            }
        });
}

/// Name on the left, figure and range on the right; the meaning under the pointer, or while the name
/// has the keyboard.
fn row_ui(ui: &mut Ui, row: &Row) {
    let told = terms::told(row.name, row.meaning);
    let mut name_is_pointed_at = false;
    let response = ui
        .scope(|ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            ui.columns(2, |columns| {
                if let [left, right] = columns {
                    let name = RichText::new(row.name).color(palette(left).quiet);
                    column(left, |ui| {
                        let name = explained::label(ui, name, &told);
                        name_is_pointed_at = name.contains_pointer();
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
    if !name_is_pointed_at {
        response.on_hover_text(told);
    }
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
            let label = text!(
                "parts-of-the-uncertainty-of",
                figure = parts.name,
                parts = words
            );
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
            Severity::Stop => (text!("withheld"), palette.trouble),
            Severity::Caution => (text!("caution"), palette.caution),
            Severity::Info => (text!("good-to-know"), palette.quiet),
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
                        .add(theme::small_button(text!("show-me")))
                        .on_hover_text(text!("shows-on-the-photo-where-this"))
                        .clicked()
                {
                    out.push(Wish::ShowPlace(place));
                }
            });
    }
}
