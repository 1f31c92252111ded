//! What the book writes is what its schemas describe (JSON Schema 2020-12,
//! <https://json-schema.org/draft/2020-12>), checked by an independent validator.

use jsonschema::{Validator, validator_for};
use poreline::book::{
    Attached, Book, BookCard, Determination, Foray, PhotoLink, Sighting, TERMS, Voucher,
};
use serde_json::{Map, Value, json};
use std::fs;
use std::path::Path;

fn schema(name: &str) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("assets/schema/{name}"));
    serde_json::from_slice(&fs::read(path).expect("the schema")).expect("JSON")
}

fn validator(name: &str) -> Validator {
    validator_for(&schema(name)).expect("a schema")
}

fn only_file(folder: &Path) -> Value {
    let mut entries = fs::read_dir(folder).expect("a folder");
    let path = entries.next().expect("a file").expect("an entry").path();
    serde_json::from_slice(&fs::read(path).expect("the file")).expect("JSON")
}

/// A voucher with every field, a foray with every field, as the book writes them.
fn written() -> (Value, Value) {
    let folder = tempfile::tempdir().expect("a folder");
    let card = BookCard::new("Alder Fen Foray Group", "{number}");
    let mut book = Book::init(folder.path(), card).expect("a book");
    let mut voucher = Voucher::new("1");
    for term in TERMS {
        let value = match term {
            "decimalLatitude"
            | "decimalLongitude"
            | "coordinateUncertaintyInMeters"
            | "capWidthCm" => "12.5",
            "eventDate" | "dateIdentified" => "2026-10-04",
            "scientificName" => "Trametes cf. versicolor",
            _ => "1",
        };
        voucher.set(term, value).expect(term);
    }
    voucher.identification_remarks = Some("short hairs".to_owned());
    voucher.determine(Determination {
        scientific_name: "Trametes hirsuta".to_owned(),
        identification_qualifier: Some("aff.".to_owned()),
        identified_by: Some("Ines Dunmore".to_owned()),
        date_identified: Some("2026-11-01".to_owned()),
        identification_remarks: Some("long hairs".to_owned()),
    });
    let sha256 = "ab".repeat(32);
    let findings = Attached {
        measurement_determined_date: "2026-10-04T19:00:00+01:00".to_owned(),
        measurement_determined_by: Some("Ines Dunmore".to_owned()),
        findings: json!({"schema": "poreline-findings/1", "photo": {"sha256": sha256}}),
    };
    let link = PhotoLink {
        path: "photos/a.jpg".to_owned(),
        copy_sha256: Some("cd".repeat(32)),
        sha256,
    };
    voucher.attach(link, findings);
    book.add_voucher(voucher).expect("added");
    book.add_foray(Foray {
        people_count: Some(7),
        event_remarks: Some("rain".to_owned()),
        checklist: vec![Sighting {
            scientific_name: "Trametes versicolor".to_owned(),
            identification_qualifier: Some("cf.".to_owned()),
            catalog_number: Some("1".to_owned()),
            occurrence_remarks: Some("on a log".to_owned()),
            other: Map::new(),
        }],
        ..Foray::new("2026-10-04", "Alder Fen")
    })
    .expect("added");
    (
        only_file(&folder.path().join("vouchers")),
        only_file(&folder.path().join("forays")),
    )
}

/// Keys that are written and that the schema does not describe, and the other way about.
fn differences(written: &Value, described: &Value) -> Vec<String> {
    let (keys, properties) = (
        written.as_object().expect("an object"),
        described["properties"].as_object().expect("properties"),
    );
    let mut differences: Vec<String> = keys
        .keys()
        .filter(|key| !properties.contains_key(*key))
        .chain(properties.keys().filter(|key| !keys.contains_key(*key)))
        .cloned()
        .collect();
    for (key, value) in keys {
        // Findings have a schema of their own.
        if let (Some(first), false) = (value.pointer("/0"), key == "findings") {
            differences.extend(self::differences(first, &properties[key]["items"]));
        }
    }
    differences
}

#[test]
fn what_is_written_is_what_is_described() {
    let (voucher, foray) = written();
    for (record, name) in [
        (voucher, "voucher-1.schema.json"),
        (foray, "foray-1.schema.json"),
    ] {
        let faults: Vec<String> = validator(name)
            .iter_errors(&record)
            .map(|fault| format!("{}: {fault}", fault.instance_path()))
            .collect();
        assert_eq!(faults, [] as [String; 0], "{name}");
        assert_eq!(
            differences(&record, &schema(name)),
            [] as [String; 0],
            "{name}"
        );
    }
}

#[test]
fn the_smallest_records_are_described_too() {
    let folder = tempfile::tempdir().expect("a folder");
    let card = BookCard::new("Alder Fen Foray Group", "{number}");
    let mut book = Book::init(folder.path(), card).expect("a book");
    book.add_voucher(Voucher::new("1")).expect("added");
    book.add_foray(Foray::new("2026-10-04", "Alder Fen"))
        .expect("added");
    for (name, kind) in [
        ("voucher-1.schema.json", "vouchers"),
        ("foray-1.schema.json", "forays"),
    ] {
        assert!(
            validator(name).is_valid(&only_file(&folder.path().join(kind))),
            "{name}"
        );
    }
}

#[test]
fn a_spoiled_record_is_refused() {
    let (voucher, foray) = written();
    let spoiled = |record: &Value, at: &str, with: Value| {
        let mut record = record.clone();
        *record.pointer_mut(at).expect(at) = with;
        record
    };
    let vouchers = validator("voucher-1.schema.json");
    for (at, with) in [
        ("/schema", json!("poreline-voucher/2")),
        ("/catalogNumber", json!("")),
        ("/decimalLatitude", json!("12.5")),
        ("/revision", json!(0)),
        ("/photos/0/sha256", json!("ab")),
        ("/measurements/0/findings/schema", json!("other")),
        ("/formerDeterminations/0", json!({})),
    ] {
        assert!(!vouchers.is_valid(&spoiled(&voucher, at, with)), "{at}");
    }
    let forays = validator("foray-1.schema.json");
    for (at, with) in [
        ("/schema", json!("poreline-voucher/1")),
        ("/peopleCount", json!(-1)),
        ("/checklist/0/scientificName", json!(null)),
        ("/eventDate", json!("")),
    ] {
        assert!(!forays.is_valid(&spoiled(&foray, at, with)), "{at}");
    }
}
