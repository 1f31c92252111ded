//! The level between void and wall against Otsu's criterion.
//!
//! Otsu (1979, IEEE Trans. SMC 9: 62–66) parts a picture where the variance between the two classes
//! is greatest. There the level lies half-way between their means (Reddi, Rudin & Keshavan 1984,
//! IEEE Trans. SMC 14: 661–665, from memory), which is also what the half-way level found by
//! iteration comes to. So on an evenly lit picture both part it alike.

use super::drawing::{centre, photo_of};
use super::support::{near, rows};
use poreline::area::Area;
use poreline::geometry::Point;
use poreline::progress::Progress;
use poreline::segmentation::Segmentation;
use serde_json::Value;
use std::f64::consts::PI;

/// Made by `fixtures/make_levels.py`, which draws the same pictures; versions inside.
const PICTURES: &str = include_str!("fixtures/levels.json");

const SIDE: usize = 480;
const SPACING: f64 = 48.0;
/// Light of grey level 0, and of each level more.
const DARKEST: f64 = 0.06;
const STEP: f64 = 0.15;

/// A picture of voids and walls, each pixel with a level of its own.
struct Levelled {
    diameter: f64,
    void_share: f64,
    levels: Vec<u32>,
}

/// A number for each pixel: the finaliser of `SplitMix64`, upper half.
fn scattered(x: u64, y: u64) -> u64 {
    const STEP: u64 = 0x9E37_79B9_7F4A_7C15;
    let z = (x + (y << 16)).wrapping_mul(STEP).wrapping_add(STEP);
    let z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    (z ^ (z >> 31)) >> 32
}

/// Distance from the nearest middle of a void, on rows every other of which is shifted by half.
fn from_middle(p: Point) -> f64 {
    let height = SPACING * 0.75_f64.sqrt();
    let row = (p.y / height).floor();
    [row - 1.0, row, row + 1.0]
        .map(|row| {
            let shift = SPACING * if row.rem_euclid(2.0) == 0.0 { 0.5 } else { 1.0 };
            let dx = p.x - shift - ((p.x - shift) / SPACING).round() * SPACING;
            dx.hypot(p.y - (row + 0.5) * height)
        })
        .into_iter()
        .fold(f64::INFINITY, f64::min)
}

impl Levelled {
    fn of(picture: &Value) -> Self {
        let times = |key: &str| -> Vec<u32> {
            let list = picture[key].as_array().expect("a list");
            let times = list.iter().map(|n| n.as_u64().expect("a count"));
            (0..)
                .zip(times)
                .flat_map(|(level, n)| (0..n).map(move |_| level))
                .collect()
        };
        let (void, wall) = (times("void"), times("wall"));
        let void_share = picture["void_share"].as_f64().expect("a share");
        let diameter = 2.0 * SPACING * (void_share * 0.75_f64.sqrt() / PI).sqrt();
        let levels = (0..SIDE * SIDE)
            .map(|pixel| {
                let (x, y) = (pixel % SIDE, pixel / SIDE);
                let lot = scattered(x as u64, y as u64);
                let of = if from_middle(Point::new(centre(x), centre(y))) < diameter / 2.0 {
                    &void
                } else {
                    &wall
                };
                let at = usize::try_from(lot % of.len() as u64).expect("small");
                of[at]
            })
            .collect();
        Self {
            diameter,
            void_share,
            levels,
        }
    }

    /// Segmented under light that falls to `dimmest` of itself from the left to the right.
    fn segmented(&self, dimmest: f64) -> Segmentation {
        let photo = photo_of(SIDE, SIDE, |pixel| {
            let falloff = 1.0 + (dimmest - 1.0) * centre(pixel % SIDE) / SIDE as f64;
            (DARKEST + STEP * f64::from(self.levels[pixel])) * falloff
        });
        Segmentation::of(&photo.light, &Area::default(), &Progress::default())
            .expect("the whole photo")
    }

    /// Frame pixels that lie clear of every outline: number, and whether in a void.
    fn clear(&self, segmentation: &Segmentation) -> Vec<(usize, bool)> {
        let (width, height) = segmentation.frame.size();
        (0..width * height)
            .filter_map(|pixel| {
                let at = Point::new(centre(pixel % width), centre(pixel / width));
                let within =
                    self.diameter / 2.0 - from_middle(segmentation.frame.photo_from_frame(at));
                // Smoothing reaches two pixels and a half.
                (within.abs() > 2.5 * segmentation.frame.step).then_some((pixel, within > 0.0))
            })
            .collect()
    }
}

fn pictures() -> Vec<Value> {
    let file: Value = serde_json::from_str(PICTURES).expect("the fixture is JSON");
    file["pictures"].as_array().expect("pictures").clone()
}

#[test]
fn the_pictures_are_those_whose_level_is_published() {
    for (name, table) in [
        ("six levels", include_str!("facts/otsu_hist6.csv")),
        ("five by five", include_str!("facts/otsu_image5x5.csv")),
    ] {
        let best = rows(table)
            .into_iter()
            .max_by(|a, b| a.number("between").total_cmp(&b.number("between")))
            .expect("rows");
        let pictures = pictures();
        let picture = pictures
            .iter()
            .find(|picture| picture["name"] == name)
            .expect("the picture is in the fixture");
        // Otsu's level is the last of the lower class.
        assert_eq!(
            picture["otsu"],
            best.integer("first_of_upper_class") - 1,
            "{name}"
        );
        // Half a million pixels, no two levels further than 5 apart: 0.02 is over three times what
        // a mean can scatter by.
        for (key, column) in [
            ("mean_below_otsu", "mean_below"),
            ("mean_above_otsu", "mean_above"),
        ] {
            near(
                name,
                picture[key].as_f64().expect(key),
                best.number(column),
                0.02,
            );
        }
        // Both sides draw the same picture.
        let drawn = Levelled::of(picture).levels;
        let mean = drawn.iter().map(|level| f64::from(*level)).sum::<f64>() / drawn.len() as f64;
        near(name, mean, picture["mean"].as_f64().expect("mean"), 1e-9);
    }
}

#[test]
fn the_level_between_void_and_wall_is_otsus() {
    for picture in pictures() {
        let name = picture["name"].as_str().expect("a name");
        let drawn = Levelled::of(&picture);
        let segmentation = drawn.segmented(1.0);
        let (light, depth) = (&segmentation.frame.light, &segmentation.depth);
        // Depth is a straight line of light. Smoothing does not move means well inside a phase.
        let mean = |void: bool| {
            let clear = drawn.clear(&segmentation);
            let of = clear.iter().filter(|(_, inside)| *inside == void);
            let (sum, n) = of.fold(([0.0; 2], 0.0), |([l, d], n), (pixel, _)| {
                let at = |plane: &poreline::photo::Light| f64::from(plane.as_raw()[*pixel]);
                ([l + at(light), d + at(depth)], n + 1.0)
            });
            assert!(n > 300.0, "{name}: {n} pixels");
            sum.map(|sum| sum / n)
        };
        let ([light_0, depth_0], [light_1, depth_1]) = (mean(true), mean(false));
        let half = light_0 + (0.5 - depth_0) / (depth_1 - depth_0) * (light_1 - light_0);
        let half = (half - DARKEST) / STEP;

        let number = |key: &str| picture[key].as_f64().expect(key);
        let (below, above) = (number("mean_below_otsu"), number("mean_above_otsu"));
        // Pixels on outlines hold some of both phases. With a blur of 0.75 px they raise the mean of
        // the voids, and lower that of the walls, by 0.3 px times the length of outline over the
        // area of each (the mean of what a Gaussian edge lets through is σ/√2π); half the
        // difference is what the level may be shifted by. And 2 % of the contrast, as said before
        // the run, for what is lost in 8 bits and in pieces of a spacing or two.
        let px = drawn.diameter / segmentation.frame.step;
        let mixed = 0.3 * PI * px / (PI / 4.0 * px * px / drawn.void_share);
        let shift = 0.5
            * mixed
            * (1.0 / drawn.void_share - 1.0 / (1.0 - drawn.void_share))
            * (above - below);
        near(
            name,
            half,
            f64::midpoint(below, above) + shift / 2.0,
            shift.abs() / 2.0 + 0.02 * (above - below),
        );
        // Whole levels fall on the same sides. Where none lies between, every level of a gap parts
        // them alike, and Otsu's is the lowest of these.
        let sides = |level: f64| {
            drawn
                .levels
                .iter()
                .filter(|l| f64::from(**l) <= level)
                .count()
        };
        assert_eq!(sides(half), sides(number("otsu")), "{name}: {half}");
    }
}

#[test]
fn uneven_light_leaves_the_parting_where_otsu_has_it_in_even_light() {
    // Where light falls to 0.3 of itself, walls on the dim side are no brighter than voids on the
    // bright one, and no one level parts the picture, Otsu's or another. Levels found locally part it
    // as Otsu parts the evenly lit picture.
    for picture in pictures() {
        let name = picture["name"].as_str().expect("a name");
        let drawn = Levelled::of(&picture);
        let segmentation = drawn.segmented(0.3);
        let clear = drawn.clear(&segmentation);
        let light = |wanted: bool| {
            let of = clear.iter().filter(move |(_, void)| *void == wanted);
            of.map(|(pixel, _)| segmentation.frame.light.as_raw()[*pixel])
        };
        let brightest_void = light(true).fold(0.0, f32::max);
        let dimmest_wall = light(false).fold(1.0, f32::min);
        assert!(brightest_void > dimmest_wall, "{name}: one level would do");
        let wrong = clear
            .iter()
            .filter(|(pixel, void)| (segmentation.depth.as_raw()[*pixel] > 0.5) != *void)
            .count();
        // Local means reach over some spacings, so next to none, but not none, may lie on the wrong side.
        assert!(
            1000 * wrong <= clear.len(),
            "{name}: {wrong} pixels on the wrong side, of {}",
            clear.len()
        );
    }
}
