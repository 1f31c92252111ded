//! The photo with all that is drawn on it.

mod bar;
mod colouring;
mod corners;
mod corrections;
mod divider;
mod draft;
mod handles;
mod hatch;
mod looks;
mod loupe;
mod overlay;
mod preview;
mod scale;
mod scale_bar;
mod scene;
mod shade;
mod tiles;
mod tools;
mod view;

pub(crate) use corrections::card;
pub(crate) use tools::{AreaTool, PoreTool};

use super::theme;
use crate::area::Outline;
use crate::geometry::{Point, Rect};
use crate::photo::Photo;
use crate::session::{Command, Measure, Overview, Results, Session, Step, file_name};
use crate::wording::text;
use egui::{
    Context, CursorIcon, Key, PointerButton, Response, Sense, Stroke, StrokeKind, Tooltip, Ui,
    WidgetInfo,
};
use handles::Grab;
pub(crate) use looks::Look;
use looks::{Looks, QUARTER};
use loupe::Loupe;
use overlay::Pencil;
use preview::Previewed;
use scene::Scene;
use std::sync::Arc;
use tiles::Tiles;
use tools::{Draft, Drawing, Tool};
use view::View;

/// Whoever presses one of these works by the keyboard.
const KEYS_OF_KEYBOARD_WORK: [Key; 5] = [
    Key::Tab,
    Key::ArrowLeft,
    Key::ArrowRight,
    Key::ArrowUp,
    Key::ArrowDown,
];

/// What the canvas remembers from frame to frame; none of it belongs to the document.
#[expect(clippy::struct_excessive_bools, reason = "each is a fact of its own")]
pub(crate) struct Canvas {
    view: View,
    looks: Looks,
    loupe: Loupe,
    tiles: Tiles,
    preview: Previewed,
    drawing: Drawing,
    grab: Option<Grab>,
    /// Whether a pore is pointed at by the pointer or crosshair here.
    points: bool,
    /// The correction at which its list points.
    pub(crate) correction: Option<usize>,
    /// Whether outlines are shown.
    pub(crate) shows_outlines: bool,
    /// Whether ends of the scale line are put on edges.
    pub(crate) snaps: bool,
    /// The measure that outlines are coloured by, or else whether they are counted.
    colour_by: Option<Measure>,
    /// Whether the person's last act was by the pointer.
    pub(crate) hand_on_pointer: bool,
    pointer: Option<Point>,
    by_keyboard: bool,
    /// The place to be brought into sight.
    to_reveal: Option<Point>,
    /// The place that was asked to be shown, framed until the person goes on.
    framed: Option<Rect>,
    /// The picture that was shown last, and the step.
    shown: Option<Arc<Photo>>,
    step: Option<Step>,
}

impl Default for Canvas {
    fn default() -> Self {
        Self {
            view: View::default(),
            looks: Looks::default(),
            loupe: Loupe::default(),
            tiles: Tiles::default(),
            preview: Previewed::default(),
            points: false,
            correction: None,
            drawing: Drawing::default(),
            grab: None,
            shows_outlines: true,
            snaps: true,
            colour_by: None,
            hand_on_pointer: false,
            pointer: None,
            by_keyboard: true,
            to_reveal: None,
            framed: None,
            shown: None,
            step: None,
        }
    }
}

impl Canvas {
    /// Shows the photo otherwise from now on.
    pub(crate) fn look(&mut self, look: Look) {
        match look {
            Look::Fit => self.view.fit(),
            Look::TurnRight => self.view.turn_to(self.view.turn_deg() + QUARTER),
            Look::TurnLeft => self.view.turn_to(self.view.turn_deg() - QUARTER),
            Look::Upright => self.view.turn_to(0.0),
            Look::Loupe => self.looks.loupe ^= true,
            Look::ScaleBar => self.looks.scale_bar ^= true,
            Look::Outlines => self.shows_outlines ^= true,
            Look::HalfWithout => {
                self.looks
                    .divide(self.looks.divider.is_none() || !self.shows_outlines);
                self.shows_outlines = true;
            }
        }
    }

    /// Forgets what belonged to the photo before.
    pub(crate) fn reset(&mut self) {
        *self = Self {
            shows_outlines: self.shows_outlines,
            snaps: self.snaps,
            looks: self.looks,
            colour_by: self.colour_by,
            ..Self::default()
        };
    }

    /// What is drawn in the Area step.
    pub(crate) const fn area_tool(&self) -> AreaTool {
        self.drawing.area_tool
    }

    /// Takes another tool; what was begun with the old one is dropped.
    pub(crate) fn take_area_tool(&mut self, tool: AreaTool) {
        self.drawing.area_tool = tool;
        self.drawing.draft = Draft::Nothing;
    }

    /// What is done to pores in the Pores step.
    pub(crate) const fn pore_tool(&self) -> PoreTool {
        self.drawing.pore_tool
    }

    /// Takes another tool; what was begun with the old one is dropped.
    pub(crate) fn take_pore_tool(&mut self, tool: PoreTool) {
        self.drawing.pore_tool = tool;
        self.drawing.draft = Draft::Nothing;
    }

    /// Whether the next rectangle in the Scale step marks something white.
    pub(crate) const fn is_marking_white(&self) -> bool {
        self.drawing.marks_white
    }

    /// Lets the next rectangle in the Scale step mark something white, by whatever the person works
    /// with.
    pub(crate) fn mark_white(&mut self, ctx: &Context) {
        self.drawing.marks_white = true;
        self.drawing.draft = Draft::Nothing;
        let by_keyboard = !self.hand_on_pointer;
        self.take_keyboard(ctx);
        self.by_keyboard = by_keyboard;
    }

    /// Puts that down again.
    pub(crate) fn stop_marking_white(&mut self) {
        if std::mem::take(&mut self.drawing.marks_white) {
            self.drawing.draft = Draft::Nothing;
        }
    }

    /// Whether the length of the scale line should be typed next; said once.
    pub(crate) fn takes_length_now(&mut self) -> bool {
        std::mem::take(&mut self.drawing.wants_length)
    }

    /// Takes back the last corner of a shape that is not finished; whether there was one.
    pub(crate) fn undo_drawing(&mut self) -> bool {
        self.drawing.undo()
    }

    /// Photo pixels along the side of a screen pixel.
    pub(crate) fn px_per_screen_px(&self, ctx: &Context) -> f64 {
        self.view.px_per_screen_px(ctx.pixels_per_point())
    }

    /// Gives the keyboard to the photo.
    pub(crate) fn take_keyboard(&mut self, ctx: &Context) {
        self.by_keyboard = true;
        ctx.memory_mut(|memory| memory.request_focus(id()));
    }

    /// Brings a place into sight.
    pub(crate) const fn reveal_next(&mut self, place: Point) {
        self.to_reveal = Some(place);
    }

    /// Zooms to a place and frames it.
    pub(crate) fn show_place(&mut self, place: Rect) {
        self.view.show(place);
        self.framed = Some(place);
    }

    /// The photo, its overlay, and whatever the step draws.
    pub(crate) fn show(
        &mut self,
        ui: &mut Ui,
        session: &Session,
        step: Step,
        photo: &Arc<Photo>,
        overview: &Overview,
        out: &mut Vec<Command>,
    ) {
        let document = session.document();
        let canvas = ui.available_rect_before_wrap();
        ui.allocate_rect(canvas, Sense::hover());
        let response = ui.interact(canvas, id(), Sense::click_and_drag());
        response.widget_info(|| {
            WidgetInfo::labeled(
                egui::Role::Image,
                true,
                label(session, photo, self.framed.is_some()),
            )
        });
        let extent = document.photo_rect();
        self.turn_to(photo);
        if self.step.replace(step) != Some(step) {
            self.drawing.draft = Draft::Nothing;
        }
        self.drawing.has_pores = has_pores(session);
        self.view.settle(canvas, extent);
        if let Some(place) = self.to_reveal.take() {
            self.view.reveal(place, canvas, extent);
        }

        let tool = Tool::at(step, document, &self.drawing);
        self.note_keyboard(ui, &response);
        let px_per_screen_px = self.px_per_screen_px(ui.ctx());
        let panning = self.navigate(ui, &response, tool, canvas, extent);
        let mut scene = Scene {
            document,
            view: &mut self.view,
            canvas,
            px_per_screen_px,
            by_keyboard: self.by_keyboard,
            snaps: self.snaps && !ui.input(|i| i.modifiers.alt),
        };
        let mut in_hand = None;
        if self.drawing.draft == Draft::Nothing && tool != Tool::White {
            in_hand = handles::interact(ui, &mut scene, step, &mut self.grab, out);
        }
        if !panning {
            self.drawing.interact(ui, &response, tool, &mut scene, out);
        }
        let next = next_place(&self.drawing, &response, &scene, self.pointer);
        let aim = next.map(|place| match tool {
            Tool::ScaleEnd(end) => scene.end(end, place),
            _ => scene.placed(place),
        });
        self.pick(ui, &response, session, tool, out);

        let painter = ui.painter_at(canvas);
        self.tiles.paint(
            &painter,
            photo,
            overview,
            self.looks.toning,
            (&self.view, canvas),
        );
        let view = self.view;
        let pencil = Pencil {
            painter: &painter,
            view: &view,
            canvas,
        };
        self.paint_over(ui, &pencil, session, step);
        if step == Step::Area && self.drawing.draft == Draft::Nothing {
            corners::between(ui, &pencil, &document.area, out);
        }
        let accent = theme::palette(ui).accent;
        draft::paint(
            &pencil,
            document,
            &self.drawing,
            tool,
            &response,
            aim,
            accent,
        );
        if response.clicked() || response.dragged() || session.outdated_area().is_some() {
            self.framed = None;
        }
        if let Some(place) = self.framed {
            pencil.frame(place);
        }
        if self.looks.scale_bar {
            scale_bar::show(ui, &pencil, session);
        }
        let in_loupe = in_hand.or(aim.map(|aim| aim.at).filter(|_| tool.sets_ends()));
        match in_loupe.filter(|_| self.looks.loupe) {
            Some(place) => self
                .loupe
                .paint(ui, &pencil, photo, place, self.looks.toning),
            None => self.loupe.forget(),
        }
        if response.has_focus() && self.by_keyboard {
            painter.rect_stroke(canvas, 0.0, Stroke::new(2.0, accent), StrokeKind::Inside);
        }
    }

    /// What lies over the photo: what is not measured, what was found, and what was set.
    fn paint_over(&mut self, ui: &Ui, pencil: &Pencil<'_>, session: &Session, step: Step) {
        let (document, canvas) = (session.document(), pencil.canvas);
        let divider = self.looks.divider.as_mut();
        let divider = divider.filter(|_| self.shows_outlines && has_outlines(session));
        let divider = divider.map(|share| {
            divider::interact(ui, canvas, share);
            *share
        });
        let mut right = canvas;
        right.min.x = divider.map_or(canvas.left(), |share| divider::place(share, canvas));
        let right = Pencil {
            painter: &pencil.painter.with_clip_rect(right),
            ..*pencil
        };
        shade::paint(
            right.painter,
            &document.measured_area(),
            document.photo_rect(),
            pencil.view,
            canvas,
        );
        self.paint_found(ui, &right, session, step);
        if let Some(share) = divider {
            divider::paint(pencil.painter, canvas, share);
        }
        paint_setting(pencil, session, step);
    }

    /// Outlines of what was found, what is picked out of it, and what was corrected.
    fn paint_found(&mut self, ui: &Ui, pencil: &Pencil<'_>, session: &Session, step: Step) {
        let Some(results) = session.results() else {
            return;
        };
        if session.outdated_area().is_some() || !self.shows_outlines {
            return;
        }
        if let Some((preview, least_wall)) = session.preview() {
            self.preview.paint(ui.ctx(), pencil, preview, least_wall);
        } else {
            self.preview.forget();
            overlay::outlines(pencil, results, self.colour_by);
            corrections::paint_picked(pencil, session);
        }
        if step == Step::Pores {
            corrections::paint(pencil, session, self.correction);
        }
    }

    /// Points at the pore under the pointer or the crosshair, selects by a click, and shows figures.
    fn pick(
        &mut self,
        ui: &Ui,
        response: &Response,
        session: &Session,
        tool: Tool,
        out: &mut Vec<Command>,
    ) {
        let works_on_pores = matches!(tool, Tool::Pores(_)) && self.shows_outlines;
        let place = self
            .drawing
            .crosshair
            .or(self.pointer)
            .filter(|_| works_on_pores);
        let pore = place.and_then(|place| session.pore_at(place));
        if (place.is_some() || self.points) && pore != session.pointed_at() {
            out.push(Command::PointAt(pore));
        }
        self.points = place.is_some();
        if let Some(place) = self.drawing.selects.take().filter(|_| works_on_pores) {
            let adds = std::mem::take(&mut self.drawing.adds_to_selection);
            let mut selected = session.selected().clone();
            if !adds {
                selected.clear();
            }
            if let Some(pore) = session.pore_at(place)
                && !selected.insert(pore)
            {
                // A second click takes it out again.
                selected.remove(&pore);
            }
            out.push(Command::Select(selected));
        }
        if tool == Tool::Pores(PoreTool::Select)
            && self.pointer.is_some()
            && !ui.input(|i| i.pointer.any_down())
            && let Some(figures) = pore.and_then(|pore| session.pore_card(pore))
        {
            let beside_pointer = Tooltip::for_widget(response).at_pointer();
            beside_pointer.show(|ui| card(ui, &figures));
        }
    }

    /// Where the photo is straightened, or shown as it was taken again, places are other places.
    fn turn_to(&mut self, photo: &Arc<Photo>) {
        let is_other = |shown: &Arc<Photo>| !Arc::ptr_eq(shown, photo);
        if self.shown.as_ref().is_some_and(is_other) {
            self.view.fit();
            self.drawing.draft = Draft::Nothing;
            self.drawing.crosshair = None;
            self.drawing.marks_white = false;
            self.grab = None;
            self.framed = None;
        }
        self.shown = Some(Arc::clone(photo));
    }

    /// A click gives the keyboard to the canvas too, but only who works by keys needs to see that.
    fn note_keyboard(&mut self, ui: &Ui, response: &Response) {
        if response.is_pointer_button_down_on() || response.clicked() {
            self.by_keyboard = false;
        } else if ui.input(|i| KEYS_OF_KEYBOARD_WORK.iter().any(|&key| i.key_pressed(key))) {
            self.by_keyboard = true;
        }
    }

    /// Zoom and pan; true while the pointer pans, so that nothing is drawn by it.
    fn navigate(
        &mut self,
        ui: &Ui,
        response: &Response,
        tool: Tool,
        canvas: egui::Rect,
        photo: Rect,
    ) -> bool {
        self.pointer = response
            .hover_pos()
            .map(|at| self.view.image_from_screen(at, canvas))
            .filter(|&at| photo.contains(at));
        if let Some(at) = ui.input(|i| i.pointer.hover_pos())
            && response.contains_pointer()
        {
            let (wheel, pinch) = ui.input(|i| (i.smooth_scroll_delta().y, i.zoom_delta()));
            let factor = f64::from(pinch) * (f64::from(wheel) / 240.0).exp();
            if (factor - 1.0).abs() > 1e-6 {
                self.view
                    .zoom_about(self.view.zoom() * factor, at, canvas, photo);
            }
        }
        let space = ui.input(|i| i.key_down(Key::Space));
        let pans = response.dragged_by(PointerButton::Middle)
            || response.dragged_by(PointerButton::Secondary)
            || (response.dragged_by(PointerButton::Primary) && (space || tool.only_clicks()));
        if pans {
            self.view.pan(response.drag_delta(), photo);
            ui.ctx().set_cursor_icon(CursorIcon::Grabbing);
        } else if response.hovered() {
            ui.ctx().set_cursor_icon(if tool == Tool::Hand || space {
                CursorIcon::Grab
            } else {
                CursorIcon::Crosshair
            });
        }
        pans
    }
}

/// Under which the canvas has the keyboard.
pub(crate) fn id() -> egui::Id {
    egui::Id::unique("photo canvas")
}

/// Whether there are outlines that can be corrected.
fn has_pores(session: &Session) -> bool {
    session.outdated_area().is_none() && session.results().is_some_and(Results::takes_corrections)
}

/// Whether anything was outlined.
pub(crate) fn has_outlines(session: &Session) -> bool {
    session
        .results()
        .is_some_and(|results| results.readout.outlines_any())
}

fn label(session: &Session, photo: &Photo, is_framed: bool) -> String {
    let name = match session.document().scale.flat {
        Some(_) => text!("photo-straightened", name = file_name(&photo.path)),
        None => file_name(&photo.path),
    };
    let label = match session.results() {
        Some(results) if session.outdated_area().is_none() => {
            text!(
                "photo-with-outlines",
                name = name,
                count = results.readout.outlined()
            )
        }
        _ => text!("photo-so-named", name = name),
    };
    if is_framed {
        text!("a-place-is-framed", photo = label)
    } else {
        label
    }
}

/// The scale line and the area as they are set.
fn paint_setting(pencil: &Pencil<'_>, session: &Session, step: Step) {
    let document = session.document();
    match &document.area.outline {
        Outline::WholePhoto => {}
        Outline::Rectangle(rect) => pencil.edge(&rect.to_polygon(), false),
        Outline::Polygon(polygon) => pencil.edge(polygon, false),
    }
    if step == Step::Area {
        for (number, (found, is_left_out)) in document.found().enumerate() {
            hatch::paint(pencil, found, number + 1, is_left_out);
        }
    }
    for part in &document.area.left_out {
        pencil.edge(&part.outline, true);
    }
    if step == Step::Area {
        for (_, place) in handles::of(document, step) {
            pencil.corner(place);
        }
    }
    if step == Step::Scale {
        scale::paint(pencil, session);
    }
}

/// The place for the next point: the crosshair's, or else the pointer's.
fn next_place(
    drawing: &Drawing,
    response: &Response,
    scene: &Scene<'_>,
    pointer: Option<Point>,
) -> Option<Point> {
    let pressed = response.interact_pointer_pos();
    let pointer = pressed
        .map(|at| scene.view.image_from_screen(at, scene.canvas))
        .or(pointer);
    drawing.crosshair.or(pointer)
}
