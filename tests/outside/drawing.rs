//! Pictures drawn by formula, so that what is on them is known and not measured.

use super::support::rows;
use image::{Rgb, RgbImage};
use poreline::geometry::Point;
use poreline::photo::Photo;
use rand::RngExt as _;
use rand_pcg::Pcg64Mcg;
use std::f64::consts::{PI, TAU};

/// Linear light of walls and of voids.
const WALL: f64 = 0.62;
const VOID: f64 = 0.10;

/// A wall into which voids are cut.
pub struct Canvas {
    pub width: usize,
    pub height: usize,
    /// Share of each pixel that is void.
    pub void: Vec<f32>,
    /// Looks per pixel and axis when a void is cut.
    looks: u32,
}

impl Canvas {
    /// Pixels on an edge hold their share of the void.
    pub fn new(width: usize, height: usize) -> Self {
        Self {
            width,
            height,
            void: vec![0.0; width * height],
            looks: 6,
        }
    }

    /// Pixels are void or wall, as their centre is.
    pub fn of_whole_pixels(width: usize, height: usize) -> Self {
        Self {
            looks: 1,
            ..Self::new(width, height)
        }
    }

    /// A canvas whose pixels hold the share of void at their centre.
    pub fn from_fn(width: usize, height: usize, share: impl Fn(Point) -> f64) -> Self {
        let mut canvas = Self::new(width, height);
        for (pixel, void) in canvas.void.iter_mut().enumerate() {
            #[expect(clippy::cast_possible_truncation, reason = "a share")]
            let share = share(Point::new(centre(pixel % width), centre(pixel / width)))
                .clamp(0.0, 1.0) as f32;
            *void = share;
        }
        canvas
    }

    /// Cuts a shape, enlarged to `size` and turned by `angle`.
    pub fn cut(&mut self, shape: Shape, size: f64, at: Point, angle: f64) {
        let reach = size * shape.reach();
        let (sin, cos) = angle.sin_cos();
        let each = 1.0 / f64::from(self.looks);
        for y in pixels(at.y - reach, at.y + reach, self.height) {
            for x in pixels(at.x - reach, at.x + reach, self.width) {
                let inside = (0..self.looks * self.looks)
                    .filter(|look| {
                        let within = |look: u32| (f64::from(look) + 0.5) * each - 0.5;
                        let dx = centre(x) + within(look % self.looks) - at.x;
                        let dy = centre(y) + within(look / self.looks) - at.y;
                        shape.holds((cos * dx + sin * dy) / size, (cos * dy - sin * dx) / size)
                    })
                    .count();
                #[expect(clippy::cast_possible_truncation, reason = "a share")]
                let share = (inside as f64 * each * each) as f32;
                let void = &mut self.void[y * self.width + x];
                *void = (*void + share).min(1.0);
            }
        }
    }

    /// A square part of it, `side` px wide.
    pub fn part(&self, left: usize, top: usize, side: usize) -> Self {
        Self {
            void: (top..top + side)
                .flat_map(|y| &self.void[y * self.width + left..][..side])
                .copied()
                .collect(),
            ..Self::new(side, side)
        }
    }

    /// As a photo: light adds up linearly, and is encoded as sRGB.
    pub fn photo(&self) -> Photo {
        photo_of(self.width, self.height, |pixel| {
            WALL + f64::from(self.void[pixel]) * (VOID - WALL)
        })
    }
}

/// A photo of grey pixels of the given linear light.
pub fn photo_of(width: usize, height: usize, light: impl Fn(usize) -> f64) -> Photo {
    let side = |pixels: usize| u32::try_from(pixels).expect("small");
    let picture = RgbImage::from_fn(side(width), side(height), |x, y| {
        let pixel = y as usize * width + x as usize;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "0 to 255"
        )]
        let sample = (255.0 * srgb_encoded(light(pixel))).round() as u8;
        Rgb([sample; 3])
    });
    Photo::from_rgb("drawn.png", picture)
}

/// IEC 61966-2-1, 0..1 to 0..1.
fn srgb_encoded(linear: f64) -> f64 {
    if linear <= 0.003_130_8 {
        12.92 * linear
    } else {
        1.055 * linear.powf(1.0 / 2.4) - 0.055
    }
}

/// Place of a pixel's centre along one axis.
pub fn centre(pixel: usize) -> f64 {
    pixel as f64 + 0.5
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "pixel numbers"
)]
fn pixels(from: f64, to: f64, end: usize) -> std::ops::Range<usize> {
    (from.floor().max(0.0) as usize).min(end)..(to.ceil().max(0.0) as usize).min(end)
}

/// A shape of the tables of closed forms, at the size it has there, about its own middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    Disc,
    Ellipse,
    Square,
    Tromino,
}

impl Shape {
    /// Its name in `facts/shape_closed_forms.csv` or `facts/shape_nonconvex.csv`.
    const fn name(self) -> &'static str {
        match self {
            Self::Disc => "disk diameter 1",
            Self::Ellipse => "ellipse semi-axes 2,1",
            Self::Square => "unit square",
            Self::Tromino => "L tromino (3 unit squares)",
        }
    }

    /// A measure of it, by the column of those tables.
    pub fn fact(self, column: &str) -> f64 {
        [
            include_str!("facts/shape_closed_forms.csv"),
            include_str!("facts/shape_nonconvex.csv"),
        ]
        .into_iter()
        .flat_map(rows)
        .find(|row| row.text("shape") == self.name())
        .expect("the shape is in a table")
        .number(column)
    }

    fn holds(self, u: f64, v: f64) -> bool {
        match self {
            Self::Disc => u.hypot(v) < 0.5,
            Self::Ellipse => (u / 2.0).hypot(v) < 1.0,
            Self::Square => u.abs() < 0.5 && v.abs() < 0.5,
            Self::Tromino => u.abs() < 1.0 && v.abs() < 1.0 && !(u > 0.0 && v < 0.0),
        }
    }

    /// No part of it lies further from its middle.
    pub const fn reach(self) -> f64 {
        match self {
            Self::Disc => 0.5,
            Self::Ellipse => 2.0,
            Self::Square => 0.71,
            Self::Tromino => 1.42,
        }
    }
}

/// Places packed as closely as can be, `spacing` px from row neighbour to row neighbour, turned at
/// random and each moved by up to `jitter` spacings along either axis; they cover a picture and a
/// rim of two spacings about it.
pub fn packed(
    random: &mut Pcg64Mcg,
    width: usize,
    height: usize,
    spacing: f64,
    jitter: f64,
) -> Vec<Point> {
    let (sin, cos) = (TAU * random.random::<f64>()).sin_cos();
    let (w, h) = (width as f64, height as f64);
    #[expect(clippy::cast_possible_truncation, reason = "a number of rows")]
    let reach = (w.hypot(h) / 2.0 / spacing / 0.866 + 4.0) as i32;
    let mut places = Vec::new();
    for row in -reach..=reach {
        for column in -reach..=reach {
            let moved = |random: &mut Pcg64Mcg| jitter * (2.0 * random.random::<f64>() - 1.0);
            let u = f64::from(column) + 0.5 * f64::from(row.rem_euclid(2)) + moved(random);
            let v = f64::from(row) * (PI / 3.0).sin() + moved(random);
            let place = Point::new(
                w / 2.0 + spacing * (cos * u - sin * v),
                h / 2.0 + spacing * (sin * u + cos * v),
            );
            let rim = 2.0 * spacing;
            if place.x > -rim && place.x < w + rim && place.y > -rim && place.y < h + rim {
                places.push(place);
            }
        }
    }
    places
}

/// A mean and its standard error, from independent values.
pub fn mean_and_error(values: &[f64]) -> (f64, f64) {
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let squares: f64 = values.iter().map(|v| (v - mean).powi(2)).sum();
    (mean, (squares / (n - 1.0) / n).sqrt())
}
