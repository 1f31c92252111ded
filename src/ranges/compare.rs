//! What a specimen agrees with, character by character.

use super::character::{Agreement, Character, Observation, Wood};
use super::hue::Hue;
use super::printed::{Printed, Standing};
use super::table::{Published, Ranges};
use crate::findings::Estimate;
use crate::surface::SurfaceType;
use std::collections::BTreeSet;

/// Caps this much wider than printed are still near: printed widths are those of ordinary caps
/// (`common practice, no source`).
const WIDE_CAP: f64 = 1.25;

/// What one source says of one character, and how what was seen stands to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Statement<'a> {
    /// How what was seen stands to it.
    pub agreement: Agreement,
    /// What the source prints.
    pub printed: String,
    /// The row it stands in.
    pub row: &'a Published,
}

/// One character of one taxon.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged<'a> {
    /// Which character.
    pub character: Character,
    /// The best that any source says: where sources differ, one that agrees shows that the taxon can
    /// look so.
    pub agreement: Agreement,
    /// What was seen.
    pub seen: String,
    /// What each source says, the best first.
    pub statements: Vec<Statement<'a>>,
}

/// One taxon against a specimen.
#[derive(Debug, Clone, PartialEq)]
pub struct Compared<'a> {
    /// Accepted name.
    pub taxon: &'a str,
    /// The characters that were seen and that any source gives.
    pub characters: Vec<Judged<'a>>,
}

impl Compared<'_> {
    /// Whether a table of one's own has the taxon, and nothing was seen that speaks against it.
    #[must_use]
    pub fn is_own_and_fits(&self) -> bool {
        let mut statements = self.characters.iter().flat_map(|judged| &judged.statements);
        self.count(Agreement::SpeaksAgainst) == 0 && statements.any(|said| said.row.is_own)
    }

    /// How many characters stand so.
    #[must_use]
    pub fn count(&self, agreement: Agreement) -> usize {
        self.characters
            .iter()
            .filter(|judged| judged.agreement == agreement)
            .count()
    }
}

/// Compares a specimen with every taxon of a table. Fewest characters against come first, then most
/// that agree, then names in alphabetical order; a taxon of which nothing can be compared is left out.
#[must_use]
pub fn compare<'a>(seen: &Observation, ranges: &'a Ranges) -> Vec<Compared<'a>> {
    let mut compared: Vec<Compared<'a>> = ranges
        .taxa()
        .into_iter()
        .map(|taxon| Compared {
            taxon,
            characters: Character::ALL
                .into_iter()
                .filter_map(|character| judged(character, seen, ranges, taxon))
                .collect(),
        })
        .filter(|compared| !compared.characters.is_empty())
        .collect();
    compared.sort_by_key(|compared| {
        (
            compared.count(Agreement::SpeaksAgainst),
            std::cmp::Reverse(compared.count(Agreement::Agrees)),
        )
    });
    compared
}

fn judged<'a>(
    character: Character,
    seen: &Observation,
    ranges: &'a Ranges,
    taxon: &'a str,
) -> Option<Judged<'a>> {
    let mut statements: Vec<Statement<'a>> = ranges
        .of(taxon)
        .filter_map(|row| statement(character, seen, row))
        .collect();
    statements.sort_by_key(|statement| statement.agreement);
    Some(Judged {
        character,
        agreement: statements.first()?.agreement,
        seen: said(character, seen)?,
        statements,
    })
}

fn statement<'a>(
    character: Character,
    seen: &Observation,
    row: &'a Published,
) -> Option<Statement<'a>> {
    let of = |figure: Option<Estimate>, printed: &Printed, unit: &str| {
        let figure = figure?;
        (!printed.is_empty()).then(|| {
            (
                of_standing(printed.standing(figure.value, (figure.low, figure.high))),
                format!("{printed} {unit}"),
            )
        })
    };
    let (agreement, printed) = match character {
        Character::Surface => (of_surface(seen.surface?, row)?, row.underside()),
        Character::PoresPerMm => of(seen.pores_per_mm, &row.pores_per_mm, "per mm")?,
        Character::GillsPerMm => of(seen.gills_per_mm, &row.gills_per_mm, "per mm")?,
        Character::PoreWidth => of(seen.pore_width_mm, &row.pore_width_mm, "mm")?,
        Character::Host => (of_host(seen, row)?, host_printed(row)),
        Character::Colour => (of_colour(&seen.hues(), row)?, row.colour.clone()),
        Character::CapWidth => (
            of_cap(seen.cap_width_cm?, &row.cap_width_cm)?,
            format!("{} cm", row.cap_width_cm),
        ),
    };
    Some(Statement {
        agreement,
        printed,
        row,
    })
}

const fn of_standing(standing: Standing) -> Agreement {
    match standing {
        Standing::Within => Agreement::Agrees,
        Standing::Near => Agreement::Near,
        Standing::Outside => Agreement::SpeaksAgainst,
    }
}

/// Undersides that pass into one another with age are near: pores stretch to mazes, mazes to gills,
/// walls of all split to teeth. Nothing passes into a smooth crust.
fn of_surface(seen: SurfaceType, row: &Published) -> Option<Agreement> {
    use SurfaceType as S;
    let passes = |printed: &S| {
        matches!(
            (seen, *printed),
            (S::Poroid, S::MazeLike | S::Toothed)
                | (S::MazeLike, S::Poroid | S::Gilled | S::Toothed)
                | (S::Gilled | S::Toothed, S::MazeLike)
                | (S::Toothed, S::Poroid | S::Gilled)
                | (S::Gilled, S::Toothed)
        )
    };
    if row.surfaces.is_empty() {
        None
    } else if row.surfaces.contains(&seen) {
        Some(Agreement::Agrees)
    } else if row.surfaces.iter().any(passes) {
        Some(Agreement::Near)
    } else {
        Some(Agreement::SpeaksAgainst)
    }
}

/// A wood that a source calls rare is near; so is the right wood of another genus than those named.
fn of_host(seen: &Observation, row: &Published) -> Option<Agreement> {
    let is_named = |genus: &String| row.genera.iter().any(|g| g.eq_ignore_ascii_case(genus));
    if seen.host.genus.as_ref().is_some_and(is_named) {
        return Some(Agreement::Agrees);
    }
    if row.woods.is_empty() {
        return None;
    }
    let is_rare = row.woods.get(&seen.host.wood?);
    let is_other_genus = seen.host.genus.is_some() && !row.genera.is_empty();
    Some(match is_rare {
        None => Agreement::SpeaksAgainst,
        Some(false) if !is_other_genus => Agreement::Agrees,
        Some(_) => Agreement::Near,
    })
}

fn host_printed(row: &Published) -> String {
    let woods = |rare: bool| -> Vec<&str> {
        let of = |(wood, is_rare): (&Wood, &bool)| (*is_rare == rare).then_some(wood.word());
        row.woods.iter().filter_map(of).collect()
    };
    let mut text = woods(false).join(" and ");
    if !woods(true).is_empty() {
        text = format!("{text}, rarely {}", woods(true).join(" and "));
    }
    if !row.genera.is_empty() {
        text = format!("{text} ({})", row.genera.join(", "));
    }
    text
}

/// Any family in common agrees: a source gives the range of all ages, a specimen has one.
fn of_colour(seen: &BTreeSet<Hue>, row: &Published) -> Option<Agreement> {
    if seen.is_empty() || row.hues.is_empty() {
        None
    } else if !seen.is_disjoint(&row.hues) {
        Some(Agreement::Agrees)
    } else if seen.iter().any(|a| row.hues.iter().any(|b| a.is_near(*b))) {
        Some(Agreement::Near)
    } else {
        Some(Agreement::SpeaksAgainst)
    }
}

/// A cap narrower than printed may be young, so that is near at worst.
fn of_cap(width_cm: f64, printed: &Printed) -> Option<Agreement> {
    if printed.is_empty() {
        return None;
    }
    let (low, high) = printed.usual();
    Some(if (low..=high).contains(&width_cm) {
        Agreement::Agrees
    } else if width_cm < low || width_cm <= WIDE_CAP * high {
        Agreement::Near
    } else {
        Agreement::SpeaksAgainst
    })
}

/// What was seen, in words.
fn said(character: Character, seen: &Observation) -> Option<String> {
    let figure = |estimate: Option<Estimate>, unit: &str| {
        estimate.map(|e| format!("{:.2} ({:.2}–{:.2}) {unit}", e.value, e.low, e.high))
    };
    match character {
        Character::Surface => seen.surface.map(|kind| kind.word().to_owned()),
        Character::PoresPerMm => figure(seen.pores_per_mm, "per mm"),
        Character::GillsPerMm => figure(seen.gills_per_mm, "per mm"),
        Character::PoreWidth => figure(seen.pore_width_mm, "mm"),
        Character::Host => match (seen.host.wood, &seen.host.genus) {
            (Some(wood), Some(genus)) => Some(format!("{} ({genus})", wood.word())),
            (Some(wood), None) => Some(wood.word().to_owned()),
            (None, genus) => genus.clone(),
        },
        Character::Colour => seen.colour.clone(),
        Character::CapWidth => seen.cap_width_cm.map(|cm| format!("{cm} cm")),
    }
}

#[cfg(test)]
mod tests {
    use super::super::character::Host;
    use super::*;

    fn exactly(value: f64) -> Estimate {
        Estimate {
            value,
            low: value - 0.1,
            high: value + 0.1,
        }
    }

    fn poroid(per_mm: f64, wood: Wood, colour: &str) -> Observation {
        Observation {
            surface: Some(SurfaceType::Poroid),
            pores_per_mm: Some(exactly(per_mm)),
            host: Host {
                wood: Some(wood),
                genus: None,
            },
            colour: Some(colour.to_owned()),
            ..Observation::default()
        }
    }

    fn of<'a>(compared: &'a [Compared<'a>], taxon: &str) -> &'a Compared<'a> {
        compared
            .iter()
            .find(|compared| compared.taxon == taxon)
            .unwrap_or_else(|| panic!("{taxon} is not in the list"))
    }

    #[test]
    fn look_alikes_from_above_part_below() {
        // Thin zoned caps on a hardwood log: 4.6 pores per mm against a smooth crust, violet teeth.
        let ranges = Ranges::shipped().expect("the shipped table");
        let compared = compare(&poroid(4.6, Wood::Hardwood, "cream"), &ranges);
        let versicolor = of(&compared, "Trametes versicolor");
        assert_eq!(versicolor.count(Agreement::Agrees), 4);
        assert_eq!(versicolor.count(Agreement::SpeaksAgainst), 0);
        let stereum = of(&compared, "Stereum ostrea");
        assert_eq!(stereum.characters[0].agreement, Agreement::SpeaksAgainst);
        let gibbosa = of(&compared, "Trametes gibbosa");
        assert_eq!(gibbosa.characters[1].agreement, Agreement::SpeaksAgainst);
        let place = |taxon| compared.iter().position(|c| c.taxon == taxon);
        assert!(place("Trametes versicolor") < place("Trametes gibbosa"));
        assert!(place("Trametes gibbosa") < place("Stereum ostrea"));
    }

    #[test]
    fn sources_stay_apart_and_the_best_counts() {
        // 6.4 per mm: Grand prints 4–5, Emberger 3–5 of T. versicolor; of P. igniarius Gilbertson
        // prints 5–6, Murrill 3–4, Phillips 4–6.
        let ranges = Ranges::shipped().expect("the shipped table");
        let compared = compare(&poroid(6.4, Wood::Hardwood, "brown"), &ranges);
        let igniarius = of(&compared, "Phellinus igniarius");
        let per_mm = &igniarius.characters[1];
        assert_eq!(per_mm.agreement, Agreement::Agrees);
        assert_eq!(per_mm.statements.len(), 3);
        assert_eq!(per_mm.statements[2].agreement, Agreement::SpeaksAgainst);
        assert!(per_mm.statements[2].row.source.contains("Murrill"));
        assert_eq!(per_mm.seen, "6.40 (6.30–6.50) per mm");
    }

    #[test]
    fn a_rare_wood_is_near_and_a_named_genus_agrees() {
        let ranges = Ranges::shipped().expect("the shipped table");
        let host = |wood, genus: Option<&str>, taxon: &str| {
            let seen = Observation {
                host: Host {
                    wood,
                    genus: genus.map(str::to_owned),
                },
                ..Observation::default()
            };
            of(&compare(&seen, &ranges), taxon).characters[0].agreement
        };
        let conifer = Some(Wood::Conifer);
        let hardwood = Some(Wood::Hardwood);
        assert_eq!(host(conifer, None, "Trametes versicolor"), Agreement::Near);
        assert_eq!(
            host(conifer, None, "Trametes gibbosa"),
            Agreement::SpeaksAgainst
        );
        assert_eq!(
            host(hardwood, Some("Fagus"), "Trametes gibbosa"),
            Agreement::Agrees
        );
        assert_eq!(
            host(hardwood, Some("Tilia"), "Trametes gibbosa"),
            Agreement::Near
        );
        assert_eq!(
            host(None, Some("betula"), "Fomitopsis betulina"),
            Agreement::Agrees
        );
    }

    #[test]
    fn a_young_cap_never_speaks_against() {
        let printed = Printed {
            low: Some(2.0),
            high: Some(8.0),
            step: 1.0,
            ..Printed::default()
        };
        for (width, agreement) in [
            (0.5, Agreement::Near),
            (5.0, Agreement::Agrees),
            (10.0, Agreement::Near),
            (20.0, Agreement::SpeaksAgainst),
        ] {
            assert_eq!(of_cap(width, &printed), Some(agreement), "{width}");
        }
    }

    #[test]
    fn nothing_seen_compares_with_nothing() {
        let ranges = Ranges::shipped().expect("the shipped table");
        assert!(compare(&Observation::default(), &ranges).is_empty());
    }
}
