//! The scale bar that lies over the photo on the screen.

use super::Session;
use crate::session::format::significant;
use crate::units::{Millimetres, Pixels};

/// A bar of a round length.
#[derive(Debug, Clone, PartialEq)]
pub struct ScaleBar {
    /// Its length on the fungus.
    pub length: Millimetres,
    /// Its length on the photo.
    pub on_photo: Pixels,
    /// Its length in words, `2 mm` or `500 µm`.
    pub label: String,
}

impl Session {
    /// The longest bar of a round length that is at most so long on the photo; `None` without a scale.
    #[must_use]
    pub fn scale_bar(&self, longest: Pixels) -> Option<ScaleBar> {
        let scale = self.document().scale.scale()?;
        let length = round_length(scale.millimetres(longest))?;
        Some(ScaleBar {
            length,
            on_photo: scale.pixels(length),
            label: label(length),
        })
    }
}

/// The greatest of 1, 2 or 5 times a power of ten that is no longer; `None` where there is no such.
fn round_length(longest: Millimetres) -> Option<Millimetres> {
    let power = longest.0.log10().floor();
    // Steps below 1 are divided by, for a tenth is no binary number and ten is.
    let step = |times: f64| {
        if power < 0.0 {
            times / 10_f64.powf(-power)
        } else {
            times * 10_f64.powf(power)
        }
    };
    let lengths = [5.0, 2.0, 1.0].map(step).into_iter();
    lengths
        .map(Millimetres)
        .find(|length| *length <= longest && length.0 > 0.0 && length.0.is_finite())
}

fn label(length: Millimetres) -> String {
    if length.0 < 1.0 {
        format!("{} µm", significant(1000.0 * length.0, 1))
    } else {
        format!("{} mm", significant(length.0, 1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_one_two_or_five_of_a_power_of_ten_and_as_long_as_there_is_room() {
        for (longest, length, words) in [
            (7.3, 5.0, "5 mm"),
            (5.0, 5.0, "5 mm"),
            (4.99, 2.0, "2 mm"),
            (1.9, 1.0, "1 mm"),
            (0.99, 0.5, "500 µm"),
            (0.2, 0.2, "200 µm"),
            (0.019, 0.01, "10 µm"),
            (0.0007, 0.0005, "0.5 µm"),
            (38.0, 20.0, "20 mm"),
            (640.0, 500.0, "500 mm"),
        ] {
            let found = round_length(Millimetres(longest)).expect("a length");
            assert!(
                (found.0 / length - 1.0).abs() < 1e-12,
                "{longest}: {found:?}"
            );
            assert_eq!(label(found), words);
        }
        for none in [0.0, f64::INFINITY, f64::NAN] {
            assert_eq!(round_length(Millimetres(none)), None, "{none}");
        }
    }
}
