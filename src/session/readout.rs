//! Findings in the words and digits in which a person reads them.

use crate::Measurement;
use crate::colour::{Colour, WhiteSource};
use crate::findings::budget::{Budget, Figure, Source};
use crate::findings::{Estimate, Findings, Note, PoreFindings};
use crate::scale::{How, Scale};
use crate::session::format::{
    ends, interval, per_cent, plain, significant, value, with_uncertainty,
};
use crate::surface::{Surface, SurfaceType};
use crate::wording::{self, text};

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
        format!(
            "{} {}",
            wording::word(self.source.word()),
            per_cent(self.share.into())
        )
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
            surface: capital(wording::word(findings.surface.kind.word())),
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
            text!(
                "count-headline-95-per-cent-interval",
                headline = headline.figure,
                interval = interval
            )
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

fn why_no_outlines(kind: SurfaceType) -> Option<&'static str> {
    match kind {
        SurfaceType::MazeLike => Some(text!("nothing-is-outlined-hollows-of-a")),
        SurfaceType::Gilled => Some(text!("nothing-is-outlined-gills-run-on")),
        _ => None,
    }
}

/// A scale in words: `40.12 ± 0.16 px per mm, from two points`.
#[must_use]
pub fn scale(scale: &Scale) -> String {
    let figure = with_uncertainty(scale.px_per_mm, scale.standard_uncertainty);
    text!("scale-and-how", figure = figure, how = how(scale.how))
}

fn how(how: How) -> &'static str {
    match how {
        How::Given => text!("as-typed-in"),
        How::Points => text!("from-two-points"),
        How::Ticks => text!("from-ruler-marks"),
        How::Bar => text!("from-the-scale-bar"),
        How::Card => text!("from-the-scale-card"),
        How::Corners => text!("from-four-corners"),
        How::SetUp => text!("from-a-set-up"),
        How::Metadata => text!("as-the-file-says"),
    }
}

fn parts(budget: &Budget, things: &str) -> Parts {
    let half_width = budget.half_width();
    Parts {
        name: match budget.figure {
            Figure::PerMm => capital(&text!("things-per-mm", things = things)),
            Figure::Diameter => text!("diameter").to_owned(),
        },
        half_width: if half_width.is_finite() {
            format!("± {} %", significant(100.0 * half_width, 2))
        } else {
            text!("not-known").to_owned()
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
        return text!("the-photo-does-not-say").to_owned();
    } else if sure >= 0.95 {
        text!("very-likely")
    } else if sure >= 0.8 {
        text!("likely")
    } else if sure >= 0.6 {
        text!("rather-likely")
    } else {
        text!("doubtful")
    };
    text!(
        "sureness-of-1",
        word = word,
        share = wording::digits(format!("{sure:.2}"))
    )
}

/// What [`crate::findings::confidence`] says, in the language of the window.
fn confidence(kind: SurfaceType, [low, high]: [String; 2], things: &str, scale: &Scale) -> String {
    let of_scale = if scale.standard_uncertainty > 0.0 {
        "unsure"
    } else {
        "exact"
    };
    let within = text!("what-is-in-the-interval", scale = of_scale);
    text!(
        "the-interval-in-a-sentence",
        kind = kind.word(),
        low = low,
        high = high,
        things = things,
        within = within
    )
}

fn headline(findings: &Findings) -> Option<Headline> {
    let of = |estimate: Estimate, things: &str, handbook: Option<Phrase>| Headline {
        handbook,
        figure: text!(
            "things-counted-per-mm",
            figure = value(estimate),
            things = things
        ),
        interval: text!("so-many-per-mm", figure = interval(estimate)),
        sentence: confidence(
            findings.surface.kind,
            ends(estimate),
            things,
            &findings.scale,
        ),
    };
    if let Some(pores) = &findings.pores {
        Some(of(pores.per_mm, text!("pores"), Some(phrase(pores))))
    } else if let Some(teeth) = &findings.teeth {
        Some(of(teeth.per_mm, text!("teeth"), None))
    } else if let Some(gills) = &findings.gills {
        Some(of(gills.per_mm, text!("gills"), None))
    } else {
        let maze = findings.maze.as_ref()?;
        Some(of(maze.per_mm, text!("hollows-counted"), None))
    }
}

fn phrase(pores: &PoreFindings) -> Phrase {
    let text = pores.handbook.to_string();
    let meaning = if text.ends_with("wide") {
        text!("as-a-handbook-would-print-it-how")
    } else if pores.count_lines.is_empty() {
        text!("as-a-handbook-would-print-it-rounded")
    } else {
        text!("as-a-handbook-would-print-it")
    };
    Phrase { text, meaning }
}

fn figure_rows(findings: &Findings, rows: &mut Vec<Row>) {
    if let Some(pores) = &findings.pores {
        pore_rows(pores, rows);
    }
    if let Some(teeth) = &findings.teeth {
        rows.push(Row {
            name: text!("teeth-counted"),
            figure: teeth.count.to_string(),
            range: String::new(),
            meaning: text!("teeth-whose-centre-lies-in-the"),
        });
        rows.push(Row {
            name: text!("elongation"),
            figure: plain(teeth.elongation.median),
            range: text!(
                "nine-in-ten",
                low = plain(teeth.elongation.p5),
                high = plain(teeth.elongation.p95)
            ),
            meaning: text!("how-drawn-out-they-are-in"),
        });
    }
}

fn pore_rows(pores: &PoreFindings, rows: &mut Vec<Row>) {
    if let Some((across, along)) = pores.across_and_along_per_mm {
        rows.push(Row {
            name: text!("across-along"),
            figure: text!(
                "across-and-along-per-mm",
                across = plain(across),
                along = plain(along)
            ),
            range: String::new(),
            meaning: text!("the-pores-are-drawn-out-so"),
        });
    }
    let diameter = pores.diameter_mm;
    rows.push(Row {
        name: text!("diameter"),
        figure: format!("{} mm", value(diameter.mean)),
        range: format!("95 % {}", interval(diameter.mean)),
        meaning: text!("mean-width-of-a-pore-the"),
    });
    rows.push(Row {
        name: text!("diameter-nine-in-ten"),
        figure: format!(
            "{}–{} mm",
            plain(diameter.spread.p5),
            plain(diameter.spread.p95)
        ),
        range: text!("median-of", figure = plain(diameter.spread.median)),
        meaning: text!("from-the-5th-to-the-95th"),
    });
    rows.push(Row {
        name: text!("elongation"),
        figure: plain(pores.elongation.median),
        range: text!(
            "nine-in-ten",
            low = plain(pores.elongation.p5),
            high = plain(pores.elongation.p95)
        ),
        meaning: text!("how-drawn-out-they-are-in"),
    });
    if let Some(wall) = pores.wall_mm_median {
        rows.push(Row {
            name: text!("wall-thickness"),
            figure: format!("{} mm", plain(wall)),
            range: text!("median").to_owned(),
            meaning: text!("tissue-between-neighbouring-pores-dissepiment-on"),
        });
    }
    rows.push(Row {
        name: text!("hollow-share"),
        figure: per_cent(pores.void_fraction),
        range: String::new(),
        meaning: text!("share-of-the-measured-area-that"),
    });
    rows.push(Row {
        name: text!("pores-counted"),
        figure: pores.count.to_string(),
        range: text!("so-many-per-mm2", figure = plain(pores.per_mm2)),
        meaning: text!("pores-whose-centre-lies-in-the"),
    });
    rows.push(Row {
        name: text!("line-crossings"),
        figure: text!(
            "so-many-per-mm",
            figure = plain(pores.line_crossings_per_mm)
        ),
        range: String::new(),
        meaning: text!("pores-hit-by-lines-laid-at"),
    });
    if let Some(spacing) = pores.spacing_second_opinion_mm {
        rows.push(Row {
            name: text!("spacing-second-opinion"),
            figure: format!("{} mm", plain(spacing)),
            range: text!("so-many-per-mm", figure = plain(1.0 / spacing)),
            meaning: text!("distance-between-neighbouring-pores-from-the"),
        });
    }
}

/// A colour in the words of the window.
fn colour_in_words(colour: &Colour) -> String {
    let words = colour.words();
    let tint = words.strip_prefix(colour.name).unwrap_or_default();
    format!("{}{}", wording::word(colour.name), wording::word(tint))
}

fn colour_row(colour: &Colour) -> Row {
    let white = match colour.white {
        Some(WhiteSource::Patch) => text!("by-the-white-patch"),
        Some(WhiteSource::Card) => text!("by-the-cards-white"),
        None => text!("indicative-only-no-white"),
    };
    let violet = if colour.violet_share >= 0.005 {
        text!("with-a-violet-tint", share = per_cent(colour.violet_share))
    } else {
        String::new()
    };
    Row {
        name: text!("colour"),
        figure: colour_in_words(colour),
        range: format!("{}{violet}; {white}", colour.lab),
        meaning: text!("mean-colour-of-the-walls-without"),
    }
}

/// What holds for every surface: how much was measured, and at which scale.
fn frame_rows(findings: &Findings, rows: &mut Vec<Row>) {
    rows.push(Row {
        name: text!("area-measured"),
        figure: format!("{} mm²", plain(findings.area.mm2)),
        range: if findings.area.left_out_mm2 > 0.0 {
            text!("so-much-left-out", area = plain(findings.area.left_out_mm2))
        } else {
            String::new()
        },
        meaning: text!("the-part-of-the-surface-that"),
    });
    rows.push(Row {
        name: text!("scale"),
        figure: format!(
            "{} px/mm",
            with_uncertainty(
                findings.scale.px_per_mm,
                findings.scale.standard_uncertainty
            )
        ),
        range: how(findings.scale.how).to_owned(),
        meaning: text!("pixels-of-the-photo-per-millimetre"),
    });
    if let Some(tilt_deg) = findings.tilt_deg {
        rows.push(Row {
            name: text!("tilt"),
            figure: format!("{tilt_deg:.0}°"),
            range: text!("taken-out").to_owned(),
            meaning: text!("how-far-the-camera-was-tilted"),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::area::Area;
    use crate::colour::White;
    use crate::findings::Severity;
    use crate::geometry::Point;
    use crate::photo::Photo;
    use crate::progress::Progress;
    use crate::units::Millimetres;
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
    fn an_interval_is_told_as_the_engine_tells_it() {
        for kind in [
            SurfaceType::Poroid,
            SurfaceType::Toothed,
            SurfaceType::Gilled,
            SurfaceType::MazeLike,
        ] {
            let [a, b] = [0.0, 200.0].map(|x| Point::new(x, 0.0));
            for scale in [
                Scale::given(20.0),
                Scale::from_points(a, b, Millimetres(10.0)),
            ] {
                let scale = scale.expect("a scale");
                let ends = ["1.0", "1.1"];
                assert_eq!(
                    confidence(kind, ends.map(str::to_owned), "pores", &scale),
                    crate::findings::confidence(kind, ends, "pores", &scale)
                );
            }
        }
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
