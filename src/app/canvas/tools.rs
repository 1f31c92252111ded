//! Drawing on the photo: what the scale is taken from, rectangle, polygon, corrections of pores; by
//! pointer or by keyboard.

use super::Scene;
use super::handles::arrows;
use crate::area::Outline;
use crate::corrections::Kind;
use crate::geometry::{Point, Polygon, Rect};
use crate::session::{Command, Document, End, ScaleWay, Step, drawn_freely};
use crate::wording::text;
use egui::{EventFilter, Key, PointerButton, Pos2, Response, Ui};

/// How far an arrow key moves the crosshair, screen points.
const STEP: f64 = 10.0;
/// A click this close to the first corner closes a polygon, screen points.
const CLOSE_WITHIN: f64 = 10.0;
/// A click this close to a stroke picks it, screen points.
const PICK_WITHIN: f64 = 14.0;
/// Places of a line drawn by hand are so far apart, screen points.
const TRAIL_STEP: f64 = 4.0;
/// A stroke shorter than this was not meant, screen points.
const SHORTEST_STROKE: f64 = 5.0;

/// What is drawn in the Area step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum AreaTool {
    /// An upright rectangle to measure in.
    #[default]
    Rectangle,
    /// A polygon to measure in.
    Polygon,
    /// An outline drawn in one go.
    Freehand,
    /// A rectangle or polygon that is not measured.
    LeaveOut,
}

/// What is done to pores in the Pores step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum PoreTool {
    /// Select them.
    #[default]
    Select,
    /// Correct them.
    Correct(Kind),
}

/// What has been drawn of a shape that is not finished.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) enum Draft {
    /// Nothing.
    #[default]
    Nothing,
    /// One corner of a rectangle.
    Rectangle(Point),
    /// Corners of a polygon.
    Polygon(Vec<Point>),
    /// The first end of a line.
    Line(Point),
}

/// What the next click does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Tool {
    /// Nothing; dragging moves the photo.
    Hand,
    /// Sets an end of the scale line.
    ScaleEnd(End),
    /// Picks the scale bar among several strokes.
    PickBar,
    /// Draws a line along a ruler.
    Ruler,
    /// Sets this corner of a rectangle of known size.
    ScaleCorner(usize),
    /// Draws a rectangle over something white.
    White,
    /// Draws a part of the area.
    Area(AreaTool),
    /// Selects or corrects pores.
    Pores(PoreTool),
}

impl Tool {
    /// The tool in hand at a step.
    pub(crate) fn at(step: Step, document: &Document, drawing: &Drawing) -> Self {
        let scale = &document.scale;
        match step {
            Step::Scale if drawing.marks_white => Self::White,
            Step::Scale => match scale.way {
                ScaleWay::Points => scale.missing_end().map_or(Self::Hand, Self::ScaleEnd),
                ScaleWay::Bar if scale.bars.as_ref().is_some_and(|bars| bars.len() > 1) => {
                    Self::PickBar
                }
                ScaleWay::Ruler => Self::Ruler,
                ScaleWay::Corners => scale.missing_corner().map_or(Self::Hand, Self::ScaleCorner),
                ScaleWay::Bar
                | ScaleWay::Card
                | ScaleWay::SetUp
                | ScaleWay::Stated
                | ScaleWay::Typed
                | ScaleWay::Recorded => Self::Hand,
            },
            Step::Area => Self::Area(drawing.area_tool),
            Step::Pores if drawing.has_pores => Self::Pores(drawing.pore_tool),
            _ => Self::Hand,
        }
    }

    /// Whether it sets single places, so that dragging is free to move the photo.
    pub(crate) const fn only_clicks(self) -> bool {
        matches!(
            self,
            Self::Hand
                | Self::ScaleEnd(_)
                | Self::ScaleCorner(_)
                | Self::PickBar
                | Self::Pores(PoreTool::Select | PoreTool::Correct(Kind::Add | Kind::Delete))
        )
    }

    /// Whether a drag draws the line that the pointer goes.
    const fn draws_freely(self) -> bool {
        matches!(
            self,
            Self::Pores(PoreTool::Correct(Kind::Draw | Kind::Split))
                | Self::Area(AreaTool::Freehand)
        )
    }

    /// Whether it sets ends or corners that the scale is taken from, which want to be set closely.
    pub(crate) const fn sets_ends(self) -> bool {
        matches!(self, Self::ScaleEnd(_) | Self::ScaleCorner(_) | Self::Ruler)
    }

    /// What to do with it, in a few words.
    pub(crate) fn hint(self, draft: &Draft) -> &'static str {
        match (self, draft) {
            (Self::Hand, _) => text!("wheel-zooms-dragging-moves-the-photo"),
            (Self::ScaleEnd(End::First), _) => {
                text!("click-one-end-of-the-ruler")
            }
            (Self::ScaleEnd(End::Second), _) => {
                text!("click-the-other-end-alt-keeps")
            }
            (Self::PickBar, _) => text!("click-the-stroke-that-is-the"),
            (Self::Ruler, Draft::Line(_)) => text!("click-where-the-line-ends-esc"),
            (Self::Ruler, _) => text!("drag-along-the-edge-that-the"),
            (Self::ScaleCorner(0), _) => {
                text!("click-a-corner-of-the-rectangle")
            }
            (Self::ScaleCorner(_), _) => {
                text!("click-the-next-corner-going-round")
            }
            (Self::Area(AreaTool::Rectangle) | Self::White, Draft::Rectangle(_)) => {
                text!("click-the-opposite-corner-esc-cancels")
            }
            (Self::White, _) => text!("drag-a-rectangle-over-something-white"),
            (Self::Area(AreaTool::Rectangle), _) => text!("drag-from-corner-to-corner"),
            (Self::Area(_), Draft::Polygon(_)) => text!("click-corners-enter-closes-esc-cancels"),
            (Self::Area(AreaTool::Polygon), _) => text!("click-the-first-corner"),
            (Self::Area(AreaTool::Freehand), _) => text!("drag-once-around-what-is-to"),
            (Self::Area(AreaTool::LeaveOut), _) => text!("drag-a-rectangle-or-click-corner"),
            (Self::Pores(PoreTool::Select), _) => {
                text!("click-a-pore-to-select-it")
            }
            (Self::Pores(PoreTool::Correct(kind)), draft) => match (kind, draft) {
                (Kind::Add, _) => text!("click-a-hollow-that-was-not"),
                (Kind::Delete, _) => text!("click-what-is-no-pore-dragging"),
                (Kind::Join, Draft::Line(_)) => text!("click-the-pore-to-join-it"),
                (Kind::Join, _) => text!("drag-from-one-pore-to-its"),
                (Kind::Split, Draft::Line(_)) => text!("click-where-the-stroke-ends-esc"),
                (Kind::Split, _) => text!("drag-a-stroke-right-across-a"),
                (Kind::Draw, Draft::Polygon(_)) => text!("click-corners-enter-closes-esc-cancels"),
                (Kind::Draw, _) => text!("drag-once-around-a-pore-or"),
            },
        }
    }
}

/// State of drawing.
#[derive(Default)]
#[expect(clippy::struct_excessive_bools, reason = "each is a fact of its own")]
pub(crate) struct Drawing {
    /// What is drawn in the Area step.
    pub(crate) area_tool: AreaTool,
    /// What is done to pores in the Pores step.
    pub(crate) pore_tool: PoreTool,
    /// Whether there are pores to work on.
    pub(crate) has_pores: bool,
    /// Whether something white is marked in the Scale step.
    pub(crate) marks_white: bool,
    /// What has been drawn so far.
    pub(crate) draft: Draft,
    /// The place at which a pore is to be selected, and whether those selected before stay so.
    pub(crate) selects: Option<Point>,
    pub(crate) adds_to_selection: bool,
    /// The place for the next point when the keyboard draws.
    pub(crate) crosshair: Option<Point>,
    /// Whether the length of the scale line should be typed next.
    pub(crate) wants_length: bool,
    /// The way of the pointer since the button went down, where it draws.
    pub(crate) trail: Vec<Point>,
    /// Where the button went down. The pointer may have moved on before a drag is told from a
    /// click, and a measuring line starts where it was pressed.
    pressed: Option<Press>,
}

/// A press of the button.
#[derive(Debug, Clone, Copy)]
struct Press {
    on_screen: Pos2,
    on_photo: Point,
}

impl Drawing {
    /// Takes the pointer's and the keyboard's doings of this frame.
    pub(crate) fn interact(
        &mut self,
        ui: &Ui,
        response: &Response,
        tool: Tool,
        scene: &mut Scene<'_>,
        out: &mut Vec<Command>,
    ) {
        if tool == Tool::Hand {
            *self = Self {
                area_tool: self.area_tool,
                pore_tool: self.pore_tool,
                has_pores: self.has_pores,
                wants_length: self.wants_length,
                ..Self::default()
            };
            return;
        }
        if response.is_pointer_button_down_on()
            && let Some(origin) = ui.input(|i| i.pointer.press_origin())
        {
            self.pressed = Some(Press {
                on_screen: origin,
                on_photo: scene.place_at(origin),
            });
            self.crosshair = None;
            if ui.input(|i| i.pointer.any_pressed()) {
                self.trail.clear();
            }
        }
        let pointer = response.interact_pointer_pos();
        if tool.draws_freely()
            && response.dragged_by(PointerButton::Primary)
            && let Some(at) = pointer
        {
            self.follow(at, scene);
        }
        if response.drag_stopped_by(PointerButton::Primary) {
            if let (Some(from), Some(to)) = (self.pressed.take(), pointer) {
                self.drag(tool, from, to, scene, out);
            }
        } else if response.clicked_by(PointerButton::Primary)
            && let Some(at) = self.pressed.take().map(|press| press.on_screen).or(pointer)
        {
            response.request_focus();
            if response.double_clicked() && self.can_close() {
                self.close(tool, out);
            } else {
                self.click(tool, at, scene, out);
                self.adds_to_selection = ui.input(|i| i.modifiers.command || i.modifiers.shift);
            }
        }
        if response.has_focus() {
            self.keyboard(ui, response, tool, scene, out);
        } else {
            self.crosshair = None;
        }
    }

    /// One point by the pointer. Beside the photo there is nothing to take a scale from.
    fn click(&mut self, tool: Tool, at: Pos2, scene: &Scene<'_>, out: &mut Vec<Command>) {
        if matches!(tool, Tool::Area(_)) || scene.is_on_photo(at) {
            self.place(tool, scene.place_at(at), scene, out);
        }
    }

    fn keyboard(
        &mut self,
        ui: &Ui,
        response: &Response,
        tool: Tool,
        scene: &mut Scene<'_>,
        out: &mut Vec<Command>,
    ) {
        ui.memory_mut(|memory| {
            memory.set_focus_lock_filter(
                response.id,
                EventFilter {
                    horizontal_arrows: true,
                    vertical_arrows: true,
                    escape: self.draft != Draft::Nothing || self.marks_white,
                    tab: false,
                },
            );
        });
        if scene.by_keyboard && self.crosshair.is_none() {
            self.crosshair = Some(scene.place_at(scene.canvas.center()));
        }
        let (x, y) = arrows(ui, STEP / scene.view.zoom(), 1.0);
        if x != 0.0 || y != 0.0 {
            let from = self
                .crosshair
                .unwrap_or_else(|| scene.place_at(scene.canvas.center()));
            let way = scene.view.turned_back(x, y);
            let to = Point::new(from.x + way.x, from.y + way.y);
            self.crosshair = Some(scene.reveal(to));
        }
        let (enter, space, escape, back) = ui.input(|i| {
            (
                i.key_pressed(Key::Enter),
                i.key_pressed(Key::Space),
                i.key_pressed(Key::Escape),
                i.key_pressed(Key::Backspace),
            )
        });
        if escape && self.draft == Draft::Nothing {
            self.marks_white = false;
        } else if escape {
            self.draft = Draft::Nothing;
        } else if back {
            self.undo();
        } else if enter && self.can_close() {
            self.close(tool, out);
        } else if (enter || space)
            && let Some(place) = self.crosshair
        {
            self.place(tool, place, scene, out);
        }
    }

    /// One point, by click or by key.
    fn place(&mut self, tool: Tool, place: Point, scene: &Scene<'_>, out: &mut Vec<Command>) {
        match tool {
            Tool::Hand => {}
            Tool::Pores(PoreTool::Select) => self.selects = Some(place),
            Tool::Pores(PoreTool::Correct(kind)) => self.correct(kind, place, scene, out),
            Tool::ScaleEnd(end) => {
                out.push(Command::SetScaleEnd(end, scene.end(end, place)));
                self.wants_length = end == End::Second;
            }
            Tool::PickBar => {
                let within_px = PICK_WITHIN / scene.view.zoom();
                let picked = scene.document.scale.bar_near(place, within_px);
                self.wants_length = picked.is_some();
                out.extend(picked.map(Command::PickBar));
            }
            Tool::Ruler => {
                if let Draft::Line(from) = self.draft {
                    out.push(Command::SetRuler([from, place]));
                    self.draft = Draft::Nothing;
                } else {
                    self.draft = Draft::Line(place);
                }
            }
            Tool::ScaleCorner(i) => {
                out.push(Command::SetCorner(i, scene.placed(place)));
                self.wants_length = i == 3;
            }
            Tool::Area(AreaTool::Rectangle) | Tool::White => {
                if let Draft::Rectangle(corner) = self.draft {
                    self.rectangle(tool, corner, place, scene, out);
                } else {
                    self.draft = Draft::Rectangle(place);
                }
            }
            Tool::Area(AreaTool::Polygon | AreaTool::Freehand | AreaTool::LeaveOut) => {
                self.add_corner(tool, place, scene, out);
            }
        }
    }

    /// A stroke from the place where the button went down to the place where it came up.
    fn drag(
        &mut self,
        tool: Tool,
        from: Press,
        to: Pos2,
        scene: &Scene<'_>,
        out: &mut Vec<Command>,
    ) {
        let is_long = f64::from(from.on_screen.distance(to)) >= SHORTEST_STROKE;
        match tool {
            // A click that took its time; a stroke has moved the photo.
            _ if !is_long
                && (tool.only_clicks() || matches!(tool, Tool::Ruler | Tool::Pores(_))) =>
            {
                self.click(tool, from.on_screen, scene, out);
            }
            _ if tool.only_clicks() => {}
            Tool::Ruler => {
                out.push(Command::SetRuler([from.on_photo, scene.place_at(to)]));
                self.draft = Draft::Nothing;
            }
            Tool::Pores(PoreTool::Correct(kind)) => {
                let mut places = std::mem::take(&mut self.trail);
                if kind == Kind::Join {
                    places = vec![from.on_photo, scene.place_at(to)];
                } else {
                    places.insert(0, from.on_photo);
                    places.push(scene.place_at(to));
                }
                out.push(Command::Correct(kind, places));
                self.draft = Draft::Nothing;
            }
            Tool::Area(AreaTool::Freehand) if is_long && self.draft == Draft::Nothing => {
                let mut way = std::mem::take(&mut self.trail);
                way.insert(0, from.on_photo);
                way.push(scene.place_at(to));
                let outline = drawn_freely(&way, scene.px_per_screen_px);
                out.push(Command::SetOutline(Outline::Polygon(outline)));
            }
            Tool::White | Tool::Area(AreaTool::Rectangle | AreaTool::LeaveOut)
                if !matches!(self.draft, Draft::Polygon(_)) =>
            {
                self.rectangle(tool, from.on_photo, scene.place_at(to), scene, out);
            }
            Tool::Area(_) if is_long => self.place(tool, scene.place_at(to), scene, out),
            _ => {}
        }
    }

    /// One place of a correction, by click or by key.
    fn correct(&mut self, kind: Kind, place: Point, scene: &Scene<'_>, out: &mut Vec<Command>) {
        match kind {
            Kind::Add | Kind::Delete => out.push(Command::Correct(kind, vec![place])),
            Kind::Join | Kind::Split => {
                if let Draft::Line(from) = self.draft {
                    out.push(Command::Correct(kind, vec![from, place]));
                    self.draft = Draft::Nothing;
                } else {
                    self.draft = Draft::Line(place);
                }
            }
            Kind::Draw => {
                let tool = Tool::Pores(PoreTool::Correct(kind));
                self.add_corner(tool, place, scene, out);
            }
        }
    }

    /// One corner more, or with a click on the first one none more.
    fn add_corner(&mut self, tool: Tool, place: Point, scene: &Scene<'_>, out: &mut Vec<Command>) {
        let closes = self.can_close()
            && matches!(&self.draft, Draft::Polygon(corners)
                if corners[0].distance(place) * scene.view.zoom() <= CLOSE_WITHIN);
        if closes {
            self.close(tool, out);
        } else if let Draft::Polygon(corners) = &mut self.draft {
            corners.push(place);
        } else {
            self.draft = Draft::Polygon(vec![place]);
        }
    }

    /// Keeps the way of the pointer, a place every few screen points.
    fn follow(&mut self, at: Pos2, scene: &Scene<'_>) {
        let place = scene.place_at(at);
        let before = self.trail.last().copied();
        let before = before.or(self.pressed.map(|press| press.on_photo));
        let is_apart = |before: Point| before.distance(place) * scene.view.zoom() >= TRAIL_STEP;
        if before.is_none_or(is_apart) {
            self.trail.push(place);
        }
    }

    /// A rectangle, unless it is so small on the screen that it was not meant.
    fn rectangle(
        &mut self,
        tool: Tool,
        a: Point,
        b: Point,
        scene: &Scene<'_>,
        out: &mut Vec<Command>,
    ) {
        let rect = Rect::from_corners(a, b);
        if rect.width.min(rect.height) * scene.view.zoom() >= SHORTEST_STROKE {
            out.push(match tool {
                Tool::White => Command::MarkWhite(rect),
                Tool::Area(AreaTool::LeaveOut) => Command::LeaveOut(rect.to_polygon()),
                _ => Command::SetOutline(Outline::Rectangle(rect)),
            });
            self.marks_white = false;
            self.draft = Draft::Nothing;
        }
    }

    /// Takes back the last corner of a shape that is not finished; whether there was one.
    pub(crate) fn undo(&mut self) -> bool {
        if self.draft == Draft::Nothing {
            return false;
        }
        if let Draft::Polygon(corners) = &mut self.draft
            && corners.len() > 1
        {
            corners.pop();
        } else {
            self.draft = Draft::Nothing;
        }
        true
    }

    /// Whether there are corners enough for a polygon.
    pub(crate) fn can_close(&self) -> bool {
        matches!(&self.draft, Draft::Polygon(corners) if corners.len() >= 3)
    }

    /// Finishes a polygon.
    fn close(&mut self, tool: Tool, out: &mut Vec<Command>) {
        if let Draft::Polygon(corners) = std::mem::take(&mut self.draft) {
            let polygon = Polygon::new(corners);
            out.push(match tool {
                Tool::Area(AreaTool::LeaveOut) => Command::LeaveOut(polygon),
                Tool::Pores(_) => Command::Correct(Kind::Draw, polygon.vertices().to_vec()),
                _ => Command::SetOutline(Outline::Polygon(polygon)),
            });
        }
    }

    /// The rectangle or line under way, from where it was begun to the pointer.
    pub(crate) fn under_way(&self, response: &Response) -> Option<Point> {
        if let Draft::Rectangle(start) | Draft::Line(start) = self.draft {
            return Some(start);
        }
        response
            .dragged_by(PointerButton::Primary)
            .then_some(self.pressed)
            .flatten()
            .map(|press| press.on_photo)
    }
}
