//! Findings and books made into something to keep or pass on: values in, text or bytes out, no files touched.

pub mod book_csv;
pub mod book_text;
pub mod card_pdf;
mod code;
pub mod comparison;
pub mod comparison_json;
pub mod contact_sheet;
pub mod darwin_core;
pub mod digits;
mod face;
pub mod frequency_csv;
mod html_text;
pub mod json;
pub mod labels;
mod lettering;
pub mod overlay;
mod pages;
pub mod parquet_table;
mod pen;
pub mod per_mm_plot;
pub mod photo_table;
pub mod pore_table;
pub mod preview;
pub mod report;
#[cfg(test)]
mod sample;
mod sources;
mod strip;
mod stroke;
mod table;
pub mod text;
pub mod trouble_table;
pub mod voucher_table;
