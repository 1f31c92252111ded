//! All files that people open, made from records and lists: whenever they are made from the same ones,
//! the same bytes come out.

use super::facts::{Facts, doubles};
use super::gate::{self, Remark};
use super::groups::Grouping;
use super::results::{Results, ResultsError, Unfinished};
use super::run::PORES;
use super::run_list::{Extras, RunList, Seen, State};
use super::sheet::{Known, entry};
use crate::book::{VoucherFigures, guarded};
use crate::export::contact_sheet::ContactSheet;
use crate::export::parquet_table::{Kind, ParquetTable};
use crate::export::per_mm_plot::{self, Group};
use crate::export::photo_table::{self, PhotoRow};
use crate::export::{json, pore_table, trouble_table, voucher_table};
use crate::findings::Estimate;
use crate::ranges::CAUTIONS;
use serde_json::Value;
use std::collections::BTreeMap;
use std::io;
use std::path::Path;

/// Findings of all photos, one object a line.
pub const FINDINGS: &str = "findings.jsonl";
/// One row a photo.
pub const SUMMARY: &str = "summary.csv";
/// One row a pore.
pub const PORE_TABLE: &str = "pores.csv";
/// One row a photo, as Parquet.
pub const SUMMARY_PARQUET: &str = "summary.parquet";
/// One row a pore, as Parquet.
pub const PORES_PARQUET: &str = "pores.parquet";
/// One row a voucher.
pub const VOUCHERS: &str = "vouchers.csv";
/// What could not be measured.
pub const FAILURES: &str = "failures.csv";
/// What stands out.
pub const REMARKS: &str = "remarks.csv";
/// The page with all photos.
pub const CONTACT_SHEET: &str = "contact-sheet.html";
/// Figures per mm by group.
pub const PLOT: &str = "per-mm.svg";

/// What was made.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Made {
    /// Photos with findings, those with the same bytes counted each.
    pub photos: Vec<Facts>,
    /// Photos and folders that failed.
    pub failed: usize,
    /// Files that are no photos.
    pub no_photos: usize,
    /// What stands out.
    pub remarks: Vec<Remark>,
}

impl Results {
    /// Makes all files from what is kept.
    ///
    /// # Errors
    /// [`ResultsError`] where a record is gone or a file cannot be written. What was there before stays.
    pub fn derive(
        &self,
        list: &RunList,
        grouping: Option<&Grouping>,
    ) -> Result<Made, ResultsError> {
        let doubles = doubles(list);
        let voucher = |name: &str| grouping.and_then(|grouping| grouping.voucher(name));
        let mut made = Made::default();
        let mut troubles = Vec::new();
        let mut lines = self.begin(FINDINGS)?;
        for seen in &list.photos {
            let known = self.known(seen)?;
            if let Some((word, record)) = known.word.zip(known.record.as_ref()) {
                let same_as = doubles.get(known.name).map(|name| (*name).to_owned());
                made.photos.extend(Facts::of(
                    known.name,
                    word,
                    record,
                    voucher(known.name),
                    same_as,
                ));
            }
            if let Some(line) = line(&known) {
                lines.add(line.to_string().as_bytes())?;
                lines.add(b"\n")?;
            }
            troubles.extend(known.trouble);
        }
        lines.finish()?;
        made.failed = troubles.iter().filter(|row| row.is_photo).count();
        made.no_photos = troubles.len() - made.failed;
        self.write(FAILURES, &trouble_table::csv(&troubles)?)?;
        made.remarks = gate::remarks(&made.photos);
        self.write(REMARKS, &remark_table(&made.remarks)?)?;
        self.derive_plot(&made.photos, grouping.is_some())?;
        self.derive_vouchers(&made.photos, grouping.is_some())?;
        self.derive_pores(&made.photos, list.extras)?;
        self.derive_tables(list, &made)?;
        Ok(made)
    }

    fn known<'a>(&self, seen: &'a Seen) -> Result<Known<'a>, ResultsError> {
        let name = seen.name.as_str();
        let row = |is_photo: bool, cause: &str, remedy: &str| trouble_table::Row {
            name: name.to_owned(),
            is_photo,
            cause: cause.to_owned(),
            remedy: remedy.to_owned(),
        };
        let (word, record, trouble) = match &seen.state {
            State::Kept { record: word } => {
                let record = self.record_at(word)?;
                let trouble = record
                    .trouble
                    .as_ref()
                    .map(|trouble| row(true, &trouble.cause, &trouble.remedy));
                (Some(word.as_str()), Some(record), trouble)
            }
            State::Failed { cause, remedy } => (None, None, Some(row(true, cause, remedy))),
            State::NoPhoto { cause } => (
                None,
                None,
                Some(row(
                    false,
                    cause,
                    "nothing, if it is not meant to be a photo",
                )),
            ),
        };
        Ok(Known {
            name,
            word,
            record,
            trouble,
        })
    }

    /// The table of photos and the page with them, which go through the records once more: not all of
    /// them need be in memory.
    fn derive_tables(&self, list: &RunList, made: &Made) -> Result<(), ResultsError> {
        let mut of_photo: BTreeMap<&str, Vec<&Remark>> = BTreeMap::new();
        for remark in &made.remarks {
            if let Some(photo) = &remark.photo {
                of_photo.entry(photo).or_default().push(remark);
            }
        }
        let facts: BTreeMap<&str, &Facts> = made
            .photos
            .iter()
            .map(|facts| (facts.name.as_str(), facts))
            .collect();
        let of_series: Vec<String> = (made.remarks.iter())
            .filter(|remark| remark.photo.is_none())
            .map(|remark| remark.text.clone())
            .collect();
        let has_plot = self.folder().join(PLOT).is_file();
        let mut table = self.begin(SUMMARY)?;
        table.add(&photo_table::line(photo_table::COLUMNS)?)?;
        let columns = photo_table::COLUMNS.into_iter().zip(photo_table::KINDS);
        let mut parquet = self.begin_parquet(SUMMARY_PARQUET, list.extras.parquet, columns)?;
        let mut page = self.begin(CONTACT_SHEET)?;
        page.add(
            ContactSheet::beginning(&made.in_words(), has_plot.then_some(PLOT), &of_series)
                .as_bytes(),
        )?;
        for seen in &list.photos {
            let known = self.known(seen)?;
            let facts = facts.get(known.name).copied();
            let remarks = of_photo.get(known.name).map_or(&[][..], Vec::as_slice);
            if let Some((facts, findings)) = facts.zip(
                known
                    .record
                    .as_ref()
                    .and_then(|record| record.findings.as_ref()),
            ) {
                let codes: Vec<&str> = remarks.iter().map(|remark| remark.code).collect();
                let row = PhotoRow {
                    name: known.name,
                    voucher: facts.voucher.as_deref(),
                    findings,
                    blur_px: facts.blur_px,
                    remarks: &codes,
                    same_as: facts.same_as.as_deref(),
                };
                table.add(&photo_table::line(photo_table::row(&row))?)?;
                if let Some(parquet) = &mut parquet {
                    parquet.add(photo_table::cells(&row))?;
                }
            }
            if !matches!(seen.state, State::NoPhoto { .. }) {
                let entry = entry(&known, facts, remarks, list.extras.overlays);
                page.add(ContactSheet::row(&entry).as_bytes())?;
            }
        }
        page.add(ContactSheet::end(CAUTIONS).as_bytes())?;
        table.finish()?;
        finish_parquet(parquet)?;
        page.finish()
    }

    /// A Parquet table, where it is wanted; where not, one of an earlier run is taken away.
    fn begin_parquet(
        &self,
        name: &str,
        is_wanted: bool,
        columns: impl IntoIterator<Item = (&'static str, Kind)>,
    ) -> Result<Option<ParquetTable<Unfinished>>, ResultsError> {
        if !is_wanted {
            self.remove(name)?;
            return Ok(None);
        }
        Ok(Some(ParquetTable::new(self.begin(name)?, columns)?))
    }

    fn derive_pores(&self, photos: &[Facts], extras: Extras) -> Result<(), ResultsError> {
        let columns = pore_table::COLUMNS.into_iter().zip(pore_table::KINDS);
        let columns = [("photo", Kind::Text)].into_iter().chain(columns);
        let is_wanted = extras.pores && extras.parquet;
        let mut parquet = self.begin_parquet(PORES_PARQUET, is_wanted, columns)?;
        if !extras.pores {
            return self.remove(PORE_TABLE);
        }
        let mut table = self.begin(PORE_TABLE)?;
        let head = ["photo"].into_iter().chain(pore_table::COLUMNS);
        table.add(&photo_table::line(head)?)?;
        for photo in photos {
            let path = self.path_of(&photo.word, PORES);
            let unread = |error: csv::Error| ResultsError::NotRead {
                path: path.clone(),
                error: io::Error::other(error),
            };
            let mut rows = csv::Reader::from_path(&path).map_err(unread)?;
            let name = guarded(&photo.name);
            for row in rows.records() {
                let row = row.map_err(unread)?;
                table.add(&photo_table::line([name.as_str()].into_iter().chain(&row))?)?;
                if let Some(parquet) = &mut parquet {
                    parquet.add([photo.name.as_str()].into_iter().chain(&row))?;
                }
            }
        }
        finish_parquet(parquet)?;
        table.finish()
    }

    fn derive_vouchers(&self, photos: &[Facts], is_grouped: bool) -> Result<(), ResultsError> {
        if !is_grouped {
            return self.remove(VOUCHERS);
        }
        let figures = voucher_figures(photos);
        let rows = figures.iter().map(|(number, figures)| (*number, figures));
        self.write(VOUCHERS, &voucher_table::csv(rows)?)
    }

    fn derive_plot(&self, photos: &[Facts], is_grouped: bool) -> Result<(), ResultsError> {
        match per_mm_plot::svg(&plot_groups(photos, is_grouped)) {
            Some(picture) => self.write(PLOT, picture.as_bytes()),
            None => self.remove(PLOT),
        }
    }
}

fn finish_parquet(table: Option<ParquetTable<Unfinished>>) -> Result<(), ResultsError> {
    match table {
        Some(table) => table.finish()?.finish(),
        None => Ok(()),
    }
}

/// Figures of all vouchers, pooled over their photos.
#[must_use]
pub fn voucher_figures(photos: &[Facts]) -> BTreeMap<&str, VoucherFigures> {
    let once: Vec<&Facts> = photos.iter().filter(|p| p.same_as.is_none()).collect();
    gate::vouchers(&once)
        .into_iter()
        .map(|(number, photos)| {
            let figures = photos.into_iter().map(|photo| photo.figures.clone());
            (number, VoucherFigures::of_photos(figures.collect()))
        })
        .collect()
}

/// Vouchers, or else folders.
fn plot_groups(photos: &[Facts], is_grouped: bool) -> Vec<Group> {
    let mut groups: BTreeMap<String, Vec<&Facts>> = BTreeMap::new();
    for photo in photos.iter().filter(|photo| photo.same_as.is_none()) {
        let name = match &photo.voucher {
            Some(voucher) => voucher.clone(),
            None if is_grouped => "no voucher".to_owned(),
            None => match Path::new(&photo.name).parent() {
                Some(folder) if !folder.as_os_str().is_empty() => folder.display().to_string(),
                _ => "all photos".to_owned(),
            },
        };
        groups.entry(name).or_default().push(photo);
    }
    groups
        .into_iter()
        .map(|(name, photos)| {
            let figures: Vec<_> = photos.iter().map(|photo| photo.figures.clone()).collect();
            let is_one = photos.iter().all(|photo| photo.voucher.is_some());
            let pooled = VoucherFigures::of_photos(figures.clone()).per_mm;
            Group {
                name,
                photos: figures
                    .iter()
                    .filter_map(|figures| figures.per_mm)
                    .collect(),
                // Photos of different specimens have no figure in common.
                pooled: pooled.filter(|_| is_one).map(|pooled| {
                    let (low, high) = pooled.interval();
                    Estimate {
                        value: pooled.mean,
                        low,
                        high,
                    }
                }),
            }
        })
        .collect()
}

/// Findings, or why there are none, as a line; nothing of files that are no photos.
fn line(known: &Known<'_>) -> Option<Value> {
    let found = (known.record.as_ref()).and_then(|record| record.findings_of(known.name));
    found.or_else(|| Some(json::failure(Path::new(known.name), &known.said()?)))
}

/// Cause and remedy in one sentence.
#[must_use]
pub fn in_one(cause: &str, remedy: &str) -> String {
    if remedy.is_empty() {
        cause.to_owned()
    } else {
        format!("{cause}; {remedy}")
    }
}

fn remark_table(remarks: &[Remark]) -> Result<Vec<u8>, csv::Error> {
    let mut table = photo_table::line(["photo", "remark", "text"])?;
    for remark in remarks {
        let name = remark.photo.as_deref().unwrap_or_default();
        let cells = [name, remark.code, &remark.text].map(guarded);
        table.extend(photo_table::line(cells)?);
    }
    Ok(table)
}

impl Made {
    /// How many photos were measured, and what became of the others, in a sentence.
    #[must_use]
    pub fn in_words(&self) -> String {
        let count = |number: usize, one: &str, more: &str| {
            format!("{number} {}", if number == 1 { one } else { more })
        };
        let mut words = vec![format!(
            "{} measured",
            count(self.photos.len(), "photo", "photos")
        )];
        if self.failed > 0 {
            words.push(format!("{} not (see {FAILURES})", self.failed));
        }
        let doubles = self.photos.iter().filter(|p| p.same_as.is_some()).count();
        if doubles > 0 {
            words.push(format!("{doubles} there twice"));
        }
        if self.no_photos > 0 {
            let others = count(self.no_photos, "other file", "other files");
            words.push(format!("{others} left alone"));
        }
        let words = words.join(", ");
        match self.remarks.len() {
            0 => format!("{words}."),
            remarks => format!(
                "{words}. {} out (see {REMARKS}).",
                count(remarks, "thing stands", "things stand")
            ),
        }
    }
}
