//! Invented findings for the tests of this module.

use crate::area::{Area, Outline, Reason};
use crate::colour::{Colour, Lab, WhiteSource};
use crate::corrections::{Correction, Corrections, Kind, LeastWall};
use crate::findings::{
    AreaFacts, CorrectionFacts, DiameterFacts, Estimate, Findings, GillFindings, LeftOutFacts,
    MazeFindings, Note, PhotoFacts, PoreFindings, Severity, ToothFindings,
    budget::{Budget, Figure},
};
use crate::geometry::{Point, Polygon, Rect};
use crate::photo::Place;
use crate::pores::Pore;
use crate::scale::Scale;
use crate::statistics::{CountLine, Handbook, Spread};
use crate::surface::{Evidence, Surface, SurfaceType};
use crate::units::Millimetres;

pub(super) const PER_MM: Estimate = Estimate {
    value: 4.312_345_678,
    low: 4.103,
    high: 4.521,
};

const DIAMETER_MM: DiameterFacts = DiameterFacts {
    mean: Estimate {
        value: 0.1832,
        low: 0.1791,
        high: 0.1873,
    },
    spread: Spread {
        p5: 0.121,
        median: 0.181,
        p95: 0.243,
    },
};

const ELONGATION: Spread = Spread {
    p5: 1.042,
    median: 1.213,
    p95: 1.618,
};

const COLOUR: Colour = Colour {
    lab: Lab {
        l: 80.645,
        a: 0.543,
        b: 14.433,
    },
    name: "cream",
    violet_share: 0.123,
    white: Some(WhiteSource::Card),
};

/// Budgets of figures per mm and of diameters.
const UNCERTAINTY: [Budget; 2] = [
    Budget {
        figure: Figure::PerMm,
        sampling: 0.024,
        scale: 0.004,
        outline: 0.0,
    },
    Budget {
        figure: Figure::Diameter,
        sampling: 0.003,
        scale: 0.004,
        outline: 0.012,
    },
];

/// Findings on a poroid surface, complete.
pub(super) fn poroid() -> Findings {
    Findings {
        photo: PhotoFacts {
            path: "alder-fen/tray 3.jpg".into(),
            sha256: "0f".repeat(32),
            width_px: 1200,
            height_px: 900,
            taken: Some("2025-10-11T14:03:27".into()),
            place: Some(Place {
                latitude: 52.123_456_7,
                longitude: -1.5,
            }),
        },
        scale: Scale::from_points(
            Point::new(100.0, 800.0),
            Point::new(714.0, 800.0),
            Millimetres(10.0),
        )
        .expect("a scale"),
        tilt_deg: None,
        area: AreaFacts {
            drawn: Area {
                outline: Outline::Rectangle(Rect {
                    x: 0.0,
                    y: 100.5,
                    width: 400.0,
                    height: 300.0,
                }),
                left_out: vec![
                    Polygon::new(vec![
                        Point::new(10.0, 110.0),
                        Point::new(80.0, 110.0),
                        Point::new(10.0, 250.0),
                    ])
                    .into(),
                ],
            },
            mm2: 22.163,
            left_out_mm2: 1.3,
            left_out: vec![LeftOutFacts {
                reason: Reason::ByHand,
                share: 0.053,
            }],
            guard_mm2: 1.127,
        },
        surface: Surface {
            kind: SurfaceType::Poroid,
            confidence: 0.97,
            evidence: Evidence {
                modulation: Some(0.28),
                contrast: 0.61,
                void_isolation: 0.94,
                wall_isolation: 0.02,
                void_enclosure: 0.95,
                wall_enclosure: 0.03,
                void_euler: 0.97,
                alignment: 0.08,
                cells: 430.0,
            },
            reasons: vec![
                "Nearly all hollows are round and closed off by wall on every side, which is \
                 what pores look like."
                    .into(),
            ],
        },
        pores: Some(PoreFindings {
            count: 412,
            per_mm2: 21.47,
            per_mm: PER_MM,
            across_and_along_per_mm: None,
            handbook: Handbook("(3–)4–5(–6) per mm".into()),
            line_crossings_per_mm: 3.87,
            spacing_second_opinion_mm: Some(0.2311),
            diameter_mm: DIAMETER_MM,
            elongation: ELONGATION,
            wall_mm_median: Some(0.0512),
            void_fraction: 0.583,
            count_lines: vec![CountLine {
                from: Point::new(300.0, 300.0),
                to: Point::new(361.4, 300.0),
                pores: 4,
            }],
        }),
        teeth: None,
        gills: None,
        maze: None,
        colour: Some(COLOUR),
        corrections: None,
        uncertainty: UNCERTAINTY.to_vec(),
        notes: vec![Note {
            severity: Severity::Caution,
            code: "uneven-light",
            text: "The light falls off to the left, so pores there may be missed; light the \
                   surface more evenly."
                .into(),
        }],
    }
}

/// Fainter walls, a join, and a deletion that found nothing.
pub(super) fn corrections() -> CorrectionFacts {
    let by_hand = [
        Correction::new(
            Kind::Join,
            [Point::new(120.5, 200.0), Point::new(141.25, 203.0)],
        ),
        Correction::new(Kind::Delete, [Point::new(390.0, 395.0)]),
    ];
    CorrectionFacts {
        made: Corrections {
            least_wall: LeastWall::new(0.8).expect("in range"),
            by_hand: by_hand.into_iter().map(|c| c.expect("places")).collect(),
        },
        had_effect: vec![true, false],
        counted_by_hand: 1,
        share_by_hand: 1.0 / 412.0,
    }
}

/// The same photo with another verdict, and nothing but its figures.
pub(super) fn of_kind(kind: SurfaceType) -> Findings {
    let mut findings = poroid();
    findings.surface.kind = kind;
    findings.pores = None;
    findings.uncertainty = match kind {
        SurfaceType::Poroid | SurfaceType::Toothed => UNCERTAINTY.to_vec(),
        SurfaceType::Gilled | SurfaceType::MazeLike => UNCERTAINTY[..1].to_vec(),
        SurfaceType::Smooth | SurfaceType::Undecided => Vec::new(),
    };
    if kind.regions().is_none() {
        findings.area.guard_mm2 = 0.0;
    }
    match kind {
        SurfaceType::Poroid => return poroid(),
        SurfaceType::Toothed => {
            findings.teeth = Some(ToothFindings {
                count: 97,
                per_mm2: 21.47,
                per_mm: PER_MM,
                diameter_mm: DIAMETER_MM,
                elongation: ELONGATION,
            });
        }
        SurfaceType::Gilled => findings.gills = Some(GillFindings { per_mm: PER_MM }),
        SurfaceType::MazeLike => findings.maze = Some(MazeFindings { per_mm: PER_MM }),
        SurfaceType::Smooth | SurfaceType::Undecided => {}
    }
    findings
}

pub(super) const KINDS: [SurfaceType; 6] = [
    SurfaceType::Smooth,
    SurfaceType::Poroid,
    SurfaceType::MazeLike,
    SurfaceType::Gilled,
    SurfaceType::Toothed,
    SurfaceType::Undecided,
];

/// A round pore as a polygon of many corners.
pub(super) fn round_pore(centre: Point, diameter: f64, counted: bool) -> Pore {
    let outline = Polygon::new(
        (0..90)
            .map(|i| {
                let (sin, cos) = (f64::from(i) * std::f64::consts::TAU / 90.0).sin_cos();
                Point::new(
                    centre.x + cos * diameter / 2.0,
                    centre.y + sin * diameter / 2.0,
                )
            })
            .collect(),
    );
    let moments = outline.moments().expect("an area");
    Pore {
        moments,
        ellipse: moments.ellipse().expect("an ellipse"),
        feret: outline.feret(),
        perimeter: outline.perimeter(),
        solidity: 1.0,
        whole: counted,
        counted,
        oversized: false,
        by_hand: false,
        outline,
    }
}
