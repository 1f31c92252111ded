//! What became of each file of a run: the second thing that is kept, beside the records.

use super::list::Part;
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// Name and version of the form.
const SCHEMA: &str = "poreline-batch/1";

/// What became of one file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum State {
    /// There is a record of it.
    Kept {
        /// Its key's word.
        record: String,
    },
    /// Nothing came of it this time.
    Failed {
        /// What happened.
        cause: String,
        /// What to do.
        remedy: String,
    },
    /// It is no photo, and its name does not say that it were one.
    NoPhoto {
        /// What it is.
        cause: String,
    },
}

/// What became of one file, with its name.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Seen {
    /// Its name in the results.
    pub name: String,
    /// What became of it.
    #[serde(flatten)]
    pub state: State,
}

/// What was made beside the records.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Extras {
    /// The table of pores of each photo.
    pub pores: bool,
    /// A picture of each photo with what was found drawn on it.
    pub overlays: bool,
    /// Tables as Parquet files too.
    pub parquet: bool,
}

/// A finished run over one part of a list.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RunList {
    schema: String,
    /// By what the photos were measured.
    pub settings: Value,
    /// Its digest.
    pub settings_sha256: String,
    /// Which part.
    pub part: Part,
    /// How many files the whole list has.
    pub listed: usize,
    /// Digest of all their names, so that parts of different lists are told apart.
    pub list_sha256: String,
    /// What was made beside the records.
    pub extras: Extras,
    /// The part's files.
    pub photos: Vec<Seen>,
}

impl RunList {
    /// A list of this form.
    #[must_use]
    pub fn new(
        settings: Value,
        settings_sha256: String,
        part: Part,
        (listed, list_sha256): (usize, String),
        extras: Extras,
        photos: Vec<Seen>,
    ) -> Self {
        Self {
            schema: SCHEMA.to_owned(),
            settings,
            settings_sha256,
            part,
            listed,
            list_sha256,
            extras,
            photos,
        }
    }
}
