//! From encoded samples to linear light.
//!
//! Samples are taken as sRGB (IEC 61966-2-1), as screens do with a picture that says nothing else;
//! embedded colour profiles are not applied. Luminance is CIE Y for the sRGB primaries and D65.

#![expect(
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    reason = "samples are small and within range by construction; rounding to f32 is meant"
)]

use super::Light;
use image::{DynamicImage, ImageBuffer, Luma, Pixel, Rgb, Rgb32FImage, RgbImage};
use rayon::prelude::*;
use std::sync::LazyLock;

/// Share of red, green and blue in luminance: middle row of the sRGB-to-XYZ matrix (IEC 61966-2-1,
/// figures to seven digits as published by B. Lindbloom).
const LUMINANCE: [f32; 3] = [0.212_672_9, 0.715_152_2, 0.072_175_0];

/// Pixels per parallel task: long enough to outweigh the hand-over, short enough to share out.
const TASK_PIXELS: usize = 1 << 16;

/// Linear light of each 8-bit sample.
static LINEAR_8: LazyLock<[f32; 1 << 8]> = LazyLock::new(table);
/// Linear light of each 16-bit sample.
static LINEAR_16: LazyLock<[f32; 1 << 16]> = LazyLock::new(table);

fn table<const LEVELS: usize>() -> [f32; LEVELS] {
    let top = (LEVELS - 1) as f64;
    std::array::from_fn(|sample| linear(sample as f64 / top) as f32)
}

/// The sRGB decoding of IEC 61966-2-1: encoded 0..1 to linear 0..1.
fn linear(encoded: f64) -> f64 {
    if encoded <= 0.04045 {
        encoded / 12.92
    } else {
        ((encoded + 0.055) / 1.055).powf(2.4)
    }
}

/// Linear light of an 8-bit sample, 0–1.
pub(crate) fn linear_sample(sample: u8) -> f32 {
    LINEAR_8[usize::from(sample)]
}

/// The 8-bit sample of linear light 0–1.
pub(crate) fn encoded_sample(light: f32) -> u8 {
    byte(encoded(f64::from(light)))
}

/// The inverse of [`linear`].
fn encoded(linear: f64) -> f64 {
    if linear <= 0.003_130_8 {
        linear * 12.92
    } else {
        1.055 * linear.powf(1.0 / 2.4) - 0.055
    }
}

/// The picture as a screen shows it, and its light.
///
/// Samples of 32 bits are linear already, and clipped to 0..1 (`common practice, no source`).
pub(super) fn picture_and_light(image: DynamicImage) -> (RgbImage, Light) {
    match over_white(image) {
        DynamicImage::ImageRgb8(rgb) => {
            let light = light_of(&rgb);
            (rgb, light)
        }
        DynamicImage::ImageLuma8(grey) => {
            let table = &*LINEAR_8;
            let light = grey_light(&grey, |sample: u8| table[usize::from(sample)]);
            (DynamicImage::from(grey).into_rgb8(), light)
        }
        DynamicImage::ImageLuma16(grey) => {
            let table = &*LINEAR_16;
            let light = grey_light(&grey, |sample: u16| table[usize::from(sample)]);
            (DynamicImage::from(grey).into_rgb8(), light)
        }
        DynamicImage::ImageRgb32F(rgb) => {
            let light = colour_light(&rgb, clipped);
            (on_screen(&rgb), light)
        }
        other => {
            let table = &*LINEAR_16;
            let rgb = other.into_rgb16();
            let light = colour_light(&rgb, |sample: u16| table[usize::from(sample)]);
            (DynamicImage::from(rgb).into_rgb8(), light)
        }
    }
}

/// The light of an 8-bit picture.
pub(super) fn light_of(rgb: &RgbImage) -> Light {
    let table = &*LINEAR_8;
    colour_light(rgb, |sample: u8| table[usize::from(sample)])
}

/// Luminance of RGB samples that `linear` turns into light.
fn colour_light<T>(picture: &ImageBuffer<Rgb<T>, Vec<T>>, linear: impl Fn(T) -> f32 + Sync) -> Light
where
    Rgb<T>: Pixel<Subpixel = T>,
    T: Copy + Sync,
{
    let [r, g, b] = LUMINANCE;
    light_by_pixel(picture, |&[red, green, blue]: &[T; 3]| {
        // The rounded shares add up to a hair above 1.
        (r * linear(red) + g * linear(green) + b * linear(blue)).min(1.0)
    })
}

/// Luminance of grey samples that `linear` turns into light.
fn grey_light<T>(picture: &ImageBuffer<Luma<T>, Vec<T>>, linear: impl Fn(T) -> f32 + Sync) -> Light
where
    Luma<T>: Pixel<Subpixel = T>,
    T: Copy + Sync,
{
    light_by_pixel(picture, |&[grey]: &[T; 1]| linear(grey))
}

fn light_by_pixel<P, const CHANNELS: usize>(
    picture: &ImageBuffer<P, Vec<P::Subpixel>>,
    light_of: impl Fn(&[P::Subpixel; CHANNELS]) -> f32 + Sync,
) -> Light
where
    P: Pixel,
    P::Subpixel: Sync,
{
    let mut light = Light::new(picture.width(), picture.height());
    light
        .par_chunks_mut(TASK_PIXELS)
        .zip(picture.as_chunks::<CHANNELS>().0.par_chunks(TASK_PIXELS))
        .for_each(|(light, pixels)| {
            for (light, pixel) in light.iter_mut().zip(pixels) {
                *light = light_of(pixel);
            }
        });
    light
}

/// A float sample within 0..1; what is not a number is black.
fn clipped(sample: f32) -> f32 {
    if sample > 0.0 { sample.min(1.0) } else { 0.0 }
}

/// A linear picture encoded for the screen.
fn on_screen(linear_rgb: &Rgb32FImage) -> RgbImage {
    let mut rgb = RgbImage::new(linear_rgb.width(), linear_rgb.height());
    rgb.par_iter_mut()
        .zip(linear_rgb.par_iter())
        .for_each(|(sample, &linear)| *sample = byte(encoded(f64::from(clipped(linear)))));
    rgb
}

/// Lays transparent pixels over white, in linear light as the PNG specification asks (ISO/IEC
/// 15948, clause 13.16). Opaque pictures pass untouched.
fn over_white(image: DynamicImage) -> DynamicImage {
    match image {
        DynamicImage::ImageLumaA8(picture) => {
            DynamicImage::ImageLuma8(blend(picture, over_white_8))
        }
        DynamicImage::ImageRgba8(picture) => DynamicImage::ImageRgb8(blend(picture, over_white_8)),
        DynamicImage::ImageLumaA16(picture) => {
            DynamicImage::ImageLuma16(blend(picture, over_white_16))
        }
        DynamicImage::ImageRgba16(picture) => {
            DynamicImage::ImageRgb16(blend(picture, over_white_16))
        }
        DynamicImage::ImageRgba32F(picture) => {
            DynamicImage::ImageRgb32F(blend(picture, |sample, alpha| {
                1.0 - clipped(alpha) * (1.0 - clipped(sample))
            }))
        }
        opaque => opaque,
    }
}

/// Drops the alpha channel, each sample becoming `over(sample, alpha)`. Works within the buffer,
/// since a photo may be large.
fn blend<From, To>(
    picture: ImageBuffer<From, Vec<From::Subpixel>>,
    over: impl Fn(From::Subpixel, From::Subpixel) -> From::Subpixel,
) -> ImageBuffer<To, Vec<To::Subpixel>>
where
    From: Pixel,
    To: Pixel<Subpixel = From::Subpixel>,
{
    let (width, height) = picture.dimensions();
    let (wide, narrow) = (
        usize::from(From::CHANNEL_COUNT),
        usize::from(To::CHANNEL_COUNT),
    );
    let mut samples = picture.into_raw();
    let pixels = samples.len() / wide;
    for pixel in 0..pixels {
        let alpha = samples[pixel * wide + narrow];
        for channel in 0..narrow {
            samples[pixel * narrow + channel] = over(samples[pixel * wide + channel], alpha);
        }
    }
    samples.truncate(pixels * narrow);
    samples.shrink_to_fit();
    ImageBuffer::from_raw(width, height, samples).expect("one sample per pixel and channel")
}

fn over_white_8(sample: u8, alpha: u8) -> u8 {
    match alpha {
        0 => u8::MAX,
        u8::MAX => sample,
        _ => {
            let share = f64::from(alpha) / f64::from(u8::MAX);
            let light = f64::from(LINEAR_8[usize::from(sample)]);
            byte(encoded(1.0 - share * (1.0 - light)))
        }
    }
}

fn over_white_16(sample: u16, alpha: u16) -> u16 {
    match alpha {
        0 => u16::MAX,
        u16::MAX => sample,
        _ => {
            let share = f64::from(alpha) / f64::from(u16::MAX);
            let light = f64::from(LINEAR_16[usize::from(sample)]);
            (encoded(1.0 - share * (1.0 - light)) * f64::from(u16::MAX)).round() as u16
        }
    }
}

/// An encoded value 0..1 as an 8-bit sample.
fn byte(encoded: f64) -> u8 {
    (encoded * f64::from(u8::MAX)).round() as u8
}

#[cfg(test)]
#[expect(clippy::float_cmp, reason = "white is 1 exactly")]
mod tests {
    use super::*;
    use image::{GrayAlphaImage, GrayImage, Rgba, RgbaImage};

    fn one<P: Pixel>(pixel: P) -> DynamicImage
    where
        DynamicImage: From<ImageBuffer<P, Vec<P::Subpixel>>>,
    {
        DynamicImage::from(ImageBuffer::from_pixel(1, 1, pixel))
    }

    fn seen(image: DynamicImage) -> ([u8; 3], f32) {
        let (rgb, light) = picture_and_light(image);
        (rgb.get_pixel(0, 0).0, light.get_pixel(0, 0).0[0])
    }

    /// Y of sRGB colours, computed with scikit-image and colour-science from IEC 61966-2-1; the
    /// primaries as published by B. Lindbloom.
    #[test]
    fn light_is_the_y_of_the_srgb_standard() {
        let cases = [
            ([0, 0, 0], 0.0),
            ([1, 1, 1], 0.000_303_5),
            ([10, 10, 10], 0.003_035_3),
            ([11, 11, 11], 0.003_346_5),
            ([64, 64, 64], 0.051_269_5),
            ([119, 119, 119], 0.184_475),
            ([128, 128, 128], 0.215_860_5),
            ([188, 188, 188], 0.502_886_5),
            ([255, 255, 255], 1.0),
            ([255, 0, 0], 0.212_672_9),
            ([0, 255, 0], 0.715_152_2),
            ([0, 0, 255], 0.072_175),
            ([255, 255, 0], 0.927_825_1),
        ];
        for (rgb, y) in cases {
            let (shown, light) = seen(one(Rgb(rgb)));
            assert!((light - y).abs() < 2e-7, "{rgb:?}: {light} for {y}");
            assert_eq!(shown, rgb);
        }
    }

    #[test]
    fn white_is_never_brighter_than_one() {
        assert_eq!(seen(one(Rgb([255u8; 3]))).1, 1.0);
        assert_eq!(seen(one(Rgb([u16::MAX; 3]))).1, 1.0);
        assert_eq!(seen(one(Luma([u16::MAX]))).1, 1.0);
    }

    #[test]
    fn grey_and_colour_agree_at_every_level() {
        for level in 0..=255u8 {
            let (grey_rgb, grey) = seen(one(Luma([level])));
            let (rgb, colour) = seen(one(Rgb([level; 3])));
            assert_eq!(grey_rgb, rgb);
            assert!((grey - colour).abs() < 2e-7);
            // 257 · level is the same tone in 16 bits.
            let (deep_rgb, deep) = seen(one(Luma([u16::from(level) * 257])));
            assert_eq!(deep_rgb, rgb);
            assert!((grey - deep).abs() < 1e-7);
            let (deep_rgb, deep) = seen(one(Rgb([u16::from(level) * 257; 3])));
            assert_eq!(deep_rgb, rgb);
            assert!((colour - deep).abs() < 1e-7);
        }
    }

    #[test]
    fn all_16_bits_count() {
        let (dark_rgb, dark) = seen(one(Rgb([30_000u16; 3])));
        let (bright_rgb, bright) = seen(one(Rgb([30_050u16; 3])));
        assert_eq!(dark_rgb, bright_rgb);
        assert!(bright > dark);
    }

    #[test]
    fn float_samples_are_linear_and_clipped() {
        let (rgb, light) = seen(one(Rgb([0.502_886_5_f32; 3])));
        assert_eq!(rgb, [188; 3]);
        assert!((light - 0.502_886_5).abs() < 2e-7);
        assert_eq!(seen(one(Rgb([f32::NAN; 3]))), ([0; 3], 0.0));
        assert_eq!(seen(one(Rgb([-1.0_f32; 3]))), ([0; 3], 0.0));
        assert_eq!(seen(one(Rgb([7.5_f32; 3]))), ([255; 3], 1.0));
        assert_eq!(seen(one(Rgba([0.2_f32, 0.2, 0.2, 0.0]))), ([255; 3], 1.0));
    }

    #[test]
    fn transparent_pixels_lie_over_white() {
        let rgba = RgbaImage::from_raw(3, 1, vec![9, 8, 7, 255, 0, 0, 0, 0, 0, 0, 0, 128]);
        let (rgb, light) = picture_and_light(rgba.unwrap().into());
        assert_eq!(rgb.get_pixel(0, 0).0, [9, 8, 7]);
        assert_eq!(rgb.get_pixel(1, 0).0, [255; 3]);
        assert_eq!(light.get_pixel(1, 0).0, [1.0]);
        // Black covering 128/255 lets 49.8 % of the light through: sRGB 187.5.
        assert_eq!(rgb.get_pixel(2, 0).0, [187; 3]);
        assert!((light.get_pixel(2, 0).0[0] - 127.0 / 255.0).abs() < 3e-3);

        let grey = GrayAlphaImage::from_raw(2, 1, vec![50, 255, 50, 0]).unwrap();
        let (rgb, _) = picture_and_light(grey.into());
        assert_eq!(rgb.into_raw(), [50, 50, 50, 255, 255, 255]);

        let deep = seen(one(Rgba([0u16, 0, 0, 32_768])));
        assert!((deep.1 - 32_767.0 / 65_535.0).abs() < 2e-5);
    }

    #[test]
    fn pictures_longer_than_one_task_are_filled_to_the_end() {
        let grey = GrayImage::from_pixel(1000, 700, Luma([255]));
        let (_, light) = picture_and_light(grey.into());
        assert!(light.iter().all(|&y| y == 1.0));
    }
}
