//! A ruler is read from a line dragged along it.
//!
//! Bounds, written before the first run: with ten ticks or more, pixels per millimetre are off by at
//! most 0.2 % for 95 % of the rulers, refused ones counting as missed, and by no more than 1 % for any
//! that is read; what lies between two ticks is told rightly or asked for, always; nine in ten errors
//! lie within twice the standard uncertainty; and of lines drawn where there is no ruler at least 95 %
//! are refused. The rulers are drawn by construction, so that their scale is known exactly; how rulers
//! are divided is `common practice, no source`.

#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_sign_loss,
    reason = "places and tones are whole numbers one moment and not the next"
)]

use image::codecs::jpeg::JpegEncoder;
use image::{Rgb, RgbImage};
use poreline::geometry::{Point, Rect};
use poreline::photo::Photo;
use poreline::progress::Progress;
use poreline::ruler::{Between, Graduation, Reading, RulerError, read};
use poreline::scale::How;
use poreline::units::Millimetres;
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use rayon::prelude::*;
use std::f64::consts::TAU;

const GOOD: f64 = 0.002;
const LEAST_GOOD: f64 = 0.95;
const WORST: f64 = 0.01;
const LEAST_COVERED: f64 = 0.9;
const LEAST_REFUSED: f64 = 0.95;

#[derive(Clone, Copy, Debug, PartialEq)]
enum Body {
    Paper,
    Wood,
    Steel,
    /// The surface shows through.
    Clear,
    /// White ticks on black.
    Black,
}

#[derive(Clone, Debug)]
struct Drawn {
    graduation: Graduation,
    body: Body,
    /// From tick to tick, px.
    spacing: f64,
    ticks: i32,
    /// Number of the first tick, from where the pattern begins.
    from: i32,
    /// Of a tick, px.
    width: f64,
    /// Of the shortest ticks, and how much each rank adds, px.
    short: f64,
    step: f64,
    angle_deg: f64,
    /// Size of what lies under the ruler, px.
    grain: f64,
    /// Ticks that are not there, and places of dirt along and across.
    missing: Vec<i32>,
    dirt: Vec<[f64; 2]>,
    has_digits: bool,
    /// Perspective: how much the distance from tick to tick grows along the ruler.
    tilt: f64,
    light: [f64; 2],
    blur: f64,
    noise: f64,
    jpeg: u8,
    drag_off_deg: f64,
    drag_off_px: f64,
    seed: u64,
}

fn rank(graduation: Graduation, number: i32) -> f64 {
    let divisors: &[i32] = match graduation {
        Graduation::Mm => &[5, 10],
        Graduation::HalfMm => &[2, 10, 20],
        Graduation::Inch8 => &[2, 4, 8],
        Graduation::Inch16 => &[2, 4, 8, 16],
        Graduation::Inch32 => &[2, 4, 8, 16, 32],
        Graduation::Inch64 => &[2, 4, 8, 16, 32, 64],
    };
    divisors
        .iter()
        .filter(|d| number.rem_euclid(**d) == 0)
        .count() as f64
}

impl Drawn {
    fn random(seed: u64) -> Self {
        let mut random = Pcg64Mcg::seed_from_u64(seed);
        let graduation = [
            Graduation::Mm,
            Graduation::Mm,
            Graduation::HalfMm,
            Graduation::Inch16,
            Graduation::Inch32,
            Graduation::Inch8,
        ][random.random_range(0..6_usize)];
        let spacing = (random.random_range(8.0_f64.ln()..80.0_f64.ln())).exp();
        let most = ((1100.0 / spacing) as i32).clamp(11, 75);
        let ticks = random.random_range(10..most);
        let short = spacing * random.random_range(2.0..3.5);
        let count = |random: &mut Pcg64Mcg, most: i32| random.random_range(0..=most);
        let hidden = count(&mut random, ticks / 12);
        let spots = count(&mut random, 5);
        let missing = (0..hidden)
            .map(|_| random.random_range(1..ticks - 1))
            .collect();
        let dirt = (0..spots)
            .map(|_| {
                [
                    random.random_range(0.0..spacing * f64::from(ticks)),
                    random.random_range(0.0..1.5 * short),
                ]
            })
            .collect();
        Self {
            graduation,
            body: [
                Body::Paper,
                Body::Wood,
                Body::Steel,
                Body::Clear,
                Body::Black,
            ][random.random_range(0..5_usize)],
            spacing,
            ticks,
            from: random.random_range(0..64),
            width: (spacing * random.random_range(0.12..0.3)).max(1.3),
            short,
            step: short * random.random_range(0.22..0.4),
            angle_deg: random.random_range(-180.0..180.0),
            grain: random.random_range(10.0..30.0),
            missing,
            dirt,
            has_digits: random.random_bool(0.7),
            tilt: 0.0,
            light: [
                random.random_range(-0.5..0.5),
                random.random_range(-0.5..0.5),
            ],
            blur: random.random_range(0.5..(0.3 + 0.12 * spacing).min(2.5)),
            noise: random.random_range(0.0..0.02),
            jpeg: random.random_range(75..96),
            drag_off_deg: random.random_range(-2.0..2.0),
            drag_off_px: random.random_range(-8.0..8.0),
            seed,
        }
    }

    /// A plain one, from which others differ by what is tested.
    fn plain(graduation: Graduation, spacing: f64, ticks: i32) -> Self {
        Self {
            graduation,
            body: Body::Paper,
            spacing,
            ticks,
            from: 0,
            width: 0.2 * spacing,
            short: 3.0 * spacing,
            step: spacing,
            angle_deg: 11.0,
            grain: 17.0,
            missing: Vec::new(),
            dirt: Vec::new(),
            has_digits: true,
            tilt: 0.0,
            light: [0.1, 0.1],
            blur: 0.8,
            noise: 0.005,
            jpeg: 92,
            drag_off_deg: 0.5,
            drag_off_px: 2.0,
            seed: 7,
        }
    }

    fn px_per_mm(&self) -> f64 {
        self.spacing / self.graduation.between().0
    }

    fn length(&self) -> f64 {
        self.spacing * f64::from(self.ticks - 1)
    }

    fn longest(&self) -> f64 {
        self.short + 6.0 * self.step
    }

    /// How far along the ruler its `number`-th tick stands, and the reverse.
    fn place(&self, number: f64) -> f64 {
        let t = number / f64::from(self.ticks - 1);
        self.length() * (t + 0.5 * self.tilt * t * (t - 1.0))
    }

    fn number(&self, u: f64) -> f64 {
        let mut t = u / self.length();
        for _ in 0..4 {
            let off = t + 0.5 * self.tilt * t * (t - 1.0) - u / self.length();
            t -= off / (1.0 + 0.5 * self.tilt * (2.0 * t - 1.0));
        }
        t * f64::from(self.ticks - 1)
    }

    fn side(&self) -> u32 {
        (self.length() + 2.0 * self.margin()).hypot(2.0 * (self.longest() + 90.0)) as u32
    }

    fn margin(&self) -> f64 {
        1.5 * self.spacing + 20.0
    }

    /// Where the first tick meets the edge, and the direction of the ruler.
    fn axes(&self) -> (Point, f64, f64) {
        let (sin, cos) = self.angle_deg.to_radians().sin_cos();
        let middle = f64::from(self.side()) / 2.0;
        let back = self.length() / 2.0;
        (
            Point::new(middle - back * cos + 0.3, middle - back * sin - 0.2),
            cos,
            sin,
        )
    }

    /// Share of a small square that ink covers.
    fn ink(&self, u: f64, v: f64, side: f64) -> f64 {
        let overlap = |from: f64, to: f64, at: f64| {
            ((at + side / 2.0).min(to) - (at - side / 2.0).max(from)).clamp(0.0, side) / side
        };
        let number = self.number(u).round();
        let mut ink = 0.0_f64;
        if (0.0..f64::from(self.ticks)).contains(&number)
            && !self.missing.contains(&(number as i32))
        {
            let at = self.place(number);
            let long = self.short + self.step * rank(self.graduation, number as i32 + self.from);
            ink = overlap(at - self.width / 2.0, at + self.width / 2.0, u) * overlap(0.0, long, v);
        }
        if self.has_digits {
            ink = ink.max(self.digit(u, v));
        }
        let dirty = |spot: &[f64; 2]| (u - spot[0]).hypot(v - spot[1]) < 0.3 * self.spacing;
        if self.dirt.iter().any(dirty) {
            1.0
        } else {
            ink
        }
    }

    /// Seven strokes as figures have them, beside and beyond the longest ticks.
    fn digit(&self, u: f64, v: f64) -> f64 {
        let number = (self.number(u - 0.6 * self.spacing) / 5.0).round() * 5.0;
        let high = (1.6 * self.spacing).min(60.0);
        let x = (u - self.place(number)) / high;
        let y = (v - self.longest() - 0.2 * high) / high;
        if !(0.0..0.55).contains(&x) || !(0.0..1.0).contains(&y) {
            return 0.0;
        }
        let strokes = [
            0x77_u8, 0x24, 0x5d, 0x6d, 0x2e, 0x6b, 0x7b, 0x25, 0x7f, 0x6f,
        ];
        let lit = strokes[(number.abs() as usize / 5) % 10];
        let on = |bit: u8| lit >> bit & 1 == 1;
        let thin = 0.1;
        let is_inked = (on(0) && y < thin)
            || (on(3) && (y - 0.45).abs() < thin / 2.0)
            || (on(6) && y > 1.0 - thin)
            || (x < thin && ((on(1) && y < 0.5) || (on(4) && y > 0.5)))
            || (x > 0.55 - thin && ((on(2) && y < 0.5) || (on(5) && y > 0.5)));
        f64::from(u8::from(is_inked))
    }

    /// Light of what lies under the ruler: hollows on a jittered lattice.
    fn surface(&self, x: f64, y: f64) -> f64 {
        let (x, y) = (x / self.grain, y / self.grain);
        let mut nearest = f64::INFINITY;
        for dx in [-1.0, 0.0, 1.0] {
            for dy in [-1.0, 0.0, 1.0] {
                let (column, row) = (x.floor() + dx, y.floor() + dy);
                let key = (column as i64).wrapping_mul(0x9e37_79b9)
                    ^ (row as i64).wrapping_mul(0x85eb_ca77);
                let mixed = (key as u64).wrapping_mul(0x2545_f491_4f6c_dd1d);
                let jitter = |bits: u64| 0.6 * ((mixed >> bits & 0xffff) as f64 / 65535.0 - 0.5);
                let off = [x - column - 0.5 - jitter(32), y - row - 0.5 - jitter(48)];
                nearest = nearest.min(off[0] * off[0] + off[1] * off[1]);
            }
        }
        0.42 - 0.34 / (1.0 + ((nearest.sqrt() - 0.33) * 24.0).exp())
    }

    /// Light of one pixel.
    fn scene(&self, axes: &(Point, f64, f64), x: f64, y: f64) -> f64 {
        const FINER: u32 = 3;
        let step = 1.0 / f64::from(FINER);
        let (origin, cos, sin) = axes;
        let along = |x: f64, y: f64| {
            let (dx, dy) = (x - origin.x, y - origin.y);
            (dx * cos + dy * sin, dy * cos - dx * sin)
        };
        let high = 0.0..=self.longest() + 80.0;
        let (_, v) = along(x + 0.5, y + 0.5);
        if v < -1.0 || v > high.end() + 1.0 {
            return self.surface(x + 0.5, y + 0.5);
        }
        let is_open = self.body == Body::Clear || v < 1.0 || v > high.end() - 1.0;
        let under = if is_open {
            self.surface(x + 0.5, y + 0.5)
        } else {
            0.0
        };
        let mut sum = 0.0;
        for k in 0..FINER * FINER {
            let part = |k: u32| (f64::from(k) + 0.5) * step;
            let (u, v) = along(x + part(k % FINER), y + part(k / FINER));
            sum += if high.contains(&v) {
                self.ruler(u, v, under, step)
            } else {
                under
            };
        }
        sum / f64::from(FINER * FINER)
    }

    fn ruler(&self, u: f64, v: f64, under: f64, side: f64) -> f64 {
        let (ground, ink) = match self.body {
            Body::Paper => (0.7, 0.06),
            Body::Wood => (
                0.42 + 0.05 * (v * 0.9 + 2.0 * (u * 0.013).sin()).sin() + 0.03 * (v * 0.31).sin(),
                0.05,
            ),
            Body::Steel => (
                0.4 + 0.25 * (-((u - 0.4 * self.length()) / (0.3 * self.length())).powi(2)).exp()
                    + 0.02 * (v * 1.7).sin(),
                0.08,
            ),
            Body::Clear => (0.25 + 0.55 * under, 0.05),
            Body::Black => (0.04, 0.6),
        };
        let inked = self.ink(u, v, side);
        ground * (1.0 - inked) + ink * inked
    }

    fn photo(&self) -> Photo {
        let side = self.side();
        let axes = self.axes();
        let n = side as usize;
        let mut light = vec![0.0; n * n];
        for (i, value) in light.iter_mut().enumerate() {
            let (x, y) = ((i % n) as f64, (i / n) as f64);
            let (rx, ry) = (x / n as f64 - 0.5, y / n as f64 - 0.5);
            let lit = 1.0 + self.light[0] * rx + self.light[1] * ry - 0.5 * (rx * rx + ry * ry);
            *value = lit * self.scene(&axes, x, y);
        }
        let light = blurred(&light, n, self.blur);
        let mut random = Pcg64Mcg::seed_from_u64(self.seed ^ 0x5eed);
        let picture = RgbImage::from_fn(side, side, |x, y| {
            // Box–Muller.
            let (a, b): (f64, f64) = (
                random.random_range(1e-12..1.0),
                random.random_range(0.0..TAU),
            );
            let noise = self.noise * (-2.0 * a.ln()).sqrt() * b.cos();
            let value = light[y as usize * n + x as usize];
            // The sRGB curve (IEC 61966-2-1); noise grows with the root of the light.
            let value = (value + noise * value.max(0.0).sqrt()).clamp(0.0031, 1.0);
            let level = 255.0 * (1.055 * value.powf(1.0 / 2.4) - 0.055);
            Rgb([level.round() as u8; 3])
        });
        let mut file = Vec::new();
        JpegEncoder::new_with_quality(&mut file, self.jpeg)
            .encode_image(&picture)
            .expect("a file");
        let decoded = image::load_from_memory(&file).expect("a picture").to_rgb8();
        Photo::from_rgb("ruler.jpg", decoded)
    }

    /// What a person drags: from before the first tick to beyond the last, somewhat off.
    fn dragged(&self) -> [Point; 2] {
        let (origin, cos, sin) = self.axes();
        let half = self.length() / 2.0 + 0.7 * self.spacing;
        let middle = Point::new(
            origin.x + self.length() / 2.0 * cos - self.drag_off_px * sin,
            origin.y + self.length() / 2.0 * sin + self.drag_off_px * cos,
        );
        let (sin, cos) = (self.angle_deg + self.drag_off_deg).to_radians().sin_cos();
        [-half, half].map(|u| Point::new(middle.x + u * cos, middle.y + u * sin))
    }
}

/// Gaussian blur, rows and then columns.
fn blurred(light: &[f64], n: usize, sigma: f64) -> Vec<f64> {
    let reach = (4.0 * sigma).ceil() as i64;
    let weights: Vec<f64> = (-reach..=reach)
        .map(|k| (-0.5 * (k as f64 / sigma).powi(2)).exp())
        .collect();
    let all: f64 = weights.iter().sum();
    let along = |source: &[f64], dx: i64, dy: i64| -> Vec<f64> {
        let hold = |p: i64| p.clamp(0, n as i64 - 1) as usize;
        (0..n * n)
            .map(|i| {
                let (x, y) = ((i % n) as i64, (i / n) as i64);
                weights
                    .iter()
                    .zip(-reach..)
                    .map(|(w, k)| w * source[hold(y + k * dy) * n + hold(x + k * dx)])
                    .sum::<f64>()
                    / all
            })
            .collect()
    };
    along(&along(light, 1, 0), 0, 1)
}

fn number(name: &str, otherwise: u64) -> u64 {
    std::env::var(name)
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(otherwise)
}

/// First seed and number of rulers; more where the surroundings ask for it.
fn seeds() -> std::ops::Range<u64> {
    let from = number("PORELINE_RULER_SEED", 1);
    from..from + number("PORELINE_RULERS", 72)
}

fn known(drawn: &Drawn) -> Between {
    Between::Known(drawn.graduation.between())
}

fn reading(photo: &Photo, drawn: &Drawn, between: Between) -> Result<Reading, RulerError> {
    read(photo, drawn.dragged(), between, &Progress::default())
}

#[test]
fn rulers_are_read_with_their_scale_and_unit() {
    let results: Vec<_> = seeds()
        .into_par_iter()
        .map(|seed| {
            let drawn = Drawn::random(seed);
            let photo = drawn.photo();
            let stated = reading(&photo, &drawn, known(&drawn));
            let told = reading(&photo, &drawn, Between::Unknown);
            (drawn, stated, told)
        })
        .collect();
    let (mut good, mut read, mut covered, mut told_right, mut asked) = (0.0, 0.0, 0.0, 0, 0);
    let (mut worst, mut wrong) = (0.0_f64, 0);
    for (drawn, stated, told) in &results {
        match stated {
            Ok(reading) => {
                let off = reading.scale.px_per_mm / drawn.px_per_mm() - 1.0;
                let in_uncertainties = off / reading.scale.relative_uncertainty();
                read += 1.0;
                good += f64::from(u8::from(off.abs() <= GOOD));
                covered += f64::from(u8::from(in_uncertainties.abs() <= 2.0));
                worst = worst.max(off.abs());
                if off.abs() > GOOD || in_uncertainties.abs() > 2.0 {
                    println!(
                        "off by {:.4} % ({in_uncertainties:.1} u), {} ticks: {drawn:?}",
                        100.0 * off,
                        reading.ticks.len()
                    );
                }
            }
            Err(error) => println!("{error}: {drawn:?}"),
        }
        match told {
            Ok(reading) if reading.graduation == Some(drawn.graduation) => told_right += 1,
            Ok(reading) => {
                wrong += 1;
                println!("{:?} for {drawn:?}", reading.graduation);
            }
            Err(RulerError::Ambiguous(possible)) => {
                asked += 1;
                if !possible.contains(&drawn.graduation) {
                    println!("not among {possible:?}: {drawn:?}");
                    wrong += 1;
                }
            }
            Err(_) => {}
        }
    }
    let all = results.len() as f64;
    println!(
        "{read} of {all} read, {good} within 0.2 %, {:.3} % at worst, {covered} covered; unit told \
         {told_right} times, asked for {asked} times, wrong {wrong} times",
        100.0 * worst
    );
    assert!(good >= LEAST_GOOD * all);
    assert!(worst <= WORST);
    assert!(covered >= LEAST_COVERED * read);
    assert_eq!(wrong, 0);
}

#[test]
fn lines_without_a_ruler_are_refused() {
    let all = 40;
    let refused: f64 = (0..all)
        .into_par_iter()
        .map(|seed| {
            let mut random = Pcg64Mcg::seed_from_u64(900 + seed);
            let drawn = Drawn {
                grain: random.random_range(8.0..40.0),
                ..Drawn::random(seed)
            };
            let bare = Photo::from_rgb(
                "bare.png",
                RgbImage::from_fn(700, 700, |x, y| {
                    let value = drawn.surface(f64::from(x), f64::from(y));
                    let level = 255.0 * (1.055 * value.powf(1.0 / 2.4) - 0.055);
                    let noise = random.random_range(-6.0..6.0);
                    Rgb([(level + noise) as u8; 3])
                }),
            );
            let mut place = || {
                Point::new(
                    random.random_range(0.0..700.0),
                    random.random_range(0.0..700.0),
                )
            };
            let (a, mut b) = (place(), place());
            while a.distance(b) < 200.0 {
                b = place();
            }
            let answer = read(
                &bare,
                [a, b],
                Between::Known(Millimetres(1.0)),
                &Progress::default(),
            );
            if let Ok(reading) = &answer {
                println!(
                    "{seed}: {} ticks {:?} on {}",
                    reading.ticks.len(),
                    reading.scale,
                    drawn.grain
                );
            }
            f64::from(u8::from(answer.is_err()))
        })
        .sum();
    println!("{refused} of {all} refused");
    assert!(refused >= LEAST_REFUSED * all as f64);
}

#[test]
fn a_reading_tells_ticks_lengths_and_where_the_ruler_lies() {
    let drawn = Drawn {
        angle_deg: 0.0,
        missing: vec![7],
        ..Drawn::plain(Graduation::Mm, 20.0, 31)
    };
    let photo = drawn.photo();
    let reading = reading(&photo, &drawn, Between::Unknown).expect("a ruler");
    assert_eq!(reading.graduation, Some(Graduation::Mm));
    assert_eq!(reading.between, Millimetres(1.0));
    assert_eq!(reading.contradiction(), None);
    assert_eq!(reading.scale.how, How::Ticks);
    assert_eq!(reading.tilt, None);
    assert_eq!(reading.ticks.len(), 30);
    for tick in &reading.ticks {
        // No tick stands for the seventh millimetre.
        let number = tick.mm.0.round();
        assert!((tick.mm.0 - number).abs() < 1e-9 && (number - 7.0).abs() > 0.5);
        let length = drawn.short + drawn.step * rank(drawn.graduation, number as i32);
        assert!(
            (tick.length_px - length).abs() < 3.0,
            "{tick:?} for {length}"
        );
        let (origin, ..) = drawn.axes();
        assert!(
            (tick.at.x - origin.x - 20.0 * number).abs() < 0.2,
            "{tick:?}"
        );
    }
    // Ticks lie within the strip, the surface without.
    let strip = reading.left_out();
    let (origin, ..) = drawn.axes();
    assert!(reading.ticks.iter().all(|tick| strip.contains(tick.at)));
    assert!(!strip.contains(Point::new(origin.x + 300.0, origin.y - 12.0)));
    let bounds = strip.outline.bounds();
    let all = Rect::from_corners(
        Point::new(origin.x, origin.y),
        Point::new(
            origin.x + drawn.length(),
            origin.y + drawn.short + 2.0 * drawn.step,
        ),
    );
    let common = bounds.intersection(&all);
    assert!(
        common.width * common.height > 0.95 * all.width * all.height,
        "{bounds:?}"
    );
    assert!(bounds.height < all.height + 12.0, "{bounds:?}");
}

#[test]
fn a_stated_length_that_the_pattern_speaks_against_is_told() {
    let drawn = Drawn::plain(Graduation::HalfMm, 14.0, 50);
    let photo = drawn.photo();
    let reading = reading(&photo, &drawn, Between::Known(Millimetres(1.0))).expect("a ruler");
    assert_eq!(reading.contradiction(), Some(Graduation::HalfMm));
    // What a person states is what counts.
    assert!((reading.scale.px_per_mm / 14.0 - 1.0).abs() <= GOOD);
}

#[test]
fn a_ruler_at_an_angle_is_told() {
    for (tilt, is_told) in [(0.06, true), (-0.06, true), (0.0, false)] {
        let drawn = Drawn {
            tilt,
            ..Drawn::plain(Graduation::Mm, 18.0, 40)
        };
        let photo = drawn.photo();
        let reading = reading(&photo, &drawn, known(&drawn)).expect("a ruler");
        assert_eq!(reading.tilt.is_some(), is_told, "{:?}", reading.tilt);
        if let Some(seen) = reading.tilt {
            assert!((seen - tilt).abs() < 0.01, "{seen} for {tilt}");
        }
    }
}

#[test]
fn what_tells_nothing_is_refused_with_the_reason() {
    let four = Drawn::plain(Graduation::Mm, 40.0, 4);
    let photo = four.photo();
    assert!(matches!(
        reading(&photo, &four, known(&four)),
        Err(RulerError::TooFewTicks(_) | RulerError::NoPeriodicMarks)
    ));
    let [a, _] = four.dragged();
    let dot = [a, Point::new(a.x + 12.0, a.y)];
    let answer = read(&photo, dot, known(&four), &Progress::default());
    assert!(matches!(answer, Err(RulerError::LineTooShort(_))));

    let equal = Drawn {
        step: 0.0,
        ..Drawn::plain(Graduation::Mm, 20.0, 30)
    };
    let photo = equal.photo();
    let Err(RulerError::Ambiguous(possible)) = reading(&photo, &equal, Between::Unknown) else {
        panic!("equal ticks tell no unit");
    };
    assert!(possible.len() > 1);
    assert!(reading(&photo, &equal, known(&equal)).is_ok());
}
