//! The window in other languages than English. What it speaks holds for a whole program, so this has a
//! program of its own, and one test that goes through all of it.

#[path = "window/harness.rs"]
#[expect(dead_code, reason = "the other window tests use the rest")]
mod harness;

use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable as _;
use harness::{SPACING, Window, photo_in};
use poreline::session::Step;
use poreline::wording::{self, Language};
use tempfile::TempDir;

#[test]
fn the_window_speaks_the_language_that_is_preferred_and_changes_it_at_once() {
    let folder = TempDir::new().expect("a folder");
    let file = folder.path().join("preferences.json");
    std::fs::write(
        &file,
        r#"{"schema": "poreline-preferences/1", "language": "de"}"#,
    )
    .expect("a file");
    let mut window = Window::liking(vec![photo_in(&folder)], &file);
    assert_eq!(wording::spoken(), Language::German);

    window.go(Step::Scale);
    window.click_photo_freely(100.0, 100.0);
    window.click_photo_freely(100.0 + 10.0 * SPACING, 100.0);
    // A decimal comma is typed in German.
    window.type_into("Länge zwischen den Enden", "2,5 mm");
    assert!(
        window
            .harness
            .state()
            .session()
            .document()
            .scale
            .scale()
            .is_some()
    );
    window.go(Step::Pores);
    window.press(Role::Button, "Messen");
    assert!(window.shows("Porig"));
    let figure = |window: &Window| {
        let results = window.harness.state().session().results();
        let headline = results.and_then(|results| results.readout.headline.as_ref());
        headline.expect("a figure").figure.clone()
    };
    let german = figure(&window);
    assert!(german.ends_with("Poren je mm"), "{german}");
    assert!(german.contains(','), "{german}");

    // By German words, and still by English ones.
    for typed in ["dunkle", "dark"] {
        window
            .harness
            .key_press_modifiers(Modifiers::COMMAND, Key::K);
        window.settle();
        window.type_into("Was möchten Sie tun?", typed);
        assert!(window.shows("Dunkle Farben"), "{typed}");
        window.key(Key::Escape);
    }

    window.press(Role::Button, "Einstellungen…");
    window.press(Role::RadioButton, "Español");
    assert_eq!(wording::spoken(), Language::Spanish);
    assert!(window.shows("Idioma"));
    window.press(Role::Button, "Cerrar");
    let spanish = figure(&window);
    assert_eq!(spanish, german.replace("Poren je", "poros por"));

    // It is kept from one start to the next.
    drop(window);
    let window = Window::liking(Vec::new(), &file);
    window
        .harness
        .get_by_role_and_label(Role::Button, "Elegir fotos…");
}
