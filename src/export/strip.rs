//! The strip below an overlay's photo: what is seen, a scale bar, and what the lines mean.

use super::lettering::{self, Words};
use super::stroke::{Sheet, dashed, trace};
use crate::geometry::{Point, Rect};
use image::{Rgb, RgbImage};

const GROUND: Rgb<u8> = Rgb([28, 28, 28]);
const INK: Rgb<u8> = Rgb([255, 255, 255]);

/// The scale bar takes up no more of the photo's width.
const SCALE_BAR_SHARE: f64 = 0.25;

/// An explanation of one kind of line.
pub(super) struct Entry {
    pub(super) text: &'static str,
    pub(super) colour: Rgb<u8>,
    pub(super) is_dashed: bool,
}

/// A stroke with the words that explain it.
struct Item {
    length: f64,
    stroke: Stroke,
    words: Words,
}

enum Stroke {
    Line(Rgb<u8>),
    Dashes(Rgb<u8>),
    Bar,
}

/// The picture, made higher by a strip. `line` is the width of lines and `font` the height of
/// letters, px.
pub(super) fn add_below(
    picture: RgbImage,
    caption: &[String],
    px_per_mm: f64,
    entries: &[Entry],
    line: f64,
    font: f32,
) -> RgbImage {
    let (width, top) = (f64::from(picture.width()), f64::from(picture.height()));
    let row = 1.5 * f64::from(font);
    let margin = 0.5 * row;
    let caption = lettering::lines(caption, width - 2.0 * margin, font);
    let mut items = vec![scale_bar(width, px_per_mm, font)];
    items.extend(entries.iter().map(|entry| Item {
        length: 1.6 * row,
        stroke: if entry.is_dashed {
            Stroke::Dashes(entry.colour)
        } else {
            Stroke::Line(entry.colour)
        },
        words: Words::new(entry.text, font),
    }));

    let mut y = top + margin;
    let mut placed_caption = Vec::new();
    for words in caption {
        placed_caption.push((Point::new(margin, y), words));
        y += row;
    }
    // Items stand side by side as long as there is room.
    let mut x = margin;
    let mut placed_items = Vec::new();
    for item in items {
        let item_width = item.length + 0.4 * row + item.words.width;
        if x > margin && x + item_width > width - margin {
            x = margin;
            y += row;
        }
        placed_items.push((Point::new(x, y), item));
        x += item_width + row;
    }

    let mut picture = extended(picture, y + row + margin - top);
    for (at, words) in placed_caption {
        words.write(&mut picture, on_row(at, &words, row), INK);
    }
    for (at, item) in placed_items {
        item.draw(&mut picture, at, row, line);
    }
    picture
}

/// The bar of a round length that fits into its share of the width.
fn scale_bar(width: f64, px_per_mm: f64, font: f32) -> Item {
    let mm = round_length(SCALE_BAR_SHARE * width / px_per_mm);
    Item {
        length: mm * px_per_mm,
        stroke: Stroke::Bar,
        words: Words::new(length_in_figures(mm), font),
    }
}

/// The picture with so many more pixels of plain ground below.
fn extended(picture: RgbImage, height: f64) -> RgbImage {
    let width = picture.width();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a few rows of letters"
    )]
    let added = height.ceil() as u32;
    let total = picture.height() + added;
    let mut samples = picture.into_raw();
    for _ in 0..u64::from(width) * u64::from(added) {
        samples.extend(GROUND.0);
    }
    RgbImage::from_raw(width, total, samples).expect("as many samples as pixels need")
}

/// Where words begin that stand in the middle of a row.
fn on_row(at: Point, words: &Words, row: f64) -> Point {
    Point::new(at.x, at.y + (row - words.height) / 2.0)
}

impl Item {
    fn draw(&self, picture: &mut RgbImage, at: Point, row: f64, line: f64) {
        let middle = at.y + row / 2.0;
        let ends = vec![
            Point::new(at.x, middle),
            Point::new(at.x + self.length, middle),
        ];
        match self.stroke {
            Stroke::Line(colour) => trace(picture, &[ends], line, 0.0, colour),
            Stroke::Dashes(colour) => {
                trace(
                    picture,
                    &dashed(&ends, self.length / 6.0),
                    line,
                    0.0,
                    colour,
                );
            }
            Stroke::Bar => {
                let bar = Rect {
                    x: at.x,
                    y: middle - 1.5 * line,
                    width: self.length,
                    height: 3.0 * line,
                };
                let mut sheet = Sheet::over(picture, bar);
                sheet.plate(bar, 0.0);
                sheet.print(picture, INK, 1.0);
            }
        }
        let after = Point::new(at.x + self.length + 0.4 * row, at.y);
        self.words
            .write(picture, on_row(after, &self.words, row), INK);
    }
}

/// The largest of 1, 2, 5, 10, 20 … (and 0.5, 0.2, 0.1 …) that is not above the given length.
fn round_length(longest: f64) -> f64 {
    let decade = 10_f64.powf(longest.log10().floor());
    [5.0, 2.0, 1.0]
        .into_iter()
        .map(|step| step * decade)
        // A hair of room, so that a length that is round itself is not lost to the last bit.
        .find(|length| *length <= longest * (1.0 + 1e-9))
        .unwrap_or(decade)
}

fn length_in_figures(mm: f64) -> String {
    let (figure, unit) = if mm < 0.1 {
        (mm * 1000.0, "µm")
    } else {
        (mm, "mm")
    };
    // Round lengths have one digit; rounding takes off what the powers of ten leave behind.
    format!("{} {unit}", (figure * 1e6).round() / 1e6)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn strip(width: u32, entries: usize) -> RgbImage {
        let entries: Vec<Entry> = (0..entries)
            .map(|_| Entry {
                text: "at the edge, not counted",
                colour: Rgb([213, 94, 0]),
                is_dashed: true,
            })
            .collect();
        let caption = ["tray 3.jpg".to_owned(), "poroid surface".to_owned()];
        let photo = RgbImage::from_pixel(width, 100, Rgb([205, 180, 140]));
        add_below(photo, &caption, 61.4, &entries, 2.0, 20.0)
    }

    #[test]
    fn the_scale_bar_is_as_long_as_it_says() {
        // 1200 px at 61.4 px/mm: a quarter is 4.9 mm, so the bar is 2 mm = 122.8 px.
        let longest_run = strip(1200, 0)
            .rows()
            .map(|row| {
                let (mut run, mut longest) = (0_u32, 0);
                for pixel in row {
                    run = if *pixel == INK { run + 1 } else { 0 };
                    longest = longest.max(run);
                }
                longest
            })
            .max();
        assert!(matches!(longest_run, Some(121..=123)), "{longest_run:?}");
    }

    #[test]
    fn the_strip_grows_so_that_all_of_it_fits() {
        assert_eq!(strip(1200, 1).height(), strip(1200, 2).height());
        assert!(strip(1200, 6).height() > strip(1200, 2).height());
        assert!(strip(400, 2).height() > strip(1200, 2).height());
        for (width, entries) in [(400, 4), (1200, 6)] {
            let picture = strip(width, entries);
            let (last_row, last_column) = (picture.height() - 1, picture.width() - 1);
            assert!(
                picture.enumerate_pixels().all(|(x, y, pixel)| {
                    y < 100 || (x < last_column && y < last_row) || *pixel == GROUND
                }),
                "nothing runs over the edge at {width} px"
            );
        }
    }

    #[test]
    fn scale_bars_are_of_round_length() {
        for (longest, expected, figures) in [
            (1.0, 1.0, "1 mm"),
            (4.99, 2.0, "2 mm"),
            (5.0, 5.0, "5 mm"),
            (73.0, 50.0, "50 mm"),
            (0.34, 0.2, "0.2 mm"),
            (0.06, 0.05, "50 µm"),
        ] {
            let length = round_length(longest);
            assert!((length - expected).abs() < 1e-12, "{longest}: {length}");
            assert_eq!(length_in_figures(length), figures);
        }
    }
}
