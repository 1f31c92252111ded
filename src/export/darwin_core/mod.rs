//! A book as a Darwin Core Archive, which collections and portals take in.
//!
//! A zip file of CSV tables, `meta.xml` that says what they are (Darwin Core text guide,
//! <https://dwc.tdwg.org/text/>), and `eml.xml` that says what the data set is. The core is one
//! occurrence a voucher; facts measured and seen hang on it, and so do photos, which are told by their
//! addresses and not packed in.
//!
//! The same book gives the same bytes: rows in the book's order, no clock, no compression that another
//! version might do otherwise. Text stays as it was written, but for line breaks, which become blanks.

mod fact;
mod media;
mod occurrence;
mod table;
mod xml;

pub use occurrence::Places;
pub(super) use occurrence::{Place, TERMS as OCCURRENCE_TERMS, row as occurrence_row};
pub(super) use table::name as term_name;

use crate::book::{BookCard, Voucher};
use sha2::{Digest as _, Sha256};
use std::collections::BTreeSet;
use std::io::{self, Cursor, Write as _};
use table::{Table, dwc};
use uuid::Builder;
use xml::DataSet;
use zip::result::ZipError;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

const META: &str = "meta.xml";
const EML: &str = "eml.xml";

/// What of a book goes out, and how.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ArchiveOptions {
    /// How much is told of places.
    pub places: Places,
    /// Address of the folder in which the photos lie on the web.
    pub photos_at: Option<String>,
    /// Day of publication, ISO 8601; the last day that any record names unless given.
    pub published: Option<String>,
}

/// Why a book did not become an archive.
#[derive(Debug, thiserror::Error)]
pub enum ArchiveError {
    /// No vouchers.
    #[error("the book has no vouchers to export; `poreline book add` adds one")]
    Nothing,
    /// Rows of a core have to be told apart.
    #[error(
        "several vouchers bear the identifier {0}, as copied files do; `poreline book check` says which and what to do"
    )]
    IdTwice(String),
    /// No day is known.
    #[error(
        "no record bears a date, so say when the data set is published: --published 2026-11-26"
    )]
    NoDate,
    /// A table could not be written to memory.
    #[error("a table could not be made: {0}")]
    Table(#[from] csv::Error),
    /// XML could not be written to memory.
    #[error("the archive's description could not be made: {0}")]
    Xml(#[from] io::Error),
    /// The zip file could not be written to memory.
    #[error("the archive could not be packed: {0}")]
    Zip(#[from] ZipError),
}

/// The archive's bytes.
///
/// # Errors
/// [`ArchiveError`].
pub fn archive(
    card: &BookCard,
    vouchers: &[&Voucher],
    options: &ArchiveOptions,
) -> Result<Vec<u8>, ArchiveError> {
    if vouchers.is_empty() {
        return Err(ArchiveError::Nothing);
    }
    let mut ids = BTreeSet::new();
    for voucher in vouchers {
        if !ids.insert(&voucher.occurrence_id) {
            return Err(ArchiveError::IdTwice(voucher.occurrence_id.clone()));
        }
    }
    let at = options.photos_at.as_deref().map(|at| {
        let at = at.trim_end_matches('/');
        format!("{at}/")
    });
    let every = |rows: &dyn Fn(&Voucher) -> Vec<Vec<String>>| -> Vec<Vec<String>> {
        vouchers.iter().flat_map(|voucher| rows(voucher)).collect()
    };
    let tables = [
        Table {
            file: "occurrence.csv",
            row_type: dwc!("Occurrence"),
            terms: &occurrence::TERMS,
            rows: every(&|voucher| vec![occurrence::row(card, voucher, options.places)]),
        },
        Table {
            file: "measurement.csv",
            row_type: dwc!("MeasurementOrFact"),
            terms: &fact::TERMS,
            rows: every(&fact::rows),
        },
        Table {
            file: "multimedia.csv",
            row_type: media::ROW_TYPE,
            terms: &media::TERMS,
            rows: every(&|voucher| media::rows(card, voucher, at.as_deref())),
        },
    ];
    let mut files: Vec<(&str, Vec<u8>)> = Vec::new();
    for table in &tables {
        files.push((table.file, table.csv()?));
    }
    let last = vouchers
        .iter()
        .filter_map(|voucher| last_day(voucher))
        .max();
    let published = (options.published.clone())
        .or(last)
        .ok_or(ArchiveError::NoDate)?;
    let set = DataSet {
        id: identifier(&files),
        title: &card.dataset_name,
        rights_holder: card.rights_holder.as_deref().unwrap_or(&card.dataset_name),
        license: card.license.as_deref(),
        published: &published,
        vouchers: vouchers.len(),
    };
    files.push((META, xml::meta(&tables)?));
    files.push((EML, xml::eml(&set)?));
    packed(&files)
}

/// The last day that a record names.
fn last_day(voucher: &Voucher) -> Option<String> {
    let measured = voucher
        .measurements
        .iter()
        .map(|attached| attached.measurement_determined_date.as_str());
    [&voucher.event_date, &voucher.date_identified]
        .into_iter()
        .filter_map(Option::as_deref)
        .chain(measured)
        .filter_map(|date| date.get(..10))
        .filter(|day| day.parse::<jiff::civil::Date>().is_ok())
        .max()
        .map(str::to_owned)
}

/// The same identifier for the same tables, and for no others.
fn identifier(files: &[(&str, Vec<u8>)]) -> String {
    let mut hash = Sha256::new();
    for (_, bytes) in files {
        hash.update(bytes);
    }
    let mut first = [0; 16];
    first.copy_from_slice(&hash.finalize()[..16]);
    Builder::from_custom_bytes(first)
        .into_uuid()
        .urn()
        .to_string()
}

fn packed(files: &[(&str, Vec<u8>)]) -> Result<Vec<u8>, ArchiveError> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Stored)
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    for (name, bytes) in files {
        zip.start_file(*name, options)?;
        zip.write_all(bytes)?;
    }
    Ok(zip.finish()?.into_inner())
}
