//! Reading files that somebody else may have written: what lies in a book, a set-up, corrections.
//!
//! A book goes from hand to hand, so a name in it may lead to anything. Opening a pipe waits for its other
//! end for ever, a device may never end, and a file of many gigabytes would take all memory there is.

use std::fs::{self, File};
use std::io::{self, Read as _};
use std::path::Path;

/// The longest text that is read, bytes: a thousand times what a voucher with all its findings takes.
pub const LONGEST_TEXT: u64 = 64_000_000;

/// Opens a file; links are followed.
///
/// # Errors
/// What the system says, or [`io::ErrorKind::InvalidInput`] for what is no file.
pub fn open(path: &Path) -> io::Result<File> {
    let about = fs::metadata(path)?;
    if about.is_file() {
        File::open(path)
    } else {
        Err(io::Error::new(
            io::ErrorKind::InvalidInput,
            if about.is_dir() {
                "it is a folder and no file"
            } else {
                "it is a device or pipe and no file"
            },
        ))
    }
}

/// All bytes of a file of text.
///
/// # Errors
/// As [`open`], or [`io::ErrorKind::FileTooLarge`] above [`LONGEST_TEXT`].
pub fn bytes(path: &Path) -> io::Result<Vec<u8>> {
    let mut read = Vec::new();
    // One byte more tells whether there is more.
    open(path)?.take(LONGEST_TEXT + 1).read_to_end(&mut read)?;
    if read.len() as u64 > LONGEST_TEXT {
        return Err(io::Error::new(
            io::ErrorKind::FileTooLarge,
            format!(
                "it is longer than {} MB, which no such file is",
                LONGEST_TEXT / 1_000_000
            ),
        ));
    }
    Ok(read)
}

/// A file of text.
///
/// # Errors
/// As [`bytes`], or [`io::ErrorKind::InvalidData`] where it is not UTF-8.
pub fn text(path: &Path) -> io::Result<String> {
    String::from_utf8(bytes(path)?)
        .map_err(|_| io::Error::new(io::ErrorKind::InvalidData, "it is no text"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_are_read_whole_and_other_things_told() {
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("a.json");
        fs::write(&file, "{}").expect("a file");
        assert_eq!(text(&file).expect("text"), "{}");
        fs::write(&file, [0xff, 0xfe]).expect("a file");
        assert_eq!(
            text(&file).expect_err("no text").kind(),
            io::ErrorKind::InvalidData
        );
        let told = bytes(folder.path()).expect_err("a folder");
        assert_eq!(told.to_string(), "it is a folder and no file");
        let told = bytes(&folder.path().join("b.json")).expect_err("nothing");
        assert_eq!(told.kind(), io::ErrorKind::NotFound);
    }

    #[test]
    fn what_is_too_long_is_told_and_not_kept() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("long.json");
        // Takes no room on the disk: nothing is written but the length.
        let file = File::create(&path).expect("a file");
        file.set_len(LONGEST_TEXT).expect("a length");
        assert_eq!(bytes(&path).expect("read").len() as u64, LONGEST_TEXT);
        file.set_len(10 * LONGEST_TEXT).expect("a length");
        assert_eq!(
            bytes(&path).expect_err("too long").kind(),
            io::ErrorKind::FileTooLarge
        );
    }

    #[cfg(unix)]
    #[test]
    fn a_device_that_never_ends_is_not_read() {
        let told = bytes(Path::new("/dev/zero")).expect_err("a device");
        assert_eq!(told.to_string(), "it is a device or pipe and no file");
    }
}
