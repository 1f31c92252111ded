//! The languages that the window speaks.

use serde::{Deserialize, Serialize};
use unic_langid::{LanguageIdentifier, langid};

/// A language that the window speaks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[expect(
    clippy::unsafe_derive_deserialize,
    reason = "the macro that checks a tag while compiling makes it without checking again"
)]
pub enum Language {
    /// English, in which every text is written first.
    #[serde(rename = "en")]
    English,
    /// German.
    #[serde(rename = "de")]
    German,
    /// Spanish.
    #[serde(rename = "es")]
    Spanish,
}

impl Language {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::English, Self::German, Self::Spanish];

    /// What it calls itself.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::German => "Deutsch",
            Self::Spanish => "Español",
        }
    }

    /// Its tag (BCP 47).
    pub(super) const fn tag(self) -> LanguageIdentifier {
        match self {
            Self::English => langid!("en-GB"),
            Self::German => langid!("de"),
            Self::Spanish => langid!("es"),
        }
    }

    /// The first of a system's languages, given by their tags, that the window speaks; English where it
    /// speaks none.
    #[must_use]
    pub fn of_tags(tags: impl IntoIterator<Item = String>) -> Self {
        tags.into_iter()
            .filter_map(|tag| tag.parse::<LanguageIdentifier>().ok())
            .find_map(|tag| {
                Self::ALL
                    .into_iter()
                    .find(|language| language.tag().language == tag.language)
            })
            .unwrap_or(Self::English)
    }

    /// What separates a figure's decimals.
    pub(super) const fn decimal_mark(self) -> char {
        match self {
            Self::English => '.',
            Self::German | Self::Spanish => ',',
        }
    }

    /// Whether nouns have a capital wherever they stand.
    #[cfg(feature = "window")]
    pub(super) const fn has_capital_nouns(self) -> bool {
        matches!(self, Self::German)
    }

    /// Its texts.
    pub(super) const fn texts(self) -> &'static str {
        match self {
            Self::English => include_str!("../../assets/wording/en.ftl"),
            Self::German => include_str!("../../assets/wording/de.ftl"),
            Self::Spanish => include_str!("../../assets/wording/es.ftl"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_language_that_is_spoken_is_taken() {
        let of = |tags: &[&str]| Language::of_tags(tags.iter().map(|tag| (*tag).to_owned()));
        assert_eq!(of(&["de-AT"]), Language::German);
        assert_eq!(of(&["fr-FR", "es-MX", "de"]), Language::Spanish);
        assert_eq!(of(&["en-US", "de"]), Language::English);
        assert_eq!(of(&["fr", "not a tag"]), Language::English);
        assert_eq!(of(&[]), Language::English);
    }
}
