//! The photo with all that is drawn on it.

mod colouring;
mod corrections;
mod handles;
mod hatch;
mod overlay;
mod preview;
mod scale;
mod shade;
mod tiles;
mod tools;
mod view;

pub(crate) use corrections::card;
pub(crate) use tools::{AreaTool, PoreTool};

use super::theme::{self, on_photo};
use crate::area::Outline;
use crate::corrections::Kind;
use crate::geometry::{Point, Rect};
use crate::photo::Photo;
use crate::session::{
    Command, Document, End, Measure, Overview, Placed, Results, Session, Step, file_name,
};
use egui::{
    Align, Context, CursorIcon, Key, Layout, PointerButton, Response, Sense, Stroke, StrokeKind,
    Tooltip, Ui, WidgetInfo,
};
use handles::Grab;
use overlay::Pencil;
use preview::Previewed;
use std::sync::Arc;
use tiles::Tiles;
use tools::{Draft, Drawing, Tool};
use view::View;

/// Zoom factor of one press of a zoom button.
const ZOOM_STEP: f64 = 1.5;

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

/// The document as it is in view.
struct Scene<'a> {
    document: &'a Document,
    view: &'a mut View,
    canvas: egui::Rect,
    px_per_screen_px: f64,
    by_keyboard: bool,
}

impl Scene<'_> {
    /// Whether a place on the screen lies on the photo.
    fn is_on_photo(&self, at: egui::Pos2) -> bool {
        let photo = self.document.photo_rect();
        photo.contains(self.view.image_from_screen(at, self.canvas))
    }

    /// A place as closely set as the photo is shown.
    fn placed(&self, at: Point) -> Placed {
        Placed {
            at,
            px_per_screen_px: self.px_per_screen_px,
        }
    }

    /// The place of the photo at, or nearest to, a place on the screen.
    fn place_at(&self, at: egui::Pos2) -> Point {
        self.document
            .onto_photo(self.view.image_from_screen(at, self.canvas))
    }

    /// Brings a place into view; gives back the nearest one on the photo.
    fn reveal(&mut self, place: Point) -> Point {
        let place = self.document.onto_photo(place);
        self.view
            .reveal(place, self.canvas, self.document.photo_rect());
        place
    }
}

impl Default for Canvas {
    fn default() -> Self {
        Self {
            view: View::default(),
            tiles: Tiles::default(),
            preview: Previewed::default(),
            points: false,
            correction: None,
            drawing: Drawing::default(),
            grab: None,
            shows_outlines: true,
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
    /// Forgets what belonged to the photo before.
    pub(crate) fn reset(&mut self) {
        *self = Self {
            shows_outlines: self.shows_outlines,
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

    /// What stands under the photo: buttons, what to do, and where the pointer is.
    pub(crate) fn bar(&mut self, ui: &mut Ui, session: &Session, step: Step) {
        let has_photo = session.document().photo.is_some();
        let photo = session.document().photo_rect();
        ui.horizontal_wrapped(|ui| {
            ui.add_enabled_ui(has_photo, |ui| self.zoom_buttons(ui, photo));
            if session
                .results()
                .is_some_and(|results| results.readout.outlines_any())
            {
                ui.separator();
                ui.checkbox(&mut self.shows_outlines, "Show outlines")
                    .on_hover_text(
                        "Outlines of what was found: solid where counted, dashed where not",
                    );
                if let Some(results) = session.results() {
                    colouring::show(ui, &mut self.colour_by, results);
                }
            }
        });
        if !has_photo {
            return;
        }
        let tool = Tool::at(step, session.document(), &self.drawing);
        ui.add(egui::Label::new(theme::quiet(ui, tool.hint(&self.drawing.draft))).wrap());
        let place = self.drawing.crosshair.or(self.pointer);
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.set_height(16.0);
            let zoom = 1.0 / self.px_per_screen_px(ui.ctx());
            ui.label(theme::quiet(ui, format!("{:.0} %", zoom * 100.0)));
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                let place = place.map_or_else(String::new, |at| session.place_label(at));
                ui.label(theme::quiet(ui, place));
            });
        });
    }

    fn zoom_buttons(&mut self, ui: &mut Ui, photo: Rect) {
        let canvas = canvas_rect(ui);
        let about = canvas.center();
        let whole_pixel = 1.0 / f64::from(ui.ctx().pixels_per_point());
        let typing = ui.ctx().text_edit_focused();
        let key = |ui: &Ui, key| !typing && ui.is_enabled() && ui.input(|i| i.key_pressed(key));
        let press = |ui: &mut Ui, text: &str, name: &str, shortcut: Key| {
            let response = ui
                .add(egui::Button::new(text).min_size(egui::vec2(theme::PRESS_HEIGHT, 0.0)))
                .on_hover_text(format!("{name} ({})", shortcut.symbol_or_name()))
                .accessible_name(name);
            response.clicked() || key(ui, shortcut)
        };
        if press(ui, "−", "Zoom out", Key::Minus) {
            self.view
                .zoom_about(self.view.zoom() / ZOOM_STEP, about, canvas, photo);
        }
        if press(ui, "+", "Zoom in", Key::Plus) || key(ui, Key::Equals) {
            self.view
                .zoom_about(self.view.zoom() * ZOOM_STEP, about, canvas, photo);
        }
        if press(ui, "Fit", "Show all of the photo", Key::F) {
            self.view.fit();
        }
        if press(ui, "100 %", "One photo pixel per screen pixel", Key::Num0) {
            self.view.zoom_about(whole_pixel, about, canvas, photo);
        }
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
        response
            .widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, label(session, photo)));
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
        };
        if self.drawing.draft == Draft::Nothing && tool != Tool::White {
            handles::interact(ui, &mut scene, step, &mut self.grab, out);
        }
        if !panning {
            self.drawing.interact(ui, &response, tool, &mut scene, out);
        }
        self.pick(ui, &response, session, tool, out);

        let painter = ui.painter_at(canvas);
        self.tiles
            .paint(&painter, photo, overview, &self.view, canvas);
        let measured = document.measured_area();
        shade::paint(&painter, &measured, extent, &self.view, canvas);
        let view = self.view;
        let pencil = Pencil {
            painter: &painter,
            view: &view,
            canvas,
        };
        self.paint_found(ui, &pencil, session, step);
        paint_setting(&pencil, session, step);
        let accent = theme::palette(ui).accent;
        paint_draft(
            &pencil,
            document,
            &self.drawing,
            tool,
            &response,
            self.pointer,
            accent,
        );
        if response.clicked() || response.dragged() || session.outdated_area().is_some() {
            self.framed = None;
        }
        if let Some(place) = self.framed {
            pencil.frame(place);
        }
        if response.has_focus() && self.by_keyboard {
            painter.rect_stroke(canvas, 0.0, Stroke::new(2.0, accent), StrokeKind::Inside);
        }
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

/// Where the canvas was painted last.
fn canvas_rect(ui: &Ui) -> egui::Rect {
    ui.ctx()
        .read_response(id())
        .map_or(ui.max_rect(), |response| response.rect)
}

fn label(session: &Session, photo: &Photo) -> String {
    let name = match session.document().scale.flat {
        Some(_) => format!("{}, straightened", file_name(&photo.path)),
        None => file_name(&photo.path),
    };
    match session.results() {
        Some(results) if session.outdated_area().is_none() => {
            format!("Photo {name}, {} outlined", results.readout.outlined())
        }
        _ => format!("Photo {name}"),
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

/// What is being drawn, up to the pointer or the crosshair.
fn paint_draft(
    pencil: &Pencil<'_>,
    document: &Document,
    drawing: &Drawing,
    tool: Tool,
    response: &Response,
    pointer: Option<Point>,
    accent: egui::Color32,
) {
    let pointer = response
        .interact_pointer_pos()
        .map(|at| pencil.view.image_from_screen(at, pencil.canvas))
        .or(pointer);
    let next = drawing.crosshair.or(pointer);
    match (tool, &drawing.draft) {
        (Tool::Area(_), Draft::Polygon(corners)) => {
            let mut path = corners.clone();
            path.extend(next);
            pencil.line(&path, on_photo::AREA, false);
            for &corner in corners {
                pencil.corner(corner);
            }
        }
        (Tool::Area(tool @ (AreaTool::Rectangle | AreaTool::LeaveOut)), _) => {
            if let (Some(from), Some(to)) = (drawing.under_way(response), next) {
                let rect = Rect::from_corners(from, to).to_polygon();
                pencil.edge(&rect, tool == AreaTool::LeaveOut);
            }
        }
        (Tool::White, _) => {
            if let (Some(from), Some(to)) = (drawing.under_way(response), next) {
                pencil.edge(&Rect::from_corners(from, to).to_polygon(), false);
            }
        }
        (Tool::ScaleEnd(End::Second), _) => {
            if let (Some(from), Some(to)) = (document.scale.first, next) {
                pencil.line(&[from.at, to], on_photo::SCALE, false);
            }
        }
        (Tool::Pores(PoreTool::Correct(kind)), draft) => {
            let mut path = match draft {
                Draft::Polygon(corners) => corners.clone(),
                _ => drawing.under_way(response).into_iter().collect(),
            };
            if kind != Kind::Join && response.dragged_by(PointerButton::Primary) {
                path.extend(&drawing.trail);
            }
            path.extend(next.filter(|_| !path.is_empty()));
            if path.len() > 1 {
                pencil.line(&path, on_photo::BY_HAND, kind == Kind::Split);
            }
        }
        (Tool::Ruler, _) => {
            if let (Some(from), Some(to)) = (drawing.under_way(response), next) {
                pencil.line(&[from, to], on_photo::SCALE, true);
            }
        }
        (Tool::ScaleCorner(_), _) => {
            if let (Some(from), Some(to)) = (document.scale.corners.last(), next) {
                pencil.line(&[from.at, to], on_photo::SCALE, false);
            }
        }
        _ => {}
    }
    if let Some(place) = drawing.crosshair {
        pencil.target(place, accent);
    }
}
