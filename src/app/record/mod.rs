//! What stands in the middle in the last step: the photo, the voucher, published ranges, the book.

mod form;
mod pictures;
mod ranges;
mod table;
mod walks;

pub(crate) use pictures::Pictures;

use super::theme::{self, palette};
use super::{Memory, Wish};
use crate::session::Session;
use crate::wording::text;
use egui::{Button, Frame, Margin, Panel, ScrollArea, Ui};

/// One of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum View {
    /// The photo with what was found.
    #[default]
    Photo,
    /// The voucher to fill in.
    Voucher,
    /// What the findings agree with.
    Ranges,
    /// All vouchers.
    Book,
    /// Walks, and how often each taxon was met.
    Walks,
}

impl View {
    const ALL: [Self; 5] = [
        Self::Photo,
        Self::Voucher,
        Self::Ranges,
        Self::Book,
        Self::Walks,
    ];

    fn label(self) -> &'static str {
        match self {
            Self::Photo => text!("photo"),
            Self::Voucher => text!("voucher"),
            Self::Ranges => text!("published-ranges"),
            Self::Book => text!("book"),
            Self::Walks => text!("walks"),
        }
    }
}

/// The row from which one is chosen.
pub(crate) fn choice(ui: &mut Ui, memory: &Memory, out: &mut Vec<Wish>) {
    Panel::top("record views")
        .frame(
            Frame::NONE
                .fill(palette(ui).rail)
                .inner_margin(Margin::symmetric(theme::MARGIN, 6)),
        )
        .resizable(false)
        .show(ui, |ui| {
            ui.horizontal(|ui| {
                for view in View::ALL {
                    let button = Button::selectable(memory.view == view, view.label())
                        .frame_when_inactive(true);
                    if ui.add(button).clicked() {
                        out.push(Wish::Show(view));
                    }
                }
            });
        });
}

/// Any of them but the photo.
pub(crate) fn show(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    match memory.view {
        View::Photo => {}
        View::Voucher => form::show(ui, session, out),
        View::Ranges => page(ui, "published ranges", |ui| ranges::show(ui, session)),
        View::Book => table::show(ui, session, memory, out),
        View::Walks => walks::show(ui, session, memory, out),
    }
}

/// A page that scrolls, with a margin.
fn page(ui: &mut Ui, name: &str, contents: impl FnOnce(&mut Ui)) {
    ScrollArea::vertical()
        .id_salt(name)
        .auto_shrink(false)
        .show(ui, |ui| {
            Frame::NONE
                .inner_margin(Margin::same(theme::MARGIN))
                .show(ui, |ui| {
                    ui.set_width(ui.available_width());
                    contents(ui);
                });
            theme::follow_focus(ui);
        });
}

/// What stands where there is nothing yet.
fn empty(ui: &mut Ui, title: &str, text: &str) {
    ui.label(theme::bold(title).size(16.0));
    ui.label(theme::quiet(ui, text));
}
