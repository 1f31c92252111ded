//! Tells kinds of files apart by their first bytes.
//!
//! The signatures are those of the formats' own specifications; those of camera raw files are
//! `common practice, no source`.

use image::ImageFormat;

/// How many bytes from the start of a file are enough to recognise it.
pub(super) const HEAD_BYTES: usize = 1024;

/// A kind of file that people pick for a photo and that Poreline does not read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ForeignKind {
    /// HEIC or HEIF, as many phones write it.
    Heif,
    /// AVIF.
    Avif,
    /// A camera's raw file.
    Raw,
    /// A reduced picture with the real one elsewhere in the same TIFF file, as in raw files.
    PreviewOnly,
    /// GIF.
    Gif,
    /// JPEG 2000 or JPEG XL.
    LaterJpeg,
    /// A layered document of an image program.
    Layers,
    /// PDF.
    Pdf,
    /// SVG.
    Svg,
    /// Moving pictures.
    Video,
    /// Plain text, a table, a web page.
    Text,
    /// None of the above.
    Unknown,
}

impl ForeignKind {
    /// What it is, with its article.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Heif => "a HEIC/HEIF photo, which Poreline does not read",
            Self::Avif => "an AVIF picture, which Poreline does not read",
            Self::Raw => "a camera raw file, which Poreline does not read",
            Self::PreviewOnly => "a TIFF file that shows only a preview of the real picture",
            Self::Gif => "a GIF picture, which has too few tones to measure",
            Self::LaterJpeg => "a JPEG 2000 or JPEG XL picture, which Poreline does not read",
            Self::Layers => "a layered document of an image program",
            Self::Pdf => "a PDF document, not a photo",
            Self::Svg => "an SVG drawing, not a photo",
            Self::Video => "a video, not a photo",
            Self::Text => "a text file, not a photo",
            Self::Unknown => "not a kind of file that Poreline knows",
        }
    }

    /// What to do instead.
    #[must_use]
    pub fn advice(self) -> &'static str {
        match self {
            Self::Heif => {
                "export it as JPEG at full size, and set the phone to its most compatible format"
            }
            Self::Avif | Self::LaterJpeg => "export it as JPEG, PNG or TIFF at full size",
            Self::Raw | Self::PreviewOnly => {
                "develop it and export a JPEG or a 16-bit TIFF at full size"
            }
            Self::Gif => "use the original photo",
            Self::Layers => "flatten it and export a TIFF or PNG at full size",
            Self::Pdf | Self::Svg => "use the photo it was made from",
            Self::Video => "export a still at full size as PNG",
            Self::Text | Self::Unknown => "choose a JPEG, PNG, TIFF, WebP or BMP file",
        }
    }
}

/// Extensions of raw files that are TIFF files inside, so that content alone does not tell.
const RAW_IN_TIFF: [&str; 18] = [
    "3fr", "arw", "cr2", "dcr", "dng", "erf", "iiq", "kdc", "mef", "mos", "nef", "nrw", "pef",
    "raw", "rwl", "sr2", "srf", "srw",
];

/// Recognises a file by the first [`HEAD_BYTES`] of it; the extension counts only where two kinds
/// begin alike.
pub(super) fn recognise(head: &[u8], extension: Option<&str>) -> Result<ImageFormat, ForeignKind> {
    let begins = |signatures: &[&[u8]]| signatures.iter().any(|s| head.starts_with(s));

    if begins(&[b"\xFF\xD8\xFF"]) {
        return Ok(ImageFormat::Jpeg);
    }
    if begins(&[b"\x89PNG\r\n\x1A\n"]) {
        return Ok(ImageFormat::Png);
    }
    if begins(&[b"RIFF"]) {
        return match head.get(8..12) {
            Some(b"WEBP") => Ok(ImageFormat::WebP),
            Some(b"AVI ") => Err(ForeignKind::Video),
            _ => Err(ForeignKind::Unknown),
        };
    }
    // The last two are BigTIFF.
    if begins(&[b"II*\0", b"MM\0*", b"II+\0", b"MM\0+"]) {
        let named_raw = extension.is_some_and(|extension| {
            let extension = extension.to_ascii_lowercase();
            RAW_IN_TIFF.contains(&extension.as_str())
        });
        return if named_raw || head.get(8..10) == Some(b"CR") {
            Err(ForeignKind::Raw)
        } else {
            Ok(ImageFormat::Tiff)
        };
    }
    if begins(&[
        b"FUJIFILMCCD-RAW",
        b"IIRO",
        b"IIRS",
        b"MMOR",
        b"IIU\0",
        b"FOVb",
        b"\0MRM",
        b"II\x1A\0\0\0HEAPCCDR",
    ]) {
        return Err(ForeignKind::Raw);
    }
    if head.get(4..8) == Some(b"ftyp") {
        return Err(media_kind(head));
    }
    if begins(&[b"GIF87a", b"GIF89a"]) {
        return Err(ForeignKind::Gif);
    }
    if begins(&[
        b"\0\0\0\x0CjP  ",
        b"\xFF\x4F\xFF\x51",
        b"\0\0\0\x0CJXL ",
        b"\xFF\x0A",
    ]) {
        return Err(ForeignKind::LaterJpeg);
    }
    if begins(&[b"8BPS", b"gimp xcf"]) {
        return Err(ForeignKind::Layers);
    }
    if begins(&[b"%PDF-"]) {
        return Err(ForeignKind::Pdf);
    }
    if begins(&[b"\x1A\x45\xDF\xA3", b"\0\0\x01\xBA", b"\0\0\x01\xB3"]) {
        return Err(ForeignKind::Video);
    }
    if is_text(head) {
        let drawing = head.windows(4).any(|w| w.eq_ignore_ascii_case(b"<svg"));
        return Err(if drawing {
            ForeignKind::Svg
        } else {
            ForeignKind::Text
        });
    }
    // Two letters are a weak signature, so everything else goes first.
    if begins(&[b"BM"]) {
        return Ok(ImageFormat::Bmp);
    }
    Err(ForeignKind::Unknown)
}

/// The kind of an ISO base media file (ISO/IEC 14496-12) by the brands in its first box: the major
/// brand, then the compatible ones.
fn media_kind(head: &[u8]) -> ForeignKind {
    let box_len = head
        .first_chunk()
        .map_or(0, |len| u32::from_be_bytes(*len) as usize);
    let body = head
        .get(8..box_len.min(head.len()))
        .unwrap_or_default()
        .as_chunks::<4>()
        .0;
    let has = |wanted: &[&[u8; 4]]| body.iter().any(|brand| wanted.contains(&brand));
    if has(&[b"crx "]) {
        ForeignKind::Raw
    } else if has(&[b"avif", b"avis"]) {
        ForeignKind::Avif
    } else if has(&[
        b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1",
    ]) {
        ForeignKind::Heif
    } else {
        ForeignKind::Video
    }
}

fn is_text(head: &[u8]) -> bool {
    let control = |b: &u8| b.is_ascii_control() && !matches!(b, b'\t' | b'\n' | b'\r' | 0x0C);
    !head.is_empty() && !head.iter().any(control)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn content_decides_over_the_extension() {
        let jpeg = b"\xFF\xD8\xFF\xE1rest";
        assert_eq!(recognise(jpeg, Some("nef")), Ok(ImageFormat::Jpeg));
        assert_eq!(recognise(jpeg, Some("txt")), Ok(ImageFormat::Jpeg));
        assert_eq!(recognise(jpeg, None), Ok(ImageFormat::Jpeg));
        assert_eq!(
            recognise(b"spacing, mm\n0.25\n", Some("jpg")),
            Err(ForeignKind::Text)
        );
    }

    #[test]
    fn supported_kinds_are_recognised() {
        let webp = b"RIFF\x24\0\0\0WEBPVP8 ";
        let bmp = b"BM\x3A\0\0\0\0\0\0\0\x36\0\0\0";
        assert_eq!(
            recognise(b"\x89PNG\r\n\x1A\n\0\0\0\rIHDR", None),
            Ok(ImageFormat::Png)
        );
        assert_eq!(recognise(b"II*\0\x08\0\0\0", None), Ok(ImageFormat::Tiff));
        assert_eq!(recognise(b"MM\0*\0\0\0\x08", None), Ok(ImageFormat::Tiff));
        assert_eq!(recognise(webp, None), Ok(ImageFormat::WebP));
        assert_eq!(recognise(bmp, None), Ok(ImageFormat::Bmp));
    }

    #[test]
    fn foreign_kinds_are_named() {
        let cases: [(&[u8], Option<&str>, ForeignKind); 17] = [
            (
                b"\0\0\0\x18ftypheic\0\0\0\0mif1heic",
                None,
                ForeignKind::Heif,
            ),
            (
                b"\0\0\0\x18ftypmif1\0\0\0\0mif1avif",
                None,
                ForeignKind::Avif,
            ),
            (
                b"\0\0\0\x18ftypcrx \0\0\0\x01crx isom",
                None,
                ForeignKind::Raw,
            ),
            (b"\0\0\0\x14ftypmp42\0\0\0\0isom", None, ForeignKind::Video),
            (b"II*\0\x10\0\0\0CR\x02\0", None, ForeignKind::Raw),
            (b"II*\0\x08\0\0\0", Some("NEF"), ForeignKind::Raw),
            (b"MM\0*\0\0\0\x08", Some("dng"), ForeignKind::Raw),
            (b"II*\0\x08\0\0\0", Some("arw"), ForeignKind::Raw),
            (b"IIRO\x08\0\0\0", Some("orf"), ForeignKind::Raw),
            (b"IIU\0\x18\0\0\0", Some("rw2"), ForeignKind::Raw),
            (b"FUJIFILMCCD-RAW 0201", None, ForeignKind::Raw),
            (b"GIF89a\x20\0", None, ForeignKind::Gif),
            (b"%PDF-1.7\n", None, ForeignKind::Pdf),
            (b"<?xml version=\"1.0\"?>\n<svg/>", None, ForeignKind::Svg),
            (b"BM Alder Fen, by the bridge\n", None, ForeignKind::Text),
            (b"\x7FELF\x02\x01\x01\0", None, ForeignKind::Unknown),
            (b"\0\0\0\xFFftyp", None, ForeignKind::Video),
        ];
        for (head, extension, kind) in cases {
            assert_eq!(
                recognise(head, extension),
                Err(kind),
                "{:?}",
                head.escape_ascii().to_string()
            );
        }
    }
}
