//! The sample photos measured as a user would, against the truth they were rendered from.
//!
//! Bounds, set before the first run: pores, teeth per mm within 2 %, mean diameter within 8 %, gills
//! and maze voids per mm within 5 %, every surface type as rendered, no pores on the smooth crust.

use poreline::area::{Area, Outline};
use poreline::findings::Findings;
use poreline::geometry::{Point, Rect};
use poreline::progress::Progress;
use poreline::scale::Scale;
use poreline::units::Millimetres;
use serde_json::Value;
use std::path::{Path, PathBuf};

fn samples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-images")
}

fn truth() -> Value {
    let text = std::fs::read_to_string(samples().join("truth.json")).expect("truth.json");
    serde_json::from_str(&text).expect("truth.json is JSON")
}

fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("{value} is no number"))
}

/// Measures a sample with the scale taken from its bar, as by two clicks.
fn measured(name: &str, truth: &Value) -> Findings {
    let photo = poreline::photo::open(&samples().join(name)).expect("a sample opens");
    let bar = &truth["bar"];
    let end = |key: &str| Point::new(number(&bar[key][0]), number(&bar[key][1]));
    let scale = Scale::from_points(
        end("left_px"),
        end("right_px"),
        Millimetres(number(&bar["length_mm"])),
    )
    .expect("a bar has length");
    let area: Vec<f64> = (0..4).map(|i| number(&truth["area_px"][i])).collect();
    let area = Area {
        outline: Outline::Rectangle(Rect {
            x: area[0],
            y: area[1],
            width: area[2],
            height: area[3],
        }),
        left_out: Vec::new(),
    };
    poreline::measure(&photo, scale, &area, &Progress::default())
        .expect("a sample is measured")
        .findings
}

fn assert_near(what: &str, value: f64, truth: f64, within: f64) {
    let error = value / truth - 1.0;
    assert!(
        error.abs() <= within,
        "{what}: {value} for {truth}, off by {:.2} %",
        100.0 * error
    );
}

#[test]
fn every_sample_is_measured_right() {
    let truth = truth();
    for (name, truth) in truth.as_object().expect("an object") {
        let findings = measured(name, truth);
        let within = &truth["within_area"];
        assert_eq!(
            findings.surface.kind.word(),
            truth["kind"].as_str().expect("a kind"),
            "{name}: {:?}",
            findings.surface
        );
        assert_eq!(
            findings.pores.is_some(),
            truth["kind"] == "poroid",
            "{name}: pores are given on poroid surfaces only"
        );
        if let Some(pores) = &findings.pores {
            assert_near(
                name,
                pores.per_mm.value,
                number(&within["pores_per_mm"]),
                0.02,
            );
            assert_near(
                &format!("{name}, diameter"),
                pores.diameter_mm.mean.value,
                number(&within["mean_diameter_mm"]),
                0.08,
            );
        }
        if let Some(teeth) = &findings.teeth {
            assert_near(
                name,
                teeth.per_mm.value,
                number(&within["teeth_per_mm"]),
                0.02,
            );
        }
        if let Some(gills) = &findings.gills {
            assert_near(
                name,
                gills.per_mm.value,
                number(&within["gills_per_mm"]),
                0.05,
            );
        }
        if let Some(maze) = &findings.maze {
            assert_near(
                name,
                maze.per_mm.value,
                number(&within["voids_per_mm"]),
                0.05,
            );
        }
    }
}

#[test]
fn a_photo_measured_twice_gives_the_same_findings() {
    let truth = truth();
    let name = "blurred-tilted-light.jpg";
    assert_eq!(
        measured(name, &truth[name]),
        measured(name, &truth[name]),
        "findings are reproducible"
    );
}
