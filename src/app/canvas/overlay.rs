//! Lines drawn on the photo: outlines of pores, the area's edge, the scale line.

use super::view::View;
use crate::app::theme::{self, on_photo};
use crate::geometry::{Point, Polygon, Rect};
use crate::pores::Pore;
use crate::session::{Measure, Results, ramp};
use egui::{Color32, FontId, Mesh, Painter, Pos2, Shape, Stroke, vec2};

/// Below this size on the screen an outline is a dot.
const DOT_BELOW: f64 = 3.0;
/// Below this size an outline has no casing.
const CASING_FROM: f64 = 8.0;
/// Below this size an outline is seen through, or many of them would veil the photo.
const OPAQUE_FROM: f64 = 14.0;
/// How much is left of the smallest outlines' colour.
const LEAST_OPACITY: f32 = 0.4;
/// Side of a dot, and how close two may stand, points.
const DOT: f32 = 1.6;
const DOTS_APART: f32 = 2.0;
/// Corners of an outline this close on the screen become one.
const CORNERS_APART: f32 = 1.5;
const DASH: f32 = 4.0;
/// From the middle of a diamond to its corners, points.
const DIAMOND: f32 = 18.0;

/// A pencil for one canvas.
#[derive(Clone, Copy)]
pub(crate) struct Pencil<'a> {
    pub(crate) painter: &'a Painter,
    pub(crate) view: &'a View,
    pub(crate) canvas: egui::Rect,
}

/// Draws every region in view: counted ones solid, others dashed. All are drawn with one stroke, or a
/// surface looks patchy.
pub(crate) fn outlines(pencil: &Pencil<'_>, results: &Results, by: Option<Measure>) {
    let by = by.and_then(|measure| results.distributions.measure(measure));
    let scale = &results.measurement.findings.scale;
    let colour = |region: &Pore| match by {
        Some(one) if region.whole && region.counted => {
            let [red, green, blue] = ramp(one.share(one.measure.of(region, scale)));
            Color32::from_rgb(red, green, blue)
        }
        _ => colour(region.counted),
    };
    let visible = pencil.view.visible(pencil.canvas);
    let size = results.sketch.typical_px * pencil.view.zoom();
    let in_view = |bounds: &Rect| {
        let seen = bounds.intersection(&visible);
        seen.width > 0.0 && seen.height > 0.0
    };
    let regions = &results.measurement.regions;
    let seen = results.sketch.bounds.iter().enumerate();
    let seen = seen.filter(|(_, bounds)| in_view(bounds));
    if size < DOT_BELOW {
        let dots = seen.map(|(at, _)| (regions[at].centroid(), colour(&regions[at])));
        pencil.dots(dots);
        return;
    }
    let mut shapes = Vec::new();
    for (at, _) in seen {
        let outline = if size < OPAQUE_FROM {
            &results.sketch.simple[at]
        } else {
            &regions[at].outline
        };
        let region = &regions[at];
        pencil.region(outline, region.counted, colour(region), size, &mut shapes);
    }
    pencil.painter.extend(shapes);
}

/// The row or column of dots at a distance from the canvas' edge.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a place on the canvas"
)]
fn cell(points: f32) -> usize {
    (points / DOTS_APART) as usize
}

const fn colour(counted: bool) -> Color32 {
    if counted {
        on_photo::COUNTED
    } else {
        on_photo::UNCOUNTED
    }
}

/// Whether a line turns back sharply at its middle corner.
fn is_hairpin(before: Pos2, corner: Pos2, after: Pos2) -> bool {
    let (to, from) = (corner - before, after - corner);
    to.dot(from) < -0.3 * to.length() * from.length()
}

impl Pencil<'_> {
    pub(crate) fn at(&self, place: Point) -> Pos2 {
        self.view.screen_from_image(place, self.canvas)
    }

    /// Dots, at most one where several cannot be told apart.
    fn dots(&self, places: impl Iterator<Item = (Point, Color32)>) {
        let mut mesh = Mesh::default();
        let across = cell(self.canvas.width()) + 1;
        let down = cell(self.canvas.height()) + 1;
        let mut is_taken = vec![false; across * down];
        for (place, colour) in places {
            let at = self.at(place);
            if !self.canvas.contains(at) {
                continue;
            }
            let from_corner = at - self.canvas.min;
            let cell = cell(from_corner.y) * across + cell(from_corner.x);
            if is_taken
                .get_mut(cell)
                .is_none_or(|taken| std::mem::replace(taken, true))
            {
                continue;
            }
            let colour = colour.gamma_multiply(LEAST_OPACITY);
            mesh.add_colored_rect(egui::Rect::from_center_size(at, vec2(DOT, DOT)), colour);
        }
        self.painter.add(Shape::mesh(mesh));
    }

    fn region(
        &self,
        outline: &Polygon,
        counted: bool,
        colour: Color32,
        size: f64,
        shapes: &mut Vec<Shape>,
    ) {
        #[expect(clippy::cast_possible_truncation, reason = "clamped")]
        let opacity = (size / OPAQUE_FROM).clamp(LEAST_OPACITY.into(), 1.0) as f32;
        let colour = colour.gamma_multiply(opacity);
        let mut path = self.path(outline);
        let Some(&first) = path.first() else { return };
        if path.len() < 3 {
            shapes.push(Shape::circle_filled(first, DOT / 2.0, colour));
            return;
        }
        // Thin where pores are small on the screen, so that they stay to be seen.
        #[expect(clippy::cast_possible_truncation, reason = "clamped")]
        let stroke = Stroke::new((size / 10.0).clamp(0.6, 1.8) as f32, colour);
        if counted {
            if size >= CASING_FROM {
                shapes.push(Shape::closed_line(
                    path.clone(),
                    Stroke::new(stroke.width + 1.6, on_photo::CASING),
                ));
            }
            shapes.push(Shape::closed_line(path, stroke));
        } else {
            path.push(first);
            shapes.extend(Shape::dashed_line(&path, stroke, DASH, DASH));
        }
    }

    /// An outline on the screen, without the corners that cannot be told apart there, and without
    /// hairpins, at which a line's mitre would shoot across the photo.
    fn path(&self, outline: &Polygon) -> Vec<Pos2> {
        let mut path: Vec<Pos2> = Vec::with_capacity(outline.vertices().len());
        for &corner in outline.vertices() {
            let at = self.at(corner);
            while let [.., before, last] = path[..]
                && is_hairpin(before, last, at)
            {
                path.pop();
            }
            if path
                .last()
                .is_none_or(|last| last.distance(at) >= CORNERS_APART)
            {
                path.push(at);
            }
        }
        while let [first, .., last] = path[..]
            && first.distance(last) < CORNERS_APART
            && path.len() > 1
        {
            path.pop();
        }
        // The line is closed: where it began and where it ends can be hairpins too.
        while let [.., before, last] = path[..]
            && path.len() > 3
            && is_hairpin(before, last, path[0])
        {
            path.pop();
        }
        while let [first, second, .., last] = path[..]
            && path.len() > 3
            && is_hairpin(last, first, second)
        {
            path.remove(0);
        }
        path
    }

    /// A closed outline with a casing.
    pub(crate) fn closed(&self, outline: &Polygon, stroke: Stroke) {
        let path = self.path(outline);
        if path.len() > 2 {
            let casing = Stroke::new(stroke.width + 2.4, on_photo::CASING);
            self.painter.add(Shape::closed_line(path.clone(), casing));
            self.painter.add(Shape::closed_line(path, stroke));
        }
    }

    /// A line with a casing; dashed where told.
    pub(crate) fn line(&self, places: &[Point], colour: Color32, dashed: bool) {
        let path: Vec<Pos2> = places.iter().map(|&place| self.at(place)).collect();
        self.painter.add(Shape::line(
            path.clone(),
            Stroke::new(4.0, on_photo::CASING),
        ));
        let stroke = Stroke::new(2.0, colour);
        if dashed {
            self.painter
                .extend(Shape::dashed_line(&path, stroke, DASH * 1.5, DASH));
        } else {
            self.painter.add(Shape::line(path, stroke));
        }
    }

    /// The closed edge of an area.
    pub(crate) fn edge(&self, polygon: &Polygon, dashed: bool) {
        let mut places = polygon.vertices().to_vec();
        places.extend(places.first().copied());
        self.line(&places, on_photo::AREA, dashed);
    }

    /// A frame about a place that was asked for.
    pub(crate) fn frame(&self, place: Rect) {
        let Rect {
            x,
            y,
            width,
            height,
        } = place;
        let corners = [
            (x, y),
            (x + width, y),
            (x + width, y + height),
            (x, y + height),
            (x, y),
        ];
        let corners = corners.map(|(x, y)| Point::new(x, y));
        self.line(&corners, on_photo::FRAME, false);
    }

    /// An end of the scale line: a ring with hairs, open in the middle so that the place shows.
    pub(crate) fn target(&self, place: Point, colour: Color32) {
        let at = self.at(place);
        for (width, colour) in [(4.0, on_photo::CASING), (1.8, colour)] {
            let stroke = Stroke::new(width, colour);
            self.painter.circle_stroke(at, 9.0, stroke);
            for way in [
                vec2(1.0, 0.0),
                vec2(-1.0, 0.0),
                vec2(0.0, 1.0),
                vec2(0.0, -1.0),
            ] {
                self.painter
                    .line_segment([at + way * 3.0, at + way * 15.0], stroke);
            }
        }
    }

    /// About an end that is on an edge.
    pub(crate) fn diamond(&self, place: Point, colour: Color32) {
        let at = self.at(place);
        let corners = [
            vec2(0.0, -DIAMOND),
            vec2(DIAMOND, 0.0),
            vec2(0.0, DIAMOND),
            vec2(-DIAMOND, 0.0),
        ]
        .map(|off| at + off);
        for (width, colour) in [(4.0, on_photo::CASING), (1.8, colour)] {
            let stroke = Stroke::new(width, colour);
            self.painter
                .add(Shape::closed_line(corners.to_vec(), stroke));
        }
    }

    /// A tick of a ruler.
    pub(crate) fn dot(&self, place: Point, colour: Color32) {
        let at = self.at(place);
        self.painter.circle_filled(at, 3.6, on_photo::CASING);
        self.painter.circle_filled(at, 2.2, colour);
    }

    /// Something that was found and is not used.
    pub(crate) fn cross(&self, place: Point, colour: Color32) {
        let at = self.at(place);
        for (width, colour) in [(4.0, on_photo::CASING), (2.0, colour)] {
            for way in [vec2(5.0, 5.0), vec2(5.0, -5.0)] {
                self.painter
                    .line_segment([at - way, at + way], Stroke::new(width, colour));
            }
        }
    }

    /// A corner that can be moved.
    pub(crate) fn corner(&self, place: Point) {
        let square = egui::Rect::from_center_size(self.at(place), vec2(9.0, 9.0));
        self.painter
            .rect_filled(square.expand(1.5), 0.0, on_photo::CASING);
        self.painter.rect_filled(square, 0.0, on_photo::AREA);
    }

    /// A place on the screen at which a corner can be added.
    pub(crate) fn spot(&self, at: Pos2) {
        for (width, colour) in [(3.0, on_photo::CASING), (1.2, on_photo::AREA)] {
            self.painter
                .circle_stroke(at, 4.0, Stroke::new(width, colour));
        }
    }

    /// A few words on a dark plate, beside a place.
    pub(crate) fn words(&self, place: Point, text: &str) {
        if !self.canvas.contains(self.at(place)) {
            return;
        }
        let galley = self.painter.layout_no_wrap(
            text.to_owned(),
            FontId::new(theme::SMALL, theme::semibold()),
            on_photo::AREA,
        );
        let at = self.at(place) + vec2(14.0, 14.0);
        let back = egui::Rect::from_min_size(at, galley.size()).expand2(vec2(6.0, 3.0));
        let inside = back.translate(
            self.canvas.shrink(4.0).clamp(back.min) - back.min
                + (self.canvas.shrink(4.0).clamp(back.max) - back.max),
        );
        self.painter
            .rect_filled(inside, theme::CORNER, on_photo::PLATE);
        self.painter
            .galley(inside.min + vec2(6.0, 3.0), galley, on_photo::AREA);
    }
}
