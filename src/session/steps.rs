//! The five steps from a photo to a record, and how each of them stands.

use super::document::{Document, describe};
use super::readout;
use super::{ScaleStanding, Session, Work, file_name};
use crate::area::Outline;
use crate::session::format::per_cent;

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
    pub const fn name(self) -> &'static str {
        match self {
            Self::Photo => "Photo",
            Self::Scale => "Scale",
            Self::Area => "Area",
            Self::Pores => "Pores",
            Self::Record => "Record",
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
    pub const fn word(self) -> &'static str {
        match self {
            Self::Done => "done",
            Self::NeedsYou => "needs you",
            Self::Working(word) => word,
            Self::Later => "later",
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
                    Work::Opening(path) => state(Working("opening"), file_name(path)),
                    _ if self.stopped == Some(Step::Photo) => {
                        state(NeedsYou, "Cancelled. Open a photo")
                    }
                    _ => state(NeedsYou, "Open a photo of the underside"),
                },
                Step::Scale => state(Later, "How many pixels make a millimetre"),
                Step::Area => state(Later, "Which part of the surface to measure"),
                Step::Pores => state(Later, "Measure, and look at what was found"),
                Step::Record => self.record_step(),
            };
        };
        match step {
            Step::Photo => match &self.work {
                Work::Opening(path) => state(Working("opening"), file_name(path)),
                _ if self.stopped == Some(Step::Photo) => {
                    state(Done, format!("Cancelled. Still {}", file_name(&photo.path)))
                }
                _ => state(Done, file_name(&photo.path)),
            },
            Step::Scale if let Work::Seeking(sought, _) = &self.work => {
                state(Working("looking"), sought.label())
            }
            Step::Scale => match self.document.scale.standing() {
                ScaleStanding::Needs(what) if self.stopped == Some(Step::Scale) => {
                    state(NeedsYou, format!("Stopped. {what}"))
                }
                ScaleStanding::Needs(what) => state(NeedsYou, what),
                ScaleStanding::Asks(question) => state(NeedsYou, question.in_short()),
                ScaleStanding::Wrong(_) => state(NeedsYou, "This gives no scale yet; see below"),
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
            format!(". {} of the photo is left out as unusable", per_cent(share))
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
            let what = "Draw an area, or press Whole photo";
            let found = self.found_left_out();
            match area.left_out.len() {
                0 => state(NeedsYou, format!("{what}{found}")),
                1 => state(NeedsYou, format!("{what}. One part is left out{found}")),
                n => state(NeedsYou, format!("{what}. {n} parts are left out{found}")),
            }
        } else if !holds_scale_line {
            state(Done, format!("{}{}", describe(area), self.found_left_out()))
        } else if area.outline == Outline::WholePhoto {
            state(
                Done,
                format!("{}. The scale line lies in it", describe(area)),
            )
        } else {
            state(
                NeedsYou,
                "The scale line lies in the area. Draw an area of pores only",
            )
        }
    }

    fn pores_state(&self) -> StepState {
        use StepStanding::{Done, Later, NeedsYou, Working};
        match (&self.work, &self.results) {
            (Work::Measuring(stage), _) => state(
                Working("measuring"),
                stage.map_or("Starting to measure", crate::progress::Stage::label),
            ),
            (_, None) if self.document.scale.scale().is_none() => {
                state(Later, "Measure, once the scale is set")
            }
            (_, None) if self.stopped == Some(Step::Pores) => {
                state(NeedsYou, "Cancelled. Press Measure to begin again")
            }
            (_, None) => state(NeedsYou, "Ready. Press Measure"),
            (_, Some(_)) if self.is_correcting() && self.outdated_area().is_none() => {
                state(Working("correcting"), "Working the corrections in")
            }
            (_, Some(results)) => match self.outdated() {
                Some(why) => state(NeedsYou, why),
                None if self.stopped == Some(Step::Pores) => state(
                    Done,
                    format!("Cancelled. Still {}", results.readout.title()),
                ),
                None => state(Done, results.readout.title()),
            },
        }
    }
}
