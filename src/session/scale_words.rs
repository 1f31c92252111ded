//! What was found for the scale, in plain sentences.

use super::Session;
use super::document::sentence;
use super::scale_setting::ScaleWay;
use crate::export::digits::significant;
use crate::findings::Note;
use crate::ruler::{Graduation, Reading};
use crate::stated::{StatedError, stated};

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
pub const fn ticks_name(ticks: Option<Graduation>) -> &'static str {
    match ticks {
        None => "Told by the ticks",
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
    format!(
        "The ticks were found, but not what lies between two of them: it may be {}. Look at the \
         ruler and choose it under “From tick to tick”.",
        names.join(" or ")
    )
}

impl Session {
    /// The ways that the open photo leaves, each with what it is called here.
    #[must_use]
    pub fn scale_ways(&self) -> Vec<(ScaleWay, String)> {
        let label = |way: ScaleWay| match (way, &self.document.scale.stated) {
            (ScaleWay::Stated, None) => None,
            (ScaleWay::Recorded, _) if self.document.scale.recorded.is_none() => None,
            (ScaleWay::Stated, Some(stated)) => Some(format!(
                "The file says {} px per mm ({})",
                significant(stated.scale.px_per_mm, 4),
                stated.written_in.words()
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
            (ScaleWay::Bar, Some(bar), _) => vec![format!(
                "The bar is {:.1} px long. It is left out with its label.",
                bar.length_px()
            )],
            (ScaleWay::Ruler, ..) => match setting.ruler_read().map(|read| &read.result) {
                Some(Ok(reading)) => of_ruler(reading, setting.ticks),
                _ => Vec::new(),
            },
            (ScaleWay::Card, _, Some(_)) => {
                vec!["The card was found, and is left out by itself.".to_owned()]
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
        Some(format!(
            "Straightened picture: a tilt of {:.0}° is taken out",
            flat.straightened.tilt_deg
        ))
    }

    /// Each stroke that could be the scale bar: its number on the photo and its length there.
    #[must_use]
    pub fn bar_labels(&self) -> Vec<String> {
        let bars = self.document.scale.bars.iter().flat_map(|bars| bars.iter());
        bars.enumerate()
            .map(|(i, bar)| format!("{}: {:.0} px long", i + 1, bar.length_px()))
            .collect()
    }

    /// What the scale was taken from and is not measured.
    #[must_use]
    pub fn scale_left_out(&self) -> Option<&'static str> {
        let setting = &self.document.scale;
        setting.scale()?;
        match setting.way {
            ScaleWay::Bar => Some("The scale bar and its label are left out by themselves."),
            ScaleWay::Ruler => Some("The ruler is left out by itself, as far as its ticks reach."),
            ScaleWay::Card => Some("The scale card is left out by itself."),
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
        "as you chose"
    } else {
        "told by the long and the short ones"
    };
    let mut report = vec![
        format!(
            "{} ticks found, {between} apart, {how}.",
            reading.ticks.len()
        ),
        format!(
            "Standard error of the scale: {} %.",
            significant(100.0 * reading.scale.relative_uncertainty(), 2)
        ),
    ];
    match reading.rejected.len() {
        0 => {}
        1 => report.push("One mark out of line was not used, crossed on the photo.".to_owned()),
        n => report.push(format!(
            "{n} marks out of line were not used, crossed on the photo."
        )),
    }
    report
}
