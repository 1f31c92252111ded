//! What was seen against published ranges, in words.

use crate::ranges::{Agreement, Compared, Look, Observation, Ranges, compare, next_look};
use crate::wording::{self, text};

/// Taxa shown: more than a page of them helps nobody.
const SHOWN: usize = 8;

/// A comparison as it is shown.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Comparison {
    /// What was compared.
    pub of: String,
    /// Taxa, those with least against them first.
    pub taxa: Vec<Taxon>,
    /// How many more the table has something of.
    pub more: usize,
    /// What to look at next.
    pub next: Option<Next>,
}

/// One taxon of the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taxon {
    /// Its accepted name.
    pub name: String,
    /// How many characters stand how.
    pub tally: String,
    /// Character by character.
    pub characters: Vec<Character>,
}

/// One character of one taxon.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Character {
    /// Which.
    pub label: &'static str,
    /// How what was seen stands to it.
    pub agreement: Agreement,
    /// What was seen.
    pub seen: String,
    /// What each source prints, the best first.
    pub printed: Vec<String>,
}

/// How to tell the first two taxa apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Next {
    /// The two.
    pub taxa: [String; 2],
    /// What to look at, a sentence each; empty where all that is printed of them agrees.
    pub looks: Vec<String>,
}

impl Comparison {
    /// Compares what was seen; `of` tells what that was.
    pub(super) fn made(of: String, seen: &Observation, ranges: &Ranges) -> Self {
        let compared = compare(seen, ranges);
        let next = next_look(&compared, seen, ranges).map(|next| Next {
            taxa: next.taxa.map(str::to_owned),
            looks: next.looks.iter().map(Look::in_words).collect(),
        });
        let taxa: Vec<Taxon> = (compared.iter().enumerate())
            .filter(|(at, one)| *at < SHOWN || one.is_own_and_fits())
            .map(|(_, one)| taxon(one))
            .collect();
        Self {
            of,
            more: compared.len() - taxa.len(),
            taxa,
            next,
        }
    }
}

fn taxon(compared: &Compared<'_>) -> Taxon {
    let count = |agreement| compared.count(agreement);
    Taxon {
        name: compared.taxon.to_owned(),
        tally: text!(
            "agreement-in-numbers",
            agrees = count(Agreement::Agrees),
            near = count(Agreement::Near),
            against = count(Agreement::SpeaksAgainst)
        ),
        characters: compared
            .characters
            .iter()
            .map(|judged| Character {
                label: wording::word(judged.character.label()),
                agreement: judged.agreement,
                seen: judged.seen.clone(),
                printed: judged
                    .statements
                    .iter()
                    .map(|said| format!("{} ({})", said.printed, said.row.said_by()))
                    .collect(),
            })
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::Estimate;
    use crate::surface::SurfaceType;

    #[test]
    fn figures_stand_with_their_sources_and_the_two_nearest_are_told_apart() {
        let ranges = Ranges::shipped().expect("the shipped table");
        let seen = Observation {
            surface: Some(SurfaceType::Poroid),
            pores_per_mm: Some(Estimate {
                value: 3.5,
                low: 3.3,
                high: 3.7,
            }),
            ..Observation::default()
        };
        let made = Comparison::made("a photo".to_owned(), &seen, &ranges);
        assert_eq!(made.taxa.len(), SHOWN);
        // Emberger, Fungi Growing on Wood: Bjerkandera fumosa 2–5 per mm.
        let fumosa = made.taxa.iter().find(|t| t.name == "Bjerkandera fumosa");
        let per_mm = &fumosa.expect("it agrees").characters[1];
        assert_eq!(per_mm.agreement, Agreement::Agrees);
        assert!(
            per_mm
                .printed
                .iter()
                .any(|p| p.starts_with("2–5 per mm (Emberger"))
        );
        assert!(made.next.expect("two at least").looks.len() <= 3);
        let nothing = Comparison::made(String::new(), &Observation::default(), &ranges);
        assert_eq!(nothing, Comparison::default());
    }
}
