//! Two versions of one voucher: what differs, and what to make of them.

use super::merge::{Merged, merge};
use super::voucher::Voucher;
use serde_json::{Map, Value};
use uuid::Uuid;

/// Two versions of one voucher.
#[derive(Debug, Clone, PartialEq)]
pub struct Versions {
    mine: Voucher,
    theirs: Map<String, Value>,
    merged: Merged,
}

impl Versions {
    /// What I made of `base` against what they did.
    #[must_use]
    pub fn of(base: &Voucher, mine: Voucher, theirs: Map<String, Value>) -> Self {
        Self::since(&record(base), mine, theirs)
    }

    /// Two of which nobody knows what they began with: keys that only one has are kept, and whatever
    /// else differs is disputed.
    #[must_use]
    pub fn of_two(mine: Voucher, theirs: &Voucher) -> Self {
        Self::since(&Map::new(), mine, record(theirs))
    }

    fn since(base: &Map<String, Value>, mine: Voucher, theirs: Map<String, Value>) -> Self {
        Self {
            merged: merge(base, &record(&mine), &theirs),
            mine,
            theirs,
        }
    }

    /// Mine.
    #[must_use]
    pub const fn mine(&self) -> &Voucher {
        &self.mine
    }

    /// Theirs; `None` where it is no voucher any more.
    #[must_use]
    pub fn theirs(&self) -> Option<Voucher> {
        read(self.theirs.clone())
    }

    /// Keys that both changed, and not to the same, with what each wrote.
    pub fn disputed(&self) -> impl Iterator<Item = (&str, Option<Value>, Option<&Value>)> {
        let mine = record(&self.mine);
        self.merged
            .disputed
            .iter()
            .map(move |key| (key.as_str(), mine.get(key).cloned(), self.theirs.get(key)))
    }

    /// Both put together; where both changed the same key, mine or theirs counts. `None` where that is
    /// no voucher any more.
    #[must_use]
    pub fn together(&self, mine_counts: bool) -> Option<Voucher> {
        let mut record = self.merged.record.clone();
        if !mine_counts {
            for key in &self.merged.disputed {
                match self.theirs.get(key) {
                    Some(value) => record.insert(key.clone(), value.clone()),
                    None => record.shift_remove(key),
                };
            }
        }
        read(record)
    }

    /// Mine as a voucher of its own.
    #[must_use]
    pub fn apart(&self, number: String) -> Voucher {
        Voucher {
            revision: 0,
            occurrence_id: Uuid::new_v4().urn().to_string(),
            catalog_number: number,
            ..self.mine.clone()
        }
    }
}

fn record(voucher: &Voucher) -> Map<String, Value> {
    match serde_json::to_value(voucher) {
        Ok(Value::Object(record)) => record,
        _ => Map::new(),
    }
}

fn read(record: Map<String, Value>) -> Option<Voucher> {
    serde_json::from_value(Value::Object(record)).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn with(base: &Voucher, smell: &str, habitat: Option<&str>, revision: u64) -> Voucher {
        Voucher {
            smell: Some(smell.to_owned()),
            habitat: habitat.map(str::to_owned),
            revision,
            ..base.clone()
        }
    }

    #[test]
    fn what_both_wrote_is_put_together_and_what_is_disputed_is_a_persons_to_say() {
        let base = Voucher::new("AF-1");
        let theirs = record(&with(&base, "flour", Some("carr"), 7));
        let versions = Versions::of(&base, with(&base, "anise", None, 1), theirs);
        let disputed: Vec<_> = versions.disputed().collect();
        assert_eq!(
            disputed,
            [("smell", Some("anise".into()), Some(&"flour".into()))]
        );
        let mine = versions.together(true).expect("a voucher");
        assert_eq!(mine, with(&base, "anise", Some("carr"), 7));
        let theirs = versions.together(false).expect("a voucher");
        assert_eq!(theirs, with(&base, "flour", Some("carr"), 7));
        let apart = versions.apart("AF-2".to_owned());
        assert_ne!(apart.occurrence_id, base.occurrence_id);
        assert_eq!(apart.smell.as_deref(), Some("anise"));
    }

    #[test]
    fn without_a_common_beginning_what_only_one_has_is_kept() {
        let base = Voucher::new("AF-1");
        let theirs = with(&base, "anise", Some("carr"), 3);
        let versions = Versions::of_two(with(&base, "anise", None, 2), &theirs);
        assert_eq!(versions.disputed().count(), 0);
        let both = versions.together(true).expect("a voucher");
        assert_eq!(both, with(&base, "anise", Some("carr"), 3));
    }
}
