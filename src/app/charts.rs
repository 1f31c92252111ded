//! Charts and table of the pores. What is pressed in them is selected on the photo, and the other way
//! round.

use super::Wish;
use super::theme::{self, palette};
use crate::session::{
    Command, Distribution, Measure, Network, NetworkPart, Order, Results, Session, Web,
};
use crate::wording::{self, text};
use egui::{
    Align2, CollapsingHeader, Color32, ColorImage, EventFilter, FontId, Id, Key, Label, Rect,
    Response, ScrollArea, Sense, Shape, Stroke, TextureHandle, TextureOptions, Ui, Vec2,
    WidgetInfo, pos2, vec2,
};
use std::sync::Arc;

/// Height of bars, points.
const BARS: f32 = 84.0;
/// Height of the words below them, points.
const EDGES: f32 = 22.0;
/// Radius of the rose, points.
const ROSE: f32 = 62.0;
/// Height of a row of the table, and of the table, points.
const ROW: f32 = 24.0;
const TABLE: f32 = 216.0;

/// One bar, or one sector of the rose.
struct Class<'a> {
    height: f32,
    count: usize,
    says: String,
    members: &'a [usize],
}

impl Class<'_> {
    /// How many of it are selected, as a share.
    fn selected(&self, session: &Session) -> f32 {
        let selected = session.selected();
        let count = self
            .members
            .iter()
            .filter(|at| selected.contains(at))
            .count();
        count as f32 / self.members.len().max(1) as f32
    }
}

/// All charts, and the table folded away.
pub(crate) fn show(ui: &mut Ui, session: &Session, results: &Results, out: &mut Vec<Wish>) {
    let distributions = &results.distributions;
    for one in &distributions.measures {
        heading(ui, &text!("measure-of-pores", measure = one.measure.name()));
        measure(ui, session, one, out);
    }
    if let Some(rose) = &distributions.rose {
        heading(ui, text!("which-way-pores-are-drawn-out"));
        let most = rose.members.iter().map(Vec::len).max().unwrap_or(1).max(1);
        let sectors: Vec<Class<'_>> = rose
            .members
            .iter()
            .enumerate()
            .map(|(sector, members)| Class {
                // Areas tell counts.
                height: (members.len() as f32 / most as f32).sqrt(),
                count: members.len(),
                says: rose.sector(sector),
                members,
            })
            .collect();
        sectors_ui(ui, session, &sectors, out);
        if rose.round > 0 {
            let text = text!("too-round-to-point-anywhere", count = rose.round);
            ui.add(Label::new(theme::quiet(ui, text)).wrap());
        }
    }
    if !distributions.counts.is_empty() {
        heading(ui, text!("pores-along-lines-of-1-mm"));
        counts(ui, &distributions.counts);
    }
    if !distributions.measures.is_empty() {
        let hint = text!("press-a-bar-to-select-its");
        ui.add(Label::new(theme::quiet(ui, hint)).wrap());
        CollapsingHeader::new(text!("table-of-pores"))
            .default_open(false)
            .show_unindented(ui, |ui| table(ui, session, results, out));
    }
}

fn heading(ui: &mut Ui, title: &str) {
    ui.add_space(8.0);
    ui.label(theme::bold(title));
}

fn measure(ui: &mut Ui, session: &Session, one: &Distribution, out: &mut Vec<Wish>) {
    let histogram = &one.histogram;
    let classes: Vec<Class<'_>> = (histogram.heights().zip(&one.members).enumerate())
        .map(|(class, (height, members))| Class {
            height,
            count: members.len(),
            says: one.class(class),
            members,
        })
        .collect();
    let last = histogram.counts.len();
    let edges = [
        histogram.edge(0),
        format!("{}{}", histogram.edge(last), one.measure.unit()),
    ];
    let name = text!(
        "histogram-of",
        measure = wording::mid_sentence(one.measure.name())
    );
    bars(ui, session, &name, &classes, &edges, out);
}

fn counts(ui: &mut Ui, counts: &[(usize, usize)]) {
    let most = counts
        .iter()
        .map(|(_, lines)| *lines)
        .max()
        .unwrap_or(1)
        .max(1);
    let all: usize = counts.iter().map(|(_, lines)| lines).sum();
    let size = vec2(ui.available_width(), BARS + EDGES);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let words: Vec<String> = counts
        .iter()
        .map(|(pores, lines)| text!("pores-on-lines", pores = pores, lines = lines))
        .collect();
    let words = text!("all-lines-of-1-mm", all = all, counts = words.join(", "));
    response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, &words));
    let width = rect.width() / counts.len() as f32;
    for (k, (pores, lines)) in counts.iter().enumerate() {
        let share = *lines as f32 / most as f32;
        let bar = bar(rect, width, k, share);
        ui.painter().rect_filled(bar, 1.0, palette(ui).accent);
        below(
            ui,
            pos2(bar.center().x, rect.top() + BARS),
            Align2::CENTER_TOP,
            &pores.to_string(),
        );
    }
    floor(ui, rect);
    response.on_hover_text(words);
}

fn bar(rect: Rect, width: f32, k: usize, height: f32) -> Rect {
    let left = rect.left() + width * k as f32;
    let ground = rect.top() + BARS;
    Rect::from_min_max(
        pos2(left + 0.75, ground - (BARS - 4.0) * height),
        pos2(left + width - 0.75, ground),
    )
}

fn floor(ui: &Ui, rect: Rect) {
    let line = Stroke::new(1.0, palette(ui).line);
    ui.painter().hline(rect.x_range(), rect.top() + BARS, line);
}

fn below(ui: &Ui, at: egui::Pos2, align: Align2, text: &str) {
    let font = FontId::proportional(theme::SMALL);
    ui.painter()
        .text(at + vec2(0.0, 4.0), align, text, font, palette(ui).quiet);
}

/// Bars that can be pressed.
fn bars(
    ui: &mut Ui,
    session: &Session,
    name: &str,
    classes: &[Class<'_>],
    edges: &[String; 2],
    out: &mut Vec<Wish>,
) {
    let size = vec2(ui.available_width(), BARS + EDGES);
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let width = rect.width() / classes.len().max(1) as f32;
    let under_pointer = response.hover_pos().map(|at| {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "the pointer is on the chart"
        )]
        let class = ((at.x - rect.left()) / width) as usize;
        class.min(classes.len() - 1)
    });
    let chosen = choose(ui, session, &response, name, classes, under_pointer, out);
    for (k, class) in classes.iter().enumerate() {
        let whole = bar(rect, width, k, class.height);
        let colour = palette(ui).accent;
        ui.painter().rect_filled(whole, 1.0, colour);
        let selected = class.selected(session);
        if selected > 0.0 {
            let top = whole.bottom() - whole.height() * selected;
            paint_selected(ui, whole.with_min_y(top));
        }
        if chosen == Some(k) {
            let column = whole.with_min_y(rect.top());
            let line = Stroke::new(1.0, palette(ui).quiet);
            ui.painter()
                .rect_stroke(column, 1.0, line, egui::StrokeKind::Outside);
        }
    }
    floor(ui, rect);
    let ground = rect.top() + BARS;
    below(ui, pos2(rect.left(), ground), Align2::LEFT_TOP, &edges[0]);
    below(ui, pos2(rect.right(), ground), Align2::RIGHT_TOP, &edges[1]);
}

/// A darker block with a pale line about it: told apart without its colour.
fn paint_selected(ui: &Ui, block: Rect) {
    let palette = palette(ui);
    ui.painter().rect_filled(block, 0.0, palette.text);
    let line = Stroke::new(1.0, palette.panel);
    ui.painter()
        .rect_stroke(block, 0.0, line, egui::StrokeKind::Inside);
}

/// The class that the pointer or the arrow keys are at; pressing selects it.
fn choose(
    ui: &Ui,
    session: &Session,
    response: &Response,
    name: &str,
    classes: &[Class<'_>],
    under_pointer: Option<usize>,
    out: &mut Vec<Wish>,
) -> Option<usize> {
    let remembered = response.id.with("class");
    let mut at_key: usize = ui.data(|data| data.get_temp(remembered)).unwrap_or(0);
    at_key = at_key.min(classes.len().saturating_sub(1));
    if response.has_focus() {
        let arrows = EventFilter {
            horizontal_arrows: true,
            ..EventFilter::default()
        };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
        let (back, on) = ui.input(|i| {
            (
                i.key_pressed(Key::ArrowLeft),
                i.key_pressed(Key::ArrowRight),
            )
        });
        if back {
            at_key = at_key.saturating_sub(1);
        }
        if on {
            at_key = (at_key + 1).min(classes.len().saturating_sub(1));
        }
        ui.data_mut(|data| data.insert_temp(remembered, at_key));
    }
    let chosen = under_pointer.or(response.has_focus().then_some(at_key));
    let said = chosen.and_then(|at| classes.get(at));
    let label = said.map_or_else(
        || name.to_owned(),
        |class| {
            text!(
                "histogram-class-in-full",
                histogram = name,
                count = class.count,
                class = class.says
            )
        },
    );
    response.widget_info(|| WidgetInfo::labeled(egui::Role::Button, true, &label));
    if let Some(class) = said {
        if under_pointer.is_some() {
            response.show_tooltip_text(text!(
                "histogram-class",
                count = class.count,
                class = class.says
            ));
        }
        if response.clicked() {
            let adds = ui.input(|i| i.modifiers.command);
            let selected = session.toggled(class.members, adds);
            out.push(Wish::Do(Command::Select(selected)));
        }
    }
    chosen
}

/// A rose: each sector stands for both ends of the axes in it.
fn sectors_ui(ui: &mut Ui, session: &Session, sectors: &[Class<'_>], out: &mut Vec<Wish>) {
    let size = vec2(ui.available_width(), 2.0 * ROSE + 8.0);
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let centre = rect.center();
    let step = std::f32::consts::PI / sectors.len().max(1) as f32;
    let under_pointer = response.hover_pos().map(|at| at - centre).and_then(|away| {
        let angle = (-away.y).atan2(away.x).rem_euclid(std::f32::consts::PI);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "half a turn"
        )]
        let sector = (angle / step) as usize;
        (away.length() <= ROSE).then(|| sector.min(sectors.len() - 1))
    });
    let name = text!("rose-of-directions");
    let chosen = choose(ui, session, &response, name, sectors, under_pointer, out);
    let palette = palette(ui);
    let painter = ui.painter();
    painter.circle_stroke(centre, ROSE, Stroke::new(1.0, palette.line));
    for (k, sector) in sectors.iter().enumerate() {
        let selected = sector.selected(session);
        for half in [0.0, std::f32::consts::PI] {
            let from = k as f32 * step + half;
            let wedge = |radius: f32| wedge(centre, radius, from, step);
            let fill = |radius: f32, colour: Color32, line: Stroke| {
                painter.add(Shape::convex_polygon(wedge(radius), colour, line));
            };
            let edge = Stroke::new(1.0, palette.panel);
            fill(ROSE * sector.height, palette.accent, edge);
            if selected > 0.0 {
                fill(ROSE * sector.height * selected.sqrt(), palette.text, edge);
            }
            if chosen == Some(k) {
                let line = Stroke::new(1.0, palette.quiet);
                painter.add(Shape::closed_line(wedge(ROSE), line));
            }
        }
    }
}

fn wedge(centre: egui::Pos2, radius: f32, from: f32, step: f32) -> Vec<egui::Pos2> {
    let on = |share: f32| {
        let angle = from + step * share;
        centre + Vec2::new(angle.cos(), -angle.sin()) * radius
    };
    vec![centre, on(0.0), on(0.33), on(0.67), on(1.0)]
}

/// Pores row by row; a press selects one.
fn table(ui: &mut Ui, session: &Session, results: &Results, out: &mut Vec<Wish>) {
    let remembered = Id::unique("order of pores");
    let mut order: Order = ui
        .data(|data| data.get_temp(remembered))
        .unwrap_or_default();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        let columns = [None, Some(Measure::Diameter), Some(Measure::Elongation)];
        for column in columns {
            let text = order.title(column);
            if ui
                .add(theme::small_button(&text))
                .on_hover_text(text!("sorts-by-this"))
                .clicked()
            {
                order = order.pressed(column);
            }
        }
    });
    ui.data_mut(|data| data.insert_temp(remembered, order));
    let rows = results.distributions.in_order(order);
    let mut area = ScrollArea::vertical().id_salt("pores").max_height(TABLE);
    // What was selected elsewhere is brought into sight.
    let shown = Id::unique("selection shown in the table");
    let first = session.selected().first().copied();
    let was: Option<usize> = ui.data(|data| data.get_temp(shown)).flatten();
    if first != was {
        ui.data_mut(|data| data.insert_temp(shown, first));
        if let Some(row) = first.and_then(|first| rows.row_of(first)) {
            area = area.vertical_scroll_offset((row as f32 - 3.0).max(0.0) * ROW);
        }
    }
    ui.spacing_mut().item_spacing.y = 0.0;
    area.show_rows(ui, ROW, rows.len(), |ui, range| {
        for at in range.filter_map(|at| rows.pore(at)) {
            if let Some(line) = session.pore_line(at) {
                row(ui, session, at, &line, out);
            }
        }
    });
}

fn row(ui: &mut Ui, session: &Session, at: usize, line: &[String; 3], out: &mut Vec<Wish>) {
    let size = vec2(ui.available_width(), ROW);
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let is_selected = session.selected().contains(&at);
    let palette = palette(ui);
    if is_selected {
        ui.painter().rect_filled(rect, 2.0, palette.accent_soft);
        let mark = Rect::from_min_size(rect.min, vec2(3.0, ROW));
        ui.painter().rect_filled(mark, 0.0, palette.accent);
    } else if response.hovered() || session.pointed_at() == Some(at) {
        ui.painter().rect_filled(rect, 2.0, palette.button);
    }
    let third = rect.width() / 3.0;
    let font = FontId::proportional(theme::SMALL);
    for (k, text) in line.iter().enumerate() {
        let place = pos2(rect.left() + 8.0 + third * k as f32, rect.center().y);
        ui.painter()
            .text(place, Align2::LEFT_CENTER, text, font.clone(), palette.text);
    }
    let label = text!(
        "pore-in-the-table",
        number = line[0],
        diameter = line[1],
        elongation = line[2]
    );
    response.widget_info(|| WidgetInfo::selected(egui::Role::Button, true, is_selected, &label));
    if response.hovered() && session.pointed_at() != Some(at) {
        out.push(Wish::Do(Command::PointAt(Some(at))));
    }
    if response.clicked() {
        let adds = ui.input(|i| i.modifiers.command);
        out.push(Wish::Do(Command::Select(session.toggled(&[at], adds))));
        out.push(Wish::ShowPore(at));
    }
}

/// Hollows beside walls, each with its largest connected part in the strong colour.
pub(crate) fn network(ui: &mut Ui, network: &Arc<Network>) {
    let side = ((ui.available_width() - 12.0) / 2.0).min(132.0);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 12.0;
        for (name, web) in [
            (text!("hollows"), &network.hollows),
            (text!("walls"), &network.walls),
        ] {
            ui.vertical(|ui| {
                ui.label(theme::quiet(ui, name));
                picture(ui, name, network, web, side);
            });
        }
    });
    let words = text!("network-in-words", network = network.words());
    ui.add(Label::new(theme::quiet(ui, words)).wrap());
}

fn picture(ui: &mut Ui, name: &str, network: &Arc<Network>, web: &Web, side: f32) {
    let [width, height] = network.size;
    let tall = side * height as f32 / width as f32;
    let (rect, response) = ui.allocate_exact_size(vec2(side, tall), Sense::hover());
    response.widget_info(|| {
        let label = text!("network-picture", phase = name, network = network.words());
        WidgetInfo::labeled(egui::Role::Image, true, label)
    });
    let palette = palette(ui);
    let key = Id::unique(("network", name, ui.visuals().dark_mode));
    let known: Option<(Arc<Network>, TextureHandle)> = ui.data(|data| data.get_temp(key));
    let texture = match known {
        Some((of, texture)) if Arc::ptr_eq(&of, network) => texture,
        _ => {
            let colour = |part: &NetworkPart| match part {
                NetworkPart::Other => palette.field,
                NetworkPart::Largest => palette.accent,
                NetworkPart::Separate => palette.line,
            };
            let pixels = web.of_pixel.iter().map(colour).collect();
            let picture = ColorImage::new(network.size, pixels);
            let texture = ui.ctx().load_texture(name, picture, TextureOptions::LINEAR);
            ui.data_mut(|data| data.insert_temp(key, (Arc::clone(network), texture.clone())));
            texture
        }
    };
    let all = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
    let untinted = theme::on_photo::UNTINTED;
    ui.painter().image(texture.id(), rect, all, untinted);
    let line = Stroke::new(1.0, palette.line);
    ui.painter()
        .rect_stroke(rect, 0.0, line, egui::StrokeKind::Inside);
}
