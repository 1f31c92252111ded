//! What published ranges a voucher agrees with, with numbered sources.

use super::{Block, Table};
use crate::book::{Voucher, observation};
use crate::export::comparison::NOT_ALL;
use crate::ranges::{Agreement, Compared, Judged, Ranges, compare};

/// Taxa told of besides the one that the voucher is named after.
const TOLD: usize = 5;

/// Sources in the order in which they are named.
#[derive(Default)]
struct Sources<'a>(Vec<&'a str>);

impl<'a> Sources<'a> {
    /// Number of a source, from 1.
    fn number(&mut self, source: &'a str) -> usize {
        let known = self.0.iter().position(|known| *known == source);
        known.unwrap_or_else(|| {
            self.0.push(source);
            self.0.len() - 1
        }) + 1
    }
}

/// The comparison, the taxa with least against them first, and the one the voucher is named after.
pub(super) fn published(voucher: &Voucher, ranges: &Ranges) -> Vec<Block> {
    let mut blocks = vec![Block::Heading("Compared with published ranges".to_owned())];
    let compared = compare(&observation(voucher), ranges);
    if compared.is_empty() {
        blocks.push(Block::Text(
            "Nothing was seen that the published ranges say anything of.".to_owned(),
        ));
        return blocks;
    }
    let is_named = |one: &Compared<'_>| voucher.scientific_name.as_deref() == Some(one.taxon);
    let told: Vec<&Compared<'_>> = (compared.iter().enumerate())
        .filter(|(at, one)| *at < TOLD || is_named(one))
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
    blocks.push(Block::Subheading("Sources".to_owned()));
    blocks.push(Block::Numbered(
        sources.0.into_iter().map(str::to_owned).collect(),
    ));
    blocks
}

fn row<'a>(judged: &Judged<'a>, sources: &mut Sources<'a>) -> Vec<String> {
    let printed: Vec<String> = judged
        .statements
        .iter()
        .map(|statement| {
            let number = sources.number(&statement.row.source);
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
