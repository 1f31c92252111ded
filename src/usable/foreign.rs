//! What does not belong to the surface by its light or colour: holes, moss, background, cards.

#![expect(
    clippy::cast_possible_truncation,
    reason = "logarithms of ratios; seven digits are plenty"
)]

use super::looks::{Grid, Looks};
use super::mask::smoothed;
use nalgebra::{DMatrix, DVector};

/// Light that differs so much from what the rest lets expect is another matter. The light on one
/// surface may well fall off by as much from one side to the other, but that the rest tells.
const LIGHT: f32 = 3.0;
/// Red or blue over green that differs so much is another colour: tissue that bruises or ages
/// changes by about a third (common practice, no source).
const COLOUR: f32 = 1.6;
/// A pattern so much stronger than usual is lettering, needles, cloth.
const PATTERN: f32 = 3.0;
/// Values further off than so many standard deviations do not take part in saying what is usual.
const OUTLIER: f64 = 2.5;
/// Standard deviation of a normal distribution over its median deviation.
const MAD_TO_SD: f64 = 1.4826;

/// How foreign each tile looks: 1 and more is another matter. `usual` are the tiles that tell what
/// the surface looks like; in the window about a tile that is `disturbed` the edge of something else
/// passes for a strong pattern.
pub(super) fn strangeness(looks: &Looks, usual: &[bool], disturbed: &[bool]) -> Vec<f32> {
    let grid = &looks.grid;
    let all = vec![true; usual.len()];
    let ln = |value: f32| value.max(1e-5).ln();
    let light: Vec<f32> = looks.tiles.iter().map(|tile| ln(tile.light)).collect();
    let expected = even_light(grid, &light, usual);
    let off = |values: Vec<f32>| {
        let middle = median(
            values
                .iter()
                .zip(usual)
                .filter(|(_, u)| **u)
                .map(|(v, _)| *v),
        );
        values.into_iter().map(move |value| value - middle)
    };
    let colour = |c: usize| {
        smoothed(
            grid,
            &looks
                .tiles
                .iter()
                .map(|t| ln(t.colour[c]))
                .collect::<Vec<_>>(),
            &all,
        )
    };
    let pattern: Vec<f32> = looks
        .tiles
        .iter()
        .map(|tile| 0.5 * ln(tile.pattern))
        .collect();
    light
        .iter()
        .zip(expected)
        .zip(off(colour(0)).zip(off(colour(1))))
        .zip(off(pattern))
        .zip(disturbed)
        .map(|((((light, expected), (red, blue)), pattern), disturbed)| {
            let pattern = if *disturbed { 0.0 } else { pattern };
            let parts = [
                (light - expected) / LIGHT.ln(),
                red / COLOUR.ln(),
                blue / COLOUR.ln(),
                pattern.max(0.0) / PATTERN.ln(),
            ];
            parts.iter().map(|part| part * part).sum::<f32>().sqrt()
        })
        .collect()
}

/// The logarithm of light as it would be everywhere if the surface went on: a curved plane through
/// the usual tiles, without those that lie far off it.
fn even_light(grid: &Grid, light: &[f32], usual: &[bool]) -> Vec<f32> {
    let terms = |tile: usize| {
        let x = 2.0 * ((tile % grid.columns) as f64 + 0.5) / grid.columns as f64 - 1.0;
        let y = 2.0 * ((tile / grid.columns) as f64 + 0.5) / grid.rows as f64 - 1.0;
        [1.0, x, y, x * x, x * y, y * y]
    };
    let middle = median(
        light
            .iter()
            .zip(usual)
            .filter(|(_, u)| **u)
            .map(|(l, _)| *l),
    );
    let mut coefficients = DVector::from_element(6, 0.0);
    coefficients[0] = f64::from(middle);
    let value = |coefficients: &DVector<f64>, tile: usize| -> f64 {
        terms(tile)
            .iter()
            .zip(coefficients.iter())
            .map(|(term, c)| term * c)
            .sum()
    };
    for _ in 0..6 {
        let residual = |tile: usize| f64::from(light[tile]) - value(&coefficients, tile);
        let spread = MAD_TO_SD
            * f64::from(median(
                (0..light.len())
                    .filter(|&tile| usual[tile])
                    .map(|tile| residual(tile).abs() as f32),
            ));
        let near: Vec<usize> = (0..light.len())
            .filter(|&tile| usual[tile] && residual(tile).abs() <= OUTLIER * spread)
            .collect();
        // Enough to hold a curved plane.
        if near.len() < 24 {
            break;
        }
        let matrix = DMatrix::from_fn(near.len(), 6, |i, j| terms(near[i])[j]);
        let known = DVector::from_fn(near.len(), |i, _| f64::from(light[near[i]]));
        let Some(decomposed) = (matrix.transpose() * &matrix).cholesky() else {
            break;
        };
        coefficients = decomposed.solve(&(matrix.transpose() * known));
    }
    (0..light.len())
        .map(|tile| value(&coefficients, tile) as f32)
        .collect()
}

/// The middle value; 0 of none.
fn median(values: impl Iterator<Item = f32>) -> f32 {
    super::quantile(values, 0.5)
}
