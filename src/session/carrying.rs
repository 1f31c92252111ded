//! Carrying scale and area over from one open photo to the others.

use super::document::{Document, sentence};
use super::filmstrip::Kept;
use super::scale_setting::ScaleWay;
use super::set_ups::SavedSetUp;
use super::{Session, Tone, file_name};
use crate::area::Outline;
use crate::set_up::SetUp;
use crate::wording::text;
use std::sync::Arc;

/// What was carried over to a photo that has not been opened yet.
#[derive(Debug, Clone, Default)]
pub(super) struct Carried {
    scale: Option<CarriedScale>,
    area: Option<CarriedArea>,
}

/// A scale as a set-up, and of which photo.
#[derive(Debug, Clone)]
struct CarriedScale {
    from: String,
    set_up: SetUp,
}

/// An outline, and the size of the picture it was drawn on, px.
#[derive(Debug, Clone)]
struct CarriedArea {
    outline: Outline,
    size: (u32, u32),
}

impl CarriedScale {
    /// Sets the scale as that of a set-up; whether it fits is asked where it is in doubt.
    fn set(&self, document: &mut Document) {
        let Some(photo) = &document.photo else { return };
        let mismatch = self.set_up.check(photo).err();
        document.show_as_taken();
        document.scale.way = ScaleWay::SetUp;
        document.scale.set_up_fits = false;
        document.scale.set_up = Some(Arc::new(SavedSetUp {
            name: text!("scale-as-on-photo", photo = self.from),
            set_up: self.set_up.clone(),
            mismatch,
        }));
    }
}

impl CarriedArea {
    /// Sets the outline; whether it could be set.
    fn set(&self, document: &mut Document) -> bool {
        let fits = document
            .picture()
            .is_some_and(|picture| picture.rgb.dimensions() == self.size);
        if fits {
            document.area.outline = self.outline.clone();
            document.area_is_chosen = true;
        }
        fits
    }
}

impl Carried {
    /// Sets what was carried over on a photo that was opened; a sentence on what cannot be set.
    pub(super) fn set(self, document: &mut Document) -> Option<&'static str> {
        if let Some(scale) = self.scale {
            scale.set(document);
        }
        let fits = self.area.is_none_or(|area| area.set(document));
        (!fits).then_some(text!("the-area-was-not-carried-over"))
    }
}

impl Session {
    /// Why the scale cannot be carried over to the other photos; `None` when it can.
    #[must_use]
    pub fn why_not_carry_scale(&self) -> Option<String> {
        if self.strip.frames.len() < 2 {
            return Some(text!("open-more-photos-first").to_owned());
        }
        self.scale_to_carry().err()
    }

    /// Why the area cannot be carried over to the other photos; `None` when it can.
    #[must_use]
    pub fn why_not_carry_area(&self) -> Option<&'static str> {
        if self.strip.frames.len() < 2 {
            Some(text!("open-more-photos-first"))
        } else if self.document.scale.flat.is_some() {
            Some(text!("the-area-lies-on-a-straightened"))
        } else if matches!(self.document.area.outline, Outline::WholePhoto) {
            Some(text!("draw-an-area-first"))
        } else {
            None
        }
    }

    fn scale_to_carry(&self) -> Result<CarriedScale, String> {
        let setting = &self.document.scale;
        let from = self.document.photo.as_ref();
        let from = from.map_or_else(String::new, |photo| file_name(&photo.path));
        match (setting.way, &setting.set_up) {
            (ScaleWay::SetUp, Some(saved)) => Ok(CarriedScale {
                from,
                set_up: saved.set_up.clone(),
            }),
            (ScaleWay::Stated | ScaleWay::Recorded, _) => {
                Err(text!("what-is-written-of-this-photos").to_owned())
            }
            _ => match self.new_set_up(String::new()) {
                None => Err(text!("set-the-scale-first").to_owned()),
                Some(Err(error)) => Err(sentence(&error)),
                Some(Ok(set_up)) => Ok(CarriedScale { from, set_up }),
            },
        }
    }

    /// The scale as a set-up for other photos, or why it is none.
    pub(super) fn set_up_to_carry(&self) -> Result<SetUp, String> {
        Ok(self.scale_to_carry()?.set_up)
    }

    /// Sets on the photo that was opened what was carried over to it before.
    pub(super) fn take_carried(&mut self) {
        let present = self.present_frame();
        let frame = present.and_then(|at| self.strip.frames.get_mut(at));
        let Some(frame) = frame else { return };
        let carried = std::mem::take(&mut frame.carried);
        let before = self.document.clone();
        if let Some(why_not) = carried.set(&mut self.document) {
            self.notify(Tone::Trouble, why_not);
        }
        if !self.document.is_set_like(&before) {
            self.history.keep(before);
        }
    }

    /// Carries the scale over to all other photos.
    pub(super) fn carry_scale_over(&mut self) {
        let Ok(scale) = self.scale_to_carry() else {
            return;
        };
        let photos = self.carry_over(
            |carried| carried.scale = Some(scale.clone()),
            |document| {
                scale.set(document);
                true
            },
        );
        self.tell_carried(text!("scale"), photos);
    }

    /// Carries the outline of the area over to all other photos.
    pub(super) fn carry_area_over(&mut self) {
        let (None, Some(picture)) = (self.why_not_carry_area(), self.document.picture()) else {
            return;
        };
        let area = CarriedArea {
            outline: self.document.area.outline.clone(),
            size: picture.rgb.dimensions(),
        };
        let photos = self.carry_over(
            |carried| carried.area = Some(area.clone()),
            |document| area.set(document),
        );
        self.tell_carried(text!("area"), photos);
    }

    /// Sets something on each other photo, now or when it is opened; names of those on which it could
    /// not be set, and how many got it.
    fn carry_over(
        &mut self,
        later: impl Fn(&mut Carried),
        now: impl Fn(&mut Document) -> bool,
    ) -> (usize, Vec<String>) {
        let (mut given, mut without) = (0, Vec::new());
        for frame in &mut self.strip.frames {
            let took = match &mut frame.kept {
                Kept::Present => continue,
                Kept::Left(left) => {
                    let before = left.document.clone();
                    let took = now(&mut left.document);
                    if !left.document.is_set_like(&before) {
                        left.history.keep(before);
                    }
                    took
                }
                Kept::Unopened | Kept::PutAway(_) | Kept::Written(_) => {
                    later(&mut frame.carried);
                    true
                }
            };
            if took {
                given += 1;
            } else {
                without.push(frame.name());
            }
        }
        (given, without)
    }

    fn tell_carried(&mut self, what: &str, (given, without): (usize, Vec<String>)) {
        if given > 0 {
            self.notify(
                Tone::Good,
                text!("carried-over-to-other-photos", what = what, count = given),
            );
        }
        if !without.is_empty() {
            self.notify(
                Tone::Trouble,
                text!(
                    "not-carried-over-to",
                    what = what,
                    photos = without.join(", ")
                ),
            );
        }
    }
}
