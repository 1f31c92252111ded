//! A book as text for people to read.

use super::comparison::cautions;
use super::digits::{significant, with_interval};
use super::table::columns;
use crate::book::{
    Attached, Complaint, Determination, Foray, Frequency, MONTHS, PhotoFigures, Versions, Voucher,
    VoucherFigures,
};
use crate::findings::Estimate;
use crate::statistics::Pooled;
use crate::surface::SurfaceType;
use serde_json::{Value, json};
use std::fmt::Write as _;

/// Vouchers, one a line: number, date, name, place, underside, figure per mm.
#[must_use]
pub fn list<'a>(vouchers: impl IntoIterator<Item = &'a Voucher>) -> String {
    let rows: Vec<[String; 6]> = vouchers
        .into_iter()
        .map(|voucher| {
            let figures = VoucherFigures::of(voucher);
            let per_mm = figures.per_mm.map(|p| significant(p.mean, 3));
            [
                voucher.catalog_number.clone(),
                voucher.event_date.clone().unwrap_or_default(),
                voucher.name().unwrap_or_default(),
                voucher.locality.clone().unwrap_or_default(),
                figures
                    .surface
                    .map_or_else(String::new, |kind| kind.word().to_owned()),
                per_mm.map_or_else(String::new, |figure| format!("{figure} per mm")),
            ]
        })
        .collect();
    let has_names = rows.iter().any(|row| !row[2].is_empty());
    let mut text = columns(&rows);
    if has_names {
        text.push_str(&cautions());
    }
    text
}

/// Everything of a voucher; `walk` is the title of the foray it was collected on.
#[must_use]
pub fn voucher(voucher: &Voucher, walk: Option<String>) -> String {
    let mut rows = named(voucher);
    rows.extend(record(voucher, walk));
    rows.extend(photos(voucher));
    rows.extend(figures(voucher));
    let mut text = format!("{}\n", voucher.catalog_number);
    for line in columns(&rows).lines() {
        // Writing to a string cannot fail.
        let _ = writeln!(text, "  {line}");
    }
    if voucher.name().is_some() || !voucher.former_determinations.is_empty() {
        text.push_str(&cautions());
    }
    text
}

/// The name of a voucher, and those it had.
fn named(voucher: &Voucher) -> Vec<[String; 2]> {
    let mut rows: Vec<[String; 2]> = Vec::new();
    let mut say = |label: &str, value: Option<String>| {
        if let Some(value) = value {
            rows.push([label.to_owned(), value]);
        }
    };
    say("name", voucher.name());
    say("given by", by(voucher));
    say("because", voucher.identification_remarks.clone());
    for former in &voucher.former_determinations {
        say("formerly", Some(formerly(former)));
    }
    rows
}

/// What was written down of a voucher, besides its names.
pub(super) fn record(voucher: &Voucher, walk: Option<String>) -> Vec<[String; 2]> {
    let mut rows: Vec<[String; 2]> = Vec::new();
    let mut say = |label: &str, value: Option<String>| {
        if let Some(value) = value {
            rows.push([label.to_owned(), value]);
        }
    };
    let place = match (voucher.decimal_latitude, voucher.decimal_longitude) {
        (Some(latitude), Some(longitude)) => {
            let within = voucher
                .coordinate_uncertainty_in_meters
                .map_or_else(String::new, |metres| format!(", within {metres} m"));
            Some(format!("{latitude}, {longitude}{within}"))
        }
        _ => None,
    };
    say("collected", voucher.event_date.clone());
    say("by", voucher.recorded_by.clone());
    say("place", voucher.locality.clone());
    say("country", voucher.country_code.clone());
    say("coordinates", place);
    say("coordinates are", voucher.data_generalizations.clone());
    say("foray", walk);
    say("habitat", voucher.habitat.clone());
    say("host wood", voucher.host_wood.clone());
    say("host", voucher.host_taxon.clone());
    say("substrate", voucher.substrate.clone());
    say("decay stage", voucher.decay_stage.clone());
    say(
        "cap width",
        voucher.cap_width_cm.map(|cm| format!("{cm} cm")),
    );
    say("zones", voucher.cap_zonation.clone());
    say("hairs", voucher.hairiness.clone());
    say("flexibility", voucher.flexibility.clone());
    say("underside colour", voucher.underside_colour.clone());
    say("smell", voucher.smell.clone());
    say("spore print", voucher.spore_print.clone());
    say("kept", voucher.disposition.clone());
    say("notes", voucher.occurrence_remarks.clone());
    rows
}

/// Photos, and what was measured on each, the newest first.
fn photos(voucher: &Voucher) -> Vec<[String; 2]> {
    let mut rows = Vec::new();
    for photo in &voucher.photos {
        rows.push(["photo".to_owned(), photo.path.clone()]);
        let measured = voucher.measurements.iter().rev();
        let of_it = measured.filter(|attached| attached.photo() == Some(&photo.sha256));
        for (at, attached) in of_it.enumerate() {
            let label = if at == 0 { "measured" } else { "before that" };
            rows.push([label.to_owned(), measurement(attached)]);
        }
    }
    rows
}

/// When and by whom, the kind of underside, and the figures.
fn measurement(attached: &Attached) -> String {
    let figures = PhotoFigures::of(attached);
    let by = attached
        .measurement_determined_by
        .as_ref()
        .map_or_else(String::new, |who| format!(" by {who}"));
    let kind = figures.surface.map_or("undecided", SurfaceType::word);
    let mut said = vec![
        format!("{}{by}", attached.measurement_determined_date),
        kind.to_owned(),
    ];
    said.extend(figures.handbook);
    if let Some(per_mm) = &figures.per_mm {
        said.push(format!("{} per mm", with_interval(per_mm)));
    }
    said.join("; ")
}

/// What all photos of a voucher say.
pub(super) fn figures(voucher: &Voucher) -> Vec<[String; 2]> {
    let figures = VoucherFigures::of(voucher);
    let mut rows: Vec<[String; 2]> = Vec::new();
    let mut say = |label: &str, value: Option<String>| {
        if let Some(value) = value {
            rows.push([label.to_owned(), value]);
        }
    };
    say(
        "underside",
        figures.surface.map(|kind| {
            let mixed = if figures.is_mixed {
                "; photos show different kinds"
            } else {
                ""
            };
            format!("{}{mixed}", kind.word())
        }),
    );
    if let [only] = &figures.photos[..] {
        say("handbook", only.handbook.clone());
    }
    say("per mm", figures.per_mm.map(|p| pooled(p, "")));
    say(
        "pore diameter",
        figures.diameter_mm.map(|p| pooled(p, " mm")),
    );
    rows
}

fn by(voucher: &Voucher) -> Option<String> {
    let who = voucher.identified_by.clone()?;
    Some(match &voucher.date_identified {
        Some(date) => format!("{who}, {date}"),
        None => who,
    })
}

fn formerly(former: &Determination) -> String {
    let rest = [&former.identified_by, &former.date_identified];
    let mut text = former.name();
    for part in rest.into_iter().flatten() {
        text.push_str(", ");
        text.push_str(part);
    }
    text
}

fn pooled(pooled: Pooled, unit: &str) -> String {
    let (low, high) = pooled.interval();
    let figure = with_interval(&Estimate {
        value: pooled.mean,
        low,
        high,
    });
    let photos = match pooled.photos {
        1 => "one photo".to_owned(),
        n => format!("{n} photos"),
    };
    format!("{figure}{unit}, from {photos}")
}

/// What is wrong in a book, one a line; a sentence where nothing is.
#[must_use]
pub fn complaints(found: &[Complaint]) -> String {
    if found.is_empty() {
        return "nothing is wrong\n".to_owned();
    }
    found.iter().fold(String::new(), |mut text, complaint| {
        // Writing to a string cannot fail.
        let _ = writeln!(
            text,
            "{}: {}: {} [{}]",
            complaint.gravity.word(),
            complaint.record,
            complaint.text,
            complaint.code
        );
        text
    })
}

/// The same for scripts, one JSON object a line.
#[must_use]
pub fn complaints_json(found: &[Complaint]) -> String {
    let line = |complaint: &Complaint| {
        let object = json!({
            "record": complaint.record,
            "gravity": complaint.gravity.word(),
            "code": complaint.code,
            "text": complaint.text,
        });
        format!("{object}\n")
    };
    found.iter().map(line).collect()
}

/// Fields that two versions of a voucher hold something else in, one a line; empty where there are none.
#[must_use]
pub fn disputed(versions: &Versions) -> String {
    let said = |value: Option<&Value>| match value {
        None => "nothing".to_owned(),
        Some(Value::String(text)) => text.clone(),
        Some(Value::Array(list)) => format!("{} of them", list.len()),
        Some(value) => value.to_string(),
    };
    let rows: Vec<[String; 3]> = versions
        .disputed()
        .map(|(key, mine, theirs)| {
            [
                key.to_owned(),
                format!("book: {}", said(mine.as_ref())),
                format!("other: {}", said(theirs)),
            ]
        })
        .collect();
    columns(&rows)
}

/// A walk with its checklist.
#[must_use]
pub fn foray(foray: &Foray) -> String {
    let counted = foray
        .people_count
        .map_or_else(String::new, |n| format!(", {n} people"));
    let mut text = format!("{}{counted}\n", foray.title());
    for line in foray
        .event_remarks
        .iter()
        .flat_map(|remarks| remarks.lines())
    {
        // Writing to a string cannot fail.
        let _ = writeln!(text, "  {line}");
    }
    if foray.checklist.is_empty() {
        text.push_str("  nothing was seen on it\n");
        return text;
    }
    let rows: Vec<[String; 3]> = foray
        .checklist
        .iter()
        .map(|sighting| {
            [
                sighting.name(),
                sighting.catalog_number.clone().unwrap_or_default(),
                sighting.occurrence_remarks.clone().unwrap_or_default(),
            ]
        })
        .collect();
    for line in columns(&rows).lines() {
        let _ = writeln!(text, "  {line}");
    }
    text + &cautions()
}

/// Walks, one a line: date, place, people, how many taxa.
#[must_use]
pub fn forays<'a>(forays: impl IntoIterator<Item = &'a Foray>) -> String {
    let rows: Vec<[String; 4]> = forays
        .into_iter()
        .map(|foray| {
            let counted = |n: usize, one: &str, many: &str| match n {
                1 => format!("1 {one}"),
                n => format!("{n} {many}"),
            };
            [
                foray.event_date.clone(),
                foray.locality.clone(),
                foray
                    .people_count
                    .map_or_else(String::new, |n| counted(n as usize, "person", "people")),
                counted(foray.checklist.len(), "sighting", "sightings"),
            ]
        })
        .collect();
    columns(&rows)
}

/// How often each taxon was met.
#[must_use]
pub fn frequencies(frequencies: &[Frequency]) -> String {
    let rows: Vec<[String; 4]> = frequencies
        .iter()
        .map(|one| {
            [
                one.taxon.clone(),
                format!("on {} of {} walks", one.walks, one.of),
                format!(
                    "{:.0} % (95 % interval {:.0} to {:.0} %)",
                    100.0 * one.share,
                    100.0 * one.interval.0,
                    100.0 * one.interval.1
                ),
                format!("{} to {}", one.first, one.last),
            ]
        })
        .collect();
    if rows.is_empty() {
        return "no walk has a checklist yet\n".to_owned();
    }
    columns(&rows) + "\n" + &months(frequencies) + &cautions()
}

/// In which months each taxon was met, as bars of one letter.
fn months(frequencies: &[Frequency]) -> String {
    let head = |first: &str, cells: [String; 12]| -> [String; 13] {
        let mut cells = cells.into_iter();
        std::array::from_fn(|at| match at {
            0 => first.to_owned(),
            _ => cells.next().unwrap_or_default(),
        })
    };
    let walks = frequencies
        .first()
        .map_or([0; 12], |one| one.walks_by_month);
    let mut rows = vec![
        head("share of walks by month", MONTHS.map(str::to_owned)),
        head("walks", walks.map(|walks| walks.to_string())),
    ];
    for one in frequencies {
        let cells = std::array::from_fn(|month| bar(one.by_month[month], walks[month]));
        rows.push(head(&one.taxon, cells));
    }
    columns(&rows)
}

/// A bar as tall as the share of walks, in eighths, with the number of walks; nothing where none was
/// made.
fn bar(recorded: usize, walks: usize) -> String {
    const EIGHTHS: [char; 9] = [' ', '▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];
    if walks == 0 {
        return String::new();
    }
    // Met at all is seen at all.
    let eighths = (8 * recorded).div_ceil(walks).min(8);
    format!("{}{recorded}", EIGHTHS[eighths])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bars_are_as_tall_as_the_share_of_walks() {
        for (recorded, walks, expected) in [
            (0, 0, ""),
            (0, 3, " 0"),
            (1, 80, "▁1"),
            (1, 2, "▄1"),
            (5, 5, "█5"),
        ] {
            assert_eq!(bar(recorded, walks), expected, "{recorded} of {walks}");
        }
    }

    #[test]
    fn a_name_never_stands_without_the_cautions() {
        let mut record = Voucher::new("AF-1");
        assert!(!list([&record]).contains("Cautions"));
        assert!(!voucher(&record, None).contains("Cautions"));
        record.determine(Determination {
            scientific_name: "Trametes hirsuta".to_owned(),
            identified_by: Some("Ines Dunmore".to_owned()),
            ..Determination::default()
        });
        record.determine(Determination {
            scientific_name: "Trametes versicolor".to_owned(),
            identification_qualifier: Some("cf.".to_owned()),
            ..Determination::default()
        });
        assert!(list([&record]).ends_with(&cautions()));
        let text = voucher(&record, None);
        assert!(text.contains("name      Trametes cf. versicolor"), "{text}");
        assert!(
            text.contains("formerly  Trametes hirsuta, Ines Dunmore"),
            "{text}"
        );
        assert!(text.ends_with(&cautions()));
    }
}
