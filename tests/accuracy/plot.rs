//! Error against px per spacing, as SVG: where the tool stops being good.

use super::bounds;
use super::grid::{RESOLUTION, outcomes};
use super::shot::Outcome;

const WIDTH: f64 = 860.0;
const HEIGHT: f64 = 520.0;
const LEFT: f64 = 84.0;
const RIGHT: f64 = 24.0;
const TOP: f64 = 92.0;
const BOTTOM: f64 = 64.0;
/// Ends of the axes: px per spacing and percent, both logarithmic.
const PX: [f64; 2] = [2.75, 175.0];
const PERCENT: [f64; 2] = [0.01, 100.0];

/// One figure: its name, colour (Okabe & Ito), dashes as an attribute, and the shape of its points.
struct Series {
    name: &'static str,
    colour: &'static str,
    dashes: &'static str,
    mark: Mark,
    error: fn(&Outcome) -> Option<f64>,
}

#[derive(Clone, Copy)]
enum Mark {
    Disc,
    Square,
    Diamond,
    Triangle,
}

const SERIES: [Series; 4] = [
    Series {
        name: "pores per mm",
        colour: "#0072B2",
        dashes: "",
        mark: Mark::Disc,
        error: Outcome::per_mm_error,
    },
    Series {
        name: "mean diameter",
        colour: "#D55E00",
        dashes: r#" stroke-dasharray="9 4""#,
        mark: Mark::Square,
        error: Outcome::diameter_error,
    },
    Series {
        name: "median elongation",
        colour: "#009E73",
        dashes: r#" stroke-dasharray="2 4""#,
        mark: Mark::Diamond,
        error: Outcome::elongation_error,
    },
    Series {
        name: "void fraction",
        colour: "#CC79A7",
        dashes: r#" stroke-dasharray="9 4 2 4""#,
        mark: Mark::Triangle,
        error: Outcome::void_fraction_error,
    },
];

fn x(px_per_spacing: f64) -> f64 {
    let share = (px_per_spacing / PX[0]).ln() / (PX[1] / PX[0]).ln();
    LEFT + share * (WIDTH - LEFT - RIGHT)
}

fn y(percent: f64) -> f64 {
    let inside = percent.clamp(PERCENT[0], PERCENT[1]);
    let share = (inside / PERCENT[0]).ln() / (PERCENT[1] / PERCENT[0]).ln();
    HEIGHT - BOTTOM - share * (HEIGHT - TOP - BOTTOM)
}

fn mark(mark: Mark, [x, y]: [f64; 2], colour: &str) -> String {
    match mark {
        Mark::Disc => format!(r#"<circle cx="{x:.1}" cy="{y:.1}" r="3.6" fill="{colour}"/>"#),
        Mark::Square => format!(
            r#"<rect x="{:.1}" y="{:.1}" width="6.4" height="6.4" fill="{colour}"/>"#,
            x - 3.2,
            y - 3.2
        ),
        Mark::Diamond => format!(
            r#"<path d="M{x:.1} {:.1}l4.4 4.4 -4.4 4.4 -4.4 -4.4z" fill="{colour}"/>"#,
            y - 4.4
        ),
        Mark::Triangle => format!(
            r#"<path d="M{x:.1} {:.1}l4.4 7.4h-8.8z" fill="{colour}"/>"#,
            y - 4.6
        ),
    }
}

/// Photos of the same px per spacing.
type Group = (f64, Vec<&'static Outcome>);

/// The photos of the series over px per spacing, the coarsest first.
fn by_resolution() -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for outcome in outcomes().iter().filter(|o| o.shot.series == RESOLUTION) {
        let px = outcome.shot.nuisances.px_per_spacing;
        match groups.iter_mut().find(|(p, _)| p.total_cmp(&px).is_eq()) {
            Some((_, group)) => group.push(outcome),
            None => groups.push((px, vec![outcome])),
        }
    }
    groups.sort_by(|a, b| a.0.total_cmp(&b.0));
    groups
}

pub fn error_by_resolution() -> String {
    let groups = by_resolution();
    let mut lines = axes(&groups);
    for (k, series) in (0_u8..).zip(&SERIES) {
        lines.extend(curve(k, series, &groups));
    }
    lines.extend(without_figures(&groups));
    lines.push("</svg>\n".to_owned());
    lines.join("\n")
}

/// Paper, axes and what they mean.
fn axes(groups: &[Group]) -> Vec<String> {
    let (right, bottom) = (WIDTH - RIGHT, HEIGHT - BOTTOM);
    let from = x(bounds::FEWEST_PX_PER_SPACING);
    let mut lines = vec![format!(
        r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" aria-label="Errors of four figures against pixels from one pore to the next" font-family="Inter, sans-serif" font-size="13" fill="#222222">
<rect width="{WIDTH}" height="{HEIGHT}" fill="#FFFFFF"/>
<text x="{LEFT}" y="28" font-size="17" font-weight="600">How many pixels does a pore need?</text>
<rect x="{LEFT}" y="{TOP}" width="{:.1}" height="{:.1}" fill="#F0F0F0"/>"##,
        from - LEFT,
        bottom - TOP
    )];
    for percent in [0.01, 0.1, 1.0, 10.0, 100.0] {
        let at = y(percent);
        let least = if percent > PERCENT[0] { "" } else { "≤ " };
        lines.push(format!(
            r##"<path d="M{LEFT} {at:.1}H{right}" stroke="#D0D0D0"/><text x="{:.1}" y="{:.1}" text-anchor="end">{least}{percent} %</text>"##,
            LEFT - 8.0,
            at + 4.5
        ));
    }
    for (px, _) in groups {
        let at = x(*px);
        lines.push(format!(
            r##"<path d="M{at:.1} {bottom}v6" stroke="#222222"/><text x="{at:.1}" y="{:.1}" text-anchor="middle">{px}</text>"##,
            bottom + 21.0
        ));
    }
    lines.push(format!(
        r##"<path d="M{from:.1} {TOP}V{bottom}" stroke="#222222" stroke-dasharray="4 3"/><text x="{:.1}" y="{:.1}">bounds meant from here</text>
<path d="M{LEFT} {TOP}V{bottom}H{right}" fill="none" stroke="#222222"/>
<text x="{:.1}" y="{:.1}" text-anchor="middle">pixels from one pore to the next</text>
<text transform="translate(20 {:.1}) rotate(-90)" text-anchor="middle">error, size without sign</text>"##,
        from + 6.0,
        TOP + 15.0,
        f64::midpoint(LEFT, right),
        HEIGHT - 16.0,
        f64::midpoint(TOP, bottom),
    ));
    lines
}

/// One figure: every photo a mark, a line through the medians, and its entry in the key.
fn curve(place: u8, series: &Series, groups: &[Group]) -> Vec<String> {
    let Series {
        name,
        colour,
        dashes,
        ..
    } = series;
    let left = LEFT + 190.0 * f64::from(place);
    let mut lines = vec![format!(
        r#"<path d="M{left:.1} 54h34" fill="none" stroke="{colour}" stroke-width="2"{dashes}/>{}<text x="{:.1}" y="58.5">{name}</text>"#,
        mark(series.mark, [left + 17.0, 54.0], colour),
        left + 42.0
    )];
    let mut path: Vec<String> = Vec::new();
    for (px, group) in groups {
        let errors = group.iter().filter_map(|o| (series.error)(o));
        let mut percents: Vec<f64> = errors.map(|e| 100.0 * e.abs()).collect();
        percents.sort_by(f64::total_cmp);
        // Side by side, so that marks of different figures do not hide each other.
        let at = x(*px) + 4.0 * (f64::from(place) - 1.5);
        for percent in &percents {
            lines.push(mark(series.mark, [at, y(*percent)], colour));
        }
        if let Some(middle) = percents.get(percents.len() / 2) {
            path.push(format!("{at:.1},{:.1}", y(*middle)));
        }
    }
    lines.push(format!(
        r#"<polyline points="{}" fill="none" stroke="{colour}" stroke-width="2"{dashes}/>"#,
        path.join(" ")
    ));
    lines
}

/// How many photos gave no figures, above the plot where there are any.
fn without_figures(groups: &[Group]) -> Vec<String> {
    let mut lines = Vec::new();
    for (px, group) in groups {
        let missing = group.iter().filter(|o| o.per_mm().is_none()).count();
        if missing > 0 {
            lines.push(format!(
                r#"<text x="{:.1}" y="{:.1}" text-anchor="middle" font-size="12">{missing} of {}</text>"#,
                x(*px),
                TOP - 8.0,
                group.len()
            ));
        }
    }
    if !lines.is_empty() {
        lines.push(format!(
            r#"<text x="{:.1}" y="{:.1}" text-anchor="end" font-size="12">photos without figures</text>"#,
            WIDTH - RIGHT,
            TOP - 8.0
        ));
    }
    lines
}
