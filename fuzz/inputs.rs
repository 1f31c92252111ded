//! What is done with bytes that anybody may have written. Shared by the fuzz targets, which make up bytes,
//! and `tests/replay.rs`, which does the same with all that is kept in `corpus`. None of it may panic, hang
//! or take memory without limit; a refusal in words is as good as a result.

use poreline::book::{
    self, Book, BookCard, Foray, Index, Pattern, Voucher, findings_read, frequencies, observation,
    read_checklists, write_checklists,
};
use poreline::cli;
use poreline::corrections;
use poreline::export::card_pdf::Paper;
use poreline::export::darwin_core::{ArchiveOptions, Places, archive};
use poreline::export::{book_csv, book_text, comparison, labels, report};
use poreline::photo;
use poreline::progress::Progress;
use poreline::ranges::Ranges;
use poreline::reporting;
use poreline::set_up::SetUp;
use poreline::stated::stated;
use std::cell::OnceCell;
use std::fs;
use std::path::PathBuf;
use std::sync::atomic::AtomicBool;
use tempfile::TempDir;

/// A day, since nothing that is checked reads a clock.
const TODAY: &str = "2026-10-04";
/// Pictures above this are left to `tests/photo_files.rs`: a file of a few bytes may truly hold them, and
/// decoding takes longer than making up bytes is worth.
const MOST_PIXELS: u64 = 1_000_000;

thread_local! {
    static FOLDER: OnceCell<TempDir> = const { OnceCell::new() };
}

/// A folder that lasts as long as the thread.
fn folder() -> PathBuf {
    FOLDER.with(|folder| {
        let folder = folder.get_or_init(|| tempfile::tempdir().expect("a folder"));
        folder.path().to_owned()
    })
}

fn written(name: &str, bytes: &[u8]) -> PathBuf {
    let path = folder().join(name);
    fs::write(&path, bytes).expect("a file");
    path
}

/// A picture file of any kind, with whatever it says of itself.
pub fn photo(bytes: &[u8]) {
    let path = written("photo.jpg", bytes);
    if let Ok(glance) = photo::glance(&path)
        && let Ok((width, height)) = glance.size_px
        && u64::from(width) * u64::from(height) <= MOST_PIXELS
        && let Ok(photo) = photo::open(&path)
    {
        drop(stated(&photo));
    }
}

/// What a camera writes beside a picture: EXIF in a JPEG that is whole otherwise.
pub fn exif(bytes: &[u8]) {
    const PICTURE: &[u8] = include_bytes!("plain.jpg");
    // The segment's length counts itself and the name (EXIF 3.0, 4.7.2).
    let bytes = &bytes[..bytes.len().min(65_000)];
    let length = u16::try_from(bytes.len() + 8).expect("short");
    let mut file = PICTURE[..2].to_vec();
    file.extend([0xff, 0xe1]);
    file.extend(length.to_be_bytes());
    file.extend(b"Exif\0\0");
    file.extend(bytes);
    file.extend(&PICTURE[2..]);
    photo(&file);
}

/// Findings, one a line, attached to a voucher that is then shown in every way.
pub fn findings(bytes: &[u8]) {
    let Ok(text) = str::from_utf8(bytes) else {
        return;
    };
    let Ok(read) = findings_read(text) else {
        return;
    };
    let mut voucher = Voucher::new("AF-1");
    for (number, findings) in read.findings.into_iter().take(4).enumerate() {
        voucher.attach(
            book::PhotoLink {
                path: format!("photos/{number}.jpg"),
                sha256: number.to_string(),
                ..book::PhotoLink::default()
            },
            book::Attached {
                measurement_determined_date: TODAY.to_owned(),
                measurement_determined_by: None,
                findings,
            },
        );
    }
    let text = serde_json::to_vec(&voucher).expect("it was read from JSON");
    self::voucher(&text);
}

/// A book with this in place of a voucher's file.
pub fn voucher(bytes: &[u8]) {
    if let Some(book) = book_with("vouchers", bytes) {
        shown(&book);
    }
}

/// A book with this in place of a walk's file.
pub fn foray(bytes: &[u8]) {
    if let Some(book) = book_with("forays", bytes) {
        shown(&book);
    }
}

fn book_with(kind: &str, bytes: &[u8]) -> Option<Book> {
    let folder = folder().join("book");
    if !book::is_book(&folder) {
        Book::init(&folder, BookCard::new("Alder Fen", "AF-{number:4}")).expect("a book");
    }
    for records in ["vouchers", "forays"] {
        let other = folder.join(records).join("1.json");
        if other.exists() {
            fs::remove_file(other).expect("removed");
        }
    }
    fs::write(folder.join(kind).join("1.json"), bytes).expect("a file");
    let book = Book::open(&folder).expect("the rest of the book opens");
    (book.damaged().is_empty()).then_some(book)
}

/// All that is done with a book without changing it.
fn shown(book: &Book) {
    let ranges = Ranges::shipped().expect("ours");
    let vouchers: Vec<Voucher> = book.vouchers().cloned().collect();
    let every: Vec<&Voucher> = vouchers.iter().collect();
    drop(book_text::complaints(&book::check(book, TODAY)));
    drop(book_text::list(&vouchers));
    drop(book_text::forays(book.forays()));
    drop(book.next_number(2026));
    drop(Index::of(&vouchers).find("polyporus 2026 fen"));
    for voucher in &vouchers {
        drop(book_text::voucher(voucher, None));
        drop(comparison::text(&observation(voucher), &ranges));
    }
    for places in [Places::AsRecorded, Places::Blurred, Places::Withheld] {
        drop(book_csv::csv(&book.card, &every, places));
        let options = ArchiveOptions {
            places,
            photos_at: None,
            published: Some(TODAY.to_owned()),
        };
        drop(archive(&book.card, &every, &options));
    }
    drop(labels::sheets(&book.card, &every, Paper::A4));
    let cancel = AtomicBool::new(false);
    let progress = Progress::new(&cancel, &|_| {});
    if let Ok(made) = reporting::vouchers(book, &every, Places::AsRecorded, TODAY, &progress) {
        drop(report::html(&made.report));
        drop(report::pdf(&made.report, Paper::A4));
    }
    let walks: Vec<Foray> = book.walks();
    drop(book_text::frequencies(&frequencies(&walks)));
    drop(write_checklists(book.forays()));
}

/// Tables of walks and of published ranges.
pub fn table(bytes: &[u8]) {
    if let Ok(walks) = read_checklists(bytes) {
        drop(write_checklists(&walks));
        drop(frequencies(&walks));
    }
    if let Ok(own) = Ranges::read(bytes) {
        drop(comparison::taxa(&own));
    }
}

/// Saved set-ups and saved corrections.
pub fn set_up(bytes: &[u8]) {
    let path = written("set-up.json", bytes);
    if let Ok(set_up) = SetUp::load(&path) {
        drop(set_up.save(&folder().join("again.json"), true));
    }
    drop(corrections::File::load(&path));
    if let Ok(text) = str::from_utf8(bytes)
        && let Ok(pattern) = Pattern::new(text)
    {
        drop(pattern.next(2026, ["AF-1", text]));
    }
}

/// Values of options, as typed. The photo is not there, so nothing is measured.
pub fn typed(bytes: &[u8]) {
    const OPTIONS: [&str; 11] = [
        "px-per-mm",
        "points",
        "bar",
        "ruler",
        "corners",
        "area",
        "area-polygon",
        "leave-out",
        "least-wall",
        "white",
        "set-up",
    ];
    let Some((which, value)) = bytes.split_first() else {
        return;
    };
    let option = OPTIONS[usize::from(*which) % OPTIONS.len()];
    let value = String::from_utf8_lossy(value);
    let scale = (!OPTIONS[..5].contains(&option)).then_some("--px-per-mm=80");
    let typed = ["poreline", "measure", "nowhere/photo.jpg"].map(str::to_owned);
    let typed = typed
        .into_iter()
        .chain(scale.map(str::to_owned))
        .chain([format!("--{option}={value}")]);
    assert!(
        !matches!(
            cli::run(typed.map(Into::into)),
            cli::Next::Exit(cli::Outcome::Done)
        ),
        "there is no photo to be measured"
    );
}

/// What is done with some bytes.
pub type Target = fn(&[u8]);

/// The targets by name, for whoever goes through all of them.
pub const ALL: [(&str, Target); 8] = [
    ("photo", photo),
    ("exif", exif),
    ("findings", findings),
    ("voucher", voucher),
    ("foray", foray),
    ("table", table),
    ("set_up", set_up),
    ("typed", typed),
];
