//! Findings as a JSON object that scripts rely on: the keys and their order are stable.
//!
//! `assets/schema/findings-1.schema.json` describes it (JSON Schema, draft 2020-12). What is not
//! known is `null`; no figure stands in for it.

use super::digits;
use crate::area::Outline;
use crate::colour::{Colour, WhiteSource};
use crate::corrections::Kind;
use crate::findings::{
    AreaFacts, CorrectionFacts, DiameterFacts, Estimate, Findings, GillFindings, MazeFindings,
    Note, PhotoFacts, PoreFindings, ToothFindings,
    budget::{Budget, Figure},
};
use crate::geometry::Polygon;
use crate::photo::Place;
use crate::scale::Scale;
use crate::statistics::Spread;
use crate::surface::{Surface, SurfaceType};
use serde_json::{Value, json};
use std::path::Path;

/// Name and version of the form; the version rises when a key changes its meaning or goes away.
pub const SCHEMA: &str = "poreline-findings/1";

/// Digits of every measured figure: more than any measurement is worth, so rounding adds no error.
const SIGNIFICANT_DIGITS: usize = 6;

/// The findings of one photo.
#[must_use]
pub fn findings(findings: &Findings) -> Value {
    let mut object = json!({
        "schema": SCHEMA,
        "photo": photo(&findings.photo),
        "scale": scale(&findings.scale, findings.tilt_deg),
        "area": area(&findings.area),
        "surface": surface(&findings.surface),
        "pores": findings.pores.as_ref().map(pores),
        "teeth": findings.teeth.as_ref().map(teeth),
        "gills": findings.gills.as_ref().map(gills),
        "maze": findings.maze.as_ref().map(maze),
        "colour": findings.colour.as_ref().map(colour),
        "uncertainty": uncertainty(findings),
        "notes": findings.notes.iter().map(note).collect::<Vec<_>>(),
        "software": { "name": env!("CARGO_PKG_NAME"), "version": env!("CARGO_PKG_VERSION") },
    });
    if let Some(made) = &findings.corrections {
        object["corrections"] = corrections(made);
    }
    object
}

/// What stands in place of findings when a photo could not be measured.
#[must_use]
pub fn failure(photo: &Path, error: &str) -> Value {
    json!({ "photo": photo.to_string_lossy(), "error": error })
}

fn photo(photo: &PhotoFacts) -> Value {
    json!({
        "path": photo.path.to_string_lossy(),
        "sha256": photo.sha256,
        "width_px": photo.width_px,
        "height_px": photo.height_px,
        "taken": photo.taken,
        "place": photo.place.map(|Place { latitude, longitude }| json!({
            "latitude": latitude,
            "longitude": longitude,
        })),
    })
}

fn scale(scale: &Scale, tilt_deg: Option<f64>) -> Value {
    json!({
        "px_per_mm": number(scale.px_per_mm),
        "standard_uncertainty": number(scale.standard_uncertainty),
        "how": scale.how.word(),
        "tilt_deg": optional(tilt_deg),
        "mark_px": optional(scale.mark_px),
    })
}

fn area(area: &AreaFacts) -> Value {
    let outline = match &area.drawn.outline {
        Outline::WholePhoto => Value::Null,
        Outline::Rectangle(rect) => corners(&rect.to_polygon()),
        Outline::Polygon(polygon) => corners(polygon),
    };
    json!({
        "mm2": number(area.mm2),
        "left_out_mm2": number(area.left_out_mm2),
        "guard_mm2": number(area.guard_mm2),
        "outline_px": outline,
        "left_out": area.left_out.iter().map(|part| json!({
            "reason": part.reason.word(),
            "share": number(part.share),
        })).collect::<Vec<_>>(),
        "left_out_px": area.drawn.left_out.iter().map(|part| corners(&part.outline)).collect::<Vec<_>>(),
        "left_out_px_reasons": area.drawn.left_out.iter().map(|part| part.reason.word()).collect::<Vec<_>>(),
    })
}

/// Unrounded, so that the same area can be measured again.
fn corners(polygon: &Polygon) -> Value {
    polygon
        .vertices()
        .iter()
        .map(|p| json!([p.x, p.y]))
        .collect()
}

/// Places unrounded, so that the same corrections can be made again.
fn corrections(facts: &CorrectionFacts) -> Value {
    let mut object = json!({ "least_wall": facts.made.least_wall });
    for kind in Kind::ALL {
        object[kind.done()] = json!(facts.effective(kind));
    }
    object["without_effect"] = json!(facts.without_effect());
    object["counted_by_hand"] = json!(facts.counted_by_hand);
    object["share_by_hand"] = number(facts.share_by_hand);
    let each = facts.made.by_hand.iter().zip(&facts.had_effect);
    object["by_hand"] = each
        .map(|(correction, had_effect)| {
            let mut object = json!(correction);
            object["had_effect"] = json!(had_effect);
            object
        })
        .collect();
    object
}

fn surface(surface: &Surface) -> Value {
    let evidence = &surface.evidence;
    json!({
        "type": surface.kind.word(),
        "confidence": hundredths(surface.confidence),
        "evidence": {
            "modulation": evidence.modulation.map(number),
            "contrast": number(evidence.contrast),
            "void_isolation": number(evidence.void_isolation),
            "wall_isolation": number(evidence.wall_isolation),
            "void_enclosure": number(evidence.void_enclosure),
            "wall_enclosure": number(evidence.wall_enclosure),
            "void_euler": number(evidence.void_euler),
            "alignment": number(evidence.alignment),
            "cells": number(evidence.cells),
        },
        "reasons": surface.reasons,
    })
}

fn pores(pores: &PoreFindings) -> Value {
    let mut object = json!({
        "count": pores.count,
        "per_mm2": number(pores.per_mm2),
        "per_mm": estimate(&pores.per_mm),
    });
    if let Some((across, along)) = pores.across_and_along_per_mm {
        object["per_mm_across"] = number(across);
        object["per_mm_along"] = number(along);
    }
    object["handbook"] = json!(pores.handbook.to_string());
    object["line_crossings_per_mm"] = number(pores.line_crossings_per_mm);
    object["spacing_second_opinion_mm"] = optional(pores.spacing_second_opinion_mm);
    object["diameter_mm"] = diameter(&pores.diameter_mm);
    object["elongation"] = spread(&pores.elongation);
    object["wall_mm"] = json!({ "median": optional(pores.wall_mm_median) });
    object["void_fraction"] = number(pores.void_fraction);
    object
}

fn teeth(teeth: &ToothFindings) -> Value {
    json!({
        "count": teeth.count,
        "per_mm2": number(teeth.per_mm2),
        "per_mm": estimate(&teeth.per_mm),
        "diameter_mm": diameter(&teeth.diameter_mm),
        "elongation": spread(&teeth.elongation),
    })
}

fn diameter(diameter: &DiameterFacts) -> Value {
    let DiameterFacts { mean, spread } = diameter;
    let known = digits::has_interval(mean);
    json!({
        "mean": number(mean.value),
        "low": optional(known.then_some(mean.low)),
        "high": optional(known.then_some(mean.high)),
        "p5": number(spread.p5),
        "median": number(spread.median),
        "p95": number(spread.p95),
    })
}

fn gills(gills: &GillFindings) -> Value {
    json!({ "per_mm": estimate(&gills.per_mm) })
}

fn maze(maze: &MazeFindings) -> Value {
    json!({ "per_mm": estimate(&maze.per_mm) })
}

fn colour(colour: &Colour) -> Value {
    let lab = colour.lab;
    json!({
        "lab": { "l": number(lab.l), "a": number(lab.a), "b": number(lab.b) },
        "words": colour.words(),
        "violet_share": number(colour.violet_share),
        "white": colour.white.map(WhiteSource::word),
    })
}

/// One entry for each figure that has an interval, named by where it stands in this object.
fn uncertainty(findings: &Findings) -> Value {
    let part = match findings.surface.kind {
        SurfaceType::Toothed => "teeth",
        SurfaceType::Gilled => "gills",
        SurfaceType::MazeLike => "maze",
        _ => "pores",
    };
    let entry = |budget: &Budget| {
        let figure = match budget.figure {
            Figure::PerMm => "per_mm",
            Figure::Diameter => "diameter_mm",
        };
        json!({
            "figure": format!("{part}.{figure}"),
            "sampling": number(budget.sampling),
            "scale": number(budget.scale),
            "outline": number(budget.outline),
            "combined": number(budget.combined()),
        })
    };
    findings.uncertainty.iter().map(entry).collect()
}

fn note(note: &Note) -> Value {
    json!({ "severity": note.severity.word(), "code": note.code, "text": note.text })
}

fn estimate(estimate: &Estimate) -> Value {
    json!({
        "value": number(estimate.value),
        "low": number(estimate.low),
        "high": number(estimate.high),
    })
}

fn spread(spread: &Spread) -> Value {
    json!({
        "median": number(spread.median),
        "p5": number(spread.p5),
        "p95": number(spread.p95),
    })
}

fn number(value: f64) -> Value {
    json!(digits::rounded(value, SIGNIFICANT_DIGITS))
}

/// More would make a verdict look surer than it is.
fn hundredths(share: f64) -> Value {
    json!((100.0 * share).round() / 100.0)
}

fn optional(value: Option<f64>) -> Value {
    value.map_or(Value::Null, number)
}

#[cfg(test)]
mod tests {
    use super::super::sample;
    use super::*;
    use crate::area::Area;

    const FORM: &str = include_str!("../../assets/schema/findings-1.schema.json");

    /// What about a value does not agree with the schema; knows the keywords our schema uses.
    fn disagreements(
        value: &Value,
        schema: &Value,
        root: &Value,
        at: &str,
        found: &mut Vec<String>,
    ) {
        for (keyword, rule) in schema.as_object().expect("a schema") {
            let agrees = match keyword.as_str() {
                "$ref" => {
                    let name = rule.as_str().expect("a reference").trim_start_matches('#');
                    disagreements(value, root.pointer(name).expect("defined"), root, at, found);
                    true
                }
                "anyOf" => rule.as_array().expect("choices").iter().any(|choice| {
                    let mut with_choice = Vec::new();
                    disagreements(value, choice, root, at, &mut with_choice);
                    with_choice.is_empty()
                }),
                "const" => value == rule,
                "enum" => rule.as_array().expect("values").contains(value),
                "type" => match rule {
                    Value::Array(names) => names.iter().any(|name| is_of_type(value, name)),
                    name => is_of_type(value, name),
                },
                "minimum" => value.as_f64() >= rule.as_f64(),
                "maximum" => value.as_f64() <= rule.as_f64(),
                "exclusiveMinimum" => value.as_f64() > rule.as_f64(),
                "minItems" => length(value) >= rule.as_u64(),
                "maxItems" => length(value) <= rule.as_u64(),
                "pattern" => value.as_str().is_some_and(|hash| hash.len() == 64),
                "required" => rule
                    .as_array()
                    .expect("names")
                    .iter()
                    .all(|name| value.get(name.as_str().expect("a name")).is_some()),
                "properties" => {
                    for (name, value) in value.as_object().into_iter().flatten() {
                        match rule.get(name) {
                            Some(rule) => {
                                disagreements(value, rule, root, &format!("{at}/{name}"), found);
                            }
                            None => found.push(format!("{at}/{name}: not in the schema")),
                        }
                    }
                    true
                }
                "items" => {
                    for item in value.as_array().into_iter().flatten() {
                        disagreements(item, rule, root, at, found);
                    }
                    true
                }
                "$schema" | "$defs" | "title" | "description" => true,
                other => panic!("this test does not know the keyword {other}"),
            };
            if !agrees {
                found.push(format!("{at}: {keyword} {rule}, but {value}"));
            }
        }
    }

    fn length(value: &Value) -> Option<u64> {
        u64::try_from(value.as_array()?.len()).ok()
    }

    fn is_of_type(value: &Value, name: &Value) -> bool {
        match name.as_str() {
            Some("object") => value.is_object(),
            Some("array") => value.is_array(),
            Some("string") => value.is_string(),
            Some("integer") => value.is_u64(),
            Some("number") => value.is_number(),
            Some("boolean") => value.is_boolean(),
            Some("null") => value.is_null(),
            _ => false,
        }
    }

    fn check(value: &Value) -> Vec<String> {
        let schema: Value = serde_json::from_str(FORM).expect("JSON");
        let mut found = Vec::new();
        disagreements(value, &schema, &schema, "", &mut found);
        found
    }

    #[test]
    fn every_kind_of_findings_agrees_with_the_schema() {
        for kind in sample::KINDS {
            let value = findings(&sample::of_kind(kind));
            assert_eq!(check(&value), Vec::<String>::new(), "{kind:?}");
        }
        let mut bare = sample::poroid();
        bare.photo.taken = None;
        bare.photo.place = None;
        bare.notes.clear();
        bare.area.drawn = Area::default();
        bare.surface.evidence.modulation = None;
        if let Some(colour) = &mut bare.colour {
            colour.white = None;
        }
        if let Some(pores) = &mut bare.pores {
            pores.across_and_along_per_mm = Some((5.1, 3.2));
            pores.spacing_second_opinion_mm = None;
            pores.wall_mm_median = None;
            pores.diameter_mm.mean.low = f64::NEG_INFINITY;
            pores.diameter_mm.mean.high = f64::INFINITY;
        }
        bare.uncertainty[1].sampling = f64::INFINITY;
        assert_eq!(check(&findings(&bare)), Vec::<String>::new());
    }

    #[test]
    fn corrections_are_told_with_their_places_and_what_came_of_them() {
        let mut corrected = sample::poroid();
        assert_eq!(findings(&corrected).get("corrections"), None);
        corrected.corrections = Some(sample::corrections());
        let value = findings(&corrected);
        assert_eq!(check(&value), Vec::<String>::new());
        let told = &value["corrections"];
        assert_eq!(
            keys_of(told).join(" "),
            "least_wall joined split deleted added drawn without_effect counted_by_hand share_by_hand \
             by_hand"
        );
        assert_eq!(told["least_wall"], json!(0.8));
        assert_eq!((&told["joined"], &told["deleted"]), (&json!(1), &json!(0)));
        assert_eq!(told["without_effect"], json!(1));
        assert_eq!(
            told["by_hand"][0],
            json!({
                "kind": "join",
                "places_px": [[120.5, 200.0], [141.25, 203.0]],
                "had_effect": true,
            })
        );
    }

    #[test]
    fn the_schema_is_not_met_by_just_anything() {
        let mut value = findings(&sample::poroid());
        value["pores"]["per_mm"]["low"] = json!("4.1");
        value["surface"]["type"] = json!("spongy");
        value["scale"]["px_per_mm"] = json!(0.0);
        value["area"]["outline_px"] = json!([[0, 0], [1, 0], [1, 1, 1]]);
        value.as_object_mut().expect("an object").remove("maze");
        assert_eq!(check(&value).len(), 5, "{:?}", check(&value));
    }

    fn keys_of(value: &Value) -> Vec<String> {
        let object = value.as_object().expect("an object");
        object.keys().cloned().collect()
    }

    #[test]
    fn keys_come_in_the_published_order() {
        let value = findings(&sample::poroid());
        assert_eq!(
            keys_of(&value).join(" "),
            "schema photo scale area surface pores teeth gills maze colour uncertainty notes software"
        );
        assert_eq!(
            keys_of(&value["photo"]).join(" "),
            "path sha256 width_px height_px taken place"
        );
        assert_eq!(
            keys_of(&value["area"]).join(" "),
            "mm2 left_out_mm2 guard_mm2 outline_px left_out left_out_px left_out_px_reasons"
        );
        let toothed = findings(&sample::of_kind(SurfaceType::Toothed));
        assert_eq!(
            keys_of(&toothed["teeth"]).join(" "),
            "count per_mm2 per_mm diameter_mm elongation"
        );
        assert_eq!(
            keys_of(&toothed["teeth"]["diameter_mm"]),
            keys_of(&value["pores"]["diameter_mm"])
        );
        assert_eq!(
            keys_of(&value["pores"]).join(" "),
            "count per_mm2 per_mm handbook line_crossings_per_mm spacing_second_opinion_mm \
             diameter_mm elongation wall_mm void_fraction"
        );
    }

    #[test]
    fn a_colour_is_null_where_no_wall_was_seen() {
        let mut findings_of = sample::poroid();
        let colour = findings(&findings_of)["colour"].clone();
        assert_eq!(keys_of(&colour), ["lab", "words", "violet_share", "white"]);
        assert_eq!(
            colour["lab"],
            json!({ "l": 80.645, "a": 0.543, "b": 14.433 })
        );
        assert_eq!(colour["words"], "cream, in part with a violet tint");
        assert_eq!(colour["white"], "card");
        findings_of.colour = None;
        assert_eq!(check(&findings(&findings_of)), Vec::<String>::new());
        assert_eq!(findings(&findings_of)["colour"], Value::Null);
    }

    #[test]
    fn every_interval_has_its_budget() {
        let entries = |kind| findings(&sample::of_kind(kind))["uncertainty"].clone();
        let names = |kind| -> Vec<Value> {
            let entries = entries(kind);
            entries
                .as_array()
                .expect("a list")
                .iter()
                .map(|e| e["figure"].clone())
                .collect()
        };
        assert_eq!(
            names(SurfaceType::Poroid),
            ["pores.per_mm", "pores.diameter_mm"]
        );
        assert_eq!(
            names(SurfaceType::Toothed),
            ["teeth.per_mm", "teeth.diameter_mm"]
        );
        assert_eq!(names(SurfaceType::Gilled), ["gills.per_mm"]);
        assert_eq!(names(SurfaceType::MazeLike), ["maze.per_mm"]);
        assert!(names(SurfaceType::Smooth).is_empty());
        let diameter = &entries(SurfaceType::Poroid)[1];
        // 3, 4 and 12 are the sides of a box with the diagonal 13.
        assert_eq!(diameter["sampling"], json!(0.003));
        assert_eq!(diameter["scale"], json!(0.004));
        assert_eq!(diameter["outline"], json!(0.012));
        assert_eq!(diameter["combined"], json!(0.013));
    }

    #[test]
    fn figures_are_rounded_and_places_are_not() {
        let value = findings(&sample::poroid());
        assert_eq!(value["pores"]["per_mm"]["value"], json!(4.312_35));
        assert_eq!(value["pores"]["handbook"], json!("(3–)4–5(–6) per mm"));
        assert_eq!(value["photo"]["place"]["latitude"], json!(52.123_456_7));
    }

    #[test]
    fn the_area_can_be_drawn_again() {
        let mut drawn = sample::poroid();
        let area = findings(&drawn)["area"].clone();
        assert_eq!(
            area["outline_px"],
            json!([[0.0, 100.5], [400.0, 100.5], [400.0, 400.5], [0.0, 400.5]])
        );
        assert_eq!(
            area["left_out_px"],
            json!([[[10.0, 110.0], [80.0, 110.0], [10.0, 250.0]]])
        );
        assert_eq!(area["left_out_px_reasons"], json!(["by-hand"]));
        drawn.area.drawn = Area::default();
        let area = findings(&drawn)["area"].clone();
        assert_eq!(area["outline_px"], Value::Null);
        assert_eq!(area["left_out_px"], json!([]));
    }

    #[test]
    fn confidence_is_no_surer_than_hundredths() {
        let mut sure = sample::poroid();
        sure.surface.confidence = 0.876_543;
        assert_eq!(findings(&sure)["surface"]["confidence"], json!(0.88));
    }

    #[test]
    fn an_interval_that_is_none_is_null() {
        let mut single = sample::of_kind(SurfaceType::Toothed);
        let teeth = single.teeth.as_mut().expect("teeth");
        teeth.diameter_mm.mean.low = teeth.diameter_mm.mean.value;
        teeth.diameter_mm.mean.high = teeth.diameter_mm.mean.value;
        let diameter = findings(&single)["teeth"]["diameter_mm"].clone();
        assert_eq!(diameter["mean"], json!(0.1832));
        assert_eq!(diameter["low"], Value::Null);
        assert_eq!(diameter["high"], Value::Null);
    }

    #[test]
    fn no_figure_is_null_and_never_nan() {
        let mut odd = sample::poroid();
        odd.photo.taken = None;
        odd.surface.evidence.alignment = f64::NAN;
        if let Some(pores) = &mut odd.pores {
            pores.wall_mm_median = None;
        }
        let value = findings(&odd);
        assert_eq!(value["photo"]["taken"], Value::Null);
        assert_eq!(value["surface"]["evidence"]["alignment"], Value::Null);
        assert_eq!(value["pores"]["wall_mm"], json!({ "median": null }));
        assert_eq!(value["teeth"], Value::Null);
    }

    #[test]
    fn a_failure_says_which_photo_and_why() {
        assert_eq!(
            failure(Path::new("a.jpg"), "broken").to_string(),
            r#"{"photo":"a.jpg","error":"broken"}"#
        );
    }
}
