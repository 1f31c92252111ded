//! Corners of the area are added and taken away.

use super::handles::Handle;
use super::overlay::Pencil;
use crate::app::theme::on_photo;
use crate::area::{Area, Outline};
use crate::geometry::{Point, Polygon};
use crate::session::{Command, is_simple};
use crate::wording::text;
use egui::{CursorIcon, Key, PointerButton, Pos2, Rect, Response, Sense, Ui, vec2};

/// Across the place in the middle of a side at which a corner can be added, points.
const SPOT: f32 = 16.0;
/// Sides shorter than this have none, or it would lie among their corners, points.
const SHORTEST: f32 = 56.0;

/// A shape with corners.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Shape {
    /// The outline of what is measured.
    Outline,
    /// A part that is left out.
    LeftOut(usize),
}

impl Shape {
    /// The shape that a handle belongs to, and at which corner.
    const fn of(handle: Handle) -> Option<(Self, usize)> {
        match handle {
            Handle::Corner(i) => Some((Self::Outline, i)),
            Handle::LeftOut(part, i) => Some((Self::LeftOut(part), i)),
            Handle::ScaleEnd(_) | Handle::RulerEnd(_) | Handle::ScaleCorner(_) => None,
        }
    }

    /// All shapes of an area.
    fn all(area: &Area) -> impl Iterator<Item = Self> {
        let left_out = (0..area.left_out.len()).map(Self::LeftOut);
        std::iter::once(Self::Outline).chain(left_out)
    }

    fn corners(self, area: &Area) -> Vec<Point> {
        match self {
            Self::Outline => match &area.outline {
                Outline::WholePhoto => Vec::new(),
                Outline::Rectangle(rect) => rect.to_polygon().vertices().to_vec(),
                Outline::Polygon(polygon) => polygon.vertices().to_vec(),
            },
            Self::LeftOut(part) => area
                .left_out
                .get(part)
                .map_or_else(Vec::new, |part| part.outline.vertices().to_vec()),
        }
    }

    /// What giving it these corners amounts to; nothing where it would enclose nothing or cross itself.
    fn change(self, corners: Vec<Point>) -> Option<Command> {
        let polygon = Polygon::new(corners);
        if !is_simple(&polygon) {
            return None;
        }
        Some(match self {
            Self::Outline => Command::SetOutline(Outline::Polygon(polygon)),
            Self::LeftOut(part) => Command::ReshapeLeftOut(part, polygon),
        })
    }

    /// One corner less.
    fn without(self, area: &Area, corner: usize) -> Option<Command> {
        let mut corners = self.corners(area);
        if corner >= corners.len() {
            return None;
        }
        corners.remove(corner);
        self.change(corners)
    }

    /// One corner more, on the side after this one.
    fn with(self, area: &Area, side: usize, place: Point) -> Option<Command> {
        let mut corners = self.corners(area);
        corners.insert(side + 1, place);
        self.change(corners)
    }
}

/// Takes a corner away, or adds one after it, where that was asked for.
pub(super) fn interact(
    ui: &Ui,
    response: &Response,
    handle: Handle,
    area: &Area,
    out: &mut Vec<Command>,
) {
    let Some((shape, corner)) = Shape::of(handle) else {
        return;
    };
    let pressed = |key| response.has_focus() && ui.input(|i| i.key_pressed(key));
    let change = if response.secondary_clicked() || pressed(Key::Delete) {
        shape.without(area, corner)
    } else if pressed(Key::Insert) {
        shape.with(area, corner, middle(&shape.corners(area), corner))
    } else {
        None
    };
    tell(change, out);
}

/// Shows the middles of sides, where a corner is added by a click, or pulled out to where it is to be.
/// The keyboard has Insert for it, so that these do not stand in the way of the Tab key.
pub(super) fn between(ui: &Ui, pencil: &Pencil<'_>, area: &Area, out: &mut Vec<Command>) {
    for shape in Shape::all(area) {
        let corners = shape.corners(area);
        for (side, at) in roomy_sides(&corners, |p| pencil.at(p)) {
            pencil.spot(at);
            let spot = Rect::from_center_size(at, vec2(SPOT, SPOT)).intersect(pencil.canvas);
            let id = ui.scope_id().with((shape, side));
            let response = ui
                .interact(spot, id, Sense::DRAG)
                .on_hover_cursor(CursorIcon::Copy)
                .on_hover_text(text!("click-to-add-a-corner-here"));
            // Where it has hardly moved it was a click, however long that took.
            let pulled = response
                .interact_pointer_pos()
                .filter(|pointer| pointer.distance(at) > SPOT);
            let place = pulled.map_or(middle(&corners, side), |pointer| {
                pencil.view.image_from_screen(pointer, pencil.canvas)
            });
            if response.drag_stopped_by(PointerButton::Primary) {
                tell(shape.with(area, side, place), out);
            } else if response.dragged_by(PointerButton::Primary) {
                let next = (side + 1) % corners.len();
                pencil.line(&[corners[side], place, corners[next]], on_photo::AREA, true);
            }
        }
    }
}

/// An act of its own, however quickly one follows the other.
fn tell(change: Option<Command>, out: &mut Vec<Command>) {
    if let Some(change) = change {
        out.extend([Command::EndAct, change, Command::EndAct]);
    }
}

/// Sides with room in their middle, and where that is on the screen.
fn roomy_sides(corners: &[Point], on_screen: impl Fn(Point) -> Pos2) -> Vec<(usize, Pos2)> {
    let ends = corners.iter().zip(corners.iter().cycle().skip(1));
    let sides = ends.enumerate();
    sides
        .filter(|(_, (a, b))| on_screen(**a).distance(on_screen(**b)) >= SHORTEST)
        .map(|(side, _)| (side, on_screen(middle(corners, side))))
        .collect()
}

/// The middle of the side between a corner and the next.
fn middle(corners: &[Point], side: usize) -> Point {
    let (a, b) = (corners[side], corners[(side + 1) % corners.len()]);
    Point::new(f64::midpoint(a.x, b.x), f64::midpoint(a.y, b.y))
}
