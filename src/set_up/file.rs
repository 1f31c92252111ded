//! Set-ups as files: read and checked, or written whole.

use super::place::names_in;
use super::{SCHEMA, SetUp, SetUpError};
use crate::reading;
use serde_json::Value;
use std::fs;
use std::io::{self, Write as _};
use std::path::Path;

impl SetUp {
    /// Reads a set-up.
    ///
    /// # Errors
    /// [`SetUpError::Missing`], [`SetUpError::Io`], [`SetUpError::Damaged`].
    pub fn load(path: &Path) -> Result<Self, SetUpError> {
        let text = reading::text(path).map_err(|error| match error.kind() {
            io::ErrorKind::NotFound => SetUpError::Missing {
                path: path.into(),
                known: names_in(folder_of(path)),
            },
            io::ErrorKind::InvalidData => SetUpError::Damaged {
                path: path.into(),
                why: "it is no text".to_owned(),
            },
            _ => failed(path, "reading", error),
        })?;
        read(&text).map_err(|why| SetUpError::Damaged {
            path: path.into(),
            why,
        })
    }

    /// Writes the set-up, under its name only when all of it is on disk; makes the folder where it is
    /// missing.
    ///
    /// # Errors
    /// [`SetUpError::AlreadyThere`] unless one that is there may be replaced; [`SetUpError::Io`].
    pub fn save(&self, path: &Path, replace: bool) -> Result<(), SetUpError> {
        let folder = folder_of(path);
        fs::create_dir_all(folder).map_err(|error| failed(folder, "making the folder", error))?;
        self.write(path, replace).map_err(|error| {
            if error.kind() == io::ErrorKind::AlreadyExists {
                SetUpError::AlreadyThere(path.into())
            } else {
                failed(path, "writing", error)
            }
        })
    }

    fn write(&self, path: &Path, replace: bool) -> io::Result<()> {
        let text = serde_json::to_string_pretty(self)?;
        let mut file = tempfile::Builder::new();
        file.prefix(".poreline-");
        // An ordinary new file's rights, as far as the person's own settings allow.
        #[cfg(unix)]
        file.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
        let mut file = file.tempfile_in(folder_of(path))?;
        writeln!(file, "{text}")?;
        file.as_file().sync_all()?;
        if replace {
            file.persist(path)?;
        } else {
            file.persist_noclobber(path)?;
        }
        Ok(())
    }
}

fn failed(path: &Path, action: &'static str, error: io::Error) -> SetUpError {
    SetUpError::Io {
        path: path.into(),
        action,
        error,
    }
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    }
}

/// What is wrong is told in words.
fn read(text: &str) -> Result<SetUp, String> {
    let value: Value = serde_json::from_str(text).map_err(|error| error.to_string())?;
    match value.get("schema").and_then(Value::as_str) {
        Some(SCHEMA) => {}
        Some(other) => return Err(format!("its schema is {other}, not {SCHEMA}")),
        None => return Err(format!("it does not say that its schema is {SCHEMA}")),
    }
    let set_up: SetUp = serde_json::from_value(value).map_err(|error| error.to_string())?;
    let scale = &set_up.scale;
    // JSON has no figures that are not numbers.
    if scale.px_per_mm <= 0.0 {
        return Err(format!("{} px per mm is no scale", scale.px_per_mm));
    }
    if scale.standard_uncertainty < 0.0 {
        return Err("its uncertainty is below zero".to_owned());
    }
    Ok(set_up)
}

#[cfg(test)]
mod tests {
    use super::super::tests::set_up;
    use super::*;
    use serde_json::json;

    #[test]
    fn a_set_up_comes_back_as_it_was_saved() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("new").join("stand.json");
        set_up().save(&path, false).expect("saved");
        assert_eq!(SetUp::load(&path).expect("loaded"), set_up());
        let listed = fs::read_dir(folder.path().join("new")).expect("a folder");
        assert_eq!(listed.count(), 1, "temporary files were left behind");
    }

    #[test]
    fn what_is_there_is_kept_unless_replaced() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("stand.json");
        fs::write(&path, "old").expect("written");
        let refused = set_up().save(&path, false);
        assert!(matches!(refused, Err(SetUpError::AlreadyThere(_))));
        assert_eq!(fs::read(&path).expect("read"), b"old");
        set_up().save(&path, true).expect("replaced");
        assert!(SetUp::load(&path).is_ok());
    }

    #[test]
    fn keys_that_are_not_ours_survive() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("stand.json");
        let mut value = serde_json::to_value(set_up()).expect("a value");
        value["lens"] = json!({"name": "borrowed", "rings_mm": [12, 20]});
        fs::write(&path, value.to_string()).expect("written");
        let loaded = SetUp::load(&path).expect("loaded");
        loaded.save(&path, true).expect("saved");
        let again: Value =
            serde_json::from_str(&fs::read_to_string(&path).expect("read")).expect("JSON");
        assert_eq!(again, value);
    }

    /// Every key of an object is described and required, and no other is required.
    fn keys_are_described(value: &Value, schema: &Value, at: &str) {
        let required = schema["required"].as_array().expect("a list");
        let object = value.as_object().expect("an object");
        for key in object.keys() {
            let described = &schema["properties"][key];
            assert!(described.is_object(), "{at}/{key} is not in the schema");
            assert!(required.contains(&json!(key)), "{at}/{key} is not required");
            if object[key].is_object() {
                keys_are_described(&object[key], described, &format!("{at}/{key}"));
            }
        }
        assert_eq!(required.len(), object.len(), "{at}");
    }

    #[test]
    fn the_schema_names_every_key() {
        let schema: Value =
            serde_json::from_str(include_str!("../../assets/schema/set-up-1.schema.json"))
                .expect("JSON");
        let value = serde_json::to_value(set_up()).expect("a value");
        keys_are_described(&value, &schema, "");
        assert_eq!(schema["properties"]["schema"]["const"], json!(SCHEMA));
        assert_eq!(value["schema"], json!(SCHEMA));
    }

    #[test]
    fn what_is_no_set_up_is_refused_by_name() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("stand.json");
        let good = serde_json::to_value(set_up()).expect("a value");
        let with = |pointer: &str, value: Value| {
            let mut bad = good.clone();
            *bad.pointer_mut(pointer).expect("a key") = value;
            bad.to_string()
        };
        for (text, words) in [
            (String::new(), "EOF"),
            ("{}".to_owned(), "does not say"),
            (with("/schema", json!("poreline-findings/1")), "findings"),
            (with("/scale/px_per_mm", json!(0)), "no scale"),
            (with("/scale/px_per_mm", json!(-3)), "no scale"),
            (with("/scale/px_per_mm", json!("NaN")), "invalid type"),
            (with("/scale/standard_uncertainty", json!(-1)), "below zero"),
            (with("/scale/how", json!("guessed")), "guessed"),
            (with("/image/width_px", json!(-1)), "invalid value"),
        ] {
            fs::write(&path, &text).expect("written");
            let error = SetUp::load(&path).expect_err(words).to_string();
            assert!(error.contains(words), "{error}");
            assert!(error.contains("stand.json"), "{error}");
        }
        fs::write(&path, good.to_string()).expect("written");
        let missing = SetUp::load(&folder.path().join("other.json"));
        let error = missing.expect_err("missing").to_string();
        assert!(
            error.contains("other.json") && error.contains("saved are: stand"),
            "{error}"
        );
    }
}
