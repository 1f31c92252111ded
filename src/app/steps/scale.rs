//! Scale: all ways to pixels per millimetre.

use super::{complaint, explain, first, next};
use crate::app::theme::{self, palette};
use crate::app::{KeyboardTo, Memory, Wish};
use crate::findings::Severity;
use crate::progress::Stage;
use crate::session::{
    Command, ScaleStanding, ScaleWay, Session, Sought, Step, TICKS, Work, is_coarse, ticks_name,
};
use crate::wording::{self, text};
use egui::{Button, CollapsingHeader, ComboBox, Id, Key, Response, RichText, TextEdit, Ui, vec2};

/// The step's controls.
pub(crate) fn show(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    if session.document().photo.is_none() {
        explain(ui, text!("nothing-without-a-photo"));
        return;
    }
    let scale = &session.document().scale;
    ways(ui, session, memory, out);
    if let Work::Seeking(sought, stage) = session.work() {
        seeking(ui, sought, *stage, out);
    } else {
        match scale.way {
            ScaleWay::Points => points(ui, session, memory, out),
            ScaleWay::Bar => bar(ui, session, memory, out),
            ScaleWay::Ruler => ruler(ui, session, out),
            ScaleWay::Card => card(ui, session, out),
            ScaleWay::Corners => corners(ui, session, memory, out),
            ScaleWay::SetUp => set_ups(ui, session, out),
            ScaleWay::Stated | ScaleWay::Recorded => {}
            ScaleWay::Typed => {
                let name = text!("pixels-per-millimetre");
                let typed = field(ui, name, text!("such-as-85-2-px"), &scale.px_per_mm, false);
                typed.tell(session, Command::TypePxPerMm, out);
            }
        }
        found(ui, session, out);
    }
    next(ui, session, Step::Scale, out);
    keep(ui, session, memory, out);
    if let Some(why) = session.why_not_from_file() {
        explain(ui, &why);
    }
    white(ui, session, memory, out);
}

/// The ways to choose from, close together, for there are many.
fn ways(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let scale = &session.document().scale;
    let chosen = scale.way;
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        ui.spacing_mut().interact_size.y = 24.0;
        for (way, label) in session.scale_ways() {
            let mut radio = ui.radio(chosen == way, label);
            let has_length = way == ScaleWay::Bar && scale.chosen_bar().is_some();
            if chosen == way && !has_length {
                // The space bar chooses what has the keyboard, so that had better be what is chosen already.
                radio = first(memory, radio);
            }
            if radio.on_hover_text(way.meaning()).clicked() {
                memory.canvas.stop_marking_white();
                out.push(Wish::Do(Command::EndAct));
                out.push(Wish::Do(Command::UseScaleWay(way)));
            }
        }
    });
}

fn seeking(ui: &mut Ui, sought: &Sought, stage: Option<Stage>, out: &mut Vec<Wish>) {
    let doing = match stage {
        None | Some(Stage::Scale) => sought.label(),
        Some(stage) => wording::word(stage.label()),
    };
    ui.horizontal(|ui| {
        theme::working(ui);
        ui.label(doing);
    });
    if ui.button(text!("stop")).clicked() {
        out.push(Wish::Do(Command::Cancel));
    }
}

/// What was found, how sure it is, and what to be careful about.
fn found(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    for sentence in session.scale_report() {
        explain(ui, &sentence);
    }
    let scale = &session.document().scale;
    match scale.standing() {
        ScaleStanding::Wrong(why) => complaint(ui, &why),
        ScaleStanding::Asks(question) => {
            caution(ui, &question.reason());
            if ui.button(question.yes()).clicked() {
                out.push(Wish::Do(Command::EndAct));
                out.push(Wish::Do(Command::SayYes));
            }
        }
        ScaleStanding::Set(_) => explain(
            ui,
            match scale.way {
                ScaleWay::Points => {
                    text!("plus-minus-is-the-standard-uncertainty-each")
                }
                ScaleWay::Typed | ScaleWay::Stated => text!("taken-as-exact"),
                ScaleWay::Ruler => text!("a-longer-line-makes-it-smaller"),
                _ => text!("plus-minus-is-the-standard-uncertainty"),
            },
        ),
        ScaleStanding::Needs(_) => {}
    }
    for note in session.scale_cautions() {
        match note.severity {
            Severity::Info => explain(ui, &note.text),
            Severity::Caution | Severity::Stop => caution(ui, &note.text),
        }
    }
}

fn points(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let scale = &session.document().scale;
    let focus = memory.canvas.takes_length_now();
    if scale.missing_end().is_some() {
        explain(ui, text!("zoom-in-with-the-wheel-and"));
    }
    ui.checkbox(&mut memory.canvas.snaps, text!("put-ends-on-edges"))
        .on_hover_text(text!("an-end-goes-to-the-middle"));
    closeness(ui, session, scale.missing_end().is_some(), memory);
    if scale.first.is_some() {
        let name = text!("length-between-the-ends");
        let typed = field(ui, name, text!("such-as-5-mm"), &scale.length, focus);
        typed.tell(session, Command::TypeLength, out);
        if ui.button(text!("set-the-ends-again")).clicked() {
            out.push(Wish::Do(Command::ClearScaleLine));
        }
    }
}

/// A word where the photo is, or was, shown too small to click on it closely.
fn closeness(ui: &mut Ui, session: &Session, is_clicking: bool, memory: &Memory) {
    if is_clicking {
        let px = memory.canvas.px_per_screen_px(ui.ctx());
        if is_coarse(px) {
            caution(
                ui,
                &text!("a-pixel-of-the-screen-covers", px = format!("{px:.0}")),
            );
        }
    } else if session.document().scale.was_set_coarsely() {
        let words = match session.document().scale.way {
            ScaleWay::Corners => text!("corners-were-set-on-a-small-picture"),
            _ => text!("ends-were-set-on-a-small-picture"),
        };
        caution(ui, words);
    }
}

fn bar(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let scale = &session.document().scale;
    let Some(bars) = &scale.bars else {
        seek_button(ui, session, text!("find-the-scale-bar"), out);
        return;
    };
    if bars.len() > 1 {
        explain(ui, text!("several-strokes-could-be-the-scale"));
        ui.scope(|ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            for (i, label) in session.bar_labels().into_iter().enumerate() {
                if ui.radio(scale.bar == Some(i), label).clicked() {
                    out.push(Wish::Do(Command::EndAct));
                    out.push(Wish::Do(Command::PickBar(i)));
                }
            }
        });
    }
    if scale.chosen_bar().is_some() {
        let name = text!("length-of-the-scale-bar");
        // Nothing else is wanted of a bar that was found.
        let is_next =
            |to: &mut KeyboardTo| matches!(to, KeyboardTo::Length | KeyboardTo::FirstControl);
        let was_found = memory.keyboard_to.take_if(is_next).is_some();
        let focus = memory.canvas.takes_length_now() || was_found;
        let typed = field(ui, name, text!("such-as-2-mm"), &scale.bar_length, focus);
        typed.tell(session, Command::TypeBarLength, out);
    }
}

fn ruler(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    let scale = &session.document().scale;
    if scale.ruler.is_none() {
        explain(ui, text!("drag-on-the-photo-along-the"));
    }
    let label = ui.label(theme::quiet(ui, text!("from-tick-to-tick")));
    ComboBox::from_id_salt("ticks")
        .selected_text(ticks_name(scale.ticks))
        .width(150.0)
        .show_ui(ui, |ui| {
            for ticks in TICKS {
                let is_chosen = scale.ticks == ticks;
                if ui.selectable_label(is_chosen, ticks_name(ticks)).clicked() {
                    out.push(Wish::Do(Command::EndAct));
                    out.push(Wish::Do(Command::UseTicks(ticks)));
                }
            }
        })
        .response
        .labelled_by(label.id);
    if scale.ruler.is_some() {
        if scale.ruler_read().is_none() {
            seek_button(ui, session, text!("read-the-ruler"), out);
        } else {
            explain(ui, text!("drag-again-for-another-line-or"));
        }
    }
}

fn card(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    if session.document().scale.flat.is_none() {
        explain(ui, text!("the-card-has-to-lie-on"));
        seek_button(ui, session, text!("find-the-scale-card"), out);
    }
}

fn corners(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    let scale = &session.document().scale;
    if scale.flat.is_some() {
        return;
    }
    let focus = memory.canvas.takes_length_now();
    let is_clicking = scale.missing_corner().is_some();
    if is_clicking {
        explain(ui, text!("click-the-four-corners-one-after"));
    }
    closeness(ui, session, is_clicking, memory);
    let [width, height] = &scale.sides;
    ui.columns(2, |columns| {
        let sides = [
            (
                text!("width-of-the-rectangle"),
                text!("such-as-30-mm"),
                width,
            ),
            (
                text!("height-of-the-rectangle"),
                text!("such-as-20-mm"),
                height,
            ),
        ];
        for (side, (column, (name, hint, typed))) in columns.iter_mut().zip(sides).enumerate() {
            let typed = field(column, name, hint, typed, focus && side == 0);
            typed.tell(session, |text| Command::TypeSide(side, text), out);
        }
    });
    if !scale.corners.is_empty() && ui.button(text!("set-the-corners-again")).clicked() {
        out.push(Wish::Do(Command::ClearCorners));
    }
    seek_button(ui, session, text!("straighten-the-photo"), out);
}

/// The saved set-ups to choose from.
fn set_ups(ui: &mut Ui, session: &Session, out: &mut Vec<Wish>) {
    let picked = session.document().scale.set_up.as_ref();
    if session.set_ups().is_empty() {
        explain(ui, text!("no-set-up-has-been-saved"));
    } else {
        explain(ui, text!("pick-the-one-that-this-photo"));
    }
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = 1.0;
        for saved in session.set_ups() {
            let is_picked = picked.is_some_and(|picked| picked.name == saved.name);
            if ui.radio(is_picked, saved.label()).clicked() {
                out.push(Wish::Do(Command::EndAct));
                out.push(Wish::Do(Command::PickSetUp(saved.name.clone())));
            }
        }
    });
    for fault in session.set_up_faults() {
        complaint(ui, fault);
    }
}

/// Under which the field for a set-up's name has the keyboard.
pub(crate) fn set_up_name() -> Id {
    Id::unique("set-up name")
}

/// Saving the scale for other photos.
fn keep(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    if !session.has_scale_to_keep() {
        return;
    }
    CollapsingHeader::new(text!("save-this-scale-as-a-set")).show_unindented(ui, |ui| {
        if let Some(why) = session.why_not_keep_scale() {
            explain(ui, &why);
            return;
        }
        explain(ui, text!("for-other-photos-by-this-camera"));
        let label = ui.label(theme::quiet(ui, text!("name-of-the-set-up")));
        let field = ui
            .add(
                one_line(ui, &mut memory.set_up_name)
                    .id(set_up_name())
                    .hint_text(text!("such-as-stand")),
            )
            .labelled_by(label.id);
        let entered = field.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter));
        if entered {
            field.request_focus();
        }
        if ui.button(text!("save-set-up")).clicked() || entered {
            out.push(Wish::SaveSetUp);
        }
    });
}

/// What colours are referred to.
fn white(ui: &mut Ui, session: &Session, memory: &mut Memory, out: &mut Vec<Wish>) {
    ui.add_space(6.0);
    ui.separator();
    ui.label(theme::bold(text!("white-reference-for-colour")));
    explain(ui, session.white_words());
    let is_marking = memory.canvas.is_marking_white();
    ui.horizontal_wrapped(|ui| {
        let mark =
            Button::selectable(is_marking, text!("mark-something-white")).frame_when_inactive(true);
        let meaning = text!("then-drag-a-rectangle-over-paper");
        if ui.add(mark).on_hover_text(meaning).clicked() {
            if is_marking {
                memory.canvas.stop_marking_white();
            } else {
                out.push(Wish::MarkWhite);
            }
        }
        if session.document().white.is_some() && ui.button(text!("remove-the-white")).clicked() {
            out.push(Wish::Do(Command::ClearWhite));
        }
    });
    if is_marking {
        explain(ui, text!("drag-a-rectangle-over-something-white-in"));
    }
}

/// The button that begins to look for what the way needs.
fn seek_button(ui: &mut Ui, session: &Session, text: &str, out: &mut Vec<Wish>) {
    let why_not = session.why_not_seek();
    let can = why_not.is_none() && session.document().scale.sought().is_some();
    let button = if can {
        theme::primary_button(ui, text)
    } else {
        Button::new(text)
    };
    if ui.add_enabled(can, button).clicked() {
        out.push(Wish::Do(Command::Seek));
    }
    if let Some(why) = why_not {
        explain(ui, why);
    }
}

fn caution(ui: &mut Ui, text: &str) {
    ui.label(RichText::new(text).color(palette(ui).caution));
}

/// What happened in a field.
struct Typed {
    field: Response,
    text: Option<String>,
    entered: bool,
}

impl Typed {
    /// Passes on what was typed; Enter leads to the next step once there is a scale.
    fn tell(self, session: &Session, command: impl Fn(String) -> Command, out: &mut Vec<Wish>) {
        if let Some(text) = self.text {
            out.push(Wish::Do(command(text)));
        }
        if self.entered {
            match (session.document().scale.scale(), Step::Scale.next()) {
                (Some(_), Some(next)) => out.push(Wish::Go(next)),
                _ => self.field.request_focus(),
            }
        }
    }
}

fn field(ui: &mut Ui, name: &str, hint: &'static str, typed: &str, focus: bool) -> Typed {
    let label = ui.label(theme::quiet(ui, name));
    let mut text = typed.to_owned();
    let field = ui
        .add(one_line(ui, &mut text).id_salt(name).hint_text(hint))
        .labelled_by(label.id);
    if focus {
        field.request_focus();
    }
    Typed {
        text: field.changed().then_some(text),
        entered: field.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter)),
        field,
    }
}

/// A field for one line.
fn one_line<'a>(ui: &Ui, text: &'a mut String) -> TextEdit<'a> {
    TextEdit::singleline(text)
        .desired_width(150.0_f32.min(ui.available_width()))
        .min_size(vec2(0.0, theme::PRESS_HEIGHT))
        .align(egui::Align2::LEFT_CENTER)
}
