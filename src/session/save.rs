//! What the window can write to disk, and how it writes it: beside the target, then renamed, so
//! that a failure never leaves half a file or none.

use crate::Measurement;
use crate::area::Area;
use crate::corrections::File;
use crate::export::{json, overlay, pore_table};
use crate::photo::Photo;
use std::io::{ErrorKind, Write as _};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A file that can be made of findings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Export {
    /// All findings.
    Findings,
    /// One line per pore.
    PoreTable,
    /// The photo with the outlines drawn on it.
    Overlay,
    /// What was corrected in the pores, to be corrected again.
    Corrections,
}

impl Export {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 4] = [
        Self::Findings,
        Self::PoreTable,
        Self::Overlay,
        Self::Corrections,
    ];

    /// The ending of the file's name.
    #[must_use]
    pub const fn extension(self) -> &'static str {
        match self {
            Self::Findings | Self::Corrections => "json",
            Self::PoreTable => "csv",
            Self::Overlay => "png",
        }
    }

    /// The name proposed for the file made of a photo: `underside.jpg` gives `underside-pores.csv`.
    #[must_use]
    pub fn file_name(self, photo: &Path) -> String {
        let stem = photo.file_stem().unwrap_or_default().to_string_lossy();
        let what = match self {
            Self::Findings => "findings",
            Self::PoreTable => "pores",
            Self::Overlay => "overlay",
            Self::Corrections => "corrections",
        };
        format!("{stem}-{what}.{}", self.extension())
    }
}

/// A name like the one given that no file bears yet: `lattice-pores-2.csv`.
#[must_use]
pub fn free_name(path: &Path) -> PathBuf {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let ending = path.extension().map_or_else(String::new, |ending| {
        format!(".{}", ending.to_string_lossy())
    });
    (2..u64::MAX)
        .map(|n| path.with_file_name(format!("{stem}-{n}{ending}")))
        .find(|path| path.symlink_metadata().is_err())
        .unwrap_or_else(|| path.to_owned())
}

/// Why a file was not written.
#[derive(Debug, thiserror::Error)]
pub enum SaveError {
    /// There is nowhere to put it.
    #[error("the folder {0} does not exist; make it first, or choose another place")]
    NoFolder(PathBuf),
    /// A folder bears the file's name.
    #[error("{0} is a folder; add the name of the file to write in it")]
    IsFolder(PathBuf),
    /// It would replace the photo it was made of.
    #[error("{0} is the photo, and photos are never altered; choose another name")]
    IsPhoto(PathBuf),
    /// The disk or the folder refused.
    #[error("{path} could not be written: {why}; choose another folder, or make room on the disk")]
    Disk {
        /// What the system says.
        why: ErrorKind,
        /// The file that was to be written.
        path: PathBuf,
    },
    /// The contents could not be put together.
    #[error("the contents of {path} could not be put together ({why}), so nothing was saved")]
    Contents {
        /// What went wrong.
        why: String,
        /// The file that was to be written.
        path: PathBuf,
    },
}

/// Everything needed to write a file, so that a thread of its own can do it.
pub struct Saving {
    /// Which file.
    pub export: Export,
    /// Where to.
    pub path: PathBuf,
    /// The photo.
    pub photo: Arc<Photo>,
    /// The area that was measured.
    pub area: Area,
    /// What is to be saved.
    pub measurement: Arc<Measurement>,
}

impl Saving {
    /// Writes the file.
    ///
    /// # Errors
    /// [`SaveError`] when nothing was written.
    pub fn run(&self) -> Result<(), SaveError> {
        place_for(&self.path, &self.photo.path)?;
        let contents = self.contents().map_err(|why| SaveError::Contents {
            why,
            path: self.path.clone(),
        })?;
        write_whole(&self.path, &contents).map_err(|error| SaveError::Disk {
            // The error's own words name the file it was first written to beside the target.
            why: error.kind(),
            path: self.path.clone(),
        })
    }

    fn contents(&self) -> Result<Vec<u8>, String> {
        let Measurement {
            findings, regions, ..
        } = &*self.measurement;
        match self.export {
            Export::Findings => Ok(format!("{:#}\n", json::findings(findings)).into_bytes()),
            Export::PoreTable => {
                pore_table::csv(regions, &findings.scale).map_err(|error| error.to_string())
            }
            Export::Overlay => {
                overlay::png(&overlay::draw(&self.photo, &self.area, &self.measurement))
                    .map_err(|error| error.to_string())
            }
            Export::Corrections => {
                let made = findings
                    .corrections
                    .as_ref()
                    .map(|facts| facts.made.clone());
                let file = File::new(&findings.photo.sha256, &made.unwrap_or_default());
                let mut text =
                    serde_json::to_vec_pretty(&file).map_err(|error| error.to_string())?;
                text.push(b'\n');
                Ok(text)
            }
        }
    }
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    }
}

/// Makes sure that the file can be meant.
fn place_for(path: &Path, photo: &Path) -> Result<(), SaveError> {
    let folder = folder_of(path);
    if path.is_dir() {
        Err(SaveError::IsFolder(path.to_owned()))
    } else if !folder.is_dir() {
        Err(SaveError::NoFolder(folder.to_owned()))
    } else if matches!((path.canonicalize(), photo.canonicalize()), (Ok(a), Ok(b)) if a == b) {
        Err(SaveError::IsPhoto(path.to_owned()))
    } else {
        Ok(())
    }
}

/// Writes a file that was made of a book.
///
/// # Errors
/// [`SaveError`] when nothing was written.
pub(super) fn write_book_file(path: &Path, contents: &[u8]) -> Result<(), SaveError> {
    let folder = folder_of(path);
    if path.is_dir() {
        return Err(SaveError::IsFolder(path.to_owned()));
    }
    if !folder.is_dir() {
        return Err(SaveError::NoFolder(folder.to_owned()));
    }
    write_whole(path, contents).map_err(|error| SaveError::Disk {
        why: error.kind(),
        path: path.to_owned(),
    })
}

/// Puts all of the contents in place, or leaves the place as it was.
fn write_whole(path: &Path, contents: &[u8]) -> std::io::Result<()> {
    let mut file = tempfile::Builder::new();
    // An ordinary new file's rights, as far as the person's own settings allow.
    #[cfg(unix)]
    file.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    let mut file = file.tempfile_in(folder_of(path))?;
    file.write_all(contents)?;
    file.as_file().sync_all()?;
    file.persist(path).map_err(|error| error.error)?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_made_of_the_photos_name() {
        let photo = Path::new("walk/underside.jpg");
        for (export, name) in Export::ALL.into_iter().zip([
            "underside-findings.json",
            "underside-pores.csv",
            "underside-overlay.png",
            "underside-corrections.json",
        ]) {
            assert_eq!(export.file_name(photo), name);
        }
    }

    #[test]
    fn a_name_that_is_taken_is_numbered() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("table.csv");
        assert_eq!(free_name(&path), folder.path().join("table-2.csv"));
        std::fs::write(folder.path().join("table-2.csv"), "").expect("a file");
        assert_eq!(free_name(&path), folder.path().join("table-3.csv"));
    }

    #[test]
    fn a_folder_that_is_missing_is_named_and_a_photo_is_never_replaced() {
        let folder = tempfile::tempdir().expect("a folder");
        let photo = folder.path().join("photo.png");
        std::fs::write(&photo, "light").expect("a photo");
        let said = |path: &Path| place_for(path, &photo).expect_err("refused").to_string();

        let nowhere = folder.path().join("no such folder");
        let message = said(&nowhere.join("table.csv"));
        assert_eq!(
            message,
            format!(
                "the folder {} does not exist; make it first, or choose another place",
                nowhere.display()
            )
        );
        assert!(said(folder.path()).contains("is a folder"));
        assert!(said(&folder.path().join(".").join("photo.png")).contains("never altered"));
        assert!(place_for(&folder.path().join("new.png"), &photo).is_ok());
    }

    #[test]
    fn a_file_is_replaced_as_a_whole_and_a_failure_leaves_nothing_behind() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("table.csv");
        std::fs::write(&path, "old and longer").expect("an old file");
        write_whole(&path, b"new").expect("written");
        assert_eq!(std::fs::read(&path).expect("a file"), b"new");

        let nowhere = folder.path().join("no such folder").join("table.csv");
        assert!(write_whole(&nowhere, b"new").is_err());
        assert_eq!(
            std::fs::read_dir(folder.path()).expect("a folder").count(),
            1
        );
    }
}
