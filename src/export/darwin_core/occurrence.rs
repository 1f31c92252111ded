//! Vouchers as occurrences: the core of an archive, and the first columns of the plain table.

use super::table::{dcterms, dwc, name};
use crate::book::{Blurred, BookCard, Determination, Voucher, blurred};
use serde_json::Value;

/// How much is told of where a specimen was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Places {
    /// All that was recorded.
    #[default]
    AsRecorded,
    /// The middle of a cell of 0.1° by 0.1°. The place in words is withheld, which might tell more.
    Blurred,
    /// The country only.
    Withheld,
}

/// What the columns are.
pub(in crate::export) const TERMS: [&str; 33] = [
    dwc!("occurrenceID"),
    dwc!("basisOfRecord"),
    dwc!("occurrenceStatus"),
    dwc!("institutionCode"),
    dwc!("collectionCode"),
    dwc!("datasetName"),
    dwc!("catalogNumber"),
    dwc!("recordedBy"),
    dwc!("eventID"),
    dwc!("eventDate"),
    dwc!("countryCode"),
    dwc!("locality"),
    dwc!("decimalLatitude"),
    dwc!("decimalLongitude"),
    dwc!("geodeticDatum"),
    dwc!("coordinateUncertaintyInMeters"),
    dwc!("dataGeneralizations"),
    dwc!("informationWithheld"),
    dwc!("habitat"),
    dwc!("associatedTaxa"),
    dwc!("kingdom"),
    dwc!("nomenclaturalCode"),
    dwc!("scientificName"),
    dwc!("identificationQualifier"),
    dwc!("verbatimIdentification"),
    dwc!("identifiedBy"),
    dwc!("dateIdentified"),
    dwc!("identificationRemarks"),
    dwc!("previousIdentifications"),
    dwc!("disposition"),
    dwc!("occurrenceRemarks"),
    dcterms!("license"),
    dcterms!("rightsHolder"),
];

/// Where a specimen was found, as far as it is told.
#[derive(Default)]
pub(in crate::export) struct Place {
    pub(in crate::export) locality: Option<String>,
    pub(in crate::export) latitude: Option<f64>,
    pub(in crate::export) longitude: Option<f64>,
    datum: Option<String>,
    pub(in crate::export) uncertainty_m: Option<f64>,
    pub(in crate::export) generalizations: Option<String>,
    pub(in crate::export) withheld: Option<&'static str>,
}

impl Place {
    pub(in crate::export) fn of(voucher: &Voucher, places: Places) -> Self {
        let coordinates = voucher.decimal_latitude.zip(voucher.decimal_longitude);
        let has_words = voucher.locality.is_some();
        match places {
            Places::AsRecorded => Self {
                locality: voucher.locality.clone(),
                latitude: voucher.decimal_latitude,
                longitude: voucher.decimal_longitude,
                datum: voucher.geodetic_datum.clone(),
                // Darwin Core: zero is not valid, and unknown is empty.
                uncertainty_m: voucher
                    .coordinate_uncertainty_in_meters
                    .filter(|metres| *metres > 0.0),
                generalizations: voucher.data_generalizations.clone(),
                withheld: None,
            },
            Places::Blurred => {
                let Some((latitude, longitude)) = coordinates else {
                    return Self {
                        withheld: has_words.then_some("locality withheld"),
                        generalizations: voucher.data_generalizations.clone(),
                        ..Self::default()
                    };
                };
                let Blurred {
                    latitude,
                    longitude,
                    uncertainty_m,
                } = blurred(latitude, longitude);
                let how = "coordinates given as the middle of a cell of 0.1 by 0.1 degrees";
                let before = voucher.data_generalizations.as_deref();
                Self {
                    latitude: Some(latitude),
                    longitude: Some(longitude),
                    datum: voucher.geodetic_datum.clone(),
                    // What was recorded may lie outside its cell by as much as it was unsure.
                    uncertainty_m: Some(
                        uncertainty_m + voucher.coordinate_uncertainty_in_meters.unwrap_or(0.0),
                    ),
                    generalizations: Some(
                        before.map_or_else(|| how.to_owned(), |before| format!("{before} | {how}")),
                    ),
                    withheld: has_words.then_some("locality withheld"),
                    ..Self::default()
                }
            }
            Places::Withheld => Self {
                withheld: match (coordinates.is_some(), has_words) {
                    (true, true) => Some("coordinates and locality withheld"),
                    (true, false) => Some("coordinates withheld"),
                    (false, true) => Some("locality withheld"),
                    (false, false) => None,
                },
                ..Self::default()
            },
        }
    }
}

/// A voucher's cells, in the order of [`TERMS`]; what is not known is empty.
pub(in crate::export) fn row(card: &BookCard, voucher: &Voucher, places: Places) -> Vec<String> {
    let place = Place::of(voucher, places);
    let number = |number: Option<f64>| number.map(|n| n.to_string());
    let is_named = voucher.scientific_name.is_some();
    TERMS
        .into_iter()
        .map(|term| {
            let cell = match name(term) {
                "occurrenceID" => Some(voucher.occurrence_id.clone()),
                "basisOfRecord" => Some(voucher.basis_of_record.clone()),
                // GBIF's vocabulary; a specimen was there.
                "occurrenceStatus" => Some("present".to_owned()),
                "institutionCode" => card.institution_code.clone(),
                "collectionCode" => card.collection_code.clone(),
                "datasetName" => Some(card.dataset_name.clone()),
                "catalogNumber" => Some(voucher.catalog_number.clone()),
                "recordedBy" => voucher.recorded_by.clone(),
                "eventID" => voucher.event_id.clone(),
                "eventDate" => voucher.event_date.clone(),
                "countryCode" => voucher.country_code.clone(),
                "locality" => place.locality.clone(),
                "decimalLatitude" => number(place.latitude),
                "decimalLongitude" => number(place.longitude),
                "geodeticDatum" => place.datum.clone(),
                "coordinateUncertaintyInMeters" => number(place.uncertainty_m),
                "dataGeneralizations" => place.generalizations.clone(),
                "informationWithheld" => place.withheld.map(str::to_owned),
                "habitat" => voucher.habitat.clone(),
                "associatedTaxa" => voucher.host_taxon.as_ref().map(|host| {
                    // Darwin Core: quoted pairs of key and value.
                    format!("\"host\":{}", Value::String(host.clone()))
                }),
                "kingdom" => Some("Fungi".to_owned()),
                "nomenclaturalCode" => is_named.then(|| "ICN".to_owned()),
                "scientificName" => voucher.scientific_name.clone(),
                "identificationQualifier" => voucher.identification_qualifier.clone(),
                "verbatimIdentification" => voucher.name(),
                "identifiedBy" => voucher.identified_by.clone(),
                "dateIdentified" => voucher.date_identified.clone(),
                "identificationRemarks" => voucher.identification_remarks.clone(),
                "previousIdentifications" => {
                    let former = voucher.former_determinations.iter();
                    let former: Vec<String> = former.map(Determination::name).collect();
                    (!former.is_empty()).then(|| former.join(" | "))
                }
                "disposition" => voucher.disposition.clone(),
                "occurrenceRemarks" => voucher.occurrence_remarks.clone(),
                "license" => card.license.clone(),
                "rightsHolder" => card.rights_holder.clone(),
                _ => None,
            };
            cell.unwrap_or_default()
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cell(row: &[String], term: &str) -> String {
        let at = TERMS.iter().position(|t| name(t) == term).expect(term);
        row[at].clone()
    }

    fn found() -> Voucher {
        let mut voucher = Voucher::new("AF-1");
        for (term, value) in [
            ("locality", "Alder Fen, third alder of the north ride"),
            ("countryCode", "GB"),
            ("decimalLatitude", "52.637"),
            ("decimalLongitude", "-1.139"),
            ("coordinateUncertaintyInMeters", "30"),
            ("geodeticDatum", "EPSG:4326"),
            ("hostTaxon", "Quercus \"robur\""),
        ] {
            voucher.set(term, value).expect(term);
        }
        voucher
    }

    #[test]
    fn a_blurred_place_does_not_tell_the_true_one() {
        let card = BookCard::new("Alder Fen Foray Group", "{number}");
        let row = |places| row(&card, &found(), places);
        let plain = row(Places::AsRecorded);
        assert_eq!(cell(&plain, "decimalLatitude"), "52.637");
        assert_eq!(cell(&plain, "coordinateUncertaintyInMeters"), "30");
        assert_eq!(
            cell(&plain, "associatedTaxa"),
            r#""host":"Quercus \"robur\"""#
        );
        let blurred = row(Places::Blurred);
        assert_eq!(cell(&blurred, "decimalLatitude"), "52.65");
        assert_eq!(cell(&blurred, "decimalLongitude"), "-1.15");
        // Half a diagonal of 11.1 km by 6.8 km, and the 30 m.
        let radius: f64 = cell(&blurred, "coordinateUncertaintyInMeters")
            .parse()
            .expect("a number");
        assert!((6430.0..6630.0).contains(&radius), "{radius}");
        assert!(cell(&blurred, "dataGeneralizations").contains("0.1"));
        let withheld = row(Places::Withheld);
        assert_eq!(
            cell(&withheld, "informationWithheld"),
            "coordinates and locality withheld"
        );
        for row in [&blurred, &withheld] {
            let all = row.join("\n");
            for told in ["52.637", "-1.139", "third alder"] {
                assert!(!all.contains(told), "{told}");
            }
            assert_eq!(cell(row, "countryCode"), "GB");
        }
    }

    #[test]
    fn nothing_is_made_up_of_what_was_not_recorded() {
        let card = BookCard::new("Alder Fen Foray Group", "{number}");
        for places in [Places::AsRecorded, Places::Blurred, Places::Withheld] {
            let row = row(&card, &Voucher::new("1"), places);
            let filled: Vec<&str> = (TERMS.iter().zip(&row))
                .filter(|(_, cell)| !cell.is_empty())
                .map(|(term, _)| name(term))
                .collect();
            assert_eq!(
                filled,
                [
                    "occurrenceID",
                    "basisOfRecord",
                    "occurrenceStatus",
                    "datasetName",
                    "catalogNumber",
                    "kingdom"
                ]
            );
        }
    }
}
