//! Telling voids from walls, in pixels only.
//!
//! The spacing comes first, from the power spectrum; every length after that is a share of it.
//! Then the local light levels of void and wall, the basins that part neighbouring voids, and the
//! [`Topology`] that tells which phase is isolated in which.

mod basins;
mod borders;
mod corrected;
pub mod euler;
mod floods;
mod frame;
mod gaussian;
mod hairs;
pub mod label;
mod levels;
mod model;
mod necks;
mod parabola;
mod preview;
mod spectrum;
mod topology;

pub use basins::Basins;
pub use corrected::{Corrected, SHALLOWEST, SPECK};
pub use frame::{Frame, PX_PER_SPACING};
pub use levels::Levels;
pub use model::Model;
pub use preview::Preview;
pub use spectrum::{MOTTLING, Ring, ring};
pub use topology::Topology;

use borders::Border;
use floods::{Floods, sunk_by_less_than};

use crate::area::{Area, AreaError, LeftOut, Outline, Rows};
use crate::corrections::{Correction, LeastWall};
use crate::geometry::Rect;
use crate::photo::Light;
use crate::progress::{Cancelled, Progress, Stage};
use rayon::prelude::*;
use std::sync::Arc;

/// Two floods are kept apart when both have sunk by at least this share of the local contrast …
const LEAST_RULE: f32 = 0.1;
/// … and by at least this share of the height that walls typically have on this photo.
const SHARE_OF_TYPICAL_WALL: f32 = 0.35;
/// Smoothing before the flood, in spacings: the least, and the most that noise may ask for.
const LEAST_SMOOTHING: f64 = 0.05;
const MOST_SMOOTHING: f64 = 0.12;
/// Ripples of noise this many standard deviations high must not part a void.
const NOISE_MARGIN: f64 = 4.5;
/// Margin about the area that is looked at too, so that pores on its edge are seen whole, in spacings.
const MARGIN: f64 = 2.0;
/// The spectrum's spacing is kept when the count of clearly isolated voids agrees with it within this
/// factor.
const SPACING_TOLERANCE: f64 = 1.25;

/// Hairs are sought again without those that were found, at most so often: where several cross, the
/// first hide the others.
const ROUNDS_OF_HAIRS: usize = 3;

/// Blur of the photo where no model tells it, in spacings: as much as leaves sizes right.
const BLUR_UNTOLD: f64 = 0.1;

/// Spacings below this many photo px are not looked for: no wall could be seen.
const FINEST_SPACING_PX: f64 = 6.0;

/// Noise is the same all over, so rows are skipped where there are many more pixels than that.
const NOISE_FROM: usize = 1_000_000;

/// Which of the two phases is looked at as separate regions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phase {
    /// Dark hollows: pores.
    Void,
    /// Bright tissue: teeth.
    Wall,
}

/// Why there is nothing to segment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum SegmentationError {
    /// See [`AreaError`].
    #[error(transparent)]
    Area(#[from] AreaError),
    /// See [`Cancelled`].
    #[error(transparent)]
    Cancelled(#[from] Cancelled),
}

/// One area of a photo, parted into voids and walls.
#[derive(Debug)]
pub struct Segmentation {
    /// The resampled photo.
    pub frame: Arc<Frame>,
    /// Which frame pixels belong to the area.
    pub area: Arc<Vec<bool>>,
    /// Which frame pixels may be looked at: in the margin too, but not where something was left out.
    pub seen: Arc<Vec<bool>>,
    /// Which frame pixels lie under a pale hair, which was taken out of the frame.
    pub hairs: Arc<Vec<bool>>,
    /// What the spectrum says, when it says anything.
    pub ring: Option<Ring>,
    /// Spacing used for all lengths, photo px.
    pub spacing_px: f64,
    /// How voids and walls hang together.
    pub topology: Topology,
    /// Depth between the local levels of wall (0) and void (1), smoothed as the noise asked for.
    pub depth: Arc<Light>,
    /// Standard deviation of that smoothing, frame px.
    smoothing: f32,
    levels: Arc<Levels>,
    /// How high a wall has to be to part two regions.
    pub least_wall: LeastWall,
    voids: Basins,
    walls: Basins,
}

impl Segmentation {
    /// Segments the area of a photo given by its linear luminance.
    ///
    /// # Errors
    /// [`SegmentationError::Area`] when the area holds nothing of the photo, and
    /// [`SegmentationError::Cancelled`].
    pub fn of(
        light: &Light,
        area: &Area,
        progress: &Progress<'_>,
    ) -> Result<Self, SegmentationError> {
        let photo = Rect::of_size(light.width(), light.height());
        let bounds = area.bounds(photo)?;
        progress.enter(Stage::Spacing)?;
        let ring = ring(light, area, bounds);
        // Without structure there is nothing to resolve, and a coarse look is enough.
        let coarse = bounds.width.min(bounds.height) / 12.0;
        let mut spacing_px = ring
            .filter(|ring| ring.modulation >= MOTTLING)
            .map_or(coarse, |ring| ring.spacing_px)
            .max(FINEST_SPACING_PX);
        progress.enter(Stage::Segmentation)?;
        let mut segmentation = Self::at(light, area, bounds, photo, ring, spacing_px)?;
        if let Some(counted) = segmentation.counted_spacing_px() {
            progress.check()?;
            let counted = counted.max(FINEST_SPACING_PX);
            let ratio = counted / spacing_px;
            if !(1.0 / SPACING_TOLERANCE..SPACING_TOLERANCE).contains(&ratio) {
                spacing_px = counted;
                segmentation = Self::at(light, area, bounds, photo, ring, spacing_px)?;
            }
        }
        Ok(segmentation)
    }

    fn at(
        light: &Light,
        area: &Area,
        bounds: Rect,
        photo: Rect,
        ring: Option<Ring>,
        spacing_px: f64,
    ) -> Result<Self, SegmentationError> {
        let margin = MARGIN * spacing_px;
        let looked_at = Rect {
            x: bounds.x - margin,
            y: bounds.y - margin,
            width: bounds.width + 2.0 * margin,
            height: bounds.height + 2.0 * margin,
        }
        .intersection(&photo);
        let mut frame = Frame::of(light, looked_at, spacing_px / PX_PER_SPACING);
        let inside = frame.centres_in(&Rows::of(area, photo, |_| true));
        if !inside.contains(&true) {
            return Err(AreaError::Empty.into());
        }
        let all = Area {
            outline: Outline::WholePhoto,
            left_out: area.left_out.clone(),
        };
        let seen = frame.centres_in(&Rows::of(&all, photo, LeftOut::cuts));
        let mut parted = Parted::of(&frame, &inside, &seen);
        let mut hairs = vec![false; inside.len()];
        for _ in 0..ROUNDS_OF_HAIRS {
            if parted.topology.cells_px().is_none() {
                break;
            }
            let more = hairs::covered(&parted.voids, &parted.void_borders, &parted.depth, &inside);
            if !more.contains(&true) {
                break;
            }
            for (hair, more) in hairs.iter_mut().zip(more) {
                *hair |= more;
            }
            frame.light = hairs::filled(&frame.light, &hairs);
            // Both at once would take more memory than anything else.
            drop(parted);
            parted = Parted::of(&frame, &inside, &seen);
        }
        let Parted {
            levels,
            depth,
            smoothing,
            voids,
            walls,
            topology,
            ..
        } = parted;
        Ok(Self {
            frame: Arc::new(frame),
            area: Arc::new(inside),
            seen: Arc::new(seen),
            hairs: Arc::new(hairs),
            ring,
            spacing_px,
            topology,
            depth: Arc::new(depth),
            smoothing,
            levels: Arc::new(levels),
            least_wall: LeastWall::USUAL,
            voids,
            walls,
        })
    }

    /// The same, with walls of another height parting regions. Spacing, levels, depth and hairs stay as
    /// they are.
    #[must_use]
    pub fn with_least_wall(&self, least_wall: LeastWall) -> Self {
        let ((voids, _), walls, topology) = part(&self.depth, &self.area, &self.seen, least_wall);
        Self {
            frame: Arc::clone(&self.frame),
            area: Arc::clone(&self.area),
            seen: Arc::clone(&self.seen),
            hairs: Arc::clone(&self.hairs),
            depth: Arc::clone(&self.depth),
            levels: Arc::clone(&self.levels),
            ring: self.ring,
            spacing_px: self.spacing_px,
            smoothing: self.smoothing,
            topology,
            least_wall,
            voids,
            walls,
        }
    }

    /// Contrast between voids and walls as a share of the walls' light, 0–1.
    #[must_use]
    pub fn contrast(&self) -> f64 {
        self.levels.contrast
    }

    /// Share of the area that lay under pale hairs, 0–1.
    #[must_use]
    pub fn under_hairs(&self) -> f64 {
        let inside = self.area.iter().filter(|inside| **inside).count();
        let under = self.hairs.iter().zip(self.area.iter());
        let under = under.filter(|(hair, inside)| **hair && **inside).count();
        under as f64 / inside.max(1) as f64
    }

    /// One basin for every region of a phase, those joined through a broken wall parted at the gap.
    /// Then as a person corrected them.
    #[must_use]
    pub fn regions(&self, phase: Phase, corrections: &[Correction]) -> Corrected {
        let part = |basins: &Basins, plane: &Light| {
            let basins = necks::part(basins, plane);
            Corrected::of(basins, plane, &self.frame, corrections)
        };
        match phase {
            Phase::Void => part(&self.voids, &self.depth),
            Phase::Wall => part(&self.walls, &turned(&self.depth)),
        }
    }

    /// Fits the two-phase model, with the [`regions`](Self::regions) of one phase kept apart.
    #[must_use]
    pub fn model(&self, phase: Phase, regions: &Corrected) -> Model {
        let mut model = Model::fit(
            &self.frame.light,
            &self.levels,
            &regions.basins,
            &self.area,
            self.smoothing,
            phase,
        );
        model.overrule(&regions.told);
        model
    }

    /// Share of void in what the photo shows at each frame pixel, as the lens mixed it, 0–1: by the
    /// model, or without one by depth.
    #[must_use]
    pub fn void_seen(&self, model: Option<&Model>) -> Light {
        if let Some(model) = model {
            return model.void_seen();
        }
        let mut void = Light::clone(&self.depth);
        for depth in void.iter_mut() {
            *depth = f32::from(u8::from(*depth > 0.5));
        }
        #[expect(clippy::cast_possible_truncation, reason = "a few pixels")]
        let blur = (BLUR_UNTOLD * PX_PER_SPACING) as f32;
        gaussian::blur(&void, blur)
    }

    /// Spacing of a triangular lattice with as many points as isolated regions were found, photo px.
    fn counted_spacing_px(&self) -> Option<f64> {
        let cells = self.topology.cells_px()?;
        Some((cells * 2.0 / 3.0_f64.sqrt()).sqrt() * self.frame.step)
    }
}

/// A frame's light, parted into voids and walls.
struct Parted {
    levels: Levels,
    depth: Light,
    smoothing: f32,
    voids: Basins,
    void_borders: Vec<Border>,
    walls: Basins,
    topology: Topology,
}

impl Parted {
    fn of(frame: &Frame, inside: &[bool], seen: &[bool]) -> Self {
        let levels = Levels::find(&gaussian::blur(&frame.light, 0.7), inside, PX_PER_SPACING);
        let (depth, smoothing) = smoothed_depth(frame, &levels, inside);
        let ((voids, void_borders), walls, topology) = part(&depth, inside, seen, LeastWall::USUAL);
        Self {
            levels,
            depth,
            smoothing,
            voids,
            void_borders,
            walls,
            topology,
        }
    }
}

/// Depth as it is to the wall: 1 at wall and 0 at void.
fn turned(depth: &Light) -> Light {
    let mut turned = depth.clone();
    for depth in turned.iter_mut() {
        *depth = 1.0 - *depth;
    }
    turned
}

/// Basins of voids with their borders, those of walls, and how they hang together.
fn part(
    depth: &Light,
    inside: &[bool],
    seen: &[bool],
    least_wall: LeastWall,
) -> ((Basins, Vec<Border>), Basins, Topology) {
    let turned = turned(depth);
    let (voids, walls) = rayon::join(
        || flood(depth, seen, least_wall),
        || flood(&turned, seen, least_wall),
    );
    let topology = Topology::of((depth, &voids), (&turned, &walls), inside);
    (voids, walls.0, topology)
}

/// Floods, learns how high walls are, and joins by the rule that follows.
fn flood(depth: &Light, seen: &[bool], least_wall: LeastWall) -> (Basins, Vec<Border>) {
    let floods = Floods::of(depth, seen);
    let rule = rule(usual_rule(&floods), least_wall);
    floods.joined(sunk_by_less_than(rule))
}

/// The height rule that follows from how high walls typically are.
fn usual_rule(floods: &Floods) -> f32 {
    (SHARE_OF_TYPICAL_WALL * floods.typical_wall(LEAST_RULE)).max(LEAST_RULE)
}

/// The height rule where walls are taken otherwise.
fn rule(usual: f32, least_wall: LeastWall) -> f32 {
    #[expect(clippy::cast_possible_truncation, reason = "a multiple of order one")]
    let multiple = least_wall.multiple() as f32;
    usual * multiple
}

/// Depth smoothed as much as the noise asks for, and the standard deviation of the smoothing, frame px.
fn smoothed_depth(frame: &Frame, levels: &Levels, area: &[bool]) -> (Light, f32) {
    let depth = levels.depth(&frame.light);
    let least = LEAST_SMOOTHING * PX_PER_SPACING;
    let most = MOST_SMOOTHING * PX_PER_SPACING;
    let noise = noise_in(&depth, area);
    // White noise after a Gaussian of σ px: times 1/(2√π σ).
    let remains = |sigma: f64| noise / (2.0 * std::f64::consts::PI.sqrt() * sigma);
    let mut sigma = least;
    while sigma < most && remains(sigma) * NOISE_MARGIN >= f64::from(LEAST_RULE) {
        sigma = (sigma * 1.2).min(most);
    }
    #[expect(clippy::cast_possible_truncation, reason = "a few pixels")]
    let sigma = sigma as f32;
    (gaussian::blur(&depth, sigma), sigma)
}

/// Standard deviation of white noise in a plane: Immerkær (1996, Comput. Vis. Image Underst. 64: 300–302),
/// with the median in place of the mean so that edges do not count as noise.
fn noise_in(depth: &Light, area: &[bool]) -> f64 {
    let (width, height) = (depth.width() as usize, depth.height() as usize);
    if width < 3 || height < 3 {
        return 0.0;
    }
    let raw = depth.as_raw();
    let every = (raw.len() / NOISE_FROM).max(1);
    let mut responses: Vec<f32> = (1..height - 1)
        .into_par_iter()
        .step_by(every)
        .flat_map_iter(|y| {
            let at = move |x: usize, dx: usize, dy: usize| raw[(y + dy - 1) * width + x + dx - 1];
            (1..width - 1)
                .filter(move |x| area[y * width + x])
                .map(move |x| {
                    let response = at(x, 0, 0) - 2.0 * at(x, 1, 0) + at(x, 2, 0)
                        - 2.0 * at(x, 0, 1)
                        + 4.0 * at(x, 1, 1)
                        - 2.0 * at(x, 2, 1)
                        + at(x, 0, 2)
                        - 2.0 * at(x, 1, 2)
                        + at(x, 2, 2);
                    response.abs()
                })
        })
        .collect();
    if responses.is_empty() {
        return 0.0;
    }
    let middle = responses.len() / 2;
    let median = f64::from(*responses.select_nth_unstable_by(middle, f32::total_cmp).1);
    // Median of |N(0, σ)| = 0.6745 σ; the mask multiplies the SD of white noise by 6.
    median / (0.6745 * 6.0)
}
