//! What a person likes, at the largest text; and the words of the trade.

use crate::harness::{Window, photo_in, surface};
use egui::accesskit::Role;
use egui::{Key, Rect, Vec2, pos2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;

/// A window of 1280 × 800 at a text size of 200 %, points.
const AT_200: Vec2 = Vec2::new(640.0, 400.0);

/// Gives a control the keyboard and tells whether all of it is seen then.
fn is_seen_with_the_keyboard(window: &mut Window, role: Role, name: &str) -> bool {
    let control = |window: &Window| {
        let all = window.harness.get_all_by_role_and_label(role, name);
        all.last().expect("a control").rect()
    };
    let all = window.harness.get_all_by_role_and_label(role, name);
    all.last().expect("a control").focus();
    window.settle();
    let screen = Rect::from_min_size(pos2(0.0, 0.0), AT_200);
    screen.contains_rect(control(window))
}

#[test]
fn every_sheet_from_the_foot_can_be_worked_and_closed_at_the_largest_text() {
    let mut window = Window::with(Vec::new());
    window.harness.set_size(AT_200);
    window.settle();
    for (button, controls) in [
        (
            "Preferences…",
            &[
                (Role::Button, "Larger text"),
                (Role::RadioButton, "Dark"),
                (Role::CheckBox, "Nothing moves by itself"),
            ][..],
        ),
        ("Words…", &[]),
        ("Keys", &[]),
    ] {
        assert!(is_seen_with_the_keyboard(&mut window, Role::Button, button));
        window.key(Key::Enter);
        for (role, name) in controls.iter().chain(&[(Role::Button, "Close")]) {
            let is_seen = is_seen_with_the_keyboard(&mut window, *role, name);
            assert!(is_seen, "{name} under {button}");
        }
        window.key(Key::Enter);
        assert!(!window.has_button("Close"), "{button}");
    }
}

#[test]
fn the_first_photo_can_be_chosen_at_the_largest_text() {
    let mut window = Window::with(Vec::new());
    window.harness.set_size(AT_200);
    window.settle();
    for name in ["Choose photos…", "Try it on a sample photo"] {
        let is_seen = is_seen_with_the_keyboard(&mut window, Role::Button, name);
        assert!(is_seen, "{name}");
    }
}

#[test]
fn the_empty_window_offers_photos_that_are_there_and_says_which_are_not() {
    let folder = TempDir::new().expect("a folder");
    let file = folder.path().join("preferences.json");
    let gone = folder.path().join("gone.png");
    surface().save(&gone).expect("a photo on disk");
    let photos = vec![gone.clone(), photo_in(&folder)];
    for photo in photos {
        drop(Window::liking(vec![photo], &file));
    }
    std::fs::remove_file(&gone).expect("removed");

    let mut window = Window::liking(Vec::new(), &file);
    let offers = |window: &Window, name| {
        let all = window
            .harness
            .query_all_by_role_and_label(Role::Button, name);
        all.filter(|button| !button.accesskit_node().is_disabled())
            .count()
    };
    // In the step and in the middle.
    assert_eq!(offers(&window, "lattice.png"), 2);
    assert_eq!(offers(&window, "gone.png"), 0);
    assert!(window.shows("Not there any more"));
    window.press(Role::Button, "lattice.png");
    let session = window.harness.state().session();
    assert!(session.document().photo.is_some());
}

#[test]
fn a_figure_tells_the_word_of_the_trade_behind_it_to_the_keyboard() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::measured(&folder);
    let (name, told) = ("Wall thickness", "the tissue between hollows");
    let label = window.harness.get_by_role_and_label(Role::Label, name);
    let description = label.accesskit_node().description();
    assert!(description.is_some_and(|text| text.contains(told)));
    let times = |window: &Window| window.harness.query_all_by_label_contains(told).count();
    let before = times(&window);

    label.focus();
    window.settle();
    assert_eq!(times(&window), before + 1);
    window.key(Key::Escape);
    assert_eq!(times(&window), before);
}

#[test]
fn at_the_largest_text_findings_and_photo_take_turns_and_both_have_room() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::measured(&folder);
    window.harness.set_size(AT_200);
    window.settle();
    window.press(Role::Button, "Show the findings");
    let figure = window
        .harness
        .get_by_role_and_label(Role::Label, "Wall thickness");
    figure.focus();
    window.settle();
    let screen = Rect::from_min_size(pos2(0.0, 0.0), AT_200);
    let figure = window
        .harness
        .get_by_role_and_label(Role::Label, "Wall thickness")
        .rect();
    assert!(screen.contains_rect(figure), "{figure:?}");
    assert!(!window.shows("Photo lattice.png"));
    // Who wants the photo sees it.
    window.key(Key::Escape);
    window.key(Key::P);
    assert!(window.canvas().width() > 250.0);
    assert!(window.has_button("Show the findings"));
}
