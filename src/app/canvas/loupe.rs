//! A round, enlarged view of the photo at the place that is being set.

use super::overlay::Pencil;
use super::view::View;
use crate::app::theme::{self, on_photo};
use crate::geometry::Point;
use crate::photo::Photo;
use crate::session::Toning;
use egui::epaint::Vertex;
use egui::{
    Color32, ColorImage, Mesh, Painter, Pos2, Rect, Shape, Stroke, TextureHandle, TextureOptions,
    Ui, pos2, vec2,
};
use std::f32::consts::TAU;
use std::sync::Arc;

/// Radius, points.
const RADIUS: f32 = 72.0;
/// From the place to the loupe's middle, to the side and up or down, points.
const OFF: f32 = 84.0;
/// Between the loupe and the canvas' edge, points.
const MARGIN: f32 = 4.0;
/// How many times larger than on the canvas the photo is seen.
const TIMES: f64 = 8.0;
/// Points per photo pixel, at most.
const MOST_ZOOM: f64 = 40.0;
/// From here on pixels are so large on the canvas that a loupe tells nothing more.
const NEEDLESS_FROM: f64 = 20.0;
/// Corners of the round.
const CORNERS: u16 = 64;
/// Half the gap in the middle of the cross hairs, points.
const GAP: f32 = 7.0;

/// The picture in the loupe, and of what it is.
#[derive(Default)]
pub(crate) struct Loupe {
    of: Option<(Arc<Photo>, View, Toning)>,
    texture: Option<TextureHandle>,
}

impl Loupe {
    /// Paints the photo about a place, without smoothing, beside where the place is on the screen.
    pub(crate) fn paint(
        &mut self,
        ui: &Ui,
        pencil: &Pencil<'_>,
        photo: &Arc<Photo>,
        place: Point,
        toning: Toning,
    ) {
        let (painter, view, canvas) = (pencil.painter, pencil.view, pencil.canvas);
        let beyond = theme::palette(ui).canvas;
        let at = view.screen_from_image(place, canvas);
        let Some(middle) = middle(at, canvas) else {
            return;
        };
        if view.zoom() >= NEEDLESS_FROM || !canvas.contains(at) {
            return;
        }
        let near = view.about(place, (TIMES * view.zoom()).min(MOST_ZOOM));
        let is_shown = self.of.as_ref().is_some_and(|(shown, seen, toned)| {
            Arc::ptr_eq(shown, photo) && (*seen, *toned) == (near, toning)
        });
        if !is_shown {
            let picture = picture(
                photo,
                &near,
                toning,
                beyond,
                painter.ctx().pixels_per_point(),
            );
            let options = TextureOptions::NEAREST;
            if let Some(texture) = &mut self.texture {
                texture.set(picture, options);
            } else {
                self.texture = Some(painter.ctx().load_texture("loupe", picture, options));
            }
            self.of = Some((Arc::clone(photo), near, toning));
        }
        if let Some(texture) = &self.texture {
            painter.circle_filled(middle, RADIUS + 3.0, on_photo::CASING);
            painter.add(Shape::mesh(round(texture, middle)));
            painter.circle_stroke(middle, RADIUS, Stroke::new(2.0, on_photo::AREA));
            hairs(painter, middle);
        }
    }

    /// Forgets its picture, once nothing is set any more.
    pub(crate) fn forget(&mut self) {
        *self = Self::default();
    }
}

/// Where the loupe's middle goes: beside the place, up and to the right of it where there is room;
/// `None` where there is none on any side.
fn middle(at: Pos2, canvas: Rect) -> Option<Pos2> {
    let room = canvas.shrink(RADIUS + MARGIN);
    [(1.0, -1.0), (-1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
        .map(|(right, down)| at + vec2(right * OFF, down * OFF))
        .into_iter()
        .find(|middle| room.contains(*middle))
}

/// What is seen, a texel per pixel of the screen.
fn picture(
    photo: &Photo,
    near: &View,
    toning: Toning,
    beyond: Color32,
    pixels_per_point: f32,
) -> ColorImage {
    let table = toning.table();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a size on the screen"
    )]
    let side = (2.0 * RADIUS * pixels_per_point).round().max(1.0) as u16;
    let all = Rect::from_min_size(pos2(0.0, 0.0), vec2(2.0 * RADIUS, 2.0 * RADIUS));
    let texel = 2.0 * RADIUS / f32::from(side);
    let first = near.image_from_screen(pos2(texel / 2.0, texel / 2.0), all);
    let (right, down) = (
        near.photo_way(vec2(texel, 0.0)),
        near.photo_way(vec2(0.0, texel)),
    );
    let bounds = photo.bounds();
    let pixels =
        (0..side).flat_map(|row| (0..side).map(move |column| (f64::from(column), f64::from(row))));
    let pixels = pixels.map(|(column, row)| {
        let place = Point::new(
            first.x + column * right.x + row * down.x,
            first.y + column * right.y + row * down.y,
        );
        if !bounds.contains(place) {
            return beyond;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "held within the photo"
        )]
        let pixel = photo.rgb.get_pixel(place.x as u32, place.y as u32);
        let [red, green, blue] = pixel.0.map(|sample| table[usize::from(sample)]);
        Color32::from_rgb(red, green, blue)
    });
    ColorImage::new([usize::from(side); 2], pixels.collect())
}

/// The texture cut to a round.
fn round(texture: &TextureHandle, middle: Pos2) -> Mesh {
    let mut mesh = Mesh::with_texture(texture.id());
    let mut corner = |way: egui::Vec2| {
        mesh.vertices.push(Vertex {
            pos: middle + way * RADIUS,
            uv: pos2(0.5, 0.5) + way * 0.5,
            color: on_photo::UNTINTED,
        });
    };
    corner(vec2(0.0, 0.0));
    for k in 0..CORNERS {
        corner(egui::Vec2::angled(TAU * f32::from(k) / f32::from(CORNERS)));
    }
    for k in 0..u32::from(CORNERS) {
        mesh.add_triangle(0, 1 + k, 1 + (k + 1) % u32::from(CORNERS));
    }
    mesh
}

/// Hairs that cross at the place, open in the middle so that it shows.
fn hairs(painter: &Painter, middle: Pos2) {
    for (width, colour) in [(3.0, on_photo::CASING), (1.2, on_photo::SCALE)] {
        let stroke = Stroke::new(width, colour);
        for way in [
            vec2(1.0, 0.0),
            vec2(-1.0, 0.0),
            vec2(0.0, 1.0),
            vec2(0.0, -1.0),
        ] {
            painter.line_segment([middle + way * GAP, middle + way * (RADIUS - 2.0)], stroke);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Rect as Part;
    use image::{Rgb, RgbImage};

    #[test]
    fn the_loupe_is_beside_the_place_and_never_off_the_canvas() {
        let canvas = Rect::from_min_size(pos2(300.0, 40.0), vec2(700.0, 500.0));
        for column in 0..=70_u16 {
            for row in 0..=50_u16 {
                let at = canvas.min + vec2(f32::from(column), f32::from(row)) * 10.0;
                let middle = middle(at, canvas).expect("room");
                assert!(canvas.shrink(RADIUS).contains(middle), "{at:?}");
                assert!(middle.distance(at) > RADIUS + 15.0, "{at:?} is covered");
            }
        }
        let tiny = Rect::from_min_size(pos2(0.0, 0.0), vec2(120.0, 500.0));
        assert_eq!(middle(tiny.center(), tiny), None);
    }

    #[test]
    fn it_shows_the_photos_own_pixels_with_the_place_in_the_middle() {
        let rgb = RgbImage::from_fn(64, 48, |x, y| {
            Rgb([
                u8::try_from(4 * x).unwrap_or(0),
                u8::try_from(5 * y).unwrap_or(0),
                7,
            ])
        });
        let photo = Photo::from_rgb("loupe.png", rgb.clone());
        let canvas = Rect::from_min_size(pos2(0.0, 0.0), vec2(616.0, 416.0));
        let mut view = View::default();
        view.settle(canvas, Part::of_size(64, 48));
        let place = Point::new(20.6, 30.2);
        let beyond = Color32::from_rgb(1, 2, 3);
        for degrees in [0.0, 90.0] {
            view.turn_to(degrees);
            let near = view.about(place, 8.0);
            let picture = picture(&photo, &near, Toning::default(), beyond, 1.0);
            let [side, _] = picture.size;
            let seen = |right: usize, down: usize| {
                let [red, green, ..] =
                    picture.pixels[(side / 2 + down) * side + side / 2 + right].to_array();
                [red, green]
            };
            let pixel = |x: u32, y: u32| [rgb.get_pixel(x, y).0[0], rgb.get_pixel(x, y).0[1]];
            assert_eq!(seen(0, 0), pixel(20, 30));
            // Eight points to the right: the next pixel; turned clockwise, that is the one above.
            let next = if degrees == 0.0 {
                pixel(21, 30)
            } else {
                pixel(20, 29)
            };
            assert_eq!(seen(8, 0), next, "{degrees}°");
        }
        let corner = picture(
            &photo,
            &view.about(Point::new(0.0, 0.0), 8.0),
            Toning::default(),
            beyond,
            1.0,
        );
        assert_eq!(corner.pixels[0], beyond);
    }
}
