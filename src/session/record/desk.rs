//! What the window remembers from one start to the next: the book, and who measures.

use etcetera::BaseStrategy as _;
use serde::{Deserialize, Serialize};
use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};

/// What is remembered.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "camelCase", default)]
pub(super) struct Desk {
    /// The folder of the book that was open.
    pub book: Option<PathBuf>,
    /// Who measures.
    pub measured_by: String,
}

/// The file with the person's settings; `None` where there is no home.
pub(super) fn of_person() -> Option<PathBuf> {
    let base = etcetera::choose_base_strategy().ok()?;
    Some(base.config_dir().join("poreline").join("desk.json"))
}

impl Desk {
    /// What the file says; nothing where there is none that can be read.
    pub(super) fn read(path: &Path) -> Self {
        fs::read(path)
            .ok()
            .and_then(|text| serde_json::from_slice(&text).ok())
            .unwrap_or_default()
    }

    /// Writes the file.
    ///
    /// # Errors
    /// When the disk refuses.
    pub(super) fn write(&self, path: &Path) -> std::io::Result<()> {
        let folder = path.parent().unwrap_or(Path::new("."));
        fs::create_dir_all(folder)?;
        let mut file = tempfile::NamedTempFile::new_in(folder)?;
        file.write_all(&serde_json::to_vec_pretty(self)?)?;
        file.persist(path).map_err(|error| error.error)?;
        Ok(())
    }
}
