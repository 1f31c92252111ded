//! A QR code (ISO/IEC 18004:2015) on a page.

use pdf_writer::Content;
use qrcode::{Color, EcLevel, QrCode};

/// White modules that belong round a code (ISO/IEC 18004:2015, 5.3.8).
const QUIET: usize = 4;

/// A QR code: dark and light modules in a square.
pub(super) struct Code(QrCode);

impl Code {
    /// The code of a text, of which 15 % may be spoilt; `None` where the text is too long for one.
    pub(super) fn of(text: &str) -> Option<Self> {
        QrCode::with_error_correction_level(text, EcLevel::M)
            .ok()
            .map(Self)
    }

    /// Modules on a side, the white ones round it counted.
    fn side(&self) -> usize {
        self.0.width() + 2 * QUIET
    }

    /// Whether a module is dark; rows run down.
    fn is_dark(&self, column: usize, row: usize) -> bool {
        let inside = |at: usize| at.checked_sub(QUIET).filter(|at| *at < self.0.width());
        match (inside(column), inside(row)) {
            (Some(column), Some(row)) => self.0[(column, row)] == Color::Dark,
            _ => false,
        }
    }

    /// Draws it with its white modules into a square, given by its lower left corner and its side, points.
    pub(super) fn draw(&self, content: &mut Content, [x, y]: [f32; 2], side: f32) {
        let count = self.side();
        let module = side / count as f32;
        content.set_fill_gray(0.0);
        for row in 0..count {
            let mut column = 0;
            while column < count {
                // One stroke a run, so that no hairline parts its modules.
                let run = (column..count)
                    .take_while(|at| self.is_dark(*at, row))
                    .count();
                if run > 0 {
                    content.rect(
                        x + module * column as f32,
                        y + module * (count - 1 - row) as f32,
                        module * run as f32,
                        module,
                    );
                }
                column += run + 1;
            }
        }
        content.fill_nonzero();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rqrr::PreparedImage;

    #[test]
    fn somebody_elses_reader_reads_it() {
        const SCALE: usize = 4;
        for text in ["urn:uuid:a1de2fe0-0001-4000-8000-000000000114", "Ł-1"] {
            let code = Code::of(text).expect("a code");
            let side = code.side() * SCALE;
            let mut picture = PreparedImage::prepare_from_greyscale(side, side, |x, y| {
                if code.is_dark(x / SCALE, y / SCALE) {
                    0
                } else {
                    255
                }
            });
            let grids = picture.detect_grids();
            let [grid] = &grids[..] else {
                panic!("{} codes", grids.len());
            };
            assert_eq!(grid.decode().expect("readable").1, text);
        }
        assert!(Code::of(&"x".repeat(3000)).is_none());
    }
}
