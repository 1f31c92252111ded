//! The finder, the guide, and what a person likes.

use crate::harness::{Window, photo_in};
use egui::accesskit::Role;
use egui::{Key, Modifiers, Vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use poreline::session::Step;
use tempfile::TempDir;

pub fn find(window: &mut Window, typed: &str) {
    window
        .harness
        .key_press_modifiers(Modifiers::COMMAND, Key::K);
    window.settle();
    window.field("What do you want to do?").type_text(typed);
    window.settle();
}

#[test]
fn what_is_typed_is_found_and_done() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    find(&mut window, "pores step");
    window.key(Key::Enter);
    assert!(window.has_button("Measure"));
    assert!(!window.shows("What do you want to do?"));
    // What cannot be done says why, and does nothing.
    find(&mut window, "measure count");
    assert!(window.shows("Set the scale first"));
    window.key(Key::Enter);
    assert!(window.shows("What do you want to do?"));
    window.key(Key::Escape);
    find(&mut window, "keys");
    window.key(Key::Enter);
    assert!(window.shows("Ctrl+M"));
}

#[test]
fn arrow_keys_choose_in_the_finder() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    find(&mut window, "scale from");
    window.key(Key::ArrowDown);
    window.key(Key::Enter);
    let way = window.harness.state().session().document().scale.way;
    assert_eq!(way, poreline::session::ScaleWay::Ruler);
}

#[test]
fn the_guide_leads_through_a_first_measuring_by_watching() {
    let mut window = Window::with(Vec::new());
    window.press(Role::Button, "Try it on a sample photo");
    assert!(window.shows("Guide, 1 of 7"));
    // Where the bar lies on the sample photo: sample-images/truth.json.
    window.click_photo(1296.0, 1136.0);
    assert!(window.shows("Guide, 1 of 7"));
    window.click_photo(1504.0, 1136.0);
    assert!(window.shows("Guide, 2 of 7"));
    window.type_into("Length between the ends", "2 mm");
    assert!(window.shows("Guide, 3 of 7"));
    window.go(Step::Area);
    window.drag_photo((100.0, 80.0), (1400.0, 980.0));
    assert!(window.shows("Guide, 4 of 7"));
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");
    assert!(window.shows("Guide, 5 of 7"));
    window.press(Role::Button, "Next");
    assert!(window.shows("Guide, 6 of 7"));
    window.press(Role::Button, "Leave the guide");
    assert!(!window.shows("Guide, "));
}

#[test]
fn text_grows_and_shrinks_and_stays_so() {
    let folder = TempDir::new().expect("a folder");
    let file = folder.path().join("preferences.json");
    let mut window = Window::liking(Vec::new(), &file);
    window.press(Role::Button, "Preferences…");
    window.press(Role::Button, "Larger text");
    window.press(Role::Button, "Larger text");
    assert!(window.shows("120 %"));
    window.press(Role::RadioButton, "Dark");
    window.press(Role::CheckBox, "Nothing moves by itself");
    window.press(Role::Button, "Close");
    drop(window);
    let mut window = Window::liking(Vec::new(), &file);
    assert!((window.harness.ctx.zoom_factor() - 1.2).abs() < 1e-3);
    assert!(window.harness.ctx.global_style().animation_time < 1e-6);
    assert_eq!(window.harness.ctx.theme(), egui::Theme::Dark);
    window
        .harness
        .key_press_modifiers(Modifiers::COMMAND, Key::Minus);
    window.settle();
    assert!((window.harness.ctx.zoom_factor() - 1.1).abs() < 1e-3);
}

#[test]
fn photos_opened_before_are_offered_and_missing_ones_are_told() {
    let folder = TempDir::new().expect("a folder");
    let file = folder.path().join("preferences.json");
    let photo = photo_in(&folder);
    drop(Window::liking(vec![photo.clone()], &file));
    let mut window = Window::liking(Vec::new(), &file);
    window.press(Role::Button, "lattice.png");
    assert!(window.harness.state().session().document().photo.is_some());
    std::fs::remove_file(&photo).expect("removed");
    let window = Window::liking(Vec::new(), &file);
    let line = window
        .harness
        .get_by_role_and_label(Role::Button, "lattice.png");
    assert!(line.accesskit_node().is_disabled());
}

#[test]
fn a_window_too_narrow_for_the_findings_shows_them_when_asked() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::measured(&folder);
    assert!(window.shows("per mm") && !window.has_button("Show the findings"));
    window.harness.set_size(Vec2::new(640.0, 400.0));
    window.settle();
    let canvas = window.canvas();
    assert!(
        canvas.width() > 250.0 && canvas.height() > 150.0,
        "{canvas:?}"
    );
    window.press(Role::Button, "Show the findings");
    assert!(window.has_button("Hide the findings"));
    assert!(window.shows("95 %"));
}
