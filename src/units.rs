//! Lengths as types that do not mix: [`Millimetres`] on the fungus, [`Pixels`] on the photo.
//!
//! Only a [`Scale`](crate::scale::Scale) turns one into the other.

use std::fmt;
use std::str::FromStr;

/// Micrometres in a millimetre.
const MICROMETRES_PER_MM: f64 = 1000.0;
/// Millimetres in a centimetre.
const MM_PER_CENTIMETRE: f64 = 10.0;
/// Millimetres in an inch, exact since the international yard and pound agreement of 1959.
const MM_PER_INCH: f64 = 25.4;

/// A length on the fungus, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Millimetres(pub f64);

/// A length on the upright photo, in pixels.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Pixels(pub f64);

/// Why a length as typed could not be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum LengthError {
    /// No number at the start, or letters that are no unit we know.
    #[error(
        "“{0}” is not a length; write a number and a unit, such as 5 mm, 1 cm, 500 µm or 0.25 in"
    )]
    NotALength(String),
    /// The number is zero, negative or not finite.
    #[error("a length must be greater than zero, and “{0}” is not")]
    NotPositive(String),
}

impl fmt::Display for Millimetres {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", self.0)
    }
}

impl FromStr for Millimetres {
    type Err = LengthError;

    /// Reads `5`, `5 mm`, `0.5cm`, `500 µm`, `500 um`, `1 in`, `1"`; millimetres where no unit is given.
    /// A decimal comma is taken as a decimal point.
    fn from_str(typed: &str) -> Result<Self, LengthError> {
        let text = typed.trim();
        let unit_at = text
            .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '+' | '-')))
            .unwrap_or(text.len());
        let (number, unit) = text.split_at(unit_at);
        let number: f64 = number
            .replace(',', ".")
            .parse()
            .map_err(|_| LengthError::NotALength(typed.to_owned()))?;
        let mm = match unit.trim() {
            "" | "mm" => number,
            "cm" => number * MM_PER_CENTIMETRE,
            // The micro sign, the Greek letter, and what a keyboard has.
            "µm" | "μm" | "um" => number / MICROMETRES_PER_MM,
            "in" | "inch" | "\"" => number * MM_PER_INCH,
            _ => return Err(LengthError::NotALength(typed.to_owned())),
        };
        if mm > 0.0 && mm.is_finite() {
            Ok(Self(mm))
        } else {
            Err(LengthError::NotPositive(typed.to_owned()))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_read_with_their_units() {
        for (typed, mm) in [
            ("5", 5.0),
            ("5 mm", 5.0),
            ("0,5cm", 5.0),
            ("500 µm", 0.5),
            ("500um", 0.5),
            ("1 in", 25.4),
            ("0.5\"", 12.7),
        ] {
            assert_eq!(typed.parse(), Ok(Millimetres(mm)), "{typed}");
        }
    }

    #[test]
    fn what_is_no_length_is_refused() {
        for typed in ["", "mm", "five mm", "5 furlongs", "0 mm", "-1 mm", "1e3"] {
            assert!(typed.parse::<Millimetres>().is_err(), "{typed}");
        }
    }
}
