//! A folder of photos measured in one run, on all cores, and picked up where it was left.
//!
//! What is kept is one small file for each photo and set of settings, [`Record`], under a name that
//! follows from the photo's bytes and the settings. A photo that has one is not measured again. All other
//! files are made from those at the end, sorted by name, so that the same bytes come out whatever the
//! number of threads, the share of work, and wherever a run was stopped.

mod derive;
mod facts;
mod gate;
mod glances;
mod groups;
mod into_book;
mod join;
mod list;
mod memory;
mod no_photo;
mod pace;
mod record;
mod results;
mod run;
mod run_list;
mod sheet;

pub use derive::{
    CONTACT_SHEET, FAILURES, FINDINGS, Made, PLOT, PORE_TABLE, PORES_PARQUET, REMARKS, SUMMARY,
    SUMMARY_PARQUET, VOUCHERS, in_one, voucher_figures,
};
pub use facts::Facts;
pub use gate::Remark;
pub use glances::Glances;
pub use groups::{Grouping, GroupingError};
pub use into_book::{Entered, Entering, EnteringError};
pub use join::{JoinError, join};
pub use list::{Closed, ListError, Listed, Listing, NoPart, Part};
pub use memory::{Budget, Room, TooMuch, half_of_the_machine};
pub use pace::Pace;
pub use record::{Key, Record, Trouble};
pub use results::{Results, ResultsError, Unfinished};
pub use run::{Batch, RunError, Told, cores};
pub use run_list::{Extras, RunList, Seen, State};
