//! The keyboard's shortcuts: which there are, what they wish for, and the list a person can read.

use super::Wish;
use super::actions::{self, Action};
use super::canvas::{self, Canvas};
use super::sheets::Sheet;
use super::steps;
use crate::session::{Session, Step};
use crate::wording;
use egui::{Context, Event, InputState, Key, KeyboardShortcut, Modifiers};

const STEPS: [Key; 5] = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5];

/// Every shortcut and what it does.
pub(crate) fn list(ctx: &Context) -> Vec<(String, &'static str)> {
    let mut all: Vec<(String, &str)> = Vec::new();
    for action in actions::ALL {
        if let Some(shortcut) = action.shortcut {
            all.push((actions::written(ctx, shortcut), action.name()));
        }
    }
    let on_photo = [
        ("arrow-keys-enter", "on-the-photo-move-the-crosshair"),
        ("enter-backspace-esc", "close-an-outline-drop-its-last"),
        ("delete", "in-step-pores-delete-the-pores"),
        ("wheel", "zoom-in-zoom-out-0-for"),
        ("Alt", "held-an-end-of-the-scale"),
        ("enter", "on-an-end-of-the-scale"),
        ("insert-delete", "on-a-corner-of-the-area"),
        ("middle-or-right-drag", "move-the-photo-at-any-step"),
    ];
    all.extend(
        on_photo.map(|(keys, meaning)| (wording::said(keys).to_owned(), wording::said(meaning))),
    );
    all
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
    let mut pressed: Vec<&Action> = Vec::new();
    // Those with more keys first, for the others are part of them.
    let mut by_keys: Vec<(&Action, KeyboardShortcut)> = actions::ALL
        .iter()
        .filter_map(|action| Some((action, action.shortcut?)))
        .collect();
    by_keys.sort_by_key(|(_, shortcut)| !shortcut.modifiers.shift);
    for (action, shortcut) in by_keys {
        let is_plain = !shortcut.modifiers.command;
        let belongs_to_field = match action.id {
            "do-undo" | "do-redo" => types_for_itself,
            _ => typing && is_plain && shortcut.logical_key != Key::F1,
        };
        // A plain key counts alone; with Ctrl a step's number goes there from any field.
        let is_pressed = |input: &mut InputState| {
            let exactly = !is_plain || input.modifiers == shortcut.modifiers;
            exactly && input.consume_shortcut(&shortcut)
        };
        if !belongs_to_field && ctx.input_mut(is_pressed) {
            pressed.push(action);
        }
    }
    for (step, key) in Step::ALL.into_iter().zip(STEPS) {
        if ctx.input_mut(|input| input.consume_key(Modifiers::COMMAND, key)) {
            out.push(Wish::Go(step));
        }
    }
    // The same key without Shift, on keyboards that have both signs on it.
    if ctx.input_mut(|input| input.consume_key(Modifiers::COMMAND, Key::Equals)) {
        let larger = session.preferences().resized(true);
        out.push(Wish::Prefer(Box::new(larger)));
    }
    if !typing && ctx.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Questionmark)) {
        out.push(Wish::Lay(Sheet::Shortcuts));
    }
    for action in pressed {
        if action.why_not(session).is_some() || (action.id == "do-undo" && canvas.undo_drawing()) {
            continue;
        }
        out.extend(action.wishes(session));
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
