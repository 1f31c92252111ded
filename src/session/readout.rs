//! Findings in the words and digits in which a person reads them.

use crate::Measurement;
use crate::colour::{Colour, WhiteSource};
use crate::export::digits::significant;
use crate::findings::budget::{Budget, Figure, Source};
use crate::findings::{Estimate, Findings, Note, PoreFindings, confidence};
use crate::scale::{How, Scale};
use crate::session::format::{ends, interval, per_cent, plain, value, with_uncertainty};
use crate::surface::{Surface, SurfaceType};

/// One figure with its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// What it is.
    pub name: &'static str,
    /// The figure with its unit.
    pub figure: String,
    /// Where it lies, or how it spreads; empty when there is nothing to say.
    pub range: String,
    /// What the figure means, in a plain sentence.
    pub meaning: &'static str,
}

/// What a handbook would print.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Phrase {
    /// The words, `(3–)4–5(–6) per mm`.
    pub text: String,
    /// What they tell; it is not what an interval tells.
    pub meaning: &'static str,
}

/// The figure a surface is known by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Headline {
    /// The phrase a handbook would print, on poroid surfaces.
    pub handbook: Option<Phrase>,
    /// The figure itself, `4.53 pores per mm`.
    pub figure: String,
    /// Its 95 % interval with unit.
    pub interval: String,
    /// The interval in one sentence.
    pub sentence: String,
}

/// What the uncertainty of one figure is made of.
#[derive(Debug, Clone, PartialEq)]
pub struct Parts {
    /// Whose uncertainty, `Pores per mm`.
    pub name: String,
    /// Half the 95 % interval, `± 4.8 %`.
    pub half_width: String,
    /// The parts, those that are nothing left out.
    pub parts: Vec<Part>,
}

/// One part of an uncertainty.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// Which part.
    pub source: Source,
    /// Its share of the square of the whole, 0–1.
    pub share: f32,
}

impl Part {
    /// The part in words, `place to place 97 %`.
    #[must_use]
    pub fn words(&self) -> String {
        format!("{} {}", self.source.word(), per_cent(self.share.into()))
    }
}

/// Everything the findings panel shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Readout {
    /// The kind of surface, `Poroid`.
    pub surface: String,
    /// How sure, in words.
    pub sureness: String,
    /// Why, the weightiest first.
    pub reasons: Vec<String>,
    /// What is counted: `pores`, `teeth`.
    pub things: &'static str,
    /// Pores or teeth that were counted, and outlined solid.
    pub counted: usize,
    /// Pores or teeth that were seen but not counted, and outlined dashed.
    pub uncounted: usize,
    /// Why nothing is outlined on a surface that has structure.
    pub why_no_outlines: Option<&'static str>,
    /// The main figure; none on smooth or undecided surfaces, or where it is withheld.
    pub headline: Option<Headline>,
    /// The other figures.
    pub rows: Vec<Row>,
    /// What the uncertainty of each figure with an interval is made of.
    pub uncertainty: Vec<Parts>,
    /// Where most of it comes from and what would help most.
    pub main_uncertainty: Option<String>,
    /// Notes, the gravest first.
    pub notes: Vec<Note>,
    /// Whether a note withholds the figures.
    pub withheld: bool,
}

impl Readout {
    /// Findings put into words.
    #[must_use]
    pub fn of(measurement: &Measurement) -> Self {
        let findings = &measurement.findings;
        let withheld = findings.withheld();
        let (things, _) = findings.counted();
        let mut notes = findings.notes.clone();
        notes.sort_by_key(|note| std::cmp::Reverse(note.severity));
        let mut rows = Vec::new();
        if !withheld {
            figure_rows(findings, &mut rows);
            rows.extend(findings.colour.as_ref().map(colour_row));
        }
        frame_rows(findings, &mut rows);
        let counted = measurement.regions.iter().filter(|r| r.counted).count();
        Self {
            things,
            uncertainty: if withheld {
                Vec::new()
            } else {
                findings
                    .uncertainty
                    .iter()
                    .map(|b| parts(b, things))
                    .collect()
            },
            main_uncertainty: findings.main_uncertainty().filter(|_| !withheld),
            counted,
            why_no_outlines: why_no_outlines(findings.surface.kind),
            uncounted: measurement.regions.len() - counted,
            surface: capital(findings.surface.kind.word()),
            sureness: sureness(&findings.surface),
            reasons: findings.surface.reasons.clone(),
            headline: (!withheld).then(|| headline(findings)).flatten(),
            rows,
            notes,
            withheld,
        }
    }

    /// Whether there is anything to outline.
    #[must_use]
    pub const fn outlines_any(&self) -> bool {
        self.counted + self.uncounted > 0
    }

    /// How much is outlined on the photo, `412 pores`.
    #[must_use]
    pub fn outlined(&self) -> String {
        format!("{} {}", self.counted + self.uncounted, self.things)
    }

    /// The figures as a table, cells apart by tabs: name, figure, range.
    #[must_use]
    pub fn as_table(&self) -> String {
        let head = self.headline.iter().map(|headline| {
            let interval = &headline.interval;
            format!("Count\t{}\t95 % interval {interval}\n", headline.figure)
        });
        let rows = self.rows.iter();
        let rows = rows.map(|row| format!("{}\t{}\t{}\n", row.name, row.figure, row.range));
        head.chain(rows).collect()
    }

    /// The shortest form of the findings, for the window's title.
    #[must_use]
    pub fn title(&self) -> String {
        self.headline
            .as_ref()
            .map_or_else(|| self.surface.to_lowercase(), |h| h.figure.clone())
    }
}

const fn why_no_outlines(kind: SurfaceType) -> Option<&'static str> {
    match kind {
        SurfaceType::MazeLike => Some(
            "Nothing is outlined: hollows of a maze run into one another, so none is counted by \
             itself. Random lines were laid across them instead.",
        ),
        SurfaceType::Gilled => Some(
            "Nothing is outlined: gills run on beyond the photo, so none is counted by itself. \
             Random lines were laid across them instead.",
        ),
        _ => None,
    }
}

/// A scale in words: `40.12 ± 0.16 px per mm, from two points`.
#[must_use]
pub fn scale(scale: &Scale) -> String {
    let figure = with_uncertainty(scale.px_per_mm, scale.standard_uncertainty);
    format!("{figure} px per mm, {}", how(scale.how))
}

const fn how(how: How) -> &'static str {
    match how {
        How::Given => "as typed in",
        How::Points => "from two points",
        How::Ticks => "from ruler marks",
        How::Bar => "from the scale bar",
        How::Card => "from the scale card",
        How::Corners => "from four corners",
        How::SetUp => "from a set-up",
        How::Metadata => "as the file says",
    }
}

fn parts(budget: &Budget, things: &str) -> Parts {
    let half_width = budget.half_width();
    Parts {
        name: match budget.figure {
            Figure::PerMm => capital(&format!("{things} per mm")),
            Figure::Diameter => "Diameter".to_owned(),
        },
        half_width: if half_width.is_finite() {
            format!("± {} %", significant(100.0 * half_width, 2))
        } else {
            "not known".to_owned()
        },
        parts: budget
            .shares()
            .into_iter()
            .filter(|(_, share)| *share > 0.0)
            .map(|(source, share)| Part {
                source,
                #[expect(clippy::cast_possible_truncation, reason = "a length on the screen")]
                share: share as f32,
            })
            .collect(),
    }
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().chain(letters).collect())
        .unwrap_or_default()
}

fn sureness(surface: &Surface) -> String {
    let sure = surface.confidence;
    let word = if surface.kind == SurfaceType::Undecided {
        return "the photo does not say".to_owned();
    } else if sure >= 0.95 {
        "very likely"
    } else if sure >= 0.8 {
        "likely"
    } else if sure >= 0.6 {
        "rather likely"
    } else {
        "doubtful"
    };
    format!("{word} ({sure:.2} of 1)")
}

fn headline(findings: &Findings) -> Option<Headline> {
    let of = |estimate: Estimate, things: &str, handbook: Option<Phrase>| Headline {
        handbook,
        figure: format!("{} {things} per mm", value(estimate)),
        interval: format!("{} per mm", interval(estimate)),
        sentence: confidence(
            findings.surface.kind,
            ends(estimate).each_ref().map(String::as_str),
            things,
            &findings.scale,
        ),
    };
    if let Some(pores) = &findings.pores {
        Some(of(pores.per_mm, "pores", Some(phrase(pores))))
    } else if let Some(teeth) = &findings.teeth {
        Some(of(teeth.per_mm, "teeth", None))
    } else if let Some(gills) = &findings.gills {
        Some(of(gills.per_mm, "gills", None))
    } else {
        let maze = findings.maze.as_ref()?;
        Some(of(maze.per_mm, "hollows", None))
    }
}

fn phrase(pores: &PoreFindings) -> Phrase {
    let text = pores.handbook.to_string();
    let meaning = if text.ends_with("wide") {
        "As a handbook would print it: how the pores' widths spread. It is no interval of a mean."
    } else if pores.count_lines.is_empty() {
        "As a handbook would print it, rounded: no 1 mm line fits in the area, so there is no spread."
    } else {
        "As a handbook would print it: how counts on 1 mm lines spread from line to line. It is no \
         interval; the average over the area stands below with its own."
    };
    Phrase { text, meaning }
}

fn figure_rows(findings: &Findings, rows: &mut Vec<Row>) {
    if let Some(pores) = &findings.pores {
        pore_rows(pores, rows);
    }
    if let Some(teeth) = &findings.teeth {
        rows.push(Row {
            name: "Teeth counted",
            figure: teeth.count.to_string(),
            range: String::new(),
            meaning: "Teeth whose centre lies in the measured area, away from the photo's edge.",
        });
        rows.push(Row {
            name: "Elongation",
            figure: plain(teeth.elongation.median),
            range: format!(
                "nine in ten {}–{}",
                plain(teeth.elongation.p5),
                plain(teeth.elongation.p95)
            ),
            meaning: ELONGATION,
        });
    }
}

const ELONGATION: &str = "How drawn out they are in the middle of the ranking: 1 is round, 2 is twice as long as wide. \
     Nine in ten lie within the range.";

fn pore_rows(pores: &PoreFindings, rows: &mut Vec<Row>) {
    if let Some((across, along)) = pores.across_and_along_per_mm {
        rows.push(Row {
            name: "Across / along",
            figure: format!("{} / {} per mm", plain(across), plain(along)),
            range: String::new(),
            meaning: "The pores are drawn out, so the count depends on the direction: across them and along them.",
        });
    }
    let diameter = pores.diameter_mm;
    rows.push(Row {
        name: "Diameter",
        figure: format!("{} mm", value(diameter.mean)),
        range: format!("95 % {}", interval(diameter.mean)),
        meaning: "Mean width of a pore: the diameter of a circle of the same area. The range holds the true mean with 95 % confidence.",
    });
    rows.push(Row {
        name: "Diameter, nine in ten",
        figure: format!(
            "{}–{} mm",
            plain(diameter.spread.p5),
            plain(diameter.spread.p95)
        ),
        range: format!("median {}", plain(diameter.spread.median)),
        meaning: "From the 5th to the 95th of 100 pores ranked by size: how much they differ among themselves.",
    });
    rows.push(Row {
        name: "Elongation",
        figure: plain(pores.elongation.median),
        range: format!(
            "nine in ten {}–{}",
            plain(pores.elongation.p5),
            plain(pores.elongation.p95)
        ),
        meaning: ELONGATION,
    });
    if let Some(wall) = pores.wall_mm_median {
        rows.push(Row {
            name: "Wall thickness",
            figure: format!("{} mm", plain(wall)),
            range: "median".to_owned(),
            meaning: "Tissue between neighbouring pores (dissepiment), on the line that joins their centres.",
        });
    }
    rows.push(Row {
        name: "Hollow share",
        figure: per_cent(pores.void_fraction),
        range: String::new(),
        meaning: "Share of the measured area that is hollow (void), not wall.",
    });
    rows.push(Row {
        name: "Pores counted",
        figure: pores.count.to_string(),
        range: format!("{} per mm²", plain(pores.per_mm2)),
        meaning: "Pores whose centre lies in the measured area; a strip along the photo's edge is kept out, because pores are cut there.",
    });
    rows.push(Row {
        name: "Line crossings",
        figure: format!("{} per mm", plain(pores.line_crossings_per_mm)),
        range: String::new(),
        meaning: "Pores hit by lines laid at random. This is lower or higher than the count along a row and is not to be compared with handbooks.",
    });
    if let Some(spacing) = pores.spacing_second_opinion_mm {
        rows.push(Row {
            name: "Spacing, second opinion",
            figure: format!("{} mm", plain(spacing)),
            range: format!("{} per mm", plain(1.0 / spacing)),
            meaning: "Distance between neighbouring pores from the regularity of the picture alone, without looking at single pores.",
        });
    }
}

fn colour_row(colour: &Colour) -> Row {
    let white = match colour.white {
        Some(WhiteSource::Patch) => "by the white patch",
        Some(WhiteSource::Card) => "by the card's white",
        None => "indicative only: no white",
    };
    let violet = if colour.violet_share >= 0.005 {
        format!("; {} with a violet tint", per_cent(colour.violet_share))
    } else {
        String::new()
    };
    Row {
        name: "Colour",
        figure: colour.words(),
        range: format!("{}{violet}; {white}", colour.lab),
        meaning: "Mean colour of the walls, without the hollows, in CIELAB: L* from black to white, a* from green to red, b* from blue to yellow. The word is that of the nearest colour in Poreline's list of names.",
    }
}

/// What holds for every surface: how much was measured, and at which scale.
fn frame_rows(findings: &Findings, rows: &mut Vec<Row>) {
    rows.push(Row {
        name: "Area measured",
        figure: format!("{} mm²", plain(findings.area.mm2)),
        range: if findings.area.left_out_mm2 > 0.0 {
            format!("{} mm² left out", plain(findings.area.left_out_mm2))
        } else {
            String::new()
        },
        meaning: "The part of the surface that was looked at.",
    });
    rows.push(Row {
        name: "Scale",
        figure: format!(
            "{} px/mm",
            with_uncertainty(findings.scale.px_per_mm, findings.scale.standard_uncertainty)
        ),
        range: how(findings.scale.how).to_owned(),
        meaning: "Pixels of the photo per millimetre of the fungus, with the standard uncertainty. Every figure in millimetres rests on it.",
    });
    if let Some(tilt_deg) = findings.tilt_deg {
        rows.push(Row {
            name: "Tilt",
            figure: format!("{tilt_deg:.0}°"),
            range: "taken out".to_owned(),
            meaning: "How far the camera was tilted against the surface. The picture was straightened before measuring.",
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::area::Area;
    use crate::colour::White;
    use crate::findings::Severity;
    use crate::photo::Photo;
    use crate::progress::Progress;
    use image::{Rgb, RgbImage};

    /// Soft dark discs in rows, 20 px apart, at 80 px per mm: 4 per mm.
    fn measured() -> Measurement {
        let picture = RgbImage::from_fn(400, 400, |x, y| {
            let (x, y) = (f64::from(x) + 0.5, f64::from(y) + 0.5);
            let row = (y / 17.32).floor();
            let distance = [row, row + 1.0]
                .into_iter()
                .map(|row| {
                    let shifted = x - 10.0 * row.rem_euclid(2.0);
                    let dx = shifted - 20.0 * (shifted / 20.0).round();
                    dx.hypot(y - 17.32 * row)
                })
                .fold(f64::INFINITY, f64::min);
            Rgb([if distance < 6.0 { 60 } else { 200 }; 3])
        });
        let scale = Scale::given(80.0).expect("a scale");
        let photo = Photo::from_rgb("lattice", picture);
        crate::measure(&photo, scale, &Area::default(), &Progress::default())
            .expect("a measurement")
    }

    #[test]
    fn a_poroid_surface_is_read_by_the_handbooks_phrase_and_the_figure() {
        let measurement = measured();
        let readout = Readout::of(&measurement);
        assert_eq!(readout.surface, "Poroid");
        let headline = readout.headline.as_ref().expect("a headline");
        let pores = measurement.findings.pores.as_ref().expect("pores");
        let phrase = headline.handbook.as_ref().expect("a phrase");
        assert_eq!(phrase.text, pores.handbook.to_string());
        assert!(
            phrase.meaning.contains("counts on 1 mm lines"),
            "{phrase:?}"
        );
        assert_eq!(
            headline.figure,
            format!("{} pores per mm", value(pores.per_mm))
        );
        assert!(headline.sentence.contains("taken as exact"), "{headline:?}");
        assert_eq!(readout.title(), headline.figure);
        assert!(readout.rows.iter().any(|row| row.name == "Diameter"));
    }

    #[test]
    fn the_colour_has_a_row_that_says_what_it_was_referred_to() {
        let mut measurement = measured();
        let row = |measurement: &Measurement| {
            let rows = Readout::of(measurement).rows;
            rows.into_iter().find(|row| row.name == "Colour")
        };
        let bare = row(&measurement).expect("a row");
        assert!(bare.figure.contains("grey"), "{bare:?}");
        assert!(
            bare.range.ends_with("indicative only: no white"),
            "{bare:?}"
        );
        measurement.refer_to(&White {
            light: [0.8; 3],
            source: WhiteSource::Patch,
        });
        let referred = row(&measurement).expect("a row");
        assert!(
            referred.range.ends_with("by the white patch"),
            "{referred:?}"
        );
        let notes = Readout::of(&measurement).notes;
        assert!(
            notes.iter().all(|note| note.code != "no-white"),
            "{notes:?}"
        );
    }

    #[test]
    fn parts_of_the_uncertainty_fill_its_bar() {
        let readout = Readout::of(&measured());
        let names: Vec<_> = readout
            .uncertainty
            .iter()
            .map(|p| p.name.as_str())
            .collect();
        assert_eq!(names, ["Pores per mm", "Diameter"]);
        for figure in &readout.uncertainty {
            let sum: f32 = figure.parts.iter().map(|part| part.share).sum();
            assert!((sum - 1.0).abs() < 1e-5, "{figure:?}");
        }
        assert!(readout.main_uncertainty.is_some());
    }

    /// Every word a person reads says hollow; the trade's word stands once, to explain it.
    #[test]
    fn the_panel_says_hollow_and_explains_the_trades_word_once() {
        let readout = format!("{:?}", Readout::of(&measured())).to_lowercase();
        assert_eq!(readout.matches("void").count(), 1, "{readout}");
        assert!(readout.contains("hollow (void)"), "{readout}");
    }

    #[test]
    fn a_stop_note_withholds_every_figure_and_stands_first() {
        let mut measurement = measured();
        for (severity, code) in [(Severity::Info, "info"), (Severity::Stop, "stop")] {
            measurement.findings.notes.push(Note {
                severity,
                code,
                text: code.to_owned(),
            });
        }
        let readout = Readout::of(&measurement);
        assert!(readout.withheld && readout.headline.is_none());
        assert!(readout.uncertainty.is_empty() && readout.main_uncertainty.is_none());
        let names: Vec<_> = readout.rows.iter().map(|row| row.name).collect();
        assert_eq!(names, ["Area measured", "Scale"]);
        assert_eq!(readout.notes[0].code, "stop");
        assert_eq!(readout.title(), "poroid");
    }
}
