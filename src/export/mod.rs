//! Findings made into something to keep or pass on: values in, text or bytes out, no files touched.

pub mod card_pdf;
pub mod digits;
pub mod json;
mod lettering;
pub mod overlay;
pub mod pore_table;
#[cfg(test)]
mod sample;
mod strip;
mod stroke;
pub mod text;
