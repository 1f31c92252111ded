//! Walks as they are counted: what was written down, with the vouchers that were kept.

use super::foray::{Foray, Sighting};
use super::store::Book;
use super::voucher::Voucher;
use std::collections::{BTreeMap, BTreeSet};

impl Book {
    /// All forays as they are [counted], by date.
    #[must_use]
    pub fn walks(&self) -> Vec<Foray> {
        counted(self.forays(), self.vouchers())
    }
}

/// Walks as they are counted. A sighting that a voucher backs bears the name that the voucher has now, and
/// vouchers collected on a walk stand on its checklist even where nobody wrote them there.
#[must_use]
pub fn counted<'a>(
    forays: impl IntoIterator<Item = &'a Foray>,
    vouchers: impl IntoIterator<Item = &'a Voucher>,
) -> Vec<Foray> {
    let named: Vec<&Voucher> = vouchers
        .into_iter()
        .filter(|voucher| voucher.scientific_name.is_some())
        .collect();
    let by_number: BTreeMap<&str, &Voucher> = named
        .iter()
        .map(|voucher| (voucher.catalog_number.as_str(), *voucher))
        .collect();
    let mut by_walk: BTreeMap<&str, Vec<&Voucher>> = BTreeMap::new();
    for voucher in named {
        if let Some(id) = &voucher.event_id {
            by_walk.entry(id).or_default().push(voucher);
        }
    }
    let walk = |foray: &Foray| {
        let mut walk = foray.clone();
        let listed: BTreeSet<&str> = (foray.checklist.iter())
            .filter_map(|sighting| sighting.catalog_number.as_deref())
            .collect();
        for sighting in &mut walk.checklist {
            let number = sighting.catalog_number.as_deref();
            if let Some(voucher) = number.and_then(|number| by_number.get(number)) {
                name_as(voucher, sighting);
            }
        }
        let collected = by_walk.get(foray.event_id.as_str()).into_iter().flatten();
        for voucher in collected.filter(|v| !listed.contains(v.catalog_number.as_str())) {
            let mut sighting = Sighting {
                catalog_number: Some(voucher.catalog_number.clone()),
                ..Sighting::default()
            };
            name_as(voucher, &mut sighting);
            walk.checklist.push(sighting);
        }
        walk
    };
    forays.into_iter().map(walk).collect()
}

fn name_as(voucher: &Voucher, sighting: &mut Sighting) {
    if let Some(name) = &voucher.scientific_name {
        sighting.scientific_name.clone_from(name);
        sighting
            .identification_qualifier
            .clone_from(&voucher.identification_qualifier);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::{BookCard, Determination};

    #[test]
    fn vouchers_count_under_the_name_they_have_now() {
        let folder = tempfile::tempdir().expect("a folder");
        let card = BookCard::new("Alder Fen Foray Group", "{number}");
        let mut book = Book::init(folder.path(), card).expect("a book");
        let mut foray = Foray::new("2026-10-04", "Alder Fen");
        let seen = |name: &str, number: Option<&str>| Sighting {
            scientific_name: name.to_owned(),
            catalog_number: number.map(str::to_owned),
            ..Sighting::default()
        };
        foray.checklist = vec![
            seen("Stereum hirsutum", None),
            seen("Trametes hirsuta", Some("1")),
        ];
        for number in ["1", "2", "3"] {
            let mut voucher = Voucher::new(number);
            voucher.event_id = Some(foray.event_id.clone());
            if number != "3" {
                voucher.determine(Determination {
                    scientific_name: "Trametes versicolor".to_owned(),
                    ..Determination::default()
                });
            }
            book.add_voucher(voucher).expect("added");
        }
        book.add_foray(foray).expect("added");
        let [walk] = &book.walks()[..] else {
            panic!("not one walk");
        };
        let checklist: Vec<(&str, Option<&str>)> = (walk.checklist.iter())
            .map(|s| (s.scientific_name.as_str(), s.catalog_number.as_deref()))
            .collect();
        assert_eq!(
            checklist,
            [
                ("Stereum hirsutum", None),
                ("Trametes versicolor", Some("1")),
                ("Trametes versicolor", Some("2")),
            ]
        );
    }
}
