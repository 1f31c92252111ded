//! What came of one photo under one set of settings: the only ground state that a batch keeps.

use crate::photo::sha256;
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// Name and version of the form.
pub const SCHEMA: &str = "poreline-batch-photo/1";

/// Digits of a key: more than enough that no two photos share one.
const KEY_DIGITS: usize = 40;

/// Why a photo has no findings.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Trouble {
    /// What happened.
    pub cause: String,
    /// What to do.
    pub remedy: String,
}

/// What came of one photo. It does not name the file, so that the same photo under another name is known
/// again.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Record {
    schema: String,
    /// SHA-256 of the photo's file.
    pub photo_sha256: String,
    /// Digest of the settings.
    pub settings_sha256: String,
    /// The findings, a `poreline-findings/1` object whose path is left empty.
    pub findings: Option<Value>,
    /// Standard deviation of the blur over the outlines, px.
    pub blur_px: Option<f64>,
    /// Why there are none.
    pub trouble: Option<Trouble>,
}

impl Record {
    /// Findings on a photo.
    #[must_use]
    pub fn found(key: &Key, findings: Value, blur_px: Option<f64>) -> Self {
        Self {
            findings: Some(findings),
            // As many digits as findings have: what is read again is what was written.
            blur_px: blur_px.and_then(|px| crate::export::digits::rounded(px, 6)),
            trouble: None,
            ..Self::of(key)
        }
    }

    /// Why a photo has none, now and whenever it is measured so.
    #[must_use]
    pub fn failed(key: &Key, trouble: Trouble) -> Self {
        Self {
            trouble: Some(trouble),
            ..Self::of(key)
        }
    }

    fn of(key: &Key) -> Self {
        Self {
            schema: SCHEMA.to_owned(),
            photo_sha256: key.photo_sha256.clone(),
            settings_sha256: key.settings_sha256.clone(),
            findings: None,
            blur_px: None,
            trouble: None,
        }
    }

    /// Whether it is what the key asks for, and whole.
    #[must_use]
    pub fn is_of(&self, key: &Key) -> bool {
        self.schema == SCHEMA
            && self.photo_sha256 == key.photo_sha256
            && self.settings_sha256 == key.settings_sha256
            && self.findings.is_some() != self.trouble.is_some()
    }

    /// The findings under the photo's name.
    #[must_use]
    pub fn findings_of(&self, name: &str) -> Option<Value> {
        let mut findings = self.findings.clone()?;
        findings["photo"]["path"] = Value::from(name);
        Some(findings)
    }
}

/// What a record is kept by: the photo's bytes, and all that it was measured by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Key {
    /// SHA-256 of the photo's file.
    pub photo_sha256: String,
    /// Digest of the settings.
    pub settings_sha256: String,
}

impl Key {
    /// How the record's file is called, without its ending.
    #[must_use]
    pub fn word(&self) -> String {
        let mut word = sha256(format!("{}{}", self.photo_sha256, self.settings_sha256).as_bytes());
        word.truncate(KEY_DIGITS);
        word
    }
}
