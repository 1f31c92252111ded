//! Something white on the photo, to which colours are referred.

use crate::card::Tones;
use crate::geometry::Rect;
use crate::photo::{self, Photo};
use serde::{Deserialize, Serialize};

/// Lightness L* that a white is taken to have: white paper and the white of colour charts lie between
/// 93 and 96 (the chart's white patch has 95.19; paper from memory), and 95 is at most two off.
pub const WHITE_LIGHTNESS: f64 = 95.0;

/// Fewest pixels whose mean is not noise.
const FEWEST_PIXELS: usize = 16;
/// Share of pixels at the end of the file's range up to which a mean is not moved by what is lost.
const MOST_CLIPPED: f64 = 0.01;
/// How far a corner may lie beyond the photo's edge by rounding alone, px.
const ROUNDING_PX: f64 = 1e-6;
/// Linear light below which an 8-bit step is more than 1 % and noise weighs more.
const DARKEST: f64 = 0.05;

/// What a white was.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum WhiteSource {
    /// A patch that a person pointed at.
    Patch,
    /// The white patch of Poreline's scale card.
    Card,
}

impl WhiteSource {
    /// The word used in findings.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Patch => "patch",
            Self::Card => "card",
        }
    }
}

/// Light of something white on a photo.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct White {
    /// Its mean linear red, green and blue, 0–1.
    pub light: [f64; 3],
    /// What it is.
    pub source: WhiteSource,
}

/// Why something cannot serve as white.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum WhiteError {
    /// Some of it lies beyond the photo's edge.
    #[error(
        "the white patch does not lie on the photo, which is {width} × {height} px; give a rectangle of \
         this photo, turned upright, counted from its top left corner"
    )]
    OffPhoto {
        /// Width of the photo, px.
        width: u32,
        /// Height of the photo, px.
        height: u32,
    },
    /// Too small for a mean.
    #[error(
        "the white patch holds only {0} pixels; give a larger one, of at least {FEWEST_PIXELS}"
    )]
    Small(usize),
    /// Light beyond the file's range.
    #[error(
        "{:.0} % of the white patch is at the end of the file's range, so the photo does not say how \
         bright it is. Expose more briefly, or give another white in the same light",
        100.0 * .0
    )]
    Clipped(f64),
    /// Hardly any light.
    #[error(
        "the white patch is too dark to be a white to go by: less than {:.0} % of the file's range in \
         linear light. Give something white beside the surface, in the same light",
        100.0 * DARKEST
    )]
    Dark,
}

impl White {
    /// The mean light of a patch of the photo, px; pixels whose centres lie in it count.
    ///
    /// # Errors
    /// [`WhiteError`] where the patch lies off the photo, is tiny, overexposed or dark.
    pub fn of_patch(photo: &Photo, patch: Rect) -> Result<Self, WhiteError> {
        let (width, height) = photo.rgb.dimensions();
        let lies_on = patch.x >= 0.0
            && patch.y >= 0.0
            && patch.x + patch.width <= f64::from(width) + ROUNDING_PX
            && patch.y + patch.height <= f64::from(height) + ROUNDING_PX;
        if !lies_on {
            return Err(WhiteError::OffPhoto { width, height });
        }
        let (mut pixels, mut clipped, mut sum) = (0_usize, 0_usize, [0.0; 3]);
        for y in inside(patch.y, patch.height) {
            for x in inside(patch.x, patch.width) {
                let samples = photo.rgb.get_pixel(x, y).0;
                pixels += 1;
                clipped += usize::from(samples.contains(&u8::MAX));
                for (sum, sample) in sum.iter_mut().zip(samples) {
                    *sum += f64::from(photo::linear_sample(sample));
                }
            }
        }
        if pixels < FEWEST_PIXELS {
            return Err(WhiteError::Small(pixels));
        }
        let share = clipped as f64 / pixels as f64;
        if share > MOST_CLIPPED {
            return Err(WhiteError::Clipped(share));
        }
        Self::bright(sum.map(|sum| sum / pixels as f64), WhiteSource::Patch)
    }

    /// The white of a scale card.
    ///
    /// # Errors
    /// [`WhiteError::Clipped`] and [`WhiteError::Dark`].
    pub fn of_card(tones: &Tones) -> Result<Self, WhiteError> {
        if tones
            .white
            .into_iter()
            .any(|light| light >= 1.0 - MOST_CLIPPED)
        {
            return Err(WhiteError::Clipped(1.0));
        }
        Self::bright(tones.white, WhiteSource::Card)
    }

    fn bright(light: [f64; 3], source: WhiteSource) -> Result<Self, WhiteError> {
        if light.into_iter().any(|light| light < DARKEST) {
            Err(WhiteError::Dark)
        } else {
            Ok(Self { light, source })
        }
    }

    /// Linear red, green and blue that light would have had under the lamp of sRGB, where this white
    /// reflects what a white of [`WHITE_LIGHTNESS`] does.
    pub(super) fn reflectance_of(&self, light: [f64; 3]) -> [f64; 3] {
        let luminance = ((WHITE_LIGHTNESS + 16.0) / 116.0).powi(3);
        [0, 1, 2].map(|c| light[c] / self.light[c] * luminance)
    }
}

/// Pixels whose centres lie between two places along an axis.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "on the photo"
)]
fn inside(from: f64, length: f64) -> std::ops::Range<u32> {
    let first_at_or_after = |place: f64| (place - 0.5).ceil().max(0.0) as u32;
    first_at_or_after(from)..first_at_or_after(from + length)
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::{Rgb, RgbImage};

    fn patch(x: f64, y: f64, width: f64, height: f64) -> Rect {
        Rect {
            x,
            y,
            width,
            height,
        }
    }

    /// Grey all over, but for a white square of 10 px with its corner at (20, 20).
    fn photo(white: [u8; 3]) -> Photo {
        let picture = RgbImage::from_fn(60, 40, |x, y| {
            let is_white = (20..30).contains(&x) && (20..30).contains(&y);
            Rgb(if is_white { white } else { [30; 3] })
        });
        Photo::from_rgb("white.png", picture)
    }

    #[test]
    fn a_white_is_the_mean_of_the_pixels_whose_centres_lie_in_it() {
        // Linear light of sRGB 188 and 119: IEC 61966-2-1, computed with scikit-image.
        for rect in [patch(20.0, 20.0, 10.0, 10.0), patch(19.6, 19.6, 10.8, 10.8)] {
            let white = White::of_patch(&photo([188, 188, 119]), rect).expect("a white");
            assert!((white.light[0] - 0.502_886_5).abs() < 1e-6, "{white:?}");
            assert!((white.light[2] - 0.184_475).abs() < 1e-6, "{white:?}");
        }
    }

    #[test]
    fn what_is_no_white_is_refused_with_the_reason() {
        let refused = |white: [u8; 3], rect: Rect| White::of_patch(&photo(white), rect).err();
        let on = patch(20.0, 20.0, 10.0, 10.0);
        assert_eq!(refused([200; 3], on), None);
        for off in [
            patch(-1.0, 20.0, 10.0, 10.0),
            patch(55.0, 20.0, 10.0, 10.0),
            patch(20.0, 35.0, 10.0, 10.0),
        ] {
            assert_eq!(
                refused([200; 3], off),
                Some(WhiteError::OffPhoto {
                    width: 60,
                    height: 40
                })
            );
        }
        assert_eq!(
            refused([200; 3], patch(20.0, 20.0, 3.0, 5.0)),
            Some(WhiteError::Small(15))
        );
        assert_eq!(refused([255, 200, 200], on), Some(WhiteError::Clipped(1.0)));
        assert_eq!(refused([200, 200, 60], on), Some(WhiteError::Dark));
    }

    #[test]
    fn a_pixel_in_a_hundred_may_be_clipped() {
        let mut photo = photo([200; 3]);
        photo.rgb.put_pixel(22, 22, Rgb([255; 3]));
        let on = patch(20.0, 20.0, 10.0, 10.0);
        assert!(White::of_patch(&photo, on).is_ok());
        photo.rgb.put_pixel(23, 22, Rgb([255; 3]));
        assert_eq!(White::of_patch(&photo, on), Err(WhiteError::Clipped(0.02)));
    }

    #[test]
    fn the_cards_paper_serves_unless_it_is_clipped_or_dark() {
        let tones = |white| Tones {
            white: [white; 3],
            grey: [0.2; 3],
            black: [0.02; 3],
        };
        assert!(White::of_card(&tones(0.8)).is_ok());
        assert_eq!(White::of_card(&tones(0.995)), Err(WhiteError::Clipped(1.0)));
        assert_eq!(White::of_card(&tones(0.03)), Err(WhiteError::Dark));
    }
}
