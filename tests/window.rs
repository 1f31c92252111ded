//! The window, worked as a person or a screen reader works it: by the names of its controls, by
//! the keyboard, and by places on the photo. No screen is needed.

#[path = "window/canvas.rs"]
mod canvas;
#[path = "window/carried.rs"]
mod carried;
#[path = "window/charts.rs"]
mod charts;
#[path = "window/comfort.rs"]
mod comfort;
#[path = "window/corrections.rs"]
mod corrections;
#[path = "window/folder.rs"]
mod folder;
#[path = "window/harness.rs"]
mod harness;
#[path = "window/preferences.rs"]
mod preferences;
#[path = "window/record.rs"]
mod record;
#[path = "window/scale.rs"]
mod scale;
#[path = "window/strip.rs"]
mod strip;

use egui::accesskit::Role;
use egui::{Key, Modifiers, Vec2, pos2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use harness::{PX_PER_MM, Window, photo_in, surface};
use image::Luma;
use poreline::area::{Area, Outline};
use poreline::session::{ScaleStanding, Step, StepStanding, Work};
use std::path::{Path, PathBuf};
use tempfile::TempDir;

fn photo_of(window: &Window) -> Option<&Path> {
    let document = window.harness.state().session().document();
    document.photo.as_ref().map(|photo| photo.path.as_path())
}

#[test]
fn an_empty_window_names_the_three_ways_to_open_a_photo() {
    let window = Window::with(Vec::new());
    for way in [
        "Press the button below",
        "Drag photos from a folder onto this window",
        "poreline underside.jpg",
    ] {
        assert!(window.shows(way), "{way}");
    }
    window
        .harness
        .get_by_role_and_label(Role::Button, "Choose photos…");
    window.field("Or type its path");
    assert_eq!(window.standing(Step::Photo), StepStanding::NeedsYou);
    assert_eq!(window.standing(Step::Scale), StepStanding::Later);
}

#[test]
fn a_bad_file_is_named_and_the_photo_before_it_stays() {
    let folder = TempDir::new().expect("a folder");
    let good = photo_in(&folder);
    let bad = folder.path().join(
        "a rather long name of a file that holds the notes of an autumn walk and no photo.jpg",
    );
    std::fs::write(&bad, "this is no photo").expect("a file");

    let mut window = Window::with(vec![good.clone()]);
    window.harness.set_size(Vec2::new(960.0, 640.0));
    window.go(Step::Photo);
    window.type_into("Or type its path", &bad.display().to_string());
    window.press(Role::Button, "Open");

    assert!(window.shows("autumn walk"), "the message names the file");
    let canvas = window.canvas();
    assert!(
        canvas.height() > 350.0,
        "the message leaves {canvas:?} to the photo"
    );
    assert_eq!(window.harness.state().session().notices().len(), 1);
    assert_eq!(photo_of(&window), Some(good.as_path()));
    window.press(Role::Button, "Dismiss");
    assert!(window.harness.state().session().notices().is_empty());
}

#[test]
fn two_clicks_and_a_length_set_the_scale() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    assert_eq!(window.standing(Step::Scale), StepStanding::NeedsYou);
    window.set_scale();

    let scale = window.harness.state().session().document().scale.clone();
    let px_per_mm = scale.scale().expect("a scale").px_per_mm;
    assert!((px_per_mm / PX_PER_MM - 1.0).abs() < 1e-3, "{px_per_mm}");
    assert!(window.shows("px per mm, from two points"));
    assert_eq!(window.standing(Step::Scale), StepStanding::Done);
}

#[test]
fn a_length_that_is_none_is_refused_where_it_was_typed() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.click_photo(100.0, 480.0);
    window.click_photo(500.0, 480.0);
    window.type_into("Length between the ends", "5 furlongs");
    assert!(window.shows("“5 furlongs” is not a length"));
    assert_eq!(window.standing(Step::Scale), StepStanding::NeedsYou);
}

#[test]
fn arrow_keys_move_an_end_of_the_scale_line_by_one_pixel_and_by_a_tenth() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.set_scale();
    let end = |window: &Window| {
        let document = window.harness.state().session().document();
        document.scale.second.expect("an end").at
    };
    let before = end(&window);
    window
        .harness
        .get_by_label_contains("Scale line, second end")
        .focus();
    window.harness.run();
    window.harness.key_press(Key::ArrowRight);
    window.settle();
    window
        .harness
        .key_press_modifiers(Modifiers::SHIFT, Key::ArrowDown);
    window.settle();
    let after = end(&window);
    assert!(
        (after.x - before.x - 1.0).abs() < 1e-9,
        "{before:?} {after:?}"
    );
    assert!(
        (after.y - before.y - 0.1).abs() < 1e-9,
        "{before:?} {after:?}"
    );
}

#[test]
fn a_dragged_rectangle_begins_where_the_button_went_down() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.go(Step::Area);
    window.drag_photo((60.0, 50.0), (640.0, 400.0));
    let area = window.harness.state().session().document().area.clone();
    let Outline::Rectangle(rect) = area.outline else {
        panic!("no rectangle: {area:?}");
    };
    for (side, wanted) in [
        (rect.x, 60.0),
        (rect.y, 50.0),
        (rect.x + rect.width, 640.0),
        (rect.y + rect.height, 400.0),
    ] {
        assert!((side - wanted).abs() < 0.1, "{rect:?}");
    }
}

#[test]
fn a_polygon_can_be_drawn_by_clicks_and_closed_by_enter_or_dropped_by_esc() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.go(Step::Area);
    window.press(Role::Button, "Leave out a part");
    let corners = [(100.0, 100.0), (300.0, 110.0), (200.0, 300.0)];
    for (x, y) in corners {
        window.click_photo(x, y);
    }
    window.harness.key_press(Key::Escape);
    window.settle();
    let left_out = |window: &Window| {
        window
            .harness
            .state()
            .session()
            .document()
            .area
            .left_out
            .clone()
    };
    assert!(left_out(&window).is_empty());
    for (x, y) in corners {
        window.click_photo(x, y);
    }
    window.harness.key_press(Key::Enter);
    window.settle();
    let parts = left_out(&window);
    assert_eq!(parts.len(), 1);
    assert_eq!(parts[0].outline.vertices().len(), 3);
    assert!(
        (parts[0].outline.area() - 19_500.0).abs() < 100.0,
        "{parts:?}"
    );
}

#[test]
fn the_keyboard_alone_draws_a_rectangle() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.go(Step::Area);
    window
        .harness
        .get_by(|node| {
            node.role() == Role::Image && node.label().is_some_and(|l| l.starts_with("Photo "))
        })
        .focus();
    window.harness.run();
    for keys in [
        [Key::ArrowLeft, Key::ArrowUp, Key::Space],
        [Key::ArrowRight, Key::ArrowDown, Key::Space],
    ] {
        for key in keys {
            let presses = if key == Key::Space { 1 } else { 5 };
            for _ in 0..presses {
                window.harness.key_press(key);
                window.harness.run();
            }
        }
    }
    let area = &window.harness.state().session().document().area;
    assert!(matches!(area.outline, Outline::Rectangle(_)), "{area:?}");
}

#[test]
fn measuring_shows_the_figure_and_a_new_scale_changes_it_without_measuring_again() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.go(Step::Pores);
    assert!(window.shows("Set the scale first"));
    window.set_scale();
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");

    let per_mm = |window: &Window| {
        let session = window.harness.state().session();
        let results = session.results().expect("results");
        let pores = results.measurement.findings.pores.as_ref();
        pores.expect("a poroid surface").per_mm.value
    };
    let at_80 = per_mm(&window);
    assert!((at_80 - 4.0).abs() < 0.08, "{at_80}");
    let readout = &window
        .harness
        .state()
        .session()
        .results()
        .expect("results")
        .readout;
    let headline = readout.headline.clone().expect("a figure");
    assert!(window.shows(&headline.figure), "{headline:?}");
    assert!(window.shows(&headline.handbook.as_ref().expect("a phrase").text));
    assert!(window.shows("does not name a species"));
    assert_eq!(
        window.harness.state().session().title(),
        format!("Poreline – lattice.png – {}", headline.figure)
    );

    window.go(Step::Scale);
    window.press(Role::RadioButton, "Type pixels per millimetre");
    window.type_into("Pixels per millimetre", "40");
    let at_40 = per_mm(&window);
    assert!((at_40 * 2.0 / at_80 - 1.0).abs() < 2e-3, "{at_40} {at_80}");
}

#[test]
fn a_changed_area_marks_the_findings_as_out_of_date() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.set_scale();
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");
    assert_eq!(window.standing(Step::Record), StepStanding::NeedsYou);
    window.go(Step::Area);
    window.drag_photo((60.0, 50.0), (640.0, 400.0));
    assert!(window.shows("The area has changed since"));
    assert_eq!(window.standing(Step::Record), StepStanding::Later);
}

#[test]
fn findings_are_saved_and_an_older_file_is_replaced_only_when_told() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.set_scale();
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");
    window.go(Step::Record);
    window.press(Role::DisclosureTriangle, "Without a file dialog");
    let file = folder.path().join("lattice-findings.json");
    std::fs::write(&file, "older").expect("an older file");

    window.press(Role::Button, "Findings (JSON)");
    window.press(Role::Button, "Cancel");
    assert_eq!(std::fs::read_to_string(&file).expect("a file"), "older");
    assert_eq!(window.standing(Step::Record), StepStanding::NeedsYou);

    window.press(Role::Button, "Findings (JSON)");
    assert_eq!(window.focused().as_deref(), Some("Keep both"));
    window.press(Role::Button, "Keep both");
    assert_eq!(std::fs::read_to_string(&file).expect("a file"), "older");
    let other = folder.path().join("lattice-findings-2.json");
    assert!(other.is_file());

    window.press(Role::Button, "Findings (JSON)");
    window.press(Role::Button, "Replace it");
    assert!(window.shows("Saved to"));
    let text = std::fs::read_to_string(&file).expect("a file");
    let findings: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    assert_eq!(findings["surface"]["type"], "poroid");
    for (button, name) in [
        ("Pores (CSV)", "lattice-pores.csv"),
        ("Overlay (PNG)", "lattice-overlay.png"),
    ] {
        window.press(Role::Button, button);
        assert!(folder.path().join(name).is_file(), "{name}");
    }
    assert_eq!(window.standing(Step::Record), StepStanding::Done);
}

#[test]
fn measuring_can_be_cancelled_and_begun_again() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.set_scale();
    window.go(Step::Pores);
    window
        .harness
        .get_by_role_and_label(Role::Button, "Measure")
        .click();
    // One frame takes the click, the next shows the button; measuring takes far longer than both.
    window.harness.run_steps(2);
    window
        .harness
        .get_by_role_and_label(Role::Button, "Cancel")
        .click();
    window.harness.run_steps(2);
    let session = window.harness.state().session();
    assert_eq!(session.work(), &Work::Idle);
    assert!(session.results().is_none());
    assert!(window.shows("Cancelled"));

    window.press(Role::Button, "Measure");
    assert!(window.harness.state().session().results().is_some());
}

#[test]
fn the_area_needs_the_person_until_one_is_drawn_or_the_whole_photo_is_chosen() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.set_scale();
    assert_eq!(window.standing(Step::Area), StepStanding::NeedsYou);
    window.go(Step::Pores);
    assert!(window.shows("the whole photo will be measured, card and background included"));
    assert!(window.harness.state().session().why_not_measure().is_none());

    window.go(Step::Area);
    window.press(Role::Button, "Whole photo");
    assert_eq!(window.standing(Step::Area), StepStanding::Done);
    window.go(Step::Pores);
    assert!(!window.shows("card and background included"));

    window.go(Step::Area);
    window.drag_photo((60.0, 50.0), (640.0, 400.0));
    assert_eq!(window.standing(Step::Area), StepStanding::Done);
    window.press(Role::Button, "Clear outline");
    assert_eq!(window.standing(Step::Area), StepStanding::NeedsYou);
}

#[test]
fn a_drag_in_step_scale_moves_the_photo_and_sets_no_end() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    for _ in 0..4 {
        window.press(Role::Button, "Zoom in");
    }
    let centre = window.canvas().center();
    let read_out = |window: &mut Window| {
        window.harness.hover_at(centre);
        window.settle();
        window.shows("x 350, y 250 px")
    };
    assert!(
        read_out(&mut window),
        "the middle of the photo is in the middle"
    );
    window.drag_photo((300.0, 200.0), (350.0, 250.0));
    assert!(!read_out(&mut window), "the photo has moved");
    assert_eq!(
        window.harness.state().session().document().scale.first,
        None
    );
}

/// A few spacings of pores in the dark: too little to measure.
#[test]
fn a_photo_of_which_nothing_can_be_used_says_so_among_the_findings() {
    let folder = TempDir::new().expect("a folder");
    let path = folder.path().join("dark.png");
    let mut photo = surface();
    for (x, y, pixel) in photo.enumerate_pixels_mut() {
        if !(300..410).contains(&x) || !(200..310).contains(&y) {
            *pixel = Luma([0]);
        }
    }
    photo.save(&path).expect("a photo on disk");
    let mut window = Window::with(vec![path]);
    let told = |window: &Window| {
        window.shows("Withheld")
            && window.shows("Hardly any of the surface can be measured")
            && window.shows("Take the photo again, or draw an area by hand")
    };
    assert!(told(&window), "before measuring");
    window.go(Step::Scale);
    window.set_scale();
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");
    assert!(told(&window), "after measuring");
    assert!(window.shows("The figures are withheld"));
    // New figures at another scale are withheld as well.
    window.go(Step::Scale);
    window.type_into("Length between the ends", "0");
    assert!(told(&window), "after a change of scale");
}

#[test]
fn an_end_set_on_a_small_picture_makes_the_scale_less_sure() {
    let folder = TempDir::new().expect("a folder");
    let uncertainty = |window: &Window| {
        let document = window.harness.state().session().document();
        document
            .scale
            .scale()
            .expect("a scale")
            .standard_uncertainty
    };
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.set_scale();
    let sure = uncertainty(&window);

    let mut window = Window::with(vec![photo_in(&folder)]);
    for _ in 0..4 {
        window.press(Role::Button, "Zoom out");
    }
    assert!(window.shows("zoom in for a surer scale"));
    let centre = window.canvas().center();
    for x in [-40.0, 40.0] {
        window.harness.hover_at(centre + Vec2::new(x, 0.0));
        window.harness.drag_at(centre + Vec2::new(x, 0.0));
        window.harness.run();
        window.harness.drop_at(centre + Vec2::new(x, 0.0));
        window.settle();
    }
    window.type_into("Length between the ends", "5 mm");
    let unsure = uncertainty(&window);
    assert!(unsure > 3.0 * sure, "{unsure} {sure}");
    assert!(window.shows("set on a small picture"));

    // A step of an arrow key is finer than what the screen shows, and makes the end no surer.
    window
        .harness
        .get_by_label_contains("Scale line, second end")
        .focus();
    window.harness.run();
    window.key(Key::ArrowRight);
    window.key(Key::ArrowLeft);
    assert!((uncertainty(&window) / unsure - 1.0).abs() < 1e-9);

    // A place beside the photo is none on the ruler.
    window.press(Role::Button, "Set the ends again");
    let beside = window.canvas().left_top() + Vec2::new(20.0, 20.0);
    window.harness.hover_at(beside);
    window.harness.drag_at(beside);
    window.harness.run();
    window.harness.drop_at(beside);
    window.settle();
    assert_eq!(
        window.harness.state().session().document().scale.first,
        None
    );
}

#[test]
fn the_keyboard_is_led_from_step_to_step() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    assert_eq!(window.focused().as_deref(), Some("Two points on the photo"));
    // The first Enter sets an end in the middle straight away, with Alt not on the nearest edge; the
    // second sets the other one.
    window.key(Key::P);
    window
        .harness
        .key_press_modifiers(Modifiers::ALT, Key::Enter);
    window.settle();
    let scale = |window: &Window| window.harness.state().session().document().scale.clone();
    let first = scale(&window).first.expect("an end").at;
    assert!((first.x - 350.0).abs() < 1.0 && (first.y - 250.0).abs() < 1.0);
    window.key(Key::ArrowRight);
    window.key(Key::Enter);
    assert!(scale(&window).second.is_some());
    assert_eq!(
        window.focused().as_deref(),
        Some("Length between the ends"),
        "the length comes next"
    );
    window.type_into("Length between the ends", "1 mm");
    window.key(Key::Enter);
    assert_eq!(window.focused().as_deref(), Some("Rectangle"));
    window.press(Role::Button, "Whole photo");
    window.press(Role::Button, "Next: pores");
    assert_eq!(window.focused().as_deref(), Some("Measure"));
    window.key(Key::Num5);
    assert!(window.has_button("Save findings (JSON)…"));
}

#[test]
fn the_shortcuts_can_be_read() {
    let mut window = Window::with(Vec::new());
    window.press(Role::Button, "Keys");
    for text in [
        "Ctrl+O",
        "Ctrl+M",
        "Ctrl+S",
        "Go to step 2, Scale",
        "Show all of the photo",
        "Middle",
    ] {
        assert!(window.shows(text), "{text}");
    }
    window.press(Role::Button, "Close");
    assert!(!window.shows("Ctrl+M"));
}

#[test]
fn a_stray_stroke_changes_nothing_and_each_kind_of_part_is_cleared_by_itself() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.go(Step::Area);
    window.drag_photo((60.0, 50.0), (640.0, 400.0));
    let drawn = window.area().clone();
    window.drag_photo((300.0, 200.0), (301.5, 202.0));
    window.key(Key::Escape);
    window.drag_photo((300.0, 200.0), (400.0, 200.5));
    assert_eq!(window.area(), &drawn);

    window.press(Role::Button, "Leave out a part");
    window.drag_photo((100.0, 100.0), (200.0, 150.0));
    let [part] = &window.area().left_out[..] else {
        panic!("{:?}", window.area());
    };
    assert!((part.outline.area() - 5000.0).abs() < 50.0, "{part:?}");

    window.press(Role::Button, "Clear outline");
    assert_eq!(window.area().outline, Outline::WholePhoto);
    assert_eq!(window.area().left_out.len(), 1);
    window.press(Role::Button, "Clear left-out parts");
    assert!(window.area().left_out.is_empty());
}

#[test]
fn changes_of_scale_and_area_are_taken_back_and_done_again() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    let redo = Modifiers::COMMAND.plus(Modifiers::SHIFT);
    let with = |window: &mut Window, modifiers| {
        window.harness.key_press_modifiers(modifiers, Key::Z);
        window.settle();
    };
    let scale = |window: &Window| window.harness.state().session().document().scale.clone();
    window.set_scale();
    with(&mut window, Modifiers::COMMAND);
    assert_eq!(scale(&window).length, "", "typing is one act");
    assert!(scale(&window).second.is_some());
    with(&mut window, Modifiers::COMMAND);
    assert!(scale(&window).second.is_none() && scale(&window).first.is_some());
    with(&mut window, redo);
    with(&mut window, redo);
    assert!(scale(&window).scale().is_some());

    window.go(Step::Area);
    window.drag_photo((60.0, 50.0), (640.0, 400.0));
    let drawn = window.area().clone();
    // One drag of a corner is one act, however many frames it took.
    window.drag_photo((640.0, 400.0), (600.0, 380.0));
    assert_ne!(window.area(), &drawn);
    with(&mut window, Modifiers::COMMAND);
    assert_eq!(window.area(), &drawn);
    window.press(Role::Button, "Undo");
    assert_eq!(window.area(), &Area::default());
    assert_eq!(window.standing(Step::Area), StepStanding::NeedsYou);
    window.press(Role::Button, "Redo");
    assert_eq!(window.area(), &drawn);
}

/// The test photo with its right bottom corner black.
fn dark_corner_in(folder: &TempDir) -> PathBuf {
    let path = folder.path().join("dark-corner.png");
    let mut picture = surface();
    for (x, y, pixel) in picture.enumerate_pixels_mut() {
        if 2 * x + y > 1400 {
            *pixel = Luma([2]);
        }
    }
    picture.save(&path).expect("a photo on disk");
    path
}

#[test]
fn a_part_found_unusable_is_left_out_until_it_is_unticked() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![dark_corner_in(&folder)]);
    window.go(Step::Area);
    let label = window
        .harness
        .get_by(|node| {
            node.role() == Role::CheckBox
                && node
                    .label()
                    .is_some_and(|l| l.starts_with("1: dark surround"))
        })
        .accesskit_node()
        .label()
        .expect("a name");
    let left_out = |window: &Window| {
        let document = window.harness.state().session().document();
        document.measured_area().left_out.len()
    };
    assert_eq!(left_out(&window), 1);
    assert!(window.shows("of the photo is left out as unusable"));
    window.press(Role::CheckBox, &label);
    assert_eq!(left_out(&window), 0);
    window.press(Role::Button, "Undo");
    assert_eq!(left_out(&window), 1);
    window.press(Role::Button, "Redo");
    assert_eq!(left_out(&window), 0);

    // Findings made with the part go out of date when it is left out again.
    window.press(Role::Button, "Whole photo");
    window.set_scale();
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");
    assert_eq!(window.standing(Step::Pores), StepStanding::Done);
    window.go(Step::Area);
    window.press(Role::CheckBox, &label);
    assert_eq!(window.standing(Step::Pores), StepStanding::NeedsYou);
}

#[test]
fn opening_another_photo_leaves_the_first_as_it_is() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::measured(&folder);
    let first = photo_of(&window).map(Path::to_owned);
    let other = folder.path().join("other.png");
    surface().save(&other).expect("a photo on disk");
    window.go(Step::Photo);
    window.type_into("Or type its path", &other.display().to_string());
    window.press(Role::Button, "Open");
    assert_eq!(photo_of(&window), Some(other.as_path()));
    assert!(window.harness.state().session().results().is_none());
    window.key(Key::PageUp);
    assert_eq!(photo_of(&window), first.as_deref());
    assert!(window.harness.state().session().results().is_some());
}

#[test]
fn closing_the_window_asks_first_while_findings_are_not_saved() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::measured(&folder);
    let root = egui::ViewportId::ROOT;
    let viewports = &mut window.harness.input_mut().viewports;
    let viewport = viewports.get_mut(&root).expect("a window");
    viewport.events.push(egui::ViewportEvent::Close);
    window.harness.step();
    let commands = &window.harness.output().viewport_output[&root].commands;
    assert!(commands.contains(&egui::ViewportCommand::CancelClose));
    window.settle();
    assert!(window.shows("The findings are not saved"));
    let discard = window
        .harness
        .get_by_role_and_label(Role::Button, "Discard");
    discard.click();
    window.harness.step();
    let mut closes = false;
    for _ in 0..3 {
        let commands = &window.harness.output().viewport_output[&root].commands;
        closes |= commands.contains(&egui::ViewportCommand::Close);
        window.harness.step();
    }
    assert!(closes);
}

#[test]
fn a_folder_that_is_not_there_is_named_and_no_other_file_is() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::measured(&folder);
    window.go(Step::Record);
    window.press(Role::DisclosureTriangle, "Without a file dialog");
    window.type_into("Folder to save in", "/nowhere");
    window.press(Role::Button, "Pores (CSV)");
    let [notice] = window.harness.state().session().notices() else {
        panic!("no message");
    };
    assert_eq!(
        notice.text,
        format!(
            "The folder {}/nowhere does not exist; make it first, or choose another place",
            folder.path().display()
        )
    );
    window.press(Role::DisclosureTriangle, "Without a file dialog");
    assert!(
        !window.has_button("Pores (CSV)"),
        "it can be folded up again"
    );
}

#[test]
fn what_the_figures_mean_can_be_read_without_a_pointer() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::measured(&folder);
    assert!(window.shows("It is no interval"));
    window.harness.set_size(Vec2::new(1280.0, 1600.0));
    window.settle();
    // It is in the row's tooltip; unfolded, it stands in the window too.
    let times = |window: &Window| {
        let all = window
            .harness
            .query_all_by_label_contains("hollow (void), not wall");
        all.count()
    };
    let before = times(&window);
    window.press(Role::DisclosureTriangle, "What do these mean?");
    assert_eq!(times(&window), before + 1);
}

#[test]
fn nothing_is_clipped_or_nameless_in_the_smallest_window() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.set_scale();
    window.harness.set_size(Vec2::new(960.0, 640.0));
    for step in Step::ALL {
        window.go(step);
        let screen = egui::Rect::from_min_max(pos2(0.0, 0.0), pos2(960.0, 640.0));
        for button in window.harness.get_all_by_role(Role::Button) {
            let rect = button.rect();
            assert!(
                screen.x_range().contains(rect.left()) && screen.x_range().contains(rect.right()),
                "{step:?}: {:?} at {rect:?}",
                button.accesskit_node().label()
            );
        }
    }
    let scale = &window.harness.state().session().document().scale;
    assert!(matches!(scale.standing(), ScaleStanding::Set(_)));
}
