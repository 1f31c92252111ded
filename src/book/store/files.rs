//! Files of records: read, and written so that a crash leaves the old or the new and never half of one.

use super::{FORAYS, LONGEST_NAME, Saved, VOUCHERS};
use crate::book::error::{BookError, Damaged};
use crate::book::foray::{self, Foray};
use crate::book::voucher::{self, Voucher};
use crate::reading;
use rayon::prelude::*;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};
use std::fs::{self, File};
use std::hash::{DefaultHasher, Hasher as _};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use tempfile::Builder;

/// How names of files begin that are being written.
const UNFINISHED: &str = ".unfinished-";

/// A record and the file it came from.
#[derive(Debug, Clone)]
pub(super) struct Kept<T> {
    pub(super) record: T,
    pub(super) path: PathBuf,
    /// Digest of the file's text as it was read or written.
    pub(super) digest: u64,
    /// A text that somebody else wrote, and under which revision it was told to whoever wanted to save.
    told: Option<(u64, u64)>,
}

impl<T> Kept<T> {
    pub(super) const fn new(record: T, path: PathBuf, digest: u64) -> Self {
        Self {
            record,
            path,
            digest,
            told: None,
        }
    }
}

/// Tells texts apart; nobody tries to make two alike.
fn digest(text: &[u8]) -> u64 {
    let mut hasher = DefaultHasher::new();
    hasher.write(text);
    hasher.finish()
}

/// What voucher and foray files have in common.
pub(super) trait Record: Serialize + DeserializeOwned + Clone + Send {
    const FOLDER: &'static str;
    const SCHEMA: &'static str;
    fn schema(&self) -> &str;
    fn revision(&mut self) -> &mut u64;
    fn sort_key(&self) -> (&str, &str);
    fn file_name(&self) -> String;
}

impl Record for Voucher {
    const FOLDER: &'static str = VOUCHERS;
    const SCHEMA: &'static str = voucher::SCHEMA;

    fn schema(&self) -> &str {
        &self.schema
    }

    fn revision(&mut self) -> &mut u64 {
        &mut self.revision
    }

    fn sort_key(&self) -> (&str, &str) {
        (&self.catalog_number, &self.occurrence_id)
    }

    fn file_name(&self) -> String {
        file_name(&self.catalog_number)
    }
}

impl Record for Foray {
    const FOLDER: &'static str = FORAYS;
    const SCHEMA: &'static str = foray::SCHEMA;

    fn schema(&self) -> &str {
        &self.schema
    }

    fn revision(&mut self) -> &mut u64 {
        &mut self.revision
    }

    fn sort_key(&self) -> (&str, &str) {
        (&self.event_date, &self.event_id)
    }

    fn file_name(&self) -> String {
        file_name(&self.title())
    }
}

pub(super) fn io_error<'a>(
    path: &'a Path,
    action: &'static str,
) -> impl Fn(io::Error) -> BookError + 'a {
    move |error| BookError::Io {
        path: path.into(),
        action,
        error,
    }
}

/// Reads all files of a kind; what cannot be read is named.
pub(super) fn read_all<T: Record>(book: &Path) -> Result<(Vec<Kept<T>>, Vec<Damaged>), BookError> {
    let folder = book.join(T::FOLDER);
    let mut paths: Vec<PathBuf> = match fs::read_dir(&folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => Vec::new(),
        entries => entries
            .and_then(|entries| entries.map(|entry| Ok(entry?.path())).collect())
            .map_err(io_error(&folder, "reading the folder"))?,
    };
    paths.retain(|path| path.extension().is_some_and(|end| end == "json"));
    paths.sort();
    let read: Vec<Result<Kept<T>, Damaged>> = paths.into_par_iter().map(read_one).collect();
    let (mut kept, mut damaged) = (Vec::new(), Vec::new());
    for one in read {
        match one {
            Ok(one) => kept.push(one),
            Err(one) => damaged.push(one),
        }
    }
    kept.sort_by(|a, b| a.record.sort_key().cmp(&b.record.sort_key()));
    Ok((kept, damaged))
}

pub(super) fn read_one<T: Record>(path: PathBuf) -> Result<Kept<T>, Damaged> {
    let read = reading::bytes(&path)
        .map_err(|error| error.to_string())
        .and_then(|text| match serde_json::from_slice::<T>(&text) {
            Ok(record) => Ok((record, digest(&text))),
            Err(error) => Err(error.to_string()),
        });
    match read {
        Ok((record, digest)) if record.schema() == T::SCHEMA => Ok(Kept::new(record, path, digest)),
        Ok((record, _)) => Err(Damaged {
            why: format!(
                "its schema is “{}” and not “{}”",
                record.schema(),
                T::SCHEMA
            ),
            path,
        }),
        Err(why) => Err(Damaged { path, why }),
    }
}

/// Writes a new record; `None` where its file name is taken and no other may be.
pub(super) fn add<T: Record>(
    book: &Path,
    mut record: T,
    under_another: bool,
) -> Result<Option<Kept<T>>, BookError> {
    let folder = book.join(T::FOLDER);
    fs::create_dir_all(&folder).map_err(io_error(&folder, "making the folder"))?;
    let name = record.file_name();
    let names = (2..).map(|n| format!("{name}-{n}"));
    let mut names = std::iter::once(name.clone())
        .chain(names)
        .take(if under_another { usize::MAX } else { 1 });
    let Some(path) = names
        .by_ref()
        .map(|name| folder.join(format!("{name}.json")))
        .find(|path| !path.exists())
    else {
        return Ok(None);
    };
    *record.revision() = 1;
    let digest = write(&path, &record)?;
    Ok(Some(Kept::new(record, path, digest)))
}

pub(super) fn insert<T: Record>(all: &mut Vec<Kept<T>>, kept: Kept<T>) {
    let at = all.partition_point(|other| other.record.sort_key() < kept.record.sort_key());
    all.insert(at, kept);
}

/// Writes a changed record, unless the file is not what it was when it was read. What stands there
/// instead is told, with a revision under which it can be written over: that of the file, or the next
/// where somebody wrote other text under the same.
pub(super) fn save<T: Record>(kept: &mut Kept<T>, mut record: T) -> Result<Saved, BookError> {
    let path = &kept.path;
    let text = reading::bytes(path).map_err(io_error(path, "reading"))?;
    let mut on_disk: Map<String, Value> =
        serde_json::from_slice(&text).map_err(|error| BookError::Damaged {
            path: path.clone(),
            why: error.to_string(),
        })?;
    let read = *record.revision();
    let (now, revision) = (
        digest(&text),
        on_disk.get("revision").and_then(Value::as_u64),
    );
    let is_as_read = revision == Some(read) && now == kept.digest;
    if !is_as_read && kept.told != Some((now, read)) {
        let told = match revision {
            Some(revision) if revision != read => revision,
            _ => read + 1,
        };
        on_disk.insert("revision".to_owned(), told.into());
        kept.told = Some((now, told));
        return Ok(Saved::Changed(on_disk));
    }
    *record.revision() = read + 1;
    let digest = write(path, &record)?;
    *kept = Kept::new(record, kept.path.clone(), digest);
    Ok(Saved::Written(read + 1))
}

/// Writes a record as JSON that people can read and version control can compare; gives the text's digest.
pub(super) fn write(path: &Path, record: &impl Serialize) -> Result<u64, BookError> {
    let mut text = serde_json::to_vec_pretty(record).map_err(|error| BookError::Io {
        path: path.into(),
        action: "writing",
        error: error.into(),
    })?;
    text.push(b'\n');
    put(path, |file| file.write_all(&text))?;
    Ok(digest(&text))
}

/// Takes away what a crash left half written. Only for whoever holds the lock: nobody else is writing.
pub(super) fn sweep(folder: &Path) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        if entry.file_name().to_string_lossy().starts_with(UNFINISHED) {
            // What cannot be taken away does no harm.
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// Writes beside the file, brings it to the disk, and renames it into place.
pub(super) fn put(
    path: &Path,
    fill: impl FnOnce(&mut File) -> io::Result<()>,
) -> Result<(), BookError> {
    let folder = path.parent().unwrap_or(Path::new("."));
    let mut beside = Builder::new();
    beside.prefix(UNFINISHED);
    // An ordinary new file's rights, so that whoever shares the folder can read it.
    #[cfg(unix)]
    beside.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    let written = beside.tempfile_in(folder).and_then(|mut file| {
        fill(file.as_file_mut())?;
        file.as_file().sync_all()?;
        file.persist(path).map_err(|error| error.error)?;
        // The new name has to reach the disk too; where folders cannot be opened it does by itself.
        File::open(folder)
            .and_then(|folder| folder.sync_all())
            .or(Ok(()))
    });
    written.map_err(io_error(path, "writing"))
}

/// A file name out of a number or title: what every file system takes.
pub(super) fn file_name(title: &str) -> String {
    match safe(title) {
        name if name.is_empty() => "record".to_owned(),
        name => name,
    }
}

pub(super) fn safe(text: &str) -> String {
    let mut name = String::new();
    for c in text.trim().chars().take(LONGEST_NAME) {
        if c.is_alphanumeric() || c == '_' {
            name.push(c);
        } else if !name.is_empty() && !name.ends_with('-') {
            name.push('-');
        }
    }
    name.trim_end_matches('-').to_owned()
}
