//! Ticks numbered along their row, and those that stand out of line left out.

use super::median;
use super::profile::{Peak, Profile};
use crate::scale::Line;
use nalgebra::{DMatrix, DVector};

/// How far a tick may lie from where its neighbours let expect it, in repeat distances.
const NEAR: f64 = 0.22;
/// How far the distance of two neighbours may stray in the run that numbering starts from.
const REGULAR: f64 = 0.12;
/// Ticks that tell where the next one stands.
const TELLING: usize = 8;
/// A mark counts as a tick from this share of the usual rise on.
const LEAST_RISE: f64 = 0.35;
/// A tick out of line by more than so many standard deviations …
const OUT_OF_LINE: f64 = 4.0;
/// … and so many px is not used.
const LEAST_OUT_OF_LINE_PX: f64 = 0.05;
/// Standard deviation of a normal distribution over its median deviation.
const MAD_TO_SD: f64 = 1.4826;

/// A tick with its number.
#[derive(Debug, Clone, Copy)]
pub(super) struct Mark {
    /// Counted along the row from anywhere.
    pub(super) number: i32,
    /// Its middle along the row, px.
    pub(super) u: f64,
}

/// Ticks in line, and marks that are not, both along the row.
#[derive(Debug, Clone, Default)]
pub(super) struct Marks {
    pub(super) marks: Vec<Mark>,
    pub(super) strays: Vec<f64>,
}

/// Ticks on a row whose repeat distance is known roughly.
pub(super) fn marks(profile: &Profile, period: f64) -> Marks {
    let mut peaks = profile.ticks(period);
    let Some(usual) = usual_rise(&peaks) else {
        return Marks::default();
    };
    peaks.retain(|peak| peak.rise >= LEAST_RISE * usual);
    let mut marks = longest_run(&peaks, period);
    if marks.len() < 3 {
        return Marks::default();
    }
    follow(&mut marks, &peaks, period, 1);
    marks.reverse();
    follow(&mut marks, &peaks, period, -1);
    marks.reverse();
    let (marks, mut strays) = in_line(marks);
    strays.extend(
        peaks
            .iter()
            .map(|peak| peak.u)
            .filter(|u| marks.iter().all(|mark| (mark.u - u).abs() > 1e-9)),
    );
    strays.sort_by(f64::total_cmp);
    strays.dedup();
    Marks { marks, strays }
}

/// Rise of most ticks: the upper half's middle, since noise makes small peaks.
fn usual_rise(peaks: &[Peak]) -> Option<f64> {
    let mut rises: Vec<f64> = peaks.iter().map(|peak| peak.rise).collect();
    super::quantile(&mut rises, 0.7)
}

/// The longest run of peaks at the repeat distance from one another.
fn longest_run(peaks: &[Peak], period: f64) -> Vec<Mark> {
    peaks
        .chunk_by(|a, b| ((b.u - a.u) / period - 1.0).abs() <= REGULAR)
        .max_by_key(|run| run.len())
        .map(|run| {
            (0..)
                .zip(run)
                .map(|(number, peak)| Mark { number, u: peak.u })
                .collect()
        })
        .unwrap_or_default()
}

/// Goes on from the last mark, peak after peak, each expected where the last few tell.
fn follow(marks: &mut Vec<Mark>, peaks: &[Peak], period: f64, step: i32) {
    let Some(end) = marks.last().map(|mark| mark.u) else {
        return;
    };
    let side = f64::from(step);
    let mut further: Vec<f64> = peaks
        .iter()
        .map(|peak| peak.u)
        .filter(|u| (u - end) * side > 0.5 * period)
        .collect();
    if step < 0 {
        further.reverse();
    }
    for u in further {
        let telling = &marks[marks.len().saturating_sub(TELLING)..];
        let Ok(line) = Line::fit(telling.iter().map(|m| (f64::from(m.number), m.u))) else {
            return;
        };
        let Some(last) = marks.last().map(|mark| mark.number) else {
            return;
        };
        let exact = (u - line.intercept) / line.slope;
        #[expect(
            clippy::cast_possible_truncation,
            reason = "a number of ticks along a photo"
        )]
        let number = exact.round() as i32;
        if (exact - f64::from(number)).abs() <= NEAR && (number - last) * step > 0 {
            marks.push(Mark { number, u });
        }
    }
}

/// Marks that lie on one smooth curve of place over number, and the places of the others.
fn in_line(mut marks: Vec<Mark>) -> (Vec<Mark>, Vec<f64>) {
    let mut strays = Vec::new();
    for _ in 0..8 {
        let Some(off) = off_the_parabola(&marks) else {
            break;
        };
        let Some(spread) = median(off.iter().map(|o| o.abs()).collect()) else {
            break;
        };
        let most = (OUT_OF_LINE * MAD_TO_SD * spread).max(LEAST_OUT_OF_LINE_PX);
        let before = marks.len();
        let mut kept = Vec::new();
        for (mark, off) in marks.iter().zip(&off) {
            if off.abs() <= most {
                kept.push(*mark);
            } else {
                strays.push(mark.u);
            }
        }
        marks = kept;
        if marks.len() == before {
            break;
        }
    }
    (marks, strays)
}

/// How far each mark lies from the parabola through all; a ruler at an angle to the camera has its
/// ticks closer at its far end.
pub(super) fn off_the_parabola(marks: &[Mark]) -> Option<Vec<f64>> {
    let (first, last) = (marks.first()?.number, marks.last()?.number);
    if marks.len() < 4 {
        return None;
    }
    let middle = f64::midpoint(f64::from(first), f64::from(last));
    let half = 0.5 * f64::from(last - first);
    let design = DMatrix::from_fn(marks.len(), 3, |row, column| {
        let t = (f64::from(marks[row].number) - middle) / half;
        match column {
            0 => 1.0,
            1 => t,
            _ => t * t,
        }
    });
    let places = DVector::from_iterator(marks.len(), marks.iter().map(|m| m.u));
    let terms = (design.transpose() * &design)
        .cholesky()?
        .solve(&(design.transpose() * &places));
    Some((places - design * terms).iter().copied().collect())
}
