//! Pores corrected in the window, by pointer and by keyboard.

use crate::harness::{SPACING, Window, photo_in};
use egui::accesskit::Role;
use egui::{Key, Modifiers, Vec2};
use egui_kittest::kittest::Queryable as _;
use poreline::corrections::{Correction, File, Kind};
use poreline::session::Step;
use tempfile::TempDir;

/// The middle of a disc of the test photo: rows lie √3/2 spacings apart, every other one is shifted.
fn disc(column: u32, row: u32) -> (f64, f64) {
    let shift = if row.is_multiple_of(2) {
        0.0
    } else {
        SPACING / 2.0
    };
    (
        f64::from(column) * SPACING + shift,
        f64::from(row) * SPACING * 3_f64.sqrt() / 2.0,
    )
}

fn count(window: &Window) -> usize {
    let results = window.harness.state().session().results();
    let findings = &results.expect("results").measurement.findings;
    findings.pores.as_ref().expect("pores").count
}

fn kinds(window: &Window) -> Vec<Kind> {
    let corrections = &window.harness.state().session().document().corrections;
    corrections.by_hand.iter().map(Correction::kind).collect()
}

fn click(window: &mut Window, (x, y): (f64, f64)) {
    window.click_photo(x, y);
}

#[test]
fn each_tool_corrects_what_it_says_and_each_correction_can_be_taken_away() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::measured(&folder);
    // High enough for the list to be in view with all else.
    window.harness.set_size(Vec2::new(1280.0, 1400.0));
    window.settle();
    let before = count(&window);

    window.press(Role::Button, "Delete");
    click(&mut window, disc(10, 10));
    assert_eq!(count(&window), before - 1);
    window.press(Role::Button, "Join");
    window.drag_photo(disc(14, 12), disc(15, 12));
    assert_eq!(count(&window), before - 2);
    window.press(Role::Button, "Split");
    let (x, y) = disc(20, 16);
    window.drag_photo((x - 10.0, y), (x + 10.0, y));
    assert_eq!(count(&window), before - 1);
    window.press(Role::Button, "Draw");
    let (x, y) = disc(10, 10);
    for (dx, dy) in [(-5.0, -5.0), (5.0, -5.0), (5.0, 5.0), (-5.0, 5.0)] {
        click(&mut window, (x + dx, y + dy));
    }
    window.key(Key::Enter);
    assert_eq!(count(&window), before);
    assert_eq!(
        kinds(&window),
        [Kind::Delete, Kind::Join, Kind::Split, Kind::Draw]
    );
    assert!(window.shows("4 corrections by hand"));
    assert!(window.shows("1 joined, 1 split, 1 deleted, 1 drawn"));

    window.press(Role::Button, "Add");
    click(&mut window, disc(12, 10));
    assert!(window.shows("nothing there to act on"));
    for number in [5, 2] {
        // By keyboard: the list may have scrolled on, and follows it.
        let button = format!("Take away correction {number}");
        window
            .harness
            .get_by_role_and_label(Role::Button, &button)
            .focus();
        window.harness.run();
        window.key(Key::Space);
    }
    assert_eq!(kinds(&window), [Kind::Delete, Kind::Split, Kind::Draw]);
    assert_eq!(count(&window), before + 1);
    window.press(Role::Button, "Take all away");
    assert_eq!(count(&window), before);
    for left in [3, 4, 5, 4] {
        window
            .harness
            .key_press_modifiers(Modifiers::COMMAND, Key::Z);
        window.settle();
        assert_eq!(kinds(&window).len(), left);
    }
}

#[test]
fn a_pore_is_pointed_at_selected_and_deleted() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::measured(&folder);
    let before = count(&window);
    let (x, y) = disc(12, 10);
    window.harness.hover_at(window.on_screen(x, y));
    window.settle();
    let session = window.harness.state().session();
    let pore = session.pointed_at().expect("a pore under the pointer");
    let number = format!("Pore {}", pore + 1);
    assert!(window.shows(&number), "its figures stand by the pointer");
    assert!(window.shows("Elongation") && window.shows("Of the median"));
    click(&mut window, (x, y));
    assert!(
        window
            .harness
            .state()
            .session()
            .selected()
            .iter()
            .eq([&pore])
    );
    // Off every pore nothing is pointed at, and a click there selects nothing any more.
    window.key(Key::Delete);
    assert_eq!(count(&window), before - 1);
    assert!(window.harness.state().session().selected().is_empty());
    click(&mut window, disc(12, 12));
    assert_eq!(window.harness.state().session().selected().len(), 1);
    click(&mut window, (x, y));
    assert!(window.harness.state().session().selected().is_empty());
}

#[test]
fn the_keyboard_alone_splits_a_pore() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::measured(&folder);
    let before = count(&window);
    let tool = |window: &mut Window, name: &str| {
        let button = window.harness.get_by_role_and_label(Role::Button, name);
        button.focus();
        window.harness.run();
        window.key(Key::Space);
    };
    let photo = |window: &mut Window| {
        window.key(Key::P);
        // The crosshair begins in the middle of the photo, at (350, 250); the disc below it lies at (350, 260).
        for _ in 0..10 {
            window
                .harness
                .key_press_modifiers(Modifiers::SHIFT, Key::ArrowDown);
            window.harness.run();
        }
    };
    tool(&mut window, "Select");
    photo(&mut window);
    window.key(Key::Enter);
    let session = window.harness.state().session();
    assert_eq!(session.selected().len(), 1, "the pore in the middle");
    tool(&mut window, "Split");
    photo(&mut window);
    for _ in 0..12 {
        window
            .harness
            .key_press_modifiers(Modifiers::SHIFT, Key::ArrowLeft);
        window.harness.run();
    }
    window.key(Key::Enter);
    for _ in 0..24 {
        window
            .harness
            .key_press_modifiers(Modifiers::SHIFT, Key::ArrowRight);
        window.harness.run();
    }
    window.key(Key::Enter);
    assert_eq!(kinds(&window), [Kind::Split]);
    assert_eq!(count(&window), before + 1);
}

#[test]
fn walls_are_set_by_the_slider_and_set_back() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::measured(&folder);
    let least_wall = |window: &Window| {
        let document = window.harness.state().session().document();
        document.corrections.least_wall.multiple()
    };
    let slider = window
        .harness
        .get_by_role_and_label(Role::Slider, "Walls that part pores");
    slider.focus();
    window.harness.run();
    window.key(Key::ArrowRight);
    assert!(least_wall(&window) > 1.0);
    assert!(window.shows("times the usual height"));
    let results = window.harness.state().session().results().expect("results");
    let notes = &results.measurement.findings.notes;
    assert!(notes.iter().any(|note| note.code == "least-wall"));
    window.press(Role::Button, "Usual");
    assert!((least_wall(&window) - 1.0).abs() < 1e-12);
    assert!(window.shows("As usual"));
}

#[test]
fn corrections_saved_from_the_window_are_made_again_on_the_command_line_to_the_byte() {
    let folder = TempDir::new().expect("a folder");
    let photo = photo_in(&folder);
    let mut window = Window::with(vec![photo.clone()]);
    window.press(Role::RadioButton, "Type pixels per millimetre");
    window.type_into("Pixels per millimetre", "80");
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");
    assert!(!window.has_button("Save corrections (JSON)…"));
    window.press(Role::Button, "Join");
    window.drag_photo(disc(14, 12), disc(15, 12));
    window.press(Role::Button, "Delete");
    click(&mut window, disc(10, 10));
    window.go(Step::Record);
    assert!(window.has_button("Save corrections (JSON)…"));
    window.press(Role::DisclosureTriangle, "Without a file dialog");
    for file in ["Corrections (JSON)", "Findings (JSON)"] {
        window.press(Role::Button, file);
    }
    let corrections = folder.path().join("lattice-corrections.json");
    let read = File::load(&corrections).expect("corrections").corrections();
    assert_eq!(read.by_hand.len(), 2);

    let out = assert_cmd::Command::cargo_bin("poreline")
        .expect("the program")
        .arg("measure")
        .arg(&photo)
        .args(["--px-per-mm", "80", "--json", "--corrections"])
        .arg(&corrections)
        .assert()
        .success();
    let saved = std::fs::read(folder.path().join("lattice-findings.json")).expect("findings");
    let [ours, theirs] = [&saved, &out.get_output().stdout]
        .map(|bytes| serde_json::from_slice::<serde_json::Value>(bytes).expect("JSON"));
    assert!(ours["corrections"]["joined"] == 1 && ours["corrections"]["deleted"] == 1);
    assert_eq!(ours.to_string(), theirs.to_string());
}
