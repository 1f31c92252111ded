//! What was written down of a voucher, and the names it had.

use super::{Block, Shown, Table};
use crate::book::{BookCard, Determination, Voucher};
use crate::export::book_text;
use crate::export::darwin_core::{Place, Places};

/// A voucher to report on.
#[derive(Debug, Clone, PartialEq)]
pub struct Told<'a> {
    /// The book it is of.
    pub card: &'a BookCard,
    /// Its record.
    pub voucher: &'a Voucher,
    /// The foray it was collected on, as people call it.
    pub walk: Option<String>,
    /// How much is told of where it was found.
    pub places: Places,
    /// What can be shown of each photo that was measured, in the order of
    /// [`Voucher::current`].
    pub shown: Vec<Shown>,
}

/// Number and name, as a heading.
pub(super) fn heading(voucher: &Voucher) -> String {
    let name = voucher.name();
    format!(
        "{} · {}",
        voucher.catalog_number,
        name.as_deref().unwrap_or("not named yet")
    )
}

/// Who collected it, when and where, in a line.
pub(super) fn origin(told: &Told<'_>) -> String {
    let voucher = told.voucher;
    let place = Place::of(voucher, told.places);
    let parts = [
        Some(told.card.dataset_name.clone()),
        voucher
            .recorded_by
            .as_ref()
            .map(|who| format!("leg. {who}")),
        voucher.event_date.clone(),
        place.locality,
        voucher
            .identified_by
            .as_ref()
            .map(|who| format!("det. {who}")),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(" · ")
}

/// The record's fields, and the history of its names.
pub(super) fn record(told: &Told<'_>) -> Vec<Block> {
    let place = Place::of(told.voucher, told.places);
    let voucher = Voucher {
        locality: place.locality,
        decimal_latitude: place.latitude,
        decimal_longitude: place.longitude,
        coordinate_uncertainty_in_meters: place.uncertainty_m,
        data_generalizations: place.generalizations,
        ..told.voucher.clone()
    };
    let mut rows = vec![["number".to_owned(), voucher.catalog_number.clone()]];
    rows.extend(book_text::record(&voucher, told.walk.clone()));
    if let Some(withheld) = place.withheld {
        rows.push(["not told".to_owned(), withheld.to_owned()]);
    }
    rows.push(["identifier".to_owned(), voucher.occurrence_id.clone()]);
    vec![
        Block::Heading("Record".to_owned()),
        Block::Table(Table::of_pairs(rows)),
        Block::Heading("Names".to_owned()),
        names(&voucher),
    ]
}

/// The names it was given, the newest first.
fn names(voucher: &Voucher) -> Block {
    let present = voucher
        .scientific_name
        .clone()
        .map(|scientific_name| Determination {
            scientific_name,
            identification_qualifier: voucher.identification_qualifier.clone(),
            identified_by: voucher.identified_by.clone(),
            date_identified: voucher.date_identified.clone(),
            identification_remarks: voucher.identification_remarks.clone(),
        });
    let former = voucher.former_determinations.iter().rev().cloned();
    let rows: Vec<Vec<String>> = present
        .into_iter()
        .chain(former)
        .map(|one| {
            let name = one.name();
            let mut row = vec![name];
            for cell in [
                one.identified_by,
                one.date_identified,
                one.identification_remarks,
            ] {
                row.push(cell.unwrap_or_default());
            }
            row
        })
        .collect();
    if rows.is_empty() {
        return Block::Text("It has not been given a name yet.".to_owned());
    }
    let head = ["name", "given by", "on", "because"];
    Block::Table(Table {
        head: head.map(str::to_owned).to_vec(),
        rows,
    })
}
