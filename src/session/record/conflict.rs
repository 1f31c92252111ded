//! A voucher that somebody else changed in the meantime: what each wrote, and what to make of it.

use super::fields::label;
use super::form::in_field;
use crate::book::{Versions, Voucher};
use crate::wording::text;
use serde_json::{Map, Value};

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
    /// Both.
    pub(super) versions: Versions,
    /// What cannot be put together without a person's word.
    pub disputed: Vec<Disputed>,
}

impl Conflict {
    /// What I made of `base` against what stands on the disk.
    pub(super) fn of(base: &Voucher, mine: Voucher, theirs: Map<String, Value>) -> Self {
        let versions = Versions::of(base, mine, theirs);
        let said = |value: Option<&Value>| match value {
            None => text!("nothing").to_owned(),
            Some(Value::Array(list)) => text!("so-many-of-them", count = list.len()),
            Some(value) => in_field(value),
        };
        let disputed = versions
            .disputed()
            .map(|(key, mine, theirs)| Disputed {
                label: label(key).to_owned(),
                mine: said(mine.as_ref()),
                theirs: said(theirs),
            })
            .collect();
        Self { versions, disputed }
    }

    /// The number of the voucher.
    #[must_use]
    pub fn number(&self) -> &str {
        &self.versions.mine().catalog_number
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_disputed_bears_the_words_of_the_form() {
        let base = Voucher::new("AF-1");
        let smelling = |smell: &str| Voucher {
            smell: Some(smell.to_owned()),
            ..base.clone()
        };
        let Ok(Value::Object(theirs)) = serde_json::to_value(smelling("flour")) else {
            panic!("no record");
        };
        let conflict = Conflict::of(&base, smelling("anise"), theirs);
        assert_eq!(conflict.number(), "AF-1");
        let [disputed] = &conflict.disputed[..] else {
            panic!("not one: {:?}", conflict.disputed);
        };
        assert_eq!(disputed.label, "Smell when fresh");
        assert_eq!(
            (disputed.mine.as_str(), disputed.theirs.as_str()),
            ("anise", "flour")
        );
    }
}
