//! A parabola through values at even steps, by least squares.

/// Values taken at [`Parabola::PLACES`], smoothed: 7 points, a polynomial of degree 2 (Savitzky and Golay
/// 1964, Anal. Chem. 36(8): 1627–1639).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parabola {
    mean: f32,
    slope: f32,
    bend: f32,
}

impl Parabola {
    /// Where the values are taken, in steps from the middle.
    pub const PLACES: [f32; 7] = [-3.0, -2.0, -1.0, 0.0, 1.0, 2.0, 3.0];

    /// Through one value for each place.
    pub fn through(values: impl Iterator<Item = f32>) -> Self {
        let sums = Self::PLACES.into_iter().zip(values).fold(
            [0.0; 3],
            |[whole, slope, bend], (place, value)| {
                [
                    whole + value,
                    slope + place * value,
                    bend + arch(place) * value,
                ]
            },
        );
        // Sums of the squares of 1, place and arch: those three are orthogonal over the places.
        let [whole, slope, bend] = sums;
        Self {
            mean: whole / 7.0,
            slope: slope / 28.0,
            bend: bend / 84.0,
        }
    }

    /// Its value at a place.
    pub fn at(self, place: f32) -> f32 {
        self.mean + self.slope * place + self.bend * arch(place)
    }

    /// The place where it is least, no further out than the places themselves.
    pub fn lowest(self) -> f32 {
        let [first, .., last] = Self::PLACES;
        if self.bend > 0.0 {
            (-self.slope / (2.0 * self.bend)).clamp(first, last)
        } else if self.slope > 0.0 {
            first
        } else {
            last
        }
    }
}

/// Place squared, less its mean over the places.
fn arch(place: f32) -> f32 {
    place * place - 4.0
}

#[cfg(test)]
mod tests {
    use super::Parabola;

    fn of(value: impl Fn(f32) -> f32) -> Parabola {
        Parabola::through(Parabola::PLACES.into_iter().map(value))
    }

    #[test]
    fn a_parabola_is_found_again() {
        let value = |place: f32| 2.0 - 0.5 * place + 0.25 * place * place;
        let parabola = of(value);
        for place in [-3.0, -0.7, 0.0, 1.0, 2.4] {
            assert!((parabola.at(place) - value(place)).abs() < 1e-5);
        }
        assert!((parabola.lowest() - 1.0).abs() < 1e-5);
    }

    #[test]
    fn values_that_fall_to_one_side_are_least_there() {
        let lowest = |value: fn(f32) -> f32, expected: f32| {
            let found = of(value).lowest();
            assert!((found - expected).abs() < f32::EPSILON, "{found}");
        };
        lowest(|place| place, -3.0);
        lowest(|place| -place, 3.0);
        lowest(|place| (place - 9.0).powi(2), 3.0);
    }

    /// Weights at the middle: −2, 3, 6, 7, 6, 3, −2 over 21 (Savitzky and Golay 1964, table I; from memory).
    #[test]
    fn the_middle_is_weighed_as_published() {
        let weights = [-2.0, 3.0, 6.0, 7.0, 6.0, 3.0, -2.0].map(|weight| weight / 21.0);
        for (one, weight) in Parabola::PLACES.into_iter().zip(weights) {
            let alone = of(|place| if (place - one).abs() < 0.5 { 1.0 } else { 0.0 });
            assert!((alone.at(0.0) - weight).abs() < 1e-6);
        }
    }
}
