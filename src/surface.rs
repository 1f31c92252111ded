//! Surface type: smooth, poroid, maze-like, gilled, toothed, or undecided — and why.
//!
//! By principle: no modulation of pore size beyond noise and mottling is smooth; of the rest, the
//! topology decides which phase comes in pieces, and the spectrum whether all runs one way.

use crate::segmentation::{Phase, Segmentation};

/// The kind of hymenophore seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SurfaceType {
    /// No structure of pore size.
    Smooth,
    /// Voids isolated in connected wall.
    Poroid,
    /// Neither phase isolated, no common direction.
    MazeLike,
    /// Neither phase isolated, one direction.
    Gilled,
    /// Walls isolated in connected void.
    Toothed,
    /// The photo does not say; the reasons tell what is missing.
    Undecided,
}

impl SurfaceType {
    /// The word used in findings.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Smooth => "smooth",
            Self::Poroid => "poroid",
            Self::MazeLike => "maze-like",
            Self::Gilled => "gilled",
            Self::Toothed => "toothed",
            Self::Undecided => "undecided",
        }
    }
}

/// The figures a verdict rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Evidence {
    /// Contrast between voids and walls, as a share of the wall's light, 0–1.
    pub contrast: f64,
    /// Share of the void area that lies in voids of pore size, closed off from their neighbours, 0–1.
    pub void_isolation: f64,
    /// Share of the wall area that lies in tooth-sized islands, 0–1.
    pub wall_isolation: f64,
    /// How far the structure runs in one direction: 0 none, 1 perfectly parallel.
    pub alignment: f64,
    /// Spacings squared that fit in the area: about the number of pores to be expected.
    pub cells: f64,
}

/// The verdict.
#[derive(Debug, Clone, PartialEq)]
pub struct Surface {
    /// What it looks like.
    pub kind: SurfaceType,
    /// How sure, 0–1.
    pub confidence: f64,
    /// What the verdict rests on.
    pub evidence: Evidence,
    /// The reasons in plain sentences, the weightiest first.
    pub reasons: Vec<String>,
}

impl SurfaceType {
    /// The phase whose regions are counted on such a surface.
    #[must_use]
    pub const fn regions(self) -> Option<Phase> {
        match self {
            Self::Poroid => Some(Phase::Void),
            Self::Toothed => Some(Phase::Wall),
            _ => None,
        }
    }
}

/// Contrast (as a share of the walls' light) below which a surface is smooth, and above which it has
/// structure; between them the photo does not say.
const SMOOTH_BELOW: f64 = 0.10;
const STRUCTURED_ABOVE: f64 = 0.16;
/// Fewest cells for a verdict.
const FEWEST_CELLS: f64 = 12.0;

/// Judges a segmented surface.
#[must_use]
pub fn judge(segmentation: &Segmentation) -> Surface {
    let topology = &segmentation.topology;
    let evidence = Evidence {
        contrast: segmentation.contrast(),
        void_isolation: topology.void_isolation,
        wall_isolation: topology.wall_isolation,
        alignment: segmentation.ring.map_or(0.0, |r| r.alignment),
        cells: topology.cells(),
    };
    let void = evidence.void_isolation;
    let wall = evidence.wall_isolation;
    let kind = if evidence.contrast < SMOOTH_BELOW {
        SurfaceType::Smooth
    } else if evidence.cells < FEWEST_CELLS || evidence.contrast < STRUCTURED_ABOVE {
        SurfaceType::Undecided
    } else if void > 0.6 && void > wall + 0.2 {
        SurfaceType::Poroid
    } else if wall > 0.6 && wall > void + 0.2 {
        SurfaceType::Toothed
    } else if void < 0.4 && wall < 0.4 {
        if evidence.alignment > 0.5 {
            SurfaceType::Gilled
        } else {
            SurfaceType::MazeLike
        }
    } else {
        SurfaceType::Undecided
    };
    Surface {
        kind,
        confidence: 0.5,
        evidence,
        reasons: Vec::new(),
    }
}
