//! Pores per mm and line crossings against closed forms of lattices and the grain-size tables of ASTM E112.

use super::drawing::{Canvas, Shape};
use super::support::{near, near_relative, rows};
use poreline::area::Area;
use poreline::geometry::Point;
use poreline::measure;
use poreline::progress::Progress;
use poreline::scale::Scale;
use poreline::statistics::{crossings, pores_per_mm};
use std::f64::consts::{LOG2_10, PI};

#[test]
fn a_triangular_lattice_has_the_count_along_its_rows() {
    // Closed form, facts/README.md. 0.25 mm from pore to pore is also what Hood 1985 counts as
    // 4.00 per mm: ten contiguous pores in 2.5 mm (N.Z. J. Bot. 23: 495–498).
    let table = rows(include_str!("facts/lattice_closed_forms.csv"));
    let triangular = table
        .iter()
        .filter(|row| row.text("lattice") == "hexagonal");
    let mut seen = 0;
    for row in triangular {
        let per_mm = pores_per_mm(row.number("per_mm2"));
        near_relative("per mm", per_mm, row.number("along_row_per_mm"), 1e-9);
        near_relative("per mm", per_mm, 1.0 / row.number("pitch_mm"), 1e-9);
        seen += 1;
    }
    assert_eq!(seen, 3);
}

#[test]
fn a_square_lattice_counts_seven_in_a_hundred_below_its_rows() {
    // Closed form: √(√3/2) = 0.930 605 of the count along a row.
    let table = rows(include_str!("facts/lattice_closed_forms.csv"));
    let square = table.iter().filter(|row| row.text("lattice") == "square");
    let mut seen = 0;
    for row in square {
        let share = pores_per_mm(row.number("per_mm2")) / row.number("along_row_per_mm");
        near("share", share, 0.930_605, 1e-6);
        seen += 1;
    }
    assert_eq!(seen, 3);
}

#[test]
fn counting_the_points_of_a_lattice_gives_the_closed_forms() {
    // No formula for the density here: points are laid row by row and counted in a large disc.
    let pitch = 0.25;
    let radius = 60.0 * pitch;
    let counted = |row_height: f64, shift: f64| {
        let mut points = 0.0;
        for row in -90_i32..=90 {
            let y = (f64::from(row) + 0.37) * row_height;
            let shifted = if row % 2 == 0 { 0.0 } else { shift };
            for column in -90_i32..=90 {
                let x = (f64::from(column) + shifted + 0.21) * pitch;
                if x.hypot(y) < radius {
                    points += 1.0;
                }
            }
        }
        points / (PI * radius * radius)
    };
    let triangular = pores_per_mm(counted(pitch * (PI / 3.0).sin(), 0.5));
    near_relative("triangular", triangular, 1.0 / pitch, 2e-3);
    let square = pores_per_mm(counted(pitch, 0.0));
    near_relative("square", square, 0.930_605 / pitch, 2e-3);
}

#[test]
fn grain_size_tables_relate_to_pores_per_mm_by_a_constant() {
    // ASTM E112, facts/README.md. A tessellation of N_A cells per mm² has by E112's planimetric
    // relation the intercepts per mm N_L = √(4 N_A/π) (circle of the mean area), so that
    // P/N_L = √(√3 π/8) at every grain size. E112's own intercept scale, ℓ = 0.32 mm at G = 0,
    // lies 0.52 % off the planimetric one, and the tables are printed to three digits.
    let share = (3_f64.sqrt() * PI / 8.0).sqrt();
    for row in rows(include_str!("facts/astm_e112.csv")) {
        let label = row.text("label");
        let per_mm = pores_per_mm(row.number("per_mm2"));
        near_relative(label, per_mm / row.number("per_mm"), share, 0.008);
        let intercept_mm = row.number("intercept_um") / 1000.0;
        near_relative(label, per_mm * intercept_mm, share, 0.006);
        // Read back as a grain size, G = 6.643 856 log10 N_L − 3.288 (2 log2 10 = 6.643 856) of ASTM E112, within the
        // 0.02 by which its two scales differ.
        let grain_size = 2.0 * LOG2_10 * (per_mm / share).log10() - 3.288;
        near(label, grain_size, row.number("grain_size"), 0.02);
    }
}

/// Pixels per mm of the planes drawn below.
const PX_PER_MM: f64 = 100.0;
/// Width and height of the planes, px: 48 pitches of 0.25 mm.
const SIDE: usize = 1200;
/// The lattices are drawn turned by this, radians. Rows that run along the edge would all be cut
/// at the same place, and lines that run down then enter more, or fewer, voids than on average.
const TURNED: f64 = 0.3;

/// Voids entered per mm of random line, and standard error, on a plane whose level at (x, y) mm
/// is 1 in voids and 0 in walls.
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "pixel numbers"
)]
fn entered_per_mm(level: impl Fn(f64, f64) -> f64) -> (f64, f64) {
    let mm = |pixel: usize| (pixel as f64 + 0.5) / PX_PER_MM;
    let (sin, cos) = TURNED.sin_cos();
    let plane: Vec<f32> = (0..SIDE * SIDE)
        .map(|k| (mm(k % SIDE), mm(k / SIDE)))
        .map(|(x, y)| level(cos * x + sin * y, cos * y - sin * x) as f32)
        .collect();
    let met = crossings(&plane, &vec![true; SIDE * SIDE], SIDE, SIDE).expect("enough lines");
    assert!(
        met.standard_error < 0.01 * met.per_px,
        "the count scatters too much to check anything: {met:?}"
    );
    (met.per_px * PX_PER_MM, met.standard_error * PX_PER_MM)
}

/// The level at a place `depth` mm inside a void, half a pixel of transition on either side.
fn edge(depth: f64) -> f64 {
    (0.5 + depth * PX_PER_MM).clamp(0.0, 1.0)
}

#[test]
fn random_lines_enter_round_pores_as_often_as_cauchy_says() {
    // Closed form N_A · d, facts/README.md. Pores that touch are left out: lines then pass from
    // one to the next without leaving the void.
    let mut seen = 0;
    for row in rows(include_str!("facts/lattice_closed_forms.csv")) {
        let (pitch, diameter) = (row.number("pitch_mm"), row.number("diameter_mm"));
        if diameter >= pitch {
            continue;
        }
        let triangular = row.text("lattice") == "hexagonal";
        let row_height = if triangular {
            pitch * (PI / 3.0).sin()
        } else {
            pitch
        };
        let (entered, standard_error) = entered_per_mm(|x, y| {
            let at = (y / row_height).floor();
            // The nearest centre lies in the row of the place or in a neighbouring one.
            let distance = [at - 1.0, at, at + 1.0]
                .map(|row| {
                    let shift = if triangular {
                        (0.5 * row).fract().abs()
                    } else {
                        0.0
                    };
                    let column = (x / pitch - shift - 0.5).round() + 0.5 + shift;
                    (x - column * pitch).hypot(y - (row + 0.5) * row_height)
                })
                .into_iter()
                .fold(f64::INFINITY, f64::min);
            edge(diameter / 2.0 - distance)
        });
        let what = format!("{} {diameter}", row.text("lattice"));
        near(
            &what,
            entered,
            row.number("random_line_hits_per_mm"),
            3.0 * standard_error,
        );
        seen += 1;
    }
    assert_eq!(seen, 4);
}

#[test]
fn random_lines_across_square_cells_give_the_grain_size_of_astm_e112() {
    // Cells of pitch p behind walls of width w: by Cauchy 4 (p − w)/(π p²) entered per mm, which
    // without walls is the 4/(π p) of a tessellation, facts/README.md.
    let pitch = 0.25;
    let wall = 0.04;
    let (entered, standard_error) = entered_per_mm(|x, y| {
        let from_wall = |v: f64| (v.rem_euclid(pitch)).min(pitch - v.rem_euclid(pitch));
        edge(from_wall(x).min(from_wall(y)) - wall / 2.0)
    });
    let table = rows(include_str!("facts/lattice_closed_forms.csv"));
    let cells = table[0].number("cells_per_mm");
    let walled = cells * (1.0 - wall / pitch);
    // A share of 1/(2a) of the chords across a square of side a px is shorter than 1 px (chords
    // up to a are equally frequent: Coleman 1969, J. Appl. Prob. 6: 430–441, from memory). Lines
    // that cut so little off a corner, rounded by its pixel, may go unseen.
    let unseen = walled / (2.0 * (pitch - wall) * PX_PER_MM);
    let (low, high) = (walled - unseen, walled);
    near(
        "entered",
        entered,
        f64::midpoint(low, high),
        (high - low) / 2.0 + 3.0 * standard_error,
    );

    // ASTM E112 reads a grain size from either count. Its planimetric constant supposes the mean
    // intercept of a circle; squares of the same area have an outline 2/√π times as long and are
    // met that much more often, which is 2 log2(2/√π) = 0.35 of a grain size. The rest is the
    // 0.02 between the two scales and what the lines scatter and leave unseen (3 % is 0.09).
    let from_lines = 2.0 * LOG2_10 * (entered / (1.0 - wall / pitch)).log10() - 3.288;
    let from_density = LOG2_10 * table[0].number("per_mm2").log10() - 2.954;
    let outline = 2.0 * (2.0 / PI.sqrt()).log2();
    near(
        "grain size",
        from_lines - from_density,
        outline,
        0.02 + 0.09,
    );
}

#[test]
fn pores_drawn_on_a_lattice_have_its_density_walls_and_euler_number() {
    // Closed forms, facts/lattice_closed_forms.csv: the wall on the way from middle to middle is
    // p − d. (On a square lattice neighbours across a diagonal come in too, one for two along the
    // sides, which leaves the median where it is.) Voids are pieces without holes, so that their
    // Euler number is how many there are on the photo, cut ones too.
    // Bounds, before the run: 1 % of the pitch for walls; 1 % of the density, and a row of the edge
    // that is counted or not by chance, √(2 × 26)/26² of it; pieces that graze the photo by under
    // two px may be seen or not.
    let mut seen = 0;
    for row in rows(include_str!("facts/lattice_closed_forms.csv")) {
        let (pitch, diameter) = (row.number("pitch_mm"), row.number("diameter_mm"));
        if diameter >= pitch {
            continue;
        }
        let what = format!("{} {diameter}", row.text("lattice"));
        let triangular = row.text("lattice") == "hexagonal";
        let (row_height, shift) = if triangular {
            (pitch * (PI / 3.0).sin(), pitch / 2.0)
        } else {
            (pitch, 0.0)
        };
        let mut canvas = Canvas::new(700, 700);
        let (sin, cos) = TURNED.sin_cos();
        let radius = diameter / 2.0 * PX_PER_MM;
        let (mut pieces, mut grazing) = (0.0, 0.0);
        for (row, column) in (-50..50).flat_map(|row| (-50..50).map(move |column| (row, column))) {
            let x = f64::from(column) * pitch + f64::from(row & 1) * shift;
            let y = f64::from(row) * row_height;
            let at = Point::new(
                350.0 + (cos * x - sin * y) * PX_PER_MM,
                350.0 + (sin * x + cos * y) * PX_PER_MM,
            );
            canvas.cut(Shape::Disc, 2.0 * radius, at, 0.0);
            // How far the disc reaches into the photo, px.
            let out = (at.x - at.x.clamp(0.0, 700.0)).hypot(at.y - at.y.clamp(0.0, 700.0));
            if out < radius {
                pieces += 1.0;
            }
            if (radius - out).abs() < 2.0 {
                grazing += 1.0;
            }
        }
        let scale = Scale::given(PX_PER_MM).expect("more than zero");
        let measured = measure(
            &canvas.photo(),
            scale,
            &Area::default(),
            &Progress::default(),
        );
        let findings = measured.expect("the area lies on the photo").findings;
        let evidence = findings.surface.evidence;
        near(
            &what,
            evidence.void_euler * evidence.cells,
            pieces,
            grazing + 0.5,
        );
        let pores = findings.pores.expect("pores");
        let wall = pores.wall_mm_median.expect("neighbours");
        near(&what, wall, pitch - diameter, 0.01 * pitch);
        near_relative(
            &what,
            pores.per_mm2,
            row.number("per_mm2"),
            0.01 + 52_f64.sqrt() / 676.0,
        );
        near_relative(&what, pores.diameter_mm.mean.value, diameter, 0.01);
        seen += 1;
    }
    assert_eq!(seen, 4);
}
