//! A report as a PDF file to print: text set in our own letters, broken into pages.

use super::chart::{LETTERS_MM, Shape};
use super::{Block, Chart, FOOT, FaceError, Picture, Report, Table};
use crate::export::card_pdf::{Paper, points};
use crate::export::pages::{self, Faces, Jpeg, picture_name};
use pdf_writer::{Content, Name};

/// White margin, mm.
const MARGIN_MM: f64 = 15.0;
/// Above the lower margin, for the foot, mm.
const FOOT_MM: f64 = 7.0;
/// From one line to the next, in sizes.
const LEADING: f32 = 1.35;
/// Sizes of text, points.
const TEXT: f32 = 9.5;
const SMALL: f32 = 8.5;
const FOOT_SIZE: f32 = 7.5;
/// Between columns of a table and between pictures, points.
const GAP: f32 = 10.0;
/// Width of a chart, mm.
const CHART_MM: f64 = 120.0;
/// A first column is no wider than this share of the page.
const WIDEST_FIRST: f32 = 0.34;
/// Colour of bars: blue of Okabe and Ito's palette (*Color Universal Design*, 2008).
const BAR: [f32; 3] = [0.0, 0.447, 0.698];

/// How a piece of text is set.
#[derive(Clone, Copy)]
struct Style {
    size: f32,
    is_bold: bool,
    /// Room above, points.
    above: f32,
    /// Room that has to be left below on the page, so that a heading keeps what it heads, points.
    keep: f32,
}

const PLAIN: Style = Style {
    size: TEXT,
    is_bold: false,
    above: 2.0,
    keep: 0.0,
};
const TITLE: Style = Style {
    size: 16.0,
    is_bold: true,
    above: 0.0,
    keep: 60.0,
};
const HEADING: Style = Style {
    size: 12.5,
    is_bold: true,
    above: 14.0,
    keep: 60.0,
};
const SUBHEADING: Style = Style {
    size: TEXT,
    is_bold: true,
    above: 9.0,
    keep: 40.0,
};
const LEAD: Style = Style {
    size: 13.0,
    is_bold: true,
    above: 6.0,
    keep: 40.0,
};

/// The report as the bytes of a PDF file.
///
/// # Errors
/// [`FaceError`], never with the fonts that are part of the program.
pub fn pdf(report: &Report, paper: Paper) -> Result<Vec<u8>, FaceError> {
    let mut press = Press::new(paper);
    for (at, block) in report.blocks.iter().enumerate() {
        press.put(block, report.blocks.get(at + 1));
    }
    let Press {
        mut faces,
        mut pages,
        pictures,
        left,
        bottom,
        width,
        ..
    } = press;
    let title = faces
        .lines(&report.title, width * 0.4, FOOT_SIZE, false)
        .into_iter()
        .next()
        .unwrap_or_default();
    let last = pages.len();
    for (at, page) in (1..).zip(&mut pages) {
        let y = bottom - points(FOOT_MM) + FOOT_SIZE * 0.4;
        page.set_fill_gray(0.35);
        faces.set(page, FOOT, [left, y], FOOT_SIZE, false);
        let number = format!("{title} · {at} of {last}");
        let from = left + width - faces.width(&number, FOOT_SIZE, false);
        faces.set(page, &number, [from, y], FOOT_SIZE, false);
    }
    let jpegs: Vec<Jpeg<'_>> = pictures
        .iter()
        .map(|picture| Jpeg {
            bytes: &picture.jpeg,
            width_px: picture.width_px,
            height_px: picture.height_px,
        })
        .collect();
    pages::file(&report.title, paper, pages, &faces, &jpegs)
}

/// Sets blocks from the top of the first page to the bottom of the last.
struct Press<'a> {
    faces: Faces,
    pages: Vec<Content>,
    pictures: Vec<&'a Picture>,
    left: f32,
    width: f32,
    top: f32,
    bottom: f32,
    /// Where the next thing begins, points from the paper's foot.
    y: f32,
}

impl<'a> Press<'a> {
    fn new(paper: Paper) -> Self {
        let [width, height] = paper.size_mm();
        let top = points(height - MARGIN_MM);
        Self {
            faces: Faces::new(),
            pages: vec![Content::new()],
            pictures: Vec::new(),
            left: points(MARGIN_MM),
            width: points(width - 2.0 * MARGIN_MM),
            top,
            bottom: points(MARGIN_MM + FOOT_MM),
            y: top,
        }
    }

    fn page(&mut self) -> (&mut Content, &mut Faces) {
        let last = self.pages.len() - 1;
        (&mut self.pages[last], &mut self.faces)
    }

    fn turn_page(&mut self) {
        self.pages.push(Content::new());
        self.y = self.top;
    }

    /// Turns the page where so much room is not left, unless the page is new.
    fn make_room(&mut self, height: f32) {
        if self.y - height < self.bottom && self.y < self.top {
            self.turn_page();
        }
    }

    /// Sets a block; a heading stays on the page of the chart that follows.
    fn put(&mut self, block: &'a Block, next: Option<&Block>) {
        match block {
            Block::Title(text) => {
                if self.y < self.top {
                    self.turn_page();
                }
                self.text(text, TITLE);
            }
            Block::Heading(text) => {
                let chart = match next {
                    Some(Block::Chart(chart)) => points(chart.height_mm()) + 3.0 * SMALL * LEADING,
                    _ => 0.0,
                };
                let style = Style {
                    keep: HEADING.keep.max(chart),
                    ..HEADING
                };
                self.text(text, style);
            }
            Block::Subheading(text) => self.text(text, SUBHEADING),
            Block::Lead(text) => self.text(text, LEAD),
            Block::Text(text) => self.text(text, PLAIN),
            Block::List(items) => {
                for item in items {
                    self.marked("–", item);
                }
            }
            Block::Numbered(items) => {
                for (number, item) in (1..).zip(items) {
                    self.marked(&format!("{number}"), item);
                }
            }
            Block::Table(table) => self.table(table),
            Block::Pictures(pictures) => self.pictures(pictures),
            Block::Chart(chart) => self.chart(chart),
        }
    }

    fn text(&mut self, text: &str, style: Style) {
        let lines = self
            .faces
            .lines(text, self.width, style.size, style.is_bold);
        let tall = lines.len() as f32 * style.size * LEADING;
        if style.keep > 0.0 {
            self.make_room(style.above + tall + style.keep);
        }
        self.space(style.above);
        for line in lines {
            self.line(&[(0.0, &line)], style);
        }
    }

    /// Room above what comes next; none at the top of a page.
    fn space(&mut self, height: f32) {
        if self.y < self.top {
            self.y -= height;
        }
    }

    /// One line: pieces of text, each so far from the left edge.
    fn line(&mut self, pieces: &[(f32, &str)], style: Style) {
        let height = style.size * LEADING;
        self.make_room(height);
        self.y -= height;
        // The letters' foot stands a little above that of the line.
        let foot = self.y + 0.3 * style.size;
        let left = self.left;
        let (page, faces) = self.page();
        page.set_fill_gray(0.0);
        for (x, text) in pieces {
            faces.set(page, text, [left + x, foot], style.size, style.is_bold);
        }
    }

    /// A paragraph with a mark in front.
    fn marked(&mut self, mark: &str, text: &str) {
        let indent = 14.0;
        let lines = self.faces.lines(text, self.width - indent, TEXT, false);
        self.space(1.5);
        for (at, line) in lines.iter().enumerate() {
            let mark = if at == 0 { mark } else { "" };
            self.line(&[(0.0, mark), (indent, line)], PLAIN);
        }
    }

    fn table(&mut self, table: &Table) {
        let widths = self.widths(table);
        let style = Style {
            size: SMALL,
            ..PLAIN
        };
        self.space(2.0);
        if !table.head.is_empty() {
            let bold = Style {
                is_bold: true,
                ..style
            };
            // A head keeps the first row.
            self.make_room(5.0 * SMALL * LEADING);
            self.row(&table.head, &widths, bold);
        }
        for row in &table.rows {
            self.row(row, &widths, style);
        }
    }

    /// Widths of columns: what their widest cell takes, and where that is too much, the wide ones share
    /// what the others leave.
    fn widths(&self, table: &Table) -> Vec<f32> {
        let columns = table
            .rows
            .iter()
            .map(Vec::len)
            .chain([table.head.len()])
            .max()
            .unwrap_or(0);
        let wanted = |column: usize| {
            let cell = |row: &Vec<String>, is_bold| {
                let text = row.get(column).map_or("", String::as_str);
                self.faces.width(text, SMALL, is_bold)
            };
            let rows = table.rows.iter().map(|row| cell(row, false));
            let widest = rows.chain([cell(&table.head, true)]).fold(0.0, f32::max);
            if column == 0 {
                widest.min(WIDEST_FIRST * self.width)
            } else {
                widest
            }
        };
        let mut widths: Vec<f32> = (0..columns).map(wanted).collect();
        let room = self.width - GAP * columns.saturating_sub(1) as f32;
        // Columns narrower than a fair share of what is left keep their width.
        let mut order: Vec<usize> = (0..columns).collect();
        order.sort_by(|a, b| widths[*a].total_cmp(&widths[*b]));
        let mut left = room;
        for (done, column) in order.into_iter().enumerate() {
            let fair = left / (columns - done) as f32;
            widths[column] = widths[column].min(fair);
            left -= widths[column];
        }
        widths
    }

    fn row(&mut self, cells: &[String], widths: &[f32], style: Style) {
        let broken: Vec<Vec<String>> = (cells.iter().zip(widths))
            .map(|(cell, width)| self.faces.lines(cell, *width, style.size, style.is_bold))
            .collect();
        let lines = broken.iter().map(Vec::len).max().unwrap_or(0).max(1);
        // A row stays together where it is not longer than a third of a page.
        let tall = lines as f32 * style.size * LEADING;
        if tall < (self.top - self.bottom) / 3.0 {
            self.make_room(tall);
        }
        for line in 0..lines {
            let mut x = 0.0;
            let mut pieces = Vec::new();
            for (cell, width) in broken.iter().zip(widths) {
                if let Some(text) = cell.get(line) {
                    pieces.push((x, text.as_str()));
                }
                x += width + GAP;
            }
            self.line(&pieces, style);
        }
        let (left, right, y) = (self.left, self.left + self.width, self.y - 1.0);
        let (page, _) = self.page();
        page.set_stroke_gray(if style.is_bold { 0.3 } else { 0.8 })
            .set_line_width(0.4)
            .move_to(left, y)
            .line_to(right, y)
            .stroke();
        self.y -= 2.0;
    }

    fn pictures(&mut self, pictures: &'a [Picture]) {
        let count = pictures.len().max(1) as f32;
        // A picture alone is as wide as one of two.
        let width = (self.width - GAP * (count.max(2.0) - 1.0)) / count.max(2.0);
        let height =
            |picture: &Picture| width * picture.height_px as f32 / picture.width_px.max(1) as f32;
        let tallest = pictures.iter().map(height).fold(0.0, f32::max);
        let caption = Style {
            size: SMALL,
            ..PLAIN
        };
        let words: Vec<Vec<String>> = (pictures.iter())
            .map(|picture| self.faces.lines(&picture.says, width, SMALL, false))
            .collect();
        let rows = words.iter().map(Vec::len).max().unwrap_or(0);
        // On a page of its own a picture that is taller still is made smaller.
        let room = self.top - self.bottom - (rows as f32 + 1.0) * SMALL * LEADING;
        let shrink = (room / tallest).min(1.0);
        self.space(6.0);
        self.make_room(tallest * shrink + (rows as f32 + 0.5) * SMALL * LEADING);
        let (left, top) = (self.left, self.y);
        for (at, picture) in pictures.iter().enumerate() {
            let name = picture_name(self.pictures.len());
            self.pictures.push(picture);
            let x = left + at as f32 * (width + GAP);
            let (wide, tall) = (width * shrink, height(picture) * shrink);
            let (page, _) = self.page();
            page.save_state()
                .transform([wide, 0.0, 0.0, tall, x, top - tall])
                .x_object(Name(name.as_bytes()))
                .restore_state();
        }
        self.y = top - tallest * shrink - 2.0;
        for row in 0..rows {
            let pieces: Vec<(f32, &str)> = (words.iter().enumerate())
                .filter_map(|(at, lines)| {
                    Some((at as f32 * (width + GAP), lines.get(row)?.as_str()))
                })
                .collect();
            self.line(&pieces, caption);
        }
        self.space(2.0);
    }

    fn chart(&mut self, chart: &Chart) {
        let tall = points(chart.height_mm());
        self.space(6.0);
        self.make_room(tall + 2.0 * SMALL * LEADING);
        let (left, top) = (self.left, self.y);
        let at = |[x, y]: [f64; 2]| [left + points(x), top - points(y)];
        let size = points(LETTERS_MM);
        let (page, faces) = self.page();
        for shape in chart.shapes(CHART_MM) {
            match shape {
                Shape::Block { from, size } => {
                    let [x, y] = at([from[0], from[1] + size[1]]);
                    page.set_fill_rgb(BAR[0], BAR[1], BAR[2])
                        .rect(x, y, points(size[0]), points(size[1]))
                        .fill_nonzero();
                }
                Shape::Line { from, to } => {
                    let ([x1, y1], [x2, y2]) = (at(from), at(to));
                    page.set_stroke_gray(0.1)
                        .set_line_width(0.5)
                        .move_to(x1, y1)
                        .line_to(x2, y2)
                        .stroke();
                }
                Shape::Words { foot, text } => {
                    let [x, y] = at(foot);
                    let half = faces.width(&text, size, false) / 2.0;
                    page.set_fill_gray(0.0);
                    faces.set(page, &text, [x - half, y], size, false);
                }
            }
        }
        self.y = top - tall;
        let caption = Style {
            size: SMALL,
            above: 0.0,
            ..PLAIN
        };
        self.text(&chart.says, caption);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pages(blocks: Vec<Block>) -> usize {
        let report = Report {
            title: "Report".to_owned(),
            made: "2026-11-26".to_owned(),
            blocks,
        };
        let bytes = pdf(&report, Paper::A4).expect("a file");
        String::from_utf8_lossy(&bytes)
            .matches("/Type /Page\n")
            .count()
    }

    #[test]
    fn however_much_is_written_it_goes_on_over_pages() {
        let remark = "a remark of many words ".repeat(2000);
        let table = Table {
            head: Vec::new(),
            rows: vec![vec!["notes".to_owned(), remark]],
        };
        assert!(pages(vec![Block::Table(table)]) > 3);
        assert_eq!(pages(vec![Block::Text("short".to_owned())]), 1);
    }

    #[test]
    fn columns_fit_the_page() {
        let press = Press::new(Paper::A4);
        for rows in [
            vec![vec!["a".to_owned(), "b".to_owned()]],
            vec![vec!["x".repeat(300), "y".repeat(300), "z".to_owned()]],
        ] {
            let table = Table {
                head: Vec::new(),
                rows,
            };
            let widths = press.widths(&table);
            let all: f32 = widths.iter().sum::<f32>() + GAP * (widths.len() - 1) as f32;
            assert!(all <= press.width + 0.1, "{widths:?}");
            assert!(widths.iter().all(|width| *width > 0.0), "{widths:?}");
        }
    }
}
