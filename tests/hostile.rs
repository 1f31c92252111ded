//! A book goes from hand to hand, so somebody may have written anything into it. Whatever that is, every
//! command ends, the rest of the book is there, and nothing that was written becomes anything but text.

use assert_cmd::Command;
use serde_json::{Value, json};
use std::fs::{self, File};
use std::path::Path;
use std::time::Duration;
use tempfile::TempDir;

/// A command that takes longer than this waits for something that never comes.
const HANGS: Duration = Duration::from_mins(2);

/// What a command printed, what it said, and its exit status.
struct Ended {
    printed: String,
    said: String,
    status: i32,
}

fn poreline(folder: &Path, typed: &[&str]) -> Ended {
    let done = Command::cargo_bin("poreline")
        .expect("the program is built")
        .current_dir(folder)
        .env("HOME", folder)
        .env("XDG_CONFIG_HOME", folder.join("settings"))
        .timeout(HANGS)
        .args(typed)
        .output()
        .expect("it runs");
    Ended {
        printed: String::from_utf8(done.stdout).expect("text"),
        said: String::from_utf8_lossy(&done.stderr).into_owned(),
        status: done
            .status
            .code()
            .unwrap_or_else(|| panic!("{typed:?} hung, or was ended by a signal")),
    }
}

/// A book with one voucher as anybody would write it.
fn book() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let new = [
        "book",
        "init",
        "fen",
        "--name",
        "Alder Fen",
        "--numbers",
        "AF-{number:4}",
    ];
    assert_eq!(poreline(folder.path(), &new).status, 0);
    put(
        &folder,
        "AF-0001",
        &json!({"locality": "Alder Fen, north side"}),
    );
    folder
}

/// Writes a voucher's file with these fields.
fn put(folder: &TempDir, number: &str, fields: &Value) {
    let mut voucher = json!({
        "schema": "poreline-voucher/1",
        "revision": 1,
        "occurrenceID": format!("urn:example:{number}"),
        "basisOfRecord": "PreservedSpecimen",
        "catalogNumber": number,
        "eventDate": "2026-10-04",
        "countryCode": "IE",
    });
    let fields = fields.as_object().expect("fields").clone();
    voucher.as_object_mut().expect("fields").extend(fields);
    fs::write(
        folder.path().join(format!("fen/vouchers/{number}.json")),
        voucher.to_string(),
    )
    .expect("a file");
}

/// Everything that reads a book and changes nothing; what came of each, and the files that it wrote.
fn looked_through(folder: &TempDir) -> Vec<(String, Ended)> {
    let commands: [&[&str]; 11] = [
        &["list", "fen"],
        &["list", "fen", "--json"],
        &["check", "fen"],
        &["show", "fen", "AF-0001"],
        &["show", "fen", "AF-0002"],
        &["compare", "fen", "AF-0002"],
        &[
            "report",
            "fen",
            "AF-0002",
            "--out",
            "report.html",
            "--replace",
        ],
        &[
            "report",
            "fen",
            "AF-0002",
            "--out",
            "report.pdf",
            "--replace",
        ],
        &["labels", "fen", "--out", "labels.pdf", "--replace"],
        &["export", "fen", "--csv", "fen.csv", "--replace"],
        &[
            "export",
            "fen",
            "--darwin-core",
            "fen.zip",
            "--published",
            "2026-11-01",
            "--replace",
        ],
    ];
    commands
        .into_iter()
        .map(|typed| {
            let ended = poreline(folder.path(), &[&["book"], typed].concat());
            assert!(
                !ended.said.contains("panicked") && ended.status < 100,
                "{typed:?}: {}",
                ended.said
            );
            (typed.join(" "), ended)
        })
        .collect()
}

fn written(folder: &TempDir, name: &str) -> String {
    let bytes = fs::read(folder.path().join(name)).expect("it was written");
    String::from_utf8_lossy(&bytes).into_owned()
}

#[test]
fn text_in_a_record_stays_text() {
    let folder = book();
    let marks = "<script>alert(1)</script><img src=x onerror=alert(1)>";
    put(
        &folder,
        "AF-0002",
        &json!({
            "locality": marks,
            "recordedBy": "=HYPERLINK(\"http://example.org\",\"look\")",
            "occurrenceRemarks": "\u{1b}[2J\u{1b}]0;mine\u{7}\r\u{9b}31mred \u{202e}desrever",
            "scientificName": "@SUM(1)\u{1b}[31m",
            "identificationRemarks": "\u{0}\u{fffe} ]]> &amp; ' \" -->",
        }),
    );
    let ended = looked_through(&folder);
    for (command, ended) in &ended {
        assert_eq!(ended.status, 0, "{command}: {}", ended.said);
        let obeyed = |text: &str| {
            text.contains(|c: char| {
                c.is_control() && c != '\n' && c != '\t' || matches!(c, '\u{202a}'..='\u{202e}')
            })
        };
        // What programs read is as it was written.
        assert!(
            command.contains("--json") || !obeyed(&ended.printed),
            "{command} tells a terminal to act"
        );
        assert!(!obeyed(&ended.said), "{command} tells a terminal to act");
    }
    let report = written(&folder, "report.html");
    assert!(report.contains("&lt;script&gt;"));
    assert!(!report.contains("<script") && !report.contains("<img src=x"));
    let table = written(&folder, "fen.csv");
    assert!(table.contains("'=HYPERLINK") && table.contains("'@SUM"));
}

#[test]
fn names_of_photos_lead_nowhere() {
    let folder = book();
    // Somebody's own picture, which the book's writer cannot have.
    let own = image::RgbImage::from_pixel(64, 64, image::Rgb([90, 80, 70]));
    own.save(folder.path().join("own.png")).expect("a picture");
    let mut names = vec![
        "../own.png",
        "../../../../../../etc/passwd",
        "..",
        "",
        "/",
        "photos/none.jpg",
        "a\u{0}b",
    ];
    #[cfg(unix)]
    {
        let made = std::process::Command::new("mkfifo")
            .arg(folder.path().join("fen/photos/pipe.jpg"))
            .status();
        assert!(made.expect("mkfifo").success());
        std::os::unix::fs::symlink("/", folder.path().join("fen/photos/root")).expect("a link");
        names.extend(["/dev/zero", "/dev/tty", "photos/pipe.jpg", "photos/root"]);
    }
    for name in names {
        put(
            &folder,
            "AF-0002",
            &json!({
                "photos": [{"path": name, "sha256": "00".repeat(32)}],
                "measurements": [{
                    "measurementDeterminedDate": "2026-10-04",
                    "findings": {"schema": "poreline-findings/1", "photo": {"path": name, "sha256": "00".repeat(32)}},
                }],
            }),
        );
        for (command, ended) in looked_through(&folder) {
            assert!(ended.status <= 1, "{name:?}, {command}: {}", ended.said);
        }
        // Whoever passes the report on does not pass on a picture that the record only names.
        assert!(
            !written(&folder, "report.html").contains("data:image"),
            "{name}"
        );
    }
}

#[test]
fn absurd_numbers_are_told_and_break_nothing() {
    let folder = book();
    let absurd = [
        json!(1e308),
        json!(-1e308),
        json!(u64::MAX),
        json!(i64::MIN),
        json!("NaN"),
        json!(null),
        json!(5e-324),
    ];
    for number in absurd {
        let estimate = json!({"value": number, "low": number, "high": number});
        put(
            &folder,
            "AF-0002",
            &json!({
                "coordinateUncertaintyInMeters": number.as_f64(),
                "decimalLatitude": number.as_f64(),
                "decimalLongitude": number.as_f64(),
                "capWidthCm": number.as_f64(),
                "measurements": [{
                    "measurementDeterminedDate": "2026-10-04",
                    "findings": {
                        "schema": "poreline-findings/1",
                        "photo": {"path": "a.jpg", "sha256": "ab", "width": number, "height": number},
                        "scale": {"px_per_mm": number, "standard_error": number},
                        "surface": {"type": "poroid", "confidence": number},
                        "pores": {
                            "count": number,
                            "per_mm": estimate,
                            "per_mm2": estimate,
                            "diameter_mm": {"mean": estimate, "median": number},
                            "elongation": {"median": number},
                            "void_fraction": estimate,
                        },
                    },
                }],
            }),
        );
        for (command, ended) in looked_through(&folder) {
            assert!(ended.status <= 1, "{number}, {command}: {}", ended.said);
        }
    }
}

#[test]
fn files_without_end_are_set_aside_and_the_rest_is_there() {
    let folder = book();
    put(
        &folder,
        "AF-0002",
        &json!({"occurrenceRemarks": "long ".repeat(1_000_000)}),
    );
    let vouchers = folder.path().join("fen/vouchers");
    // Takes no room on the disk.
    let long = File::create(vouchers.join("AF-0003.json")).expect("a file");
    long.set_len(100_000_000_000).expect("a length");
    fs::write(vouchers.join("AF-0004.json"), "[".repeat(200_000)).expect("a file");
    fs::create_dir(vouchers.join("AF-0005.json")).expect("a folder");
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink("/dev/zero", vouchers.join("AF-0006.json")).expect("a link");
        std::os::unix::fs::symlink("AF-0007.json", vouchers.join("AF-0007.json")).expect("a link");
    }
    for (command, ended) in looked_through(&folder) {
        assert!(ended.status <= 1, "{command}: {}", ended.said);
    }
    let list = poreline(folder.path(), &["book", "list", "fen"]);
    assert!(list.printed.contains("AF-0001") && list.printed.contains("AF-0002"));
    let set_aside = if cfg!(unix) { 3..=7 } else { 3..=5 };
    for number in set_aside {
        let name = format!("AF-000{number}.json");
        assert!(
            list.said.contains(&name),
            "{name} is not told: {}",
            list.said
        );
    }
}

#[cfg(unix)]
#[test]
fn names_of_files_are_no_commands_to_a_terminal() {
    let folder = tempfile::tempdir().expect("a folder");
    let name = "a\u{1b}[2Jb\nc.png";
    image::RgbImage::new(40, 40)
        .save(folder.path().join(name))
        .expect("a picture");
    for typed in [
        &["measure", name, "--px-per-mm", "80"][..],
        &["measure", "\u{1b}[31mnone.jpg", "--px-per-mm", "80"],
        &["batch", ".", "--px-per-mm", "80", "--out", "results"],
        &["book", "list", "\u{1b}[31mnone"],
    ] {
        let ended = poreline(folder.path(), typed);
        assert!(ended.status < 100, "{typed:?}: {}", ended.said);
        for text in [&ended.printed, &ended.said] {
            assert!(!text.contains('\u{1b}'), "{typed:?}: {text}");
        }
    }
    // A name with a line's end stays in its cell.
    let table = csv::Reader::from_path(folder.path().join("results/summary.csv"));
    let failed = csv::Reader::from_path(folder.path().join("results/failures.csv"));
    let rows = [table, failed].map(|table| {
        let mut table = table.expect("a table");
        table
            .records()
            .map(|row| row.expect("a row"))
            .collect::<Vec<_>>()
    });
    assert!(
        rows.iter()
            .flatten()
            .any(|row| row.iter().any(|cell| cell.contains("b\nc.png")))
    );
}
