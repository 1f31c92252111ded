//! The pictures of a report: the photo with a scale bar, the same with what was found drawn on it, and
//! a piece of both in which single pores can be seen.

use super::chart::Chart;
use crate::area::Area;
use crate::book::{Evidence, Seen};
use crate::export::preview::{self, Preview};
use crate::export::{overlay, strip};
use crate::findings::Findings;
use crate::geometry::{Point, Rect};
use crate::photo::Photo;
use crate::statistics::Histogram;
use crate::surface::SurfaceType;
use image::imageops::{self, FilterType};
use image::{ImageError, RgbImage};
use serde_json::Value;
use std::fmt::Display;

/// Longer side of a picture in a report at most, px: some 400 to the inch on half a page.
const LONGEST_PX: u32 = 1400;
/// Side of a detail, px.
const DETAIL_PX: u32 = 900;
/// Height of letters as a share of a picture's longer side: three millimetres on half a page.
const LETTERS: f64 = 1.0 / 30.0;
/// Spacings that a detail shows a side.
const DETAIL_SPACINGS: f64 = 12.0;
/// Share of the area's shorter side that a detail shows where no spacing is known.
const DETAIL_SHARE: f64 = 0.4;
/// Places a side at which a detail may lie, and at which it is looked at.
const TRIED: u32 = 7;

/// A picture that was not made.
#[derive(Debug, thiserror::Error)]
#[error("a picture for the report could not be made: {0}")]
pub struct PictureError(#[from] ImageError);

/// A picture in a report.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// A JPEG file.
    pub jpeg: Vec<u8>,
    /// Width.
    pub width_px: u32,
    /// Height.
    pub height_px: u32,
    /// What it shows.
    pub says: String,
}

/// What can be shown of one photo.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Shown {
    /// The photo, and the photo with outlines.
    pub pictures: Vec<Picture>,
    /// Diameters of pores or teeth.
    pub diameters: Option<Chart>,
    /// What is missing and why, or what is odd.
    pub remarks: Vec<String>,
}

/// A piece of a photo in which single pores can be seen.
#[derive(Debug, Clone, PartialEq)]
pub struct Details {
    /// As it was taken.
    pub plain: Picture,
    /// With outlines.
    pub outlined: Picture,
}

impl Shown {
    /// Why nothing can be shown.
    #[must_use]
    pub fn nothing(why: &impl Display) -> Self {
        Self {
            remarks: vec![format!("No pictures: {why}.")],
            ..Self::default()
        }
    }

    /// The pictures of a photo whose findings are given.
    ///
    /// # Errors
    /// [`PictureError`] when memory runs out.
    pub fn of(evidence: &Evidence, findings: &Value) -> Result<Self, PictureError> {
        let seen = match &evidence.seen {
            Ok(seen) => seen,
            Err(why) => {
                return Ok(Self {
                    pictures: vec![Picture::of(
                        &evidence.photo.rgb,
                        "The photo as it was taken",
                    )?],
                    diameters: None,
                    remarks: vec![format!("No outlines: {why}.")],
                });
            }
        };
        let picture = seen.picture(&evidence.photo);
        let measured = &seen.measurement;
        let is_straightened = !std::ptr::eq(picture, &raw const evidence.photo);
        let (plain_says, outlined_says) = (
            if is_straightened {
                "The photo, straightened, with a scale bar"
            } else {
                "The photo with a scale bar"
            },
            if measured.regions.is_empty() {
                "The same with the area that was measured"
            } else {
                "The same with what was found"
            },
        );
        let plain = with_bar(&picture.rgb, measured.findings.scale.px_per_mm);
        let outlined = overlay::lettered(picture, &seen.area, measured, LETTERS, &[]);
        let withheld = (findings.pointer("/notes").and_then(Value::as_array))
            .is_some_and(|notes| notes.iter().any(|note| note["severity"] == "stop"));
        let (things, _) = measured.findings.counted();
        let remarks = seen
            .differs_from(findings)
            .map(|now| {
                format!(
                    "Outlines and histogram were made anew by this version of Poreline, which sees it \
                     differently than the record does ({now}); figures are those of the record."
                )
            })
            .into_iter()
            .collect();
        Ok(Self {
            pictures: vec![
                Picture::of(&plain, plain_says)?,
                Picture::of(&outlined, outlined_says)?,
            ],
            diameters: (!withheld)
                .then(|| Histogram::of(measured.diameters_mm()))
                .flatten()
                .map(|histogram| Chart::of(&histogram, things)),
            remarks,
        })
    }
}

impl Details {
    /// How many mm a side show enough of this photo for a detail.
    #[must_use]
    pub fn wanted_mm(seen: &Seen) -> f64 {
        spacing_mm(&seen.measurement.findings).map_or_else(
            || DETAIL_SHARE * Self::widest_mm(seen),
            |spacing| DETAIL_SPACINGS * spacing,
        )
    }

    /// The widest detail that the area has room for, mm.
    #[must_use]
    pub fn widest_mm(seen: &Seen) -> f64 {
        let findings = &seen.measurement.findings;
        let photo = Rect::of_size(findings.photo.width_px, findings.photo.height_px);
        let bounds = seen.area.bounds(photo).unwrap_or(photo);
        bounds.width.min(bounds.height) / findings.scale.px_per_mm
    }

    /// A piece of the photo so many mm a side, where most of it is in the area.
    ///
    /// # Errors
    /// [`PictureError`] when memory runs out.
    pub fn of(evidence: &Evidence, seen: &Seen, side_mm: f64) -> Result<Self, PictureError> {
        let picture = seen.picture(&evidence.photo);
        let px_per_mm = seen.measurement.findings.scale.px_per_mm;
        let side = side_mm * px_per_mm;
        let piece = best_piece(picture, &seen.area, side);
        let outlined = overlay::outlines(picture, &seen.area, &seen.measurement);
        let shown = |picture: &RgbImage, says: &str| {
            let (cut, side_px) = cut_out(picture, piece);
            let enlarged = f64::from(DETAIL_PX) / f64::from(side_px);
            Picture::of(&with_bar(&cut, enlarged * px_per_mm), says)
        };
        Ok(Self {
            plain: shown(&picture.rgb, "As it was taken")?,
            outlined: shown(&outlined, "What was found")?,
        })
    }
}

/// Spacing of what was counted, mm.
fn spacing_mm(findings: &Findings) -> Option<f64> {
    let per_mm = match findings.surface.kind {
        SurfaceType::Poroid => findings.pores.as_ref()?.per_mm,
        SurfaceType::Toothed => findings.teeth.as_ref()?.per_mm,
        SurfaceType::Gilled => findings.gills.as_ref()?.per_mm,
        SurfaceType::MazeLike => findings.maze.as_ref()?.per_mm,
        SurfaceType::Smooth | SurfaceType::Undecided => return None,
    };
    (per_mm.value > 0.0).then(|| 1.0 / per_mm.value)
}

/// Where in the area a square of so many px shows most of it; of equals the one nearest the middle.
fn best_piece(picture: &Photo, area: &Area, side: f64) -> Rect {
    let photo = picture.bounds();
    let bounds = area.bounds(photo).unwrap_or(photo);
    let room = |from: f64, length: f64, end: f64| {
        let span = (length - side).max(0.0);
        (0..TRIED).map(move |n| {
            let at = from + span * f64::from(n) / f64::from(TRIED - 1);
            at.min(end - side).max(0.0)
        })
    };
    let middle = Point::new(
        bounds.x + bounds.width / 2.0,
        bounds.y + bounds.height / 2.0,
    );
    let mut best: Option<(usize, f64, Rect)> = None;
    for y in room(bounds.y, bounds.height, photo.height) {
        for x in room(bounds.x, bounds.width, photo.width) {
            let piece = Rect {
                x,
                y,
                width: side,
                height: side,
            };
            let inside = grid(piece).filter(|p| area.contains(*p, photo)).count();
            let off = middle.distance(Point::new(x + side / 2.0, y + side / 2.0));
            if best.is_none_or(|(most, least, _)| inside > most || inside == most && off < least) {
                best = Some((inside, off, piece));
            }
        }
    }
    best.map_or(bounds, |(_, _, piece)| piece)
}

fn grid(piece: Rect) -> impl Iterator<Item = Point> {
    (0..TRIED).flat_map(move |row| {
        (0..TRIED).map(move |column| {
            let share = |n: u32| (f64::from(n) + 0.5) / f64::from(TRIED);
            Point::new(
                piece.x + share(column) * piece.width,
                piece.y + share(row) * piece.height,
            )
        })
    })
}

/// A square piece of a picture in the size of details, with its side on the picture, px.
fn cut_out(picture: &RgbImage, piece: Rect) -> (RgbImage, u32) {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "on the picture"
    )]
    let [x, y, side] = [piece.x, piece.y, piece.width].map(|px| px.floor().max(0.0) as u32);
    let side = side.clamp(1, picture.width().min(picture.height()));
    let cut = imageops::crop_imm(picture, x, y, side, side).to_image();
    let resized = imageops::resize(&cut, DETAIL_PX, DETAIL_PX, FilterType::CatmullRom);
    (resized, side)
}

/// A copy with a strip below that holds a scale bar.
fn with_bar(picture: &RgbImage, px_per_mm: f64) -> RgbImage {
    let side = f64::from(picture.width().max(picture.height()));
    #[expect(clippy::cast_possible_truncation, reason = "a few thousand at most")]
    let font = (side * LETTERS) as f32;
    strip::add_below(picture.clone(), &[], px_per_mm, &[], side / 600.0, font)
}

impl Picture {
    /// A picture made no larger than a report needs.
    fn of(picture: &RgbImage, says: &str) -> Result<Self, PictureError> {
        let Preview {
            jpeg,
            width_px,
            height_px,
        } = preview::jpeg(picture, LONGEST_PX)?;
        Ok(Self {
            jpeg,
            width_px,
            height_px,
            says: says.to_owned(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::area::{LeftOut, Outline, Reason};
    use image::Rgb;

    fn photo() -> Photo {
        Photo::from_rgb("a.png", RgbImage::from_pixel(800, 600, Rgb([200; 3])))
    }

    #[test]
    fn a_detail_lies_where_most_is_measured() {
        let area = Area {
            outline: Outline::WholePhoto,
            left_out: vec![LeftOut {
                outline: Rect {
                    x: 0.0,
                    y: 0.0,
                    width: 500.0,
                    height: 600.0,
                }
                .to_polygon(),
                reason: Reason::ByHand,
            }],
        };
        let piece = best_piece(&photo(), &area, 200.0);
        assert!(piece.x >= 500.0 && piece.x + 200.0 <= 800.0, "{piece:?}");
        let middle = best_piece(&photo(), &Area::default(), 200.0);
        assert!((middle.x - 300.0).abs() < 1.0 && (middle.y - 200.0).abs() < 1.0);
    }

    #[test]
    fn a_picture_is_no_larger_than_a_report_needs() {
        let large = RgbImage::from_pixel(4000, 3000, Rgb([200; 3]));
        let picture = Picture::of(&large, "large").expect("a picture");
        assert_eq!((picture.width_px, picture.height_px), (1400, 1050));
        let read = image::load_from_memory(&picture.jpeg).expect("a JPEG file");
        assert_eq!((read.width(), read.height()), (1400, 1050));
        let small = Picture::of(&photo().rgb, "small").expect("a picture");
        assert_eq!((small.width_px, small.height_px), (800, 600));
    }
}
