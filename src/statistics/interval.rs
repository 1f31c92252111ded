//! Intervals by resampling tiles of the surface (spatial block bootstrap).
//!
//! Neighbouring pores are not independent, so whole tiles, at least three spacings wide, are drawn
//! with replacement instead of single pores (Efron & Tibshirani 1993, ch. 8; Lahiri 2003).

use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;

/// Draws.
const DRAWS: usize = 2000;
/// A fixed seed: the same photo gives the same interval.
const SEED: u64 = 0xB007;

/// A tile's share of a ratio: what was added up, and what it is divided by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tile {
    /// For a density, pores; for a mean, the weighted sum.
    pub amount: f64,
    /// For a density, area; for a mean, the weights.
    pub base: f64,
}

/// Spread of a ratio under resampling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Resampled {
    /// 2.5th percentile.
    pub low: f64,
    /// 97.5th percentile.
    pub high: f64,
}

/// Sorts amounts that lie at frame px into square tiles `side` px wide.
#[must_use]
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "tile numbers"
)]
pub fn tiles(
    items: impl Iterator<Item = (crate::geometry::Point, f64, f64)>,
    bounds: crate::geometry::Rect,
    side: f64,
) -> Vec<Tile> {
    let across = (bounds.width / side).round().max(1.0);
    let down = (bounds.height / side).round().max(1.0);
    let mut grid = vec![
        Tile {
            amount: 0.0,
            base: 0.0
        };
        (across * down) as usize
    ];
    for (p, amount, base) in items {
        let column = ((p.x - bounds.x) / bounds.width * across).clamp(0.0, across - 1.0) as usize;
        let row = ((p.y - bounds.y) / bounds.height * down).clamp(0.0, down - 1.0) as usize;
        let tile = &mut grid[row * across as usize + column];
        tile.amount += amount;
        tile.base += base;
    }
    grid.retain(|tile| tile.base > 0.0);
    grid
}

/// Draws tiles with replacement and takes the ratio of the sums; `None` below four tiles.
#[must_use]
pub fn resample(tiles: &[Tile]) -> Option<Resampled> {
    if tiles.len() < 4 {
        return None;
    }
    let mut random = Pcg64Mcg::seed_from_u64(SEED);
    let mut ratios: Vec<f64> = (0..DRAWS)
        .map(|_| {
            let (amount, base) = (0..tiles.len()).fold((0.0, 0.0), |(amount, base), _| {
                let tile = tiles[random.random_range(0..tiles.len())];
                (amount + tile.amount, base + tile.base)
            });
            amount / base
        })
        .collect();
    ratios.sort_by(f64::total_cmp);
    Some(Resampled {
        low: ratios[DRAWS * 25 / 1000],
        high: ratios[DRAWS * 975 / 1000],
    })
}

/// The 95 % interval of a ratio: what [`resample`] draws, with its ends moved out for fewness.
///
/// Of few tiles, draws scatter too little: by √((n − 1)/n), and as a normal distribution where
/// Student's is due (Hesterberg 2015, Am. Stat. 69: 371–386).
#[must_use]
pub fn interval(tiles: &[Tile]) -> Option<Resampled> {
    let drawn = resample(tiles)?;
    let sum = |of: fn(&Tile) -> f64| tiles.iter().map(of).sum::<f64>();
    let ratio = sum(|tile| tile.amount) / sum(|tile| tile.base);
    let n = tiles.len() as f64;
    let wider = (n / (n - 1.0)).sqrt() * student(n - 1.0) / NORMAL;
    Some(Resampled {
        low: ratio + wider * (drawn.low - ratio),
        high: ratio + wider * (drawn.high - ratio),
    })
}

/// 97.5th percentile of the normal distribution.
const NORMAL: f64 = 1.959_963_984_540_054;

/// 97.5th percentile of Student's distribution, by its expansion in 1/ν (Abramowitz & Stegun 1964,
/// 26.7.5); from three degrees of freedom on right to 1 %.
fn student(freedom: f64) -> f64 {
    let z = NORMAL;
    z + (z.powi(3) + z) / (4.0 * freedom)
        + (5.0 * z.powi(5) + 16.0 * z.powi(3) + 3.0 * z) / (96.0 * freedom.powi(2))
        + (3.0 * z.powi(7) + 19.0 * z.powi(5) + 17.0 * z.powi(3) - 15.0 * z)
            / (384.0 * freedom.powi(3))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// JCGM 100:2008, table G.2, 95 %.
    #[test]
    fn percentiles_of_student_are_those_of_the_table() {
        for (freedom, printed) in [(3.0, 3.18), (5.0, 2.57), (10.0, 2.23), (30.0, 2.04)] {
            let found = student(freedom);
            assert!((found / printed - 1.0).abs() < 0.01, "{freedom}: {found}");
        }
    }
}
