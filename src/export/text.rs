//! Findings as a page of plain text that needs no manual.

use super::digits::{as_sure_as, significant, with_interval};
use crate::area::LeftOut;
use crate::colour::{Colour, WHITE_LIGHTNESS, WhiteSource};
use crate::findings::{
    AreaFacts, CorrectionFacts, DiameterFacts, Estimate, Findings, GillFindings, MazeFindings,
    Note, PhotoFacts, PoreFindings, Severity, ToothFindings,
    budget::{Budget, Figure},
    confidence,
};
use crate::scale::{How, Scale};
use crate::statistics::Spread;
use crate::surface::{Surface, SurfaceType};

/// Longest line, in characters.
const WIDTH: usize = 80;
/// Where the second column begins.
const COLUMN: usize = 18;

/// Above this relative uncertainty of the scale a length is given with two digits, not three.
const ROUGH_SCALE: f64 = 0.01;

/// Share of the walls with a violet tint that is worth a line: half a per cent is given as 1 %.
const LEAST_VIOLET: f64 = 0.005;
/// Share of the area from which on what is left out of it is named.
const WORTH_NAMING: f64 = 1e-4;

/// What stands under every page of findings.
pub const CLOSING: &str = "This is a measurement, not an identification. It can agree with or \
speak against a published range; it cannot name the fungus. Never eat a fungus or take it as a \
remedy on the strength of it: ask an expert.";

/// The findings of one photo.
#[must_use]
pub fn findings(findings: &Findings) -> String {
    let mut page = Page::default();
    photo(&mut page, &findings.photo);
    surface(&mut page, &findings.surface);
    if let Some(found) = &findings.pores {
        pores(&mut page, found, findings);
    }
    if let Some(found) = &findings.teeth {
        teeth(&mut page, found, &findings.scale);
    }
    if let Some(found) = &findings.gills {
        gills(&mut page, found, &findings.scale);
    }
    if let Some(found) = &findings.maze {
        maze(&mut page, found, &findings.scale);
    }
    if findings.pores.is_none()
        && findings.teeth.is_none()
        && findings.gills.is_none()
        && findings.maze.is_none()
    {
        page.row("Count", nothing_counted(findings));
    }
    if let Some(found) = &findings.colour {
        colour(&mut page, found);
    }
    area(&mut page, findings);
    if let Some(made) = &findings.corrections {
        corrections(&mut page, made);
    }
    scale(&mut page, &findings.scale, findings.tilt_deg);
    uncertainty(&mut page, findings);
    notes(&mut page, &findings.notes);
    page.gap();
    page.wrapped(CLOSING, 0, 0);
    page.text
}

/// Lines of text, wrapped.
#[derive(Default)]
struct Page {
    text: String,
}

impl Page {
    fn gap(&mut self) {
        self.text.push('\n');
    }

    /// A name in the first column and what there is to say in the second.
    fn row(&mut self, name: &str, words: &str) {
        self.wrapped(&format!("{name:<COLUMN$}{words}"), 0, COLUMN);
    }

    /// More to say in the second column.
    fn more(&mut self, words: &str) {
        self.wrapped(words, COLUMN, COLUMN);
    }

    /// Words broken into lines: the first begins after `first` spaces, the others after `others`.
    fn wrapped(&mut self, words: &str, first: usize, others: usize) {
        let mut line = " ".repeat(first);
        let mut length = first;
        let mut at_start = true;
        for word in words.split(' ') {
            let word_length = word.chars().count();
            if !at_start && length + 1 + word_length > WIDTH {
                self.text.push_str(line.trim_end());
                self.text.push('\n');
                line = " ".repeat(others);
                length = others;
                at_start = true;
            }
            if !at_start {
                line.push(' ');
                length += 1;
            }
            line.push_str(word);
            length += word_length;
            at_start = false;
        }
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }
}

fn photo(page: &mut Page, photo: &PhotoFacts) {
    page.wrapped(&photo.path.to_string_lossy(), 0, 0);
    let mut about = vec![format!("{} × {} px", photo.width_px, photo.height_px)];
    if let Some(taken) = &photo.taken {
        about.push(format!("taken {}", taken.replace('T', " ")));
    }
    if let Some(place) = photo.place {
        about.push(format!(
            "at {:.5}° {}, {:.5}° {}",
            place.latitude.abs(),
            if place.latitude < 0.0 { 'S' } else { 'N' },
            place.longitude.abs(),
            if place.longitude < 0.0 { 'W' } else { 'E' },
        ));
    }
    page.wrapped(&about.join(", "), 0, 0);
    page.gap();
}

fn surface(page: &mut Page, surface: &Surface) {
    let verdict = match surface.kind {
        SurfaceType::Undecided => "undecided: the photo does not say".to_owned(),
        kind => format!(
            "{}, {} (confidence {:.2} of 1)",
            kind.word(),
            in_words(surface.confidence),
            surface.confidence
        ),
    };
    page.row("Surface", &verdict);
    for reason in &surface.reasons {
        page.wrapped(&format!("– {reason}"), COLUMN, COLUMN + 2);
    }
    page.gap();
}

/// How sure a verdict is.
const fn in_words(confidence: f64) -> &'static str {
    if confidence >= 0.95 {
        "very likely"
    } else if confidence >= 0.8 {
        "likely"
    } else if confidence >= 0.6 {
        "rather likely"
    } else {
        "doubtful"
    }
}

fn pores(page: &mut Page, pores: &PoreFindings, findings: &Findings) {
    let scale = &findings.scale;
    page.row("In a handbook", &format!("pores {}", pores.handbook));
    if pores.handbook.0.ends_with("wide") {
        page.more("The spread of widths, not an interval.");
    } else if !pores.count_lines.is_empty() {
        page.more("The spread of counts on 1 mm lines, not an interval.");
    }
    page.gap();
    page.row("Pores per mm", &with_interval(&pores.per_mm));
    page.more(&explained(
        SurfaceType::Poroid,
        &pores.per_mm,
        "pores",
        scale,
    ));
    if let Some((across, along)) = pores.across_and_along_per_mm {
        let (across, along) = (figure(across, scale), figure(along, scale));
        page.more(&format!(
            "The pores are drawn out: {across} per mm across them, {along} per mm along them."
        ));
    }
    diameter(page, &pores.diameter_mm, "pores", scale);
    page.row("Elongation", &elongation(&pores.elongation));
    if let Some(wall) = pores.wall_mm_median {
        page.row(
            "Wall",
            &format!(
                "{} mm thick between neighbouring pores (median)",
                figure(wall, scale)
            ),
        );
    }
    page.row(
        "Hollow share",
        &format!(
            "{} % of the surface is hollow (void), the rest is wall",
            significant(100.0 * pores.void_fraction, 2)
        ),
    );
    page.row(
        "Count",
        &format!(
            "{} pores; {} per mm²",
            pores.count,
            figure(pores.per_mm2, scale)
        ),
    );
    page.row(
        "Random lines",
        &format!(
            "meet {} pores per mm of line; not the same measure as pores per mm, which goes along a row",
            figure(pores.line_crossings_per_mm, scale)
        ),
    );
    if let Some(spacing) = pores.spacing_second_opinion_mm {
        page.row(
            "Second opinion",
            &format!(
                "{} mm from pore to pore by the pattern of light and dark alone; {} mm by the count",
                figure(spacing, scale),
                figure(1.0 / pores.per_mm.value, scale)
            ),
        );
    }
}

fn teeth(page: &mut Page, teeth: &ToothFindings, scale: &Scale) {
    page.row("Teeth per mm", &with_interval(&teeth.per_mm));
    page.more(&explained(
        SurfaceType::Toothed,
        &teeth.per_mm,
        "teeth",
        scale,
    ));
    diameter(page, &teeth.diameter_mm, "teeth", scale);
    page.row("Elongation", &elongation(&teeth.elongation));
    page.row(
        "Count",
        &format!(
            "{} teeth; {} per mm²",
            teeth.count,
            figure(teeth.per_mm2, scale)
        ),
    );
}

fn diameter(page: &mut Page, diameter: &DiameterFacts, what: &str, scale: &Scale) {
    let DiameterFacts { mean, spread } = diameter;
    page.row("Diameter", &format!("mean {} mm", with_interval(mean)));
    page.more(&format!(
        "median {}; nine in ten {what} lie between {} and {} mm",
        figure(spread.median, scale),
        figure(spread.p5, scale),
        figure(spread.p95, scale)
    ));
}

fn gills(page: &mut Page, gills: &GillFindings, scale: &Scale) {
    page.row("Gills per mm", &with_interval(&gills.per_mm));
    page.more("Counted along lines at right angles to the gills.");
    page.more(&explained(
        SurfaceType::Gilled,
        &gills.per_mm,
        "gills",
        scale,
    ));
}

fn maze(page: &mut Page, maze: &MazeFindings, scale: &Scale) {
    page.row("Hollows per mm", &with_interval(&maze.per_mm));
    page.more(
        "Hollows (voids) met by random lines, × π/2: on straight walls this is what a line at right angles \
         to them would count.",
    );
    page.more(&explained(
        SurfaceType::MazeLike,
        &maze.per_mm,
        "hollows",
        scale,
    ));
}

fn colour(page: &mut Page, colour: &Colour) {
    page.row(
        "Colour",
        &format!(
            "{} (CIELAB {}; mean of the walls, without the hollows)",
            colour.words(),
            colour.lab
        ),
    );
    if colour.violet_share >= LEAST_VIOLET {
        page.more(&format!(
            "{:.0} % of the walls have a violet tint.",
            100.0 * colour.violet_share
        ));
    }
    let white = match colour.white {
        Some(WhiteSource::Patch) => "the white patch that was given",
        Some(WhiteSource::Card) => "the white patch of the scale card",
        None => {
            page.more("No white reference: colour is indicative only.");
            return;
        }
    };
    page.more(&format!(
        "Referred to {white}, taken to have L* {WHITE_LIGHTNESS:.0}."
    ));
}

fn nothing_counted(findings: &Findings) -> &'static str {
    match findings.surface.kind {
        SurfaceType::Smooth => "none: no pores, teeth or gills were seen",
        kind if kind != SurfaceType::Undecided && findings.withheld() => {
            "withheld; what stands below says why, and what to do"
        }
        _ => {
            "nothing was counted: the photo does not show clearly enough what there is to count. \
             First try an area of even, sharp surface only"
        }
    }
}

fn area(page: &mut Page, findings: &Findings) {
    let scale = &findings.scale;
    let &AreaFacts {
        mm2,
        left_out_mm2,
        guard_mm2,
        ..
    } = &findings.area;
    let by_hand = findings.area.drawn.left_out.iter().any(LeftOut::cuts);
    let mut words = vec![format!("{} mm² measured", figure(mm2, scale))];
    if left_out_mm2 > WORTH_NAMING * mm2 {
        words.push(format!("{} mm² left out", figure(left_out_mm2, scale)));
    }
    if guard_mm2 > 0.0 {
        words.push(format!(
            "a band along the photo's own edge{} ({} mm²) is kept out, because {} are cut there",
            if by_hand {
                " and about what was left out by hand"
            } else {
                ""
            },
            figure(guard_mm2, scale),
            if findings.teeth.is_some() {
                "teeth"
            } else {
                "pores"
            }
        ));
    }
    page.row("Area", &words.join("; "));
}

/// What was corrected; the notes say what rests on it.
fn corrections(page: &mut Page, made: &CorrectionFacts) {
    let mut words = vec![made.in_words()];
    if made.without_effect() > 0 {
        words.push(format!("{} without effect", made.without_effect()));
    }
    if !made.made.least_wall.is_usual() {
        words.push(format!(
            "walls parted pores from {} of the usual height on",
            made.made.least_wall.multiple()
        ));
    }
    words.retain(|words| !words.is_empty());
    page.row("By hand", &words.join("; "));
}

fn scale(page: &mut Page, scale: &Scale, tilt_deg: Option<f64>) {
    let how = match scale.how {
        How::Given => "as typed in",
        How::Points => "from two points a known length apart",
        How::Ticks => "from ruler marks",
        How::Bar => "from the scale bar found on the photo",
        How::Card => "from Poreline's scale card found on the photo",
        How::Corners => "from four corners of a rectangle of known size",
        How::SetUp => "carried over by a set-up",
        How::Metadata => "as the file says of itself",
    };
    let u = scale.standard_uncertainty;
    let words = if u > 0.0 {
        format!(
            "{} px per mm, {how}; standard uncertainty {} px per mm ({} %), which every figure in mm shares",
            as_sure_as(scale.px_per_mm, u),
            significant(u, 2),
            significant(100.0 * scale.relative_uncertainty(), 2)
        )
    } else {
        format!(
            "{} px per mm, {how} and taken as exact",
            significant(scale.px_per_mm, 6)
        )
    };
    page.row("Scale", &words);
    if scale.how == How::SetUp {
        page.more(
            "The set-up carries how uncertain the scale was on the photo that it was saved from; what a \
             changed distance, focus or zoom adds is not in any interval here.",
        );
    }
    if let Some(tilt_deg) = tilt_deg {
        page.more(&format!(
            "The photo was straightened before measuring: the camera was tilted by about {tilt_deg:.0}° \
             against the surface."
        ));
    }
}

/// What each interval is made of, and what would help most.
fn uncertainty(page: &mut Page, findings: &Findings) {
    let (things, _) = findings.counted();
    for (k, budget) in findings.uncertainty.iter().enumerate() {
        let words = budget_in_words(budget, things);
        if k == 0 {
            page.row("Uncertainty", &words);
        } else {
            page.more(&words);
        }
    }
    if let Some(sentence) = findings.main_uncertainty() {
        page.more(&sentence);
    }
}

fn budget_in_words(budget: &Budget, things: &str) -> String {
    let figure = match budget.figure {
        Figure::PerMm => format!("{things} per mm"),
        Figure::Diameter => "diameter".to_owned(),
    };
    let per_cent = |share: f64| {
        if share.is_finite() {
            format!("{} %", significant(100.0 * share, 2))
        } else {
            "not known".to_owned()
        }
    };
    let parts: Vec<String> = budget
        .half_widths()
        .iter()
        .filter(|(_, half_width)| *half_width > 0.0)
        .map(|(source, half_width)| format!("{} {}", source.word(), per_cent(*half_width)))
        .collect();
    format!(
        "{figure} ± {} with 95 % confidence: {} (added as squares)",
        per_cent(budget.half_width()),
        parts.join(", ")
    )
}

fn notes(page: &mut Page, notes: &[Note]) {
    if notes.is_empty() {
        return;
    }
    page.gap();
    page.wrapped("Before you rely on it", 0, 0);
    for note in notes {
        let word = match note.severity {
            Severity::Info => "Good to know",
            Severity::Caution => "Caution",
            Severity::Stop => "Withheld",
        };
        page.wrapped(&format!("{word}: {}", note.text), 2, 4);
    }
}

/// One plain sentence on what the interval means and what is in it.
fn explained(kind: SurfaceType, estimate: &Estimate, things: &str, scale: &Scale) -> String {
    let Estimate { low, high, .. } = *estimate;
    let half_width = (high - low) / 2.0;
    let ends = [low, high].map(|end| as_sure_as(end, half_width));
    confidence(kind, ends.each_ref().map(String::as_str), things, scale)
}

fn elongation(spread: &Spread) -> String {
    format!(
        "median {}; nine in ten lie between {} and {} (1 = as long as wide)",
        significant(spread.median, 3),
        significant(spread.p5, 3),
        significant(spread.p95, 3)
    )
}

/// A figure that rests on the scale and has no interval of its own.
fn figure(value: f64, scale: &Scale) -> String {
    let digits = if scale.relative_uncertainty() > ROUGH_SCALE {
        2
    } else {
        3
    };
    significant(value, digits)
}

#[cfg(test)]
mod tests {
    use super::super::sample;
    use super::*;

    #[test]
    fn a_poroid_page_says_all_there_is() {
        let page = findings(&sample::poroid());
        let flowing = page.split_whitespace().collect::<Vec<_>>().join(" ");
        for words in [
            "alder-fen/tray 3.jpg",
            "1200 × 900 px, taken 2025-10-11 14:03:27, at 52.12346° N, 1.50000° W",
            "poroid, very likely (confidence 0.97 of 1)",
            "closed off by wall on every side",
            "pores (3–)4–5(–6) per mm",
            "4.31 (95 % interval 4.10 to 4.52)",
            "between 4.10 and 4.52 pores per mm: the unevenness from place to place and the \
             uncertainty of the scale are in it",
            "mean 0.183 (95 % interval 0.179 to 0.187) mm",
            "median 0.181; nine in ten pores lie between 0.121 and 0.243 mm",
            "0.0512 mm thick",
            "pores (3–)4–5(–6) per mm The spread of counts on 1 mm lines, not an interval.",
            "58 % of the surface is hollow (void), the rest is wall",
            "412 pores; 21.5 per mm²",
            "22.2 mm² measured; 1.30 mm² left out; a band along the photo's own edge and about \
             what was left out by hand (1.13 mm²) is kept out, because pores are cut there",
            "61.40 px per mm, from two points",
            "Caution: The light falls off",
            // 1.96 · √(0.024² + 0.004²) = 4.8 %; 1.96 · 0.013 = 2.5 %.
            "pores per mm ± 4.8 % with 95 % confidence: place to place 4.7 %, scale 0.78 % (added",
            "diameter ± 2.5 % with 95 % confidence: place to place 0.59 %, scale 0.78 %, outlines 2.4 %",
            "comes from having counted no more than 412 pores",
            "cream, in part with a violet tint (CIELAB L* 81, a* 1, b* 14; mean of the walls",
            "12 % of the walls have a violet tint. Referred to the white patch of the scale card, \
             taken to have L* 95.",
            "not an identification",
            "ask an expert",
        ] {
            assert!(flowing.contains(words), "“{words}” is missing in\n{page}");
        }
    }

    #[test]
    fn every_page_is_wrapped_and_closes_with_the_caution() {
        for kind in sample::KINDS {
            let page = findings(&sample::of_kind(kind));
            for line in page.lines() {
                assert!(line.chars().count() <= WIDTH, "{line:?}");
                assert_eq!(line, line.trim_end(), "{kind:?}");
            }
            let flowing = page.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(flowing.ends_with(CLOSING), "{page}");
        }
    }

    #[test]
    fn withheld_figures_are_said_to_be_so() {
        let mut withheld = sample::poroid();
        withheld.pores = None;
        withheld.uncertainty.clear();
        withheld.notes[0].severity = Severity::Stop;
        let page = findings(&withheld);
        assert!(page.contains("withheld; what stands below"), "{page}");
        assert!(!page.contains("Uncertainty"), "{page}");
    }

    #[test]
    fn without_a_white_colour_is_said_to_be_indicative() {
        let mut bare = sample::poroid();
        if let Some(colour) = &mut bare.colour {
            colour.white = None;
            colour.lab.a = -0.2;
        }
        let page = findings(&bare);
        assert!(page.contains("colour is indicative only"), "{page}");
        assert!(page.contains("a* 0,"), "{page}");
        bare.colour = None;
        assert!(!findings(&bare).contains("Colour"), "{page}");
    }

    #[test]
    fn only_poroid_surfaces_have_pores_per_mm() {
        for kind in sample::KINDS {
            let page = findings(&sample::of_kind(kind));
            assert_eq!(
                page.contains("Pores per mm"),
                kind == SurfaceType::Poroid,
                "{page}"
            );
        }
        assert!(findings(&sample::of_kind(SurfaceType::Smooth)).contains("no pores"));
        assert!(findings(&sample::of_kind(SurfaceType::Undecided)).contains("nothing was counted"));
        assert!(findings(&sample::of_kind(SurfaceType::Gilled)).contains("Gills per mm"));
    }

    #[test]
    fn teeth_are_told_as_fully_as_pores() {
        let page = findings(&sample::of_kind(SurfaceType::Toothed));
        let flowing = page.split_whitespace().collect::<Vec<_>>().join(" ");
        for words in [
            "between 4.10 and 4.52 teeth per mm: the unevenness",
            "mean 0.183 (95 % interval 0.179 to 0.187) mm",
            "nine in ten teeth lie between 0.121 and 0.243 mm",
            "97 teeth; 21.5 per mm²",
            "because teeth are cut there",
        ] {
            assert!(flowing.contains(words), "“{words}” is missing in\n{page}");
        }
    }

    #[test]
    fn every_page_says_hollow_and_explains_the_trades_word_once() {
        for kind in sample::KINDS {
            let page = findings(&sample::of_kind(kind)).to_lowercase();
            let voids = page.matches("void").count();
            let explained =
                page.matches("hollow (void)").count() + page.matches("hollows (voids)").count();
            assert!(voids <= 1 && voids == explained, "{page}");
        }
    }

    #[test]
    fn a_phrase_in_millimetres_is_a_spread_of_widths() {
        let mut coarse = sample::poroid();
        if let Some(pores) = &mut coarse.pores {
            pores.handbook = crate::statistics::Handbook("1.2–1.8 mm wide".into());
        }
        let page = findings(&coarse);
        assert!(page.contains("The spread of widths"), "{page}");
        assert!(!page.contains("1 mm lines"), "{page}");
    }

    #[test]
    fn an_exact_scale_is_not_said_to_be_in_the_interval() {
        let mut exact = sample::poroid();
        exact.scale = Scale::given(61.4).expect("a scale");
        let page = findings(&exact);
        let flowing = page.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flowing.contains("the scale is taken as exact"), "{page}");
        assert!(
            !flowing.contains("uncertainty of the scale are in it"),
            "{page}"
        );
    }

    #[test]
    fn drawn_out_pores_are_counted_both_ways() {
        let mut drawn_out = sample::poroid();
        if let Some(pores) = &mut drawn_out.pores {
            pores.across_and_along_per_mm = Some((5.12, 3.21));
        }
        let page = findings(&drawn_out);
        assert!(page.contains("5.12 per mm across"), "{page}");
    }
}
