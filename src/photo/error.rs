use super::kind::ForeignKind;
use std::path::{Path, PathBuf};

/// Why a file did not become a photo. Every message says what happened, what to do, and to which
/// file, in that order: paths are long, and the reader should not have to look behind them.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PhotoError {
    /// Nothing is there.
    #[error(
        "no such file; check the name, or whether the card or drive is still connected: {path}"
    )]
    Missing {
        /// The file asked for.
        path: PathBuf,
    },
    /// A folder, or another thing that is not a file.
    #[error("this is a {what}, not a photo; name the photo files themselves: {path}")]
    NotAFile {
        /// The thing asked for.
        path: PathBuf,
        /// What it is.
        what: &'static str,
    },
    /// The file may not be read by this user.
    #[error(
        "no permission to read this file; allow reading it, or copy it to a folder of your own: {path}"
    )]
    NoPermission {
        /// The file asked for.
        path: PathBuf,
    },
    /// The operating system failed to read the file.
    #[error("reading failed ({reason}); copy the file again from the card and retry: {path}")]
    Unreadable {
        /// The file asked for.
        path: PathBuf,
        /// The operating system's words.
        reason: String,
    },
    /// The file holds no bytes at all.
    #[error("the file is empty; copy it again from the card: {path}")]
    Empty {
        /// The file asked for.
        path: PathBuf,
    },
    /// The file is longer than any photo within [`MAX_PIXELS`](super::MAX_PIXELS) needs to be.
    #[error(
        "the file is {} MB long, more than the {} MB a photo may have; save it smaller, or cut out the part to measure: {path}",
        bytes / 1_000_000,
        super::MAX_FILE_BYTES / 1_000_000
    )]
    LongFile {
        /// The file asked for.
        path: PathBuf,
        /// Its length.
        bytes: u64,
    },
    /// A kind of file Poreline does not read.
    #[error("this is {}; {}: {path}", kind.name(), kind.advice())]
    Foreign {
        /// The file asked for.
        path: PathBuf,
        /// What it is, as far as its content tells.
        kind: ForeignKind,
    },
    /// The picture has more pixels than Poreline takes.
    #[error(
        "the picture is {width} × {height} pixels, more than {} a side or {} million in all; \
         save it smaller, or cut out the part to measure: {path}",
        super::MAX_SIDE_PX,
        super::MAX_PIXELS / 1_000_000
    )]
    TooLarge {
        /// The file asked for.
        path: PathBuf,
        /// Width its header claims, pixels.
        width: u32,
        /// Height its header claims, pixels.
        height: u32,
    },
    /// A JPEG file that stops before its picture does.
    #[error(
        "the file stops before the picture is complete; copy it again from the card, \
         or crop off the missing part in an image program and save that: {path}"
    )]
    Incomplete {
        /// The file asked for.
        path: PathBuf,
    },
    /// The right kind of file, with an inner coding the decoder lacks.
    #[error(
        "this {kind} file is coded in a way Poreline does not read ({reason}); \
         save it as an ordinary 8- or 16-bit TIFF or PNG: {path}"
    )]
    UnknownCoding {
        /// The file asked for.
        path: PathBuf,
        /// Name of the file format.
        kind: &'static str,
        /// The decoder's words.
        reason: String,
    },
    /// The file contradicts itself or its format.
    #[error(
        "this {kind} file is damaged ({reason}); copy it again from the card, \
         or open it in an image program and save it anew: {path}"
    )]
    Damaged {
        /// The file asked for.
        path: PathBuf,
        /// Name of the file format.
        kind: &'static str,
        /// The decoder's words.
        reason: String,
    },
}

impl PhotoError {
    /// The file asked for.
    #[must_use]
    pub fn path(&self) -> &Path {
        match self {
            Self::Missing { path }
            | Self::NotAFile { path, .. }
            | Self::NoPermission { path }
            | Self::Unreadable { path, .. }
            | Self::Empty { path }
            | Self::LongFile { path, .. }
            | Self::Foreign { path, .. }
            | Self::TooLarge { path, .. }
            | Self::Incomplete { path }
            | Self::UnknownCoding { path, .. }
            | Self::Damaged { path, .. } => path,
        }
    }
}
