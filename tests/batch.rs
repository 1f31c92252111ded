//! A folder at a time, as scripts and people meet it: files, resuming, parts, exit status.

use image::{Rgb, RgbImage};
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::thread;
use std::time::{Duration, Instant};
use tempfile::TempDir;

const PX_PER_MM: &str = "80";

fn program() -> PathBuf {
    PathBuf::from(env!("CARGO_BIN_EXE_poreline"))
}

/// Round dark pores on a pale ground on a triangular lattice, so many px apart.
fn pores(path: &Path, (width, height): (u32, u32), spacing: f64) {
    let row_height = spacing * 0.75_f64.sqrt();
    let radius = 0.3 * spacing;
    let picture = RgbImage::from_fn(width, height, |x, y| {
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
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "40–200"
        )]
        let level = (200.0 - 160.0 * void) as u8;
        Rgb([level, level, level / 10 * 9])
    });
    fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
    picture.save(path).expect("a photo was written");
}

/// A folder with a few photos, no two alike.
fn photos(count: u32) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for number in 0..count {
        let name = format!("photos/AF-{}_{number}.png", number / 3);
        let spacing = 20.0 + f64::from(number % 3);
        pores(&folder.path().join(name), (400 + number, 300), spacing);
    }
    folder
}

fn batch(folder: &TempDir, out: &str, more: &[&str]) -> Command {
    let mut command = Command::new(program());
    command
        .current_dir(folder.path())
        .args(["batch", "photos", "--px-per-mm", PX_PER_MM, "--out", out])
        .args(more);
    command
}

fn ran(mut command: Command) -> Output {
    command.output().expect("it runs")
}

fn code(output: &Output) -> i32 {
    output.status.code().expect("it ended by itself")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// All files below a folder, by their paths, but for what is no result.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut open = vec![folder.to_owned()];
    while let Some(inner) = open.pop() {
        for entry in fs::read_dir(&inner).expect("listed") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                open.push(path);
            } else {
                let name = path.strip_prefix(folder).expect("below").to_string_lossy();
                found.insert(name.into_owned(), fs::read(&path).expect("read"));
            }
        }
    }
    found.remove(".lock");
    found
}

/// Without the lists of parts, which tell how the work was shared.
fn without_parts(mut files: BTreeMap<String, Vec<u8>>) -> BTreeMap<String, Vec<u8>> {
    files.retain(|name, _| !name.starts_with("parts/"));
    files
}

fn lines(bytes: &[u8]) -> Vec<Value> {
    String::from_utf8_lossy(bytes)
        .lines()
        .map(|line| serde_json::from_str(line).unwrap_or_else(|error| panic!("{error}: {line}")))
        .collect()
}

fn rows(path: &Path) -> Vec<BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_path(path).expect("a table");
    let heads = reader.headers().expect("heads").clone();
    reader
        .records()
        .map(|row| {
            let row = row.expect("a row");
            (heads.iter().zip(&row))
                .map(|(head, cell)| (head.to_owned(), cell.to_owned()))
                .collect()
        })
        .collect()
}

fn records(results: &Path) -> usize {
    fs::read_dir(results.join("photos")).map_or(0, |entries| {
        let names = entries.flatten().map(|entry| entry.path());
        names
            .filter(|path| path.extension().is_some_and(|end| end == "json"))
            .count()
    })
}

fn wait_until(what: &str, mut is_so: impl FnMut() -> bool) {
    let deadline = Instant::now() + Duration::from_mins(2);
    while !is_so() {
        assert!(Instant::now() < deadline, "in vain for {what}");
        thread::sleep(Duration::from_millis(10));
    }
}

fn started(mut command: Command) -> Child {
    command
        .stdout(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .expect("it starts")
}

#[test]
fn a_folder_is_measured_as_single_photos_are() {
    let folder = photos(3);
    let output = ran(batch(&folder, "results", &["--json"]));
    assert_eq!(code(&output), 0, "{}", said(&output));
    let results = folder.path().join("results");
    let printed = lines(&output.stdout);
    let kept = lines(&fs::read(results.join("findings.jsonl")).expect("findings"));
    assert_eq!(printed, kept);
    let mut single = Command::new(program());
    single
        .current_dir(folder.path().join("photos"))
        .args(["measure", "--json", "--px-per-mm", PX_PER_MM])
        .args(["AF-0_0.png", "AF-0_1.png", "AF-0_2.png"]);
    assert_eq!(lines(&ran(single).stdout), kept);
    let table = rows(&results.join("summary.csv"));
    assert_eq!(table.len(), 3);
    assert_eq!(table[1]["photo"], "AF-0_1.png");
    assert_eq!(
        table[1]["per_mm"],
        kept[1]["pores"]["per_mm"]["value"].to_string()
    );
    let page = fs::read_to_string(results.join("contact-sheet.html")).expect("a page");
    assert_eq!(page.matches("<tr><td>").count(), 3);
    for name in ["pores.csv", "vouchers.csv"] {
        assert!(!results.join(name).exists(), "{name} was not asked for");
    }
}

#[test]
fn the_same_bytes_come_of_one_thread_and_of_several() {
    let folder = photos(7);
    fs::copy(
        folder.path().join("photos/AF-0_1.png"),
        folder.path().join("photos/AF-0_9.png"),
    )
    .expect("copied");
    let more = ["--pores", "--overlays", "--voucher-pattern", "{voucher}_*"];
    for (out, threads) in [("one", "1"), ("four", "4")] {
        let command = batch(&folder, out, &[&more[..], &["--threads", threads]].concat());
        assert_eq!(code(&ran(command)), 0);
    }
    let one = files(&folder.path().join("one"));
    assert_eq!(one, files(&folder.path().join("four")));
    for name in [
        "findings.jsonl",
        "summary.csv",
        "vouchers.csv",
        "pores.csv",
        "failures.csv",
        "remarks.csv",
        "per-mm.svg",
        "contact-sheet.html",
    ] {
        assert!(one.contains_key(name), "{name}");
    }
    let table = rows(&folder.path().join("one/summary.csv"));
    assert_eq!(table[3]["same_as"], "AF-0_1.png");
    let vouchers = rows(&folder.path().join("one/vouchers.csv"));
    assert_eq!(vouchers.len(), 3);
    assert_eq!(
        vouchers[0]["photos"], "3",
        "a second copy counts for nothing"
    );
}

#[test]
fn killed_at_any_point_it_goes_on_to_the_same_bytes() {
    let folder = photos(8);
    assert_eq!(code(&ran(batch(&folder, "whole", &[]))), 0);
    let killed = folder.path().join("killed");
    for done in 1..=4 {
        let mut child = started(batch(&folder, "killed", &["--threads", "1"]));
        wait_until("a few records", || records(&killed) >= 2 * done);
        child.kill().expect("killed");
        child.wait().expect("gone");
        for (name, bytes) in files(&killed) {
            if Path::new(&name)
                .extension()
                .is_some_and(|end| end == "json")
            {
                let whole: Result<Value, _> = serde_json::from_slice(&bytes);
                assert!(whole.is_ok(), "{name} is cut off");
            }
        }
    }
    assert_eq!(code(&ran(batch(&folder, "killed", &[]))), 0);
    assert_eq!(files(&killed), files(&folder.path().join("whole")));
}

/// Forty runs, each killed at a random moment of what a whole run takes; after every four of them one goes on to
/// its end.
#[test]
fn killed_forty_times_at_random_moments_it_comes_to_the_same_bytes() {
    let folder = photos(6);
    let one_thread = ["--threads", "1"];
    let begun = Instant::now();
    assert_eq!(code(&ran(batch(&folder, "whole", &one_thread))), 0);
    let takes = begun.elapsed();
    let whole = files(&folder.path().join("whole"));
    let mut draw = Pcg64::seed_from_u64(11);
    let mut unfinished = 0;
    for time in 1..=10 {
        let out = format!("killed-{time}");
        for _ in 0..4 {
            let mut child = started(batch(&folder, &out, &one_thread));
            thread::sleep(takes.mul_f64(draw.random_range(0.0..0.6)));
            child.kill().expect("killed");
            unfinished += usize::from(!child.wait().expect("gone").success());
        }
        assert_eq!(code(&ran(batch(&folder, &out, &[]))), 0);
        assert!(files(&folder.path().join(&out)) == whole, "{out} differs");
    }
    assert!(
        unfinished > 20,
        "only {unfinished} were killed before the end"
    );
}

#[cfg(unix)]
#[test]
fn interrupted_it_ends_cleanly_and_goes_on() {
    let folder = photos(8);
    let stopped = folder.path().join("stopped");
    let child = started(batch(&folder, "stopped", &["--threads", "1"]));
    wait_until("a record", || records(&stopped) >= 1);
    let pid = child.id().to_string();
    let sent = Command::new("kill").args(["-INT", &pid]).status();
    assert!(sent.expect("sent").success());
    let output = child.wait_with_output().expect("it ended");
    // On a fast machine all may be done by then.
    if said(&output).contains("stopped") {
        assert_eq!(code(&output), 3, "{}", said(&output));
        assert!(records(&stopped) < 8);
        assert!(!stopped.join("summary.csv").exists());
    }
    let left: Vec<String> = files(&stopped).into_keys().collect();
    assert!(
        left.iter().all(|name| !name.contains("unfinished")),
        "{left:?}"
    );
    assert_eq!(code(&ran(batch(&folder, "stopped", &[]))), 0);
    assert_eq!(code(&ran(batch(&folder, "whole", &[]))), 0);
    assert_eq!(files(&stopped), files(&folder.path().join("whole")));
}

#[test]
fn what_is_done_is_not_done_again_and_what_changed_is() {
    let folder = photos(3);
    let results = folder.path().join("results");
    let times = || -> BTreeMap<PathBuf, std::time::SystemTime> {
        fs::read_dir(results.join("photos"))
            .expect("listed")
            .map(|entry| {
                let path = entry.expect("an entry").path();
                let time = path.metadata().expect("there").modified().expect("a time");
                (path, time)
            })
            .collect()
    };
    assert_eq!(code(&ran(batch(&folder, "results", &[]))), 0);
    let first = times();
    assert_eq!(code(&ran(batch(&folder, "results", &[]))), 0);
    assert_eq!(times(), first, "nothing was measured again");

    pores(&folder.path().join("photos/AF-0_1.png"), (410, 300), 25.0);
    assert_eq!(code(&ran(batch(&folder, "results", &[]))), 0);
    assert_eq!(records(&results), 4);
    let table = rows(&results.join("summary.csv"));
    let per_mm: f64 = table[1]["per_mm"].parse().expect("a figure");
    assert!((per_mm - 80.0 / 25.0).abs() < 0.1, "{per_mm}");

    // Other settings, other records; the first ones are still there to go back to.
    let area = ["--area", "20,20,300,250"];
    assert_eq!(code(&ran(batch(&folder, "results", &area))), 0);
    assert_eq!(records(&results), 7);
    let kept = times();
    assert!(first.iter().all(|(path, time)| kept[path] == *time));
    // A table of pores that was not asked for before is made.
    assert_eq!(code(&ran(batch(&folder, "results", &["--pores"]))), 0);
    assert_eq!(records(&results), 7);
    let pores = rows(&results.join("pores.csv"));
    let counted = pores
        .iter()
        .filter(|row| row["photo"] == "AF-0_0.png" && row["counted"] == "true")
        .count();
    let table = rows(&results.join("summary.csv"));
    assert_eq!(table[0]["counted"], counted.to_string());
}

#[test]
fn whatever_lies_in_the_folder_is_told_and_ends_nothing() {
    let folder = photos(2);
    let put = |name: &str, bytes: &[u8]| {
        let path = folder.path().join("photos").join(name);
        fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        fs::write(path, bytes).expect("written");
    };
    RgbImage::from_pixel(3, 2, Rgb([90, 80, 70]))
        .save(folder.path().join("photos/tiny.png"))
        .expect("written");
    put("empty.jpg", b"");
    put("notes.txt", b"Alder Fen, by the bridge\n");
    put("walk/table.jpg", b"spacing, mm\n0.25\n");
    put("phone.heic", b"\0\0\0\x18ftypheic\0\0\0\0mif1heic");
    let whole = fs::read(folder.path().join("photos/AF-0_0.png")).expect("read");
    put("cut.png", &whole[..whole.len() / 2]);
    // A header that claims 60 000 px a side, with its checksum (PNG, 5.3 and 11.2.2).
    let mut huge = whole[..33].to_vec();
    huge[16..20].copy_from_slice(&60_000_u32.to_be_bytes());
    huge[20..24].copy_from_slice(&60_000_u32.to_be_bytes());
    let sum = crc32(&huge[12..29]);
    huge[29..33].copy_from_slice(&sum.to_be_bytes());
    huge.extend_from_slice(&whole[33..]);
    put("huge.png", &huge);
    #[cfg(unix)]
    std::os::unix::fs::symlink("nowhere.jpg", folder.path().join("photos/gone.jpg"))
        .expect("a link");

    let output = ran(batch(&folder, "results", &["--json"]));
    assert_eq!(code(&output), 3, "{}", said(&output));
    let results = folder.path().join("results");
    let failures = rows(&results.join("failures.csv"));
    let of = |name: &str| {
        let row = failures.iter().find(|row| row["photo"] == name);
        row.unwrap_or_else(|| panic!("{name} is not told: {failures:?}"))
    };
    for (name, cause) in [
        ("empty.jpg", "empty"),
        ("walk/table.jpg", "text file"),
        ("phone.heic", "HEIC"),
        ("cut.png", "damaged"),
        ("huge.png", "60000 × 60000"),
        #[cfg(unix)]
        ("gone.jpg", "cannot be followed"),
    ] {
        let row = of(name);
        assert!(row["cause"].contains(cause), "{row:?}");
        assert!(!row["remedy"].is_empty(), "{row:?}");
        assert_eq!(row["kind"], "photo", "{row:?}");
    }
    assert_eq!(of("notes.txt")["kind"], "no photo");
    // Three pixels are a photo of which nothing can be said.
    let told: Vec<Value> = lines(&output.stdout);
    let kept = fs::read(results.join("findings.jsonl")).expect("findings");
    assert_eq!(told, lines(&kept), "failures are told in both");
    let tiny = told
        .iter()
        .find(|line| line["photo"] == "tiny.png" || line["photo"]["path"] == "tiny.png");
    assert!(tiny.is_some());
    assert_eq!(
        told.iter()
            .filter(|line| line["surface"]["type"] == "poroid")
            .count(),
        2
    );
    let only = folder.path().join("photos/notes.txt");
    let mut alone = Command::new(program());
    alone
        .current_dir(folder.path())
        .args([
            "batch",
            "--list",
            "-",
            "--px-per-mm",
            "80",
            "--out",
            "alone",
        ])
        .stdin(Stdio::piped());
    let mut child = alone.stderr(Stdio::piped()).spawn().expect("it starts");
    let mut input = child.stdin.take().expect("a pipe");
    writeln!(input, "{}", only.display()).expect("written");
    drop(input);
    let output = child.wait_with_output().expect("it ended");
    assert_eq!(code(&output), 1, "{}", said(&output));
}

/// ISO 3309, as PNG uses it (PNG, annex D).
fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| {
            if sum & 1 == 1 {
                0xEDB8_8320 ^ (sum >> 1)
            } else {
                sum >> 1
            }
        })
    })
}

#[test]
fn a_photo_that_takes_more_memory_than_allowed_is_told() {
    let folder = photos(2);
    pores(&folder.path().join("photos/large.png"), (2600, 2000), 20.0);
    // 80 MB hold a small photo, and not 5.2 million pixels of some 60 bytes.
    let output = ran(batch(&folder, "results", &["--memory", "80MB"]));
    assert_eq!(code(&output), 3, "{}", said(&output));
    let failures = rows(&folder.path().join("results/failures.csv"));
    assert_eq!(failures.len(), 1);
    assert!(failures[0]["cause"].contains("memory"), "{failures:?}");
    // Allowed more, it is measured, since that says nothing of the photo.
    assert_eq!(code(&ran(batch(&folder, "results", &[]))), 0);
}

/// Finer pores take more memory, which nobody knows before the photo is decoded.
#[test]
fn a_photo_that_turns_out_finer_waits_for_what_it_needs() {
    let folder = photos(1);
    pores(&folder.path().join("photos/fine.png"), (900, 700), 9.0);
    // 0.63 million pixels of some 50 bytes at first, and of 300 once their 9 px from pore to pore are known.
    let output = ran(batch(&folder, "results", &["--memory", "150MB"]));
    assert_eq!(code(&output), 3, "{}", said(&output));
    let failures = rows(&folder.path().join("results/failures.csv"));
    assert_eq!(failures.len(), 1);
    assert!(failures[0]["cause"].contains("memory"), "{failures:?}");
    let output = ran(batch(&folder, "results", &["--memory", "300MB"]));
    assert_eq!(code(&output), 0, "{}", said(&output));
}

#[test]
fn results_that_cannot_be_written_are_told_and_nothing_is_lost() {
    let folder = photos(2);
    fs::write(folder.path().join("file"), "").expect("written");
    let output = ran(batch(&folder, "file/results", &[]));
    assert_eq!(code(&output), 1);
    assert!(said(&output).contains("file/results"), "{}", said(&output));
}

/// A limit on the size of files stands for a disk that is full: writing fails half way (POSIX, `ulimit
/// -f`, in units of 512 or 1024 bytes).
#[cfg(unix)]
#[test]
fn a_full_disk_leaves_what_was_there_and_the_run_goes_on_later() {
    let folder = photos(3);
    assert_eq!(code(&ran(batch(&folder, "results", &[]))), 0);
    let before = files(&folder.path().join("results"));
    pores(&folder.path().join("photos/AF-0_2.png"), (500, 300), 21.0);
    let mut full = Command::new("sh");
    full.current_dir(folder.path()).args([
        "-c",
        "trap '' XFSZ; ulimit -f 1; exec \"$0\" batch photos --px-per-mm 80 --out results",
    ]);
    full.arg(program());
    let output = ran(full);
    assert_eq!(code(&output), 3, "{}", said(&output));
    assert!(
        said(&output).contains("could not be written"),
        "{}",
        said(&output)
    );
    assert_eq!(files(&folder.path().join("results")), before);
    assert_eq!(code(&ran(batch(&folder, "results", &[]))), 0);
    assert_eq!(rows(&folder.path().join("results/summary.csv")).len(), 3);
}

#[test]
fn parts_make_the_same_whole_wherever_they_were_measured() {
    let folder = photos(7);
    fs::write(folder.path().join("photos/broken.jpg"), "").expect("written");
    let more = ["--pores", "--overlays"];
    assert_eq!(code(&ran(batch(&folder, "whole", &more))), 3);
    let joined = |folders: &[&str], out: &str| {
        let mut command = Command::new(program());
        command
            .current_dir(folder.path())
            .args(["batch", "join"])
            .args(folders)
            .args(["--out", out]);
        ran(command)
    };
    let part = |part: &str, out: &str| {
        let options = ["--pores", "--overlays", "--part", part];
        ran(batch(&folder, out, &options))
    };
    for (number, out) in [("1/3", "a"), ("3/3", "b")] {
        part(number, out);
    }
    let output = joined(&["a", "b"], "joined");
    assert_eq!(code(&output), 2);
    assert!(said(&output).contains("2/3"), "{}", said(&output));
    part("2/3", "b");
    assert_eq!(code(&joined(&["a", "b"], "joined")), 3);
    let whole = without_parts(files(&folder.path().join("whole")));
    assert_eq!(without_parts(files(&folder.path().join("joined"))), whole);

    // All parts in one folder at the same time, joined where they lie.
    let running: Vec<Child> = ["1/3", "2/3", "3/3"]
        .map(|part| {
            let options = ["--pores", "--overlays", "--part", part];
            started(batch(&folder, "shared", &options))
        })
        .into();
    for child in running {
        child.wait_with_output().expect("it ended");
    }
    assert_eq!(code(&joined(&["shared"], "shared")), 3);
    assert_eq!(without_parts(files(&folder.path().join("shared"))), whole);

    // A photo that came in between.
    pores(&folder.path().join("photos/late.png"), (420, 300), 20.0);
    part("2/3", "b");
    let output = joined(&["a", "b"], "joined");
    assert_eq!(code(&output), 2);
    assert!(said(&output).contains("another list"), "{}", said(&output));
    // Other settings.
    ran(batch(&folder, "c", &["--part", "1/2"]));
    ran(batch(&folder, "c", &["--part", "2/2", "--whole-photo"]));
    let output = joined(&["c"], "c");
    assert_eq!(code(&output), 2);
    assert!(said(&output).contains("settings"), "{}", said(&output));
}

#[test]
fn names_on_standard_input_come_out_in_order() {
    let folder = photos(5);
    let mut command = Command::new(program());
    command
        .current_dir(folder.path())
        .args([
            "batch",
            "--list",
            "-",
            "--px-per-mm",
            "80",
            "--out",
            "results",
        ])
        .args(["--json", "--threads", "3"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    let mut child = command.spawn().expect("it starts");
    let mut input = child.stdin.take().expect("a pipe");
    for name in ["AF-1_4", "AF-0_0", "missing", "AF-0_2"] {
        writeln!(input, "photos/{name}.png").expect("written");
    }
    drop(input);
    let output = child.wait_with_output().expect("it ended");
    assert_eq!(code(&output), 3, "{}", said(&output));
    let names: Vec<String> = lines(&output.stdout)
        .iter()
        .map(|line| {
            let name = line["photo"]["path"].as_str().or(line["photo"].as_str());
            name.expect("a name").to_owned()
        })
        .collect();
    assert_eq!(
        names,
        [
            "photos/AF-0_0.png",
            "photos/AF-0_2.png",
            "photos/AF-1_4.png",
            "photos/missing.png"
        ]
    );
    assert_eq!(
        lines(&output.stdout)[3]["error"]
            .as_str()
            .map(|e| e.contains("no such file")),
        Some(true)
    );
}

#[test]
fn findings_go_straight_into_the_book_and_only_once() {
    let folder = photos(7);
    let poreline = |args: &[&str]| {
        let mut command = Command::new(program());
        command.current_dir(folder.path()).args(args);
        ran(command)
    };
    let init = poreline(&[
        "book",
        "init",
        "fen",
        "--name",
        "Alder Fen",
        "--numbers",
        "AF-{number}",
    ]);
    assert_eq!(code(&init), 0, "{}", said(&init));
    assert_eq!(
        code(&poreline(&[
            "book",
            "add",
            "fen",
            "--set",
            "catalogNumber=AF-0"
        ])),
        0
    );
    let more = [
        "--voucher-pattern",
        "{voucher}_*",
        "--book",
        "fen",
        "--in-place",
    ];
    let output = ran(batch(&folder, "results", &more));
    assert_eq!(code(&output), 0, "{}", said(&output));
    assert!(
        said(&output).contains("no voucher AF-1, AF-2"),
        "{}",
        said(&output)
    );
    let shown = |number: &str| -> Value {
        let output = poreline(&["book", "show", "fen", number, "--json"]);
        serde_json::from_slice(&output.stdout).expect("a voucher")
    };
    let count = |voucher: &Value| voucher["measurements"].as_array().map_or(0, Vec::len);
    assert_eq!(count(&shown("AF-0")), 3);
    let all = [&more[..], &["--add-vouchers"]].concat();
    assert_eq!(code(&ran(batch(&folder, "results", &all))), 0);
    assert_eq!(code(&ran(batch(&folder, "results", &all))), 0);
    assert_eq!(count(&shown("AF-0")), 3, "attached once");
    assert_eq!(count(&shown("AF-1")), 3);
    assert_eq!(count(&shown("AF-2")), 1);
    // The book pools the same figures as the table of vouchers does.
    let vouchers = rows(&folder.path().join("results/vouchers.csv"));
    assert_eq!(
        code(&poreline(&["book", "export", "fen", "--csv", "fen.csv"])),
        0
    );
    let book = rows(&folder.path().join("fen.csv"));
    for (ours, theirs) in vouchers.iter().zip(&book) {
        assert_eq!(ours["voucher"], theirs["catalogNumber"]);
        let figure = |cell: &str| cell.parse::<f64>().expect("a figure");
        let (ours, theirs) = (figure(&ours["per_mm"]), figure(&theirs["perMm"]));
        assert!((ours - theirs).abs() < 1e-3 * ours, "{ours} {theirs}");
    }
}

#[cfg(unix)]
#[test]
fn photos_are_measured_as_they_arrive() {
    let folder = photos(1);
    let results = folder.path().join("photos/results");
    let child = started(batch(&folder, "photos/results", &["--watch"]));
    wait_until("the photo that is there", || {
        results.join("summary.csv").exists()
    });
    pores(
        &folder.path().join("photos/new/second.png"),
        (400, 300),
        22.0,
    );
    wait_until("the photo that arrived", || {
        fs::read_to_string(results.join("summary.csv"))
            .is_ok_and(|table| table.contains("new/second.png"))
    });
    // Were its own results taken for arrivals, it would go round and round in this while.
    thread::sleep(Duration::from_secs(6));
    let pid = child.id().to_string();
    let sent = Command::new("kill").args(["-INT", &pid]).status();
    assert!(sent.expect("sent").success());
    let output = child.wait_with_output().expect("it ended");
    assert_eq!(code(&output), 0, "{}", said(&output));
    // Its own results are nothing that arrives: two rounds, or three where the photo came in two pieces.
    let rounds = said(&output).matches("waiting for photos").count();
    assert!(
        (2..=3).contains(&rounds),
        "{rounds} rounds: {}",
        said(&output)
    );
}

#[test]
fn what_is_typed_wrong_is_told_before_anything_is_measured() {
    let folder = photos(1);
    for (args, words) in [
        (&["batch", "photos", "--out", "r"][..], "without a scale"),
        (&["batch", "photos", "--px-per-mm", "80"], "--out"),
        (&["batch", "--px-per-mm", "80", "--out", "r"], "FOLDER"),
        (
            &["batch", "none", "--px-per-mm", "80", "--out", "r"],
            "cannot be read",
        ),
        (
            &[
                "batch",
                "photos",
                "--px-per-mm",
                "80",
                "--out",
                "r",
                "--part",
                "4/3",
            ],
            "no part",
        ),
        (
            &[
                "batch",
                "photos",
                "--px-per-mm",
                "80",
                "--out",
                "r",
                "--voucher-pattern",
                "x",
            ],
            "{voucher}",
        ),
        (
            &[
                "batch",
                "photos",
                "--px-per-mm",
                "80",
                "--out",
                "r",
                "--book",
                "fen",
            ],
            "--voucher",
        ),
        (&["batch", "join", "nothing", "--out", "r"], "nothing"),
    ] {
        let mut command = Command::new(program());
        command.current_dir(folder.path()).args(args);
        let output = ran(command);
        assert!(
            code(&output) > 0 && said(&output).contains(words),
            "{args:?}: {}",
            said(&output)
        );
        assert!(!folder.path().join("r/summary.csv").exists(), "{args:?}");
    }
}
