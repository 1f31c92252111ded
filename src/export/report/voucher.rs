//! The report of one voucher: what was measured, what shows it, what it agrees with, what was written down.

use super::record::{self, Told, heading, origin};
use super::{Block, Report, Shown, figures, published};
use crate::book::Attached;
use crate::export::book_text;
use crate::ranges::Ranges;

/// Vouchers one after the other; `made` is the day, ISO 8601.
#[must_use]
pub fn vouchers(told: &[Told<'_>], ranges: &Ranges, made: &str) -> Report {
    let numbers: Vec<&str> = (told.iter())
        .map(|one| one.voucher.catalog_number.as_str())
        .collect();
    let mut report = Report::new(format!("Report on {}", numbers.join(", ")), made);
    for one in told {
        report.blocks.extend(of_one(one, ranges));
    }
    report.closed()
}

fn of_one(told: &Told<'_>, ranges: &Ranges) -> Vec<Block> {
    let voucher = told.voucher;
    let mut blocks = vec![Block::Title(heading(voucher)), Block::Text(origin(told))];
    let measured = voucher.current();
    for (at, attached) in measured.iter().enumerate() {
        if measured.len() > 1 {
            blocks.push(Block::Heading(format!(
                "Photo {} of {}",
                at + 1,
                measured.len()
            )));
        }
        blocks.extend(photo(attached, told.shown.get(at)));
    }
    if measured.is_empty() {
        blocks.push(Block::Text(
            "No photo of it was measured, so there are no figures.".to_owned(),
        ));
    }
    if measured.len() > 1 {
        blocks.push(Block::Heading("All photos".to_owned()));
        blocks.push(Block::Table(super::Table::of_pairs(book_text::figures(
            voucher,
        ))));
    }
    blocks.extend(published::published(voucher, ranges));
    blocks.extend(record::record(told));
    blocks
}

/// What was found on one photo.
fn photo(attached: &Attached, shown: Option<&Shown>) -> Vec<Block> {
    let findings = &attached.findings;
    let mut blocks = Vec::new();
    if let Some(lead) = figures::lead(findings) {
        blocks.push(Block::Lead(lead));
    }
    if let Some(shown) = shown {
        if !shown.pictures.is_empty() {
            blocks.push(Block::Pictures(shown.pictures.clone()));
        }
        blocks.push(Block::List(shown.remarks.clone()));
    }
    blocks.push(Block::Subheading("Why this kind of underside".to_owned()));
    let mut reasons = figures::list(findings, "/surface/reasons");
    reasons.extend(figures::confidence(findings));
    blocks.push(Block::List(reasons));
    let table = figures::table(findings);
    if !table.rows.is_empty() {
        blocks.push(Block::Subheading("Figures".to_owned()));
        blocks.push(Block::Table(table));
    }
    if let Some(colour) = figures::colour(findings) {
        blocks.push(Block::Text(colour));
    }
    if let Some(chart) = shown.and_then(|shown| shown.diameters.clone()) {
        blocks.push(Block::Chart(chart));
    }
    let notes = figures::list(findings, "/notes");
    if !notes.is_empty() {
        blocks.push(Block::Subheading("Notes".to_owned()));
        blocks.push(Block::List(notes));
    }
    blocks.push(Block::Subheading("How it was measured".to_owned()));
    blocks.push(Block::List(how(attached)));
    blocks.retain(|block| *block != Block::List(Vec::new()));
    blocks
}

/// Scale, photo, who and when.
fn how(attached: &Attached) -> Vec<String> {
    let findings = &attached.findings;
    let mut lines = Vec::new();
    if let Some(scale) = figures::scale(findings) {
        lines.push(format!("Scale: {scale}"));
    }
    lines.extend(figures::corrections(findings));
    if let Some(path) = figures::text(findings, "/photo/path") {
        // Where it lay is nobody's business and differs from machine to machine.
        let name = path.rsplit(['/', '\\']).next().unwrap_or(path);
        let sha256 = figures::text(findings, "/photo/sha256").unwrap_or_default();
        let taken = figures::text(findings, "/photo/taken").map_or_else(String::new, |taken| {
            format!(", taken {}", taken.replace('T', " "))
        });
        lines.push(format!("Photo: {name}{taken}; SHA-256 {sha256}"));
    }
    let by = (attached.measurement_determined_by.as_ref())
        .map_or_else(String::new, |who| format!(" by {who}"));
    let date = attached.measurement_determined_date.replace('T', " ");
    let version = figures::text(findings, "/software/version")
        .map_or_else(String::new, |version| format!(", with Poreline {version}"));
    lines.push(format!("Measured{by} on {date}{version}"));
    lines
}
