//! One voucher: a preserved specimen's record.

use super::number::words;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use serde_with::skip_serializing_none;
use uuid::Uuid;

/// The schema's name in the files.
pub(super) const SCHEMA: &str = "poreline-voucher/1";
/// Kinds of wood a bracket grew on.
pub const HOST_WOODS: [&str; 3] = ["hardwood", "conifer", "unknown"];
/// What it grew from.
pub const SUBSTRATES: [&str; 5] = ["log", "stump", "stick", "standing tree", "wound"];
/// How far the wood had decayed: 1 sound, 2 firm, 3 softening, 4 soft, 5 crumbling
/// (five classes are `common practice, no source`).
pub const DECAY_STAGES: [&str; 5] = ["1", "2", "3", "4", "5"];

/// A voucher's record. Keys in the file are the field names in camelCase; those that Darwin Core has
/// (<https://dwc.tdwg.org/terms/>) are its terms, with its meaning.
#[skip_serializing_none]
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(rename_all = "camelCase", default)]
pub struct Voucher {
    /// `poreline-voucher/1`.
    pub schema: String,
    /// Counts up with every save.
    pub revision: u64,
    /// Darwin Core `occurrenceID`: a URN that no other record has.
    #[serde(rename = "occurrenceID")]
    pub occurrence_id: String,
    /// Darwin Core: `PreservedSpecimen`.
    pub basis_of_record: String,
    /// Darwin Core: the number on the packet, unique in the book.
    pub catalog_number: String,
    /// Darwin Core: who collected it; several parted by ` | `.
    pub recorded_by: Option<String>,
    /// Darwin Core: when it was collected, ISO 8601.
    pub event_date: Option<String>,
    /// Darwin Core: the foray it was collected on, by its `eventID`.
    #[serde(rename = "eventID")]
    pub event_id: Option<String>,
    /// Darwin Core: the place in words.
    pub locality: Option<String>,
    /// Darwin Core: ISO 3166-1 alpha-2.
    pub country_code: Option<String>,
    /// Darwin Core: degrees north.
    pub decimal_latitude: Option<f64>,
    /// Darwin Core: degrees east.
    pub decimal_longitude: Option<f64>,
    /// Darwin Core: radius about the coordinates that holds the place, m.
    pub coordinate_uncertainty_in_meters: Option<f64>,
    /// Darwin Core: datum of the coordinates.
    pub geodetic_datum: Option<String>,
    /// Darwin Core: what was done to the place on purpose, such as blurring.
    pub data_generalizations: Option<String>,
    /// Darwin Core: the surroundings.
    pub habitat: Option<String>,
    /// One of [`HOST_WOODS`].
    pub host_wood: Option<String>,
    /// The tree, as far as it is known, such as `Fagus sylvatica`.
    pub host_taxon: Option<String>,
    /// One of [`SUBSTRATES`].
    pub substrate: Option<String>,
    /// One of [`DECAY_STAGES`].
    pub decay_stage: Option<String>,
    /// Width of the widest cap, cm.
    pub cap_width_cm: Option<f64>,
    /// Zones on the cap.
    pub cap_zonation: Option<String>,
    /// Hairs on the cap.
    pub hairiness: Option<String>,
    /// How the cap bends.
    pub flexibility: Option<String>,
    /// Colour of the underside in words.
    pub underside_colour: Option<String>,
    /// Smell when fresh.
    pub smell: Option<String>,
    /// Colour of the spore print.
    pub spore_print: Option<String>,
    /// Darwin Core: the name without qualifiers.
    pub scientific_name: Option<String>,
    /// Darwin Core: `cf.` or `aff.`.
    pub identification_qualifier: Option<String>,
    /// Darwin Core: who gave that name.
    pub identified_by: Option<String>,
    /// Darwin Core: when, ISO 8601.
    pub date_identified: Option<String>,
    /// Darwin Core: why.
    pub identification_remarks: Option<String>,
    /// Names it had before, the oldest first.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub former_determinations: Vec<Determination>,
    /// Darwin Core: where the specimen is now.
    pub disposition: Option<String>,
    /// Darwin Core: notes.
    pub occurrence_remarks: Option<String>,
    /// Photos that belong to it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<PhotoLink>,
    /// Measurements, the oldest first; the last of each photo counts, the others are its history.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub measurements: Vec<Attached>,
    /// Keys that this version does not know; they are kept.
    #[serde(flatten)]
    pub other: Map<String, Value>,
}

/// A name that a voucher was given.
#[skip_serializing_none]
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "camelCase", default)]
pub struct Determination {
    /// Darwin Core: the name without qualifiers.
    pub scientific_name: String,
    /// Darwin Core: `cf.` or `aff.`.
    pub identification_qualifier: Option<String>,
    /// Darwin Core: who gave it.
    pub identified_by: Option<String>,
    /// Darwin Core: when, ISO 8601.
    pub date_identified: Option<String>,
    /// Darwin Core: why.
    pub identification_remarks: Option<String>,
}

/// A photo of a voucher.
#[skip_serializing_none]
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "camelCase", default)]
pub struct PhotoLink {
    /// Where it is; relative paths start at the book's folder.
    pub path: String,
    /// SHA-256 of its bytes as it was measured, hexadecimal.
    pub sha256: String,
    /// The same of the copy in the book, where that is another: with the same pixels and without the place.
    pub copy_sha256: Option<String>,
}

impl PhotoLink {
    /// SHA-256 that the file at its path is to have, hexadecimal.
    #[must_use]
    pub fn sha256_of_file(&self) -> &str {
        self.copy_sha256.as_deref().unwrap_or(&self.sha256)
    }
}

/// Findings attached to a voucher, whole, as they were printed.
#[skip_serializing_none]
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(rename_all = "camelCase", default)]
pub struct Attached {
    /// When, ISO 8601.
    pub measurement_determined_date: String,
    /// Who.
    pub measurement_determined_by: Option<String>,
    /// The findings, a `poreline-findings/1` object.
    pub findings: Value,
}

impl Voucher {
    /// An empty record with a number and an identifier of its own.
    #[must_use]
    pub fn new(catalog_number: impl Into<String>) -> Self {
        Self {
            schema: SCHEMA.to_owned(),
            occurrence_id: Uuid::new_v4().urn().to_string(),
            basis_of_record: "PreservedSpecimen".to_owned(),
            catalog_number: catalog_number.into(),
            ..Self::default()
        }
    }

    /// The name with its qualifier, as one says it: `Trametes cf. versicolor`.
    #[must_use]
    pub fn name(&self) -> Option<String> {
        said(
            self.scientific_name.as_deref()?,
            self.identification_qualifier.as_deref(),
        )
    }

    /// Gives it another name; the one it had goes to its history.
    pub fn determine(&mut self, new: Determination) {
        if let Some(scientific_name) = self.scientific_name.take() {
            self.former_determinations.push(Determination {
                scientific_name,
                identification_qualifier: self.identification_qualifier.take(),
                identified_by: self.identified_by.take(),
                date_identified: self.date_identified.take(),
                identification_remarks: self.identification_remarks.take(),
            });
        }
        self.scientific_name = Some(new.scientific_name);
        self.identification_qualifier = new.identification_qualifier;
        self.identified_by = new.identified_by;
        self.date_identified = new.date_identified;
        self.identification_remarks = new.identification_remarks;
    }

    /// Attaches findings and the photo they were made on. Earlier findings on the same photo stay; the
    /// same ones once more are not kept twice. Where the place was blurred or withheld they do not tell it.
    pub fn attach(&mut self, photo: PhotoLink, mut attached: Attached) {
        if self.data_generalizations.is_some() {
            attached.withhold_place(&photo.path);
        }
        self.add_photo(photo);
        let is_there = |known: &&Attached| known.findings == attached.findings;
        if !self.current().iter().any(is_there) {
            self.measurements.push(attached);
        }
    }

    /// Takes out of findings that are attached where their photos were taken, which their files had told.
    pub fn withhold_places(&mut self) {
        for attached in &mut self.measurements {
            let link = self
                .photos
                .iter()
                .find(|p| Some(p.sha256.as_str()) == attached.photo());
            let path = link.map_or("", |link| &link.path).to_owned();
            attached.withhold_place(&path);
        }
    }

    /// Takes a photo off that was attached by mistake, with all that was measured on it; the photo itself
    /// stays where it is. Whether there was such a photo.
    pub fn detach(&mut self, sha256: &str) -> bool {
        let before = self.photos.len();
        self.photos.retain(|photo| photo.sha256 != sha256);
        self.measurements
            .retain(|attached| attached.photo() != Some(sha256));
        self.photos.len() < before
    }

    /// Adds a photo; one of the same bytes changes its place only.
    pub fn add_photo(&mut self, photo: PhotoLink) {
        match self.photos.iter_mut().find(|p| p.sha256 == photo.sha256) {
            Some(known) => *known = photo,
            None => self.photos.push(photo),
        }
    }

    /// The newest findings of each photo, in the order in which the photos came.
    #[must_use]
    pub fn current(&self) -> Vec<&Attached> {
        let mut newest: Vec<&Attached> = Vec::new();
        for attached in &self.measurements {
            match newest.iter_mut().find(|a| a.photo() == attached.photo()) {
                Some(older) => *older = attached,
                None => newest.push(attached),
            }
        }
        newest
    }
}

impl Attached {
    /// Takes out where the photo was taken, and puts its path in the book in place of the one where it had
    /// lain, whose names may tell.
    fn withhold_place(&mut self, path: &str) {
        let Some(photo) = self
            .findings
            .get_mut("photo")
            .and_then(Value::as_object_mut)
        else {
            return;
        };
        if let Some(place) = photo.get_mut("place") {
            *place = Value::Null;
        }
        if let Some(had) = photo.get_mut("path") {
            *had = path.into();
        }
    }

    /// SHA-256 of the photo that the findings are of.
    #[must_use]
    pub fn photo(&self) -> Option<&str> {
        self.findings.pointer("/photo/sha256")?.as_str()
    }
}

impl Determination {
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

/// A qualifier stands between genus and epithet (`common practice, no source`).
pub(super) fn said(name: &str, qualifier: Option<&str>) -> Option<String> {
    let qualifier = qualifier.map(str::trim).filter(|q| !q.is_empty());
    let mut words = words(name);
    let genus = words.next()?;
    let rest: Vec<&str> = words.collect();
    let parts = [Some(genus), qualifier].into_iter().flatten().chain(rest);
    Some(parts.collect::<Vec<_>>().join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn findings(photo: &str, per_mm: f64) -> Attached {
        Attached {
            measurement_determined_date: "2026-10-04T19:00:00".to_owned(),
            findings: json!({"photo": {"sha256": photo}, "pores": {"per_mm": {"value": per_mm}}}),
            ..Attached::default()
        }
    }

    fn link(photo: &str) -> PhotoLink {
        PhotoLink {
            path: format!("photos/{photo}.jpg"),
            sha256: photo.to_owned(),
            ..PhotoLink::default()
        }
    }

    #[test]
    fn unknown_keys_survive_a_round_trip() {
        let written = json!({
            "schema": SCHEMA, "revision": 3, "occurrenceID": "urn:uuid:1", "basisOfRecord": "PreservedSpecimen",
            "catalogNumber": "AF 12", "eventDate": "2026-10-04", "sampleMass": {"grams": 3},
            "formerDeterminations": [{"scientificName": "Trametes hirsuta"}],
        });
        let voucher: Voucher = serde_json::from_value(written.clone()).expect("a voucher");
        assert_eq!(voucher.catalog_number, "AF 12");
        assert_eq!(serde_json::to_value(&voucher).expect("JSON"), written);
    }

    #[test]
    fn a_new_name_keeps_the_old_one() {
        let mut voucher = Voucher::new("AF 1");
        assert_eq!(voucher.name(), None);
        for name in ["Trametes hirsuta", "Trametes versicolor"] {
            voucher.determine(Determination {
                scientific_name: name.to_owned(),
                identification_qualifier: Some("cf.".to_owned()),
                ..Determination::default()
            });
        }
        assert_eq!(voucher.name().as_deref(), Some("Trametes cf. versicolor"));
        assert_eq!(
            voucher.former_determinations[0].name(),
            "Trametes cf. hirsuta"
        );
    }

    #[test]
    fn measuring_again_keeps_history_and_the_newest_counts() {
        let mut voucher = Voucher::new("AF 1");
        voucher.attach(link("a"), findings("a", 4.0));
        voucher.attach(link("b"), findings("b", 5.0));
        voucher.attach(link("a"), findings("a", 4.2));
        assert_eq!(voucher.photos.len(), 2);
        assert_eq!(voucher.measurements.len(), 3);
        let per_mm: Vec<f64> = (voucher.current().iter())
            .filter_map(|a| a.findings.pointer("/pores/per_mm/value")?.as_f64())
            .collect();
        assert_eq!(per_mm, [4.2, 5.0]);
    }

    #[test]
    fn the_same_findings_are_kept_once_and_a_photo_can_be_taken_off() {
        let mut voucher = Voucher::new("AF 1");
        voucher.attach(link("a"), findings("a", 4.0));
        voucher.attach(link("b"), findings("b", 5.0));
        voucher.attach(link("a"), findings("a", 4.0));
        assert_eq!(voucher.measurements.len(), 2);
        assert!(voucher.detach("a") && !voucher.detach("a"));
        assert_eq!((voucher.photos.len(), voucher.measurements.len()), (1, 1));
        assert_eq!(voucher.current()[0].photo(), Some("b"));
    }
}
