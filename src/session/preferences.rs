//! What a person likes: kept from one start to the next in one file with the person's settings.

use super::document::sentence;
use super::record::BookCommand;
use super::{Session, Tone};
use crate::reading;
use crate::wording::{self, Language, text};
use etcetera::BaseStrategy as _;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use std::fs;
use std::io::{self, ErrorKind, Write as _};
use std::path::{Path, PathBuf};

/// What a step changes the text size by, per cent.
const STEP: u16 = 10;

/// Photos that are remembered.
const RECENT: usize = 10;

/// Name and version of the form; the version rises when a key changes its meaning or goes away.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
enum Schema {
    #[default]
    #[serde(rename = "poreline-preferences/1")]
    One,
}

/// Colours of the window.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Colours {
    /// As the system has them.
    #[default]
    System,
    /// Light.
    Light,
    /// Dark.
    Dark,
}

impl Colours {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::System, Self::Light, Self::Dark];

    /// In words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::System => text!("as-the-system"),
            Self::Light => text!("light"),
            Self::Dark => text!("dark"),
        }
    }
}

/// How large everything in the window is, per cent of the usual.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(from = "u16", into = "u16")]
pub struct TextSize(u16);

impl TextSize {
    /// The smallest and the largest, per cent.
    pub const RANGE: [u16; 2] = [80, 200];
    /// The usual one.
    pub const USUAL: Self = Self(100);

    /// Such a size, or the nearest that there is.
    #[must_use]
    pub fn new(per_cent: u16) -> Self {
        let [least, most] = Self::RANGE;
        Self(per_cent.clamp(least, most))
    }

    /// Per cent.
    #[must_use]
    pub const fn per_cent(self) -> u16 {
        self.0
    }

    /// As a multiple of the usual.
    #[must_use]
    pub fn multiple(self) -> f32 {
        f32::from(self.0) / 100.0
    }
}

impl Default for TextSize {
    fn default() -> Self {
        Self::USUAL
    }
}

impl From<u16> for TextSize {
    fn from(per_cent: u16) -> Self {
        Self::new(per_cent)
    }
}

impl From<TextSize> for u16 {
    fn from(size: TextSize) -> Self {
        size.0
    }
}

/// How large the window was, points of the system; where it lay is left to the system, whose screens may
/// be others now.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WindowSize {
    /// Width and height.
    pub size: [f32; 2],
    /// Whether it filled the screen.
    pub is_maximised: bool,
}

/// What is remembered.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Preferences {
    schema: Schema,
    /// How large everything in the window is.
    pub text_size: TextSize,
    /// Colours of the window.
    pub colours: Colours,
    /// The language of the window; the system's where there is none.
    pub language: Option<Language>,
    /// Whether nothing moves by itself.
    pub reduced_motion: bool,
    /// How large the window was.
    pub window: Option<WindowSize>,
    /// The folder in which something was saved last.
    pub save_folder: Option<PathBuf>,
    /// Photos opened last, the newest first.
    recent: Vec<PathBuf>,
    /// Keys of later versions are kept.
    #[serde(flatten)]
    other: Map<String, Value>,
}

/// A photo that was opened before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecentPhoto {
    /// Where it lay.
    pub path: PathBuf,
    /// Whether it is gone from there.
    pub is_missing: bool,
}

/// Why preferences cannot be kept.
#[derive(Debug, thiserror::Error)]
enum PreferencesError {
    #[error("{path} cannot be read as preferences ({why}). It was set aside as {aside}")]
    Damaged {
        path: PathBuf,
        why: String,
        aside: PathBuf,
    },
    #[error(
        "preferences could not be read from {path}: {error}. What you choose now is not kept, so that \
         nothing is overwritten"
    )]
    Unread { path: PathBuf, error: io::Error },
    #[error(
        "preferences could not be written to {path}: {error}. They hold until the window is closed"
    )]
    Unwritten { path: PathBuf, error: io::Error },
}

impl Preferences {
    /// What the file says; the usual where there is none.
    fn read(path: &Path) -> Result<Self, PreferencesError> {
        let text = match reading::bytes(path) {
            Ok(text) => text,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Self::default()),
            Err(error) => {
                let path = path.to_owned();
                return Err(PreferencesError::Unread { path, error });
            }
        };
        serde_json::from_slice(&text).map_err(|why| {
            let aside = super::free_name(&path.with_extension("damaged.json"));
            match fs::rename(path, &aside) {
                Ok(()) => PreferencesError::Damaged {
                    path: path.to_owned(),
                    why: why.to_string(),
                    aside,
                },
                Err(error) => PreferencesError::Unread {
                    path: path.to_owned(),
                    error,
                },
            }
        })
    }

    /// Writes the file, under its name only when all of it is on disk.
    fn write(&self, path: &Path) -> Result<(), PreferencesError> {
        let write = || {
            let folder = path.parent().unwrap_or(Path::new("."));
            fs::create_dir_all(folder)?;
            let mut file = tempfile::NamedTempFile::new_in(folder)?;
            file.write_all(&serde_json::to_vec_pretty(self)?)?;
            file.as_file().sync_all()?;
            file.persist(path)?;
            Ok(())
        };
        write().map_err(|error| PreferencesError::Unwritten {
            path: path.to_owned(),
            error,
        })
    }

    /// What was remembered with the person's settings before there is a session; the usual where nothing
    /// can be read, of which the session tells.
    #[must_use]
    pub fn of_person() -> Self {
        let text = of_person().and_then(|file| reading::bytes(&file).ok());
        text.and_then(|text| serde_json::from_slice(&text).ok())
            .unwrap_or_default()
    }

    /// The same in other colours.
    #[must_use]
    pub fn in_colours(&self, colours: Colours) -> Self {
        Self {
            colours,
            ..self.clone()
        }
    }

    /// The same with text a step larger or smaller.
    #[must_use]
    pub fn resized(&self, is_larger: bool) -> Self {
        let now = self.text_size.per_cent();
        Self {
            text_size: TextSize::new(if is_larger { now + STEP } else { now - STEP }),
            ..self.clone()
        }
    }

    fn looked_for(&self) -> Vec<RecentPhoto> {
        let recent = self.recent.iter().map(|path| RecentPhoto {
            path: path.clone(),
            is_missing: !path.is_file(),
        });
        recent.collect()
    }

    /// The folder in which to look for photos first.
    #[must_use]
    pub fn open_folder(&self) -> Option<&Path> {
        self.recent
            .first()?
            .parent()
            .filter(|folder| folder.is_dir())
    }

    fn opened(&mut self, photo: PathBuf) {
        self.recent.retain(|before| *before != photo);
        self.recent.insert(0, photo);
        self.recent.truncate(RECENT);
    }
}

/// The file with the person's settings; `None` where there is no home.
fn of_person() -> Option<PathBuf> {
    let base = etcetera::choose_base_strategy().ok()?;
    Some(base.config_dir().join("poreline").join("preferences.json"))
}

/// What is preferred, and where it is kept.
#[derive(Debug, Default)]
pub(super) struct Kept {
    preferences: Preferences,
    file: Option<PathBuf>,
    /// Recent photos as they were found when the preferences last changed.
    recent: Vec<RecentPhoto>,
}

impl Session {
    /// What the person likes.
    #[must_use]
    pub const fn preferences(&self) -> &Preferences {
        &self.preferences.preferences
    }

    /// Photos opened last, the newest first.
    #[must_use]
    pub fn recent_photos(&self) -> &[RecentPhoto] {
        &self.preferences.recent
    }

    /// Speaks a language from now on, also of what was measured before.
    pub fn speak(&mut self, language: Language) {
        if wording::spoken() == language {
            return;
        }
        wording::speak(language);
        if let Some(results) = &mut self.results {
            results.put_into_words();
        }
        self.strip.put_into_words();
        if self.record.book().is_some() && self.why_not_book().is_none() {
            self.work_on_book(BookCommand::ReadAnew);
        }
    }

    /// Remembers what the person likes with the person's settings.
    pub fn remember_preferences(&mut self) {
        if let Some(file) = of_person() {
            self.remember_preferences_in(file);
        }
    }

    /// The same in a file of its own.
    pub fn remember_preferences_in(&mut self, file: PathBuf) {
        match Preferences::read(&file) {
            Ok(preferences) => {
                self.preferences = Kept {
                    recent: preferences.looked_for(),
                    preferences,
                    file: Some(file),
                };
            }
            Err(error) => {
                let is_set_aside = matches!(error, PreferencesError::Damaged { .. });
                self.preferences.file = is_set_aside.then_some(file);
                self.notify(Tone::Trouble, sentence(&error));
            }
        }
    }

    /// Changes what the person likes, and writes it down.
    pub fn prefer(&mut self, change: impl FnOnce(&mut Preferences)) {
        let before = self.preferences.preferences.clone();
        change(&mut self.preferences.preferences);
        let Kept {
            preferences,
            file,
            recent,
        } = &mut self.preferences;
        if *preferences == before {
            return;
        }
        *recent = preferences.looked_for();
        if let Some(path) = file
            && let Err(error) = preferences.write(path)
        {
            // Once is enough.
            *file = None;
            self.notify(Tone::Trouble, sentence(&error));
        }
    }

    /// Remembers the photo that was opened.
    pub(super) fn remember_photo(&mut self) {
        let Some(photo) = &self.document.photo else {
            return;
        };
        let path = std::path::absolute(&photo.path).unwrap_or_else(|_| photo.path.clone());
        self.prefer(|preferences| preferences.opened(path));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::Command;
    use crate::session::filmstrip::tests::{photo_in, session, wait};
    use serde_json::json;

    #[test]
    fn what_is_chosen_is_there_at_the_next_start_beside_keys_of_others() {
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("new").join("preferences.json");
        let (mut first, _rung) = session();
        first.remember_preferences_in(file.clone());
        assert_eq!(first.preferences().text_size, TextSize::USUAL);
        first.prefer(|p| p.text_size = TextSize::new(150));
        let mut value: Value =
            serde_json::from_slice(&fs::read(&file).expect("a file")).expect("JSON");
        value["pen"] = json!("fine");
        fs::write(&file, value.to_string()).expect("written");

        let (mut second, _rung) = session();
        second.remember_preferences_in(file.clone());
        assert_eq!(second.preferences().text_size.per_cent(), 150);
        second.prefer(|p| p.colours = Colours::Dark);
        let value: Value = serde_json::from_slice(&fs::read(&file).expect("a file")).expect("JSON");
        assert_eq!(
            (&value["pen"], &value["colours"]),
            (&json!("fine"), &json!("dark"))
        );
        assert_eq!(value["schema"], json!("poreline-preferences/1"));
    }

    #[test]
    fn a_size_off_the_range_becomes_the_nearest_in_it() {
        for (asked, given) in [(0, 80), (79, 80), (133, 133), (65_535, 200)] {
            assert_eq!(TextSize::new(asked).per_cent(), given);
        }
    }

    #[test]
    fn a_damaged_file_is_set_aside_and_named() {
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("preferences.json");
        fs::write(&file, "{\"text_size\": ").expect("written");
        let (mut session, _rung) = session();
        session.remember_preferences_in(file.clone());
        let told = session.notices()[0].text.clone();
        assert!(told.contains("set aside"), "{told}");
        session.prefer(|p| p.reduced_motion = true);
        let files = fs::read_dir(folder.path()).expect("a folder").count();
        assert_eq!(files, 2, "the damaged file is gone");
    }

    #[test]
    fn photos_opened_last_come_first_and_missing_ones_are_told() {
        let folder = tempfile::tempdir().expect("a folder");
        let (mut session, rung) = session();
        session.remember_preferences_in(folder.path().join("preferences.json"));
        let paths = ["a.png", "b.png"].map(|name| photo_in(&folder, name, 20));
        for path in [&paths[0], &paths[1], &paths[0]] {
            session.apply(Command::Open(path.clone()));
            wait(&mut session, &rung);
        }
        fs::remove_file(&paths[1]).expect("removed");
        session.prefer(|p| p.reduced_motion = true);
        let recent = session.recent_photos().iter();
        let told: Vec<_> = recent.map(|r| (r.path.clone(), r.is_missing)).collect();
        assert_eq!(told, [(paths[1].clone(), true), (paths[0].clone(), false)]);
        assert_eq!(session.preferences().open_folder(), Some(folder.path()));
    }
}
