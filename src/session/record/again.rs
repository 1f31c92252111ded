//! Opening a photo of the book again: its scale, area and corrections as they stand with the findings.

use crate::area::{Area, LeftOut, Outline};
use crate::corrections::Corrections;
use crate::geometry::{Point, Polygon, Rect};
use crate::scale::{How, Scale};
use crate::session::Document;
use crate::session::scale_setting::ScaleWay;
use crate::wording::text;
use serde_json::Value;
use std::path::PathBuf;
use std::sync::Arc;

/// A photo to be opened as it was when it was measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Again {
    /// Where it lies.
    pub path: PathBuf,
    /// SHA-256 of the file that lies there.
    sha256: String,
    scale: Scale,
    area: Area,
    corrections: Corrections,
}

impl Again {
    /// What findings say of their photo, given its file's path and SHA-256; `None` where they lack the scale.
    pub(super) fn of(findings: &Value, path: PathBuf, sha256: &str) -> Option<Self> {
        let number = |at: &str| findings.pointer(at)?.as_f64();
        let how = findings.pointer("/scale/how")?.as_str()?;
        let left_out = findings.pointer("/area/left_out_px")?.as_array()?;
        Some(Self {
            path,
            sha256: sha256.to_owned(),
            scale: Scale {
                px_per_mm: number("/scale/px_per_mm").filter(|scale| *scale > 0.0)?,
                standard_uncertainty: number("/scale/standard_uncertainty")?,
                how: How::from_word(how)?,
                mark_px: number("/scale/mark_px"),
            },
            area: Area {
                outline: match findings.pointer("/area/outline_px")? {
                    Value::Null => Outline::WholePhoto,
                    corners => outline(polygon(corners)?),
                },
                left_out: left_out
                    .iter()
                    .map(|part| polygon(part).map(LeftOut::from))
                    .collect::<Option<_>>()?,
            },
            corrections: Corrections::of_findings(findings)?,
        })
    }

    /// Sets scale, area and corrections on the photo that was opened; a sentence on what cannot be set.
    pub(super) fn set(self, document: &mut Document) -> Option<&'static str> {
        let is_same = document
            .photo
            .as_ref()
            .is_some_and(|photo| photo.sha256 == self.sha256);
        if !is_same {
            return Some(text!("this-is-not-the-photo-as-it"));
        }
        let mut area = self.area;
        let found: Vec<Vec<LeftOut>> = document
            .found()
            .map(|(part, _)| part.left_out().collect())
            .collect();
        for (i, parts) in found.iter().enumerate() {
            let is_part = |kept: &LeftOut| parts.iter().any(|p| p.outline == kept.outline);
            if area.left_out.iter().any(is_part) {
                // It was found again, and is left out as what it is.
                area.left_out.retain(|kept| !is_part(kept));
            } else {
                document.measured_anyway.insert(i);
            }
        }
        document.area = area;
        document.corrections = Arc::new(self.corrections);
        document.area_is_chosen = true;
        match self.scale.how {
            How::Card => {
                document.scale.way = ScaleWay::Card;
                Some(text!("the-photo-was-straightened-by-the"))
            }
            How::Corners => {
                document.scale.way = ScaleWay::Corners;
                Some(text!("the-photo-was-straightened-by-four"))
            }
            _ => {
                document.scale.recorded = Some(self.scale);
                // Whoever measured by it has said so before.
                document.scale.confirmed = Some(self.scale);
                document.scale.way = ScaleWay::Recorded;
                None
            }
        }
    }
}

/// A rectangle where it is one, so that it is drawn and measured as one.
fn outline(polygon: Polygon) -> Outline {
    let bounds: Rect = polygon.bounds();
    if bounds.to_polygon() == polygon {
        Outline::Rectangle(bounds)
    } else {
        Outline::Polygon(polygon)
    }
}

fn polygon(corners: &Value) -> Option<Polygon> {
    let corners = corners.as_array()?.iter().map(|corner| {
        let along = |axis: usize| corner.get(axis)?.as_f64();
        Some(Point::new(along(0)?, along(1)?))
    });
    Some(Polygon::new(corners.collect::<Option<_>>()?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::corrections::Kind;
    use serde_json::json;

    fn findings(outline: &Value) -> Value {
        json!({
            "photo": {"sha256": "ab"},
            "scale": {"px_per_mm": 80.0, "standard_uncertainty": 0.2, "how": "points"},
            "area": {"outline_px": outline, "left_out_px": [[[1.0, 1.0], [4.0, 1.0], [1.0, 3.0]]]},
        })
    }

    #[test]
    fn scale_and_area_are_read_as_they_were_written() {
        let rect = Rect {
            x: 10.0,
            y: 20.5,
            width: 30.0,
            height: 40.0,
        };
        let corners: Value = rect
            .to_polygon()
            .vertices()
            .iter()
            .map(|p| json!([p.x, p.y]))
            .collect();
        let again = Again::of(&findings(&corners), "a.jpg".into(), "ab").expect("all is there");
        assert_eq!(again.area.outline, Outline::Rectangle(rect));
        assert_eq!(again.scale.how, How::Points);
        assert_eq!(again.area.left_out.len(), 1);
        let whole = Again::of(&findings(&Value::Null), "a.jpg".into(), "ab").expect("all is there");
        assert_eq!(whole.area.outline, Outline::WholePhoto);
        assert!(whole.corrections.is_empty());
        let mut corrected = findings(&Value::Null);
        corrected["corrections"] = json!({
            "least_wall": 0.8,
            "joined": 1,
            "by_hand": [
                {"kind": "join", "places_px": [[1.0, 2.0], [3.0, 4.0]], "had_effect": true},
            ],
        });
        let again = Again::of(&corrected, "a.jpg".into(), "ab").expect("all is there");
        assert_eq!(again.corrections.by_hand[0].kind(), Kind::Join);
        assert!((again.corrections.least_wall.multiple() - 0.8).abs() < 1e-12);
        corrected["corrections"]["by_hand"][0]["places_px"] = json!([[1.0, 2.0]]);
        assert_eq!(Again::of(&corrected, "a.jpg".into(), "ab"), None);
        let mut damaged = findings(&Value::Null);
        damaged["scale"]["px_per_mm"] = json!(0.0);
        assert_eq!(Again::of(&damaged, "a.jpg".into(), "ab"), None);
    }
}
