//! What varies from photo to photo, and its range.

use crate::render::camera::{Camera, Colour, GREY, PALE, TAN, Tissue, VIOLET};
use crate::render::packing::Packing;
use crate::render::surface::{Kind, Surface};
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use std::fmt;

/// Colour of the tissue.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hue {
    Pale,
    Tan,
    Violet,
    Grey,
}

impl Hue {
    pub const ALL: [Self; 4] = [Self::Pale, Self::Tan, Self::Violet, Self::Grey];

    pub const fn name(self) -> &'static str {
        match self {
            Self::Pale => "pale",
            Self::Tan => "tan",
            Self::Violet => "violet",
            Self::Grey => "grey",
        }
    }

    const fn colour(self) -> Colour {
        match self {
            Self::Pale => PALE,
            Self::Tan => TAN,
            Self::Violet => VIOLET,
            Self::Grey => GREY,
        }
    }
}

/// From regular to irregular.
pub const PACKINGS: [Packing; 6] = [
    Packing::Lattice { jitter: 0.0 },
    Packing::Relaxed { steps: 8 },
    Packing::Relaxed { steps: 3 },
    Packing::Lattice { jitter: 0.08 },
    Packing::Relaxed { steps: 1 },
    Packing::Lattice { jitter: 0.17 },
];

pub fn packing_name(packing: Packing) -> String {
    match packing {
        Packing::Lattice { jitter } => format!("lattice ±{jitter}"),
        Packing::Relaxed { steps: 0 } => "strewn".to_owned(),
        Packing::Relaxed { steps } => format!("evened out {steps}×"),
    }
}

/// Everything that must not change what is measured.
#[derive(Clone, Debug)]
pub struct Nuisances {
    pub per_mm: f64,
    pub px_per_spacing: f64,
    pub wall_share: f64,
    /// Standard deviation of the blur, in spacings.
    pub blur: f64,
    /// Standard deviation of the noise, a share of full scale.
    pub noise: f64,
    /// How many times brighter the near end is than the far one.
    pub falloff: f64,
    pub hue: Hue,
    pub elongation: f64,
    pub packing: Packing,
    /// 0 angular, 1 round.
    pub rounding: f64,
    pub jpeg_quality: u8,
}

impl Default for Nuisances {
    fn default() -> Self {
        Self {
            per_mm: 4.0,
            px_per_spacing: 30.0,
            wall_share: 0.5,
            blur: 0.04,
            noise: 0.02,
            falloff: 1.5,
            hue: Hue::Pale,
            elongation: 1.0,
            packing: Packing::Relaxed { steps: 3 },
            rounding: 0.5,
            jpeg_quality: 90,
        }
    }
}

impl Nuisances {
    /// A surface of the given kind: 29 × 24 spacings, or 22 × 16 where they are many pixels wide.
    pub fn surface(&self, kind: Kind, seed: u64) -> Surface {
        let across = if self.px_per_spacing > 60.0 {
            [22.0, 16.0]
        } else {
            [29.0, 24.0]
        };
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a few thousand pixels"
        )]
        let [width_px, height_px] = across.map(|n: f64| (n * self.px_per_spacing).ceil() as usize);
        Surface {
            kind,
            width_px,
            height_px,
            px_per_mm: self.per_mm * self.px_per_spacing,
            spacing_px: self.px_per_spacing,
            wall_share: self.wall_share,
            packing: self.packing,
            rounding: self.rounding,
            elongation: self.elongation,
            direction_deg: turn(53, seed, 180),
            seed,
            ..Surface::default()
        }
    }

    pub fn tissue(&self, seed: u64) -> Tissue {
        Tissue {
            wall: self.hue.colour(),
            seed: seed + 1_000,
            ..Tissue::default()
        }
    }

    pub fn camera(&self, seed: u64) -> Camera {
        #[allow(clippy::cast_possible_truncation, reason = "a share")]
        let falloff = (1.0 / self.falloff) as f32;
        Camera {
            light_deg: turn(37, seed, 360),
            falloff,
            blur_px: self.blur * self.px_per_spacing,
            noise: self.noise,
            jpeg_quality: Some(self.jpeg_quality),
            seed: seed + 2_000,
            ..Camera::default()
        }
    }

    /// Combinations drawn from the whole range at once, each nuisance stratified over its own
    /// range so that none of it is left out (a Latin hypercube: Technometrics 21: 239–245, 1979).
    pub fn combinations(count: usize, seed: u64) -> Vec<Self> {
        let mut random = Pcg64Mcg::seed_from_u64(seed);
        let columns: [Vec<f64>; 11] = std::array::from_fn(|_| stratified(count, &mut random));
        let between = |low: f64, high: f64, share: f64| low + share * (high - low);
        (0..count)
            .map(|i| {
                let at = |column: usize| columns[column][i];
                Self {
                    per_mm: between(1.5, 8.0, at(0)),
                    // As many photos between 9 and 18 px as between 80 and 160.
                    px_per_spacing: 9.0 * (160.0_f64 / 9.0).powf(at(1)),
                    wall_share: between(0.25, 0.70, at(2)),
                    blur: between(0.0, 0.13, at(3)),
                    noise: between(0.0, 0.06, at(4)),
                    falloff: between(1.0, 3.0, at(5)),
                    hue: one_of(&Hue::ALL, at(6)),
                    elongation: between(1.0, 3.0, at(7)),
                    packing: one_of(&PACKINGS, at(8)),
                    rounding: at(9),
                    jpeg_quality: one_of(&[75, 80, 85, 90, 95], at(10)),
                }
            })
            .collect()
    }
}

/// One random number from each of `count` equal parts of 0 to 1, in random order.
fn stratified(count: usize, random: &mut Pcg64Mcg) -> Vec<f64> {
    #[allow(clippy::cast_precision_loss, reason = "a few dozen")]
    let mut column: Vec<f64> = (0..count)
        .map(|k| (k as f64 + random.random::<f64>()) / count as f64)
        .collect();
    for last in (1..count).rev() {
        column.swap(last, random.random_range(0..=last));
    }
    column
}

fn one_of<T: Copy>(choices: &[T], share: f64) -> T {
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_precision_loss,
        clippy::cast_sign_loss,
        reason = "a few choices"
    )]
    let index = (share * choices.len() as f64) as usize;
    choices[index.min(choices.len() - 1)]
}

/// An angle that differs from seed to seed, degrees.
fn turn(step: u64, seed: u64, full: u64) -> f64 {
    #[allow(clippy::cast_precision_loss, reason = "below 360")]
    let degrees = (step * seed % full) as f64;
    degrees
}

impl fmt::Display for Nuisances {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{:.1} per mm, {:.1} px per spacing, wall {:.0} %, blur {:.3}, noise {:.1} %, light {:.1}×, \
             {}, elongation {:.2}, {}, rounding {:.2}, JPEG {}",
            self.per_mm,
            self.px_per_spacing,
            100.0 * self.wall_share,
            self.blur,
            100.0 * self.noise,
            self.falloff,
            self.hue.name(),
            self.elongation,
            packing_name(self.packing),
            self.rounding,
            self.jpeg_quality
        )
    }
}
