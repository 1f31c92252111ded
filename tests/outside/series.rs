//! Trends and figures that stand apart, against `SciPy` and statsmodels.

use super::support::near;
use poreline::statistics::{deleted_residuals, trend};
use serde_json::Value;

/// Made by `fixtures/make_series.py`, which says how each figure was had; versions inside.
const MADE: &str = include_str!("fixtures/series.json");

fn made(what: &str) -> Vec<Value> {
    let made: Value = serde_json::from_str(MADE).expect("JSON");
    made[what].as_array().expect("a list").clone()
}

fn numbers(case: &Value, key: &str) -> Vec<f64> {
    let list = case[key].as_array().expect("a list");
    list.iter()
        .map(|one| one.as_f64().expect("a number"))
        .collect()
}

#[test]
fn trends_are_those_of_scipy() {
    let cases = made("trends");
    let significant = |case: &&Value| case["z"].as_f64().expect("a number").abs() > 2.576;
    assert!((5..cases.len() - 5).contains(&cases.iter().filter(significant).count()));
    for case in &cases {
        let found = trend(&numbers(case, "series")).expect("enough figures");
        // It went through a p-value, which costs digits.
        near(
            &format!("{case}"),
            found.z,
            case["z"].as_f64().expect("a number"),
            1e-6,
        );
        assert_eq!(found.is_significant(), significant(&case), "{case}");
    }
}

#[test]
fn figures_stand_apart_as_far_as_by_statsmodels() {
    for case in made("apart") {
        let figures: Vec<(f64, f64)> = numbers(&case, "figures")
            .into_iter()
            .zip(numbers(&case, "errors"))
            .collect();
        let found = deleted_residuals(&figures).expect("enough figures");
        for (found, expected) in found.iter().zip(numbers(&case, "residuals")) {
            near(&format!("{case}"), *found, expected, 1e-9);
        }
    }
}
