//! The light of the walls, with the light of the hollows taken out of it.
//!
//! A lens mixes what lies side by side. Where walls are wide enough, only places are read to which
//! hollows lend next to nothing. Where they are not, the mixture is undone: light falls from that of
//! wall, W, with the share m that comes from voids, as W · (1 − k · m) in each of red, green and blue,
//! and k is found by least squares over the half of the surface that is mostly wall.

use crate::photo::{self, Photo};
use crate::segmentation::{PX_PER_SPACING, Segmentation};
use rayon::prelude::*;
use std::ops::Range;

/// Light from voids up to which a place counts as bare wall, as a share of its area.
const BARE: f32 = 0.05;
/// Up to here a place is mostly wall.
const MOSTLY_WALL: f32 = 0.5;
/// Share of places that are mostly wall which must be bare for these to stand for the walls.
const ENOUGH_BARE: f64 = 0.1;
/// The mixture is the same all over, so it is learnt from every so many rows.
const LEARN_FROM: usize = 3;
/// Fewest places in half a patch.
const FEWEST_PIXELS: f64 = 4.0;

/// Light of a patch one spacing wide.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patch {
    /// Linear red, green and blue of the walls in its left and in its right half, 0–1.
    pub halves: [[f64; 3]; 2],
    /// Pixels of wall it was taken from.
    pub pixels: f64,
}

impl Patch {
    /// Light of the whole patch.
    #[must_use]
    pub fn light(&self) -> [f64; 3] {
        let [left, right] = self.halves;
        [0, 1, 2].map(|c| f64::midpoint(left[c], right[c]))
    }
}

/// What a photo shows of the walls' colour. It depends on the photo and the area, not on scale or white.
#[derive(Debug, Clone, PartialEq)]
pub struct Tissue {
    /// Mean linear red, green and blue of the walls, 0–1.
    pub light: [f64; 3],
    /// The same from place to place, row by row.
    pub patches: Vec<Patch>,
}

impl Tissue {
    /// Reads the walls in the area of a segmented photo. `void_seen` has for each frame pixel the share
    /// of it that the lens filled with void. `None` where hardly any wall was seen.
    #[must_use]
    pub fn of(photo: &Photo, segmentation: &Segmentation, void_seen: &[f32]) -> Option<Self> {
        let view = View {
            photo,
            segmentation,
            void_seen,
        };
        let mixture = Mixture::of(&view);
        let sums: Vec<[Sum; 2]> = view
            .patches()
            .into_par_iter()
            .map(|halves| halves.map(|half| view.sum(half, &mixture)))
            .collect();
        let patches: Vec<Patch> = sums
            .iter()
            .filter(|halves| halves.iter().all(|half| half.pixels >= FEWEST_PIXELS))
            .map(|halves| Patch {
                halves: halves.map(Sum::wall),
                pixels: halves.iter().map(|half| half.pixels).sum(),
            })
            .collect();
        (!patches.is_empty()).then(|| Self {
            light: sums.iter().flatten().fold(Sum::default(), Sum::with).wall(),
            patches,
        })
    }
}

/// Columns and rows of the frame.
type Block = (Range<usize>, Range<usize>);

/// A segmented photo with its colours.
struct View<'a> {
    photo: &'a Photo,
    segmentation: &'a Segmentation,
    void_seen: &'a [f32],
}

impl View<'_> {
    /// The frame in patches of a spacing, each as its left and its right half.
    fn patches(&self) -> Vec<[Block; 2]> {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a whole number of pixels"
        )]
        let side = PX_PER_SPACING as usize;
        let (width, height) = self.segmentation.frame.size();
        let mut patches = Vec::new();
        for top in (0..height).step_by(side) {
            let rows = top..(top + side).min(height);
            for left in (0..width).step_by(side) {
                let end = (left + side).min(width);
                let middle = usize::midpoint(left, end);
                patches.push([(left..middle, rows.clone()), (middle..end, rows.clone())]);
            }
        }
        patches
    }

    /// Light of the places in a block that are read.
    fn sum(&self, block: Block, mixture: &Mixture) -> Sum {
        let mut sum = Sum::default();
        self.each(block, mixture.limit, |light, void| {
            sum.add(light, void, mixture);
        });
        sum
    }

    /// Linear light and share of void of every place in a block that lies in the area and is at most so
    /// much void. A place is the pixel of the photo under the middle of a frame pixel.
    fn each(&self, (columns, rows): Block, limit: f32, mut take: impl FnMut([f64; 3], f64)) {
        let frame = &self.segmentation.frame;
        let width = frame.size().0;
        let (last_x, last_y) = (self.photo.rgb.width() - 1, self.photo.rgb.height() - 1);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "within the photo"
        )]
        let place = |from: f64, at: usize, last: u32| {
            ((from + (at as f64 + 0.5) * frame.step).max(0.0) as u32).min(last)
        };
        for row in rows {
            let y = place(frame.origin.y, row, last_y);
            for column in columns.clone() {
                let at = row * width + column;
                let void = self.void_seen[at];
                if self.segmentation.area[at] && void <= limit {
                    let x = place(frame.origin.x, column, last_x);
                    let samples = self.photo.rgb.get_pixel(x, y).0;
                    take(
                        samples.map(|sample| f64::from(photo::linear_sample(sample))),
                        f64::from(void),
                    );
                }
            }
        }
    }
}

/// How the light falls with the share of void, and which places are read.
struct Mixture {
    /// What full void takes away from the light of wall, as a share of it, 0–1.
    loss: [f64; 3],
    /// Greatest share of void of a place that is read.
    limit: f32,
}

impl Mixture {
    fn of(view: &View<'_>) -> Self {
        let (mut count, mut bare) = (0.0, 0.0);
        let (mut void_sum, mut void_squares) = (0.0, 0.0);
        let (mut light_sum, mut products) = ([0.0; 3], [0.0; 3]);
        let (width, height) = view.segmentation.frame.size();
        let mut learn = |light: [f64; 3], void: f64| {
            count += 1.0;
            bare += f64::from(u8::from(void <= f64::from(BARE)));
            void_sum += void;
            void_squares += void * void;
            for c in 0..3 {
                light_sum[c] += light[c];
                products[c] += light[c] * void;
            }
        };
        for row in (0..height).step_by(LEARN_FROM) {
            view.each((0..width, row..row + 1), MOSTLY_WALL, &mut learn);
        }
        let spread = count * void_squares - void_sum * void_sum;
        let loss = [0, 1, 2].map(|c| {
            let slope = count * products[c] - void_sum * light_sum[c];
            let wall = light_sum[c] * void_squares - void_sum * products[c];
            // Where no place has a share of void, nothing is lost.
            if spread > 0.0 && wall > 0.0 {
                (-slope / wall).clamp(0.0, 1.0)
            } else {
                0.0
            }
        });
        Self {
            loss,
            limit: if bare >= ENOUGH_BARE * count {
                BARE
            } else {
                MOSTLY_WALL
            },
        }
    }
}

/// Light of several places.
#[derive(Clone, Copy, Default)]
struct Sum {
    light: [f64; 3],
    /// What is left of the light of wall, for each of red, green and blue.
    left: [f64; 3],
    pixels: f64,
}

impl Sum {
    fn add(&mut self, light: [f64; 3], void: f64, mixture: &Mixture) {
        self.pixels += 1.0;
        for (sum, light) in self.light.iter_mut().zip(light) {
            *sum += light;
        }
        for (sum, loss) in self.left.iter_mut().zip(mixture.loss) {
            *sum += 1.0 - loss * void;
        }
    }

    /// These places and others together.
    fn with(mut self, other: &Self) -> Self {
        for c in 0..3 {
            self.light[c] += other.light[c];
            self.left[c] += other.left[c];
        }
        self.pixels += other.pixels;
        self
    }

    /// Light of the walls in these places.
    fn wall(self) -> [f64; 3] {
        [0, 1, 2].map(|c| self.light[c] / self.left[c])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::area::{Area, Outline};
    use crate::geometry::Rect;
    use crate::progress::Progress;
    use image::{Rgb, RgbImage};

    const WALL: [f64; 3] = [0.6, 0.45, 0.3];
    const VOID: [f64; 3] = [0.12, 0.07, 0.04];

    /// Bars of wall, `wall_px` wide out of 24, seen through a box blur of 8 px: the share of void is known.
    fn void_at(x: u32, wall_px: u32) -> f64 {
        let is_void = |x: u32| x % 24 >= wall_px;
        (0..8).filter(|k| is_void(x + k)).count() as f64 / 8.0
    }

    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "0 to 255"
    )]
    fn photo(wall_px: u32) -> Photo {
        let encoded = |light: f64| (255.0 * (1.055 * light.powf(1.0 / 2.4) - 0.055)).round() as u8;
        let picture = RgbImage::from_fn(480, 360, |x, _| {
            let void = void_at(x, wall_px);
            Rgb([0, 1, 2].map(|c| encoded(WALL[c] + void * (VOID[c] - WALL[c]))))
        });
        Photo::from_rgb("bars.png", picture)
    }

    fn read(wall_px: u32, area: &Area) -> Option<Tissue> {
        let photo = photo(wall_px);
        let segmentation = Segmentation::of(&photo.light, area, &Progress::default())
            .expect("the area lies on the photo");
        let (width, height) = segmentation.frame.size();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "on the photo"
        )]
        let void_seen: Vec<f32> = (0..width * height)
            .map(|at| {
                let x = segmentation.frame.origin.x
                    + ((at % width) as f64 + 0.5) * segmentation.frame.step;
                void_at(x as u32, wall_px) as f32
            })
            .collect();
        Tissue::of(&photo, &segmentation, &void_seen)
    }

    #[test]
    fn wide_walls_are_read_and_thin_ones_unmixed() {
        // With 7 px of wall no place is free of void: the least share is an eighth.
        for wall_px in [16, 7] {
            let tissue = read(wall_px, &Area::default()).expect("walls");
            for (light, wall) in tissue.light.into_iter().zip(WALL) {
                // An 8-bit step is 0.9 % of light at most here.
                assert!(
                    (light / wall - 1.0).abs() < 0.01,
                    "{wall_px} px: {tissue:?}"
                );
            }
        }
    }

    #[test]
    fn without_wall_there_is_no_tissue() {
        assert_eq!(read(0, &Area::default()), None);
    }

    #[test]
    fn only_the_area_is_read() {
        let part = Area {
            outline: Outline::Rectangle(Rect {
                x: 0.0,
                y: 0.0,
                width: 240.0,
                height: 360.0,
            }),
            left_out: Vec::new(),
        };
        let pixels = |area: &Area| -> f64 {
            let tissue = read(16, area).expect("walls");
            tissue.patches.iter().map(|patch| patch.pixels).sum()
        };
        let share = pixels(&part) / pixels(&Area::default());
        assert!((share - 0.5).abs() < 0.1, "{share}");
    }
}
