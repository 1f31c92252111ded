//! The book: a folder of vouchers and forays that anyone can copy, sync or put in git.
//!
//! ```text
//! my-book/
//!   book.json            name of the book, institution and collection, pattern of catalogue numbers
//!   vouchers/NUMBER.json one file a voucher; keys are Darwin Core terms where there is one
//!   forays/DATE-PLACE.json  one file a walk, with its checklist
//!   photos/              copies of photos, where copying was chosen
//!   ranges.csv           published ranges of one's own, where there are any
//! ```
//!
//! Nothing else knows these files. Each is written beside itself, brought to the disk and renamed, so a
//! crash leaves the old or the new file and never half of one. Each bears a revision: whoever saves what
//! has been changed on the disk since is told, and nothing is overwritten. Keys that this version does
//! not know are kept. A damaged file is left where it is, named, and the rest of the book opens.

mod attach;
mod cell;
mod check;
mod checklist;
mod date;
mod error;
mod evidence;
mod figures;
mod foray;
mod frequency;
mod merge;
mod number;
mod place;
mod search;
mod store;
mod term;
mod versions;
mod voucher;
mod walks;

pub use attach::{Copying, FindingsError, FindingsRead, WGS84, findings_read};
pub use cell::{guarded, unguarded};
pub use check::{Complaint, Gravity, check};
pub use checklist::{
    CHECKLIST_COLUMNS, ChecklistError, TakenIn, read_checklists, write_checklists,
};
pub use error::{BookError, Damaged};
pub use evidence::{Evidence, NoPhoto, NotSeen, Seen};
pub use figures::{PhotoFigures, VoucherFigures, observation};
pub use foray::{Foray, Sighting};
pub use frequency::{Frequency, MONTHS, frequencies};
pub use number::{Pattern, PatternError};
pub use place::{Blurred, blurred};
pub use search::Index;
pub use store::{Book, BookCard, Saved, is_book};
pub use term::{TERMS, TermError, parted};
pub use versions::Versions;
pub use voucher::{
    Attached, DECAY_STAGES, Determination, HOST_WOODS, PhotoLink, SUBSTRATES, Voucher,
};
pub use walks::counted;
