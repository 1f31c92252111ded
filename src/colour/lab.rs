//! CIELAB and how far two colours are apart.

use palette::color_difference::Ciede2000 as _;
use palette::convert::FromColorUnclamped as _;
use palette::white_point::D65;
use palette::{Lab as PaletteLab, LinSrgb};
use std::fmt;

/// A colour in CIELAB for D65 and the 2° observer (ISO/CIE 11664-4).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lab {
    /// Lightness L*: 0 black, 100 the white that reflects all light.
    pub l: f64,
    /// a*: green below zero, red above.
    pub a: f64,
    /// b*: blue below zero, yellow above.
    pub b: f64,
}

/// `L* 81, a* 1, b* −14`: a just visible step is about one.
impl fmt::Display for Lab {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let whole = |value: f64| format!("{:.0}", value.round() + 0.0).replace('-', "−");
        let Self { l, a, b } = *self;
        write!(f, "L* {}, a* {}, b* {}", whole(l), whole(a), whole(b))
    }
}

impl Lab {
    /// The colour of linear red, green and blue in the primaries of sRGB (IEC 61966-2-1), 1 = all light.
    #[must_use]
    pub fn of_light([red, green, blue]: [f64; 3]) -> Self {
        let PaletteLab { l, a, b, .. } =
            PaletteLab::<D65, f64>::from_color_unclamped(LinSrgb::new(red, green, blue));
        Self { l, a, b }
    }

    /// Chroma C*, the distance from grey.
    #[must_use]
    pub fn chroma(self) -> f64 {
        self.a.hypot(self.b)
    }

    /// Hue angle h, degrees from 0 to 360: 0 red, 90 yellow, 180 green, 270 blue. Without meaning on a
    /// grey.
    #[must_use]
    pub fn hue_deg(self) -> f64 {
        self.b.atan2(self.a).to_degrees().rem_euclid(360.0)
    }

    /// Colour difference ΔE₀₀ (CIEDE2000, ISO/CIE 11664-6), about 1 where an eye just sees it.
    #[must_use]
    pub fn difference(self, other: Self) -> f64 {
        let at = |lab: Self| PaletteLab::<D65, f64>::new(lab.l, lab.a, lab.b);
        at(self).difference(at(other))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hues_run_from_red_by_way_of_yellow_and_zero_has_no_sign() {
        let hue = |a, b| Lab { l: 50.0, a, b }.hue_deg();
        for (a, b, deg) in [
            (10.0, 0.0, 0.0),
            (0.0, 10.0, 90.0),
            (-10.0, 0.0, 180.0),
            (0.0, -10.0, 270.0),
            (10.0, -10.0, 315.0),
        ] {
            assert!((hue(a, b) - deg).abs() < 1e-9, "{a} {b}");
        }
        let lab = Lab {
            l: 80.6,
            a: -0.3,
            b: -14.4,
        };
        assert_eq!(lab.to_string(), "L* 81, a* 0, b* −14");
    }
}
