//! Setting a voucher's field by the name it has in the file.

use super::date::day;
use super::voucher::Voucher;

/// Names of the fields that can be set, as they stand in the file.
pub const TERMS: [&str; 28] = [
    "catalogNumber",
    "recordedBy",
    "eventDate",
    "eventID",
    "locality",
    "countryCode",
    "decimalLatitude",
    "decimalLongitude",
    "coordinateUncertaintyInMeters",
    "geodeticDatum",
    "dataGeneralizations",
    "habitat",
    "hostWood",
    "hostTaxon",
    "substrate",
    "decayStage",
    "capWidthCm",
    "capZonation",
    "hairiness",
    "flexibility",
    "undersideColour",
    "smell",
    "sporePrint",
    "scientificName",
    "identifiedBy",
    "dateIdentified",
    "disposition",
    "occurrenceRemarks",
];

/// Why a field was not set.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum TermError {
    /// No field has that name.
    #[error(
        "a voucher has no field “{name}”{}. The fields are {}",
        nearest(.name),
        TERMS.join(", ")
    )]
    NoTerm {
        /// As it was typed.
        name: String,
    },
    /// A number was wanted.
    #[error("{term} takes {wanted}, and “{value}” is not that")]
    NotThat {
        /// Which field.
        term: &'static str,
        /// As it was typed.
        value: String,
        /// What it takes.
        wanted: &'static str,
    },
    /// It has a name, which would be lost.
    #[error(
        "the voucher is called {0} already; `poreline book determine` gives it another name and keeps this one in its history"
    )]
    HasName(String),
    /// A voucher without a number cannot be found.
    #[error("a voucher must have a catalogue number")]
    NoNumber,
}

/// Jaro similarity above which another field may have been meant, as for commands.
const ALIKE: f64 = 0.75;

fn nearest(name: &str) -> String {
    TERMS
        .iter()
        .map(|term| {
            (
                strsim::jaro(&name.to_lowercase(), &term.to_lowercase()),
                term,
            )
        })
        .filter(|(alike, _)| *alike > ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map_or_else(String::new, |(_, term)| {
            format!("; perhaps {term} was meant")
        })
}

impl Voucher {
    /// Sets one of [`TERMS`]; an empty value takes the field away. A name can be set while there is
    /// none; after that [`Voucher::determine`] changes it and keeps its history.
    ///
    /// # Errors
    /// [`TermError`], and nothing is changed.
    pub fn set(&mut self, term: &str, value: &str) -> Result<(), TermError> {
        let value = value.trim();
        let given = (!value.is_empty()).then_some(value);
        if term == "catalogNumber" {
            given
                .ok_or(TermError::NoNumber)?
                .clone_into(&mut self.catalog_number);
            return Ok(());
        }
        if term == "scientificName" {
            if let Some(name) = self.name() {
                return Err(TermError::HasName(name));
            }
            let (name, qualifier) = parted(value);
            self.scientific_name = (!name.is_empty()).then_some(name);
            self.identification_qualifier = qualifier;
            return Ok(());
        }
        if let Some((field, figure)) = self.figure(term) {
            *field = match given {
                None => None,
                Some(value) => Some(figure.read(value)?),
            };
            return Ok(());
        }
        let date = ["eventDate", "dateIdentified"]
            .into_iter()
            .find(|date| *date == term);
        if let (Some(term), Some(value)) = (date, given)
            && day(value).is_none()
        {
            return Err(TermError::NotThat {
                term,
                value: value.to_owned(),
                wanted: "a date as ISO 8601, such as 2026-10-04",
            });
        }
        let field = self.text(term).ok_or_else(|| TermError::NoTerm {
            name: term.to_owned(),
        })?;
        *field = given.map(str::to_owned);
        Ok(())
    }

    fn text(&mut self, term: &str) -> Option<&mut Option<String>> {
        Some(match term {
            "recordedBy" => &mut self.recorded_by,
            "eventDate" => &mut self.event_date,
            "eventID" => &mut self.event_id,
            "locality" => &mut self.locality,
            "countryCode" => &mut self.country_code,
            "geodeticDatum" => &mut self.geodetic_datum,
            "dataGeneralizations" => &mut self.data_generalizations,
            "habitat" => &mut self.habitat,
            "hostWood" => &mut self.host_wood,
            "hostTaxon" => &mut self.host_taxon,
            "substrate" => &mut self.substrate,
            "decayStage" => &mut self.decay_stage,
            "capZonation" => &mut self.cap_zonation,
            "hairiness" => &mut self.hairiness,
            "flexibility" => &mut self.flexibility,
            "undersideColour" => &mut self.underside_colour,
            "smell" => &mut self.smell,
            "sporePrint" => &mut self.spore_print,
            "identifiedBy" => &mut self.identified_by,
            "dateIdentified" => &mut self.date_identified,
            "disposition" => &mut self.disposition,
            "occurrenceRemarks" => &mut self.occurrence_remarks,
            _ => return None,
        })
    }

    fn figure(&mut self, term: &str) -> Option<(&mut Option<f64>, Figure)> {
        let positive = |number| number > 0.0;
        Some(match term {
            "decimalLatitude" => (
                &mut self.decimal_latitude,
                Figure {
                    term: "decimalLatitude",
                    wanted: "degrees north from -90 to 90, such as 52.64",
                    holds: |number| number.abs() <= 90.0,
                },
            ),
            "decimalLongitude" => (
                &mut self.decimal_longitude,
                Figure {
                    term: "decimalLongitude",
                    wanted: "degrees east from -180 to 180, such as -1.14",
                    holds: |number| number.abs() <= 180.0,
                },
            ),
            "coordinateUncertaintyInMeters" => (
                &mut self.coordinate_uncertainty_in_meters,
                Figure {
                    term: "coordinateUncertaintyInMeters",
                    wanted: "metres, more than 0",
                    holds: positive,
                },
            ),
            "capWidthCm" => (
                &mut self.cap_width_cm,
                Figure {
                    term: "capWidthCm",
                    wanted: "centimetres, more than 0",
                    holds: positive,
                },
            ),
            _ => return None,
        })
    }
}

/// What a numeric field takes.
struct Figure {
    term: &'static str,
    wanted: &'static str,
    holds: fn(f64) -> bool,
}

impl Figure {
    fn read(&self, value: &str) -> Result<f64, TermError> {
        value
            .replace(',', ".")
            .parse()
            .ok()
            .filter(|number: &f64| number.is_finite() && (self.holds)(*number))
            .ok_or_else(|| TermError::NotThat {
                term: self.term,
                value: value.to_owned(),
                wanted: self.wanted,
            })
    }
}

/// A name as one says it, parted into the name and the qualifier: `Trametes cf. versicolor` is
/// `Trametes versicolor` and `cf.`, as Darwin Core keeps them.
#[must_use]
pub fn parted(said: &str) -> (String, Option<String>) {
    let is_qualifier = |word: &&str| matches!(word.trim_end_matches('.'), "cf" | "aff");
    let qualifier = said
        .split_whitespace()
        .find(is_qualifier)
        .map(|word| format!("{}.", word.trim_end_matches('.')));
    let name: Vec<&str> = said
        .split_whitespace()
        .filter(|word| !is_qualifier(word))
        .collect();
    (name.join(" "), qualifier)
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::Value;

    #[test]
    fn every_term_is_set_under_its_own_name() {
        for term in TERMS {
            let mut voucher = Voucher::new("1");
            let value = match term {
                "decimalLatitude"
                | "decimalLongitude"
                | "coordinateUncertaintyInMeters"
                | "capWidthCm" => "12.5",
                "eventDate" | "dateIdentified" => "2026-10-04",
                _ => "word",
            };
            voucher.set(term, value).expect(term);
            let written = serde_json::to_value(&voucher).expect("JSON");
            let found = match &written[term] {
                Value::String(text) => text.clone(),
                other => other.to_string(),
            };
            assert_eq!(found, value, "{term}");
        }
    }

    #[test]
    fn an_empty_value_takes_the_field_away() {
        let mut voucher = Voucher::new("1");
        voucher.set("smell", "anise").expect("set");
        voucher.set("capWidthCm", "4").expect("set");
        voucher.set("smell", " ").expect("taken away");
        voucher.set("capWidthCm", "").expect("taken away");
        assert_eq!((voucher.smell, voucher.cap_width_cm), (None, None));
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let mut voucher = Voucher::new("1");
        for (term, value, says) in [
            ("habitatt", "carr", "perhaps habitat"),
            ("revision", "7", "no field"),
            ("photos", "x", "no field"),
            ("decimalLatitude", "91", "from -90 to 90"),
            ("decimalLatitude", "fifty-two", "from -90 to 90"),
            ("decimalLongitude", "NaN", "from -180 to 180"),
            ("coordinateUncertaintyInMeters", "0", "more than 0"),
            ("capWidthCm", "-3", "more than 0"),
            ("eventDate", "4 Oct 2026", "ISO 8601"),
            ("catalogNumber", " ", "catalogue number"),
        ] {
            let error = voucher.set(term, value).expect_err(term).to_string();
            assert!(error.contains(says), "{term}: {error}");
        }
        assert_eq!(voucher.catalog_number, "1");
        voucher
            .set("decimalLatitude", "52,64")
            .expect("a decimal comma");
        assert_eq!(voucher.decimal_latitude, Some(52.64));
    }

    #[test]
    fn a_name_is_set_once_and_its_qualifier_stands_apart() {
        let mut voucher = Voucher::new("1");
        voucher
            .set("scientificName", "Trametes cf. versicolor")
            .expect("set");
        assert_eq!(
            voucher.scientific_name.as_deref(),
            Some("Trametes versicolor")
        );
        assert_eq!(voucher.identification_qualifier.as_deref(), Some("cf."));
        assert_eq!(
            voucher.set("scientificName", "Trametes hirsuta"),
            Err(TermError::HasName("Trametes cf. versicolor".to_owned()))
        );
        assert_eq!(
            parted("  Trametes aff hirsuta "),
            ("Trametes hirsuta".to_owned(), Some("aff.".to_owned()))
        );
    }
}
