//! What the checks share: reading facts, comparing numbers, masks drawn as rows of text.

use poreline::geometry::{Moments, Point, Polygon};
use poreline::segmentation::euler::euler_number;
use poreline::segmentation::label::{Connectivity, Labels};
use std::collections::HashMap;

/// One row of a table of facts, by column name.
pub struct Row(HashMap<String, String>);

impl Row {
    pub fn text(&self, column: &str) -> &str {
        &self.0[column]
    }

    pub fn number(&self, column: &str) -> f64 {
        let text = self.text(column);
        text.parse().unwrap_or_else(|_| panic!("{column}: {text}"))
    }

    pub fn integer(&self, column: &str) -> i64 {
        let text = self.text(column);
        text.parse().unwrap_or_else(|_| panic!("{column}: {text}"))
    }
}

/// The rows of a comma-separated table with a header.
pub fn rows(table: &str) -> Vec<Row> {
    let rows: Vec<Row> = csv::Reader::from_reader(table.as_bytes())
        .deserialize()
        .map(|row| Row(row.expect("a table of facts is well formed")))
        .collect();
    assert!(!rows.is_empty(), "a table of facts has rows");
    rows
}

/// Fails unless `got` is within `tolerance` of `want`.
#[track_caller]
pub fn near(what: &str, got: f64, want: f64, tolerance: f64) {
    assert!(
        (got - want).abs() <= tolerance,
        "{what}: {got} is not within {tolerance:e} of {want}"
    );
}

/// Fails unless `got` is within a share `tolerance` of `want`.
#[track_caller]
pub fn near_relative(what: &str, got: f64, want: f64, tolerance: f64) {
    near(what, got, want, tolerance * want.abs());
}

/// A small mask.
#[derive(Debug, Clone)]
pub struct Mask {
    pub width: u32,
    pub height: u32,
    pub inside: Vec<bool>,
}

impl Mask {
    /// Rows of text in which `set` stands for a pixel of the mask.
    pub fn of_rows<'a>(rows: impl IntoIterator<Item = &'a str>, set: char) -> Self {
        let rows: Vec<&str> = rows.into_iter().collect();
        let inside: Vec<bool> = rows
            .iter()
            .flat_map(|row| row.chars().map(|c| c == set))
            .collect();
        let height = u32::try_from(rows.len()).expect("small");
        let width = u32::try_from(rows[0].len()).expect("small");
        assert_eq!(inside.len(), rows.len() * rows[0].len(), "rows are equal");
        Self {
            width,
            height,
            inside,
        }
    }

    pub fn at(&self, x: u32, y: u32) -> bool {
        self.inside[(y * self.width + x) as usize]
    }

    /// Column and row of every pixel of the mask.
    pub fn pixels(&self) -> impl Iterator<Item = (u32, u32)> + '_ {
        (0..self.height)
            .flat_map(|y| (0..self.width).map(move |x| (x, y)))
            .filter(|&(x, y)| self.at(x, y))
    }

    pub fn moments(&self) -> Option<Moments> {
        Moments::of_pixels(self.pixels())
    }

    pub fn labels(&self, connectivity: Connectivity) -> Labels {
        Labels::of(self.width, self.height, |x, y| self.at(x, y), connectivity)
    }

    pub fn euler(&self, connectivity: Connectivity) -> i64 {
        euler_number(self.width, self.height, |x, y| self.at(x, y), connectivity)
    }

    /// All that is not in the mask, with a rim one pixel wide about the image.
    pub fn background(&self) -> Self {
        let (width, height) = (self.width + 2, self.height + 2);
        let inside = (0..height)
            .flat_map(|y| (0..width).map(move |x| (x, y)))
            .map(|(x, y)| {
                let rim = x == 0 || y == 0 || x > self.width || y > self.height;
                rim || !self.at(x - 1, y - 1)
            })
            .collect();
        Self {
            width,
            height,
            inside,
        }
    }

    /// Turned by a quarter, clockwise as seen.
    pub fn turned(&self) -> Self {
        let inside = (0..self.width)
            .flat_map(|y| (0..self.height).map(move |x| self.at(y, self.height - 1 - x)))
            .collect();
        Self {
            width: self.height,
            height: self.width,
            inside,
        }
    }

    /// Left and right exchanged.
    pub fn mirrored(&self) -> Self {
        let inside = (0..self.height)
            .flat_map(|y| (0..self.width).map(move |x| self.at(self.width - 1 - x, y)))
            .collect();
        Self {
            inside,
            ..self.clone()
        }
    }

    /// The smallest convex polygon around its pixels, each of them a unit square.
    pub fn hull(&self) -> Polygon {
        let corners = self.pixels().flat_map(|(x, y)| {
            [(0, 0), (1, 0), (0, 1), (1, 1)]
                .map(|(i, j)| Point::new(f64::from(x + i), f64::from(y + j)))
        });
        Polygon::new(corners.collect()).hull()
    }
}

/// A polygon through the given corners.
pub fn polygon(corners: &[(f64, f64)]) -> Polygon {
    Polygon::new(corners.iter().map(|&(x, y)| Point::new(x, y)).collect())
}

/// A polygon turned about the origin, clockwise as seen, then moved.
pub fn placed(polygon: &Polygon, angle: f64, dx: f64, dy: f64) -> Polygon {
    let (sin, cos) = angle.sin_cos();
    Polygon::new(
        polygon
            .vertices()
            .iter()
            .map(|p| Point::new(cos * p.x - sin * p.y + dx, sin * p.x + cos * p.y + dy))
            .collect(),
    )
}
