//! A rare find's place stays with whoever found it: where a voucher says that its place was blurred or
//! withheld, nothing of its photos that goes into the book tells it.

use assert_cmd::Command;
use exif::experimental::Writer;
use exif::{Field, In, Rational, Reader, Tag, Value};
use image::codecs::jpeg::JpegEncoder;
use image::{ExtendedColorType, ImageEncoder as _, Rgb, RgbImage};
use std::fs::{self, File};
use std::io::{BufReader, Cursor};
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// 52°12′33.3″ N, 1°24′0″ E, and what of it must not be found again.
const SECONDS: (u32, u32) = (333, 10);
const LATITUDE: &str = "52.2092";
const FOLDER: &str = "orchid-corner";

fn poreline(folder: &Path, typed: &[&str]) -> String {
    let done = Command::cargo_bin("poreline")
        .expect("the program is built")
        .current_dir(folder)
        .env("HOME", folder)
        .env("XDG_CONFIG_HOME", folder.join("settings"))
        .args(typed)
        .assert()
        .success();
    String::from_utf8(done.get_output().stdout.clone()).expect("text")
}

fn place() -> Vec<u8> {
    let degrees = |parts: [(u32, u32); 3]| {
        Value::Rational(parts.map(|(num, denom)| Rational { num, denom }).to_vec())
    };
    let letter = |letter: &str| Value::Ascii(vec![letter.as_bytes().to_vec()]);
    let fields = [
        (Tag::GPSLatitudeRef, letter("N")),
        (Tag::GPSLatitude, degrees([(52, 1), (12, 1), SECONDS])),
        (Tag::GPSLongitudeRef, letter("E")),
        (Tag::GPSLongitude, degrees([(1, 1), (24, 1), (0, 1)])),
        // On its side, so that the copy has to be turned.
        (Tag::Orientation, Value::Short(vec![6])),
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
    let mut bytes = Cursor::new(Vec::new());
    writer.write(&mut bytes, false).expect("written");
    bytes.into_inner()
}

/// Pores 20 px apart, in a file that tells where it was taken.
fn photo(path: &Path) {
    let picture = RgbImage::from_fn(400, 300, |x, y| {
        let (dx, dy) = ((x % 20) as f32 - 9.5, (y % 20) as f32 - 9.5);
        Rgb(if dx.hypot(dy) < 6.0 {
            [60, 55, 50]
        } else {
            [200, 190, 170]
        })
    });
    let mut encoder = JpegEncoder::new_with_quality(File::create(path).expect("a file"), 95);
    encoder.set_exif_metadata(place()).expect("EXIF");
    encoder
        .write_image(&picture, 400, 300, ExtendedColorType::Rgb8)
        .expect("a photo");
}

/// A book with one voucher of a photo, with these fields besides.
fn book(fields: &[&str]) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    fs::create_dir(folder.path().join(FOLDER)).expect("a folder");
    let taken = folder.path().join(FOLDER).join("orchid-corner-7.jpg");
    photo(&taken);
    let findings = poreline(
        folder.path(),
        &[
            "measure",
            &taken.display().to_string(),
            "--px-per-mm",
            "80",
            "--json",
        ],
    );
    assert!(findings.contains(LATITUDE), "{findings}");
    fs::write(folder.path().join("a.jsonl"), findings).expect("findings");
    let new = [
        "book",
        "init",
        "fen",
        "--name",
        "Alder Fen",
        "--numbers",
        "AF-{number:4}",
    ];
    poreline(folder.path(), &new);
    let add = [&["book", "add", "fen", "--from", "a.jsonl"], fields].concat();
    poreline(folder.path(), &add);
    folder
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = walkdir::WalkDir::new(folder).into_iter();
    let files = entries
        .map(|entry| entry.expect("an entry"))
        .filter(|e| e.file_type().is_file());
    files.map(walkdir::DirEntry::into_path).collect()
}

fn tells_place(file: &Path) -> bool {
    let mut reader = BufReader::new(File::open(file).expect("a file"));
    let told = Reader::new().read_from_container(&mut reader);
    told.is_ok_and(|exif| exif.get_field(Tag::GPSLatitude, In::PRIMARY).is_some())
}

#[test]
fn a_place_that_was_blurred_is_in_no_file_of_the_book() {
    let folder = book(&[
        "--set",
        "decimalLatitude=52.25",
        "--set",
        "decimalLongitude=1.45",
        "--set",
        "dataGeneralizations=to a cell of 0.1°",
    ]);
    let fen = folder.path().join("fen");
    for file in files(&fen) {
        let bytes = fs::read(&file).expect("a file");
        let text = String::from_utf8_lossy(&bytes);
        assert!(
            !text.contains(LATITUDE) && !text.contains(FOLDER),
            "{}",
            file.display()
        );
        assert!(!tells_place(&file), "{}", file.display());
    }
    // It still is the photo that was measured: nothing has changed, and outlines are found on it again.
    let checked = Command::cargo_bin("poreline")
        .expect("the program is built")
        .current_dir(folder.path())
        .args(["book", "check", "fen", "--json"])
        .output()
        .expect("it runs");
    let checked = String::from_utf8_lossy(&checked.stdout).into_owned();
    assert!(
        !checked.contains("photo-changed") && !checked.contains("photo-missing"),
        "{checked}"
    );
    fs::remove_dir_all(folder.path().join(FOLDER)).expect("gone");
    poreline(
        folder.path(),
        &["book", "report", "fen", "AF-0001", "--out", "report.html"],
    );
    let report = fs::read_to_string(folder.path().join("report.html")).expect("a report");
    assert!(report.contains("data:image") && !report.contains(LATITUDE));
}

#[test]
fn a_copy_without_the_place_has_the_same_pixels() {
    let folder = book(&["--set", "dataGeneralizations=withheld"]);
    let voucher = poreline(folder.path(), &["book", "show", "fen", "AF-0001", "--json"]);
    assert!(!voucher.contains("decimalLatitude"), "{voucher}");
    let copies: Vec<PathBuf> = files(&folder.path().join("fen/photos"));
    let [copy] = &copies[..] else {
        panic!("one copy: {copies:?}");
    };
    let taken = folder.path().join(FOLDER).join("orchid-corner-7.jpg");
    let [taken, copy] = [&taken, copy].map(|path| poreline::photo::open(path).expect("a photo"));
    assert!(taken.rgb == copy.rgb);
    assert!(taken.place.is_some() && copy.place.is_none());
}

#[test]
fn a_place_that_is_told_stays_in_the_photo() {
    let folder = book(&[]);
    let copies = files(&folder.path().join("fen/photos"));
    assert!(copies.len() == 1 && tells_place(&copies[0]), "{copies:?}");
}
