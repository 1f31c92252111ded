//! A face of ours in a PDF file: only the letters that are used, each with its true width.

use ab_glyph::{Font as _, FontRef};
use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Finish as _, Name, Pdf, Rect, Ref, Str};
use std::collections::BTreeMap;
use subsetter::{GlyphRemapper, subset};

/// Widths in a PDF file are in thousandths of the size (ISO 32000-1, 9.2.4).
const PER_SIZE: f32 = 1000.0;
/// Objects that a face takes in the file.
pub(super) const OBJECTS: i32 = 5;

/// Why a face did not come into the file.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum FaceError {
    /// The font is damaged; never one that is part of the program.
    #[error("the letters could not be put into the file: {0}")]
    Letters(#[from] subsetter::Error),
    /// The font has no outlines of the kind that is embedded.
    #[error("the font has no CFF outlines")]
    NoOutlines,
}

/// A face and the letters of it that were used.
pub(super) struct Face {
    name: &'static str,
    bytes: &'static [u8],
    font: FontRef<'static>,
    used: GlyphRemapper,
    /// What each used glyph stands for, so that text can be searched and copied.
    letters: BTreeMap<u16, (char, f32)>,
}

impl Face {
    pub(super) fn new(name: &'static str, bytes: &'static [u8]) -> Self {
        Self {
            name,
            bytes,
            font: FontRef::try_from_slice(bytes).expect("the font is part of the program"),
            used: GlyphRemapper::new(),
            letters: BTreeMap::new(),
        }
    }

    /// How far text runs, in the unit of its size.
    pub(super) fn width(&self, text: &str, size: f32) -> f32 {
        text.chars().map(|letter| self.advance(letter)).sum::<f32>() * size / PER_SIZE
    }

    fn advance(&self, letter: char) -> f32 {
        let units = self.font.units_per_em().unwrap_or(PER_SIZE);
        self.font.h_advance_unscaled(self.font.glyph_id(letter)) * PER_SIZE / units
    }

    /// The text as the file numbers its letters, two bytes each.
    pub(super) fn encoded(&mut self, text: &str) -> Vec<u8> {
        let mut bytes = Vec::new();
        for letter in text.chars() {
            let glyph = self.used.remap(self.font.glyph_id(letter).0);
            let width = self.advance(letter);
            self.letters.entry(glyph).or_insert((letter, width));
            bytes.extend(glyph.to_be_bytes());
        }
        bytes
    }

    /// Writes it to the file as [`OBJECTS`] objects, of which the first is the font.
    pub(super) fn write(&self, pdf: &mut Pdf, first: Ref) -> Result<(), FaceError> {
        let [font, cid, descriptor, file, unicode] =
            [0, 1, 2, 3, 4].map(|n| Ref::new(first.get() + n));
        let name = Name(self.name.as_bytes());
        let system = |ordering| SystemInfo {
            registry: Str(b"Adobe"),
            ordering: Str(ordering),
            supplement: 0,
        };
        pdf.type0_font(font)
            .base_font(name)
            .encoding_predefined(Name(b"Identity-H"))
            .descendant_font(cid)
            .to_unicode(unicode);
        let mut cid_font = pdf.cid_font(cid);
        cid_font
            .subtype(CidFontType::Type0)
            .base_font(name)
            .system_info(system(b"Identity"))
            .font_descriptor(descriptor)
            .default_width(0.0);
        let mut widths = cid_font.widths();
        for (glyph, (_, width)) in &self.letters {
            widths.same(*glyph, *glyph, *width);
        }
        widths.finish();
        cid_font.finish();
        let units = self.font.units_per_em().unwrap_or(PER_SIZE);
        let (ascent, descent) = (
            self.font.ascent_unscaled() * PER_SIZE / units,
            self.font.descent_unscaled() * PER_SIZE / units,
        );
        pdf.font_descriptor(descriptor)
            .name(name)
            .flags(FontFlags::SYMBOLIC)
            .bbox(Rect::new(-PER_SIZE, descent, 2.0 * PER_SIZE, ascent))
            .italic_angle(0.0)
            .ascent(ascent)
            .descent(descent)
            .cap_height(ascent)
            .stem_v(80.0)
            .font_file3(file);
        let whole = subset(self.bytes, 0, &self.used)?;
        let outlines = table(&whole, *b"CFF ").ok_or(FaceError::NoOutlines)?;
        pdf.stream(file, outlines)
            .pair(Name(b"Subtype"), Name(b"CIDFontType0C"));
        let mut map = UnicodeCmap::new(Name(b"Letters"), system(b"UCS"));
        for (glyph, (letter, _)) in &self.letters {
            map.pair(*glyph, *letter);
        }
        pdf.cmap(unicode, &map.finish());
        Ok(())
    }
}

/// A table of an OpenType font (ISO/IEC 14496-22, 4.5: a header of 12 bytes, then 16 a table).
fn table(font: &[u8], tag: [u8; 4]) -> Option<&[u8]> {
    let number = |at: usize| -> Option<usize> {
        let bytes = font.get(at..at + 4)?.try_into().ok()?;
        usize::try_from(u32::from_be_bytes(bytes)).ok()
    };
    let count = u16::from_be_bytes(font.get(4..6)?.try_into().ok()?);
    let at = (0..usize::from(count))
        .map(|n| 12 + 16 * n)
        .find(|at| font.get(*at..*at + 4) == Some(&tag[..]))?;
    let (from, length) = (number(at + 8)?, number(at + 12)?);
    font.get(from..from.checked_add(length)?)
}
