//! How long the whole line takes beside decoding alone, on one photo in one run.
//!
//! Ratios are what counts: `open` and `measure` against `decode`.

use divan::{Bencher, black_box};
use poreline::area::Area;
use poreline::photo;
use poreline::progress::Progress;
use poreline::scale::Scale;
use std::path::{Path, PathBuf};

fn main() {
    divan::main();
}

fn sample() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-images/elongated-pores.jpg")
}

/// The image crate alone: the floor.
#[divan::bench]
fn decode(bencher: Bencher<'_, '_>) {
    let path = sample();
    bencher.bench(|| image::open(black_box(&path)).expect("a sample decodes"));
}

/// Decoding, digest, EXIF, linear light.
#[divan::bench]
fn open(bencher: Bencher<'_, '_>) {
    let path = sample();
    bencher.bench(|| photo::open(black_box(&path)).expect("a sample opens"));
}

/// File to findings.
#[divan::bench]
fn measure(bencher: Bencher<'_, '_>) {
    let path = sample();
    let scale = Scale::given(82.0).expect("greater than zero");
    bencher.bench(|| {
        let photo = photo::open(black_box(&path)).expect("a sample opens");
        poreline::measure(&photo, scale, &Area::default(), &Progress::default())
            .expect("a sample is measured")
    });
}
