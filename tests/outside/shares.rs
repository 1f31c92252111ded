//! Shares of walks and figures pooled over photos against statsmodels.

use super::support::{near, near_relative};
use poreline::statistics::{pool, wilson};
use serde_json::Value;

/// Made by `fixtures/make_shares.py`, which says how each figure was had; versions inside.
const STATSMODELS: &str = include_str!("fixtures/shares.json");

fn made(what: &str) -> Vec<Value> {
    let made: Value = serde_json::from_str(STATSMODELS).expect("JSON");
    made[what].as_array().expect("a list").clone()
}

fn number(case: &Value, key: &str) -> f64 {
    case[key].as_f64().expect("a number")
}

fn numbers(case: &Value, key: &str) -> Vec<f64> {
    let list = case[key].as_array().expect("a list");
    list.iter()
        .map(|one| one.as_f64().expect("a number"))
        .collect()
}

/// Both compute the same closed form, so only rounding may part them.
#[test]
fn intervals_of_shares_are_those_of_statsmodels() {
    let cases = made("shares");
    assert!(cases.len() > 30);
    for case in &cases {
        let count =
            |key: &str| usize::try_from(case[key].as_u64().expect("a count")).expect("small");
        let (low, high) = wilson(count("met"), count("of"));
        near(&format!("{case}, low"), low, number(case, "low"), 1e-12);
        near(&format!("{case}, high"), high, number(case, "high"), 1e-12);
    }
}

#[test]
fn figures_pooled_over_photos_are_those_of_statsmodels() {
    let cases = made("pooled");
    let differ = cases.iter().filter(|c| number(c, "between_variance") > 0.0);
    assert!(
        (4..cases.len()).contains(&differ.count()),
        "both kinds are there"
    );
    for case in &cases {
        let figures: Vec<(f64, f64)> = numbers(case, "figures")
            .into_iter()
            .zip(numbers(case, "errors"))
            .collect();
        let pooled = pool(&figures).expect("a figure");
        near_relative(
            &format!("{case}, mean"),
            pooled.mean,
            number(case, "mean"),
            1e-10,
        );
        near_relative(
            &format!("{case}, error"),
            pooled.standard_error,
            number(case, "error"),
            1e-10,
        );
        near(
            &format!("{case}, between photos"),
            pooled.between_sd.powi(2),
            number(case, "between_variance"),
            1e-10,
        );
    }
}
