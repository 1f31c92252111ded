//! Published ranges, and what a measurement agrees with.
//!
//! A row of the table is what one source prints of one taxon; sources that disagree stay apart. A
//! comparison says, character by character, whether what was seen *agrees with* a row, comes *near* it
//! or *speaks against* it. It names nothing: several taxa can agree with all that was seen, and none of
//! them need be right.

mod character;
mod compare;
mod hue;
mod look;
mod printed;
mod table;

pub use character::{Agreement, Character, Host, Observation, Wood};
pub use compare::{Compared, Judged, Statement, compare};
pub use hue::{Hue, hues};
pub use look::{Look, NextLook, next_look, next_looks};
pub use printed::Printed;
pub use table::{Published, Ranges, RangesError};

/// What stands wherever species names are printed or shown, in lines of at most 80 letters.
pub const CAUTIONS: &str = "\
Poreline measures; it does not identify. A figure can agree with a published
range or speak against it, and no more.
Never eat a fungus, take it as a remedy or decide on a dose on the strength of
a measurement or of a name in a list. Ask an expert.
Ask before you collect, and follow the rules of the place.";
