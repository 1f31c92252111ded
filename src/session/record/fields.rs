//! The fields of a voucher that the window offers, in plain words.

use crate::book::{DECAY_STAGES, HOST_WOODS, SUBSTRATES};
use crate::wording::{self, text};

/// The name, which keeps its history and is set apart from other fields.
pub const NAME: &str = "scientificName";
/// `cf.` or `aff.` before the epithet.
pub const QUALIFIER: &str = "identificationQualifier";
/// Who gave the name.
pub const NAMED_BY: &str = "identifiedBy";
/// Why it was given.
pub(super) const REASON: &str = "identificationRemarks";
/// The number on the packet.
pub const NUMBER: &str = "catalogNumber";
pub(super) const WALK: &str = "eventID";
pub(super) const PLACE: &str = "locality";
pub(super) const DATE: &str = "eventDate";
pub(super) const LATITUDE: &str = "decimalLatitude";
pub(super) const LONGITUDE: &str = "decimalLongitude";
pub(super) const WITHIN: &str = "coordinateUncertaintyInMeters";

/// Qualifiers of a name (Darwin Core, `identificationQualifier`).
const QUALIFIERS: [&str; 2] = ["cf.", "aff."];

/// How a field is filled in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Entry {
    /// One line of text.
    Line,
    /// A number.
    Number,
    /// Several lines of text.
    Lines,
    /// One of the book's walks, or nothing.
    Walk,
    /// One of these, or nothing.
    Choice(&'static [&'static str]),
}

/// Where a field stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Who found it, when and where.
    Found,
    /// What it looked like and grew on.
    Specimen,
    /// What it was called.
    Named,
    /// Seldom filled in.
    More,
}

/// A field of the form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Field {
    /// Its name in the book's files.
    pub term: &'static str,
    label: &'static str,
    hint: &'static str,
    /// How it is filled in.
    pub entry: Entry,
    /// Where it stands.
    pub part: Part,
}

impl Field {
    /// Its name for people.
    #[must_use]
    pub fn label(&self) -> &'static str {
        wording::said(self.label)
    }

    /// What to write in it; also what is said where something else stands there.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        wording::said(self.hint)
    }
}

const fn field(
    part: Part,
    term: &'static str,
    label: &'static str,
    hint: &'static str,
    entry: Entry,
) -> Field {
    Field {
        term,
        label,
        hint,
        entry,
        part,
    }
}

/// All fields, in the order of the form.
pub const FIELDS: [Field; 27] = {
    use Entry::{Choice, Line, Lines, Number, Walk};
    use Part::{Found, More, Named, Specimen};
    [
        field(
            Found,
            NUMBER,
            "catalogue-number",
            "such-as-af-2026-0001",
            Line,
        ),
        field(Found, DATE, "date-found", "such-as-2026-10-04", Line),
        field(
            Found,
            "recordedBy",
            "found-by",
            "names-with-between-them",
            Line,
        ),
        field(Found, PLACE, "place", "in-words", Line),
        field(
            Found,
            LATITUDE,
            "latitude-degrees",
            "from-90-to-90-such-as",
            Number,
        ),
        field(
            Found,
            LONGITUDE,
            "longitude-degrees",
            "from-180-to-180-such-as",
            Number,
        ),
        field(
            Found,
            WITHIN,
            "coordinates-hold-within-m",
            "more-than-0-such-as-50",
            Number,
        ),
        field(Found, "habitat", "habitat", "such-as-alder-carr", Line),
        field(Found, WALK, "walk", "", Walk),
        field(Specimen, "hostWood", "host-wood", "", Choice(&HOST_WOODS)),
        field(
            Specimen,
            "hostTaxon",
            "host-tree",
            "such-as-fagus-sylvatica",
            Line,
        ),
        field(Specimen, "substrate", "grew-from", "", Choice(&SUBSTRATES)),
        field(
            Specimen,
            "decayStage",
            "decay-of-the-wood-1-sound",
            "",
            Choice(&DECAY_STAGES),
        ),
        field(
            Specimen,
            "capWidthCm",
            "cap-width-cm",
            "more-than-0-such-as-4",
            Number,
        ),
        field(
            Specimen,
            "undersideColour",
            "colour-of-the-underside",
            "such-as-cream",
            Line,
        ),
        field(
            Named,
            NAME,
            "scientific-name",
            "such-as-trametes-hirsuta",
            Line,
        ),
        field(
            Named,
            QUALIFIER,
            "doubt-about-the-name",
            "",
            Choice(&QUALIFIERS),
        ),
        field(Named, NAMED_BY, "named-by", "whoever-gave-the-name", Line),
        field(
            Named,
            REASON,
            "reason-for-the-name",
            "such-as-3-to-4-pores",
            Line,
        ),
        field(Named, "occurrenceRemarks", "notes", "", Lines),
        field(
            More,
            "capZonation",
            "zones-on-the-cap",
            "such-as-narrow-brown-and-grey",
            Line,
        ),
        field(
            More,
            "hairiness",
            "hairs-on-the-cap",
            "such-as-velvety",
            Line,
        ),
        field(
            More,
            "flexibility",
            "how-the-cap-bends",
            "such-as-like-leather",
            Line,
        ),
        field(More, "smell", "smell-when-fresh", "such-as-anise", Line),
        field(
            More,
            "sporePrint",
            "colour-of-the-spore-print",
            "such-as-white",
            Line,
        ),
        field(
            More,
            "disposition",
            "where-it-is-kept",
            "such-as-in-collection",
            Line,
        ),
        field(
            More,
            "countryCode",
            "country",
            "two-letters-such-as-gb",
            Line,
        ),
    ]
};

/// What a key of the book's files is called in the window.
pub(super) fn label(key: &str) -> &str {
    let of_form = FIELDS.iter().find(|field| field.term == key);
    match (of_form, key) {
        (Some(field), _) => field.label(),
        (None, "photos") => text!("photos"),
        (None, "measurements") => text!("measurements"),
        (None, "formerDeterminations") => text!("names-it-had-before"),
        (None, "dateIdentified") => text!("date-of-the-name"),
        (None, "dataGeneralizations") => text!("what-was-done-to-the-place"),
        (None, "geodeticDatum") => text!("datum-of-the-coordinates"),
        (None, other) => other,
    }
}
