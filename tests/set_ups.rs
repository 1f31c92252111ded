//! Ways around a scale on the photo itself: set-ups, what the file says, and scales that cannot be.
//!
//! The photos are drawn by construction, so that their scale is known exactly.

use assert_cmd::Command;
use exif::{Field, In, Rational, Tag, Value as Exif, experimental::Writer};
use image::codecs::jpeg::JpegEncoder;
use image::{ImageEncoder as _, Rgb, RgbImage, imageops};
use serde_json::{Value, json};
use std::fs;
use std::io::{BufWriter, Cursor};
use std::path::Path;
use tempfile::TempDir;

const PX_PER_MM: f64 = 80.0;
/// Two places 4 mm apart.
const POINTS: &str = "100,100,420,100=4mm";

/// The program, with the person's settings in the same folder as the photos.
fn poreline(folder: &TempDir) -> Command {
    let mut command = Command::cargo_bin("poreline").expect("the program is built");
    command
        .current_dir(folder.path())
        .env("HOME", folder.path())
        .env("XDG_CONFIG_HOME", folder.path().join("settings"))
        .env("APPDATA", folder.path().join("settings"));
    command
}

fn measure(folder: &TempDir, options: &[&str]) -> Command {
    let mut command = poreline(folder);
    command.arg("measure").args(options);
    command
}

/// Four pores per mm in rows, on a photo of 640 × 480 px.
fn pores() -> RgbImage {
    let spacing = 0.25 * PX_PER_MM;
    let row_height = spacing * 0.75_f64.sqrt();
    RgbImage::from_fn(640, 480, |x, y| {
        let (x, y) = (f64::from(x) + 0.5, f64::from(y) + 0.5);
        let nearest = [-1.0, 0.0, 1.0]
            .into_iter()
            .map(|step| {
                let row = (y / row_height).round() + step;
                let shift = spacing / 2.0 * row.rem_euclid(2.0);
                let column = ((x - shift) / spacing).round();
                (x - column * spacing - shift).hypot(y - row * row_height)
            })
            .fold(f64::INFINITY, f64::min);
        if nearest < 0.3 * spacing {
            Rgb([70, 66, 60])
        } else {
            Rgb([200, 195, 180])
        }
    })
}

/// A folder with `pores.png`.
fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    pores()
        .save(folder.path().join("pores.png"))
        .expect("written");
    folder
}

/// The same as JPEG by a camera.
fn by_camera(path: &Path, model: &str, focal_length: u32) {
    let text = |text: &str| Exif::Ascii(vec![text.as_bytes().to_vec()]);
    let length = Exif::Rational(vec![Rational::from((focal_length, 1))]);
    let fields = [
        (Tag::Make, text("Acorn")),
        (Tag::Model, text(model)),
        (Tag::FocalLength, length),
    ]
    .map(|(tag, value)| Field {
        tag,
        ifd_num: In::PRIMARY,
        value,
    });
    let mut writer = Writer::new();
    for field in &fields {
        writer.push_field(field);
    }
    let mut block = Cursor::new(Vec::new());
    writer.write(&mut block, false).expect("an EXIF block");
    let file = fs::File::create(path).expect("a file");
    let mut encoder = JpegEncoder::new_with_quality(file, 92);
    encoder
        .set_exif_metadata(block.into_inner())
        .expect("JPEG has EXIF");
    encoder.encode_image(&pores()).expect("written");
}

/// The same as PNG that says so many pixels per metre.
fn saying(path: &Path, px_per_metre: u32) {
    let picture = pores();
    let file = BufWriter::new(fs::File::create(path).expect("a file"));
    let mut encoder = png::Encoder::new(file, picture.width(), picture.height());
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_pixel_dims(Some(png::PixelDimensions {
        xppu: px_per_metre,
        yppu: px_per_metre,
        unit: png::Unit::Meter,
    }));
    let mut writer = encoder.write_header().expect("a header");
    writer.write_image_data(&picture).expect("written");
}

fn findings(folder: &TempDir, options: &[&str]) -> Value {
    let run = measure(folder, options).arg("--json").assert().success();
    serde_json::from_slice(&run.get_output().stdout).expect("one line of JSON")
}

/// The words on standard error of a run that ends with a status.
fn refused(command: &mut Command, status: i32) -> String {
    let run = command.assert().code(status);
    String::from_utf8_lossy(&run.get_output().stderr)
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}

fn codes(findings: &Value) -> Vec<&str> {
    let notes = findings["notes"].as_array().expect("notes");
    notes.iter().filter_map(|n| n["code"].as_str()).collect()
}

#[test]
fn a_scale_is_saved_and_carried_to_other_photos() {
    let folder = folder();
    let turned = imageops::rotate90(&pores());
    turned
        .save(folder.path().join("turned.png"))
        .expect("written");
    let first = findings(
        &folder,
        &["pores.png", "--points", POINTS, "--save-set-up", "stand"],
    );
    for photo in ["pores.png", "turned.png"] {
        let second = findings(&folder, &[photo, "--set-up", "stand"]);
        assert_eq!(second["scale"]["how"], "set-up");
        for key in ["px_per_mm", "standard_uncertainty"] {
            assert_eq!(second["scale"][key], first["scale"][key], "{photo}: {key}");
        }
        assert!(codes(&second).contains(&"set-up"), "{second}");
    }
    let page = measure(&folder, &["pores.png", "--set-up", "stand"])
        .assert()
        .success();
    let page = String::from_utf8_lossy(&page.get_output().stdout).into_owned();
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        page.contains("80.0 px per mm") || page.contains("80.00 px per mm"),
        "{page}"
    );
    assert!(page.contains("a changed distance, focus or zoom"), "{page}");
    assert!(page.contains("obtained by two points"), "{page}");

    let listed = poreline(&folder).arg("set-ups").assert().success();
    let listed = String::from_utf8_lossy(&listed.get_output().stdout).into_owned();
    assert!(listed.starts_with("stand: 80"), "{listed}");
    assert!(listed.contains("640 × 480 px"), "{listed}");
}

#[test]
fn the_file_of_a_set_up_says_where_it_comes_from() {
    let folder = folder();
    findings(
        &folder,
        &[
            "pores.png",
            "--px-per-mm",
            "80",
            "--save-set-up",
            "stand.json",
        ],
    );
    let text = fs::read_to_string(folder.path().join("stand.json")).expect("a file");
    let saved: Value = serde_json::from_str(&text).expect("JSON");
    assert_eq!(saved["schema"], "poreline-set-up/1");
    assert_eq!(saved["scale"]["px_per_mm"], 80.0);
    assert_eq!(saved["scale"]["how"], "given");
    assert_eq!(saved["image"], json!({"width_px": 640, "height_px": 480}));
    assert_eq!(saved["photo"]["file"], "pores.png");
    assert_eq!(saved["camera"], Value::Null);
}

#[test]
fn a_photo_of_another_size_is_refused_unless_the_set_up_is_said_to_fit() {
    let folder = folder();
    let smaller = imageops::crop_imm(&pores(), 0, 0, 600, 460).to_image();
    smaller
        .save(folder.path().join("cut.png"))
        .expect("written");
    findings(
        &folder,
        &["pores.png", "--points", POINTS, "--save-set-up", "stand"],
    );
    let words = refused(&mut measure(&folder, &["cut.png", "--set-up", "stand"]), 1);
    assert!(
        words.contains("600 × 460 px") && words.contains("640 × 480 px"),
        "{words}"
    );
    assert!(words.contains("--set-up-fits"), "{words}");
    let anyway = findings(&folder, &["cut.png", "--set-up", "stand", "--set-up-fits"]);
    assert!(codes(&anyway).contains(&"set-up-differs"), "{anyway}");
    assert_eq!(anyway["scale"]["how"], "set-up");
}

#[test]
fn a_photo_by_another_camera_or_zoom_is_refused() {
    let folder = folder();
    for (name, model, focal_length) in [
        ("a.jpg", "A1", 100),
        ("b.jpg", "A1", 100),
        ("other.jpg", "B2", 100),
        ("zoom.jpg", "A1", 60),
    ] {
        by_camera(&folder.path().join(name), model, focal_length);
    }
    findings(
        &folder,
        &["a.jpg", "--points", POINTS, "--save-set-up", "stand"],
    );
    findings(&folder, &["b.jpg", "--set-up", "stand"]);
    for (photo, reason) in [
        ("other.jpg", "Acorn B2"),
        ("zoom.jpg", "60 mm"),
        ("pores.png", "does not tell its camera"),
    ] {
        let words = refused(&mut measure(&folder, &[photo, "--set-up", "stand"]), 1);
        assert!(
            words.contains(reason) && words.contains("--set-up-fits"),
            "{words}"
        );
    }
}

#[test]
fn a_set_up_is_replaced_only_on_demand() {
    let folder = folder();
    let save = ["pores.png", "--px-per-mm", "80", "--save-set-up", "stand"];
    findings(&folder, &save);
    let again = ["pores.png", "--px-per-mm", "90", "--save-set-up", "stand"];
    let words = refused(&mut measure(&folder, &again), 2);
    assert!(words.contains("--replace-set-up"), "{words}");
    let used = || findings(&folder, &["pores.png", "--set-up", "stand"]);
    assert_eq!(used()["scale"]["px_per_mm"], 80.0);
    measure(&folder, &again)
        .arg("--replace-set-up")
        .assert()
        .success();
    assert_eq!(used()["scale"]["px_per_mm"], 90.0);

    // A photo is never taken for one.
    let onto = [
        "pores.png",
        "--px-per-mm",
        "80",
        "--save-set-up",
        "./pores.png",
    ];
    let words = refused(measure(&folder, &onto).arg("--replace-set-up"), 2);
    assert!(words.contains("photos are never altered"), "{words}");
}

#[test]
fn what_is_no_set_up_is_told_with_its_file() {
    let folder = folder();
    fs::write(folder.path().join("broken.json"), "{\"schema\"").expect("written");
    for (typed, reason) in [
        ("nowhere", "none has been saved yet"),
        ("broken.json", "broken.json is no set-up"),
        ("a|b", "cannot be the name"),
    ] {
        let words = refused(&mut measure(&folder, &["pores.png", "--set-up", typed]), 2);
        assert!(words.contains(reason), "{words}");
    }
}

#[test]
fn a_straightened_photo_gives_a_set_up_only_when_it_was_nearly_square() {
    let folder = folder();
    let corners = |places: &str| format!("{places}=5x3.75");
    let square = corners("100,100,500,100,500,400,100,400");
    findings(
        &folder,
        &["pores.png", "--corners", &square, "--save-set-up", "stand"],
    );
    let used = findings(&folder, &["pores.png", "--set-up", "stand"]);
    let px_per_mm = used["scale"]["px_per_mm"].as_f64().expect("a number");
    assert!((px_per_mm / PX_PER_MM - 1.0).abs() < 1e-5, "{px_per_mm}");
    let steep = corners("140,100,460,100,500,400,100,400");
    let words = refused(
        &mut measure(
            &folder,
            &["pores.png", "--corners", &steep, "--save-set-up", "tilted"],
        ),
        1,
    );
    assert!(words.contains("tilted by about"), "{words}");
    let words = refused(
        &mut measure(&folder, &["pores.png", "--set-up", "tilted"]),
        2,
    );
    assert!(words.contains("saved are: stand"), "{words}");
}

#[test]
fn the_files_own_scale_is_taken_only_on_demand() {
    let folder = folder();
    saying(&folder.path().join("said.png"), 80_000);
    let words = refused(&mut measure(&folder, &["said.png"]), 2);
    assert!(words.contains("The file says 80.000 px per mm"), "{words}");
    assert!(words.contains("--from-file"), "{words}");
    let taken = findings(&folder, &["said.png", "--from-file"]);
    assert_eq!(taken["scale"]["how"], "metadata");
    assert_eq!(taken["scale"]["px_per_mm"], 80.0);
    assert!(codes(&taken).contains(&"scale-from-file"), "{taken}");
}

#[test]
fn what_programs_fill_in_is_no_scale() {
    let folder = folder();
    // 72 px per inch.
    saying(&folder.path().join("screen.png"), 2835);
    let words = refused(&mut measure(&folder, &["screen.png", "--from-file"]), 1);
    assert!(
        words.contains("72 px per inch") && words.contains("without knowing"),
        "{words}"
    );
    let words = refused(&mut measure(&folder, &["pores.png", "--from-file"]), 1);
    assert!(words.contains("says nothing about its scale"), "{words}");
    for photo in ["screen.png", "pores.png"] {
        let words = refused(&mut measure(&folder, &[photo]), 2);
        assert!(!words.contains("The file says"), "{words}");
    }
}

#[test]
fn a_photo_of_impossible_size_asks_back() {
    let folder = folder();
    // 200 and 0.5 px per mm: 3.2 mm and more than a metre across.
    saying(&folder.path().join("said.png"), 500);
    let mut far: Value = json!({
        "schema": "poreline-set-up/1",
        "scale": {"px_per_mm": 1e6, "standard_uncertainty": 0.0, "how": "given", "tilt_deg": null},
        "image": {"width_px": 640, "height_px": 480},
        "camera": null,
        "photo": {"file": "x.png", "sha256": "", "taken": null},
        "saved": "2026-09-14T10:20:30Z",
    });
    far["note"] = json!("by hand");
    fs::write(folder.path().join("far.json"), far.to_string()).expect("written");
    for (options, size) in [
        (["pores.png", "--px-per-mm", "213333"], "3 µm across"),
        (["pores.png", "--px-per-mm", "0.5"], "1.3 m across"),
        (["pores.png", "--points", "0,0,100,0=1um"], "6.4 µm across"),
        (["pores.png", "--points", "0,0,100,0=100cm"], "6.4 m across"),
        (["pores.png", "--set-up", "far.json"], "0.64 µm across"),
        (
            [
                "pores.png",
                "--corners",
                "0,0,640,0,640,480,0,480=64000x48000",
            ],
            "64 m across",
        ),
        (["said.png", "--from-file", "--whole-photo"], "1.3 m across"),
    ] {
        let words = refused(&mut measure(&folder, &options), 1);
        assert!(words.contains(size), "{options:?}: {words}");
        assert!(words.contains("--scale-is-right"), "{options:?}: {words}");
        measure(&folder, &options)
            .arg("--scale-is-right")
            .assert()
            .success();
    }
    // Such a scale is not saved either.
    refused(
        &mut measure(
            &folder,
            &[
                "pores.png",
                "--px-per-mm",
                "0.5",
                "--save-set-up",
                "wide.json",
            ],
        ),
        1,
    );
    assert!(!folder.path().join("wide.json").exists());
}

#[test]
fn lengths_that_are_none_are_refused_whatever_the_source() {
    let folder = folder();
    for [option, value] in [
        ["--px-per-mm", "0"],
        ["--px-per-mm", "-80"],
        ["--px-per-mm", "NaN"],
        ["--bar", "0mm"],
        ["--bar", "-5mm"],
        ["--bar", "NaN"],
        ["--points", "7,7,7,7=5mm"],
        ["--points", "0,0,100,0=0"],
        ["--points", "0,0,100,0=-5"],
        ["--points", "0,0,NaN,0=5"],
        ["--ruler", "0,0,100,0=0mm"],
        ["--ruler", "0,0,100,0=-1mm"],
        ["--ruler", "0,0,100,0=NaN"],
        ["--corners", "0,0,640,0,640,480,0,480=0x20"],
        ["--corners", "0,0,640,0,640,480,0,480=-30x20"],
        ["--corners", "0,0,640,0,640,480,0,480=NaNx20"],
    ] {
        let words = refused(&mut measure(&folder, &["pores.png", option, value]), 2);
        let is_clear = [
            "greater than zero",
            "is not a number",
            "not a length",
            "same place",
        ];
        assert!(
            is_clear.iter().any(|reason| words.contains(reason)),
            "{value}: {words}"
        );
    }
}
