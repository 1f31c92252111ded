//! Findings and photos on their way into a voucher.

use super::error::BookError;
use super::store::Book;
use super::voucher::{PhotoLink, Voucher};
use crate::photo::Photo;
use serde_json::{Deserializer, Value};
use std::path::{Path, absolute};

/// The schema of findings that a voucher takes.
pub(super) const FINDINGS: &str = "poreline-findings/1";
/// Datum of what receivers write into photos (Exif 2.3, `GPSMapDatum`: WGS-84).
pub const WGS84: &str = "EPSG:4326";

/// What `poreline measure --json` printed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FindingsRead {
    /// Findings, one a photo.
    pub findings: Vec<Value>,
    /// What was said of photos that could not be measured.
    pub failed: Vec<String>,
}

/// Why a text holds no findings.
#[derive(Debug, thiserror::Error)]
pub enum FindingsError {
    /// Not JSON.
    #[error(
        "this is not what `poreline measure --json` prints ({0}); print it anew, and keep its lines whole"
    )]
    NotJson(#[from] serde_json::Error),
    /// JSON of something else.
    #[error("object {0} is not of the schema {FINDINGS}; print the findings anew")]
    OtherSchema(usize),
    /// No findings at all.
    #[error("no photo in it was measured, so there is nothing to attach")]
    Nothing,
}

/// Reads what `poreline measure --json` printed, one object a photo.
///
/// # Errors
/// [`FindingsError`].
pub fn findings_read(text: &str) -> Result<FindingsRead, FindingsError> {
    let mut read = FindingsRead::default();
    for (at, value) in (1..).zip(Deserializer::from_str(text).into_iter::<Value>()) {
        let value = value?;
        let word = |key: &str| value.get(key).and_then(Value::as_str);
        if let Some(error) = word("error") {
            let photo = word("photo").unwrap_or("a photo");
            read.failed.push(format!("{photo}: {error}"));
        } else if word("schema") == Some(FINDINGS) && value.pointer("/photo/sha256").is_some() {
            read.findings.push(value);
        } else {
            return Err(FindingsError::OtherSchema(at));
        }
    }
    if read.findings.is_empty() {
        return Err(FindingsError::Nothing);
    }
    Ok(read)
}

/// What becomes of a photo that is linked to a voucher.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Copying {
    /// It stays where it is.
    InPlace,
    /// It is copied into the book, byte for byte.
    Whole,
    /// Its pixels are copied into the book, without what the file says of the place.
    PixelsOnly,
}

impl Copying {
    /// How photos of a voucher are taken into the book, where they are to be copied: without the place where
    /// the voucher's own was blurred or withheld.
    #[must_use]
    pub fn of(voucher: &Voucher, is_copied: bool) -> Self {
        match (is_copied, &voucher.data_generalizations) {
            (false, _) => Self::InPlace,
            (true, None) => Self::Whole,
            (true, Some(_)) => Self::PixelsOnly,
        }
    }
}

impl Book {
    /// The path from the book's folder to a photo that lies in it already.
    fn path_within(&self, photo: &Path) -> Option<String> {
        let folder = self.folder().canonicalize().ok()?;
        let photo = photo.canonicalize().ok()?;
        let within = photo.strip_prefix(folder).ok()?;
        let parts = within.iter().map(|part| part.to_str());
        Some(parts.collect::<Option<Vec<_>>>()?.join("/"))
    }

    /// Makes a photo one of the book: copied into it, or left where it is; one that lies in it already
    /// stays there.
    ///
    /// # Errors
    /// [`BookError::Io`], [`BookError::Photo`].
    pub fn link_photo(
        &self,
        photo: &Path,
        sha256: &str,
        copying: Copying,
    ) -> Result<PhotoLink, BookError> {
        let mut copy_sha256 = None;
        let path = match (self.path_within(photo), copying) {
            (Some(within), _) => within,
            (None, Copying::Whole) => self.copy_photo(photo, sha256)?,
            (None, Copying::PixelsOnly) => {
                let (path, sha256) = self.copy_pixels(photo)?;
                copy_sha256 = Some(sha256);
                path
            }
            (None, Copying::InPlace) => {
                let whole = absolute(photo).map_err(|error| BookError::Io {
                    path: photo.into(),
                    action: "finding its whole path",
                    error,
                })?;
                whole.to_string_lossy().into_owned()
            }
        };
        Ok(PhotoLink {
            path,
            sha256: sha256.to_owned(),
            copy_sha256,
        })
    }
}

impl Voucher {
    /// Takes day and place from a photo where nobody wrote them down or withheld them; tells which fields it filled.
    pub fn fill_from(&mut self, photo: &Photo) -> Vec<&'static str> {
        let mut filled = Vec::new();
        if let (None, Some(taken)) = (&self.event_date, &photo.taken) {
            self.event_date = Some(taken.split('T').next().unwrap_or(taken).to_owned());
            filled.push("eventDate");
        }
        let is_told = self.data_generalizations.is_none();
        let place = photo.place.filter(|_| is_told);
        if let (None, None, Some(place)) = (self.decimal_latitude, self.decimal_longitude, place) {
            self.decimal_latitude = Some(place.latitude);
            self.decimal_longitude = Some(place.longitude);
            self.geodetic_datum = Some(WGS84.to_owned());
            filled.extend(["decimalLatitude", "decimalLongitude", "geodeticDatum"]);
        }
        filled
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::photo::Place;
    use image::RgbImage;

    #[test]
    fn findings_and_failures_are_told_apart() {
        let good = r#"{"schema":"poreline-findings/1","photo":{"sha256":"ab"}}"#;
        let bad = r#"{"photo":"b.jpg","error":"no such file"}"#;
        let read = findings_read(&format!("{good}\n{bad}\n")).expect("findings");
        assert_eq!(read.findings.len(), 1);
        assert_eq!(read.failed, ["b.jpg: no such file"]);
        for (text, says) in [
            ("", "no photo"),
            (bad, "no photo"),
            ("{\"schema\":", "measure --json"),
            ("[1]", "object 1"),
            ("{\"schema\":\"poreline-set-up/1\"}", "object 1"),
        ] {
            let error = findings_read(text).expect_err(text).to_string();
            assert!(error.contains(says), "{text}: {error}");
        }
    }

    #[test]
    fn a_photo_fills_only_what_nobody_wrote_down() {
        let mut photo = Photo::from_rgb("a.jpg", RgbImage::new(4, 4));
        photo.taken = Some("2026-10-04T11:20:00+01:00".to_owned());
        photo.place = Some(Place {
            latitude: 52.64,
            longitude: -1.14,
        });
        let mut voucher = Voucher::new("1");
        assert_eq!(voucher.fill_from(&photo).len(), 4);
        assert_eq!(voucher.event_date.as_deref(), Some("2026-10-04"));
        assert_eq!(voucher.decimal_longitude, Some(-1.14));
        let mut written = Voucher::new("2");
        written.event_date = Some("2026-10-03".to_owned());
        written.decimal_latitude = Some(50.0);
        assert!(written.fill_from(&photo).is_empty());
    }
}
