//! What the contact sheet says of each file of a batch.

use super::derive::in_one;
use super::facts::Facts;
use super::gate::Remark;
use super::record::Record;
use super::results::inner_path;
use super::run::{OVERLAY, SMALL};
use crate::export::contact_sheet::{self, Entry, Gravity};
use crate::export::{digits, trouble_table};
use serde_json::Value;

/// What is known of one file of the list.
pub(super) struct Known<'a> {
    pub(super) name: &'a str,
    pub(super) word: Option<&'a str>,
    pub(super) record: Option<Record>,
    pub(super) trouble: Option<trouble_table::Row>,
}

impl Known<'_> {
    /// What happened to a photo that failed, and what to do, in one sentence.
    pub(super) fn said(&self) -> Option<String> {
        let trouble = self.trouble.as_ref().filter(|row| row.is_photo)?;
        Some(in_one(&trouble.cause, &trouble.remedy))
    }
}

/// What the contact sheet says of one file.
pub(super) fn entry(
    known: &Known<'_>,
    facts: Option<&Facts>,
    remarks: &[&Remark],
    has_overlays: bool,
) -> Entry {
    let mut entry = Entry {
        name: known.name.to_owned(),
        ..Entry::default()
    };
    if let Some(words) = known.said() {
        entry.notes.push(contact_sheet::Remark {
            gravity: Gravity::Stop,
            text: words,
        });
    }
    let findings = known
        .record
        .as_ref()
        .and_then(|record| record.findings.as_ref());
    if let Some((facts, findings)) = facts.zip(findings) {
        let text = |at: &str| {
            findings
                .pointer(at)
                .and_then(Value::as_str)
                .unwrap_or_default()
        };
        entry.small = Some(inner_path(&facts.word, SMALL));
        entry.overlay = has_overlays.then(|| inner_path(&facts.word, OVERLAY));
        entry.voucher.clone_from(&facts.voucher);
        text("/surface/type").clone_into(&mut entry.surface);
        entry.per_mm = (facts.figures.per_mm).map(|e| (e.value, digits::with_interval(&e)));
        text("/pores/handbook").clone_into(&mut entry.phrase);
        entry.taken = text("/photo/taken").replace('T', " ");
        if let Some(same_as) = &facts.same_as {
            entry.notes.push(contact_sheet::Remark {
                gravity: Gravity::Info,
                text: format!("The same photo as {same_as}; it counts once."),
            });
        }
        let of_photo = remarks.iter().map(|remark| contact_sheet::Remark {
            gravity: Gravity::Caution,
            text: remark.text.clone(),
        });
        let notes = findings["notes"].as_array().into_iter().flatten();
        let notes = notes.map(|note| contact_sheet::Remark {
            gravity: match note["severity"].as_str() {
                Some("stop") => Gravity::Stop,
                Some("caution") => Gravity::Caution,
                _ => Gravity::Info,
            },
            text: note["text"].as_str().unwrap_or_default().to_owned(),
        });
        entry.notes.extend(of_photo.chain(notes));
        entry
            .notes
            .sort_by_key(|note| std::cmp::Reverse(note.gravity));
    }
    entry
}
