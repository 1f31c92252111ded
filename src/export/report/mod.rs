//! Reports of a book to read, print and pass on: what was measured on a voucher and what shows it.
//!
//! A report is a list of [`Block`]s, made once and set either as [HTML](html) or as [PDF](pdf). Either
//! file holds all it needs: its pictures lie in it, and it runs no script.

mod chart;
mod figures;
mod html;
mod pdf;
mod picture;
mod published;
mod record;
mod season;
mod side_by_side;
mod voucher;

pub use super::pages::FaceError;
pub use chart::Chart;
pub use html::html;
pub use pdf::pdf;
pub use picture::{Details, Picture, PictureError, Shown};
pub use record::Told;
pub use season::season;
pub use side_by_side::{MOST_BESIDE, side_by_side};
pub use voucher::vouchers;

use crate::ranges::CAUTIONS;

/// What stands at the foot of every printed page, since pages part company.
const FOOT: &str = "Never eat a fungus or decide on a dose on the strength of this report.";

/// A report before it is set.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// What it is about.
    pub title: String,
    /// The day it was made, ISO 8601.
    pub made: String,
    /// What it says, from top to bottom.
    pub blocks: Vec<Block>,
}

/// A piece of a report.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A heading of the first order; begins a page where it is not the first.
    Title(String),
    /// A heading of the second order.
    Heading(String),
    /// A heading of the third order.
    Subheading(String),
    /// The one line to be read first.
    Lead(String),
    /// A paragraph.
    Text(String),
    /// Short paragraphs with a mark in front.
    List(Vec<String>),
    /// Numbered lines, such as sources, from 1.
    Numbered(Vec<String>),
    /// Rows of cells.
    Table(Table),
    /// Pictures beside one another, all of the same width.
    Pictures(Vec<Picture>),
    /// Bars.
    Chart(Chart),
}

/// Rows of cells, all of the same number.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// What the columns are; empty where the first column says what the rows are.
    pub head: Vec<String>,
    /// The rows.
    pub rows: Vec<Vec<String>>,
}

impl Report {
    fn new(title: impl Into<String>, made: &str) -> Self {
        Self {
            title: title.into(),
            made: made.to_owned(),
            blocks: Vec::new(),
        }
    }

    /// The cautions, and with what it was made: the end of every report.
    fn closed(mut self) -> Self {
        self.blocks.push(Block::Heading("Cautions".to_owned()));
        self.blocks.push(Block::Text(CAUTIONS.replace('\n', " ")));
        self.blocks.push(Block::Text(format!(
            "Made with Poreline {} on {}.",
            env!("CARGO_PKG_VERSION"),
            self.made
        )));
        self
    }
}

impl Table {
    /// Rows whose first cell says what the others are.
    fn of_pairs(rows: Vec<[String; 2]>) -> Self {
        Self {
            head: Vec::new(),
            rows: rows.into_iter().map(Vec::from).collect(),
        }
    }
}
