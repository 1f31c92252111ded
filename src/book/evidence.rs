//! The photo that findings were made on, looked at again: a book keeps figures, not outlines, and from
//! the same bytes, scale, area and corrections the same outlines come out.

use super::store::Book;
use super::voucher::{Attached, Voucher};
use crate::area::{Area, LeftOut, Outline, Reason};
use crate::basis::{self, Basis, PlaneError, PlaneSource};
use crate::corrections::Corrections;
use crate::geometry::{Point, Polygon, Rect};
use crate::photo::{self, Photo, PhotoError};
use crate::progress::Progress;
use crate::scale::{How, Scale};
use crate::{MeasureError, Measurement, measure_corrected};
use serde_json::Value;
use std::path::PathBuf;
use std::sync::Arc;

/// What can be shown for findings.
#[derive(Debug, Clone)]
pub struct Evidence {
    /// The photo as it was taken.
    pub photo: Photo,
    /// What was measured and what was found there.
    pub seen: Result<Seen, NotSeen>,
}

/// A photo measured once more by the scale and the area of its findings.
#[derive(Debug, Clone)]
pub struct Seen {
    basis: Basis,
    /// The area, px of the picture.
    pub area: Area,
    /// What was found.
    pub measurement: Measurement,
}

/// Why there is no photo to show.
#[derive(Debug, thiserror::Error)]
pub enum NoPhoto {
    /// It is not where the book says.
    #[error("the photo is not to be found at {0}; put it back there, or attach it anew")]
    Missing(PathBuf),
    /// Its bytes are others than when it was measured.
    #[error(
        "the photo {0} has changed since it was measured; find the one that was, or measure this one"
    )]
    Changed(PathBuf),
    /// It cannot be read.
    #[error(transparent)]
    Photo(PhotoError),
}

/// Why nothing can be drawn on a photo.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum NotSeen {
    /// Findings that lack scale or area.
    #[error("the findings do not tell scale and area, so outlines cannot be drawn again")]
    Untold,
    /// Corners are not kept.
    #[error(
        "the photo was straightened by four corners, which findings do not keep, so it is shown as \
         it was taken and without outlines"
    )]
    Corners,
    /// The card is not found any more.
    #[error("the photo could not be straightened again: {0}")]
    Plane(#[from] PlaneError),
    /// The area holds nothing.
    #[error("the photo could not be measured again: {0}")]
    Measure(#[from] MeasureError),
}

impl Book {
    /// Looks again at the photo that findings of a voucher were made on.
    ///
    /// # Errors
    /// [`NoPhoto`] when it is missing, changed or damaged.
    pub fn evidence(
        &self,
        voucher: &Voucher,
        attached: &Attached,
        progress: &Progress<'_>,
    ) -> Result<Evidence, NoPhoto> {
        let findings = &attached.findings;
        let sha256 = attached.photo();
        let link = voucher
            .photos
            .iter()
            .find(|link| Some(link.sha256.as_str()) == sha256);
        let told = link.map_or_else(
            || findings.pointer("/photo/path").and_then(Value::as_str),
            |link| Some(link.path.as_str()),
        );
        let path = self.photo_path(told.unwrap_or_default());
        let photo = match photo::open(&path) {
            Ok(photo) => photo,
            Err(PhotoError::Missing { .. } | PhotoError::NotAFile { .. }) => {
                return Err(NoPhoto::Missing(path));
            }
            Err(error) => return Err(NoPhoto::Photo(error)),
        };
        let expected = link.map_or(sha256, |link| Some(link.sha256_of_file()));
        if Some(photo.sha256.as_str()) != expected {
            return Err(NoPhoto::Changed(path));
        }
        let seen = Seen::again(&photo, findings, progress);
        Ok(Evidence { photo, seen })
    }
}

impl Seen {
    fn again(photo: &Photo, findings: &Value, progress: &Progress<'_>) -> Result<Self, NotSeen> {
        let scale = scale(findings).ok_or(NotSeen::Untold)?;
        let drawn = area(findings).ok_or(NotSeen::Untold)?;
        let corrections = Corrections::of_findings(findings).ok_or(NotSeen::Untold)?;
        let is_tilted = findings
            .pointer("/scale/tilt_deg")
            .is_some_and(|tilt| !tilt.is_null());
        let basis = match scale.how {
            _ if !is_tilted => Basis::known(scale),
            How::Card => {
                let (straightened, white) =
                    basis::straightened(photo, PlaneSource::Card, progress)?;
                Basis::plane(Arc::new(straightened), white)
            }
            _ => return Err(NotSeen::Corners),
        };
        let (area, corrections) = match &basis.straightened {
            Some(straightened) => (
                basis.shown(straightened.area_from_photo(&drawn)),
                straightened.corrections_from_photo(&corrections),
            ),
            None => (drawn, corrections),
        };
        let picture = basis.picture(photo);
        let measurement = measure_corrected(picture, basis.scale, &area, &corrections, progress)?;
        Ok(Self {
            basis,
            area,
            measurement,
        })
    }

    /// The picture that was measured: the photo as it was taken, or straightened.
    #[must_use]
    pub fn picture<'a>(&'a self, taken: &'a Photo) -> &'a Photo {
        self.basis.picture(taken)
    }

    /// What is counted now, in words, where findings say otherwise: another version may have made them.
    #[must_use]
    pub fn differs_from(&self, findings: &Value) -> Option<String> {
        let now = &self.measurement.findings;
        let (things, count) = now.counted();
        let kind = findings.pointer("/surface/type").and_then(Value::as_str);
        let then = ["/pores/count", "/teeth/count"]
            .iter()
            .find_map(|at| findings.pointer(at)?.as_u64());
        let is_same = kind == Some(now.surface.kind.word())
            && then == count.and_then(|count| u64::try_from(count).ok());
        let counted = count.map_or_else(String::new, |count| format!(", {count} {things} counted"));
        (!is_same).then(|| format!("{}{counted}", now.surface.kind.word()))
    }
}

fn scale(findings: &Value) -> Option<Scale> {
    let number = |at: &str| findings.pointer(at)?.as_f64();
    let given = Scale::given(number("/scale/px_per_mm")?).ok()?;
    Some(Scale {
        standard_uncertainty: number("/scale/standard_uncertainty")?,
        how: serde_json::from_value(findings.pointer("/scale/how")?.clone()).ok()?,
        ..given
    })
}

/// The area as findings tell it, px of the photo.
fn area(findings: &Value) -> Option<Area> {
    let outline = match findings.pointer("/area/outline_px")? {
        Value::Null => Outline::WholePhoto,
        corners => {
            let polygon = polygon(corners)?;
            match rectangle(&polygon) {
                Some(rect) => Outline::Rectangle(rect),
                None => Outline::Polygon(polygon),
            }
        }
    };
    let parts = findings.pointer("/area/left_out_px")?.as_array()?;
    let left_out = parts.iter().enumerate().map(|(at, corners)| {
        Some(LeftOut {
            outline: polygon(corners)?,
            reason: reason(findings, at),
        })
    });
    Some(Area {
        outline,
        left_out: left_out.collect::<Option<_>>()?,
    })
}

/// Why a part was left out; findings of old tell it only where all parts share one reason.
fn reason(findings: &Value, part: usize) -> Reason {
    let word = |at: &str| Reason::from_word(findings.pointer(at)?.as_str()?);
    word(&format!("/area/left_out_px_reasons/{part}"))
        .or_else(|| word("/area/left_out/0/reason"))
        .unwrap_or(Reason::ByHand)
}

fn polygon(corners: &Value) -> Option<Polygon> {
    let corners = corners.as_array()?.iter().map(|corner| {
        let [x, y] = corner.as_array()?.as_slice() else {
            return None;
        };
        Some(Point::new(x.as_f64()?, y.as_f64()?))
    });
    let corners: Vec<Point> = corners.collect::<Option<_>>()?;
    (corners.len() >= 3).then(|| Polygon::new(corners))
}

/// The upright rectangle that a polygon is, if it is one.
fn rectangle(polygon: &Polygon) -> Option<Rect> {
    let &[first, _, third, _] = polygon.vertices() else {
        return None;
    };
    let rect = Rect {
        x: first.x,
        y: first.y,
        width: third.x - first.x,
        height: third.y - first.y,
    };
    (rect.width > 0.0 && rect.height > 0.0 && rect.to_polygon() == *polygon).then_some(rect)
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn an_area_is_read_as_it_was_written() {
        let findings = json!({"area": {
            "outline_px": [[10.0, 20.5], [110.0, 20.5], [110.0, 80.5], [10.0, 80.5]],
            "left_out": [{"reason": "scale", "share": 0.1}, {"reason": "blurred", "share": 0.1}],
            "left_out_px": [[[0.0, 0.0], [5.0, 0.0], [0.0, 5.0]], [[9.0, 9.0], [12.0, 9.0], [9.0, 12.0]]],
            "left_out_px_reasons": ["scale", "blurred"],
        }});
        let area = area(&findings).expect("an area");
        assert_eq!(
            area.outline,
            Outline::Rectangle(Rect {
                x: 10.0,
                y: 20.5,
                width: 100.0,
                height: 60.0
            })
        );
        let reasons: Vec<Reason> = area.left_out.iter().map(|part| part.reason).collect();
        assert_eq!(reasons, [Reason::Scale, Reason::Blurred]);
    }

    #[test]
    fn an_area_that_makes_no_sense_is_none() {
        for outline in [
            json!([[0, 0], [1, 1]]),
            json!("all"),
            json!([[0], [1], [2]]),
        ] {
            let findings = json!({"area": {"outline_px": outline, "left_out_px": []}});
            assert_eq!(area(&findings), None, "{findings}");
        }
        assert_eq!(area(&json!({})), None);
    }
}
