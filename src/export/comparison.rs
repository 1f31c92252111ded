//! What a specimen agrees with, as text for people to read.

use super::table::columns;
use crate::ranges::{Agreement, CAUTIONS, Compared, Judged, Published, Ranges};
use std::fmt::Write as _;

/// Taxa shown: more than a page of them helps nobody.
const SHOWN: usize = 8;

/// What is to be kept in mind at every comparison.
pub(super) const NOT_ALL: [&str; 2] = [
    "Several taxa can agree with all that was seen, and none of them need be right: the table is",
    "far from complete, and what it lacks cannot agree.",
];

/// The comparison, the taxa with least against them first, with the cautions. `compared` as
/// [`compare`](crate::ranges::compare) sorts it.
#[must_use]
pub fn text(compared: &[Compared<'_>]) -> String {
    let mut text = String::from("Compared with published ranges\n");
    if compared.is_empty() {
        text.push_str("  nothing was seen that the published ranges say anything of\n");
        return text;
    }
    for one in compared.iter().take(SHOWN) {
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
        let rows: Vec<[String; 3]> = one.characters.iter().map(judged).collect();
        for line in columns(&rows).lines() {
            let _ = writeln!(text, "    {line}");
        }
    }
    let rest = compared.len().saturating_sub(SHOWN);
    if rest > 0 {
        let _ = writeln!(
            text,
            "\n  {rest} more taxa in the table agree in less, or have more against them"
        );
    }
    text.push('\n');
    for line in NOT_ALL {
        let _ = writeln!(text, "  {line}");
    }
    text.push_str(&cautions());
    text
}

fn judged(judged: &Judged<'_>) -> [String; 3] {
    let said: Vec<String> = judged
        .statements
        .iter()
        .map(|statement| format!("{} ({})", statement.printed, statement.row.source))
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
            words("underside", &row.hymenophore),
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
        let _ = writeln!(text, "{}, as printed by {}", row.taxon, row.source);
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
    use crate::ranges::{Host, Observation, Wood, compare};
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
        let text = text(&compare(&seen, &ranges));
        assert!(text.contains("speaks against in 0"), "{text}");
        assert!(
            text.contains("3.50 (3.30–3.70) per mm; printed: "),
            "{text}"
        );
        assert!(text.ends_with(&cautions()));
        assert!(
            super::text(&compare(&Observation::default(), &ranges)).contains("nothing was seen")
        );
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
