//! What can be taken hold of on the photo: ends and corners of what the scale is taken from, corners
//! of the area.
//!
//! A handle is moved by dragging, or by arrow keys once it has the keyboard: 1 px, with Shift 0.1.

use super::{Scene, corners};
use crate::area::{Area, Outline};
use crate::geometry::{Point, Polygon, Rect};
use crate::session::{Command, Document, End, Placed, ScaleSetting, ScaleWay, Step};
use crate::wording::text;
use egui::{CursorIcon, EventFilter, Key, PointerButton, Sense, Ui, WidgetInfo, vec2};

/// How far an arrow key moves a handle, photo px.
const STEP_PX: f64 = 1.0;
/// The same with Shift.
const FINE_STEP_PX: f64 = 0.1;
/// Side of the place that can be grabbed, screen points.
const GRAB: f32 = 26.0;

/// Something to take hold of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Handle {
    /// An end of the scale line.
    ScaleEnd(End),
    /// An end of the line along the ruler.
    RulerEnd(End),
    /// A corner of a rectangle of known size.
    ScaleCorner(usize),
    /// A corner of the outline.
    Corner(usize),
    /// A corner of a part that is left out.
    LeftOut(usize, usize),
}

/// A handle being dragged, with all as it was when it was taken.
pub(crate) struct Grab {
    handle: Handle,
    start: Point,
    area: Area,
}

/// The handles of a step and where they are.
pub(crate) fn of(document: &Document, step: Step) -> Vec<(Handle, Point)> {
    match step {
        Step::Scale => of_scale(&document.scale),
        Step::Area => {
            let corners = corners(&document.area.outline);
            let outline = corners
                .into_iter()
                .enumerate()
                .map(|(i, place)| (Handle::Corner(i), place));
            let left_out =
                document
                    .area
                    .left_out
                    .iter()
                    .enumerate()
                    .flat_map(|(part, left_out)| {
                        let corners = left_out.outline.vertices().iter().enumerate();
                        corners.map(move |(i, &place)| (Handle::LeftOut(part, i), place))
                    });
            outline.chain(left_out).collect()
        }
        _ => Vec::new(),
    }
}

fn of_scale(scale: &ScaleSetting) -> Vec<(Handle, Point)> {
    match scale.way {
        ScaleWay::Points => [(End::First, scale.first), (End::Second, scale.second)]
            .into_iter()
            .filter_map(|(end, placed)| Some((Handle::ScaleEnd(end), placed?.at)))
            .collect(),
        ScaleWay::Ruler => scale.ruler.map_or_else(Vec::new, |[first, second]| {
            vec![
                (Handle::RulerEnd(End::First), first),
                (Handle::RulerEnd(End::Second), second),
            ]
        }),
        ScaleWay::Corners if scale.flat.is_none() => {
            let corners = scale.corners.iter().enumerate();
            corners
                .map(|(i, placed)| (Handle::ScaleCorner(i), placed.at))
                .collect()
        }
        ScaleWay::Bar
        | ScaleWay::Card
        | ScaleWay::Corners
        | ScaleWay::SetUp
        | ScaleWay::Stated
        | ScaleWay::Typed
        | ScaleWay::Recorded => Vec::new(),
    }
}

fn corners(outline: &Outline) -> Vec<Point> {
    match outline {
        Outline::WholePhoto => Vec::new(),
        Outline::Rectangle(rect) => rect.to_polygon().vertices().to_vec(),
        Outline::Polygon(polygon) => polygon.vertices().to_vec(),
    }
}

impl Handle {
    fn name(self) -> String {
        match self {
            Self::ScaleEnd(End::First) => text!("scale-line-first-end").to_owned(),
            Self::ScaleEnd(End::Second) => text!("scale-line-second-end").to_owned(),
            Self::RulerEnd(End::First) => text!("line-along-the-ruler-first-end").to_owned(),
            Self::RulerEnd(End::Second) => text!("line-along-the-ruler-second-end").to_owned(),
            Self::ScaleCorner(i) => text!("corner-of-the-rectangle", number = i + 1),
            Self::Corner(i) => text!("corner-of-the-area", number = i + 1),
            Self::LeftOut(part, i) => {
                text!("corner-of-a-left-out-part", part = part + 1, number = i + 1)
            }
        }
    }

    fn how_to_move(self) -> &'static str {
        match self {
            Self::ScaleEnd(_) => {
                text!("drag-it-with-alt-freely-or")
            }
            Self::Corner(_) | Self::LeftOut(..) => {
                text!("drag-it-or-move-it-with-the")
            }
            Self::RulerEnd(_) | Self::ScaleCorner(_) => {
                text!("drag-it-or-move-it-with")
            }
        }
    }

    /// What moving it to a place amounts to, `area` being as it was before.
    fn move_to(self, area: &Area, to: Placed) -> Option<Command> {
        let placed = to;
        let to = placed.at;
        match self {
            Self::ScaleEnd(end) => Some(Command::SetScaleEnd(end, placed)),
            Self::RulerEnd(end) => Some(Command::SetRulerEnd(end, to)),
            Self::ScaleCorner(i) => Some(Command::SetCorner(i, placed)),
            Self::Corner(i) => match &area.outline {
                Outline::WholePhoto => None,
                Outline::Rectangle(rect) => {
                    let opposite = *rect.to_polygon().vertices().get((i + 2) % 4)?;
                    let moved = Rect::from_corners(opposite, to);
                    (moved.width > 0.0 && moved.height > 0.0)
                        .then_some(Command::SetOutline(Outline::Rectangle(moved)))
                }
                Outline::Polygon(polygon) => with_corner(polygon, i, to)
                    .map(|polygon| Command::SetOutline(Outline::Polygon(polygon))),
            },
            Self::LeftOut(part, i) => with_corner(&area.left_out.get(part)?.outline, i, to)
                .map(|polygon| Command::ReshapeLeftOut(part, polygon)),
        }
    }
}

/// The polygon with one corner elsewhere, unless its edges would cross.
fn with_corner(polygon: &Polygon, i: usize, to: Point) -> Option<Polygon> {
    let mut corners = polygon.vertices().to_vec();
    *corners.get_mut(i)? = to;
    let polygon = Polygon::new(corners);
    crate::session::is_simple(&polygon).then_some(polygon)
}

/// Lets the handles be moved; gives back the place of the one that is being moved.
pub(crate) fn interact(
    ui: &Ui,
    scene: &mut Scene<'_>,
    step: Step,
    grab: &mut Option<Grab>,
    out: &mut Vec<Command>,
) -> Option<Point> {
    let (document, canvas) = (scene.document, scene.canvas);
    let mut in_hand = None;
    for (handle, place) in of(document, step) {
        let at = scene.view.screen_from_image(place, canvas);
        let spot = egui::Rect::from_center_size(at, vec2(GRAB, GRAB)).intersect(canvas);
        let id = ui.scope_id().with(handle.name());
        let response = ui
            .interact(spot, id, Sense::click_and_drag())
            .on_hover_cursor(CursorIcon::Grab)
            .on_hover_text(format!("{}. {}", handle.name(), handle.how_to_move()));
        response.widget_info(|| {
            WidgetInfo::labeled(
                egui::Role::Slider,
                true,
                format!("{}, x {:.1}, y {:.1} px", handle.name(), place.x, place.y),
            )
        });
        if response.is_pointer_button_down_on() && ui.input(|i| i.pointer.primary_pressed()) {
            response.request_focus();
            *grab = Some(Grab {
                handle,
                start: place,
                area: document.area.clone(),
            });
        }
        if response.is_pointer_button_down_on() || (response.has_focus() && scene.by_keyboard) {
            in_hand = Some(place);
        }
        corners::interact(ui, &response, handle, &document.area, out);
        if response.dragged_by(PointerButton::Primary)
            && response.drag_delta() != vec2(0.0, 0.0)
            && let Some(grab) = grab.as_ref().filter(|grab| grab.handle == handle)
            && let Some(moved) = ui.input(|i| i.pointer.total_drag_delta())
        {
            let moved = scene.view.photo_way(moved);
            let to = Point::new(grab.start.x + moved.x, grab.start.y + moved.y);
            let to = document.onto_photo(to);
            let to = match handle {
                Handle::ScaleEnd(end) => scene.end(end, to),
                _ => scene.placed(to),
            };
            out.extend(handle.move_to(&grab.area, to));
        }
        if response.has_focus() {
            ui.memory_mut(|memory| {
                memory.set_focus_lock_filter(
                    id,
                    EventFilter {
                        horizontal_arrows: true,
                        vertical_arrows: true,
                        ..EventFilter::default()
                    },
                );
            });
            let (x, y) = arrows(ui, STEP_PX, FINE_STEP_PX);
            if x != 0.0 || y != 0.0 {
                // However finely keys move it, nobody sees more closely than the screen shows.
                let way = scene.view.turned_back(x, y);
                let to = scene.reveal(Point::new(place.x + way.x, place.y + way.y));
                let to = scene.placed(to);
                out.extend(handle.move_to(&document.area, to));
            }
            if let Handle::ScaleEnd(end) = handle
                && ui.input(|i| i.key_pressed(Key::Enter))
                && let Some(to) = document.on_edge(end, scene.placed(place))
            {
                out.extend(handle.move_to(&document.area, to));
            }
        }
    }
    in_hand
}

/// How far the arrow keys pressed in this frame move something.
pub(crate) fn arrows(ui: &Ui, step: f64, fine_step: f64) -> (f64, f64) {
    ui.input(|input| {
        let step = if input.modifiers.shift {
            fine_step
        } else {
            step
        };
        let presses = |key| f64::from(u32::try_from(input.num_presses(key)).unwrap_or(0));
        (
            step * (presses(Key::ArrowRight) - presses(Key::ArrowLeft)),
            step * (presses(Key::ArrowDown) - presses(Key::ArrowUp)),
        )
    })
}
