//! How often each taxon was met: the share of walks on which it was recorded.

use super::foray::Foray;
use super::voucher::said;
use crate::statistics::wilson;
use std::collections::{BTreeMap, BTreeSet};

/// Names of the months.
pub const MONTHS: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];

/// How often one taxon was met.
#[derive(Debug, Clone, PartialEq)]
pub struct Frequency {
    /// The name as one says it: what is *cf.* or *aff.* a species is not counted as that species.
    pub taxon: String,
    /// Walks on which it was recorded.
    pub walks: usize,
    /// All walks.
    pub of: usize,
    /// Share of walks, 0–1.
    pub share: f64,
    /// Wilson's 95 % interval of that share.
    pub interval: (f64, f64),
    /// Walks on which it was recorded, by month, January first.
    pub by_month: [usize; 12],
    /// All walks, by month; those whose date tells no month are in none.
    pub walks_by_month: [usize; 12],
    /// Date of the first record.
    pub first: String,
    /// Date of the last record.
    pub last: String,
}

/// Frequencies of all taxa recorded on these walks, the most frequent first, then by name. A walk with
/// an empty checklist counts as a walk on which nothing was met.
#[must_use]
pub fn frequencies(forays: &[Foray]) -> Vec<Frequency> {
    let mut walks: BTreeMap<String, Vec<&Foray>> = BTreeMap::new();
    for foray in forays {
        let names: BTreeSet<String> = foray
            .checklist
            .iter()
            .filter_map(|sighting| {
                let qualifier = sighting.identification_qualifier.as_deref();
                said(&sighting.scientific_name, qualifier)
            })
            .collect();
        for name in names {
            walks.entry(name).or_default().push(foray);
        }
    }
    let walks_by_month = by_month(forays);
    let mut frequencies: Vec<Frequency> = walks
        .into_iter()
        .map(|(taxon, on)| {
            let dates = || on.iter().map(|foray| foray.event_date.clone());
            Frequency {
                taxon,
                walks: on.len(),
                of: forays.len(),
                share: on.len() as f64 / forays.len() as f64,
                interval: wilson(on.len(), forays.len()),
                by_month: by_month(on.iter().copied()),
                walks_by_month,
                first: dates().min().unwrap_or_default(),
                last: dates().max().unwrap_or_default(),
            }
        })
        .collect();
    frequencies.sort_by(|a, b| b.walks.cmp(&a.walks).then_with(|| a.taxon.cmp(&b.taxon)));
    frequencies
}

fn by_month<'a>(walks: impl IntoIterator<Item = &'a Foray>) -> [usize; 12] {
    let mut counts = [0; 12];
    for month in walks.into_iter().filter_map(|walk| month(&walk.event_date)) {
        counts[month - 1] += 1;
    }
    counts
}

/// Month of an ISO 8601 date, 1–12.
fn month(date: &str) -> Option<usize> {
    let month = date.get(5..7)?.parse().ok()?;
    (1..=12).contains(&month).then_some(month)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::Sighting;

    fn walk(date: &str, names: &[&str]) -> Foray {
        Foray {
            checklist: names
                .iter()
                .map(|name| Sighting {
                    scientific_name: (*name).to_owned(),
                    ..Sighting::default()
                })
                .collect(),
            ..Foray::new(date, "Alder Fen")
        }
    }

    #[test]
    fn a_taxon_met_twice_on_a_walk_counts_once() {
        let walks = [
            walk(
                "2026-09-12",
                &[
                    "Trametes versicolor",
                    "Trametes versicolor",
                    "Stereum hirsutum",
                ],
            ),
            walk("2026-10-03", &["Trametes versicolor"]),
            walk("2026-10-17", &[]),
            walk("2025-03-08", &["Stereum hirsutum "]),
        ];
        let table = frequencies(&walks);
        assert_eq!(table[0].taxon, "Stereum hirsutum");
        assert_eq!((table[0].walks, table[0].of), (2, 4));
        assert_eq!(
            (table[0].first.as_str(), table[0].last.as_str()),
            ("2025-03-08", "2026-09-12")
        );
        assert_eq!(table[1].by_month, [0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 0, 0]);
        assert_eq!(
            table[1].walks_by_month,
            [0, 0, 1, 0, 0, 0, 0, 0, 1, 2, 0, 0]
        );
        assert!((table[1].share - 0.5).abs() < 1e-12);
    }

    #[test]
    fn a_doubtful_name_does_not_count_as_the_species() {
        let mut doubtful = walk("2026-10-03", &["Trametes versicolor"]);
        doubtful.checklist[0].identification_qualifier = Some("cf.".to_owned());
        let table = frequencies(&[walk("2026-09-12", &["Trametes versicolor"]), doubtful]);
        let told: Vec<(&str, usize)> = table.iter().map(|f| (f.taxon.as_str(), f.walks)).collect();
        assert_eq!(
            told,
            [("Trametes cf. versicolor", 1), ("Trametes versicolor", 1)]
        );
    }

    #[test]
    fn no_walks_no_frequencies() {
        assert!(frequencies(&[]).is_empty());
    }
}
