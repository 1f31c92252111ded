//! What files told when they were looked at, remembered while a folder is watched.

use super::run::lock;
use crate::photo::{self, Glance, PhotoError};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::time::SystemTime;

/// What files told when they were looked at, as long as their length and time stay the same.
#[derive(Debug, Default)]
pub struct Glances(Mutex<BTreeMap<PathBuf, (u64, SystemTime, Glance)>>);

impl Glances {
    /// What a file tells, read anew only where it has changed.
    pub(super) fn of(&self, path: &Path) -> Result<Glance, PhotoError> {
        let now = path
            .metadata()
            .and_then(|file| Ok((file.len(), file.modified()?)))
            .ok();
        if let (Some((length, time)), Some((known_length, known_time, glance))) =
            (now, lock(&self.0).get(path))
            && (length, time) == (*known_length, *known_time)
        {
            return Ok(glance.clone());
        }
        let glance = photo::glance(path)?;
        if let Some((length, time)) = now {
            lock(&self.0).insert(path.to_owned(), (length, time, glance.clone()));
        }
        Ok(glance)
    }
}
