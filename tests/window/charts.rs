//! Charts beside the photo, and places that notes can be seen at.

use crate::harness::{Window, photo_in};
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use poreline::session::Step;
use tempfile::TempDir;

fn selected(window: &Window) -> usize {
    window.harness.state().session().selected().len()
}

fn focus_chart(window: &mut Window, name: &str) {
    let chart = window
        .harness
        .get_all_by_role(Role::Button)
        .find(|node| {
            let label = node.accesskit_node().label();
            label.is_some_and(|label| label.starts_with(name))
        })
        .unwrap_or_else(|| panic!("no {name}"));
    chart.focus();
    window.harness.run();
}

#[test]
fn a_bar_selects_its_pores_by_keyboard() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::measured(&folder);
    focus_chart(&mut window, "Histogram of diameter");
    assert_eq!(selected(&window), 0);
    // On a lattice of equal discs all diameters lie close together; some bar holds most of them.
    let counted = window.harness.state().session().results().expect("results");
    let counted = counted
        .measurement
        .regions
        .iter()
        .filter(|p| p.whole && p.counted);
    let counted = counted.count();
    let mut met = 0;
    for _ in 0..60 {
        window.key(Key::Enter);
        met += selected(&window);
        window.key(Key::Enter);
        assert_eq!(selected(&window), 0, "pressed again it lets go of them");
        let before = window.focused();
        window.key(Key::ArrowRight);
        if window.focused() == before {
            break;
        }
    }
    assert_eq!(met, counted, "each whole pore stands in one bar");
}

#[test]
fn every_chart_has_words_for_those_who_do_not_see_it() {
    let folder = TempDir::new().expect("a folder");
    let window = Window::measured(&folder);
    for name in [
        "Histogram of diameter",
        "Histogram of elongation",
        "Of 400 lines of 1 mm: ",
    ] {
        assert!(
            window
                .harness
                .query_all_by_label_contains(name)
                .next()
                .is_some(),
            "{name}"
        );
    }
}

#[test]
fn a_note_leads_to_its_place_on_the_photo() {
    let folder = TempDir::new().expect("a folder");
    let path = photo_in(&folder);
    // Glare over a corner, which is found and told of.
    let mut picture = image::open(&path).expect("a photo").to_luma8();
    for (x, y, light) in picture.enumerate_pixels_mut() {
        if x > 480 && y < 200 {
            light.0 = [255];
        }
    }
    picture.save(&path).expect("a photo");
    let mut window = Window::with(vec![path]);
    window.set_scale();
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");
    assert!(!window.shows("a place is framed"));
    window.press(Role::Button, "Show me");
    assert!(window.shows("a place is framed"));
}
