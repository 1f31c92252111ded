//! What one calls a colour.
//!
//! CIELAB is parted among the [`NAMES`]: a colour bears the name of the one it differs least from by
//! CIEDE2000. The words are those in which handbooks describe the undersides of brackets (the same
//! stems that [`crate::ranges`] reads there). No handbook says where one word ends and the next begins:
//! the places, and with them the boundaries half-way between neighbours, are ours.

use super::Lab;

/// A word and the colour it stands for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Name {
    /// The word.
    pub word: &'static str,
    /// Its place in CIELAB, D65.
    pub lab: Lab,
}

const fn name(word: &'static str, l: f64, a: f64, b: f64) -> Name {
    Name {
        word,
        lab: Lab { l, a, b },
    }
}

/// Every word with its place, from light to dark within a family.
pub const NAMES: [Name; 28] = [
    name("whitish", 93.0, 0.0, 4.0),
    name("cream", 88.0, 1.0, 15.0),
    name("buff", 77.0, 4.0, 21.0),
    name("straw yellow", 86.0, -1.0, 36.0),
    name("yellow", 80.0, 4.0, 66.0),
    name("orange", 64.0, 36.0, 58.0),
    name("ochre", 62.0, 13.0, 44.0),
    name("tan", 63.0, 8.0, 25.0),
    name("cinnamon", 52.0, 18.0, 32.0),
    name("rusty brown", 42.0, 22.0, 34.0),
    name("brown", 42.0, 10.0, 22.0),
    name("reddish brown", 38.0, 22.0, 18.0),
    name("dark brown", 25.0, 8.0, 12.0),
    name("greyish brown", 52.0, 4.0, 11.0),
    name("pinkish buff", 72.0, 13.0, 16.0),
    name("pinkish", 75.0, 16.0, 5.0),
    name("red", 44.0, 44.0, 26.0),
    name("pale violet", 74.0, 10.0, -8.0),
    name("violet grey", 56.0, 8.0, -5.0),
    name("violet", 42.0, 24.0, -20.0),
    name("purplish brown", 34.0, 13.0, -1.0),
    name("pale grey", 78.0, 0.0, 2.0),
    name("grey", 57.0, 0.0, 2.0),
    name("bluish grey", 58.0, -4.0, -11.0),
    name("dark grey", 36.0, 0.0, 1.0),
    name("blackish", 14.0, 0.0, 0.0),
    name("olive", 46.0, -7.0, 27.0),
    name("greenish", 60.0, -18.0, 14.0),
];

/// The name nearest to a colour.
pub(super) fn nearest(lab: Lab) -> Name {
    let mut best = NAMES[0];
    for other in NAMES {
        if lab.difference(other.lab) < lab.difference(best.lab) {
            best = other;
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_lies_in_its_own_part_and_well_away_from_the_others() {
        for name in NAMES {
            assert_eq!(nearest(name.lab), name);
            for other in NAMES.into_iter().filter(|other| *other != name) {
                // A boundary at least two just visible steps from either.
                let apart = name.lab.difference(other.lab);
                assert!(apart > 4.0, "{} and {}: {apart}", name.word, other.word);
            }
        }
    }
}
