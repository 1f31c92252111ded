//! Walks: what a person types of one, and what comes of it.

use crate::book::{Foray, Sighting, parted};
use crate::wording::text;
use jiff::civil::Date;

/// A walk or a sighting, as typed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct WalkForm {
    /// When a new walk was.
    pub date: String,
    /// Where.
    pub place: String,
    /// How many walked.
    pub people: String,
    /// What was seen on the walk that is picked.
    pub name: String,
    /// The voucher that was kept of it.
    pub number: String,
}

/// What was written of a walk.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Walked {
    /// A walk of this identifier.
    New(String),
    /// One more sighting.
    Seen,
}

impl WalkForm {
    /// Why no walk can be added; `None` when one can.
    #[must_use]
    pub fn why_no_walk(&self) -> Option<&'static str> {
        let people = self.people.trim();
        if self.date.trim().is_empty() || self.place.trim().is_empty() {
            Some(text!("type-date-and-place-first"))
        } else if self.date.trim().parse::<Date>().is_err() {
            Some(text!("the-date-is-written-as-year"))
        } else if !people.is_empty() && people.parse::<u32>().is_err() {
            Some(text!("how-many-walked-is-a-whole"))
        } else {
            None
        }
    }

    /// Why nothing can be added to a checklist; `None` when something can.
    #[must_use]
    pub fn why_no_sighting(&self) -> Option<&'static str> {
        (parted(&self.name).0.is_empty()).then_some(text!("type-a-name-first"))
    }

    /// The walk that was typed.
    pub(super) fn walk(&self) -> Foray {
        Foray {
            people_count: self.people.trim().parse().ok(),
            ..Foray::new(self.date.trim(), self.place.trim())
        }
    }

    /// The sighting that was typed.
    pub(super) fn sighting(&self) -> Sighting {
        let (scientific_name, identification_qualifier) = parted(&self.name);
        let number = self.number.trim();
        Sighting {
            scientific_name,
            identification_qualifier,
            catalog_number: (!number.is_empty()).then(|| number.to_owned()),
            ..Sighting::default()
        }
    }

    /// What was written is not typed any more.
    pub(super) fn forget(&mut self, walked: &Walked) {
        let typed = std::mem::take(self);
        *self = match walked {
            Walked::New(_) => Self {
                name: typed.name,
                number: typed.number,
                ..Self::default()
            },
            Walked::Seen => Self {
                name: String::new(),
                number: String::new(),
                ..typed
            },
        };
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_typed_becomes_a_walk_and_a_sighting() {
        let mut form = WalkForm {
            date: " 2026-10-04 ".to_owned(),
            place: "North Ride".to_owned(),
            people: "7".to_owned(),
            name: "Trametes cf. hirsuta".to_owned(),
            number: " ".to_owned(),
        };
        assert_eq!((form.why_no_walk(), form.why_no_sighting()), (None, None));
        let walk = form.walk();
        assert_eq!(walk.title(), "2026-10-04 North Ride");
        assert_eq!(walk.people_count, Some(7));
        let seen = form.sighting();
        assert_eq!(seen.name(), "Trametes cf. hirsuta");
        assert_eq!(seen.catalog_number, None);
        form.forget(&Walked::Seen);
        assert!(form.why_no_sighting().is_some() && form.why_no_walk().is_none());
        form.forget(&Walked::New(String::new()));
        assert_eq!(form, WalkForm::default());
    }

    #[test]
    fn what_cannot_be_is_told() {
        let form = |date: &str, people: &str| WalkForm {
            date: date.to_owned(),
            place: "Fen".to_owned(),
            people: people.to_owned(),
            ..WalkForm::default()
        };
        assert!(form("", "").why_no_walk().is_some());
        assert!(
            form("4 Oct", "")
                .why_no_walk()
                .expect("no date")
                .contains("year-month-day")
        );
        assert!(form("2026-02-30", "").why_no_walk().is_some());
        assert!(
            form("2026-10-04", "few")
                .why_no_walk()
                .expect("no number")
                .contains("whole")
        );
    }
}
