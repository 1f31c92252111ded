//! Means and percentiles over pores, without favouring the small ones that fit in the photo.

use crate::geometry::{Point, Rect};
use crate::pores::Pore;

/// 5th percentile, median and 95th percentile of a measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// 5th percentile.
    pub p5: f64,
    /// Median.
    pub median: f64,
    /// 95th percentile.
    pub p95: f64,
}

/// Percentiles of a set of values, each with its weight; `None` when there are none.
///
/// The p-th percentile is the value at which the cumulated weight, counted to the middle of each
/// value's own, reaches p; linear in between.
#[must_use]
pub fn spread(values: &[(f64, f64)]) -> Option<Spread> {
    let mut sorted = values.to_vec();
    sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
    let total: f64 = sorted.iter().map(|(_, weight)| weight).sum();
    let last = sorted.last()?.0;
    let at = |share: f64| {
        let mut before: Option<(f64, f64)> = None;
        let mut sum = 0.0;
        for &(value, weight) in &sorted {
            let middle = (sum + weight / 2.0) / total;
            if middle >= share {
                return match before {
                    Some((v, m)) if middle > m => v + (value - v) * (share - m) / (middle - m),
                    _ => value,
                };
            }
            before = Some((value, middle));
            sum += weight;
        }
        last
    };
    Some(Spread {
        p5: at(0.05),
        median: at(0.5),
        p95: at(0.95),
    })
}

/// Mean of values with weights; `None` when there are none.
#[must_use]
pub fn weighted_mean(values: &[(f64, f64)]) -> Option<f64> {
    let weight: f64 = values.iter().map(|(_, w)| w).sum();
    (weight > 0.0).then(|| values.iter().map(|(v, w)| v * w).sum::<f64>() / weight)
}

/// Standard error of a weighted mean, as if the values were independent; infinite for fewer than two.
#[must_use]
pub fn standard_error(values: &[(f64, f64)], mean: f64) -> f64 {
    let n = values.len() as f64;
    if n < 2.0 {
        return f64::INFINITY;
    }
    let weight: f64 = values.iter().map(|(_, w)| w).sum();
    let squares: f64 = values.iter().map(|(v, w)| w * (v - mean).powi(2)).sum();
    (squares / weight / (n - 1.0)).sqrt()
}

/// A place in the area at which a centroid could lie.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Where.
    pub at: Point,
    /// Distance to the nearest part left out that cuts pores, px; infinite where there is none.
    pub clear_px: f64,
}

/// Chance that a pore of this size, its centroid anywhere in the area, is not cut.
///
/// The inverse is the edge weight of Miles (1974) and Lantuéjoul (1978): (W·H)/((W−w)(H−h)) when the
/// area is all of a W × H photo and the pore's box is w × h. At a part left out, whose edge runs any
/// way, a pore is taken for the disc of its mean breadth, the perimeter of its hull over π (Cauchy):
/// about a convex part that is the Steiner formula, so right in the mean over directions. `places`
/// are spread evenly over the area.
#[must_use]
pub fn chance_to_be_whole(pore: &Pore, places: &[Place], photo: Rect) -> f64 {
    let bounds = pore.outline.bounds();
    let centre = pore.centroid();
    let fits = Rect {
        x: photo.x + centre.x - bounds.x,
        y: photo.y + centre.y - bounds.y,
        width: photo.width - bounds.width,
        height: photo.height - bounds.height,
    };
    let half_breadth = pore.outline.hull().perimeter() / std::f64::consts::TAU;
    let fitting = places
        .iter()
        .filter(|place| fits.contains(place.at) && place.clear_px >= half_breadth)
        .count();
    #[expect(clippy::cast_precision_loss, reason = "counts")]
    let chance = fitting as f64 / places.len().max(1) as f64;
    chance
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn percentiles_of_equal_weights_are_the_usual_ones() {
        let values: Vec<(f64, f64)> = (0..101).map(|i| (f64::from(i), 1.0)).collect();
        let spread = spread(&values).expect("values");
        assert!((spread.median - 50.0).abs() < 1e-9, "{spread:?}");
        assert!((spread.p5 - 4.55).abs() < 1e-9, "{spread:?}");
        assert!((spread.p95 - 95.45).abs() < 1e-9, "{spread:?}");
    }

    #[test]
    fn nothing_has_no_percentiles_and_no_mean() {
        assert_eq!(spread(&[]), None);
        assert_eq!(weighted_mean(&[]), None);
    }
}
