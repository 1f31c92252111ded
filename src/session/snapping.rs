//! Ends of the scale line are put on the edge that a person points at.

use super::document::Document;
use super::scale_setting::{End, Placed};
use crate::scale::Edge;

/// How far off an edge may be, pixels of the screen: about as far as a hand strays.
const REACH_SCREEN_PX: f64 = 8.0;

impl Document {
    /// An end of the scale line, put on the edge nearest to where it was pointed at: on the line from the
    /// other end where there is one. `None` where no edge is near enough.
    ///
    /// Where several edges are near, it is put on the nearest, but is no surer than a place put by eye,
    /// for another may have been meant.
    #[must_use]
    pub fn on_edge(&self, end: End, pointed: Placed) -> Option<Placed> {
        let light = &self.picture()?.light;
        let reach_px = REACH_SCREEN_PX * pointed.px_per_screen_px;
        let other = match end {
            End::First => self.scale.second,
            End::Second => self.scale.first,
        };
        let edge = match other {
            Some(other) => Edge::along(light, other.at, pointed.at, reach_px),
            None => Edge::near(light, pointed.at, reach_px),
        }?;
        Some(Placed {
            at: edge.at,
            on_edge_px: edge.is_only_one.then_some(edge.uncertainty_px),
            ..pointed
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Point;
    use crate::photo::Photo;
    use crate::scale::BAR_END_PX;
    use image::{Rgb, RgbImage};
    use std::sync::Arc;

    /// A black bar from 30 to 130 px on white, without blur: each edge lies to 0.1 px, as in
    /// `scale/edge.rs`.
    fn bar() -> Document {
        let picture = RgbImage::from_fn(160, 40, |x, y| {
            let is_bar = (30..130).contains(&x) && (10..30).contains(&y);
            Rgb([if is_bar { 10 } else { 230 }; 3])
        });
        let photo = Photo::from_rgb("bar.png", picture);
        Document {
            photo: Some(Arc::new(photo)),
            ..Document::default()
        }
    }

    #[test]
    fn both_ends_of_a_bar_are_put_on_its_edges_and_are_as_sure_as_these() {
        let mut document = bar();
        let pointed = Placed::by_eye(Point::new(32.0, 20.0), 0.5);
        let first = document.on_edge(End::First, pointed).expect("an edge");
        assert!((first.at.x - 30.0).abs() <= 0.1, "{first:?}");
        document.scale.first = Some(first);
        // A hand is not quite level; the line decides where the end lies.
        let pointed = Placed::by_eye(Point::new(127.5, 20.4), 0.5);
        let second = document.on_edge(End::Second, pointed).expect("an edge");
        assert!((second.at.x - 130.0).abs() <= 0.1, "{second:?}");
        document.scale.second = Some(second);
        document.scale.length = "2 mm".to_owned();
        let scale = document.scale.scale().expect("a scale");
        assert!((scale.px_per_mm - 50.0).abs() <= 0.1);
        // Without noise each end has what an end of a scale bar has.
        let two_ends = std::f64::consts::SQRT_2 * BAR_END_PX / 2.0;
        assert!(
            (scale.standard_uncertainty / two_ends - 1.0).abs() < 0.01,
            "{scale:?}"
        );
    }

    #[test]
    fn where_another_edge_may_have_been_meant_an_end_is_no_surer_than_by_eye() {
        let document = bar();
        // So near the corner that the edge above is as near as the one at the end.
        let pointed = Placed::by_eye(Point::new(33.0, 14.0), 1.0);
        let placed = document.on_edge(End::First, pointed).expect("an edge");
        assert_eq!(placed.on_edge_px, None);
    }

    #[test]
    fn how_far_an_edge_may_be_depends_on_the_screen() {
        let document = bar();
        let pointed = |px_per_screen_px| Placed::by_eye(Point::new(36.0, 20.0), px_per_screen_px);
        assert!(document.on_edge(End::First, pointed(0.5)).is_none());
        assert!(document.on_edge(End::First, pointed(1.0)).is_some());
    }
}
