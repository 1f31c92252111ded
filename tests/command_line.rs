//! The command line as scripts and people meet it: exit status, lines, files, words.

use assert_cmd::Command;
use image::{Rgb, RgbImage};
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

const PX_PER_MM: f64 = 80.0;
/// Distance of neighbouring pores on the drawn photo, mm: 4 pores per mm.
const SPACING_MM: f64 = 0.25;
const DIAMETER_MM: f64 = 0.15;

fn poreline(folder: &TempDir) -> Command {
    let mut command = Command::cargo_bin("poreline").expect("the program is built");
    command.current_dir(folder.path()).arg("measure");
    command
}

/// Round dark pores on a pale ground, on a triangular lattice of known spacing.
fn draw_pores(path: &Path) {
    let spacing = SPACING_MM * PX_PER_MM;
    let radius = DIAMETER_MM * PX_PER_MM / 2.0;
    let row_height = spacing * 0.75_f64.sqrt();
    let picture = RgbImage::from_fn(640, 480, |x, y| {
        let (x, y) = (f64::from(x) + 0.5, f64::from(y) + 0.5);
        let nearest = [-1.0, 0.0, 1.0]
            .into_iter()
            .map(|step| {
                let row = (y / row_height).round() + step;
                let shift = if row.rem_euclid(2.0) < 0.5 {
                    0.0
                } else {
                    spacing / 2.0
                };
                let column = ((x - shift) / spacing).round();
                (x - column * spacing - shift).hypot(y - row * row_height)
            })
            .fold(f64::INFINITY, f64::min);
        let void = (radius - nearest + 0.5).clamp(0.0, 1.0);
        // Mixed in linear light, as a lens does, and encoded with the sRGB curve (IEC 61966-2-1).
        let light = 0.6 - 0.56 * void;
        let level = 255.0 * (1.055 * light.powf(1.0 / 2.4) - 0.055);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "40–210"
        )]
        let level = level.round() as u8;
        Rgb([level, level, level / 10 * 9])
    });
    picture.save(path).expect("a photo was written");
}

fn folder_with_photo() -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let photo = folder.path().join("pores.png");
    draw_pores(&photo);
    (folder, photo)
}

fn lines(stdout: &[u8]) -> Vec<Value> {
    String::from_utf8_lossy(stdout)
        .lines()
        .map(|line| serde_json::from_str(line).unwrap_or_else(|error| panic!("{error}: {line}")))
        .collect()
}

fn words(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes)
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}

#[test]
fn a_photo_is_measured_and_printed_as_one_line_of_json() {
    let (folder, photo) = folder_with_photo();
    let run = poreline(&folder)
        .args(["pores.png", "--px-per-mm", "80", "--json"])
        .assert()
        .code(0);
    let output = run.get_output();
    assert_eq!(words(&output.stderr), "");
    let lines = lines(&output.stdout);
    assert_eq!(lines.len(), 1);
    let findings = &lines[0];
    assert_eq!(findings["schema"], "poreline-findings/1");
    assert_eq!(findings["photo"]["path"], "pores.png");
    assert_eq!(findings["photo"]["width_px"], 640);
    assert_eq!(findings["scale"]["px_per_mm"], 80.0);
    assert_eq!(findings["scale"]["how"], "given");
    assert_eq!(findings["surface"]["type"], "poroid");
    let per_mm = &findings["pores"]["per_mm"];
    let figure = |value: &Value| value.as_f64().expect("a number");
    let value = figure(&per_mm["value"]);
    assert!((value - 1.0 / SPACING_MM).abs() < 0.08, "{per_mm}");
    assert!(
        figure(&per_mm["low"]) <= value && value <= figure(&per_mm["high"]),
        "{per_mm}"
    );
    let diameter = figure(&findings["pores"]["diameter_mm"]["mean"]);
    assert!(
        (diameter - DIAMETER_MM).abs() < 0.05 * DIAMETER_MM,
        "{diameter} mm"
    );
    assert!(photo.exists());
}

#[test]
fn the_same_photo_gives_the_same_bytes() {
    let (folder, _) = folder_with_photo();
    let run = || {
        poreline(&folder)
            .args(["pores.png", "--px-per-mm", "80", "--json"])
            .output()
            .expect("it runs")
            .stdout
    };
    assert_eq!(run(), run());
}

#[test]
fn two_points_give_the_scale_and_its_uncertainty() {
    let (folder, _) = folder_with_photo();
    let run = poreline(&folder)
        .args(["pores.png", "--points", "20,400,420,400=0.5cm", "--json"])
        .assert()
        .code(0);
    let scale = lines(&run.get_output().stdout)[0]["scale"].clone();
    assert_eq!(scale["px_per_mm"], 80.0);
    assert_eq!(scale["how"], "points");
    assert!(scale["standard_uncertainty"].as_f64() > Some(0.0));
}

#[test]
fn the_area_can_be_cut_down() {
    let (folder, _) = folder_with_photo();
    let measured = |area: &[&str]| {
        let run = poreline(&folder)
            .args(["pores.png", "--px-per-mm", "80", "--json"])
            .args(area)
            .assert()
            .code(0);
        lines(&run.get_output().stdout)[0]["area"].clone()
    };
    // 480 × 320 px at 80 px per mm are 24 mm², and 80 × 80 px are 1 mm².
    let check = |area: &Value, mm2: f64, left_out_mm2: f64| {
        for (key, expected) in [("mm2", mm2), ("left_out_mm2", left_out_mm2)] {
            let found = area[key].as_f64().expect("a number");
            assert!((found - expected).abs() <= 0.01 * mm2, "{key}: {area}");
        }
    };
    check(&measured(&["--area", "80,80,480,320"]), 24.0, 0.0);
    let corners = ["--area-polygon", "80,80,560,80,560,400,80,400"];
    check(&measured(&corners), 24.0, 0.0);
    let left_out = ["--leave-out", "80,80,160,80,160,160,80,160"];
    // A guard a spacing wide runs along the two sides of the square that lie in the area.
    let guard = 2.0 * SPACING_MM + std::f64::consts::FRAC_PI_4 * SPACING_MM.powi(2);
    check(
        &measured(&[&["--area", "80,80,480,320"], &left_out[..]].concat()),
        23.0 - guard,
        1.0,
    );
}

/// The photo of [`folder_with_photo`] with its right bottom corner black.
fn dark_corner(folder: &TempDir) {
    let path = folder.path().join("pores.png");
    let mut picture = image::open(&path).expect("a photo").into_rgb8();
    for (x, y, pixel) in picture.enumerate_pixels_mut() {
        if 2 * x + y > 1320 {
            *pixel = Rgb([2; 3]);
        }
    }
    picture.save(path).expect("a photo on disk");
}

#[test]
fn what_cannot_be_measured_is_left_out_unless_told_otherwise() {
    let (folder, _) = folder_with_photo();
    dark_corner(&folder);
    let measured = |options: &[&str]| {
        let run = poreline(&folder)
            .args(["pores.png", "--px-per-mm", "80", "--json"])
            .args(options)
            .assert()
            .code(0);
        lines(&run.get_output().stdout)[0].clone()
    };
    let has_note = |findings: &Value, code: &str| {
        let notes = findings["notes"].as_array().expect("notes");
        notes.iter().any(|note| note["code"] == code)
    };
    let found = measured(&[]);
    let [part] = &found["area"]["left_out"].as_array().expect("parts")[..] else {
        panic!("one reason: {}", found["area"]);
    };
    assert_eq!(part["reason"], "surround");
    // 440 × 220 px / 2 of 640 × 480, and at most two spacings along the slope more.
    let share = part["share"].as_f64().expect("a share");
    assert!((0.157..0.23).contains(&share), "{share}");
    assert!(has_note(&found, "left-out"), "{}", found["notes"]);

    let whole = measured(&["--whole-photo"]);
    assert_eq!(whole["area"]["left_out"], serde_json::json!([]));
    assert!(!has_note(&whole, "left-out"), "{}", whole["notes"]);

    // An area drawn by hand is taken as it is, with a word.
    let drawn = measured(&["--area", "0,0,640,480"]);
    assert_eq!(drawn["area"]["left_out"], serde_json::json!([]));
    assert!(has_note(&drawn, "partly-unusable"), "{}", drawn["notes"]);
    let clean = measured(&["--area", "20,20,360,400"]);
    assert!(!has_note(&clean, "partly-unusable"), "{}", clean["notes"]);
}

#[test]
fn people_get_a_page_of_text() {
    let (folder, _) = folder_with_photo();
    let run = poreline(&folder)
        .args(["pores.png", "--px-per-mm", "80"])
        .assert()
        .code(0);
    let page = words(&run.get_output().stdout);
    for expected in [
        "pores.png",
        "poroid",
        "Pores per mm",
        "95 % interval",
        "not an identification",
    ] {
        assert!(
            page.contains(expected),
            "“{expected}” is missing in: {page}"
        );
    }
}

#[test]
fn table_and_overlay_are_written() {
    let (folder, photo) = folder_with_photo();
    let before = fs::read(&photo).expect("the photo");
    let run = poreline(&folder)
        .args(["pores.png", "--px-per-mm", "80", "--json"])
        .args(["--csv", "table.csv", "--overlay", "overlay.png"])
        .assert()
        .code(0);
    let count = lines(&run.get_output().stdout)[0]["pores"]["count"].as_u64();
    let table = fs::read_to_string(folder.path().join("table.csv")).expect("a table");
    assert!(table.starts_with("number,x_px,y_px,area_mm2,"), "{table}");
    let mut rows = table.lines().map(|row| row.split(',').collect::<Vec<_>>());
    let titles = rows.next().expect("a line of titles");
    let column = titles.iter().position(|title| *title == "counted");
    let column = column.expect("a column that tells what is counted");
    let counted = rows.filter(|row| row[column] == "true").count();
    assert_eq!(
        u64::try_from(counted).ok(),
        count,
        "counted rows and the count in the findings"
    );
    let overlay = image::open(folder.path().join("overlay.png"))
        .expect("an overlay")
        .to_rgb8();
    assert_eq!(overlay.width(), 640);
    assert!(overlay.height() > 480, "there is a strip below the photo");
    let told = words(&run.get_output().stderr);
    assert!(
        told.contains("wrote table.csv") && told.contains("wrote overlay.png"),
        "{told}"
    );
    // The photo itself holds no blue.
    let blue = overlay
        .pixels()
        .filter(|pixel| pixel.0[2] > pixel.0[0].saturating_add(30))
        .count();
    assert!(blue > 5000, "only {blue} px of outline");
    assert_eq!(
        fs::read(&photo).expect("the photo"),
        before,
        "the photo was altered"
    );
    let mut names: Vec<_> = fs::read_dir(folder.path())
        .expect("the folder")
        .map(|entry| entry.expect("an entry").file_name())
        .collect();
    names.sort();
    assert_eq!(names, ["overlay.png", "pores.png", "table.csv"]);
}

#[test]
fn files_that_are_there_are_replaced_only_when_told() {
    let (folder, _) = folder_with_photo();
    let table = folder.path().join("table.csv");
    fs::write(&table, "precious").expect("written");
    let options = ["pores.png", "--px-per-mm", "80", "--csv", "table.csv"];
    let run = poreline(&folder).args(options).assert().code(2);
    assert!(words(&run.get_output().stderr).contains("--replace"));
    assert_eq!(
        words(&run.get_output().stdout),
        "",
        "refused before the work starts"
    );
    assert_eq!(fs::read_to_string(&table).expect("read"), "precious");
    poreline(&folder)
        .args(options)
        .arg("--replace")
        .assert()
        .code(0);
    assert!(
        fs::read_to_string(&table)
            .expect("read")
            .starts_with("number,")
    );
}

#[test]
fn a_photo_is_never_written_over() {
    let (folder, photo) = folder_with_photo();
    let before = fs::read(&photo).expect("the photo");
    let run = poreline(&folder)
        .args([
            "pores.png",
            "--px-per-mm",
            "80",
            "--overlay",
            "./pores.png",
            "--replace",
        ])
        .assert()
        .code(2);
    assert!(words(&run.get_output().stderr).contains("never altered"));
    assert_eq!(fs::read(&photo).expect("the photo"), before);
}

#[test]
fn some_failures_among_several_photos_are_told_apart() {
    let (folder, _) = folder_with_photo();
    fs::write(
        folder.path().join("broken.jpg"),
        b"\xff\xd8\xff\xe0 and no more",
    )
    .expect("written");
    let run = poreline(&folder)
        .args([
            "broken.jpg",
            "pores.png",
            "missing.jpg",
            "--px-per-mm",
            "80",
            "--json",
        ])
        .assert()
        .code(3);
    let lines = lines(&run.get_output().stdout);
    assert_eq!(lines.len(), 3);
    for (line, photo) in [(&lines[0], "broken.jpg"), (&lines[2], "missing.jpg")] {
        assert_eq!(line["photo"], photo);
        assert!(
            line["error"]
                .as_str()
                .is_some_and(|error| error.contains(photo)),
            "{line}"
        );
        assert_eq!(line.as_object().map(serde_json::Map::len), Some(2));
    }
    assert_eq!(lines[1]["photo"]["path"], "pores.png");
    let told = words(&run.get_output().stderr);
    for photo in ["broken.jpg", "missing.jpg"] {
        assert!(told.contains(photo), "people are told too: {told}");
    }
}

#[test]
fn the_places_of_the_scale_lie_on_the_photo() {
    let (folder, _) = folder_with_photo();
    let run = |places: &str, code: i32| {
        let run = poreline(&folder)
            .args(["pores.png", "--json", "--points", places])
            .assert()
            .code(code);
        words(&run.get_output().stderr)
    };
    assert_eq!(run("0,0,640,480=10mm", 0), "");
    for places in [
        "20,400,641,400=5mm",
        "20,481,420,400=5mm",
        "-1,400,420,400=5mm",
        "20,-0.5,420,400=5mm",
    ] {
        let told = run(places, 1);
        assert!(
            told.contains("pores.png") && told.contains("640 × 480 px"),
            "{told}"
        );
    }
}

#[test]
fn the_area_can_be_read_back_from_json() {
    let (folder, _) = folder_with_photo();
    let run = |options: &[&str]| {
        let run = poreline(&folder)
            .args(["pores.png", "--px-per-mm", "80", "--json"])
            .args(options)
            .assert()
            .code(0);
        lines(&run.get_output().stdout)[0]["area"].clone()
    };
    let whole = run(&[]);
    assert_eq!(whole["outline_px"], Value::Null);
    assert!(whole["guard_mm2"].as_f64() > Some(0.0), "{whole}");
    let part = run(&[
        "--area",
        "80,80,480,320",
        "--leave-out",
        "80,80,160,80,160,160",
    ]);
    assert_eq!(
        part["outline_px"].to_string(),
        "[[80.0,80.0],[560.0,80.0],[560.0,400.0],[80.0,400.0]]"
    );
    assert_eq!(
        part["left_out_px"].to_string(),
        "[[[80.0,80.0],[160.0,80.0],[160.0,160.0]]]"
    );
    // About the part left out by hand there is a guard, along the drawn outline there is none.
    assert!(part["guard_mm2"].as_f64() > Some(0.0), "{part}");
    let outlined = run(&["--area", "80,80,480,320"]);
    assert_eq!(outlined["guard_mm2"], 0.0);
}

#[test]
fn a_surface_without_pores_gives_an_empty_table_and_says_why() {
    let folder = tempfile::tempdir().expect("a folder");
    RgbImage::from_pixel(320, 240, Rgb([190, 170, 140]))
        .save(folder.path().join("plain.png"))
        .expect("a photo was written");
    let run = poreline(&folder)
        .args(["plain.png", "--px-per-mm", "80", "--csv", "table.csv"])
        .assert()
        .code(0);
    let told = words(&run.get_output().stderr);
    assert!(told.contains("the table is empty, because"), "{told}");
    let table = fs::read_to_string(folder.path().join("table.csv")).expect("a table");
    assert_eq!(table.lines().count(), 1, "{table}");
}

#[test]
fn a_mistyped_command_is_told_from_a_photo() {
    let (folder, _) = folder_with_photo();
    let run = |arguments: &[&str]| {
        let mut command = Command::cargo_bin("poreline").expect("the program is built");
        let run = command
            .current_dir(folder.path())
            .args(arguments)
            .assert()
            .code(2);
        words(&run.get_output().stderr)
    };
    let told = run(&["mesure", "pores.png", "--px-per-mm", "80"]);
    assert!(
        told.contains("no such command “mesure”; did you mean `poreline measure`?"),
        "{told}"
    );
    // Without an option the word could be a photo for the window; it is none, and resembles a command.
    for arguments in [&["mesure", "pores.png"][..], &["Measur"], &["mesaure"]] {
        let told = run(arguments);
        assert!(told.contains("did you mean `poreline measure`?"), "{told}");
    }
    let told = run(&["pores.png", "--px-per-mm", "80"]);
    assert!(!told.contains("no such command"), "{told}");
}

#[test]
fn nothing_measured_is_one() {
    let (folder, _) = folder_with_photo();
    fs::write(folder.path().join("broken.png"), b"\x89PNG\r\n\x1a\n").expect("written");
    for photos in [&["broken.png"][..], &["missing.jpg", "broken.png"], &["."]] {
        let run = poreline(&folder)
            .args(photos)
            .args(["--px-per-mm", "80"])
            .assert()
            .code(1);
        let output = run.get_output();
        assert_eq!(words(&output.stdout), "");
        assert!(
            words(&output.stderr).contains(photos[0]),
            "{}",
            words(&output.stderr)
        );
    }
    let run = poreline(&folder)
        .args([
            "pores.png",
            "--px-per-mm",
            "80",
            "--area",
            "5000,5000,10,10",
        ])
        .assert()
        .code(1);
    let told = words(&run.get_output().stderr);
    assert!(
        told.contains("pores.png") && told.contains("area"),
        "{told}"
    );
}

#[test]
fn bad_usage_is_two_and_says_what_to_do() {
    let (folder, _) = folder_with_photo();
    for (options, advice) in [
        ("pores.png", "--points X1,Y1,X2,Y2=LENGTH"),
        ("pores.png --px-per-mm 0", "greater than zero"),
        ("pores.png --px-per-mm many", "not a number"),
        (
            "pores.png --px-per-mm 80 --points 0,0,80,0=1",
            "cannot be used with",
        ),
        ("pores.png --points 0,0,80,0", "=10mm"),
        ("pores.png --px-per-mm 80 --area 1,2,3", "3 numbers"),
        (
            "pores.png --px-per-mm 80 --csv a.csv --overlay a.csv",
            "same file",
        ),
        ("pores.png --px-per-mm 80 --overlay a.jpg", ".png"),
        (
            "pores.png --px-per-mm 80 --csv no/such/folder/a.csv",
            "no folder",
        ),
        (
            "pores.png pores.png --px-per-mm 80 --csv a.csv",
            "one photo",
        ),
        ("pores.png --px-per-mm 80 --magic", "--magic"),
        ("--px-per-mm 80", "PHOTO"),
    ] {
        let run = poreline(&folder).args(options.split(' ')).assert().code(2);
        let output = run.get_output();
        assert_eq!(words(&output.stdout), "", "{options}");
        assert!(
            words(&output.stderr).contains(advice),
            "{options}: {}",
            words(&output.stderr)
        );
    }
}

#[test]
fn help_teaches_the_scale_and_ends_with_the_cautions() {
    let (folder, _) = folder_with_photo();
    let help = |arguments: &[&str]| {
        let mut command = Command::cargo_bin("poreline").expect("the program is built");
        let run = command
            .current_dir(folder.path())
            .args(arguments)
            .assert()
            .code(0);
        words(&run.get_output().stdout)
    };
    let general = help(&["--help"]);
    let measure = help(&["measure", "--help"]);
    for page in [&general, &measure, &help(&["-h"])] {
        assert!(page.contains("does not identify"), "{page}");
        assert!(page.ends_with("follow the rules of the place."), "{page}");
    }
    assert!(general.contains("scale"), "{general}");
    for expected in [
        "scale",
        "--px-per-mm",
        "--points",
        "ruler",
        "poreline measure",
        "Exit status",
    ] {
        assert!(
            measure.contains(expected),
            "“{expected}” is missing in: {measure}"
        );
    }
    assert!(help(&["--version"]).starts_with("poreline "));
}

#[cfg(unix)]
#[test]
fn a_reader_who_leaves_early_causes_no_panic() {
    use std::process::{Command, Stdio};
    let (folder, _) = folder_with_photo();
    let mut child = Command::new(assert_cmd::cargo::cargo_bin!("poreline"))
        .current_dir(folder.path())
        .args([
            "measure",
            "pores.png",
            "pores.png",
            "--px-per-mm",
            "80",
            "--json",
        ])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("it starts");
    drop(child.stdout.take());
    let output = child.wait_with_output().expect("it ends");
    assert_eq!(words(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
}

#[test]
fn corners_straighten_the_photo_and_the_area_stays_where_it_was_drawn() {
    let (folder, _) = folder_with_photo();
    let run = poreline(&folder)
        .args([
            "pores.png",
            "--corners",
            "560,40,560,440,80,440,80,40=5x6",
            "--json",
        ])
        .args(["--area", "100,60,400,300"])
        .assert()
        .code(0);
    let findings = &lines(&run.get_output().stdout)[0];
    assert_eq!(findings["scale"]["how"], "corners");
    let tilt = findings["scale"]["tilt_deg"].as_f64().expect("a tilt");
    assert!(tilt < 0.1, "{tilt}");
    let per_mm = findings["pores"]["per_mm"]["value"]
        .as_f64()
        .expect("pores");
    assert!((per_mm - 1.0 / SPACING_MM).abs() < 0.08, "{per_mm}");
    assert_eq!(findings["photo"]["width_px"], 640);
    let corner = findings["area"]["outline_px"][2].clone();
    let near = |k: usize, place: f64| (corner[k].as_f64().expect("a place") - place).abs() < 1e-6;
    assert!(near(0, 500.0) && near(1, 360.0), "{corner}");
}

/// The photo of pores under a reddish lamp, with paper of 60 by 40 px in its corner, black below it and
/// glare beside it.
fn draw_pores_and_paper(path: &Path) {
    draw_pores(path);
    let mut picture = image::open(path).expect("the photo").to_rgb8();
    let encoded = |light: f64| {
        let level = 255.0 * (1.055 * light.powf(1.0 / 2.4) - 0.055);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "0–255"
        )]
        let level = level.round() as u8;
        level
    };
    let lamp = [0.95, 0.7, 0.5];
    for (x, y, pixel) in picture.enumerate_pixels_mut() {
        let light = pixel.0.map(|sample| {
            let v = f64::from(sample) / 255.0;
            if v <= 0.04045 {
                v / 12.92
            } else {
                ((v + 0.055) / 1.055).powf(2.4)
            }
        });
        let reflected = match (x, y) {
            // ((95 + 16) / 116)³, the luminance of L* 95.
            (20..80, 20..60) => [0.8762; 3],
            (20..80, 60..80) => [0.01; 3],
            _ => light,
        };
        *pixel = Rgb([0, 1, 2].map(|c| encoded(reflected[c] * lamp[c])));
        if (80..100).contains(&x) && (20..60).contains(&y) {
            *pixel = Rgb([255, 250, 250]);
        }
    }
    picture.save(path).expect("a photo was written");
}

const BESIDE_THE_PAPER: [&str; 5] = ["--px-per-mm", "80", "--area", "120,20,500,440", "--json"];

#[test]
fn a_white_takes_the_lamp_out_of_the_colour() {
    let (folder, photo) = folder_with_photo();
    draw_pores_and_paper(&photo);
    let measured = |options: &[&str]| {
        let run = poreline(&folder)
            .arg("pores.png")
            .args(BESIDE_THE_PAPER)
            .args(options)
            .assert()
            .code(0);
        lines(&run.get_output().stdout)[0].clone()
    };
    let has_note = |findings: &Value| {
        let notes = findings["notes"].as_array().expect("notes");
        notes.iter().any(|note| {
            note["code"] == "no-white"
                && note["text"].as_str().is_some_and(|text| {
                    text.contains("no white reference: colour is indicative only")
                })
        })
    };
    let bare = measured(&[]);
    assert_eq!(bare["colour"]["white"], Value::Null);
    assert!(has_note(&bare), "{}", bare["notes"]);
    let referred = measured(&["--white", "25,25,50,30"]);
    assert_eq!(referred["colour"]["white"], "patch");
    assert!(!has_note(&referred), "{}", referred["notes"]);
    assert_eq!(bare["pores"], referred["pores"]);
    // The walls are drawn as 203, 203, 180: CIELAB 81.1, −4.0, 11.5 by scikit-image.
    for (key, wanted) in [("l", 81.1), ("a", -4.0), ("b", 11.5)] {
        let at = |findings: &Value| findings["colour"]["lab"][key].as_f64().expect("a number");
        assert!(
            (at(&referred) - wanted).abs() < 1.5,
            "{}",
            referred["colour"]
        );
        if key == "b" {
            assert!((at(&bare) - wanted).abs() > 10.0, "{}", bare["colour"]);
        }
    }
    let run = poreline(&folder)
        .arg("pores.png")
        .args(&BESIDE_THE_PAPER[..4])
        .assert()
        .code(0);
    let page = words(&run.get_output().stdout);
    assert!(
        page.contains("No white reference: colour is indicative only."),
        "{page}"
    );
}

#[test]
fn a_white_that_is_none_is_refused_with_a_reason() {
    let (folder, photo) = folder_with_photo();
    draw_pores_and_paper(&photo);
    for (patch, words_said, code) in [
        ("600,20,60,30", "does not lie on the photo", 1),
        ("-5,20,60,30", "does not lie on the photo", 1),
        ("80,20,20,40", "end of the file's range", 1),
        ("20,60,60,20", "too dark", 1),
        ("20,20,3,3", "only 9 pixels", 1),
        ("20,20,0,30", "greater than zero", 2),
        ("20,20,30", "3 numbers", 2),
    ] {
        let run = poreline(&folder)
            .arg("pores.png")
            .args(BESIDE_THE_PAPER)
            .arg(format!("--white={patch}"))
            .assert()
            .code(code);
        let said = words(&run.get_output().stderr);
        assert!(said.contains(words_said), "{patch}: {said}");
        if code == 1 {
            let line = lines(&run.get_output().stdout)[0].clone();
            assert!(line["error"].is_string(), "{line}");
        }
    }
}

#[test]
fn corners_and_cards_that_cannot_be_are_refused_with_a_reason() {
    let (folder, _) = folder_with_photo();
    for (option, words_said, code) in [
        ("--corners=80,40,560,440,560,40,80,440=6x5", "cross", 2),
        (
            "--corners=80,40,560,40,560,440,80,440=0x5",
            "greater than zero",
            2,
        ),
        (
            "--corners=80,40,900,40,900,440,80,440=6x5",
            "of --corners does not lie on the photo",
            1,
        ),
        ("--card", "no scale card", 1),
    ] {
        let run = poreline(&folder)
            .args(["pores.png", option])
            .assert()
            .code(code);
        let said = words(&run.get_output().stderr);
        assert!(said.contains(words_said), "{option}: {said}");
    }
    poreline(&folder)
        .args(["pores.png", "--card", "--px-per-mm", "80"])
        .assert()
        .code(2);
}

#[test]
fn the_sheet_of_cards_is_written_and_never_over_another_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let sheet = || {
        let mut command = Command::cargo_bin("poreline").expect("the program is built");
        command
            .current_dir(folder.path())
            .args(["card", "--out", "card.pdf"]);
        command
    };
    sheet().assert().code(0);
    let bytes = fs::read(folder.path().join("card.pdf")).expect("a sheet");
    assert!(bytes.starts_with(b"%PDF-"));
    let again = sheet().assert().code(2);
    assert!(words(&again.get_output().stderr).contains("already there"));
    sheet()
        .args(["--replace", "--paper", "letter"])
        .assert()
        .code(0);
    let letter = fs::read(folder.path().join("card.pdf")).expect("a sheet");
    assert_ne!(letter, bytes);
}
