//! Surface type: smooth, poroid, maze-like, gilled, toothed, or undecided — and why.
//!
//! By principle: no modulation of pore size beyond noise and mottling is smooth; of the rest, the
//! topology decides which phase comes in pieces, and the spectrum whether all runs one way.

use crate::segmentation::{MOTTLING, Phase, Segmentation};

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
    /// Root mean square of relative luminance in an octave about the spacing, noise taken off; `None`
    /// when the area is too small to look for a spacing.
    pub modulation: Option<f64>,
    /// Contrast between voids and walls, as a share of the walls' light, 0–1.
    pub contrast: f64,
    /// Share of the void area that lies in voids of pore size, closed off from their neighbours, 0–1.
    pub void_isolation: f64,
    /// Share of the wall area that lies in tooth-sized islands, 0–1.
    pub wall_isolation: f64,
    /// As `void_isolation`, where walls half as high as the contrast close voids off too, 0–1.
    pub void_enclosure: f64,
    /// As `wall_isolation`, likewise, 0–1.
    pub wall_enclosure: f64,
    /// Euler number of the voids per cell: near 1 with pores, near −1 with teeth, near 0 else.
    pub void_euler: f64,
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
    /// How sure, 0–1; 0 when undecided.
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

/// Modulation from which on a surface has structure; between it and [`MOTTLING`] the photo does not say.
const STRUCTURE: f64 = 0.10;
/// Share of a phase that must come in pieces of pore size for it to be isolated, and the share from
/// which on nobody would doubt it.
const ISOLATED: f64 = 0.6;
const CLEARLY_ISOLATED: f64 = 0.9;
/// Share of either phase in pieces of pore size up to which both are connected, and below which
/// nobody would doubt it.
const CONNECTED: f64 = 0.45;
const CLEARLY_CONNECTED: f64 = 0.15;
/// Euler number of the voids per cell from which on down each cell holds about one tooth. Knots of a net
/// of thin, faint walls stand apart too, but are fewer than its meshes, and some walls are seen.
const PIERCED: f64 = -0.5;
/// What is left of the confidence when only walls lower than usual enclose the pores.
const SUNKEN: f64 = 0.8;
/// Alignment of mazes at most, and of gills at least.
const ALL_WAYS: f64 = 0.5;
const ONE_WAY: f64 = 0.7;
/// Fewest cells for a verdict, and enough for a sure one.
const FEWEST_CELLS: f64 = 12.0;
const ENOUGH_CELLS: f64 = 60.0;
/// The highest confidence a photo alone can give.
const SUREST: f64 = 0.98;

/// 0 at `from`, 1 at `to` and beyond.
fn ramp(value: f64, from: f64, to: f64) -> f64 {
    ((value - from) / (to - from)).clamp(0.0, 1.0)
}

/// Judges a segmented surface.
#[must_use]
pub fn judge(segmentation: &Segmentation) -> Surface {
    let topology = &segmentation.topology;
    verdict(Evidence {
        modulation: segmentation.ring.map(|ring| ring.modulation),
        contrast: segmentation.contrast(),
        void_isolation: topology.void_isolation,
        wall_isolation: topology.wall_isolation,
        void_enclosure: topology.void_enclosure,
        wall_enclosure: topology.wall_enclosure,
        void_euler: topology.void_euler,
        alignment: topology.alignment,
        cells: topology.cells(),
    })
}

/// The verdict that follows from the evidence.
#[must_use]
pub fn verdict(evidence: Evidence) -> Surface {
    let Some(modulation) = evidence.modulation else {
        return evidence.undecided(
            "The area is too small, or too evenly dark, to look for a pattern in it. Choose an area \
             at least a hundred pixels wide and high."
                .to_owned(),
        );
    };
    let light = percent(modulation);
    if modulation < MOTTLING {
        let clearly = ramp(MOTTLING - modulation, 0.0, MOTTLING / 3.0);
        let reason = format!(
            "Light and dark differ by only {light} at any distance that pores could have, no more \
             than tissue is mottled."
        );
        evidence.sure(SurfaceType::Smooth, 0.5 + 0.5 * clearly, vec![reason])
    } else if modulation < STRUCTURE {
        evidence.undecided(format!(
            "Light and dark differ by {light}: more than mottling, less than pores usually do. \
             Shallow pores or an uneven crust would both look so."
        ))
    } else if evidence.cells < FEWEST_CELLS {
        evidence.undecided(format!(
            "Only about {:.0} pores would fit in the area, too few to see how they hang together.",
            evidence.cells
        ))
    } else {
        evidence.of_structure(modulation)
    }
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

impl Evidence {
    fn sure(self, kind: SurfaceType, certainty: f64, reasons: Vec<String>) -> Surface {
        Surface {
            kind,
            confidence: SUREST * certainty.clamp(0.0, 1.0),
            evidence: self,
            reasons,
        }
    }

    fn undecided(self, reason: String) -> Surface {
        self.sure(SurfaceType::Undecided, 0.0, vec![reason])
    }

    /// Of a surface that has structure, and enough of it.
    fn of_structure(self, modulation: f64) -> Surface {
        let seen = (0.5 + 0.5 * ramp(self.cells, FEWEST_CELLS, ENOUGH_CELLS))
            * (0.5 + 0.5 * ramp(modulation, STRUCTURE, 1.5 * STRUCTURE));
        let isolated = |share| seen * (0.5 + 0.5 * ramp(share, ISOLATED, CLEARLY_ISOLATED));
        let pieces = format!(
            "{} of the dark hollows are closed off from their neighbours, and {} of the bright \
             tissue stands in separate pieces.",
            percent(self.void_isolation),
            percent(self.wall_isolation)
        );
        let (void, wall) = (self.void_isolation, self.wall_isolation);
        if void > ISOLATED && wall < CONNECTED {
            let reason = "Hollows enclosed by a connected wall are pores.".to_owned();
            self.sure(SurfaceType::Poroid, isolated(void), vec![pieces, reason])
        } else if wall > ISOLATED && self.void_enclosure < CONNECTED && self.void_euler < PIERCED {
            let reason = "Pieces of tissue that stand in a connected hollow are teeth.".to_owned();
            self.sure(SurfaceType::Toothed, isolated(wall), vec![pieces, reason])
        } else if self.void_enclosure > ISOLATED && self.wall_enclosure < CONNECTED {
            let reason = format!(
                "{} of the hollows are enclosed by walls that rise clearly above their floor, though \
                 not to the height of the brightest tissue near by: pores in sunken fields.",
                percent(self.void_enclosure)
            );
            let certainty = SUNKEN * isolated(self.void_enclosure);
            self.sure(SurfaceType::Poroid, certainty, vec![reason, pieces])
        } else if self.void_enclosure > ISOLATED {
            self.undecided(format!(
                "{pieces} Faint walls could close off {} of the hollows, but the same holds of the \
                 tissue between them: thin pores out of focus, a maze and teeth would all look so.",
                percent(self.void_enclosure)
            ))
        } else if void.max(wall) > CONNECTED || void + wall > ISOLATED {
            // Half of it pores and half of it teeth has half of either in pieces; a maze has neither.
            self.undecided(format!(
                "{pieces} That is between pores and a maze, or between pores and teeth; parts of \
                 the surface may differ."
            ))
        } else {
            self.of_direction(seen, pieces)
        }
    }

    /// Of a surface on which neither phase is isolated: the direction decides.
    fn of_direction(self, seen: f64, pieces: String) -> Surface {
        let most = self.void_isolation.max(self.wall_isolation);
        let connected =
            seen * (0.5 + 0.5 * ramp(CONNECTED - most, 0.0, CONNECTED - CLEARLY_CONNECTED));
        let aligned = percent(self.alignment);
        if self.alignment > ONE_WAY {
            let clearly = 0.6 + 0.4 * ramp(self.alignment, ONE_WAY, 0.8);
            let reason = format!(
                "Both hang together over long distances and run one way (alignment {aligned}): gills."
            );
            self.sure(
                SurfaceType::Gilled,
                connected * clearly,
                vec![pieces, reason],
            )
        } else if self.alignment < ALL_WAYS {
            let clearly = 0.6 + 0.4 * ramp(ALL_WAYS - self.alignment, 0.0, 0.1);
            let reason = format!(
                "Both hang together over long distances and run all ways (alignment {aligned}): a maze."
            );
            self.sure(
                SurfaceType::MazeLike,
                connected * clearly,
                vec![pieces, reason],
            )
        } else {
            self.undecided(format!(
                "{pieces} Both run partly one way (alignment {aligned}): between gills and a maze."
            ))
        }
    }
}
