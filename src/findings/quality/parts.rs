//! Light of hollows and walls, and noise, part by part of the area: light may fall off over it.

use super::{each_in_area, photo_pixel};
use crate::geometry::{Point, Rect};
use crate::photo::{Light, Photo};
use crate::segmentation::{PX_PER_SPACING, Segmentation};

/// Side of the parts looked at one by one, in spacings: a few pores.
const PART: f64 = 3.0;
/// Looks at the noise per side of a part.
const LOOKS: usize = 32;

/// Sums of light, and how many pixels they are of.
#[derive(Clone, Copy, Default)]
pub(super) struct Part {
    hollow: (f64, f64),
    wall: (f64, f64),
    /// First and last pixel of the photo, both included.
    corners: [[u32; 2]; 2],
}

impl Part {
    /// How many pixels of the frame it has in the area.
    pub fn pixels(&self) -> f64 {
        self.hollow.1 + self.wall.1
    }

    /// Mean light.
    pub fn brightness(&self) -> f64 {
        (self.hollow.0 + self.wall.0) / self.pixels()
    }

    /// Light of the walls less that of the hollows; `None` where there is only one of them.
    pub fn contrast(&self) -> Option<f64> {
        (self.hollow.1 > 0.0 && self.wall.1 > 0.0)
            .then(|| self.wall.0 / self.wall.1 - self.hollow.0 / self.hollow.1)
    }

    /// Where it lies on the photo, px.
    pub fn bounds(&self) -> Rect {
        let [from, to] = self.corners.map(|[x, y]| Point::new(x.into(), y.into()));
        Rect::from_corners(from, to)
    }

    /// Standard deviation of the noise from pixel to pixel of the photo.
    pub fn noise(&self, photo: &Photo) -> f64 {
        noise(&photo.light, self.corners[0], self.corners[1])
    }
}

/// The parts that lie in the area.
pub(super) fn parts(segmentation: &Segmentation) -> Vec<Part> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "54 px"
    )]
    let side = (PART * PX_PER_SPACING) as usize;
    let (width, height) = segmentation.frame.size();
    let across = width.div_ceil(side);
    let mut parts = vec![Part::default(); across * height.div_ceil(side)];
    let light = segmentation.frame.light.as_raw();
    each_in_area(segmentation, |pixel, _, hollow| {
        let part = &mut parts[pixel / width / side * across + pixel % width / side];
        let (sum, count) = if hollow {
            &mut part.hollow
        } else {
            &mut part.wall
        };
        *sum += f64::from(light[pixel]);
        *count += 1.0;
    });
    for (k, part) in parts.iter_mut().enumerate() {
        let (x, y) = (k % across * side, k / across * side);
        let (last_x, last_y) = ((x + side).min(width) - 1, (y + side).min(height) - 1);
        part.corners = [
            photo_pixel(segmentation, x, y),
            photo_pixel(segmentation, last_x, last_y),
        ];
    }
    parts.retain(|part| part.pixels() > 0.0);
    parts
}

/// Standard deviation of the noise between two photo pixels: Immerkær (1996, Comput. Vis. Image
/// Underst. 64: 300–302), with the median in place of the mean so that edges do not count as noise.
fn noise(light: &Light, from: [u32; 2], to: [u32; 2]) -> f64 {
    let raw = light.as_raw();
    let [width, height] = [light.width() as usize, light.height() as usize];
    let places = |axis: usize, side: usize| {
        let first = (from[axis] as usize).max(1);
        let last = (to[axis] as usize).min(side.saturating_sub(2));
        (first..=last).step_by((last.saturating_sub(first) / LOOKS).max(1))
    };
    let mut responses: Vec<f32> = Vec::new();
    for y in places(1, height) {
        for x in places(0, width) {
            let row = |line: usize| {
                let at = line * width + x;
                raw[at - 1] - 2.0 * raw[at] + raw[at + 1]
            };
            responses.push((row(y - 1) - 2.0 * row(y) + row(y + 1)).abs());
        }
    }
    if responses.is_empty() {
        return 0.0;
    }
    let middle = responses.len() / 2;
    let median = f64::from(*responses.select_nth_unstable_by(middle, f32::total_cmp).1);
    // Median of |N(0, σ)| = 0.6745 σ; the mask multiplies the SD of white noise by 6.
    median / (0.6745 * 6.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::Luma;
    use rand::{RngExt as _, SeedableRng as _};

    /// The variance of a rectangular distribution of width w is w²/12 (JCGM 100:2008, 4.3.7). Its
    /// responses are sums of nine samples, so nearly normal: 5 % for that and for 1000 looks.
    #[test]
    fn noise_is_read_off_beside_an_edge() {
        let width = 0.06;
        let mut random = rand_pcg::Pcg64Mcg::seed_from_u64(3);
        let light = Light::from_fn(96, 96, |x, _| {
            let level = if x < 48 { 0.2 } else { 0.7 };
            Luma([level + width * (random.random::<f32>() - 0.5)])
        });
        let found = noise(&light, [0, 0], [95, 95]);
        let true_sd = f64::from(width) / 12.0_f64.sqrt();
        assert!(
            (found / true_sd - 1.0).abs() < 0.05,
            "{found} for {true_sd}"
        );
    }
}
