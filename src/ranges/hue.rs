//! Colours as handbooks write them, sorted into a few families that can be compared.

use std::collections::BTreeSet;

/// A family of colours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hue {
    /// White, whitish, ivory.
    White,
    /// Cream, buff, straw, beige.
    Cream,
    /// Yellow, sulphur.
    Yellow,
    /// Orange.
    Orange,
    /// Ochre, tan, cinnamon, golden.
    Ochre,
    /// Brown, rusty, fulvous.
    Brown,
    /// Red, coral, maroon.
    Red,
    /// Pink, rose.
    Pink,
    /// Violet, purple.
    Violet,
    /// Grey, smoky, ashy, bluish grey.
    Grey,
    /// Green, olive.
    Green,
    /// Black.
    Black,
}

/// Beginnings of words, as handbooks write colours, and the family they stand for.
const STEMS: [(&str, Hue); 35] = [
    ("white", Hue::White),
    ("whitish", Hue::White),
    ("ivory", Hue::White),
    ("milk", Hue::White),
    ("cream", Hue::Cream),
    ("buff", Hue::Cream),
    ("straw", Hue::Cream),
    ("beige", Hue::Cream),
    ("yellow", Hue::Yellow),
    ("sulphur", Hue::Yellow),
    ("lemon", Hue::Yellow),
    ("orange", Hue::Orange),
    ("ochr", Hue::Ochre),
    ("tan", Hue::Ochre),
    ("cinnamon", Hue::Ochre),
    ("golden", Hue::Ochre),
    ("brown", Hue::Brown),
    ("rust", Hue::Brown),
    ("ferrugin", Hue::Brown),
    ("fulvous", Hue::Brown),
    ("red", Hue::Red),
    ("coral", Hue::Red),
    ("maroon", Hue::Red),
    ("pink", Hue::Pink),
    ("rose", Hue::Pink),
    ("purpl", Hue::Violet),
    ("violet", Hue::Violet),
    ("violace", Hue::Violet),
    ("grey", Hue::Grey),
    ("gray", Hue::Grey),
    ("ash", Hue::Grey),
    ("smok", Hue::Grey),
    ("green", Hue::Green),
    ("olive", Hue::Green),
    ("black", Hue::Black),
];

/// Families that two observers may call the same surface by (`common practice, no source`).
const NEIGHBOURS: [(Hue, Hue); 14] = [
    (Hue::White, Hue::Cream),
    (Hue::Cream, Hue::Yellow),
    (Hue::Cream, Hue::Ochre),
    (Hue::Cream, Hue::Pink),
    (Hue::Yellow, Hue::Orange),
    (Hue::Orange, Hue::Ochre),
    (Hue::Orange, Hue::Red),
    (Hue::Ochre, Hue::Brown),
    (Hue::Brown, Hue::Red),
    (Hue::Brown, Hue::Black),
    (Hue::Pink, Hue::Violet),
    (Hue::White, Hue::Grey),
    (Hue::Grey, Hue::Black),
    (Hue::Brown, Hue::Green),
];

impl Hue {
    /// Whether two observers may call the same surface by either.
    #[must_use]
    pub fn is_near(self, other: Self) -> bool {
        NEIGHBOURS.contains(&(self, other)) || NEIGHBOURS.contains(&(other, self))
    }
}

/// The families named in a description such as `cream to ashy grey`; what a surface becomes with age
/// or bruising counts too.
#[must_use]
pub fn hues(description: &str) -> BTreeSet<Hue> {
    description
        .to_lowercase()
        .split(|c: char| !c.is_alphabetic())
        .filter(|word| !word.is_empty())
        .flat_map(|word| {
            STEMS
                .iter()
                .filter(move |(stem, _)| word.starts_with(stem))
                .map(|(_, hue)| *hue)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(description: &str) -> Vec<Hue> {
        hues(description).into_iter().collect()
    }

    #[test]
    fn descriptions_are_sorted_into_families() {
        assert_eq!(of("cream to ashy grey"), [Hue::Cream, Hue::Grey]);
        assert_eq!(of("whitish, browning"), [Hue::White, Hue::Brown]);
        assert_eq!(
            of("grey-brown to reddish or purplish brown"),
            [Hue::Brown, Hue::Red, Hue::Violet, Hue::Grey]
        );
        assert_eq!(of("bluish"), []);
        assert_eq!(of(""), []);
    }

    #[test]
    fn every_word_for_a_colour_that_was_seen_has_a_family() {
        for name in crate::colour::NAMES {
            assert!(!of(name.word).is_empty(), "{}", name.word);
        }
    }

    #[test]
    fn nearness_goes_both_ways_and_nothing_is_near_itself() {
        for (a, b) in NEIGHBOURS {
            assert!(a.is_near(b) && b.is_near(a), "{a:?} {b:?}");
            assert_ne!(a, b);
        }
        assert!(!Hue::White.is_near(Hue::Black));
    }
}
