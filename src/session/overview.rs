//! The photo at about the size of a screen, for zoomed-out views.

use image::{Rgb, RgbImage};
use std::fmt;

/// Longest side of an overview, px.
const LONGEST_SIDE: u32 = 2048;

/// A photo shrunk by a whole number, so that its pixels are plain means of photo pixels.
pub struct Overview {
    /// The picture.
    pub rgb: RgbImage,
    /// How many photo pixels lie along one side of an overview pixel, ≥ 1.
    pub shrink: u32,
}

impl fmt::Debug for Overview {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Overview")
            .field("size", &self.rgb.dimensions())
            .field("shrink", &self.shrink)
            .finish()
    }
}

impl Overview {
    /// Shrinks a photo until its longest side is at most 2048 px long.
    #[must_use]
    pub fn of(photo: &RgbImage) -> Self {
        let (width, height) = photo.dimensions();
        let shrink = width.max(height).div_ceil(LONGEST_SIDE).max(1);
        if shrink == 1 {
            return Self {
                rgb: photo.clone(),
                shrink,
            };
        }
        // The last row and column may lie over the edge in part: they average what is there.
        let rgb = RgbImage::from_fn(width.div_ceil(shrink), height.div_ceil(shrink), |x, y| {
            let mut sum = [0u32; 3];
            let mut count = 0;
            for py in y * shrink..((y + 1) * shrink).min(height) {
                for px in x * shrink..((x + 1) * shrink).min(width) {
                    for (sum, channel) in sum.iter_mut().zip(photo.get_pixel(px, py).0) {
                        *sum += u32::from(channel);
                    }
                    count += 1;
                }
            }
            Rgb(sum.map(|sum| u8::try_from(sum / count).unwrap_or(u8::MAX)))
        });
        Self { rgb, shrink }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_small_photo_is_its_own_overview() {
        let photo = RgbImage::from_pixel(30, 20, Rgb([1, 2, 3]));
        let overview = Overview::of(&photo);
        assert_eq!((overview.shrink, overview.rgb), (1, photo));
    }

    #[test]
    fn a_large_photo_is_averaged_and_covers_its_last_column() {
        // Columns alternate between 0 and 200; 2049 of them do not divide by two.
        let photo = RgbImage::from_fn(2049, 3, |x, _| Rgb([if x % 2 == 0 { 0 } else { 200 }; 3]));
        let overview = Overview::of(&photo);
        assert_eq!(overview.shrink, 2);
        assert_eq!(overview.rgb.dimensions(), (1025, 2));
        assert_eq!(overview.rgb.get_pixel(0, 0), &Rgb([100; 3]));
        assert_eq!(overview.rgb.get_pixel(1024, 1), &Rgb([0; 3]));
    }
}
