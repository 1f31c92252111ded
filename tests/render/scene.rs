//! What surrounds a specimen on a photo: backdrop, sterile margin, crumbs, a card with the scale.

use super::camera::{Colour, Picture};
use super::outline::Point;
use super::packing::normal;
use super::plane::{Plane, mottling, smooth_noise};
use super::surface::{Margin, disc};
use ab_glyph::{FontRef, InvalidFont};
use image::{GrayImage, Luma};
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use std::f64::consts::TAU;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Backdrop {
    Bark,
    Cloth,
}

/// Rounds off the margin and lays the backdrop behind it, with the cap's shadow on it.
pub fn lay_backdrop(
    picture: &mut Picture,
    margin: &Margin,
    backdrop: Backdrop,
    rim: Colour,
    light_deg: f64,
    seed: u64,
) {
    let (width, height) = (picture.width(), picture.height());
    let behind = match backdrop {
        Backdrop::Bark => bark(width, height, seed),
        Backdrop::Cloth => cloth(width, height, seed),
    };
    let (sin, cos) = light_deg.to_radians().sin_cos();
    let felt = mottling(width, height, &[2.2, 5.0, 14.0], seed + 40);
    for index in 0..width * height {
        let p = [(index % width) as f64 + 0.5, (index / width) as f64 + 0.5];
        let inward = margin.inward(p);
        if inward > 1.6 * margin.sterile_px {
            continue;
        }
        // How much the rim faces the light: its outward direction against the light's way.
        let outward = [p[0] - margin.centre[0], p[1] - margin.centre[1]];
        let distance = outward[0].hypot(outward[1]);
        let facing = -(outward[0] * cos + outward[1] * sin) / distance;
        let roll = (1.0 - inward / (0.75 * margin.sterile_px)).clamp(0.0, 1.0);
        let pale = (1.0 - inward / (1.2 * margin.sterile_px)).clamp(0.0, 1.0) as f32;
        picture.lay(index, rim, 0.7 * pale);
        let texture = 1.0 + 0.05 * pale * felt.values[index];
        picture.scale(
            index,
            texture * (1.0 + (0.3 * facing - 0.25) * roll * roll) as f32,
        );

        let off = (0.5 - inward / 1.6).clamp(0.0, 1.0) as f32;
        if off > 0.0 {
            let shade = |reach: f64| {
                let from = margin.inward([p[0] - reach * cos, p[1] - reach * sin]);
                (0.5 + from / (0.6 * reach)).clamp(0.0, 1.0)
            };
            let contact = (-(-inward).max(0.0) / 14.0).exp();
            let light = (1.0 - 0.35 * contact) * (1.0 - 0.6 * shade(45.0));
            let colour = behind
                .channels
                .each_ref()
                .map(|c| c.values[index] * light as f32);
            picture.lay(index, colour, off);
        }
    }
}

/// Furrowed bark, a little out of focus.
fn bark(width: usize, height: usize, seed: u64) -> Picture {
    let plates = Plane::from_fn(width, height, |x, y| {
        let (x, y) = (x as f64, y as f64);
        let noise = |across: f64, down: f64, k: u64| smooth_noise(across, down, seed + k);
        let bend = 70.0 * noise(x / 240.0, y / 240.0, 0) + 14.0 * noise(x / 50.0, y / 50.0, 4);
        let (u, v) = (x + bend, y + 0.5 * bend);
        // Furrows where the noise changes sign, long upright and short across.
        let furrow = |n: f64, width: f64| 1.0 - (-(n / width).powi(2)).exp();
        let deep = furrow(noise(u / 90.0, v / 480.0, 1), 0.16);
        let fine = furrow(noise(u / 34.0, v / 210.0, 2), 0.1);
        let flakes = 0.25 * noise(u / 22.0, v / 80.0, 3)
            + 0.22 * noise(u / 8.0, v / 16.0, 5)
            + 0.16 * noise(x / 4.0, y / 5.0, 6);
        (0.1 + 0.9 * deep * (0.6 + 0.4 * fine) * (0.75 + flakes)) as f32
    })
    .blurred(1.6);
    let relief = plates.blurred(2.0).slope(30.0);
    let lichen = mottling(width, height, &[110.0, 45.0, 16.0, 7.0], seed + 7);
    Picture::from_fn(width, height, |x, y| {
        let index = y * width + x;
        let light = (1.0 + 5.0 * relief.values[index]).clamp(0.4, 1.7);
        let value = 0.17 * plates.values[index] * light;
        let grown = ((lichen.values[index] - 1.25) * 2.0).clamp(0.0, 0.75) * plates.values[index];
        let brown = [1.2, 0.93, 0.68].map(|c| c * value);
        let grey = [0.9, 1.0, 0.8].map(|c| c * (0.05 + 1.3 * value));
        std::array::from_fn(|c| brown[c] + grown * (grey[c] - brown[c]))
    })
}

/// Plain-woven cloth, slightly out of focus.
fn cloth(width: usize, height: usize, seed: u64) -> Picture {
    const THREAD_PX: f64 = 9.0;
    let weave = Plane::from_fn(width, height, |x, y| {
        let (x, y) = (x as f64, y as f64);
        let u = x + 0.12 * y + 5.0 * smooth_noise(x / 160.0, y / 160.0, seed);
        let v = y - 0.12 * x + 5.0 * smooth_noise(x / 160.0, y / 160.0, seed + 1);
        let (column, row) = ((u / THREAD_PX).floor(), (v / THREAD_PX).floor());
        let over = (column + row).rem_euclid(2.0) < 1.0;
        let bow = |t: f64| (std::f64::consts::PI * t.rem_euclid(1.0)).sin();
        let (across, along) = if over { (u, v) } else { (v, u) };
        let thread = 0.35 + 0.65 * bow(across / THREAD_PX) * (0.55 + 0.45 * bow(along / THREAD_PX));
        let own = smooth_noise(column * 0.9, if over { 0.0 } else { row * 0.9 }, seed + 2);
        (thread * (1.0 + 0.25 * own)) as f32
    })
    .blurred(1.3);
    let folds = mottling(width, height, &[420.0, 200.0], seed + 3);
    Picture::from_fn(width, height, |x, y| {
        let index = y * width + x;
        let value = weave.values[index] * (1.0 + 0.16 * folds.values[index]).max(0.3);
        [0.075 * value, 0.115 * value, 0.125 * value]
    })
}

/// Strews crumbs of soil and pale fibres over a picture.
pub fn strew(picture: &mut Picture, crumbs: usize, fibres: usize, light_deg: f64, seed: u64) {
    let mut random = Pcg64Mcg::seed_from_u64(seed);
    let (width, height) = (picture.width() as f64, picture.height() as f64);
    let (sin, cos) = light_deg.to_radians().sin_cos();
    for _ in 0..crumbs {
        let at = [
            random.random::<f64>() * width,
            random.random::<f64>() * height,
        ];
        let radius = 1.3 + 4.5 * random.random::<f64>().powi(4);
        let brown = 0.02 + 0.06 * random.random::<f32>();
        let shadow = [at[0] + radius * 0.8 * cos, at[1] + radius * 0.8 * sin];
        for (index, share) in disc(&picture.channels[0], shadow, radius) {
            picture.scale(index, 1.0 - 0.35 * share as f32);
        }
        for _ in 0..4 {
            let part = [0, 1].map(|axis| at[axis] + 0.45 * radius * normal(&mut random));
            let shade = brown * (0.7 + 0.7 * random.random::<f32>());
            for (index, share) in disc(&picture.channels[0], part, 0.62 * radius) {
                picture.lay(index, [1.3 * shade, shade, 0.7 * shade], share as f32);
            }
        }
    }
    for _ in 0..fibres {
        let mut at = [
            random.random::<f64>() * width,
            random.random::<f64>() * height,
        ];
        let mut heading = TAU * random.random::<f64>();
        let mut bend = 0.0;
        for _ in 0..(50.0 + 110.0 * random.random::<f64>()) as usize {
            for (index, share) in disc(
                &picture.channels[0],
                [at[0] + 2.5 * cos, at[1] + 2.5 * sin],
                0.9,
            ) {
                picture.scale(index, 1.0 - 0.06 * share as f32);
            }
            for (index, share) in disc(&picture.channels[0], at, 0.45) {
                picture.lay(index, [0.62, 0.6, 0.55], 0.3 * share as f32);
            }
            bend = 0.95 * bend + 0.012 * normal(&mut random);
            heading += bend;
            at = [at[0] + heading.cos(), at[1] + heading.sin()];
        }
    }
}

/// A pale card in the plane of the surface that bears a bar of known length.
#[derive(Clone, Debug)]
pub struct Card {
    /// Middle of the card, px.
    pub centre: Point,
    pub length_mm: f64,
    pub label: String,
    /// How far the card is turned, clockwise on screen.
    pub angle_deg: f64,
}

/// Where a drawn bar ends: outer edges at mid height, px.
#[derive(Clone, Copy, Debug)]
pub struct BarEnds {
    pub left: Point,
    pub right: Point,
}

impl Card {
    /// Lays the card on the picture.
    pub fn lay(
        &self,
        picture: &mut Picture,
        px_per_mm: f64,
        light_deg: f64,
        font: &[u8],
    ) -> Result<BarEnds, InvalidFont> {
        /// The card is drawn this much finer and averaged.
        const FINER: i32 = 4;
        let bar = self.length_mm * px_per_mm;
        let (text_px, thick, pad) = (52.0, 12.0, 26.0);
        let (card_w, card_h) = (bar + 2.4 * pad, text_px + thick + 2.0 * pad);
        let font = FontRef::try_from_slice(font)?;
        let fine = f64::from(FINER);
        let mut print = GrayImage::from_pixel(
            (card_w * fine).ceil() as u32,
            (card_h * fine).ceil() as u32,
            Luma([0]),
        );
        let size = (text_px * fine) as f32;
        let (text_w, _) = imageproc::drawing::text_size(size, &font, &self.label);
        imageproc::drawing::draw_text_mut(
            &mut print,
            Luma([255]),
            ((card_w * fine - f64::from(text_w)) / 2.0) as i32,
            (0.55 * pad * fine) as i32,
            size,
            &font,
            &self.label,
        );

        let (sin, cos) = self.angle_deg.to_radians().sin_cos();
        let bar_y = card_h / 2.0 - pad - thick / 2.0;
        let card_point = |p: Point| {
            let (dx, dy) = (p[0] - self.centre[0], p[1] - self.centre[1]);
            [dx * cos + dy * sin, dy * cos - dx * sin]
        };
        // How much of a place is inside a box about the card's middle, with square corners.
        let within =
            |q: Point, half_w: f64, half_h: f64| q[0].abs() <= half_w && q[1].abs() <= half_h;
        let printed = |q: Point| {
            let in_bar = within([q[0], q[1] - bar_y], bar / 2.0, thick / 2.0);
            let column = ((q[0] + card_w / 2.0) * fine) as u32;
            let row = ((q[1] + card_h / 2.0) * fine) as u32;
            let text = print
                .get_pixel_checked(column, row)
                .map_or(0.0, |p| f32::from(p.0[0]) / 255.0);
            if in_bar { 1.0 } else { text }
        };
        let (light_sin, light_cos) = light_deg.to_radians().sin_cos();
        let paper = mottling(picture.width(), picture.height(), &[2.5, 6.0, 90.0], 321);
        let width = picture.width();
        for index in 0..width * picture.height() {
            let corner = [(index % width) as f64, (index / width) as f64];
            let middle = card_point([
                corner[0] + 0.5 - 5.0 * light_cos,
                corner[1] + 0.5 - 5.0 * light_sin,
            ]);
            let outside = [
                middle[0].abs() - card_w / 2.0,
                middle[1].abs() - card_h / 2.0,
            ];
            let shadow = (0.5 - outside[0].max(outside[1]) / 9.0).clamp(0.0, 1.0);
            if shadow <= 0.0 && outside[0].max(outside[1]) > 20.0 {
                continue;
            }
            picture.scale(index, (1.0 - 0.45 * shadow) as f32);
            let (mut on_card, mut ink) = (0.0_f32, 0.0_f32);
            for k in 0..FINER * FINER {
                let part = |k: i32| (f64::from(k) + 0.5) / fine;
                let q = card_point([corner[0] + part(k % FINER), corner[1] + part(k / FINER)]);
                if within(q, card_w / 2.0, card_h / 2.0) {
                    on_card += 1.0;
                    ink += printed(q);
                }
            }
            if on_card > 0.0 {
                let tone = 0.74 * (1.0 + 0.012 * paper.values[index]);
                let black = ink / on_card;
                let colour =
                    [1.0, 0.975, 0.91].map(|c: f32| c * tone * (1.0 - black) + 0.022 * black);
                picture.lay(index, colour, on_card / (FINER * FINER) as f32);
            }
        }
        let end = |side: f64| {
            let (x, y) = (side * bar / 2.0, bar_y);
            [
                self.centre[0] + x * cos - y * sin,
                self.centre[1] + x * sin + y * cos,
            ]
        };
        Ok(BarEnds {
            left: end(-1.0),
            right: end(1.0),
        })
    }
}
