//! Writes `docs/real-photographs.md`: what the program says of real photographs, beside every count
//! that is known of them. The program is run as a person runs it, and nothing is fitted to them.
//!
//! `cargo test --test real_photos_page -- --ignored`; the photographs lie where `PORELINE_PHOTOS`
//! says, or in `../shared/photos`.

use assert_cmd::Command;
use serde_json::Value;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

const HEAD: &str = "\
# Real photographs

What Poreline says of real photographs, beside every count that is known of them. There is no freely \
licensed photograph of a bracket's underside with a scale among them, so these are other real holes, \
things that are not holes at all, and unusual files; how far they speak for brackets is for the reader to \
judge. Nothing in the program was tuned to them. The page is written by the program's own tests \
([DEVELOPERS.md](../DEVELOPERS.md) says how) and shows refusals and misses as they are. The photographs \
themselves are not part of the project.

Where a photograph has no scale, `--px-per-mm 100` stands in for one, and only ratios mean anything. On \
electron micrographs 1 mm stands for 1 µm.

";

/// A photograph with something known of it.
struct Known {
    file: &'static str,
    what: &'static str,
    source: &'static str,
    options: &'static str,
    /// What is known, in words.
    truth: &'static str,
    /// What to set beside it.
    found: fn(&Value) -> String,
}

const DIATOMS: &str = "Trofimov et al. 2019, npj Comput. Mater. 5: 67, cropped; CC BY 4.0";
const TEXTURE: &str = "scikit-image test data; CC0";

const KNOWN: &[Known] = &[
    Known {
        file: "diatom-pores-a.jpg",
        what: "pores of a diatom, in a window",
        source: DIATOMS,
        options: "--px-per-mm 315 --area 0,440,160,120",
        truth: "75 by hand: 66–67 whole, 83 met, the cut ones counted half",
        found: |f| in_window(f, 315.0, 160.0 * 120.0, 75.0),
    },
    Known {
        file: "diatom-pores-a.jpg",
        what: "the same, all of it",
        source: DIATOMS,
        options: "--px-per-mm 315",
        truth: "published for the group: 200–460 pores/µm², mean pore area 275–635 nm², 7.5–19.5 % of the surface",
        found: per_square_micrometre,
    },
    Known {
        file: "diatom-pores-b.jpg",
        what: "sparser pores of a diatom, in a window",
        source: DIATOMS,
        options: "--px-per-mm 343 --area 380,480,200,160",
        truth: "42 by hand: 37 whole, 47 met, the cut ones counted half",
        found: |f| in_window(f, 343.0, 200.0 * 160.0, 42.0),
    },
    Known {
        file: "diatom-pores-b.jpg",
        what: "the same, all of it",
        source: DIATOMS,
        options: "--px-per-mm 343",
        truth: "as above for the group: 200–460 pores/µm², 275–635 nm², 7.5–19.5 %",
        found: per_square_micrometre,
    },
    Known {
        file: "glass-bubbles.jpg",
        what: "bubbles in glass of very unequal size",
        source: "SciPy Lecture Notes authors; CC BY 4.0",
        options: "--px-per-mm 315.1 --area 0,0,1024,882",
        truth: "104 bubbles, 19.55 % of the area, mean area 1700 px, median 65 px, after a median filter of 7 × 7 and one grey level (published exercise)",
        found: |f| {
            let area = 1024.0 * 882.0;
            let share = f["pores"]["void_fraction"].as_f64();
            let share = share.map_or_else(String::new, |s| format!("; hollow {:.1} %", 100.0 * s));
            format!("{}{share}", in_window(f, 315.1, area, 104.0))
        },
    },
    Known {
        file: "glass-bubbles.jpg",
        what: "the same, scale from its bar",
        source: "SciPy Lecture Notes authors; CC BY 4.0",
        options: "--bar 1mm",
        truth: "314 px from tick to tick; 315.1 px/mm by the printed width of field",
        found: |f| {
            f["scale"]["px_per_mm"]
                .as_f64()
                .map_or_else(|| "no scale".to_owned(), |s| format!("{s:.1} px/mm"))
        },
    },
    Known {
        file: "coins.png",
        what: "coins, bright on dark",
        source: "scikit-image test data; no known copyright restrictions",
        options: "--px-per-mm 100",
        truth: "24 coins; no pores",
        found: counted,
    },
    Known {
        file: "brick.png",
        what: "a brick wall",
        source: TEXTURE,
        options: "--px-per-mm 100",
        truth: "not poroid",
        found: counted,
    },
    Known {
        file: "gravel.png",
        what: "gravel",
        source: TEXTURE,
        options: "--px-per-mm 100",
        truth: "not poroid",
        found: counted,
    },
    Known {
        file: "grass.png",
        what: "grass",
        source: TEXTURE,
        options: "--px-per-mm 100",
        truth: "not poroid",
        found: counted,
    },
];

/// How many are counted on what surface, and how many that makes in the whole window.
fn in_window(f: &Value, px_per_mm: f64, window_px2: f64, known: f64) -> String {
    let Some(density) = f["pores"]["per_mm2"].as_f64() else {
        return "no figure".to_owned();
    };
    let all = density * window_px2 / (px_per_mm * px_per_mm);
    format!(
        "{all:.0} ({:+.0} %; {} counted away from cut edges)",
        100.0 * (all / known - 1.0),
        f["pores"]["count"]
    )
}

fn per_square_micrometre(f: &Value) -> String {
    let pores = &f["pores"];
    let (Some(density), Some(share)) = (pores["per_mm2"].as_f64(), pores["void_fraction"].as_f64())
    else {
        return "no figure".to_owned();
    };
    format!(
        "{density:.0} pores/µm², mean pore area {:.0} nm², {:.1} %",
        1e6 * share / density,
        100.0 * share
    )
}

fn counted(f: &Value) -> String {
    for (things, key) in [("pores", "pores"), ("teeth", "teeth")] {
        if let Some(count) = f[key]["count"].as_u64() {
            return format!("{count} {things}");
        }
    }
    for key in ["gills", "maze"] {
        if let Some(per_mm) = f[key]["per_mm"]["value"].as_f64() {
            return format!("{:.3} {key} per px", per_mm / 100.0);
        }
    }
    "no figure".to_owned()
}

fn photos() -> Option<PathBuf> {
    let folder = std::env::var_os("PORELINE_PHOTOS").map_or_else(
        || Path::new(env!("CARGO_MANIFEST_DIR")).join("../shared/photos"),
        PathBuf::from,
    );
    folder.is_dir().then_some(folder)
}

/// Findings as JSON, or what was said instead.
fn measured(folder: &Path, file: &str, options: &str) -> Result<Value, String> {
    let output = Command::cargo_bin("poreline")
        .expect("the program is built")
        .current_dir(folder)
        .args(["measure", file, "--json"])
        .args(options.split_whitespace())
        .output()
        .expect("the program runs");
    let line = String::from_utf8_lossy(&output.stdout);
    let said: Value = line
        .lines()
        .next()
        .and_then(|line| serde_json::from_str(line).ok())
        .unwrap_or_default();
    match said["error"].as_str() {
        Some(error) => Err(error.to_owned()),
        None if said.is_null() => Err(String::from_utf8_lossy(&output.stderr).trim().to_owned()),
        None => Ok(said),
    }
}

/// Verdict, confidence and notes, as cells of a table.
fn verdict(f: &Value) -> String {
    let surface = &f["surface"];
    let notes: Vec<String> = f["notes"]
        .as_array()
        .into_iter()
        .flatten()
        // Every photo has it: none was measured with a white.
        .filter(|note| note["code"] != "no-white")
        .map(|note| {
            let word = |key: &str| note[key].as_str().unwrap_or_default().to_owned();
            format!("{} `{}`", word("severity"), word("code"))
        })
        .collect();
    let notes = if notes.is_empty() {
        "none".to_owned()
    } else {
        notes.join(", ")
    };
    format!(
        "{} | {:.2} | {notes}",
        surface["type"].as_str().unwrap_or_default(),
        surface["confidence"].as_f64().unwrap_or_default()
    )
}

fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace('\n', " ")
}

fn files(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("a folder of photographs")
        .map(|entry| {
            entry
                .expect("a file")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    names.sort();
    names
}

#[test]
#[ignore = "writes docs/real-photographs.md"]
fn page() {
    let photos = photos().expect("the photographs; say with PORELINE_PHOTOS where they are");
    let mut page = HEAD.to_owned();
    page.push_str("## Counts\n\n| photograph | known | found | verdict | confidence | notes |\n|---|---|---|---|---|---|\n");
    for known in KNOWN {
        let said = match measured(&photos, known.file, known.options) {
            Ok(f) => format!("{} | {}", (known.found)(&f), verdict(&f)),
            Err(error) => format!("refused | – | – | {}", cell(&error)),
        };
        let Known {
            file, what, truth, ..
        } = known;
        writeln!(page, "| `{file}`, {what} | {truth} | {said} |").expect("a line");
    }
    page.push_str("\nThe commands, and where the photographs come from:\n\n| command | source and licence |\n|---|---|\n");
    for Known {
        file,
        options,
        source,
        ..
    } in KNOWN
    {
        writeln!(page, "| `poreline measure {file} {options}` | {source} |").expect("a line");
    }
    for (title, folder, about) in [
        (
            "Unusual files",
            "kinds",
            "Files of unusual kinds (Pillow's tests, MIT-CMU; image-rs's tests, MIT or Apache-2.0), measured with `--px-per-mm 100`. None shows pores; what is asked is that each loads or is refused with a clear message, and that none is called poroid.",
        ),
        (
            "Orientation",
            "orientation",
            "One picture in all eight orientations of EXIF (Pillow's tests, MIT-CMU), a portrait. Each has to come out the same, and none poroid.",
        ),
    ] {
        writeln!(page, "\n## {title}\n\n{about}\n\n| file | found | verdict | confidence | notes |\n|---|---|---|---|---|").expect("a line");
        for file in files(&photos.join(folder)) {
            let path = format!("{folder}/{file}");
            let said = match measured(&photos, &path, "--px-per-mm 100") {
                Ok(f) => format!("{} | {}", counted(&f), verdict(&f)),
                Err(error) => format!("refused | – | – | {}", cell(&error)),
            };
            writeln!(page, "| `{file}` | {said} |").expect("a line");
        }
    }
    page.push_str(include_str!("real_photos_words.md"));
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/real-photographs.md");
    fs::write(path, page).expect("the page is written");
}
