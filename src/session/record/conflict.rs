//! A voucher that somebody else changed in the meantime: what each wrote, and what to make of it.

use super::fields::label;
use super::form::in_field;
use crate::book::{Merged, Voucher, merge};
use serde_json::{Map, Value};
use uuid::Uuid;

/// What a person makes of two versions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Settling {
    /// Put both together; where both changed the same field, mine counts.
    Mine,
    /// Put both together; where both changed the same field, theirs counts.
    Theirs,
    /// Keep theirs as it is, and mine as a voucher of its own.
    Both,
    /// Nothing yet.
    Later,
}

/// A field that both changed, and not to the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Disputed {
    /// What it is called.
    pub label: String,
    /// What I wrote.
    pub mine: String,
    /// What they wrote.
    pub theirs: String,
}

/// Two versions of one voucher.
#[derive(Debug, Clone, PartialEq)]
pub struct Conflict {
    mine: Voucher,
    theirs: Map<String, Value>,
    merged: Merged,
    /// What cannot be put together without a person's word.
    pub disputed: Vec<Disputed>,
}

impl Conflict {
    /// What I made of `base` against what stands on the disk.
    pub(super) fn of(base: &Voucher, mine: Voucher, theirs: Map<String, Value>) -> Self {
        let record = |voucher: &Voucher| match serde_json::to_value(voucher) {
            Ok(Value::Object(record)) => record,
            _ => Map::new(),
        };
        let ours = record(&mine);
        let merged = merge(&record(base), &ours, &theirs);
        let said = |record: &Map<String, Value>, key: &str| match record.get(key) {
            None => "nothing".to_owned(),
            Some(Value::Array(list)) => format!("{} of them", list.len()),
            Some(value) => in_field(value),
        };
        let disputed = merged
            .disputed
            .iter()
            .map(|key| Disputed {
                label: label(key).to_owned(),
                mine: said(&ours, key),
                theirs: said(&theirs, key),
            })
            .collect();
        Self {
            mine,
            theirs,
            merged,
            disputed,
        }
    }

    /// The number of the voucher.
    #[must_use]
    pub fn number(&self) -> &str {
        &self.mine.catalog_number
    }

    /// What they wrote; `None` where it is no voucher any more.
    pub(super) fn theirs(&self) -> Option<Voucher> {
        serde_json::from_value(Value::Object(self.theirs.clone())).ok()
    }

    /// Both put together.
    pub(super) fn together(&self, mine_counts: bool) -> Option<Voucher> {
        let mut record = self.merged.record.clone();
        if !mine_counts {
            for key in &self.merged.disputed {
                match self.theirs.get(key) {
                    Some(value) => record.insert(key.clone(), value.clone()),
                    None => record.shift_remove(key),
                };
            }
        }
        serde_json::from_value(Value::Object(record)).ok()
    }

    /// Mine as a voucher of its own.
    pub(super) fn apart(&self, number: String) -> Voucher {
        Voucher {
            revision: 0,
            occurrence_id: Uuid::new_v4().urn().to_string(),
            catalog_number: number,
            ..self.mine.clone()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_both_wrote_is_put_together_and_what_is_disputed_is_a_persons_to_say() {
        let base = Voucher::new("AF-1");
        let with = |smell: &str, habitat: Option<&str>, revision| Voucher {
            smell: Some(smell.to_owned()),
            habitat: habitat.map(str::to_owned),
            revision,
            ..base.clone()
        };
        let Ok(Value::Object(theirs)) = serde_json::to_value(with("flour", Some("carr"), 7)) else {
            panic!("no record");
        };
        let conflict = Conflict::of(&base, with("anise", None, 1), theirs);
        assert_eq!(conflict.disputed[0].label, "Smell when fresh");
        assert_eq!(conflict.disputed[0].theirs, "flour");
        let mine = conflict.together(true).expect("a voucher");
        assert_eq!(mine, with("anise", Some("carr"), 7));
        let theirs = conflict.together(false).expect("a voucher");
        assert_eq!(theirs, with("flour", Some("carr"), 7));
        let apart = conflict.apart("AF-2".to_owned());
        assert_ne!(apart.occurrence_id, base.occurrence_id);
        assert_eq!(apart.smell.as_deref(), Some("anise"));
    }
}
