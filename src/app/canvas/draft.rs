//! What is being drawn, up to the pointer or the crosshair.

use super::overlay::Pencil;
use super::scale;
use super::tools::{AreaTool, Draft, Drawing, PoreTool, Tool};
use crate::app::theme::on_photo;
use crate::corrections::Kind;
use crate::geometry::Rect;
use crate::session::{Document, End, Placed};
use egui::{Color32, PointerButton, Response};

/// Paints it; `aim` is where the next point would be set.
pub(super) fn paint(
    pencil: &Pencil<'_>,
    document: &Document,
    drawing: &Drawing,
    tool: Tool,
    response: &Response,
    aim: Option<Placed>,
    accent: Color32,
) {
    let next = aim.map(|aim| aim.at);
    match (tool, &drawing.draft) {
        (Tool::Area(_), Draft::Polygon(corners)) => {
            let mut path = corners.clone();
            path.extend(next);
            pencil.line(&path, on_photo::AREA, false);
            for &corner in corners {
                pencil.corner(corner);
            }
        }
        (Tool::Area(AreaTool::Freehand), _) if response.dragged_by(PointerButton::Primary) => {
            let mut way: Vec<_> = drawing.under_way(response).into_iter().collect();
            way.extend(&drawing.trail);
            way.extend(next);
            pencil.line(&way, on_photo::AREA, false);
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
    if let (Tool::ScaleEnd(_), Some(aim)) = (tool, aim) {
        scale::end(pencil, aim, on_photo::SCALE);
    }
    if let Some(place) = drawing.crosshair {
        pencil.target(place, accent);
    }
}
