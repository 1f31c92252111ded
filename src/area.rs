//! The part of the surface to measure: an outline minus what is left out.

mod rows;

pub use rows::{Row, Rows};

use crate::geometry::{Point, Polygon, Rect};
use serde::{Deserialize, Serialize};

/// Why a part is left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Reason {
    /// A person drew it.
    ByHand,
    /// Darkness about a lit field, as an eyepiece leaves it, or a background without light.
    Surround,
    /// A strip along an edge that an instrument printed.
    Strip,
    /// No pores, while the rest has them.
    Bare,
    /// Edges so smeared that they cannot be told from one another.
    Blurred,
    /// Nothing but white: glare, overexposed.
    Bright,
    /// Nothing but black, larger than a pore: a hole, a deep shadow.
    Dark,
    /// Something that lies on the surface or beside it, told by light, colour or size: moss, crumbs,
    /// background.
    Foreign,
    /// What the scale was taken from: a bar, a ruler, a card.
    Scale,
    /// Beyond the photo's edge, where a straightened picture has corners that the photo does not show.
    OffPhoto,
}

impl Reason {
    /// Those that can be found without a person.
    pub const FOUND: [Self; 7] = [
        Self::Surround,
        Self::Strip,
        Self::Bare,
        Self::Blurred,
        Self::Bright,
        Self::Dark,
        Self::Foreign,
    ];

    /// All reasons.
    pub const ALL: [Self; 10] = [
        Self::ByHand,
        Self::Surround,
        Self::Strip,
        Self::Bare,
        Self::Blurred,
        Self::Bright,
        Self::Dark,
        Self::Foreign,
        Self::Scale,
        Self::OffPhoto,
    ];

    /// The word used in findings.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::ByHand => "by-hand",
            Self::Surround => "surround",
            Self::Strip => "strip",
            Self::Bare => "bare",
            Self::Blurred => "blurred",
            Self::Bright => "bright",
            Self::Dark => "dark",
            Self::Foreign => "foreign",
            Self::Scale => "scale",
            Self::OffPhoto => "off-photo",
        }
    }

    /// The reason that a word in findings stands for.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|reason| reason.word() == word)
    }

    /// A few words for people.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::ByHand => "left out by hand",
            Self::Surround => "dark surround",
            Self::Strip => "strip along the edge",
            Self::Bare => "no pores to be seen",
            Self::Blurred => "out of focus",
            Self::Bright => "glare or overexposed",
            Self::Dark => "too dark",
            Self::Foreign => "not this surface",
            Self::Scale => "bar, ruler or card",
            Self::OffPhoto => "beyond the photo",
        }
    }
}

/// A part that is not measured.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LeftOut {
    /// Where it lies.
    pub outline: Polygon,
    /// Why it is left out.
    pub reason: Reason,
}

impl LeftOut {
    /// Whether a place lies in it.
    #[must_use]
    pub fn contains(&self, p: Point) -> bool {
        self.outline.contains(p)
    }

    /// Whether it is not to be looked at either, so that pores are cut at its edge as at the photo's own.
    ///
    /// A person leaves out just what hides the surface, and what the scale is taken from and the photo's
    /// edge are known to a pixel. What else was found has a margin of surface about it, and there pores
    /// are seen whole, so that their centroids tell on which side they are.
    #[must_use]
    pub fn cuts(&self) -> bool {
        matches!(
            self.reason,
            Reason::ByHand | Reason::Scale | Reason::OffPhoto
        )
    }

    /// Whether a place lies in it and is not to be looked at either.
    #[must_use]
    pub fn hides(&self, p: Point) -> bool {
        self.cuts() && self.contains(p)
    }
}

/// A part that a person drew.
impl From<Polygon> for LeftOut {
    fn from(outline: Polygon) -> Self {
        Self {
            outline,
            reason: Reason::ByHand,
        }
    }
}

/// The outer edge of an area.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outline {
    /// All of the photo.
    #[default]
    WholePhoto,
    /// An upright rectangle.
    Rectangle(Rect),
    /// Any simple polygon.
    Polygon(Polygon),
}

impl Outline {
    /// Whether a place on the photo lies in it.
    fn contains(&self, p: Point) -> bool {
        match self {
            Self::WholePhoto => true,
            Self::Rectangle(rect) => rect.contains(p),
            Self::Polygon(polygon) => polygon.contains(p),
        }
    }
}

/// The area to measure. Parts that lie off the photo do not count.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Area {
    /// Where the area ends.
    pub outline: Outline,
    /// Parts inside the outline that are not measured.
    pub left_out: Vec<LeftOut>,
}

/// Why an area cannot be measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum AreaError {
    /// No pixel of the photo belongs to it.
    #[error("the area holds no part of the photo; draw it on the photo, and leave some of it in")]
    Empty,
}

impl Area {
    /// Whether a place on a photo of the given size belongs to the area.
    #[must_use]
    pub fn contains(&self, p: Point, photo: Rect) -> bool {
        let is_left_out = || self.left_out.iter().any(|hole| hole.contains(p));
        self.outline.contains(p) && photo.contains(p) && !is_left_out()
    }

    /// The area without a band `guard_px` wide about every part that [cuts](LeftOut::cuts) pores. In
    /// such a band, as in that along the photo's edge, the centroid of what is left of a pore is not
    /// the pore's, and counting by it would count too many.
    #[must_use]
    pub fn guarded(&self, guard_px: f64) -> Self {
        let bands = self
            .left_out
            .iter()
            .filter(|part| part.cuts())
            .flat_map(|part| part.outline.bands(guard_px).map(LeftOut::from));
        Self {
            outline: self.outline.clone(),
            left_out: self.left_out.iter().cloned().chain(bands).collect(),
        }
    }

    /// Distance from a place in the area to the nearest part that [cuts](LeftOut::cuts) pores, px;
    /// infinite where there is none.
    #[must_use]
    pub fn distance_to_cuts(&self, p: Point) -> f64 {
        self.left_out
            .iter()
            .filter(|part| part.cuts())
            .map(|part| part.outline.distance(p))
            .fold(f64::INFINITY, f64::min)
    }

    /// The smallest rectangle on the photo that holds the area.
    ///
    /// # Errors
    /// [`AreaError::Empty`] when it lies off the photo.
    pub fn bounds(&self, photo: Rect) -> Result<Rect, AreaError> {
        let bounds = match &self.outline {
            Outline::WholePhoto => photo,
            Outline::Rectangle(rect) => rect.intersection(&photo),
            Outline::Polygon(polygon) => polygon.bounds().intersection(&photo),
        };
        if bounds.width > 0.0 && bounds.height > 0.0 {
            Ok(bounds)
        } else {
            Err(AreaError::Empty)
        }
    }

    /// Area on the photo inside `clip`, px², and how much of the outline there was left out.
    ///
    /// Exact for rectangles; for polygons exact along rows a quarter of a pixel high.
    #[must_use]
    pub fn size_px2(&self, clip: Rect) -> AreaSize {
        let mut size = AreaSize {
            measured_px2: 0.0,
            left_out_px2: 0.0,
        };
        let Ok(bounds) = self.bounds(clip) else {
            return size;
        };
        let all = Rows::of(self, bounds, |_| true);
        let rows = (4.0 * bounds.height).ceil();
        let height = bounds.height / rows;
        let mut row = 0.5;
        while row < rows {
            let (inside, left_out) = all.at(bounds.y + row * height).lengths_px();
            size.measured_px2 += (inside - left_out) * height;
            size.left_out_px2 += left_out * height;
            row += 1.0;
        }
        size
    }
}

/// How large an area is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AreaSize {
    /// What is measured, px².
    pub measured_px2: f64,
    /// What lies inside the outline but was left out, px².
    pub left_out_px2: f64,
}

#[cfg(test)]
mod tests {
    use super::*;

    fn photo() -> Rect {
        Rect {
            x: 0.0,
            y: 0.0,
            width: 100.0,
            height: 80.0,
        }
    }

    fn square(x: f64, y: f64, side: f64) -> Polygon {
        Rect {
            x,
            y,
            width: side,
            height: side,
        }
        .to_polygon()
    }

    #[test]
    fn what_is_left_out_is_taken_off_once() {
        let area = Area {
            outline: Outline::Polygon(square(10.0, 10.0, 50.0)),
            left_out: vec![
                square(20.0, 20.0, 10.0).into(),
                square(25.0, 20.0, 10.0).into(),
            ],
        };
        let size = area.size_px2(photo());
        assert!((size.left_out_px2 - 150.0).abs() < 1e-9, "{size:?}");
        assert!((size.measured_px2 - 2350.0).abs() < 1e-9, "{size:?}");
    }

    #[test]
    fn a_guard_is_kept_about_what_a_person_left_out() {
        let part = |reason| LeftOut {
            outline: square(40.0, 30.0, 20.0),
            reason,
        };
        let area = |reason| Area {
            outline: Outline::WholePhoto,
            left_out: vec![part(reason)],
        };
        // A square of 20 px with a band of 5 px and round corners.
        let grown = 20.0 * 20.0 + 4.0 * 20.0 * 5.0 + std::f64::consts::PI * 25.0;
        let by_hand = area(Reason::ByHand).guarded(5.0);
        let size = by_hand.size_px2(photo());
        assert!((size.left_out_px2 / grown - 1.0).abs() < 0.01, "{size:?}");
        assert!(!by_hand.contains(Point::new(36.0, 40.0), photo()));
        assert!(by_hand.contains(Point::new(34.0, 40.0), photo()));
        let found = area(Reason::Foreign).guarded(5.0).size_px2(photo());
        assert!((found.left_out_px2 - 400.0).abs() < 1e-9, "{found:?}");
        let away = area(Reason::ByHand).distance_to_cuts(Point::new(37.0, 26.0));
        assert!((away - 5.0).abs() < 1e-12, "{away}");
    }

    #[test]
    fn what_lies_off_the_photo_does_not_count() {
        let area = Area {
            outline: Outline::Rectangle(Rect {
                x: 90.0,
                y: 70.0,
                width: 50.0,
                height: 50.0,
            }),
            left_out: Vec::new(),
        };
        assert!((area.size_px2(photo()).measured_px2 - 100.0).abs() < 1e-9);
        let off = Area {
            outline: Outline::Polygon(square(200.0, 0.0, 10.0)),
            left_out: Vec::new(),
        };
        assert_eq!(off.bounds(photo()), Err(AreaError::Empty));
    }
}
