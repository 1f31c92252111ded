//! The fields of a voucher that the window offers, in plain words.

use crate::book::{DECAY_STAGES, HOST_WOODS, SUBSTRATES};

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
    /// Its name for people.
    pub label: &'static str,
    /// What to write in it; also what is said where something else stands there.
    pub hint: &'static str,
    /// How it is filled in.
    pub entry: Entry,
    /// Where it stands.
    pub part: Part,
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
            "Catalogue number",
            "such as AF-2026-0001",
            Line,
        ),
        field(Found, DATE, "Date found", "such as 2026-10-04", Line),
        field(
            Found,
            "recordedBy",
            "Found by",
            "names, with | between them",
            Line,
        ),
        field(Found, PLACE, "Place", "in words", Line),
        field(
            Found,
            LATITUDE,
            "Latitude, °",
            "from -90 to 90, such as 52.64",
            Number,
        ),
        field(
            Found,
            LONGITUDE,
            "Longitude, °",
            "from -180 to 180, such as -1.14",
            Number,
        ),
        field(
            Found,
            WITHIN,
            "Coordinates hold within, m",
            "more than 0, such as 50",
            Number,
        ),
        field(Found, "habitat", "Habitat", "such as alder carr", Line),
        field(Found, WALK, "Walk", "", Walk),
        field(Specimen, "hostWood", "Host wood", "", Choice(&HOST_WOODS)),
        field(
            Specimen,
            "hostTaxon",
            "Host tree",
            "such as Fagus sylvatica",
            Line,
        ),
        field(Specimen, "substrate", "Grew from", "", Choice(&SUBSTRATES)),
        field(
            Specimen,
            "decayStage",
            "Decay of the wood, 1 sound to 5 crumbling",
            "",
            Choice(&DECAY_STAGES),
        ),
        field(
            Specimen,
            "capWidthCm",
            "Cap width, cm",
            "more than 0, such as 4.5",
            Number,
        ),
        field(
            Specimen,
            "undersideColour",
            "Colour of the underside",
            "such as cream",
            Line,
        ),
        field(
            Named,
            NAME,
            "Scientific name",
            "such as Trametes hirsuta",
            Line,
        ),
        field(
            Named,
            QUALIFIER,
            "Doubt about the name",
            "",
            Choice(&QUALIFIERS),
        ),
        field(Named, NAMED_BY, "Named by", "whoever gave the name", Line),
        field(
            Named,
            REASON,
            "Reason for the name",
            "such as 3 to 4 pores per mm, grey zones",
            Line,
        ),
        field(Named, "occurrenceRemarks", "Notes", "", Lines),
        field(
            More,
            "capZonation",
            "Zones on the cap",
            "such as narrow, brown and grey",
            Line,
        ),
        field(
            More,
            "hairiness",
            "Hairs on the cap",
            "such as velvety",
            Line,
        ),
        field(
            More,
            "flexibility",
            "How the cap bends",
            "such as like leather",
            Line,
        ),
        field(More, "smell", "Smell when fresh", "such as anise", Line),
        field(
            More,
            "sporePrint",
            "Colour of the spore print",
            "such as white",
            Line,
        ),
        field(
            More,
            "disposition",
            "Where it is kept",
            "such as in collection",
            Line,
        ),
        field(
            More,
            "countryCode",
            "Country",
            "two letters, such as GB",
            Line,
        ),
    ]
};

/// What a key of the book's files is called in the window.
pub(super) fn label(key: &str) -> &str {
    let of_form = FIELDS.iter().find(|field| field.term == key);
    match (of_form, key) {
        (Some(field), _) => field.label,
        (None, "photos") => "Photos",
        (None, "measurements") => "Measurements",
        (None, "formerDeterminations") => "Names it had before",
        (None, "dateIdentified") => "Date of the name",
        (None, "dataGeneralizations") => "What was done to the place",
        (None, "geodeticDatum") => "Datum of the coordinates",
        (None, other) => other,
    }
}
