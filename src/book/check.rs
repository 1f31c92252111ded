//! Going over a whole book: what is wrong in it, and what to do.

use super::attach::FINDINGS;
use super::date::day;
use super::figures::observation;
use super::store::Book;
use super::voucher::{DECAY_STAGES, HOST_WOODS, SUBSTRATES, Voucher};
use crate::ranges::{Agreement, Character, Ranges, compare};
use crate::reading;
use jiff::civil::Date;
use serde_json::Value;
use sha2::{Digest, Sha256};
use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, Write};
use std::path::Path;

/// How much a complaint matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Gravity {
    /// Worth a look.
    Look,
    /// Something is wrong.
    Wrong,
}

impl Gravity {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Look => "look",
            Self::Wrong => "wrong",
        }
    }
}

/// One thing that is wrong or odd in a book.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Complaint {
    /// Which record: a catalogue number, a foray's title or a file.
    pub record: String,
    /// How much it matters.
    pub gravity: Gravity,
    /// A stable name for scripts, such as `photo-missing`.
    pub code: &'static str,
    /// What is wrong and what to do.
    pub text: String,
}

/// Goes over a book; `today` is an ISO 8601 date.
#[must_use]
pub fn check(book: &Book, today: &str) -> Vec<Complaint> {
    let mut found = Vec::new();
    let ranges = book.ranges().map_err(|error| {
        found.push(Complaint {
            record: book.folder().display().to_string(),
            gravity: Gravity::Wrong,
            code: "ranges",
            text: format!("hosts were not held against published ones: {error}"),
        });
    });
    for damaged in book.damaged() {
        found.push(Complaint {
            record: damaged.path.display().to_string(),
            gravity: Gravity::Wrong,
            code: "damaged",
            text: format!(
                "the file cannot be read: {}. It was left alone; mend it, or take it from a copy of the book",
                damaged.why
            ),
        });
    }
    doubles(book, &mut found);
    same_walks(book, &mut found);
    shared_photos(book, &mut found);
    for voucher in book.vouchers() {
        let mut say = |gravity, code, text: String| {
            found.push(Complaint {
                record: voucher.catalog_number.clone(),
                gravity,
                code,
                text,
            });
        };
        dates(voucher, today, &mut say);
        coordinates(voucher, &mut say);
        name(voucher, &mut say);
        country(voucher, &mut say);
        words(voucher, &mut say);
        photos(book, voucher, &mut say);
        measurements(voucher, &mut say);
        if let Ok(ranges) = &ranges {
            host(voucher, ranges, &mut say);
        }
        walk(book, voucher, &mut say);
    }
    for foray in book.forays() {
        let mut say = |gravity, code, text: String| {
            found.push(Complaint {
                record: foray.title(),
                gravity,
                code,
                text,
            });
        };
        date(&foray.event_date, "the date of the walk", today, &mut say);
        for number in foray
            .checklist
            .iter()
            .filter_map(|s| s.catalog_number.as_deref())
        {
            if book.voucher(number).is_err() {
                say(
                    Gravity::Wrong,
                    "voucher-missing",
                    format!("the checklist names the voucher {number}, which is not in the book"),
                );
            }
        }
    }
    found
}

type Say<'a> = &'a mut dyn FnMut(Gravity, &'static str, String);

fn doubles(book: &Book, found: &mut Vec<Complaint>) {
    let mut numbers: BTreeMap<&str, usize> = BTreeMap::new();
    let mut ids: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for voucher in book.vouchers() {
        *numbers.entry(&voucher.catalog_number).or_default() += 1;
        ids.entry(&voucher.occurrence_id)
            .or_default()
            .push(&voucher.catalog_number);
    }
    for (number, times) in numbers.into_iter().filter(|(_, times)| *times > 1) {
        found.push(Complaint {
            record: number.to_owned(),
            gravity: Gravity::Wrong,
            code: "number-twice",
            text: format!(
                "{times} vouchers bear this catalogue number; give all but one of them another"
            ),
        });
    }
    for (id, numbers) in ids.into_iter().filter(|(_, numbers)| numbers.len() > 1) {
        found.push(Complaint {
            record: numbers.join(", "),
            gravity: Gravity::Wrong,
            code: "id-twice",
            text: format!("these vouchers share the identifier {id}, as files copied or written by two people at once do; `poreline book merge` puts them together or keeps both"),
        });
    }
}

/// The same walk written down twice makes every taxon on it look rarer or more frequent than it was.
fn same_walks(book: &Book, found: &mut Vec<Complaint>) {
    let mut of: BTreeMap<(&str, String), usize> = BTreeMap::new();
    for foray in book.forays() {
        let place = foray.locality.trim().to_lowercase();
        *of.entry((&foray.event_date, place)).or_default() += 1;
    }
    for foray in book.forays() {
        let key = (
            foray.event_date.as_str(),
            foray.locality.trim().to_lowercase(),
        );
        if let Some(times) = of.remove(&key).filter(|times| *times > 1) {
            found.push(Complaint {
                record: foray.title(),
                gravity: Gravity::Look,
                code: "walk-twice",
                text: format!(
                    "{times} walks bear this day and place, and each counts in frequencies; if it was \
                     one walk, put its checklists together and take the file of the other away"
                ),
            });
        }
    }
}

/// The same photo of two specimens is a slip more often than a photo of both.
fn shared_photos(book: &Book, found: &mut Vec<Complaint>) {
    let mut of: BTreeMap<&str, Vec<&Voucher>> = BTreeMap::new();
    for voucher in book.vouchers() {
        for photo in &voucher.photos {
            of.entry(&photo.sha256).or_default().push(voucher);
        }
    }
    for (sha256, vouchers) in of {
        let ids: BTreeSet<&str> = vouchers.iter().map(|v| v.occurrence_id.as_str()).collect();
        if ids.len() > 1 {
            let numbers: Vec<&str> = vouchers.iter().map(|v| v.catalog_number.as_str()).collect();
            found.push(Complaint {
                record: numbers.join(", "),
                gravity: Gravity::Look,
                code: "photo-shared",
                text: format!(
                    "these vouchers share the photo with SHA-256 {sha256}; look which of them is on it"
                ),
            });
        }
    }
}

/// What the schema of vouchers asks of what was measured.
fn measurements(voucher: &Voucher, say: Say<'_>) {
    for attached in &voucher.measurements {
        let schema = attached.findings.get("schema").and_then(Value::as_str);
        if schema != Some(FINDINGS) {
            say(
                Gravity::Wrong,
                "findings-unknown",
                format!(
                    "what was measured on {} is of the schema “{}” and not “{FINDINGS}”; measure the photo anew",
                    attached.measurement_determined_date,
                    schema.unwrap_or_default()
                ),
            );
        }
        let is_linked = |sha256| voucher.photos.iter().any(|photo| photo.sha256 == sha256);
        if !attached.photo().is_some_and(is_linked) {
            say(
                Gravity::Wrong,
                "findings-without-photo",
                format!(
                    "the photo that was measured on {} is none of its photos; attach it again",
                    attached.measurement_determined_date
                ),
            );
        }
    }
}

fn date(text: &str, what: &str, today: &str, say: Say<'_>) {
    match day(text) {
        None => say(
            Gravity::Wrong,
            "date-unreadable",
            format!("{what} is “{text}”; write it as ISO 8601, such as 2026-10-04"),
        ),
        Some(day) if today.parse().is_ok_and(|today: Date| day > today) => say(
            Gravity::Wrong,
            "date-in-future",
            format!("{what} is {text}, which has not come yet"),
        ),
        Some(_) => {}
    }
}

fn dates(voucher: &Voucher, today: &str, say: Say<'_>) {
    match &voucher.event_date {
        None => say(
            Gravity::Look,
            "date-missing",
            "nobody wrote down when it was collected".to_owned(),
        ),
        Some(text) => date(text, "the date of collecting", today, say),
    }
    if let Some(text) = &voucher.date_identified {
        date(text, "the date of the determination", today, say);
        let found = voucher.event_date.as_deref().and_then(day);
        // A year or a month alone may lie on either side.
        let names_a_day = text.len() >= "2026-10-04".len();
        if let (Some(found), Some(named)) = (found, day(text))
            && names_a_day
            && named < found
        {
            say(
                Gravity::Wrong,
                "named-before-found",
                format!("it was named on {text}, before it was collected; look at both dates"),
            );
        }
    }
}

fn coordinates(voucher: &Voucher, say: Say<'_>) {
    match (voucher.decimal_latitude, voucher.decimal_longitude) {
        (Some(latitude), Some(longitude)) => {
            if latitude.abs() > 90.0 || longitude.abs() > 180.0 {
                say(
                    Gravity::Wrong,
                    "place-off-earth",
                    format!(
                        "{latitude}, {longitude} is no place on Earth; perhaps latitude and longitude are swapped"
                    ),
                );
            } else if latitude == 0.0 && longitude == 0.0 {
                say(
                    Gravity::Look,
                    "place-at-zero",
                    "the place is 0, 0, in the Gulf of Guinea; a receiver without a fix writes that".to_owned(),
                );
            }
        }
        (None, None) => {}
        _ => say(
            Gravity::Wrong,
            "place-half",
            "only one of latitude and longitude is there".to_owned(),
        ),
    }
    if voucher
        .coordinate_uncertainty_in_meters
        .is_some_and(|metres| metres <= 0.0)
    {
        say(
            Gravity::Wrong,
            "place-too-sure",
            "an uncertainty of the place must be more than 0 m; leave it empty where it is not known".to_owned(),
        );
    }
}

/// A genus is written with a capital and an epithet without (International Code of Nomenclature for algae,
/// fungi, and plants, Recommendation 60F).
fn name(voucher: &Voucher, say: Say<'_>) {
    let Some(name) = &voucher.scientific_name else {
        return;
    };
    let mut words = name.split_whitespace();
    let begins = |word: &str, is: fn(char) -> bool| word.chars().next().is_some_and(is);
    let genus = words
        .next()
        .is_some_and(|word| begins(word, char::is_uppercase));
    let epithet = words
        .next()
        .is_none_or(|word| !begins(word, char::is_uppercase));
    if !(genus && epithet) {
        say(
            Gravity::Look,
            "name-odd",
            format!(
                "the name is “{name}”; a genus begins with a capital and an epithet without one"
            ),
        );
    }
}

fn country(voucher: &Voucher, say: Say<'_>) {
    if let Some(code) = &voucher.country_code
        && (code == "UK" || code.len() != 2 || !code.chars().all(|c| c.is_ascii_uppercase()))
    {
        say(
            Gravity::Wrong,
            "country-unknown",
            format!(
                "the country is “{code}”; portals take the two capitals of ISO 3166-1, which are GB for \
                 the United Kingdom"
            ),
        );
    }
}

fn words(voucher: &Voucher, say: Say<'_>) {
    for (what, word, known) in [
        ("host wood", &voucher.host_wood, &HOST_WOODS[..]),
        ("substrate", &voucher.substrate, &SUBSTRATES[..]),
        ("decay stage", &voucher.decay_stage, &DECAY_STAGES[..]),
    ] {
        if let Some(word) = word
            && !known.contains(&word.as_str())
        {
            say(
                Gravity::Look,
                "word-unknown",
                format!(
                    "the {what} is “{word}”; the words that others can sort by are {}",
                    known.join(", ")
                ),
            );
        }
    }
}

fn photos(book: &Book, voucher: &Voucher, say: Say<'_>) {
    if voucher.photos.is_empty() {
        say(
            Gravity::Look,
            "no-photo",
            "no photo belongs to it, so nobody can check its figures".to_owned(),
        );
    }
    for photo in &voucher.photos {
        let path = book.photo_path(&photo.path);
        match sha256(&path) {
            Err(error) => say(
                Gravity::Wrong,
                "photo-missing",
                format!("the photo {} cannot be read: {error}", path.display()),
            ),
            Ok(sha256) if sha256 != photo.sha256_of_file() => say(
                Gravity::Wrong,
                "photo-changed",
                format!(
                    "the photo {} is not the one that was measured: its bytes have changed",
                    path.display()
                ),
            ),
            Ok(_) => {}
        }
    }
}

fn sha256(path: &Path) -> io::Result<String> {
    /// Takes bytes in.
    struct Into(Sha256);
    impl Write for Into {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            self.0.update(bytes);
            Ok(bytes.len())
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }
    let mut into = Into(Sha256::new());
    io::copy(&mut reading::open(path)?, &mut into)?;
    let mut hex = String::new();
    for byte in into.0.finalize() {
        use std::fmt::Write as _;
        // Writing to a string cannot fail.
        let _ = write!(hex, "{byte:02x}");
    }
    Ok(hex)
}

/// Only the host is held against the table: figures that differ are what a record is for.
fn host(voucher: &Voucher, ranges: &Ranges, say: Say<'_>) {
    let Some(name) = &voucher.scientific_name else {
        return;
    };
    let seen = observation(voucher);
    let against = compare(&seen, ranges)
        .into_iter()
        .find(|c| c.taxon == name)
        .and_then(|compared| {
            compared.characters.into_iter().find(|judged| {
                judged.character == Character::Host && judged.agreement == Agreement::SpeaksAgainst
            })
        });
    if let Some(judged) = against {
        say(
            Gravity::Look,
            "host-odd",
            format!(
                "{name} on {} speaks against the published hosts ({}); look at both again",
                judged.seen, judged.statements[0].printed
            ),
        );
    }
}

fn walk(book: &Book, voucher: &Voucher, say: Say<'_>) {
    if let Some(id) = &voucher.event_id
        && !book.forays().any(|foray| foray.event_id == *id)
    {
        say(
            Gravity::Wrong,
            "foray-missing",
            format!("it names a foray {id}, which is not in the book"),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::{Attached, BookCard, Foray, PhotoLink, Sighting};
    use serde_json::json;
    use std::fs;

    fn codes(change: impl FnOnce(&mut Voucher)) -> Vec<&'static str> {
        let folder = tempfile::tempdir().expect("a folder");
        let card = BookCard::new("Alder Fen Foray Group", "{number}");
        let mut book = Book::init(folder.path(), card).expect("a book");
        fs::write(folder.path().join("photos/a.jpg"), b"abc").expect("a photo");
        let mut voucher = Voucher::new("1");
        voucher.event_date = Some("2026-10-04".to_owned());
        voucher.photos = vec![PhotoLink {
            path: "photos/a.jpg".to_owned(),
            // SHA-256 of "abc", FIPS 180-4 example.
            sha256: "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad".to_owned(),
            ..PhotoLink::default()
        }];
        change(&mut voucher);
        book.add_voucher(voucher).expect("added");
        check(&book, "2026-11-25")
            .into_iter()
            .map(|c| c.code)
            .collect()
    }

    #[test]
    fn a_good_voucher_has_nothing_against_it() {
        assert!(codes(|_| {}).is_empty());
    }

    #[test]
    fn each_fault_is_found() {
        assert_eq!(
            codes(|v| v.date_identified = Some("2026-10-03".to_owned())),
            ["named-before-found"]
        );
        for name in ["fomes fomentarius", "Fomes Fomentarius"] {
            assert_eq!(
                codes(|v| v.scientific_name = Some(name.to_owned())),
                ["name-odd"],
                "{name}"
            );
        }
        for (code, found) in [("GB", 0), ("UK", 1), ("gb", 1), ("England", 1)] {
            let complaints = codes(|v| v.country_code = Some(code.to_owned()));
            assert_eq!(complaints.len(), found, "{code}");
        }
        assert_eq!(codes(|v| v.event_date = None), ["date-missing"]);
        for text in ["4 Oct 2026", "2026-13-01", "2026-02-30", ""] {
            assert_eq!(
                codes(|v| v.event_date = Some(text.to_owned())),
                ["date-unreadable"],
                "{text}"
            );
        }
        // ISO 8601 allows all of these.
        for text in [
            "2026",
            "2026-10",
            "2026-10-04T14:30:00",
            "2026-10-03/2026-10-04",
            "2026-10-04T14:30",
        ] {
            assert!(
                codes(|v| v.event_date = Some(text.to_owned())).is_empty(),
                "{text}"
            );
        }
        assert_eq!(
            codes(|v| v.event_date = Some("2027-01-01".to_owned())),
            ["date-in-future"]
        );
        assert_eq!(codes(|v| v.decimal_latitude = Some(52.0)), ["place-half"]);
        let place = |latitude, longitude| {
            codes(|v| (v.decimal_latitude, v.decimal_longitude) = (Some(latitude), Some(longitude)))
        };
        assert_eq!(place(120.0, 10.0), ["place-off-earth"]);
        assert_eq!(place(0.0, 0.0), ["place-at-zero"]);
        assert_eq!(
            codes(|v| v.coordinate_uncertainty_in_meters = Some(0.0)),
            ["place-too-sure"]
        );
        assert_eq!(
            codes(|v| v.substrate = Some("sofa".to_owned())),
            ["word-unknown"]
        );
        assert_eq!(codes(|v| v.photos.clear()), ["no-photo"]);
        assert_eq!(
            codes(|v| v.photos[0].sha256 = "0".repeat(64)),
            ["photo-changed"]
        );
        assert_eq!(
            codes(|v| v.photos[0].path = "photos/gone.jpg".to_owned()),
            ["photo-missing"]
        );
        let measured = |findings| Attached {
            findings,
            ..Attached::default()
        };
        assert_eq!(
            codes(|v| v.measurements.push(measured(json!({"schema": FINDINGS})))),
            ["findings-without-photo"]
        );
        assert_eq!(
            codes(|v| {
                let photo = json!({"sha256": v.photos[0].sha256});
                v.measurements.push(measured(json!({"photo": photo})));
            }),
            ["findings-unknown"]
        );
        assert_eq!(
            codes(|v| v.event_id = Some("urn:uuid:x".to_owned())),
            ["foray-missing"]
        );
        // Trichaptum biforme is printed on hardwoods, T. abietinum on conifers.
        let on_conifer = |name: &str| {
            codes(|v| {
                v.scientific_name = Some(name.to_owned());
                v.host_wood = Some("conifer".to_owned());
            })
        };
        assert_eq!(on_conifer("Trametes gibbosa"), ["host-odd"]);
        assert!(on_conifer("Trichaptum abietinum").is_empty());
    }

    #[test]
    fn the_whole_book_is_gone_over() {
        let folder = tempfile::tempdir().expect("a folder");
        let card = BookCard::new("Alder Fen Foray Group", "{number}");
        let mut book = Book::init(folder.path(), card).expect("a book");
        let mut foray = Foray::new("2026-10-04", "Alder Fen");
        foray.checklist.push(Sighting {
            scientific_name: "Trametes versicolor".to_owned(),
            catalog_number: Some("7".to_owned()),
            ..Sighting::default()
        });
        book.add_foray(foray).expect("added");
        book.add_voucher(Voucher::new("1")).expect("added");
        let file = folder.path().join("vouchers/1.json");
        fs::copy(&file, folder.path().join("vouchers/copy.json")).expect("copied");
        fs::write(folder.path().join("vouchers/bad.json"), b"{").expect("damaged");
        fs::write(folder.path().join("ranges.csv"), b"name\n").expect("damaged");
        let mut other = Voucher::new("2");
        other.photos.push(PhotoLink {
            path: "photos/a.jpg".to_owned(),
            sha256: "0".repeat(64),
            ..PhotoLink::default()
        });
        let mut third = Voucher::new("3");
        third.photos.clone_from(&other.photos);
        for voucher in [other, third] {
            book.add_voucher(voucher).expect("added");
        }
        let book = Book::open(folder.path()).expect("the book");
        let codes: Vec<&str> = check(&book, "2026-11-25")
            .into_iter()
            .map(|c| c.code)
            .collect();
        for code in [
            "damaged",
            "number-twice",
            "id-twice",
            "voucher-missing",
            "photo-shared",
            "ranges",
        ] {
            assert!(codes.contains(&code), "{code}: {codes:?}");
        }
    }
}
