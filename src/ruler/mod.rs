//! The scale from a ruler: a person drags a line along its edge, and the ticks beside that line are
//! found.
//!
//! Ticks repeat, and little else beside a ruler does. So the repeat distance comes first, from the row
//! beside the dragged line where every tick is seen; then the ruler's true direction, from the ticks
//! themselves; then the place of each tick to a part of a pixel. Ticks are numbered along the row, so
//! that hidden ones leave a gap and dirt falls between; a line through places and numbers is the scale.

mod chain;
mod frame;
mod graduation;
mod lengths;
mod period;
mod profile;
mod row;

pub use graduation::Graduation;

use crate::area::{LeftOut, Reason};
use crate::geometry::{Point, Polygon};
use crate::photo::Photo;
use crate::progress::{Cancelled, Progress, Stage};
use crate::scale::{How, Line, Scale, ScaleError};
use crate::units::{Millimetres, Pixels};
use chain::Marks;
use frame::Frame;
use nalgebra::{DMatrix, DVector};

/// Fewest ticks that a scale with an uncertainty is taken from.
pub const FEWEST_TICKS: usize = 5;
/// Shortest line that so many ticks can be told apart on, px.
const SHORTEST_PX: f64 = 30.0;
/// Standard uncertainty of the whole row's length that no scatter of ticks shows, px: the lens's
/// distortion aside, sampling and sharpening move ticks together by a hundredth of a pixel or two
/// (common practice, no source).
const COMMON_PX: f64 = 0.02;
/// A change of the tick distance along the ruler that is worth a word, a share …
const MUCH_CHANGE: f64 = 0.005;
/// … and so many of its own standard errors, so that it is no chance.
const CLEAR_CHANGE: f64 = 4.0;

/// What lies between two neighbouring ticks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Between {
    /// A length that a person states.
    Known(Millimetres),
    /// To be told by the pattern of long and short ticks.
    Unknown,
}

/// A tick of the ruler.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tick {
    /// A place on its middle line, where every tick is seen, px of the upright photo.
    pub at: Point,
    /// How far it reaches from the ruler's edge, px.
    pub length_px: f64,
    /// Distance from the first tick, as the ruler says.
    pub mm: Millimetres,
}

/// A ruler as it was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The ticks that the scale rests on, in order from the first end of the dragged line.
    pub ticks: Vec<Tick>,
    /// The scale, [`How::Ticks`].
    pub scale: Scale,
    /// What lies between two neighbouring ticks.
    pub between: Millimetres,
    /// What the pattern of long and short ticks says; `None` where it does not tell.
    pub graduation: Option<Graduation>,
    /// Marks that stand out of line, such as dirt on a tick, px of the upright photo; not used.
    pub rejected: Vec<Point>,
    /// Change of the distance from tick to tick from the first to the last, as a share, where it is no
    /// chance: the ruler, and likely the surface, lies at an angle to the camera.
    pub tilt: Option<f64>,
    /// The strip of the photo that the ticks take up, px of the upright photo.
    pub strip: Polygon,
}

impl Reading {
    /// The ruler as an area leaves it out, as far as its ticks reach.
    #[must_use]
    pub fn left_out(&self) -> LeftOut {
        LeftOut {
            outline: self.strip.clone(),
            reason: Reason::Scale,
        }
    }

    /// What the pattern of ticks says where it speaks against the length that was stated.
    #[must_use]
    pub fn contradiction(&self) -> Option<Graduation> {
        self.graduation
            .filter(|seen| (seen.between().0 / self.between.0 - 1.0).abs() > 1e-6)
    }
}

/// Why a ruler was not read.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum RulerError {
    /// No room for ticks.
    #[error(
        "the line along the ruler is {0:.0} px long, too short for ticks to be told apart; draw it \
         along as much of the ruler as is sharp, at least {SHORTEST_PX} px"
    )]
    LineTooShort(f64),
    /// Nothing beside the line repeats.
    #[error(
        "no evenly spaced ticks were found beside the line; draw it along the edge that the ticks stand \
         on, where they are sharp, or give two places a known length apart instead"
    )]
    NoPeriodicMarks,
    /// Something repeats, but too few times.
    #[error(
        "only {0} ticks were found beside the line, and {FEWEST_TICKS} are needed for a scale with an \
         uncertainty; draw it along more of the ruler, or give two places a known length apart instead"
    )]
    TooFewTicks(usize),
    /// The pattern of long and short ticks does not tell what lies between them.
    #[error("the ticks do not tell what lies between two neighbours; it may be {}", listed(.0))]
    Ambiguous(Vec<Graduation>),
    /// The ticks make no line.
    #[error(transparent)]
    Scale(#[from] ScaleError),
    /// Stopped by the person who started it.
    #[error(transparent)]
    Cancelled(#[from] Cancelled),
}

fn listed(candidates: &[Graduation]) -> String {
    let words: Vec<&str> = candidates.iter().map(|g| g.word()).collect();
    words.join(", ")
}

/// Reads the ruler along whose edge a line was dragged, from one place on the photo to another, px.
///
/// The line may lie off the edge by some pixels and off its direction by 3°.
///
/// # Errors
/// [`RulerError`] when the line is short, nothing beside it repeats, or the ticks are too few or do
/// not tell what lies between them.
pub fn read(
    photo: &Photo,
    dragged: [Point; 2],
    between: Between,
    progress: &Progress<'_>,
) -> Result<Reading, RulerError> {
    let length = dragged[0].distance(dragged[1]);
    if !(length >= SHORTEST_PX && length.is_finite()) {
        return Err(RulerError::LineTooShort(length));
    }
    progress.enter(Stage::Scale)?;
    let drawn = Frame::along(dragged);
    let seen = period::find(&photo.light, &drawn).ok_or(RulerError::NoPeriodicMarks)?;
    progress.check()?;
    let row = row::aligned(&photo.light, seen, progress)?;
    let Marks { marks, strays } = row.marks();
    if marks.len() < FEWEST_TICKS {
        return Err(RulerError::TooFewTicks(marks.len()));
    }
    if !row.is_ruler(&marks) {
        return Err(RulerError::NoPeriodicMarks);
    }
    let lengths = lengths::measured(&photo.light, &row, &marks);
    let numbered: Vec<(i32, f64)> = marks
        .iter()
        .zip(&lengths.reach)
        .map(|(mark, reach)| (mark.number, *reach))
        .collect();
    let possible = graduation::possible(&numbered);
    let graduation = match possible[..] {
        [one] => Some(one),
        _ => None,
    };
    let spacing = match (between, graduation) {
        (Between::Known(length), _) => length,
        (Between::Unknown, Some(graduation)) => graduation.between(),
        (Between::Unknown, None) => return Err(RulerError::Ambiguous(possible)),
    };
    let first = marks[0].number;
    let mm = |number: i32| Millimetres(f64::from(number - first) * spacing.0);
    let fitted: Vec<(Millimetres, Pixels)> =
        marks.iter().map(|m| (mm(m.number), Pixels(m.u))).collect();
    let scale = Scale::from_marks(&fitted)?;
    let span_mm = fitted[fitted.len() - 1].0.0;
    let at = |u: f64| row.frame.place(u, row.middle());
    Ok(Reading {
        ticks: marks
            .iter()
            .zip(&lengths.reach)
            .map(|(mark, reach)| Tick {
                at: at(mark.u),
                length_px: *reach,
                mm: mm(mark.number),
            })
            .collect(),
        scale: Scale {
            how: How::Ticks,
            standard_uncertainty: scale.standard_uncertainty.hypot(COMMON_PX / span_mm),
            ..scale
        },
        between: spacing,
        graduation,
        rejected: strays.into_iter().map(at).collect(),
        tilt: change(&fitted),
        strip: lengths.strip(&row.frame, &marks),
    })
}

/// How much the distance from tick to tick changes from first to last, as a share, by the quadratic
/// term of a parabola through the ticks; `None` where it is no more than chance or of no account.
fn change(marks: &[(Millimetres, Pixels)]) -> Option<f64> {
    let n = marks.len();
    let (first, last) = (marks[0].0.0, marks[n - 1].0.0);
    let (middle, half) = (f64::midpoint(first, last), 0.5 * (last - first));
    let design = DMatrix::from_fn(n, 3, |row, column| {
        let t = (marks[row].0.0 - middle) / half;
        match column {
            0 => 1.0,
            1 => t,
            _ => t * t,
        }
    });
    let places = DVector::from_iterator(n, marks.iter().map(|m| m.1.0));
    let inverse = (design.transpose() * &design).try_inverse()?;
    let terms = &inverse * design.transpose() * &places;
    let residual = (&places - &design * &terms).norm_squared() / (n as f64 - 3.0);
    let error = (residual * inverse[(2, 2)]).sqrt();
    // The slope runs from b − 2c to b + 2c.
    let share = 4.0 * terms[2] / terms[1];
    (share.abs() > MUCH_CHANGE && terms[2].abs() > CLEAR_CHANGE * error).then_some(share)
}

/// Slope of a line through pairs, and its standard error.
fn slope(pairs: &[(f64, f64)]) -> Option<(f64, f64)> {
    let line = Line::fit(pairs.iter().copied()).ok()?;
    Some((line.slope, line.slope_standard_error))
}

fn median(mut values: Vec<f64>) -> Option<f64> {
    quantile(&mut values, 0.5)
}

/// The value below which the share `q` of the values lies; `None` of none.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "an index within the values"
)]
fn quantile(values: &mut [f64], q: f64) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    let last = values.len().checked_sub(1)?;
    Some(values[(q * last as f64).round() as usize])
}
