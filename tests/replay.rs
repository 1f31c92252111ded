//! Bytes that anybody may have written, given to all that reads files. What is kept in `fuzz/corpus` took
//! another path through the program than the rest, or once did harm; `fuzz/inputs.rs` tells what is done with it.

#[path = "../fuzz/inputs.rs"]
mod inputs;

use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// What is kept for a target, in the order of the names.
fn kept(target: &str) -> Vec<Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("fuzz/corpus")
        .join(target);
    let mut files: Vec<PathBuf> = fs::read_dir(&folder)
        .unwrap_or_else(|error| panic!("{}: {error}", folder.display()))
        .map(|entry| entry.expect("an entry").path())
        .collect();
    files.sort();
    assert!(!files.is_empty(), "nothing is kept for {target}");
    let read = files.iter().map(|file| fs::read(file).expect("a file"));
    read.collect()
}

/// Other bytes made of some that are known: bytes changed, left out, doubled, or put in from another.
fn made_up(known: &[Vec<u8>], draw: &mut Pcg64) -> Vec<u8> {
    /// Numbers at which programs stumble, and what ends or opens things in text.
    const TELLING: [&[u8]; 14] = [
        b"\0",
        b"\xff",
        b"\xff\xff\xff\xff",
        b"\x7f\xff\xff\xff",
        b"-1",
        b"1e308",
        b"null",
        b"\"",
        b"{",
        b"]",
        b",",
        b"\n",
        b"\xe2\x80\xae",
        b"99999999999999999999",
    ];
    let mut bytes = known[draw.random_range(0..known.len())].clone();
    for _ in 0..draw.random_range(1..8) {
        let at = draw.random_range(0..=bytes.len());
        let to = (at + draw.random_range(0..16)).min(bytes.len());
        match draw.random_range(0..6) {
            0 if at < bytes.len() => bytes[at] ^= 1 << draw.random_range(0..8),
            1 if at < bytes.len() => bytes[at] = draw.random(),
            2 => drop(bytes.drain(at..to)),
            3 => drop(bytes.splice(at..at, bytes[at..to].to_vec())),
            4 => drop(bytes.splice(
                at..to,
                TELLING[draw.random_range(0..TELLING.len())].to_vec(),
            )),
            _ => {
                let other = &known[draw.random_range(0..known.len())];
                let from = draw.random_range(0..=other.len());
                let until = (from + draw.random_range(0..64)).min(other.len());
                drop(bytes.splice(at..to, other[from..until].to_vec()));
            }
        }
    }
    bytes
}

#[test]
fn whatever_is_kept_is_answered() {
    for (name, target) in inputs::ALL {
        for bytes in kept(name) {
            target(&bytes);
        }
    }
}

/// For `PORELINE_MINUTES` a target, or one; of all targets, or those that `PORELINE_TARGETS` names. A file named
/// after the target holds the bytes at work, for whoever wants to know on which it stopped.
#[test]
#[ignore = "takes minutes; `cargo test --test replay -- --ignored`"]
fn whatever_is_made_up_is_answered_within_ten_seconds() {
    let minutes =
        std::env::var("PORELINE_MINUTES").map_or(1.0, |minutes| minutes.parse().expect("a number"));
    let folder = std::env::temp_dir();
    let asked = std::env::var("PORELINE_TARGETS");
    let is_asked = |name: &str| {
        let asked = asked.as_ref();
        asked.map_or(true, |asked| asked.split(',').any(|asked| asked == name))
    };
    for (name, target) in inputs::ALL.into_iter().filter(|(name, _)| is_asked(name)) {
        let known = kept(name);
        let mut draw = Pcg64::seed_from_u64(17);
        let begun = Instant::now();
        let (mut count, mut longest) = (0, Duration::ZERO);
        while begun.elapsed() < Duration::from_secs_f64(60.0 * minutes) {
            let bytes = made_up(&known, &mut draw);
            let at_work = folder.join(format!("poreline-{name}"));
            fs::write(&at_work, &bytes).expect("written");
            let start = Instant::now();
            target(&bytes);
            longest = longest.max(start.elapsed());
            assert!(
                longest < Duration::from_secs(10),
                "{} took {longest:?}",
                at_work.display()
            );
            count += 1;
        }
        println!("{name}: {count} answered, the slowest in {longest:?}");
    }
}
