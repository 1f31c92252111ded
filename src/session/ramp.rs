//! Colours for a measure: evenly lighter from low to high, so that they are told apart in grey and by the
//! colour-blind too.

use palette::{FromColor as _, Oklch, Srgb};

/// Lightness, chroma and hue (degrees) at the low end and at the high end, in Oklab's polar form
/// (Ottosson 2020, A perceptual color space for image processing): from a dark blue to a pale yellow.
const LOW: [f32; 3] = [0.38, 0.11, 275.0];
const HIGH: [f32; 3] = [0.93, 0.13, 105.0];

/// The colour at a share of the way from low to high, 0–1.
#[must_use]
pub fn ramp(share: f32) -> [u8; 3] {
    let share = share.clamp(0.0, 1.0);
    let [lightness, chroma, hue] = [0, 1, 2].map(|k| LOW[k] + share * (HIGH[k] - LOW[k]));
    let colour: Srgb<u8> = Srgb::from_color(Oklch::new(lightness, chroma, hue)).into_format();
    [colour.red, colour.green, colour.blue]
}

#[cfg(test)]
mod tests {
    use super::*;
    use palette::Lab;

    /// CIE L* (CIE 15) of each colour lies above that of the one before, by steps that differ little.
    #[test]
    fn the_ramp_grows_lighter_evenly() {
        let lightness: Vec<f32> = (0..=10_u8)
            .map(|k| {
                let [red, green, blue] = ramp(f32::from(k) / 10.0);
                let colour = Srgb::new(red, green, blue).into_format::<f32>();
                Lab::<palette::white_point::D65, f32>::from_color(colour).l
            })
            .collect();
        for pair in lightness.windows(2) {
            let step = pair[1] - pair[0];
            assert!((3.0..10.0).contains(&step), "{lightness:?}");
        }
    }
}
