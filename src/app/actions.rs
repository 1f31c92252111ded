//! Everything that can be done by name or by a shortcut: one table for the keys, for the finder, for the
//! list of shortcuts and for the words beside controls.

use super::Wish;
use super::canvas::{self, Look};
use super::dialog::Purpose;
use super::files::File;
use super::record::View;
use super::sheets::Sheet;
use crate::session::{BookCommand, Colours, Command, Export, ScaleWay, Session, Step, Work};
use crate::wording::{self, text};
use egui::{Context, Key, KeyboardShortcut, Modifiers};

/// Something that can be done.
pub(crate) struct Action {
    /// The id of the text that names it; the text bears other words that it may be looked for by.
    pub(crate) id: &'static str,
    /// Its shortcut; one without Ctrl counts only while nothing is typed into a field.
    pub(crate) shortcut: Option<KeyboardShortcut>,
    why_not: fn(&Session) -> Option<String>,
    wishes: fn(&Session) -> Vec<Wish>,
}

const fn ctrl(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND, key)
}

const fn plain(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::NONE, key)
}

fn always(_: &Session) -> Option<String> {
    None
}

fn with_photo(session: &Session) -> Option<String> {
    let has_photo = session.document().photo.is_some();
    (!has_photo).then(|| text!("open-a-photo-first").to_owned())
}

fn with_book(session: &Session) -> Option<String> {
    let has_book = session.record().book().is_some();
    (!has_book).then(|| text!("open-a-book-first").to_owned())
}

fn with_findings(session: &Session) -> Option<String> {
    session.why_not_save().map(str::to_owned)
}

fn with_outlines(session: &Session) -> Option<String> {
    let has_outlines = canvas::has_outlines(session);
    (!has_outlines).then(|| text!("nothing-is-outlined-yet").to_owned())
}

fn look(look: Look) -> Vec<Wish> {
    vec![Wish::Show(View::Photo), Wish::Look(look)]
}

fn go(step: Step) -> Vec<Wish> {
    vec![Wish::Go(step)]
}

fn scale_by(way: ScaleWay) -> Vec<Wish> {
    vec![
        Wish::Do(Command::EndAct),
        Wish::Do(Command::UseScaleWay(way)),
        Wish::Go(Step::Scale),
    ]
}

fn book_view(view: View) -> Vec<Wish> {
    vec![Wish::Go(Step::Record), Wish::Show(view)]
}

fn book(command: BookCommand) -> Vec<Wish> {
    vec![Wish::Go(Step::Record), Wish::Book(command)]
}

fn neighbour(session: &Session, is_next: bool) -> Option<String> {
    let there_is_none = session.neighbour_frame(is_next).is_none();
    there_is_none.then(|| text!("there-is-no-other-photo-on").to_owned())
}

fn to_neighbour(session: &Session, is_next: bool) -> Vec<Wish> {
    let frame = session.neighbour_frame(is_next);
    frame
        .map(|frame| Wish::Do(Command::GoToFrame(frame)))
        .into_iter()
        .collect()
}

fn colours(session: &Session, colours: Colours) -> Vec<Wish> {
    let preferences = session.preferences().in_colours(colours);
    vec![Wish::Prefer(Box::new(preferences))]
}

fn resize(session: &Session, is_larger: bool) -> Vec<Wish> {
    let preferences = session.preferences().resized(is_larger);
    vec![Wish::Prefer(Box::new(preferences))]
}

macro_rules! action {
    ($id:literal, $shortcut:expr, $why_not:expr, $wishes:expr) => {
        Action {
            id: $id,
            shortcut: $shortcut,
            why_not: $why_not,
            wishes: $wishes,
        }
    };
}

/// All of it, in the order in which it is listed.
pub(crate) const ALL: &[Action] = &[
    action!("do-find-what-to-do", Some(ctrl(Key::K)), always, |_| {
        vec![Wish::Lay(Sheet::Finder)]
    }),
    action!("do-open-photos", Some(ctrl(Key::O)), always, |_| {
        vec![Wish::AskOpen]
    }),
    action!(
        "do-next-photo",
        Some(plain(Key::PageDown)),
        |s| neighbour(s, true),
        |s| { to_neighbour(s, true) }
    ),
    action!(
        "do-photo-before",
        Some(plain(Key::PageUp)),
        |s| neighbour(s, false),
        |s| { to_neighbour(s, false) }
    ),
    action!("do-take-this-photo-out-of-the", None, with_photo, |s| {
        let frame = s.present_frame();
        frame.map(Wish::CloseFrame).into_iter().collect()
    }),
    action!(
        "do-go-to-step-1-photo",
        Some(plain(Key::Num1)),
        always,
        |_| go(Step::Photo)
    ),
    action!(
        "do-go-to-step-2-scale",
        Some(plain(Key::Num2)),
        always,
        |_| go(Step::Scale)
    ),
    action!(
        "do-go-to-step-3-area",
        Some(plain(Key::Num3)),
        always,
        |_| go(Step::Area)
    ),
    action!(
        "do-go-to-step-4-pores",
        Some(plain(Key::Num4)),
        always,
        |_| go(Step::Pores)
    ),
    action!(
        "do-go-to-step-5-record",
        Some(plain(Key::Num5)),
        always,
        |_| { go(Step::Record) }
    ),
    action!(
        "do-measure",
        Some(ctrl(Key::M)),
        |s| s.why_not_measure().map(str::to_owned),
        |_| vec![Wish::Do(Command::Measure), Wish::Go(Step::Pores)]
    ),
    action!("do-measure-a-folder", None, always, |_| vec![
        Wish::ToFolder
    ]),
    action!(
        "do-stop-what-is-under-way",
        None,
        |s| (*s.work() == Work::Idle).then(|| text!("nothing-is-under-way").to_owned()),
        |_| vec![Wish::Do(Command::Cancel)]
    ),
    action!(
        "do-save",
        Some(ctrl(Key::S)),
        |s| {
            if s.has_unsaved_voucher() {
                None
            } else {
                with_findings(s)
            }
        },
        |s| {
            if s.has_unsaved_voucher() {
                book(BookCommand::Save)
            } else {
                vec![Wish::AskSave(File::Findings(Export::Findings))]
            }
        }
    ),
    action!(
        "do-save-the-findings-without-a-file",
        None,
        with_findings,
        |_| vec![Wish::SaveInFolder(File::Findings(Export::Findings))]
    ),
    action!("do-save-the-table-of-pores", None, with_findings, |_| {
        vec![Wish::AskSave(File::Findings(Export::PoreTable))]
    }),
    action!(
        "do-save-the-picture-with-outlines-and",
        None,
        with_findings,
        |_| vec![Wish::AskSave(File::Findings(Export::Overlay))]
    ),
    action!(
        "do-undo",
        Some(ctrl(Key::Z)),
        |s| (!s.can_undo()).then(|| text!("there-is-nothing-to-take-back").to_owned()),
        |_| vec![Wish::Do(Command::Undo)]
    ),
    action!(
        "do-redo",
        Some(KeyboardShortcut::new(
            Modifiers::COMMAND.plus(Modifiers::SHIFT),
            Key::Z
        )),
        |s| (!s.can_redo()).then(|| text!("nothing-was-taken-back").to_owned()),
        |_| vec![Wish::Do(Command::Redo)]
    ),
    action!("do-scale-from-two-points", None, with_photo, |_| {
        scale_by(ScaleWay::Points)
    }),
    action!("do-scale-from-a-scale-bar", None, with_photo, |_| {
        scale_by(ScaleWay::Bar)
    }),
    action!("do-scale-from-a-ruler", None, with_photo, |_| {
        scale_by(ScaleWay::Ruler)
    }),
    action!("do-scale-from-the-scale-card", None, with_photo, |_| {
        scale_by(ScaleWay::Card)
    }),
    action!("do-scale-from-the-corners-of-a", None, with_photo, |_| {
        scale_by(ScaleWay::Corners)
    }),
    action!("do-scale-from-a-saved-set-up", None, with_photo, |_| {
        scale_by(ScaleWay::SetUp)
    }),
    action!("do-scale-from-what-the-file-says", None, with_photo, |_| {
        scale_by(ScaleWay::Stated)
    }),
    action!("do-type-the-scale", None, with_photo, |_| {
        scale_by(ScaleWay::Typed)
    }),
    action!("do-mark-something-white", None, with_photo, |_| {
        vec![Wish::Go(Step::Scale), Wish::MarkWhite]
    }),
    action!(
        "do-give-this-photos-scale-to-all",
        None,
        Session::why_not_carry_scale,
        |_| vec![Wish::Do(Command::CarryScaleOver)]
    ),
    action!(
        "do-give-this-photos-area-to-all",
        None,
        |s| s.why_not_carry_area().map(str::to_owned),
        |_| vec![Wish::Do(Command::CarryAreaOver)]
    ),
    action!("do-measure-the-whole-photo", None, with_photo, |_| {
        vec![
            Wish::Do(Command::EndAct),
            Wish::Do(Command::ClearOutline),
            Wish::Go(Step::Area),
        ]
    }),
    action!("do-leave-nothing-out", None, with_photo, |_| {
        vec![
            Wish::Do(Command::EndAct),
            Wish::Do(Command::ClearLeftOut),
            Wish::Go(Step::Area),
        ]
    }),
    action!(
        "do-take-all-corrections-away",
        None,
        |s| (s.document().corrections.is_empty())
            .then(|| text!("nothing-was-corrected").to_owned()),
        |_| vec![Wish::Do(Command::ClearCorrections), Wish::Go(Step::Pores)]
    ),
    action!("do-open-a-book", None, always, |_| {
        vec![Wish::Go(Step::Record), Wish::AskFolder(Purpose::Book)]
    }),
    action!("do-open-the-demo-book", None, always, |_| {
        book(BookCommand::MakeDemo)
    }),
    action!("do-show-the-book", None, with_book, |_| book_view(
        View::Book
    )),
    action!("do-show-the-walks", None, with_book, |_| {
        book_view(View::Walks)
    }),
    action!("do-new-voucher", None, with_book, |_| book(
        BookCommand::New
    )),
    action!(
        "do-attach-these-findings-to-the-voucher",
        None,
        |s| s.why_not_attach().map(str::to_owned),
        |_| vec![Wish::Go(Step::Record), Wish::Attach]
    ),
    action!("do-compare-with-published-ranges", None, always, |_| {
        let mut wishes = book(BookCommand::Compare);
        wishes.push(Wish::Show(View::Ranges));
        wishes
    }),
    action!("do-check-the-book", None, with_book, |_| book(
        BookCommand::Check
    )),
    action!("do-show-the-photo", Some(plain(Key::P)), with_photo, |_| {
        vec![Wish::Show(View::Photo), Wish::KeyboardToPhoto]
    }),
    action!(
        "do-show-all-of-the-photo",
        Some(plain(Key::F)),
        with_photo,
        |_| look(Look::Fit)
    ),
    action!(
        "do-turn-the-photo-right",
        Some(plain(Key::R)),
        with_photo,
        |_| look(Look::TurnRight)
    ),
    action!(
        "do-turn-the-photo-left",
        Some(KeyboardShortcut::new(Modifiers::SHIFT, Key::R)),
        with_photo,
        |_| look(Look::TurnLeft)
    ),
    action!("do-turn-the-photo-upright", None, with_photo, |_| look(
        Look::Upright
    )),
    action!("do-show-outlines-or-not", None, with_outlines, |_| look(
        Look::Outlines
    )),
    action!(
        "do-show-half-without-outlines",
        Some(plain(Key::W)),
        with_outlines,
        |_| look(Look::HalfWithout)
    ),
    action!(
        "do-show-the-loupe-or-not",
        Some(plain(Key::L)),
        with_photo,
        |_| look(Look::Loupe)
    ),
    action!("do-show-the-scale-bar-or-not", None, with_photo, |_| look(
        Look::ScaleBar
    )),
    action!("do-words-of-the-trade", None, always, |_| {
        vec![Wish::Lay(Sheet::Terms)]
    }),
    action!("do-preferences", None, always, |_| {
        vec![Wish::Lay(Sheet::Preferences)]
    }),
    action!("do-larger-text", Some(ctrl(Key::Plus)), always, |s| resize(
        s, true
    )),
    action!("do-smaller-text", Some(ctrl(Key::Minus)), always, |s| {
        resize(s, false)
    }),
    action!("do-light-colours", None, always, |s| colours(
        s,
        Colours::Light
    )),
    action!("do-dark-colours", None, always, |s| colours(
        s,
        Colours::Dark
    )),
    action!("do-colours-as-the-system-has-them", None, always, |s| {
        colours(s, Colours::System)
    }),
    action!("do-measure-a-sample-photo-step-by", None, always, |_| vec![
        Wish::BeginGuide
    ]),
    action!("do-shortcuts", Some(plain(Key::F1)), always, |_| {
        vec![Wish::Lay(Sheet::Shortcuts)]
    }),
];

impl Action {
    /// What it is called.
    pub(crate) fn name(&self) -> &'static str {
        wording::said(self.id)
    }

    /// Why it cannot be done now; `None` when it can.
    pub(crate) fn why_not(&self, session: &Session) -> Option<String> {
        (self.why_not)(session)
    }

    /// What it wishes for.
    pub(crate) fn wishes(&self, session: &Session) -> Vec<Wish> {
        (self.wishes)(session)
    }

    /// How well it meets what is typed, the less the better; `None` where it does not.
    pub(crate) fn strays(&self, typed: &str) -> Option<u32> {
        strays(self.name(), &wording::beside(self.id), typed)
    }
}

/// A shortcut as it stands on the keys of the person's keyboard.
pub(crate) fn written(ctx: &Context, shortcut: KeyboardShortcut) -> String {
    let keys = ctx.format_shortcut(&shortcut);
    let keys: Vec<&str> = keys.split('+').map(wording::word).collect();
    keys.join("+")
}

/// The shortcut of an action, as this system writes it.
pub(crate) fn keys_of(ctx: &Context, id: &str) -> String {
    let action = ALL.iter().find(|action| action.id == id);
    let shortcut = action.and_then(|action| action.shortcut);
    shortcut.map_or_else(String::new, |shortcut| written(ctx, shortcut))
}

/// How far what is typed strays from a name and other words for it: each word typed has to begin one of
/// them, or to come close to one. Of names that are met alike the one that says least beside it is nearest.
pub(crate) fn strays(name: &str, words: &str, typed: &str) -> Option<u32> {
    let lower = |text: &str| text.to_lowercase();
    let (name, words) = (lower(name), lower(words));
    let typed = lower(typed);
    if typed.trim().is_empty() {
        return Some(0);
    }
    let beside = u32::try_from(name.split_whitespace().count()).unwrap_or(u32::MAX);
    let strays: Option<u32> = typed
        .split_whitespace()
        .map(|sought| {
            let begins = |text: &str| {
                text.split(|c: char| !c.is_alphanumeric())
                    .any(|word| word.starts_with(sought))
            };
            let is_near = |text: &str| {
                text.split(|c: char| !c.is_alphanumeric())
                    .any(|word| word.len() > 3 && strsim::osa_distance(word, sought) <= 1)
            };
            if begins(&name) {
                Some(0)
            } else if begins(&words) {
                Some(1)
            } else if sought.len() > 3 && (is_near(&name) || is_near(&words)) {
                Some(3)
            } else {
                None
            }
        })
        .sum();
    Some(100 * strays? + beside)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn words_are_met_by_their_beginnings_in_any_order_and_with_a_slip() {
        let found = |typed: &str| -> Vec<&str> {
            let mut met: Vec<(u32, &str)> = ALL
                .iter()
                .filter_map(|action| Some((action.strays(typed)?, action.name())))
                .collect();
            met.sort_by_key(|(strays, _)| *strays);
            met.into_iter().map(|(_, name)| name).collect()
        };
        assert_eq!(found("meas")[0], "Measure");
        assert_eq!(found("bar scale")[0], "Scale from a scale bar");
        assert_eq!(found("measrue")[0], "Measure");
        assert!(found("csv").contains(&"Save the table of pores"));
        assert!(found("quite another thing").is_empty());
        assert_eq!(found("").len(), ALL.len());
    }

    #[test]
    fn no_two_actions_share_a_name_or_a_shortcut() {
        let names: BTreeSet<&str> = ALL.iter().map(Action::name).collect();
        assert_eq!(names.len(), ALL.len());
        let shortcuts: Vec<KeyboardShortcut> =
            ALL.iter().filter_map(|action| action.shortcut).collect();
        for (i, one) in shortcuts.iter().enumerate() {
            assert!(!shortcuts[i + 1..].contains(one), "{one:?}");
        }
    }
}
