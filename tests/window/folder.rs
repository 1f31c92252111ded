//! A folder of photos measured from the window.

use super::comfort::find;
use super::harness::{Window, photo_in, surface};
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::Queryable as _;
use image::imageops;
use poreline::session::Step;
use std::fs;
use std::thread;
use std::time::{Duration, Instant};
use tempfile::TempDir;

const SECTION: &str = "A folder of photos";
const MEASURE: &str = "Measure the folder";

/// Two photos and a file that is none.
fn drawer() -> TempDir {
    let folder = TempDir::new().expect("a folder");
    photo_in(&folder);
    let turned = imageops::rotate180(&surface());
    turned
        .save(folder.path().join("turned.png"))
        .expect("a photo");
    fs::write(folder.path().join("bad.png"), "no photo").expect("a file");
    folder
}

fn measured(window: &mut Window) {
    // It lies below what a pointer could reach without rolling.
    window
        .harness
        .get_by_role_and_label(Role::Button, MEASURE)
        .click_accesskit();
    window.settle();
    let deadline = Instant::now() + Duration::from_mins(2);
    while window.harness.state().session().folder_progress().is_some() {
        assert!(window.has_button("Stop"));
        assert!(Instant::now() < deadline, "it never ended");
        thread::sleep(Duration::from_millis(20));
        window.settle();
    }
}

#[test]
fn a_folder_is_measured_as_the_open_photo_is() {
    let folder = drawer();
    let mut window = Window::with(vec![folder.path().join("lattice.png")]);
    window.go(Step::Photo);
    window.press(Role::DisclosureTriangle, SECTION);
    assert!(window.shows("Set the scale first"));
    window.set_scale();
    window.go(Step::Photo);
    let photos = folder.path().display().to_string();
    window.type_into("Folder of photos", &photos);
    let results = TempDir::new().expect("a folder");
    let into = results.path().join("found");
    window.type_into("Folder for the results", &into.display().to_string());
    measured(&mut window);

    assert!(window.shows("2 photos of the folder measured"));
    assert!(window.has_button("Open the contact sheet"));
    assert!(into.join("contact-sheet.html").is_file());
    let table = fs::read_to_string(into.join("summary.csv")).expect("a table");
    assert_eq!(table.lines().count(), 3, "{table}");
    let failures = fs::read_to_string(into.join("failures.csv")).expect("a table");
    assert!(failures.contains("bad.png"), "{failures}");
}

#[test]
fn what_is_found_by_name_opens_the_folder_and_has_the_keyboard() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    find(&mut window, "folder of photos");
    window.key(Key::Enter);
    assert_eq!(window.focused().as_deref(), Some("Folder of photos"));
}
