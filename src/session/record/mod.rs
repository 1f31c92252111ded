//! The book beside the photo: its list, the voucher being filled in, and what is compared.

mod again;
mod comparing;
mod comparison;
mod conflict;
mod desk;
mod fields;
mod form;
mod keeper;
mod listing;
mod outgoing;
mod thumbnails;
mod walks;
mod working;

pub use again::Again;
pub use comparison::{Character, Comparison, Next, Taxon};
pub use conflict::{Conflict, Disputed, Settling};
pub use fields::{Entry, FIELDS, Field, NAME, NAMED_BY, NUMBER, Part, QUALIFIER};
pub(super) use form::Draft;
pub use form::{Complaints, Form};
pub use listing::{Column, OpenBook, PhotoLine, Row, former_names, photo_lines, pooled_in_words};
pub use outgoing::Outgoing;
pub use thumbnails::Thumbnails;
pub use walks::{WalkForm, Walked};

use crate::Measurement;
use crate::book::{Attached, Complaint, Foray, Voucher};
use crate::export::darwin_core::Places;
use crate::ranges::Observation;
use crate::wording::text;
use desk::Desk;
use jiff::ZonedDateTime;
use keeper::Keeper;
use std::path::PathBuf;
use std::sync::Arc;

/// Something a person wants done with the book.
#[derive(Debug, Clone, PartialEq)]
pub enum BookCommand {
    /// Open the book in a folder.
    Open(PathBuf),
    /// Make a book in a folder, and open it.
    Make {
        /// Where.
        folder: PathBuf,
        /// What it is called.
        name: String,
        /// Pattern of its catalogue numbers.
        numbers: String,
    },
    /// Make the invented demo book, and open it.
    MakeDemo,
    /// Read the open book from the disk once more.
    ReadAnew,
    /// Show the vouchers that hold what is typed.
    Find(String),
    /// Sort the list by a column; once more turns the order.
    SortBy(Column),
    /// Fill in the voucher of this identifier.
    Pick(String),
    /// Fill in a new voucher.
    New,
    /// Drop what was typed since the voucher was saved.
    Drop,
    /// What stands in a field, as typed so far.
    Write(&'static str, String),
    /// Take day and place from the photo where nothing stands.
    TakeFromPhoto,
    /// Take the photo of this SHA-256 off the voucher, with what was measured on it; it is done once the
    /// voucher is saved.
    Detach(String),
    /// Tell the place by its cell of 0.1° only.
    BlurPlace,
    /// Write the voucher.
    Save,
    /// Who measures, as typed so far.
    WriteMeasuredBy(String),
    /// Attach the present findings to the voucher, and write it.
    Attach {
        /// Whether the photo is copied into the book.
        is_copied: bool,
    },
    /// What to make of a voucher that somebody else changed.
    Settle(Settling),
    /// Compare with published ranges from now on.
    Compare,
    /// Look for what is wrong in the book.
    Check,
    /// Show no longer what was found to be wrong.
    HideCheck,
    /// Make a file of the book.
    Export {
        /// Which.
        what: Outgoing,
        /// Where to.
        path: PathBuf,
        /// How much is told of places.
        places: Places,
    },
    /// Show the walk of this identifier.
    PickWalk(String),
    /// A walk or a sighting, as typed so far.
    WriteWalk(WalkForm),
    /// Add the walk that was typed.
    AddWalk,
    /// Add what was seen to the walk that is picked.
    AddSighting,
    /// Open a photo with the scale and the area that it was measured by.
    OpenAgain(Again),
}

/// A voucher on its way to the disk.
struct Sent {
    form: Form,
    /// What is attached with it.
    measurement: Option<Arc<Measurement>>,
}

/// Everything about the book.
#[derive(Default)]
pub struct Record {
    keeper: Option<Keeper>,
    doing: Option<&'static str>,
    makes_demo: bool,
    book: Option<Box<OpenBook>>,
    form: Option<Form>,
    sent: Option<Sent>,
    conflict: Option<Conflict>,
    checked: Option<Vec<Complaint>>,
    walk: Option<String>,
    walk_form: WalkForm,
    compares: bool,
    seen: Observation,
    comparison: Comparison,
    pub(super) again: Option<Again>,
    desk: Desk,
    desk_file: Option<PathBuf>,
    /// Whether what is being measured stands in the book already.
    pub(super) measures_again: bool,
}

impl Record {
    /// The book that is open.
    #[must_use]
    pub fn book(&self) -> Option<&OpenBook> {
        self.book.as_deref()
    }

    /// The voucher that is being filled in.
    #[must_use]
    pub const fn form(&self) -> Option<&Form> {
        self.form.as_ref()
    }

    /// What is wrong in the book, the gravest first, as it was when it was checked; `None` before.
    #[must_use]
    pub fn checked(&self) -> Option<&[Complaint]> {
        self.checked.as_deref()
    }

    /// The walk that is picked, as it is counted.
    #[must_use]
    pub fn walk(&self) -> Option<&Foray> {
        self.book()?.walk(self.walk.as_deref()?)
    }

    /// A walk or a sighting, as typed so far.
    #[must_use]
    pub const fn walk_form(&self) -> &WalkForm {
        &self.walk_form
    }

    /// A voucher that somebody else changed, to be settled.
    #[must_use]
    pub const fn conflict(&self) -> Option<&Conflict> {
        self.conflict.as_ref()
    }

    /// What is being done with the book at the moment.
    #[must_use]
    pub const fn doing(&self) -> Option<&'static str> {
        self.doing
    }

    /// Whether a comparison was asked for.
    #[must_use]
    pub const fn is_comparing(&self) -> bool {
        self.compares
    }

    /// Who measures.
    #[must_use]
    pub fn measured_by(&self) -> &str {
        &self.desk.measured_by
    }

    /// What the voucher and the findings agree with.
    #[must_use]
    pub const fn comparison(&self) -> &Comparison {
        &self.comparison
    }

    pub(super) fn is_busy(&self) -> bool {
        self.keeper.as_ref().is_some_and(Keeper::is_busy)
    }

    /// A photo of a voucher as it was measured last; `None` where it was not, or is not linked.
    #[must_use]
    pub fn photo_again(&self, voucher: &Voucher, sha256: &str) -> Option<Again> {
        let attached = voucher
            .current()
            .into_iter()
            .find(|a| a.photo() == Some(sha256))?;
        let link = voucher.photos.iter().find(|link| link.sha256 == sha256)?;
        let path = self.book()?.folder().join(&link.path);
        Again::of(&attached.findings, path, link.sha256_of_file())
    }

    /// The photo of a voucher that was measured last.
    #[must_use]
    pub fn newest_photo(&self, voucher: &Voucher) -> Option<Again> {
        let newest = voucher
            .measurements
            .iter()
            .rev()
            .find_map(Attached::photo)?;
        self.photo_again(voucher, newest)
    }

    /// What cannot be in the form as it stands, by field.
    #[must_use]
    pub fn complaints(&self) -> Complaints {
        let Some(form) = &self.form else {
            return Complaints::new();
        };
        let (voucher, mut complaints) = form.filled_in(&today());
        if let Some(book) = &self.book
            && book.is_taken(&voucher.catalog_number, form.id())
        {
            let text = text!("another-voucher-of-the-book-bears");
            complaints.insert(NUMBER, text.to_owned());
        }
        complaints
    }

    /// Opens the pattern's next number to a voucher that has none of its own.
    fn propose_number(&mut self) {
        if let (Some(book), Some(form)) = (&self.book, &mut self.form)
            && let Some(number) =
                book.next_number(form.year().unwrap_or_else(|| ZonedDateTime::now().year()))
        {
            form.propose_number(&number);
        }
    }
}

impl Record {
    /// Goes on with a voucher that was being filled in.
    pub(super) fn take_draft(&mut self, draft: Draft) {
        self.form = Some(Form::of_draft(draft));
    }

    fn pick(&mut self, id: &str) {
        let voucher = self.book.as_ref().and_then(|book| book.voucher(id));
        if let Some(voucher) = voucher {
            self.form = Some(Form::of(Voucher::clone(voucher)));
        }
    }
}

fn today() -> String {
    ZonedDateTime::now().date().to_string()
}
