//! Scales that are carried over from another photo or stated by the file, scales that are asked about,
//! and the white that colours are referred to.

use super::harness::{Window, photo_in, surface};
use super::scale::{choose, close, measure, redo, scale, setting, tilted_in, undo};
use egui::accesskit::Role;
use egui::{Key, Vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use image::{Luma, imageops};
use poreline::card::layout::CARDS;
use poreline::colour::WhiteSource;
use poreline::scale::How;
use poreline::session::{ScaleStanding, Step, StepStanding};
use std::fs;
use std::io::BufWriter;
use std::path::PathBuf;
use tempfile::TempDir;

const KEEP: &str = "Save this scale as a set-up";

/// A window with the photo, its set-ups in the same folder.
fn window_in(folder: &TempDir) -> Window {
    Window::with_set_ups(vec![photo_in(folder)], folder.path().join("set-ups"))
}

/// The full name of the radio button whose name begins so.
fn radio(window: &Window, begins: &str) -> Option<String> {
    let mut radios = window.harness.query_all_by_role(Role::RadioButton);
    radios.find_map(|node| {
        let label = node.accesskit_node().label()?;
        label.starts_with(begins).then_some(label)
    })
}

/// With the scale set by two points and saved as the set-up `stand`, all by the keyboard.
fn with_stand(folder: &TempDir) -> Window {
    let mut window = window_in(folder);
    window.set_scale();
    window.press(Role::DisclosureTriangle, KEEP);
    window.type_into("Name of the set-up", "stand");
    window.key(Key::Enter);
    assert!(window.shows("Saved the set-up “stand”"));
    window
}

#[test]
fn a_scale_is_saved_as_a_set_up_and_serves_the_next_photo() {
    let folder = TempDir::new().expect("a folder");
    let saved = scale(&with_stand(&folder));

    let mut window = window_in(&folder);
    choose(&mut window, "A saved set-up");
    assert!(window.shows("Pick one of the saved set-ups"));
    let stand = radio(&window, "stand: ").expect("the set-up is listed");
    window.press(Role::RadioButton, &stand);
    let found = scale(&window);
    assert_eq!(found.how, How::SetUp);
    close(found.px_per_mm, saved.px_per_mm, 1e-12);
    close(
        found.standard_uncertainty,
        saved.standard_uncertainty,
        1e-12,
    );
    assert!(window.shows("from a set-up"));
    assert!(window.shows("The scale was carried over from lattice.png"));
    assert!(!window.shows(KEEP), "it is saved already");
    undo(&mut window);
    assert!(setting(&window).set_up.is_none());
    redo(&mut window);
    close(measure(&mut window), 4.0, 0.02);
}

#[test]
fn a_set_up_is_replaced_only_when_told_and_its_name_must_be_one() {
    let folder = TempDir::new().expect("a folder");
    let mut window = with_stand(&folder);
    let file = folder.path().join("set-ups").join("stand.json");
    let before = fs::read(&file).expect("a file");
    choose(&mut window, "Type pixels per millimetre");
    window.type_into("Pixels per millimetre", "90");
    window.press(Role::Button, "Save set-up");
    assert!(window.shows("A set-up of that name is already there"));
    assert_eq!(window.focused().as_deref(), Some("Cancel"));
    window.press(Role::Button, "Cancel");
    assert_eq!(fs::read(&file).expect("a file"), before);
    window.press(Role::Button, "Save set-up");
    window.press(Role::Button, "Replace it");
    assert_ne!(fs::read(&file).expect("a file"), before);

    window.type_into("Name of the set-up", "/10");
    window.press(Role::Button, "Save set-up");
    assert!(window.shows("cannot be the name of a set-up"));
    let listed = fs::read_dir(folder.path().join("set-ups")).expect("a folder");
    assert_eq!(listed.count(), 1);
}

#[test]
fn taking_back_in_the_name_of_a_set_up_leaves_the_scale_alone() {
    let folder = TempDir::new().expect("a folder");
    let mut window = with_stand(&folder);
    let before = setting(&window);
    window.field("Name of the set-up").focus();
    window.harness.run();
    undo(&mut window);
    assert_eq!(setting(&window), before);
}

#[test]
fn a_set_up_that_does_not_fit_says_why_and_can_be_used_all_the_same() {
    let folder = TempDir::new().expect("a folder");
    drop(with_stand(&folder));
    let small = folder.path().join("small.png");
    imageops::crop_imm(&surface(), 0, 0, 600, 440)
        .to_image()
        .save(&small)
        .expect("a photo on disk");
    let mut window = Window::with_set_ups(vec![small], folder.path().join("set-ups"));
    choose(&mut window, "A saved set-up");
    let stand = radio(&window, "stand: ").expect("the set-up is listed");
    assert!(stand.ends_with("does not fit this photo"), "{stand}");
    window.press(Role::RadioButton, &stand);
    assert!(
        window
            .shows("The photo is 600 × 440 px, and the set-up was saved from one of 700 × 500 px")
    );
    assert_eq!(window.standing(Step::Scale), StepStanding::NeedsYou);
    window.press(Role::Button, "Use it all the same");
    close(scale(&window).px_per_mm, 80.0, 1e-3);
    assert!(window.shows("used at a person's word"));
    undo(&mut window);
    assert_eq!(window.standing(Step::Scale), StepStanding::NeedsYou);
}

#[test]
fn without_any_set_up_the_way_to_one_is_told() {
    let folder = TempDir::new().expect("a folder");
    let mut window = window_in(&folder);
    choose(&mut window, "A saved set-up");
    assert!(window.shows("No set-up has been saved yet"));
}

/// The test photo as PNG that says so many pixels per metre (ISO/IEC 15948, 11.3.5.3).
fn saying(folder: &TempDir, px_per_metre: u32) -> PathBuf {
    let path = folder.path().join("stated.png");
    let picture = surface();
    let file = BufWriter::new(fs::File::create(&path).expect("a file"));
    let mut encoder = png::Encoder::new(file, picture.width(), picture.height());
    encoder.set_color(png::ColorType::Grayscale);
    encoder.set_pixel_dims(Some(png::PixelDimensions {
        xppu: px_per_metre,
        yppu: px_per_metre,
        unit: png::Unit::Meter,
    }));
    let mut writer = encoder.write_header().expect("a header");
    writer.write_image_data(&picture).expect("written");
    path
}

#[test]
fn what_the_file_says_is_offered_and_never_taken_unasked() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![saying(&folder, 80_000)]);
    window.go(Step::Scale);
    assert_eq!(window.standing(Step::Scale), StepStanding::NeedsYou);
    window.press(
        Role::RadioButton,
        "The file says 80.00 px per mm (the PNG chunk pHYs)",
    );
    let found = scale(&window);
    assert_eq!(found.how, How::Metadata);
    close(found.px_per_mm, 80.0, 1e-12);
    assert!(window.shows("nobody has checked it"));
    assert!(!window.shows(KEEP));
    undo(&mut window);
    assert_eq!(window.standing(Step::Scale), StepStanding::NeedsYou);
    redo(&mut window);
    close(measure(&mut window), 4.0, 0.02);
}

#[test]
fn a_density_that_programs_fill_in_is_not_offered_and_the_reason_is_told() {
    let folder = TempDir::new().expect("a folder");
    // 72 px per inch.
    let mut window = Window::with(vec![saying(&folder, 2835)]);
    window.go(Step::Scale);
    assert_eq!(radio(&window, "The file says"), None);
    assert!(window.shows("The file says 72 px per inch (the PNG chunk pHYs), which cameras"));

    let mut silent = Window::with(vec![photo_in(&folder)]);
    silent.go(Step::Scale);
    assert!(!silent.shows("The file says"));
}

#[test]
fn a_scale_that_is_hardly_right_is_asked_about() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    choose(&mut window, "Type pixels per millimetre");
    window.type_into("Pixels per millimetre", "0.1");
    assert!(window.shows("This photo would be 7 m across"));
    assert_eq!(window.standing(Step::Scale), StepStanding::NeedsYou);
    assert!(window.harness.state().session().why_not_measure().is_some());
    window.press(Role::Button, "The scale is right");
    close(scale(&window).px_per_mm, 0.1, 1e-12);
    assert!(!window.shows("would be 7 m across"));
    undo(&mut window);
    assert!(matches!(
        setting(&window).standing(),
        ScaleStanding::Asks(_)
    ));
}

/// The test photo with a sheet of paper in its left top corner.
fn with_paper(folder: &TempDir) -> PathBuf {
    let path = folder.path().join("paper.png");
    let mut photo = surface();
    for y in 0..80 {
        for x in 0..120 {
            photo.put_pixel(x, y, Luma([235]));
        }
    }
    photo.save(&path).expect("a photo on disk");
    path
}

/// L* of the walls and what it was referred to.
fn colour(window: &Window) -> (f64, Option<WhiteSource>) {
    let results = window.harness.state().session().results();
    let findings = &results.expect("results").measurement.findings;
    let colour = findings.colour.as_ref().expect("a colour");
    (colour.lab.l, colour.white)
}

fn is_marked(window: &Window) -> bool {
    let document = window.harness.state().session().document();
    document.white.is_some()
}

#[test]
fn a_white_is_dragged_on_the_photo_and_the_colour_is_referred_to_it() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![with_paper(&folder)]);
    // High enough for all of the step.
    window.harness.set_size(Vec2::new(1280.0, 1200.0));
    window.set_scale();
    window.go(Step::Area);
    window.drag_photo((160.0, 100.0), (640.0, 400.0));
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");
    assert_eq!(colour(&window).1, None);

    window.go(Step::Scale);
    assert!(window.shows("Without one, colours are indicative only"));
    window.press(Role::Button, "Mark something white");
    window.drag_photo((20.0, 20.0), (90.0, 60.0));
    assert!(is_marked(&window));
    assert!(window.shows("Colours are referred to the white that you marked"));
    // L* of sRGB 200 where 235 has L* 95: computed with scikit-image.
    let (lightness, white) = colour(&window);
    assert!((lightness - 82.34).abs() < 1.0, "{lightness}");
    assert_eq!(white, Some(WhiteSource::Patch));
    assert_eq!(window.standing(Step::Pores), StepStanding::Done);

    // The next drag moves the photo again, and marks nothing.
    let first = setting(&window).first;
    window.drag_photo((300.0, 200.0), (340.0, 230.0));
    assert_eq!(setting(&window).first, first);
    undo(&mut window);
    assert!(!is_marked(&window));
    assert_eq!(colour(&window).1, None);
    redo(&mut window);
    window.press(Role::Button, "Remove the white");
    assert!(!is_marked(&window));
    assert!(!window.has_button("Remove the white"));
}

#[test]
fn the_keyboard_alone_marks_a_white_or_leaves_it() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.go(Step::Scale);
    let press = |window: &mut Window| {
        let button = "Mark something white";
        let button = window.harness.get_by_role_and_label(Role::Button, button);
        button.focus();
        window.harness.run();
        window.key(Key::Space);
        let focused = window.focused().unwrap_or_default();
        assert!(focused.starts_with("Photo lattice.png"), "{focused}");
    };
    press(&mut window);
    window.key(Key::Escape);
    assert!(!window.shows("Drag a rectangle over something white"));
    press(&mut window);
    window.key(Key::Enter);
    for _ in 0..5 {
        window.harness.key_press(Key::ArrowRight);
        window.harness.key_press(Key::ArrowDown);
        window.harness.run();
    }
    window.key(Key::Enter);
    assert!(is_marked(&window));
}

#[test]
fn what_is_too_dark_for_a_white_is_refused_in_words() {
    let folder = TempDir::new().expect("a folder");
    let path = folder.path().join("dark.png");
    let mut photo = surface();
    for y in 0..100 {
        for x in 0..100 {
            photo.put_pixel(x, y, Luma([30]));
        }
    }
    photo.save(&path).expect("a photo on disk");
    let mut window = Window::with(vec![path]);
    window.go(Step::Scale);
    window.press(Role::Button, "Mark something white");
    window.drag_photo((10.0, 10.0), (90.0, 90.0));
    assert!(!is_marked(&window));
    assert!(window.shows("too dark to be a white to go by"));
}

#[test]
fn a_marked_white_goes_before_the_cards_and_with_the_picture() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![tilted_in(&folder, Some(CARDS[2]))]);
    choose(&mut window, "Scale card");
    assert!(window.shows("Colours are referred to the card's own white"));
    measure(&mut window);
    assert_eq!(colour(&window).1, Some(WhiteSource::Card));
    window.go(Step::Scale);
    window.press(Role::Button, "Mark something white");
    window.drag_photo((20.0, 20.0), (60.0, 60.0));
    assert_eq!(colour(&window).1, Some(WhiteSource::Patch));
    let outline = |window: &Window| {
        let document = window.harness.state().session().document();
        document.white.as_ref().expect("a white").outline.clone()
    };
    let marked = outline(&window);
    window.press(Role::Button, "Show photo as taken");
    assert_ne!(outline(&window), marked);
    undo(&mut window);
    assert_eq!(outline(&window), marked);
    window.press(Role::Button, "Remove the white");
    assert_eq!(colour(&window).1, Some(WhiteSource::Card));
}
