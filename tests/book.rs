//! The book from the command line, from an empty folder to what goes out of it.

use assert_cmd::Command;
use assert_cmd::assert::Assert;
use image::{Rgb, RgbImage};
use serde_json::Value;
use std::fs;
use std::path::Path;
use tempfile::TempDir;

/// What is said wherever a species name is printed.
const CAUTION: &str = "Never eat a fungus";
const PX_PER_MM: &str = "80";

fn poreline(folder: &TempDir, typed: &[&str]) -> Assert {
    let mut command = Command::cargo_bin("poreline").expect("the program is built");
    command
        .current_dir(folder.path())
        .env("HOME", folder.path())
        .env("XDG_CONFIG_HOME", folder.path().join("settings"))
        .args(typed)
        .assert()
}

fn book(folder: &TempDir, typed: &[&str]) -> Assert {
    poreline(folder, &[&["book"], typed].concat())
}

fn printed(done: &Assert) -> String {
    String::from_utf8_lossy(&done.get_output().stdout).into_owned()
}

fn said(done: &Assert) -> String {
    String::from_utf8_lossy(&done.get_output().stderr).into_owned()
}

fn lines(done: &Assert) -> Vec<Value> {
    printed(done)
        .lines()
        .map(|line| serde_json::from_str(line).expect("a line of JSON"))
        .collect()
}

/// A folder with an empty book.
fn with_book() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let new = [
        "init",
        "fen",
        "--name",
        "Alder Fen Foray Group",
        "--numbers",
        "AF-{year}-{number:4}",
    ];
    book(&folder, &new).success();
    folder
}

/// Pores of the given spacing in rows, by construction.
fn pores(spacing_px: f64) -> RgbImage {
    let row_height = spacing_px * 0.75_f64.sqrt();
    RgbImage::from_fn(640, 480, |x, y| {
        let (x, y) = (f64::from(x) + 0.5, f64::from(y) + 0.5);
        let nearest = [-1.0, 0.0, 1.0]
            .into_iter()
            .map(|step| {
                let row = (y / row_height).round() + step;
                let shift = spacing_px / 2.0 * row.rem_euclid(2.0);
                let column = ((x - shift) / spacing_px).round();
                (x - column * spacing_px - shift).hypot(y - row * row_height)
            })
            .fold(f64::INFINITY, f64::min);
        if nearest < 0.3 * spacing_px {
            Rgb([70, 66, 60])
        } else {
            Rgb([200, 195, 180])
        }
    })
}

#[test]
fn a_voucher_from_photo_to_list() {
    let folder = with_book();
    // 4 pores per mm at 80 px per mm, whole photo.
    pores(20.0)
        .save(folder.path().join("a.png"))
        .expect("a photo");
    let measured = poreline(
        &folder,
        &["measure", "a.png", "--px-per-mm", PX_PER_MM, "--json"],
    )
    .success();
    fs::write(folder.path().join("a.jsonl"), printed(&measured)).expect("findings");
    let added = book(
        &folder,
        &[
            "add",
            "fen",
            "--from",
            "a.jsonl",
            "--set",
            "eventDate=2026-10-04",
            "--set",
            "locality=Alder Fen",
            "--set",
            "recordedBy=Ines Dunmore",
            "--measured-by",
            "Ines Dunmore",
        ],
    )
    .success();
    assert_eq!(printed(&added), "AF-2026-0001\n");
    let second = book(&folder, &["add", "fen", "--set", "eventDate=2026-10-05"]).success();
    assert_eq!(printed(&second), "AF-2026-0002\n");

    let records = lines(&book(&folder, &["list", "fen", "--json"]).success());
    assert_eq!(records.len(), 2);
    assert_eq!(records[0]["locality"], "Alder Fen");
    assert_eq!(
        records[0]["measurements"][0]["measurementDeterminedBy"],
        "Ines Dunmore"
    );
    let path = records[0]["photos"][0]["path"].as_str().expect("a path");
    assert_eq!(
        fs::read(folder.path().join("fen").join(path)).expect("the copy"),
        fs::read(folder.path().join("a.png")).expect("the photo")
    );

    let found = book(&folder, &["list", "fen", "--search", "ALDER ines"]).success();
    let found = printed(&found);
    assert!(found.starts_with("AF-2026-0001  2026-10-04"), "{found}");
    assert!(
        found.contains("poroid") && found.contains("per mm"),
        "{found}"
    );
    assert_eq!(found.lines().count(), 1, "{found}");
    let nothing = book(&folder, &["list", "fen", "--search", "otters"]).success();
    assert_eq!(printed(&nothing), "");

    // Compared with what is published, by what was measured and what was written down.
    book(
        &folder,
        &[
            "set",
            "fen",
            "AF-2026-0001",
            "hostWood=hardwood",
            "capWidthCm=4",
        ],
    )
    .success();
    let shown = printed(&book(&folder, &["show", "fen", "AF-2026-0001", "--compare"]).success());
    assert!(shown.contains("Compared with published ranges"), "{shown}");
    assert!(
        shown.contains("pores per mm") && shown.contains("host wood"),
        "{shown}"
    );
    assert!(shown.contains(CAUTION), "{shown}");
}

#[test]
fn names_keep_their_history_and_never_stand_without_the_cautions() {
    let folder = with_book();
    book(
        &folder,
        &["add", "fen", "--set", "scientificName=Trametes cf. hirsuta"],
    )
    .success();
    let number = lines(&book(&folder, &["list", "fen", "--json"]).success())[0]["catalogNumber"]
        .as_str()
        .expect("a number")
        .to_owned();
    let determine = [
        "determine",
        "fen",
        &number,
        "Trametes versicolor",
        "--by",
        "Tom Ashdown",
        "--because",
        "hairs short",
        "--date",
        "2026-11-02",
    ];
    book(&folder, &determine).success();
    let shown = printed(&book(&folder, &["show", "fen", &number]).success());
    assert!(shown.contains("Tom Ashdown, 2026-11-02"), "{shown}");
    assert!(shown.contains("formerly  "), "{shown}");
    assert!(shown.contains("Trametes cf. hirsuta"), "{shown}");
    assert!(shown.contains(CAUTION), "{shown}");
    let list = printed(&book(&folder, &["list", "fen"]).success());
    assert!(
        list.contains("Trametes versicolor") && list.contains(CAUTION),
        "{list}"
    );
    // `set` would lose the name.
    let refused = book(
        &folder,
        &["set", "fen", &number, "scientificName=Stereum hirsutum"],
    )
    .code(2);
    assert!(said(&refused).contains("determine"));
    for typed in [
        &["ranges"][..],
        &["ranges", "--taxon", "trametes hirs"],
        &["book", "--help"],
    ] {
        let done = poreline(&folder, typed).success();
        assert!(printed(&done).contains(CAUTION), "{typed:?}");
        for word in ["edible", "medicinal", "identified as"] {
            assert!(
                !printed(&done).to_lowercase().contains(word),
                "{typed:?}: {word}"
            );
        }
    }
    poreline(&folder, &["ranges", "--taxon", "Nomen nullum"]).code(1);
}

#[test]
fn what_is_typed_wrong_is_told_and_nothing_is_written() {
    let folder = with_book();
    fs::write(folder.path().join("text.jpg"), "no photo").expect("a file");
    for (typed, code, words) in [
        (&["list", "nowhere"][..], 2, "poreline book init"),
        (&["init", "fen"], 2, "a book already"),
        (&["init", "other", "--numbers", "AF"], 2, "{number}"),
        (
            &["add", "fen", "--set", "habitatt=carr"],
            2,
            "perhaps habitat",
        ),
        (&["add", "fen", "--set", "habitat"], 2, "no value"),
        (&["add", "fen", "--photo", "text.jpg"], 1, "text.jpg"),
        (&["add", "fen", "--photo", "gone.jpg"], 1, "no such file"),
        (&["add", "fen", "--from", "gone.jsonl"], 1, "gone.jsonl"),
        (&["add", "fen", "--from", "text.jpg"], 1, "measure --json"),
        (&["add", "fen", "--foray", "2026-10-04"], 2, "no foray"),
        (&["show", "fen", "AF-9"], 2, "no voucher AF-9"),
        (&["set", "fen", "AF-9", "smell=none"], 2, "no voucher AF-9"),
        (
            &["forays", "add", "fen", "--date", "", "--place", "Fen"],
            2,
            "is not a day",
        ),
        (
            &[
                "forays",
                "add",
                "fen",
                "--date",
                "2026-10-04",
                "--place",
                "",
            ],
            2,
            "must not be empty",
        ),
    ] {
        let done = book(&folder, typed).code(code);
        assert!(said(&done).contains(words), "{typed:?}: {}", said(&done));
    }
    assert_eq!(printed(&book(&folder, &["list", "fen"]).success()), "");
    assert!(!folder.path().join("other").join("book.json").exists());
}

#[test]
fn photos_are_attached_and_checked() {
    let folder = with_book();
    pores(20.0)
        .save(folder.path().join("a.png"))
        .expect("a photo");
    book(&folder, &["add", "fen", "--set", "eventDate=2026-10-04"]).success();
    let checked = book(&folder, &["check", "fen"]).success();
    assert!(printed(&checked).contains("[no-photo]"));
    book(&folder, &["attach", "fen", "AF-2026-0001", "a.png"]).success();
    assert_eq!(
        printed(&book(&folder, &["check", "fen"]).success()),
        "nothing is wrong\n"
    );
    // In place: the record names it where it is, and sees that it changed.
    pores(24.0)
        .save(folder.path().join("b.png"))
        .expect("a photo");
    book(
        &folder,
        &["attach", "fen", "AF-2026-0001", "b.png", "--in-place"],
    )
    .success();
    fs::write(folder.path().join("b.png"), "gone bad").expect("changed");
    let checked = book(&folder, &["check", "fen"]).code(1);
    assert!(
        printed(&checked).contains("[photo-changed]"),
        "{}",
        printed(&checked)
    );
}

#[test]
fn forays_come_in_go_out_and_are_counted() {
    let folder = with_book();
    let table = "eventDate,locality,scientificName\n\
        2026-09-12,Alder Fen,Trametes versicolor\n\
        2026-09-12,Alder Fen,Stereum hirsutum\n\
        2026-10-03,Ottermouth,Trametes versicolor\n\
        2026-10-17,Alder Fen,\n";
    fs::write(folder.path().join("club.csv"), table).expect("a table");
    let taken = book(&folder, &["forays", "import", "fen", "club.csv"]).success();
    assert!(
        said(&taken).contains("3 walks and 3 sightings are new"),
        "{}",
        said(&taken)
    );
    let again = book(&folder, &["forays", "import", "fen", "club.csv"]).success();
    assert!(said(&again).contains("0 walks and 0 sightings are new"));
    let add = [
        "forays",
        "add",
        "fen",
        "--date",
        "2026-10-24",
        "--place",
        "Coldwell",
        "--people",
        "7",
        "--seen",
        "Trametes cf. hirsuta=AF-2026-0001",
    ];
    book(&folder, &add).success();
    // A voucher of that walk has its day and place.
    book(&folder, &["add", "fen", "--foray", "Coldwell"]).success();
    let record = &lines(&book(&folder, &["list", "fen", "--json"]).success())[0];
    assert_eq!(
        (&record["eventDate"], &record["locality"]),
        (&"2026-10-24".into(), &"Coldwell".into())
    );
    // Alder Fen had two walks.
    let several = book(&folder, &["add", "fen", "--foray", "Alder Fen"]).code(2);
    assert!(said(&several).contains("several forays"));

    let frequency = printed(&book(&folder, &["frequency", "fen"]).success());
    assert!(
        frequency.starts_with("Trametes versicolor   on 2 of 4 walks  50 %"),
        "{frequency}"
    );
    assert!(frequency.contains(CAUTION));
    book(&folder, &["frequency", "fen", "--csv", "f.csv"]).success();
    book(&folder, &["frequency", "fen", "--csv", "f.csv"]).code(2);
    let rows = fs::read_to_string(folder.path().join("f.csv")).expect("the table");
    assert_eq!(rows.lines().count(), 4);

    book(&folder, &["forays", "export", "fen", "out.csv"]).success();
    book(&folder, &["init", "copy"]).success();
    book(&folder, &["forays", "import", "copy", "out.csv"]).success();
    let walks = |name: &str| {
        let mut walks = lines(&book(&folder, &["forays", "list", name, "--json"]).success());
        for walk in &mut walks {
            walk["revision"] = 0.into();
        }
        walks
    };
    assert_eq!(walks("fen"), walks("copy"));
    assert_eq!(walks("fen").len(), 4);
}

#[test]
fn findings_are_compared_with_published_ranges() {
    let folder = with_book();
    pores(20.0)
        .save(folder.path().join("a.png"))
        .expect("a photo");
    let done = poreline(
        &folder,
        &[
            "measure",
            "a.png",
            "--px-per-mm",
            PX_PER_MM,
            "--compare",
            "--host-taxon",
            "Fagus sylvatica",
            "--host-wood",
            "hardwood",
            "--underside-colour",
            "cream",
            "--cap-width-cm",
            "5",
        ],
    )
    .success();
    let text = printed(&done);
    for words in [
        "speaks against in 0",
        "hardwood (Fagus)",
        "cream; printed",
        "5 cm; printed",
        CAUTION,
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
    // A table of one's own counts too.
    let own = "taxon,source,surface,per_mm_low,per_mm_high\nNova species,mine,poroid,4,4\n";
    fs::write(folder.path().join("own.csv"), own).expect("a table");
    let listed = poreline(
        &folder,
        &["ranges", "--ranges", "own.csv", "--taxon", "nova"],
    )
    .success();
    assert!(printed(&listed).contains("4 per mm"));
    let refused = poreline(
        &folder,
        &[
            "measure",
            "a.png",
            "--px-per-mm",
            PX_PER_MM,
            "--host-wood",
            "conifer",
        ],
    )
    .code(2);
    assert!(said(&refused).contains("--compare"));
    fs::write(folder.path().join("bad.csv"), "taxon\nx\n").expect("a table");
    let refused = poreline(
        &folder,
        &[
            "measure",
            "a.png",
            "--px-per-mm",
            PX_PER_MM,
            "--compare",
            "--ranges",
            "bad.csv",
        ],
    )
    .code(2);
    assert!(said(&refused).contains("no column"), "{}", said(&refused));
}

/// A book with a voucher on which enough was seen to compare it.
fn with_bracket() -> TempDir {
    let folder = with_book();
    pores(20.0)
        .save(folder.path().join("a.png"))
        .expect("a photo");
    let measured = poreline(
        &folder,
        &["measure", "a.png", "--px-per-mm", PX_PER_MM, "--json"],
    )
    .success();
    fs::write(folder.path().join("a.jsonl"), printed(&measured)).expect("findings");
    let add = [
        "add",
        "fen",
        "--from",
        "a.jsonl",
        "--set",
        "catalogNumber=AF-1",
        "--set",
        "hostWood=hardwood",
        "--set",
        "undersideColour=cream",
    ];
    book(&folder, &add).success();
    folder
}

#[test]
fn a_voucher_is_compared_with_published_ranges_and_with_ones_own() {
    let folder = with_bracket();
    let text = printed(&book(&folder, &["compare", "fen", "AF-1"]).success());
    for words in [
        "speaks against in 0",
        "look next at",
        "; printed: ",
        CAUTION,
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
    // The book's own table counts without being named, and says whose it is.
    let own = "taxon,source,surface,per_mm_low,per_mm_high\nAaa species,Fen Group,poroid,3,5\n";
    fs::write(folder.path().join("fen/ranges.csv"), own).expect("a table");
    for shown in [
        &["compare", "fen", "AF-1"][..],
        &["show", "fen", "AF-1", "--compare"],
    ] {
        let text = printed(&book(&folder, shown).success());
        assert!(text.contains("Fen Group, in your own table"), "{text}");
    }
    let done = book(&folder, &["compare", "fen", "AF-1", "--json"]).success();
    let compared: Value = serde_json::from_slice(&done.get_output().stdout).expect("JSON");
    let schema = include_str!("../assets/schema/comparison-1.schema.json");
    let schema: Value = serde_json::from_str(schema).expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a schema");
    let wrong: Vec<String> = validator
        .iter_errors(&compared)
        .map(|error| error.to_string())
        .collect();
    assert!(wrong.is_empty(), "{wrong:?}");
    let taxa = compared["taxa"].as_array().expect("taxa");
    let of = |name: &str| taxa.iter().find(|taxon| taxon["taxon"] == name);
    // Four to the mm by construction; the own table says 3 to 5.
    let per_mm = &of("Aaa species").expect("it is compared")["characters"][1];
    assert_eq!(per_mm["agreement"], "agrees");
    assert_eq!(per_mm["printed"][0]["own"], true);
    // Chang, BCRC Fungi of Taiwan: Trametes hirsuta (2–)3–4 per mm.
    let hirsuta = &of("Trametes hirsuta").expect("it is compared")["characters"][1];
    assert_eq!(hirsuta["printed"][0]["own"], false);
    // One more table for this time only, and one that cannot be read.
    fs::write(folder.path().join("more.csv"), own.replace("Aaa", "Bbb")).expect("a table");
    let more = ["compare", "fen", "AF-1", "--ranges", "more.csv"];
    assert!(printed(&book(&folder, &more).success()).contains("Bbb species"));
    fs::write(folder.path().join("fen/ranges.csv"), "name\n").expect("a table");
    let refused = book(&folder, &["compare", "fen", "AF-1"]).failure();
    assert!(said(&refused).contains("ranges.csv"), "{}", said(&refused));
}

#[test]
fn two_versions_of_a_voucher_are_put_together_or_kept_apart() {
    let folder = with_bracket();
    let file = folder.path().join("fen/vouchers/AF-1.json");
    // As a shared folder leaves it: the same voucher twice, each with changes of its own.
    let copy = folder.path().join("fen/vouchers/AF-1 (Tom's copy).json");
    fs::copy(&file, &copy).expect("copied");
    let alone = book(&folder, &["merge", "fen", "AF-2"]).code(2);
    assert!(said(&alone).contains("no voucher AF-2"));
    let write = |path: &Path, changes: &[(&str, &str)]| {
        let mut record: Value =
            serde_json::from_slice(&fs::read(path).expect("a file")).expect("JSON");
        for (key, text) in changes {
            record[*key] = (*text).into();
        }
        fs::write(path, record.to_string()).expect("written");
    };
    write(&copy, &[("smell", "anise"), ("habitat", "carr")]);
    write(&file, &[("habitat", "fen"), ("weather", "rain")]);
    let checked = book(&folder, &["check", "fen", "--json"]).failure();
    assert!(lines(&checked).iter().any(|one| one["code"] == "id-twice"));

    let asked = book(&folder, &["merge", "fen", "AF-1"]).failure();
    assert!(said(&asked).contains("other: carr"), "{}", said(&asked));
    assert!(copy.exists() && file.exists());

    book(&folder, &["merge", "fen", "AF-1", "--prefer", "other"]).success();
    let both: Value = serde_json::from_slice(&fs::read(&file).expect("a file")).expect("JSON");
    assert_eq!(both["smell"], "anise");
    assert_eq!(both["habitat"], "carr");
    assert_eq!(both["weather"], "rain");
    assert_eq!(both["measurements"].as_array().map(Vec::len), Some(1));
    assert!(!copy.exists(), "it is set aside");
    let aside: Vec<String> = fs::read_dir(folder.path().join("fen/vouchers"))
        .expect("a folder")
        .map(|entry| {
            entry
                .expect("an entry")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    assert_eq!(aside.len(), 2, "{aside:?}");
    book(&folder, &["merge", "fen", "AF-1"]).code(2);

    // Another's file from elsewhere, kept as a voucher of its own.
    let elsewhere = folder.path().join("theirs.json");
    fs::copy(&file, &elsewhere).expect("copied");
    write(&elsewhere, &[("smell", "flour")]);
    book(
        &folder,
        &[
            "merge",
            "fen",
            "AF-1",
            "--with",
            "theirs.json",
            "--keep-both",
        ],
    )
    .success();
    let listed = lines(&book(&folder, &["list", "fen", "--json"]).success());
    assert_eq!(listed.len(), 2);
    assert_ne!(listed[0]["occurrenceID"], listed[1]["occurrenceID"]);
    assert_eq!(
        listed.iter().filter(|one| one["smell"] == "flour").count(),
        1
    );
    assert!(elsewhere.exists(), "it is not the book's");
}

#[test]
fn a_change_can_insist_on_the_revision_that_was_seen() {
    let folder = with_bracket();
    let set = |text: &str, revision: &str| {
        book(
            &folder,
            &["set", "fen", "AF-1", text, "--revision", revision],
        )
    };
    set("smell=anise", "1").success();
    let refused = set("smell=flour", "1").failure();
    assert!(said(&refused).contains("nothing was overwritten"));
    set("smell=flour", "2").success();
}

#[test]
fn sightings_are_added_to_a_walk_and_vouchers_count() {
    let folder = with_bracket();
    let walk = [
        "forays",
        "add",
        "fen",
        "--date",
        "2026-10-04",
        "--place",
        "North Ride",
    ];
    book(&folder, &walk).success();
    let seen = [
        "forays",
        "seen",
        "fen",
        "North Ride",
        "Stereum hirsutum",
        "Trametes cf. hirsuta",
    ];
    book(&folder, &seen).success();
    let again = book(&folder, &seen).success();
    assert!(said(&again).contains("already"));
    book(
        &folder,
        &["forays", "seen", "fen", "South Ride", "Stereum hirsutum"],
    )
    .code(2);
    let shown = printed(&book(&folder, &["forays", "show", "fen", "2026-10-04"]).success());
    assert!(
        shown.contains("Trametes cf. hirsuta") && shown.contains(CAUTION),
        "{shown}"
    );
    // A voucher of the walk counts under the name that it has now.
    let add = [
        "add",
        "fen",
        "--foray",
        "North Ride",
        "--set",
        "scientificName=Fomes fomentarius",
    ];
    let number = printed(&book(&folder, &add).success());
    let table = printed(&book(&folder, &["frequency", "fen"]).success());
    assert!(
        table.contains("Fomes fomentarius     on 1 of 1 walks"),
        "{table}"
    );
    let determine = [
        "determine",
        "fen",
        number.trim(),
        "Fomes inzengae",
        "--by",
        "Ines Dunmore",
    ];
    book(&folder, &determine).success();
    let table = printed(&book(&folder, &["frequency", "fen"]).success());
    assert!(
        !table.contains("Fomes fomentarius") && table.contains("Fomes inzengae"),
        "{table}"
    );
}

#[test]
fn the_demo_book_is_made_by_one_command_and_never_over_another() {
    let folder = tempfile::tempdir().expect("a folder");
    book(&folder, &["demo", "demo"]).success();
    assert_eq!(
        lines(&book(&folder, &["list", "demo", "--json"]).success()).len(),
        12
    );
    assert_eq!(
        lines(&book(&folder, &["forays", "list", "demo", "--json"]).success()).len(),
        8
    );
    book(&folder, &["demo", "demo"]).code(2);
}

#[test]
fn a_book_goes_out_as_archive_and_as_table() {
    let folder = with_book();
    let add = [
        "add",
        "fen",
        "--set",
        "eventDate=2026-10-04",
        "--set",
        "decimalLatitude=52.637",
        "--set",
        "decimalLongitude=-1.139",
        "--set",
        "occurrenceRemarks=@cmd",
    ];
    book(&folder, &add).success();
    book(&folder, &["export", "fen"]).code(2);
    book(
        &folder,
        &[
            "export",
            "fen",
            "--csv",
            "f.csv",
            "--blur-places",
            "--no-places",
        ],
    )
    .code(2);
    book(
        &folder,
        &[
            "export",
            "fen",
            "--darwin-core",
            "f.zip",
            "--published",
            "soon",
        ],
    )
    .code(2);
    let done = book(
        &folder,
        &[
            "export",
            "fen",
            "--darwin-core",
            "f.zip",
            "--csv",
            "f.csv",
            "--blur-places",
        ],
    )
    .success();
    assert!(said(&done).contains("licence"), "{}", said(&done));
    let table = fs::read_to_string(folder.path().join("f.csv")).expect("the table");
    assert!(
        table.contains("52.65") && !table.contains("52.637"),
        "{table}"
    );
    assert!(table.contains("'@cmd"), "{table}");
    let zip = fs::read(folder.path().join("f.zip")).expect("the archive");
    // Signature of a zip file's first header (APPNOTE 6.3.10, 4.3.7).
    assert!(zip.starts_with(b"PK\x03\x04"));
    book(&folder, &["export", "fen", "--csv", "f.csv"]).code(2);
    book(
        &folder,
        &[
            "export",
            "fen",
            "--csv",
            "f.csv",
            "--no-places",
            "--replace",
        ],
    )
    .success();
    let table = fs::read_to_string(folder.path().join("f.csv")).expect("the table");
    assert!(
        !table.contains("52.6") && table.contains("coordinates withheld"),
        "{table}"
    );
}

#[test]
fn labels_are_made_of_some_or_all() {
    let folder = with_book();
    book(&folder, &["labels", "fen", "--out", "l.pdf"]).code(1);
    for day in ["2026-10-04", "2026-10-05"] {
        book(
            &folder,
            &["add", "fen", "--set", &format!("eventDate={day}")],
        )
        .success();
    }
    book(&folder, &["labels", "fen", "--out", "l.pdf"]).success();
    book(&folder, &["labels", "fen", "--out", "l.pdf"]).code(2);
    let one = [
        "labels",
        "fen",
        "AF-2026-0002",
        "--out",
        "one.pdf",
        "--paper",
        "letter",
    ];
    book(&folder, &one).success();
    let pdf = fs::read(folder.path().join("one.pdf")).expect("the sheet");
    assert!(String::from_utf8_lossy(&pdf).contains("/MediaBox [0 0 612 792]"));
    book(&folder, &["labels", "fen", "AF-9", "--out", "x.pdf"]).code(2);
    book(
        &folder,
        &["labels", "fen", "--search", "otters", "--out", "x.pdf"],
    )
    .code(1);
}
