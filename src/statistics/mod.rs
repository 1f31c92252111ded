//! Counting, means and intervals.

mod count_lines;
mod crossings;
mod density;
mod handbook;
mod histogram;
mod interval;
mod outlying;
mod pool;
mod scatter;
mod sizes;
mod trend;
mod walls;
mod wilson;

pub use count_lines::{CountLine, count_lines};
pub use crossings::{Crossings, crossings, outline_scatter};
pub use density::pores_per_mm;
pub use handbook::{Handbook, diameter_phrase, phrase, rough_phrase};
pub use histogram::Histogram;
pub use interval::{Resampled, Tile, interval, resample, tiles};
pub use outlying::{deleted_residuals, from_median};
pub use pool::{Pooled, pool};
pub use scatter::count_standard_error;
pub use sizes::{Place, Spread, chance_to_be_whole, spread, standard_error, weighted_mean};
pub use trend::{Trend, median, trend};
pub use walls::wall_thickness;
pub use wilson::wilson;
