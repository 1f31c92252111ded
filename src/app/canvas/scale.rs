//! What the scale is taken from, as it was set and found on the photo.

use super::overlay::Pencil;
use crate::app::theme::on_photo;
use crate::geometry::Point;
use crate::session::{Placed, ScaleSetting, ScaleWay, Session};
use crate::wording::text;
use egui::Color32;

/// Paints what the chosen way of telling the scale has to show.
pub(crate) fn paint(pencil: &Pencil<'_>, session: &Session) {
    let scale = &session.document().scale;
    match scale.way {
        ScaleWay::Points => points(pencil, scale, &session.scale_line_label()),
        ScaleWay::Bar => bars(pencil, scale),
        ScaleWay::Ruler => ruler(pencil, scale),
        ScaleWay::Corners if scale.flat.is_none() => corners(pencil, scale),
        ScaleWay::Card
        | ScaleWay::Corners
        | ScaleWay::SetUp
        | ScaleWay::Stated
        | ScaleWay::Typed
        | ScaleWay::Recorded => {}
    }
    if let Some(marked) = &session.document().white {
        pencil.edge(&marked.outline, false);
        let bounds = marked.outline.bounds();
        let foot = Point::new(bounds.x, bounds.y + bounds.height);
        pencil.words(foot, text!("white"));
    }
}

fn points(pencil: &Pencil<'_>, scale: &ScaleSetting, label: &str) {
    if let (Some(first), Some(second)) = (scale.first, scale.second) {
        let (first, second) = (first.at, second.at);
        pencil.line(&[first, second], on_photo::SCALE, false);
        if scale.scale().is_some() {
            pencil.words(middle(first, second), label);
        }
    }
    for placed in [scale.first, scale.second].into_iter().flatten() {
        end(pencil, placed, on_photo::SCALE);
    }
}

/// An end of the scale line; in a diamond where it is surely on an edge.
pub(super) fn end(pencil: &Pencil<'_>, placed: Placed, colour: Color32) {
    pencil.target(placed.at, colour);
    if placed.on_edge_px.is_some() {
        pencil.diamond(placed.at, colour);
    }
}

/// The bar with its ends; of several strokes each with its number, dashed unless it is the one.
fn bars(pencil: &Pencil<'_>, scale: &ScaleSetting) {
    let bars = scale.bars.as_deref().unwrap_or_default();
    for (i, bar) in bars.iter().enumerate() {
        let is_chosen = scale.bar == Some(i);
        let [a, b] = bar.ends;
        let colour = if is_chosen {
            on_photo::SCALE
        } else {
            on_photo::AREA
        };
        pencil.line(&bar.ends, colour, !is_chosen);
        if is_chosen {
            pencil.target(a, colour);
            pencil.target(b, colour);
        }
        if bars.len() > 1 {
            pencil.words(middle(a, b), &format!("{}", i + 1));
        }
    }
}

fn ruler(pencil: &Pencil<'_>, scale: &ScaleSetting) {
    let Some(line) = scale.ruler else { return };
    pencil.line(&line, on_photo::SCALE, true);
    if let Some(Ok(reading)) = scale.ruler_read().map(|read| &read.result) {
        for tick in &reading.ticks {
            pencil.dot(tick.at, on_photo::SCALE);
        }
        for &stray in &reading.rejected {
            pencil.cross(stray, on_photo::UNCOUNTED);
        }
    }
    for end in line {
        pencil.target(end, on_photo::SCALE);
    }
}

fn corners(pencil: &Pencil<'_>, scale: &ScaleSetting) {
    let places: Vec<Point> = scale.corners.iter().map(|corner| corner.at).collect();
    let mut sides = places.clone();
    if places.len() == 4 {
        sides.extend(places.first());
    }
    if sides.len() > 1 {
        pencil.line(&sides, on_photo::SCALE, false);
    }
    for &place in &places {
        pencil.target(place, on_photo::SCALE);
    }
    for (ends, name) in places
        .windows(2)
        .zip([text!("side-width"), text!("side-height")])
    {
        pencil.words(middle(ends[0], ends[1]), name);
    }
}

fn middle(a: Point, b: Point) -> Point {
    Point::new(f64::midpoint(a.x, b.x), f64::midpoint(a.y, b.y))
}
