//! How long the window takes for one frame while a photo of 50 megapixels is opened and measured, and
//! while its outlines are on the screen and the photo is zoomed and moved.
//!
//! Without a screen: what is timed is everything but the painting by the graphics card, which is not
//! the same from one computer to the next. The work goes on meanwhile on all cores, as it does for a
//! person. A frame every 16 ms is what a screen asks for; the aim is none over 50 ms.

#[path = "../tests/window/harness.rs"]
#[expect(dead_code, reason = "the tests of the window need more of it")]
mod harness;

use egui::accesskit::Role;
use egui::{Event, Modifiers, MouseWheelSource, MouseWheelUnit, TouchPhase, vec2};
use egui_kittest::kittest::Queryable as _;
use harness::{PX_PER_MM, Window, surface};
use image::codecs::jpeg::JpegEncoder;
use image::{GrayImage, imageops};
use poreline::session::Step;
use std::fs::File;
use std::io::BufWriter;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Side lengths of the photo, px.
const SIZE: (u32, u32) = (8660, 5774);
/// The aim.
const LONGEST: Duration = Duration::from_millis(50);
/// What a screen asks for.
const EVERY: Duration = Duration::from_millis(16);
/// Frames of moving and zooming about.
const MOVES: usize = 240;

fn main() {
    let folder = TempDir::new().expect("a folder");
    let photo = photo_in(folder.path());
    let mut window = Window::with(Vec::new());
    window.go(Step::Photo);
    window.type_into("Or type its path", &photo.display().to_string());
    press(&window, Role::Button, "Open");
    report("opening", &mut until_idle(&mut window));
    window.go(Step::Scale);
    window.press(Role::RadioButton, "Type pixels per millimetre");
    window.type_into("Pixels per millimetre", &PX_PER_MM.to_string());
    window.go(Step::Area);
    window.press(Role::Button, "Whole photo");
    window.go(Step::Pores);
    press(&window, Role::Button, "Measure");
    report("measuring", &mut until_idle(&mut window));
    report("outlines, moved and zoomed", &mut moving(&mut window));
    let results = window.harness.state().session().results();
    let count = results.expect("results").readout.counted;
    println!("{} × {} px, {count} pores counted", SIZE.0, SIZE.1);
}

/// The lattice of the window's tests, side by side and one below the other.
fn photo_in(folder: &Path) -> PathBuf {
    let piece = surface();
    let mut photo = GrayImage::new(SIZE.0, SIZE.1);
    imageops::tile(&mut photo, &piece);
    let path = folder.join("fifty-megapixels.jpg");
    let file = BufWriter::new(File::create(&path).expect("a file"));
    JpegEncoder::new_with_quality(file, 90)
        .encode_image(&photo)
        .expect("a photo on disk");
    path
}

fn press(window: &Window, role: Role, name: &str) {
    window.harness.get_by_role_and_label(role, name).click();
}

/// One frame, and how long it took.
fn frame(window: &mut Window) -> Duration {
    let begun = Instant::now();
    window.harness.step();
    let took = begun.elapsed();
    std::thread::sleep(EVERY.saturating_sub(took));
    took
}

/// Frames until nothing is under way.
fn until_idle(window: &mut Window) -> Vec<Duration> {
    let mut frames = vec![frame(window), frame(window)];
    while window.harness.state().session().is_busy() {
        frames.push(frame(window));
    }
    // The first frames that show what came of it.
    frames.extend([frame(window), frame(window)]);
    frames
}

/// In with the wheel and out again, and the photo dragged about, with all outlines shown.
fn moving(window: &mut Window) -> Vec<Duration> {
    let middle = window.canvas().center();
    window.harness.hover_at(middle);
    (0..MOVES)
        .map(|k| {
            let inward = k % 80 < 40;
            let wheel = Event::MouseWheel {
                unit: MouseWheelUnit::Line,
                delta: vec2(0.0, if inward { 1.0 } else { -1.0 }),
                phase: TouchPhase::Move,
                source: MouseWheelSource::Wheel,
                modifiers: Modifiers::NONE,
            };
            window.harness.event(wheel);
            frame(window)
        })
        .collect()
}

fn report(what: &str, frames: &mut [Duration]) {
    frames.sort_unstable();
    let at = |share: usize| frames[(frames.len() - 1) * share / 100].as_secs_f64() * 1000.0;
    let over = frames.iter().filter(|frame| **frame > LONGEST).count();
    println!(
        "{what}: {} frames, median {:.1} ms, 99 of 100 below {:.1} ms, longest {:.1} ms, {over} over {} ms",
        frames.len(),
        at(50),
        at(99),
        at(100),
        LONGEST.as_millis()
    );
}
