//! How long work tells how far it is, and how it is told to stop.

use std::sync::atomic::{AtomicBool, Ordering};

/// A stage of measuring, in the order in which they run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// Finding what the scale is taken from.
    Scale,
    /// Taking the tilt out of the photo.
    Straightening,
    /// Finding the part of the photo that can be used.
    Usable,
    /// Finding the spacing from the power spectrum.
    Spacing,
    /// Telling hollows from walls.
    Segmentation,
    /// Tracing outlines and measuring them.
    Pores,
    /// Counting, intervals, surface type.
    Statistics,
}

impl Stage {
    /// All stages in order.
    pub const ALL: [Self; 7] = [
        Self::Scale,
        Self::Straightening,
        Self::Usable,
        Self::Spacing,
        Self::Segmentation,
        Self::Pores,
        Self::Statistics,
    ];

    /// What the program is doing, as a person is told.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Scale => "Looking for the scale",
            Self::Straightening => "Straightening the photo",
            Self::Usable => "Finding the usable part",
            Self::Spacing => "Finding the spacing",
            Self::Segmentation => "Telling hollows from walls",
            Self::Pores => "Tracing outlines",
            Self::Statistics => "Counting",
        }
    }

    /// Share of the work that lies behind when this stage begins, 0–1.
    #[must_use]
    pub const fn share_done(self) -> f32 {
        match self {
            Self::Scale | Self::Straightening | Self::Usable => 0.0,
            Self::Spacing => 0.05,
            Self::Segmentation => 0.2,
            Self::Pores => 0.6,
            Self::Statistics => 0.85,
        }
    }
}

/// The work was stopped by the person who started it; there is no result.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("the measurement was cancelled")]
pub struct Cancelled;

/// Told at each stage; asked whether to go on.
#[derive(Default)]
pub struct Progress<'a> {
    cancel: Option<&'a AtomicBool>,
    tell: Option<&'a (dyn Fn(Stage) + Sync)>,
}

impl<'a> Progress<'a> {
    /// Tells `tell` of each stage and stops soon after `cancel` becomes true.
    #[must_use]
    pub fn new(cancel: &'a AtomicBool, tell: &'a (dyn Fn(Stage) + Sync)) -> Self {
        Self {
            cancel: Some(cancel),
            tell: Some(tell),
        }
    }

    /// A stage begins.
    ///
    /// # Errors
    /// [`Cancelled`] when the work should stop.
    pub fn enter(&self, stage: Stage) -> Result<(), Cancelled> {
        if let Some(tell) = self.tell {
            tell(stage);
        }
        self.check()
    }

    /// Asks whether to go on, within a stage.
    ///
    /// # Errors
    /// [`Cancelled`] when the work should stop.
    pub fn check(&self) -> Result<(), Cancelled> {
        match self.cancel {
            Some(cancel) if cancel.load(Ordering::Relaxed) => Err(Cancelled),
            _ => Ok(()),
        }
    }
}
