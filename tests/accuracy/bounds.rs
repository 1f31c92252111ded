//! How wrong the tool may be. Written down before the first run; never moved to fit a result.

use std::ops::RangeInclusive;

/// Relative errors allowed, as shares: of half of all photos, and of any single one.
#[derive(Clone, Copy, Debug)]
pub struct Bound {
    pub median: f64,
    pub worst: f64,
}

const fn bound(median: f64, worst: f64) -> Bound {
    Bound { median, worst }
}

pub const PORES_PER_MM: Bound = bound(0.003, 0.015);
pub const MEAN_DIAMETER: Bound = bound(0.01, 0.04);
pub const MEDIAN_ELONGATION: Bound = bound(0.01, 0.03);
pub const VOID_FRACTION: Bound = bound(0.02, 0.06);
pub const TEETH_PER_MM: Bound = bound(0.02, 0.05);
pub const GILLS_PER_MM: Bound = bound(0.02, 0.05);

/// A surface type that is wrong may not be held with more confidence than this.
pub const SURE: f64 = 0.8;

/// Share of photos with structure that may go without figures, undecided or taken for another type.
/// Without it a tool that never commits itself would pass.
pub const UNMEASURED: f64 = 0.05;

/// The bounds hold from this many px per spacing on.
pub const FEWEST_PX_PER_SPACING: f64 = 9.0;

/// Share of fields whose 95 % interval of pores per mm contains the truth, and of how many fields.
pub const COVERAGE: RangeInclusive<f64> = 0.93..=0.97;
pub const FIELDS: usize = 400;
