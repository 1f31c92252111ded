//! Two people changed the same record: what each changed, put together.

use serde_json::{Map, Value};

/// Two versions of a record put together.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Merged {
    /// The record. Where both changed the same key, it holds mine.
    pub(super) record: Map<String, Value>,
    /// Keys that both changed, and not to the same.
    pub(super) disputed: Vec<String>,
}

/// Merges what I made of `base` with what they made of it, key by key. Lists that both only added to
/// hold the additions of both, theirs first.
pub(super) fn merge(
    base: &Map<String, Value>,
    mine: &Map<String, Value>,
    theirs: &Map<String, Value>,
) -> Merged {
    let mut record = theirs.clone();
    let mut disputed = Vec::new();
    let keys = mine
        .keys()
        .chain(base.keys().filter(|key| !mine.contains_key(*key)));
    for key in keys {
        let (was, i, they) = (base.get(key), mine.get(key), theirs.get(key));
        if key == "revision" || i == was || i == they {
            continue;
        }
        let value = if they == was {
            i.cloned()
        } else if let Some(list) = both_added(was, i, they) {
            Some(list)
        } else {
            disputed.push(key.clone());
            i.cloned()
        };
        match value {
            Some(value) => record.insert(key.clone(), value),
            None => record.shift_remove(key),
        };
    }
    Merged { record, disputed }
}

/// A list to which each added at the end, and neither changed what was there.
fn both_added(was: Option<&Value>, mine: Option<&Value>, theirs: Option<&Value>) -> Option<Value> {
    let empty = Vec::new();
    let was = match was {
        None => &empty,
        Some(was) => was.as_array()?,
    };
    let more_of_mine = mine?.as_array()?.strip_prefix(was.as_slice())?;
    let theirs = theirs?.as_array()?;
    theirs.strip_prefix(was.as_slice())?;
    let mut all = theirs.clone();
    all.extend(
        more_of_mine
            .iter()
            .filter(|one| !theirs.contains(one))
            .cloned(),
    );
    Some(Value::Array(all))
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn merged(base: Value, mine: Value, theirs: Value) -> (Value, Vec<String>) {
        let map = |value: Value| value.as_object().expect("an object").clone();
        let merged = merge(&map(base), &map(mine), &map(theirs));
        (Value::Object(merged.record), merged.disputed)
    }

    #[test]
    fn changes_of_different_keys_go_together() {
        let (record, disputed) = merged(
            json!({"revision": 1, "habitat": "carr", "smell": "none", "old": 1}),
            json!({"revision": 1, "habitat": "alder carr", "smell": "none"}),
            json!({"revision": 2, "habitat": "carr", "smell": "anise", "old": 1, "new": 2}),
        );
        assert_eq!(
            record,
            json!({"revision": 2, "habitat": "alder carr", "smell": "anise", "new": 2})
        );
        assert!(disputed.is_empty());
    }

    #[test]
    fn the_same_key_changed_twice_is_disputed() {
        let (record, disputed) = merged(
            json!({"smell": "none"}),
            json!({"smell": "anise"}),
            json!({"smell": "flour"}),
        );
        assert_eq!(record, json!({"smell": "anise"}));
        assert_eq!(disputed, ["smell"]);
        let (_, disputed) = merged(
            json!({"smell": "x"}),
            json!({"smell": "y"}),
            json!({"smell": "y"}),
        );
        assert!(disputed.is_empty());
    }

    #[test]
    fn lists_that_both_added_to_hold_both() {
        let (record, disputed) = merged(
            json!({"photos": [1]}),
            json!({"photos": [1, 2]}),
            json!({"photos": [1, 3]}),
        );
        assert_eq!(record, json!({"photos": [1, 3, 2]}));
        assert!(disputed.is_empty());
        let (_, disputed) = merged(
            json!({"photos": [1]}),
            json!({"photos": []}),
            json!({"photos": [1, 3]}),
        );
        assert_eq!(disputed, ["photos"]);
    }
}
