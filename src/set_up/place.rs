//! Where set-ups lie: by name in the folder of the person's settings, or wherever a path says.

use super::SetUpError;
use etcetera::BaseStrategy as _;
use std::fs;
use std::path::{Path, PathBuf};

/// Longest name, bytes: file systems take 255, ending included.
const LONGEST_NAME: usize = 200;

/// The folder in which set-ups are saved by name.
#[derive(Debug, Clone)]
pub struct SetUps(PathBuf);

impl SetUps {
    /// The folder `poreline/set-ups` of the person's settings.
    ///
    /// # Errors
    /// [`SetUpError::NoHome`].
    pub fn of_person() -> Result<Self, SetUpError> {
        let base = etcetera::choose_base_strategy().map_err(|_| SetUpError::NoHome)?;
        Ok(Self(base.config_dir().join("poreline").join("set-ups")))
    }

    /// A folder; it need not be there yet.
    #[must_use]
    pub const fn in_folder(folder: PathBuf) -> Self {
        Self(folder)
    }

    /// The names of the set-ups that have been saved, sorted.
    #[must_use]
    pub fn names(&self) -> Vec<String> {
        names_in(&self.0)
    }

    /// The file of the set-up of that name, there or not.
    ///
    /// # Errors
    /// [`SetUpError::Name`] for a name that no file can bear on some system, or that reads as a path.
    pub fn path(&self, name: &str) -> Result<PathBuf, SetUpError> {
        // Characters that one system or another takes for something else.
        let is_odd = |c: char| c.is_control() || "<>:\"|?*".contains(c);
        if name.is_empty()
            || name.len() > LONGEST_NAME
            || name.starts_with('.')
            || name.trim() != name
            || name.contains(is_odd)
            || is_path(name)
        {
            return Err(SetUpError::Name(name.to_owned()));
        }
        Ok(self.0.join(format!("{name}.json")))
    }
}

/// The file of a set-up as it was typed: a path where it holds a separator or ends in `.json`, else a
/// name among the [`SetUps`] of the person.
///
/// # Errors
/// [`SetUpError::Name`], [`SetUpError::NoHome`].
pub fn locate(typed: &str) -> Result<PathBuf, SetUpError> {
    if is_path(typed) {
        Ok(typed.into())
    } else {
        SetUps::of_person()?.path(typed)
    }
}

fn is_path(typed: &str) -> bool {
    let ending = Path::new(typed).extension();
    typed.contains(['/', '\\']) || ending.is_some_and(|end| end.eq_ignore_ascii_case("json"))
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
        let set_ups = SetUps::in_folder("settings".into());
        for path in ["walks/stand", "..\\stand", "stand.json"] {
            let refused = set_ups.path(path);
            assert!(matches!(refused, Err(SetUpError::Name(_))), "{path}");
        }
    }
}
