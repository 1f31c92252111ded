//! A first measuring on a sample photo, one thing at a time. It watches what is done and goes on by
//! itself.

use super::theme::{self, palette};
use super::{Memory, Wish};
use crate::session::{Session, Step, Work};
use crate::wording::text;
use egui::{Frame, Label, Margin, Panel, Ui};

/// How far the guide is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Guide {
    /// Both ends of the scale bar are to be set.
    Ends,
    /// Its length is to be typed.
    Length,
    /// An area is to be drawn.
    Area,
    /// Measuring is to be begun.
    Measure,
    /// The findings are to be read.
    Read,
    /// A pore is to be looked at.
    Pore,
    /// Findings are to be kept.
    Keep,
}

impl Guide {
    const ALL: [Self; 7] = [
        Self::Ends,
        Self::Length,
        Self::Area,
        Self::Measure,
        Self::Read,
        Self::Pore,
        Self::Keep,
    ];

    /// What to do, and how by keyboard.
    fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Ends => (
                text!("at-the-lower-right-of-the"),
                text!("by-keyboard-p-then-arrow-keys"),
            ),
            Self::Length => (
                text!("type-on-the-left-how-long"),
                text!("by-keyboard-tab-leads-to-the"),
            ),
            Self::Area => (
                text!("go-on-to-step-3-area"),
                text!("by-keyboard-3-then-p-arrow"),
            ),
            Self::Measure => (text!("go-on-to-step-4-pores"), text!("by-keyboard-ctrl-m")),
            Self::Read => (text!("on-the-right-stands-what-a"), ""),
            Self::Pore => (text!("each-outline-on-the-photo-is"), ""),
            Self::Keep => (text!("step-5-record-keeps-the-findings"), ""),
        }
    }

    /// Whether what it asks for has been done.
    fn is_done(self, session: &Session) -> bool {
        let document = session.document();
        match self {
            Self::Ends => {
                document.scale.missing_end().is_none() || document.scale.scale().is_some()
            }
            Self::Length => document.scale.scale().is_some(),
            Self::Area => document.area_is_chosen,
            Self::Measure => session.results().is_some() && *session.work() == Work::Idle,
            Self::Pore => !session.selected().is_empty(),
            Self::Read | Self::Keep => false,
        }
    }

    fn number(self) -> usize {
        Self::ALL
            .iter()
            .position(|other| *other == self)
            .unwrap_or(0)
    }

    fn next(self) -> Option<Self> {
        Self::ALL.get(self.number() + 1).copied()
    }
}

/// Goes on where what was asked for has been done.
pub(crate) fn follow(session: &Session, memory: &mut Memory) {
    while let Some(guide) = memory.guide
        && guide.is_done(session)
    {
        memory.guide = guide.next();
    }
}

/// Shows what to do now, over the photo.
pub(crate) fn show(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let Some(guide) = memory.guide else { return };
    if session.document().photo.is_none() {
        return;
    }
    let (words, keys) = guide.words();
    Panel::top("guide")
        .frame(
            Frame::NONE
                .fill(palette(ui).accent_soft)
                .inner_margin(Margin::symmetric(theme::MARGIN, 10)),
        )
        .resizable(false)
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 5.0;
            let count = text!(
                "guide-step",
                number = guide.number() + 1,
                all = Guide::ALL.len()
            );
            ui.label(theme::bold(count));
            ui.add(Label::new(words).wrap());
            if !keys.is_empty() {
                ui.add(Label::new(theme::quiet(ui, keys)).wrap());
            }
            ui.horizontal(|ui| {
                // What only has to be read cannot be seen to be done.
                if matches!(guide, Guide::Read | Guide::Pore)
                    && ui.add(theme::primary_button(ui, text!("next"))).clicked()
                {
                    memory.guide = guide.next();
                }
                let end = match guide {
                    Guide::Keep => theme::primary_button(ui, text!("done")),
                    _ => theme::small_button(text!("leave-the-guide")),
                };
                if ui
                    .add(end)
                    .on_hover_text(text!("ctrl-k-and-sample-begin-it"))
                    .clicked()
                {
                    memory.guide = None;
                }
                if guide == Guide::Keep && ui.button(text!("show-step-5")).clicked() {
                    out.push(Wish::Go(Step::Record));
                }
            });
        });
}
