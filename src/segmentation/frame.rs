//! The part of the photo that is looked at, at a resolution where every spacing has the same number of pixels.
//!
//! Every later length (smoothing, smallest pore, guard band) is then a share of the spacing, and
//! nobody has to turn a knob.

use crate::area::Rows;
use crate::geometry::{Point, Rect};
use crate::photo::Light;
use rayon::prelude::*;

/// Pixels per spacing at which pores are looked for.
pub const PX_PER_SPACING: f64 = 18.0;

/// A resampled part of the photo. *Frame px* are its pixels, *photo px* those of the photo.
#[derive(Debug, Clone)]
pub struct Frame {
    /// Left and top of the frame, photo px.
    pub origin: Point,
    /// Photo px per frame px.
    pub step: f64,
    /// Linear luminance.
    pub light: Light,
}

impl Frame {
    /// Resamples the part of the photo inside `bounds` at `step` photo px per frame px: by exact
    /// area means when that makes it smaller, by cubic interpolation (Keys 1981) when larger.
    #[must_use]
    pub fn of(photo: &Light, bounds: Rect, step: f64) -> Self {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "no larger than the photo at PX_PER_SPACING"
        )]
        let count = |length: f64| ((length / step).floor() as u32).max(1);
        let origin = Point::new(bounds.x, bounds.y);
        let (width, height) = (count(bounds.width), count(bounds.height));
        let columns = Taps::for_axis(origin.x, step, width, photo.width());
        let rows = Taps::for_axis(origin.y, step, height, photo.height());
        let stride = photo.width() as usize;
        let source = photo.as_raw();
        let mut pixels = vec![0.0_f32; width as usize * height as usize];
        pixels
            .par_chunks_mut(width as usize)
            .zip(&rows)
            .for_each_init(
                || vec![0.0_f32; stride],
                |line, (out, row)| {
                    line.fill(0.0);
                    for (y, weight) in row.iter() {
                        let from = &source[y * stride..(y + 1) * stride];
                        for (sum, value) in line.iter_mut().zip(from) {
                            *sum += weight * value;
                        }
                    }
                    for (value, column) in out.iter_mut().zip(&columns) {
                        *value = column.iter().map(|(x, weight)| weight * line[x]).sum();
                    }
                },
            );
        Self {
            origin,
            step,
            light: Light::from_raw(width, height, pixels).unwrap_or_default(),
        }
    }

    /// A place in the frame, as a place on the photo.
    #[must_use]
    pub fn photo_from_frame(&self, p: Point) -> Point {
        Point::new(
            self.origin.x + p.x * self.step,
            self.origin.y + p.y * self.step,
        )
    }

    /// A place on the photo, as a place in the frame.
    #[must_use]
    pub fn frame_from_photo(&self, p: Point) -> Point {
        Point::new(
            (p.x - self.origin.x) / self.step,
            (p.y - self.origin.y) / self.step,
        )
    }

    /// Which pixels have their centre in an area.
    #[must_use]
    pub fn centres_in(&self, area: &Rows<'_>) -> Vec<bool> {
        let (width, height) = self.size();
        let mut centres = vec![false; width * height];
        centres
            .par_chunks_mut(width.max(1))
            .enumerate()
            .for_each(|(y, out)| {
                #[expect(clippy::cast_precision_loss, reason = "pixel numbers")]
                let centre =
                    |x: usize| self.photo_from_frame(Point::new(x as f64 + 0.5, y as f64 + 0.5));
                let row = area.at(centre(0).y);
                for (x, out) in out.iter_mut().enumerate() {
                    *out = row.holds(centre(x).x);
                }
            });
        centres
    }

    /// Frame pixels across and down.
    #[must_use]
    pub fn size(&self) -> (usize, usize) {
        (self.light.width() as usize, self.light.height() as usize)
    }
}

/// Source pixels and their weights, of unit sum, for one output pixel along one axis.
struct Taps {
    first: usize,
    weights: Vec<f32>,
}

impl Taps {
    fn iter(&self) -> impl Iterator<Item = (usize, f32)> + '_ {
        self.weights
            .iter()
            .enumerate()
            .map(|(i, &w)| (self.first + i, w))
    }

    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "pixel numbers"
    )]
    fn for_axis(origin: f64, step: f64, count: u32, limit: u32) -> Vec<Self> {
        let last = limit as usize - 1;
        (0..count)
            .map(|i| {
                let from = origin + f64::from(i) * step;
                let (low, high, weight): (f64, f64, Box<dyn Fn(f64) -> f64>) = if step >= 1.0 {
                    let to = from + step;
                    (
                        from,
                        to,
                        Box::new(move |x| (to.min(x + 1.0) - from.max(x)).max(0.0)),
                    )
                } else {
                    let centre = from + step / 2.0 - 0.5;
                    (
                        centre - 1.0,
                        centre + 2.0,
                        Box::new(move |x| keys_cubic(x - centre)),
                    )
                };
                let first = low.floor().max(0.0) as usize;
                let end = (high.ceil().max(1.0) as usize).min(limit as usize);
                let first = first.min(last);
                let mut weights: Vec<f32> = (first..end.max(first + 1))
                    .map(|x| weight(x as f64) as f32)
                    .collect();
                let sum: f32 = weights.iter().sum();
                if sum.abs() > f32::EPSILON {
                    for weight in &mut weights {
                        *weight /= sum;
                    }
                } else {
                    let share = 1.0 / weights.len() as f32;
                    weights.fill(share);
                }
                Self { first, weights }
            })
            .collect()
    }
}

/// Cubic convolution kernel with a = −½ (Keys 1981, IEEE Trans. ASSP 29: 1153–1160).
fn keys_cubic(x: f64) -> f64 {
    let x = x.abs();
    if x < 1.0 {
        (1.5 * x - 2.5) * x * x + 1.0
    } else if x < 2.0 {
        ((-0.5 * x + 2.5) * x - 4.0) * x + 2.0
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::Luma;

    /// To an eighth of a photo pixel: a pixel is even all over, so a part of it weighs at its middle.
    #[test]
    fn a_ramp_stays_a_ramp_at_any_step() {
        #[expect(clippy::cast_precision_loss, reason = "small")]
        let photo = Light::from_fn(64, 48, |x, _| Luma([(x as f32 + 0.5) / 64.0]));
        let bounds = Rect {
            x: 8.0,
            y: 8.0,
            width: 40.0,
            height: 30.0,
        };
        for step in [0.45, 1.0, 1.7, 3.0] {
            let frame = Frame::of(&photo, bounds, step);
            let middle = frame.light.height() / 2;
            for x in 0..frame.light.width() {
                let at = frame
                    .photo_from_frame(Point::new(f64::from(x) + 0.5, 0.5))
                    .x;
                let value = f64::from(frame.light.get_pixel(x, middle).0[0]);
                assert!(
                    (value - at / 64.0).abs() < 0.125 / 64.0,
                    "step {step}, x {x}: {value} for {}",
                    at / 64.0
                );
            }
        }
    }
}
