//! What of each photo is needed to compare it with the others.

use super::record::Record;
use super::run_list::{RunList, State};
use crate::book::PhotoFigures;
use crate::scale::How;
use serde_json::Value;
use std::collections::BTreeMap;

/// What of one measured photo is needed beside the others.
#[derive(Debug, Clone, PartialEq)]
pub struct Facts {
    /// Its name.
    pub name: String,
    /// Its record's key.
    pub word: String,
    /// Catalogue number of its voucher.
    pub voucher: Option<String>,
    /// An earlier name in the list that has the same bytes.
    pub same_as: Option<String>,
    /// When it was taken, ISO 8601.
    pub taken: Option<String>,
    /// Its figures.
    pub figures: PhotoFigures,
    /// Standard uncertainty of its scale, px per mm.
    pub scale_uncertainty: f64,
    /// Standard deviation of the blur over the outlines, px.
    pub blur_px: Option<f64>,
}

impl Facts {
    /// Reads a record's findings; `None` where it has none.
    #[must_use]
    pub fn of(
        name: &str,
        word: &str,
        record: &Record,
        voucher: Option<String>,
        same_as: Option<String>,
    ) -> Option<Self> {
        let findings = record.findings.as_ref()?;
        let at = |pointer: &str| findings.pointer(pointer);
        Some(Self {
            name: name.to_owned(),
            word: word.to_owned(),
            voucher,
            same_as,
            taken: at("/photo/taken")
                .and_then(Value::as_str)
                .map(str::to_owned),
            figures: PhotoFigures::of_findings(findings),
            scale_uncertainty: at("/scale/standard_uncertainty")
                .and_then(Value::as_f64)
                .unwrap_or_default(),
            blur_px: record.blur_px,
        })
    }

    /// Pixels per mm, where each photo has a scale of its own.
    #[must_use]
    pub fn own_scale(&self) -> Option<f64> {
        let (px_per_mm, how) = self.figures.scale?;
        let is_typed = matches!(how, How::Given | How::Points | How::Corners | How::SetUp);
        (!is_typed).then_some(px_per_mm)
    }
}

/// Which record, if any, an earlier name in the list has already: photos with the same bytes.
#[must_use]
pub fn doubles(list: &RunList) -> BTreeMap<&str, &str> {
    let mut first: BTreeMap<&str, &str> = BTreeMap::new();
    let mut doubles = BTreeMap::new();
    for seen in &list.photos {
        if let State::Kept { record } = &seen.state {
            match first.get(record.as_str()) {
                Some(earlier) => {
                    doubles.insert(seen.name.as_str(), *earlier);
                }
                None => {
                    first.insert(record, &seen.name);
                }
            }
        }
    }
    doubles
}
