//! A photo without what a camera wrote beside it, such as where it was taken.

use super::upright::upright;
use super::{PhotoError, decode, exif, read};
use image::metadata::Orientation;
use image::{DynamicImage, ImageFormat};
use std::io::Cursor;
use std::path::Path;

/// A PNG file with the photo's pixels, upright, and with nothing else that the file said. Places stand in
/// EXIF, XMP, captions, maker's notes and pictures within pictures; what is not taken along cannot tell.
///
/// # Errors
/// As [`open`](super::open).
pub fn pixels_only(path: &Path) -> Result<Vec<u8>, PhotoError> {
    let (file, format) = read(path)?;
    let (image, turn) = decode::decode(path, &file, format)?;
    let turn = exif::read(&file).orientation.or(turn);
    let image = upright(image, turn.unwrap_or(Orientation::NoTransforms));
    // PNG has no floating point; 16 bits are what is kept of those in memory too.
    let image = match image {
        DynamicImage::ImageRgb32F(_) | DynamicImage::ImageRgba32F(_) => image.into_rgb16().into(),
        whole => whole,
    };
    let mut png = Cursor::new(Vec::new());
    image
        .write_to(&mut png, ImageFormat::Png)
        .map_err(|error| PhotoError::Unreadable {
            path: path.into(),
            reason: error.to_string(),
        })?;
    Ok(png.into_inner())
}
