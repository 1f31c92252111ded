//! The archive as others read it: unpacked, its description followed, its tables joined.
//!
//! Structure after the Darwin Core text guide of 2023-09-13 (<https://dwc.tdwg.org/text/>). Terms after
//! GBIF's definitions as of 2026-06-09 (<https://rs.gbif.org>): occurrence core 2025-07-10, measurement
//! or fact, simple multimedia; they lie in `tests/outside/facts/darwin_core_terms.csv`.

use poreline::book::{Attached, BookCard, Determination, PhotoLink, Voucher};
use poreline::export::darwin_core::{ArchiveError, ArchiveOptions, Places, archive};
use quick_xml::Reader;
use quick_xml::XmlVersion;
use quick_xml::events::{BytesStart, Event};
use serde_json::json;
use std::collections::{BTreeMap, BTreeSet};
use std::io::{Cursor, Read as _};
use zip::ZipArchive;

const TERMS: &str = include_str!("outside/facts/darwin_core_terms.csv");

/// One table as `meta.xml` describes it.
#[derive(Debug, Default)]
struct Described {
    element: String,
    row_type: String,
    file: String,
    /// Names of the elements within, in their order, each run of the same once.
    order: Vec<String>,
    id_at: usize,
    terms: BTreeMap<usize, String>,
}

fn files(bytes: &[u8]) -> BTreeMap<String, Vec<u8>> {
    let mut zip = ZipArchive::new(Cursor::new(bytes)).expect("a zip file");
    (0..zip.len())
        .map(|at| {
            let mut file = zip.by_index(at).expect("a file");
            let mut bytes = Vec::new();
            file.read_to_end(&mut bytes).expect("its bytes");
            (file.name().expect("a name").into_owned(), bytes)
        })
        .collect()
}

fn attribute(element: &BytesStart<'_>, key: &str) -> String {
    element
        .try_get_attribute(key)
        .expect("attributes")
        .unwrap_or_else(|| panic!("no attribute {key}"))
        .normalized_value(XmlVersion::Implicit1_0)
        .expect("text")
        .into_owned()
}

fn described(meta: &[u8]) -> Vec<Described> {
    let mut reader = Reader::from_reader(meta);
    reader.config_mut().trim_text(true);
    let (mut tables, mut buffer, mut is_location) = (Vec::<Described>::new(), Vec::new(), false);
    loop {
        let event = reader.read_event_into(&mut buffer).expect("XML");
        if let Event::Start(element) | Event::Empty(element) = &event {
            let name = String::from_utf8_lossy(element.name().as_ref()).into_owned();
            match name.as_str() {
                "archive" => assert_eq!(attribute(element, "metadata"), "eml.xml"),
                "core" | "extension" => {
                    assert_eq!(attribute(element, "encoding"), "UTF-8");
                    assert_eq!(attribute(element, "fieldsTerminatedBy"), ",");
                    assert_eq!(attribute(element, "linesTerminatedBy"), "\\n");
                    assert_eq!(attribute(element, "fieldsEnclosedBy"), "\"");
                    assert_eq!(attribute(element, "ignoreHeaderLines"), "1");
                    tables.push(Described {
                        row_type: attribute(element, "rowType"),
                        element: name,
                        ..Described::default()
                    });
                }
                "location" => is_location = true,
                _ => {
                    let table = tables.last_mut().expect("a table");
                    let index = || attribute(element, "index").parse().expect("an index");
                    match name.as_str() {
                        "id" | "coreid" => table.id_at = index(),
                        "field" => {
                            table.terms.insert(index(), attribute(element, "term"));
                        }
                        _ => {}
                    }
                    if table.order.last() != Some(&name) {
                        table.order.push(name);
                    }
                }
            }
        }
        if let Event::Text(text) = &event
            && is_location
        {
            let table = tables.last_mut().expect("a table");
            table.file = text.decode().expect("text").into_owned();
            is_location = false;
        }
        if matches!(event, Event::Eof) {
            return tables;
        }
        buffer.clear();
    }
}

fn rows(bytes: &[u8]) -> Vec<Vec<String>> {
    csv::ReaderBuilder::new()
        .has_headers(false)
        .from_reader(bytes)
        .records()
        .map(|row| row.expect("a row").iter().map(str::to_owned).collect())
        .collect()
}

fn card() -> BookCard {
    BookCard {
        institution_code: Some("AFFG".to_owned()),
        rights_holder: Some("Alder Fen Foray Group <mail & post>".to_owned()),
        license: Some("http://creativecommons.org/publicdomain/zero/1.0/legalcode".to_owned()),
        ..BookCard::new("Brackets of “Alder Fen” & about", "{number}")
    }
}

fn findings(photo: &str, per_mm: f64) -> Attached {
    Attached {
        measurement_determined_date: "2026-10-05T19:00:00+01:00".to_owned(),
        measurement_determined_by: Some("Ines Dunmore".to_owned()),
        findings: json!({
            "schema": "poreline-findings/1",
            "photo": {"sha256": photo, "taken": "2026-10-04T20:10:00"},
            "surface": {"type": "poroid"},
            "pores": {
                "count": 200, "handbook": "(3–)4–5 per mm", "void_fraction": 0.5,
                "per_mm": {"value": per_mm, "low": per_mm - 0.25, "high": per_mm + 0.25},
                "diameter_mm": {"mean": 0.182, "low": 0.173, "high": 0.191},
                "elongation": {"median": 1.1}, "wall_mm": {"median": 0.05},
            },
            "software": {"name": "poreline", "version": "0.1.0"},
        }),
    }
}

fn link(sha256: &str) -> PhotoLink {
    PhotoLink {
        path: format!("photos/{sha256}.jpg"),
        sha256: sha256.to_owned(),
        ..PhotoLink::default()
    }
}

/// Three vouchers: full, awkward and empty.
fn vouchers() -> Vec<Voucher> {
    let mut full = Voucher::new("AF-2026-0001");
    for (term, value) in [
        ("recordedBy", "Ines Dunmore | Tom Ashdown"),
        ("eventDate", "2026-10-04"),
        ("locality", "Alder Fen"),
        ("countryCode", "GB"),
        ("decimalLatitude", "52.637"),
        ("decimalLongitude", "-1.139"),
        ("geodeticDatum", "EPSG:4326"),
        ("coordinateUncertaintyInMeters", "30"),
        ("hostTaxon", "Betula pendula"),
        ("hostWood", "hardwood"),
        ("capWidthCm", "4.5"),
    ] {
        full.set(term, value).expect(term);
    }
    for name in ["Trametes hirsuta", "Trametes versicolor"] {
        full.determine(Determination {
            scientific_name: name.to_owned(),
            identification_qualifier: Some("cf.".to_owned()),
            identified_by: Some("Tom Ashdown".to_owned()),
            date_identified: Some("2026-11-02".to_owned()),
            identification_remarks: None,
        });
    }
    full.attach(link("aa11"), findings("aa11", 4.0));
    full.attach(link("bb22"), findings("bb22", 4.5));
    // Measured anew: the older one is history and does not go out.
    full.attach(link("aa11"), findings("aa11", 4.25));
    let mut awkward = Voucher::new("AF-2026-0002");
    awkward.occurrence_remarks =
        Some("=1+1, \"quoted\",\r\nnext line\tand Ærø, 蕈 \u{1F344}".to_owned());
    vec![full, awkward, Voucher::new("AF-2026-0003")]
}

fn packed(options: &ArchiveOptions) -> Vec<u8> {
    let mut vouchers = vouchers();
    for (at, voucher) in vouchers.iter_mut().enumerate() {
        voucher.occurrence_id = format!("urn:uuid:11111111-1111-4111-8111-11111111111{at}");
    }
    archive(&card(), &vouchers.iter().collect::<Vec<_>>(), options).expect("an archive")
}

#[test]
fn the_description_fits_the_tables_and_every_term_is_published() {
    let files = files(&packed(&ArchiveOptions::default()));
    let names: Vec<&str> = files.keys().map(String::as_str).collect();
    assert_eq!(
        names,
        [
            "eml.xml",
            "measurement.csv",
            "meta.xml",
            "multimedia.csv",
            "occurrence.csv"
        ]
    );
    let tables = described(&files["meta.xml"]);
    let kinds: Vec<&str> = tables.iter().map(|t| t.element.as_str()).collect();
    assert_eq!(kinds, ["core", "extension", "extension"]);
    let mut core_ids = BTreeSet::new();
    for table in &tables {
        let rows = rows(&files[&table.file]);
        let is_core = table.element == "core";
        let id = if is_core { "id" } else { "coreid" };
        assert_eq!(table.order, ["files", id, "field"], "{}", table.file);
        let published: BTreeSet<&str> = TERMS
            .lines()
            .filter_map(|line| {
                let (row, term) = line.split_once(',')?;
                table.row_type.ends_with(&format!("/{row}")).then_some(term)
            })
            .collect();
        assert!(published.len() > 10, "{}", table.row_type);
        for (at, term) in &table.terms {
            assert!(published.contains(term.as_str()), "{term}");
            assert!(term.ends_with(&format!("/{}", rows[0][*at])), "{term}");
        }
        let first = usize::from(!is_core);
        let columns: Vec<usize> = (first..rows[0].len()).collect();
        assert_eq!(table.terms.keys().copied().collect::<Vec<_>>(), columns);
        let ids = rows[1..].iter().map(|row| row[table.id_at].clone());
        if is_core {
            core_ids = ids.collect();
            assert_eq!(core_ids.len(), 3);
        } else {
            for id in ids {
                assert!(core_ids.contains(&id), "an orphan in {}: {id}", table.file);
            }
        }
    }
}

#[test]
fn what_was_recorded_is_what_is_read() {
    let files = files(&packed(&ArchiveOptions {
        photos_at: Some("https://example.org/fen".to_owned()),
        ..ArchiveOptions::default()
    }));
    let table = |file: &str| -> Vec<BTreeMap<String, String>> {
        let rows = rows(&files[file]);
        (rows[1..].iter())
            .map(|row| rows[0].iter().cloned().zip(row.iter().cloned()).collect())
            .collect()
    };
    let occurrences = table("occurrence.csv");
    for (term, value) in [
        ("basisOfRecord", "PreservedSpecimen"),
        ("occurrenceStatus", "present"),
        ("institutionCode", "AFFG"),
        ("recordedBy", "Ines Dunmore | Tom Ashdown"),
        ("decimalLongitude", "-1.139"),
        ("coordinateUncertaintyInMeters", "30"),
        ("associatedTaxa", "\"host\":\"Betula pendula\""),
        ("scientificName", "Trametes versicolor"),
        ("identificationQualifier", "cf."),
        ("verbatimIdentification", "Trametes cf. versicolor"),
        ("previousIdentifications", "Trametes cf. hirsuta"),
        ("kingdom", "Fungi"),
        ("collectionCode", ""),
    ] {
        assert_eq!(occurrences[0][term], value, "{term}");
    }
    // Text stays, formulas too: archives are read by programs. A line break becomes a blank.
    assert_eq!(
        occurrences[1]["occurrenceRemarks"],
        "=1+1, \"quoted\", next line and Ærø, 蕈 \u{1F344}"
    );
    let facts = table("measurement.csv");
    let ids: BTreeSet<&String> = facts.iter().map(|fact| &fact["measurementID"]).collect();
    assert_eq!(
        ids.len(),
        facts.len(),
        "identifiers of facts are told apart"
    );
    let of = |kind: &str| -> Vec<&BTreeMap<String, String>> {
        (facts.iter().filter(|fact| fact["measurementType"] == kind)).collect()
    };
    let per_mm = of("pores per millimetre");
    let values: Vec<&str> = per_mm
        .iter()
        .map(|f| f["measurementValue"].as_str())
        .collect();
    assert_eq!(values, ["4.25", "4.5"]);
    // UCUM: "/mm". Half the width of the interval.
    assert_eq!(per_mm[0]["measurementUnit"], "/mm");
    assert_eq!(per_mm[0]["measurementAccuracy"], "0.250");
    assert_eq!(per_mm[0]["measurementDeterminedBy"], "Ines Dunmore");
    assert!(per_mm[0]["measurementMethod"].contains("poreline 0.1.0"));
    assert!(per_mm[0]["measurementRemarks"].contains("95 % interval 4 to 4.5"));
    assert_eq!(of("things per millimetre, all photos").len(), 1);
    assert_eq!(of("mean pore diameter")[0]["measurementUnit"], "mm");
    assert_eq!(of("width of the widest cap")[0]["measurementValue"], "4.5");
    let photos = table("multimedia.csv");
    assert_eq!(photos.len(), 2);
    assert_eq!(photos[0]["identifier"], "https://example.org/fen/aa11.jpg");
    assert_eq!(photos[0]["type"], "StillImage");
    assert_eq!(photos[0]["created"], "2026-10-04T20:10:00");
}

/// GBIF's profile 1.3 of EML asks for title, creator, pubDate, abstract and contact.
#[test]
fn the_data_set_says_what_it_is() {
    let files = files(&packed(&ArchiveOptions::default()));
    let eml = String::from_utf8(files["eml.xml"].clone()).expect("UTF-8");
    for words in [
        "<title>Brackets of “Alder Fen” &amp; about</title>",
        "<organizationName>Alder Fen Foray Group &lt;mail &amp; post&gt;</organizationName>",
        // The last day that a record names.
        "<pubDate>2026-11-02</pubDate>",
        "<abstract>",
        "<contact>",
        "publicdomain/zero/1.0/legalcode",
    ] {
        assert!(eml.contains(words), "{words}: {eml}");
    }
}

#[test]
fn the_same_book_gives_the_same_bytes() {
    let options = ArchiveOptions::default();
    assert_eq!(packed(&options), packed(&options));
    let blurred = ArchiveOptions {
        places: Places::Blurred,
        ..ArchiveOptions::default()
    };
    assert_ne!(packed(&options), packed(&blurred));
    let all = String::from_utf8_lossy(&packed(&blurred)).into_owned();
    assert!(all.contains("52.65") && !all.contains("52.637"));
}

#[test]
fn a_book_that_no_archive_can_hold_is_refused() {
    let options = ArchiveOptions::default();
    assert!(matches!(
        archive(&card(), &[], &options),
        Err(ArchiveError::Nothing)
    ));
    let undated = Voucher::new("1");
    assert!(matches!(
        archive(&card(), &[&undated], &options),
        Err(ArchiveError::NoDate)
    ));
    let published = ArchiveOptions {
        published: Some("2026-11-26".to_owned()),
        ..options
    };
    assert!(archive(&card(), &[&undated], &published).is_ok());
    assert!(matches!(
        archive(&card(), &[&undated, &undated], &published),
        Err(ArchiveError::IdTwice(_))
    ));
}
