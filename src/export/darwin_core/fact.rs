//! What was measured and seen, one fact a row: Darwin Core's *measurement or fact*.

use super::table::dwc;
use crate::book::{Attached, Voucher, VoucherFigures};
use serde_json::Value;

/// What the columns are, after the identifier of the occurrence.
pub(super) const TERMS: [&str; 9] = [
    dwc!("measurementID"),
    dwc!("measurementType"),
    dwc!("measurementValue"),
    dwc!("measurementAccuracy"),
    dwc!("measurementUnit"),
    dwc!("measurementDeterminedBy"),
    dwc!("measurementDeterminedDate"),
    dwc!("measurementMethod"),
    dwc!("measurementRemarks"),
];

/// How things per mm are defined on each kind of underside, by the key in findings.
const PER_MM: [(&str, &str, &str); 4] = [
    (
        "pores",
        "pores per millimetre",
        "square root of (square root of 3) / 2 times pores per mm2: the count along a row of closely packed pores",
    ),
    (
        "teeth",
        "teeth per millimetre",
        "square root of (square root of 3) / 2 times teeth per mm2: the count along a row of closely packed teeth",
    ),
    (
        "gills",
        "gills per millimetre",
        "gills crossed by a line at right angles to them",
    ),
    (
        "maze",
        "hollows of a maze per millimetre",
        "hollows crossed per mm of random lines times pi / 2",
    ),
];

/// One fact before it becomes a row.
#[derive(Default)]
struct Fact {
    /// What of the voucher it is, unique in it.
    code: String,
    kind: String,
    value: String,
    accuracy: String,
    unit: &'static str,
    by: String,
    date: String,
    method: String,
    remarks: String,
}

/// All facts of a voucher, as rows.
pub(super) fn rows(voucher: &Voucher) -> Vec<Vec<String>> {
    let mut facts = seen(voucher);
    for attached in voucher.current() {
        facts.extend(measured(attached));
    }
    facts.extend(pooled(voucher));
    facts
        .into_iter()
        .map(|fact| {
            vec![
                voucher.occurrence_id.clone(),
                format!("{}#{}", voucher.occurrence_id, fact.code),
                fact.kind,
                fact.value,
                fact.accuracy,
                fact.unit.to_owned(),
                fact.by,
                fact.date,
                fact.method,
                fact.remarks,
            ]
        })
        .collect()
}

/// What the recorder wrote down of the specimen.
fn seen(voucher: &Voucher) -> Vec<Fact> {
    let words = [
        ("hostWood", "host wood", &voucher.host_wood),
        ("substrate", "substrate", &voucher.substrate),
        (
            "decayStage",
            "decay stage of the wood, 1 sound to 5 crumbling",
            &voucher.decay_stage,
        ),
        ("capZonation", "zones on the cap", &voucher.cap_zonation),
        ("hairiness", "hairs on the cap", &voucher.hairiness),
        (
            "flexibility",
            "flexibility of the cap",
            &voucher.flexibility,
        ),
        (
            "undersideColour",
            "colour of the underside",
            &voucher.underside_colour,
        ),
        ("smell", "smell when fresh", &voucher.smell),
        (
            "sporePrint",
            "colour of the spore print",
            &voucher.spore_print,
        ),
    ];
    let by = voucher.recorded_by.clone().unwrap_or_default();
    let width = voucher.cap_width_cm.map(|cm| Fact {
        code: "capWidth".to_owned(),
        kind: "width of the widest cap".to_owned(),
        value: cm.to_string(),
        unit: "cm",
        by: by.clone(),
        ..Fact::default()
    });
    words
        .into_iter()
        .filter_map(|(code, kind, value)| {
            Some(Fact {
                code: code.to_owned(),
                kind: kind.to_owned(),
                value: value.clone()?,
                by: by.clone(),
                ..Fact::default()
            })
        })
        .chain(width)
        .collect()
}

/// Figures without an interval: where they stand, code, kind, unit, method.
const OTHERS: [(&str, &str, &str, &str, &str); 3] = [
    (
        "/pores/elongation/median",
        "elongation",
        "median elongation of pores",
        "",
        "longer over shorter axis of the ellipse of the same second moments",
    ),
    (
        "/pores/wall_mm/median",
        "wall",
        "median thickness of walls between pores",
        "mm",
        "wall on the line between the centres of neighbouring pores",
    ),
    (
        "/pores/void_fraction",
        "voidFraction",
        "share of the underside that is hollow",
        "",
        "area of hollows over measured area",
    ),
];

/// What was measured on one photo.
fn measured(attached: &Attached) -> Vec<Fact> {
    let findings = &attached.findings;
    let photo: String = attached
        .photo()
        .unwrap_or_default()
        .chars()
        .take(16)
        .collect();
    let software = ["name", "version"]
        .iter()
        .filter_map(|key| findings.pointer(&format!("/software/{key}"))?.as_str())
        .collect::<Vec<_>>()
        .join(" ");
    let about = format!(
        "photo with SHA-256 {}",
        attached.photo().unwrap_or_default()
    );
    let fact = |code: &str, kind: &str, value: String, unit: &'static str, method: &str| Fact {
        code: format!("{photo}-{code}"),
        kind: kind.to_owned(),
        value,
        unit,
        by: attached
            .measurement_determined_by
            .clone()
            .unwrap_or_default(),
        date: attached.measurement_determined_date.clone(),
        method: match (method, software.as_str()) {
            (method, "") => method.to_owned(),
            (method, software) => format!("{method}; {software}"),
        },
        remarks: about.clone(),
        ..Fact::default()
    };
    let text = |at: &str| findings.pointer(at)?.as_str().map(str::to_owned);
    let figure = |at: &str| findings.pointer(at).filter(|value| value.is_number());
    let mut facts = Vec::new();
    if let Some(kind) = text("/surface/type") {
        let method = "topology of hollows and walls on a photo of the underside";
        facts.push(fact("surface", "kind of underside", kind, "", method));
    }
    for (things, kind, method) in PER_MM {
        if let Some(value) = figure(&format!("/{things}/per_mm/value")) {
            let mut one = fact("perMm", kind, value.to_string(), "/mm", method);
            add_interval(&mut one, findings.pointer(&format!("/{things}/per_mm")));
            facts.push(one);
        }
        if let Some(count) = figure(&format!("/{things}/count")) {
            let kind = format!("{things} counted");
            let method = "outlines on a photo of the underside";
            facts.push(fact("count", &kind, count.to_string(), "", method));
        }
    }
    if let Some(phrase) = text("/pores/handbook") {
        let method =
            "middle nine tenths of counts along simulated lines of 1 mm, extremes in brackets";
        facts.push(fact(
            "handbook",
            "pores as handbooks print them",
            phrase,
            "",
            method,
        ));
    }
    if let Some(mean) = figure("/pores/diameter_mm/mean") {
        let method = "mean diameter of circles of the pores' areas, outlines at half depth (ISO 9276-6 area equivalent diameter)";
        let mut one = fact(
            "diameter",
            "mean pore diameter",
            mean.to_string(),
            "mm",
            method,
        );
        add_interval(&mut one, findings.pointer("/pores/diameter_mm"));
        facts.push(one);
    }
    for (at, code, kind, unit, method) in OTHERS {
        if let Some(value) = figure(at) {
            facts.push(fact(code, kind, value.to_string(), unit, method));
        }
    }
    facts
}

/// Accuracy as half the width of the 95 % interval, whose ends stand in the remarks.
fn add_interval(fact: &mut Fact, estimate: Option<&Value>) {
    let end = |key: &str| estimate?.get(key)?.as_f64();
    if let (Some(low), Some(high)) = (end("low"), end("high")) {
        fact.accuracy = format!("{:.3}", (high - low) / 2.0);
        fact.remarks = format!("95 % interval {low} to {high}; {}", fact.remarks);
    }
}

/// What several photos of a specimen say together.
fn pooled(voucher: &Voucher) -> Vec<Fact> {
    let figures = VoucherFigures::of(voucher);
    let method = "random effects over photos (DerSimonian & Laird 1986)";
    [
        (
            "allPhotos-perMm",
            "things per millimetre, all photos",
            figures.per_mm,
            "/mm",
        ),
        (
            "allPhotos-diameter",
            "mean pore diameter, all photos",
            figures.diameter_mm,
            "mm",
        ),
    ]
    .into_iter()
    .filter_map(|(code, kind, pooled, unit)| {
        let pooled = pooled.filter(|pooled| pooled.photos > 1)?;
        let (low, high) = pooled.interval();
        Some(Fact {
            code: code.to_owned(),
            kind: kind.to_owned(),
            value: format!("{:.4}", pooled.mean),
            accuracy: format!("{:.3}", (high - low) / 2.0),
            unit,
            method: method.to_owned(),
            remarks: format!(
                "95 % interval {low:.4} to {high:.4}; {} photos",
                pooled.photos
            ),
            ..Fact::default()
        })
    })
    .collect()
}
