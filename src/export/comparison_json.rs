//! What a specimen agrees with, as JSON for scripts; `assets/schema/comparison-1.schema.json` describes it.

use crate::ranges::{
    Agreement, CAUTIONS, Compared, Judged, Look, Observation, Ranges, compare, next_look,
};
use serde_json::{Value, json};

/// Name and version of the object's layout.
pub const SCHEMA: &str = "poreline-comparison/1";

/// What was seen of a voucher against published ranges, all taxa that can be compared, those with least
/// against them first.
#[must_use]
pub fn comparison(catalog_number: &str, seen: &Observation, ranges: &Ranges) -> Value {
    let compared = compare(seen, ranges);
    let next = next_look(&compared, seen, ranges).map(|next| {
        json!({
            "taxa": next.taxa,
            "looks": next.looks.iter().map(look).collect::<Vec<_>>(),
        })
    });
    json!({
        "schema": SCHEMA,
        "catalogNumber": catalog_number,
        "taxa": compared.iter().map(taxon).collect::<Vec<_>>(),
        "look_next": next,
        "cautions": CAUTIONS.replace('\n', " "),
        "software": {"name": env!("CARGO_PKG_NAME"), "version": env!("CARGO_PKG_VERSION")},
    })
}

fn taxon(compared: &Compared<'_>) -> Value {
    json!({
        "taxon": compared.taxon,
        "agrees": compared.count(Agreement::Agrees),
        "near": compared.count(Agreement::Near),
        "speaks_against": compared.count(Agreement::SpeaksAgainst),
        "characters": compared.characters.iter().map(character).collect::<Vec<_>>(),
    })
}

fn character(judged: &Judged<'_>) -> Value {
    let printed: Vec<Value> = judged
        .statements
        .iter()
        .map(|statement| {
            json!({
                "agreement": statement.agreement.label(),
                "printed": statement.printed,
                "source": statement.row.source,
                "own": statement.row.is_own,
            })
        })
        .collect();
    json!({
        "character": judged.character.label(),
        "agreement": judged.agreement.label(),
        "seen": judged.seen,
        "printed": printed,
    })
}

fn look(look: &Look) -> Value {
    json!({
        "character": look.character.label(),
        "seen": look.is_seen,
        "printed": [look.first, look.second],
    })
}
