//! An open book as a list: what is shown of each voucher, filtered and sorted.

use crate::book::{
    Attached, Book, BookCard, Foray, Frequency, Index, Pattern, Voucher, VoucherFigures, counted,
    frequencies,
};
use crate::ranges::Ranges;
use crate::session::document::sentence;
use crate::session::format;
use crate::statistics::Pooled;
use crate::wording::{self, text};
use serde_json::Value;
use std::cmp::Ordering;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A column of the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Column {
    /// Catalogue number.
    Number,
    /// Date found.
    Date,
    /// Scientific name with its qualifier.
    Name,
    /// Place in words.
    Place,
    /// Kind of underside.
    Underside,
    /// Pooled figure per mm.
    PerMm,
}

impl Column {
    /// All, from left to right.
    pub const ALL: [Self; 6] = [
        Self::Number,
        Self::Date,
        Self::Name,
        Self::Place,
        Self::Underside,
        Self::PerMm,
    ];

    /// What stands over it.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Number => text!("number"),
            Self::Date => text!("found"),
            Self::Name => text!("name"),
            Self::Place => text!("place"),
            Self::Underside => text!("underside"),
            Self::PerMm => text!("per-mm"),
        }
    }
}

/// What is shown of a voucher.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The voucher.
    pub voucher: Arc<Voucher>,
    /// Its cells, in the order of [`Column::ALL`].
    pub cells: [String; 6],
    /// The figure that is sorted by.
    per_mm: Option<f64>,
    /// The photo to show, if there is one.
    pub photo: Option<PathBuf>,
}

impl Row {
    fn of(voucher: Arc<Voucher>, folder: &Path) -> Self {
        let figures = VoucherFigures::of(&voucher);
        let underside = match (figures.surface, figures.is_mixed) {
            (Some(kind), false) => wording::word(kind.word()).to_owned(),
            (Some(kind), true) => {
                text!("kind-of-not-all-photos", kind = wording::word(kind.word()))
            }
            (None, _) => String::new(),
        };
        Self {
            cells: [
                voucher.catalog_number.clone(),
                voucher.event_date.clone().unwrap_or_default(),
                voucher.name().unwrap_or_default(),
                voucher.locality.clone().unwrap_or_default(),
                underside,
                figures.per_mm.map(|p| as_sure(&p)).unwrap_or_default(),
            ],
            per_mm: figures.per_mm.map(|pooled| pooled.mean),
            photo: voucher.photos.first().map(|link| folder.join(&link.path)),
            voucher,
        }
    }

    /// The whole row as a sentence.
    #[must_use]
    pub fn in_words(&self) -> String {
        let said = |(column, cell): (Column, &String)| match (cell.is_empty(), column) {
            (true, _) => None,
            (false, Column::PerMm) => Some(text!("so-many-per-mm", figure = cell)),
            (false, _) => Some(cell.clone()),
        };
        let cells: Vec<String> = Column::ALL
            .into_iter()
            .zip(&self.cells)
            .filter_map(said)
            .collect();
        cells.join(", ")
    }

    /// Rows without an entry come last either way.
    fn by(&self, other: &Self, column: Column, is_falling: bool) -> Ordering {
        let turned = |order: Ordering| if is_falling { order.reverse() } else { order };
        if column == Column::PerMm {
            return match (self.per_mm, other.per_mm) {
                (Some(a), Some(b)) => turned(a.total_cmp(&b)),
                (a, b) => b.is_some().cmp(&a.is_some()),
            };
        }
        let cell = |row: &Self| row.cells[column as usize].to_lowercase();
        let (a, b) = (cell(self), cell(other));
        match (a.is_empty(), b.is_empty()) {
            (false, false) => turned(a.cmp(&b)),
            (a, b) => a.cmp(&b),
        }
    }
}

/// A book that is open in the window.
#[derive(Debug, Clone)]
pub struct OpenBook {
    folder: PathBuf,
    card: BookCard,
    rows: Vec<Row>,
    index: Index,
    faults: Vec<String>,
    ranges: Option<Ranges>,
    forays: Vec<Foray>,
    /// The same as they are counted.
    walks: Vec<Foray>,
    frequencies: Vec<Frequency>,
    filter: String,
    sorted_by: (Column, bool),
    shown: Vec<usize>,
}

impl OpenBook {
    /// A book as it was read.
    pub(super) fn of(book: &Book) -> Self {
        let vouchers: Vec<Voucher> = book.vouchers().cloned().collect();
        let mut faults: Vec<String> = (book.damaged().iter())
            .map(|one| {
                text!(
                    "a-file-is-damaged",
                    file = one.path.display(),
                    why = one.why
                )
            })
            .collect();
        let ranges = (book.ranges())
            .map_err(|error| faults.push(sentence(&error)))
            .ok();
        let mut open = Self {
            folder: book.folder().to_owned(),
            card: book.card.clone(),
            index: Index::of(&vouchers),
            rows: vouchers
                .into_iter()
                .map(|voucher| Row::of(Arc::new(voucher), book.folder()))
                .collect(),
            faults,
            ranges,
            forays: book.forays().cloned().collect(),
            walks: Vec::new(),
            frequencies: Vec::new(),
            filter: String::new(),
            sorted_by: (Column::Number, false),
            shown: Vec::new(),
        };
        open.count_walks();
        open.arrange();
        open
    }

    /// Where it is.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// What it is called.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.card.dataset_name
    }

    /// How many vouchers it has.
    #[must_use]
    pub const fn count(&self) -> usize {
        self.rows.len()
    }

    /// Files that could not be read, a sentence each.
    #[must_use]
    pub fn faults(&self) -> &[String] {
        &self.faults
    }

    /// Published ranges with the book's own; `None` where its table cannot be read.
    pub(super) const fn ranges(&self) -> Option<&Ranges> {
        self.ranges.as_ref()
    }

    /// Its walks as they are counted, by date: with the vouchers that were kept, under their names of
    /// now.
    #[must_use]
    pub fn walks(&self) -> &[Foray] {
        &self.walks
    }

    /// A walk by its identifier.
    #[must_use]
    pub fn walk(&self, id: &str) -> Option<&Foray> {
        self.walks.iter().find(|walk| walk.event_id == id)
    }

    /// How often each taxon was met.
    #[must_use]
    pub fn frequencies(&self) -> &[Frequency] {
        &self.frequencies
    }

    fn count_walks(&mut self) {
        let vouchers = self.rows.iter().map(|row| &*row.voucher);
        self.walks = counted(&self.forays, vouchers);
        self.frequencies = frequencies(&self.walks);
    }

    /// What is typed to find vouchers.
    #[must_use]
    pub fn filter(&self) -> &str {
        &self.filter
    }

    /// The column that is sorted by, and whether it falls.
    #[must_use]
    pub const fn sorted_by(&self) -> (Column, bool) {
        self.sorted_by
    }

    /// The rows that are shown, in order.
    #[must_use]
    pub fn shown(&self) -> impl ExactSizeIterator<Item = &Row> {
        self.shown.iter().map(|at| &self.rows[*at])
    }

    /// The row at a place of the list.
    #[must_use]
    pub fn row(&self, at: usize) -> Option<&Row> {
        self.rows.get(*self.shown.get(at)?)
    }

    /// A voucher by its identifier.
    #[must_use]
    pub fn voucher(&self, id: &str) -> Option<&Arc<Voucher>> {
        let row = self.rows.iter().find(|r| r.voucher.occurrence_id == id)?;
        Some(&row.voucher)
    }

    /// The voucher of a number.
    #[must_use]
    pub fn numbered(&self, number: &str) -> Option<&Arc<Voucher>> {
        let mut vouchers = self.rows.iter().map(|row| &row.voucher);
        vouchers.find(|voucher| voucher.catalog_number == number)
    }

    /// Another voucher than this that has such a photo.
    pub(super) fn other_with_photo(&self, sha256: &str, id: Option<&str>) -> Option<&Voucher> {
        let mut vouchers = self.rows.iter().map(|row| &*row.voucher);
        vouchers.find(|voucher| {
            let has_photo = voucher.photos.iter().any(|link| link.sha256 == sha256);
            has_photo && Some(voucher.occurrence_id.as_str()) != id
        })
    }

    /// Whether another voucher bears that number.
    pub(super) fn is_taken(&self, number: &str, id: &str) -> bool {
        self.rows
            .iter()
            .any(|row| row.voucher.catalog_number == number && row.voucher.occurrence_id != id)
    }

    /// The number that comes next; `None` where the book's pattern is none.
    pub(super) fn next_number(&self, year: i16) -> Option<String> {
        let taken = self.rows.iter().map(|r| r.voucher.catalog_number.as_str());
        let pattern = Pattern::new(&self.card.catalog_number_pattern).ok()?;
        Some(pattern.next(year, taken))
    }

    pub(super) fn find(&mut self, typed: String) {
        self.filter = typed;
        self.arrange();
    }

    /// Sorts by a column; once more by the same turns the order.
    pub(super) fn sort_by(&mut self, column: Column) {
        let (now, is_falling) = self.sorted_by;
        self.sorted_by = (column, now == column && !is_falling);
        self.arrange();
    }

    /// Filters and sorts as another list does.
    pub(super) fn arranged_like(&mut self, other: &Self) {
        self.filter.clone_from(&other.filter);
        self.sorted_by = other.sorted_by;
        self.arrange();
    }

    /// Takes in a voucher that was saved.
    pub(super) fn take(&mut self, voucher: Arc<Voucher>) {
        let at = self
            .rows
            .iter()
            .position(|row| row.voucher.occurrence_id == voucher.occurrence_id)
            .unwrap_or(self.rows.len());
        self.index.update(at, &voucher);
        let row = Row::of(voucher, &self.folder);
        match self.rows.get_mut(at) {
            Some(old) => *old = row,
            None => self.rows.push(row),
        }
        self.count_walks();
        self.arrange();
    }

    fn arrange(&mut self) {
        let (column, is_falling) = self.sorted_by;
        self.shown = self.index.find(&self.filter);
        self.shown
            .sort_by(|a, b| self.rows[*a].by(&self.rows[*b], column, is_falling));
    }
}

/// What a voucher's photos say together; `None` without a figure.
#[must_use]
pub fn pooled_in_words(voucher: &Voucher) -> Option<String> {
    let pooled = VoucherFigures::of(voucher).per_mm?;
    let (low, high) = pooled.interval();
    let [low, high] = [low, high].map(|end| format::as_sure_as(end, half_width(&pooled)));
    Some(text!(
        "pooled-figure",
        figure = as_sure(&pooled),
        low = low,
        high = high,
        count = pooled.photos
    ))
}

fn half_width(pooled: &Pooled) -> f64 {
    let (low, high) = pooled.interval();
    (high - low) / 2.0
}

fn as_sure(pooled: &Pooled) -> String {
    format::as_sure_as(pooled.mean, half_width(pooled))
}

/// A photo of a voucher, with what was measured on it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhotoLine {
    /// SHA-256 of the photo.
    pub sha256: String,
    /// The file's name.
    pub name: String,
    /// What was found; the newest measuring counts.
    pub found: String,
    /// When and by whom.
    pub measured: String,
    /// What was found before, the oldest first.
    pub earlier: Vec<String>,
}

/// A voucher's photos, in the order in which they came.
#[must_use]
pub fn photo_lines(voucher: &Voucher) -> Vec<PhotoLine> {
    voucher
        .photos
        .iter()
        .map(|link| {
            let all: Vec<&Attached> = voucher
                .measurements
                .iter()
                .filter(|attached| attached.photo() == Some(&link.sha256))
                .collect();
            let (newest, earlier) = match all.split_last() {
                Some((newest, earlier)) => (Some(*newest), earlier),
                None => (None, &[][..]),
            };
            let whole =
                |attached: &&Attached| format!("{}, {}", measured(attached), found(attached));
            PhotoLine {
                sha256: link.sha256.clone(),
                name: crate::session::file_name(Path::new(&link.path)),
                found: newest.map_or_else(|| text!("not-measured").to_owned(), found),
                measured: newest.map(measured).unwrap_or_default(),
                earlier: earlier.iter().map(whole).collect(),
            }
        })
        .collect()
}

/// The names a voucher had before, the newest first, each with who gave it, when and why.
#[must_use]
pub fn former_names(voucher: &Voucher) -> Vec<String> {
    let former = voucher.former_determinations.iter().rev();
    former
        .map(|one| {
            let by = one.identified_by.as_deref().unwrap_or(text!("somebody"));
            let on = one.date_identified.as_ref();
            let on = on.map_or_else(String::new, |date| text!("named-on-date", date = date));
            let why = one.identification_remarks.as_ref();
            let why = why.map_or_else(String::new, |reason| format!(": {reason}"));
            text!(
                "named-by-whom",
                name = one.name(),
                by = by,
                on = on,
                why = why
            )
        })
        .collect()
}

fn measured(attached: &Attached) -> String {
    let when = attached.measurement_determined_date.replace('T', " ");
    let when = when.get(..16).unwrap_or(&when);
    match &attached.measurement_determined_by {
        Some(who) => text!("measured-when-by-who", when = when, who = who),
        None => text!("measured-when", when = when),
    }
}

fn found(attached: &Attached) -> String {
    let findings = &attached.findings;
    let kind = findings.pointer("/surface/type").and_then(Value::as_str);
    let mut said = vec![text!(
        "kind-of-surface",
        kind = kind.unwrap_or(text!("unknown"))
    )];
    if let Some(phrase) = findings.pointer("/pores/handbook").and_then(Value::as_str) {
        said.push(phrase.to_owned());
    }
    let per_mm = ["pores", "teeth", "gills", "maze"]
        .iter()
        .find_map(|things| {
            findings
                .pointer(&format!("/{things}/per_mm/value"))?
                .as_f64()
        });
    if let Some(per_mm) = per_mm {
        said.push(text!("so-many-per-mm", figure = format::plain(per_mm)));
    }
    said.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn measured_at(number: &str, per_mm: Option<f64>) -> Voucher {
        let mut voucher = Voucher::new(number);
        if let Some(value) = per_mm {
            let findings = json!({
                "photo": {"sha256": number},
                "surface": {"type": "poroid"},
                "pores": {"per_mm": {"value": value, "low": value - 0.2, "high": value + 0.2}},
            });
            voucher.measurements.push(Attached {
                findings,
                ..Attached::default()
            });
        }
        voucher
    }

    fn open(vouchers: Vec<Voucher>) -> OpenBook {
        let folder = tempfile::tempdir().expect("a folder");
        let card = BookCard::new("a book", "AF-{number}");
        let mut book = Book::init(folder.path(), card).expect("a book");
        for voucher in vouchers {
            book.add_voucher(voucher).expect("added");
        }
        OpenBook::of(&book)
    }

    fn numbers(book: &OpenBook) -> Vec<&str> {
        book.shown().map(|row| row.cells[0].as_str()).collect()
    }

    #[test]
    fn the_list_is_sorted_by_the_figure_and_rows_without_one_come_last() {
        let mut book = open(vec![
            measured_at("AF-1", Some(10.0)),
            measured_at("AF-2", None),
            measured_at("AF-3", Some(4.0)),
        ]);
        assert_eq!(numbers(&book), ["AF-1", "AF-2", "AF-3"]);
        book.sort_by(Column::PerMm);
        assert_eq!(numbers(&book), ["AF-3", "AF-1", "AF-2"]);
        book.sort_by(Column::PerMm);
        assert_eq!(numbers(&book), ["AF-1", "AF-3", "AF-2"]);
    }

    #[test]
    fn what_is_typed_filters_and_a_saved_voucher_is_taken_in() {
        let mut book = open(vec![measured_at("AF-1", None), measured_at("AF-2", None)]);
        assert_eq!(book.next_number(2026).as_deref(), Some("AF-3"));
        let mut changed = Voucher::clone(&book.row(1).expect("a row").voucher);
        changed.smell = Some("anise".to_owned());
        book.take(Arc::new(changed));
        book.find("ANISE".to_owned());
        assert_eq!(numbers(&book), ["AF-2"]);
        book.take(Arc::new(Voucher::new("AF-3")));
        assert_eq!(numbers(&book), ["AF-2"]);
        book.find(String::new());
        assert_eq!(numbers(&book), ["AF-1", "AF-2", "AF-3"]);
    }
}
