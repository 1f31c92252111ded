//! Real files: damaged ones, unusual ones, and one picture in all eight orientations.
//!
//! The photos are not part of the project. Their folder is named by `PORELINE_PHOTOS`, and is
//! `../shared/photos` beside the project otherwise; without it these tests have nothing to say.

use image::{GrayImage, imageops};
use poreline::photo::{self, Photo};
use std::fs;
use std::path::{Path, PathBuf};

/// A sub-folder of the photos, or nothing, said in one line.
fn folder(name: &str) -> Option<PathBuf> {
    let photos = std::env::var_os("PORELINE_PHOTOS").map_or_else(
        || Path::new(env!("CARGO_MANIFEST_DIR")).join("../shared/photos"),
        PathBuf::from,
    );
    let folder = photos.join(name);
    if folder.is_dir() {
        Some(folder)
    } else {
        println!("photos absent, nothing checked: {}", folder.display());
        None
    }
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    files.sort();
    assert!(!files.is_empty(), "no files in {}", folder.display());
    files
}

fn name(path: &Path) -> String {
    path.file_name().unwrap().to_string_lossy().into_owned()
}

/// Most memory this process has held so far, bytes, where the system tells.
fn peak_bytes() -> Option<u64> {
    let status = fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    let kilobytes: u64 = line.split_whitespace().nth(1)?.parse().ok()?;
    Some(kilobytes * 1024)
}

#[test]
fn damaged_files_are_refused_by_name_or_load() {
    let Some(folder) = folder("damaged") else {
        return;
    };
    let mut loaded = Vec::new();
    for path in files(&folder) {
        match photo::open(&path) {
            Ok(_) => loaded.push(name(&path)),
            Err(error) => {
                let message = error.to_string();
                assert!(message.ends_with(&name(&path)), "{message}");
            }
        }
    }
    // What is broken in these is only the EXIF block.
    assert_eq!(
        loaded,
        [
            "exif-dpi-zerodivision.jpg",
            "exif_gps_typeerror.jpg",
            "exif_typeerror.jpg",
            "invalid-exif.jpg",
            "multiple_exif.jpg",
            "truncated_exif_dpi.jpg",
        ]
    );
    // The largest picture among them has 0.4 megapixels; some headers ask for terabytes.
    if let Some(peak) = peak_bytes() {
        assert!(peak < 200_000_000, "{peak} bytes");
    }
}

#[test]
fn unusual_kinds_load() {
    let Some(folder) = folder("kinds") else {
        return;
    };
    let sizes = [
        ("12in16bit.tif", (100, 100)),
        ("16bit.r.tif", (64, 64)),
        ("basi0g16.png", (32, 32)),
        ("basi2c08.png", (32, 32)),
        ("basn6a16.png", (32, 32)),
        ("cat.jpg", (320, 240)),
        ("exif-200dpcm.jpg", (200, 200)),
        ("exif_gps.jpg", (8, 8)),
        ("hpredict.tiff", (32, 32)),
        ("no-dpi-in-exif.jpg", (200, 200)),
        ("pil_sample_cmyk.jpg", (100, 100)),
        ("rgb32f_color.tiff", (32, 32)),
    ];
    for (name, size) in sizes {
        let photo = photo::open(&folder.join(name)).unwrap();
        assert_eq!(photo.rgb.dimensions(), size, "{name}");
        assert_eq!(photo.light.dimensions(), size, "{name}");
        assert!(
            photo.light.iter().all(|y| (0.0..=1.0).contains(y)),
            "{name}"
        );
    }
}

#[test]
fn cmyk_comes_out_in_true_colours() {
    let Some(folder) = folder("kinds") else {
        return;
    };
    // Its first pixel is magenta and yellow without cyan or black, its last one nearly black.
    let photo = photo::open(&folder.join("pil_sample_cmyk.jpg")).unwrap();
    let [red, green, blue] = photo.rgb.get_pixel(0, 0).0;
    assert!(red > 230 && green < 50 && blue < 50);
    assert!(photo.rgb.get_pixel(99, 99).0.iter().all(|&v| v < 25));
}

#[test]
fn a_nonsensical_gps_block_gives_the_time_and_no_place() {
    let Some(folder) = folder("kinds") else {
        return;
    };
    // Its latitude is one number of 4,294,967,295 degrees.
    let photo = photo::open(&folder.join("exif_gps.jpg")).unwrap();
    assert_eq!(photo.taken.as_deref(), Some("2099-09-29T10:10:10"));
    assert_eq!(photo.place, None);
}

#[test]
fn all_orientations_stand_upright() {
    let Some(folder) = folder("orientation") else {
        return;
    };
    let reference = grey(&photo::open(&folder.join("hopper.jpg")).unwrap());
    let mirrored = imageops::flip_horizontal(&reference);
    let turned = files(&folder);
    assert_eq!(turned.len(), 8);
    for path in turned {
        let grey = grey(&photo::open(&path).unwrap());
        // The files were compressed one by one, so they are not the same to the last bit.
        let difference = mean_difference(&reference, &grey);
        assert!(difference <= 4.0, "{}: {difference}", name(&path));
        assert!(mean_difference(&mirrored, &grey) > 40.0);
    }
}

fn grey(photo: &Photo) -> GrayImage {
    imageops::grayscale(&photo.rgb)
}

/// Mean absolute difference, grey levels of 255.
fn mean_difference(a: &GrayImage, b: &GrayImage) -> f64 {
    assert_eq!(a.dimensions(), b.dimensions());
    let differences = a.iter().zip(b.iter()).map(|(&a, &b)| a.abs_diff(b));
    let sum: u32 = differences.map(u32::from).sum();
    f64::from(sum) / f64::from(a.width() * a.height())
}
