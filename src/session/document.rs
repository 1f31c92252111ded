//! The ground state: one photo, how its scale is told, the area to measure, and corrections of the
//! pores found in it.

use super::flat::Flat;
use super::scale_setting::{ScaleSetting, ScaleWay};
use super::white::MarkedWhite;
use crate::area::{Area, Outline, Reason};
use crate::basis::Basis;
use crate::corrections::Corrections;
use crate::geometry::{Point, Polygon, Rect};
use crate::photo::Photo;
use crate::usable::{Proposal, Usable};
use crate::wording::text;
use std::collections::BTreeSet;
use std::sync::Arc;

/// What a person has set. Small and cheap to clone; everything else is derived from it.
#[derive(Debug, Clone, Default)]
pub struct Document {
    /// The photo as it was taken, once one is open.
    pub photo: Option<Arc<Photo>>,
    /// What of it had better be left out, found when it was opened.
    pub(super) usable_as_taken: Arc<Usable>,
    /// How the scale is told.
    pub scale: ScaleSetting,
    /// Something white that a person marked.
    pub white: Option<MarkedWhite>,
    /// The part of the surface to measure, as a person set it on the picture.
    pub area: Area,
    /// Found parts that a person wants measured anyway, by their place in `usable`.
    pub measured_anyway: BTreeSet<usize>,
    /// What a person corrected in the pores, px of the picture.
    pub corrections: Arc<Corrections>,
    /// Whether a person chose the area; until then it is the whole photo for want of a choice.
    pub area_is_chosen: bool,
}

impl Document {
    /// A photo on which nothing has been set.
    pub(super) fn of(photo: Arc<Photo>, usable: Arc<Usable>) -> Self {
        Self {
            scale: ScaleSetting::of(&photo),
            photo: Some(photo),
            usable_as_taken: usable,
            ..Self::default()
        }
    }

    /// The picture that is shown and measured: the photo as it was taken, or straightened.
    #[must_use]
    pub fn picture(&self) -> Option<&Arc<Photo>> {
        match &self.scale.flat {
            Some(flat) => Some(&flat.straightened.photo),
            None => self.photo.as_ref(),
        }
    }

    /// What of the picture had better be left out.
    #[must_use]
    pub fn usable(&self) -> &Arc<Usable> {
        self.scale
            .flat
            .as_ref()
            .map_or(&self.usable_as_taken, |flat| &flat.usable)
    }

    /// The picture's own rectangle; empty without a photo.
    #[must_use]
    pub fn photo_rect(&self) -> Rect {
        self.picture()
            .map_or(Rect::of_size(0, 0), |photo| photo.bounds())
    }

    /// The place on the photo nearest to `p`.
    #[must_use]
    pub fn onto_photo(&self, p: Point) -> Point {
        let rect = self.photo_rect();
        Point::new(p.x.clamp(0.0, rect.width), p.y.clamp(0.0, rect.height))
    }

    /// What the picture is measured by, once there is a scale. A white that a person marked goes
    /// before a card's.
    #[must_use]
    pub fn basis(&self) -> Option<Basis> {
        let mut basis = self.scale.basis()?;
        if let Some(marked) = &self.white {
            basis.white = Some(marked.white);
        }
        Some(basis)
    }

    /// Whether both have the same scale, the same white, the same area and the same corrections set.
    #[must_use]
    pub fn is_set_like(&self, other: &Self) -> bool {
        (&self.scale, &self.area, self.area_is_chosen)
            == (&other.scale, &other.area, other.area_is_chosen)
            && (&self.white, &self.measured_anyway) == (&other.white, &other.measured_anyway)
            && self.corrections == other.corrections
    }

    /// Parts found that cannot be measured well, and whether each is left out.
    pub fn found(&self) -> impl Iterator<Item = (&Proposal, bool)> {
        let proposals = self.usable().proposals.iter().enumerate();
        proposals.map(|(i, part)| {
            let is_left_out = !self.usable().is_hopeless && !self.measured_anyway.contains(&i);
            (part, is_left_out)
        })
    }

    /// What is measured: the area as set, less what the scale was taken from and the found parts.
    #[must_use]
    pub fn measured_area(&self) -> Area {
        let area = self.area.clone();
        let mut area = match self.scale.basis() {
            Some(basis) => basis.area(area),
            None => area,
        };
        for (part, is_left_out) in self.found() {
            if is_left_out {
                area.left_out.extend(part.left_out());
            }
        }
        area
    }

    /// Whether the ruler or scale bar would be measured along with the pores.
    #[must_use]
    pub fn area_holds_scale_line(&self) -> bool {
        let (photo, area) = (self.photo_rect(), self.measured_area());
        self.scale.way == ScaleWay::Points
            && [self.scale.first, self.scale.second]
                .into_iter()
                .flatten()
                .any(|end| area.contains(end.at, photo))
    }

    /// Goes over to a straightened picture, with what was drawn.
    pub(super) fn straighten(&mut self, flat: Arc<Flat>) {
        self.area = flat.straightened.area_from_photo(&self.area);
        let corrections = flat.straightened.corrections_from_photo(&self.corrections);
        self.corrections = Arc::new(corrections);
        self.move_white(|outline| flat.straightened.outline_from_photo(outline));
        self.scale.flat = Some(flat);
        self.settle_on_picture();
    }

    /// Goes back to the photo as it was taken, with what was drawn.
    pub(super) fn show_as_taken(&mut self) {
        if let Some(flat) = self.scale.flat.take() {
            self.area = flat.straightened.area_on_photo(&self.area);
            let corrections = flat.straightened.corrections_on_photo(&self.corrections);
            self.corrections = Arc::new(corrections);
            self.move_white(|outline| flat.straightened.outline_on_photo(outline));
            self.settle_on_picture();
        }
    }

    /// The light of something white is the same on either picture; where it lies is not.
    fn move_white(&mut self, moved: impl Fn(&Polygon) -> Polygon) {
        if let Some(marked) = &mut self.white {
            marked.outline = moved(&marked.outline);
        }
    }

    /// What was found belongs to another picture, and of what was drawn some may lie off this one.
    fn settle_on_picture(&mut self) {
        self.measured_anyway.clear();
        let encloses = |polygon: &Polygon| polygon.area() > 0.0;
        self.white.take_if(|marked| !encloses(&marked.outline));
        self.area
            .left_out
            .retain(|part| part.reason == Reason::ByHand && encloses(&part.outline));
        if matches!(&self.area.outline, Outline::Polygon(outline) if !encloses(outline)) {
            self.area.outline = Outline::WholePhoto;
            self.area_is_chosen = false;
        }
    }
}

/// An error message as a sentence of its own: with a capital letter.
pub(super) fn sentence(error: &dyn std::error::Error) -> String {
    let text = error.to_string();
    let mut letters = text.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().chain(letters).collect())
        .unwrap_or_default()
}

/// Whether a polygon encloses something and no edge crosses another.
#[must_use]
pub fn is_simple(polygon: &Polygon) -> bool {
    let v = polygon.vertices();
    let n = v.len();
    if n < 3 || polygon.area() == 0.0 {
        return false;
    }
    let edge = |i: usize| (v[i], v[(i + 1) % n]);
    (0..n).all(|i| {
        // Neighbours share a vertex; the last edge is a neighbour of the first.
        (i + 2..n)
            .filter(|&j| (j + 1) % n != i)
            .all(|j| !cross(edge(i), edge(j)))
    })
}

/// Whether two line segments cross at a place inside both.
fn cross((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let side = |p: Point, q: Point, r: Point| (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

/// A sentence on what is measured.
#[must_use]
pub fn describe(area: &Area) -> String {
    let outline = match &area.outline {
        Outline::WholePhoto => text!("the-whole-photo").to_owned(),
        Outline::Rectangle(rect) => text!(
            "a-rectangle-of",
            width = format!("{:.0}", rect.width),
            height = format!("{:.0}", rect.height)
        ),
        Outline::Polygon(polygon) => {
            text!("an-outline-with-corners", count = polygon.vertices().len())
        }
    };
    match area.left_out.len() {
        0 => outline,
        n => text!("outline-and-parts-left-out", outline = outline, count = n),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_outline_that_crosses_itself_is_told_from_one_that_does_not() {
        let polygon =
            |xy: &[(f64, f64)]| Polygon::new(xy.iter().map(|&(x, y)| Point::new(x, y)).collect());
        for (xy, simple) in [
            (&[(0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0)][..], true),
            (&[(0.0, 0.0), (9.0, 9.0), (9.0, 0.0), (0.0, 8.0)], false),
            (&[(0.0, 0.0), (9.0, 0.0), (4.0, 3.0), (4.0, 9.0)], true),
            (&[(0.0, 0.0), (9.0, 0.0)], false),
            (&[(0.0, 0.0), (5.0, 0.0), (9.0, 0.0)], false),
        ] {
            assert_eq!(is_simple(&polygon(xy)), simple, "{xy:?}");
        }
    }
}
