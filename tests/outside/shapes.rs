//! Polygon measures against closed forms.

use super::support::{near_relative, placed, polygon, rows};
use poreline::geometry::{Point, Polygon};
use poreline::pores::Pore;
use std::f64::consts::{PI, TAU};

/// Corners of the polygons that stand for curved shapes: area 2 × 10⁻⁶ short, outline 4 × 10⁻⁷.
const CORNERS: u32 = 2000;

/// An ellipse of the given semi-axes.
fn ellipse(a: f64, b: f64) -> Polygon {
    let corner = |k| {
        let angle = TAU * f64::from(k) / f64::from(CORNERS);
        Point::new(a * angle.cos(), b * angle.sin())
    };
    Polygon::new((0..CORNERS).map(corner).collect())
}

/// A regular polygon of side 1.
fn regular(corners: u32) -> Polygon {
    let radius = 0.5 / (PI / f64::from(corners)).sin();
    let corner = |k| {
        let angle = TAU * f64::from(k) / f64::from(corners);
        Point::new(radius * angle.cos(), radius * angle.sin())
    };
    Polygon::new((0..corners).map(corner).collect())
}

fn rectangle(width: f64, height: f64) -> Polygon {
    polygon(&[(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)])
}

/// The shape a table calls by this name, and how well the polygon stands for it.
fn shape(name: &str) -> (Polygon, f64) {
    let exact = 1e-7;
    let sampled = 5e-6;
    match name {
        "unit square" => (rectangle(1.0, 1.0), exact),
        "rectangle 2x1" => (rectangle(2.0, 1.0), exact),
        "rectangle 3x1" => (rectangle(3.0, 1.0), exact),
        "equilateral triangle side 1" => (regular(3), exact),
        "regular hexagon side 1" => (regular(6), exact),
        "ellipse semi-axes 2,1" => (ellipse(2.0, 1.0), sampled),
        "disk diameter 1" => (ellipse(0.5, 0.5), sampled),
        "L tromino (3 unit squares)" => (
            polygon(&[
                (0.0, 0.0),
                (1.0, 0.0),
                (1.0, 1.0),
                (2.0, 1.0),
                (2.0, 2.0),
                (0.0, 2.0),
            ]),
            exact,
        ),
        "plus pentomino (5 unit squares)" => (
            polygon(&[
                (1.0, 0.0),
                (2.0, 0.0),
                (2.0, 1.0),
                (3.0, 1.0),
                (3.0, 2.0),
                (2.0, 2.0),
                (2.0, 3.0),
                (1.0, 3.0),
                (1.0, 2.0),
                (0.0, 2.0),
                (0.0, 1.0),
                (1.0, 1.0),
            ]),
            exact,
        ),
        "U pentomino" => (
            polygon(&[
                (0.0, 0.0),
                (1.0, 0.0),
                (1.0, 1.0),
                (2.0, 1.0),
                (2.0, 0.0),
                (3.0, 0.0),
                (3.0, 2.0),
                (0.0, 2.0),
            ]),
            exact,
        ),
        _ => panic!("{name} is not drawn here"),
    }
}

fn pore(outline: Polygon) -> Pore {
    let moments = outline.moments().expect("the shape has an area");
    Pore {
        moments,
        ellipse: moments.ellipse().expect("the shape has a width"),
        feret: outline.feret(),
        perimeter: outline.perimeter(),
        solidity: outline.area() / outline.hull().area(),
        outline,
        whole: true,
        counted: true,
        oversized: false,
        by_hand: false,
    }
}

#[test]
fn convex_shapes_have_their_closed_forms_in_any_position() {
    // Source: facts/README.md.
    for row in rows(include_str!("facts/shape_closed_forms.csv")) {
        let name = row.text("shape");
        let (drawn, tolerance) = shape(name);
        for (angle, dx, dy) in [(0.0, 0.0, 0.0), (0.3, 500.0, 20.0), (2.0, 4000.0, 3000.0)] {
            let pore = pore(placed(&drawn, angle, dx, dy));
            for (column, got) in [
                ("area", pore.moments.area),
                ("perimeter", pore.perimeter),
                ("feret_min", pore.feret.min),
                ("feret_max", pore.feret.max),
                ("diameter", pore.diameter().0),
                ("circularity", pore.circularity()),
            ] {
                let what = format!("{name}, turned by {angle}: {column}");
                near_relative(&what, got, row.number(column), tolerance);
            }
            near_relative(name, pore.solidity, 1.0, 1e-9);
        }
    }
}

#[test]
fn the_mean_feret_diameter_of_a_convex_shape_is_its_outline_over_pi() {
    // Cauchy's formula; figures in facts/shape_closed_forms.csv.
    const DIRECTIONS: u32 = 3600;
    for row in rows(include_str!("facts/shape_closed_forms.csv")) {
        let name = row.text("shape");
        let (drawn, _) = shape(name);
        let mean = (0..DIRECTIONS)
            .map(|k| PI * f64::from(k) / f64::from(DIRECTIONS))
            .map(|angle| placed(&drawn, angle, 0.0, 0.0).bounds().width)
            .sum::<f64>()
            / f64::from(DIRECTIONS);
        near_relative(name, mean, row.number("mean_feret"), 5e-6);
        near_relative(name, drawn.hull().perimeter() / PI, mean, 5e-6);
    }
}

#[test]
fn shapes_with_bays_have_their_closed_forms() {
    // Source: facts/README.md.
    for row in rows(include_str!("facts/shape_nonconvex.csv")) {
        let name = row.text("shape");
        let (drawn, tolerance) = shape(name);
        let hull = drawn.hull();
        let pore = pore(drawn);
        for (column, got) in [
            ("area", pore.moments.area),
            ("perimeter", pore.perimeter),
            ("hull_area", hull.area()),
            ("hull_perimeter", hull.perimeter()),
            ("solidity", pore.solidity),
        ] {
            near_relative(
                &format!("{name}: {column}"),
                got,
                row.number(column),
                tolerance,
            );
        }
    }
}

#[test]
fn an_ellipse_is_given_back_by_its_moments() {
    // Closed form: the second moment of a filled ellipse along an axis of length d is d²/16.
    for angle in [-1.2_f64, -0.4, 0.0, 0.7, 1.5] {
        let drawn = placed(&ellipse(6.0, 2.5), angle, 300.0, 700.0);
        let moments = drawn.moments().expect("an ellipse has an area");
        near_relative("x", moments.centroid.x, 300.0, 1e-12);
        near_relative("y", moments.centroid.y, 700.0, 1e-12);
        let found = moments.ellipse().expect("an ellipse has a width");
        near_relative("major", found.major, 12.0, 5e-6);
        near_relative("minor", found.minor, 5.0, 5e-6);
        near_relative("elongation", found.elongation(), 2.4, 1e-9);
        let turned_back = (found.angle - angle).rem_euclid(PI);
        assert!(turned_back.min(PI - turned_back) < 1e-9, "{angle}");
    }
}
