//! Programs that are killed while they write, and two that write in one book at once. The moments at which
//! they are killed are spread over the time that an undisturbed run takes.

use poreline::area::Outline;
use poreline::geometry::Rect;
use poreline::session::{Command as Act, Session};
use rand::RngExt as _;
use rand::SeedableRng as _;
use rand_pcg::Pcg64;
use serde_json::Value;
use std::env;
use std::fs;
use std::io::{BufRead as _, BufReader, Write as _};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, channel};
use std::thread;
use std::time::{Duration, Instant};
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

fn photo_in(folder: &Path) -> PathBuf {
    let photo = image::RgbImage::from_fn(480, 360, |x, y| {
        let (dx, dy) = ((x % 16) as f32 - 7.5, (y % 16) as f32 - 7.5);
        image::Rgb(if dx.hypot(dy) < 5.0 {
            [60; 3]
        } else {
            [200; 3]
        })
    });
    let path = folder.join("a.png");
    photo.save(&path).expect("a photo");
    path
}

#[test]
fn findings_of_a_photo_are_whole_or_not_there() {
    let folder = tempfile::tempdir().expect("a folder");
    photo_in(folder.path());
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

/// Between two acts: a person is no quicker.
const BETWEEN_ACTS: Duration = Duration::from_millis(100);

/// A session that keeps itself safe in a folder.
fn session(safe: &Path) -> (Session, Receiver<()>) {
    let (bell, rung) = channel();
    let wake = Arc::new(move || {
        let _ = bell.send(());
    });
    let mut session = Session::new(wake).expect("a thread");
    session.keep_safe_in(safe);
    (session, rung)
}

fn wait(session: &mut Session, rung: &Receiver<()>) {
    session.poll();
    while session.is_busy() {
        rung.recv_timeout(Duration::from_mins(1))
            .expect("an answer");
        session.poll();
    }
}

/// Draws one area after the other and tells the number of each, until it is killed.
#[test]
#[ignore = "never ends: another test starts it, and kills it"]
fn acts_without_end() {
    let told = |name: &str| env::var_os(name).map(PathBuf::from);
    let (Some(photo), Some(safe)) = (told("PORELINE_ACTS_ON"), told("PORELINE_SAFE_IN")) else {
        return;
    };
    let (mut session, rung) = session(&safe);
    session.apply(Act::Open(photo));
    wait(&mut session, &rung);
    for act in 1_u32.. {
        session.apply(Act::SetOutline(Outline::Rectangle(Rect {
            x: 10.0,
            y: 10.0,
            width: 100.0 + f64::from(act),
            height: 300.0,
        })));
        println!("\nact {act}");
        std::io::stdout().flush().expect("somebody listens");
        thread::sleep(BETWEEN_ACTS);
        session.poll();
    }
}

fn acting(photo: &Path, safe: &Path) -> Child {
    Command::new(env::current_exe().expect("this program"))
        .args(["--ignored", "--exact", "--nocapture", "acts_without_end"])
        .env("PORELINE_ACTS_ON", photo)
        .env("PORELINE_SAFE_IN", safe)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("it starts")
}

#[test]
fn a_window_that_is_killed_loses_one_act_at_most() {
    const TIMES: usize = 40;
    let folder = tempfile::tempdir().expect("a folder");
    let (photo, safe) = (photo_in(folder.path()), folder.path().join("safe"));
    let mut draw = Pcg64::seed_from_u64(6);
    for time in 0..TIMES {
        let mut child = acting(&photo, &safe);
        let mut acts = BufReader::new(child.stdout.take().expect("its words"))
            .lines()
            .map_while(Result::ok)
            .filter_map(|line| line.strip_prefix("act ")?.parse::<u32>().ok());
        let wanted = draw.random_range(1..4);
        let mut last = acts.nth(wanted - 1).expect("it acts");
        thread::sleep(BETWEEN_ACTS.mul_f64(draw.random_range(0.0..1.0)));
        child.kill().expect("killed");
        child.wait().expect("it ended");
        last = acts.last().unwrap_or(last);

        let (mut session, rung) = session(&safe);
        assert_eq!(session.leftovers(), ["a.png"], "killed {time} times before");
        session.apply(Act::SettleLeftovers(true));
        wait(&mut session, &rung);
        let kept = match &session.document().area.outline {
            Outline::Rectangle(rect) => rect.width - 100.0,
            _ => 0.0,
        };
        assert!(
            kept >= f64::from(last) - 1.0 && kept <= f64::from(last) + 1.0,
            "killed at act {last}, and act {kept} was kept"
        );
    }
}

/// Runs shell commands, with the program as `$0`, where they may mount file systems: Linux lets a person do so in a
/// namespace of their own, where the administrator has not forbidden it. `None` where that is forbidden.
#[cfg(target_os = "linux")]
fn among_file_systems_of_its_own(folder: &Path, steps: &str) -> Option<Output> {
    let in_namespace = |steps: &str| {
        Command::new("unshare")
            .args(["--user", "--map-root-user", "--mount", "sh", "-c", steps])
            .arg(env!("CARGO_BIN_EXE_poreline"))
            .current_dir(folder)
            .env("HOME", folder)
            .output()
    };
    let tried = in_namespace("mkdir tried && mount -t tmpfs tmpfs tried");
    if !tried.is_ok_and(|done| done.status.success()) {
        println!("not tried: no file system could be mounted here");
        return None;
    }
    let done = in_namespace(steps).expect("as before");
    let said = String::from_utf8_lossy(&done.stderr);
    assert!(done.status.success(), "{said}");
    Some(done)
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told_and_the_book_is_as_it_was() {
    const STEPS: &str = r#"
        mkdir small && mount -t tmpfs -o size=320k tmpfs small
        cp -r fen small/fen
        head -c 1000000 /dev/zero > small/filling 2> filled
        "$0" book set small/fen AF-0001 habitat=7 2> told-setting; echo $? > code-setting
        "$0" book add small/fen --set habitat=8 2> told-adding; echo $? > code-adding
        "$0" book export small/fen --csv small/fen.csv 2> told-exporting; echo $? > code-exporting
        cp -r small full
        rm small/filling
        "$0" book set small/fen AF-0001 habitat=9 || exit 98
        cp -r small/fen later
    "#;
    let folder = book();
    let before = voucher(&folder);
    if among_file_systems_of_its_own(folder.path(), STEPS).is_none() {
        return;
    }
    let read = |name: String| fs::read_to_string(folder.path().join(name)).unwrap_or_default();
    assert!(!read("filled".to_owned()).is_empty(), "the disk was full");
    for (doing, file) in [
        ("setting", "small/fen"),
        ("adding", "small/fen"),
        ("exporting", "small/fen.csv"),
    ] {
        let told = read(format!("told-{doing}"));
        assert_ne!(read(format!("code-{doing}")).trim(), "0", "{doing}");
        assert!(told.contains(file), "{doing}: {told}");
    }
    let shown = |book: &str| -> Value {
        let text = printed(folder.path(), &["book", "show", book, "AF-0001", "--json"]);
        serde_json::from_str(&text).expect("a voucher")
    };
    assert_eq!(shown("full/fen"), before);
    let names = |of: &str| -> Vec<_> {
        let entries = fs::read_dir(folder.path().join(of)).expect("a folder");
        entries
            .map(|entry| entry.expect("an entry").file_name())
            .collect()
    };
    assert_eq!(
        names("full/fen/vouchers").len(),
        1,
        "nothing half written stays"
    );
    assert!(!folder.path().join("full/fen.csv").exists());
    assert_eq!(habitat(&shown("later")), 9);
}

#[cfg(target_os = "linux")]
#[test]
fn a_book_that_may_only_be_read_opens_and_stays_as_it_is() {
    const STEPS: &str = r#"
        mkdir shelf && mount -t tmpfs -o size=8m tmpfs shelf
        cp -r fen shelf/fen && mount -o remount,ro shelf || exit 97
        "$0" book show shelf/fen AF-0001 --json > shown || exit 98
        "$0" book export shelf/fen --csv fen.csv || exit 99
        "$0" book set shelf/fen AF-0001 habitat=7 2> told-setting; echo $? > code-setting
        "$0" book add shelf/fen --set habitat=8 2> told-adding; echo $? > code-adding
        "$0" book export shelf/fen --csv shelf/fen.csv 2> told-exporting; echo $? > code-exporting
        cp -r shelf/fen later
    "#;
    let folder = book();
    let before = voucher(&folder);
    if among_file_systems_of_its_own(folder.path(), STEPS).is_none() {
        return;
    }
    let read = |name: String| fs::read_to_string(folder.path().join(name)).unwrap_or_default();
    let shown: Value = serde_json::from_str(&read("shown".to_owned())).expect("a voucher");
    assert_eq!(shown, before);
    assert!(read("fen.csv".to_owned()).contains("AF-0001"));
    for (doing, file) in [
        ("setting", "shelf/fen"),
        ("adding", "shelf/fen"),
        ("exporting", "shelf/fen.csv"),
    ] {
        let told = read(format!("told-{doing}"));
        assert_ne!(read(format!("code-{doing}")).trim(), "0", "{doing}");
        assert!(told.contains(file), "{doing}: {told}");
    }
    let text = printed(
        folder.path(),
        &["book", "show", "later", "AF-0001", "--json"],
    );
    let later: Value = serde_json::from_str(&text).expect("a voucher");
    assert_eq!(later, before);
}
