//! The photo as textures: a small one of all of it, and full-size tiles of what is in view.

use super::view::View;
use crate::app::theme::on_photo;
use crate::geometry::{Point, Rect};
use crate::photo::Photo;
use crate::session::{Overview, Toning};
use egui::epaint::Vertex;
use egui::{
    Color32, ColorImage, Context, Mesh, Painter, Shape, TextureFilter, TextureHandle,
    TextureOptions,
};
use image::RgbImage;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Side of a tile, photo px.
const TILE: u32 = 1024;
/// Tiles share this many pixels with their neighbours, so that smoothing shows no seam.
const APRON: u32 = 1;
/// Tiles kept at most: 256 MiB of texture.
const MOST_TILES: usize = 64;
/// Tiles uploaded in one frame at most, so that panning does not stutter.
const UPLOADS_PER_FRAME: usize = 2;

const SMOOTH: TextureOptions = TextureOptions {
    mipmap_mode: Some(TextureFilter::Linear),
    ..TextureOptions::LINEAR
};

struct Tile {
    texture: TextureHandle,
    /// Where it lies on the photo, without its apron.
    covers: Rect,
    /// Where its texture lies on the photo, apron and all.
    holds: Rect,
    toning: Toning,
    last_seen: u64,
}

/// Textures of one photo.
#[derive(Default)]
pub(crate) struct Tiles {
    photo: Option<Arc<Photo>>,
    overview: Option<(TextureHandle, Toning)>,
    pieces: BTreeMap<(u32, u32), Tile>,
    frame: u64,
}

impl Tiles {
    /// Paints the part of the photo that is in view.
    pub(crate) fn paint(
        &mut self,
        painter: &Painter,
        photo: &Arc<Photo>,
        overview: &Overview,
        toning: Toning,
        (view, canvas): (&View, egui::Rect),
    ) {
        self.frame += 1;
        if !self.photo.as_ref().is_some_and(|p| Arc::ptr_eq(p, photo)) {
            *self = Self {
                photo: Some(Arc::clone(photo)),
                frame: self.frame,
                ..Self::default()
            };
        }
        let ctx = painter.ctx();
        let texture = self.overview_texture(ctx, overview, toning);
        let (width, height) = photo.rgb.dimensions();
        // Where the photo's size does not divide by the shrink, the overview reaches over the edge.
        let shrunk = overview.rgb.dimensions();
        let holds = whole(shrunk.0 * overview.shrink, shrunk.1 * overview.shrink);
        let visible = view.visible(canvas);
        let seen = whole(width, height).intersection(&visible);
        paint_patch(painter, &texture, seen, holds, view, canvas);

        let wanted = view.zoom() * f64::from(ctx.pixels_per_point());
        if overview.shrink > 1 && wanted > 1.0 / f64::from(overview.shrink) {
            self.paint_tiles(painter, &photo.rgb, seen, toning, (view, canvas));
        }
        self.forget_unseen();
    }

    /// All of the photo, small, in the tones that are wanted.
    fn overview_texture(
        &mut self,
        ctx: &Context,
        overview: &Overview,
        toning: Toning,
    ) -> TextureHandle {
        let contents = || {
            let (width, height) = overview.rgb.dimensions();
            cut(&overview.rgb, whole(width, height), toning)
        };
        let (texture, toned) = self.overview.get_or_insert_with(|| {
            let texture = ctx.load_texture("photo overview", contents(), SMOOTH);
            (texture, toning)
        });
        if *toned != toning {
            texture.set(contents(), SMOOTH);
            *toned = toning;
        }
        texture.clone()
    }

    /// Paints the tiles in view; one that is still to be loaded, or to be toned, waits its turn.
    fn paint_tiles(
        &mut self,
        painter: &Painter,
        photo: &RgbImage,
        seen: Rect,
        toning: Toning,
        (view, canvas): (&View, egui::Rect),
    ) {
        if seen.width <= 0.0 || seen.height <= 0.0 {
            return;
        }
        let (width, height) = photo.dimensions();
        let columns = tile_range(seen.x, seen.width, width);
        let rows = tile_range(seen.y, seen.height, height);
        let mut uploads = 0;
        for (column, row) in rows.flat_map(|row| columns.clone().map(move |column| (column, row))) {
            let known = self.pieces.get(&(column, row));
            let is_ready = known.is_some_and(|tile| tile.toning == toning);
            if !is_ready && uploads == UPLOADS_PER_FRAME {
                painter.ctx().request_repaint();
                if known.is_none() {
                    continue;
                }
            } else if !is_ready {
                uploads += 1;
                let tile = load(painter.ctx(), photo, (column, row), toning);
                self.pieces.insert((column, row), tile);
            }
            let Some(tile) = self.pieces.get_mut(&(column, row)) else {
                continue;
            };
            tile.last_seen = self.frame;
            let part = tile.covers.intersection(&seen);
            paint_patch(painter, &tile.texture, part, tile.holds, view, canvas);
        }
    }

    /// Drops the tiles unseen for longest, never one that is in view.
    fn forget_unseen(&mut self) {
        while self.pieces.len() > MOST_TILES {
            let oldest = self
                .pieces
                .iter()
                .min_by_key(|(_, tile)| tile.last_seen)
                .filter(|(_, tile)| tile.last_seen < self.frame)
                .map(|(&place, _)| place);
            let Some(place) = oldest else { break };
            self.pieces.remove(&place);
        }
    }
}

/// Indices of the tiles that a stretch of the photo touches.
fn tile_range(start: f64, length: f64, side: u32) -> std::ops::Range<u32> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "the stretch lies on the photo"
    )]
    let index = |at: f64| at.max(0.0) as u32;
    let end = index((start + length).ceil()).min(side);
    index(start) / TILE..end.div_ceil(TILE)
}

fn load(ctx: &Context, photo: &RgbImage, (column, row): (u32, u32), toning: Toning) -> Tile {
    let (width, height) = photo.dimensions();
    let (x, y) = (column * TILE, row * TILE);
    let (right, bottom) = ((x + TILE).min(width), (y + TILE).min(height));
    let span = |x0: u32, y0: u32, x1: u32, y1: u32| Rect {
        x: f64::from(x0),
        y: f64::from(y0),
        width: f64::from(x1 - x0),
        height: f64::from(y1 - y0),
    };
    let holds = span(
        x.saturating_sub(APRON),
        y.saturating_sub(APRON),
        (right + APRON).min(width),
        (bottom + APRON).min(height),
    );
    Tile {
        texture: ctx.load_texture(
            format!("photo tile {column} {row}"),
            cut(photo, holds, toning),
            SMOOTH,
        ),
        covers: span(x, y, right, bottom),
        holds,
        toning,
        last_seen: 0,
    }
}

/// A rectangle of whole pixels as a texture's contents, in the tones that are wanted.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "whole numbers on the photo"
)]
fn cut(photo: &RgbImage, part: Rect, toning: Toning) -> ColorImage {
    let (x, y) = (part.x as usize, part.y as usize);
    let (width, height) = (part.width as usize, part.height as usize);
    let stride = photo.width() as usize * 3;
    let table = toning.table();
    let mut pixels = Vec::with_capacity(width * height);
    // All in one pass: while brightness is being changed this is done in every frame.
    for row in photo.as_raw().chunks_exact(stride).skip(y).take(height) {
        let row = row[x * 3..(x + width) * 3].as_chunks::<3>().0;
        pixels.extend(row.iter().map(|rgb| {
            let [red, green, blue] = rgb.map(|sample| table[usize::from(sample)]);
            Color32::from_rgb(red, green, blue)
        }));
    }
    ColorImage::new([width, height], pixels)
}

fn whole(width: u32, height: u32) -> Rect {
    Rect {
        x: 0.0,
        y: 0.0,
        width: f64::from(width),
        height: f64::from(height),
    }
}

/// Paints `part` of the photo out of a texture that holds `holds` of it.
fn paint_patch(
    painter: &Painter,
    texture: &TextureHandle,
    part: Rect,
    holds: Rect,
    view: &View,
    canvas: egui::Rect,
) {
    if part.width <= 0.0 || part.height <= 0.0 {
        return;
    }
    #[expect(clippy::cast_possible_truncation, reason = "texture places are f32")]
    let on_texture = |x: f64, y: f64| {
        egui::pos2(
            ((x - holds.x) / holds.width) as f32,
            ((y - holds.y) / holds.height) as f32,
        )
    };
    let (right, bottom) = (part.x + part.width, part.y + part.height);
    let mut mesh = Mesh::with_texture(texture.id());
    for (x, y) in [
        (part.x, part.y),
        (right, part.y),
        (right, bottom),
        (part.x, bottom),
    ] {
        mesh.vertices.push(Vertex {
            pos: view.screen_from_image(Point::new(x, y), canvas),
            uv: on_texture(x, y),
            color: on_photo::UNTINTED,
        });
    }
    mesh.add_triangle(0, 1, 2);
    mesh.add_triangle(0, 2, 3);
    painter.add(Shape::mesh(mesh));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stretch_of_the_photo_names_the_tiles_it_touches() {
        for (start, length, side, tiles) in [
            (0.0, 10.0, 3000, 0..1),
            (1000.0, 100.0, 3000, 0..2),
            (1024.0, 1024.0, 3000, 1..2),
            (2500.0, 500.0, 3000, 2..3),
        ] {
            assert_eq!(tile_range(start, length, side), tiles, "{start} {length}");
        }
    }

    #[test]
    fn a_cut_holds_the_pixels_of_its_place() {
        let photo = RgbImage::from_fn(7, 5, |x, y| {
            image::Rgb([
                u8::try_from(x).unwrap_or(0),
                u8::try_from(y).unwrap_or(0),
                9,
            ])
        });
        let part = Rect {
            x: 2.0,
            y: 1.0,
            width: 3.0,
            height: 2.0,
        };
        let image = cut(&photo, part, Toning::default());
        assert_eq!(image.size, [3, 2]);
        assert_eq!(image.pixels[0], Color32::from_rgb(2, 1, 9));
        assert_eq!(image.pixels[5], Color32::from_rgb(4, 2, 9));
        let toning = Toning {
            brightness: 70,
            contrast: 0,
        };
        let [two, one, nine] = [2, 1, 9].map(|sample: usize| toning.table()[sample]);
        let toned = cut(&photo, part, toning);
        assert_eq!(toned.pixels[0], Color32::from_rgb(two, one, nine));
    }
}
