//! Darkens what is not measured, whatever the shape of the area.

use super::view::View;
use crate::app::theme::on_photo;
use crate::area::{Area, Outline};
use crate::geometry::{Point, Polygon, Rect};
use egui::{Mesh, Painter, Shape};

/// Height of one row of shade, screen points.
const ROW: f64 = 2.0;

/// Paints the shade over the part of the photo in view.
pub(crate) fn paint(painter: &Painter, area: &Area, photo: Rect, view: &View, canvas: egui::Rect) {
    let outline = match &area.outline {
        Outline::WholePhoto if area.left_out.is_empty() => return,
        Outline::WholePhoto => photo.to_polygon(),
        Outline::Rectangle(rect) => rect.to_polygon(),
        Outline::Polygon(polygon) => polygon.clone(),
    };
    let on_screen = |polygon: &Polygon| {
        let corners = polygon.vertices().iter().map(|&corner| {
            let at = view.screen_from_image(corner, canvas);
            Point::new(at.x.into(), at.y.into())
        });
        Polygon::new(corners.collect())
    };
    let photo = on_screen(&photo.to_polygon());
    let outline = on_screen(&outline);
    let left_out: Vec<Polygon> = area
        .left_out
        .iter()
        .map(|part| on_screen(&part.outline))
        .collect();
    let canvas_rect = Rect {
        x: canvas.min.x.into(),
        y: canvas.min.y.into(),
        width: canvas.width().into(),
        height: canvas.height().into(),
    };
    let seen = photo.bounds().intersection(&canvas_rect);
    let mut mesh = Mesh::default();
    let mut y = seen.y;
    while y < seen.y + seen.height {
        let below = (y + ROW).min(seen.y + seen.height);
        let middle = f64::midpoint(y, below);
        let measured = measured(&outline, &left_out, middle);
        for (from, to) in inside(&photo, middle) {
            let (from, to) = (from.max(seen.x), to.min(seen.x + seen.width));
            for (left, right) in gaps(&measured, from, to) {
                #[expect(clippy::cast_possible_truncation, reason = "places on the screen")]
                let row = egui::Rect::from_x_y_ranges(
                    left as f32..=right as f32,
                    y as f32..=below as f32,
                );
                mesh.add_colored_rect(row, on_photo::OUTSIDE);
            }
        }
        y = below;
    }
    painter.add(Shape::mesh(mesh));
}

/// Stretches of a row that are measured, from left to right.
fn measured(outline: &Polygon, left_out: &[Polygon], y: f64) -> Vec<(f64, f64)> {
    let mut stretches = inside(outline, y);
    for part in left_out {
        for (from, to) in inside(part, y) {
            stretches = stretches
                .into_iter()
                .flat_map(|(a, b)| [(a, b.min(from)), (a.max(to), b)])
                .filter(|(a, b)| a < b)
                .collect();
        }
    }
    stretches
}

/// Stretches of a row inside a polygon, by the even–odd rule.
fn inside(polygon: &Polygon, y: f64) -> Vec<(f64, f64)> {
    let v = polygon.vertices();
    let mut crossings: Vec<f64> = v
        .iter()
        .zip(v.iter().cycle().skip(1))
        .filter(|(a, b)| (a.y > y) != (b.y > y))
        .map(|(a, b)| a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y))
        .collect();
    crossings.sort_by(f64::total_cmp);
    crossings.chunks_exact(2).map(|c| (c[0], c[1])).collect()
}

/// What lies between the stretches, from `start` to `end`.
fn gaps(stretches: &[(f64, f64)], start: f64, end: f64) -> Vec<(f64, f64)> {
    let mut gaps = Vec::new();
    let mut at = start;
    for &(from, to) in stretches {
        if from > at {
            gaps.push((at, from.min(end)));
        }
        at = at.max(to);
        if at >= end {
            return gaps;
        }
    }
    gaps.push((at, end));
    gaps
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_is_shaded_outside_the_outline_and_where_a_part_is_left_out() {
        let rect = |x, width| {
            Rect {
                x,
                y: 0.0,
                width,
                height: 10.0,
            }
            .to_polygon()
        };
        let measured = measured(&rect(10.0, 80.0), &[rect(30.0, 20.0)], 5.0);
        assert_eq!(measured, [(10.0, 30.0), (50.0, 90.0)]);
        assert_eq!(
            gaps(&measured, 0.0, 100.0),
            [(0.0, 10.0), (30.0, 50.0), (90.0, 100.0)]
        );
        assert_eq!(gaps(&measured, 20.0, 60.0), [(30.0, 50.0)]);
        assert_eq!(gaps(&[], 0.0, 100.0), [(0.0, 100.0)]);
    }
}
