//! What a file tells before its picture is decoded: enough to know it again, and how much memory it will
//! take.

use super::{Opened, PhotoError, begin, decode, hexadecimal, unread};
use sha2::{Digest as _, Sha256};
use std::fs::File;
use std::io::{BufReader, Read as _, Seek as _, SeekFrom};
use std::path::Path;

/// Bytes read at a time.
const PIECE: usize = 1 << 18;

/// What a photo's file tells before its picture is decoded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Glance {
    /// SHA-256 of the file's bytes, 64 lower-case hexadecimal digits.
    pub sha256: String,
    /// Length of the file.
    pub bytes: u64,
    /// Width and height of the picture as stored, px, or why nobody can know them.
    pub size_px: Result<(u32, u32), PhotoError>,
}

/// Looks at a file: reads it once, piece by piece, and its header.
///
/// # Errors
/// [`PhotoError`] where the file cannot be read, or is not of a kind that Poreline reads.
pub fn glance(path: &Path) -> Result<Glance, PhotoError> {
    let Opened {
        head,
        mut rest,
        format,
        bytes,
    } = begin(path)?;
    let failed = |error| unread(path, &error);
    let sha256 = digest(&head, &mut rest).map_err(failed)?;
    rest.seek(SeekFrom::Start(0)).map_err(failed)?;
    Ok(Glance {
        sha256,
        bytes,
        size_px: decode::size(path, BufReader::new(rest), format),
    })
}

fn digest(head: &[u8], rest: &mut File) -> std::io::Result<String> {
    let mut digest = Sha256::new();
    digest.update(head);
    let mut piece = vec![0; PIECE];
    loop {
        match rest.read(&mut piece)? {
            0 => return Ok(hexadecimal(&digest.finalize())),
            read => digest.update(&piece[..read]),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::photo::open;
    use image::RgbImage;

    #[test]
    fn a_glance_tells_what_opening_tells() {
        let folder = tempfile::tempdir().expect("a folder");
        for name in ["a.png", "a.jpg", "a.tif", "a.bmp", "a.webp"] {
            let path = folder.path().join(name);
            RgbImage::from_fn(33, 20, |x, y| {
                image::Rgb([x, y, 7].map(|value| u8::try_from(value).unwrap_or(u8::MAX)))
            })
            .save(&path)
            .expect("a photo");
            let seen = glance(&path).expect("a glance");
            let opened = open(&path).expect("a photo");
            assert_eq!(seen.sha256, opened.sha256, "{name}");
            assert_eq!(seen.size_px, Ok(opened.rgb.dimensions()), "{name}");
            assert_eq!(seen.bytes, path.metadata().expect("there").len(), "{name}");
        }
    }

    #[test]
    fn a_damaged_file_is_known_again_all_the_same() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.png");
        std::fs::write(&path, b"\x89PNG\r\n\x1A\n and then nothing").expect("written");
        let seen = glance(&path).expect("a glance");
        assert!(matches!(seen.size_px, Err(PhotoError::Damaged { .. })));
        assert!(matches!(
            glance(&folder.path().join("gone.png")),
            Err(PhotoError::Missing { .. })
        ));
    }
}
