//! How long the preview of walls taken otherwise takes beside measuring, on one large photo in one run.
//!
//! Ratios are what counts: `preview`, what a moved slider costs before lines stand on the screen, against
//! `retrace`, what follows in the background, and `measure`, the whole line.

#[path = "../tests/render/mod.rs"]
#[allow(unused_imports, reason = "its own tests do not run here")]
mod render;

use divan::{Bencher, black_box};
use poreline::area::Area;
use poreline::corrections::{Corrections, LeastWall};
use poreline::geometry::Point;
use poreline::photo::Photo;
use poreline::progress::Progress;
use poreline::segmentation::{Phase, Preview, Segmentation};
use poreline::{trace, trace_corrected};
use render::camera::{Camera, Tissue};
use render::surface::Surface;
use std::sync::{Arc, LazyLock};

/// Size of the canvas on a screen of 1920 × 1080.
const CANVAS: [usize; 2] = [1280, 960];

fn main() {
    divan::main();
}

/// A photo of 24 megapixels with about 24 000 pores, and what is seen on it.
static SEEN: LazyLock<(Photo, Arc<Segmentation>)> = LazyLock::new(|| {
    let surface = Surface {
        width_px: 6000,
        height_px: 4000,
        spacing_px: 34.0,
        px_per_mm: 136.0,
        ..Surface::default()
    };
    let pattern = surface.render();
    let rgb = Camera::default().photograph(&pattern, &Tissue::default());
    let photo = Photo::from_rgb("large.jpg", rgb);
    let seen = Segmentation::of(&photo.light, &Area::default(), &Progress::default());
    let seen = Arc::new(seen.expect("the whole photo"));
    (photo, seen)
});

fn fainter() -> LeastWall {
    LeastWall::new(0.7).expect("in range")
}

/// Joining floods anew and outlining what a screen shows: all of the photo, or a part at its own size.
#[divan::bench(args = ["all in view", "one to one"])]
fn preview(bencher: Bencher<'_, '_>, view: &str) {
    let preview = Preview::of(&SEEN.1, Phase::Void);
    let step = if view == "one to one" { 1.0 } else { 4.7 };
    bencher.bench(|| {
        let joined = preview.joined(black_box(fainter()));
        preview.outlines(&joined, CANVAS, |x, y| Point::new(step * x, step * y))
    });
}

/// Getting ready for it, once after measuring and in the background.
#[divan::bench(sample_count = 3)]
fn ready(bencher: Bencher<'_, '_>) {
    let seen = &SEEN.1;
    bencher.bench(|| Preview::of(black_box(seen), Phase::Void));
}

/// Outlines and measures of the whole photo with walls taken otherwise, from what was segmented.
#[divan::bench(sample_count = 3)]
fn retrace(bencher: Bencher<'_, '_>) {
    let (photo, seen) = &*SEEN;
    let corrections = Corrections {
        least_wall: fainter(),
        ..Corrections::default()
    };
    let (area, progress) = (Area::default(), Progress::default());
    bencher.bench(|| {
        trace_corrected(photo, &area, black_box(seen), &corrections, &progress).expect("the photo")
    });
}

/// All of it from the beginning.
#[divan::bench(sample_count = 3)]
fn measure(bencher: Bencher<'_, '_>) {
    let (photo, _) = &*SEEN;
    let (area, progress) = (Area::default(), Progress::default());
    bencher.bench(|| trace(black_box(photo), &area, &progress).expect("the photo"));
}
