//! From marks to the card, and from the card to the plane.

use super::edges::{Edge, edges};
use super::layout::{CARDS, Card, PRINT_UNCERTAINTY, Tone};
use super::marks::{Mark, marks};
use crate::area::{Area, Outline};
use crate::geometry::{Point, Polygon};
use crate::photo::{self, Photo};
use crate::progress::{Cancelled, Progress, Stage};
use crate::scale::How;
use crate::segmentation::{MOTTLING, ring};
use crate::tilt::{Homography, Plane, Sighting, tilt};
use image::{GrayImage, imageops};
use nalgebra::{Matrix2, Vector2};

/// Longest sides of the pictures that marks are sought on, px: the coarse one shows marks on most
/// photos, the fine one small cards on large photos.
const SEARCH_SIDES_PX: [u32; 2] = [1600, 4000];
/// Marks of one kind that are looked at: beyond them lies a sheet of uncut cards.
const MOST_OF_A_KIND: usize = 6;
/// Largest over smallest mark of a card, by perspective.
const MARKS_DIFFER: f64 = 2.2;
/// How far corners may lie off, in sides of a mark; a card of another size is off by more than that.
const CORNERS_OFF: f64 = 0.08;
/// Rounds of reading edges where the last round put them.
const ROUNDS: usize = 3;
/// An edge that lies off by more than this many times the usual is hidden by something.
const OUTLIER: f64 = 5.0;
/// … and so is one that lies off by more than this at least, in sides of a mark.
const LEAST_OUTLIER: f64 = 0.01;
/// Standard deviation of a normal distribution over its median deviation.
const MAD_TO_SD: f64 = 1.4826;
/// How far a cut by hand may stray and what its edge may shade, mm.
const CUT_MM: f64 = 0.4;
/// Largest margin as a share of the opening: much must be left of it.
const WIDEST_MARGIN: f64 = 0.2;
/// Unknowns of a homography.
const UNKNOWNS: f64 = 8.0;
/// Places a side at which a patch is looked at, over its inner part.
const PATCH_PLACES: u32 = 12;
const PATCH_INNER: f64 = 0.6;

/// Why there is no card to go by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum CardError {
    /// None of its marks is to be seen.
    #[error(
        "no scale card of Poreline's was found on the photo. Its corner marks, black squares with white \
         pores, have to be in the picture, in focus and unhidden. Without a card give the scale in \
         another way; `poreline card` makes a sheet of them to print"
    )]
    NotFound,
    /// Some marks, but not enough of one card.
    #[error(
        "of the scale card's four corner marks only {0} could be read, and three are needed. See that \
         nothing covers them, that no glare lies on them and that the whole card is in the picture"
    )]
    FewMarks(usize),
    /// More than one card.
    #[error(
        "{0} scale cards lie on the photo, and it is unclear which one lies in the plane of the surface. \
         Leave one in the picture, or give the corners of a known rectangle instead"
    )]
    SeveralCards(usize),
    /// A mirrored card.
    #[error(
        "the scale card is mirrored on this photo, so the photo was turned over. Export it again \
         without mirroring"
    )]
    Mirrored,
    /// Stopped.
    #[error(transparent)]
    Cancelled(#[from] Cancelled),
}

/// Mean light of the card's patches: linear red, green and blue, 0–1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tones {
    /// Bare paper.
    pub white: [f64; 3],
    /// Mid grey as the printer made it.
    pub grey: [f64; 3],
    /// Black ink.
    pub black: [f64; 3],
}

/// A card on a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Which card.
    pub card: Card,
    /// Its plane.
    pub plane: Plane,
    /// Corner marks that were read, 3 or 4.
    pub marks: usize,
    /// Printed edges and ticks that fixed the plane.
    pub edges: usize,
    /// Standard deviation of these from where they should be, mm.
    pub residual_mm: f64,
    /// How far beyond the paper's edges the surface is left out with it, because pores are cut there, mm.
    pub margin_mm: f64,
    /// Light of its patches; `None` where they are hidden.
    pub tones: Option<Tones>,
}

/// Looks for Poreline's scale card at any place, rotation and tilt.
///
/// # Errors
/// [`CardError`] where there is no card, too little of one, more than one, or the work was stopped.
pub fn find(photo: &Photo, progress: &Progress<'_>) -> Result<Found, CardError> {
    progress.enter(Stage::Scale)?;
    let grey = imageops::grayscale(&photo.rgb);
    let mut refused = CardError::NotFound;
    let mut last_size = None;
    for side in SEARCH_SIDES_PX {
        let searched = shrunk(&grey, side);
        if last_size == Some(searched.dimensions()) {
            break;
        }
        last_size = Some(searched.dimensions());
        let times = [
            f64::from(grey.width()) / f64::from(searched.width()),
            f64::from(grey.height()) / f64::from(searched.height()),
        ];
        let marks: Vec<Mark> = marks(&searched)
            .into_iter()
            .map(|mark| mark.enlarged(times))
            .collect();
        progress.check()?;
        match assembled(&marks) {
            Ok(rough) => return refined(photo, &rough, &marks),
            // The fine picture shows at least as much.
            Err(error) => refused = error,
        }
        if matches!(refused, CardError::SeveralCards(_) | CardError::Mirrored) {
            break;
        }
    }
    Err(refused)
}

fn shrunk(grey: &GrayImage, side: u32) -> GrayImage {
    let (width, height) = grey.dimensions();
    match width.max(height).div_ceil(side) {
        0 | 1 => grey.clone(),
        times => imageops::thumbnail(grey, (width / times).max(1), (height / times).max(1)),
    }
}

/// A card as its marks' corners give it.
#[derive(Debug, Clone)]
struct Rough {
    card: Card,
    /// For each of the card's marks the number of the mark seen.
    marks: [Option<usize>; 4],
    to_photo: Homography,
    /// Root mean square distance of corners, in sides of a mark.
    off: f64,
}

impl Rough {
    fn count(&self) -> usize {
        self.marks.iter().flatten().count()
    }

    fn shares_a_mark_with(&self, other: &Self) -> bool {
        let theirs: Vec<usize> = other.marks.iter().flatten().copied().collect();
        self.marks
            .iter()
            .flatten()
            .any(|mark| theirs.contains(mark))
    }
}

/// The one card that marks belong to.
fn assembled(marks: &[Mark]) -> Result<Rough, CardError> {
    let kinds: [Vec<Option<usize>>; 4] = std::array::from_fn(|kind| {
        let of_kind = (0..marks.len()).filter(|m| marks[*m].pores == kind + 1);
        of_kind
            .take(MOST_OF_A_KIND)
            .map(Some)
            .chain([None])
            .collect()
    });
    let (mut found, mut is_mirrored) = (Vec::new(), false);
    for &a in &kinds[0] {
        for &b in &kinds[1] {
            for &c in &kinds[2] {
                for &d in &kinds[3] {
                    let chosen = [a, b, c, d];
                    if chosen.iter().flatten().count() < 3 || !are_alike(marks, chosen) {
                        continue;
                    }
                    match fitted(marks, chosen) {
                        Fit::Card(rough) => found.push(*rough),
                        Fit::Mirrored => is_mirrored = true,
                        Fit::None => {}
                    }
                }
            }
        }
    }
    found.sort_by(|a, b| b.count().cmp(&a.count()).then(a.off.total_cmp(&b.off)));
    let mut apart: Vec<Rough> = Vec::new();
    for rough in found {
        if !apart.iter().any(|other| other.shares_a_mark_with(&rough)) {
            apart.push(rough);
        }
    }
    match apart.len() {
        1 => Ok(apart.remove(0)),
        0 if is_mirrored => Err(CardError::Mirrored),
        0 => Err(match kinds.iter().filter(|kind| kind.len() > 1).count() {
            0 => CardError::NotFound,
            // Three marks that fit no card are at most two of one.
            seen => CardError::FewMarks(seen.min(2)),
        }),
        several => Err(CardError::SeveralCards(several)),
    }
}

fn are_alike(marks: &[Mark], chosen: [Option<usize>; 4]) -> bool {
    let sides = chosen.iter().flatten().map(|m| marks[*m].side());
    let (small, large) = sides.fold((f64::MAX, 0.0_f64), |(s, l), side| {
        (s.min(side), l.max(side))
    });
    large <= MARKS_DIFFER * small
}

enum Fit {
    Card(Box<Rough>),
    Mirrored,
    None,
}

/// The card that fits these marks best, if one does.
fn fitted(marks: &[Mark], chosen: [Option<usize>; 4]) -> Fit {
    let seen: Vec<(usize, &Mark)> = chosen
        .iter()
        .enumerate()
        .filter_map(|(place, mark)| mark.map(|m| (place, &marks[m])))
        .collect();
    // Counted clockwise on the card, they run clockwise on an unmirrored photo.
    let [a, b, c] = [0, 1, 2].map(|k| seen[k].1.centre);
    let turns = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
    let is_mirrored = turns < 0.0;
    let best = CARDS
        .into_iter()
        .filter_map(|card| {
            let (to_photo, off) = corners_fitted(&card, &seen, is_mirrored)?;
            Some(Rough {
                card,
                marks: chosen,
                to_photo,
                off,
            })
        })
        .min_by(|a, b| a.off.total_cmp(&b.off));
    match best {
        Some(rough) if rough.off <= CORNERS_OFF => {
            if is_mirrored {
                Fit::Mirrored
            } else {
                Fit::Card(Box::new(rough))
            }
        }
        _ => Fit::None,
    }
}

/// From a card to the photo through the corners of its marks, and how far these lie off.
fn corners_fitted(
    card: &Card,
    seen: &[(usize, &Mark)],
    is_mirrored: bool,
) -> Option<(Homography, f64)> {
    let printed = |[x, y]: [f64; 2]| [if is_mirrored { -x } else { x }, y];
    let centres = card.mark_centres().map(printed);
    // How the card lies, from three middles: enough to tell which corner of a mark is which.
    let [(i, a), (j, b), (k, c)] = [0, 1, 2].map(|n| seen[n]);
    let plane = Matrix2::from_columns(&[
        difference(centres[j], centres[i]),
        difference(centres[k], centres[i]),
    ]);
    let place = |mark: &Mark| [mark.centre.x, mark.centre.y];
    let picture = Matrix2::from_columns(&[
        difference(place(b), place(a)),
        difference(place(c), place(a)),
    ]);
    let lie = picture * plane.try_inverse()?;
    let mut pairs = Vec::with_capacity(16);
    for (place, mark) in seen {
        let corners = card.mark_corners(*place).map(printed);
        let expected = corners.map(|corner| {
            let from_centre = lie * difference(corner, centres[*place]);
            Point::new(mark.centre.x + from_centre.x, mark.centre.y + from_centre.y)
        });
        let nearest = expected.map(|at| {
            mark.corners
                .iter()
                .copied()
                .min_by(|p, q| p.distance(at).total_cmp(&q.distance(at)))
                .unwrap_or(at)
        });
        let is_taken_twice = (0..4).any(|m| (0..m).any(|n| nearest[m] == nearest[n]));
        if is_taken_twice {
            return None;
        }
        pairs.extend(corners.into_iter().zip(nearest.map(|p| [p.x, p.y])));
    }
    let to_photo = Homography::through(&pairs).ok()?;
    let squares: f64 = pairs
        .iter()
        .map(|(printed, [x, y])| {
            let [u, v] = to_photo.map(*printed);
            (u - x).powi(2) + (v - y).powi(2)
        })
        .sum();
    let side = seen.iter().map(|(_, mark)| mark.side()).sum::<f64>() / seen.len() as f64;
    Some((to_photo, (squares / pairs.len() as f64).sqrt() / side))
}

fn difference(a: [f64; 2], b: [f64; 2]) -> Vector2<f64> {
    Vector2::new(a[0] - b[0], a[1] - b[1])
}

/// The card with its plane from all printed edges that are to be seen on the full photo.
fn refined(photo: &Photo, rough: &Rough, seen: &[Mark]) -> Result<Found, CardError> {
    let card = rough.card;
    let marks: Vec<usize> = (0..4).filter(|m| rough.marks[*m].is_some()).collect();
    let too_faint = || CardError::FewMarks(marks.len().min(2));
    let mut to_plane = rough.to_photo.inverse();
    let mut used: Vec<Edge> = Vec::new();
    for _ in 0..ROUNDS {
        used = edges(&photo.light, &card, &marks, &to_plane.inverse());
        to_plane = fitted_to(&used).ok_or_else(too_faint)?;
        let least = LEAST_OUTLIER * card.mark_mm;
        let usual = MAD_TO_SD * median(used.iter().map(|e| e.residual(&to_plane).abs()));
        let limit = (OUTLIER * usual).max(least);
        let before = used.len();
        used.retain(|edge| edge.residual(&to_plane).abs() <= limit);
        if used.len() < before {
            to_plane = fitted_to(&used).ok_or_else(too_faint)?;
        }
    }
    let corners: Vec<Point> = marks
        .iter()
        .filter_map(|m| rough.marks[*m].map(|m| seen[m].corners))
        .flatten()
        .collect();
    let (residual_mm, share) = spread(&used, &to_plane);
    let bounds = photo.bounds();
    let margin_mm = margin(photo, &card, &to_plane);
    Ok(Found {
        card,
        plane: Plane {
            relative_uncertainty: share.hypot(PRINT_UNCERTAINTY),
            how: How::Card,
            span_mm: card.paper_mm()[0].hypot(card.paper_mm()[1]),
            tilt: tilt(&to_plane, bounds, &corners, share),
            hidden: Some(hidden(&card, &to_plane, margin_mm)),
            to_plane: to_plane.clone(),
        },
        marks: marks.len(),
        edges: used.len(),
        residual_mm,
        margin_mm,
        tones: tones(photo, &card, &to_plane.inverse()),
    })
}

fn fitted_to(edges: &[Edge]) -> Option<Homography> {
    let sightings: Vec<Sighting> = edges
        .iter()
        .flat_map(|edge| edge.sightings.clone())
        .collect();
    Homography::from_sightings(&sightings).ok()
}

/// Standard deviation of edges from where they should be, mm, and what that makes of lengths on the
/// plane, as a share: the standard error of a slope (`crate::scale::Line`). Every edge counts once,
/// however many places it was seen at, since these share what the printer and the lens did to it.
fn spread(edges: &[Edge], to_plane: &Homography) -> (f64, f64) {
    let count = edges.len() as f64;
    let squares: f64 = edges.iter().map(|e| e.residual(to_plane).powi(2)).sum();
    let deviation = (squares / (count - UNKNOWNS).max(1.0)).sqrt();
    let extent: f64 = [0, 1]
        .map(|axis| {
            let places: Vec<f64> = edges
                .iter()
                .map(Edge::printed)
                .filter(|(across, _)| across[axis].abs() > 0.5)
                .map(|(across, offset)| offset * across[axis].signum())
                .collect();
            let mean = places.iter().sum::<f64>() / places.len().max(1) as f64;
            places.iter().map(|p| (p - mean).powi(2)).sum::<f64>()
        })
        .iter()
        .sum();
    (deviation, deviation / extent.sqrt())
}

/// A rectangle about the middle of the card, its first corner again at its end.
fn rectangle([width, height]: [f64; 2]) -> [[f64; 2]; 5] {
    let (x, y) = (width / 2.0, height / 2.0);
    [[-x, -y], [x, -y], [x, y], [-x, y], [-x, -y]]
}

/// The surface that is left out along the paper, mm: where paper covers half of a pore, the other half
/// passes for a pore of its own, so a spacing is kept as it is from the photo's own edge. The cut and
/// its shade need some in any case.
fn margin(photo: &Photo, card: &Card, to_plane: &Homography) -> f64 {
    let to_photo = to_plane.inverse();
    let corners = rectangle(card.opening_mm.map(|side| side - 2.0 * CUT_MM));
    let opening = corners[..4]
        .iter()
        .map(|place| to_photo.map(*place))
        .map(|[x, y]| Point::new(x, y));
    let area = Area {
        outline: Outline::Polygon(Polygon::new(opening.collect())),
        left_out: Vec::new(),
    };
    let spacing_mm = area
        .bounds(photo.bounds())
        .ok()
        .and_then(|bounds| ring(&photo.light, &area, bounds))
        .filter(|ring| ring.modulation >= MOTTLING)
        .map_or(0.0, |ring| {
            ring.spacing_px / to_photo.jacobian([0.0; 2]).determinant().abs().sqrt()
        });
    let shorter = card.opening_mm[0].min(card.opening_mm[1]);
    spacing_mm.min(WIDEST_MARGIN * shorter).max(CUT_MM)
}

/// The paper of the card and a margin about it, its opening not, on the photo: one outline with a seam.
fn hidden(card: &Card, to_plane: &Homography, margin_mm: f64) -> Polygon {
    let paper = rectangle(card.paper_mm().map(|side| side + 2.0 * margin_mm));
    let mut opening = rectangle(card.opening_mm.map(|side| side - 2.0 * margin_mm));
    opening.reverse();
    let to_photo = to_plane.inverse();
    let outline = paper
        .into_iter()
        .chain(opening)
        .map(|place| to_photo.map(place))
        .map(|[x, y]| Point::new(x, y));
    Polygon::new(outline.collect())
}

/// Light of the patches, if they look as they should.
fn tones(photo: &Photo, card: &Card, to_photo: &Homography) -> Option<Tones> {
    let (width, height) = photo.rgb.dimensions();
    let mean = |tone: Tone| -> Option<[f64; 3]> {
        let patch = card
            .patches()
            .into_iter()
            .find(|patch| patch.tone == tone)?;
        let mut sum = [0.0; 3];
        for row in 0..PATCH_PLACES {
            for column in 0..PATCH_PLACES {
                let aside = |k: u32| {
                    PATCH_INNER
                        * patch.side
                        * ((f64::from(k) + 0.5) / f64::from(PATCH_PLACES) - 0.5)
                };
                let [x, y] = to_photo.map([
                    patch.centre[0] + aside(column),
                    patch.centre[1] + aside(row),
                ]);
                let inside = x >= 0.0 && y >= 0.0 && x < f64::from(width) && y < f64::from(height);
                if !inside {
                    return None;
                }
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "on the photo"
                )]
                let pixel = photo.rgb.get_pixel(x as u32, y as u32);
                for (sum, sample) in sum.iter_mut().zip(pixel.0) {
                    *sum += f64::from(photo::linear_sample(sample));
                }
            }
        }
        Some(sum.map(|sum| sum / f64::from(PATCH_PLACES * PATCH_PLACES)))
    };
    let tones = Tones {
        white: mean(Tone::White)?,
        grey: mean(Tone::Grey)?,
        black: mean(Tone::Black)?,
    };
    let falls = (0..3).all(|c| tones.white[c] > tones.grey[c] && tones.grey[c] > tones.black[c]);
    falls.then_some(tones)
}

fn median(values: impl Iterator<Item = f64>) -> f64 {
    let mut values: Vec<f64> = values.collect();
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(0.0)
}
