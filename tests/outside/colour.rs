//! CIELAB, CIEDE2000 and the words for colours against published figures and scikit-image.

use super::support::{near, rows};
use poreline::colour::{Colour, Lab, Patch, Tissue};
use poreline::ranges::{Hue, hues};
use serde_json::Value;

/// Made by `fixtures/make_colour.py`; versions inside.
const MADE: &str = include_str!("fixtures/colour.json");

/// Linear light of an 8-bit sRGB sample (IEC 61966-2-1).
fn linear(sample: f64) -> f64 {
    let encoded = sample / 255.0;
    if encoded <= 0.04045 {
        encoded / 12.92
    } else {
        ((encoded + 0.055) / 1.055).powf(2.4)
    }
}

fn table(key: &str) -> Vec<Vec<f64>> {
    let made: Value = serde_json::from_str(MADE).expect("the fixture is JSON");
    let rows = made[key].as_array().expect("rows").iter();
    rows.map(|row| {
        let numbers = row.as_array().expect("numbers").iter();
        numbers.map(|n| n.as_f64().expect("a number")).collect()
    })
    .collect()
}

fn lab(numbers: &[f64]) -> Lab {
    let [l, a, b] = numbers else {
        panic!("{numbers:?} are not three")
    };
    Lab {
        l: *l,
        a: *a,
        b: *b,
    }
}

/// To all four decimals that are printed, both ways round.
#[test]
fn ciede2000_gives_the_pairs_of_sharma_wu_and_dalal() {
    let pairs = rows(include_str!("facts/sharma_ciede2000.csv"));
    assert_eq!(pairs.len(), 34);
    for pair in pairs {
        let at = |columns: [&str; 3]| lab(&columns.map(|column| pair.number(column)));
        let (one, other) = (at(["L1", "a1", "b1"]), at(["L2", "a2", "b2"]));
        let name = format!("pair {}", pair.text("pair"));
        near(&name, one.difference(other), pair.number("dE00"), 1e-4);
        near(&name, other.difference(one), pair.number("dE00"), 1e-4);
    }
}

#[test]
fn ciede2000_is_that_of_scikit_image() {
    let pairs = table("pairs");
    assert_eq!(pairs.len(), 400);
    for pair in pairs {
        let found = lab(&pair[..3]).difference(lab(&pair[3..6]));
        near("CIEDE2000", found, pair[6], 1e-4);
    }
}

/// Matrices of the primaries rounded to four digits or to seven differ by up to 0.02 (the published
/// figures differ among themselves by as much).
#[test]
fn cielab_of_srgb_is_that_of_scikit_image() {
    let colours = table("srgb_lab");
    assert_eq!(colours.len(), 343);
    for colour in colours {
        let found = Lab::of_light([0, 1, 2].map(|c| linear(colour[c])));
        for (what, found, wanted) in [
            ("L*", found.l, colour[3]),
            ("a*", found.a, colour[4]),
            ("b*", found.b, colour[5]),
        ] {
            near(
                &format!("{what} of {:?}", &colour[..3]),
                found,
                wanted,
                0.02,
            );
        }
    }
}

/// The eight bars as calculated by B. Lindbloom, printed in scikit-image's tests.
#[test]
fn cielab_of_colour_bars_is_as_published() {
    for bar in rows(include_str!("facts/srgb_lab_bars.csv")) {
        let light = ["red", "green", "blue"].map(|column| linear(bar.number(column)));
        let found = Lab::of_light(light);
        for (column, found) in [("l", found.l), ("a", found.a), ("b", found.b)] {
            near(bar.text("name"), found, bar.number(column), 0.01);
        }
    }
}

/// Patches of a chart whose own names say what they are called.
#[test]
fn patches_of_a_colour_chart_are_called_by_their_names() {
    for (patch, hue) in [
        ("dark skin", Hue::Brown),
        ("foliage", Hue::Green),
        ("orange", Hue::Orange),
        ("moderate red", Hue::Red),
        ("purple", Hue::Violet),
        ("yellow", Hue::Yellow),
        ("red", Hue::Red),
        ("white 9.5", Hue::White),
        ("neutral 8", Hue::Grey),
        ("neutral 6.5", Hue::Grey),
        ("neutral 5", Hue::Grey),
        ("neutral 3.5", Hue::Grey),
        ("black 2", Hue::Black),
    ] {
        let chart = rows(include_str!("facts/colorchecker24.csv"));
        let row = chart
            .iter()
            .find(|row| row.text("patch") == patch)
            .expect("the patch is on the chart");
        let light = ["red", "green", "blue"].map(|column| linear(row.number(column)));
        let tissue = Tissue {
            light,
            patches: vec![Patch {
                halves: [light; 2],
                pixels: 1.0,
            }],
        };
        let colour = Colour::of(&tissue, None);
        assert!(hues(colour.name).contains(&hue), "{patch}: {colour:?}");
        // Of these, purple alone is violet.
        let is_violet = colour.violet_share > 0.5;
        assert_eq!(is_violet, hue == Hue::Violet, "{patch}: {colour:?}");
    }
}
