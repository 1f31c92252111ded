//! What stands out among the photos of a batch: photos that say something else than the others of their
//! voucher, and a scale or a sharpness that changes over the series, as when a stand slips.
//!
//! Nothing is left out because of it; a person is told where to look.

use super::facts::Facts;
use crate::findings::Estimate;
use crate::statistics::{deleted_residuals, from_median, median, trend};
use std::collections::BTreeMap;

/// Standard deviations beyond which a photo stands out among those of its voucher (three are
/// `common practice, no source`).
const OUTLYING: f64 = 3.0;
/// Beyond this a figure stands out from a series (Iglewicz & Hoaglin 1993, How to Detect and Handle
/// Outliers).
const OFF_THE_SERIES: f64 = 3.5;
/// A scale that changed by less than so many of its standard uncertainties did not change
/// (95 %; JCGM 100:2008, 6.3.3).
const COVERAGE: f64 = 2.0;
/// Less change of the blur than this share is not worth a word (`common practice, no source`).
const LEAST_CHANGE_OF_BLUR: f64 = 0.2;
/// Width of a normal 95 % interval in standard errors.
const STANDARD_ERRORS: f64 = 2.0 * 1.959_963_984_540_054;

/// What stands out.
#[derive(Debug, Clone, PartialEq)]
pub struct Remark {
    /// The photo; none where it is of the series.
    pub photo: Option<String>,
    /// A stable name for scripts.
    pub code: &'static str,
    /// What it is and what to do, in words.
    pub text: String,
}

/// All that stands out, photos by name, then the series.
#[must_use]
pub fn remarks(photos: &[Facts]) -> Vec<Remark> {
    let once: Vec<&Facts> = photos.iter().filter(|p| p.same_as.is_none()).collect();
    let mut found = Vec::new();
    for (voucher, of_voucher) in vouchers(&once) {
        within(voucher, &of_voucher, &mut found);
    }
    let series = in_time(&once);
    scale(&series, &mut found);
    sharpness(&series, &mut found);
    found.sort_by(|a, b| {
        (a.photo.is_none(), &a.photo, a.code).cmp(&(b.photo.is_none(), &b.photo, b.code))
    });
    found
}

/// Photos by their vouchers' numbers.
pub(super) fn vouchers<'a>(photos: &[&'a Facts]) -> BTreeMap<&'a str, Vec<&'a Facts>> {
    let mut groups: BTreeMap<&str, Vec<&Facts>> = BTreeMap::new();
    for photo in photos {
        if let Some(voucher) = &photo.voucher {
            groups.entry(voucher).or_default().push(photo);
        }
    }
    groups
}

/// Photos in the order in which they were taken, or else in that of their names.
fn in_time<'a>(photos: &[&'a Facts]) -> Vec<&'a Facts> {
    let mut series = photos.to_vec();
    if series.iter().all(|photo| photo.taken.is_some()) {
        series.sort_by(|a, b| (&a.taken, &a.name).cmp(&(&b.taken, &b.name)));
    }
    series
}

/// Photos that say something else than the others of the same voucher.
fn within(voucher: &str, photos: &[&Facts], found: &mut Vec<Remark>) {
    let kinds: Vec<_> = photos.iter().filter_map(|p| p.figures.surface).collect();
    let common = kinds
        .iter()
        .copied()
        .max_by_key(|kind| kinds.iter().filter(|k| *k == kind).count());
    let Some(common) = common else { return };
    let of_common = kinds.iter().filter(|kind| **kind == common).count();
    if 2 * of_common > kinds.len() {
        for photo in photos {
            if let Some(kind) = photo.figures.surface
                && kind != common
            {
                found.push(Remark {
                    photo: Some(photo.name.clone()),
                    code: "other-underside",
                    text: format!(
                        "This photo shows a {} underside, most others of {voucher} a {} one. See whether it \
                         belongs to this voucher, and whether it is sharp and evenly lit.",
                        kind.word(),
                        common.word()
                    ),
                });
            }
        }
    }
    let pooled: Vec<(&Facts, Estimate)> = photos
        .iter()
        .filter(|photo| photo.figures.surface == Some(common))
        .filter_map(|photo| Some((*photo, photo.figures.per_mm?)))
        .collect();
    let figures: Vec<(f64, f64)> = pooled
        .iter()
        .map(|(_, per_mm)| (per_mm.value, (per_mm.high - per_mm.low) / STANDARD_ERRORS))
        .collect();
    let Some(away) = deleted_residuals(&figures) else {
        return;
    };
    for ((photo, per_mm), away) in pooled.iter().zip(away) {
        if away.abs() > OUTLYING {
            let which = if away > 0.0 { "more" } else { "fewer" };
            found.push(Remark {
                photo: Some(photo.name.clone()),
                code: "apart-from-voucher",
                text: format!(
                    "{:.2} per mm are {which} than the other photos of {voucher} let expect, by {:.1} standard \
                     deviations. See whether it belongs to this voucher, and whether its scale is right.",
                    per_mm.value,
                    away.abs()
                ),
            });
        }
    }
}

/// Scales that were told by each photo itself.
fn scale(series: &[&Facts], found: &mut Vec<Remark>) {
    let told: Vec<(&Facts, f64)> = series
        .iter()
        .filter_map(|photo| Some((*photo, photo.own_scale()?)))
        .collect();
    let scales: Vec<f64> = told.iter().map(|(_, scale)| *scale).collect();
    let uncertainties: Vec<f64> = told
        .iter()
        .map(|(photo, scale)| photo.scale_uncertainty / scale)
        .collect();
    let (Some(middle), Some(uncertainty)) = (median(&scales), median(&uncertainties)) else {
        return;
    };
    if let Some(drift) = trend(&scales)
        && drift.is_significant()
        && drift.change.abs() > COVERAGE * uncertainty
    {
        found.push(Remark {
            photo: None,
            code: "scale-drifts",
            text: format!(
                "The scale {} by {:.1} % from the first quarter of the series to the last, more than chance \
                 does. The stand may slip, or the focus creep: fasten both, and see that every photo was \
                 measured by its own scale.",
                if drift.change > 0.0 { "grows" } else { "shrinks" },
                100.0 * drift.change.abs()
            ),
        });
    }
    for ((photo, scale), away) in told.iter().zip(from_median(&scales).unwrap_or_default()) {
        let change = scale / middle - 1.0;
        if away.abs() > OFF_THE_SERIES && change.abs() > COVERAGE * uncertainty {
            found.push(Remark {
                photo: Some(photo.name.clone()),
                code: "scale-apart",
                text: format!(
                    "Its scale is {:.1} % {} than that of most photos. If the camera did not move, something \
                     else was taken for the scale: look what was left out as bar, ruler or card.",
                    100.0 * change.abs(),
                    if change > 0.0 { "larger" } else { "smaller" }
                ),
            });
        }
    }
}

/// Sharpness, as far as outlines tell it.
fn sharpness(series: &[&Facts], found: &mut Vec<Remark>) {
    let told: Vec<(&Facts, f64)> = series
        .iter()
        .filter_map(|photo| Some((*photo, photo.blur_px?)))
        .collect();
    let blurs: Vec<f64> = told.iter().map(|(_, blur)| *blur).collect();
    let Some(middle) = median(&blurs).filter(|blur| *blur > 0.0) else {
        return;
    };
    if let Some(drift) = trend(&blurs)
        && drift.is_significant()
        && drift.change.abs() > LEAST_CHANGE_OF_BLUR
    {
        let advice = if drift.change > 0.0 {
            "Focus again, and see that the lens is clean and the focus fastened"
        } else {
            "Photos at the beginning are the less sharp ones; take them again if their intervals are too wide"
        };
        found.push(Remark {
            photo: None,
            code: "sharpness-drifts",
            text: format!(
                "Edges get {} over the series, by {:.0} % from its first quarter to its last. {advice}.",
                if drift.change > 0.0 { "softer" } else { "sharper" },
                100.0 * drift.change.abs()
            ),
        });
    }
    for ((photo, blur), away) in told.iter().zip(from_median(&blurs).unwrap_or_default()) {
        if away > OFF_THE_SERIES && blur / middle - 1.0 > LEAST_CHANGE_OF_BLUR {
            found.push(Remark {
                photo: Some(photo.name.clone()),
                code: "less-sharp",
                text: format!(
                    "Its edges are {:.1} times as soft as those of most photos. Focus again and take it once \
                     more if its intervals are too wide.",
                    blur / middle
                ),
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::PhotoFigures;
    use crate::scale::How;
    use crate::surface::SurfaceType;

    fn photo(at: usize, per_mm: f64, px_per_mm: f64, blur_px: f64) -> Facts {
        Facts {
            name: format!("{at:03}.jpg"),
            word: String::new(),
            voucher: Some("AF-1".to_owned()),
            same_as: None,
            taken: None,
            figures: PhotoFigures {
                sha256: at.to_string(),
                surface: Some(SurfaceType::Poroid),
                per_mm: Some(Estimate {
                    value: per_mm,
                    low: per_mm - 0.2,
                    high: per_mm + 0.2,
                }),
                diameter_mm: None,
                handbook: None,
                scale: Some((px_per_mm, How::Bar)),
            },
            scale_uncertainty: 0.002 * px_per_mm,
            blur_px: Some(blur_px),
        }
    }

    /// Small changes that follow no direction.
    fn jitter(at: usize) -> f64 {
        [0.3, -0.5, 0.1, 0.4, -0.2, -0.4, 0.5, -0.1][at % 8]
    }

    fn codes(photos: &[Facts]) -> Vec<(Option<String>, &'static str)> {
        let found = remarks(photos).into_iter();
        found.map(|remark| (remark.photo, remark.code)).collect()
    }

    fn steady() -> Vec<Facts> {
        (0..24)
            .map(|at| {
                let j = jitter(at);
                photo(at, 4.0 + 0.1 * j, 80.0 + 0.1 * j, 2.0 + 0.1 * j)
            })
            .collect()
    }

    #[test]
    fn nothing_stands_out_of_a_steady_series() {
        assert_eq!(codes(&steady()), []);
    }

    #[test]
    fn one_that_is_otherwise_is_named() {
        let mut photos = steady();
        photos[3].figures.per_mm = photo(3, 6.0, 80.0, 2.0).figures.per_mm;
        photos[5].figures.surface = Some(SurfaceType::Gilled);
        photos[7].figures.scale = Some((95.0, How::Bar));
        photos[9].blur_px = Some(6.0);
        let name = |at: usize| Some(format!("{at:03}.jpg"));
        assert_eq!(
            codes(&photos),
            [
                (name(3), "apart-from-voucher"),
                (name(5), "other-underside"),
                (name(7), "scale-apart"),
                (name(9), "less-sharp"),
            ]
        );
    }

    #[test]
    fn what_changes_steadily_is_said_of_the_series() {
        let mut photos = steady();
        for (at, photo) in photos.iter_mut().enumerate() {
            photo.figures.scale = Some((80.0 + 0.2 * at as f64, How::Ticks));
            photo.blur_px = Some(2.0 + 0.06 * at as f64);
        }
        let of_series: Vec<&str> = codes(&photos)
            .into_iter()
            .filter(|(photo, _)| photo.is_none())
            .map(|(_, code)| code)
            .collect();
        assert_eq!(of_series, ["scale-drifts", "sharpness-drifts"]);
        // A scale that was typed is the same by itself.
        for photo in &mut photos {
            photo.figures.scale = photo.figures.scale.map(|(scale, _)| (scale, How::Given));
        }
        assert!(
            codes(&photos)
                .iter()
                .all(|(_, code)| !code.starts_with("scale"))
        );
    }

    #[test]
    fn a_second_copy_of_a_photo_counts_for_nothing() {
        let mut photos = steady();
        let mut double = photo(50, 9.0, 200.0, 9.0);
        double.same_as = Some("000.jpg".to_owned());
        photos.push(double);
        assert_eq!(codes(&photos), []);
    }
}
