//! The keyboard's shortcuts: which there are, what they wish for, and the list a person can read.

use super::Wish;
use super::canvas::{self, Canvas};
use super::files::File;
use super::steps;
use crate::session::{BookCommand, Command, Export, Session, Step};
use egui::{Context, Event, Key, KeyboardShortcut, Modifiers};

pub(crate) const OPEN: KeyboardShortcut = KeyboardShortcut::new(Modifiers::COMMAND, Key::O);
pub(crate) const MEASURE: KeyboardShortcut = KeyboardShortcut::new(Modifiers::COMMAND, Key::M);
pub(crate) const SAVE: KeyboardShortcut = KeyboardShortcut::new(Modifiers::COMMAND, Key::S);
pub(crate) const UNDO: KeyboardShortcut = KeyboardShortcut::new(Modifiers::COMMAND, Key::Z);
pub(crate) const REDO: KeyboardShortcut =
    KeyboardShortcut::new(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::Z);
const STEPS: [Key; 5] = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5];

/// Every shortcut and what it does.
pub(crate) fn list(ctx: &Context) -> Vec<(String, &'static str)> {
    let of = |shortcut: &KeyboardShortcut| ctx.format_shortcut(shortcut);
    vec![
        (of(&OPEN), "Open a photo"),
        (of(&MEASURE), "Measure"),
        (
            of(&SAVE),
            "Save the voucher being filled in, or else the findings",
        ),
        (
            format!("{}, {}", of(&UNDO), of(&REDO)),
            "Undo, redo a change of scale, area or pores",
        ),
        ("1 to 5".to_owned(), "Go to a step"),
        ("P".to_owned(), "Give the keyboard to the photo"),
        (
            "Arrow keys, Enter".to_owned(),
            "On the photo: move the crosshair, set a point; with Shift by 1 px",
        ),
        (
            "Enter, Backspace, Esc".to_owned(),
            "Close an outline, drop its last corner, drop all of it",
        ),
        (
            "Delete".to_owned(),
            "In step Pores: delete the pores that are selected",
        ),
        ("F".to_owned(), "Fit: show all of the photo"),
        (
            "+, −, wheel".to_owned(),
            "Zoom in, zoom out; 0 for one photo pixel per screen pixel",
        ),
        (
            "Middle or right drag".to_owned(),
            "Move the photo, at any step; also dragging with Space held",
        ),
    ]
}

/// What the keys pressed in this frame wish for.
pub(crate) fn wishes(
    ctx: &Context,
    session: &Session,
    canvas: &mut Canvas,
    step: Step,
    out: &mut Vec<Wish>,
) {
    // What is typed into these fields belongs to the window, so the field takes it back itself.
    let typing = ctx.text_edit_focused();
    let names_a_set_up = ctx.memory(|m| m.has_focus(steps::scale::set_up_name()));
    let types_for_itself = typing && (names_a_set_up || matches!(step, Step::Photo | Step::Record));
    let pressed = |shortcut| ctx.input_mut(|input| input.consume_shortcut(shortcut));
    if pressed(&OPEN) {
        out.push(Wish::AskOpen);
    }
    if pressed(&MEASURE) && session.why_not_measure().is_none() {
        out.push(Wish::Do(Command::Measure));
    }
    if pressed(&SAVE) {
        if step == Step::Record && session.has_unsaved_voucher() {
            out.push(Wish::Book(BookCommand::Save));
        } else if session.why_not_save().is_none() {
            out.push(Wish::AskSave(File::Findings(Export::Findings)));
        }
    }
    // The one with more keys first, for the other is part of it.
    if !types_for_itself && pressed(&REDO) {
        out.push(Wish::Do(Command::Redo));
    }
    if !types_for_itself && pressed(&UNDO) && !canvas.undo_drawing() {
        out.push(Wish::Do(Command::Undo));
    }
    for (step, key) in Step::ALL.into_iter().zip(STEPS) {
        let plain = |input: &mut egui::InputState| {
            !typing && input.modifiers.is_none() && input.consume_key(Modifiers::NONE, key)
        };
        if ctx.input_mut(|input| input.consume_key(Modifiers::COMMAND, key) || plain(input)) {
            out.push(Wish::Go(step));
        }
    }
    if !typing && session.document().photo.is_some() && ctx.input(|i| i.key_pressed(Key::P)) {
        canvas.take_keyboard(ctx);
    }
}

/// Space with the hand on the pointer, over the photo, is for moving the photo and not for the
/// control that has the keyboard.
pub(crate) fn keep_space_for_the_photo(ctx: &Context, photo: &mut Canvas) {
    let space = ctx.input(|input| {
        for event in &input.events {
            match event {
                Event::PointerMoved(_) | Event::PointerButton { .. } => {
                    photo.hand_on_pointer = true;
                }
                Event::Key { key, .. } if *key != Key::Space => photo.hand_on_pointer = false,
                _ => {}
            }
        }
        input.key_pressed(Key::Space)
    });
    if space
        && photo.hand_on_pointer
        && !ctx.text_edit_focused()
        && ctx
            .read_response(canvas::id())
            .is_some_and(|photo| photo.contains_pointer())
        && let Some(focused) = ctx.memory(egui::Memory::focused)
        && focused != canvas::id()
    {
        ctx.memory_mut(|memory| memory.surrender_focus(focused));
    }
}

/// Whether something in this frame begins a new act: a press of the button, or of a key that does
/// not go on with what was being typed or moved.
pub(crate) fn begins_an_act(ctx: &Context) -> bool {
    ctx.input(|input| {
        input.pointer.any_pressed()
            || [Key::Tab, Key::Enter, Key::Space, Key::Escape]
                .into_iter()
                .any(|key| input.key_pressed(key))
    })
}
