//! The photo with what was found drawn on it: the evidence to show for a figure.
//!
//! Colours are from the palette of Okabe & Ito (*Color Universal Design*, 2008), which
//! colour-blind people can tell apart; whatever differs in colour differs in stroke too. Every
//! line has a dark casing, so that it is seen on pale walls and in dark pores alike.

use super::stroke::{Sheet, bounds, closed, dashed};
use crate::Measurement;
use crate::area::{Area, Outline};
use crate::geometry::{Point, Rect};
use crate::photo::Photo;
use crate::pores::Pore;
use crate::statistics::CountLine;
use ab_glyph::FontRef;
use image::{ImageError, ImageFormat, Rgb, RgbImage};
use imageproc::drawing::{draw_text_mut, text_size};
use std::io::Cursor;

const SKY_BLUE: Rgb<u8> = Rgb([86, 180, 233]);
const REDDISH_PURPLE: Rgb<u8> = Rgb([204, 121, 167]);
const YELLOW: Rgb<u8> = Rgb([240, 228, 66]);
const BLACK: Rgb<u8> = Rgb([0, 0, 0]);
const WHITE: Rgb<u8> = Rgb([255, 255, 255]);

/// How dark casings and plates are.
const CASING_OPACITY: f64 = 0.55;
const PLATE_OPACITY: f64 = 0.8;

/// Count lines drawn at most: enough to show how the count is done.
const MOST_COUNT_LINES: usize = 12;
/// Count lines are 1 mm long; with their middles this far apart they seldom cross.
const COUNT_LINES_APART_MM: f64 = 1.5;
/// The scale bar takes up no more of the photo's width.
const SCALE_BAR_SHARE: f64 = 0.25;

static FONT: &[u8] = include_bytes!("../../assets/fonts/Inter-Regular.otf");

/// A copy of the photo with outlines, a few count lines, the area, a legend and a scale bar.
#[must_use]
pub fn draw(photo: &Photo, area: &Area, measurement: &Measurement) -> RgbImage {
    let mut picture = photo.rgb.clone();
    let findings = &measurement.findings;
    let px_per_mm = findings.scale.px_per_mm;
    let pen = Pen::fitting(&picture, &measurement.regions);

    outline_area(&mut picture, area, pen);
    outline_regions(&mut picture, &measurement.regions, pen);
    let lines = findings.pores.as_ref().map_or_else(Vec::new, |pores| {
        well_apart(&pores.count_lines, COUNT_LINES_APART_MM * px_per_mm)
    });
    draw_count_lines(&mut picture, &lines, px_per_mm, pen);
    let bar = draw_scale_bar(&mut picture, px_per_mm, pen);
    draw_legend(
        &mut picture,
        &legend(area, &measurement.regions, &lines),
        bar,
        pen,
    );
    picture
}

/// The picture as a PNG file's bytes.
///
/// # Errors
/// When the picture is of no width or height, or memory runs out.
pub fn png(picture: &RgbImage) -> Result<Vec<u8>, ImageError> {
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, ImageFormat::Png)?;
    Ok(bytes.into_inner())
}

/// Sizes that grow with the photo, so that the overlay looks the same at any resolution.
#[derive(Clone, Copy)]
struct Pen {
    /// Width of outlines, px.
    outline: f64,
    /// Width of the area's edge and of count lines, px.
    line: f64,
    /// What the casing adds on each side, px.
    casing: f64,
    /// Height of letters, px.
    font: f32,
}

impl Pen {
    fn fitting(picture: &RgbImage, regions: &[Pore]) -> Self {
        let side = f64::from(picture.width().max(picture.height()));
        let line = (side / 600.0).max(1.5);
        // Small pores get thin outlines, or they would drown in them.
        let mut diameters: Vec<f64> = regions.iter().map(|region| region.diameter().0).collect();
        diameters.sort_by(f64::total_cmp);
        let outline = diameters
            .get(diameters.len() / 2)
            .map_or(line, |median| line.min(median / 15.0).max(1.0));
        #[expect(clippy::cast_possible_truncation, reason = "a few thousand at most")]
        let font = (side / 55.0).max(13.0) as f32;
        Self {
            outline,
            line,
            casing: outline * 0.6,
            font,
        }
    }
}

/// Draws the paths in the colour, over a casing.
fn trace(picture: &mut RgbImage, paths: &[Vec<Point>], width: f64, casing: f64, colour: Rgb<u8>) {
    if paths.is_empty() {
        return;
    }
    for (width, colour, opacity) in [
        (width + 2.0 * casing, BLACK, CASING_OPACITY),
        (width, colour, 1.0),
    ] {
        let mut sheet = Sheet::over(picture, bounds(paths, width));
        for path in paths {
            sheet.line(path, width);
        }
        sheet.print(picture, colour, opacity);
    }
}

fn outline_area(picture: &mut RgbImage, area: &Area, pen: Pen) {
    let outer = match &area.outline {
        Outline::WholePhoto => None,
        Outline::Rectangle(rect) => Some(rect.to_polygon()),
        Outline::Polygon(polygon) => Some(polygon.clone()),
    };
    let outer: Vec<_> = outer.iter().map(|edge| closed(edge.vertices())).collect();
    trace(picture, &outer, pen.line, pen.line / 2.0, WHITE);
    let left_out: Vec<_> = area
        .left_out
        .iter()
        .flat_map(|hole| dashed(&closed(hole.vertices()), 6.0 * pen.line))
        .collect();
    trace(picture, &left_out, pen.line, pen.line / 2.0, WHITE);
}

fn outline_regions(picture: &mut RgbImage, regions: &[Pore], pen: Pen) {
    let (counted, uncounted): (Vec<&Pore>, Vec<&Pore>) =
        regions.iter().partition(|region| region.counted);
    let dashes: Vec<_> = uncounted
        .iter()
        .flat_map(|region| dashed(&closed(region.outline.vertices()), 4.0 * pen.outline))
        .collect();
    let solid: Vec<_> = counted
        .iter()
        .map(|region| closed(region.outline.vertices()))
        .collect();
    trace(picture, &dashes, pen.outline, pen.casing, REDDISH_PURPLE);
    trace(picture, &solid, pen.outline, pen.casing, SKY_BLUE);
}

/// A few lines whose middles lie far from each other: the first, then ever the farthest one.
fn well_apart(lines: &[CountLine], apart_px: f64) -> Vec<CountLine> {
    let mut chosen: Vec<CountLine> = lines.iter().take(1).copied().collect();
    while chosen.len() < MOST_COUNT_LINES {
        let nearest = |line: &CountLine| {
            chosen
                .iter()
                .map(|other| middle(line).distance(middle(other)))
                .fold(f64::INFINITY, f64::min)
        };
        let farthest = lines
            .iter()
            .map(|line| (nearest(line), line))
            .max_by(|a, b| a.0.total_cmp(&b.0));
        match farthest {
            Some((distance, line)) if distance >= apart_px => chosen.push(*line),
            _ => break,
        }
    }
    chosen
}

fn middle(line: &CountLine) -> Point {
    Point::new(
        f64::midpoint(line.from.x, line.to.x),
        f64::midpoint(line.from.y, line.to.y),
    )
}

fn draw_count_lines(picture: &mut RgbImage, lines: &[CountLine], px_per_mm: f64, pen: Pen) {
    let width = pen.line.min(px_per_mm / 15.0).max(1.0);
    let paths: Vec<_> = lines
        .iter()
        .flat_map(|line| {
            let length = line.from.distance(line.to).max(f64::MIN_POSITIVE);
            let serif = 3.0 * width / length;
            let (dx, dy) = (
                serif * (line.to.x - line.from.x),
                serif * (line.to.y - line.from.y),
            );
            // A cross-stroke at each end shows where the millimetre begins and stops.
            let stroke = |end: Point| {
                vec![
                    Point::new(end.x - dy, end.y + dx),
                    Point::new(end.x + dy, end.y - dx),
                ]
            };
            [vec![line.from, line.to], stroke(line.from), stroke(line.to)]
        })
        .collect();
    trace(picture, &paths, width, width / 2.0, YELLOW);
    for line in lines {
        write_on_plate(
            picture,
            &line.pores.to_string(),
            middle(line),
            pen.font * 0.9,
            YELLOW,
        );
    }
}

/// Writes a word on a dark plate about the given place.
fn write_on_plate(picture: &mut RgbImage, word: &str, centre: Point, size: f32, colour: Rgb<u8>) {
    let words = Words::new(word, size);
    let margin = 0.25 * words.height;
    let plate = Rect {
        x: centre.x - words.width / 2.0 - margin,
        y: centre.y - words.height / 2.0,
        width: words.width + 2.0 * margin,
        height: words.height,
    };
    lay_plate(picture, plate, margin);
    words.write(picture, Point::new(plate.x + margin, plate.y), colour);
}

fn lay_plate(picture: &mut RgbImage, plate: Rect, corner: f64) {
    let mut sheet = Sheet::over(picture, plate);
    sheet.plate(plate, corner);
    sheet.print(picture, BLACK, PLATE_OPACITY);
}

/// One line of text, with its size known before it is drawn.
struct Words<'a> {
    text: &'a str,
    size: f32,
    width: f64,
    height: f64,
    font: FontRef<'static>,
}

impl<'a> Words<'a> {
    fn new(text: &'a str, size: f32) -> Self {
        let font = FontRef::try_from_slice(FONT).expect("the font is part of the program");
        let (width, height) = text_size(size, &font, text);
        Self {
            text,
            size,
            width: f64::from(width),
            height: f64::from(height),
            font,
        }
    }

    fn write(&self, picture: &mut RgbImage, top_left: Point, colour: Rgb<u8>) {
        #[expect(
            clippy::cast_possible_truncation,
            reason = "saturates; off the picture is not drawn"
        )]
        let (x, y) = (top_left.x.round() as i32, top_left.y.round() as i32);
        draw_text_mut(picture, colour, x, y, self.size, &self.font, self.text);
    }
}

/// Draws the scale bar at the bottom right and returns the place its plate takes up.
fn draw_scale_bar(picture: &mut RgbImage, px_per_mm: f64, pen: Pen) -> Rect {
    let (width, height) = (f64::from(picture.width()), f64::from(picture.height()));
    let mm = round_length(SCALE_BAR_SHARE * width / px_per_mm);
    let length = mm * px_per_mm;
    let label = length_in_figures(mm);
    let words = Words::new(&label, pen.font * 1.2);
    let thickness = 2.0 * pen.line;
    let margin = 0.5 * words.height;
    let plate_width = length.max(words.width) + 2.0 * margin;
    let plate_height = words.height + thickness + 1.4 * margin;
    let plate = Rect {
        x: width - plate_width - margin,
        y: height - plate_height - margin,
        width: plate_width,
        height: plate_height,
    };
    lay_plate(picture, plate, 0.6 * margin);
    let middle = plate.x + plate.width / 2.0;
    words.write(
        picture,
        Point::new(middle - words.width / 2.0, plate.y + 0.3 * margin),
        WHITE,
    );
    let bar = Rect {
        x: middle - length / 2.0,
        y: plate.y + plate.height - 0.8 * margin - thickness,
        width: length,
        height: thickness,
    };
    let mut sheet = Sheet::over(picture, bar);
    sheet.plate(bar, 0.0);
    sheet.print(picture, WHITE, 1.0);
    plate
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

/// An explanation of one kind of line.
struct Entry {
    text: &'static str,
    colour: Rgb<u8>,
    is_dashed: bool,
}

/// What the lines on the picture mean; only those that are there.
fn legend(area: &Area, regions: &[Pore], lines: &[CountLine]) -> Vec<Entry> {
    let counted = regions.iter().any(|region| region.counted);
    let uncounted = regions.iter().any(|region| !region.counted);
    [
        (counted, "counted", SKY_BLUE, false),
        (uncounted, "at the edge, not counted", REDDISH_PURPLE, true),
        (!lines.is_empty(), "1 mm line and its count", YELLOW, false),
        (area.outline != Outline::WholePhoto, "area", WHITE, false),
        (!area.left_out.is_empty(), "left out", WHITE, true),
    ]
    .into_iter()
    .filter(|(present, ..)| *present)
    .map(|(_, text, colour, is_dashed)| Entry {
        text,
        colour,
        is_dashed,
    })
    .collect()
}

/// Draws the legend at the bottom left, unless it would run into the scale bar.
fn draw_legend(picture: &mut RgbImage, entries: &[Entry], bar: Rect, pen: Pen) {
    let words: Vec<_> = entries
        .iter()
        .map(|entry| Words::new(entry.text, pen.font))
        .collect();
    let widest = words.iter().map(|words| words.width).fold(0.0, f64::max);
    let row = 1.25 * f64::from(pen.font);
    let margin = 0.5 * row;
    let sample = 2.0 * row;
    let height = words.iter().map(|_| row).sum::<f64>() + 1.2 * margin;
    let plate = Rect {
        x: margin,
        y: f64::from(picture.height()) - height - margin,
        width: sample + widest + 3.0 * margin,
        height,
    };
    if entries.is_empty() || plate.x + plate.width + margin > bar.x || plate.y < 0.0 {
        return;
    }
    lay_plate(picture, plate, 0.6 * margin);
    let mut y = plate.y + 0.6 * margin;
    let left = plate.x + margin;
    for (entry, words) in entries.iter().zip(&words) {
        let line = vec![
            Point::new(left, y + row / 2.0),
            Point::new(left + sample, y + row / 2.0),
        ];
        let paths = if entry.is_dashed {
            dashed(&line, sample / 6.0)
        } else {
            vec![line]
        };
        trace(picture, &paths, pen.line, 0.0, entry.colour);
        words.write(
            picture,
            Point::new(left + sample + margin, y + (row - words.height) / 2.0),
            WHITE,
        );
        y += row;
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample;
    use super::*;
    use crate::geometry::Polygon;
    use crate::photo::Light;

    const GROUND: Rgb<u8> = Rgb([205, 180, 140]);

    fn plain_photo(width: u32, height: u32) -> Photo {
        Photo {
            path: "plain.png".into(),
            sha256: String::new(),
            rgb: RgbImage::from_pixel(width, height, GROUND),
            light: Light::new(width, height),
            taken: None,
            place: None,
        }
    }

    /// One counted pore at (300, 300), one at the edge, one count line.
    fn two_pores() -> Measurement {
        Measurement {
            findings: sample::poroid(),
            regions: vec![
                sample::round_pore(Point::new(300.5, 200.5), 100.0, true),
                sample::round_pore(Point::new(10.5, 450.5), 100.0, false),
            ],
        }
    }

    fn pixels_of(picture: &RgbImage, colour: Rgb<u8>) -> usize {
        picture.pixels().filter(|pixel| **pixel == colour).count()
    }

    #[test]
    fn counted_pores_are_solid_and_others_dashed() {
        let photo = plain_photo(1200, 900);
        let picture = draw(&photo, &Area::default(), &two_pores());
        // Up, down, left and right of the centre of the counted pore.
        for (x, y) in [(300, 150), (300, 250), (250, 200), (350, 200)] {
            assert_eq!(picture.get_pixel(x, y), &SKY_BLUE, "at {x}, {y}");
        }
        let round: Vec<_> = (0..360)
            .map(|degree| {
                let (sin, cos) = f64::from(degree).to_radians().sin_cos();
                Point::new(10.5 + 50.0 * cos, 450.5 + 50.0 * sin)
            })
            .filter(|p| p.x > 0.0)
            .map(|p| {
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "on the photo"
                )]
                let pixel = picture.get_pixel(p.x as u32, p.y as u32);
                *pixel == REDDISH_PURPLE
            })
            .collect();
        let dashes = round.windows(2).filter(|pair| pair[1] && !pair[0]).count();
        assert!(dashes >= 3, "{dashes} dashes");
        assert_eq!(picture.get_pixel(300, 200), &GROUND, "pores stay visible");
    }

    #[test]
    fn the_scale_bar_is_as_long_as_it_says() {
        let photo = plain_photo(1200, 900);
        let picture = draw(&photo, &Area::default(), &two_pores());
        // 1200 px at 61.4 px/mm: a quarter is 4.9 mm, so the bar is 2 mm = 122.8 px.
        let longest_run = picture
            .rows()
            .map(|row| {
                let (mut run, mut longest) = (0_u32, 0);
                for pixel in row {
                    run = if *pixel == WHITE { run + 1 } else { 0 };
                    longest = longest.max(run);
                }
                longest
            })
            .max();
        assert!(matches!(longest_run, Some(121..=123)), "{longest_run:?}");
    }

    #[test]
    fn the_area_is_outlined_only_where_it_is_not_the_whole_photo() {
        let photo = plain_photo(1200, 900);
        let whole = draw(&photo, &Area::default(), &two_pores());
        let part = Area {
            outline: Outline::Rectangle(Rect {
                x: 100.0,
                y: 80.0,
                width: 900.0,
                height: 500.0,
            }),
            left_out: vec![Polygon::new(vec![
                Point::new(600.0, 300.0),
                Point::new(800.0, 300.0),
                Point::new(700.0, 450.0),
            ])],
        };
        let part = draw(&photo, &part, &two_pores());
        assert!(pixels_of(&part, WHITE) > pixels_of(&whole, WHITE) + 2 * (900 + 500));
    }

    #[test]
    fn surfaces_without_pores_and_tiny_photos_can_be_drawn_too() {
        let nothing = Measurement {
            findings: sample::of_kind(crate::surface::SurfaceType::Smooth),
            regions: Vec::new(),
        };
        for (width, height) in [(1, 1), (7, 200), (300, 20), (640, 480)] {
            let picture = draw(&plain_photo(width, height), &Area::default(), &nothing);
            assert_eq!(picture.dimensions(), (width, height));
            let bytes = png(&picture).expect("a PNG");
            assert_eq!(
                image::load_from_memory(&bytes)
                    .expect("a picture")
                    .to_rgb8(),
                picture
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

    #[test]
    fn count_lines_are_few_and_apart() {
        let lines: Vec<_> = (0..300)
            .map(|i| {
                let (x, y) = (f64::from(i % 20) * 10.0, f64::from(i / 20) * 10.0);
                CountLine {
                    from: Point::new(x, y),
                    to: Point::new(x + 30.0, y),
                    pores: 4,
                }
            })
            .collect();
        let chosen = well_apart(&lines, 45.0);
        assert!(chosen.len() <= MOST_COUNT_LINES);
        assert!(chosen.len() > 6, "only {} lines fit", chosen.len());
        for (i, a) in chosen.iter().enumerate() {
            for b in &chosen[i + 1..] {
                assert!(middle(a).distance(middle(b)) >= 45.0);
            }
        }
    }

    #[test]
    fn the_font_has_what_the_labels_need() {
        use ab_glyph::Font as _;
        let font = FontRef::try_from_slice(FONT).expect("a font");
        for letter in "0123456789 mmµ,.abcdefghijklmnopqrstuvwxyz".chars() {
            assert_ne!(font.glyph_id(letter).0, 0, "no glyph for {letter:?}");
        }
    }
}
