//! Where set-ups lie: by name in the folder of the person's settings, or wherever a path says.

use super::SetUpError;
use etcetera::BaseStrategy as _;
use std::fs;
use std::path::{Path, PathBuf};

/// Longest name, bytes: file systems take 255, ending included.
const LONGEST_NAME: usize = 200;

/// The file of a set-up as it was typed: a path where it holds a separator or ends in `.json`, else a
/// name in the folder `poreline/set-ups` of the person's settings.
///
/// # Errors
/// [`SetUpError::Name`], [`SetUpError::NoHome`].
pub fn locate(typed: &str) -> Result<PathBuf, SetUpError> {
    let is_path = typed.contains(['/', '\\'])
        || Path::new(typed)
            .extension()
            .is_some_and(|end| end.eq_ignore_ascii_case("json"));
    if is_path {
        return Ok(typed.into());
    }
    // Characters that one system or another takes for something else.
    let is_odd = |c: char| c.is_control() || "<>:\"|?*".contains(c);
    if typed.is_empty()
        || typed.len() > LONGEST_NAME
        || typed.starts_with('.')
        || typed.trim() != typed
        || typed.contains(is_odd)
    {
        return Err(SetUpError::Name(typed.to_owned()));
    }
    Ok(folder()?.join(format!("{typed}.json")))
}

/// The names of the set-ups that have been saved by name, sorted.
///
/// # Errors
/// [`SetUpError::NoHome`].
pub fn known() -> Result<Vec<String>, SetUpError> {
    Ok(names_in(&folder()?))
}

/// A folder that is not there has none.
pub(super) fn names_in(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .into_iter()
        .flatten()
        .filter_map(|entry| {
            let path = entry.ok()?.path();
            let is_json = path.extension()?.eq_ignore_ascii_case("json");
            let name = path.file_stem()?.to_string_lossy().into_owned();
            (is_json && !name.starts_with('.')).then_some(name)
        })
        .collect();
    names.sort();
    names
}

fn folder() -> Result<PathBuf, SetUpError> {
    let base = etcetera::choose_base_strategy().map_err(|_| SetUpError::NoHome)?;
    Ok(base.config_dir().join("poreline").join("set-ups"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_and_paths_are_told_apart() {
        for path in [
            "./stand",
            "walks/stand",
            "stand.json",
            "C:\\stand",
            "/stand.JSON",
        ] {
            assert_eq!(locate(path).expect("a path"), PathBuf::from(path));
        }
        let by_name = locate("stand, 100 mm").expect("a name");
        assert!(by_name.ends_with("poreline/set-ups/stand, 100 mm.json"));
        for name in ["", ".hidden", " stand", "a:b", "a\nb", "what?"] {
            assert!(matches!(locate(name), Err(SetUpError::Name(_))), "{name}");
        }
    }
}
