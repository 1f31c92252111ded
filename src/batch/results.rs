//! The results' folder: the only place that reads and writes its files. Each is written beside its name
//! and renamed when all of it is on the disk, so that it is there whole or not at all.

use super::record::{Key, Record};
use super::run_list::RunList;
use crate::reading;
use parquet::errors::ParquetError;
use serde::Deserialize;
use std::fs::{self, File, TryLockError};
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};
use tempfile::NamedTempFile;

/// Folder of the records, and of what was made with them.
pub(super) const PHOTOS: &str = "photos";
const LISTS: &str = "parts";
const LOCK: &str = ".lock";
/// How names of files begin that are being written.
const UNFINISHED: &str = ".unfinished-";

/// Why something could not be done with the results.
#[derive(Debug, thiserror::Error)]
pub enum ResultsError {
    /// A file or folder could not be written.
    #[error(
        "{path} could not be written: {error}. What was measured so far is kept; see that there is room \
         on the disk and that the folder may be written to, and start again the same way to go on"
    )]
    NotWritten {
        /// Which.
        path: PathBuf,
        /// What the system said.
        error: io::Error,
    },
    /// A file could not be read.
    #[error(
        "{path} could not be read: {error}. Start the batch again the same way; it is made anew"
    )]
    NotRead {
        /// Which.
        path: PathBuf,
        /// What the system said, or what is wrong with it.
        error: io::Error,
    },
    /// A table could not be made.
    #[error("a table could not be made: {0}")]
    Table(#[from] csv::Error),
    /// A Parquet table could not be made.
    #[error(
        "a Parquet table could not be made: {0}. See that there is room on the disk, and start again"
    )]
    Parquet(#[from] ParquetError),
}

/// A folder of results.
#[derive(Debug)]
pub struct Results {
    folder: PathBuf,
    /// Held as long as somebody works in the folder.
    _lock: Option<File>,
}

impl Results {
    /// Opens a folder for writing, and makes it where it is missing. What a run that was killed left half
    /// written is taken away, unless somebody else works in the folder just now.
    ///
    /// # Errors
    /// [`ResultsError::NotWritten`].
    pub fn open(folder: &Path) -> Result<Self, ResultsError> {
        for path in [folder.join(PHOTOS), folder.join(LISTS)] {
            fs::create_dir_all(&path).map_err(not_written(&path))?;
        }
        let path = folder.join(LOCK);
        let lock = File::options()
            .create(true)
            .truncate(false)
            .write(true)
            .open(&path)
            .map_err(not_written(&path))?;
        match lock.try_lock() {
            Ok(()) => {
                for inner in ["", PHOTOS, LISTS] {
                    sweep(&folder.join(inner));
                }
                // From here on others may work here too: records do not get in each other's way.
                drop(lock.unlock());
                drop(lock.lock_shared());
            }
            Err(TryLockError::WouldBlock) => drop(lock.lock_shared()),
            // Some file systems know no locks; then nothing is swept.
            Err(TryLockError::Error(_)) => {}
        }
        Ok(Self {
            folder: folder.into(),
            _lock: Some(lock),
        })
    }

    /// Opens a folder for reading only.
    #[must_use]
    pub fn read_only(folder: &Path) -> Self {
        Self {
            folder: folder.into(),
            _lock: None,
        }
    }

    /// Where it is.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// The record of a key, where there is a whole one.
    #[must_use]
    pub fn record(&self, key: &Key) -> Option<Record> {
        self.record_at(&key.word())
            .ok()
            .filter(|record| record.is_of(key))
    }

    /// The record of a key's word.
    ///
    /// # Errors
    /// [`ResultsError::NotRead`].
    pub fn record_at(&self, word: &str) -> Result<Record, ResultsError> {
        read(&self.path_of(word, "json"))
    }

    /// Keeps a record.
    ///
    /// # Errors
    /// [`ResultsError::NotWritten`].
    pub fn keep(&self, key: &Key, record: &Record) -> Result<(), ResultsError> {
        let path = self.path_of(&key.word(), "json");
        let text = serde_json::to_vec(record).map_err(|error| ResultsError::NotWritten {
            path: path.clone(),
            error: error.into(),
        })?;
        write(&path, &text)
    }

    /// Where a file lies that was made with a record.
    #[must_use]
    pub fn path_of(&self, word: &str, ending: &str) -> PathBuf {
        self.folder.join(inner_path(word, ending))
    }

    /// Writes a file that was made with a record; before the record itself, whose being there says that
    /// all is.
    ///
    /// # Errors
    /// [`ResultsError::NotWritten`].
    pub fn write_beside(&self, word: &str, ending: &str, bytes: &[u8]) -> Result<(), ResultsError> {
        write(&self.path_of(word, ending), bytes)
    }

    /// Keeps what became of a part's files.
    ///
    /// # Errors
    /// [`ResultsError::NotWritten`].
    pub fn keep_list(&self, list: &RunList) -> Result<(), ResultsError> {
        let name = format!("{}-of-{}.json", list.part.number(), list.part.of());
        let path = self.folder.join(LISTS).join(name);
        let text = serde_json::to_vec_pretty(list).map_err(|error| ResultsError::NotWritten {
            path: path.clone(),
            error: error.into(),
        })?;
        write(&path, &text)
    }

    /// All lists of the folder, in the order of their parts.
    ///
    /// # Errors
    /// [`ResultsError::NotRead`].
    pub fn lists(&self) -> Result<Vec<RunList>, ResultsError> {
        let folder = self.folder.join(LISTS);
        let not_read = |error| ResultsError::NotRead {
            path: folder.clone(),
            error,
        };
        let mut lists: Vec<RunList> = Vec::new();
        for entry in fs::read_dir(&folder).map_err(not_read)? {
            let path = entry.map_err(not_read)?.path();
            if path.extension().is_some_and(|end| end == "json") {
                lists.push(read(&path)?);
            }
        }
        lists.sort_by_key(|list| list.part);
        Ok(lists)
    }

    /// Begins a file that is too long to be held in memory.
    ///
    /// # Errors
    /// [`ResultsError::NotWritten`].
    pub fn begin(&self, name: &str) -> Result<Unfinished, ResultsError> {
        let path = self.folder.join(name);
        let file = temporary_in(&self.folder).map_err(not_written(&path))?;
        Ok(Unfinished {
            path,
            file: BufWriter::new(file),
        })
    }

    /// Writes a file whole.
    ///
    /// # Errors
    /// [`ResultsError::NotWritten`].
    pub fn write(&self, name: &str, bytes: &[u8]) -> Result<(), ResultsError> {
        write(&self.folder.join(name), bytes)
    }

    /// Takes a file of an earlier run away that this one does not make.
    ///
    /// # Errors
    /// [`ResultsError::NotWritten`].
    pub fn remove(&self, name: &str) -> Result<(), ResultsError> {
        let path = self.folder.join(name);
        match fs::remove_file(&path) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => {
                Err(ResultsError::NotWritten { path, error })
            }
            _ => Ok(()),
        }
    }

    /// Takes over a file that was made with a record elsewhere; one that is there already stays.
    ///
    /// # Errors
    /// [`ResultsError`].
    pub fn take_over(&self, from: &Self, word: &str, ending: &str) -> Result<(), ResultsError> {
        let (source, target) = (from.path_of(word, ending), self.path_of(word, ending));
        if target.is_file() {
            return Ok(());
        }
        match fs::read(&source) {
            Ok(bytes) => write(&target, &bytes),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
            Err(error) => Err(ResultsError::NotRead {
                path: source,
                error,
            }),
        }
    }
}

/// A file made with a record, as the results' own files name it.
pub(super) fn inner_path(word: &str, ending: &str) -> String {
    format!("{PHOTOS}/{word}.{ending}")
}

/// A file that bears its name only when it is finished.
pub struct Unfinished {
    path: PathBuf,
    file: BufWriter<NamedTempFile>,
}

impl Write for Unfinished {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.file.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.file.flush()
    }
}

impl Unfinished {
    /// Adds to it.
    ///
    /// # Errors
    /// [`ResultsError::NotWritten`].
    pub fn add(&mut self, bytes: &[u8]) -> Result<(), ResultsError> {
        self.file.write_all(bytes).map_err(not_written(&self.path))
    }

    /// Gives it its name.
    ///
    /// # Errors
    /// [`ResultsError::NotWritten`].
    pub fn finish(self) -> Result<(), ResultsError> {
        let file = self
            .file
            .into_inner()
            .map_err(|error| not_written(&self.path)(error.into_error()))?;
        file.as_file().sync_all().map_err(not_written(&self.path))?;
        file.persist(&self.path)
            .map_err(|error| not_written(&self.path)(error.error))?;
        Ok(())
    }
}

fn read<T: for<'a> Deserialize<'a>>(path: &Path) -> Result<T, ResultsError> {
    let not_read = |error: io::Error| ResultsError::NotRead {
        path: path.into(),
        error,
    };
    let text = reading::bytes(path).map_err(not_read)?;
    serde_json::from_slice(&text).map_err(|error| not_read(error.into()))
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), ResultsError> {
    let attempt = || -> io::Result<()> {
        let mut file = temporary_in(path.parent().unwrap_or(Path::new(".")))?;
        file.write_all(bytes)?;
        file.as_file().sync_all()?;
        file.persist(path)?;
        Ok(())
    };
    attempt().map_err(not_written(path))
}

fn not_written(path: &Path) -> impl Fn(io::Error) -> ResultsError {
    move |error| ResultsError::NotWritten {
        path: path.into(),
        error,
    }
}

/// A temporary file with the rights of an ordinary new file.
fn temporary_in(folder: &Path) -> io::Result<NamedTempFile> {
    let mut file = tempfile::Builder::new();
    file.prefix(UNFINISHED);
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        file.permissions(fs::Permissions::from_mode(0o666));
    }
    file.tempfile_in(folder)
}

/// Takes away what was left half written. What cannot be taken away does no harm.
fn sweep(folder: &Path) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        if entry.file_name().to_string_lossy().starts_with(UNFINISHED) {
            drop(fs::remove_file(entry.path()));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::record::Trouble;

    fn key() -> Key {
        Key {
            photo_sha256: "ab".to_owned(),
            settings_sha256: "cd".to_owned(),
        }
    }

    #[test]
    fn a_record_is_found_again_unless_it_is_cut_off_or_of_another_photo() {
        let folder = tempfile::tempdir().expect("a folder");
        let results = Results::open(folder.path()).expect("a folder");
        assert_eq!(results.record(&key()), None);
        let trouble = Trouble {
            cause: "it is grey".to_owned(),
            remedy: "paint it".to_owned(),
        };
        let record = Record::failed(&key(), trouble);
        results.keep(&key(), &record).expect("kept");
        assert_eq!(results.record(&key()), Some(record));

        let path = results.path_of(&key().word(), "json");
        let text = fs::read(&path).expect("there");
        for length in 0..text.len() {
            fs::write(&path, &text[..length]).expect("written");
            assert_eq!(results.record(&key()), None, "{length} bytes");
        }
        let other = String::from_utf8_lossy(&text).replace("\"ab\"", "\"ac\"");
        fs::write(&path, other).expect("written");
        assert_eq!(results.record(&key()), None);
    }

    #[test]
    fn what_was_half_written_is_swept_but_not_under_somebody_at_work() {
        let folder = tempfile::tempdir().expect("a folder");
        let at_work = Results::open(folder.path()).expect("a folder");
        let half = folder.path().join(PHOTOS).join(".unfinished-abc");
        fs::write(&half, "{").expect("written");
        let second = Results::open(folder.path()).expect("a folder");
        assert!(half.exists());
        drop((at_work, second));
        drop(Results::open(folder.path()).expect("a folder"));
        assert!(!half.exists());
    }
}
