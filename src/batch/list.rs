//! Which photos: those of a folder and of the folders in it, or those on a list; and one share of them.

use serde::{Deserialize, Serialize};
use std::fmt;
use std::io::{self, BufRead};
use std::path::{Path, PathBuf};
use std::str::FromStr;
use walkdir::{DirEntry, WalkDir};

/// A file to be looked at.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Listed {
    /// Its name in the results: its path from the folder on, parted by `/`, or as it was listed.
    pub name: String,
    /// Where it is.
    pub path: PathBuf,
}

/// What of a folder cannot be looked into.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Closed {
    /// Its path from the folder on, parted by `/`.
    pub name: String,
    /// What the system said.
    pub cause: String,
}

/// What there is to be looked at, sorted by name.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Listing {
    /// Files.
    pub files: Vec<Listed>,
    /// Folders, and links, that could not be followed.
    pub closed: Vec<Closed>,
}

/// Why there is no list at all.
#[derive(Debug, thiserror::Error)]
pub enum ListError {
    /// The folder itself.
    #[error("the folder {path} cannot be read: {cause}. Check its name and its permissions")]
    Folder {
        /// Which.
        path: PathBuf,
        /// What the system said.
        cause: String,
    },
    /// The list.
    #[error("the list of photos cannot be read: {0}. Give one path a line, in UTF-8")]
    Lines(#[from] io::Error),
}

impl Listing {
    /// All files of a folder and of the folders in it, but for hidden ones and for what lies in `except`,
    /// such as results of earlier runs. Links are followed, though not round in circles.
    ///
    /// # Errors
    /// [`ListError::Folder`] where the folder itself cannot be read; folders in it that cannot are told.
    pub fn of_folder(folder: &Path, except: &Path) -> Result<Self, ListError> {
        let closed = |error: io::Error| ListError::Folder {
            path: folder.into(),
            cause: error.to_string(),
        };
        folder.read_dir().map_err(closed)?;
        let except = except.canonicalize().ok();
        let is_except = |entry: &DirEntry| {
            let is_folder = entry.file_type().is_dir() && except.is_some();
            is_folder && entry.path().canonicalize().ok() == except
        };
        let is_wanted =
            |entry: &DirEntry| entry.depth() == 0 || !(is_hidden(entry) || is_except(entry));
        let mut listing = Self::default();
        let walk = WalkDir::new(folder).follow_links(true).into_iter();
        for entry in walk.filter_entry(is_wanted) {
            match entry {
                Ok(entry) if entry.file_type().is_dir() => {}
                Ok(entry) => listing.files.push(Listed {
                    name: name_in(folder, entry.path()),
                    path: entry.into_path(),
                }),
                Err(error) => listing.closed.push(Closed {
                    name: name_in(folder, error.path().unwrap_or(folder)),
                    cause: cause(&error),
                }),
            }
        }
        listing.files.sort();
        listing.closed.sort();
        Ok(listing)
    }

    /// The files that lines name, one a line; empty lines count for nothing, nor does a second mention.
    ///
    /// # Errors
    /// [`ListError::Lines`].
    pub fn of_lines(lines: impl BufRead) -> Result<Self, ListError> {
        let mut listing = Self::default();
        for line in lines.lines() {
            let line = line?;
            let name = line.trim_end_matches('\r');
            if !name.trim().is_empty() {
                listing.files.push(Listed {
                    name: name.to_owned(),
                    path: PathBuf::from(name),
                });
            }
        }
        listing.files.sort();
        listing.files.dedup();
        Ok(listing)
    }
}

fn is_hidden(entry: &DirEntry) -> bool {
    entry.file_name().as_encoded_bytes().starts_with(b".")
}

fn name_in(folder: &Path, path: &Path) -> String {
    let below = path.strip_prefix(folder).unwrap_or(path);
    let parts: Vec<_> = below.iter().map(|part| part.to_string_lossy()).collect();
    parts.join("/")
}

fn cause(error: &walkdir::Error) -> String {
    match (error.loop_ancestor(), error.io_error()) {
        (Some(above), _) => format!("a link leads round to {}", above.display()),
        (None, Some(error)) => error.to_string(),
        (None, None) => error.to_string(),
    }
}

/// One of several shares of the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(into = "[usize; 2]", try_from = "[usize; 2]")]
pub struct Part {
    number: usize,
    of: usize,
}

/// A share that there is not.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("“{0}” is no part; write it like 3/16, from 1/16 to 16/16")]
pub struct NoPart(String);

impl Part {
    /// All of it.
    pub const WHOLE: Self = Self { number: 1, of: 1 };

    /// Part `number` of `of`, counted from 1.
    ///
    /// # Errors
    /// [`NoPart`] for a number that is not among them.
    pub fn new(number: usize, of: usize) -> Result<Self, NoPart> {
        if (1..=of).contains(&number) {
            Ok(Self { number, of })
        } else {
            Err(NoPart(format!("{number}/{of}")))
        }
    }

    /// Which one, from 1.
    #[must_use]
    pub const fn number(self) -> usize {
        self.number
    }

    /// Of how many.
    #[must_use]
    pub const fn of(self) -> usize {
        self.of
    }

    /// Whether it is all of it.
    #[must_use]
    pub const fn is_whole(self) -> bool {
        self.of == 1
    }

    /// Every so manieth of a list, so that a series with large photos at its end is shared out evenly.
    pub fn share<T>(self, all: impl IntoIterator<Item = T>) -> impl Iterator<Item = T> {
        all.into_iter().skip(self.number - 1).step_by(self.of)
    }
}

impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.number, self.of)
    }
}

impl FromStr for Part {
    type Err = NoPart;

    fn from_str(typed: &str) -> Result<Self, NoPart> {
        let none = || NoPart(typed.to_owned());
        let (number, of) = typed.split_once('/').ok_or_else(none)?;
        let whole = |digits: &str| digits.trim().parse().map_err(|_| none());
        Self::new(whole(number)?, whole(of)?).map_err(|_| none())
    }
}

impl From<Part> for [usize; 2] {
    fn from(part: Part) -> Self {
        [part.number, part.of]
    }
}

impl TryFrom<[usize; 2]> for Part {
    type Error = NoPart;

    fn try_from([number, of]: [usize; 2]) -> Result<Self, NoPart> {
        Self::new(number, of)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    #[test]
    fn a_folder_is_listed_by_name_without_results_and_hidden_files() {
        let folder = tempfile::tempdir().expect("a folder");
        for file in [
            "b.jpg",
            "a.jpg",
            "walk/c.jpg",
            ".hidden.jpg",
            ".git/d.jpg",
            "results/e.jpg",
        ] {
            let path = folder.path().join(file);
            fs::create_dir_all(path.parent().expect("a parent")).expect("a folder");
            fs::write(path, "").expect("a file");
        }
        let listing = Listing::of_folder(folder.path(), &folder.path().join("results"));
        let names: Vec<String> = listing
            .expect("a list")
            .files
            .into_iter()
            .map(|file| file.name)
            .collect();
        assert_eq!(names, ["a.jpg", "b.jpg", "walk/c.jpg"]);
    }

    #[cfg(unix)]
    #[test]
    fn a_link_round_in_a_circle_is_told_and_ends() {
        let folder = tempfile::tempdir().expect("a folder");
        fs::write(folder.path().join("a.jpg"), "").expect("a file");
        std::os::unix::fs::symlink(folder.path(), folder.path().join("round")).expect("a link");
        let listing = Listing::of_folder(folder.path(), Path::new("nowhere")).expect("a list");
        assert_eq!(listing.files.len(), 1);
        assert_eq!(listing.closed[0].name, "round");
        assert!(listing.closed[0].cause.contains("round"));
    }

    #[test]
    fn lines_name_each_photo_once() {
        let typed = "walk/b.jpg\r\n\n  \na.jpg\nwalk/b.jpg";
        let listing = Listing::of_lines(typed.as_bytes()).expect("a list");
        let names: Vec<&str> = listing.files.iter().map(|f| f.name.as_str()).collect();
        assert_eq!(names, ["a.jpg", "walk/b.jpg"]);
    }

    #[test]
    fn parts_share_out_everything_once() {
        for of in 1..=7 {
            let mut shared: Vec<usize> = (1..=of)
                .flat_map(|number| Part::new(number, of).expect("a part").share(0..23))
                .collect();
            shared.sort_unstable();
            assert_eq!(shared, (0..23).collect::<Vec<_>>());
        }
        assert_eq!("3/16".parse(), Part::new(3, 16));
        for typed in ["0/4", "5/4", "1/0", "", "3", "a/b", "-1/2", "1/2/3"] {
            assert!(typed.parse::<Part>().is_err(), "{typed}");
        }
    }
}
