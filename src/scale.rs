//! Scale: pixels per millimetre, how it was obtained, and how uncertain it is.

mod edge;

pub use edge::Edge;
pub(crate) use edge::crossings;

use crate::geometry::Point;
use crate::units::{Millimetres, Pixels};
use nalgebra::{DMatrix, DVector};
use serde::{Deserialize, Serialize};
use std::fmt;

/// Standard uncertainty of placing one end of a scale line by eye, px.
///
/// A click lands within about ±1 px of the edge it means; a rectangular distribution of that
/// half-width has the standard uncertainty 1/√3 (JCGM 100:2008, 4.3.7).
pub const END_PLACEMENT_PX: f64 = 0.577_350_269_189_625_8;

/// Standard uncertainty of an end of a scale bar that was found by itself, px.
///
/// The edge is read off between pixels; it lies within half a pixel of where it was found, a
/// rectangular distribution again (JCGM 100:2008, 4.3.7).
pub const BAR_END_PX: f64 = 0.5 * END_PLACEMENT_PX;

/// Longer side of the narrowest photo of an underside that is believed: two of the finest pores.
/// A microscope shows as little, and no pores.
pub const NARROWEST: Millimetres = Millimetres(0.2);

/// Longer side of the widest photo that is believed: more than the largest brackets are across.
pub const WIDEST: Millimetres = Millimetres(1000.0);

/// How a scale was obtained.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum How {
    /// Typed in as pixels per millimetre.
    Given,
    /// Two points a known length apart.
    Points,
    /// A line fitted through many ruler marks.
    Ticks,
    /// A scale bar of known length that was found by itself.
    Bar,
    /// Poreline's own card, found by itself, in the plane that was straightened.
    Card,
    /// Four corners of a rectangle of known size, in the plane that was straightened.
    Corners,
    /// Carried over from another photo by the same camera at the same distance.
    SetUp,
    /// What the photo's file says of itself.
    Metadata,
}

impl How {
    /// The word used in findings.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Given => "given",
            Self::Points => "points",
            Self::Ticks => "ticks",
            Self::Bar => "bar",
            Self::Card => "card",
            Self::Corners => "corners",
            Self::SetUp => "set-up",
            Self::Metadata => "metadata",
        }
    }

    /// Reads that word.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        [
            Self::Given,
            Self::Points,
            Self::Ticks,
            Self::Bar,
            Self::Card,
            Self::Corners,
            Self::SetUp,
            Self::Metadata,
        ]
        .into_iter()
        .find(|how| how.word() == word)
    }

    /// By what, in plain words.
    #[must_use]
    pub const fn in_words(self) -> &'static str {
        match self {
            Self::Given => "pixels per mm typed in",
            Self::Points => "two points a known length apart",
            Self::Ticks => "the ticks of a ruler",
            Self::Bar => "a scale bar",
            Self::Card => "Poreline's scale card",
            Self::Corners => "the corners of a rectangle",
            Self::SetUp => "another set-up",
            Self::Metadata => "what its file says",
        }
    }
}

/// Pixels per millimetre with its standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Scale {
    /// Pixels per millimetre, > 0.
    pub px_per_mm: f64,
    /// Standard uncertainty of `px_per_mm` (k = 1), px/mm.
    pub standard_uncertainty: f64,
    /// How it was obtained.
    pub how: How,
    /// Length on the photo of the mark it was measured on, px; several stretches count as the one
    /// that would be as sure, the root of the sum of their squares. `None` where it was typed in.
    pub mark_px: Option<f64>,
}

/// Why no scale could be had.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ScaleError {
    /// Zero, negative or not a number.
    #[error("{0} px per mm is not a scale; it must be a number greater than zero")]
    NotPositive(f64),
    /// The two ends of the scale line are the same place.
    #[error(
        "the two ends of the scale line lie on the same place; set them at the two ends of the scale bar"
    )]
    NoLength,
    /// A length that is none.
    #[error("{0} mm is no length for a scale; it must be a number greater than zero")]
    LengthNotPositive(f64),
    /// Fewer marks than a line and its error need.
    #[error("{0} marks are too few for a scale with an uncertainty; set more of them")]
    TooFewMarks(usize),
    /// All marks bear the same length.
    #[error("all ruler marks stand at the same length, so they give no scale")]
    SameMark,
}

/// A scale by which a photo shows less or more than anybody photographs of an underside: likely a slip
/// in a length or its unit.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error(
    "this photo would be {} across; photos of undersides are {} to {} across. Check the length, its \
     unit and the places of the scale",
    Across(*.across),
    Across(NARROWEST),
    Across(WIDEST)
)]
pub struct UnlikelyScale {
    /// Longer side of the photo by that scale.
    pub across: Millimetres,
}

/// A length in a unit that suits it, in two digits.
struct Across(Millimetres);

impl fmt::Display for Across {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (length, unit) = match self.0.0 {
            mm if mm < 1e-6 => return write!(f, "less than 0.001 µm"),
            mm if mm < 0.1 => (1e3 * mm, "µm"),
            mm if mm < 1e3 => (mm, "mm"),
            mm if mm < 1e9 => (1e-3 * mm, "m"),
            _ => return write!(f, "more than 1000 km"),
        };
        let decimals = match length {
            length if length >= 9.5 => 0,
            length if length >= 0.95 => 1,
            length if length >= 0.095 => 2,
            _ => 3,
        };
        let digits = format!("{length:.decimals$}");
        let digits = match digits.split_once('.') {
            Some(_) => digits.trim_end_matches('0').trim_end_matches('.'),
            None => &digits,
        };
        write!(f, "{digits} {unit}")
    }
}

impl Scale {
    /// Whether a photo whose longer side has so many pixels can be one of an underside.
    ///
    /// # Errors
    /// [`UnlikelyScale`] below [`NARROWEST`] and above [`WIDEST`].
    pub fn check_likely(&self, longer_side: Pixels) -> Result<(), UnlikelyScale> {
        let across = self.millimetres(longer_side);
        if across >= NARROWEST && across <= WIDEST {
            Ok(())
        } else {
            Err(UnlikelyScale { across })
        }
    }

    /// A scale typed in, taken as exact.
    ///
    /// # Errors
    /// [`ScaleError::NotPositive`] unless greater than zero and finite.
    pub fn given(px_per_mm: f64) -> Result<Self, ScaleError> {
        if px_per_mm > 0.0 && px_per_mm.is_finite() {
            Ok(Self {
                px_per_mm,
                standard_uncertainty: 0.0,
                how: How::Given,
                mark_px: None,
            })
        } else {
            Err(ScaleError::NotPositive(px_per_mm))
        }
    }

    /// A scale from two points that lie `length` apart, each end placed to a pixel
    /// ([`END_PLACEMENT_PX`]).
    ///
    /// # Errors
    /// [`ScaleError::NoLength`] when the points coincide, [`ScaleError::LengthNotPositive`].
    pub fn from_points(a: Point, b: Point, length: Millimetres) -> Result<Self, ScaleError> {
        Self::from_points_placed(a, b, length, END_PLACEMENT_PX)
    }

    /// The same, with the standard uncertainty of each end given, px: a point set on a photo shown
    /// smaller than it is cannot be surer than the screen's pixels. The two ends add in quadrature
    /// (JCGM 100:2008, 5.1.2).
    ///
    /// # Errors
    /// [`ScaleError::NoLength`] when the points coincide, [`ScaleError::LengthNotPositive`].
    pub fn from_points_placed(
        a: Point,
        b: Point,
        length: Millimetres,
        end_placement_px: f64,
    ) -> Result<Self, ScaleError> {
        let px = a.distance(b);
        if !(px > 0.0 && px.is_finite()) {
            return Err(ScaleError::NoLength);
        }
        if !(length.0 > 0.0 && length.0.is_finite()) {
            return Err(ScaleError::LengthNotPositive(length.0));
        }
        let scale = Self::given(px / length.0)?;
        Ok(Self {
            px_per_mm: scale.px_per_mm,
            standard_uncertainty: std::f64::consts::SQRT_2 * end_placement_px / length.0,
            how: How::Points,
            mark_px: Some(px),
        })
    }

    /// A scale from a bar of known length that was found by itself, each end to [`BAR_END_PX`].
    ///
    /// # Errors
    /// [`ScaleError::NoLength`] when the ends coincide, [`ScaleError::LengthNotPositive`].
    pub fn from_bar(ends: [Point; 2], length: Millimetres) -> Result<Self, ScaleError> {
        Ok(Self {
            how: How::Bar,
            ..Self::from_points_placed(ends[0], ends[1], length, BAR_END_PX)?
        })
    }

    /// The scale of a straightened photo: its resolution is chosen, and how long a millimetre is on it
    /// rests on what the plane was obtained from, `span_mm` across.
    ///
    /// # Errors
    /// [`ScaleError::NotPositive`] unless greater than zero and finite.
    pub fn on_plane(
        px_per_mm: f64,
        relative_uncertainty: f64,
        how: How,
        span_mm: f64,
    ) -> Result<Self, ScaleError> {
        Ok(Self {
            standard_uncertainty: relative_uncertainty * px_per_mm,
            how,
            mark_px: Some(span_mm * px_per_mm),
            ..Self::given(px_per_mm)?
        })
    }

    /// A scale from several stretches of known length: least squares of pixels on millimetres through
    /// the origin, since no length has no pixels. The scatter of the stretches and the placing of
    /// their ends ([`END_PLACEMENT_PX`]) add in quadrature. One stretch is [`Scale::from_points`].
    ///
    /// # Errors
    /// [`ScaleError::NoLength`] without any stretch, or when one has coinciding ends;
    /// [`ScaleError::LengthNotPositive`].
    pub fn from_stretches(stretches: &[(Point, Point, Millimetres)]) -> Result<Self, ScaleError> {
        let &[(a, b, length), ref more @ ..] = stretches else {
            return Err(ScaleError::NoLength);
        };
        if more.is_empty() {
            return Self::from_points(a, b, length);
        }
        if stretches.iter().any(|(a, b, _)| a == b) {
            return Err(ScaleError::NoLength);
        }
        if let Some((.., length)) = stretches
            .iter()
            .find(|(.., length)| !(length.0 > 0.0 && length.0.is_finite()))
        {
            return Err(ScaleError::LengthNotPositive(length.0));
        }
        let line = Proportion::fit(stretches.iter().map(|(a, b, mm)| (mm.0, a.distance(*b))))?;
        let squares: f64 = stretches.iter().map(|(_, _, mm)| mm.0 * mm.0).sum();
        let placement = std::f64::consts::SQRT_2 * END_PLACEMENT_PX / squares.sqrt();
        Ok(Self {
            px_per_mm: line.slope,
            standard_uncertainty: line.slope_standard_error.hypot(placement),
            how: How::Points,
            mark_px: Some(line.slope * squares.sqrt()),
        })
    }

    /// A scale from ruler marks: least squares of pixel position on millimetres.
    ///
    /// # Errors
    /// [`ScaleError::TooFewMarks`] below 3 marks, [`ScaleError::SameMark`] when they do not differ.
    pub fn from_marks(marks: &[(Millimetres, Pixels)]) -> Result<Self, ScaleError> {
        let line = Line::fit(marks.iter().map(|(mm, px)| (mm.0, px.0)))?;
        let px_per_mm = line.slope.abs();
        let (first, last) = marks.iter().fold(
            (f64::INFINITY, f64::NEG_INFINITY),
            |(first, last), (_, px)| (first.min(px.0), last.max(px.0)),
        );
        if px_per_mm > 0.0 {
            Ok(Self {
                px_per_mm,
                standard_uncertainty: line.slope_standard_error,
                how: How::Ticks,
                mark_px: Some(last - first),
            })
        } else {
            Err(ScaleError::NoLength)
        }
    }

    /// Relative standard uncertainty, common to every figure in millimetres: it does not average
    /// down however many pores are measured.
    #[must_use]
    pub fn relative_uncertainty(&self) -> f64 {
        self.standard_uncertainty / self.px_per_mm
    }

    /// A length on the photo as a length on the fungus.
    #[must_use]
    pub fn millimetres(&self, length: Pixels) -> Millimetres {
        Millimetres(length.0 / self.px_per_mm)
    }

    /// A length on the fungus as a length on the photo.
    #[must_use]
    pub fn pixels(&self, length: Millimetres) -> Pixels {
        Pixels(length.0 * self.px_per_mm)
    }

    /// An area of the photo in px², in mm² of the fungus.
    #[must_use]
    pub fn square_millimetres(&self, area_px2: f64) -> f64 {
        area_px2 / (self.px_per_mm * self.px_per_mm)
    }
}

/// A straight line y = intercept + slope · x by least squares, with standard errors from the residuals.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// y at x = 0.
    pub intercept: f64,
    /// Rise of y per unit of x.
    pub slope: f64,
    /// Standard error of the intercept.
    pub intercept_standard_error: f64,
    /// Standard error of the slope.
    pub slope_standard_error: f64,
    /// Standard deviation of the residuals, with n − 2 degrees of freedom.
    pub residual_sd: f64,
}

impl Line {
    /// Fits a line through (x, y) pairs.
    ///
    /// # Errors
    /// [`ScaleError::TooFewMarks`] below 3 pairs, [`ScaleError::SameMark`] when all x are equal.
    pub fn fit(pairs: impl IntoIterator<Item = (f64, f64)>) -> Result<Self, ScaleError> {
        let (x, y): (Vec<f64>, Vec<f64>) = pairs.into_iter().unzip();
        let n = x.len();
        if n < 3 {
            return Err(ScaleError::TooFewMarks(n));
        }
        #[expect(clippy::cast_precision_loss, reason = "a count of marks")]
        let count = n as f64;
        let mean_x = x.iter().sum::<f64>() / count;
        // Centred on the mean of x the two columns are orthogonal, which keeps the digits.
        let design = DMatrix::from_fn(
            n,
            2,
            |row, column| {
                if column == 0 { 1.0 } else { x[row] - mean_x }
            },
        );
        let y = DVector::from_vec(y);
        let sum_of_squares = design.column(1).norm_squared();
        if sum_of_squares == 0.0 {
            return Err(ScaleError::SameMark);
        }
        let qr = design.clone().qr();
        let coefficients = qr
            .r()
            .solve_upper_triangular(&(qr.q().transpose() * &y))
            .ok_or(ScaleError::SameMark)?;
        let residual_sd = ((&y - &design * &coefficients).norm_squared() / (count - 2.0)).sqrt();
        let slope = coefficients[1];
        let slope_standard_error = residual_sd / sum_of_squares.sqrt();
        Ok(Self {
            intercept: coefficients[0] - slope * mean_x,
            slope,
            intercept_standard_error: (residual_sd * residual_sd / count
                + (mean_x * slope_standard_error).powi(2))
            .sqrt(),
            slope_standard_error,
            residual_sd,
        })
    }
}

/// A straight line y = slope · x through the origin by least squares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Proportion {
    /// Rise of y per unit of x.
    pub slope: f64,
    /// Standard error of the slope.
    pub slope_standard_error: f64,
    /// Standard deviation of the residuals, with n − 1 degrees of freedom.
    pub residual_sd: f64,
}

impl Proportion {
    /// Fits a line through the origin to (x, y) pairs.
    ///
    /// # Errors
    /// [`ScaleError::TooFewMarks`] below 2 pairs, [`ScaleError::SameMark`] when all x are zero.
    pub fn fit(pairs: impl IntoIterator<Item = (f64, f64)>) -> Result<Self, ScaleError> {
        let (x, y): (Vec<f64>, Vec<f64>) = pairs.into_iter().unzip();
        let (x, y) = (DVector::from_vec(x), DVector::from_vec(y));
        if x.len() < 2 {
            return Err(ScaleError::TooFewMarks(x.len()));
        }
        let squares = x.norm_squared();
        if squares == 0.0 {
            return Err(ScaleError::SameMark);
        }
        let slope = x.dot(&y) / squares;
        let residual_sd = ((&y - &x * slope).norm_squared() / (x.len() as f64 - 1.0)).sqrt();
        Ok(Self {
            slope,
            slope_standard_error: residual_sd / squares.sqrt(),
            residual_sd,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_that_are_none_make_no_scale() {
        let ends = [Point::new(0.0, 0.0), Point::new(300.0, 0.0)];
        for mm in [0.0, -5.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            let length = Millimetres(mm);
            for error in [
                Scale::from_points(ends[0], ends[1], length).map(|_| ()),
                Scale::from_bar(ends, length).map(|_| ()),
                Scale::from_stretches(&[
                    (ends[0], ends[1], Millimetres(5.0)),
                    (ends[0], ends[1], length),
                ])
                .map(|_| ()),
            ] {
                let error = error.expect_err("no length");
                assert!(
                    matches!(error, ScaleError::LengthNotPositive(_)),
                    "{mm}: {error}"
                );
            }
            assert!(Scale::given(mm).is_err(), "{mm}");
        }
        // So short that its scale is beyond all numbers.
        let tiny = Scale::from_points(ends[0], ends[1], Millimetres(1e-320));
        assert!(matches!(tiny, Err(ScaleError::NotPositive(_))), "{tiny:?}");
        let nowhere = Scale::from_bar([ends[0]; 2], Millimetres(5.0));
        assert_eq!(nowhere, Err(ScaleError::NoLength));
        let lost = Scale::from_points(ends[0], Point::new(f64::NAN, 0.0), Millimetres(5.0));
        assert_eq!(lost, Err(ScaleError::NoLength));
    }

    #[test]
    fn photos_have_the_size_of_something() {
        let said = |px_per_mm: f64, px: f64| {
            let scale = Scale::given(px_per_mm).expect("a scale");
            scale.check_likely(Pixels(px)).map_err(|e| e.to_string())
        };
        assert_eq!(said(5000.0, 1000.0), Ok(()));
        assert_eq!(said(1.0, 1000.0), Ok(()));
        for (px_per_mm, words) in [
            (5001.0, "would be 0.2 mm across"),
            (333_333.0, "would be 3 µm across"),
            (1e12, "less than 0.001 µm across"),
            (f64::MAX, "less than 0.001 µm across"),
            (0.999, "would be 1 m across"),
            (0.1, "would be 10 m across"),
            (0.08, "would be 12 m across"),
            (0.01, "would be 100 m across"),
            (f64::MIN_POSITIVE, "more than 1000 km across"),
        ] {
            let error = said(px_per_mm, 1000.0).expect_err(words);
            assert!(error.contains(words), "{error}");
            assert!(error.contains("are 0.2 mm to 1 m across"), "{error}");
        }
    }
}
