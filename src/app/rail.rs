//! The five steps on the left; the one at hand shows its controls.

use super::sheets::Sheet;
use super::theme::{self, palette};
use super::{Memory, Wish, actions, steps};
use crate::session::{Command, Session, Step, StepStanding, StepState};
use crate::wording::text;
use egui::{
    Color32, CornerRadius, FontId, Frame, Id, Margin, Panel, Pos2, Rect, Response, ScrollArea,
    Sense, Stroke, Ui, UiBuilder, WidgetInfo, pos2, vec2,
};

/// Radius of a step's mark, points.
const MARK: f32 = 11.0;

/// Height of what stands under the steps, until it is known how many rows its words take; points.
const FOOT: f32 = 78.0;
/// Above and below it, points.
const FOOT_MARGIN: i8 = 6;

fn foot_height() -> Id {
    Id::unique("height of the foot")
}

/// Shows the rail; gives back the place under the steps that [`foot`] fills.
pub(crate) fn show(
    ui: &mut Ui,
    session: &Session,
    memory: &mut Memory,
    out: &mut Vec<Wish>,
) -> Rect {
    let foot = Panel::bottom("foot")
        .exact_size(ui.data(|data| data.get_temp(foot_height())).unwrap_or(FOOT))
        .resizable(false)
        .show_separator_line(false)
        .frame(Frame::NONE.inner_margin(Margin::symmetric(theme::MARGIN, FOOT_MARGIN)))
        .show(ui, |ui| ui.max_rect())
        .inner;
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        for (number, step) in (1..).zip(Step::ALL) {
            let state = session.step(step);
            let open = memory.step == step;
            let header = header(ui, number, step, &state, open);
            if header.clicked() {
                out.push(Wish::Go(step));
            }
            if open {
                let controls = Frame::NONE
                    .fill(palette(ui).panel)
                    .inner_margin(Margin {
                        left: 46,
                        right: theme::MARGIN,
                        top: 4,
                        bottom: 16,
                    })
                    .show(ui, |ui| {
                        ui.set_width(ui.available_width());
                        ui.spacing_mut().item_spacing.y = 8.0;
                        match step {
                            Step::Photo => steps::photo::show(ui, session, memory, out),
                            Step::Scale => steps::scale::show(ui, session, memory, out),
                            Step::Area => steps::area::show(ui, session, memory, out),
                            Step::Pores => steps::pores::show(ui, session, memory, out),
                            Step::Record => steps::record::show(ui, session, memory, out),
                        }
                    });
                let all = header.rect.union(controls.response.rect);
                let bar = Rect::from_min_size(all.min, vec2(4.0, all.height()));
                ui.painter()
                    .rect_filled(bar, CornerRadius::ZERO, palette(ui).accent);
            }
        }
        theme::follow_focus(ui);
    });
    memory.keyboard_to = None;
    foot
}

/// What concerns all steps: take back, the shortcuts, the colours.
pub(crate) fn foot(ui: &mut Ui, place: Rect, session: &Session, out: &mut Vec<Wish>) {
    let ui = &mut ui.new_child(UiBuilder::new().max_rect(place));
    ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
    let used = ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().button_padding.x = 9.0;
        ui.spacing_mut().interact_size.y = 26.0;
        for (text, meaning, shortcut, can, command) in [
            (
                text!("undo"),
                text!("take-back"),
                "do-undo",
                session.can_undo(),
                Command::Undo,
            ),
            (
                text!("redo"),
                text!("do-again"),
                "do-redo",
                session.can_redo(),
                Command::Redo,
            ),
        ] {
            let shortcut = actions::keys_of(ui.ctx(), shortcut);
            if ui
                .add_enabled(can, theme::small_button(text))
                .on_hover_text(text!(
                    "changes-of-scale-area-or-pores",
                    meaning = meaning,
                    shortcut = shortcut
                ))
                .clicked()
            {
                out.push(Wish::Do(command));
            }
        }
        let find = ui.add(theme::small_button(text!("open-finder")));
        let keys = actions::keys_of(ui.ctx(), "do-find-what-to-do");
        if find
            .on_hover_text(text!("type-what-you-want-to-do", keys = keys))
            .clicked()
        {
            out.push(Wish::Lay(Sheet::Finder));
        }
        let list = ui.add(theme::small_button(text!("keys")));
        if list.on_hover_text(text!("all-shortcuts-f1-or")).clicked() {
            out.push(Wish::Lay(Sheet::Shortcuts));
        }
        for (text, meaning, sheet) in [
            (
                text!("open-preferences"),
                text!("text-size-colours-movement"),
                Sheet::Preferences,
            ),
            (
                text!("words"),
                text!("what-pore-wall-handbook-phrase-and"),
                Sheet::Terms,
            ),
        ] {
            let button = ui.add(theme::small_button(text));
            if button.on_hover_text(meaning).clicked() {
                out.push(Wish::Lay(sheet));
            }
        }
    });
    // Longer words take more rows: the next frame makes room for them.
    let height = used.response.rect.height() + 2.0 * f32::from(FOOT_MARGIN);
    if ui.data(|data| data.get_temp(foot_height())) != Some(height) {
        ui.data_mut(|data| data.insert_temp(foot_height(), height));
        ui.request_repaint();
    }
}

/// One step's name, standing and sentence; all of it can be pressed.
fn header(ui: &mut Ui, number: usize, step: Step, state: &StepState, open: bool) -> Response {
    let colours = palette(ui);
    let width = ui.available_width();
    let text_width = width - 46.0 - f32::from(theme::MARGIN);
    let sentence = ui.painter().layout(
        state.sentence.clone(),
        FontId::proportional(theme::SMALL),
        colours.quiet,
        text_width,
    );
    // What the open step says changes as one works in it; room for two lines keeps its controls from
    // moving under the pointer.
    let lines = if open { 2.0 } else { 1.0 };
    let line = sentence.size().y / sentence.rows.len().max(1) as f32;
    let height = 10.0 + 22.0 + 3.0 + sentence.size().y.max(lines * line) + 10.0;
    let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::click());
    response.widget_info(|| {
        WidgetInfo::selected(
            egui::Role::Button,
            true,
            open,
            text!(
                "step-in-full",
                number = number,
                step = step.name(),
                standing = state.standing.word(),
                sentence = state.sentence
            ),
        )
    });
    let fill = if open {
        colours.panel
    } else if response.hovered() {
        colours.button
    } else {
        colours.rail
    };
    let painter = ui.painter();
    painter.rect_filled(rect, 0.0, fill);
    mark(ui, rect.min + vec2(26.0, 21.0), number, state.standing);
    let left = rect.left() + 46.0;
    let painter = ui.painter();
    painter.text(
        pos2(left, rect.top() + 21.0),
        egui::Align2::LEFT_CENTER,
        step.name(),
        FontId::new(15.5, theme::semibold()),
        colours.text,
    );
    let (word_colour, word_font) = match state.standing {
        StepStanding::NeedsYou | StepStanding::Working(_) => (colours.accent, theme::semibold()),
        _ => (colours.quiet, egui::FontFamily::Proportional),
    };
    painter.text(
        pos2(rect.right() - f32::from(theme::MARGIN), rect.top() + 21.0),
        egui::Align2::RIGHT_CENTER,
        state.standing.word(),
        FontId::new(theme::SMALL, word_font),
        word_colour,
    );
    painter.galley(pos2(left, rect.top() + 35.0), sentence, colours.quiet);
    response.on_hover_cursor(egui::CursorIcon::PointingHand)
}

/// A tick when done, the number otherwise; filled when the person is needed.
fn mark(ui: &Ui, centre: Pos2, number: usize, standing: StepStanding) {
    let colours = palette(ui);
    let painter = ui.painter();
    let numeral = |colour: Color32| {
        painter.text(
            centre,
            egui::Align2::CENTER_CENTER,
            number,
            FontId::new(theme::SMALL, theme::semibold()),
            colour,
        );
    };
    match standing {
        StepStanding::Done => {
            painter.circle_filled(centre, MARK, colours.accent_soft);
            let stroke = Stroke::new(2.0, colours.accent);
            painter.circle_stroke(centre, MARK, Stroke::new(1.0, colours.accent));
            let bend = centre + vec2(-1.3, 3.6);
            painter.line_segment([centre + vec2(-4.8, 0.2), bend], stroke);
            painter.line_segment([bend, centre + vec2(4.8, -3.8)], stroke);
        }
        StepStanding::NeedsYou => {
            painter.circle_filled(centre, MARK, colours.accent);
            numeral(colours.on_accent);
        }
        StepStanding::Working(_) => {
            painter.circle_filled(centre, MARK, colours.accent_soft);
            painter.circle_stroke(centre, MARK, Stroke::new(1.0, colours.accent));
            numeral(colours.text);
        }
        StepStanding::Later => {
            painter.circle_stroke(centre, MARK, Stroke::new(1.0, colours.line));
            numeral(colours.quiet);
        }
    }
}
