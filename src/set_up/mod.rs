//! Set-ups: this camera at this distance. The scale of one photo, carried over to others.
//!
//! A set-up is a file (`poreline-set-up/1`, described by `assets/schema/set-up-1.schema.json`). What it
//! carries over is the scale with its own uncertainty. What a changed distance, focus or zoom adds
//! nobody can know from the files, and it is not in that uncertainty; so a photo of another size, by
//! another camera or at another focal length is refused unless a person says that the set-up fits.

mod file;
mod place;

pub use place::{SetUps, locate};

use crate::photo::{Camera, Photo};
use crate::scale::{How, Scale, ScaleError};
use crate::tilt::Straightened;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use std::io;
use std::path::PathBuf;

/// Name and version of the form; the version rises when a key changes its meaning or goes away.
pub const SCHEMA: &str = "poreline-set-up/1";

/// Largest tilt of a straightened photo whose scale may be carried over, degrees. A set-up holds for
/// photos as they are taken; at 5° lengths along the tilt are 0.4 % short at the middle of the photo,
/// and what they change towards its corners is still small enough to be part of an uncertainty.
pub const LARGEST_TILT_DEG: f64 = 5.0;

/// Focal lengths farther apart than this, as a share, are not the same.
const SAME_FOCAL_LENGTH: f64 = 0.01;

/// A camera arrangement with its scale.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SetUp {
    schema: String,
    /// The scale, as it was obtained.
    scale: SavedScale,
    /// Size of the upright photo.
    image: Size,
    /// By which camera, where the photo told.
    camera: Option<Camera>,
    /// From which photo.
    photo: Source,
    /// When the set-up was saved, ISO 8601.
    saved: String,
    /// Keys of later versions, or somebody's own, are kept.
    #[serde(flatten)]
    other: Map<String, Value>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct SavedScale {
    px_per_mm: f64,
    standard_uncertainty: f64,
    how: How,
    /// Of the photo that was straightened to obtain it.
    tilt_deg: Option<f64>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
struct Size {
    width_px: u32,
    height_px: u32,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct Source {
    /// Its file's name, without the folder.
    file: String,
    sha256: String,
    taken: Option<String>,
}

/// Why something could not be done with a set-up.
#[derive(Debug, thiserror::Error)]
pub enum SetUpError {
    /// A name that no file can bear on some system.
    #[error(
        "“{0}” cannot be the name of a set-up; use letters, digits, spaces, hyphens and dots, or give a \
         file, such as ./stand.json"
    )]
    Name(String),
    /// The system tells of no folder for settings.
    #[error(
        "there is no home folder to keep set-ups in; give the set-up as a file, such as ./stand.json"
    )]
    NoHome,
    /// There is no such set-up.
    #[error("there is no set-up {path}; {}", choices(.known))]
    Missing {
        /// Where it would be.
        path: PathBuf,
        /// Names of those that there are.
        known: Vec<String>,
    },
    /// One is there already.
    #[error(
        "there is a set-up {0} already; nothing was changed. Choose another name, or replace it"
    )]
    AlreadyThere(PathBuf),
    /// A file could not be read or written.
    #[error(
        "{path}: {action} failed: {error}. Check the folder and its permissions, and try again"
    )]
    Io {
        /// Which file.
        path: PathBuf,
        /// What was tried.
        action: &'static str,
        /// What the system said.
        error: io::Error,
    },
    /// The file is no set-up, or a broken one.
    #[error(
        "{path} is no set-up that can be read: {why}. Mend it in a text editor, or save the set-up anew"
    )]
    Damaged {
        /// Which file.
        path: PathBuf,
        /// What is wrong with it.
        why: String,
    },
    /// The scale holds for the straightened picture only.
    #[error(
        "the camera was tilted by about {0:.0}° against the surface. The tilt was taken out of this \
         photo, but a set-up goes on to photos that are measured as they were taken, and then the scale \
         would not hold. Set the camera up squarely, within {LARGEST_TILT_DEG}°, and save the set-up from \
         a new photo"
    )]
    Tilted(f64),
    /// The photo gives no scale.
    #[error(transparent)]
    Scale(#[from] ScaleError),
}

fn choices(known: &[String]) -> String {
    if known.is_empty() {
        "none has been saved yet".to_owned()
    } else {
        format!("saved are: {}", known.join(", "))
    }
}

/// Why a set-up does not fit a photo.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Mismatch {
    /// Another number of pixels.
    #[error(
        "the photo is {} × {} px, and the set-up was saved from one of {} × {} px; a photo that was \
         scaled down, cropped or taken in another quality has another scale",
        .photo[0], .photo[1], .set_up[0], .set_up[1]
    )]
    Size {
        /// Width and height of the photo, px.
        photo: [u32; 2],
        /// Those of the photo that the set-up was saved from.
        set_up: [u32; 2],
    },
    /// Another camera, or one side does not tell.
    #[error("{}, and the set-up {}", told(.photo.as_deref()), saved(.set_up.as_deref()))]
    Camera {
        /// The photo's camera.
        photo: Option<String>,
        /// The set-up's.
        set_up: Option<String>,
    },
    /// Another zoom.
    #[error(
        "the photo was taken at a focal length of {photo} mm, and the set-up was saved from one at \
         {set_up} mm; zooming changes the scale"
    )]
    FocalLength {
        /// The photo's, mm.
        photo: f64,
        /// The set-up's, mm.
        set_up: f64,
    },
}

fn told(camera: Option<&str>) -> String {
    match camera {
        Some(camera) => format!("the photo was taken by the camera {camera}"),
        None => "the photo does not tell its camera, as edited copies often do not".to_owned(),
    }
}

fn saved(camera: Option<&str>) -> String {
    match camera {
        Some(camera) => format!("was saved from one by {camera}"),
        None => "was saved from one that does not tell its camera".to_owned(),
    }
}

impl SetUp {
    /// The set-up of a photo whose scale is known, saved at a time in ISO 8601. Of a photo that was
    /// straightened to obtain the scale, the scale is that of the photo as it was taken.
    ///
    /// # Errors
    /// [`SetUpError::Tilted`] beyond [`LARGEST_TILT_DEG`].
    pub fn of(
        photo: &Photo,
        scale: Scale,
        straightened: Option<&Straightened>,
        saved: String,
    ) -> Result<Self, SetUpError> {
        let tilt_deg = straightened.map(|straightened| straightened.tilt_deg);
        let scale = match straightened {
            Some(Straightened { tilt_deg, .. }) if *tilt_deg > LARGEST_TILT_DEG => {
                return Err(SetUpError::Tilted(*tilt_deg));
            }
            Some(straightened) => straightened.scale_on_photo()?,
            None => scale,
        };
        let (width_px, height_px) = photo.rgb.dimensions();
        Ok(Self {
            schema: SCHEMA.to_owned(),
            scale: SavedScale {
                px_per_mm: scale.px_per_mm,
                standard_uncertainty: scale.standard_uncertainty,
                how: scale.how,
                tilt_deg,
            },
            image: Size {
                width_px,
                height_px,
            },
            camera: photo.camera.clone(),
            photo: Source {
                file: photo
                    .path
                    .file_name()
                    .unwrap_or_default()
                    .to_string_lossy()
                    .into_owned(),
                sha256: photo.sha256.clone(),
                taken: photo.taken.clone(),
            },
            saved,
            other: Map::new(),
        })
    }

    /// The scale for a photo of this set-up.
    ///
    /// # Errors
    /// [`Mismatch`] for a photo of another size, camera or focal length. One turned by 90° is the same.
    pub fn check(&self, photo: &Photo) -> Result<Scale, Mismatch> {
        let Size {
            width_px,
            height_px,
        } = self.image;
        let (width, height) = photo.rgb.dimensions();
        if (width, height) != (width_px, height_px) && (height, width) != (width_px, height_px) {
            return Err(Mismatch::Size {
                photo: [width, height],
                set_up: [width_px, height_px],
            });
        }
        let names = |camera: &Option<Camera>| {
            let camera = camera.as_ref()?;
            Some((camera.make.clone(), camera.model.clone()))
        };
        if names(&self.camera) != names(&photo.camera) {
            let name = |camera: &Option<Camera>| camera.as_ref().map(ToString::to_string);
            return Err(Mismatch::Camera {
                photo: name(&photo.camera),
                set_up: name(&self.camera),
            });
        }
        let length = |camera: &Option<Camera>| camera.as_ref()?.focal_length_mm;
        if let (Some(set_up), Some(photo)) = (length(&self.camera), length(&photo.camera))
            && (photo / set_up - 1.0).abs() > SAME_FOCAL_LENGTH
        {
            return Err(Mismatch::FocalLength { photo, set_up });
        }
        Ok(self.scale())
    }

    /// The scale, whatever it is used on: [`How::SetUp`], with the uncertainty it had when it was saved
    /// and nothing for what has changed since.
    #[must_use]
    pub fn scale(&self) -> Scale {
        Scale {
            px_per_mm: self.scale.px_per_mm,
            standard_uncertainty: self.scale.standard_uncertainty,
            how: How::SetUp,
            mark_px: None,
        }
    }

    /// How the scale was obtained in the first place.
    #[must_use]
    pub fn obtained(&self) -> How {
        self.scale.how
    }

    /// Name of the photo's file that it was saved from.
    #[must_use]
    pub fn from_photo(&self) -> &str {
        &self.photo.file
    }

    /// When it was saved, ISO 8601.
    #[must_use]
    pub fn saved(&self) -> &str {
        &self.saved
    }

    /// In one line: scale, size, camera.
    #[must_use]
    pub fn in_words(&self) -> String {
        let scale = &self.scale;
        let camera = self
            .camera
            .as_ref()
            .map_or_else(|| "camera not told".to_owned(), ToString::to_string);
        format!(
            "{:.2} px per mm (standard uncertainty {:.2} %), {} × {} px, {camera}, {} of {}",
            scale.px_per_mm,
            100.0 * scale.standard_uncertainty / scale.px_per_mm,
            self.image.width_px,
            self.image.height_px,
            scale.how.word(),
            self.photo.file
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::RgbImage;

    fn photo(size: [u32; 2], model: Option<&str>, focal_length_mm: Option<f64>) -> Photo {
        let mut photo = Photo::from_rgb("walk/ruler.jpg", RgbImage::new(size[0], size[1]));
        photo.camera = model.map(|model| Camera {
            make: Some("Acorn".to_owned()),
            model: Some(model.to_owned()),
            focal_length_mm,
        });
        photo
    }

    pub(super) fn set_up() -> SetUp {
        let scale = Scale {
            px_per_mm: 104.25,
            standard_uncertainty: 0.05,
            how: How::Ticks,
            mark_px: Some(900.0),
        };
        let photo = photo([64, 48], Some("A1"), Some(100.0));
        SetUp::of(&photo, scale, None, "2026-09-14T10:20:30Z".to_owned()).expect("a set-up")
    }

    #[test]
    fn a_photo_of_the_same_set_up_gets_its_scale_either_way_up() {
        for size in [[64, 48], [48, 64]] {
            for focal_length in [Some(100.0), None] {
                let scale = set_up()
                    .check(&photo(size, Some("A1"), focal_length))
                    .expect("the same");
                assert_eq!(scale, set_up().scale());
                assert!((scale.px_per_mm - 104.25).abs() < 1e-12);
                assert!((scale.standard_uncertainty - 0.05).abs() < 1e-12);
                assert_eq!((scale.how, scale.mark_px), (How::SetUp, None));
            }
        }
    }

    #[test]
    fn another_photo_is_refused_with_the_reason() {
        for (photo, words) in [
            (photo([32, 24], Some("A1"), None), "32 × 24 px"),
            (photo([64, 49], Some("A1"), None), "64 × 49 px"),
            (photo([64, 48], Some("B2"), None), "by the camera Acorn B2"),
            (photo([64, 48], None, None), "does not tell its camera"),
            (photo([64, 48], Some("A1"), Some(60.0)), "60 mm"),
        ] {
            let error = set_up().check(&photo).expect_err(words).to_string();
            assert!(error.contains(words), "{error}");
        }
        let bare = photo([64, 48], None, None);
        let saved = SetUp::of(&bare, set_up().scale(), None, String::new()).expect("a set-up");
        assert!(saved.check(&bare).is_ok());
        assert!(saved.check(&photo([64, 48], Some("A1"), None)).is_err());
    }
}
