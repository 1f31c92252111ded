//! The sharp, usable part of a photo, found by itself: what had better be left out, and why.
//!
//! Every length is a share of the spacing, and every limit a ratio to what the rest of the same photo
//! shows, so that neither scale nor exposure matters. Nothing is decided here: a person sees each
//! [`Proposal`] and may refuse it.

mod foreign;
mod looks;
mod lumps;
mod mask;
mod outline;
mod strip;

use crate::area::{Area, LeftOut, Outline, Reason};
use crate::geometry::{Polygon, Rect};
use crate::photo::Photo;
use crate::progress::{Cancelled, Progress, Stage};
use crate::segmentation::{Frame, MOTTLING, ring};
use looks::{Grid, Look, Looks};
use mask::{about, beside, grown, opened, pieces, smoothed};

/// Light below this share of the photo's bright tenth is no light: fall-off across one surface is a
/// few times, and the mean over voids and walls is never far below that of walls.
const DARK: f32 = 0.05;
/// From this share of white pixels on a tile shows nothing: with a pore in every tile, walls alone
/// cannot be so much.
const ALL_WHITE: f32 = 0.9;
/// Rest of the modulation below which no pores are seen: a tenth of the power.
const BARE: f32 = 1.0 / 3.0;
/// Modulation that the best tenth must have for there to be a pattern at all; beyond mottling by as
/// much as tissue that has pores is beyond tissue that has none.
const PATTERNED: f64 = 1.6 * MOTTLING;
/// Smear, beyond that of the sharpest tenth, from which on edges are no edges: its standard deviation
/// in spacings. At 0.15 an edge takes 0.38 spacings from a tenth to nine tenths, as much as a wall.
const SMEARED: f32 = 0.15;
/// Blur that smears so much takes more than half of the pattern's own power too: e^(−4π²·0.15²) is
/// 0.41. Where the pattern is as strong as elsewhere it has no detail to lose, like straight walls of
/// half the period, which lack every second overtone.
const WEAKENED: f32 = 0.6;
/// Mean square frequency of detail less that of the pattern, in periods per spacing squared.
const DETAIL_ABOVE_PATTERN: f32 = 3.4;
/// A tile next to something foreign, and half as foreign, is part of it.
const HALF_FOREIGN: f32 = 0.5;
/// A tile on the edge of something dark, bright or foreign differs by less than it, but still by more
/// than tiles of one surface among themselves.
const EDGE_OF_FOREIGN: f32 = 0.25;
/// Fewest tiles worth measuring, alone or in all: below it no verdict on the surface is given.
const FEWEST_TILES: usize = 12;
/// The spacing is sought again without what was left out when that is more than this share …
const DISTURBING: f64 = 0.1;
/// … and everything is looked at again when it comes out different by this factor.
const OTHER_SPACING: f64 = 1.25;
/// Longest side of the coarse look for a dark surround, tiles.
const COARSE_TILES: f64 = 96.0;

/// A part that had better be left out.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposal {
    /// Why.
    pub reason: Reason,
    /// Outlines, px of the upright photo; several where one would have to hold a hole.
    pub parts: Vec<Polygon>,
    /// Its share of the area, 0–1.
    pub share: f64,
}

/// What of an area can be used.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Usable {
    /// What had better be left out, the largest first; empty where all can be used.
    pub proposals: Vec<Proposal>,
    /// Whether next to nothing would remain, so that leaving out is no help.
    pub is_hopeless: bool,
}

impl Proposal {
    /// The parts as an area leaves them out.
    pub fn left_out(&self) -> impl Iterator<Item = LeftOut> + '_ {
        self.parts.iter().map(|part| LeftOut {
            outline: part.clone(),
            reason: self.reason,
        })
    }
}

impl Usable {
    /// The area without the parts that had better be left out; as it was where that is no help.
    #[must_use]
    pub fn within(&self, area: &Area) -> Area {
        let mut area = area.clone();
        if !self.is_hopeless {
            area.left_out
                .extend(self.proposals.iter().flat_map(Proposal::left_out));
        }
        area
    }

    /// Share of the area that had better be left out, 0–1.
    #[must_use]
    pub fn share(&self) -> f64 {
        self.proposals.iter().map(|proposal| proposal.share).sum()
    }
}

/// Looks for parts of an area that cannot be measured: a dark surround, an instrument's strip, bare
/// or blurred surface, glare, black holes, foreign matter, crumbs that lie on the pores.
///
/// # Errors
/// [`Cancelled`].
pub fn survey(photo: &Photo, area: &Area, progress: &Progress<'_>) -> Result<Usable, Cancelled> {
    progress.enter(Stage::Usable)?;
    let Ok(bounds) = area.bounds(photo.bounds()) else {
        return Ok(Usable::default());
    };
    let strips = match area.outline {
        Outline::WholePhoto => strip::strips(&photo.rgb),
        // An outline drawn by a person is no photo's edge.
        Outline::Rectangle(_) | Outline::Polygon(_) => Vec::new(),
    };
    let bounds = strips.iter().fold(bounds, strip::beside);
    let strip_parts = |margin: f64| -> Vec<(Reason, Vec<Polygon>)> {
        strips
            .iter()
            .map(|strip| {
                (
                    Reason::Strip,
                    vec![strip::widened(strip, margin, photo.bounds())],
                )
            })
            .collect()
    };
    let clear = without(area, &strip_parts(0.0));
    let surround = dark_surround(photo, &clear, bounds);
    let lit = without(&clear, &surround);
    let (mut tiles_left, mut parts, mut margin) = (usize::MAX, surround, 0.0);
    if let Some(mut spacing_px) = spacing(photo, &lit, bounds) {
        for last in [false, true] {
            progress.check()?;
            let Some(looks) = Looks::of(photo, bounds, spacing_px) else {
                break;
            };
            let guarded = without(area, &strip_parts(spacing_px));
            let verdict = verdict(&looks, &guarded, photo.bounds());
            margin = spacing_px;
            tiles_left = verdict.iter().filter(|v| **v == Verdict::Usable).count();
            parts = parts_of(&looks.grid, &verdict);
            let rest = without(&clear, &parts);
            let measured = share_left(area, &rest, photo.bounds());
            if last || measured > 1.0 - DISTURBING {
                break;
            }
            match spacing(photo, &rest, bounds) {
                Some(again) if (again / spacing_px).ln().abs() > OTHER_SPACING.ln() => {
                    spacing_px = again;
                }
                _ => break,
            }
        }
    }
    // Pores are cut at a strip as at the photo's own edge, and the same guard is kept.
    let mut found = strip_parts(margin);
    found.extend(parts);
    let whole = area.size_px2(photo.bounds()).measured_px2;
    let mut proposals: Vec<Proposal> = found
        .into_iter()
        .map(|(reason, parts)| {
            let without = without(area, &[(reason, parts.clone())]);
            let left = without.size_px2(photo.bounds()).measured_px2;
            Proposal {
                reason,
                parts,
                share: 1.0 - left / whole,
            }
        })
        .filter(|proposal| proposal.share > 0.0)
        .collect();
    proposals.sort_by(|a, b| b.share.total_cmp(&a.share));
    Ok(Usable {
        proposals,
        is_hopeless: tiles_left < FEWEST_TILES,
    })
}

/// The area with more left out.
fn without(area: &Area, parts: &[(Reason, Vec<Polygon>)]) -> Area {
    let mut area = area.clone();
    for (reason, outlines) in parts {
        area.left_out.extend(outlines.iter().map(|outline| LeftOut {
            outline: outline.clone(),
            reason: *reason,
        }));
    }
    area
}

fn share_left(area: &Area, rest: &Area, photo: Rect) -> f64 {
    rest.size_px2(photo).measured_px2 / area.size_px2(photo).measured_px2
}

/// The spacing from the spectrum; `None` where the area is too small or quite flat.
fn spacing(photo: &Photo, area: &Area, bounds: Rect) -> Option<f64> {
    ring(&photo.light, area, bounds).map(|ring| ring.spacing_px)
}

/// Dark parts along the edge, before any spacing is known: their rim would outshine every pattern.
fn dark_surround(photo: &Photo, area: &Area, bounds: Rect) -> Vec<(Reason, Vec<Polygon>)> {
    let tile_px = (bounds.width.max(bounds.height) / COARSE_TILES).max(1.0);
    let frame = Frame::of(&photo.light, bounds, tile_px);
    let (columns, rows) = frame.size();
    let grid = Grid {
        bounds,
        tile_px,
        columns,
        rows,
    };
    let light = frame.light.as_raw();
    let inside = |tile: usize| area.contains(grid.middle(tile), photo.bounds());
    let bright = quantile(
        (0..light.len()).filter(|t| inside(*t)).map(|t| light[t]),
        0.9,
    );
    let dark: Vec<bool> = light.iter().map(|light| *light < DARK * bright).collect();
    let dark = opened(&grid, &dark);
    pieces(&grid, |tile| dark[tile])
        .into_iter()
        .filter(|piece| is_at_edge(&grid, piece) && piece.len() as f64 > 0.01 * light.len() as f64)
        .map(|piece| (Reason::Surround, outline::outlines(&grid, &piece)))
        .collect()
}

/// Whether a piece reaches the photo's edge.
fn is_at_edge(grid: &Grid, piece: &[usize]) -> bool {
    piece.iter().any(|tile| {
        let (column, row) = (tile % grid.columns, tile / grid.columns);
        column == 0 || row == 0 || column + 1 == grid.columns || row + 1 == grid.rows
    })
}

/// What is to become of a tile.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Verdict {
    /// It lies outside the area, and says nothing.
    Outside,
    /// It can be measured.
    Usable,
    /// It had better be left out.
    LeaveOut(Reason),
}

/// Judges every tile.
fn verdict(looks: &Looks, area: &Area, photo: Rect) -> Vec<Verdict> {
    let Looks { grid, tiles, .. } = looks;
    let mut verdict: Vec<Verdict> = (0..tiles.len())
        .map(|tile| {
            if area.contains(grid.middle(tile), photo) {
                Verdict::Usable
            } else {
                Verdict::Outside
            }
        })
        .collect();
    let bright = quantile(usable(&verdict).map(|tile| tiles[tile].light), 0.9);
    // Neither light nor its want leaves anything to be seen.
    let is_dark = |tile: &Look| tile.light < DARK * bright;
    let is_white = |tile: &Look| tile.white >= ALL_WHITE;
    let dark = opened(grid, &tiles.iter().map(is_dark).collect::<Vec<_>>());
    for piece in pieces(grid, |tile| dark[tile]) {
        let reason = if is_at_edge(grid, &piece) {
            Reason::Surround
        } else {
            Reason::Dark
        };
        leave_out(&mut verdict, piece.into_iter(), reason);
    }
    let white = opened(grid, &tiles.iter().map(is_white).collect::<Vec<_>>());
    leave_out(&mut verdict, holding(&white), Reason::Bright);
    if usable(&verdict).count() < FEWEST_TILES {
        return verdict;
    }

    let pattern = pattern_about(looks, &verdict);
    let strongest = quantile(usable(&verdict).map(|t| pattern.power[t]), 0.9);
    if f64::from(strongest.sqrt()) < PATTERNED {
        // Nothing repeats, so that nothing can be told from the rest by it.
        spread(grid, &mut verdict, None);
        return verdict;
    }
    let bare: Vec<bool> = pattern
        .power
        .iter()
        .map(|power| *power < BARE * BARE * strongest)
        .collect();
    let seen: Vec<bool> = (0..tiles.len())
        .map(|tile| verdict[tile] == Verdict::Usable && !bare[tile])
        .collect();
    let out = |tile: usize| matches!(verdict[tile], Verdict::LeaveOut(_));
    // A window reaches two tiles about its own.
    let is_near = |tile: usize| about(grid, tile).any(out);
    let disturbed: Vec<bool> = (0..tiles.len())
        .map(|tile| about(grid, tile).any(is_near))
        .collect();
    let strange = foreign::strangeness(looks, &seen, &disturbed);
    let strongly: Vec<bool> = opened(grid, &strange.iter().map(|s| *s >= 1.0).collect::<Vec<_>>());
    let seeds: Vec<bool> = (0..tiles.len()).map(|t| out(t) || strongly[t]).collect();
    let weakly: Vec<bool> = strange.iter().map(|s| *s >= HALF_FOREIGN).collect();
    let other = grown(grid, &seeds, &weakly);
    for piece in pieces(grid, |tile| other[tile]) {
        // The dim rim of a surround belongs to it.
        let reason = piece
            .iter()
            .find_map(|&tile| match verdict[tile] {
                Verdict::LeaveOut(reason) => Some(reason),
                _ => None,
            })
            .unwrap_or(Reason::Foreign);
        leave_out(&mut verdict, piece.into_iter(), reason);
    }
    leave_out(&mut verdict, holding(&opened(grid, &bare)), Reason::Bare);

    let sharpest = quantile(usable(&verdict).map(|t| pattern.detail_share[t]), 0.9);
    let smear = |share: f32| {
        let loss = (sharpest / share.max(1e-6)).ln().max(0.0);
        (loss / DETAIL_ABOVE_PATTERN).sqrt() / std::f32::consts::TAU
    };
    let blurred: Vec<bool> = (0..tiles.len())
        .map(|tile| {
            smear(pattern.detail_share[tile]) > SMEARED
                && pattern.power[tile] < WEAKENED * strongest
        })
        .collect();
    let blurred = opened(grid, &blurred);
    // Over the edge to sharp surface a window sees most of that surface's detail.
    let rim = (0..tiles.len()).filter(|&tile| {
        smear(pattern.detail_share[tile]) > 0.5 * SMEARED
            && about(grid, tile).any(|other| blurred[other])
    });
    leave_out(&mut verdict, holding(&blurred).chain(rim), Reason::Blurred);
    leave_out_what_hides(looks, &mut verdict);
    spread(grid, &mut verdict, Some(&strange));
    verdict
}

/// Leaves out lumps that lie on the surface, and a margin about all that hides it, since pores are cut
/// there.
fn leave_out_what_hides(looks: &Looks, verdict: &mut [Verdict]) {
    let hides: Vec<bool> = verdict
        .iter()
        .map(|verdict| {
            matches!(
                reason_of(*verdict),
                Some(Reason::Surround | Reason::Bright | Reason::Dark | Reason::Foreign)
            )
        })
        .collect();
    let seen: Vec<bool> = verdict.iter().map(|v| *v == Verdict::Usable).collect();
    let lumps = lumps::lumps(looks, &seen, &hides);
    for piece in pieces(&looks.grid, |tile| lumps[tile] || hides[tile]) {
        let known = piece.iter().find_map(|&tile| reason_of(verdict[tile]));
        let reason = known.unwrap_or(Reason::Foreign);
        leave_out(verdict, piece.into_iter(), reason);
    }
}

/// The tiles of a mask.
fn holding(mask: &[bool]) -> impl Iterator<Item = usize> + '_ {
    (0..mask.len()).filter(|&tile| mask[tile])
}

/// The tiles that can be measured so far.
fn usable(verdict: &[Verdict]) -> impl Iterator<Item = usize> + '_ {
    (0..verdict.len()).filter(|&tile| verdict[tile] == Verdict::Usable)
}

/// Leaves tiles out that were not yet.
fn leave_out(verdict: &mut [Verdict], tiles: impl Iterator<Item = usize>, reason: Reason) {
    for tile in tiles {
        if verdict[tile] == Verdict::Usable {
            verdict[tile] = Verdict::LeaveOut(reason);
        }
    }
}

/// Pattern and sharpness over the three by three tiles about each.
struct Pattern {
    power: Vec<f32>,
    /// Detail over pattern.
    detail_share: Vec<f32>,
}

fn pattern_about(looks: &Looks, verdict: &[Verdict]) -> Pattern {
    let seen: Vec<bool> = verdict.iter().map(|v| *v == Verdict::Usable).collect();
    let mean = |value: fn(&Look) -> f32| {
        let values: Vec<f32> = looks.tiles.iter().map(value).collect();
        smoothed(&looks.grid, &values, &seen)
    };
    let (power, detail) = (mean(|tile| tile.pattern), mean(|tile| tile.detail));
    Pattern {
        detail_share: detail
            .iter()
            .zip(&power)
            .map(|(detail, power)| if *power > 0.0 { detail / power } else { 0.0 })
            .collect(),
        power,
    }
}

/// Tidies up: a tile beside what is left out goes with it where it lies on its edge; so do islands
/// too small to measure.
///
/// What is told by its pattern is told late, since windows reach over its edge; what is told by its
/// light has its edge where the light says.
fn spread(grid: &Grid, verdict: &mut [Verdict], strange: Option<&[f32]>) {
    let before = verdict.to_vec();
    for tile in 0..verdict.len() {
        let is_on_edge = |reason: Reason| match (reason, strange) {
            (Reason::Bare | Reason::Blurred, _) | (_, None) => true,
            (_, Some(strange)) => strange[tile] >= EDGE_OF_FOREIGN,
        };
        if verdict[tile] == Verdict::Usable
            && let Some(reason) = about(grid, tile)
                .filter_map(|other| reason_of(before[other]))
                .find(|reason| is_on_edge(*reason))
        {
            verdict[tile] = Verdict::LeaveOut(reason);
        }
    }
    let islands = pieces(grid, |tile| verdict[tile] == Verdict::Usable);
    for island in islands.iter().filter(|island| island.len() < FEWEST_TILES) {
        let reason = island
            .iter()
            .flat_map(|&tile| beside(grid, tile))
            .find_map(|other| reason_of(verdict[other]));
        if let Some(reason) = reason {
            leave_out(verdict, island.iter().copied(), reason);
        }
    }
    join_slivers(grid, verdict);
}

/// Fewest tiles of a part by itself; a smaller one beside another part is part of that.
const FEWEST_TILES_OF_PART: usize = 6;

/// Joins slivers to what they lie beside, so that a person has few parts to look at.
fn join_slivers(grid: &Grid, verdict: &mut [Verdict]) {
    for reason in Reason::FOUND {
        for piece in pieces(grid, |tile| verdict[tile] == Verdict::LeaveOut(reason)) {
            let other = piece
                .iter()
                .flat_map(|&tile| beside(grid, tile))
                .filter_map(|other| reason_of(verdict[other]))
                .find(|other| *other != reason);
            if let Some(other) = other
                && piece.len() < FEWEST_TILES_OF_PART
            {
                for tile in piece {
                    verdict[tile] = Verdict::LeaveOut(other);
                }
            }
        }
    }
}

const fn reason_of(verdict: Verdict) -> Option<Reason> {
    match verdict {
        Verdict::LeaveOut(reason) => Some(reason),
        Verdict::Outside | Verdict::Usable => None,
    }
}

/// Outlines of what is left out, piece by piece.
fn parts_of(grid: &Grid, verdict: &[Verdict]) -> Vec<(Reason, Vec<Polygon>)> {
    Reason::FOUND
        .into_iter()
        .flat_map(|reason| {
            pieces(grid, |tile| verdict[tile] == Verdict::LeaveOut(reason))
                .into_iter()
                .map(move |piece| (reason, outline::outlines(grid, &piece)))
        })
        .collect()
}

/// The value below which a share of the values lies; 0 of none.
fn quantile(values: impl Iterator<Item = f32>, share: f32) -> f32 {
    let mut values: Vec<f32> = values.collect();
    if values.is_empty() {
        return 0.0;
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "an index"
    )]
    let index = ((values.len() - 1) as f32 * share).round() as usize;
    *values.select_nth_unstable_by(index, f32::total_cmp).1
}
