//! Several files of one voucher, as a shared folder leaves them where two people wrote at once.

use super::files::{Kept, file_name, io_error, read_one, write};
use super::{Book, Voucher};
use crate::book::error::BookError;
use std::fs;
use std::path::{Path, PathBuf};

impl Book {
    /// The files that hold a voucher of this number, the one that bears its name first. A shared folder
    /// leaves several where two people wrote at once.
    ///
    /// # Errors
    /// [`BookError::Missing`].
    pub fn versions(&self, catalog_number: &str) -> Result<Vec<(&Path, &Voucher)>, BookError> {
        let id = &self.voucher(catalog_number)?.occurrence_id;
        let mut versions: Vec<(&Path, &Voucher)> = (self.vouchers.iter())
            .filter(|kept| kept.record.occurrence_id == *id)
            .map(|kept| (kept.path.as_path(), &kept.record))
            .collect();
        let name = file_name(catalog_number);
        versions.sort_by_key(|(path, _)| path.file_stem().is_none_or(|stem| *stem != *name));
        Ok(versions)
    }

    /// Writes a voucher in place of all its [versions](Self::versions). The files of the others are
    /// set aside under names that the book does not read; it tells which.
    ///
    /// # Errors
    /// [`BookError::Changed`] where a version was changed since it was read, [`BookError::Missing`],
    /// [`BookError::Io`].
    pub fn unite(&mut self, mut voucher: Voucher) -> Result<Vec<PathBuf>, BookError> {
        let versions = self.versions(&voucher.catalog_number)?;
        let revision = versions.iter().map(|(_, one)| one.revision).max();
        let paths: Vec<PathBuf> = versions.iter().map(|(path, _)| path.into()).collect();
        let _lock = self.lock()?;
        for (path, _) in &versions {
            let now: Kept<Voucher> = read_one(path.into()).map_err(BookError::from)?;
            let as_read = self.vouchers.iter().find(|kept| kept.path == *path);
            if as_read.is_none_or(|kept| kept.digest != now.digest) {
                return Err(BookError::Changed(voucher.catalog_number));
            }
        }
        voucher.revision = revision.unwrap_or_default() + 1;
        let (first, others) = paths.split_first().ok_or_else(|| BookError::Missing {
            kind: "voucher",
            name: voucher.catalog_number.clone(),
        })?;
        let digest = write(first, &voucher)?;
        self.vouchers.retain(|kept| !others.contains(&kept.path));
        if let Some(kept) = self.vouchers.iter_mut().find(|kept| kept.path == *first) {
            *kept = Kept::new(voucher, first.clone(), digest);
        }
        others.iter().map(|path| set_aside(path)).collect()
    }

    /// Reads a voucher's file that is not of this book, such as another's copy.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn read_voucher(path: &Path) -> Result<Voucher, BookError> {
        Ok(read_one(path.into())?.record)
    }
}

/// Gives a file a name that the book does not read.
fn set_aside(path: &Path) -> Result<PathBuf, BookError> {
    let mut names = (1..).map(|n: u32| path.with_extension(format!("json.set-aside-{n}")));
    let free = names.find(|name| !name.exists()).unwrap_or_default();
    fs::rename(path, &free).map_err(io_error(path, "setting it aside"))?;
    Ok(free)
}
