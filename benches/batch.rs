//! Photos a minute on one core and on two, and how much memory many photos take beside few.
//!
//! `cargo bench --profile dev --bench batch` prints both. It is a program of its own rather than a bench
//! of single functions, since what counts is a whole run of the command.

use image::{Rgb, RgbImage};
use std::fs;
use std::path::Path;
use std::process::Command;
use std::time::Instant;

/// Size of a photo, px.
const SIZE: (u32, u32) = (1200, 900);
/// Photos in the run that is timed.
const TIMED: usize = 40;
/// Photos in the runs whose memory is compared.
const FEW: usize = 10;
const MANY: usize = 1000;

fn main() {
    let folder = tempfile::tempdir().expect("a folder");
    let photos = folder.path().join("photos");
    fs::create_dir(&photos).expect("a folder");
    write_photos(&photos, TIMED);
    let one = seconds(&photos, &folder.path().join("one"), 1);
    let two = seconds(&photos, &folder.path().join("two"), 2);
    let a_minute = |seconds: f64| 60.0 * TIMED as f64 / seconds;
    println!(
        "{TIMED} photos of {} × {} px: {:.0} a minute on one core, {:.0} on two, {:.2} times as many",
        SIZE.0,
        SIZE.1,
        a_minute(one),
        a_minute(two),
        one / two
    );
    // Small photos: what would grow is what is kept of each.
    for count in [FEW, MANY] {
        let photos = folder.path().join(format!("small-{count}"));
        fs::create_dir(&photos).expect("a folder");
        for number in 0..count {
            pores(
                &photos.join(format!("{number:04}.png")),
                (360, 300 + u32::try_from(number % 7).expect("small")),
                18.0 + number as f64 / 200.0,
            );
        }
        match peak_kib(&photos, &folder.path().join(format!("kept-{count}"))) {
            Some(kib) => println!("{count} photos: {:.0} MB at the peak", kib / 1024.0),
            None => println!("{count} photos: this system does not tell the peak"),
        }
    }
}

fn write_photos(folder: &Path, count: usize) {
    for number in 0..count {
        pores(
            &folder.join(format!("{number:04}.png")),
            SIZE,
            20.0 + number as f64 / 10.0,
        );
    }
}

/// Dark discs on a square lattice, so many px apart.
fn pores(path: &Path, (width, height): (u32, u32), spacing: f64) {
    let picture = RgbImage::from_fn(width, height, |x, y| {
        let off = |at: u32| (f64::from(at) / spacing).fract() - 0.5;
        let is_void = off(x).hypot(off(y)) < 0.32;
        Rgb(if is_void { [60; 3] } else { [200, 195, 180] })
    });
    picture.save(path).expect("a photo");
}

fn batch(photos: &Path, out: &Path, threads: usize) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_poreline"));
    command
        .arg("batch")
        .arg(photos)
        .args([
            "--px-per-mm",
            "80",
            "--threads",
            &threads.to_string(),
            "--out",
        ])
        .arg(out);
    command
}

fn seconds(photos: &Path, out: &Path, threads: usize) -> f64 {
    let began = Instant::now();
    let status = batch(photos, out, threads).status().expect("it runs");
    assert!(status.success());
    began.elapsed().as_secs_f64()
}

/// Most memory that was resident, as Linux tells it of a process that has not ended yet.
fn peak_kib(photos: &Path, out: &Path) -> Option<f64> {
    let mut child = batch(photos, out, 2).spawn().expect("it runs");
    let status = format!("/proc/{}/status", child.id());
    let mut peak = None;
    while child.try_wait().expect("it runs").is_none() {
        let told = fs::read_to_string(&status).ok().and_then(|text| {
            let line = text.lines().find(|line| line.starts_with("VmHWM:"))?;
            line.split_whitespace().nth(1)?.parse::<f64>().ok()
        });
        peak = told.or(peak);
        std::thread::sleep(std::time::Duration::from_millis(20));
    }
    peak
}
