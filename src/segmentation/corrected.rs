//! Regions as a person corrected them.
//!
//! Corrections act on the basins before the model is fitted, in the order in which they were made. What a
//! person says goes before what the photo shows: where a pore was deleted, added, drawn or joined across a
//! wall, [`Corrected::told`] overrules the model.

use super::basins::Basins;
use super::frame::{Frame, PX_PER_SPACING};
use crate::corrections::{Correction, Kind};
use crate::geometry::{Point, Polygon};
use crate::photo::Light;
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// Regions below this share of the median area are specks, not pores.
pub const SPECK: f64 = 0.06;
/// A region whose deepest point does not reach this depth has no floor: a dimple or noise.
pub const SHALLOWEST: f32 = 0.55;

/// What is this deep, as a share of its region's deepest point, is void.
const VOID: f32 = 0.5;
/// Pieces of fewer frame pixels come of no cut, and are no pore that was missed.
const FEWEST_PX: usize = 4;
/// Rounds in which the level of such a pore's outline is sought.
const ROUNDS: usize = 8;
/// A pore that was missed is this much deeper than what is about it.
const LEAST_DIP: f32 = 0.1;

/// Basins of the regions of a phase, and what a person did to them.
#[derive(Debug, Clone)]
pub struct Corrected {
    /// One basin for every region.
    pub basins: Basins,
    /// By label: whether a person shaped it. Such a region is a pore, however shallow or small.
    pub by_hand: Vec<bool>,
    /// By correction: whether it found something to act on.
    pub had_effect: Vec<bool>,
    /// Pixels whose share of the regions' phase a person told, and that share.
    pub told: BTreeMap<usize, f32>,
}

impl Corrected {
    /// Regions as they were found, with corrections made to them. `plane` is the depth, turned round
    /// where regions are walls.
    pub(super) fn of(
        basins: Basins,
        plane: &Light,
        frame: &Frame,
        corrections: &[Correction],
    ) -> Self {
        let by_hand = vec![false; basins.count() + 1];
        if corrections.is_empty() {
            return Self {
                basins,
                by_hand,
                had_effect: Vec::new(),
                told: BTreeMap::new(),
            };
        }
        let mut bench = Bench::of(basins, plane, frame);
        let had_effect = corrections.iter().map(|c| bench.correct(c)).collect();
        let (basins, by_hand) = bench.basins.renumbered(&bench.by_hand);
        Self {
            basins,
            by_hand,
            had_effect,
            told: bench.told,
        }
    }
}

/// Where basins are worked on.
struct Bench<'a> {
    frame: &'a Frame,
    plane: &'a [f32],
    width: usize,
    height: usize,
    basins: Basins,
    by_hand: Vec<bool>,
    deleted: BTreeSet<u32>,
    told: BTreeMap<usize, f32>,
    /// By label of those that were found: pixels that are void.
    void_px: Vec<usize>,
    /// Least of them that make a pore.
    fewest_px: f64,
}

impl<'a> Bench<'a> {
    fn of(basins: Basins, plane: &'a Light, frame: &'a Frame) -> Self {
        let (width, height) = frame.size();
        let mut void_px = vec![0_usize; basins.count() + 1];
        for (label, depth) in basins.of_pixel.iter().zip(plane.iter()) {
            void_px[*label as usize] += usize::from(*depth > VOID);
        }
        let mut sizes: Vec<usize> = void_px.iter().skip(1).copied().filter(|n| *n > 0).collect();
        sizes.sort_unstable();
        let typical = sizes.get(sizes.len() / 2).copied().unwrap_or(0);
        Self {
            frame,
            plane: plane.as_raw(),
            width,
            height,
            by_hand: vec![false; basins.count() + 1],
            deleted: BTreeSet::new(),
            told: BTreeMap::new(),
            fewest_px: (SPECK * typical as f64).max(1.0),
            void_px,
            basins,
        }
    }

    fn correct(&mut self, correction: &Correction) -> bool {
        match (correction.kind(), correction.places()) {
            (Kind::Join, &[a, b]) => self.join(a, b),
            (Kind::Split, stroke) => self.split(stroke),
            (Kind::Delete, &[place]) => self.delete(place),
            (Kind::Add, &[place]) => self.add(place),
            (Kind::Draw, _) => self.draw(&correction.outline()),
            // A correction has the places its kind takes.
            (Kind::Join | Kind::Delete | Kind::Add, _) => false,
        }
    }

    /// One pore of two neighbours. Where a wall is seen between them, a channel is opened through its
    /// lowest place, so that they hang together.
    fn join(&mut self, a: Point, b: Point) -> bool {
        let (Some((from, a)), Some((_, b))) = (self.pore_at(a), self.pore_at(b)) else {
            return false;
        };
        if a == b {
            return false;
        }
        let Some(pass) = self.pass(from, b) else {
            return false;
        };
        for foot in pass {
            let label = self.basins.of_pixel[foot];
            for pixel in self.way_down(foot, |p| self.depth(p)) {
                for near in self.around(pixel, false).chain([pixel]) {
                    let of = self.basins.of_pixel[near];
                    if of == a || of == b {
                        self.told.insert(near, 1.0);
                    }
                }
                if self.basins.of_pixel[pixel] != label {
                    break;
                }
            }
        }
        let start = if self.basins.of_pixel[pass[0]] == b {
            pass[0]
        } else {
            pass[1]
        };
        for pixel in self.region(start) {
            self.basins.of_pixel[pixel] = a;
        }
        let [kept, lost] = [a, b].map(|label| self.basins.deepest[label as usize]);
        self.basins.deepest[a as usize] = kept.max(lost);
        self.by_hand[a as usize] = true;
        true
    }

    /// Every pore that a stroke crosses from side to side becomes its parts beside the stroke.
    fn split(&mut self, stroke: &[Point]) -> bool {
        let cut = self.cut(stroke);
        let mut crossed: Vec<(usize, u32)> = Vec::new();
        for &pixel in &cut {
            let label = self.basins.of_pixel[pixel];
            if self.is_pore(label) && crossed.iter().all(|(_, other)| *other != label) {
                crossed.push((pixel, label));
            }
        }
        let cut: BTreeSet<usize> = cut.into_iter().collect();
        let mut any = false;
        for (start, label) in crossed {
            any |= self.part(start, label, &cut, FEWEST_PX);
        }
        any
    }

    /// Makes a basin of each piece of void beside a cut that is large enough, where there are two or more.
    fn part(&mut self, start: usize, label: u32, cut: &BTreeSet<usize>, fewest_px: usize) -> bool {
        let region = self.region(start);
        let void: BTreeSet<usize> = region
            .iter()
            .copied()
            .filter(|pixel| self.is_void(*pixel, label) && !cut.contains(pixel))
            .collect();
        let mut parts: Vec<Vec<usize>> = Vec::new();
        let mut reached = BTreeSet::new();
        for &pixel in &void {
            if reached.contains(&pixel) {
                continue;
            }
            let piece = self.reach(pixel, |p| void.contains(&p));
            reached.extend(piece.iter().copied());
            let beside = |p: &usize| self.around(*p, true).any(|q| cut.contains(&q));
            if piece.len() >= fewest_px && piece.iter().any(beside) {
                parts.push(piece);
            }
        }
        if parts.len() < 2 {
            return false;
        }
        for pixel in region.iter().filter(|pixel| cut.contains(pixel)) {
            self.told.remove(pixel);
        }
        // What is nearer to one part than to the others goes with it.
        let members: BTreeSet<usize> = region.into_iter().collect();
        let labels: Vec<u32> = (0..parts.len())
            .map(|part| if part == 0 { label } else { self.new_label() })
            .collect();
        let mut taken: BTreeMap<usize, u32> = BTreeMap::new();
        let mut queue = VecDeque::new();
        for (part, label) in parts.into_iter().zip(&labels) {
            for pixel in part {
                taken.insert(pixel, *label);
                queue.push_back(pixel);
            }
        }
        while let Some(pixel) = queue.pop_front() {
            let label = taken[&pixel];
            for near in self.around(pixel, true).collect::<Vec<_>>() {
                if members.contains(&near) && !taken.contains_key(&near) {
                    taken.insert(near, label);
                    queue.push_back(near);
                }
            }
        }
        for label in labels {
            self.by_hand[label as usize] = true;
            self.basins.deepest[label as usize] = f32::NEG_INFINITY;
        }
        for (pixel, label) in taken {
            self.basins.of_pixel[pixel] = label;
            let depth = self.depth(pixel);
            let deepest = &mut self.basins.deepest[label as usize];
            *deepest = deepest.max(depth);
        }
        true
    }

    /// All of it is wall.
    fn delete(&mut self, place: Point) -> bool {
        let Some((start, label)) = self.pore_at(place) else {
            return false;
        };
        for pixel in self.region(start) {
            self.told.insert(pixel, 0.0);
        }
        self.deleted.insert(label);
        true
    }

    /// What is darker than half depth about a place, within a spacing, becomes a pore.
    fn add(&mut self, place: Point) -> bool {
        let Some(start) = self
            .pixel_at(place)
            .filter(|p| self.basins.of_pixel[*p] != 0)
        else {
            return false;
        };
        if self.is_in_pore(start) {
            return false;
        }
        let Some(&floor) = self.way_down(start, |p| self.plane[p]).last() else {
            return false;
        };
        let near = |a: usize, b: usize, reach: f64| self.distance(a, b) <= reach;
        if self.is_in_pore(floor) || !near(start, floor, PX_PER_SPACING / 2.0) {
            return false;
        }
        let Some(found) = self.hollow_about(floor) else {
            return false;
        };
        let label = self.new_label();
        self.by_hand[label as usize] = true;
        self.basins.deepest[label as usize] = 1.0;
        for pixel in found {
            self.basins.of_pixel[pixel] = label;
            self.told.insert(pixel, 1.0);
        }
        true
    }

    /// What hangs together with a place and is deeper than half way between it and the wall about it, found
    /// by iteration as local levels are: the level lies in the middle between the mean of the hollow and
    /// the mean of the wall.
    fn hollow_about(&self, floor: usize) -> Option<Vec<usize>> {
        let about = self.reach(floor, |p| {
            self.distance(floor, p) <= PX_PER_SPACING
                && self.basins.of_pixel[p] != 0
                && !self.is_in_pore(p)
        });
        let wall_below = |level: f32| {
            let walls = about.iter().map(|p| self.plane[*p]).filter(|d| *d <= level);
            let (sum, count) = walls.fold((0.0, 0.0_f32), |(sum, n), d| (sum + d, n + 1.0));
            (count > 0.0).then_some(sum / count)
        };
        let deeper_than = |level: f32| -> Vec<usize> {
            let allowed: BTreeSet<usize> = about.iter().copied().collect();
            self.reach(floor, |p| self.plane[p] > level && allowed.contains(&p))
        };
        let deep = self.plane[floor];
        let mut level = f32::midpoint(deep, wall_below(deep)?);
        let mut found = deeper_than(level);
        for _ in 0..ROUNDS {
            let mean = found.iter().map(|p| self.plane[*p]).sum::<f32>() / found.len() as f32;
            level = f32::midpoint(mean, wall_below(level)?);
            found = deeper_than(level);
        }
        (deep - wall_below(level)? >= LEAST_DIP && found.len() >= FEWEST_PX).then_some(found)
    }

    /// What lies in an outline is one pore. Pores most of which lie in it are replaced by it.
    fn draw(&mut self, outline: &Polygon) -> bool {
        let mut inside = self.shares_inside(outline);
        inside.retain(|pixel, _| self.basins.of_pixel[*pixel] != 0);
        if inside.values().sum::<f32>() < 1.0 {
            return false;
        }
        let mut starts: BTreeMap<u32, usize> = BTreeMap::new();
        for &pixel in inside.keys() {
            starts.entry(self.basins.of_pixel[pixel]).or_insert(pixel);
        }
        let mut cut = Vec::new();
        for (label, start) in starts {
            if self.deleted.contains(&label) {
                continue;
            }
            let region = self.region(start);
            let void = region.iter().filter(|p| self.is_void(**p, label));
            let (mut within, mut all) = (0_usize, 0_usize);
            for pixel in void {
                all += 1;
                within += usize::from(inside.contains_key(pixel));
            }
            if 2 * within > all {
                for pixel in region {
                    self.told.insert(pixel, 0.0);
                }
                self.deleted.insert(label);
            } else {
                self.by_hand[label as usize] |= within > 0 && self.is_pore(label);
                cut.push(region);
            }
        }
        let label = self.new_label();
        self.by_hand[label as usize] = true;
        self.basins.deepest[label as usize] = 1.0;
        let drawn: BTreeSet<usize> = inside.keys().copied().collect();
        for (pixel, share) in inside {
            self.basins.of_pixel[pixel] = label;
            self.told.insert(pixel, share);
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a number of pixels"
        )]
        let fewest_px = (self.fewest_px.ceil() as usize).max(FEWEST_PX);
        for mut region in cut {
            region.retain(|pixel| !drawn.contains(pixel));
            for start in self.separate(region) {
                self.part(start, self.basins.of_pixel[start], &drawn, fewest_px);
            }
        }
        true
    }

    /// Where what is left of a basin does not hang together, all but its largest piece are basins of
    /// their own; a pixel of each.
    fn separate(&mut self, left: Vec<usize>) -> Vec<usize> {
        let mut left: BTreeSet<usize> = left.into_iter().collect();
        let mut pieces = Vec::new();
        while let Some(&start) = left.first() {
            let piece = self.reach(start, |pixel| left.contains(&pixel));
            for pixel in &piece {
                left.remove(pixel);
            }
            pieces.push(piece);
        }
        pieces.sort_by_key(|piece| std::cmp::Reverse(piece.len()));
        let starts = pieces.iter().map(|piece| piece[0]).collect();
        for piece in pieces.into_iter().skip(1) {
            let label = self.new_label();
            for pixel in piece {
                self.basins.of_pixel[pixel] = label;
                let depth = self.depth(pixel);
                self.void_px[label as usize] += usize::from(depth > VOID);
                let deepest = &mut self.basins.deepest[label as usize];
                *deepest = deepest.max(depth);
            }
        }
        starts
    }

    /// Frame pixels of which some lies in an outline, and how much: exact along rows a quarter of a pixel
    /// high.
    fn shares_inside(&self, outline: &Polygon) -> BTreeMap<usize, f32> {
        const ROWS: u32 = 4;
        let mut shares = BTreeMap::new();
        let corners = outline.vertices().iter();
        let in_frame = Polygon::new(corners.map(|p| self.frame.frame_from_photo(*p)).collect());
        let bounds = in_frame.bounds();
        let (width, height) = (self.width as f64, self.height as f64);
        let (first, last) = (
            bounds.y.max(0.0).floor(),
            (bounds.y + bounds.height).min(height).ceil(),
        );
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped to the frame"
        )]
        for row in first as usize..last.max(first) as usize {
            for part in 0..ROWS {
                let y = row as f64 + (f64::from(part) + 0.5) / f64::from(ROWS);
                let mut ends: Vec<f64> = in_frame.crossings_of_row(y).collect();
                ends.sort_by(f64::total_cmp);
                for span in ends.chunks_exact(2) {
                    let (from, to) = (span[0].max(0.0), span[1].min(width));
                    let mut x = from.floor();
                    while x < to {
                        let share = (to.min(x + 1.0) - from.max(x)) / f64::from(ROWS);
                        *shares.entry(row * self.width + x as usize).or_insert(0.0) += share as f32;
                        x += 1.0;
                    }
                }
            }
        }
        shares.retain(|_, share: &mut f32| *share > 0.0);
        shares
    }

    /// Pixels under a stroke, each sharing a side with the one before it, so that nothing slips through
    /// between them.
    fn cut(&self, stroke: &[Point]) -> Vec<usize> {
        let mut cut: Vec<(i64, i64)> = Vec::new();
        for ends in stroke.windows(2) {
            let [a, b] = [ends[0], ends[1]].map(|p| self.frame.frame_from_photo(p));
            let steps = (4.0 * a.distance(b)).ceil().clamp(1.0, 1e6);
            let mut step = 0.0;
            while step <= steps {
                let t = step / steps;
                #[expect(clippy::cast_possible_truncation, reason = "pixel numbers")]
                let at = [a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)].map(|v| v.floor() as i64);
                let at = (at[0], at[1]);
                if let Some(&before) = cut.last()
                    && before.0 != at.0
                    && before.1 != at.1
                {
                    cut.push((at.0, before.1));
                }
                if cut.last() != Some(&at) {
                    cut.push(at);
                }
                step += 1.0;
            }
        }
        cut.into_iter()
            .filter_map(|(x, y)| {
                let (x, y) = (usize::try_from(x).ok()?, usize::try_from(y).ok()?);
                (x < self.width && y < self.height).then(|| y * self.width + x)
            })
            .collect()
    }

    fn pixel_at(&self, place: Point) -> Option<usize> {
        let p = self.frame.frame_from_photo(place);
        let inside =
            p.x >= 0.0 && p.y >= 0.0 && p.x < self.width as f64 && p.y < self.height as f64;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "inside the frame"
        )]
        inside.then(|| p.y as usize * self.width + p.x as usize)
    }

    /// The pixel at a place, and the pore to which it belongs.
    fn pore_at(&self, place: Point) -> Option<(usize, u32)> {
        let pixel = self.pixel_at(place)?;
        let label = self.basins.of_pixel[pixel];
        self.is_pore(label).then_some((pixel, label))
    }

    /// Whether a basin holds what will be a pore.
    fn is_pore(&self, label: u32) -> bool {
        let at = label as usize;
        label != 0
            && !self.deleted.contains(&label)
            && (self.by_hand[at]
                || (self.basins.deepest[at] >= SHALLOWEST
                    && self.void_px[at] as f64 >= self.fewest_px))
    }

    /// How deep a pixel is, by the photo or as it was told.
    fn depth(&self, pixel: usize) -> f32 {
        self.told.get(&pixel).copied().unwrap_or(self.plane[pixel])
    }

    fn is_void(&self, pixel: usize, label: u32) -> bool {
        self.depth(pixel) > VOID * self.basins.deepest[label as usize].min(1.0)
    }

    fn is_in_pore(&self, pixel: usize) -> bool {
        let label = self.basins.of_pixel[pixel];
        self.is_pore(label) && self.is_void(pixel, label)
    }

    fn new_label(&mut self) -> u32 {
        self.basins.deepest.push(f32::NEG_INFINITY);
        self.by_hand.push(false);
        self.void_px.push(0);
        #[expect(clippy::cast_possible_truncation, reason = "fewer than pixels")]
        let label = (self.basins.deepest.len() - 1) as u32;
        label
    }

    fn distance(&self, a: usize, b: usize) -> f64 {
        let across = (a % self.width).abs_diff(b % self.width) as f64;
        let down = (a / self.width).abs_diff(b / self.width) as f64;
        across.hypot(down)
    }

    /// Neighbours of a pixel, across its corners too where told.
    fn around(&self, pixel: usize, corners: bool) -> impl Iterator<Item = usize> + use<> {
        let (width, height) = (self.width, self.height);
        let (x, y) = (pixel % width, pixel / width);
        let rows = y.saturating_sub(1)..=(y + 1).min(height - 1);
        rows.flat_map(move |ny| {
            (x.saturating_sub(1)..=(x + 1).min(width - 1)).map(move |nx| (nx, ny))
        })
        .filter(move |(nx, ny)| {
            let off = nx.abs_diff(x) + ny.abs_diff(y);
            off == 1 || (corners && off == 2)
        })
        .map(move |(nx, ny)| ny * width + nx)
    }

    /// Pixels that hang together with the first and with one another.
    fn reach(&self, start: usize, belongs: impl Fn(usize) -> bool) -> Vec<usize> {
        let mut reached = BTreeSet::from([start]);
        let mut order = vec![start];
        let mut next = 0;
        while let Some(&pixel) = order.get(next) {
            next += 1;
            for near in self.around(pixel, true) {
                if belongs(near) && reached.insert(near) {
                    order.push(near);
                }
            }
        }
        order
    }

    /// All pixels of the basin that holds this one.
    fn region(&self, start: usize) -> Vec<usize> {
        let label = self.basins.of_pixel[start];
        self.reach(start, |pixel| self.basins.of_pixel[pixel] == label)
    }

    /// The deepest place where the basin that holds a pixel meets another: a pixel of each.
    fn pass(&self, start: usize, other: u32) -> Option<[usize; 2]> {
        let mut deepest: Option<(f32, [usize; 2])> = None;
        for pixel in self.region(start) {
            for near in self.around(pixel, true) {
                if self.basins.of_pixel[near] == other {
                    let pass = self.depth(pixel).min(self.depth(near));
                    if deepest.is_none_or(|(least, _)| pass > least) {
                        deepest = Some((pass, [pixel, near]));
                    }
                }
            }
        }
        deepest.map(|(_, pixels)| pixels)
    }

    /// From a pixel ever deeper by the steepest way, the pixel itself first.
    fn way_down(&self, start: usize, depth: impl Fn(usize) -> f32) -> Vec<usize> {
        let mut way = vec![start];
        let mut here = start;
        loop {
            let deepest = self
                .around(here, true)
                .filter(|p| self.basins.of_pixel[*p] != 0)
                .max_by(|a, b| depth(*a).total_cmp(&depth(*b)));
            match deepest {
                Some(next) if depth(next) > depth(here) => {
                    way.push(next);
                    here = next;
                }
                _ => return way,
            }
        }
    }
}
