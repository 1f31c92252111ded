//! Programs that are killed while they write, and two that write in one book at once. The moments at which
//! they are killed are spread over the time that an undisturbed run takes.

use rand::RngExt as _;
use rand::SeedableRng as _;
use rand_pcg::Pcg64;
use serde_json::Value;
use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::thread;
use std::time::Instant;
use tempfile::TempDir;

fn poreline(folder: &Path, typed: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_poreline"));
    command
        .current_dir(folder)
        .env("HOME", folder)
        .env("XDG_CONFIG_HOME", folder.join("settings"))
        .args(typed);
    command
}

fn ran(folder: &Path, typed: &[&str]) -> Output {
    poreline(folder, typed).output().expect("it runs")
}

fn printed(folder: &Path, typed: &[&str]) -> String {
    let done = ran(folder, typed);
    let said = String::from_utf8_lossy(&done.stderr);
    assert!(done.status.success(), "{typed:?}: {said}");
    String::from_utf8(done.stdout).expect("text")
}

/// Starts a command and kills it at some moment, again and again, and looks each time at what is left.
fn killed(
    folder: &Path,
    times: usize,
    typed: impl Fn(usize) -> Vec<String>,
    mut look: impl FnMut(usize),
) {
    let typed = |time| -> Vec<String> { typed(time) };
    let begun = Instant::now();
    let first = typed(0);
    let first: Vec<&str> = first.iter().map(String::as_str).collect();
    printed(folder, &first);
    let whole = begun.elapsed();
    let mut draw = Pcg64::seed_from_u64(5);
    let mut unfinished = 0;
    for time in 1..=times {
        let words = typed(time);
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        let mut child = poreline(folder, &words)
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("it starts");
        thread::sleep(whole.mul_f64(draw.random_range(0.0..1.1)));
        child.kill().expect("killed");
        unfinished += usize::from(!child.wait().expect("it ended").success());
        look(time);
    }
    assert!(
        unfinished > times / 4,
        "only {unfinished} of {times} were killed before their end"
    );
}

fn words(words: &[&str]) -> Vec<String> {
    words.iter().map(|&word| word.to_owned()).collect()
}

/// A book with one voucher, whose notes are long enough to be half written.
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
    printed(folder.path(), &new);
    let remarks = format!(
        "occurrenceRemarks={}",
        "zoned, downy, on a fallen birch; ".repeat(2000)
    );
    printed(
        folder.path(),
        &[
            "book",
            "add",
            "fen",
            "--set",
            "habitat=0",
            "--set",
            "eventDate=2026-10-04",
            "--set",
            &remarks,
        ],
    );
    folder
}

fn voucher(folder: &TempDir) -> Value {
    let text = printed(folder.path(), &["book", "show", "fen", "AF-0001", "--json"]);
    serde_json::from_str(&text).expect("a voucher")
}

fn habitat(voucher: &Value) -> usize {
    let habitat = voucher["habitat"].as_str().expect("text");
    habitat.parse().expect("a number")
}

#[test]
fn a_voucher_is_what_it_was_or_what_it_was_to_become() {
    let folder = book();
    let mut before = 0;
    let whole = voucher(&folder)["occurrenceRemarks"].clone();
    killed(
        folder.path(),
        120,
        |time| words(&["book", "set", "fen", "AF-0001", &format!("habitat={time}")]),
        |time| {
            let found = voucher(&folder);
            let now = habitat(&found);
            assert!(
                now == before || now == time,
                "{now} after {before} and {time}"
            );
            before = now;
            let remarks = &found["occurrenceRemarks"];
            assert_eq!(*remarks, whole, "half written");
        },
    );
    // Nothing that was half written stays once somebody writes again.
    printed(
        folder.path(),
        &["book", "set", "fen", "AF-0001", "habitat=1000"],
    );
    let left: Vec<_> = fs::read_dir(folder.path().join("fen/vouchers"))
        .expect("a folder")
        .collect();
    assert_eq!(left.len(), 1);
}

#[test]
fn exported_files_are_whole_or_as_they_were() {
    let folder = book();
    for (name, option) in [("fen.csv", "--csv"), ("fen.zip", "--darwin-core")] {
        let path = folder.path().join(name);
        let mut whole: Option<Vec<u8>> = None;
        killed(
            folder.path(),
            30,
            |_| words(&["book", "export", "fen", option, name, "--replace"]),
            |_| {
                let now = fs::read(&path).expect("it was there before");
                assert_eq!(
                    whole.get_or_insert_with(|| now.clone()),
                    &now,
                    "{name} is half written"
                );
            },
        );
    }
}

#[test]
fn findings_of_a_photo_are_whole_or_not_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let photo = image::RgbImage::from_fn(480, 360, |x, y| {
        let (dx, dy) = ((x % 16) as f32 - 7.5, (y % 16) as f32 - 7.5);
        image::Rgb(if dx.hypot(dy) < 5.0 {
            [60; 3]
        } else {
            [200; 3]
        })
    });
    photo.save(folder.path().join("a.png")).expect("a photo");
    let outputs = ["a.csv", "a-overlay.png"];
    let mut whole: [Option<Vec<u8>>; 2] = [None, None];
    killed(
        folder.path(),
        40,
        |_| {
            words(&[
                "measure",
                "a.png",
                "--px-per-mm",
                "80",
                "--csv",
                outputs[0],
                "--overlay",
                outputs[1],
                "--replace",
            ])
        },
        |_| {
            for (name, whole) in outputs.iter().zip(&mut whole) {
                let now = fs::read(folder.path().join(name)).expect("it was there before");
                assert_eq!(
                    whole.get_or_insert_with(|| now.clone()),
                    &now,
                    "{name} is half written"
                );
            }
        },
    );
}

#[test]
fn two_that_write_in_one_book_lose_nothing_of_each_other() {
    const EACH: usize = 500;
    let folder = book();
    let write = || {
        let mut written = 0;
        while written < EACH {
            let read = voucher(&folder);
            let revision = read["revision"].to_string();
            let next = format!("habitat={}", habitat(&read) + 1);
            let set = [
                "book",
                "set",
                "fen",
                "AF-0001",
                &next,
                "--revision",
                &revision,
            ];
            // Refused where the other was quicker; then it is read anew.
            written += usize::from(ran(folder.path(), &set).status.success());
        }
    };
    thread::scope(|scope| {
        scope.spawn(write);
        scope.spawn(write);
    });
    let last = voucher(&folder);
    assert_eq!(habitat(&last), 2 * EACH);
    assert_eq!(last["revision"], 2 * EACH + 1);
}
