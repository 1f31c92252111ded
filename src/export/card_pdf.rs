//! The sheet of scale cards as a PDF file of true size.

use crate::card::layout::{CARDS, CHECK_MM, MID_GREY, Shape, Tone};
use pdf_writer::{Content, Finish as _, Name, Pdf, Rect, Ref, Str, TextStr};

/// Points in a millimetre: 72 to the inch of 25.4 mm (ISO 32000-1, 8.3.2.3).
const POINTS_PER_MM: f64 = 72.0 / 25.4;
/// White margin of the sheet, more than printers need, mm.
const MARGIN_MM: f64 = 15.0;
/// Handle length of a circle's quarter as a cubic, in radii: 4/3·(√2 − 1), which keeps within 0.03 %.
const QUARTER: f64 = 0.552_284_749_830_793_4;
/// Paper between cards, for the scissors, mm.
const GAP_MM: f64 = 6.0;

/// Paper to print on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    A4,
    /// 8½ × 11 in.
    Letter,
}

impl Paper {
    /// Width and height, mm.
    #[must_use]
    pub const fn size_mm(self) -> [f64; 2] {
        match self {
            Self::A4 => [210.0, 297.0],
            Self::Letter => [215.9, 279.4],
        }
    }
}

/// The sheet: a line to check with a ruler, and cards of every size to cut out.
#[must_use]
pub fn sheet(paper: Paper) -> Vec<u8> {
    let [width, height] = paper.size_mm();
    let mut content = Content::new();
    for shape in shapes(width) {
        draw(&mut content, &shape, height);
    }

    let [catalog, pages, page, stream, plain, bold, info] = [1, 2, 3, 4, 5, 6, 7].map(Ref::new);
    let mut pdf = Pdf::new();
    let mut document = pdf.catalog(catalog);
    document.pages(pages);
    // Printing programs that honour it do not shrink the page to fit.
    document
        .viewer_preferences()
        .pair(Name(b"PrintScaling"), Name(b"None"));
    document.finish();
    pdf.pages(pages).kids([page]).count(1);
    let mut sheet = pdf.page(page);
    sheet
        .parent(pages)
        .media_box(Rect::new(0.0, 0.0, points(width), points(height)))
        .contents(stream);
    sheet
        .resources()
        .fonts()
        .pair(Name(b"Plain"), plain)
        .pair(Name(b"Bold"), bold);
    sheet.finish();
    pdf.stream(stream, &content.finish());
    // Two of the fourteen faces that every reader has (ISO 32000-1, 9.6.2.2).
    for (id, name) in [(plain, &b"Helvetica"[..]), (bold, b"Helvetica-Bold")] {
        pdf.type1_font(id)
            .base_font(Name(name))
            .encoding_predefined(Name(b"WinAnsiEncoding"));
    }
    pdf.document_info(info)
        .title(TextStr("Poreline scale cards"))
        .creator(TextStr("Poreline"));
    pdf.finish()
}

/// Everything on a sheet of the given width, in mm from its upper left corner.
fn shapes(sheet_width: f64) -> Vec<Shape> {
    let print = "Print at 100 % on matt white paper, then check the line below with a ruler. If it is not \
                 50 mm long, print again without fitting to the page.";
    let mut shapes = vec![words([MARGIN_MM, 24.0], 7.0, true, "Poreline scale cards")];
    shapes.extend(wrapped_at([MARGIN_MM, 31.5], 3.6, print, 98));
    shapes.extend(check_line([MARGIN_MM, 48.0]));
    let [large, middle, small] = CARDS;
    let inner = sheet_width - 2.0 * MARGIN_MM;
    let mut top = 60.0;
    for (card, most) in [(large, 2), (middle, 4), (small, 6), (middle, 4), (small, 6)] {
        let [width, height] = card.paper_mm();
        let mut fit = most;
        while f64::from(fit) * (width + GAP_MM) - GAP_MM > inner {
            fit -= 1;
        }
        for k in 0..fit {
            let x = MARGIN_MM + width / 2.0 + f64::from(k) * (width + GAP_MM);
            shapes.extend(card.shapes([x, top + height / 2.0]));
        }
        top += height + GAP_MM;
    }
    let advice = "Cut along the broken lines, the opening too. Lay the card flat on the surface, with the \
                  pores in the opening, and photograph it with all four corner marks in the picture and \
                  in focus. Take the largest card that fits. Then: poreline measure PHOTO --card";
    shapes.extend(wrapped_at([MARGIN_MM, top + 5.0], 3.6, advice, 98));
    shapes
}

/// The line that must measure [`CHECK_MM`], from the outer edge of one end mark to that of the other.
fn check_line([x, y]: [f64; 2]) -> Vec<Shape> {
    let (width, mark) = (0.25, 5.0);
    let block = |from: [f64; 2], size: [f64; 2]| Shape::Block {
        from,
        size,
        tone: Tone::Black,
    };
    vec![
        block([x, y - width / 2.0], [CHECK_MM, width]),
        block([x, y - mark / 2.0], [width, mark]),
        block([x + CHECK_MM - width, y - mark / 2.0], [width, mark]),
        words(
            [x + CHECK_MM + 4.0, y + 1.3],
            3.6,
            true,
            "This must measure 50 mm, from outer edge to outer edge",
        ),
    ]
}

fn words(from: [f64; 2], size: f64, is_bold: bool, text: &str) -> Shape {
    Shape::Words {
        from,
        size,
        is_turned: false,
        is_bold,
        text: text.to_owned(),
    }
}

/// Words in lines of at most so many letters.
fn wrapped_at(from: [f64; 2], size: f64, text: &str, letters: usize) -> Vec<Shape> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= letters => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    let mut y = from[1] - 1.4 * size;
    lines
        .iter()
        .map(|line| {
            y += 1.4 * size;
            words([from[0], y], size, false, line)
        })
        .collect()
}

/// Draws a shape on a page of the given height.
fn draw(content: &mut Content, shape: &Shape, height: f64) {
    let place = |[x, y]: [f64; 2]| [points(x), points(height - y)];
    match shape {
        Shape::Block { from, size, tone } => {
            let [x, y] = place([from[0], from[1] + size[1]]);
            content
                .set_fill_gray(grey(*tone))
                .rect(x, y, points(size[0]), points(size[1]))
                .fill_nonzero();
        }
        Shape::Disc {
            centre: [x, y],
            width,
            tone,
        } => {
            let radius = width / 2.0;
            let handle = QUARTER * radius;
            let at = |dx: f64, dy: f64| place([x + dx, y + dy]);
            let [fx, fy] = at(radius, 0.0);
            content.set_fill_gray(grey(*tone)).move_to(fx, fy);
            // Each quarter turns the last by a right angle.
            let (mut ax, mut ay) = (1.0, 0.0);
            for _ in 0..4 {
                let (bx, by) = (-ay, ax);
                let [x1, y1] = at(radius * ax + handle * bx, radius * ay + handle * by);
                let [x2, y2] = at(radius * bx + handle * ax, radius * by + handle * ay);
                let [x3, y3] = at(radius * bx, radius * by);
                content.cubic_to(x1, y1, x2, y2, x3, y3);
                (ax, ay) = (bx, by);
            }
            content.close_path().fill_nonzero();
        }
        Shape::Line {
            from,
            to,
            width,
            is_cut,
        } => {
            let ([x1, y1], [x2, y2]) = (place(*from), place(*to));
            let dashes: &[f32] = if *is_cut { &[2.0, 2.0] } else { &[] };
            content
                .set_stroke_gray(0.55)
                .set_line_width(points(*width))
                .set_dash_pattern(dashes.iter().copied(), 0.0)
                .move_to(x1, y1)
                .line_to(x2, y2)
                .stroke();
        }
        Shape::Words {
            from,
            size,
            is_turned,
            is_bold,
            text,
        } => {
            let [x, y] = place(*from);
            let matrix = if *is_turned {
                [0.0, 1.0, -1.0, 0.0, x, y]
            } else {
                [1.0, 0.0, 0.0, 1.0, x, y]
            };
            let face: &[u8] = if *is_bold { b"Bold" } else { b"Plain" };
            content
                .set_fill_gray(0.0)
                .begin_text()
                .set_font(Name(face), points(*size))
                .set_text_matrix(matrix)
                .show(Str(&in_windows_1252(text)))
                .end_text();
        }
    }
}

/// Letters as the faces' encoding numbers them, which for all of ours is Latin-1.
fn in_windows_1252(text: &str) -> Vec<u8> {
    text.chars()
        .map(|letter| u8::try_from(u32::from(letter)).unwrap_or(b'?'))
        .collect()
}

fn grey(tone: Tone) -> f32 {
    #[expect(clippy::cast_possible_truncation, reason = "0–1")]
    match tone {
        Tone::Black => 0.0,
        Tone::Grey => MID_GREY as f32,
        Tone::White => 1.0,
    }
}

/// Points of so many millimetres.
pub(super) fn points(mm: f64) -> f32 {
    #[expect(clippy::cast_possible_truncation, reason = "to a millionth of a sheet")]
    let points = (mm * POINTS_PER_MM) as f32;
    points
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rectangles of the page's content: x, y, width, height in points.
    fn rectangles(pdf: &[u8]) -> Vec<[f64; 4]> {
        let text = String::from_utf8_lossy(pdf);
        text.lines()
            .filter_map(|line| line.strip_suffix(" re"))
            .map(|numbers| {
                let numbers: Vec<f64> = numbers
                    .split(' ')
                    .map(|number| number.parse().expect("a number"))
                    .collect();
                numbers.try_into().expect("four numbers")
            })
            .collect()
    }

    /// ISO 216 and the US letter in points: 595.276 × 841.890 and 612 × 792.
    #[test]
    fn the_page_is_as_large_as_the_paper() {
        for (paper, width, height) in [(Paper::A4, 595.276, 841.890), (Paper::Letter, 612.0, 792.0)]
        {
            let pdf = sheet(paper);
            let text = String::from_utf8_lossy(&pdf);
            let (_, from) = text.split_once("/MediaBox [0 0 ").expect("a page size");
            let (size, _) = from.split_once(']').expect("its end");
            let size: Vec<f64> = size
                .split(' ')
                .map(|n| n.parse().expect("a number"))
                .collect();
            assert!((size[0] - width).abs() < 0.01 && (size[1] - height).abs() < 0.01);
        }
    }

    /// 50 mm are 50 / 25.4 · 72 = 141.732 points, and a mark of 2.2 mm 6.236.
    #[test]
    fn the_check_line_and_the_marks_have_their_true_size() {
        let rectangles = rectangles(&sheet(Paper::A4));
        let near = |a: f64, b: f64| (a - b).abs() < 0.001;
        let line = rectangles.iter().filter(|r| near(r[2], 141.732)).count();
        assert_eq!(line, 1);
        let ends: Vec<_> = rectangles
            .iter()
            .filter(|r| near(r[2], 0.709) && near(r[3], 14.173))
            .collect();
        assert_eq!(ends.len(), 2);
        assert!(
            near(ends[1][0] + ends[1][2] - ends[0][0], 141.732),
            "{ends:?}"
        );
        let marks = |side: f64| {
            let marks = rectangles
                .iter()
                .filter(|r| near(r[2], side) && near(r[3], side));
            marks.copied().collect::<Vec<_>>()
        };
        assert_eq!(marks(17.008).len(), 2 * 4);
        assert_eq!(marks(9.071).len(), 8 * 4);
        let small = marks(6.236);
        assert_eq!(small.len(), 12 * 4);
        // Marks of the small card stand 13 mm apart.
        assert!(near(small[1][0] - small[0][0], 36.850), "{small:?}");
    }

    #[test]
    fn everything_lies_on_the_paper() {
        for paper in [Paper::A4, Paper::Letter] {
            let [width, height] = paper.size_mm().map(|mm| mm * POINTS_PER_MM);
            for [x, y, w, h] in rectangles(&sheet(paper)) {
                assert!(x > 28.0 && x + w < width - 28.0, "{x} {w}");
                assert!(y > 28.0 && y + h < height - 28.0, "{y} {h}");
            }
        }
    }
}
