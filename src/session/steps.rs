//! The five steps from a photo to a record, and how each of them stands.

use super::document::{Document, describe};
use super::readout;
use super::{ScaleStanding, Session, Work, file_name};
use crate::area::Outline;
use crate::session::format::per_cent;
use crate::wording::text;

/// A step of the work, in its order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// Open a photo.
    Photo,
    /// Tell how many pixels make a millimetre.
    Scale,
    /// Choose what to measure.
    Area,
    /// Measure and look.
    Pores,
    /// Keep the findings.
    Record,
}

/// Whether a step is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StepStanding {
    /// Nothing to do.
    Done,
    /// The person has to do something here.
    NeedsYou,
    /// The program does something here; the word says what.
    Working(&'static str),
    /// An earlier step comes first.
    Later,
}

/// How a step stands, and what it needs, in one sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepState {
    /// Whether it is done.
    pub standing: StepStanding,
    /// What it needs, or what was set.
    pub sentence: String,
}

impl Step {
    /// All steps in order.
    pub const ALL: [Self; 5] = [
        Self::Photo,
        Self::Scale,
        Self::Area,
        Self::Pores,
        Self::Record,
    ];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Photo => text!("photo"),
            Self::Scale => text!("scale"),
            Self::Area => text!("area"),
            Self::Pores => text!("step-pores"),
            Self::Record => text!("record"),
        }
    }

    /// The step after this one.
    #[must_use]
    pub const fn next(self) -> Option<Self> {
        match self {
            Self::Photo => Some(Self::Scale),
            Self::Scale => Some(Self::Area),
            Self::Area => Some(Self::Pores),
            Self::Pores => Some(Self::Record),
            Self::Record => None,
        }
    }
}

impl StepStanding {
    /// The word beside the step's name.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Done => text!("step-done"),
            Self::NeedsYou => text!("needs-you"),
            Self::Working(word) => word,
            Self::Later => text!("later"),
        }
    }
}

fn state(standing: StepStanding, sentence: impl Into<String>) -> StepState {
    StepState {
        standing,
        sentence: sentence.into(),
    }
}

impl Session {
    /// How a step stands.
    #[must_use]
    pub fn step(&self, step: Step) -> StepState {
        use StepStanding::{Done, Later, NeedsYou, Working};
        let Some(photo) = &self.document.photo else {
            return match step {
                Step::Photo => match &self.work {
                    Work::Opening(path) => state(Working(text!("opening")), file_name(path)),
                    _ if self.stopped == Some(Step::Photo) => {
                        state(NeedsYou, text!("cancelled-open-a-photo"))
                    }
                    _ => state(NeedsYou, text!("open-a-photo-of-the-underside")),
                },
                Step::Scale => state(Later, text!("how-many-pixels-make-a-millimetre")),
                Step::Area => state(Later, text!("which-part-of-the-surface-to")),
                Step::Pores => state(Later, text!("measure-and-look-at-what-was")),
                Step::Record => self.record_step(),
            };
        };
        match step {
            Step::Photo => match &self.work {
                Work::Opening(path) => state(Working(text!("opening")), file_name(path)),
                _ if self.stopped == Some(Step::Photo) => state(
                    Done,
                    text!("cancelled-still-photo", photo = file_name(&photo.path)),
                ),
                _ => state(Done, file_name(&photo.path)),
            },
            Step::Scale if let Work::Seeking(sought, _) = &self.work => {
                state(Working(text!("looking")), sought.label())
            }
            Step::Scale => match self.document.scale.standing() {
                ScaleStanding::Needs(what) if self.stopped == Some(Step::Scale) => {
                    state(NeedsYou, text!("stopped-then", what = what))
                }
                ScaleStanding::Needs(what) => state(NeedsYou, what),
                ScaleStanding::Asks(question) => state(NeedsYou, question.in_short()),
                ScaleStanding::Wrong(_) => state(NeedsYou, text!("this-gives-no-scale-yet-see")),
                ScaleStanding::Set(scale) => state(Done, readout::scale(&scale)),
            },
            Step::Area => self.area_state(),
            Step::Pores => self.pores_state(),
            Step::Record => self.record_step(),
        }
    }

    fn record_step(&self) -> StepState {
        let (standing, sentence) = self.record_state();
        state(standing, sentence)
    }

    /// How much of the photo is left out because it cannot be measured well, as a sentence.
    fn found_left_out(&self) -> String {
        let share: f64 = self
            .document
            .found()
            .filter(|(_, is_left_out)| *is_left_out)
            .map(|(part, _)| part.share)
            .sum();
        if share > 0.0 {
            text!("share-left-out-as-unusable", share = per_cent(share))
        } else {
            String::new()
        }
    }

    fn area_state(&self) -> StepState {
        use StepStanding::{Done, NeedsYou};
        let Document {
            area,
            area_is_chosen,
            ..
        } = &self.document;
        let holds_scale_line = self.document.area_holds_scale_line();
        if !area_is_chosen {
            let what = text!("draw-an-area-or-press-whole");
            let found = self.found_left_out();
            match area.left_out.len() {
                0 => state(NeedsYou, format!("{what}{found}")),
                n => {
                    let left_out = text!("parts-are-left-out", count = n);
                    state(NeedsYou, format!("{what}. {left_out}{found}"))
                }
            }
        } else if !holds_scale_line {
            state(Done, format!("{}{}", describe(area), self.found_left_out()))
        } else if area.outline == Outline::WholePhoto {
            state(
                Done,
                text!("the-scale-line-lies-in-it", area = describe(area)),
            )
        } else {
            state(NeedsYou, text!("the-scale-line-lies-in-the"))
        }
    }

    fn pores_state(&self) -> StepState {
        use StepStanding::{Done, Later, NeedsYou, Working};
        match (&self.work, &self.results) {
            (Work::Measuring(stage), _) => state(
                Working(text!("measuring")),
                stage.map_or(text!("starting-to-measure"), crate::progress::Stage::label),
            ),
            (_, None) if self.document.scale.scale().is_none() => {
                state(Later, text!("measure-once-the-scale-is-set"))
            }
            (_, None) if self.stopped == Some(Step::Pores) => {
                state(NeedsYou, text!("cancelled-press-measure-to-begin-again"))
            }
            (_, None) => state(NeedsYou, text!("ready-press-measure")),
            (_, Some(_)) if self.is_correcting() && self.outdated_area().is_none() => state(
                Working(text!("correcting")),
                text!("corrections-are-worked-in"),
            ),
            (_, Some(results)) => match self.outdated() {
                Some(why) => state(NeedsYou, why),
                None if self.stopped == Some(Step::Pores) => state(
                    Done,
                    text!(
                        "cancelled-still-findings",
                        findings = results.readout.title()
                    ),
                ),
                None => state(Done, results.readout.title()),
            },
        }
    }
}
