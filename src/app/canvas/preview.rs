//! Outlines as they would run with walls taken otherwise, on the part of the photo in view.

use super::overlay::Pencil;
use super::view::View;
use crate::app::theme::on_photo;
use crate::corrections::LeastWall;
use crate::segmentation::Preview;
use egui::{Color32, ColorImage, Context, Mesh, Rect, Shape, TextureHandle, TextureOptions, pos2};
use std::sync::Arc;

/// The picture that was painted last, and of what.
#[derive(Default)]
pub(crate) struct Previewed {
    of: Option<(Arc<Preview>, LeastWall, View, Rect)>,
    texture: Option<TextureHandle>,
}

impl Previewed {
    /// Paints the outlines over the photo.
    pub(crate) fn paint(
        &mut self,
        ctx: &Context,
        pencil: &Pencil<'_>,
        preview: &Arc<Preview>,
        least_wall: LeastWall,
    ) {
        let (view, canvas) = (*pencil.view, pencil.canvas);
        let is_shown = self.of.as_ref().is_some_and(|(of, wall, from, on)| {
            Arc::ptr_eq(of, preview) && (*wall, *from, *on) == (least_wall, view, canvas)
        });
        if !is_shown {
            let picture = picture(preview, least_wall, &view, canvas, ctx.pixels_per_point());
            if let Some(texture) = &mut self.texture {
                texture.set(picture, TextureOptions::NEAREST);
            } else {
                let options = TextureOptions::NEAREST;
                self.texture = Some(ctx.load_texture("preview", picture, options));
            }
            self.of = Some((Arc::clone(preview), least_wall, view, canvas));
        }
        if let Some(texture) = &self.texture {
            let mut mesh = Mesh::with_texture(texture.id());
            let all = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
            mesh.add_rect_with_uv(canvas, all, on_photo::UNTINTED);
            pencil.painter.add(Shape::mesh(mesh));
        }
    }

    /// Forgets what was painted, once it is not shown any more.
    pub(crate) fn forget(&mut self) {
        *self = Self::default();
    }
}

fn picture(
    preview: &Preview,
    least_wall: LeastWall,
    view: &View,
    canvas: Rect,
    pixels_per_point: f32,
) -> ColorImage {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a size on the screen"
    )]
    let size = [canvas.width(), canvas.height()]
        .map(|side| (side * pixels_per_point).round().max(1.0) as usize);
    let [width, height] = size;
    let lines = preview.outlines(&preview.joined(least_wall), size, |x, y| {
        #[expect(clippy::cast_possible_truncation, reason = "the screen counts in f32")]
        let at = pos2(
            canvas.min.x + x as f32 / pixels_per_point,
            canvas.min.y + y as f32 / pixels_per_point,
        );
        view.image_from_screen(at, canvas)
    });
    let mut picture = ColorImage::filled(size, Color32::TRANSPARENT);
    for (pixel, _) in lines.iter().enumerate().filter(|(_, is_line)| **is_line) {
        let (x, y) = (pixel % width, pixel / width);
        for near_y in y.saturating_sub(1)..=(y + 1).min(height - 1) {
            for near_x in x.saturating_sub(1)..=(x + 1).min(width - 1) {
                let near = &mut picture.pixels[near_y * width + near_x];
                if *near == Color32::TRANSPARENT {
                    *near = on_photo::CASING;
                }
            }
        }
        picture.pixels[pixel] = on_photo::COUNTED;
    }
    picture
}
