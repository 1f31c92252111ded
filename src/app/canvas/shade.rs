//! Darkens what is not measured, whatever the shape of the area.

use super::view::View;
use crate::app::theme::on_photo;
use crate::area::{Area, LeftOut, Outline};
use crate::geometry::{Point, Polygon, Rect};
use egui::{Mesh, Painter, Shape};

/// Height of one row of shade, screen points.
const ROW: f32 = 2.0;

/// Paints the shade over the part of the photo in view.
pub(crate) fn paint(painter: &Painter, area: &Area, photo: Rect, view: &View, canvas: egui::Rect) {
    let outline = match &area.outline {
        Outline::WholePhoto if area.left_out.is_empty() => return,
        Outline::WholePhoto => photo.to_polygon(),
        Outline::Rectangle(rect) => rect.to_polygon(),
        Outline::Polygon(polygon) => polygon.clone(),
    };
    let seen = photo.intersection(&view.visible(canvas));
    if seen.width <= 0.0 || seen.height <= 0.0 {
        return;
    }
    let top = view.screen_from_image(Point::new(seen.x, seen.y), canvas);
    let bottom = view.screen_from_image(Point::new(seen.x, seen.y + seen.height), canvas);
    let mut mesh = Mesh::default();
    let mut y = top.y;
    while y < bottom.y {
        let middle = view.image_from_screen(egui::pos2(top.x, y + ROW / 2.0), canvas);
        let measured = measured(&outline, &area.left_out, middle.y);
        for (from, to) in gaps(&measured, seen.x, seen.x + seen.width) {
            let left = view.screen_from_image(Point::new(from, middle.y), canvas).x;
            let right = view.screen_from_image(Point::new(to, middle.y), canvas).x;
            mesh.add_colored_rect(
                egui::Rect::from_x_y_ranges(left..=right, y..=(y + ROW).min(bottom.y)),
                on_photo::OUTSIDE,
            );
        }
        y += ROW;
    }
    painter.add(Shape::mesh(mesh));
}

/// Stretches of a row that are measured, from left to right, photo px.
fn measured(outline: &Polygon, left_out: &[LeftOut], y: f64) -> Vec<(f64, f64)> {
    let mut stretches = inside(outline, y);
    for part in left_out {
        for (from, to) in inside(&part.outline, y) {
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
        let measured = measured(&rect(10.0, 80.0), &[rect(30.0, 20.0).into()], 5.0);
        assert_eq!(measured, [(10.0, 30.0), (50.0, 90.0)]);
        assert_eq!(
            gaps(&measured, 0.0, 100.0),
            [(0.0, 10.0), (30.0, 50.0), (90.0, 100.0)]
        );
        assert_eq!(gaps(&measured, 20.0, 60.0), [(30.0, 50.0)]);
        assert_eq!(gaps(&[], 0.0, 100.0), [(0.0, 100.0)]);
    }
}
