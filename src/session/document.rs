//! The ground state: one photo, how its scale is told, and the area to measure.

use crate::area::{Area, Outline};
use crate::geometry::{Point, Polygon, Rect};
use crate::photo::Photo;
use crate::scale::{END_PLACEMENT_PX, Scale};
use crate::units::Millimetres;
use crate::usable::{Proposal, Usable};
use std::collections::BTreeSet;
use std::sync::Arc;

/// What a person has set. Small and cheap to clone; everything else is derived from it.
#[derive(Debug, Clone, Default)]
pub struct Document {
    /// The photo, once one is open.
    pub photo: Option<Arc<Photo>>,
    /// What of the photo had better be left out, found when it was opened.
    pub usable: Arc<Usable>,
    /// How the scale is told.
    pub scale: ScaleSetting,
    /// The part of the surface to measure, as a person set it.
    pub area: Area,
    /// Found parts that a person wants measured anyway, by their place in `usable`.
    pub measured_anyway: BTreeSet<usize>,
    /// Whether a person chose the area; until then it is the whole photo for want of a choice.
    pub area_is_chosen: bool,
}

impl Document {
    /// The photo's own rectangle; empty without a photo.
    #[must_use]
    pub fn photo_rect(&self) -> Rect {
        self.photo
            .as_ref()
            .map_or(Rect::of_size(0, 0), |photo| photo.bounds())
    }

    /// The place on the photo nearest to `p`.
    #[must_use]
    pub fn onto_photo(&self, p: Point) -> Point {
        let rect = self.photo_rect();
        Point::new(p.x.clamp(0.0, rect.width), p.y.clamp(0.0, rect.height))
    }

    /// Whether both have the same scale and the same area set.
    #[must_use]
    pub fn is_set_like(&self, other: &Self) -> bool {
        (&self.scale, &self.area, self.area_is_chosen)
            == (&other.scale, &other.area, other.area_is_chosen)
            && self.measured_anyway == other.measured_anyway
    }

    /// Parts found that cannot be measured well, and whether each is left out.
    pub fn found(&self) -> impl Iterator<Item = (&Proposal, bool)> {
        let proposals = self.usable.proposals.iter().enumerate();
        proposals.map(|(i, part)| {
            let is_left_out = !self.usable.is_hopeless && !self.measured_anyway.contains(&i);
            (part, is_left_out)
        })
    }

    /// What is measured: the area as set, less the found parts.
    #[must_use]
    pub fn measured_area(&self) -> Area {
        let mut area = self.area.clone();
        for (part, is_left_out) in self.found() {
            if is_left_out {
                area.left_out.extend(part.left_out());
            }
        }
        area
    }

    /// Whether the ruler or scale bar would be measured along with the pores.
    #[must_use]
    pub fn area_holds_scale_line(&self) -> bool {
        let (photo, area) = (self.photo_rect(), self.measured_area());
        self.scale.way == ScaleWay::Points
            && [self.scale.first, self.scale.second]
                .into_iter()
                .flatten()
                .any(|end| area.contains(end.at, photo))
    }
}

/// Which of the two ways of telling the scale counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum ScaleWay {
    /// Two places on the photo a known length apart.
    #[default]
    Points,
    /// A number of pixels per millimetre.
    Typed,
}

/// One end of the scale line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The end that is set first.
    First,
    /// The other end.
    Second,
}

/// A place on the photo, and how closely the photo was looked at when it was put there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placed {
    /// Where, photo px.
    pub at: Point,
    /// How many photo pixels a pixel of the screen covered along its side.
    pub px_per_screen_px: f64,
}

/// From here on a screen pixel covers so much that zooming in pays.
const COARSE_PX_PER_SCREEN_PX: f64 = 3.0;

/// Whether a photo is shown so small that an end of the scale line should not be set on it.
#[must_use]
pub fn is_coarse(px_per_screen_px: f64) -> bool {
    px_per_screen_px > COARSE_PX_PER_SCREEN_PX
}

impl Placed {
    /// Standard uncertainty of the place, px: nobody clicks more closely than the screen shows.
    fn uncertainty_px(self) -> f64 {
        END_PLACEMENT_PX * self.px_per_screen_px.max(1.0)
    }
}

/// How the scale is told, as far as it has been told: what was clicked and what was typed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ScaleSetting {
    /// The way that counts; the other keeps what was entered.
    pub way: ScaleWay,
    /// First end of the scale line.
    pub first: Option<Placed>,
    /// Second end of the scale line.
    pub second: Option<Placed>,
    /// The length between the ends, as typed.
    pub length: String,
    /// Pixels per millimetre, as typed.
    pub px_per_mm: String,
}

/// Whether there is a scale yet.
#[derive(Debug, Clone, PartialEq)]
pub enum ScaleStanding {
    /// Something is still to be done; the sentence says what.
    Needs(&'static str),
    /// What was entered gives no scale; the sentence says why.
    Wrong(String),
    /// There is a scale.
    Set(Scale),
}

impl ScaleSetting {
    /// What the entries amount to.
    #[must_use]
    pub fn standing(&self) -> ScaleStanding {
        match self.way {
            ScaleWay::Points => self.standing_of_points(),
            ScaleWay::Typed => self.standing_of_typed(),
        }
    }

    /// The scale, when there is one.
    #[must_use]
    pub fn scale(&self) -> Option<Scale> {
        match self.standing() {
            ScaleStanding::Set(scale) => Some(scale),
            ScaleStanding::Needs(_) | ScaleStanding::Wrong(_) => None,
        }
    }

    /// The end to be set by the next click, if any is missing.
    #[must_use]
    pub fn missing_end(&self) -> Option<End> {
        match (self.first, self.second) {
            (None, _) => Some(End::First),
            (Some(_), None) => Some(End::Second),
            (Some(_), Some(_)) => None,
        }
    }

    /// Whether an end was set on a photo shown too small for a sure scale.
    #[must_use]
    pub fn was_set_coarsely(&self) -> bool {
        [self.first, self.second]
            .into_iter()
            .flatten()
            .any(|end| is_coarse(end.px_per_screen_px))
    }

    fn standing_of_points(&self) -> ScaleStanding {
        let (first, second) = match (self.first, self.second) {
            (None, _) => {
                return ScaleStanding::Needs(
                    "Click one end of the ruler or scale bar on the photo",
                );
            }
            (Some(_), None) => return ScaleStanding::Needs("Now click the other end"),
            (Some(first), Some(second)) => (first, second),
        };
        if self.length.trim().is_empty() {
            return ScaleStanding::Needs("Type the length between the two points");
        }
        let length: Millimetres = match self.length.parse() {
            Ok(length) => length,
            Err(error) => return ScaleStanding::Wrong(sentence(&error)),
        };
        // The mean square of both, so that together they come out as each was placed.
        let placement_px =
            first.uncertainty_px().hypot(second.uncertainty_px()) / std::f64::consts::SQRT_2;
        match Scale::from_points_placed(first.at, second.at, length, placement_px) {
            Ok(scale) => ScaleStanding::Set(scale),
            Err(error) => ScaleStanding::Wrong(sentence(&error)),
        }
    }

    fn standing_of_typed(&self) -> ScaleStanding {
        let typed = self.px_per_mm.trim();
        if typed.is_empty() {
            return ScaleStanding::Needs("Type how many pixels make one millimetre");
        }
        let Ok(px_per_mm) = typed.replace(',', ".").parse() else {
            return ScaleStanding::Wrong(format!(
                "“{typed}” is not a number; write for example 85.2"
            ));
        };
        match Scale::given(px_per_mm) {
            Ok(scale) => ScaleStanding::Set(scale),
            Err(error) => ScaleStanding::Wrong(sentence(&error)),
        }
    }
}

/// An error message as a sentence of its own: with a capital letter.
pub(super) fn sentence(error: &dyn std::error::Error) -> String {
    let text = error.to_string();
    let mut letters = text.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().chain(letters).collect())
        .unwrap_or_default()
}

/// Whether a polygon encloses something and no edge crosses another.
#[must_use]
pub fn is_simple(polygon: &Polygon) -> bool {
    let v = polygon.vertices();
    let n = v.len();
    if n < 3 || polygon.area() == 0.0 {
        return false;
    }
    let edge = |i: usize| (v[i], v[(i + 1) % n]);
    (0..n).all(|i| {
        // Neighbours share a vertex; the last edge is a neighbour of the first.
        (i + 2..n)
            .filter(|&j| (j + 1) % n != i)
            .all(|j| !cross(edge(i), edge(j)))
    })
}

/// Whether two line segments cross at a place inside both.
fn cross((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let side = |p: Point, q: Point, r: Point| (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

/// A sentence on what is measured.
#[must_use]
pub fn describe(area: &Area) -> String {
    let outline = match &area.outline {
        Outline::WholePhoto => {
            return match area.left_out.len() {
                0 => "The whole photo".to_owned(),
                1 => "The whole photo, one part left out".to_owned(),
                n => format!("The whole photo, {n} parts left out"),
            };
        }
        Outline::Rectangle(rect) => {
            format!("A rectangle of {:.0} × {:.0} px", rect.width, rect.height)
        }
        Outline::Polygon(polygon) => {
            format!("An outline with {} corners", polygon.vertices().len())
        }
    };
    match area.left_out.len() {
        0 => outline,
        1 => format!("{outline}, one part left out"),
        n => format!("{outline}, {n} parts left out"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn placed(x: f64, px_per_screen_px: f64) -> Placed {
        Placed {
            at: Point::new(x, 20.0),
            px_per_screen_px,
        }
    }

    fn line(length: &str) -> ScaleSetting {
        ScaleSetting {
            first: Some(placed(10.0, 1.0)),
            second: Some(placed(210.0, 1.0)),
            length: length.to_owned(),
            ..ScaleSetting::default()
        }
    }

    #[test]
    fn two_points_and_a_length_make_a_scale() {
        let scale = line("5 mm").scale().expect("a scale");
        assert!((scale.px_per_mm - 40.0).abs() < 1e-9);
        assert_eq!(line("0.5 cm").scale(), line("5").scale());
    }

    #[test]
    fn an_end_set_on_a_small_picture_is_as_unsure_as_the_screen() {
        let uncertainty = |first, second| {
            let setting = ScaleSetting {
                first: Some(placed(10.0, first)),
                second: Some(placed(210.0, second)),
                ..line("5 mm")
            };
            setting.scale().expect("a scale").standard_uncertainty
        };
        let sure = uncertainty(1.0, 1.0);
        assert!((sure - std::f64::consts::SQRT_2 * END_PLACEMENT_PX / 5.0).abs() < 1e-12);
        // Zoomed in further, a click is no surer than the eye on the photo's own pixels.
        assert!((uncertainty(0.1, 0.5) - sure).abs() < 1e-12);
        assert!((uncertainty(4.0, 4.0) - 4.0 * sure).abs() < 1e-12);
        // One end at 7 px, one at 1 px: √(49 + 1) = √2 · 5.
        assert!((uncertainty(7.0, 1.0) - 5.0 * sure).abs() < 1e-12);
        assert!(!line("5 mm").was_set_coarsely());
        let coarse = ScaleSetting {
            second: Some(placed(210.0, 3.5)),
            ..line("5 mm")
        };
        assert!(coarse.was_set_coarsely());
    }

    #[test]
    fn a_scale_says_what_it_still_needs() {
        let mut setting = ScaleSetting::default();
        assert!(matches!(setting.standing(), ScaleStanding::Needs(_)));
        assert_eq!(setting.missing_end(), Some(End::First));
        setting.first = Some(placed(1.0, 1.0));
        assert_eq!(setting.missing_end(), Some(End::Second));
        assert_eq!(
            line("  ").standing(),
            ScaleStanding::Needs("Type the length between the two points")
        );
    }

    #[test]
    fn a_nonsense_length_is_refused_with_a_reason() {
        for typed in ["five", "0", "-3 mm", "5 furlongs"] {
            let ScaleStanding::Wrong(why) = line(typed).standing() else {
                panic!("{typed} was taken for a length");
            };
            assert!(why.contains(typed), "{why}");
        }
        let mut same = line("5 mm");
        same.second = same.first;
        assert!(matches!(same.standing(), ScaleStanding::Wrong(_)));
    }

    #[test]
    fn pixels_per_millimetre_may_be_typed_with_a_comma() {
        for (typed, px_per_mm) in [
            ("85.2", Some(85.2)),
            ("85,2", Some(85.2)),
            ("0", None),
            ("x", None),
        ] {
            let setting = ScaleSetting {
                way: ScaleWay::Typed,
                px_per_mm: typed.to_owned(),
                ..line("5 mm")
            };
            assert_eq!(setting.scale().map(|s| s.px_per_mm), px_per_mm, "{typed}");
        }
    }

    #[test]
    fn an_outline_that_crosses_itself_is_told_from_one_that_does_not() {
        let polygon =
            |xy: &[(f64, f64)]| Polygon::new(xy.iter().map(|&(x, y)| Point::new(x, y)).collect());
        for (xy, simple) in [
            (&[(0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0)][..], true),
            (&[(0.0, 0.0), (9.0, 9.0), (9.0, 0.0), (0.0, 8.0)], false),
            (&[(0.0, 0.0), (9.0, 0.0), (4.0, 3.0), (4.0, 9.0)], true),
            (&[(0.0, 0.0), (9.0, 0.0)], false),
            (&[(0.0, 0.0), (5.0, 0.0), (9.0, 0.0)], false),
        ] {
            assert_eq!(is_simple(&polygon(xy)), simple, "{xy:?}");
        }
    }
}
