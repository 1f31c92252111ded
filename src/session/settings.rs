//! What a person set on one photo, as it is written down: everything of a document that is not derived
//! from the photo.

use super::document::Document;
use super::scale_setting::{Placed, ScaleSetting, ScaleWay};
use super::set_ups::SavedSetUp;
use super::white::MarkedWhite;
use crate::area::Area;
use crate::corrections::Corrections;
use crate::geometry::Point;
use crate::photo::Photo;
use crate::ruler::Graduation;
use crate::scale::Scale;
use crate::set_up::SetUp;
use crate::wording::text;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::Arc;

/// A photo that is open.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct OpenPhoto {
    /// Where it lies.
    pub path: PathBuf,
    /// What was set on it, once it has been looked at.
    pub settings: Option<Settings>,
}

/// Everything set on one photo, and whether it was measured. Places are in px of the picture.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Settings {
    /// SHA-256 of the photo's bytes.
    pub(super) sha256: String,
    scale: Entries,
    white: Option<MarkedWhite>,
    area: Area,
    area_is_chosen: bool,
    measured_anyway: BTreeSet<usize>,
    corrections: Corrections,
    /// Whether there were findings.
    pub is_measured: bool,
    /// Whether they were saved.
    pub is_saved: bool,
}

/// What was entered to tell the scale, in all ways.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct Entries {
    way: ScaleWay,
    first: Option<Placed>,
    second: Option<Placed>,
    length: String,
    px_per_mm: String,
    set_up: Option<NamedSetUp>,
    set_up_fits: bool,
    recorded: Option<Scale>,
    /// Whether a person said that the scale is right.
    is_confirmed: bool,
    bar: Option<usize>,
    bar_length: String,
    ruler: Option<[Point; 2]>,
    ticks: Option<Graduation>,
    corners: Vec<Placed>,
    sides: [String; 2],
    is_straightened: bool,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct NamedSetUp {
    name: String,
    set_up: SetUp,
}

impl Settings {
    /// What is set; `None` without a photo.
    pub(super) fn of(document: &Document, is_measured: bool, is_saved: bool) -> Option<Self> {
        let photo = document.photo.as_ref()?;
        let scale = &document.scale;
        let set_up = scale.set_up.as_deref().map(|saved| NamedSetUp {
            name: saved.name.clone(),
            set_up: saved.set_up.clone(),
        });
        Some(Self {
            sha256: photo.sha256.clone(),
            scale: Entries {
                way: scale.way,
                first: scale.first,
                second: scale.second,
                length: scale.length.clone(),
                px_per_mm: scale.px_per_mm.clone(),
                set_up,
                set_up_fits: scale.set_up_fits,
                recorded: scale.recorded,
                is_confirmed: scale.confirmed.is_some() && scale.confirmed == scale.scale(),
                bar: scale.bar,
                bar_length: scale.bar_length.clone(),
                ruler: scale.ruler,
                ticks: scale.ticks,
                corners: scale.corners.clone(),
                sides: scale.sides.clone(),
                is_straightened: scale.flat.is_some(),
            },
            white: document.white.clone(),
            area: document.area.clone(),
            area_is_chosen: document.area_is_chosen,
            measured_anyway: document.measured_anyway.clone(),
            corrections: Corrections::clone(&document.corrections),
            is_measured,
            is_saved,
        })
    }

    /// Whether they were set on this photo, as its file is now.
    pub(super) fn are_of(&self, photo: &Photo) -> bool {
        self.sha256 == photo.sha256
    }

    /// Sets the scale on the photo as it was opened, as far as nothing has to be found on it first;
    /// tells whether something has.
    pub(super) fn set_scale(&self, document: &mut Document) -> bool {
        let Some(photo) = &document.photo else {
            return false;
        };
        let entries = self.scale.clone();
        let set_up = entries.set_up.map(|named| {
            Arc::new(SavedSetUp {
                mismatch: named.set_up.check(photo).err(),
                name: named.name,
                set_up: named.set_up,
            })
        });
        document.scale = ScaleSetting {
            way: entries.way,
            first: entries.first,
            second: entries.second,
            length: entries.length,
            px_per_mm: entries.px_per_mm,
            set_up,
            set_up_fits: entries.set_up_fits,
            recorded: entries.recorded,
            bar_length: entries.bar_length,
            ruler: entries.ruler,
            ticks: entries.ticks,
            corners: entries.corners,
            sides: entries.sides,
            ..ScaleSetting::of(photo)
        };
        match entries.way {
            ScaleWay::Bar => entries.bar.is_some(),
            ScaleWay::Ruler => entries.ruler.is_some(),
            ScaleWay::Card | ScaleWay::Corners => entries.is_straightened,
            _ => false,
        }
    }

    /// Sets all else, once what the scale rests on has been found again.
    ///
    /// # Errors
    /// A sentence where the photo could not be straightened again, and what was drawn on the straightened
    /// picture has no place.
    pub(super) fn set_rest(self, document: &mut Document) -> Result<(), &'static str> {
        if self.scale.is_straightened && document.scale.flat.is_none() {
            return Err(text!("the-photo-could-not-be-straightened"));
        }
        document.scale.bar = self.scale.bar.or(document.scale.bar);
        document.white = self.white;
        document.area = self.area;
        document.area_is_chosen = self.area_is_chosen;
        document.measured_anyway = self.measured_anyway;
        document.corrections = Arc::new(self.corrections);
        if self.scale.is_confirmed {
            document.scale.say_yes();
        }
        Ok(())
    }
}
