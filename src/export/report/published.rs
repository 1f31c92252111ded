//! What published ranges a voucher agrees with, with numbered sources.

use super::{Block, Table};
use crate::book::{Voucher, observation};
use crate::export::comparison::NOT_ALL;
use crate::export::sources::Sources;
use crate::ranges::{Agreement, Compared, Judged, Ranges, compare, next_look};

/// Taxa told of besides the one that the voucher is named after.
const TOLD: usize = 5;

/// The comparison, the taxa with least against them first, and the one the voucher is named after.
pub(super) fn published(voucher: &Voucher, ranges: &Ranges) -> Vec<Block> {
    let mut blocks = vec![Block::Heading("Compared with published ranges".to_owned())];
    let seen = observation(voucher);
    let compared = compare(&seen, ranges);
    if compared.is_empty() {
        blocks.push(Block::Text(
            "Nothing was seen that the published ranges say anything of.".to_owned(),
        ));
        return blocks;
    }
    let is_named = |one: &Compared<'_>| voucher.scientific_name.as_deref() == Some(one.taxon);
    let told: Vec<&Compared<'_>> = (compared.iter().enumerate())
        .filter(|(at, one)| *at < TOLD || is_named(one) || one.is_own_and_fits())
        .map(|(_, one)| one)
        .collect();
    let mut sources = Sources::default();
    for one in &told {
        let count = |agreement| one.count(agreement);
        blocks.push(Block::Subheading(format!(
            "{}: agrees in {}, near in {}, speaks against in {}",
            one.taxon,
            count(Agreement::Agrees),
            count(Agreement::Near),
            count(Agreement::SpeaksAgainst)
        )));
        let head = ["character", "how it stands", "seen", "printed"];
        blocks.push(Block::Table(Table {
            head: head.map(str::to_owned).to_vec(),
            rows: (one.characters.iter())
                .map(|judged| row(judged, &mut sources))
                .collect(),
        }));
    }
    let rest = compared.len() - told.len();
    let more = match rest {
        0 => String::new(),
        1 => "One more taxon in the table agrees in less, or has more against it. ".to_owned(),
        n => format!("{n} more taxa in the table agree in less, or have more against them. "),
    };
    blocks.push(Block::Text(format!("{more}{}", NOT_ALL.join(" "))));
    if let Some(next) = next_look(&compared, &seen, ranges) {
        blocks.push(Block::Text(next.sentence()));
    }
    blocks.push(Block::Subheading("Sources".to_owned()));
    blocks.push(Block::Numbered(sources.all()));
    blocks
}

fn row(judged: &Judged<'_>, sources: &mut Sources) -> Vec<String> {
    let printed: Vec<String> = judged
        .statements
        .iter()
        .map(|statement| {
            let number = sources.number(statement.row.said_by());
            format!("{} [{number}]", statement.printed)
        })
        .collect();
    vec![
        judged.character.label().to_owned(),
        judged.agreement.label().to_owned(),
        judged.seen.clone(),
        printed.join("; "),
    ]
}
