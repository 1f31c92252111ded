//! Several photos, and what a crash leaves.

use crate::harness::{Window, surface};
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::Queryable as _;
use poreline::session::{FrameStanding, Step};
use std::path::{Path, PathBuf};
use tempfile::TempDir;

fn photos_in(folder: &TempDir) -> Vec<PathBuf> {
    ["left.png", "right.png"]
        .into_iter()
        .map(|name| {
            let path = folder.path().join(name);
            surface().save(&path).expect("a photo");
            path
        })
        .collect()
}

fn present(window: &Window) -> Option<usize> {
    window.harness.state().session().present_frame()
}

fn standings(window: &Window) -> Vec<FrameStanding> {
    let frames = window.harness.state().session().frames().into_iter();
    frames.map(|frame| frame.standing).collect()
}

#[test]
fn one_photo_has_no_strip_and_several_have_one() {
    let folder = TempDir::new().expect("a folder");
    let one = Window::with(vec![photos_in(&folder).remove(0)]);
    assert!(!one.has_button("left.png, needs its scale"));
    let two = Window::with(photos_in(&folder));
    assert!(two.has_button("left.png, needs its scale"));
    assert!(two.has_button("right.png, not opened yet"));
}

#[test]
fn keys_and_clicks_go_from_photo_to_photo_and_nothing_is_lost() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(photos_in(&folder));
    window.set_scale();
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");
    assert_eq!(
        standings(&window),
        [FrameStanding::Measured, FrameStanding::Unopened]
    );
    window.key(Key::PageDown);
    assert_eq!(present(&window), Some(1));
    assert_eq!(standings(&window)[1], FrameStanding::NeedsScale);
    window.key(Key::PageDown);
    assert_eq!(present(&window), Some(1), "there is none after the last");
    window.press(Role::Button, "left.png, measured, not saved");
    assert_eq!(present(&window), Some(0));
    assert!(window.harness.state().session().results().is_some());
    window.press(Role::Button, "Scale for all");
    window.key(Key::PageDown);
    assert_eq!(standings(&window)[1], FrameStanding::Ready);
    assert!(window.shows("carried over to one other photo") || window.shows("carried over to 1"));
}

#[test]
fn a_photo_with_findings_is_taken_out_after_asking_only() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(photos_in(&folder));
    window.set_scale();
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");
    window.key(Key::PageDown);
    let close = |window: &mut Window, name: &str| {
        window
            .harness
            .get_by_role_and_label(Role::Button, name)
            .focus();
        window.harness.run();
        window.key(Key::Delete);
    };
    close(&mut window, "left.png, measured, not saved");
    assert!(window.shows("Closing the photo would lose what was measured on left.png"));
    window.press(Role::Button, "Cancel");
    assert_eq!(standings(&window).len(), 2);
    close(&mut window, "left.png, measured, not saved");
    window.press(Role::Button, "Discard");
    assert_eq!(standings(&window), [FrameStanding::NeedsScale]);
}

/// What is in a folder as it would be had the program been killed.
fn copied(from: &Path, to: &Path) {
    for entry in std::fs::read_dir(from).expect("a folder").flatten() {
        if entry
            .path()
            .extension()
            .is_some_and(|ending| ending == "json")
        {
            std::fs::copy(entry.path(), to.join(entry.file_name())).expect("a copy");
        }
    }
}

#[test]
fn what_a_crash_left_is_offered_and_taken_up() {
    let folder = TempDir::new().expect("a folder");
    let (safe, left) = (
        TempDir::new().expect("a folder"),
        TempDir::new().expect("a folder"),
    );
    let mut window = Window::kept_safe(photos_in(&folder), safe.path());
    window.set_scale();
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");
    window.await_written(safe.path(), "\"is_measured\":true");
    copied(safe.path(), left.path());
    drop(window);
    assert_eq!(
        std::fs::read_dir(safe.path()).expect("a folder").count(),
        0,
        "a program that came to its end left something"
    );

    let mut window = Window::kept_safe(Vec::new(), left.path());
    assert!(window.shows("Poreline did not come to its end last time"));
    assert!(window.shows("left.png"));
    window.press(Role::Button, "Go on where it stopped");
    assert_eq!(
        standings(&window),
        [FrameStanding::Measured, FrameStanding::Unopened]
    );
    assert!(window.shows("pores per mm") || window.shows("per mm"));
}
