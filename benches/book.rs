//! How long a book of ten thousand vouchers takes to open, beside reading its files alone.
//!
//! Ratios are what counts: `open` against `read`. By itself, opening is to stay below two seconds.

use divan::{Bencher, black_box};
use poreline::book::{Attached, Book, BookCard, Index, PhotoLink, Voucher};
use serde_json::json;
use std::fs;
use std::path::Path;
use std::sync::LazyLock;
use tempfile::TempDir;

const VOUCHERS: usize = 10_000;

fn main() {
    divan::main();
}

static BOOK: LazyLock<TempDir> = LazyLock::new(|| {
    let folder = tempfile::tempdir().expect("a folder");
    let card = BookCard::new("Alder Fen Foray Group", "AF-{number:5}");
    Book::init(folder.path(), card).expect("a book");
    for number in 0..VOUCHERS {
        let mut voucher = Voucher::new(format!("AF-{number:05}"));
        voucher.revision = 1;
        voucher.locality = Some(format!("Alder Fen, plot {}", number % 97));
        voucher.recorded_by = Some("Ines Dunmore | Tom Ashdown".to_owned());
        let sha256 = format!("{number:064x}");
        let link = PhotoLink {
            path: format!("photos/{number}.jpg"),
            sha256: sha256.clone(),
            ..PhotoLink::default()
        };
        // As large as what is measured on a photo: some 4 kB.
        let notes: Vec<_> = (0..12)
            .map(|note| json!({"severity": "info", "code": format!("note-{note}"), "text": "a remark of a dozen words on what is wrong, and what to do about it"}))
            .collect();
        let findings = json!({
            "schema": "poreline-findings/1", "photo": {"sha256": sha256}, "surface": {"type": "poroid"},
            "pores": {"per_mm": {"value": 4.5, "low": 4.4, "high": 4.6}}, "notes": notes,
        });
        voucher.attach(
            link,
            Attached {
                measurement_determined_date: "2026-10-04T19:00:00".to_owned(),
                findings,
                ..Attached::default()
            },
        );
        let text = serde_json::to_vec_pretty(&voucher).expect("JSON");
        fs::write(file(folder.path(), number), text).expect("a file");
    }
    folder
});

fn file(folder: &Path, number: usize) -> std::path::PathBuf {
    folder.join(format!("vouchers/AF-{number:05}.json"))
}

/// The files' bytes alone: the floor.
#[divan::bench(sample_count = 10)]
fn read(bencher: Bencher<'_, '_>) {
    let folder = BOOK.path();
    bencher.bench(|| {
        (0..VOUCHERS)
            .map(|number| {
                fs::read(file(black_box(folder), number))
                    .expect("a file")
                    .len()
            })
            .sum::<usize>()
    });
}

/// All vouchers, as records.
#[divan::bench(sample_count = 10)]
fn open(bencher: Bencher<'_, '_>) {
    let folder = BOOK.path();
    bencher.bench(|| Book::open(black_box(folder)).expect("a book"));
}

/// Finding as one types, all of them in memory.
#[divan::bench(sample_count = 10)]
fn find(bencher: Bencher<'_, '_>) {
    let book = Book::open(BOOK.path()).expect("a book");
    let vouchers: Vec<Voucher> = book.vouchers().cloned().collect();
    let index = Index::of(&vouchers);
    bencher.bench(|| index.find(black_box("plot 13 dunmore")));
}
