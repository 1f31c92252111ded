//! How the scale is told, in each of its ways, and what that amounts to.

use super::document::sentence;
use super::flat::Flat;
use super::set_ups::SavedSetUp;
use crate::bar::Bar;
use crate::basis::{Basis, Corners, PlaneSource};
use crate::geometry::{Point, Polygon};
use crate::photo::Photo;
use crate::ruler::{Between, Graduation, Reading};
use crate::scale::{END_PLACEMENT_PX, Scale, UnlikelyScale};
use crate::set_up::Mismatch;
use crate::stated::{Stated, stated};
use crate::units::{Millimetres, Pixels};
use crate::wording::text;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// A way of telling the scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ScaleWay {
    /// Two places on the photo a known length apart.
    #[default]
    Points,
    /// A scale bar of known length, found by itself.
    Bar,
    /// The ticks of a ruler, found beside a line drawn along it.
    Ruler,
    /// Poreline's own card, found by itself.
    Card,
    /// The corners of a rectangle of known size.
    Corners,
    /// A set-up that was saved before.
    SetUp,
    /// What the photo's file says of itself.
    Stated,
    /// A number of pixels per millimetre.
    Typed,
    /// What stands in the book with the findings on this photo.
    Recorded,
}

impl ScaleWay {
    /// All ways, in the order in which they are offered.
    pub const ALL: [Self; 9] = [
        Self::Points,
        Self::Bar,
        Self::Ruler,
        Self::Card,
        Self::Corners,
        Self::SetUp,
        Self::Stated,
        Self::Typed,
        Self::Recorded,
    ];

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Points => text!("two-points-on-the-photo"),
            Self::Bar => text!("scale-bar"),
            Self::Ruler => text!("ruler"),
            Self::Card => text!("scale-card"),
            Self::Corners => text!("corners-of-a-rectangle"),
            Self::SetUp => text!("a-saved-set-up"),
            Self::Stated => text!("what-the-file-says"),
            Self::Typed => text!("type-pixels-per-millimetre"),
            Self::Recorded => text!("as-it-stands-in-the-book"),
        }
    }

    /// What it needs, in one sentence.
    #[must_use]
    pub fn meaning(self) -> &'static str {
        match self {
            Self::Points => text!("click-both-ends-of-a-length"),
            Self::Bar => text!("the-bar-is-found-by-itself"),
            Self::Ruler => text!("drag-along-the-rulers-edge-its"),
            Self::Card => {
                text!("porelines-own-card-printed-with-poreline")
            }
            Self::Corners => {
                text!("click-the-corners-of-a-rectangle")
            }
            Self::SetUp => {
                text!("the-scale-of-a-photo-by")
            }
            Self::Stated => {
                text!("microscopes-and-scanners-write-the-scale")
            }
            Self::Typed => text!("the-number-that-you-know-from"),
            Self::Recorded => text!("the-scale-by-which-this-photo"),
        }
    }
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
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Placed {
    /// Where, photo px.
    pub at: Point,
    /// How many photo pixels a pixel of the screen covered along its side.
    pub px_per_screen_px: f64,
    /// Standard uncertainty of the edge on which it was put, px; `None` where it was put by eye.
    #[serde(default)]
    pub on_edge_px: Option<f64>,
}

/// From here on a screen pixel covers so much that zooming in pays.
const COARSE_PX_PER_SCREEN_PX: f64 = 3.0;

/// Whether a photo is shown so small that an end of the scale line should not be set on it.
#[must_use]
pub fn is_coarse(px_per_screen_px: f64) -> bool {
    px_per_screen_px > COARSE_PX_PER_SCREEN_PX
}

impl Placed {
    /// A place put there by eye.
    #[must_use]
    pub const fn by_eye(at: Point, px_per_screen_px: f64) -> Self {
        Self {
            at,
            px_per_screen_px,
            on_edge_px: None,
        }
    }

    /// Standard uncertainty of the place, px: that of the edge, or else nobody clicks more closely
    /// than the screen shows.
    fn uncertainty_px(self) -> f64 {
        self.on_edge_px
            .unwrap_or(END_PLACEMENT_PX * self.px_per_screen_px.max(1.0))
    }

    /// Whether it was put by eye on a photo shown too small for a sure scale.
    fn is_coarse(self) -> bool {
        self.on_edge_px.is_none() && is_coarse(self.px_per_screen_px)
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
    /// The saved set-up that was picked.
    pub set_up: Option<Arc<SavedSetUp>>,
    /// Whether it is to be used though it does not seem to fit.
    pub set_up_fits: bool,
    /// The scale that the photo's file states, where it can be believed.
    pub stated: Option<Stated>,
    /// The scale that stands in the book with the findings on this photo.
    pub recorded: Option<Scale>,
    /// A scale that a person says is right, though it would hardly be believed.
    pub confirmed: Option<Scale>,
    /// Longer side of the photo as it was taken.
    pub(super) longer_side: Option<Pixels>,
    /// What could be the scale bar, the longest first; `None` until it was looked for.
    pub bars: Option<Arc<[Bar]>>,
    /// Which of them is the bar.
    pub bar: Option<usize>,
    /// The bar's length, as typed.
    pub bar_length: String,
    /// The line along the ruler.
    pub ruler: Option<[Point; 2]>,
    /// How the ruler is divided; `None` where its ticks are to tell.
    pub ticks: Option<Graduation>,
    /// What was last read along a ruler.
    pub read: Option<Arc<RulerRead>>,
    /// Corners of a rectangle, in the order in which they were set; four at most.
    pub corners: Vec<Placed>,
    /// Width and height of the rectangle, as typed.
    pub sides: [String; 2],
    /// The straightened picture, while the scale rests on one.
    pub flat: Option<Arc<Flat>>,
}

/// What came of reading a ruler.
#[derive(Debug, Clone, PartialEq)]
pub struct RulerRead {
    /// Along which line.
    pub line: [Point; 2],
    /// What was said of its ticks.
    pub between: Between,
    /// What was read, or in a sentence why nothing was.
    pub result: Result<Reading, String>,
}

/// What is looked for on the photo, or made of it, to get a scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Sought {
    /// The scale bar.
    Bar,
    /// The ticks of the ruler along this line.
    Ruler([Point; 2], Between),
    /// The plane of the surface.
    Plane(PlaneSource),
}

impl Sought {
    /// What the program is doing, as a person is told.
    #[must_use]
    pub fn label(&self) -> &'static str {
        match self {
            Self::Bar => text!("looking-for-the-scale-bar"),
            Self::Ruler(..) => text!("reading-the-ruler"),
            Self::Plane(PlaneSource::Card) => text!("looking-for-the-scale-card"),
            Self::Plane(PlaneSource::Corners(_)) => text!("straightening-the-photo"),
        }
    }
}

/// Whether there is a scale yet.
#[derive(Debug, Clone, PartialEq)]
pub enum ScaleStanding {
    /// Something is still to be done; the sentence says what.
    Needs(&'static str),
    /// What was entered gives no scale; the sentence says why.
    Wrong(String),
    /// There would be a scale, if a person says so.
    Asks(Question),
    /// There is a scale.
    Set(Scale),
}

/// What a person has to say before a scale counts.
#[derive(Debug, Clone, PartialEq)]
pub enum Question {
    /// Whether a set-up is to be used on a photo that it does not seem to fit.
    SetUpFits(Mismatch),
    /// Whether this scale is right, by which the photo has a size that is hardly believed.
    ScaleIsRight(Scale, UnlikelyScale),
}

impl Question {
    /// The question itself.
    #[must_use]
    pub fn in_short(&self) -> &'static str {
        match self {
            Self::SetUpFits(_) => text!("does-the-set-up-fit-see"),
            Self::ScaleIsRight(..) => text!("is-this-scale-right-see-below"),
        }
    }

    /// What gives rise to it, as a sentence.
    #[must_use]
    pub fn reason(&self) -> String {
        match self {
            Self::SetUpFits(mismatch) => sentence(mismatch),
            Self::ScaleIsRight(_, unlikely) => sentence(unlikely),
        }
    }

    /// How a person says yes.
    #[must_use]
    pub fn yes(&self) -> &'static str {
        match self {
            Self::SetUpFits(_) => text!("use-it-all-the-same"),
            Self::ScaleIsRight(..) => text!("the-scale-is-right"),
        }
    }
}

impl ScaleSetting {
    /// Nothing entered yet; what the photo itself has to say.
    pub(super) fn of(photo: &Photo) -> Self {
        Self {
            stated: stated(photo).ok(),
            longer_side: Some(longer_side(photo)),
            ..Self::default()
        }
    }

    /// What the entries amount to.
    #[must_use]
    pub fn standing(&self) -> ScaleStanding {
        match self.settled() {
            Ok(basis) => ScaleStanding::Set(basis.scale),
            Err(Unsettled::Needs(what)) => ScaleStanding::Needs(what),
            Err(Unsettled::Wrong(why)) => ScaleStanding::Wrong(why),
            Err(Unsettled::Asks(question)) => ScaleStanding::Asks(question),
        }
    }

    /// Says yes to what the standing asks.
    pub(super) fn say_yes(&mut self) {
        match self.standing() {
            ScaleStanding::Asks(Question::SetUpFits(_)) => self.set_up_fits = true,
            ScaleStanding::Asks(Question::ScaleIsRight(scale, _)) => self.confirmed = Some(scale),
            ScaleStanding::Needs(_) | ScaleStanding::Wrong(_) | ScaleStanding::Set(_) => {}
        }
    }

    /// The scale, when there is one.
    #[must_use]
    pub fn scale(&self) -> Option<Scale> {
        self.basis().map(|basis| basis.scale)
    }

    /// What the photo is measured by, once there is a scale.
    #[must_use]
    pub fn basis(&self) -> Option<Basis> {
        self.settled().ok()
    }

    /// What the entries give, if it can be believed.
    fn settled(&self) -> Result<Basis, Unsettled> {
        let basis = self.entered()?;
        let longer_side = match &self.flat {
            Some(flat) => Some(longer_side(&flat.straightened.photo)),
            None => self.longer_side,
        };
        if let Some(longer_side) = longer_side
            && self.confirmed != Some(basis.scale)
            && let Err(unlikely) = basis.scale.check_likely(longer_side)
        {
            return Err(Unsettled::Asks(Question::ScaleIsRight(
                basis.scale,
                unlikely,
            )));
        }
        Ok(basis)
    }

    fn entered(&self) -> Result<Basis, Unsettled> {
        match (self.way, &self.flat) {
            (ScaleWay::Points, _) => self.by_points(),
            (ScaleWay::Typed, _) => self.by_typing(),
            (ScaleWay::Bar, _) => self.by_bar(),
            (ScaleWay::Ruler, _) => self.by_ruler(),
            (ScaleWay::SetUp, _) => self.by_set_up(),
            (ScaleWay::Stated, _) => match &self.stated {
                Some(stated) => Ok(Basis::stated(stated)),
                None => Err(Unsettled::Needs(text!("choose-another-way-the-file-says"))),
            },
            (ScaleWay::Recorded, _) => match self.recorded {
                Some(scale) => Ok(Basis::known(scale)),
                None => Err(Unsettled::Needs(text!("choose-another-way-the-book-says"))),
            },
            (ScaleWay::Card | ScaleWay::Corners, Some(flat)) => {
                Ok(Basis::plane(Arc::clone(&flat.straightened), flat.white))
            }
            (ScaleWay::Card, None) => Err(Unsettled::Needs(text!("press-find-the-scale-card"))),
            (ScaleWay::Corners, None) => {
                self.rectangle()?;
                Err(Unsettled::Needs(text!("press-straighten-the-photo")))
            }
        }
    }

    /// What has to be looked for before there is a scale; `None` when nothing has, or something has to
    /// be set first.
    #[must_use]
    pub fn sought(&self) -> Option<Sought> {
        match self.way {
            ScaleWay::Points
            | ScaleWay::SetUp
            | ScaleWay::Stated
            | ScaleWay::Typed
            | ScaleWay::Recorded => None,
            ScaleWay::Bar => self.bars.is_none().then_some(Sought::Bar),
            ScaleWay::Ruler => self.ruler.map(|line| Sought::Ruler(line, self.between())),
            ScaleWay::Card | ScaleWay::Corners if self.flat.is_some() => None,
            ScaleWay::Card => Some(Sought::Plane(PlaneSource::Card)),
            ScaleWay::Corners => self
                .rectangle()
                .ok()
                .map(|corners| Sought::Plane(PlaneSource::Corners(corners))),
        }
    }

    /// What is said of the ruler's ticks.
    fn between(&self) -> Between {
        self.ticks
            .map_or(Between::Unknown, |ticks| Between::Known(ticks.between()))
    }

    /// What came of reading the ruler as it is set now.
    #[must_use]
    pub fn ruler_read(&self) -> Option<&RulerRead> {
        self.read
            .as_deref()
            .filter(|read| Some(Sought::Ruler(read.line, read.between)) == self.sought())
    }

    /// The scale bar, once it is known which one it is.
    #[must_use]
    pub fn chosen_bar(&self) -> Option<&Bar> {
        self.bars.as_ref()?.get(self.bar?)
    }

    /// Which of the strokes that could be the bar lies within so many px of a place.
    #[must_use]
    pub fn bar_near(&self, place: Point, within_px: f64) -> Option<usize> {
        let near = |bar: &Bar| Polygon::new(bar.ends.to_vec()).distance(place);
        self.bars
            .iter()
            .flat_map(|bars| bars.iter().map(near).enumerate())
            .filter(|(_, distance)| *distance <= within_px)
            .min_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(i, _)| i)
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

    /// The corner of the rectangle to be set by the next click, if any is missing.
    #[must_use]
    pub fn missing_corner(&self) -> Option<usize> {
        (self.flat.is_none() && self.corners.len() < 4).then_some(self.corners.len())
    }

    /// Whether an end or a corner was set on a photo shown too small for a sure scale.
    #[must_use]
    pub fn was_set_coarsely(&self) -> bool {
        let ends = [self.first, self.second].into_iter().flatten();
        let placed: Vec<Placed> = match self.way {
            ScaleWay::Corners => self.corners.clone(),
            _ => ends.collect(),
        };
        placed.iter().any(|end| end.is_coarse())
    }

    fn by_points(&self) -> Result<Basis, Unsettled> {
        let (first, second) = match (self.first, self.second) {
            (None, _) => {
                return Err(Unsettled::Needs(text!("click-one-end-of-the-ruler-or")));
            }
            (Some(_), None) => return Err(Unsettled::Needs(text!("now-click-the-other-end"))),
            (Some(first), Some(second)) => (first, second),
        };
        let length = length(&self.length, text!("type-the-length-between-the-two"))?;
        let placement_px = placement_px(&[first, second]);
        let scale = Scale::from_points_placed(first.at, second.at, length, placement_px);
        Ok(Basis::known(scale?))
    }

    fn by_typing(&self) -> Result<Basis, Unsettled> {
        let typed = self.px_per_mm.trim();
        if typed.is_empty() {
            return Err(Unsettled::Needs(text!("type-how-many-pixels-make-one")));
        }
        let Ok(px_per_mm) = typed.replace(',', ".").parse() else {
            return Err(Unsettled::Wrong(text!("not-a-number", typed = typed)));
        };
        Ok(Basis::known(Scale::given(px_per_mm)?))
    }

    fn by_bar(&self) -> Result<Basis, Unsettled> {
        match &self.bars {
            None => return Err(Unsettled::Needs(text!("press-find-the-scale-bar"))),
            Some(bars) if bars.is_empty() => {
                return Err(Unsettled::Wrong(
                    text!("no-scale-bar-was-found-on").to_owned(),
                ));
            }
            Some(_) => {}
        }
        let Some(bar) = self.chosen_bar() else {
            return Err(Unsettled::Needs(text!("pick-the-scale-bar-among-the")));
        };
        let length = length(&self.bar_length, text!("type-how-long-the-scale-bar"))?;
        Ok(Basis::bar(bar, length)?)
    }

    fn by_ruler(&self) -> Result<Basis, Unsettled> {
        if self.ruler.is_none() {
            return Err(Unsettled::Needs(text!("drag-along-the-rulers-edge-on")));
        }
        match self.ruler_read().map(|read| &read.result) {
            None => Err(Unsettled::Needs(text!("press-read-the-ruler"))),
            Some(Err(why)) => Err(Unsettled::Wrong(why.clone())),
            Some(Ok(reading)) => Ok(Basis::ruler(reading)),
        }
    }

    fn by_set_up(&self) -> Result<Basis, Unsettled> {
        let Some(saved) = &self.set_up else {
            return Err(Unsettled::Needs(text!("pick-one-of-the-saved-set")));
        };
        match &saved.mismatch {
            Some(mismatch) if !self.set_up_fits => {
                Err(Unsettled::Asks(Question::SetUpFits(mismatch.clone())))
            }
            mismatch => Ok(Basis::set_up(&saved.set_up, mismatch.as_ref())),
        }
    }

    /// The rectangle, once it is set and can be one.
    fn rectangle(&self) -> Result<Corners, Unsettled> {
        let &[a, b, c, d] = &self.corners[..] else {
            return Err(Unsettled::Needs(match self.corners.len() {
                0 => text!("click-a-corner-of-the-rectangle-on"),
                1 => text!("click-the-next-corner-along-its"),
                2 => text!("click-the-third-corner"),
                _ => text!("click-the-last-corner"),
            }));
        };
        let needs = text!("type-the-rectangles-width-and-height");
        let [width, height] = &self.sides;
        let corners = Corners {
            places: [a, b, c, d].map(|corner| corner.at),
            // Crossed corners are told before the lengths, which need no photo, are asked for.
            sides: [Millimetres(1.0); 2],
            placement_px: placement_px(&self.corners),
        };
        corners.plane(Polygon::new(corners.places.to_vec()).bounds())?;
        Ok(Corners {
            sides: [length(width, needs)?, length(height, needs)?],
            ..corners
        })
    }
}

/// Why there is no scale yet.
enum Unsettled {
    /// Something is still to be done.
    Needs(&'static str),
    /// What was entered gives none.
    Wrong(String),
    /// A person has to say something first.
    Asks(Question),
}

impl<E: std::error::Error> From<E> for Unsettled {
    fn from(error: E) -> Self {
        Self::Wrong(sentence(&error))
    }
}

fn longer_side(photo: &Photo) -> Pixels {
    let (width, height) = photo.rgb.dimensions();
    Pixels(f64::from(width.max(height)))
}

/// A length as typed.
fn length(typed: &str, needs: &'static str) -> Result<Millimetres, Unsettled> {
    if typed.trim().is_empty() {
        return Err(Unsettled::Needs(needs));
    }
    Ok(typed.parse::<Millimetres>()?)
}

/// Standard uncertainty of each of some places, px: the root of the mean square, so that together they
/// come out as each was placed.
fn placement_px(places: &[Placed]) -> f64 {
    let squares: f64 = places.iter().map(|p| p.uncertainty_px().powi(2)).sum();
    (squares / places.len() as f64).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn placed(x: f64, px_per_screen_px: f64) -> Placed {
        Placed::by_eye(Point::new(x, 20.0), px_per_screen_px)
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
    fn a_scale_that_is_hardly_right_is_asked_about_until_a_person_says_yes() {
        let mut setting = ScaleSetting {
            way: ScaleWay::Typed,
            px_per_mm: "0.4".to_owned(),
            longer_side: Some(Pixels(4000.0)),
            ..ScaleSetting::default()
        };
        let ScaleStanding::Asks(question) = setting.standing() else {
            panic!("ten metres of bracket were believed");
        };
        assert!(question.reason().starts_with("This photo would be 10 m"));
        assert_eq!(setting.scale(), None);
        setting.say_yes();
        assert_eq!(setting.scale().map(|scale| scale.px_per_mm), Some(0.4));
        // It was said of this scale and of no other.
        setting.px_per_mm = "0.3".to_owned();
        assert!(matches!(setting.standing(), ScaleStanding::Asks(_)));
        setting.px_per_mm = "40".to_owned();
        assert!(setting.scale().is_some());
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
}
