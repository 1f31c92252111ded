//! One image file, upright, never altered on disk.
//!
//! JPEG, PNG, TIFF, WebP and BMP are read, recognised by content. Every other file, and every
//! damaged one, is refused with a [`PhotoError`] that says what to do about it.

mod between;
mod decode;
mod density;
mod error;
mod exif;
mod glance;
mod kind;
mod light;
mod pixels_only;
mod upright;

pub(crate) use between::light_between;
pub use density::{Density, DensityIn};
pub use error::PhotoError;
pub use glance::{Glance, glance};
pub use kind::ForeignKind;
pub(crate) use light::{encoded_sample, linear_sample};
pub use pixels_only::pixels_only;

use crate::geometry::Rect;
use image::metadata::Orientation;
use image::{ImageBuffer, ImageFormat, Luma, RgbImage};
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::ffi::OsStr;
use std::fmt;
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use upright::upright;

/// Longest side of a photo, pixels. Beyond it are panoramas and lies in damaged headers; pictures
/// that long have to be cut for measuring anyway.
pub const MAX_SIDE_PX: u32 = 50_000;

/// Most pixels of a photo. Stitched and pixel-shift photos reach some hundred million; at 12 bytes
/// each, 400 million still fit into the memory of an ordinary computer (4.8 GB).
pub const MAX_PIXELS: u64 = 400_000_000;

/// Longest file, bytes: [`MAX_PIXELS`] of four uncompressed 16-bit channels.
pub const MAX_FILE_BYTES: u64 = MAX_PIXELS * 8;

/// Side of the blocks in which a JPEG file keeps its luminance, px (ITU-T T.81, A.1.1).
pub const JPEG_BLOCK_PX: u32 = 8;

/// Relative luminance in linear light, 0 = black, 1 = the sensor's white.
///
/// Light adds up linearly, so every mean and every half depth is taken on this and not on the
/// encoded picture.
pub type Light = ImageBuffer<Luma<f32>, Vec<f32>>;

/// Where a photo was taken, from its EXIF block.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Degrees north, WGS 84.
    pub latitude: f64,
    /// Degrees east, WGS 84.
    pub longitude: f64,
}

/// Which camera took a photo, and at which zoom, from its EXIF block; it has one of the names at least.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Camera {
    /// Its maker.
    pub make: Option<String>,
    /// Its model.
    pub model: Option<String>,
    /// Focal length of the lens as it was set, mm.
    pub focal_length_mm: Option<f64>,
}

impl fmt::Display for Camera {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (&self.make, &self.model) {
            // Many models begin with their maker.
            (Some(make), Some(model)) if !model.starts_with(make) => write!(f, "{make} {model}"),
            (_, Some(name)) | (Some(name), None) => write!(f, "{name}"),
            (None, None) => write!(f, "unnamed camera"),
        }
    }
}

/// A photo in memory.
#[derive(Clone)]
pub struct Photo {
    /// Where it was read from.
    pub path: PathBuf,
    /// SHA-256 of the file's bytes, 64 lower-case hexadecimal digits.
    pub sha256: String,
    /// The upright picture as a screen shows it, sRGB, 8 bits.
    pub rgb: RgbImage,
    /// The upright picture's linear luminance, from all bits the file has.
    pub light: Light,
    /// When it was taken, ISO 8601, local time, with the offset where the camera wrote one.
    pub taken: Option<String>,
    /// Where it was taken.
    pub place: Option<Place>,
    /// Which camera took it.
    pub camera: Option<Camera>,
    /// What its file says of pixels per millimetre, the surest first; mostly nothing that holds.
    pub densities: Vec<Density>,
    /// Of a JPEG file, where the upright photo's first block of [`JPEG_BLOCK_PX`] begins: columns and
    /// rows, less than a block. Turning a photo whose sides are no multiple of a block moves it.
    pub jpeg_blocks_from: Option<(u32, u32)>,
}

impl Photo {
    /// The whole photo as a rectangle, px.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        Rect::of_size(self.light.width(), self.light.height())
    }

    /// A photo out of a picture already in memory, such as a generated one. Its SHA-256 is that of
    /// the samples row by row, since there is no file; time and place are unknown.
    #[must_use]
    pub fn from_rgb(path: impl Into<PathBuf>, rgb: RgbImage) -> Self {
        Self {
            path: path.into(),
            sha256: sha256(&rgb),
            light: light::light_of(&rgb),
            rgb,
            taken: None,
            place: None,
            camera: None,
            densities: Vec::new(),
            jpeg_blocks_from: None,
        }
    }
}

/// Names and sizes; the pixels would fill the screen.
impl fmt::Debug for Photo {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Photo")
            .field("path", &self.path)
            .field("sha256", &self.sha256)
            .field("size_px", &self.rgb.dimensions())
            .field("taken", &self.taken)
            .field("place", &self.place)
            .finish_non_exhaustive()
    }
}

/// Opens a photo: reads the file once, checks it, decodes it and turns it upright.
///
/// # Errors
/// [`PhotoError`] when the file cannot be read, is not a photo of a kind Poreline knows, is larger
/// than [`MAX_SIDE_PX`] or [`MAX_PIXELS`], or is damaged.
pub fn open(path: &Path) -> Result<Photo, PhotoError> {
    let (file, format) = read(path)?;
    let told = exif::read(&file);
    if format == ImageFormat::Tiff && told.preview_only {
        return Err(PhotoError::Foreign {
            path: path.into(),
            kind: ForeignKind::PreviewOnly,
        });
    }
    let (sha256, decoded) = rayon::join(|| sha256(&file), || decode::decode(path, &file, format));
    let (image, turn) = decoded?;
    let mut densities = density::read(&file, format);
    if format != ImageFormat::Tiff {
        densities.extend(told.density);
    }
    drop(file);
    let turn = told.orientation.or(turn);
    let turn = turn.unwrap_or(Orientation::NoTransforms);
    let (rgb, light) = light::picture_and_light(upright(image, turn));
    Ok(Photo {
        path: path.into(),
        sha256,
        jpeg_blocks_from: (format == ImageFormat::Jpeg)
            .then(|| blocks_from(rgb.dimensions(), turn)),
        rgb,
        light,
        taken: told.taken,
        place: told.place,
        camera: told.camera,
        densities,
    })
}

/// Where the first whole block begins in an upright picture whose stored blocks begin in a corner.
fn blocks_from((width, height): (u32, u32), turn: Orientation) -> (u32, u32) {
    use Orientation as O;
    let (from_right, from_bottom) = match turn {
        O::NoTransforms | O::Rotate90FlipH => (false, false),
        O::FlipHorizontal | O::Rotate90 => (true, false),
        O::FlipVertical | O::Rotate270 => (false, true),
        O::Rotate180 | O::Rotate270FlipH => (true, true),
    };
    let first = |side: u32, from_end: bool| if from_end { side % JPEG_BLOCK_PX } else { 0 };
    (first(width, from_right), first(height, from_bottom))
}

/// A photo's file, opened, with what its first bytes tell.
struct Opened {
    /// What was read so far.
    head: Vec<u8>,
    /// The rest.
    rest: File,
    format: ImageFormat,
    bytes: u64,
}

/// Opens a file and looks at its first bytes. Foreign kinds are refused there, so that nobody waits for a
/// video to be read.
fn begin(path: &Path) -> Result<Opened, PhotoError> {
    let unread = |error| unread(path, &error);
    // Opening a pipe would wait for its other end for ever, so this comes first.
    let metadata = fs::metadata(path).map_err(unread)?;
    if !metadata.is_file() {
        return Err(PhotoError::NotAFile {
            path: path.into(),
            what: if metadata.is_dir() {
                "folder"
            } else {
                "device or pipe"
            },
        });
    }
    let mut source = File::open(path).map_err(unread)?;

    let mut head = Vec::new();
    (&mut source)
        .take(kind::HEAD_BYTES as u64)
        .read_to_end(&mut head)
        .map_err(unread)?;
    if head.is_empty() {
        return Err(PhotoError::Empty { path: path.into() });
    }
    let extension = path.extension().and_then(OsStr::to_str);
    let format = kind::recognise(&head, extension).map_err(|kind| PhotoError::Foreign {
        path: path.into(),
        kind,
    })?;

    let bytes = metadata.len();
    if bytes > MAX_FILE_BYTES {
        return Err(PhotoError::LongFile {
            path: path.into(),
            bytes,
        });
    }
    Ok(Opened {
        head,
        rest: source,
        format,
        bytes,
    })
}

/// The whole file and what kind of picture it is.
fn read(path: &Path) -> Result<(Vec<u8>, ImageFormat), PhotoError> {
    let Opened {
        head: mut file,
        mut rest,
        format,
        ..
    } = begin(path)?;
    rest.read_to_end(&mut file)
        .map_err(|error| unread(path, &error))?;
    Ok((file, format))
}

fn unread(path: &Path, error: &io::Error) -> PhotoError {
    let path = path.into();
    match error.kind() {
        io::ErrorKind::NotFound => PhotoError::Missing { path },
        io::ErrorKind::PermissionDenied => PhotoError::NoPermission { path },
        _ => PhotoError::Unreadable {
            path,
            reason: error.to_string(),
        },
    }
}

/// SHA-256 of bytes, 64 lower-case hexadecimal digits.
pub(crate) fn sha256(bytes: &[u8]) -> String {
    hexadecimal(&Sha256::digest(bytes))
}

/// Bytes as lower-case hexadecimal digits.
fn hexadecimal(bytes: &[u8]) -> String {
    use fmt::Write as _;
    bytes
        .iter()
        .fold(String::with_capacity(64), |mut hex, byte| {
            // Writing to a string cannot fail.
            let _ = write!(hex, "{byte:02x}");
            hex
        })
}

#[cfg(test)]
mod tests;
