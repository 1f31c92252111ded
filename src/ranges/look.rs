//! What to look at next to tell two taxa apart.

use super::character::{Character, Observation};
use super::compare::Compared;
use super::printed::Printed;
use super::table::{Published, Ranges};
use crate::surface::SurfaceType;
use std::collections::BTreeSet;

/// A character in which two taxa differ.
#[derive(Debug, Clone, PartialEq)]
pub struct Look {
    /// Which.
    pub character: Character,
    /// Whether it was already seen on the specimen.
    pub is_seen: bool,
    /// What sources print of the first taxon.
    pub first: String,
    /// What sources print of the second taxon.
    pub second: String,
    /// How far they differ: 1 where nothing is in common, less where ranges overlap.
    pub difference: f64,
}

/// Characters in which the printed ranges of two taxa differ, what was not looked at yet first, and
/// among those what differs most. Empty where all that is printed agrees.
#[must_use]
pub fn next_looks(first: &str, second: &str, seen: &Observation, ranges: &Ranges) -> Vec<Look> {
    let rows =
        |taxon| -> Vec<&Published> { ranges.rows.iter().filter(|r| r.taxon == taxon).collect() };
    let (a, b) = (rows(first), rows(second));
    let mut looks: Vec<Look> = Character::ALL
        .into_iter()
        .filter_map(|character| {
            let difference = difference(character, &a, &b)?;
            (difference > 0.0).then(|| Look {
                character,
                is_seen: seen.has(character),
                first: printed(character, &a),
                second: printed(character, &b),
                difference,
            })
        })
        .collect();
    looks.sort_by(|a, b| (a.is_seen.cmp(&b.is_seen)).then(b.difference.total_cmp(&a.difference)));
    looks
}

/// How to tell the two taxa with least against them apart.
#[derive(Debug, Clone, PartialEq)]
pub struct NextLook<'a> {
    /// The two.
    pub taxa: [&'a str; 2],
    /// What to look at; empty where all that is printed of them agrees.
    pub looks: Vec<Look>,
}

/// Characters named: more than a few are no help in choosing.
const LOOKS: usize = 3;

/// What to look at next, of taxa as [`compare`](super::compare()) sorts them; `None` where there are
/// not two.
#[must_use]
pub fn next_look<'a>(
    compared: &[Compared<'a>],
    seen: &Observation,
    ranges: &Ranges,
) -> Option<NextLook<'a>> {
    let [first, second, ..] = compared else {
        return None;
    };
    let mut looks = next_looks(first.taxon, second.taxon, seen, ranges);
    looks.truncate(LOOKS);
    Some(NextLook {
        taxa: [first.taxon, second.taxon],
        looks,
    })
}

impl Look {
    /// The character, and what is printed of each of the two.
    #[must_use]
    pub fn in_words(&self) -> String {
        let again = if self.is_seen { ", once more" } else { "" };
        format!(
            "{}{again}: {} against {}",
            self.character.label(),
            self.first,
            self.second
        )
    }
}

impl NextLook<'_> {
    /// All of it as a sentence.
    #[must_use]
    pub fn sentence(&self) -> String {
        let [first, second] = self.taxa;
        let looks: Vec<String> = self.looks.iter().map(Look::in_words).collect();
        if looks.is_empty() {
            format!("The table says the same of {first} and {second}; ask an expert.")
        } else {
            format!(
                "To tell {first} and {second} apart, look next at {}.",
                looks.join("; ")
            )
        }
    }
}

fn difference(character: Character, a: &[&Published], b: &[&Published]) -> Option<f64> {
    match character {
        Character::Surface => sets(
            a.iter()
                .flat_map(|row| row.surfaces.iter().map(|s| s.word())),
            b.iter()
                .flat_map(|row| row.surfaces.iter().map(|s| s.word())),
        ),
        Character::Host => sets(usual_woods(a), usual_woods(b)),
        Character::Colour => sets(
            a.iter().flat_map(|row| row.hues.iter().copied()),
            b.iter().flat_map(|row| row.hues.iter().copied()),
        ),
        Character::PoresPerMm => spans(a, b, |row| row.pores_per_mm),
        Character::GillsPerMm => spans(a, b, |row| row.gills_per_mm),
        Character::PoreWidth => spans(a, b, |row| row.pore_width_mm),
        Character::CapWidth => spans(a, b, |row| row.cap_width_cm),
    }
}

fn usual_woods<'a>(rows: &'a [&Published]) -> impl Iterator<Item = &'static str> + 'a {
    rows.iter()
        .flat_map(|row| row.woods.iter())
        .filter(|(_, is_rare)| !**is_rare)
        .map(|(wood, _)| wood.word())
}

/// Share of what is printed that the two do not have in common; `None` where nothing is printed of one.
fn sets<T: Ord>(a: impl Iterator<Item = T>, b: impl Iterator<Item = T>) -> Option<f64> {
    let (a, b): (BTreeSet<T>, BTreeSet<T>) = (a.collect(), b.collect());
    (!a.is_empty() && !b.is_empty()).then(|| {
        let (common, all) = (a.intersection(&b).count(), a.union(&b).count());
        1.0 - common as f64 / all as f64
    })
}

/// Share of the common span of the usual ranges that belongs to only one.
fn spans(a: &[&Published], b: &[&Published], of: fn(&Published) -> Printed) -> Option<f64> {
    let (a, b) = (joined(a, of)?, joined(b, of)?);
    let all = a.1.max(b.1) - a.0.min(b.0);
    let common = (a.1.min(b.1) - a.0.max(b.0)).max(0.0);
    (all.is_finite() && all > 0.0).then(|| 1.0 - common / all)
}

/// From the lowest to the highest usual figure of all sources.
fn joined(rows: &[&Published], of: fn(&Published) -> Printed) -> Option<(f64, f64)> {
    rows.iter()
        .map(|row| of(row))
        .filter(|range| !range.is_empty())
        .map(|range| (range.low.map_or(0.0, |_| range.usual().0), range.usual().1))
        .reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
}

fn printed(character: Character, rows: &[&Published]) -> String {
    let numbers = |of: fn(&Published) -> Printed, unit: &str| -> Vec<String> {
        rows.iter()
            .map(|row| of(row))
            .filter(|range| !range.is_empty())
            .map(|range| format!("{range} {unit}"))
            .collect()
    };
    let all: Vec<String> = match character {
        Character::Surface => {
            let kinds: BTreeSet<&str> = rows
                .iter()
                .flat_map(|row| row.surfaces.iter().map(|s: &SurfaceType| s.word()))
                .collect();
            kinds.into_iter().map(str::to_owned).collect()
        }
        Character::Host => {
            let woods: BTreeSet<&str> = usual_woods(rows).collect();
            woods.into_iter().map(str::to_owned).collect()
        }
        Character::Colour => rows
            .iter()
            .filter(|row| !row.colour.is_empty())
            .map(|row| row.colour.clone())
            .collect(),
        Character::PoresPerMm => numbers(|row| row.pores_per_mm, "per mm"),
        Character::GillsPerMm => numbers(|row| row.gills_per_mm, "per mm"),
        Character::PoreWidth => numbers(|row| row.pore_width_mm, "mm"),
        Character::CapWidth => numbers(|row| row.cap_width_cm, "cm"),
    };
    let mut once: Vec<String> = Vec::new();
    for statement in all {
        if !once.contains(&statement) {
            once.push(statement);
        }
    }
    once.join(" or ")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn looks(first: &str, second: &str, seen: &Observation) -> Vec<Look> {
        let ranges = Ranges::shipped().expect("the shipped table");
        next_looks(first, second, seen, &ranges)
    }

    #[test]
    fn two_violet_brackets_differ_in_their_wood() {
        // Trichaptum abietinum grows on conifers, T. biforme on hardwoods (Emberger; Grand; Chang).
        let looks = looks(
            "Trichaptum abietinum",
            "Trichaptum biforme",
            &Observation::default(),
        );
        assert_eq!(looks[0].character, Character::Host);
        assert_eq!(
            (looks[0].first.as_str(), looks[0].second.as_str()),
            ("conifer", "hardwood")
        );
    }

    #[test]
    fn what_was_not_looked_at_comes_first() {
        let seen = Observation {
            host: super::super::Host {
                wood: Some(super::super::Wood::Conifer),
                genus: None,
            },
            ..Observation::default()
        };
        let looks = looks("Trichaptum abietinum", "Trichaptum biforme", &seen);
        assert!(looks.len() > 1);
        assert_ne!(looks[0].character, Character::Host);
        let host = looks.iter().find(|look| look.character == Character::Host);
        assert!(host.expect("the host differs").is_seen);
    }

    #[test]
    fn a_taxon_differs_from_itself_in_nothing() {
        let name = "Trametes versicolor";
        assert!(looks(name, name, &Observation::default()).is_empty());
    }
}
