//! What a person corrects in the pores that were found, and how faint a wall still parts two of them.
//!
//! Corrections are settings like the area: places on the picture that is measured, in the order in which
//! they were made. Measuring again applies them again, so the same photo, area and corrections give the
//! same findings. [`crate::segmentation`] applies them.
//!
//! As a file they are one JSON object, `assets/schema/corrections-1.schema.json`.

use crate::geometry::{Point, Polygon};
use crate::reading;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Places are kept to a thousandth of a pixel, finer than anybody points.
const PLACES_PER_PX: f64 = 1000.0;

/// What a person does to pores.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// Two neighbouring pores are one.
    Join,
    /// A pore is two, or more, on both sides of a stroke.
    Split,
    /// There is no pore.
    Delete,
    /// There is a pore that was not seen: what is dark about a place.
    Add,
    /// There is a pore, and this is its outline.
    Draw,
}

impl Kind {
    /// All kinds.
    pub const ALL: [Self; 5] = [Self::Join, Self::Split, Self::Delete, Self::Add, Self::Draw];

    /// What was done, in a word: `joined`.
    #[must_use]
    pub const fn done(self) -> &'static str {
        match self {
            Self::Join => "joined",
            Self::Split => "split",
            Self::Delete => "deleted",
            Self::Add => "added",
            Self::Draw => "drawn",
        }
    }

    /// Whether so many places make such a correction.
    const fn takes(self, places: usize) -> bool {
        match self {
            Self::Join => places == 2,
            Self::Split => places >= 2,
            Self::Delete | Self::Add => places == 1,
            Self::Draw => places >= 3,
        }
    }
}

/// One correction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Written", into = "Written")]
pub struct Correction {
    kind: Kind,
    places: Arc<[Point]>,
}

impl Correction {
    /// A correction by its places, px of the picture that is measured; `None` where they are too few or
    /// too many for its kind, or no numbers.
    #[must_use]
    pub fn new(kind: Kind, places: impl IntoIterator<Item = Point>) -> Option<Self> {
        let kept = |along: f64| (along * PLACES_PER_PX).round() / PLACES_PER_PX;
        let places: Arc<[Point]> = places
            .into_iter()
            .map(|p| Point::new(kept(p.x), kept(p.y)))
            .collect();
        let are_numbers = places.iter().all(|p| p.x.is_finite() && p.y.is_finite());
        (kind.takes(places.len()) && are_numbers).then_some(Self { kind, places })
    }

    /// What is done.
    #[must_use]
    pub const fn kind(&self) -> Kind {
        self.kind
    }

    /// A place in each of two pores, the stroke, the place of one pore, or the corners of an outline.
    #[must_use]
    pub fn places(&self) -> &[Point] {
        &self.places
    }

    /// The outline that was drawn.
    #[must_use]
    pub fn outline(&self) -> Polygon {
        Polygon::new(self.places.to_vec())
    }
}

/// How high a wall has to be to part two pores, as a multiple of the height that is usual; below 1
/// fainter walls part pores too.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct LeastWall(f64);

impl LeastWall {
    /// The height by which all accuracy was proved.
    pub const USUAL: Self = Self(1.0);
    /// The faintest and the highest that can be asked for.
    pub const RANGE: [f64; 2] = [0.5, 2.0];

    /// Such a multiple, rounded to a hundredth.
    ///
    /// # Errors
    /// [`NoLeastWall`] off [`Self::RANGE`].
    pub fn new(multiple: f64) -> Result<Self, NoLeastWall> {
        let [least, most] = Self::RANGE;
        if (least..=most).contains(&multiple) {
            Ok(Self((100.0 * multiple).round() / 100.0))
        } else {
            Err(NoLeastWall(multiple))
        }
    }

    /// The multiple.
    #[must_use]
    pub const fn multiple(self) -> f64 {
        self.0
    }

    /// Whether it is the usual one.
    #[must_use]
    pub fn is_usual(self) -> bool {
        self == Self::USUAL
    }
}

impl Default for LeastWall {
    fn default() -> Self {
        Self::USUAL
    }
}

impl From<LeastWall> for f64 {
    fn from(least: LeastWall) -> Self {
        least.0
    }
}

impl TryFrom<f64> for LeastWall {
    type Error = NoLeastWall;

    fn try_from(multiple: f64) -> Result<Self, NoLeastWall> {
        Self::new(multiple)
    }
}

/// Walls cannot be taken so.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error(
    "{0} is not between 0.5 and 2; 1 is the usual height of a wall, less lets fainter walls part pores"
)]
pub struct NoLeastWall(f64);

/// Everything a person changed about the pores that were found.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Corrections {
    /// How high a wall has to be to part two pores.
    pub least_wall: LeastWall,
    /// What was corrected by hand, in the order in which it was done.
    pub by_hand: Vec<Correction>,
}

impl Corrections {
    /// Whether nothing was changed.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.by_hand.is_empty() && self.least_wall.is_usual()
    }

    /// Corrections as findings tell them, none where they tell of none; `None` where they are damaged.
    #[must_use]
    pub fn of_findings(findings: &Value) -> Option<Self> {
        match findings.get("corrections") {
            Some(told) => Self::deserialize(told).ok(),
            None => Some(Self::default()),
        }
    }

    /// The same on another picture of the surface, without those of which a place is not on it.
    #[must_use]
    pub fn moved(&self, to: impl Fn(Point) -> Option<Point>) -> Self {
        let by_hand = self.by_hand.iter().filter_map(|correction| {
            let places: Option<Vec<Point>> = correction.places.iter().map(|p| to(*p)).collect();
            Correction::new(correction.kind, places?)
        });
        Self {
            least_wall: self.least_wall,
            by_hand: by_hand.collect(),
        }
    }

    /// Reads a file of corrections.
    ///
    /// # Errors
    /// [`CorrectionsError`] where it cannot be read, or holds something else.
    pub fn load(path: &Path) -> Result<File, CorrectionsError> {
        let text = reading::text(path).map_err(|error| CorrectionsError::Unread {
            why: error.kind(),
            path: path.to_owned(),
        })?;
        serde_json::from_str(&text).map_err(|error| CorrectionsError::NoCorrections {
            why: error.to_string(),
            path: path.to_owned(),
        })
    }
}

/// Why corrections are not to be had from a file.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CorrectionsError {
    /// It cannot be read.
    #[error("the corrections in {path} could not be read: {why}; look whether the name is right")]
    Unread {
        /// What the system says.
        why: io::ErrorKind,
        /// The file.
        path: PathBuf,
    },
    /// It holds something else.
    #[error(
        "{path} holds no corrections that can be used ({why}); save them anew from the window, step \
         5, Record"
    )]
    NoCorrections {
        /// What is wrong with it.
        why: String,
        /// The file.
        path: PathBuf,
    },
    /// They belong to another photo.
    #[error(
        "the corrections in {path} were made on another photo than {photo}; give them with the photo \
         they were made on"
    )]
    OtherPhoto {
        /// The file.
        path: PathBuf,
        /// The photo they were given with.
        photo: PathBuf,
    },
}

/// Corrections as they stand in a file, with the photo they belong to; places in px of the upright photo
/// as it was taken.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct File {
    schema: Schema,
    /// SHA-256 of the photo's bytes.
    pub photo_sha256: String,
    least_wall: LeastWall,
    by_hand: Vec<Correction>,
}

#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
enum Schema {
    #[serde(rename = "poreline-corrections/1")]
    One,
}

impl File {
    /// Corrections of a photo, to be written.
    #[must_use]
    pub fn new(photo_sha256: &str, corrections: &Corrections) -> Self {
        Self {
            schema: Schema::One,
            photo_sha256: photo_sha256.to_owned(),
            least_wall: corrections.least_wall,
            by_hand: corrections.by_hand.clone(),
        }
    }

    /// Reads a file of corrections.
    ///
    /// # Errors
    /// [`CorrectionsError`] where it cannot be read, or holds something else.
    pub fn load(path: &Path) -> Result<Self, CorrectionsError> {
        let text = reading::text(path).map_err(|error| CorrectionsError::Unread {
            why: error.kind(),
            path: path.to_owned(),
        })?;
        serde_json::from_str(&text).map_err(|error| CorrectionsError::NoCorrections {
            why: error.to_string(),
            path: path.to_owned(),
        })
    }

    /// The corrections in it.
    #[must_use]
    pub fn corrections(self) -> Corrections {
        Corrections {
            least_wall: self.least_wall,
            by_hand: self.by_hand,
        }
    }
}

/// One correction as it is written; findings tell more of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct Written {
    kind: Kind,
    places_px: Vec<[f64; 2]>,
}

impl From<Correction> for Written {
    fn from(correction: Correction) -> Self {
        Self {
            kind: correction.kind,
            places_px: correction.places.iter().map(|p| [p.x, p.y]).collect(),
        }
    }
}

impl TryFrom<Written> for Correction {
    type Error = String;

    fn try_from(written: Written) -> Result<Self, String> {
        let count = written.places_px.len();
        let places = written.places_px.into_iter().map(|[x, y]| Point::new(x, y));
        Self::new(written.kind, places).ok_or_else(|| {
            format!("{count} places do not make a {:?}", written.kind).to_lowercase()
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_written_is_read_again() {
        let corrections = Corrections {
            least_wall: LeastWall::new(0.8).expect("in range"),
            by_hand: vec![
                Correction::new(
                    Kind::Join,
                    [Point::new(1.000_04, 2.0), Point::new(9.5, 2.25)],
                )
                .expect("two places"),
                Correction::new(Kind::Add, [Point::new(4.0, 5.0)]).expect("a place"),
            ],
        };
        let text = serde_json::to_string(&File::new("ab", &corrections)).expect("JSON");
        assert_eq!(
            text,
            r#"{"schema":"poreline-corrections/1","photo_sha256":"ab","least_wall":0.8,"by_hand":[{"kind":"join","places_px":[[1.0,2.0],[9.5,2.25]]},{"kind":"add","places_px":[[4.0,5.0]]}]}"#
        );
        let file: File = serde_json::from_str(&text).expect("the same form");
        assert_eq!(file.corrections(), corrections);
    }

    #[test]
    fn what_makes_no_correction_is_refused_and_not_dropped() {
        for wrong in [
            r#"{"kind":"join","places_px":[[1.0,2.0]]}"#,
            r#"{"kind":"draw","places_px":[[1.0,2.0],[3.0,4.0]]}"#,
            r#"{"kind":"paint","places_px":[[1.0,2.0]]}"#,
        ] {
            let text = format!(
                r#"{{"schema":"poreline-corrections/1","photo_sha256":"ab","least_wall":1.0,"by_hand":[{wrong}]}}"#
            );
            assert!(serde_json::from_str::<File>(&text).is_err(), "{wrong}");
        }
        assert!(LeastWall::new(0.49).is_err() && LeastWall::new(f64::NAN).is_err());
        assert_eq!(
            Correction::new(Kind::Add, [Point::new(f64::NAN, 0.0)]),
            None
        );
    }

    #[test]
    fn those_that_are_not_on_the_other_picture_are_left_behind() {
        let add = |x: f64| Correction::new(Kind::Add, [Point::new(x, 0.0)]).expect("a place");
        let corrections = Corrections {
            by_hand: vec![add(1.0), add(50.0)],
            ..Corrections::default()
        };
        let moved = corrections.moved(|p| (p.x < 10.0).then(|| Point::new(p.x + 3.0, p.y)));
        assert_eq!(moved.by_hand, [add(4.0)]);
    }
}
