//! The finder: type what you want, and do it.

use super::actions;
use super::sheets::Answer;
use super::theme::{self, palette};
use super::{Memory, Wish};
use crate::session::{Command, Session, file_name};
use crate::wording::text;
use egui::{Button, Key, Label, Modifiers, Response, RichText, ScrollArea, TextEdit, Ui, vec2};

/// Height of the list, points.
const LIST: f32 = 330.0;

/// What has been typed so far, and which of what was found is chosen.
#[derive(Default)]
pub(crate) struct Finder {
    typed: String,
    chosen: usize,
}

/// Something that was found.
struct Found {
    name: String,
    keys: String,
    why_not: Option<String>,
    wishes: Vec<Wish>,
}

/// The sheet; gives back what gets the keyboard.
pub(crate) fn show(
    ui: &mut Ui,
    session: &Session,
    memory: &mut Memory,
    out: &mut Vec<Wish>,
) -> Response {
    let label = ui.heading(text!("what-do-you-want-to-do"));
    // Before the field has a chance at them.
    let [down, up] = [Key::ArrowDown, Key::ArrowUp]
        .map(|key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key)));
    let finder = &mut memory.finder;
    let field = ui
        .add(
            TextEdit::singleline(&mut finder.typed)
                .hint_text(text!("for-example-scale-bar-measure-dark"))
                .desired_width(f32::INFINITY),
        )
        .labelled_by(label.id);
    if field.changed() {
        finder.chosen = 0;
    }
    let mut found = found(ui, session, &finder.typed);
    let last = found.len().saturating_sub(1);
    if down {
        finder.chosen += 1;
    }
    if up {
        finder.chosen = finder.chosen.saturating_sub(1);
    }
    finder.chosen = finder.chosen.min(last);
    let entered = ui.input(|input| input.key_pressed(Key::Enter));
    let mut done = entered.then_some(finder.chosen);
    let chosen = finder.chosen;
    ScrollArea::vertical()
        .max_height(LIST)
        .auto_shrink([false, true])
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 2.0;
            if found.is_empty() {
                ui.label(theme::quiet(ui, text!("nothing-goes-by-these-words")));
            }
            for (at, found) in found.iter().enumerate() {
                let line = one(ui, found, at == chosen);
                if line.clicked() {
                    done = Some(at);
                }
                if at == chosen && (up || down) {
                    line.scroll_to_me(None);
                }
            }
        });
    if let Some(at) = done.filter(|at| found.get(*at).is_some_and(|f| f.why_not.is_none())) {
        // First, so that what is done may lay a sheet of its own.
        out.push(Wish::Answer(Answer::Cancel));
        out.append(&mut found[at].wishes);
    }
    field
}

fn one(ui: &mut Ui, found: &Found, is_chosen: bool) -> Response {
    let colours = palette(ui);
    let can = found.why_not.is_none();
    let mut text = RichText::new(&found.name);
    if is_chosen {
        text = text.family(theme::semibold());
    }
    let fill = if is_chosen {
        colours.accent_soft
    } else {
        colours.panel
    };
    ui.scope(|ui| {
        ui.set_width(ui.available_width());
        let beside = found.why_not.as_ref().unwrap_or(&found.keys);
        let button = Button::new(text)
            .fill(fill)
            .frame_when_inactive(false)
            .right_text(theme::quiet(ui, beside))
            .min_size(vec2(ui.available_width(), 28.0))
            .truncate();
        ui.add_enabled(can, button)
    })
    .inner
}

fn found(ui: &Ui, session: &Session, typed: &str) -> Vec<Found> {
    let mut met: Vec<(u32, Found)> = Vec::new();
    for action in actions::ALL {
        if let Some(strays) = action.strays(typed) {
            let shortcut = action.shortcut;
            let found = Found {
                name: action.name().to_owned(),
                keys: shortcut.map_or_else(String::new, |keys| actions::written(ui.ctx(), keys)),
                why_not: action.why_not(session),
                wishes: action.wishes(session),
            };
            met.push((strays, found));
        }
    }
    for (at, frame) in session.frames().into_iter().enumerate() {
        let name = text!("go-to-photo", photo = frame.name);
        if let Some(strays) = actions::strays(&name, text!("photo-strip"), typed) {
            let found = Found {
                name,
                keys: frame.standing.word().to_owned(),
                why_not: frame
                    .is_present
                    .then(|| text!("this-is-the-photo-that-is").to_owned()),
                wishes: vec![Wish::Do(Command::GoToFrame(at))],
            };
            met.push((strays, found));
        }
    }
    for photo in session.recent_photos() {
        let name = text!("open-recent-photo", photo = file_name(&photo.path));
        if let Some(strays) = actions::strays(&name, text!("recent-photo"), typed) {
            let is_missing = text!("it-is-not-there-any-more").to_owned();
            let found = Found {
                name,
                keys: text!("opened-before").to_owned(),
                why_not: photo.is_missing.then_some(is_missing),
                wishes: vec![Wish::Do(Command::Open(photo.path.clone()))],
            };
            met.push((strays, found));
        }
    }
    // What can be done comes first; otherwise they keep the order of the table.
    met.sort_by_key(|(strays, found)| (found.why_not.is_some(), *strays));
    met.into_iter().map(|(_, found)| found).collect()
}

/// What stands under the list.
pub(crate) fn foot(ui: &mut Ui) {
    ui.add(Label::new(theme::quiet(ui, text!("arrow-keys-choose-enter-does-it"))).wrap());
}
