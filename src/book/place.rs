//! Places of sensitive finds, told less exactly on purpose.

/// Length of a degree of latitude, m: a sphere of the Earth's mean radius, 6 371 008.8 m (IUGG).
const METRES_PER_DEGREE: f64 = 6_371_008.8 * std::f64::consts::PI / 180.0;
/// Side of the cells that sensitive places are blurred to, degrees.
const CELL_DEGREES: f64 = 0.1;

/// A place told by its cell of 0.1°.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blurred {
    /// Degrees north of the cell's middle.
    pub latitude: f64,
    /// Degrees east of the cell's middle.
    pub longitude: f64,
    /// Radius about the middle that holds the whole cell, m: Darwin Core's
    /// `coordinateUncertaintyInMeters` (Chapman & Wieczorek 2020, Georeferencing Best Practices, GBIF).
    pub uncertainty_m: f64,
}

/// Blurs a place to the middle of its cell of 0.1° by 0.1°.
#[must_use]
pub fn blurred(latitude: f64, longitude: f64) -> Blurred {
    let middle = |degrees: f64, furthest: f64| {
        let cell = ((degrees / CELL_DEGREES).floor() + 0.5) * CELL_DEGREES;
        // Two decimals say it exactly; the poles and the date line end the last cells.
        ((cell * 100.0).round() / 100.0)
            .clamp(CELL_DEGREES / 2.0 - furthest, furthest - CELL_DEGREES / 2.0)
    };
    let (latitude, longitude) = (middle(latitude, 90.0), middle(longitude, 180.0));
    let half = CELL_DEGREES / 2.0 * METRES_PER_DEGREE;
    // Cells are widest at their edge nearest the equator.
    let nearest = latitude.abs() - CELL_DEGREES / 2.0;
    Blurred {
        latitude,
        longitude,
        uncertainty_m: half
            .hypot(half * nearest.max(0.0).to_radians().cos())
            .ceil(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_blurred_place_is_its_cells_middle_and_the_radius_holds_the_cell() {
        let place = blurred(52.637, -1.139);
        assert_eq!((place.latitude, place.longitude), (52.65, -1.15));
        // Half a diagonal of 11.1 km by 6.8 km.
        assert!(
            (6400.0..6600.0).contains(&place.uncertainty_m),
            "{}",
            place.uncertainty_m
        );
        // All places of a cell come out the same, so none can be told from another.
        for (latitude, longitude) in [(52.601, -1.199), (52.699, -1.101)] {
            assert_eq!(blurred(latitude, longitude), place);
        }
    }

    #[test]
    fn poles_and_date_line_stay_on_earth() {
        for (latitude, longitude) in [(90.0, 180.0), (-90.0, -180.0), (0.0, 0.0)] {
            let place = blurred(latitude, longitude);
            assert!(
                place.latitude.abs() <= 90.0 && place.longitude.abs() <= 180.0,
                "{place:?}"
            );
        }
    }
}
