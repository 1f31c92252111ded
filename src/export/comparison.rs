//! What a specimen agrees with, as text for people to read.

use super::sources::Sources;
use super::table::columns;
use crate::ranges::{
    Agreement, CAUTIONS, Compared, Judged, Look, Observation, Published, Ranges, compare, next_look,
};
use std::fmt::Write as _;

/// Taxa shown: more than a page of them helps nobody.
const SHOWN: usize = 8;

/// What is to be kept in mind at every comparison.
pub(super) const NOT_ALL: [&str; 2] = [
    "Several taxa can agree with all that was seen, and none of them need be right: the table is",
    "far from complete, and what it lacks cannot agree.",
];

/// What was seen against published ranges, the taxa with least against them first, with what to look at
/// next and the cautions.
#[must_use]
pub fn text(seen: &Observation, ranges: &Ranges) -> String {
    let compared = compare(seen, ranges);
    let mut text = String::from("Compared with published ranges\n");
    if compared.is_empty() {
        text.push_str("  nothing was seen that the published ranges say anything of\n");
        return text;
    }
    let shown: Vec<&Compared<'_>> = (compared.iter().enumerate())
        .filter(|(at, one)| *at < SHOWN || one.is_own_and_fits())
        .map(|(_, one)| one)
        .collect();
    let mut sources = Sources::default();
    for one in &shown {
        let count = |agreement: Agreement| one.count(agreement);
        // Writing to a string cannot fail.
        let _ = writeln!(
            text,
            "\n  {}: agrees in {}, near in {}, speaks against in {}",
            one.taxon,
            count(Agreement::Agrees),
            count(Agreement::Near),
            count(Agreement::SpeaksAgainst)
        );
        let rows: Vec<[String; 3]> = (one.characters.iter())
            .map(|character| judged(character, &mut sources))
            .collect();
        for line in columns(&rows).lines() {
            let _ = writeln!(text, "    {line}");
        }
    }
    let rest = compared.len() - shown.len();
    if rest > 0 {
        let _ = writeln!(
            text,
            "\n  {rest} more taxa in the table agree in less, or have more against them"
        );
    }
    if let Some(next) = next_look(&compared, seen, ranges) {
        let [first, second] = next.taxa;
        let _ = writeln!(text, "\n  To tell {first} and {second} apart, look next at");
        if next.looks.is_empty() {
            text.push_str("    nothing in the table, which says the same of both; ask an expert\n");
        }
        for look in next.looks.iter().map(Look::in_words) {
            let _ = writeln!(text, "    {look}");
        }
    }
    text.push_str("\n  Sources\n");
    for (number, source) in (1..).zip(sources.all()) {
        let _ = writeln!(text, "    [{number}] {source}");
    }
    text.push('\n');
    for line in NOT_ALL {
        let _ = writeln!(text, "  {line}");
    }
    text.push_str(&cautions());
    text
}

fn judged(judged: &Judged<'_>, sources: &mut Sources) -> [String; 3] {
    let said: Vec<String> = judged
        .statements
        .iter()
        .map(|statement| {
            let number = sources.number(statement.row.said_by());
            format!("{} [{number}]", statement.printed)
        })
        .collect();
    [
        judged.character.label().to_owned(),
        judged.agreement.label().to_owned(),
        format!("{}; printed: {}", judged.seen, said.join("; ")),
    ]
}

/// All that the table has, one line a taxon.
#[must_use]
pub fn taxa(ranges: &Ranges) -> String {
    let rows: Vec<[String; 3]> = ranges
        .taxa()
        .into_iter()
        .map(|taxon| {
            let per_mm: Vec<String> = ranges
                .of(taxon)
                .filter(|row| !row.pores_per_mm.is_empty())
                .map(|row| row.pores_per_mm.to_string())
                .collect();
            let surfaces: Vec<&str> = ranges
                .of(taxon)
                .next()
                .into_iter()
                .flat_map(|row| row.surfaces.iter().map(|kind| kind.word()))
                .collect();
            let pores = if per_mm.is_empty() {
                String::new()
            } else {
                format!("pores {} per mm", per_mm.join(" or "))
            };
            [taxon.to_owned(), surfaces.join(", "), pores]
        })
        .collect();
    columns(&rows) + &cautions()
}

/// What each source prints of a taxon; empty where the table has none.
#[must_use]
pub fn printed<'a>(rows: impl IntoIterator<Item = &'a Published>) -> String {
    let mut text = String::new();
    for row in rows {
        let figure = |label: &str, range: &crate::ranges::Printed, unit: &str| {
            (!range.is_empty()).then(|| [label.to_owned(), format!("{range} {unit}")])
        };
        let words = |label: &str, words: &str| {
            (!words.is_empty()).then(|| [label.to_owned(), words.to_owned()])
        };
        let woods: Vec<String> = row
            .woods
            .iter()
            .map(|(wood, is_rare)| {
                let rarely = if *is_rare { "rarely " } else { "" };
                format!("{rarely}{}", wood.word())
            })
            .chain(row.genera.iter().cloned())
            .collect();
        let called = (row.name_in_source != row.taxon)
            .then(|| words("called there", &row.name_in_source))
            .flatten();
        let lines: Vec<[String; 2]> = [
            called,
            words("underside", &row.underside()),
            figure("pores", &row.pores_per_mm, "per mm"),
            figure("pore width", &row.pore_width_mm, "mm"),
            figure("gills", &row.gills_per_mm, "per mm"),
            words("host wood", &woods.join(", ")),
            words("colour", &row.colour),
            figure("cap width", &row.cap_width_cm, "cm"),
            words("read in", &row.seen),
        ]
        .into_iter()
        .flatten()
        .collect();
        // Writing to a string cannot fail.
        let _ = writeln!(text, "{}, as printed by {}", row.taxon, row.said_by());
        for line in columns(&lines).lines() {
            let _ = writeln!(text, "  {line}");
        }
    }
    if !text.is_empty() {
        text.push_str(&cautions());
    }
    text
}

/// The cautions with their heading, after an empty line.
#[must_use]
pub fn cautions() -> String {
    let mut text = String::from("\nCautions\n");
    for line in CAUTIONS.lines() {
        text.push_str("  ");
        text.push_str(line);
        text.push('\n');
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::Estimate;
    use crate::ranges::{Host, Wood};
    use crate::surface::SurfaceType;

    #[test]
    fn what_agrees_and_what_does_not_stands_with_its_source() {
        let ranges = Ranges::shipped().expect("the shipped table");
        // Chang, BCRC Fungi of Taiwan: Trametes hirsuta (2–)3–4 per mm.
        let seen = Observation {
            surface: Some(SurfaceType::Poroid),
            pores_per_mm: Some(Estimate {
                value: 3.5,
                low: 3.3,
                high: 3.7,
            }),
            host: Host {
                wood: Some(Wood::Hardwood),
                genus: None,
            },
            ..Observation::default()
        };
        let text = text(&seen, &ranges);
        assert!(text.contains("speaks against in 0"), "{text}");
        assert!(
            text.contains("3.50 (3.30–3.70) per mm; printed: "),
            "{text}"
        );
        assert!(text.ends_with(&cautions()));
        assert!(super::text(&Observation::default(), &ranges).contains("nothing was seen"));
    }

    #[test]
    fn names_never_stand_without_the_cautions() {
        let ranges = Ranges::shipped().expect("the shipped table");
        assert!(taxa(&ranges).ends_with(&cautions()));
        let of_one = printed(ranges.of("Trametes hirsuta"));
        assert!(of_one.contains("(2–)3–4 per mm"), "{of_one}");
        assert!(of_one.ends_with(&cautions()));
        assert_eq!(printed(ranges.of("Nomen nullum")), "");
    }
}
