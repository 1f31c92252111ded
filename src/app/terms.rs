//! The trade's words as the window uses them.

use super::Wish;
use super::sheets::Answer;
use super::theme::{self, palette};
use crate::wording::{self, text};
use egui::{Label, Response, RichText, ScrollArea, Ui};

/// Each word and what it means.
pub(crate) const TERMS: [(&str, &str); 16] = [
    ("pore", "the-mouth-of-one-tube-on"),
    ("hollow-void", "what-is-dark-the-inside-of"),
    ("wall-dissepiment", "what-is-bright-the-tissue-between"),
    ("tooth", "a-piece-of-wall-with-hollow"),
    (
        "poroid-toothed-gilled-maze-like-smooth",
        "the-kinds-of-underside-poroid-hollows",
    ),
    ("spacing", "how-far-it-is-from-the"),
    ("pores-per-mm", "how-many-pores-lie-in-a"),
    ("count-line", "a-line-of-one-millimetre-laid"),
    ("handbook-phrase", "per-mm-most-count-lines-hold"),
    ("interval-of-95-per-cent", "the-range-that-is-to-hold"),
    ("diameter", "of-the-circle-that-is-as"),
    ("feret-width", "what-a-calliper-laid-across-the"),
    ("elongation", "how-many-times-as-long-as"),
    ("hollow-share", "which-part-of-the-surface-is"),
    ("voucher", "a-kept-specimen-with-its-record"),
    ("cf-aff", "before-a-species-name-cf-to"),
];

/// Words of the table that the findings are headed by.
pub(crate) const KINDS: &str = "poroid-toothed-gilled-maze-like-smooth";
pub(crate) const PORES_PER_MM: &str = "pores-per-mm";
pub(crate) const PHRASE: &str = "handbook-phrase";
pub(crate) const INTERVAL: &str = "interval-of-95-per-cent";

/// The word of the table that stands behind the name of a figure, where they are not the same.
const BEHIND: [(&str, &str); 4] = [
    ("diameter-nine-in-ten", "diameter"),
    ("hollow-share", "hollow-void"),
    ("spacing-second-opinion", "spacing"),
    ("wall-thickness", "wall-dissepiment"),
];

/// What a word means; `None` where the table does not have it.
pub(crate) fn meaning(word: &str) -> Option<&'static str> {
    let (_, meaning) = TERMS.iter().find(|(term, _)| *term == word)?;
    Some(wording::said(meaning))
}

/// What is told of a figure: what it is, and the word of the trade behind it.
pub(crate) fn told(figure: &str, what: &str) -> String {
    let behind = BEHIND
        .iter()
        .find(|(name, _)| wording::said(name) == figure);
    match behind.and_then(|(_, word)| Some((word, meaning(word)?))) {
        Some((word, meaning)) => format!("{what}\n\n{}: {meaning}", wording::said(word)),
        None => what.to_owned(),
    }
}

/// The sheet; gives back what gets the keyboard.
pub(crate) fn show(ui: &mut Ui, out: &mut Vec<Wish>) -> Response {
    ui.heading(text!("words-of-the-trade"));
    let height = (ui.ctx().content_rect().height() - 200.0).max(180.0);
    ScrollArea::vertical()
        .max_height(height)
        .auto_shrink([false, true])
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 3.0;
            for (term, meaning) in TERMS {
                ui.add(Label::new(theme::bold(wording::said(term))).wrap());
                ui.add(
                    Label::new(RichText::new(wording::said(meaning)).color(palette(ui).text))
                        .wrap(),
                );
                ui.add_space(6.0);
            }
        });
    let close = ui.add(theme::primary_button(ui, text!("close")));
    if close.clicked() {
        out.push(Wish::Answer(Answer::Cancel));
    }
    close
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_behind_a_figure_stands_in_the_table() {
        for (figure, word) in BEHIND {
            assert!(meaning(word).is_some(), "{word}");
            let told = told(wording::said(figure), "A figure.");
            assert!(told.contains(wording::said(word)), "{figure}");
        }
        for word in [KINDS, PORES_PER_MM, PHRASE, INTERVAL] {
            assert!(meaning(word).is_some(), "{word}");
        }
    }

    #[test]
    fn every_word_stands_once_and_is_told_in_whole_sentences() {
        for (i, (term, meaning)) in TERMS.iter().enumerate() {
            assert!(wording::said(meaning).ends_with('.'), "{term}");
            assert!(
                TERMS[i + 1..].iter().all(|(other, _)| other != term),
                "{term}"
            );
        }
    }
}
