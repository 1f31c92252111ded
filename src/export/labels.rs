//! Labels for the packets of a herbarium: eight on a sheet, to print at 100 % and cut out.
//!
//! A label says what a packet's label says by custom (`common practice, no source`): collection, number,
//! name and who gave it, place, host, collector and day; then what was measured, and at which scale. A QR code holds the
//! voucher's identifier (Darwin Core `occurrenceID`). Long text is set
//! smaller until it fits, and cut with “…” where even the smallest letters are too large.

use super::card_pdf::{Paper, points};
use super::code::Code;
use super::digits::significant;
pub use super::pages::FaceError;
use super::pages::{self, Faces};
use crate::book::{BookCard, Voucher, VoucherFigures};
use crate::ranges::CAUTIONS;
use pdf_writer::Content;

/// Labels side by side and one below the other.
const ACROSS: usize = 2;
const DOWN: usize = 4;
/// White margin of the sheet, more than printers need, mm.
const MARGIN_MM: f64 = 10.0;
/// Foot of the sheet, for the cautions, mm.
const FOOT_MM: f64 = 14.0;
/// From a label's edge to its text, mm.
const PADDING_MM: f64 = 3.0;
/// Side of the code with the white round it, mm: modules of half a millimetre, which phones read
/// (`common practice, no source`).
const CODE_MM: f64 = 21.0;
/// Size of the text, points: as large as fits.
const SIZES: [f32; 7] = [8.0, 7.5, 7.0, 6.5, 6.0, 5.5, 5.0];
/// Letters of one entry that are looked at, more than a label holds of the smallest.
const MOST_LETTERS: usize = 4000;
/// From one line to the next, in sizes.
const LEADING: f32 = 1.3;
/// Size of the number and the name, in sizes of the text.
const LARGE: f32 = 1.35;
/// Size of the cautions at the foot, points.
const FOOT_SIZE: f32 = 6.0;
/// Size of the caution at the foot of a label, points.
const CAUTION_SIZE: f32 = 6.5;
/// What every label says, since labels are cut from the sheet.
const ON_LABEL: &str = "Never eat a fungus or decide on a dose on the strength of this label.";

/// A line before it is set.
#[derive(Debug, Clone, PartialEq)]
struct Line {
    text: String,
    is_bold: bool,
    /// Size, in sizes of the text.
    size: f32,
}

/// The sheets, labels in the order given.
///
/// # Errors
/// [`FaceError`], never with the fonts that are part of the program.
pub fn sheets(card: &BookCard, vouchers: &[&Voucher], paper: Paper) -> Result<Vec<u8>, FaceError> {
    let mut faces = Faces::new();
    let contents: Vec<Content> = vouchers
        .chunks(ACROSS * DOWN)
        .map(|some| sheet(card, some, paper, &mut faces))
        .collect();
    let title = format!("Labels of {}", card.dataset_name);
    pages::file(&title, paper, contents, &faces, &[])
}

/// Width and height of a label, mm.
fn label_mm(paper: Paper) -> [f64; 2] {
    let [width, height] = paper.size_mm();
    [
        (width - 2.0 * MARGIN_MM) / ACROSS as f64,
        (height - 2.0 * MARGIN_MM - FOOT_MM) / DOWN as f64,
    ]
}

/// Width and height for the text, beside the code, points.
fn room(paper: Paper) -> [f32; 2] {
    let [width, height] = label_mm(paper);
    [
        points(width - PADDING_MM - CODE_MM),
        points(height - 2.0 * PADDING_MM) - CAUTION_SIZE * LEADING,
    ]
}

fn sheet(card: &BookCard, vouchers: &[&Voucher], paper: Paper, faces: &mut Faces) -> Content {
    let mut content = Content::new();
    let [_, sheet_height] = paper.size_mm();
    let [width, height] = label_mm(paper);
    for (at, voucher) in vouchers.iter().enumerate() {
        let x = MARGIN_MM + width * (at % ACROSS) as f64;
        let top = sheet_height - MARGIN_MM - height * (at / ACROSS) as f64;
        content
            .set_stroke_gray(0.7)
            .set_line_width(0.4)
            .rect(
                points(x),
                points(top - height),
                points(width),
                points(height),
            )
            .stroke();
        if let Some(code) = Code::of(&voucher.occurrence_id) {
            let corner = [points(x + width - CODE_MM), points(top - CODE_MM)];
            code.draw(&mut content, corner, points(CODE_MM));
        }
        let room = room(paper);
        let (size, lines) = fitted(&lines(card, voucher), room, faces);
        let from = [points(x + PADDING_MM), points(top - PADDING_MM)];
        set(&mut content, &lines, size, from, faces);
        let foot = [points(x + PADDING_MM), points(top - height + PADDING_MM)];
        faces.set(&mut content, ON_LABEL, foot, CAUTION_SIZE, false);
    }
    let foot: Vec<Line> = (CAUTIONS.lines())
        .map(|line| Line {
            text: line.to_owned(),
            is_bold: false,
            size: 1.0,
        })
        .collect();
    let from = [points(MARGIN_MM), points(MARGIN_MM + FOOT_MM - 2.0)];
    set(&mut content, &foot, FOOT_SIZE, from, faces);
    content
}

/// Sets lines below one another, the first below `from`, points.
fn set(content: &mut Content, lines: &[Line], size: f32, [x, top]: [f32; 2], faces: &mut Faces) {
    let mut y = top;
    content.set_fill_gray(0.0);
    for line in lines {
        y -= size * line.size * LEADING;
        faces.set(content, &line.text, [x, y], size * line.size, line.is_bold);
    }
}

/// The largest size at which the lines fit in the room, points, and the lines broken for it.
fn fitted(lines: &[Line], [width, height]: [f32; 2], faces: &Faces) -> (f32, Vec<Line>) {
    let tall = |lines: &[Line], size: f32| -> f32 {
        lines.iter().map(|line| line.size * size * LEADING).sum()
    };
    let mut set = (SIZES[0], Vec::new());
    for size in SIZES {
        let broken: Vec<Line> = (lines.iter())
            .flat_map(|line| broken(line, width, size, faces))
            .collect();
        set = (size, broken);
        if tall(&set.1, size) <= height {
            return set;
        }
    }
    let (size, mut lines) = set;
    let mut used = 0.0;
    let fitting = lines.iter().take_while(|line| {
        used += line.size * size * LEADING;
        used <= height
    });
    let fitting = fitting.count();
    lines.truncate(fitting);
    if let Some(last) = lines.last_mut() {
        last.text.push('…');
    }
    (size, lines)
}

/// A line broken between words, or within a word that is wider than the room.
fn broken(line: &Line, width: f32, size: f32, faces: &Faces) -> Vec<Line> {
    faces
        .lines(&line.text, width, size * line.size, line.is_bold)
        .into_iter()
        .map(|text| Line {
            text,
            ..line.clone()
        })
        .collect()
}

/// What a label says.
fn lines(card: &BookCard, voucher: &Voucher) -> Vec<Line> {
    let mut lines = Vec::new();
    let mut say = |text: String, is_bold: bool, size: f32| {
        let text: String = text.chars().take(MOST_LETTERS).collect();
        if !text.is_empty() {
            lines.push(Line {
                text,
                is_bold,
                size,
            });
        }
    };
    let joined = |parts: &[Option<String>], between: &str| {
        let parts: Vec<&str> = parts.iter().flatten().map(String::as_str).collect();
        parts.join(between)
    };
    let codes = [card.institution_code.clone(), card.collection_code.clone()];
    let codes = joined(&codes, " · ");
    let head = [
        Some(card.dataset_name.clone()),
        (!codes.is_empty()).then_some(codes),
    ];
    say(joined(&head, " · "), false, 1.0);
    say(voucher.catalog_number.clone(), true, LARGE);
    say(
        voucher.name().unwrap_or_else(|| "not named yet".to_owned()),
        true,
        LARGE,
    );
    let det = voucher
        .identified_by
        .as_ref()
        .map(|who| format!("det. {who}"));
    say(
        joined(&[det, voucher.date_identified.clone()], ", "),
        false,
        1.0,
    );
    let coordinates =
        (voucher.decimal_latitude.zip(voucher.decimal_longitude)).map(|(latitude, longitude)| {
            let within = (voucher.coordinate_uncertainty_in_meters)
                .map_or_else(String::new, |metres| format!(" ± {metres} m"));
            format!("{latitude}, {longitude}{within}")
        });
    let place = [
        voucher.locality.clone(),
        voucher.country_code.clone(),
        coordinates,
    ];
    say(joined(&place, ", "), false, 1.0);
    let decay = (voucher.decay_stage.as_ref()).map(|stage| format!("decay {stage}"));
    let host = voucher.host_taxon.clone().or(voucher.host_wood.clone());
    let on = joined(&[host, voucher.substrate.clone(), decay], ", ");
    let on = (!on.is_empty()).then(|| format!("on {on}"));
    say(joined(&[voucher.habitat.clone(), on], "; "), false, 1.0);
    let leg = voucher
        .recorded_by
        .as_ref()
        .map(|who| format!("leg. {who}"));
    say(joined(&[leg, voucher.event_date.clone()], ", "), false, 1.0);
    let figures = VoucherFigures::of(voucher);
    let mut measured = vec![
        figures
            .surface
            .map(|kind| format!("underside {}", kind.word())),
    ];
    measured.extend(figures.photos.iter().map(|photo| photo.handbook.clone()));
    measured.push(figures.per_mm.map(|pooled| {
        let (low, high) = pooled.interval();
        format!("{:.2} per mm ({low:.2} to {high:.2})", pooled.mean)
    }));
    say(joined(&measured, "; "), false, 1.0);
    let mut scales: Vec<Option<String>> = Vec::new();
    for (px_per_mm, how) in figures.photos.iter().filter_map(|photo| photo.scale) {
        let scale = significant(px_per_mm, 4);
        let scale = Some(format!("{scale} px per mm, by {}", how.in_words()));
        if !scales.contains(&scale) {
            scales.push(scale);
        }
    }
    if !scales.is_empty() {
        say(format!("scale {}", joined(&scales, "; ")), false, 1.0);
    }
    say(
        joined(std::slice::from_ref(&voucher.occurrence_remarks), ""),
        false,
        1.0,
    );
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::{Attached, Determination, PhotoLink};
    use crate::export::{json, sample};

    fn card() -> BookCard {
        BookCard {
            institution_code: Some("AFFG".to_owned()),
            ..BookCard::new("Alder Fen Foray Group", "{number}")
        }
    }

    fn full(remarks: &str) -> Voucher {
        let mut voucher = Voucher::new("AF-2026-0001");
        for (term, value) in [
            ("recordedBy", "Łucja Dunmore"),
            ("eventDate", "2026-10-04"),
            ("locality", "Alder Fen"),
            ("hostTaxon", "Betula pendula"),
        ] {
            voucher.set(term, value).expect(term);
        }
        voucher.determine(Determination {
            scientific_name: "Trametes versicolor".to_owned(),
            identification_qualifier: Some("cf.".to_owned()),
            identified_by: Some("Tom Ashdown".to_owned()),
            ..Determination::default()
        });
        voucher.occurrence_remarks = Some(remarks.to_owned());
        voucher
    }

    #[test]
    fn a_label_says_what_a_packet_needs() {
        let said: Vec<String> = lines(&card(), &full("thin"))
            .into_iter()
            .map(|l| l.text)
            .collect();
        assert_eq!(
            said,
            [
                "Alder Fen Foray Group · AFFG",
                "AF-2026-0001",
                "Trametes cf. versicolor",
                "det. Tom Ashdown",
                "Alder Fen",
                "on Betula pendula",
                "leg. Łucja Dunmore, 2026-10-04",
                "thin"
            ]
        );
    }

    #[test]
    fn a_label_tells_the_scale_of_what_was_measured_and_how_it_was_told() {
        let mut voucher = full("thin");
        let findings = json::findings(&sample::poroid());
        voucher.attach(
            PhotoLink {
                path: "a.jpg".to_owned(),
                sha256: "a".to_owned(),
                ..PhotoLink::default()
            },
            Attached {
                measurement_determined_date: "2026-10-04T19:00:00".to_owned(),
                measurement_determined_by: None,
                findings: findings.clone(),
            },
        );
        let said = lines(&card(), &voucher);
        let px_per_mm = findings["scale"]["px_per_mm"].as_f64().expect("a scale");
        let line = said.iter().find(|line| line.text.starts_with("scale "));
        let line = &line.expect("a line on the scale").text;
        let start = format!("scale {} px per mm, by ", significant(px_per_mm, 4));
        assert!(line.starts_with(&start), "{line}");
    }

    #[test]
    fn whatever_is_written_stays_on_its_label() {
        let faces = Faces::new();
        for paper in [Paper::A4, Paper::Letter] {
            let room @ [width, height] = room(paper);
            let caution = faces.width(ON_LABEL, CAUTION_SIZE, false);
            assert!(caution <= points(label_mm(paper)[0] - 2.0 * PADDING_MM));
            for remarks in [
                "",
                "short",
                &"a remark of many words ".repeat(40),
                &"x".repeat(900),
            ] {
                let (size, lines) = fitted(&lines(&card(), &full(remarks)), room, &faces);
                let tall: f32 = lines.iter().map(|l| l.size * size * LEADING).sum();
                assert!(tall <= height + 0.01, "{tall} of {height}");
                for line in &lines {
                    let wide = faces.width(&line.text, size * line.size, line.is_bold);
                    // An ellipsis may have been added.
                    assert!(wide <= width + 2.0 * size, "{}", line.text);
                }
            }
        }
    }

    #[test]
    fn nine_labels_take_two_sheets_and_come_out_the_same_again() {
        let vouchers: Vec<Voucher> = (0..9).map(|_| full("thin")).collect();
        let vouchers: Vec<&Voucher> = vouchers.iter().collect();
        let pdf = sheets(&card(), &vouchers, Paper::A4).expect("a file");
        let text = String::from_utf8_lossy(&pdf);
        assert_eq!(text.matches("/Type /Page\n").count(), 2);
        // ISO 216 in points.
        assert!(text.contains("/MediaBox [0 0 595.27"), "no A4");
        assert_eq!(pdf, sheets(&card(), &vouchers, Paper::A4).expect("a file"));
    }
}
