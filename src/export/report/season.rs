//! In which months taxa were met: the share of walks of each month on which one was recorded.

use super::chart::{Bar, Chart};
use super::{Block, Report, Table};
use crate::book::{Frequency, MONTHS};
use crate::statistics::wilson;

/// One chart a taxon, in the order given; `book` is the book's name and `made` the day, ISO 8601.
#[must_use]
pub fn season(book: &str, frequencies: &[Frequency], made: &str) -> Report {
    let title = format!("{book}: months");
    let mut report = Report::new(&title, made);
    report.blocks.push(Block::Title(title));
    report.blocks.push(Block::Text(
        "Each bar is the share of the walks of a month, all years together, on which the taxon was \
         recorded. The thin line is its 95 % interval (Wilson 1927); below it stands on how many walks it was \
         recorded, of how many. A month with a dash had no walk, and says nothing about the taxon. Walks are \
         not made at random: what nobody looked for is not on their lists."
            .to_owned(),
    ));
    for one in frequencies {
        report.blocks.push(Block::Heading(one.taxon.clone()));
        report.blocks.push(Block::Chart(chart(one)));
    }
    if frequencies.is_empty() {
        report.blocks.push(Block::Text(
            "No walk has a checklist yet, or none that names what was asked for.".to_owned(),
        ));
    } else {
        report.blocks.push(Block::Heading("All years".to_owned()));
        report.blocks.push(Block::Table(all_years(frequencies)));
    }
    report.closed()
}

fn chart(one: &Frequency) -> Chart {
    let months = one.by_month.iter().zip(one.walks_by_month);
    let at = |month: usize| month as f64 + 0.5;
    let undated = one.of - one.walks_by_month.iter().sum::<usize>();
    let undated = match undated {
        0 => String::new(),
        1 => "; one walk tells no month and is left out".to_owned(),
        n => format!("; {n} walks tell no month and are left out"),
    };
    Chart {
        says: format!(
            "{}, recorded on {} of {} walks{undated}",
            one.taxon, one.walks, one.of
        ),
        bars: months
            .clone()
            .map(|(recorded, walks)| {
                if walks == 0 {
                    Bar::default()
                } else {
                    let share = *recorded as f64 / walks as f64;
                    Bar {
                        height: share,
                        interval: Some(wilson(*recorded, walks)),
                        says: format!("{:.0} %", 100.0 * share),
                    }
                }
            })
            .collect(),
        marks: vec![
            (MONTHS.iter().enumerate())
                .map(|(month, name)| (at(month), (*name).to_owned()))
                .collect(),
            months
                .enumerate()
                .map(|(month, (recorded, walks))| {
                    let words = match walks {
                        0 => "–".to_owned(),
                        _ => format!("{recorded} of {walks}"),
                    };
                    (at(month), words)
                })
                .collect(),
        ],
    }
}

fn all_years(frequencies: &[Frequency]) -> Table {
    let head = ["taxon", "walks", "share", "95 % interval", "first", "last"];
    let percent = |share: f64| format!("{:.0} %", 100.0 * share);
    Table {
        head: head.map(str::to_owned).to_vec(),
        rows: frequencies
            .iter()
            .map(|one| {
                vec![
                    one.taxon.clone(),
                    format!("{} of {}", one.walks, one.of),
                    percent(one.share),
                    format!("{} to {}", percent(one.interval.0), percent(one.interval.1)),
                    one.first.clone(),
                    one.last.clone(),
                ]
            })
            .collect(),
    }
}
