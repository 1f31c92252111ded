//! Parts found unusable: hatched where they are left out, dotted about where they are measured anyway.

use super::overlay::Pencil;
use crate::app::theme::on_photo;
use crate::geometry::{Point, Polygon};
use crate::usable::Proposal;
use egui::{Pos2, Shape, Stroke, pos2};

/// Distance between strokes of the hatching, screen points.
const APART: f32 = 12.0;
const DOT: f32 = 1.5;

/// Paints one part with its number.
pub(crate) fn paint(pencil: &Pencil<'_>, part: &Proposal, number: usize, is_left_out: bool) {
    let stroke = Stroke::new(1.5, on_photo::UNUSABLE);
    let mut shapes = Vec::new();
    for polygon in &part.parts {
        let corners: Vec<Pos2> = polygon.vertices().iter().map(|&p| pencil.at(p)).collect();
        if is_left_out {
            for [from, to] in strokes(&corners, pencil.canvas) {
                shapes.push(Shape::line_segment(
                    [from, to],
                    Stroke::new(3.0, on_photo::CASING),
                ));
                shapes.push(Shape::line_segment([from, to], stroke));
            }
        }
        let closed: Vec<Pos2> = corners.iter().chain(corners.first()).copied().collect();
        shapes.push(Shape::line(
            closed.clone(),
            Stroke::new(3.5, on_photo::CASING),
        ));
        shapes.extend(Shape::dotted_line(
            &closed,
            on_photo::UNUSABLE,
            4.0 * DOT,
            DOT,
        ));
    }
    pencil.painter.extend(shapes);
    if let Some(place) = part.parts.first().and_then(inner_place) {
        pencil.words(place, &number.to_string());
    }
}

/// Strokes from bottom left to top right inside an outline, by the even–odd rule, where seen.
fn strokes(corners: &[Pos2], seen: egui::Rect) -> Vec<[Pos2; 2]> {
    // Along a stroke x + y stays the same; across it x − y runs.
    let across = |p: Pos2| p.x + p.y;
    let from = (across(seen.min) / APART).ceil();
    let count = (across(seen.max) / APART).floor() - from;
    let mut strokes = Vec::new();
    let mut i = 0.0;
    while i <= count {
        let sum = (from + i) * APART;
        let mut places: Vec<f32> = corners
            .iter()
            .zip(corners.iter().cycle().skip(1))
            .filter(|(a, b)| (across(**a) > sum) != (across(**b) > sum))
            .map(|(a, b)| {
                let share = (sum - across(*a)) / (across(*b) - across(*a));
                a.x + share * (b.x - a.x)
            })
            .collect();
        places.sort_by(f32::total_cmp);
        // Only what lies in view, or a stroke across a large photo zoomed in would be miles long.
        let (left, right) = (
            seen.min.x.max(sum - seen.max.y),
            seen.max.x.min(sum - seen.min.y),
        );
        for pair in places.chunks_exact(2) {
            let (a, b) = (pair[0].max(left), pair[1].min(right));
            if a < b {
                strokes.push([pos2(a, sum - a), pos2(b, sum - b)]);
            }
        }
        i += 1.0;
    }
    strokes
}

/// A place inside an outline: the middle of its widest stretch half way down.
fn inner_place(polygon: &Polygon) -> Option<Point> {
    let bounds = polygon.bounds();
    let y = bounds.y + bounds.height / 2.0;
    let v = polygon.vertices();
    let mut crossings: Vec<f64> = v
        .iter()
        .zip(v.iter().cycle().skip(1))
        .filter(|(a, b)| (a.y > y) != (b.y > y))
        .map(|(a, b)| a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y))
        .collect();
    crossings.sort_by(f64::total_cmp);
    crossings
        .chunks_exact(2)
        .max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0])))
        .map(|pair| Point::new(f64::midpoint(pair[0], pair[1]), y))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strokes_stay_inside_the_outline_and_in_view() {
        let square = [
            pos2(0.0, 0.0),
            pos2(100.0, 0.0),
            pos2(100.0, 100.0),
            pos2(0.0, 100.0),
        ];
        let seen = egui::Rect::from_min_max(pos2(20.0, 20.0), pos2(300.0, 300.0));
        let strokes = strokes(&square, seen);
        // x + y from 48 to 192 in steps of 12.
        assert_eq!(strokes.len(), 13, "{strokes:?}");
        for [from, to] in strokes {
            for end in [from, to] {
                assert!((20.0..=100.0).contains(&end.x), "{end:?}");
                assert!((20.0..=100.0).contains(&end.y), "{end:?}");
            }
        }
    }
}
