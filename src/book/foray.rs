//! One foray: a walk, and what was seen on it.

use super::voucher::said;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use serde_with::skip_serializing_none;
use uuid::Uuid;

/// The schema's name in the files.
pub(super) const SCHEMA: &str = "poreline-foray/1";

/// A walk with its checklist. Keys as in [`Voucher`](super::Voucher).
#[skip_serializing_none]
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(rename_all = "camelCase", default)]
pub struct Foray {
    /// `poreline-foray/1`.
    pub schema: String,
    /// Counts up with every save.
    pub revision: u64,
    /// Darwin Core `eventID`: a URN that no other record has.
    #[serde(rename = "eventID")]
    pub event_id: String,
    /// Darwin Core: when, ISO 8601.
    pub event_date: String,
    /// Darwin Core: the place in words.
    pub locality: String,
    /// How many people walked.
    pub people_count: Option<u32>,
    /// Darwin Core: notes.
    pub event_remarks: Option<String>,
    /// What was seen.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub checklist: Vec<Sighting>,
    /// Keys that this version does not know; they are kept.
    #[serde(flatten)]
    pub other: Map<String, Value>,
}

/// One taxon on a checklist.
#[skip_serializing_none]
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(rename_all = "camelCase", default)]
pub struct Sighting {
    /// Darwin Core: the name without qualifiers.
    pub scientific_name: String,
    /// Darwin Core: `cf.` or `aff.`.
    pub identification_qualifier: Option<String>,
    /// The voucher that backs it, where one was kept.
    pub catalog_number: Option<String>,
    /// Darwin Core: notes.
    pub occurrence_remarks: Option<String>,
    /// Keys that this version does not know; they are kept.
    #[serde(flatten)]
    pub other: Map<String, Value>,
}

impl Sighting {
    /// The name with its qualifier, as one says it.
    #[must_use]
    pub fn name(&self) -> String {
        said(
            &self.scientific_name,
            self.identification_qualifier.as_deref(),
        )
        .unwrap_or_else(|| self.scientific_name.clone())
    }
}

impl Foray {
    /// A walk without a checklist yet.
    #[must_use]
    pub fn new(event_date: impl Into<String>, locality: impl Into<String>) -> Self {
        Self {
            schema: SCHEMA.to_owned(),
            event_id: Uuid::new_v4().urn().to_string(),
            event_date: event_date.into(),
            locality: locality.into(),
            ..Self::default()
        }
    }

    /// How people call it: date and place.
    #[must_use]
    pub fn title(&self) -> String {
        format!("{} {}", self.event_date, self.locality)
    }

    /// Whether a taxon was recorded, whatever the qualifier.
    #[must_use]
    pub fn recorded(&self, taxon: &str) -> bool {
        self.checklist
            .iter()
            .any(|sighting| sighting.scientific_name.trim() == taxon)
    }
}
