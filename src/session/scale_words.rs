//! What was found for the scale, in plain sentences.

use super::Session;
use super::document::sentence;
use super::scale_setting::ScaleWay;
use crate::findings::Note;
use crate::ruler::{Graduation, Reading};
use crate::session::format::significant;
use crate::stated::{StatedError, stated};
use crate::wording::text;

/// How a ruler may be divided, in the order in which it is offered; `None` lets its ticks tell.
pub const TICKS: [Option<Graduation>; 7] = [
    None,
    Some(Graduation::Mm),
    Some(Graduation::HalfMm),
    Some(Graduation::Inch8),
    Some(Graduation::Inch16),
    Some(Graduation::Inch32),
    Some(Graduation::Inch64),
];

/// What lies between two neighbouring ticks, in words.
#[must_use]
pub fn ticks_name(ticks: Option<Graduation>) -> &'static str {
    match ticks {
        None => text!("told-by-the-ticks"),
        Some(Graduation::Mm) => "1 mm",
        Some(Graduation::HalfMm) => "½ mm",
        Some(Graduation::Inch8) => "1/8 in",
        Some(Graduation::Inch16) => "1/16 in",
        Some(Graduation::Inch32) => "1/32 in",
        Some(Graduation::Inch64) => "1/64 in",
    }
}

/// Ticks that do not tell what lies between them.
pub fn ambiguous(possible: &[Graduation]) -> String {
    let names: Vec<&str> = possible.iter().map(|g| ticks_name(Some(*g))).collect();
    text!("the-ticks-were-found-but-not", names = names.join(" or "))
}

impl Session {
    /// The ways that the open photo leaves, each with what it is called here.
    #[must_use]
    pub fn scale_ways(&self) -> Vec<(ScaleWay, String)> {
        let label = |way: ScaleWay| match (way, &self.document.scale.stated) {
            (ScaleWay::Stated, None) => None,
            (ScaleWay::Recorded, _) if self.document.scale.recorded.is_none() => None,
            (ScaleWay::Stated, Some(stated)) => Some(text!(
                "the-file-says-a-scale",
                scale = significant(stated.scale.px_per_mm, 4),
                source = stated.written_in.words()
            )),
            _ => Some(way.name().to_owned()),
        };
        let ways = ScaleWay::ALL.into_iter();
        ways.filter_map(|way| Some((way, label(way)?))).collect()
    }

    /// Why what the photo's file says of its scale is not offered; `None` where it says nothing, or
    /// is offered.
    #[must_use]
    pub fn why_not_from_file(&self) -> Option<String> {
        match stated(self.document.photo.as_ref()?) {
            Ok(_) | Err(StatedError::Nothing) => None,
            Err(error) => Some(sentence(&error)),
        }
    }

    /// What was found for the scale, a sentence each.
    #[must_use]
    pub fn scale_report(&self) -> Vec<String> {
        let setting = &self.document.scale;
        match (setting.way, setting.chosen_bar(), &setting.flat) {
            (ScaleWay::Bar, Some(bar), _) => vec![text!(
                "how-long-the-bar-is",
                length = format!("{:.1}", bar.length_px())
            )],
            (ScaleWay::Ruler, ..) => match setting.ruler_read().map(|read| &read.result) {
                Some(Ok(reading)) => of_ruler(reading, setting.ticks),
                _ => Vec::new(),
            },
            (ScaleWay::Card, _, Some(_)) => {
                vec![text!("the-card-was-found-and-is").to_owned()]
            }
            _ => Vec::new(),
        }
    }

    /// What to be careful about with this scale.
    #[must_use]
    pub fn scale_cautions(&self) -> Vec<Note> {
        self.document
            .scale
            .basis()
            .map_or_else(Vec::new, |basis| basis.notes().to_vec())
    }

    /// Says that the picture was straightened, and what was taken out; `None` while the photo is shown
    /// as it was taken.
    #[must_use]
    pub fn straightened(&self) -> Option<String> {
        let flat = self.document.scale.flat.as_ref()?;
        Some(text!(
            "straightened-picture",
            degrees = format!("{:.0}", flat.straightened.tilt_deg)
        ))
    }

    /// Each stroke that could be the scale bar: its number on the photo and its length there.
    #[must_use]
    pub fn bar_labels(&self) -> Vec<String> {
        let bars = self.document.scale.bars.iter().flat_map(|bars| bars.iter());
        bars.enumerate()
            .map(|(i, bar)| {
                text!(
                    "stroke-so-long",
                    number = i + 1,
                    length = format!("{:.0}", bar.length_px())
                )
            })
            .collect()
    }

    /// What the scale was taken from and is not measured.
    #[must_use]
    pub fn scale_left_out(&self) -> Option<&'static str> {
        let setting = &self.document.scale;
        setting.scale()?;
        match setting.way {
            ScaleWay::Bar => Some(text!("the-scale-bar-and-its-label")),
            ScaleWay::Ruler => Some(text!("the-ruler-is-left-out-by")),
            ScaleWay::Card => Some(text!("the-scale-card-is-left-out")),
            ScaleWay::Points
            | ScaleWay::Corners
            | ScaleWay::SetUp
            | ScaleWay::Stated
            | ScaleWay::Typed
            | ScaleWay::Recorded => None,
        }
    }
}

fn of_ruler(reading: &Reading, stated: Option<Graduation>) -> Vec<String> {
    let between = ticks_name(stated.or(reading.graduation));
    let how = if stated.is_some() {
        text!("as-you-chose")
    } else {
        text!("told-by-the-long-and-the")
    };
    let mut report = vec![
        text!(
            "ticks-found",
            count = reading.ticks.len(),
            between = between,
            how = how
        ),
        text!(
            "standard-error-of-the-scale",
            per_cent = significant(100.0 * reading.scale.relative_uncertainty(), 2)
        ),
    ];
    match reading.rejected.len() {
        0 => {}
        n => report.push(text!("marks-out-of-line", count = n)),
    }
    report
}
