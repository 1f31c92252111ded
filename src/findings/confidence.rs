//! What an interval says, in one plain sentence.

use crate::scale::Scale;
use crate::surface::SurfaceType;

/// Tells what an interval of `things` per mm, its ends as they are to be printed, means on a kind of
/// surface, and what is in it. Where it is known to hold the truth less often than it should, or where
/// that is not known, it does not speak of 95 % (`docs/how-far-to-trust.md` has the figures).
#[must_use]
pub fn confidence(
    kind: SurfaceType,
    [low, high]: [&str; 2],
    things: &str,
    scale: &Scale,
) -> String {
    let of_scale = if scale.standard_uncertainty > 0.0 {
        "and the uncertainty of the scale are in it"
    } else {
        "is in it; the scale is taken as exact"
    };
    let between = format!("between {low} and {high} {things} per mm");
    let within = format!("the unevenness from place to place {of_scale}");
    match kind {
        SurfaceType::MazeLike => format!(
            "Roughly {between}: {within}. On drawn mazes such an interval held the truth four times in five."
        ),
        SurfaceType::Gilled => format!(
            "Roughly {between}: {within}. How often such an interval of gills holds the truth was not tested."
        ),
        _ => format!("With 95 % confidence the surface has {between}: {within}."),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_tested_intervals_speak_of_95_per_cent() {
        let scale = Scale::given(20.0).expect("a scale");
        let of = |kind| confidence(kind, ["1.0", "1.1"], "pores", &scale);
        for kind in [SurfaceType::Poroid, SurfaceType::Toothed] {
            assert!(of(kind).contains("95 %"));
        }
        for kind in [SurfaceType::MazeLike, SurfaceType::Gilled] {
            assert!(!of(kind).contains("95 %") && of(kind).contains("truth"));
        }
    }
}
