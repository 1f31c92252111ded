//! A voucher's figures: of each photo, and pooled over photos.

use super::voucher::{Attached, Voucher};
use crate::findings::Estimate;
use crate::ranges::{Host, Observation, Wood};
use crate::scale::How;
use crate::statistics::{Pooled, pool};
use crate::surface::SurfaceType;
use serde_json::Value;

/// Width of a normal 95 % interval in standard errors, 2 × 1.96.
const STANDARD_ERRORS: f64 = 2.0 * 1.959_963_984_540_054;

/// What one photo says.
#[derive(Debug, Clone, PartialEq)]
pub struct PhotoFigures {
    /// SHA-256 of the photo.
    pub sha256: String,
    /// Kind of underside.
    pub surface: Option<SurfaceType>,
    /// Pores, teeth, gills or hollows per mm.
    pub per_mm: Option<Estimate>,
    /// Mean pore diameter, mm.
    pub diameter_mm: Option<Estimate>,
    /// The phrase a handbook would print.
    pub handbook: Option<String>,
    /// Pixels per mm, and how they were told.
    pub scale: Option<(f64, How)>,
}

/// What all photos of a voucher say.
#[derive(Debug, Clone, PartialEq)]
pub struct VoucherFigures {
    /// Photo by photo, the newest findings of each.
    pub photos: Vec<PhotoFigures>,
    /// Kind of underside on which most photos that decide agree.
    pub surface: Option<SurfaceType>,
    /// Whether photos that decide do not agree.
    pub is_mixed: bool,
    /// Figure per mm, pooled over the photos of that kind.
    pub per_mm: Option<Pooled>,
    /// Pore diameter, mm, pooled likewise.
    pub diameter_mm: Option<Pooled>,
}

impl PhotoFigures {
    /// Reads what was measured.
    #[must_use]
    pub fn of(attached: &Attached) -> Self {
        Self::of_findings(&attached.findings)
    }

    /// Reads findings.
    #[must_use]
    pub fn of_findings(findings: &Value) -> Self {
        let text = |at: &str| Some(findings.pointer(at)?.as_str()?.to_owned());
        let per_mm = ["pores", "teeth", "gills", "maze"]
            .iter()
            .find_map(|things| estimate(findings, &format!("/{things}/per_mm"), "value"));
        Self {
            sha256: text("/photo/sha256").unwrap_or_default(),
            surface: text("/surface/type").and_then(|word| kind(&word)),
            per_mm,
            diameter_mm: estimate(findings, "/pores/diameter_mm", "mean"),
            handbook: text("/pores/handbook"),
            scale: findings
                .pointer("/scale/px_per_mm")
                .and_then(Value::as_f64)
                .zip(text("/scale/how").and_then(|word| How::from_word(&word))),
        }
    }
}

impl VoucherFigures {
    /// Reads a voucher's findings.
    #[must_use]
    pub fn of(voucher: &Voucher) -> Self {
        let current = voucher.current().into_iter();
        Self::of_photos(current.map(PhotoFigures::of).collect())
    }

    /// Pools the figures of different photos.
    #[must_use]
    pub fn of_photos(photos: Vec<PhotoFigures>) -> Self {
        let kinds: Vec<SurfaceType> = photos.iter().filter_map(|photo| photo.surface).collect();
        let surface = kinds
            .iter()
            .copied()
            .max_by_key(|kind| kinds.iter().filter(|k| *k == kind).count());
        let pooled = |of: fn(&PhotoFigures) -> Option<Estimate>| {
            let figures: Vec<(f64, f64)> = photos
                .iter()
                .filter(|photo| photo.surface == surface)
                .filter_map(of)
                .map(|e| (e.value, (e.high - e.low) / STANDARD_ERRORS))
                .collect();
            pool(&figures)
        };
        Self {
            surface,
            is_mixed: kinds.iter().any(|kind| Some(*kind) != surface),
            per_mm: pooled(|photo| photo.per_mm),
            diameter_mm: pooled(|photo| photo.diameter_mm),
            photos,
        }
    }
}

/// What a voucher shows, to be compared with published ranges.
#[must_use]
pub fn observation(voucher: &Voucher) -> Observation {
    let figures = VoucherFigures::of(voucher);
    let pooled = |pooled: Option<Pooled>| {
        pooled.map(|pooled| {
            let (low, high) = pooled.interval();
            Estimate {
                value: pooled.mean,
                low,
                high,
            }
        })
    };
    let on = |kind: SurfaceType| {
        (figures.surface == Some(kind))
            .then(|| pooled(figures.per_mm))
            .flatten()
    };
    Observation {
        surface: figures.surface,
        pores_per_mm: on(SurfaceType::Poroid),
        gills_per_mm: on(SurfaceType::Gilled),
        pore_width_mm: pooled(figures.diameter_mm),
        host: Host {
            wood: voucher.host_wood.as_deref().and_then(Wood::from_word),
            genus: voucher
                .host_taxon
                .as_deref()
                .and_then(|taxon| taxon.split_whitespace().next())
                .map(str::to_owned),
        },
        colour: voucher.underside_colour.clone(),
        cap_width_cm: voucher.cap_width_cm,
    }
}

fn estimate(findings: &Value, at: &str, value: &str) -> Option<Estimate> {
    let object = findings.pointer(at)?;
    let number = |key: &str| object.get(key)?.as_f64().filter(|n| n.is_finite());
    Some(Estimate {
        value: number(value)?,
        low: number("low")?,
        high: number("high")?,
    })
}

/// The kind a word in findings stands for; undecided is none.
fn kind(word: &str) -> Option<SurfaceType> {
    use SurfaceType as S;
    [S::Smooth, S::Poroid, S::MazeLike, S::Gilled, S::Toothed]
        .into_iter()
        .find(|kind| kind.word() == word)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::PhotoLink;
    use serde_json::json;

    fn voucher(photos: &[(&str, f64)]) -> Voucher {
        let mut voucher = Voucher::new("AF 1");
        for (i, (kind, per_mm)) in photos.iter().enumerate() {
            let sha256 = format!("{i}");
            let findings = json!({
                "photo": {"sha256": sha256},
                "surface": {"type": kind},
                "pores": {"per_mm": {"value": per_mm, "low": per_mm - 0.2, "high": per_mm + 0.2}},
            });
            voucher.attach(
                PhotoLink {
                    path: String::new(),
                    sha256,
                    ..PhotoLink::default()
                },
                Attached {
                    findings,
                    ..Attached::default()
                },
            );
        }
        voucher
    }

    #[test]
    fn photos_of_one_specimen_are_pooled() {
        let figures = VoucherFigures::of(&voucher(&[
            ("poroid", 4.0),
            ("poroid", 4.4),
            ("undecided", 9.0),
        ]));
        assert_eq!(figures.surface, Some(SurfaceType::Poroid));
        assert!(!figures.is_mixed);
        let per_mm = figures.per_mm.expect("a pooled figure");
        assert_eq!(per_mm.photos, 2);
        assert!((per_mm.mean - 4.2).abs() < 1e-12);
    }

    #[test]
    fn photos_that_show_different_undersides_are_not_mixed_up() {
        let figures = VoucherFigures::of(&voucher(&[
            ("toothed", 2.0),
            ("poroid", 4.0),
            ("poroid", 4.0),
        ]));
        assert!(figures.is_mixed);
        assert!((figures.per_mm.expect("a figure").mean - 4.0).abs() < 1e-12);
    }

    #[test]
    fn a_voucher_is_compared_by_all_that_it_shows() {
        let mut voucher = voucher(&[("poroid", 4.0)]);
        voucher.host_wood = Some("hardwood".to_owned());
        voucher.host_taxon = Some("Fagus sylvatica".to_owned());
        let seen = observation(&voucher);
        assert_eq!(seen.host.genus.as_deref(), Some("Fagus"));
        assert!((seen.pores_per_mm.expect("a figure").low - 3.8).abs() < 1e-9);
        assert_eq!(observation(&Voucher::new("AF 2")), Observation::default());
    }
}
