//! The photo with what was found drawn on it, and a strip below that says what is seen: the
//! evidence to show for a figure.
//!
//! Colours are from the palette of Okabe & Ito (*Color Universal Design*, 2008), which
//! colour-blind people can tell apart; whatever differs in colour differs in stroke too. Every
//! line has a dark casing, so that it is seen on pale walls and in dark pores alike.

use super::digits::with_interval;
use super::lettering::Words;
use super::pen::Pen;
use super::strip::{self, Entry};
use super::stroke::{Sheet, closed, dashed, trace};
use crate::Measurement;
use crate::area::{Area, Outline};
use crate::findings::Findings;
use crate::geometry::{Point, Rect};
use crate::photo::Photo;
use crate::pores::Pore;
use crate::statistics::CountLine;
use crate::surface::SurfaceType;
use image::{ImageError, ImageFormat, Rgb, RgbImage};
use std::io::Cursor;

const SKY_BLUE: Rgb<u8> = Rgb([86, 180, 233]);
const VERMILLION: Rgb<u8> = Rgb([213, 94, 0]);
const REDDISH_PURPLE: Rgb<u8> = Rgb([204, 121, 167]);
const YELLOW: Rgb<u8> = Rgb([240, 228, 66]);
const BLACK: Rgb<u8> = Rgb([0, 0, 0]);
const WHITE: Rgb<u8> = Rgb([255, 255, 255]);

/// How dark plates are.
const PLATE_OPACITY: f64 = 0.8;

/// Count lines drawn at most: enough to show how the count is done.
const MOST_COUNT_LINES: usize = 12;
/// Count lines are 1 mm long; with their middles this far apart they seldom cross.
const COUNT_LINES_APART_MM: f64 = 1.5;

/// Height of letters as a share of the longer side.
const LETTERS: f64 = 1.0 / 55.0;

/// A copy of the photo with outlines, a few count lines and the area. Below it a strip is added with
/// the photo's name, the surface, the main figure, a scale bar and a legend.
#[must_use]
pub fn draw(photo: &Photo, area: &Area, measurement: &Measurement) -> RgbImage {
    lettered(photo, area, measurement, LETTERS, &caption(measurement))
}

/// The same with letters of such a share of the longer side, and such a caption.
pub(super) fn lettered(
    photo: &Photo,
    area: &Area,
    measurement: &Measurement,
    letters: f64,
    caption: &[String],
) -> RgbImage {
    let findings = &measurement.findings;
    let px_per_mm = findings.scale.px_per_mm;
    let pen = Pen::fitting(&photo.rgb, &measurement.regions, letters);
    let mut picture = traced(photo, area, measurement, pen);
    let lines = findings.pores.as_ref().map_or_else(Vec::new, |pores| {
        well_apart(&pores.count_lines, COUNT_LINES_APART_MM * px_per_mm)
    });
    draw_count_lines(&mut picture, &lines, px_per_mm, pen);
    strip::add_below(
        picture,
        caption,
        px_per_mm,
        &legend(area, measurement, &lines),
        pen.line,
        pen.font,
    )
}

/// A copy of the photo with outlines and the area, and no words.
pub(super) fn outlines(photo: &Photo, area: &Area, measurement: &Measurement) -> RgbImage {
    let pen = Pen::fitting(&photo.rgb, &measurement.regions, LETTERS);
    traced(photo, area, measurement, pen)
}

fn traced(photo: &Photo, area: &Area, measurement: &Measurement, pen: Pen) -> RgbImage {
    let mut picture = photo.rgb.clone();
    outline_area(&mut picture, area, pen);
    outline_regions(&mut picture, &measurement.regions, pen);
    picture
}

/// What is seen: the photo's name, the surface, the main figure.
fn caption(measurement: &Measurement) -> Vec<String> {
    let findings = &measurement.findings;
    let kind = findings.surface.kind;
    let surface = match kind {
        _ if !measurement.regions.is_empty() => format!("{} surface", kind.word()),
        SurfaceType::Undecided => "surface undecided, nothing was counted".to_owned(),
        SurfaceType::MazeLike | SurfaceType::Gilled => {
            format!("{} surface, no single pores", kind.word())
        }
        SurfaceType::Smooth | SurfaceType::Poroid | SurfaceType::Toothed => {
            format!("{} surface, nothing to outline", kind.word())
        }
    };
    let name = findings.photo.path.file_name();
    name.map(|name| name.to_string_lossy().into_owned())
        .into_iter()
        .chain([surface])
        .chain(main_figure(findings))
        // Not to be broken over two lines.
        .chain(["measured\u{a0}with\u{a0}Poreline".to_owned()])
        .collect()
}

fn main_figure(findings: &Findings) -> Option<String> {
    let (what, per_mm) = if let Some(pores) = &findings.pores {
        ("pores", &pores.per_mm)
    } else if let Some(teeth) = &findings.teeth {
        ("teeth", &teeth.per_mm)
    } else if let Some(gills) = &findings.gills {
        ("gills", &gills.per_mm)
    } else {
        ("hollows", &findings.maze.as_ref()?.per_mm)
    };
    Some(format!("{what} per mm: {}", with_interval(per_mm)))
}

/// What the lines on the picture mean; only those that are there.
fn legend(area: &Area, measurement: &Measurement, lines: &[CountLine]) -> Vec<Entry> {
    let regions = &measurement.regions;
    let any = |of: fn(&Pore) -> bool| regions.iter().any(of);
    let too_large = if measurement.findings.teeth.is_some() {
        "too large to be a tooth, not counted"
    } else {
        "too large to be a pore, not counted"
    };
    [
        (any(|r| r.counted), "counted", SKY_BLUE, false),
        (any(is_cut), "at the edge, not counted", VERMILLION, true),
        (any(|r| r.oversized), too_large, REDDISH_PURPLE, true),
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

/// Whether it is not counted because the photo's edge may cut it.
const fn is_cut(region: &Pore) -> bool {
    !region.counted && !region.oversized
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
        .flat_map(|hole| dashed(&closed(hole.outline.vertices()), 6.0 * pen.line))
        .collect();
    trace(picture, &left_out, pen.line, pen.line / 2.0, WHITE);
}

fn outline_regions(picture: &mut RgbImage, regions: &[Pore], pen: Pen) {
    let outlines = |of: fn(&Pore) -> bool| {
        regions
            .iter()
            .filter(move |region| of(region))
            .map(|region| closed(region.outline.vertices()))
    };
    for (of, colour) in [
        ((|r| r.oversized) as fn(&Pore) -> bool, REDDISH_PURPLE),
        (is_cut, VERMILLION),
    ] {
        let dashes: Vec<_> = outlines(of)
            .flat_map(|outline| dashed(&outline, 4.0 * pen.outline))
            .collect();
        trace(picture, &dashes, pen.outline, pen.casing, colour);
    }
    let solid: Vec<_> = outlines(|region| region.counted).collect();
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
            camera: None,
            densities: Vec::new(),
            jpeg_blocks_from: None,
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
            tissue: None,
        }
    }

    /// Nothing but a verdict.
    fn without_regions(kind: SurfaceType) -> Measurement {
        Measurement {
            findings: sample::of_kind(kind),
            regions: Vec::new(),
            tissue: None,
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
                *pixel == VERMILLION
            })
            .collect();
        let dashes = round.windows(2).filter(|pair| pair[1] && !pair[0]).count();
        assert!(dashes >= 3, "{dashes} dashes");
        assert_eq!(picture.get_pixel(300, 200), &GROUND, "pores stay visible");
    }

    #[test]
    fn what_is_too_large_to_be_a_pore_has_a_colour_of_its_own() {
        let photo = plain_photo(1200, 900);
        let mut measurement = two_pores();
        let usual = draw(&photo, &Area::default(), &measurement);
        assert_eq!(pixels_of(&usual, REDDISH_PURPLE), 0);
        let mut card = sample::round_pore(Point::new(700.5, 500.5), 300.0, false);
        card.oversized = true;
        measurement.regions.push(card);
        let picture = draw(&photo, &Area::default(), &measurement);
        assert!(pixels_of(&picture, REDDISH_PURPLE) > 300);
        let texts = |measurement: &Measurement| -> Vec<&str> {
            legend(&Area::default(), measurement, &[])
                .iter()
                .map(|entry| entry.text)
                .collect()
        };
        assert_eq!(
            texts(&measurement),
            [
                "counted",
                "at the edge, not counted",
                "too large to be a pore, not counted"
            ]
        );
        measurement.findings = sample::of_kind(SurfaceType::Toothed);
        assert_eq!(
            texts(&measurement)[2],
            "too large to be a tooth, not counted"
        );
    }

    #[test]
    fn the_caption_says_what_is_seen() {
        assert_eq!(
            caption(&two_pores()).join(" | "),
            "tray 3.jpg | poroid surface | pores per mm: 4.31 (95 % interval 4.10 to 4.52) | \
             measured\u{a0}with\u{a0}Poreline"
        );
        for (kind, words) in [
            (
                SurfaceType::Smooth,
                "tray 3.jpg | smooth surface, nothing to outline | measured\u{a0}with\u{a0}Poreline",
            ),
            (
                SurfaceType::Undecided,
                "tray 3.jpg | surface undecided, nothing was counted | measured\u{a0}with\u{a0}Poreline",
            ),
            (
                SurfaceType::MazeLike,
                "tray 3.jpg | maze-like surface, no single pores | \
                 hollows per mm: 4.31 (95 % interval 4.10 to 4.52) | measured\u{a0}with\u{a0}Poreline",
            ),
        ] {
            assert_eq!(caption(&without_regions(kind)).join(" | "), words);
        }
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
            left_out: vec![
                Polygon::new(vec![
                    Point::new(600.0, 300.0),
                    Point::new(800.0, 300.0),
                    Point::new(700.0, 450.0),
                ])
                .into(),
            ],
        };
        let part = draw(&photo, &part, &two_pores());
        assert!(pixels_of(&part, WHITE) > pixels_of(&whole, WHITE) + 2 * (900 + 500));
    }

    #[test]
    fn surfaces_without_pores_and_tiny_photos_can_be_drawn_too() {
        let nothing = without_regions(SurfaceType::Smooth);
        for (width, height) in [(1, 1), (7, 200), (300, 20), (640, 480)] {
            let picture = draw(&plain_photo(width, height), &Area::default(), &nothing);
            assert_eq!(picture.width(), width);
            assert!(picture.height() > height, "there is a strip below");
            assert!(
                picture
                    .enumerate_pixels()
                    .all(|(_, y, pixel)| y >= height || *pixel == GROUND),
                "the photo is not covered"
            );
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
}
