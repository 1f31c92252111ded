//! What the window says, in the person's language.
//!
//! All of it stands in `assets/wording`, one file per language in the syntax of Fluent
//! (<https://projectfluent.org/fluent/guide/>); the code names a text by its id. A text that a language
//! lacks is said in English. Files, the command line and what errors tell are in English everywhere,
//! because they go from hand to hand.

mod language;

pub use language::Language;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentError, FluentResource, FluentValue};
use fluent_syntax::ast::Entry;
use std::collections::HashMap;
use std::io;
use std::path;
use std::sync::LazyLock;
use std::sync::atomic::{AtomicUsize, Ordering};

/// A text of the window: `text!("undo")`, or with what is to be filled in,
/// `text!("photos-left", count = 3)`. The first is a `&'static str`, the second a `String`.
macro_rules! text {
    ($id:literal) => {
        $crate::wording::said($id)
    };
    ($id:expr, $($name:ident = $value:expr),+ $(,)?) => {
        $crate::wording::filled($id, [$((
            stringify!($name),
            $crate::wording::Filling::filling(&$value),
        )),+])
    };
}
pub(crate) use text;

/// What can be filled into a text; numbers choose between one and many.
pub(crate) trait Filling {
    /// As Fluent takes it.
    fn filling(&self) -> FluentValue<'_>;
}

impl<T: Filling + ?Sized> Filling for &T {
    fn filling(&self) -> FluentValue<'_> {
        (**self).filling()
    }
}

impl Filling for str {
    fn filling(&self) -> FluentValue<'_> {
        self.into()
    }
}

impl Filling for String {
    fn filling(&self) -> FluentValue<'_> {
        self.as_str().into()
    }
}

impl Filling for path::Display<'_> {
    fn filling(&self) -> FluentValue<'_> {
        self.to_string().into()
    }
}

impl Filling for io::Error {
    fn filling(&self) -> FluentValue<'_> {
        self.to_string().into()
    }
}

macro_rules! numbers {
    ($($number:ty)+) => {$(
        impl Filling for $number {
            fn filling(&self) -> FluentValue<'_> {
                self.into()
            }
        }
    )+};
}
numbers!(u16 u32 u64 usize i32);

/// The texts of one language.
struct Catalogue {
    bundle: FluentBundle<FluentResource>,
    /// Texts in which nothing is filled in, by id; the other words of an action by `id.words`.
    whole: HashMap<String, &'static str>,
    /// Their ids, by what they say.
    ids: HashMap<&'static str, String>,
}

impl Catalogue {
    fn of(language: Language) -> Self {
        // What is wrong in a file that is shipped is found by the tests below.
        let texts = FluentResource::try_new(language.texts().to_owned());
        let texts = texts.unwrap_or_else(|(texts, _)| texts);
        let mut bundle = FluentBundle::new_concurrent(vec![language.tag()]);
        // Marks around what is filled in are for writing from right to left, which no language here is.
        bundle.set_use_isolating(false);
        let mut whole = HashMap::new();
        let ids: Vec<(String, Vec<String>)> = texts
            .entries()
            .filter_map(|entry| match entry {
                Entry::Message(message) => Some((
                    message.id.name.to_owned(),
                    message
                        .attributes
                        .iter()
                        .map(|a| a.id.name.to_owned())
                        .collect(),
                )),
                _ => None,
            })
            .collect();
        drop(bundle.add_resource(texts));
        for (id, attributes) in ids {
            for attribute in &attributes {
                if let Some(said) = formatted(&bundle, &id, Some(attribute), None) {
                    whole.insert(format!("{id}.{attribute}"), &*said.leak());
                }
            }
            if let Some(said) = formatted(&bundle, &id, None, None) {
                whole.insert(id, &*said.leak());
            }
        }
        let ids = whole.iter().map(|(id, said)| (*said, id.clone())).collect();
        Self { bundle, whole, ids }
    }
}

/// A text; `None` where there is no such text, or where something is to be filled in that is not given.
fn formatted(
    bundle: &FluentBundle<FluentResource>,
    id: &str,
    attribute: Option<&str>,
    fillings: Option<&FluentArgs<'_>>,
) -> Option<String> {
    let message = bundle.get_message(id)?;
    let pattern = match attribute {
        Some(attribute) => message.get_attribute(attribute)?.value(),
        None => message.value()?,
    };
    let mut errors: Vec<FluentError> = Vec::new();
    let said = bundle.format_pattern(pattern, fillings, &mut errors);
    errors.is_empty().then(|| said.into_owned())
}

static CATALOGUES: [LazyLock<Catalogue>; Language::ALL.len()] = [
    LazyLock::new(|| Catalogue::of(Language::English)),
    LazyLock::new(|| Catalogue::of(Language::German)),
    LazyLock::new(|| Catalogue::of(Language::Spanish)),
];

/// The place in [`Language::ALL`] of the language that is spoken.
static SPOKEN: AtomicUsize = AtomicUsize::new(0);

fn catalogue(language: Language) -> &'static Catalogue {
    &CATALOGUES[language as usize]
}

/// What the window is to speak from now on.
pub fn speak(language: Language) {
    SPOKEN.store(language as usize, Ordering::Relaxed);
}

/// What the window speaks.
#[must_use]
pub fn spoken() -> Language {
    Language::ALL[SPOKEN.load(Ordering::Relaxed)]
}

/// The spoken language's catalogue, then the English one.
fn catalogues() -> impl Iterator<Item = &'static Catalogue> {
    [spoken(), Language::English].into_iter().map(catalogue)
}

/// A text in which nothing is filled in.
pub(crate) fn said(id: &'static str) -> &'static str {
    catalogues()
        .find_map(|catalogue| catalogue.whole.get(id).copied())
        .unwrap_or(id)
}

/// Other words by which what a text names may be looked for, in the spoken language and in English, and
/// what it is called in English.
#[cfg(feature = "window")]
pub(crate) fn beside(id: &str) -> String {
    let words = format!("{id}.words");
    let english = catalogue(Language::English);
    let texts = [
        catalogue(spoken()).whole.get(&words),
        english.whole.get(&words),
        english.whole.get(id),
    ];
    let texts: Vec<&str> = texts.into_iter().flatten().copied().collect();
    texts.join(" ")
}

/// A text with something filled in.
pub(crate) fn filled<const N: usize>(
    id: &str,
    fillings: [(&'static str, FluentValue<'_>); N],
) -> String {
    let fillings: FluentArgs = fillings.into_iter().collect();
    catalogues()
        .find_map(|catalogue| formatted(&catalogue.bundle, id, None, Some(&fillings)))
        .unwrap_or_else(|| id.to_owned())
}

/// A word of the engine, which speaks English, in the language of the window; as it stands where no text
/// of the window says the same.
pub(crate) fn word(english: &str) -> &str {
    let id = catalogue(Language::English).ids.get(english);
    id.and_then(|id| catalogue(spoken()).whole.get(id).copied())
        .unwrap_or(english)
}

/// A name that stands by itself with a capital, as it is written within a sentence.
#[cfg(feature = "window")]
pub(crate) fn mid_sentence(name: &str) -> String {
    if spoken().has_capital_nouns() {
        name.to_owned()
    } else {
        name.to_lowercase()
    }
}

/// A figure in the digits of the engine, with the decimal mark of the language.
pub(crate) fn digits(figure: String) -> String {
    match spoken().decimal_mark() {
        '.' => figure,
        mark => figure.replace('.', &mark.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fluent_syntax::ast::{Expression, InlineExpression, Pattern, PatternElement};
    use std::collections::{BTreeMap, BTreeSet};
    use std::fs;
    use std::path::{Path, PathBuf};

    fn inline(expression: &InlineExpression<&str>, names: &mut BTreeSet<String>) {
        match expression {
            InlineExpression::VariableReference { id } => {
                names.insert(id.name.to_owned());
            }
            InlineExpression::Placeable { expression } => placeable(expression, names),
            _ => {}
        }
    }

    fn placeable(expression: &Expression<&str>, names: &mut BTreeSet<String>) {
        match expression {
            Expression::Inline(expression) => inline(expression, names),
            Expression::Select { selector, variants } => {
                inline(selector, names);
                for variant in variants {
                    pattern(&variant.value, names);
                }
            }
        }
    }

    fn pattern(pattern: &Pattern<&str>, names: &mut BTreeSet<String>) {
        for element in &pattern.elements {
            if let PatternElement::Placeable { expression } = element {
                placeable(expression, names);
            }
        }
    }

    /// What is filled into each text, by id, and whether it bears other words.
    fn fillings(language: Language) -> BTreeMap<String, (BTreeSet<String>, bool)> {
        let texts = FluentResource::try_new(language.texts().to_owned());
        let texts = texts.unwrap_or_else(|(_, errors)| panic!("{language:?}: {errors:?}"));
        let mut all = BTreeMap::new();
        for entry in texts.entries() {
            if let Entry::Message(message) = entry {
                let mut names = BTreeSet::new();
                pattern(message.value.as_ref().expect("a text"), &mut names);
                let before = all.insert(
                    message.id.name.to_owned(),
                    (names, !message.attributes.is_empty()),
                );
                assert!(
                    before.is_none(),
                    "{language:?} has {} twice",
                    message.id.name
                );
            }
        }
        all
    }

    #[test]
    fn every_language_says_everything_that_english_says() {
        let english = fillings(Language::English);
        for language in Language::ALL {
            let other = fillings(language);
            for (id, filled) in &english {
                assert_eq!(other.get(id), Some(filled), "{language:?}: {id}");
            }
            assert_eq!(other.len(), english.len(), "{language:?} says more");
        }
    }

    fn sources(folder: &Path, files: &mut Vec<PathBuf>) {
        for entry in fs::read_dir(folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                sources(&path, files);
            } else {
                files.push(path);
            }
        }
    }

    #[test]
    fn every_text_that_is_named_is_there_and_none_is_left_over() {
        let mut files = Vec::new();
        for folder in ["src/app", "src/session"] {
            sources(
                &Path::new(env!("CARGO_MANIFEST_DIR")).join(folder),
                &mut files,
            );
        }
        let code: String = files
            .iter()
            .map(|file| fs::read_to_string(file).expect("a source"))
            .collect();
        let english = fillings(Language::English);
        let call = regex::Regex::new(r#"text!\(\s*"([^"]+)"((?:,\s*[a-z_0-9]+\s*=)?)"#)
            .expect("a pattern");
        for found in call.captures_iter(&code) {
            let (id, is_filled) = (&found[1], !found[2].is_empty());
            let (names, _) = english
                .get(id)
                .unwrap_or_else(|| panic!("there is no {id}"));
            assert_eq!(!names.is_empty(), is_filled, "{id}");
        }
        for id in english.keys().filter(|id| !id.starts_with("word-")) {
            assert!(code.contains(&format!("\"{id}\"")), "{id} is left over");
        }
    }

    #[test]
    fn words_of_the_engine_are_said_in_the_language_that_is_spoken() {
        use crate::surface::SurfaceType;
        for english in [
            SurfaceType::Poroid.word(),
            SurfaceType::MazeLike.word(),
            crate::progress::Stage::Segmentation.label(),
            crate::ranges::Agreement::SpeaksAgainst.label(),
        ] {
            let id = &catalogue(Language::English).ids[english];
            assert_ne!(catalogue(Language::German).whole[id], english);
            assert_ne!(catalogue(Language::Spanish).whole[id], english);
        }
        for name in crate::colour::NAMES {
            assert!(
                catalogue(Language::English).ids.contains_key(name.word),
                "{}",
                name.word
            );
        }
        assert_eq!(word("no such word"), "no such word");
    }

    #[test]
    fn numbers_choose_between_one_and_many() {
        let said = |count: usize| text!("things-to-look-at", count = count);
        assert_eq!(said(0), "Nothing is wrong in the book");
        assert_eq!(said(1), "One thing to look at");
        assert_eq!(said(21), "21 things to look at");
    }
}
