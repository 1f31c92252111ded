//! The five steps from a photo to a record, and how each of them stands.

use super::document::describe;
use super::readout;
use super::{ScaleStanding, Session, Work, file_name};

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
        use StepStanding::{Done, Later, NeedsYou};
        let Some(photo) = &self.document.photo else {
            return match step {
                Step::Photo => match &self.work {
                    Work::Opening(path) => state(NeedsYou, format!("Opening {}", file_name(path))),
                    _ => state(NeedsYou, "Open a photo of the underside"),
                },
                Step::Scale => state(Later, "How many pixels make a millimetre"),
                Step::Area => state(Later, "Which part of the surface to measure"),
                Step::Pores => state(Later, "Measure, and look at what was found"),
                Step::Record => state(Later, "Save the findings"),
            };
        };
        match step {
            Step::Photo => state(Done, file_name(&photo.path)),
            Step::Scale => match self.document.scale.standing() {
                ScaleStanding::Needs(what) => state(NeedsYou, what),
                ScaleStanding::Wrong(_) => state(NeedsYou, "This gives no scale yet; see below"),
                ScaleStanding::Set(scale) => state(Done, readout::scale(&scale)),
            },
            Step::Area if self.document.area_holds_scale_line() => state(
                NeedsYou,
                "The scale line lies in the area. Draw an area of pores only",
            ),
            Step::Area => state(Done, describe(&self.document.area)),
            Step::Pores => self.pores_state(),
            Step::Record => {
                if self.why_not_save().is_some() {
                    state(Later, "Save the findings once they are there")
                } else if self.saved {
                    state(Done, "Saved. Save more, or open the next photo")
                } else {
                    state(NeedsYou, "Save the findings to keep them")
                }
            }
        }
    }

    fn pores_state(&self) -> StepState {
        use StepStanding::{Done, Later, NeedsYou};
        match (&self.work, &self.results) {
            (Work::Measuring(stage), _) => state(
                NeedsYou,
                stage.map_or("Starting to measure", crate::progress::Stage::label),
            ),
            (_, None) if self.document.scale.scale().is_none() => {
                state(Later, "Measure, once the scale is set")
            }
            (_, None) => state(NeedsYou, "Ready. Press Measure"),
            (_, Some(results)) => match self.outdated() {
                Some(why) => state(NeedsYou, why),
                None => state(Done, results.readout.title()),
            },
        }
    }
}
