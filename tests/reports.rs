//! Reports as their readers have them: HTML read by a parser of XML, PDF by a reader of PDF, figures held
//! against the findings and against what is on the photos by construction.

use assert_cmd::Command;
use assert_cmd::assert::Assert;
use lopdf::{Document, Object};
use poreline::book::{Attached, Book, NoPhoto, Voucher};
use poreline::demo;
use poreline::progress::Progress;
use quick_xml::Reader;
use quick_xml::XmlVersion;
use quick_xml::events::Event;
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;
use tempfile::TempDir;

/// What is said wherever a species name is printed.
const CAUTION: &str = "Never eat a fungus";

/// The demo book, made once.
static DEMO: LazyLock<TempDir> = LazyLock::new(|| {
    let folder = tempfile::tempdir().expect("a folder");
    demo::write(&folder.path().join("fen"), &Progress::default()).expect("the demo book");
    folder
});

fn samples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-images")
}

fn copied(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder");
    for entry in fs::read_dir(from).expect("a folder") {
        let entry = entry.expect("an entry");
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            copied(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).expect("copied");
        }
    }
}

/// A folder with a copy of the demo book, `fen`.
fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    copied(DEMO.path(), folder.path());
    folder
}

fn book(folder: &TempDir, typed: &[&str]) -> Assert {
    Command::cargo_bin("poreline")
        .expect("the program is built")
        .current_dir(folder.path())
        .arg("book")
        .args(typed)
        .assert()
}

fn said(done: &Assert) -> String {
    String::from_utf8_lossy(&done.get_output().stderr).into_owned()
}

fn voucher(folder: &TempDir, number: &str) -> Voucher {
    let book = Book::open(&folder.path().join("fen")).expect("a book");
    book.voucher(number).expect("the voucher").clone()
}

/// A page as a parser of XML sees it.
#[derive(Default)]
struct Page {
    elements: Vec<String>,
    /// All attributes, `name=value`.
    attributes: Vec<String>,
    /// Rows of tables.
    rows: Vec<Vec<String>>,
    /// All text, element by element.
    text: String,
}

impl Page {
    /// Fails where an element is not closed or a reference is none.
    fn read(path: &Path) -> Self {
        let bytes = fs::read_to_string(path).expect("a report");
        let mut reader = Reader::from_str(&bytes);
        let mut page = Self::default();
        let (mut open, mut in_cell) = (0_i32, false);
        loop {
            match reader.read_event().expect("well-formed") {
                event @ (Event::Start(_) | Event::Empty(_)) => {
                    let (Event::Start(element) | Event::Empty(element)) = &event else {
                        unreachable!()
                    };
                    open += i32::from(matches!(event, Event::Start(_)));
                    let name = String::from_utf8_lossy(element.name().as_ref()).into_owned();
                    for attribute in element.attributes() {
                        let attribute = attribute.expect("an attribute");
                        let value = attribute
                            .normalized_value(XmlVersion::Implicit1_0)
                            .expect("text");
                        let key = String::from_utf8_lossy(attribute.key.as_ref()).into_owned();
                        page.attributes.push(format!("{key}={value}"));
                    }
                    match name.as_str() {
                        "tr" => page.rows.push(Vec::new()),
                        "th" | "td" => {
                            in_cell = true;
                            let row = page.rows.last_mut().expect("a row");
                            row.push(String::new());
                        }
                        _ => {}
                    }
                    page.elements.push(name);
                }
                Event::End(element) => {
                    open -= 1;
                    in_cell &= !matches!(element.name().as_ref(), b"th" | b"td");
                    page.text.push('\n');
                }
                Event::Text(text) => page.put(&text.decode().expect("text"), in_cell),
                Event::GeneralRef(reference) => {
                    let letter = match reference.resolve_char_ref().expect("a letter") {
                        Some(letter) => letter.to_string(),
                        None => quick_xml::escape::resolve_predefined_entity(
                            &reference.decode().expect("text"),
                        )
                        .expect("an entity of XML")
                        .to_owned(),
                    };
                    page.put(&letter, in_cell);
                }
                Event::Eof => break,
                _ => {}
            }
        }
        assert_eq!(open, 0, "an element is not closed");
        page
    }

    fn put(&mut self, text: &str, in_cell: bool) {
        self.text.push_str(text);
        if in_cell && let Some(cell) = self.rows.last_mut().and_then(|row| row.last_mut()) {
            cell.push_str(text);
        }
    }

    fn count(&self, name: &str) -> usize {
        self.elements
            .iter()
            .filter(|element| *element == name)
            .count()
    }

    /// The cells of the row of that name.
    fn row(&self, name: &str) -> &[String] {
        let row = self
            .rows
            .iter()
            .find(|row| row.first().is_some_and(|cell| cell.trim() == name));
        row.unwrap_or_else(|| panic!("no row {name} in {:?}", self.rows))
    }
}

/// The figure that a cell begins with, and half of its last digit.
fn figure(cell: &str) -> (f64, f64) {
    let digits: String = cell
        .trim()
        .chars()
        .take_while(|letter| letter.is_ascii_digit() || *letter == '.')
        .collect();
    let decimals = digits.split_once('.').map_or(0, |(_, after)| after.len());
    let half = 0.5 * 10_f64.powi(-i32::try_from(decimals).expect("few"));
    (digits.parse().expect("a figure"), half * 1.000_001)
}

#[test]
fn figures_in_a_report_are_those_of_the_findings() {
    let folder = folder();
    book(&folder, &["report", "fen", "AFFG-0114", "--out", "a.html"]).success();
    let page = Page::read(&folder.path().join("a.html"));
    let record = voucher(&folder, "AFFG-0114");
    let findings = &record.current()[0].findings;
    let number = |at: &str| {
        findings
            .pointer(at)
            .and_then(Value::as_f64)
            .expect("a figure")
    };
    for (row, at, times) in [
        ("pores per mm", "/pores/per_mm/value", 1.0),
        ("mean diameter", "/pores/diameter_mm/mean", 1.0),
        ("elongation (median)", "/pores/elongation/median", 1.0),
        ("hollow share", "/pores/void_fraction", 100.0),
        ("pores counted", "/pores/count", 1.0),
        ("pores per mm²", "/pores/per_mm2", 1.0),
        ("area measured", "/area/mm2", 1.0),
    ] {
        let (shown, half) = figure(&page.row(row)[1]);
        let found = times * number(at);
        assert!((shown - found).abs() <= half, "{row}: {shown}, {found}");
    }
    for (row, at) in [
        ("pores per mm", "/pores/per_mm"),
        ("mean diameter", "/pores/diameter_mm"),
    ] {
        let (low, high) = page.row(row)[2].split_once(" to ").expect("an interval");
        for (shown, end) in [(low, "low"), (high, "high")] {
            let (shown, half) = figure(shown);
            let found = number(&format!("{at}/{end}"));
            assert!((shown - found).abs() <= half, "{row}: {shown}, {found}");
        }
    }
    // By construction (sample-images/truth.json) 4.503 per mm, 0.1644 mm wide; bounds of 2 and 4 % as
    // in samples.rs.
    let near = |row: &str, truth: f64, bound: f64| {
        let (shown, _) = figure(&page.row(row)[1]);
        assert!((shown / truth - 1.0).abs() < bound, "{row}: {shown}");
    };
    near("pores per mm", 4.503, 0.02);
    near("mean diameter", 0.1644, 0.04);
    let phrase = findings["pores"]["handbook"].as_str().expect("a phrase");
    for words in [
        phrase,
        CAUTION,
        "Maud Pettigrew",
        "Trametes cf. hirsuta",
        "two points a known length apart",
        "Sources",
        "printed",
    ] {
        assert!(page.text.contains(words), "{words}");
    }
    for reason in findings["surface"]["reasons"].as_array().expect("reasons") {
        assert!(page.text.contains(reason.as_str().expect("text")));
    }
    // The photo, the photo with outlines, and the bars of the histogram.
    assert_eq!(page.count("img"), 2);
    assert!(page.count("rect") >= 5);
    assert!(
        !page.text.contains("differently"),
        "outlines came out otherwise"
    );
}

#[test]
fn what_is_drawn_again_is_what_was_measured() {
    let folder = folder();
    let book = Book::open(&folder.path().join("fen")).expect("a book");
    for voucher in book.vouchers() {
        for attached in voucher.current() {
            let evidence = book
                .evidence(voucher, attached, &Progress::default())
                .expect("the photo");
            let seen = evidence.seen.expect("measured again");
            let differs = seen.differs_from(&attached.findings);
            assert_eq!(differs, None, "{}", voucher.catalog_number);
        }
    }
}

/// With a bar that was found and parts that were found unusable, whose reasons count.
#[test]
fn parts_left_out_are_left_out_again() {
    let folder = folder();
    for (number, photo, length) in [
        ("AFFG-0114", "fine-pores.jpg", "2mm"),
        ("AFFG-0122", "toothed.jpg", "5mm"),
    ] {
        let measured = Command::cargo_bin("poreline")
            .expect("the program is built")
            .arg("measure")
            .arg(samples().join(photo))
            .args(["--bar", length, "--json"])
            .assert()
            .success();
        let findings: Value =
            serde_json::from_slice(&measured.get_output().stdout).expect("findings");
        let reasons = findings["area"]["left_out_px_reasons"]
            .as_array()
            .expect("reasons");
        assert!(reasons.contains(&Value::from("scale")), "{reasons:?}");
        let book = Book::open(&folder.path().join("fen")).expect("a book");
        let attached = Attached {
            findings,
            ..Attached::default()
        };
        let voucher = book.voucher(number).expect("the voucher");
        let evidence = book
            .evidence(voucher, &attached, &Progress::default())
            .expect("the photo");
        let seen = evidence.seen.expect("measured again");
        assert_eq!(seen.differs_from(&attached.findings), None, "{photo}");
    }
}

#[test]
fn what_is_written_in_fields_stays_text() {
    let folder = folder();
    let script = "<script>alert(\"x\")</script>";
    let image = "\"><img src=x onerror='alert(1)'> & so on";
    let remarks = format!("occurrenceRemarks={script}");
    let place = format!("locality={image}");
    book(&folder, &["set", "fen", "AFFG-0114", &remarks, &place]).success();
    book(
        &folder,
        &[
            "determine",
            "fen",
            "AFFG-0114",
            "Trametes <b>versicolor</b>",
            "--by",
            "</td>",
        ],
    )
    .success();
    book(&folder, &["report", "fen", "AFFG-0114", "--out", "a.html"]).success();
    let page = Page::read(&folder.path().join("a.html"));
    assert_eq!(page.row("notes")[1], script);
    assert_eq!(page.row("place")[1], image);
    assert_eq!(page.count("img"), 2);
    for element in ["script", "b", "link", "iframe"] {
        assert_eq!(page.count(element), 0, "{element}");
    }
    for attribute in &page.attributes {
        assert!(!attribute.starts_with("on"), "{attribute}");
        // Nothing is fetched from anywhere.
        if let Some(address) = attribute.strip_prefix("src=") {
            assert!(address.starts_with("data:image/jpeg;base64,"));
        }
        assert!(!attribute.starts_with("href="), "{attribute}");
    }
}

#[test]
fn a_report_goes_on_without_a_photo_that_is_gone_or_changed() {
    let folder = folder();
    let record = voucher(&folder, "AFFG-0114");
    let photo = folder.path().join("fen").join(&record.photos[0].path);
    let mut bytes = fs::read(&photo).expect("the photo");
    bytes.push(0);
    fs::write(&photo, bytes).expect("changed");
    for (out, words) in [
        ("changed.html", "has changed since it was measured"),
        ("gone.html", "not to be found"),
    ] {
        let done = book(&folder, &["report", "fen", "AFFG-0114", "--out", out]).success();
        assert!(said(&done).contains(words), "{}", said(&done));
        let page = Page::read(&folder.path().join(out));
        assert!(page.text.contains(words), "{out}");
        assert_eq!(page.count("img"), 0);
        assert_eq!(page.row("pores per mm").len(), 4);
        let _ = fs::remove_file(&photo);
    }
    let opened = Book::open(&folder.path().join("fen")).expect("a book");
    let gone = opened.evidence(&record, record.current()[0], &Progress::default());
    assert!(matches!(gone, Err(NoPhoto::Missing(_))));
    book(
        &folder,
        &[
            "report",
            "fen",
            "AFFG-0114",
            "AFFG-0117",
            "--side-by-side",
            "--out",
            "two.html",
        ],
    )
    .success();
    let page = Page::read(&folder.path().join("two.html"));
    assert_eq!(page.count("img"), 2);
    assert!(page.text.contains("AFFG-0114: No pictures"));
}

#[test]
fn a_file_that_is_there_is_kept_unless_asked() {
    let folder = folder();
    let out = folder.path().join("a.pdf");
    fs::write(&out, "mine").expect("written");
    let typed = ["report", "fen", "AFFG-0098", "--out", "a.pdf"];
    let done = book(&folder, &typed).code(2);
    assert!(said(&done).contains("--replace"));
    assert_eq!(fs::read(&out).expect("read"), b"mine");
    book(&folder, &[&typed[..], &["--replace"]].concat()).success();
    let first = fs::read(&out).expect("read");
    assert!(first.starts_with(b"%PDF-1."));
    book(&folder, &[&typed[..], &["--replace"]].concat()).success();
    assert_eq!(
        fs::read(&out).expect("read"),
        first,
        "the same comes out again"
    );
    let wrong = book(&folder, &["report", "fen", "AFFG-0098", "--out", "a.doc"]).code(2);
    assert!(said(&wrong).contains(".html or .pdf"), "{}", said(&wrong));
    book(&folder, &["report", "fen", "AFFG-9999", "--out", "b.pdf"]).code(2);
    assert!(!folder.path().join("b.pdf").exists());
}

/// Pictures of a PDF file: width, height, and whether they are JPEG.
fn pictures(document: &Document) -> Vec<(i64, i64, bool)> {
    let side = |stream: &lopdf::Stream, key: &[u8]| {
        stream
            .dict
            .get(key)
            .and_then(Object::as_i64)
            .expect("a side")
    };
    document
        .objects
        .values()
        .filter_map(|object| object.as_stream().ok())
        .filter(|stream| {
            stream.dict.get(b"Subtype").and_then(Object::as_name).ok() == Some(&b"Image"[..])
        })
        .map(|stream| {
            let is_jpeg =
                image::guess_format(&stream.content).ok() == Some(image::ImageFormat::Jpeg);
            (side(stream, b"Width"), side(stream, b"Height"), is_jpeg)
        })
        .collect()
}

#[test]
fn a_pdf_file_is_whole_and_holds_what_the_page_does() {
    let folder = folder();
    for numbers in [&["AFFG-0114"][..], &["AFFG-0114", "AFFG-0098"]] {
        let typed = [
            &["report", "fen"],
            numbers,
            &["--out", "a.pdf", "--replace"],
        ]
        .concat();
        book(&folder, &typed).success();
        let document = Document::load(folder.path().join("a.pdf")).expect("a PDF file");
        let pages: Vec<u32> = document.get_pages().into_keys().collect();
        assert!(pages.len() > numbers.len(), "{} pages", pages.len());
        let found = pictures(&document);
        assert_eq!(found.len(), 2);
        assert!(found.iter().all(|(.., is_jpeg)| *is_jpeg), "{found:?}");
        let text = document.extract_text(&pages).expect("text");
        // Lines may be broken anywhere.
        let text: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for number in numbers {
            assert!(text.contains(number), "{text}");
        }
        // On every page.
        assert!(text.matches(CAUTION).count() >= pages.len(), "{text}");
        let record = voucher(&folder, "AFFG-0114");
        let phrase = record.current()[0].findings["pores"]["handbook"]
            .as_str()
            .expect("a phrase")
            .to_owned();
        assert!(text.contains(&phrase), "{phrase} in {text}");
    }
}

#[test]
fn side_by_side_shows_one_scale_and_what_differs_most_first() {
    let folder = folder();
    let vouchers = ["AFFG-0114", "AFFG-0117", "AFFG-0122"];
    let typed = [
        &["report", "fen"],
        &vouchers[..],
        &["--side-by-side", "--out"],
    ]
    .concat();
    book(&folder, &[&typed[..], &["a.html"]].concat()).success();
    let page = Page::read(&folder.path().join("a.html"));
    assert_eq!(page.count("img"), 2 * vouchers.len());
    // A piece of the same size in mm in the same number of pixels; strips below are as tall.
    let sides = |name: &str| -> Vec<&String> {
        let of_images = page.attributes.iter();
        let mut sides: Vec<&String> = of_images.filter(|a| a.starts_with(name)).collect();
        sides.dedup();
        sides
    };
    assert_eq!((sides("width=").len(), sides("height=").len()), (1, 1));
    // Kinds differ: one is toothed.
    let at = |name: &str| page.rows.iter().position(|row| row[0] == name).expect(name);
    assert_eq!(at("underside"), 1);
    assert_eq!(page.row("underside")[3], "toothed");
    // By construction: 0.1644, 0.7249 and 0.4155 mm wide, which is by a factor of 4.4; elongation by
    // 1.3 (sample-images/truth.json).
    let diameters: Vec<f64> = page.row("mean diameter")[1..]
        .iter()
        .map(|cell| figure(cell).0)
        .collect();
    for (shown, truth) in diameters.iter().zip([0.1644, 0.7249, 0.4155]) {
        assert!((shown / truth - 1.0).abs() < 0.06, "{diameters:?}");
    }
    assert!(at("mean diameter") < at("elongation (median)"));
    assert!(at("mean diameter") < at("host"));
    assert!(page.text.contains(CAUTION));

    book(&folder, &[&typed[..], &["a.pdf"]].concat()).success();
    let document = Document::load(folder.path().join("a.pdf")).expect("a PDF file");
    let found = pictures(&document);
    assert_eq!(found.len(), 6);
    assert!(found.iter().all(|one| *one == found[0]), "{found:?}");

    for numbers in [1, 5] {
        let some = ["AFFG-0114"; 5];
        let typed = [
            &["report", "fen"],
            &some[..numbers],
            &["--side-by-side", "--out", "b.html"],
        ]
        .concat();
        book(&folder, &typed).code(2);
    }
}

#[test]
fn a_report_can_keep_the_place_to_itself() {
    let folder = folder();
    book(
        &folder,
        &[
            "set",
            "fen",
            "AFFG-0114",
            "decimalLatitude=52.637",
            "decimalLongitude=-1.139",
        ],
    )
    .success();
    for (option, told, untold) in [
        ("--blur-places", "52.65, -1.15", "52.637"),
        ("--no-places", "withheld", "52.6"),
    ] {
        let typed = [
            "report",
            "fen",
            "AFFG-0114",
            "--out",
            "a.html",
            "--replace",
            option,
        ];
        book(&folder, &typed).success();
        let page = Page::read(&folder.path().join("a.html"));
        assert!(page.text.contains(told), "{option}");
        assert!(!page.text.contains(untold), "{option}");
        assert!(!page.text.contains("Sluice Path"), "{option}");
    }
}

#[test]
fn months_tell_on_how_many_walks_of_how_many() {
    let folder = folder();
    let printed = book(&folder, &["frequency", "fen"]).success();
    let text = String::from_utf8_lossy(&printed.get_output().stdout).into_owned();
    let words = |name: &str, nth: usize| -> Vec<String> {
        let lines: Vec<&str> = text.lines().filter(|line| line.starts_with(name)).collect();
        lines[nth].split_whitespace().map(str::to_owned).collect()
    };
    // Walks of src/demo.rs: March 1, September 1, October 5, November 1.
    assert_eq!(
        words("walks", 0)[1..],
        ["0", "0", "1", "0", "0", "0", "0", "0", "1", "5", "1", "0"]
    );
    // In March 1 of 1, in October 4 of 5 (7 eighths), in November 1 of 1.
    assert_eq!(
        words("Trametes versicolor", 1)[2..],
        ["█1", "0", "▇4", "█1"]
    );

    let typed = [
        "frequency",
        "fen",
        "--taxon",
        "Trametes versicolor",
        "--report",
        "m.html",
    ];
    book(&folder, &typed).success();
    let page = Page::read(&folder.path().join("m.html"));
    assert_eq!(page.count("svg"), 1);
    for words in ["4 of 5", "1 of 1", "0 of 1", "no walk", "80 %", CAUTION] {
        assert!(page.text.contains(words), "{words}");
    }
    // Bars in March, October and November; the highest is 28 mm, that of October 4/5 of it.
    let heights: Vec<f64> = (page.attributes.iter())
        .filter_map(|attribute| attribute.strip_prefix("height=")?.parse().ok())
        .collect();
    assert_eq!(heights, [28.0, 22.4, 28.0]);
    // 4 of 5: 37.55 to 96.38 %, scipy.stats.binomtest(4, 5).proportion_ci(method="wilson").
    let lines: Vec<f64> = (page.attributes.iter())
        .filter_map(|attribute| attribute.strip_prefix("y1=")?.parse().ok())
        .collect();
    let ground = 32.5;
    for share in [0.3755, 0.9638] {
        let at = ground - 28.0 * share;
        assert!(
            lines.iter().any(|y| (y - at).abs() < 0.006),
            "{at} in {lines:?}"
        );
    }
    book(&folder, &typed).code(2);
    book(&folder, &["frequency", "fen", "--report", "m.pdf"]).success();
    Document::load(folder.path().join("m.pdf")).expect("a PDF file");
}
