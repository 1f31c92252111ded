//! Files that can be saved, of findings and of the book: what they are called, where they are proposed.

use super::Memory;
use crate::session::record::{NUMBER, Outgoing};
use crate::session::{BookCommand, Command, Export, Session};
use std::path::{Path, PathBuf};

/// A file that can be saved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum File {
    /// Made of the findings.
    Findings(Export),
    /// Made of the book.
    Book(Outgoing),
}

impl File {
    /// The ending of its name.
    pub(crate) const fn extension(self) -> &'static str {
        match self {
            Self::Findings(export) => export.extension(),
            Self::Book(outgoing) => outgoing.extension(),
        }
    }

    /// The name proposed for it; `None` where there is nothing to make it of.
    pub(crate) fn name(self, session: &Session) -> Option<String> {
        match self {
            Self::Findings(export) => {
                let photo = session.document().photo.as_ref()?;
                Some(export.file_name(&photo.path))
            }
            Self::Book(outgoing) => {
                session.record().book()?;
                let form = session.record().form();
                Some(outgoing.file_name(form.map_or("", |form| form.text(NUMBER))))
            }
        }
    }

    /// The folder proposed for it: that of the photo, or the one in which the book lies.
    pub(crate) fn folder(self, session: &Session) -> Option<&Path> {
        let beside = match self {
            Self::Findings(_) => session.document().photo.as_ref()?.path.as_path(),
            Self::Book(_) => session.record().book()?.folder(),
        };
        beside.parent().filter(|folder| folder.is_dir())
    }

    /// The command that saves it.
    pub(crate) fn saving(self, path: PathBuf, memory: &Memory) -> Command {
        match self {
            Self::Findings(export) => Command::Save(export, path),
            Self::Book(what) => Command::Book(BookCommand::Export {
                what,
                path,
                places: memory.places,
            }),
        }
    }
}
