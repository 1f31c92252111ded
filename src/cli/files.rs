//! Files written at a person's wish: never half written, never over something else by accident.

use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use tempfile::NamedTempFile;

/// A file to be written once the figures are there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Output {
    path: PathBuf,
    replace: bool,
}

/// Why a file cannot be written.
#[derive(Debug, thiserror::Error)]
pub(super) enum OutputError {
    #[error("{0} is already there; choose another name, or add --replace to write over it")]
    AlreadyThere(PathBuf),
    #[error("{0} is a folder; add the name of the file to write in it")]
    IsFolder(PathBuf),
    #[error("there is no folder {0}; make it first, or choose another place")]
    NoFolder(PathBuf),
    #[error("{0} is one of the photos, and photos are never altered; choose another name")]
    IsPhoto(PathBuf),
    #[error("{path} could not be written: {source}")]
    NotWritten { path: PathBuf, source: io::Error },
}

impl Output {
    /// Makes sure, before long work starts, that the file can be meant.
    pub(super) fn planned(
        path: PathBuf,
        replace: bool,
        photos: &[PathBuf],
    ) -> Result<Self, OutputError> {
        if path.is_dir() {
            return Err(OutputError::IsFolder(path));
        }
        let folder = folder_of(&path);
        if !folder.is_dir() {
            return Err(OutputError::NoFolder(folder.to_owned()));
        }
        if photos.iter().any(|photo| is_same_file(photo, &path)) {
            return Err(OutputError::IsPhoto(path));
        }
        if !replace && path.symlink_metadata().is_ok() {
            return Err(OutputError::AlreadyThere(path));
        }
        Ok(Self { path, replace })
    }

    /// Where it is written.
    pub(super) fn path(&self) -> &Path {
        &self.path
    }

    /// Writes the file whole, under its name only when all of it is on disk.
    pub(super) fn write(&self, bytes: &[u8]) -> Result<(), OutputError> {
        self.try_write(bytes).map_err(|source| {
            if source.kind() == io::ErrorKind::AlreadyExists {
                OutputError::AlreadyThere(self.path.clone())
            } else {
                OutputError::NotWritten {
                    path: self.path.clone(),
                    source,
                }
            }
        })
    }

    fn try_write(&self, bytes: &[u8]) -> io::Result<()> {
        let mut file = temporary_in(folder_of(&self.path))?;
        file.write_all(bytes)?;
        file.as_file().sync_all()?;
        if self.replace {
            file.persist(&self.path)?;
        } else {
            file.persist_noclobber(&self.path)?;
        }
        Ok(())
    }
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

pub(super) fn is_same_file(a: &Path, b: &Path) -> bool {
    matches!((fs::canonicalize(a), fs::canonicalize(b)), (Ok(a), Ok(b)) if a == b)
}

/// A temporary file with the rights of an ordinary new file, not those of a secret one.
fn temporary_in(folder: &Path) -> io::Result<NamedTempFile> {
    let mut file = tempfile::Builder::new();
    file.prefix(".poreline-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        file.permissions(fs::Permissions::from_mode(0o666));
    }
    file.tempfile_in(folder)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_there_is_kept_unless_replaced() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("table.csv");
        let output = Output::planned(path.clone(), false, &[]).expect("nothing is there");
        // Something turns up between planning and writing.
        fs::write(&path, "old").expect("written");
        assert!(matches!(
            output.write(b"new"),
            Err(OutputError::AlreadyThere(_))
        ));
        assert!(matches!(
            Output::planned(path.clone(), false, &[]),
            Err(OutputError::AlreadyThere(_))
        ));
        assert_eq!(fs::read(&path).expect("read"), b"old");
        Output::planned(path.clone(), true, &[])
            .and_then(|output| output.write(b"new"))
            .expect("replaced");
        assert_eq!(fs::read(&path).expect("read"), b"new");
        let left = fs::read_dir(folder.path()).expect("listed").count();
        assert_eq!(left, 1, "temporary files were left behind");
    }

    #[test]
    fn folders_and_photos_are_no_output() {
        let folder = tempfile::tempdir().expect("a folder");
        let photo = folder.path().join("photo.png");
        fs::write(&photo, "light").expect("written");
        let roundabout = folder.path().join(".").join("photo.png");
        let nowhere = folder.path().join("no").join("table.csv");
        let photos = [photo];
        let planned = |path: PathBuf| Output::planned(path, true, &photos);
        assert!(matches!(planned(roundabout), Err(OutputError::IsPhoto(_))));
        assert!(matches!(
            planned(folder.path().to_owned()),
            Err(OutputError::IsFolder(_))
        ));
        assert!(matches!(planned(nowhere), Err(OutputError::NoFolder(_))));
    }

    #[cfg(unix)]
    #[test]
    fn files_can_be_read_by_others_as_usual() {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = tempfile::tempdir().expect("a folder");
        let ordinary = folder.path().join("ordinary");
        fs::write(&ordinary, "").expect("written");
        let ours = folder.path().join("ours");
        Output::planned(ours.clone(), false, &[])
            .and_then(|output| output.write(b""))
            .expect("written");
        let mode = |path: &Path| fs::metadata(path).expect("there").permissions().mode();
        assert_eq!(mode(&ours), mode(&ordinary));
    }
}
