//! Why a photo has no findings: what happened, and what to do.

use crate::MeasureError;
use crate::bar::Bar;
use crate::basis::PlaneError;
use crate::colour::WhiteError;
use crate::geometry::Point;
use crate::photo::PhotoError;
use crate::progress::Cancelled;
use crate::ruler::RulerError;
use crate::scale::{ScaleError, UnlikelyScale};
use crate::set_up::Mismatch;
use crate::stated::StatedError;
use crate::units::Millimetres;

/// Why a photo was not measured.
#[derive(Debug, thiserror::Error)]
pub enum NotMeasured {
    /// The file is no photo that can be read.
    #[error(transparent)]
    Photo(#[from] PhotoError),
    /// The area cannot be measured, or the work was stopped.
    #[error(transparent)]
    Measure(#[from] MeasureError),
    /// A place that the scale is taken from is none of this photo.
    #[error(
        "the place {},{} of the scale does not lie on the photo, which is {width} × {height} px; give \
         places of this photo, turned upright, counted from its top left corner",
        .place.x,
        .place.y
    )]
    PlaceOffPhoto {
        /// The place, px.
        place: Point,
        /// The photo's width, px.
        width: u32,
        /// Its height, px.
        height: u32,
    },
    /// There is no scale bar to go by.
    #[error(
        "no scale bar was found on the photo; if there is one, give its two ends; if it is short, faint \
         or cut off by the photo's edge, use a ruler on another photo with the same lens and distance"
    )]
    NoBar(Millimetres),
    /// More than one thing looks like the scale bar.
    #[error(
        "{} strokes on the photo could be the scale bar; look which one it is, and give its two ends",
        .0.len()
    )]
    SeveralBars(Vec<Bar>, Millimetres),
    /// A slip in the scale.
    #[error(transparent)]
    UnlikelyScale(#[from] UnlikelyScale),
    /// The set-up is of another camera, size or focal length.
    #[error("the set-up does not fit: {0}")]
    SetUpMismatch(#[from] Mismatch),
    /// The file tells no scale that could be believed.
    #[error(transparent)]
    Stated(#[from] StatedError),
    /// The white cannot serve.
    #[error(transparent)]
    White(#[from] WhiteError),
    /// Nothing tells the plane of the surface.
    #[error(transparent)]
    Plane(#[from] PlaneError),
    /// The ruler was not read.
    #[error(transparent)]
    Ruler(#[from] RulerError),
    /// What was found makes no scale.
    #[error(transparent)]
    Scale(#[from] ScaleError),
}

impl NotMeasured {
    /// Whether the person who started the work stopped it, so that nothing is wrong with the photo.
    #[must_use]
    pub const fn is_cancelled(&self) -> bool {
        matches!(
            self,
            Self::Measure(MeasureError::Cancelled(Cancelled))
                | Self::Plane(PlaneError::Cancelled(Cancelled))
                | Self::Ruler(RulerError::Cancelled(Cancelled))
        )
    }

    /// What happened, and what to do about it, apart. Neither names the file.
    #[must_use]
    pub fn cause_and_remedy(&self) -> (String, String) {
        match self {
            Self::Photo(error) => photo_cause_and_remedy(error),
            Self::SetUpMismatch(_) => (
                self.to_string(),
                "save a set-up from a photo of this kind, or say that this one fits".to_owned(),
            ),
            Self::Ruler(RulerError::Ambiguous(_)) => (
                self.to_string(),
                "look at the ruler, and say what lies between two of its ticks".to_owned(),
            ),
            _ => parted(&self.to_string()),
        }
    }
}

/// What is the matter with a file, and what to do about it, apart. Neither names the file.
#[must_use]
pub fn photo_cause_and_remedy(error: &PhotoError) -> (String, String) {
    let whole = error.to_string();
    let named = format!(": {}", error.path().display());
    parted(whole.strip_suffix(&named).unwrap_or(&whole))
}

/// Messages say first what happened, then, after a semicolon or a full stop, what to do. What a decoder
/// or the system said stands in brackets and is left whole.
fn parted(message: &str) -> (String, String) {
    let mut open = 0_i32;
    let bytes = message.as_bytes();
    for (at, byte) in message.bytes().enumerate() {
        match byte {
            b'(' => open += 1,
            b')' => open -= 1,
            b';' | b'.' if open <= 0 && bytes.get(at + 1) == Some(&b' ') => {
                return (
                    message[..at].to_owned(),
                    message[at + 1..].trim_start().to_owned(),
                );
            }
            _ => {}
        }
    }
    (message.to_owned(), String::new())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::area::AreaError;
    use crate::card::CardError;
    use crate::photo::ForeignKind;
    use std::path::PathBuf;

    #[test]
    fn every_failure_has_a_cause_and_a_remedy() {
        let path = PathBuf::from("walk; two/a.jpg");
        let failures: Vec<NotMeasured> = vec![
            PhotoError::Missing { path: path.clone() }.into(),
            PhotoError::NoPermission { path: path.clone() }.into(),
            PhotoError::Empty { path: path.clone() }.into(),
            PhotoError::Foreign {
                path: path.clone(),
                kind: ForeignKind::Heif,
            }
            .into(),
            PhotoError::Damaged {
                path: path.clone(),
                kind: "PNG",
                reason: "bad chunk; the rest was lost. So be it".to_owned(),
            }
            .into(),
            PhotoError::TooLarge {
                path,
                width: 60_000,
                height: 10,
            }
            .into(),
            MeasureError::Area(AreaError::Empty).into(),
            NotMeasured::NoBar(Millimetres(2.0)),
            NotMeasured::SeveralBars(Vec::new(), Millimetres(2.0)),
            NotMeasured::PlaceOffPhoto {
                place: Point::new(7.5, 8.0),
                width: 5,
                height: 5,
            },
            Mismatch::Size {
                photo: [1, 2],
                set_up: [3, 4],
            }
            .into(),
            StatedError::Nothing.into(),
            PlaneError::Card(CardError::FewMarks(2)).into(),
            WhiteError::Small(3).into(),
            RulerError::NoPeriodicMarks.into(),
            RulerError::Ambiguous(Vec::new()).into(),
        ];
        for failure in failures {
            let (cause, remedy) = failure.cause_and_remedy();
            assert!(!cause.is_empty() && !remedy.is_empty(), "{failure}");
            assert!(!format!("{cause}{remedy}").contains("a.jpg"), "{failure}");
            assert_eq!(
                cause.matches('(').count(),
                cause.matches(')').count(),
                "{failure}"
            );
        }
    }
}
