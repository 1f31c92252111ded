//! What the camera wrote beside the picture: time, place, orientation, and which camera it was.
//!
//! Tags and their forms are those of Exif 2.32 (CIPA DC-008); offsets exist since Exif 2.31.

use super::density::{Density, DensityIn, unit_mm};
use super::{Camera, Place};
use exif::{Context, DateTime, Exif, In, Rational, Reader, Tag, Value};
use image::metadata::Orientation;
use std::io::Cursor;

/// `NewSubfileType` (TIFF 6.0, tag 254): bit 0 says that a fuller picture is elsewhere in the file.
const NEW_SUBFILE_TYPE: Tag = Tag(Context::Tiff, 254);
/// `DNGVersion` (DNG 1.4, tag 50706), present in every DNG file.
const DNG_VERSION: Tag = Tag(Context::Tiff, 50706);

/// What the EXIF block tells, as far as it makes sense. A broken block tells nothing, and never
/// keeps a photo from loading.
#[derive(Debug, Default, PartialEq)]
pub(super) struct Told {
    /// As [`Photo::taken`](super::Photo::taken).
    pub taken: Option<String>,
    /// As [`Photo::place`](super::Photo::place).
    pub place: Option<Place>,
    /// As [`Photo::camera`](super::Photo::camera).
    pub camera: Option<Camera>,
    /// What the resolution tags say.
    pub density: Option<Density>,
    /// How the stored picture has to be turned.
    pub orientation: Option<Orientation>,
    /// The picture a plain TIFF reader meets first is only a preview, as in raw files.
    pub preview_only: bool,
}

/// Reads the EXIF block of a whole image file.
pub(super) fn read(file: &[u8]) -> Told {
    Reader::new()
        .continue_on_error(true)
        .read_from_container(&mut Cursor::new(file))
        .or_else(|error| error.distill_partial_result(|_| ()))
        .map_or_else(|_| Told::default(), |exif| told(&exif))
}

fn told(exif: &Exif) -> Told {
    Told {
        taken: taken(
            ascii(exif, Tag::DateTimeOriginal),
            ascii(exif, Tag::OffsetTimeOriginal),
        ),
        place: place(exif),
        camera: camera(exif),
        density: density(exif),
        orientation: uint(exif, Tag::Orientation)
            .and_then(|o| Orientation::from_exif(u8::try_from(o).ok()?)),
        preview_only: uint(exif, NEW_SUBFILE_TYPE).is_some_and(|kind| kind & 1 == 1)
            || exif.get_field(DNG_VERSION, In::PRIMARY).is_some(),
    }
}

/// `YYYY:MM:DD HH:MM:SS` and `±HH:MM` as ISO 8601. A time that no calendar has is no time; an
/// offset that no zone has is no offset.
fn taken(time: Option<&[u8]>, offset: Option<&[u8]>) -> Option<String> {
    let written = DateTime::from_ascii(time?).ok()?;
    let time = jiff::civil::DateTime::new(
        i16::try_from(written.year).ok()?,
        i8::try_from(written.month).ok()?,
        i8::try_from(written.day).ok()?,
        i8::try_from(written.hour).ok()?,
        i8::try_from(written.minute).ok()?,
        i8::try_from(written.second).ok()?,
        0,
    )
    .ok()?;
    let offset = offset.and_then(zone).unwrap_or_default();
    Some(format!("{time}{offset}"))
}

/// The offset from UTC as written, where it is one: civil time runs from −12:00 to +14:00.
fn zone(offset: &[u8]) -> Option<&str> {
    let text = str::from_utf8(offset).ok()?.trim_end_matches([' ', '\0']);
    let &[sign @ (b'+' | b'-'), h1, h0, b':', m1, m0] = text.as_bytes() else {
        return None;
    };
    if ![h1, h0, m1, m0].iter().all(u8::is_ascii_digit) {
        return None;
    }
    let two = |tens: u8, ones: u8| u16::from(tens - b'0') * 10 + u16::from(ones - b'0');
    let minutes = two(h1, h0) * 60 + two(m1, m0);
    let furthest = if sign == b'+' { 14 * 60 } else { 12 * 60 };
    (two(m1, m0) < 60 && minutes <= furthest).then_some(text)
}

fn camera(exif: &Exif) -> Option<Camera> {
    let name = |tag| {
        let name = String::from_utf8_lossy(ascii(exif, tag)?);
        let name = name.trim_matches(|c: char| c.is_whitespace() || c == '\0');
        (!name.is_empty()).then(|| name.to_owned())
    };
    let (make, model) = (name(Tag::Make), name(Tag::Model));
    if make.is_none() && model.is_none() {
        return None;
    }
    let focal_length_mm = rationals(exif, Tag::FocalLength)
        .and_then(<[_]>::first)
        .map(Rational::to_f64)
        // Lenses without contacts are written down as zero.
        .filter(|length| *length > 0.0 && length.is_finite());
    Some(Camera {
        make,
        model,
        focal_length_mm,
    })
}

fn density(exif: &Exif) -> Option<Density> {
    let along = |tag| Some(rationals(exif, tag)?.first()?.to_f64());
    // The unit where none is written (Exif 2.32, 4.6.4).
    let unit = uint(exif, Tag::ResolutionUnit).unwrap_or(2);
    let mm = unit_mm(unit)?;
    let resolution = [along(Tag::XResolution)?, along(Tag::YResolution)?];
    Density::new(resolution.map(|px| px / mm), DensityIn::Exif)
}

fn place(exif: &Exif) -> Option<Place> {
    let latitude = degrees(
        rationals(exif, Tag::GPSLatitude)?,
        ascii(exif, Tag::GPSLatitudeRef)?,
        [b'N', b'S'],
        90.0,
    )?;
    let longitude = degrees(
        rationals(exif, Tag::GPSLongitude)?,
        ascii(exif, Tag::GPSLongitudeRef)?,
        [b'E', b'W'],
        180.0,
    )?;
    // Receivers without a fix write zeros, and no bracket grows in the Gulf of Guinea.
    (latitude != 0.0 || longitude != 0.0).then_some(Place {
        latitude,
        longitude,
    })
}

/// Degrees, minutes and seconds as decimal degrees; `poles` are the letters for plus and minus.
fn degrees(parts: &[Rational], pole: &[u8], poles: [u8; 2], furthest: f64) -> Option<f64> {
    let &[degrees, minutes, seconds] = parts else {
        return None;
    };
    let number = |r: Rational, below: f64| {
        let value = (r.denom != 0).then(|| r.to_f64())?;
        (value < below).then_some(value)
    };
    // Some receivers round up to a full 60 seconds.
    let value = number(degrees, furthest.next_up())?
        + number(minutes, 60.0)? / 60.0
        + number(seconds, 60.0_f64.next_up())? / 3600.0;
    if value > furthest {
        return None;
    }
    match pole.first()?.to_ascii_uppercase() {
        p if p == poles[0] => Some(value),
        p if p == poles[1] => Some(-value),
        _ => None,
    }
}

fn ascii(exif: &Exif, tag: Tag) -> Option<&[u8]> {
    match &exif.get_field(tag, In::PRIMARY)?.value {
        Value::Ascii(lines) => lines.first().map(Vec::as_slice),
        _ => None,
    }
}

fn rationals(exif: &Exif, tag: Tag) -> Option<&[Rational]> {
    match &exif.get_field(tag, In::PRIMARY)?.value {
        Value::Rational(values) => Some(values),
        _ => None,
    }
}

fn uint(exif: &Exif, tag: Tag) -> Option<u32> {
    exif.get_field(tag, In::PRIMARY)?.value.get_uint(0)
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use exif::{Field, experimental::Writer};

    /// An EXIF block (that is, a TIFF file without a picture) with the given fields.
    pub fn block(fields: &[(Tag, Value)]) -> Vec<u8> {
        written(fields, None)
    }

    /// A TIFF file with the given fields, and all samples in one strip.
    pub fn block_with_strip(fields: &[(Tag, Value)], samples: &[u8]) -> Vec<u8> {
        written(fields, Some(samples))
    }

    fn written(fields: &[(Tag, Value)], strip: Option<&[u8]>) -> Vec<u8> {
        let fields: Vec<Field> = fields
            .iter()
            .map(|(tag, value)| Field {
                tag: *tag,
                ifd_num: In::PRIMARY,
                value: value.clone(),
            })
            .collect();
        let mut writer = Writer::new();
        for field in &fields {
            writer.push_field(field);
        }
        let strips = strip.as_slice();
        if !strips.is_empty() {
            writer.set_strips(strips, In::PRIMARY);
        }
        let mut bytes = Cursor::new(Vec::new());
        writer.write(&mut bytes, false).unwrap();
        bytes.into_inner()
    }

    pub fn text(line: &str) -> Value {
        Value::Ascii(vec![line.as_bytes().to_vec()])
    }

    fn dms(parts: [(u32, u32); 3]) -> Value {
        Value::Rational(parts.map(|(num, denom)| Rational { num, denom }).to_vec())
    }

    fn place_of(
        latitude: [(u32, u32); 3],
        north: &str,
        longitude: [(u32, u32); 3],
        east: &str,
    ) -> Option<Place> {
        read(&block(&[
            (Tag::GPSLatitudeRef, text(north)),
            (Tag::GPSLatitude, dms(latitude)),
            (Tag::GPSLongitudeRef, text(east)),
            (Tag::GPSLongitude, dms(longitude)),
        ]))
        .place
    }

    #[test]
    fn places_are_decimal_degrees_with_a_sign() {
        let lat = [(51, 1), (30, 1), (0, 1)];
        let lon = [(10, 1), (15, 1), (36, 1)];
        let found = place_of(lat, "N", lon, "E").unwrap();
        assert!((found.latitude - 51.5).abs() < 1e-12);
        assert!((found.longitude - 10.26).abs() < 1e-12);
        let found = place_of(lat, "S", lon, "W").unwrap();
        assert!((found.latitude + 51.5).abs() < 1e-12);
        assert!((found.longitude + 10.26).abs() < 1e-12);
        // Minutes with decimals and no seconds, the other form Exif allows.
        let found = place_of([(51, 1), (3015, 100), (0, 1)], "N", lon, "E").unwrap();
        assert!((found.latitude - 51.5025).abs() < 1e-12);
    }

    #[test]
    fn nonsense_is_no_place() {
        let lat = [(51, 1), (30, 1), (0, 1)];
        let lon = [(10, 1), (15, 1), (36, 1)];
        let zero = [(0, 1), (0, 1), (0, 1)];
        assert_eq!(place_of([(51, 0), (30, 1), (0, 1)], "N", lon, "E"), None);
        assert_eq!(place_of([(51, 1), (30, 1), (0, 0)], "N", lon, "E"), None);
        assert_eq!(place_of([(91, 1), (0, 1), (0, 1)], "N", lon, "E"), None);
        assert_eq!(place_of([(90, 1), (0, 1), (1, 1)], "N", lon, "E"), None);
        assert_eq!(place_of([(51, 1), (75, 1), (0, 1)], "N", lon, "E"), None);
        assert_eq!(place_of(lat, "N", [(181, 1), (0, 1), (0, 1)], "E"), None);
        assert_eq!(place_of(lat, "E", lon, "E"), None);
        assert_eq!(place_of(lat, "", lon, "E"), None);
        assert_eq!(place_of(zero, "N", zero, "E"), None);
        let lone = block(&[
            (Tag::GPSLatitudeRef, text("N")),
            (Tag::GPSLatitude, dms(lat)),
        ]);
        assert_eq!(read(&lone).place, None);
    }

    #[test]
    fn times_become_iso_8601() {
        let iso = |time: &str, offset: Option<&str>| {
            taken(Some(time.as_bytes()), offset.map(str::as_bytes))
        };
        let plain = Some("2026-09-14T10:20:30".to_owned());
        assert_eq!(iso("2026:09:14 10:20:30", None), plain);
        assert_eq!(
            iso("2026:09:14 10:20:30", Some("+02:00")).unwrap(),
            "2026-09-14T10:20:30+02:00"
        );
        assert_eq!(
            iso("2024:02:29 00:00:00", Some("-03:30")).unwrap(),
            "2024-02-29T00:00:00-03:30"
        );
        for offset in [
            "   :  ", "", "+2:00", "+15:00", "-13:00", "+01:75", "+0a:00",
        ] {
            assert_eq!(
                iso("2026:09:14 10:20:30", Some(offset)),
                plain,
                "{offset:?}"
            );
        }
    }

    #[test]
    fn blank_and_impossible_times_are_no_times() {
        for time in [
            "",
            "    :  :     :  :  ",
            "0000:00:00 00:00:00",
            "2026:13:01 10:20:30",
            "2025:02:29 10:20:30",
            "2026:09:14 25:00:00",
            "yesterday, about noon",
        ] {
            assert_eq!(taken(Some(time.as_bytes()), None), None, "{time:?}");
        }
        assert_eq!(taken(None, Some(b"+02:00")), None);
    }

    #[test]
    fn a_whole_block_is_read() {
        let found = read(&block(&[
            (Tag::Orientation, Value::Short(vec![6])),
            (Tag::DateTimeOriginal, text("2026:09:14 10:20:30")),
            (Tag::OffsetTimeOriginal, text("+02:00")),
        ]));
        assert_eq!(found.taken.as_deref(), Some("2026-09-14T10:20:30+02:00"));
        assert_eq!(found.orientation, Some(Orientation::Rotate90));
        assert!(!found.preview_only);
    }

    #[test]
    fn the_camera_is_told_by_its_names() {
        let length = |num, denom| (Tag::FocalLength, Value::Rational(vec![(num, denom).into()]));
        let found = read(&block(&[
            (Tag::Make, text("Acorn  ")),
            (Tag::Model, text("Acorn A1")),
            length(1000, 10),
        ]));
        let camera = found.camera.unwrap();
        assert_eq!(camera.make.as_deref(), Some("Acorn"));
        assert_eq!(camera.model.as_deref(), Some("Acorn A1"));
        assert_eq!(camera.focal_length_mm, Some(100.0));
        let blank = [(Tag::Make, text("   ")), (Tag::Model, text(""))];
        assert_eq!(read(&block(&blank)).camera, None);
        let unknown = [(Tag::Model, text("A1")), length(0, 1)];
        let camera = read(&block(&unknown)).camera.unwrap();
        assert_eq!(camera.focal_length_mm, None);
    }

    #[test]
    fn resolution_needs_a_unit() {
        let said = |unit: u16| {
            let resolution = Value::Rational(vec![(3000, 1).into()]);
            read(&block(&[
                (Tag::XResolution, resolution.clone()),
                (Tag::YResolution, resolution),
                (Tag::ResolutionUnit, Value::Short(vec![unit])),
            ]))
            .density
            .map(|density| density.px_per_mm)
        };
        assert_eq!(said(1), None);
        assert_eq!(said(2), Some([3000.0 / 25.4; 2]));
        assert_eq!(said(3), Some([300.0; 2]));
    }

    #[test]
    fn previews_are_noticed() {
        let preview = block(&[(NEW_SUBFILE_TYPE, Value::Long(vec![1]))]);
        assert!(read(&preview).preview_only);
        let dng = block(&[(DNG_VERSION, Value::Byte(vec![1, 4, 0, 0]))]);
        assert!(read(&dng).preview_only);
    }

    #[test]
    fn rubbish_tells_nothing() {
        assert_eq!(read(b""), Told::default());
        assert_eq!(read(b"II*\0\xFF\xFF\xFF\xFF"), Told::default());
        let mut cut = block(&[(Tag::DateTimeOriginal, text("2026:09:14 10:20:30"))]);
        cut.truncate(20);
        assert_eq!(read(&cut), Told::default());
    }
}
