//! The figures of findings as a record keeps them, read from their JSON.

use super::Table;
use crate::corrections::Kind;
use crate::export::digits::{as_sure_as, significant};
use serde_json::Value;

/// One figure of one photo.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Figure {
    /// What it is.
    pub(super) what: String,
    /// The figure.
    pub(super) value: f64,
    /// Its unit, with a blank in front; empty where it has none.
    pub(super) unit: &'static str,
    /// Its 95 % interval.
    pub(super) interval: Option<(f64, f64)>,
    /// 5th percentile, median and 95th percentile over the surface.
    pub(super) spread: Option<[f64; 3]>,
    /// Whether it is a number of things.
    is_count: bool,
}

impl Figure {
    pub(super) fn new(what: impl Into<String>, value: f64, unit: &'static str) -> Self {
        Self {
            what: what.into(),
            value,
            unit,
            interval: None,
            spread: None,
            is_count: false,
        }
    }

    /// The figure to the digits that its interval bears out.
    pub(super) fn said(&self) -> String {
        let figure = match self.interval {
            _ if self.is_count => format!("{:.0}", self.value),
            Some((low, high)) => as_sure_as(self.value, (high - low) / 2.0),
            None => significant(self.value, 3),
        };
        format!("{figure}{}", self.unit)
    }

    /// Its interval; empty where it has none.
    pub(super) fn interval_said(&self) -> String {
        self.interval.map_or_else(String::new, |(low, high)| {
            let half = (high - low) / 2.0;
            format!("{} to {}", as_sure_as(low, half), as_sure_as(high, half))
        })
    }

    fn spread_said(&self) -> String {
        self.spread.map_or_else(String::new, |spread| {
            let [low, median, high] = spread.map(|figure| significant(figure, 3));
            format!("{low} · {median} · {high}")
        })
    }
}

/// What is counted on a surface of that kind, and where in findings it stands.
const THINGS: [(&str, &str); 4] = [
    ("pores", "pores"),
    ("teeth", "teeth"),
    ("gills", "gills"),
    ("maze", "hollows"),
];

/// All figures of findings, the weightiest first.
pub(super) fn figures(findings: &Value) -> Vec<Figure> {
    let mut figures = Vec::new();
    for (part, things) in THINGS {
        if let Some(found) = findings.get(part).filter(|found| found.is_object()) {
            figures.extend(of_part(found, things));
        }
    }
    if let Some(share) = number(findings, "/colour/violet_share") {
        figures.push(Figure::new("walls with a violet tint", 100.0 * share, " %"));
    }
    if let Some(mm2) = number(findings, "/area/mm2") {
        figures.push(Figure::new("area measured", mm2, " mm²"));
    }
    figures
}

fn of_part(found: &Value, things: &str) -> Vec<Figure> {
    let estimate = |what: String, at: &str, value: &str, unit| {
        let mut figure = Figure::new(what, number(found, &format!("{at}/{value}"))?, unit);
        figure.interval = number(found, &format!("{at}/low"))
            .zip(number(found, &format!("{at}/high")))
            .filter(|(low, high)| low < high);
        figure.spread = spread(found, at);
        Some(figure)
    };
    let plain = |what: String, at: &str, unit| Some(Figure::new(what, number(found, at)?, unit));
    let share = number(found, "/void_fraction");
    [
        estimate(format!("{things} per mm"), "/per_mm", "value", ""),
        plain(format!("{things} per mm across them"), "/per_mm_across", ""),
        plain(format!("{things} per mm along them"), "/per_mm_along", ""),
        estimate("mean diameter".to_owned(), "/diameter_mm", "mean", " mm"),
        estimate(
            "elongation (median)".to_owned(),
            "/elongation",
            "median",
            "",
        ),
        plain(
            "wall between neighbours (median)".to_owned(),
            "/wall_mm/median",
            " mm",
        ),
        share.map(|share| Figure::new("hollow share", 100.0 * share, " %")),
        plain(format!("{things} per mm²"), "/per_mm2", ""),
        plain(
            format!("{things} met by random lines, per mm"),
            "/line_crossings_per_mm",
            "",
        ),
        plain(
            "spacing by light and dark alone".to_owned(),
            "/spacing_second_opinion_mm",
            " mm",
        ),
        plain(format!("{things} counted"), "/count", "").map(|count| Figure {
            is_count: true,
            ..count
        }),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The figures as a table.
pub(super) fn table(findings: &Value) -> Table {
    let rows: Vec<Vec<String>> = figures(findings)
        .iter()
        .map(|figure| {
            vec![
                figure.what.clone(),
                figure.said(),
                figure.interval_said(),
                figure.spread_said(),
            ]
        })
        .collect();
    let head = ["figure", "value", "95 % interval", "5 % · median · 95 %"];
    Table {
        head: head.map(str::to_owned).to_vec(),
        rows,
    }
}

/// The underside in a line: its kind, and the phrase a handbook would print or the figure per mm.
pub(super) fn lead(findings: &Value) -> Option<String> {
    let kind = text(findings, "/surface/type")?;
    if let Some(phrase) = text(findings, "/pores/handbook") {
        return Some(format!("{kind}, pores {phrase}"));
    }
    let per_mm = figures(findings)
        .into_iter()
        .find(|figure| figure.interval.is_some() && figure.what.ends_with("per mm"));
    Some(per_mm.map_or_else(
        || kind.to_owned(),
        |figure| format!("{kind}, {} {}", figure.said(), figure.what),
    ))
}

/// How sure the verdict is.
pub(super) fn confidence(findings: &Value) -> Option<String> {
    let confidence = number(findings, "/surface/confidence").filter(|sure| *sure > 0.0)?;
    Some(format!("Confidence of the verdict {confidence:.2} of 1."))
}

/// What is said in a list of findings: strings, or the texts of notes.
pub(super) fn list(findings: &Value, at: &str) -> Vec<String> {
    let items = findings.pointer(at).and_then(Value::as_array);
    items
        .into_iter()
        .flatten()
        .filter_map(|item| {
            let text = item.as_str().or_else(|| item.get("text")?.as_str())?;
            Some(match item.get("severity").and_then(Value::as_str) {
                Some("stop") => format!("Figures withheld: {text}"),
                Some("caution") => format!("Caution: {text}"),
                _ => text.to_owned(),
            })
        })
        .collect()
}

/// The colour of the walls in words and in CIELAB, and what it is referred to.
pub(super) fn colour(findings: &Value) -> Option<String> {
    let words = text(findings, "/colour/words")?;
    let lab = ["l", "a", "b"].map(|axis| number(findings, &format!("/colour/lab/{axis}")));
    let lab = match lab {
        [Some(l), Some(a), Some(b)] => format!(" (CIELAB L* {l:.0}, a* {a:.0}, b* {b:.0})"),
        _ => String::new(),
    };
    let white = if text(findings, "/colour/white").is_some() {
        "referred to a white on the photo"
    } else {
        "without a white reference, so indicative only"
    };
    Some(format!("Colour of the walls: {words}{lab}, {white}."))
}

/// How the scale was obtained.
pub(super) fn scale(findings: &Value) -> Option<String> {
    let px_per_mm = number(findings, "/scale/px_per_mm")?;
    let uncertainty = number(findings, "/scale/standard_uncertainty").unwrap_or_default();
    let how = findings.pointer("/scale/how")?.clone();
    let how = serde_json::from_value::<crate::scale::How>(how).ok()?;
    let unsure = if uncertainty > 0.0 {
        format!(
            " with a standard uncertainty of {} %",
            significant(100.0 * uncertainty / px_per_mm, 2)
        )
    } else {
        ", taken as exact".to_owned()
    };
    let tilt = number(findings, "/scale/tilt_deg").map_or_else(String::new, |degrees| {
        format!(" The camera was tilted by {degrees:.1}°, which was taken out first.")
    });
    Some(format!(
        "{} pixels per mm{unsure}, taken from {}.{tilt}",
        as_sure_as(px_per_mm, uncertainty),
        how.in_words()
    ))
}

/// What was corrected by hand in the pores.
pub(super) fn corrections(findings: &Value) -> Option<String> {
    let made = findings.get("corrections")?;
    let count = |done: &str| made.get(done).and_then(Value::as_u64).unwrap_or(0);
    let mut words: Vec<String> = Kind::ALL
        .into_iter()
        .filter(|kind| count(kind.done()) > 0)
        .map(|kind| format!("{} {}", count(kind.done()), kind.done()))
        .collect();
    if let Some(least) = number(made, "/least_wall").filter(|least| (least - 1.0).abs() > 1e-9) {
        words.push(format!("walls from {least} of the usual height on"));
    }
    (!words.is_empty()).then(|| format!("By hand: {}", words.join(", ")))
}

/// A string of findings.
pub(super) fn text<'a>(findings: &'a Value, at: &str) -> Option<&'a str> {
    findings.pointer(at)?.as_str()
}

fn number(findings: &Value, at: &str) -> Option<f64> {
    findings.pointer(at)?.as_f64().filter(|n| n.is_finite())
}

fn spread(found: &Value, at: &str) -> Option<[f64; 3]> {
    let [low, median, high] =
        ["p5", "median", "p95"].map(|part| number(found, &format!("{at}/{part}")));
    Some([low?, median?, high?])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::{json, sample};

    #[test]
    fn every_kind_of_findings_has_its_figure_per_mm() {
        for kind in sample::KINDS {
            let findings = json::findings(&sample::of_kind(kind));
            let figures = figures(&findings);
            let per_mm = figures.iter().find(|f| f.what.ends_with(" per mm"));
            match kind.word() {
                "smooth" | "undecided" => assert_eq!(per_mm, None),
                _ => {
                    let per_mm = per_mm.expect("a figure");
                    assert!((per_mm.value - sample::PER_MM.value).abs() < 1e-5);
                    assert_eq!(
                        per_mm.interval,
                        Some((sample::PER_MM.low, sample::PER_MM.high))
                    );
                    assert_eq!(
                        (per_mm.said(), per_mm.interval_said()),
                        ("4.31".to_owned(), "4.10 to 4.52".to_owned())
                    );
                }
            }
        }
    }

    #[test]
    fn a_scale_says_how_it_was_obtained() {
        let mut findings = json::findings(&sample::poroid());
        findings["scale"] = serde_json::json!(
            {"px_per_mm": 61.4, "standard_uncertainty": 0.614, "how": "ticks", "tilt_deg": 3.21});
        assert_eq!(
            scale(&findings).as_deref(),
            Some(
                "61.4 pixels per mm with a standard uncertainty of 1.0 %, taken from the ticks of a ruler. \
                 The camera was tilted by 3.2°, which was taken out first."
            )
        );
    }
}
