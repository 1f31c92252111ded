//! Bytes in, pixels out, as stored.

use super::{MAX_PIXELS, MAX_SIDE_PX, PhotoError};
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageError, ImageFormat, ImageReader, Limits};
use std::io::{BufRead, Cursor, Seek};
use std::path::Path;

/// Room for what a decoder keeps beside its pixels: colour profiles, palettes, tables.
const SIDE_BYTES: u64 = 64 << 20;

/// Most bytes a decoded pixel takes: four channels of 32 bits.
const MAX_PIXEL_BYTES: u64 = 16;

/// Decodes a whole file. The orientation is what the decoder itself knows of it.
///
/// # Errors
/// [`PhotoError`] for a picture too large, incomplete, damaged, or coded in an unknown way.
pub(super) fn decode(
    path: &Path,
    file: &[u8],
    format: ImageFormat,
) -> Result<(DynamicImage, Option<Orientation>), PhotoError> {
    if format == ImageFormat::Jpeg && is_cut_off(file) {
        return Err(PhotoError::Incomplete { path: path.into() });
    }
    let explain = |error| explain(path, format, error);

    let mut decoder = decoder(Cursor::new(file), format).map_err(explain)?;
    let (width, height) = checked_size(path, decoder.dimensions())?;
    let pixels = u64::from(width) * u64::from(height);
    decoder
        .set_limits(limits(SIDE_BYTES + pixels * MAX_PIXEL_BYTES))
        .map_err(explain)?;

    let turn = decoder.orientation().ok();
    let image = DynamicImage::from_decoder(decoder).map_err(explain)?;
    Ok((image, turn))
}

/// Width and height as the header tells them, px, as stored; nothing is decoded.
///
/// # Errors
/// [`PhotoError`] for a picture too large, damaged, or coded in an unknown way.
pub(super) fn size(
    path: &Path,
    file: impl BufRead + Seek,
    format: ImageFormat,
) -> Result<(u32, u32), PhotoError> {
    let decoder = decoder(file, format).map_err(|error| explain(path, format, error))?;
    checked_size(path, decoder.dimensions())
}

fn decoder<'a>(
    file: impl BufRead + Seek + 'a,
    format: ImageFormat,
) -> Result<impl ImageDecoder + 'a, ImageError> {
    let mut reader = ImageReader::with_format(file, format);
    reader.limits(limits(SIDE_BYTES));
    reader.into_decoder()
}

/// Sizes are checked before anything is allocated for pixels: the header may lie.
fn checked_size(path: &Path, (width, height): (u32, u32)) -> Result<(u32, u32), PhotoError> {
    let pixels = u64::from(width) * u64::from(height);
    if width > MAX_SIDE_PX || height > MAX_SIDE_PX || pixels > MAX_PIXELS {
        return Err(PhotoError::TooLarge {
            path: path.into(),
            width,
            height,
        });
    }
    Ok((width, height))
}

fn limits(bytes: u64) -> Limits {
    let mut limits = Limits::no_limits();
    limits.max_alloc = Some(bytes);
    limits
}

/// Whether a JPEG file ends before its picture. The decoder would fill the rest with grey, which
/// must not be measured.
///
/// A whole picture ends in an end-of-image marker (ITU-T T.81, B.1.1.3); the search starts behind
/// the header segments, because thumbnails in them have their own.
fn is_cut_off(file: &[u8]) -> bool {
    let mut at = 2;
    loop {
        match file.get(at..at + 4) {
            None => return true,
            Some(&[0xFF, 0xDA, ..]) => break,
            Some(&[0xFF, 0xFF, ..]) => at += 1,
            Some(&[0xFF, _, high, low]) => {
                at += 2 + usize::from(u16::from_be_bytes([high, low]));
            }
            // Not in the shape of a header: the decoder will say what is wrong with it.
            Some(_) => return false,
        }
    }
    !file[at..].windows(2).rev().any(|pair| pair == [0xFF, 0xD9])
}

fn explain(path: &Path, format: ImageFormat, error: ImageError) -> PhotoError {
    let kind = match format {
        ImageFormat::Jpeg => "JPEG",
        ImageFormat::Png => "PNG",
        ImageFormat::Tiff => "TIFF",
        ImageFormat::WebP => "WebP",
        _ => "BMP",
    };
    let path = path.into();
    match error {
        ImageError::Unsupported(reason) => PhotoError::UnknownCoding {
            path,
            kind,
            reason: reason.to_string(),
        },
        ImageError::Limits(_) => PhotoError::Damaged {
            path,
            kind,
            reason: "it asks for far more memory than its picture can need".into(),
        },
        other => PhotoError::Damaged {
            path,
            kind,
            reason: other.to_string(),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SOI: [u8; 2] = [0xFF, 0xD8];
    const EOI: [u8; 2] = [0xFF, 0xD9];
    /// An application segment with a whole thumbnail in it, end marker and all.
    const THUMBNAIL: [u8; 8] = [0xFF, 0xE1, 0, 6, 0xFF, 0xD8, 0xFF, 0xD9];
    const SCAN: [u8; 8] = [0xFF, 0xDA, 0, 2, 0x12, 0x34, 0xFF, 0x00];

    #[test]
    fn only_a_jpeg_without_its_end_is_cut_off() {
        let whole = [&SOI[..], &THUMBNAIL, &SCAN, &EOI].concat();
        assert!(!is_cut_off(&whole));
        let trailing = [&whole[..], b"a second picture follows"].concat();
        assert!(!is_cut_off(&trailing));
        let padded = [&SOI[..], &[0xFF; 3], &THUMBNAIL, &SCAN, &EOI].concat();
        assert!(!is_cut_off(&padded));
        for len in 2..whole.len() {
            assert!(is_cut_off(&whole[..len]), "{len} bytes");
        }
    }
}
