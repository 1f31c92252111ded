//! Parts put together, wherever they were measured.

use super::list::Part;
use super::results::{Results, ResultsError};
use super::run::{OVERLAY, PORES, SMALL};
use super::run_list::{RunList, State};
use std::collections::BTreeSet;
use std::path::PathBuf;

/// Why parts make no whole.
#[derive(Debug, thiserror::Error)]
pub enum JoinError {
    /// A folder could not be read, or the results not written.
    #[error(transparent)]
    Results(#[from] ResultsError),
    /// No part at all.
    #[error("there are no finished parts in {}; run them first, with --part", folders(.0))]
    Nothing(Vec<PathBuf>),
    /// Some parts are not finished.
    #[error(
        "of {of} parts {} {} not finished: {}. Run {} again, and then join",
        .missing.len(),
        if .missing.len() == 1 { "is" } else { "are" },
        numbers(.missing, *.of),
        if .missing.len() == 1 { "it" } else { "them" }
    )]
    Missing {
        /// How many there are to be.
        of: usize,
        /// Which are not there.
        missing: Vec<usize>,
    },
    /// Parts of different shares.
    #[error("parts of different runs lie together: {0} and {1}. Give each run a folder of its own")]
    Shares(Part, Part),
    /// Parts measured otherwise.
    #[error(
        "part {0} was measured by other settings, or by another version, than part {1}; run one of them \
         again"
    )]
    Settings(Part, Part),
    /// Parts of different lists.
    #[error(
        "part {0} saw another list of photos than part {1} ({2} files instead of {3}): photos came or went \
         in between. Run them again; what was measured is kept"
    )]
    Lists(Part, Part, usize, usize),
    /// Fewer files than the list has.
    #[error("the parts hold {found} of the {listed} files on the list; run them again")]
    Short {
        /// How many are there.
        found: usize,
        /// How many there are to be.
        listed: usize,
    },
}

fn folders(paths: &[PathBuf]) -> String {
    let names: Vec<String> = paths
        .iter()
        .map(|path| path.display().to_string())
        .collect();
    names.join(", ")
}

fn numbers(missing: &[usize], of: usize) -> String {
    let parts: Vec<String> = missing.iter().map(|part| format!("{part}/{of}")).collect();
    parts.join(", ")
}

/// Takes over all records of finished parts, and the list of the whole. The same as if one machine had
/// measured it all.
///
/// # Errors
/// [`JoinError`] where a part is missing, or they do not belong together.
pub fn join(folders: &[PathBuf], into: &Results) -> Result<RunList, JoinError> {
    let mut parts: Vec<(usize, RunList)> = Vec::new();
    let sources: Vec<Results> = folders.iter().map(|f| Results::read_only(f)).collect();
    for (at, source) in sources.iter().enumerate() {
        for list in source.lists()? {
            // What an earlier join made is made anew.
            if !list.part.is_whole() {
                parts.push((at, list));
            }
        }
    }
    parts.sort_by_key(|(_, list)| list.part);
    parts.dedup_by(|(_, again), (_, list)| again == list);
    let (_, first) = parts
        .first()
        .ok_or_else(|| JoinError::Nothing(folders.to_vec()))?;
    let of = first.part.of();
    for (_, other) in &parts {
        if other.part.of() != of {
            return Err(JoinError::Shares(first.part, other.part));
        }
        if other.settings_sha256 != first.settings_sha256 || other.extras != first.extras {
            return Err(JoinError::Settings(other.part, first.part));
        }
        if other.list_sha256 != first.list_sha256 {
            let (theirs, ours) = (other.listed, first.listed);
            return Err(JoinError::Lists(other.part, first.part, theirs, ours));
        }
    }
    let there: BTreeSet<usize> = parts.iter().map(|(_, list)| list.part.number()).collect();
    let missing: Vec<usize> = (1..=of).filter(|part| !there.contains(part)).collect();
    if !missing.is_empty() {
        return Err(JoinError::Missing { of, missing });
    }
    let mut whole = first.clone();
    whole.part = Part::WHOLE;
    whole.photos.clear();
    for (at, list) in parts {
        for seen in &list.photos {
            if let State::Kept { record } = &seen.state {
                // The record comes last: its being there says that all is.
                for ending in [SMALL, PORES, OVERLAY, "json"] {
                    into.take_over(&sources[at], record, ending)?;
                }
            }
        }
        whole.photos.extend(list.photos);
    }
    whole.photos.sort_by(|a, b| a.name.cmp(&b.name));
    whole
        .photos
        .dedup_by(|again, first| again.name == first.name);
    if whole.photos.len() < whole.listed {
        return Err(JoinError::Short {
            found: whole.photos.len(),
            listed: whole.listed,
        });
    }
    into.keep_list(&whole)?;
    Ok(whole)
}
