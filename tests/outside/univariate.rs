//! Means, standard deviations and percentiles against certified values of NIST and against `NumPy`.

use super::support::{near, near_relative, rows};
use poreline::statistics::{spread, standard_error, weighted_mean};
use serde_json::Value;

/// Made by `fixtures/make_univariate.py`, which says how each figure was had; versions inside.
const PERCENTILES: &str = include_str!("fixtures/univariate.json");

/// Values of a data set of the NIST Statistical Reference Datasets (univariate) with its certified
/// mean and standard deviation (divisor n − 1).
struct Certified {
    name: &'static str,
    values: Vec<f64>,
    mean: f64,
    deviation: f64,
}

fn column(table: &str) -> Vec<f64> {
    rows(table).iter().map(|row| row.number("y")).collect()
}

/// The middle value once, then a lower and a higher one by turns, as `NumAcc2` to `NumAcc4` are.
fn by_turns(middle: f64, lower: f64, higher: f64) -> Vec<f64> {
    let mut values = vec![middle];
    for _ in 0..500 {
        values.extend([lower, higher]);
    }
    values
}

fn certified() -> Vec<Certified> {
    let set = |name, values, mean, deviation| Certified {
        name,
        values,
        mean,
        deviation,
    };
    vec![
        set(
            "Michelso",
            column(include_str!("facts/nist_michelso.csv")),
            299.852_4,
            0.079_010_547_819_051_8,
        ),
        set(
            "Mavro",
            column(include_str!("facts/nist_mavro.csv")),
            2.001_856,
            0.000_429_123_454_003_053,
        ),
        set(
            "NumAcc1",
            vec![10_000_001.0, 10_000_003.0, 10_000_002.0],
            10_000_002.0,
            1.0,
        ),
        set("NumAcc2", by_turns(1.2, 1.1, 1.3), 1.2, 0.1),
        set(
            "NumAcc3",
            by_turns(1_000_000.2, 1_000_000.1, 1_000_000.3),
            1_000_000.2,
            0.1,
        ),
        set(
            "NumAcc4",
            by_turns(10_000_000.2, 10_000_000.1, 10_000_000.3),
            10_000_000.2,
            0.1,
        ),
    ]
}

#[test]
fn means_and_standard_deviations_are_the_certified_ones() {
    for set in certified() {
        let n = set.values.len() as f64;
        // Weights that are all alike change nothing, whatever they are.
        for weight in [1.0, 0.7, 1e6] {
            let weighted: Vec<(f64, f64)> = set.values.iter().map(|y| (*y, weight)).collect();
            let mean = weighted_mean(&weighted).expect("values");
            // Summed one after the other, n values err by n/2 units in the last place at worst,
            // and as much again for their products with a weight.
            near_relative(set.name, mean, set.mean, n * f64::EPSILON);
            // A value is held to half a unit in its last place, which is ε/2 · ȳ: so much the
            // standard deviation may be off. Certified values have 15 digits.
            let representable = f64::EPSILON / 2.0 * set.mean / set.deviation;
            let deviation = standard_error(&weighted, mean) * n.sqrt();
            near_relative(set.name, deviation, set.deviation, representable + 1e-12);
        }
    }
}

#[test]
fn percentiles_are_those_of_numpy() {
    // The plotting position (i − ½)/n of Hazen 1914, NumPy's method `hazen`.
    let file: Value = serde_json::from_str(PERCENTILES).expect("the fixture is JSON");
    let sets = file["sets"].as_array().expect("sets");
    assert_eq!(sets.len(), 4);
    for set in sets {
        let name = set["name"].as_str().expect("a name");
        let numbers = |key: &str| -> Vec<f64> {
            let list = set[key].as_array().expect(name);
            list.iter().map(|v| v.as_f64().expect(name)).collect()
        };
        let values = numbers("values");
        let percentiles = numbers("percentiles_5_50_95");
        for weight in [1.0, 2.5] {
            let weighted: Vec<(f64, f64)> = values.iter().map(|y| (*y, weight)).collect();
            let ours = spread(&weighted).expect(name);
            let size = percentiles[1].abs();
            for (got, want) in [ours.p5, ours.median, ours.p95]
                .into_iter()
                .zip(&percentiles)
            {
                near(name, got, *want, 1e-12 * size);
            }
        }
    }
}
