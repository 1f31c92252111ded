//! What can be compared: the characters, and what was seen of them on one specimen.

use super::hue::{Hue, hues};
use crate::findings::{Estimate, Findings};
use crate::surface::SurfaceType;
use std::collections::BTreeSet;

/// A character that handbooks give and a recorder can see.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Character {
    /// Kind of underside.
    Surface,
    /// Pores per mm.
    PoresPerMm,
    /// Gills per mm.
    GillsPerMm,
    /// Width of a pore, mm.
    PoreWidth,
    /// Wood it grew on.
    Host,
    /// Colour of the underside.
    Colour,
    /// Width of the cap, cm.
    CapWidth,
}

impl Character {
    /// All, the weightiest first as handbooks' keys use them.
    pub const ALL: [Self; 7] = [
        Self::Surface,
        Self::PoresPerMm,
        Self::GillsPerMm,
        Self::PoreWidth,
        Self::Host,
        Self::Colour,
        Self::CapWidth,
    ];

    /// A few words for people.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Surface => "underside",
            Self::PoresPerMm => "pores per mm",
            Self::GillsPerMm => "gills per mm",
            Self::PoreWidth => "pore width",
            Self::Host => "host wood",
            Self::Colour => "colour of the underside",
            Self::CapWidth => "cap width",
        }
    }
}

/// What a character says of a row of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Agreement {
    /// It is what the source prints.
    Agrees,
    /// It is next to what the source prints.
    Near,
    /// It is not what the source prints.
    SpeaksAgainst,
}

impl Agreement {
    /// The words for it.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Agrees => "agrees",
            Self::Near => "near",
            Self::SpeaksAgainst => "speaks against",
        }
    }
}

/// Kind of wood.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wood {
    /// A broad-leaved tree.
    Hardwood,
    /// A conifer.
    Conifer,
}

impl Wood {
    /// The word used in records and tables.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Hardwood => "hardwood",
            Self::Conifer => "conifer",
        }
    }

    /// Reads that word.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        [Self::Hardwood, Self::Conifer]
            .into_iter()
            .find(|wood| wood.word().eq_ignore_ascii_case(word.trim()))
    }
}

/// What it grew on.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Host {
    /// Kind of wood, where known.
    pub wood: Option<Wood>,
    /// Genus of the tree, where known.
    pub genus: Option<String>,
}

/// What was seen on one specimen; whatever is `None` or empty is not compared.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Observation {
    /// Kind of underside; undecided counts as not seen.
    pub surface: Option<SurfaceType>,
    /// Pores per mm with the 95 % interval.
    pub pores_per_mm: Option<Estimate>,
    /// Gills per mm with the 95 % interval.
    pub gills_per_mm: Option<Estimate>,
    /// Mean width of a pore with the 95 % interval, mm.
    pub pore_width_mm: Option<Estimate>,
    /// What it grew on.
    pub host: Host,
    /// Colour of the underside in words.
    pub colour: Option<String>,
    /// Width of the widest cap, cm.
    pub cap_width_cm: Option<f64>,
}

impl Observation {
    /// What findings say; host, colour and cap are the recorder's to add.
    #[must_use]
    pub fn of(findings: &Findings) -> Self {
        let kind = findings.surface.kind;
        Self {
            surface: (kind != SurfaceType::Undecided).then_some(kind),
            pores_per_mm: findings.pores.as_ref().map(|pores| pores.per_mm),
            gills_per_mm: findings.gills.as_ref().map(|gills| gills.per_mm),
            pore_width_mm: findings.pores.as_ref().map(|pores| pores.diameter_mm.mean),
            ..Self::default()
        }
    }

    /// The colour's families.
    pub(super) fn hues(&self) -> BTreeSet<Hue> {
        self.colour.as_deref().map(hues).unwrap_or_default()
    }

    /// Whether a character was seen.
    #[must_use]
    pub fn has(&self, character: Character) -> bool {
        match character {
            Character::Surface => self.surface.is_some(),
            Character::PoresPerMm => self.pores_per_mm.is_some(),
            Character::GillsPerMm => self.gills_per_mm.is_some(),
            Character::PoreWidth => self.pore_width_mm.is_some(),
            Character::Host => self.host.wood.is_some() || self.host.genus.is_some(),
            Character::Colour => !self.hues().is_empty(),
            Character::CapWidth => self.cap_width_cm.is_some(),
        }
    }
}
