//! Noise against the pores.

use super::parts::parts;
use crate::photo::Photo;
use crate::segmentation::Segmentation;

/// Standard deviation of the noise from pixel to pixel of the photo, as a share of the difference in
/// light between hollows and walls near by: the median over the area. `None` where there are no
/// hollows or no walls.
pub(super) fn grain(photo: &Photo, segmentation: &Segmentation) -> Option<f64> {
    let mut shares: Vec<f64> = parts(segmentation)
        .iter()
        .filter_map(|part| Some((part.contrast().filter(|c| *c > 0.0)?, part)))
        .map(|(contrast, part)| part.noise(photo) / contrast)
        .collect();
    let middle = shares.len() / 2;
    (!shares.is_empty()).then(|| *shares.select_nth_unstable_by(middle, f64::total_cmp).1)
}
