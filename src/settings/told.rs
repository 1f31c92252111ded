//! Settings as JSON, and their digest: whoever measures by the same settings gets the same digest.

use super::{ScaleSource, Settings};
use crate::area::{Area, Outline};
use crate::basis::PlaneSource;
use crate::geometry::{Point, Polygon, Rect};
use crate::photo::sha256;
use crate::ruler::Between;
use crate::scale::Scale;
use serde_json::{Value, json};

impl Settings {
    /// All of them, keys always in the same order, with the program's version: another version may
    /// measure otherwise.
    #[must_use]
    pub fn to_json(&self) -> Value {
        json!({
            "version": env!("CARGO_PKG_VERSION"),
            "scale": source(&self.scale),
            "scale_is_right": self.scale_is_right,
            "area": area(&self.area),
            "whole_photo": self.whole_photo,
            "corrections": {
                "least_wall": self.corrections.least_wall,
                "by_hand": self.corrections.by_hand,
            },
            "white": self.white.map(rect),
        })
    }

    /// SHA-256 of [`Settings::to_json`], 64 lower-case hexadecimal digits.
    #[must_use]
    pub fn digest(&self) -> String {
        sha256(self.to_json().to_string().as_bytes())
    }
}

fn source(source: &ScaleSource) -> Value {
    match source {
        ScaleSource::Known(scale) => json!({ "given": known(scale) }),
        ScaleSource::Points(stretches) => json!({
            "points": stretches.iter().map(|(a, b, length)| json!([place(a), place(b), length.0])).collect::<Vec<_>>(),
        }),
        ScaleSource::Bar(length) => json!({ "bar": length.0 }),
        ScaleSource::Ruler { ends, between } => json!({
            "ruler": ends.each_ref().map(place),
            "between": match between {
                Between::Known(length) => json!(length.0),
                Between::Unknown => Value::Null,
            },
        }),
        ScaleSource::Plane(PlaneSource::Card) => json!("card"),
        ScaleSource::Plane(PlaneSource::Corners(corners)) => json!({
            "corners": corners.places.each_ref().map(place),
            "sides": corners.sides.map(|side| side.0),
            "placement_px": corners.placement_px,
        }),
        ScaleSource::SetUp { set_up, fits } => json!({ "set_up": set_up, "fits": fits }),
        ScaleSource::File => json!("file"),
    }
}

fn known(scale: &Scale) -> Value {
    json!({
        "px_per_mm": scale.px_per_mm,
        "standard_uncertainty": scale.standard_uncertainty,
        "how": scale.how.word(),
        "mark_px": scale.mark_px,
    })
}

fn area(area: &Area) -> Value {
    json!({
        "outline": match &area.outline {
            Outline::WholePhoto => Value::Null,
            Outline::Rectangle(outline) => rect(*outline),
            Outline::Polygon(outline) => polygon(outline),
        },
        "left_out": area.left_out.iter().map(|part| json!({
            "outline": polygon(&part.outline),
            "reason": part.reason.word(),
        })).collect::<Vec<_>>(),
    })
}

fn polygon(polygon: &Polygon) -> Value {
    polygon.vertices().iter().map(place).collect()
}

fn rect(rect: Rect) -> Value {
    json!([rect.x, rect.y, rect.width, rect.height])
}

fn place(point: &Point) -> Value {
    json!([point.x, point.y])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::corrections::{Corrections, LeastWall};
    use crate::units::Millimetres;

    fn settings(px_per_mm: f64) -> Settings {
        Settings {
            scale: ScaleSource::Known(Scale::given(px_per_mm).expect("a scale")),
            scale_is_right: false,
            area: Area::default(),
            whole_photo: false,
            corrections: Corrections::default(),
            white: None,
        }
    }

    #[test]
    fn whatever_changes_findings_changes_the_digest() {
        let as_it_was = settings(80.0);
        assert_eq!(as_it_was.digest(), settings(80.0).digest());
        let changed: [fn(&mut Settings); 8] = [
            |s| s.scale = settings(80.000_001).scale,
            |s| s.scale = ScaleSource::Bar(Millimetres(2.0)),
            |s| s.scale = ScaleSource::File,
            |s| s.scale_is_right = true,
            |s| s.area.outline = Outline::Rectangle(Rect::of_size(5, 6)),
            |s| s.whole_photo = true,
            |s| s.corrections.least_wall = LeastWall::new(0.7).expect("in range"),
            |s| s.white = Some(Rect::of_size(5, 6)),
        ];
        let mut digests = vec![as_it_was.digest()];
        for change in changed {
            let mut settings = as_it_was.clone();
            change(&mut settings);
            digests.push(settings.digest());
        }
        let all = digests.len();
        digests.sort();
        digests.dedup();
        assert_eq!(digests.len(), all);
    }
}
