//! Pages set in our two faces, with pictures, as one PDF file.

use super::card_pdf::{Paper, points};
pub use super::face::FaceError;
use super::face::{Face, OBJECTS};
use super::lettering::{BOLD, FONT};
use pdf_writer::{Content, Filter, Finish as _, Name, Pdf, Rect, Ref, Str, TextStr};

/// Plain letters and bold ones.
pub(super) struct Faces([Face; 2]);

/// A picture for a PDF file.
pub(super) struct Jpeg<'a> {
    pub(super) bytes: &'a [u8],
    pub(super) width_px: u32,
    pub(super) height_px: u32,
}

impl Faces {
    pub(super) fn new() -> Self {
        Self([
            Face::new("AAAAAA+Inter-Regular", FONT),
            Face::new("AAAAAB+Inter-SemiBold", BOLD),
        ])
    }

    fn of(&self, is_bold: bool) -> &Face {
        &self.0[usize::from(is_bold)]
    }

    /// How far text runs, in the unit of its size.
    pub(super) fn width(&self, text: &str, size: f32, is_bold: bool) -> f32 {
        self.of(is_bold).width(text, size)
    }

    /// Text broken between words into lines no wider than `width`, or within a word that is wider.
    pub(super) fn lines(&self, text: &str, width: f32, size: f32, is_bold: bool) -> Vec<String> {
        let face = self.of(is_bold);
        let fits = |text: &str| face.width(text, size) <= width;
        let mut lines: Vec<String> = Vec::new();
        for word in text.split_whitespace() {
            match lines.last_mut() {
                Some(last) if fits(&format!("{last} {word}")) => {
                    last.push(' ');
                    last.push_str(word);
                    continue;
                }
                _ => lines.push(String::new()),
            }
            for letter in word.chars() {
                let last = lines.last().map_or("", String::as_str);
                if !last.is_empty() && !fits(&format!("{last}{letter}")) {
                    lines.push(String::new());
                }
                if let Some(last) = lines.last_mut() {
                    last.push(letter);
                }
            }
        }
        lines
    }

    /// Sets one line of text whose foot begins at `at`, points.
    pub(super) fn set(
        &mut self,
        content: &mut Content,
        text: &str,
        at: [f32; 2],
        size: f32,
        is_bold: bool,
    ) {
        let letters = self.0[usize::from(is_bold)].encoded(text);
        content
            .begin_text()
            .set_font(Name(if is_bold { b"Bold" } else { b"Plain" }), size)
            .set_text_matrix([1.0, 0.0, 0.0, 1.0, at[0], at[1]])
            .show(Str(&letters))
            .end_text();
    }
}

/// The name of a picture on all pages.
pub(super) fn picture_name(at: usize) -> String {
    format!("Picture{at}")
}

/// The file. Pictures are told by their place in `pictures`; see [`picture_name`].
///
/// # Errors
/// [`FaceError`], never with the fonts that are part of the program.
pub(super) fn file(
    title: &str,
    paper: Paper,
    pages: Vec<Content>,
    faces: &Faces,
    pictures: &[Jpeg<'_>],
) -> Result<Vec<u8>, FaceError> {
    let mut last = 0;
    let mut next = |objects: i32| {
        last += objects;
        Ref::new(last - objects + 1)
    };
    let [catalog, tree, info] = [next(1), next(1), next(1)];
    let faces_at = [next(OBJECTS), next(OBJECTS)];
    let pictures_at: Vec<Ref> = pictures.iter().map(|_| next(1)).collect();
    let pages_at: Vec<[Ref; 2]> = pages.iter().map(|_| [next(1), next(1)]).collect();

    let mut pdf = Pdf::new();
    let mut document = pdf.catalog(catalog);
    document.pages(tree).lang(TextStr("en-GB"));
    // Printing programs that honour it do not shrink the page to fit.
    document
        .viewer_preferences()
        .pair(Name(b"PrintScaling"), Name(b"None"));
    document.finish();
    pdf.pages(tree)
        .kids(pages_at.iter().map(|[page, _]| *page))
        .count(i32::try_from(pages_at.len()).unwrap_or(i32::MAX));
    let [width, height] = paper.size_mm();
    for (content, [page, stream]) in pages.into_iter().zip(pages_at) {
        let mut sheet = pdf.page(page);
        sheet
            .parent(tree)
            .media_box(Rect::new(0.0, 0.0, points(width), points(height)))
            .contents(stream);
        let mut resources = sheet.resources();
        resources
            .fonts()
            .pair(Name(b"Plain"), faces_at[0])
            .pair(Name(b"Bold"), faces_at[1]);
        let mut named = resources.x_objects();
        for (at, picture) in pictures_at.iter().enumerate() {
            named.pair(Name(picture_name(at).as_bytes()), *picture);
        }
        named.finish();
        resources.finish();
        sheet.finish();
        pdf.stream(stream, &content.finish());
    }
    for (picture, at) in pictures.iter().zip(pictures_at) {
        let side = |px: u32| i32::try_from(px).unwrap_or(i32::MAX);
        let mut image = pdf.image_xobject(at, picture.bytes);
        image.filter(Filter::DctDecode);
        image
            .width(side(picture.width_px))
            .height(side(picture.height_px))
            .bits_per_component(8);
        image.color_space().device_rgb();
    }
    for (face, at) in faces.0.iter().zip(faces_at) {
        face.write(&mut pdf, at)?;
    }
    pdf.document_info(info)
        .title(TextStr(title))
        .creator(TextStr("Poreline"));
    Ok(pdf.finish())
}
