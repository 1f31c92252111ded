//! Poreline's own scale card: what is on it, and how it is found on a photo.

mod edges;
mod find;
pub mod layout;
mod marks;

pub use find::{CardError, Found, Tones, find};
