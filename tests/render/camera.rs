//! Light, lens, sensor and file: from a pattern to the photo of it.
//!
//! Everything up to the lens happens in linear light, where light adds up; noise is added to the
//! sRGB-encoded values, where it is read off.

use super::packing::normal;
use super::plane::{Plane, mottling};
use super::surface::{Kind, Pattern};
use image::codecs::jpeg::JpegEncoder;
use image::{ExtendedColorType, ImageEncoder as _, ImageResult, RgbImage};
use rand::SeedableRng as _;
use rand_pcg::Pcg64Mcg;
use rayon::prelude::*;

/// Linear red, green and blue, 1 = white paper in full light.
pub type Colour = [f32; 3];

/// A picture in linear light.
#[derive(Clone, Debug)]
pub struct Picture {
    pub channels: [Plane; 3],
}

/// The fungus as the light finds it.
#[derive(Clone, Debug)]
pub struct Tissue {
    pub wall: Colour,
    /// Light from the middle of a void, as a share of the wall's.
    pub void_ratio: f32,
    /// How far voids are redder than walls: 0 = same hue.
    pub void_warmth: f32,
    /// How much the lit side of a tube is brighter, the shaded one darker; 0 = flat floors.
    pub tube_light: f32,
    /// How much rims facing the light are brighter; 0 = flat walls.
    pub rim_light: f32,
    /// How much deeper some voids look than others, as a standard deviation of their light.
    pub depth_variation: f32,
    /// Standard deviation of blotches larger than pores, a share of the brightness.
    pub mottling: f32,
    /// Standard deviation of texture smaller than pores, a share of the brightness.
    pub grain: f32,
    /// Standard deviation of slow changes of hue.
    pub hue_variation: f32,
    pub seed: u64,
}

pub const PALE: Colour = [0.66, 0.57, 0.42];
pub const TAN: Colour = [0.46, 0.31, 0.165];
pub const VIOLET: Colour = [0.36, 0.285, 0.325];
pub const GREY: Colour = [0.40, 0.37, 0.32];

impl Default for Tissue {
    fn default() -> Self {
        Self {
            wall: PALE,
            void_ratio: 0.25,
            void_warmth: 0.25,
            tube_light: 0.3,
            rim_light: 0.12,
            depth_variation: 0.12,
            mottling: 0.05,
            grain: 0.03,
            hue_variation: 0.012,
            seed: 5,
        }
    }
}

impl Tissue {
    /// Tissue of one grey throughout, for tests that want nothing else to vary.
    pub fn plain(wall: f32, void_ratio: f32) -> Self {
        Self {
            wall: [wall; 3],
            void_ratio,
            void_warmth: 0.0,
            tube_light: 0.0,
            rim_light: 0.0,
            depth_variation: 0.0,
            mottling: 0.0,
            grain: 0.0,
            hue_variation: 0.0,
            seed: 0,
        }
    }
}

/// Everything between the fungus and the file.
#[derive(Clone, Debug)]
pub struct Camera {
    pub exposure: f32,
    /// Where the light travels to across the picture: 0 = along x, clockwise on screen.
    pub light_deg: f64,
    /// Brightness at the far end of the light's way, a share of that at the near end.
    pub falloff: f32,
    /// Standard deviation of the Gaussian blur, px.
    pub blur_px: f64,
    /// The same at the right edge, where the focus drifts across the picture.
    pub blur_right_px: Option<f64>,
    /// Strength of the halo that sharpening leaves, 0 = none.
    pub sharpening: f32,
    /// Standard deviation of the noise, a share of full scale after sRGB encoding.
    pub noise: f64,
    /// JPEG quality 1–100, or PNG.
    pub jpeg_quality: Option<u8>,
    pub seed: u64,
}

impl Default for Camera {
    fn default() -> Self {
        Self {
            exposure: 1.0,
            light_deg: 30.0,
            falloff: 1.0,
            blur_px: 0.8,
            blur_right_px: None,
            sharpening: 0.0,
            noise: 0.01,
            jpeg_quality: Some(88),
            seed: 9,
        }
    }
}

impl Picture {
    pub fn from_fn(
        width: usize,
        height: usize,
        colour: impl Fn(usize, usize) -> Colour + Sync,
    ) -> Self {
        let rows: Vec<Vec<Colour>> = (0..height)
            .into_par_iter()
            .map(|y| (0..width).map(|x| colour(x, y)).collect())
            .collect();
        let channel = |c: usize| Plane {
            width,
            height,
            values: rows.iter().flatten().map(|colour| colour[c]).collect(),
        };
        Self {
            channels: [channel(0), channel(1), channel(2)],
        }
    }

    pub fn width(&self) -> usize {
        self.channels[0].width
    }

    pub fn height(&self) -> usize {
        self.channels[0].height
    }

    /// Lays a colour over a pixel; `share` 0 leaves it, 1 hides it.
    pub fn lay(&mut self, index: usize, colour: Colour, share: f32) {
        for (channel, value) in self.channels.iter_mut().zip(colour) {
            let pixel = &mut channel.values[index];
            *pixel += share * (value - *pixel);
        }
    }

    /// Dims or brightens a pixel.
    pub fn scale(&mut self, index: usize, factor: f32) {
        for channel in &mut self.channels {
            channel.values[index] *= factor;
        }
    }
}

/// How the light falls on a pattern, before any lens: each pixel the mean of what is in it.
pub fn lit(pattern: &Pattern, tissue: &Tissue, light_deg: f64) -> Picture {
    let (void, spacing) = (&pattern.void, pattern.surface.spacing_px);
    let (width, height) = (void.width, void.height);
    // Rims and tubes are told by blurred copies of the void: it rises along the light where the
    // surface drops away into a shaded side, and falls where a lit side comes up.
    let facing = void.blurred(0.14 * spacing).slope(light_deg);
    let depth = void.blurred(0.2 * spacing);
    let relief = pattern.relief.slope(light_deg);
    let around = pattern.relief.blurred(3.0);
    let noise = |strength: f32, wavelengths_px: &[f64], seed: u64| {
        if strength == 0.0 {
            return Plane::uniform(width, height, 0.0);
        }
        let mut plane = mottling(width, height, wavelengths_px, seed);
        plane.values.iter_mut().for_each(|v| *v *= strength);
        plane
    };
    let sized = |sizes: &[f64]| sizes.iter().map(|s| s * spacing).collect::<Vec<f64>>();
    let blotches = noise(tissue.mottling, &sized(&[3.0, 8.0, 20.0]), tissue.seed);
    let finest = (0.25 * spacing).min(6.0);
    let grain = noise(tissue.grain, &[finest, 2.0, 3.5 * finest], tissue.seed + 10);
    let hue = noise(tissue.hue_variation, &sized(&[6.0, 17.0]), tissue.seed + 20);
    let depths = noise(tissue.depth_variation, &sized(&[1.8]), tissue.seed + 30);
    let open = pattern.surface.kind != Kind::Smooth;

    Picture::from_fn(width, height, |x, y| {
        let index = y * width + x;
        let turned = -facing.values[index] * spacing as f32;
        // Grooves get less light from all round, bumps more.
        let raised = pattern.relief.values[index] - around.values[index];
        let skin = (1.0 + blotches.values[index])
            * (1.0 + grain.values[index])
            * (1.0 + 0.55 * relief.values[index]).clamp(0.25, 1.9)
            * (1.0 + 0.5 * raised).clamp(0.3, 1.15);
        let rim = (1.0 + tissue.rim_light * turned).clamp(0.6, 1.4);
        let sunk = 0.5 - depth.values[index];
        let tube = ((1.0 + 1.3 * tissue.tube_light * turned)
            * (1.0 + tissue.tube_light * sunk)
            * (1.0 + depths.values[index]))
            .clamp(0.35, 2.2);
        let share = void.values[index];
        let tint = hue.values[index];
        let warmth = [1.0 + tissue.void_warmth, 1.0, 1.0 - tissue.void_warmth];
        let hues = [1.0 + tint, 1.0, 1.0 - 1.6 * tint];
        std::array::from_fn(|c| {
            let wall = tissue.wall[c] * hues[c] * skin;
            let hollow = wall * tissue.void_ratio * warmth[c] * tube;
            let solid = wall * if open { rim } else { 1.0 };
            share * hollow + (1.0 - share) * solid
        })
    })
}

impl Camera {
    /// The photo of a pattern without any scenery.
    pub fn photograph(&self, pattern: &Pattern, tissue: &Tissue) -> RgbImage {
        self.expose(&lit(pattern, tissue, self.light_deg))
    }

    /// The photo of a picture in linear light.
    pub fn expose(&self, picture: &Picture) -> RgbImage {
        let (width, height) = (picture.width(), picture.height());
        let (sin, cos) = self.light_deg.to_radians().sin_cos();
        let way = f64::midpoint(width as f64 * cos.abs(), height as f64 * sin.abs());
        let fall = |x: usize, y: usize| {
            let along = (x as f64 + 0.5 - width as f64 / 2.0) * cos
                + (y as f64 + 0.5 - height as f64 / 2.0) * sin;
            let share = (0.5 + 0.5 * along / way) as f32;
            self.exposure * (1.0 + share * (self.falloff - 1.0))
        };
        let mut encoded = picture.channels.clone().map(|channel| {
            let bright = Plane::from_fn(width, height, |x, y| {
                channel.values[y * width + x] * fall(x, y)
            });
            let mut seen = self.through_lens(&bright);
            seen.values
                .par_iter_mut()
                .for_each(|v| *v = srgb_encoded(*v));
            if self.sharpening > 0.0 {
                let soft = seen.blurred(1.3);
                let pairs = seen.values.iter_mut().zip(&soft.values);
                pairs.for_each(|(v, soft)| *v += self.sharpening * (*v - soft));
            }
            seen
        });
        if self.noise > 0.0 {
            for (c, channel) in encoded.iter_mut().enumerate() {
                // Every row has its own generator, so that the order of the work doesn't matter.
                let rows = channel.values.par_chunks_mut(width).enumerate();
                rows.for_each(|(y, row)| {
                    let stream = ((3 * y + c) as u64) << 20;
                    let mut random = Pcg64Mcg::seed_from_u64(self.seed ^ stream);
                    for value in row {
                        *value += (self.noise * normal(&mut random)) as f32;
                    }
                });
            }
        }
        RgbImage::from_fn(width as u32, height as u32, |x, y| {
            let index = y as usize * width + x as usize;
            let byte = |c: usize| (encoded[c].values[index].clamp(0.0, 1.0) * 255.0).round() as u8;
            image::Rgb([byte(0), byte(1), byte(2)])
        })
    }

    fn through_lens(&self, bright: &Plane) -> Plane {
        /// Between a few blurred copies the variance is what changes evenly.
        const COPIES: usize = 6;
        let Some(right) = self.blur_right_px else {
            return bright.blurred(self.blur_px);
        };
        let sigma = |share: f64| self.blur_px + share * (right - self.blur_px);
        let share = |copy: usize| copy as f64 / (COPIES - 1) as f64;
        let copies: Vec<Plane> = (0..COPIES)
            .map(|k| bright.blurred(sigma(share(k))))
            .collect();
        let width = bright.width;
        Plane::from_fn(width, bright.height, |x, y| {
            let here = (x as f64 + 0.5) / width as f64;
            let left = ((here * (COPIES - 1) as f64) as usize).min(COPIES - 2);
            let variance = |s: f64| sigma(s).powi(2);
            let span = variance(share(left + 1)) - variance(share(left));
            let weight = if span == 0.0 {
                0.0
            } else {
                (variance(here) - variance(share(left))) / span
            };
            let value = |copy: usize| copies[copy].values[y * width + x];
            value(left) + weight as f32 * (value(left + 1) - value(left))
        })
    }

    /// The bytes of the photo's file.
    pub fn file(&self, photo: &RgbImage) -> ImageResult<Vec<u8>> {
        let mut bytes = Vec::new();
        match self.jpeg_quality {
            Some(quality) => {
                JpegEncoder::new_with_quality(&mut bytes, quality).encode_image(photo)?;
            }
            None => image::codecs::png::PngEncoder::new_with_quality(
                &mut bytes,
                image::codecs::png::CompressionType::Best,
                image::codecs::png::FilterType::Adaptive,
            )
            .write_image(
                photo.as_raw(),
                photo.width(),
                photo.height(),
                ExtendedColorType::Rgb8,
            )?,
        }
        Ok(bytes)
    }
}

/// Linear light to sRGB (IEC 61966-2-1), both 0 to 1.
pub fn srgb_encoded(linear: f32) -> f32 {
    if linear <= 0.003_130_8 {
        12.92 * linear.max(0.0)
    } else {
        1.055 * linear.powf(1.0 / 2.4) - 0.055
    }
}

#[cfg(test)]
mod tests {
    use super::super::surface::Surface;
    use super::*;

    #[test]
    fn the_same_description_gives_the_same_bytes() {
        let surface = Surface {
            width_px: 200,
            height_px: 150,
            ..Surface::default()
        };
        let camera = Camera::default();
        let make = || camera.file(&camera.photograph(&surface.render(), &Tissue::default()));
        assert_eq!(make().expect("a JPEG"), make().expect("a JPEG"));
    }

    #[test]
    fn noise_and_falloff_are_as_strong_as_asked() {
        let even = |falloff, noise| Camera {
            falloff,
            noise,
            light_deg: 0.0,
            ..Camera::default()
        };
        let card = Picture::from_fn(400, 300, |_, _| [0.5; 3]);
        let photo = even(1.0, 0.03).expose(&card);
        let bytes: Vec<f64> = photo
            .as_raw()
            .iter()
            .map(|&b| f64::from(b) / 255.0)
            .collect();
        let mean = bytes.iter().sum::<f64>() / bytes.len() as f64;
        let variance = bytes.iter().map(|b| (b - mean).powi(2)).sum::<f64>() / bytes.len() as f64;
        assert!((mean - f64::from(srgb_encoded(0.5))).abs() < 1e-3, "{mean}");
        assert!((variance.sqrt() - 0.03).abs() < 5e-4, "{}", variance.sqrt());

        let photo = even(0.5, 0.0).expose(&card);
        let far = f32::from(photo.get_pixel(399, 150).0[0]) / 255.0;
        assert!((far - srgb_encoded(0.25)).abs() < 0.005, "{far}");
    }
}
