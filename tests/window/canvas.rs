//! The photo as a workbench: ends put on edges, the loupe, the scale bar, views of the photo, shapes drawn
//! freely.

use super::harness::{PX_PER_MM, Window, photo_in};
use super::scale::{choose, close, redo, scale, setting, undo};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers};
use egui_kittest::kittest::Queryable as _;
use image::{GrayImage, Luma};
use poreline::area::Outline;
use poreline::session::Step;
use std::path::PathBuf;
use tempfile::TempDir;

/// Length of the bar on the photo, px; it begins at x = 150.
const BAR: f64 = 400.0;
/// Worst place of an edge that no lens has blurred, px, as in `src/scale/edge.rs`.
const WORST_PX: f64 = 0.1;

/// A black bar of 5 mm on white.
fn bar_in(folder: &TempDir) -> PathBuf {
    let photo = GrayImage::from_fn(700, 500, |x, y| {
        let is_bar = (150..550).contains(&x) && (235..265).contains(&y);
        Luma([if is_bar { 12 } else { 230 }])
    });
    let path = folder.path().join("bar.png");
    photo.save(&path).expect("a photo on disk");
    path
}

fn ends(window: &Window) -> [poreline::session::Placed; 2] {
    let setting = setting(window);
    [setting.first, setting.second].map(|end| end.expect("an end"))
}

#[test]
fn ends_of_the_scale_line_go_to_the_edges_pointed_at_and_with_alt_they_do_not() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![bar_in(&folder)]);
    choose(&mut window, "Two points on the photo");
    window.click_photo(152.0, 250.0);
    window.click_photo(548.0, 250.0);
    window.type_into("Length between the ends", "5 mm");
    let [first, second] = ends(&window);
    assert!((first.at.x - 150.0).abs() <= WORST_PX, "{first:?}");
    assert!((second.at.x - 550.0).abs() <= WORST_PX, "{second:?}");
    assert!(first.on_edge_px.is_some() && second.on_edge_px.is_some());
    close(scale(&window).px_per_mm, BAR / 5.0, 2.0 * WORST_PX / BAR);
    let on_edges = scale(&window).standard_uncertainty;

    window.press(Role::Button, "Set the ends again");
    window.click_photo_freely(152.0, 250.0);
    window.click_photo_freely(548.0, 250.0);
    let [first, second] = ends(&window);
    assert!((first.at.x - 152.0).abs() < 0.01, "{first:?}");
    assert!((second.at.x - 548.0).abs() < 0.01, "{second:?}");
    assert!(scale(&window).standard_uncertainty > 1.5 * on_edges);

    // Dragged with Alt it stays free, without it goes to the edge.
    let drag = |window: &mut Window, to: f64| {
        let end = ends(window)[1].at;
        window.drag_photo((end.x, end.y), (to, 250.0));
    };
    window
        .harness
        .event(Event::ModifiersChanged(Modifiers::ALT));
    drag(&mut window, 547.0);
    window
        .harness
        .event(Event::ModifiersChanged(Modifiers::NONE));
    assert!((ends(&window)[1].at.x - 547.0).abs() < 0.01);
    drag(&mut window, 545.0);
    assert!((ends(&window)[1].at.x - 550.0).abs() <= WORST_PX);
    undo(&mut window);
    assert!((ends(&window)[1].at.x - 547.0).abs() < 0.01);
    redo(&mut window);
    assert!((ends(&window)[1].at.x - 550.0).abs() <= WORST_PX);
}

#[test]
fn by_keyboard_an_end_is_put_on_an_edge_by_enter_and_moved_off_it_by_arrow_keys() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![bar_in(&folder)]);
    choose(&mut window, "Two points on the photo");
    window.press(Role::CheckBox, "Put ends on edges");
    window.click_photo(152.0, 250.0);
    window.click_photo(548.0, 250.0);
    assert!(
        (ends(&window)[0].at.x - 152.0).abs() < 0.01,
        "it is switched off"
    );
    let end = window
        .harness
        .get_by_label_contains("Scale line, first end");
    end.focus();
    window.harness.run();
    window.key(Key::Enter);
    assert!((ends(&window)[0].at.x - 150.0).abs() <= WORST_PX);
    assert!(ends(&window)[0].on_edge_px.is_some());
    window.key(Key::ArrowRight);
    assert!((ends(&window)[0].at.x - 151.0).abs() <= WORST_PX);
    assert_eq!(ends(&window)[0].on_edge_px, None);
}

/// The canvas' textures so named that are held at the moment.
fn textures(window: &Window, name: &str) -> usize {
    let textures = window.harness.ctx.tex_manager();
    let textures = textures.read();
    textures
        .allocated()
        .filter(|(_, meta)| meta.name == name)
        .count()
}

#[test]
fn the_loupe_is_there_while_ends_are_set_and_goes_by_its_key() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![bar_in(&folder)]);
    choose(&mut window, "Two points on the photo");
    assert_eq!(textures(&window, "loupe"), 0);
    let at = window.on_screen(300.0, 250.0);
    window.harness.hover_at(at);
    window.harness.run();
    assert_eq!(textures(&window, "loupe"), 1);
    window.key(Key::L);
    assert_eq!(textures(&window, "loupe"), 0);
    window.key(Key::L);
    assert_eq!(textures(&window, "loupe"), 1);
    window.go(Step::Area);
    window.harness.hover_at(at);
    window.harness.run();
    assert_eq!(textures(&window, "loupe"), 0, "nothing is set closely here");
}

#[test]
fn with_a_scale_a_bar_of_a_round_length_lies_on_the_photo_and_follows_the_zoom() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    assert!(!window.shows("Scale bar of"));
    window.set_scale();
    window.go(Step::Area);
    // How long a millimetre is on the screen, from where two places of the photo lie.
    let mm = (window.on_screen(2.0 * PX_PER_MM, 0.0).x - window.on_screen(PX_PER_MM, 0.0).x).abs();
    let fits = |mm_long: f32| mm_long * mm <= 180.0;
    let longest = [5.0, 2.0, 1.0, 0.5].into_iter().find(|&long| fits(long));
    let label = match longest {
        Some(0.5) => "Scale bar of 500 µm".to_owned(),
        Some(long) => format!("Scale bar of {long} mm"),
        None => panic!("{mm} points to the mm"),
    };
    window.harness.get_by_label(&label);
    for _ in 0..6 {
        window.key(Key::Plus);
    }
    // 1.5 to the sixth is eleven times larger: less than 0.2 mm fits, and 0.1 mm does.
    assert!(window.harness.query_by_label(&label).is_none());
    assert!(window.shows("µm"));
    window.press(Role::Button, "View");
    window.press(Role::CheckBox, "Scale bar");
    window.harness.run();
    assert!(!window.shows("Scale bar of"));
}

#[test]
fn brightness_is_for_looking_only_and_is_set_back() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::measured(&folder);
    let document = window.harness.state().session().document().clone();
    window.press(Role::Button, "View");
    for name in ["Brightness", "Contrast"] {
        let slider = window.harness.get_by_role_and_label(Role::Slider, name);
        slider.focus();
        window.harness.run();
        for _ in 0..10 {
            window.key(Key::ArrowRight);
        }
    }
    window.key(Key::Escape);
    assert!(window.shows("Brightness changed for looking only"));
    let session = window.harness.state().session();
    assert!(session.document().is_set_like(&document));
    assert_eq!(session.outdated(), None);
    window.press(Role::Button, "Reset brightness");
    assert!(!window.shows("Brightness changed for looking only"));
}

#[test]
fn half_of_the_photo_is_shown_without_outlines_and_the_line_is_moved_by_keys_and_by_dragging() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::measured(&folder);
    let line = |window: &Window| {
        let mut lines = window.harness.query_all_by_label_contains("Divider, ");
        lines.next().map(|line| line.rect().center())
    };
    // What is clipped at the line.
    let is_cut = |window: &Window, x: f32| {
        let canvas = window.canvas();
        let shapes = &window.harness.output().shapes;
        shapes.iter().any(|shape| {
            let clip = shape.clip_rect;
            (clip.left() - x).abs() < 0.6 && (clip.right() - canvas.right()).abs() < 0.6
        })
    };
    assert_eq!(line(&window), None);
    window.key(Key::W);
    let middle = window.canvas().center();
    let at = line(&window).expect("a line");
    assert!((at.x - middle.x).abs() < 1.0);
    assert!(is_cut(&window, at.x));
    window.harness.get_by_label_contains("Divider, ").focus();
    window.harness.run();
    window.key(Key::ArrowRight);
    let moved = line(&window).expect("a line");
    assert!((moved.x - at.x - 10.0).abs() < 0.5, "{at:?} {moved:?}");
    assert!(is_cut(&window, moved.x));
    let to = egui::pos2(middle.x - 120.0, middle.y);
    window.harness.hover_at(moved);
    window.harness.drag_at(moved);
    window.harness.run();
    window.harness.hover_at(to);
    window.harness.run();
    window.harness.drop_at(to);
    window.settle();
    let dragged = line(&window).expect("a line");
    assert!((dragged.x - to.x).abs() < 1.0, "{dragged:?} {to:?}");
    window.press(Role::CheckBox, "Half without");
    assert_eq!(line(&window), None);
    assert!(!is_cut(&window, dragged.x));
}

#[test]
fn a_turned_photo_is_worked_on_where_it_lies() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    choose(&mut window, "Two points on the photo");
    window.key(Key::R);
    assert!(window.shows("turned 90°"));
    // Clockwise: right on the photo is down on the screen. It fits, all of it, lying on its side.
    let canvas = window.canvas();
    let zoom = ((canvas.width() - 16.0) / 500.0).min((canvas.height() - 16.0) / 700.0);
    let on_screen =
        |x: f32, y: f32| canvas.center() + egui::vec2(-(y - 250.0) * zoom, (x - 350.0) * zoom);
    let click = |window: &mut Window, x: f32, y: f32| {
        let at = on_screen(x, y);
        window
            .harness
            .event(Event::ModifiersChanged(Modifiers::ALT));
        window.harness.hover_at(at);
        window.harness.drag_at(at);
        window.harness.run();
        window.harness.drop_at(at);
        window.settle();
        window
            .harness
            .event(Event::ModifiersChanged(Modifiers::NONE));
    };
    click(&mut window, 100.0, 480.0);
    click(&mut window, 500.0, 480.0);
    let [first, second] = ends(&window).map(|end| end.at);
    assert!(
        (first.x - 100.0).abs() < 0.01 && (first.y - 480.0).abs() < 0.01,
        "{first:?}"
    );
    assert!(
        (second.x - 500.0).abs() < 0.01 && (second.y - 480.0).abs() < 0.01,
        "{second:?}"
    );
    // An arrow key moves it the way that it points on the screen.
    let end = window
        .harness
        .get_by_label_contains("Scale line, first end");
    assert!(end.rect().center().distance(on_screen(100.0, 480.0)) < 1.0);
    end.focus();
    window.harness.run();
    window.key(Key::ArrowDown);
    assert!((ends(&window)[0].at.x - 101.0).abs() < 0.01);
    // A handle follows the pointer.
    let (from, to) = (on_screen(101.0, 480.0), on_screen(140.0, 400.0));
    window
        .harness
        .event(Event::ModifiersChanged(Modifiers::ALT));
    window.harness.hover_at(from);
    window.harness.drag_at(from);
    window.harness.run();
    window.harness.hover_at(to);
    window.harness.run();
    window.harness.drop_at(to);
    window.settle();
    window
        .harness
        .event(Event::ModifiersChanged(Modifiers::NONE));
    let first = ends(&window)[0].at;
    assert!(
        (first.x - 140.0).abs() < 0.05 && (first.y - 400.0).abs() < 0.05,
        "{first:?}"
    );

    window.harness.key_press_modifiers(Modifiers::SHIFT, Key::R);
    window.settle();
    assert!(!window.shows("turned"));
    // By any angle.
    window.press(Role::Button, "View");
    let slider = window.harness.get_by_role_and_label(Role::Slider, "Turn");
    slider.focus();
    window.harness.run();
    for _ in 0..3 {
        window.key(Key::ArrowRight);
    }
    assert!(window.shows("turned"));
    window.press(Role::Button, "Upright");
    assert!(!window.shows("turned"));
}

fn outline(window: &Window) -> Vec<poreline::geometry::Point> {
    match &window.area().outline {
        Outline::Polygon(polygon) => polygon.vertices().to_vec(),
        other => panic!("no outline: {other:?}"),
    }
}

#[test]
fn an_outline_is_drawn_in_one_go_and_its_corners_are_moved_added_and_taken_away() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.go(Step::Area);
    window.press(Role::Button, "Freehand");
    // Once around an ellipse, in eighty moves.
    let place = |k: u16| {
        let turn = std::f64::consts::TAU * f64::from(k) / 80.0;
        (350.0 + 200.0 * turn.cos(), 250.0 + 150.0 * turn.sin())
    };
    let at = |window: &Window, k: u16| {
        let (x, y) = place(k);
        window.on_screen(x, y)
    };
    let start = at(&window, 0);
    window.harness.hover_at(start);
    window.harness.drag_at(start);
    window.harness.run();
    for k in 1..80 {
        let next = at(&window, k);
        window.harness.hover_at(next);
        window.harness.run();
    }
    let end = at(&window, 79);
    window.harness.drop_at(end);
    window.settle();
    let drawn = outline(&window);
    assert!((8..40).contains(&drawn.len()), "{} corners", drawn.len());
    let whole = std::f64::consts::PI * 200.0 * 150.0;
    let area = poreline::geometry::Polygon::new(drawn.clone()).area();
    close(area, whole, 0.03);

    // By keyboard.
    let corner = |window: &mut Window, number: usize| {
        let name = format!("Area, corner {number}, ");
        window.harness.get_by_label_contains(&name).focus();
        window.harness.run();
    };
    corner(&mut window, 2);
    window.key(Key::ArrowUp);
    let moved = outline(&window);
    assert!((moved[1].y - drawn[1].y + 1.0).abs() < 1e-9);
    window.key(Key::Insert);
    let added = outline(&window);
    assert_eq!(added.len(), drawn.len() + 1);
    let middle = f64::midpoint(moved[1].x, moved[2].x);
    assert!((added[2].x - middle).abs() < 1e-9);
    corner(&mut window, 3);
    window.key(Key::Delete);
    assert_eq!(outline(&window), moved);
    undo(&mut window);
    assert_eq!(outline(&window), added);
    undo(&mut window);
    assert_eq!(outline(&window), moved);
    undo(&mut window);
    assert_eq!(outline(&window), drawn);
    undo(&mut window);
    assert_eq!(window.area().outline, Outline::WholePhoto);
}

#[test]
fn corners_are_added_on_a_side_by_a_click_or_pulled_out_and_taken_away_by_a_right_click() {
    let folder = TempDir::new().expect("a folder");
    let mut window = Window::with(vec![photo_in(&folder)]);
    window.go(Step::Area);
    window.drag_photo((100.0, 100.0), (600.0, 400.0));
    window.click_photo(350.0, 100.0);
    let added = outline(&window);
    assert_eq!(added.len(), 5);
    assert!((added[1].x - 350.0).abs() < 0.01 && (added[1].y - 100.0).abs() < 0.01);
    window.drag_photo((100.0, 250.0), (160.0, 260.0));
    let pulled = outline(&window);
    assert_eq!(pulled.len(), 6);
    assert!((pulled[5].x - 160.0).abs() < 0.01 && (pulled[5].y - 260.0).abs() < 0.01);
    undo(&mut window);
    assert_eq!(outline(&window), added);
    let at = window.on_screen(350.0, 100.0);
    window.harness.hover_at(at);
    for pressed in [true, false] {
        window.harness.event(Event::PointerButton {
            pos: at,
            button: egui::PointerButton::Secondary,
            pressed,
            modifiers: Modifiers::NONE,
        });
    }
    window.settle();
    assert_eq!(outline(&window).len(), 4);
}
