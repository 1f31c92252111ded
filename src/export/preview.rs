//! Pictures made small, as JPEG files: for the eye, not for measuring.

use image::codecs::jpeg::JpegEncoder;
use image::imageops::{self, FilterType};
use image::{ImageError, RgbImage};

/// Of JPEG, 1–100: lines stay clean.
const QUALITY: u8 = 90;

/// A picture as a JPEG file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Preview {
    /// The file's bytes.
    pub jpeg: Vec<u8>,
    /// Width.
    pub width_px: u32,
    /// Height.
    pub height_px: u32,
}

/// The picture, its longer side so many px at most. As this is for the eye, it may be made smaller on
/// encoded values.
///
/// # Errors
/// When memory runs out.
pub fn jpeg(picture: &RgbImage, longest_px: u32) -> Result<Preview, ImageError> {
    let longest = picture.width().max(picture.height());
    let smaller;
    let picture = if longest > longest_px {
        let side = |px: u32| {
            let side = u64::from(px) * u64::from(longest_px) / u64::from(longest);
            u32::try_from(side).unwrap_or(longest_px).max(1)
        };
        smaller = imageops::resize(
            picture,
            side(picture.width()),
            side(picture.height()),
            FilterType::Triangle,
        );
        &smaller
    } else {
        picture
    };
    let mut jpeg = Vec::new();
    JpegEncoder::new_with_quality(&mut jpeg, QUALITY).encode_image(picture)?;
    Ok(Preview {
        jpeg,
        width_px: picture.width(),
        height_px: picture.height(),
    })
}
