use super::exif::tests::{block, text};
use super::*;
use ::exif::{Context, Tag, Value};
use image::codecs::{bmp, jpeg, png, webp};
use image::{DynamicImage, ExtendedColorType, ImageEncoder, Rgb};
use std::io::Cursor;

const FORMATS: [ImageFormat; 5] = [
    ImageFormat::Jpeg,
    ImageFormat::Png,
    ImageFormat::Tiff,
    ImageFormat::WebP,
    ImageFormat::Bmp,
];

/// A wide picture, dark except for its top left corner.
fn corner() -> RgbImage {
    RgbImage::from_fn(48, 32, |x, y| {
        let bright = x < 16 && y < 16;
        Rgb(if bright {
            [250, 200, 150]
        } else {
            [10, 20, 30]
        })
    })
}

fn encoded(image: impl Into<DynamicImage>, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    image.into().write_to(&mut bytes, format).unwrap();
    bytes.into_inner()
}

fn with_exif(mut encoder: impl ImageEncoder, exif: Vec<u8>) {
    encoder.set_exif_metadata(exif).unwrap();
    encoder
        .write_image(&corner(), 48, 32, ExtendedColorType::Rgb8)
        .unwrap();
}

/// An uncompressed TIFF file of an RGB picture, with further tags.
fn tiff(width: u32, height: u32, samples: &[u8], more: &[(Tag, Value)]) -> Vec<u8> {
    let mut fields = vec![
        (Tag::ImageWidth, Value::Long(vec![width])),
        (Tag::ImageLength, Value::Long(vec![height])),
        (Tag::BitsPerSample, Value::Short(vec![8; 3])),
        (Tag::Compression, Value::Short(vec![1])),
        (Tag::PhotometricInterpretation, Value::Short(vec![2])),
        (Tag::SamplesPerPixel, Value::Short(vec![3])),
        (Tag::RowsPerStrip, Value::Long(vec![height])),
    ];
    fields.extend_from_slice(more);
    exif::tests::block_with_strip(&fields, samples)
}

fn open_bytes(name: &str, bytes: &[u8]) -> Result<Photo, PhotoError> {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join(name);
    fs::write(&path, bytes).unwrap();
    open(&path)
}

fn refused(name: &str, bytes: &[u8]) -> String {
    let message = open_bytes(name, bytes).unwrap_err().to_string();
    assert!(message.ends_with(name), "{message}");
    message
}

/// What is at `path` does not open, and the message ends with the path.
fn refused_at(path: &Path) -> String {
    let message = open(path).unwrap_err().to_string();
    assert!(message.ends_with(&path.display().to_string()), "{message}");
    message
}

#[test]
fn every_kind_opens_whatever_its_name() {
    for format in FORMATS {
        let file = encoded(corner(), format);
        let photo = open_bytes("underside.txt", &file).unwrap();
        assert_eq!(photo.rgb.dimensions(), (48, 32), "{format:?}");
        assert_eq!(photo.light.dimensions(), (48, 32), "{format:?}");
        assert_eq!(photo.sha256, sha256(&file));
        assert_eq!((photo.taken, photo.place), (None, None));
        let jpeg = format == ImageFormat::Jpeg;
        assert_eq!(photo.jpeg_blocks_from, jpeg.then_some((0, 0)));
        if !jpeg {
            assert_eq!(photo.rgb, corner(), "{format:?}");
            assert_eq!(photo.light, Photo::from_rgb("x", corner()).light);
        }
    }
}

#[test]
fn sixteen_bits_survive_in_png_and_tiff() {
    let deep = ImageBuffer::from_fn(300, 2, |x, _| Rgb([30_000 + u16::try_from(x).unwrap(); 3]));
    for format in [ImageFormat::Png, ImageFormat::Tiff] {
        let photo = open_bytes("deep", &encoded(deep.clone(), format)).unwrap();
        let row: Vec<f32> = photo.light.iter().copied().take(300).collect();
        assert!(row.is_sorted_by(|a, b| a < b), "{format:?}");
    }
}

#[test]
fn sha_256_is_that_of_the_standard() {
    // FIPS 180-4, example of one block.
    assert_eq!(
        sha256(b"abc"),
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    );
}

#[test]
fn orientation_is_applied_in_every_kind_that_carries_it() {
    let exif = || block(&[(Tag::Orientation, Value::Short(vec![6]))]);
    let mut files = [const { Vec::new() }; 3];
    with_exif(
        jpeg::JpegEncoder::new_with_quality(&mut files[0], 100),
        exif(),
    );
    with_exif(png::PngEncoder::new(&mut files[1]), exif());
    with_exif(webp::WebPEncoder::new_lossless(&mut files[2]), exif());
    let tiff = tiff(
        48,
        32,
        &corner(),
        &[(Tag::Orientation, Value::Short(vec![6]))],
    );
    for file in files.iter().chain([&tiff]) {
        let photo = open_bytes("turned", file).unwrap();
        assert_eq!(photo.rgb.dimensions(), (32, 48));
        assert_eq!(photo.light.dimensions(), (32, 48));
        // Turned clockwise, the top left corner comes to the top right.
        assert!(photo.rgb.get_pixel(28, 3).0[0] > 200);
        assert!(photo.light.get_pixel(28, 3).0[0] > 0.3);
        assert!(photo.rgb.get_pixel(3, 3).0[0] < 50);
    }
}

/// A picture of 21 × 13 px whose second column and row of blocks are brighter than the first, stored
/// as each of the eight orientations of Exif asks; the step in brightness tells where a block begins.
#[test]
fn blocks_are_found_again_however_the_photo_was_turned() {
    let stored = RgbImage::from_fn(21, 13, |x, y| {
        let steps = u8::from(x >= 8) + u8::from(y >= 8);
        Rgb([60 + 60 * steps; 3])
    });
    for orientation in 1..=8 {
        let mut file = Vec::new();
        let mut encoder = jpeg::JpegEncoder::new_with_quality(&mut file, 100);
        let exif = block(&[(Tag::Orientation, Value::Short(vec![orientation]))]);
        encoder.set_exif_metadata(exif).unwrap();
        encoder.encode_image(&stored).unwrap();
        let photo = open_bytes("turned.jpg", &file).unwrap();
        let (width, height) = photo.light.dimensions();
        let light = |x, y| photo.light.get_pixel(x, y).0[0];
        let step = |near: f32, far: f32| (near - far).abs() > 0.02;
        let (left, top) = photo.jpeg_blocks_from.unwrap();
        for x in (1..width).filter(|x| step(light(*x, 0), light(x - 1, 0))) {
            assert_eq!(x % 8, left, "orientation {orientation}, column {x}");
        }
        for y in (1..height).filter(|y| step(light(0, *y), light(0, y - 1))) {
            assert_eq!(y % 8, top, "orientation {orientation}, row {y}");
        }
    }
}

#[test]
fn time_and_place_come_with_the_photo() {
    let dms = |d, m, s| {
        let number = |num| ::exif::Rational { num, denom: 1 };
        Value::Rational(vec![number(d), number(m), number(s)])
    };
    let mut file = Vec::new();
    with_exif(
        jpeg::JpegEncoder::new(&mut file),
        block(&[
            (Tag::DateTimeOriginal, text("2026:09:14 10:20:30")),
            (Tag::OffsetTimeOriginal, text("+02:00")),
            (Tag::GPSLatitudeRef, text("N")),
            (Tag::GPSLatitude, dms(51, 30, 0)),
            (Tag::GPSLongitudeRef, text("W")),
            (Tag::GPSLongitude, dms(0, 45, 0)),
        ]),
    );
    let photo = open_bytes("a.jpg", &file).unwrap();
    assert_eq!(photo.taken.as_deref(), Some("2026-09-14T10:20:30+02:00"));
    let place = photo.place.unwrap();
    assert!((place.latitude - 51.5).abs() < 1e-12);
    assert!((place.longitude + 0.75).abs() < 1e-12);
}

#[test]
fn a_broken_exif_block_does_not_keep_a_photo_from_loading() {
    let mut file = Vec::new();
    with_exif(
        jpeg::JpegEncoder::new(&mut file),
        b"MM\0*\xFF\xFF\xFF\xFFgarbage".to_vec(),
    );
    assert_eq!(open_bytes("a.jpg", &file).unwrap().taken, None);
}

#[test]
fn enormous_headers_are_refused_with_their_size() {
    // A PNG header chunk (ISO/IEC 15948, 11.2.2), its checksum made good.
    let mut png = encoded(corner(), ImageFormat::Png);
    png[16..24].copy_from_slice(&[0, 0, 0xEA, 0x60, 0, 0, 0xEA, 0x60]);
    let checksum = crc32(&png[12..29]);
    png[29..33].copy_from_slice(&checksum.to_be_bytes());

    let mut bmp = Vec::new();
    bmp::BmpEncoder::new(&mut bmp)
        .encode(&corner(), 48, 32, ExtendedColorType::Rgb8)
        .unwrap();
    bmp[18..22].copy_from_slice(&60_000_u32.to_le_bytes());
    bmp[22..26].copy_from_slice(&60_000_u32.to_le_bytes());

    let tiff = tiff(60_000, 60_000, &corner(), &[]);
    for (name, file) in [("a.png", png), ("a.bmp", bmp), ("a.tif", tiff)] {
        let message = refused(name, &file);
        assert!(message.contains("60000 × 60000 pixels"), "{message}");
    }
    // Neither side too long, but 20,001 × 20,000 pixels in all.
    let message = refused("b.tif", &self::tiff(20_001, 20_000, &corner(), &[]));
    assert!(message.contains("400 million in all"), "{message}");
}

/// The checksum of PNG chunks (ISO/IEC 15948, annex D).
fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |crc, &byte| {
        (0..8).fold(crc ^ u32::from(byte), |crc, _| {
            (crc >> 1) ^ (0xEDB8_8320 * (crc & 1))
        })
    })
}

#[test]
fn what_is_no_photo_is_named_with_what_to_do() {
    let heic = b"\0\0\0\x18ftypheic\0\0\0\0mif1heic";
    let message = refused("IMG_0001.HEIC", heic);
    assert!(message.contains("HEIC") && message.contains("export it as JPEG"));
    assert!(refused("a.nef", &tiff(48, 32, &corner(), &[])).contains("raw"));
    assert!(refused("a.gif", b"GIF89a\x01\0\x01\0").contains("GIF"));
    assert!(refused("walk.csv", b"host,place\nalder,fen\n").contains("text"));
    assert!(refused("empty.jpg", b"").contains("empty"));
}

#[test]
fn a_tiff_that_is_only_a_preview_is_not_measured() {
    let reduced = (Tag(Context::Tiff, 254), Value::Long(vec![1]));
    let message = refused("renamed.tif", &tiff(48, 32, &corner(), &[reduced]));
    assert!(message.contains("preview"), "{message}");
}

#[test]
fn what_cannot_be_read_says_why() {
    let folder = tempfile::tempdir().unwrap();
    assert!(refused_at(folder.path()).contains("folder"));
    assert!(refused_at(&folder.path().join("gone.jpg")).contains("no such file"));
    let denied = unread(
        Path::new("a.jpg"),
        &io::Error::from(io::ErrorKind::PermissionDenied),
    );
    assert!(denied.to_string().starts_with("no permission"));
    let failed = unread(Path::new("a.jpg"), &io::Error::other("the card is gone"));
    assert!(failed.to_string().contains("the card is gone"));
}

#[test]
fn a_file_cut_anywhere_is_refused_without_panic() {
    for format in FORMATS {
        let file = encoded(corner(), format);
        for len in 0..file.len() {
            match open_bytes("cut", &file[..len]) {
                Err(error) => assert!(error.to_string().ends_with("cut"), "{error}"),
                // Some decoders don't miss the bytes behind the pixels.
                Ok(photo) => assert!(
                    format != ImageFormat::Jpeg && photo.rgb == corner(),
                    "{format:?} cut to {len} of {} bytes",
                    file.len()
                ),
            }
        }
    }
}
