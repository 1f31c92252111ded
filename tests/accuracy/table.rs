//! The tables in `assets/accuracy/`, written when asked: one line per photo as CSV, and a summary
//! with bounds and coverage to read.

use super::bounds;
use super::checks::{self, Errors, in_range};
use super::coverage::{self, Covered};
use super::grid;
use super::nuisances::packing_name;
use super::plot;
use super::shot::Outcome;
use std::fmt::Write as _;
use std::path::Path;

const HEADER: [&str; 24] = [
    "kind",
    "series",
    "seed",
    "pores_per_mm",
    "px_per_spacing",
    "wall_share",
    "blur_spacings",
    "noise_share",
    "light_falloff",
    "tissue",
    "elongation",
    "packing",
    "rounding",
    "jpeg_quality",
    "true_per_mm",
    "per_mm_error_percent",
    "diameter_error_percent",
    "elongation_error_percent",
    "void_fraction_error_percent",
    "surface_type",
    "confidence",
    "void_isolation",
    "wall_isolation",
    "notes",
];

fn percent(error: Option<f64>) -> String {
    error.map_or_else(String::new, |e| format!("{:+.2}", 100.0 * e))
}

fn csv_line(outcome: &Outcome) -> [String; 24] {
    let n = &outcome.shot.nuisances;
    let surface = &outcome.findings.surface;
    let truth = outcome.truth.per_mm;
    [
        outcome.kind().name().to_owned(),
        outcome.shot.series.to_owned(),
        outcome.shot.surface.seed.to_string(),
        format!("{:.2}", n.per_mm),
        format!("{:.1}", n.px_per_spacing),
        format!("{:.3}", n.wall_share),
        format!("{:.3}", n.blur),
        format!("{:.3}", n.noise),
        format!("{:.2}", n.falloff),
        n.hue.name().to_owned(),
        format!("{:.2}", n.elongation),
        packing_name(n.packing),
        format!("{:.2}", n.rounding),
        n.jpeg_quality.to_string(),
        truth.map_or_else(String::new, |t| format!("{t:.4}")),
        percent(outcome.per_mm_error()),
        percent(outcome.diameter_error()),
        percent(outcome.elongation_error()),
        percent(outcome.void_fraction_error()),
        surface.kind.word().to_owned(),
        format!("{:.2}", surface.confidence),
        format!("{:.2}", surface.evidence.void_isolation),
        format!("{:.2}", surface.evidence.wall_isolation),
        outcome.note_codes().join(" "),
    ]
}

fn csv() -> Vec<u8> {
    let mut table = csv::Writer::from_writer(Vec::new());
    table.write_record(HEADER).expect("written to memory");
    for outcome in grid::outcomes() {
        let line = csv_line(outcome);
        table.write_record(&line).expect("written to memory");
    }
    table.into_inner().expect("written to memory")
}

fn summary_line(errors: &Errors) -> String {
    let share = |share: f64| format!("{:.2} %", 100.0 * share);
    let [median_bound, worst_bound] = errors
        .bound
        .map_or(["none".to_owned(), "none".to_owned()], |b| {
            [b.median, b.worst].map(|limit| format!("{:.1} %", 100.0 * limit))
        });
    let worst = errors.worst();
    format!(
        "| {} | {} of {} | {} | {median_bound} | {} | {worst_bound} | {} |",
        errors.figure,
        errors.measured.len(),
        errors.photos,
        errors.median().map_or_else(String::new, share),
        worst.map_or_else(String::new, |(_, e)| share(e.abs())),
        worst.map_or_else(String::new, |(o, _)| o.shot.nuisances.to_string()),
    )
}

fn coverage_line(covered: &Covered) -> String {
    format!(
        "| {} | {} | {:.1} % | {:.2} % | {:.2} % |",
        covered.what,
        covered.fields,
        100.0 * covered.share(),
        100.0 * covered.half_width,
        100.0 * covered.error
    )
}

fn photo_line(outcome: &Outcome) -> String {
    let surface = &outcome.findings.surface;
    format!(
        "| {} | {} | {} | {} | {} | {} | {} | {} | {:.2} |",
        outcome.kind().name(),
        outcome.shot.series,
        outcome.shot.nuisances,
        percent(outcome.per_mm_error()),
        percent(outcome.diameter_error()),
        percent(outcome.elongation_error()),
        percent(outcome.void_fraction_error()),
        surface.kind.word(),
        surface.confidence
    )
}

fn markdown() -> String {
    let mut text = String::new();
    let mut line = |line: &str| writeln!(text, "{line}").expect("written to memory");
    line("# How wrong the tool is");
    line("");
    line(
        "Photos rendered by rule, so that what is on them is known, written as JPEG, read back and \
          measured. The bounds were written down before the first run. Errors are relative.",
    );
    line("");
    line("| figure | measured | median error | bound | worst error | bound | worst on |");
    line("|---|---|---|---|---|---|---|");
    for errors in [
        checks::pores_per_mm(),
        checks::mean_diameter(),
        checks::median_elongation(),
        checks::void_fraction(),
        checks::teeth_per_mm(),
        checks::gills_per_mm(),
        checks::maze_per_mm(),
    ] {
        line(&summary_line(&errors));
    }
    let photos = in_range().count();
    let right = in_range().filter(|o| o.is_right_type()).count();
    line("");
    line(&format!(
        "The surface type is right on {right} of {photos} photos. The bounds are meant from {} px per \
         spacing on; below, see the plot.",
        bounds::FEWEST_PX_PER_SPACING
    ));
    line("");
    line("![Error against px per spacing](error-by-resolution.svg)");
    line("");
    line("## How often the 95 % interval of pores per mm contains the truth");
    line("");
    line("| fields | count | contain the truth | mean half-width | root-mean-square error |");
    line("|---|---|---|---|---|");
    for covered in coverage::of_centroids().iter().chain(coverage::of_photos()) {
        line(&coverage_line(covered));
    }
    line("");
    line("## Every photo");
    line("");
    line(
        "Blur in spacings, noise as a share of full scale, light as near over far end. Errors in %.",
    );
    line("");
    line(
        "| kind | series | nuisances | per mm | diameter | elongation | void fraction | seen as | confidence |",
    );
    line("|---|---|---|---|---|---|---|---|---|");
    for outcome in grid::outcomes() {
        line(&photo_line(outcome));
    }
    text
}

#[test]
fn tables_and_plot_are_written_when_asked() {
    if std::env::var_os("PORELINE_REGENERATE").is_none() {
        return;
    }
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/accuracy");
    std::fs::create_dir_all(&folder).expect("a folder");
    let write = |name: &str, bytes: &[u8]| {
        std::fs::write(folder.join(name), bytes).expect("assets can be written");
    };
    write("accuracy.csv", &csv());
    write("accuracy.md", markdown().as_bytes());
    write(
        "error-by-resolution.svg",
        plot::error_by_resolution().as_bytes(),
    );
}
