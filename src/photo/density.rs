//! How many pixels lie on a millimetre, as far as the file itself says so.
//!
//! Nothing here judges what is said; that is [`stated`](crate::stated)'s to do.

use image::ImageFormat;
use png::Unit;
use quick_xml::XmlVersion;
use quick_xml::events::{BytesStart, Event};
use quick_xml::reader::Reader;
use std::io::Cursor;
use tiff::decoder::Decoder;
use tiff::decoder::ifd::Value;
use tiff::tags::Tag;

/// Millimetres in an inch.
const MM_PER_INCH: f64 = 25.4;
/// Millimetres in a centimetre.
const MM_PER_CENTIMETRE: f64 = 10.0;
/// Millimetres in a metre.
const MM_PER_METRE: f64 = 1000.0;

/// Where in a file a density is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DensityIn {
    /// `PhysicalSizeX` and `PhysicalSizeY` of the OME-XML in a TIFF file (OME schema 2016-06).
    Ome,
    /// `XResolution`, `YResolution` and `ResolutionUnit` of a TIFF file (TIFF 6.0, tags 282, 283, 296).
    Tiff,
    /// The chunk `pHYs` of a PNG file (ISO/IEC 15948, 11.3.5.3).
    Png,
    /// The JFIF header of a JPEG file (ITU-T T.871, 10.1).
    Jfif,
    /// The same tags as in TIFF, in the EXIF block of a JPEG, PNG or WebP file.
    Exif,
}

impl DensityIn {
    /// What the place is called.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Ome => "PhysicalSizeX in the OME-XML",
            Self::Tiff => "the TIFF resolution tags",
            Self::Png => "the PNG chunk pHYs",
            Self::Jfif => "the JFIF header",
            Self::Exif => "the EXIF resolution tags",
        }
    }
}

/// Pixels per millimetre as a file says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Density {
    /// Along the rows and the columns as they are stored, px/mm; each greater than zero and finite.
    pub px_per_mm: [f64; 2],
    /// Where it is written.
    pub written_in: DensityIn,
}

impl Density {
    /// Nothing where a figure is none that a density can have.
    pub(super) fn new(px_per_mm: [f64; 2], written_in: DensityIn) -> Option<Self> {
        let can_be = |density: f64| density > 0.0 && density.is_finite();
        px_per_mm.into_iter().all(can_be).then_some(Self {
            px_per_mm,
            written_in,
        })
    }
}

/// How long the unit of `ResolutionUnit` is, mm; 1 stands for no unit at all.
pub(super) const fn unit_mm(resolution_unit: u32) -> Option<f64> {
    match resolution_unit {
        2 => Some(MM_PER_INCH),
        3 => Some(MM_PER_CENTIMETRE),
        _ => None,
    }
}

/// What the file says outside its EXIF block; the surest first.
pub(super) fn read(file: &[u8], format: ImageFormat) -> Vec<Density> {
    match format {
        ImageFormat::Tiff => of_tiff(file),
        ImageFormat::Png => of_png(file).into_iter().collect(),
        ImageFormat::Jpeg => of_jfif(file).into_iter().collect(),
        _ => Vec::new(),
    }
}

fn of_tiff(file: &[u8]) -> Vec<Density> {
    let Ok(mut tiff) = Decoder::new(Cursor::new(file)) else {
        return Vec::new();
    };
    let mut tag = |tag| tiff.find_tag(tag).ok().flatten();
    let size = [Tag::ImageWidth, Tag::ImageLength].map(|side| tag(side)?.into_u32().ok());
    let ome = match tag(Tag::ImageDescription) {
        Some(Value::Ascii(words)) => of_ome(&words, size),
        _ => None,
    };
    let unit = match tag(Tag::ResolutionUnit) {
        Some(unit) => unit.into_u32().ok(),
        // The unit where none is written (TIFF 6.0).
        None => Some(2),
    };
    let mut along = |side| number(&tag(side)?);
    let resolution = along(Tag::XResolution).zip(along(Tag::YResolution));
    let tags = resolution.zip(unit.and_then(unit_mm));
    let tags = tags.and_then(|((x, y), mm)| Density::new([x / mm, y / mm], DensityIn::Tiff));
    ome.into_iter().chain(tags).collect()
}

/// A rational, or what careless programs write in its place.
fn number(value: &Value) -> Option<f64> {
    match *value {
        Value::Rational(above, below) => Some(f64::from(above) / f64::from(below)),
        Value::Float(number) => Some(number.into()),
        Value::Double(number) => Some(number),
        Value::Short(number) => Some(number.into()),
        Value::Unsigned(number) => Some(number.into()),
        _ => None,
    }
}

/// Of the first picture in an OME-XML block, if it is as large as the one that is read: files hold
/// smaller copies too.
fn of_ome(xml: &str, size: [Option<u32>; 2]) -> Option<Density> {
    let mut reader = Reader::from_str(xml);
    loop {
        match reader.read_event().ok()? {
            Event::Start(element) | Event::Empty(element)
                if element.local_name().as_ref() == b"Pixels" =>
            {
                return of_ome_pixels(&element, size);
            }
            Event::Eof => return None,
            _ => {}
        }
    }
}

fn of_ome_pixels(pixels: &BytesStart<'_>, size: [Option<u32>; 2]) -> Option<Density> {
    let attribute = |name: &str| {
        let found = pixels.try_get_attribute(name).ok()??;
        let value = found.normalized_value(XmlVersion::Implicit1_0).ok()?;
        Some(value.into_owned())
    };
    let side = |name: &str| attribute(name)?.parse().ok();
    if [side("SizeX"), side("SizeY")] != size {
        return None;
    }
    let px_per_mm = |side: &str| {
        let unit = attribute(&format!("{side}Unit"));
        // Micrometres where no unit is written (OME schema 2016-06).
        let mm = ome_unit_mm(unit.as_deref().unwrap_or("µm"))?;
        let length: f64 = attribute(side)?.parse().ok()?;
        Some(1.0 / (length * mm))
    };
    let density = [px_per_mm("PhysicalSizeX")?, px_per_mm("PhysicalSizeY")?];
    Density::new(density, DensityIn::Ome)
}

/// The units of the schema's `UnitsLength` that somebody may measure a fungus in.
fn ome_unit_mm(unit: &str) -> Option<f64> {
    match unit {
        "m" => Some(MM_PER_METRE),
        "cm" => Some(MM_PER_CENTIMETRE),
        "mm" => Some(1.0),
        // The micro sign and the Greek letter.
        "µm" | "μm" => Some(1e-3),
        "nm" => Some(1e-6),
        "in" => Some(MM_PER_INCH),
        _ => None,
    }
}

fn of_png(file: &[u8]) -> Option<Density> {
    let reader = png::Decoder::new(Cursor::new(file)).read_info().ok()?;
    let written = reader.info().pixel_dims?;
    let px_per_mm = [written.xppu, written.yppu].map(|px| f64::from(px) / MM_PER_METRE);
    match written.unit {
        Unit::Meter => Density::new(px_per_mm, DensityIn::Png),
        Unit::Unspecified => None,
    }
}

/// The header stands at the very beginning of the file, where there is one.
fn of_jfif(file: &[u8]) -> Option<Density> {
    let &[
        0xFF,
        0xD8,
        0xFF,
        0xE0,
        _,
        _,
        b'J',
        b'F',
        b'I',
        b'F',
        0,
        _,
        _,
        unit,
        x1,
        x0,
        y1,
        y0,
        ..,
    ] = file
    else {
        return None;
    };
    let mm = match unit {
        1 => MM_PER_INCH,
        2 => MM_PER_CENTIMETRE,
        _ => return None,
    };
    let density = [[x1, x0], [y1, y0]].map(|px| f64::from(u16::from_be_bytes(px)) / mm);
    Density::new(density, DensityIn::Jfif)
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIZE: [Option<u32>; 2] = [Some(64), Some(48)];

    fn pixels(attributes: &str) -> Option<[f64; 2]> {
        let xml = format!(
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?><!-- of a microscope --><OME \
             xmlns=\"http://www.openmicroscopy.org/Schemas/OME/2016-06\"><Image ID=\"Image:0\">\
             <Pixels {attributes} Type=\"uint8\"><TiffData/></Pixels></Image></OME>"
        );
        of_ome(&xml, SIZE).map(|density| density.px_per_mm)
    }

    /// Units and defaults: OME schema 2016-06, `UnitsLength` and `Pixels`.
    #[test]
    fn sizes_of_pixels_are_read_in_their_unit() {
        let size = "SizeX=\"64\" SizeY=\"48\"";
        for (unit, px_per_mm) in [
            ("", 400.0),
            ("µm", 400.0),
            ("&#181;m", 400.0),
            ("nm", 400_000.0),
            ("mm", 0.4),
            ("cm", 0.04),
        ] {
            let units = if unit.is_empty() {
                String::new()
            } else {
                format!("PhysicalSizeXUnit=\"{unit}\" PhysicalSizeYUnit=\"{unit}\"")
            };
            let [x, y] = pixels(&format!(
                "{size} PhysicalSizeX=\"2.5\" PhysicalSizeY=\"5\" {units}"
            ))
            .unwrap_or_else(|| panic!("{unit}"));
            assert!((x / px_per_mm - 1.0).abs() < 1e-12, "{unit}: {x}");
            assert!((y / px_per_mm - 0.5).abs() < 1e-12, "{unit}: {y}");
        }
    }

    #[test]
    fn what_says_no_length_is_not_taken() {
        let size = "SizeX=\"64\" SizeY=\"48\"";
        for attributes in [
            size.to_owned(),
            format!("{size} PhysicalSizeX=\"2.5\""),
            format!("{size} PhysicalSizeX=\"0\" PhysicalSizeY=\"0\""),
            format!("{size} PhysicalSizeX=\"-1\" PhysicalSizeY=\"-1\""),
            format!("{size} PhysicalSizeX=\"NaN\" PhysicalSizeY=\"NaN\""),
            format!("{size} PhysicalSizeX=\"1\" PhysicalSizeY=\"1\" PhysicalSizeXUnit=\"pixel\""),
            // Of another picture.
            "SizeX=\"640\" SizeY=\"480\" PhysicalSizeX=\"2.5\" PhysicalSizeY=\"2.5\"".to_owned(),
        ] {
            assert_eq!(pixels(&attributes), None, "{attributes}");
        }
        for text in ["", "a fungus", "<OME><Pixels", "{\"shape\": [48, 64]}"] {
            assert_eq!(of_ome(text, SIZE), None, "{text}");
        }
    }

    #[test]
    fn rubbish_says_nothing() {
        for format in [ImageFormat::Tiff, ImageFormat::Png, ImageFormat::Jpeg] {
            assert_eq!(read(b"", format), []);
            assert_eq!(read(b"II*\0\xFF\xFF\xFF\xFF", format), []);
        }
    }
}
