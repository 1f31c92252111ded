//! From what was seen, and a scale, to findings. This is where pixels become millimetres.

use super::budget::{self, Budget, Figure, Z95};
use super::{
    AreaFacts, CorrectionFacts, DiameterFacts, Estimate, Findings, GillFindings, LeftOutFacts,
    MazeFindings, PhotoFacts, PoreFindings, Quality, ToothFindings, notes,
};
use crate::area::{Area, Reason, Rows};
use crate::colour::{Colour, Tissue};
use crate::corrections::Corrections;
use crate::geometry::{Point, Rect};
use crate::photo::{Light, Photo};
use crate::pores::Pore;
use crate::scale::Scale;
use crate::segmentation::{Model, PX_PER_SPACING, Segmentation};
use crate::statistics::{
    self, Place, Spread, chance_to_be_whole, count_lines, crossings, interval, pores_per_mm,
    spread, tiles, weighted_mean,
};
use crate::surface::{Surface, SurfaceType};
use crate::units::Millimetres;
use rayon::prelude::*;
use std::sync::Arc;

/// Width of a tile of the block bootstrap, in spacings.
const TILE_SPACINGS: f64 = 3.0;
/// From this median elongation on, counts across and along are given too, as handbooks do.
const DRAWN_OUT: f64 = 1.5;
/// Below this many per mm handbooks give widths in mm.
const FEWEST_PER_MM: f64 = 1.0;
/// Points a side at which the chance of a pore to be whole is looked at.
const PLACES: u32 = 48;

/// What was seen on a photo, in pixels. It depends on the photo, the area and the corrections, not on the
/// scale.
#[derive(Debug)]
pub struct Traced {
    /// Voids, walls, spacing.
    pub segmentation: Arc<Segmentation>,
    /// The verdict.
    pub surface: Surface,
    /// Outlines with blur taken out, where there are regions to count.
    pub model: Option<Model>,
    /// Pores, or teeth on a toothed surface; none on others.
    pub regions: Vec<Pore>,
    /// The part of the photo in which centroids count: a guard band of one spacing is kept from the
    /// photo's own edge, where pores are cut.
    pub counting: Rect,
    /// The area with the same guard band about parts that a person left out, where pores are cut too.
    pub guarded: Area,
    /// How well the photo lets all this be seen.
    pub quality: Quality,
    /// Light of the walls; `None` where hardly any wall was seen.
    pub tissue: Option<Tissue>,
    /// What a person corrected, and what came of it.
    pub corrections: Applied,
}

impl Traced {
    /// Standard deviation of the photo's own blur at the outlines, px of the picture; `None` where there
    /// are none.
    #[must_use]
    pub fn blur_px(&self) -> Option<f64> {
        let frame_px = self.model.as_ref()?.blur_of_photo();
        Some(f64::from(frame_px) / PX_PER_SPACING * self.segmentation.spacing_px)
    }
}

/// Corrections as they were applied.
#[derive(Debug, Clone, PartialEq)]
pub struct Applied {
    /// What was to be corrected.
    pub corrections: Corrections,
    /// For each correction by hand, whether it found something to act on.
    pub had_effect: Vec<bool>,
}

/// An estimate and what its uncertainty is made of.
struct Budgeted {
    estimate: Estimate,
    budget: Budget,
}

/// What all figures share.
struct Context<'a> {
    area: &'a Area,
    photo: Rect,
    traced: &'a Traced,
    scale: Scale,
    area_px2: f64,
    /// Where centroids count.
    counted_in: Rows<'a>,
}

/// Findings from what was seen and a scale.
#[must_use]
pub fn assemble(photo: &Photo, area: &Area, traced: &Traced, scale: Scale) -> Findings {
    // Only where regions are counted does it matter that edges cut them.
    let size = match traced.surface.kind.regions() {
        Some(_) => traced.guarded.size_px2(traced.counting),
        None => area.size_px2(photo.bounds()),
    };
    let all = area.size_px2(photo.bounds());
    let context = Context {
        area,
        photo: photo.bounds(),
        traced,
        scale,
        area_px2: size.measured_px2,
        counted_in: Rows::of(&traced.guarded, traced.counting, |_| true),
    };
    let mut findings = Findings {
        photo: PhotoFacts {
            path: photo.path.clone(),
            sha256: photo.sha256.clone(),
            width_px: photo.light.width(),
            height_px: photo.light.height(),
            taken: photo.taken.clone(),
            place: photo.place,
        },
        scale,
        tilt_deg: None,
        area: AreaFacts {
            drawn: area.clone(),
            mm2: scale.square_millimetres(size.measured_px2),
            left_out_mm2: scale.square_millimetres(all.left_out_px2),
            left_out: left_out(area, photo.bounds()),
            guard_mm2: scale.square_millimetres(all.measured_px2 - size.measured_px2),
        },
        surface: traced.surface.clone(),
        pores: None,
        teeth: None,
        gills: None,
        maze: None,
        colour: None,
        corrections: corrections(traced),
        uncertainty: Vec::new(),
        notes: Vec::new(),
    };
    context.fill(&mut findings);
    findings.notes = notes::notes(&findings, traced);
    if findings.withheld() {
        findings = Findings {
            pores: None,
            teeth: None,
            gills: None,
            maze: None,
            uncertainty: Vec::new(),
            ..findings
        };
    }
    findings.set_colour(traced.tissue.as_ref().map(|t| Colour::of(t, None)));
    findings
}

/// How much of the outline each reason takes.
fn left_out(area: &Area, photo: Rect) -> Vec<LeftOutFacts> {
    Reason::ALL
        .into_iter()
        .filter_map(|reason| {
            let mut of_reason = area.clone();
            of_reason.left_out.retain(|part| part.reason == reason);
            if of_reason.left_out.is_empty() {
                return None;
            }
            let size = of_reason.size_px2(photo);
            let share = size.left_out_px2 / (size.left_out_px2 + size.measured_px2);
            (share > 0.0).then_some(LeftOutFacts { reason, share })
        })
        .collect()
}

/// What was corrected, and how much of what is counted rests on it; `None` where nothing was.
fn corrections(traced: &Traced) -> Option<CorrectionFacts> {
    let Applied {
        corrections,
        had_effect,
    } = &traced.corrections;
    if corrections.is_empty() {
        return None;
    }
    let counted = || traced.regions.iter().filter(|region| region.counted);
    let by_hand = counted().filter(|region| region.by_hand).count();
    Some(CorrectionFacts {
        made: corrections.clone(),
        had_effect: had_effect.clone(),
        counted_by_hand: by_hand,
        share_by_hand: by_hand as f64 / counted().count().max(1) as f64,
    })
}

/// Spread of elongation, edge weights respected.
fn elongations(weighted: &[(&Pore, f64)]) -> Option<Spread> {
    let values: Vec<(f64, f64)> = weighted
        .iter()
        .map(|(region, weight)| (region.elongation(), *weight))
        .collect();
    spread(&values)
}

impl Context<'_> {
    /// The figures of the surface's own kind.
    fn fill(&self, findings: &mut Findings) {
        let budgets = &mut findings.uncertainty;
        match self.traced.surface.kind {
            SurfaceType::Poroid => findings.pores = self.pores(budgets),
            SurfaceType::Toothed => findings.teeth = self.teeth(budgets),
            SurfaceType::Gilled => {
                findings.gills = self
                    .stripes_per_mm(budgets)
                    .map(|per_mm| GillFindings { per_mm });
            }
            SurfaceType::MazeLike => {
                findings.maze = self
                    .stripes_per_mm(budgets)
                    .map(|per_mm| MazeFindings { per_mm });
            }
            SurfaceType::Smooth | SurfaceType::Undecided => {}
        }
    }

    fn counted(&self) -> impl Iterator<Item = &Pore> {
        self.traced.regions.iter().filter(|region| region.counted)
    }

    fn counts(&self, p: Point) -> bool {
        self.counted_in.hold(p)
    }

    /// Adds what no amount of pores averages down, the relative uncertainties of the scale and of the
    /// outlines, to the ends of a sampling interval, in quadrature (JCGM 100:2008, 5.1.2).
    fn budgeted(
        &self,
        figure: Figure,
        value: f64,
        [low, high]: [f64; 2],
        outline: f64,
    ) -> Budgeted {
        let scale = self.scale.relative_uncertainty();
        let common = Z95 * scale.hypot(outline) * value;
        Budgeted {
            estimate: Estimate {
                value,
                low: value - (value - low).hypot(common),
                high: value + (high - value).hypot(common),
            },
            budget: Budget {
                figure,
                sampling: (high - low) / (2.0 * Z95 * value),
                scale,
                outline,
            },
        }
    }

    /// Regions per mm, with the interval from the standard error of their count.
    fn per_mm(&self) -> Option<Budgeted> {
        let mm2 = self.scale.square_millimetres(self.area_px2);
        let centroids: Vec<Point> = self.counted().map(Pore::centroid).collect();
        if centroids.is_empty() || mm2 <= 0.0 {
            return None;
        }
        let count = centroids.len() as f64;
        let bounds = self.area.bounds(self.traced.counting).ok()?;
        // Where no window fits: as if strewn at random, which scatters more than pores do.
        let error = statistics::count_standard_error(
            &centroids,
            bounds,
            |p| self.counts(p),
            self.traced.segmentation.spacing_px,
        )
        .unwrap_or_else(|| count.sqrt());
        let at = |count: f64| pores_per_mm(count.max(0.0) / mm2);
        let ends = [at(count - Z95 * error), at(count + Z95 * error)];
        Some(self.budgeted(Figure::PerMm, at(count), ends, 0.0))
    }

    fn tile_px(&self) -> f64 {
        TILE_SPACINGS * self.traced.segmentation.spacing_px
    }

    /// Whole regions with their edge weights.
    fn weighted(&self) -> Vec<(&Pore, f64)> {
        let bounds = self.area.bounds(self.photo).unwrap_or(self.photo);
        let in_area = Rows::of(self.area, self.photo, |_| true);
        let places: Vec<Place> = (0..PLACES * PLACES)
            .map(|k| {
                let at = |i: u32| (f64::from(i) + 0.5) / f64::from(PLACES);
                Point::new(
                    bounds.x + bounds.width * at(k % PLACES),
                    bounds.y + bounds.height * at(k / PLACES),
                )
            })
            .filter(|p| in_area.hold(*p))
            .map(|at| Place {
                at,
                clear_px: self.area.distance_to_cuts(at),
            })
            .collect();
        self.traced
            .regions
            .par_iter()
            .filter(|region| region.whole)
            .filter_map(|region| {
                let chance = chance_to_be_whole(region, &places, self.photo);
                (chance > 0.0).then(|| (region, 1.0 / chance))
            })
            .collect()
    }

    fn pores(&self, budgets: &mut Vec<Budget>) -> Option<PoreFindings> {
        let per_mm = self.per_mm()?;
        let model = self.traced.model.as_ref()?;
        let weighted = self.weighted();
        let diameters = self.diameters(&weighted);
        let mean = self.mean_diameter(&weighted, &diameters, model)?;
        let diameter_mm = DiameterFacts {
            mean: mean.estimate,
            spread: spread(&diameters)?,
        };
        let elongation = elongations(&weighted)?;
        budgets.extend([per_mm.budget, mean.budget]);
        let per_mm = per_mm.estimate;
        let centroids: Vec<Point> = self.counted().map(Pore::centroid).collect();
        let lines = count_lines(
            &centroids,
            per_mm.value,
            self.scale.pixels(Millimetres(1.0)).0,
            self.traced.counting,
            |p| self.counts(p),
        );
        let (smallest, largest) = diameters
            .iter()
            .fold((f64::INFINITY, 0.0_f64), |(low, high), (d, _)| {
                (low.min(*d), high.max(*d))
            });
        Some(PoreFindings {
            count: centroids.len(),
            per_mm2: self.per_mm2(),
            per_mm,
            across_and_along_per_mm: (elongation.median > DRAWN_OUT).then(|| {
                let stretch = elongation.median.sqrt();
                (per_mm.value * stretch, per_mm.value / stretch)
            }),
            handbook: statistics::phrase(&lines).unwrap_or_else(|| {
                if lines.is_empty() && per_mm.value >= FEWEST_PER_MM {
                    statistics::rough_phrase(per_mm.value)
                } else {
                    statistics::diameter_phrase(smallest, diameter_mm.spread, largest)
                }
            }),
            line_crossings_per_mm: self.crossings(&model.surface).map_or(0.0, |c| {
                c.per_px / self.traced.segmentation.frame.step * self.scale.px_per_mm
            }),
            spacing_second_opinion_mm: self
                .traced
                .segmentation
                .ring
                .map(|ring| ring.spacing_px / self.scale.px_per_mm),
            diameter_mm,
            elongation,
            wall_mm_median: self.wall_mm_median(model, &centroids),
            void_fraction: self.void_fraction(model),
            count_lines: lines,
        })
    }

    fn teeth(&self, budgets: &mut Vec<Budget>) -> Option<ToothFindings> {
        let per_mm = self.per_mm()?;
        let model = self.traced.model.as_ref()?;
        let weighted = self.weighted();
        let diameters = self.diameters(&weighted);
        let mean = self.mean_diameter(&weighted, &diameters, model)?;
        let elongation = elongations(&weighted)?;
        let spread = spread(&diameters)?;
        budgets.extend([per_mm.budget, mean.budget]);
        Some(ToothFindings {
            count: self.counted().count(),
            per_mm2: self.per_mm2(),
            per_mm: per_mm.estimate,
            diameter_mm: DiameterFacts {
                mean: mean.estimate,
                spread,
            },
            elongation,
        })
    }

    /// Counted regions per mm².
    fn per_mm2(&self) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "a count")]
        let count = self.counted().count() as f64;
        count / self.scale.square_millimetres(self.area_px2)
    }

    /// Diameters in mm with their edge weights.
    fn diameters(&self, weighted: &[(&Pore, f64)]) -> Vec<(f64, f64)> {
        weighted
            .iter()
            .map(|(pore, weight)| (self.scale.millimetres(pore.diameter()).0, *weight))
            .collect()
    }

    /// Mean diameter, mm.
    fn mean_diameter(
        &self,
        weighted: &[(&Pore, f64)],
        diameters: &[(f64, f64)],
        model: &Model,
    ) -> Option<Budgeted> {
        let mean = weighted_mean(diameters)?;
        let sizes = tiles(
            weighted
                .iter()
                .zip(diameters)
                .map(|((pore, _), (mm, weight))| (pore.centroid(), weight * mm, *weight)),
            self.traced.counting,
            self.tile_px(),
        );
        let (low, high) = if let Some(drawn) = interval(&sizes) {
            (drawn.low, drawn.high)
        } else {
            let half = Z95 * statistics::standard_error(diameters, mean);
            ((mean - half).max(0.0), mean + half)
        };
        let look = model.look;
        let outline = budget::of_outlines(
            f64::from(look.blur),
            f64::from(look.wall),
            f64::from(look.void),
            self.scale.pixels(Millimetres(mean)).0 / self.traced.segmentation.frame.step,
        );
        let ends = [low.min(mean), high.max(mean)];
        Some(self.budgeted(Figure::Diameter, mean, ends, outline))
    }

    /// Voids crossed per mm of random lines × π/2: 1/spacing where walls run straight (Buffon).
    fn stripes_per_mm(&self, budgets: &mut Vec<Budget>) -> Option<Estimate> {
        let depth = &self.traced.segmentation.depth;
        let met = self.crossings(depth)?;
        let (width, height) = self.traced.segmentation.frame.size();
        let scatter = statistics::outline_scatter(
            depth.as_raw(),
            &self.mask(),
            width,
            height,
            PX_PER_SPACING,
        );
        let per_mm = std::f64::consts::FRAC_PI_2 / self.traced.segmentation.frame.step
            * self.scale.px_per_mm;
        let value = met.per_px * per_mm;
        let half = Z95 * met.standard_error.hypot(scatter * met.per_px) * per_mm;
        let counted = self.budgeted(Figure::PerMm, value, [value - half, value + half], 0.0);
        budgets.push(counted.budget);
        Some(counted.estimate)
    }

    fn crossings(&self, level: &Light) -> Option<statistics::Crossings> {
        let (width, height) = self.traced.segmentation.frame.size();
        crossings(level.as_raw(), &self.mask(), width, height)
    }

    /// Which frame pixels lie in the counting area.
    fn mask(&self) -> Vec<bool> {
        self.traced.segmentation.frame.centres_in(&self.counted_in)
    }

    fn void_fraction(&self, model: &Model) -> f64 {
        let (void, all) = model
            .cover
            .iter()
            .zip(self.mask())
            .filter(|(_, inside)| *inside)
            .fold((0.0_f64, 0.0_f64), |(void, all), (cover, _)| {
                (void + f64::from(*cover), all + 1.0)
            });
        if all > 0.0 { void / all } else { 0.0 }
    }

    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "pixel numbers"
    )]
    fn wall_mm_median(&self, model: &Model, centroids: &[Point]) -> Option<f64> {
        let frame = &self.traced.segmentation.frame;
        let (width, height) = frame.size();
        let cover = model.cover.as_raw();
        let wall_on = |a: Point, b: Point| {
            let steps = (a.distance(b) / frame.step * 4.0).ceil().max(1.0);
            let mut wall = 0.0;
            let mut i = 0.5;
            while i < steps {
                let t = i / steps;
                let x = ((a.x + t * (b.x - a.x) - frame.origin.x) / frame.step) as usize;
                let y = ((a.y + t * (b.y - a.y) - frame.origin.y) / frame.step) as usize;
                wall += 1.0 - f64::from(cover[y.min(height - 1) * width + x.min(width - 1)]);
                i += 1.0;
            }
            wall / steps * a.distance(b) / self.scale.px_per_mm
        };
        let walls: Vec<(f64, f64)> =
            statistics::wall_thickness(centroids, self.traced.segmentation.spacing_px, wall_on)
                .into_iter()
                .map(|wall| (wall, 1.0))
                .collect();
        spread(&walls).map(|walls: Spread| walls.median)
    }
}
