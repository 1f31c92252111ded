//! Surface colour: the mean CIELAB of the walls, without what the hollows mix into it.
//!
//! [`Tissue`] is what the photo shows, in linear light; [`Colour`] follows from it and, where there is
//! one, from a [`White`]. So another white needs no second look at the photo.
//!
//! Without a white the photo is taken at its word: sRGB, as its camera balanced it. With one, linear
//! red, green and blue are each divided by those of the white (the rule of von Kries 1902, in the
//! primaries of sRGB) and multiplied by [`WHITE_LIGHTNESS`]'s luminance. Light falls off across photos
//! and that is not taken out, so a white has to lie beside the surface, in the same light.

mod lab;
mod tissue;
mod violet;
mod white;
mod words;

pub use lab::Lab;
pub use tissue::{Patch, Tissue};
pub use white::{WHITE_LIGHTNESS, White, WhiteError, WhiteSource};
pub use words::{NAMES, Name};

/// Share of the walls with a violet tint from which on it belongs into the words.
const WORTH_A_WORD: f64 = 0.1;

/// The colour of a surface's walls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Colour {
    /// Colour of the walls' mean light.
    pub lab: Lab,
    /// What comes nearest to it of all that has a name.
    pub name: &'static str,
    /// Share of the walls with a violet tint, 0–1.
    pub violet_share: f64,
    /// What it was referred to; without, the colour is indicative only.
    pub white: Option<WhiteSource>,
}

impl Colour {
    /// The colour that follows from the light of the walls and a white.
    #[must_use]
    pub fn of(tissue: &Tissue, white: Option<&White>) -> Self {
        let lab = |light: [f64; 3]| {
            Lab::of_light(white.map_or(light, |white| white.reflectance_of(light)))
        };
        let mean = lab(tissue.light);
        Self {
            lab: mean,
            name: words::nearest(mean).word,
            violet_share: violet::share(&tissue.patches, lab),
            white: white.map(|white| white.source),
        }
    }

    /// The colour in plain words, `buff, in part with a violet tint`.
    #[must_use]
    pub fn words(&self) -> String {
        let is_said = ["violet", "purplish"]
            .iter()
            .any(|word| self.name.contains(word));
        if is_said || self.violet_share < WORTH_A_WORD {
            self.name.to_owned()
        } else if self.violet_share < 1.0 - WORTH_A_WORD {
            format!("{}, in part with a violet tint", self.name)
        } else {
            format!("{} with a violet tint", self.name)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tissue(light: [f64; 3]) -> Tissue {
        Tissue {
            light,
            patches: vec![
                Patch {
                    halves: [light; 2],
                    pixels: 100.0,
                };
                9
            ],
        }
    }

    #[test]
    fn the_white_takes_the_lamp_out() {
        let (surface, lamp) = ([0.5, 0.35, 0.2], [0.9, 0.7, 0.4]);
        let paper = White {
            light: lamp.map(|l| 0.875 * l),
            source: WhiteSource::Patch,
        };
        let lit = [0, 1, 2].map(|c| surface[c] * lamp[c]);
        let seen = Colour::of(&tissue(lit), Some(&paper));
        // Paper of lightness 95 has a luminance of 0.8762 by the formula of CIELAB.
        let truth = Lab::of_light(surface.map(|s| s * 0.8762 / 0.875));
        assert!(seen.lab.difference(truth) < 0.01, "{seen:?}, {truth:?}");
        assert_eq!(seen.white, Some(WhiteSource::Patch));
        let bare = Colour::of(&tissue(lit), None);
        assert!(bare.lab.difference(truth) > 5.0, "{bare:?}");
        assert_eq!(bare.white, None);
    }

    #[test]
    fn the_white_itself_is_as_light_as_is_assumed_and_without_hue() {
        let light = [0.8, 0.6, 0.3];
        let white = White {
            light,
            source: WhiteSource::Card,
        };
        let lab = Colour::of(&tissue(light), Some(&white)).lab;
        assert!((lab.l - WHITE_LIGHTNESS).abs() < 0.01 && lab.chroma() < 0.02);
    }

    #[test]
    fn a_violet_tint_is_said_once() {
        let colour = |name, violet_share| Colour {
            lab: Lab::of_light([0.5; 3]),
            name,
            violet_share,
            white: None,
        };
        assert_eq!(colour("buff", 0.05).words(), "buff");
        assert_eq!(
            colour("buff", 0.4).words(),
            "buff, in part with a violet tint"
        );
        assert_eq!(colour("grey", 0.95).words(), "grey with a violet tint");
        assert_eq!(colour("violet grey", 0.95).words(), "violet grey");
    }
}
