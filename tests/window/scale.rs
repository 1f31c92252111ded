//! Every way to the scale, on photos whose scale is known by construction. How rulers and bars are
//! divided is `common practice, no source`.

use super::harness::{Window, photo_in, surface};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use image::{GrayImage, Luma};
use poreline::area::Reason;
use poreline::card::layout::{CARDS, Card, Shape, Tone};
use poreline::scale::{How, Scale};
use poreline::session::{ScaleSetting, Step, StepStanding, Work};
use std::path::PathBuf;
use tempfile::TempDir;

/// Lengths from ticks, bars and cards on these drawings, of which none is noisy, come out this well.
const WORST: f64 = 0.005;
/// Pores per mm on a straightened picture, as in `tests/card.rs`, twice over for so small an opening.
const WORST_PER_MM: f64 = 0.02;

pub fn setting(window: &Window) -> ScaleSetting {
    window.harness.state().session().document().scale.clone()
}

pub fn scale(window: &Window) -> Scale {
    setting(window)
        .scale()
        .unwrap_or_else(|| panic!("no scale: {:?}", setting(window).standing()))
}

pub fn close(value: f64, truth: f64, worst: f64) {
    assert!((value / truth - 1.0).abs() <= worst, "{value}, not {truth}");
}

pub fn choose(window: &mut Window, way: &str) {
    window.go(Step::Scale);
    window.press(Role::RadioButton, way);
}

pub fn undo(window: &mut Window) {
    window
        .harness
        .key_press_modifiers(Modifiers::COMMAND, Key::Z);
    window.settle();
}

pub fn redo(window: &mut Window) {
    let modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);
    window.harness.key_press_modifiers(modifiers, Key::Z);
    window.settle();
}

pub fn measure(window: &mut Window) -> f64 {
    window.go(Step::Area);
    window.press(Role::Button, "Whole photo");
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");
    let session = window.harness.state().session();
    let results = session.results().expect("results");
    let pores = results.measurement.findings.pores.as_ref();
    pores.expect("a poroid surface").per_mm.value
}

/// Black bars of these lengths, px, each on its own white patch over the surface.
fn bars_in(folder: &TempDir, lengths: &[u32]) -> PathBuf {
    let mut photo = surface();
    for (row, &length) in (0..).zip(lengths) {
        let top = 320 - 300 * row;
        for y in top..top + 160 {
            for x in 60..60 + length + 60 {
                let is_bar = (90..90 + length).contains(&x) && (top + 85..top + 93).contains(&y);
                photo.put_pixel(x, y, Luma([if is_bar { 12 } else { 235 }]));
            }
        }
    }
    let path = folder.path().join("bars.png");
    photo.save(&path).expect("a photo on disk");
    path
}

#[test]
fn a_scale_bar_is_found_its_length_is_asked_for_and_it_is_left_out() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![bars_in(&folder, &[400])]);
    let untouched = setting(&window);
    choose(&mut window, "Scale bar");
    assert!(window.shows("Type how long the scale bar is"));
    assert!(window.shows("left out with its label"));
    assert_eq!(window.focused().as_deref(), Some("Length of the scale bar"));
    window.type_into("Length of the scale bar", "5 mm");
    let found = scale(&window);
    close(found.px_per_mm, 80.0, WORST);
    assert_eq!(found.how, How::Bar);
    assert!(window.shows("from the scale bar"));

    let document = window.harness.state().session().document().clone();
    let is_bar = |reason| reason == Reason::Scale;
    let area = document.measured_area();
    assert!(area.left_out.iter().any(|part| is_bar(part.reason)));
    let middle = poreline::geometry::Point::new(290.0, 409.0);
    assert!(!area.contains(middle, document.photo_rect()));
    window.go(Step::Area);
    assert!(window.shows("The scale bar and its label are left out"));

    // Typing, finding and choosing are one act each.
    undo(&mut window);
    assert_eq!(setting(&window).bar_length, "");
    undo(&mut window);
    assert!(setting(&window).bars.is_none());
    undo(&mut window);
    assert_eq!(setting(&window), untouched);
    for _ in 0..3 {
        redo(&mut window);
    }
    assert_eq!(scale(&window), found);
}

#[test]
fn of_several_bars_a_person_picks_one_on_the_photo_or_by_its_number() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![bars_in(&folder, &[400, 240])]);
    choose(&mut window, "Scale bar");
    assert!(window.shows("Several strokes could be the scale bar"));
    assert_eq!(window.standing(Step::Scale), StepStanding::NeedsYou);
    let numbered = |window: &Window, px: f64| {
        let bars = setting(window).bars.expect("bars");
        let is_it = |bar: &poreline::bar::Bar| (bar.length_px() - px).abs() < 2.0;
        bars.iter().position(is_it).expect("a bar of that length")
    };
    window.click_photo(210.0, 109.0);
    assert_eq!(setting(&window).bar, Some(numbered(&window, 240.0)));
    let number = format!("{}: ", numbered(&window, 400.0) + 1);
    let label = window
        .harness
        .get_by(|node| {
            node.role() == Role::RadioButton
                && node.label().is_some_and(|label| label.starts_with(&number))
        })
        .accesskit_node()
        .label()
        .expect("a name");
    window.press(Role::RadioButton, &label);
    window.type_into("Length of the scale bar", "5 mm");
    close(scale(&window).px_per_mm, 80.0, WORST);
}

#[test]
fn without_a_scale_bar_the_other_way_is_named() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    choose(&mut window, "Scale bar");
    assert!(window.shows("No scale bar was found on this photo"));
    assert_eq!(window.standing(Step::Scale), StepStanding::NeedsYou);
}

/// A white ruler in mm along the lower edge, its ticks 16 px apart.
fn ruler_in(folder: &TempDir) -> PathBuf {
    let mut photo = surface();
    for y in 400..500 {
        for x in 0..700_u32 {
            let number = (x + 8) / 16;
            let long = match number {
                n if n % 10 == 0 => 60,
                n if n % 5 == 0 => 46,
                _ => 32,
            };
            let is_tick = (x + 8) % 16 < 3 && y < 400 + long;
            photo.put_pixel(x, y, Luma([if is_tick { 20 } else { 230 }]));
        }
    }
    // No lens leaves an edge as sharp as drawn.
    let photo = imageproc::filter::gaussian_blur_f32(&photo, 1.0);
    let path = folder.path().join("ruler.png");
    photo.save(&path).expect("a photo on disk");
    path
}

#[test]
fn a_line_dragged_along_a_ruler_reads_its_ticks() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![ruler_in(&folder)]);
    choose(&mut window, "Ruler");
    assert!(window.shows("Drag along the ruler's edge"));
    window.drag_photo((40.0, 410.0), (660.0, 411.0));
    let found = scale(&window);
    close(found.px_per_mm, 16.0, WORST);
    assert_eq!(found.how, How::Ticks);
    assert!(window.shows("ticks found, 1 mm apart, told by the long and the short ones"));
    assert!(window.shows("Standard error of the scale"));
    window.go(Step::Area);
    assert!(window.shows("The ruler is left out by itself"));

    // What the ticks mean can be chosen, and is contradicted where they say otherwise.
    window.go(Step::Scale);
    window.press(Role::ComboBox, "From tick to tick");
    window.press(Role::Button, "½ mm");
    close(scale(&window).px_per_mm, 32.0, WORST);
    assert!(window.shows("look at the ruler again"));
    undo(&mut window);
    close(scale(&window).px_per_mm, 16.0, WORST);

    // Each end can be moved by the keyboard, and the ruler is read anew.
    window
        .harness
        .get_by_label_contains("Line along the ruler, first end")
        .focus();
    window.harness.run();
    window.key(Key::ArrowRight);
    let line = setting(&window).ruler.expect("a line");
    assert!((line[0].x - 41.0).abs() < 0.1, "{line:?}");
    close(scale(&window).px_per_mm, 16.0, WORST);
    undo(&mut window);
    undo(&mut window);
    assert!(setting(&window).ruler.is_none());
}

#[test]
fn a_line_too_short_for_ticks_is_refused_where_it_was_drawn() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![ruler_in(&folder)]);
    choose(&mut window, "Ruler");
    window.drag_photo((200.0, 410.0), (220.0, 410.0));
    assert!(window.shows("too short for ticks to be told apart"));
    assert_eq!(window.standing(Step::Scale), StepStanding::NeedsYou);
}

/// Photo pixels per mm in the middle of the tilted photos.
const MIDDLE_PX_PER_MM: f64 = 40.0;
/// How much the far side shrinks, per px down from the middle.
const SHRINKS: f64 = 2.5e-4;
const SIZE: (u32, u32) = (840, 740);

/// Where a place of a tilted photo lies on the plane, mm from the middle.
fn on_plane(u: f64, v: f64) -> [f64; 2] {
    let (du, dv) = (u - f64::from(SIZE.0) / 2.0, v - f64::from(SIZE.1) / 2.0);
    let depth = MIDDLE_PX_PER_MM * (1.0 + SHRINKS * dv);
    [du / depth, dv / depth]
}

/// Where a place of the plane lies on the tilted photo, px.
fn on_photo([x, y]: [f64; 2]) -> (f64, f64) {
    let dv = MIDDLE_PX_PER_MM * y / (1.0 - SHRINKS * MIDDLE_PX_PER_MM * y);
    let du = x * MIDDLE_PX_PER_MM * (1.0 + SHRINKS * dv);
    (f64::from(SIZE.0) / 2.0 + du, f64::from(SIZE.1) / 2.0 + dv)
}

/// Two pores to the mm on a triangular lattice, and on them, where given, a card.
pub fn tilted_in(folder: &TempDir, card: Option<Card>) -> PathBuf {
    let shapes = card.map_or_else(Vec::new, |card| card.shapes([0.0, 0.0]));
    let within = |p: [f64; 2], size: [f64; 2]| (0..2).all(|k| p[k].abs() < size[k] / 2.0);
    let tone = |p: [f64; 2]| -> f64 {
        if let Some(card) = card
            && within(p, card.paper_mm())
            && !within(p, card.opening_mm)
        {
            let mut tone = Tone::White;
            for shape in &shapes {
                match shape {
                    Shape::Block {
                        from,
                        size,
                        tone: t,
                    } if (0..2).all(|k| p[k] >= from[k] && p[k] < from[k] + size[k]) => tone = *t,
                    Shape::Disc {
                        centre,
                        width,
                        tone: t,
                    } if (p[0] - centre[0]).hypot(p[1] - centre[1]) < width / 2.0 => tone = *t,
                    _ => {}
                }
            }
            return match tone {
                Tone::Black => 12.0,
                Tone::Grey => 119.0,
                Tone::White => 235.0,
            };
        }
        // Turned, so that no row of pores runs along an edge.
        let (sin, cos) = 17_f64.to_radians().sin_cos();
        let p = [cos * p[0] + sin * p[1], cos * p[1] - sin * p[0]];
        let row_height = 0.5 * 3_f64.sqrt() / 2.0;
        let nearest = (p[1] / row_height).round();
        let distance = [nearest - 1.0, nearest, nearest + 1.0]
            .into_iter()
            .map(|row| {
                let shift = 0.25 * row.rem_euclid(2.0);
                let dx = p[0] - shift - 0.5 * ((p[0] - shift) / 0.5).round();
                dx.hypot(p[1] - row * row_height)
            })
            .fold(f64::INFINITY, f64::min);
        if distance < 0.15 { 60.0 } else { 200.0 }
    };
    let photo = GrayImage::from_fn(SIZE.0, SIZE.1, |x, y| {
        let sum: f64 = (0..16)
            .map(|k| {
                let part = |k: u32| (f64::from(k) + 0.5) / 4.0;
                tone(on_plane(
                    f64::from(x) + part(k % 4),
                    f64::from(y) + part(k / 4),
                ))
            })
            .sum();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "12 to 235"
        )]
        Luma([(sum / 16.0) as u8])
    });
    let path = folder.path().join("tilted.png");
    photo.save(&path).expect("a photo on disk");
    path
}

fn is_straightened(window: &Window) -> bool {
    let document = window.harness.state().session().document();
    document.scale.flat.is_some()
}

#[test]
fn the_scale_card_is_found_and_the_photo_straightened_and_back() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![tilted_in(&folder, Some(CARDS[2]))]);
    choose(&mut window, "Scale card");
    assert!(
        is_straightened(&window),
        "{:?}",
        setting(&window).standing()
    );
    assert!(window.shows("Straightened picture: a tilt of"));
    assert!(window.shows("from the scale card"));
    assert_eq!(scale(&window).how, How::Card);
    // One pixel of the near side is the finest.
    let per_mm = measure(&mut window);
    close(per_mm, 2.0, WORST_PER_MM);
    assert!(window.shows("Tilt"));
    let results = window.harness.state().session().results();
    let findings = &results.expect("results").measurement.findings;
    assert!(findings.tilt_deg.is_some());
    assert_eq!((findings.photo.width_px, findings.photo.height_px), SIZE);

    window.press(Role::Button, "Show photo as taken");
    assert!(!is_straightened(&window));
    assert!(!window.shows("Straightened picture"));
    assert_eq!(window.standing(Step::Scale), StepStanding::NeedsYou);
    assert!(window.shows("The scale is gone"));
    undo(&mut window);
    assert!(is_straightened(&window));
    assert_eq!(window.standing(Step::Pores), StepStanding::Done);
    redo(&mut window);
    window.go(Step::Scale);
    window.press(Role::Button, "Find the scale card");
    assert!(is_straightened(&window));
}

#[test]
fn without_a_scale_card_the_photo_stays_as_taken_and_the_reason_is_told() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    choose(&mut window, "Scale card");
    assert!(!is_straightened(&window));
    let [notice] = window.harness.state().session().notices() else {
        panic!("no message");
    };
    assert!(notice.text.contains("No scale card"), "{notice:?}");
    assert!(window.has_button("Find the scale card"));
}

#[test]
fn four_corners_of_a_rectangle_straighten_the_photo_and_crossed_ones_are_refused() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![tilted_in(&folder, None)]);
    choose(&mut window, "Corners of a rectangle");
    let corners = [[-6.0, -5.0], [6.0, -5.0], [6.0, 5.0], [-6.0, 5.0]].map(on_photo);
    for k in [0, 2, 1, 3] {
        let (x, y) = corners[k];
        window.click_photo(x, y);
    }
    assert!(window.shows("sides between the corners cross"));
    assert_eq!(window.focused().as_deref(), Some("Width"));
    window.press(Role::Button, "Set the corners again");
    for (x, y) in corners {
        window.click_photo(x, y);
    }
    assert!(window.shows("Type the rectangle's width and height"));
    // The area goes with the picture.
    window.go(Step::Area);
    let (from, to) = (on_photo([-5.0, -4.0]), on_photo([5.0, 4.0]));
    window.drag_photo(from, to);
    window.go(Step::Scale);
    window.type_into("Width", "12");
    window.type_into("Height", "1 cm");
    window.press(Role::Button, "Straighten the photo");
    assert!(is_straightened(&window));
    assert_eq!(scale(&window).how, How::Corners);
    assert_eq!(window.standing(Step::Area), StepStanding::Done);
    window.go(Step::Pores);
    window.press(Role::Button, "Measure");
    let results = window.harness.state().session().results();
    let findings = &results.expect("results").measurement.findings;
    let pores = findings.pores.as_ref().expect("a poroid surface");
    close(pores.per_mm.value, 2.0, WORST_PER_MM);
    // A rectangle on the photo is a trapezium on the plane, of which the sides are known.
    let [low, high] = [from, to].map(|(x, y)| on_plane(x, y));
    let wide = on_plane(to.0, from.1)[0] - low[0];
    let narrow = high[0] - on_plane(from.0, to.1)[0];
    close(
        findings.area.mm2,
        f64::midpoint(wide, narrow) * (high[1] - low[1]),
        0.01,
    );

    undo(&mut window);
    assert!(!is_straightened(&window));
    redo(&mut window);
    assert!(is_straightened(&window));
}

#[test]
fn looking_can_be_stopped_and_begun_again() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![bars_in(&folder, &[400])]);
    window.go(Step::Scale);
    window
        .harness
        .get_by_role_and_label(Role::RadioButton, "Scale bar")
        .click();
    // One frame takes the click, the next shows the button; looking takes far longer than both.
    window.harness.run_steps(2);
    let stop = window.harness.get_by_role_and_label(Role::Button, "Stop");
    stop.click();
    window.harness.run_steps(2);
    assert_eq!(window.harness.state().session().work(), &Work::Idle);
    assert!(window.shows("Stopped"));
    window.press(Role::Button, "Find the scale bar");
    assert_eq!(setting(&window).bar, Some(0));
}
