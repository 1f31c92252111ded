//! Findings and books made into something to keep or pass on: values in, text or bytes out, no files touched.

pub mod book_csv;
pub mod book_text;
pub mod card_pdf;
mod code;
pub mod comparison;
pub mod comparison_json;
pub mod darwin_core;
pub mod digits;
mod face;
pub mod frequency_csv;
pub mod json;
pub mod labels;
mod lettering;
pub mod overlay;
mod pages;
mod pen;
pub mod pore_table;
pub mod report;
#[cfg(test)]
mod sample;
mod sources;
mod strip;
mod stroke;
mod table;
pub mod text;
