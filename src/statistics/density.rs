//! Pores per mm from pores per mm².

/// Pores per mm along a row of closely packed pores, P = √(√3/2 · N), from their density N per mm².
///
/// On a triangular lattice this is exactly 1/spacing: what a person gets who lays a 1 mm line along
/// a row, or measures ten contiguous pores and divides (Hood 1985, N.Z. J. Bot. 23: 495–498).
/// On a square lattice it is √(√3/2) = 0.931 of 1/spacing, 7 % less.
#[must_use]
pub fn pores_per_mm(per_mm2: f64) -> f64 {
    (0.75_f64.sqrt() * per_mm2).sqrt()
}
