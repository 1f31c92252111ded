//! A voucher being filled in: as it stands in the book, and what was typed since.

use super::fields::{
    DATE, Entry, FIELDS, LATITUDE, LONGITUDE, NAME, NAMED_BY, NUMBER, PLACE, QUALIFIER, REASON,
    WITHIN,
};
use crate::book::{Determination, Foray, Voucher, WGS84, blurred, parted};
use crate::photo::Photo;
use crate::wording::text;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::collections::BTreeMap;

/// What is said of coordinates that were blurred.
const BLURRED: &str = "coordinates given as the middle of a cell of 0.1 by 0.1 degrees";

/// What is wrong with fields, by their terms.
pub type Complaints = BTreeMap<&'static str, String>;

/// A voucher's form.
#[derive(Debug, Clone, PartialEq)]
pub struct Form {
    /// The voucher as it was read, or as a new one begins.
    base: Voucher,
    /// What is no field of the form but changes with it: what was done to the place.
    rest: Voucher,
    is_new: bool,
    typed: BTreeMap<&'static str, String>,
    /// Fields that the photo's file filled in.
    from_photo: Vec<&'static str>,
    /// Whether the number is still the one that was proposed.
    number_is_proposed: bool,
}

/// A form as it is written down while its voucher is not saved.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Draft {
    base: Voucher,
    rest: Voucher,
    is_new: bool,
    typed: BTreeMap<String, String>,
}

impl Draft {
    /// The number that was typed.
    pub(in crate::session) fn number(&self) -> &str {
        self.typed.get(NUMBER).map_or("", String::as_str)
    }
}

impl Form {
    /// The form as it is to be written down.
    pub(in crate::session) fn draft(&self) -> Draft {
        let typed = self.typed.iter();
        Draft {
            base: self.base.clone(),
            rest: self.rest.clone(),
            is_new: self.is_new,
            typed: typed
                .map(|(term, text)| ((*term).to_owned(), text.clone()))
                .collect(),
        }
    }

    /// The form that was written down.
    pub(super) fn of_draft(draft: Draft) -> Self {
        let mut form = Self {
            rest: draft.rest,
            is_new: draft.is_new,
            ..Self::of(draft.base)
        };
        for (term, text) in &mut form.typed {
            if let Some(written) = draft.typed.get(*term) {
                text.clone_from(written);
            }
        }
        form
    }

    /// The form of a voucher that is in the book.
    pub(super) fn of(voucher: Voucher) -> Self {
        Self {
            typed: typed(&voucher),
            rest: voucher.clone(),
            base: voucher,
            is_new: false,
            from_photo: Vec::new(),
            number_is_proposed: false,
        }
    }

    /// The form of one that is not.
    pub(super) fn new() -> Self {
        Self {
            is_new: true,
            number_is_proposed: true,
            ..Self::of(Voucher::new(""))
        }
    }

    /// The form of a copy that is not in the book yet.
    pub(super) fn beginning_with(voucher: Voucher) -> Self {
        Self {
            is_new: true,
            ..Self::of(voucher)
        }
    }

    /// The form of a voucher that stands otherwise in the book.
    pub(super) fn changed(base: Voucher, voucher: Voucher) -> Self {
        Self {
            base,
            ..Self::of(voucher)
        }
    }

    /// What the form began with, before anything was typed.
    pub(super) const fn rest(&self) -> &Voucher {
        &self.rest
    }

    /// Whether it has never been saved.
    #[must_use]
    pub const fn is_new(&self) -> bool {
        self.is_new
    }

    /// The voucher as it was read.
    #[must_use]
    pub const fn base(&self) -> &Voucher {
        &self.base
    }

    /// The identifier of the voucher.
    #[must_use]
    pub fn id(&self) -> &str {
        &self.base.occurrence_id
    }

    /// What stands in a field.
    #[must_use]
    pub fn text(&self, term: &str) -> &str {
        self.typed.get(term).map_or("", String::as_str)
    }

    /// Whether what stands in a field was taken from the photo's file.
    #[must_use]
    pub fn is_from_photo(&self, term: &str) -> bool {
        self.from_photo.contains(&term)
    }

    /// Whether there are coordinates to blur.
    #[must_use]
    pub fn has_place(&self) -> bool {
        self.place().is_some()
    }

    /// What was done to the coordinates on purpose.
    #[must_use]
    pub fn done_to_place(&self) -> Option<&str> {
        self.rest.data_generalizations.as_deref()
    }

    /// Whether anything was typed that is not in the book. What was proposed for a new one is nothing
    /// to lose.
    #[must_use]
    pub fn is_changed(&self) -> bool {
        let begun = typed(&self.base);
        let is_proposed = |term: &str| {
            let is_number = self.number_is_proposed && term == NUMBER;
            self.is_new && (is_number || self.is_from_photo(term))
        };
        self.rest != self.base
            || FIELDS
                .iter()
                .any(|f| !is_proposed(f.term) && self.text(f.term) != begun[f.term])
    }

    /// Takes a photo off, with what was measured on it.
    pub(super) fn detach(&mut self, sha256: &str) {
        self.rest.detach(sha256);
    }

    /// The photos that it has, once it is saved, and what was measured on them.
    #[must_use]
    pub const fn with_photos(&self) -> &Voucher {
        &self.rest
    }

    /// Writes into a field.
    pub(super) fn write(&mut self, term: &'static str, text: String) {
        self.from_photo.retain(|filled| *filled != term);
        self.number_is_proposed &= term != NUMBER;
        if [LATITUDE, LONGITUDE].contains(&term)
            && self.rest.data_generalizations.as_deref() == Some(BLURRED)
        {
            self.rest.data_generalizations = None;
        }
        self.typed.insert(term, text);
    }

    /// Writes the number that comes next, unless a person has written one.
    pub(super) fn propose_number(&mut self, number: &str) {
        if self.number_is_proposed {
            self.typed.insert(NUMBER, number.to_owned());
        }
    }

    /// The year in which it was found, as far as it can be read.
    pub(super) fn year(&self) -> Option<i16> {
        self.text(DATE).trim().get(..4)?.parse().ok()
    }

    /// Takes day and place from a photo where nothing stands.
    pub(super) fn fill_from(&mut self, photo: &Photo) {
        let empty = |term| self.text(term).trim().is_empty();
        let mut scratch = Voucher::new("");
        if !empty(DATE) {
            scratch.event_date = Some(String::new());
        }
        if !(empty(LATITUDE) && empty(LONGITUDE)) {
            scratch.decimal_latitude = Some(0.0);
        }
        let filled = scratch.fill_from(photo);
        let all = typed(&scratch);
        for term in [DATE, LATITUDE, LONGITUDE] {
            if filled.contains(&term) {
                self.write(term, all[term].clone());
                self.from_photo.push(term);
            }
        }
    }

    /// Takes day and place from a walk where nothing stands.
    pub(super) fn fill_from_walk(&mut self, walk: &Foray) {
        for (term, text) in [(DATE, &walk.event_date), (PLACE, &walk.locality)] {
            if self.text(term).trim().is_empty() {
                self.write(term, text.clone());
            }
        }
    }

    /// Tells the place by its cell of 0.1° only.
    pub(super) fn blur_place(&mut self) {
        if let Some((latitude, longitude)) = self.place() {
            let cell = blurred(latitude, longitude);
            let known: f64 = number(self.text(WITHIN)).parse().unwrap_or(0.0);
            self.write(LATITUDE, cell.latitude.to_string());
            self.write(LONGITUDE, cell.longitude.to_string());
            // What was recorded may lie outside its cell by as much as it was unsure.
            self.write(WITHIN, (cell.uncertainty_m + known.max(0.0)).to_string());
            self.rest.data_generalizations = Some(BLURRED.to_owned());
            self.rest.withhold_places();
        }
    }

    fn place(&self) -> Option<(f64, f64)> {
        let degrees = |term, most: f64| {
            let degrees: f64 = number(self.text(term)).parse().ok()?;
            (degrees.abs() <= most).then_some(degrees)
        };
        Some((degrees(LATITUDE, 90.0)?, degrees(LONGITUDE, 180.0)?))
    }

    /// The voucher as it is filled in.
    ///
    /// # Errors
    /// [`Complaints`] on fields that cannot be so.
    pub(super) fn voucher(&self, today: &str) -> Result<Voucher, Complaints> {
        let (voucher, complaints) = self.filled_in(today);
        if complaints.is_empty() {
            Ok(voucher)
        } else {
            Err(complaints)
        }
    }

    /// The same, without the fields that cannot be so, and what is wrong with those.
    pub(super) fn filled_in(&self, today: &str) -> (Voucher, Complaints) {
        let mut voucher = self.rest.clone();
        let mut complaints = Complaints::new();
        for field in &FIELDS {
            if [NAME, QUALIFIER, NAMED_BY, REASON].contains(&field.term) {
                continue;
            }
            let text = self.text(field.term);
            let set = match field.entry {
                Entry::Number => voucher.set(field.term, &number(text)),
                _ => voucher.set(field.term, text),
            };
            if set.is_err() {
                complaints.insert(field.term, complaint(field.term, field.hint()));
            }
        }
        match (voucher.decimal_latitude, voucher.decimal_longitude) {
            (Some(_), None) if !complaints.contains_key(LONGITUDE) => {
                complaints.insert(
                    LONGITUDE,
                    text!("a-latitude-alone-tells-no-place").to_owned(),
                );
            }
            (None, Some(_)) if !complaints.contains_key(LATITUDE) => {
                complaints.insert(
                    LATITUDE,
                    text!("a-longitude-alone-tells-no-place").to_owned(),
                );
            }
            (Some(_), Some(_)) => {
                voucher
                    .geodetic_datum
                    .get_or_insert_with(|| WGS84.to_owned());
            }
            _ => {}
        }
        self.name(&mut voucher, &mut complaints, today);
        (voucher, complaints)
    }

    /// A changed name goes before the one it had, which stays in the history.
    fn name(&self, voucher: &mut Voucher, complaints: &mut Complaints, today: &str) {
        let (scientific_name, said) = parted(self.text(NAME));
        let chosen = Some(self.text(QUALIFIER).to_owned()).filter(|word| !word.is_empty());
        let written =
            |term| Some(self.text(term).trim().to_owned()).filter(|text| !text.is_empty());
        let identified_by = written(NAMED_BY);
        let reason = written(REASON);
        if scientific_name.is_empty() {
            if voucher.scientific_name.is_some() {
                let text = text!("a-name-can-be-replaced-by");
                complaints.insert(NAME, text.to_owned());
            } else if chosen.is_some() || identified_by.is_some() || reason.is_some() {
                complaints.insert(NAME, text!("the-name-itself-is-missing").to_owned());
            }
            return;
        }
        let qualifier = said.or(chosen);
        let had = (&voucher.scientific_name, &voucher.identification_qualifier);
        if had == (&Some(scientific_name.clone()), &qualifier) {
            voucher.identified_by = identified_by;
            voucher.identification_remarks = reason;
        } else {
            // What spoke for the name before does not speak for this one.
            let spoke_for_old = voucher.scientific_name.is_some();
            let reason = reason
                .filter(|_| !spoke_for_old || voucher.identification_remarks != written(REASON));
            voucher.determine(Determination {
                scientific_name,
                identification_qualifier: qualifier,
                identified_by,
                date_identified: Some(today.to_owned()),
                identification_remarks: reason,
            });
        }
    }

    /// Goes over to the voucher as it was saved; what was typed since `sent` was sent off stays.
    pub(super) fn saved(&mut self, saved: Voucher, sent: &Self) {
        let mut next = Self::of(saved);
        for field in &FIELDS {
            if self.text(field.term) != sent.text(field.term) {
                next.write(field.term, self.text(field.term).to_owned());
            }
        }
        *self = next;
    }
}

/// A number as people type it, with a point for its comma.
fn number(text: &str) -> String {
    text.trim().replace(',', ".")
}

fn complaint(term: &str, hint: &str) -> String {
    match term {
        NUMBER => text!("every-voucher-has-a-number").to_owned(),
        DATE => text!("a-date-as-year-month-day", hint = hint),
        _ => text!("a-number-hint", hint = hint),
    }
}

/// What stands in each field of a voucher.
fn typed(voucher: &Voucher) -> BTreeMap<&'static str, String> {
    let record = serde_json::to_value(voucher).unwrap_or_default();
    FIELDS
        .iter()
        .map(|field| (field.term, in_field(&record[field.term])))
        .collect()
}

/// A value as it stands in a field.
pub(super) fn in_field(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        // 4 and not 4.0.
        Value::Number(figure) => figure.as_f64().map_or_else(String::new, |f| f.to_string()),
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::photo::Place;
    use image::RgbImage;

    const TODAY: &str = "2026-11-26";

    fn write(form: &mut Form, fields: &[(&'static str, &str)]) {
        for (term, text) in fields {
            form.write(term, (*text).to_owned());
        }
    }

    #[test]
    fn what_is_typed_becomes_the_voucher_and_reads_back_the_same() {
        let mut form = Form::new();
        assert!(!form.is_changed());
        form.propose_number("AF-1");
        assert!(!form.is_changed(), "a proposal is nothing to lose");
        write(
            &mut form,
            &[
                (DATE, "2026-10-04"),
                ("capWidthCm", "4,5"),
                ("hostWood", "hardwood"),
                (NAME, "Trametes cf. hirsuta"),
                (NAMED_BY, "Ines Dunmore"),
            ],
        );
        assert!(form.is_changed());
        let voucher = form.voucher(TODAY).expect("a voucher");
        assert_eq!(voucher.cap_width_cm, Some(4.5));
        assert_eq!(voucher.name().as_deref(), Some("Trametes cf. hirsuta"));
        let again = Form::of(voucher.clone());
        assert_eq!(again.text("capWidthCm"), "4.5");
        assert_eq!(again.text(NAME), "Trametes hirsuta");
        assert_eq!(again.text(QUALIFIER), "cf.");
        assert!(!again.is_changed());
        assert_eq!(again.voucher(TODAY), Ok(voucher));
    }

    #[test]
    fn what_cannot_be_is_told_beside_its_field_and_stays_there() {
        let mut form = Form::new();
        write(
            &mut form,
            &[
                (DATE, "4 Oct 2026"),
                (LATITUDE, "91"),
                (LONGITUDE, "-1.14"),
                ("capWidthCm", "wide"),
                (QUALIFIER, "cf."),
            ],
        );
        let complaints = form.voucher(TODAY).expect_err("complaints");
        let terms: Vec<&str> = complaints.keys().copied().collect();
        assert_eq!(terms, ["capWidthCm", NUMBER, LATITUDE, DATE, NAME]);
        assert_eq!(form.text(LATITUDE), "91");
    }

    #[test]
    fn a_new_name_keeps_the_old_one() {
        let mut form = Form::new();
        write(
            &mut form,
            &[
                (NUMBER, "AF-1"),
                (NAME, "Trametes hirsuta"),
                (REASON, "hairs on the cap"),
            ],
        );
        let mut form = Form::of(form.voucher(TODAY).expect("a voucher"));
        write(&mut form, &[(NAME, "Trametes versicolor")]);
        let voucher = form.voucher(TODAY).expect("a voucher");
        let former = &voucher.former_determinations[0];
        assert_eq!(former.name(), "Trametes hirsuta");
        assert_eq!(
            former.identification_remarks.as_deref(),
            Some("hairs on the cap")
        );
        assert_eq!(voucher.date_identified.as_deref(), Some(TODAY));
        assert_eq!(voucher.identification_remarks, None);
        write(&mut form, &[(REASON, "zones in many colours")]);
        let voucher = form.voucher(TODAY).expect("a voucher");
        assert_eq!(
            voucher.identification_remarks.as_deref(),
            Some("zones in many colours")
        );
        write(&mut form, &[(NAME, "")]);
        assert!(form.voucher(TODAY).is_err());
    }

    #[test]
    fn a_photo_proposes_day_and_place_and_the_place_can_be_blurred() {
        let mut photo = Photo::from_rgb("a.jpg", RgbImage::new(4, 4));
        photo.taken = Some("2026-10-04T11:20:00+01:00".to_owned());
        photo.place = Some(Place {
            latitude: 52.637,
            longitude: -1.139,
        });
        let mut form = Form::new();
        write(&mut form, &[(NUMBER, "AF-1"), (DATE, "2026-10-03")]);
        form.fill_from(&photo);
        assert_eq!(form.text(DATE), "2026-10-03");
        assert!(form.is_from_photo(LATITUDE));
        write(&mut form, &[(WITHIN, "20")]);
        form.blur_place();
        let voucher = form.voucher(TODAY).expect("a voucher");
        // The cell's middle, as in book/place.rs.
        assert_eq!(voucher.decimal_latitude, Some(52.65));
        assert_eq!(voucher.decimal_longitude, Some(-1.15));
        assert!(voucher.coordinate_uncertainty_in_meters > Some(6420.0));
        assert_eq!(voucher.data_generalizations.as_deref(), Some(BLURRED));
        // A place typed anew is not blurred.
        write(&mut form, &[(LATITUDE, "52.637")]);
        assert_eq!(form.done_to_place(), None);
    }

    #[test]
    fn what_is_typed_while_it_is_being_saved_is_not_lost() {
        let mut form = Form::new();
        write(&mut form, &[(NUMBER, "AF-1"), ("smell", "anise")]);
        let sent = form.clone();
        write(&mut form, &[("habitat", "alder carr")]);
        form.saved(sent.voucher(TODAY).expect("a voucher"), &sent);
        assert_eq!(form.text("smell"), "anise");
        assert_eq!(form.text("habitat"), "alder carr");
        assert!(form.is_changed() && !form.is_new());
    }
}
