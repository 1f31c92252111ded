//! What the uncertainty of a figure is made of (JCGM 100:2008, 5.1.2 and annex H: a budget of parts
//! that add in quadrature).

/// Two-sided 95 % of the normal distribution: the coverage factor k.
pub(super) const Z95: f64 = 1.959_963_984_540_054;
/// A part with more than this share of the variance makes most of the uncertainty.
const MOST: f64 = 0.5;

/// A figure that has a budget.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// Pores, teeth, gills or hollows of a maze per mm.
    PerMm,
    /// Mean diameter of pores or teeth.
    Diameter,
}

/// A part of an uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// Only this piece of surface was measured.
    Sampling,
    /// Pixels per millimetre.
    Scale,
    /// Where exactly outlines lie.
    Outline,
}

impl Source {
    /// The part's name for a person to read.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Sampling => "place to place",
            Self::Scale => "scale",
            Self::Outline => "outlines",
        }
    }
}

/// Relative standard uncertainties (k = 1) of one figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Budget {
    /// Whose.
    pub figure: Figure,
    /// From measuring only this piece of surface.
    pub sampling: f64,
    /// From the scale, shared by every figure in mm.
    pub scale: f64,
    /// From where outlines lie; 0 for counts, which do not rest on it.
    pub outline: f64,
}

impl Budget {
    /// The relative standard uncertainty of all parts, in quadrature (JCGM 100:2008, 5.1.2).
    #[must_use]
    pub fn combined(&self) -> f64 {
        self.sampling.hypot(self.scale).hypot(self.outline)
    }

    /// Half the 95 % interval, relative: k = 1.96.
    #[must_use]
    pub fn half_width(&self) -> f64 {
        Z95 * self.combined()
    }

    /// The parts as half-widths of the 95 % interval each would give by itself, relative.
    #[must_use]
    pub fn half_widths(&self) -> [(Source, f64); 3] {
        [
            (Source::Sampling, Z95 * self.sampling),
            (Source::Scale, Z95 * self.scale),
            (Source::Outline, Z95 * self.outline),
        ]
    }

    /// The parts with their shares of the variance, which add up to 1; all 0 where nothing is uncertain.
    #[must_use]
    pub fn shares(&self) -> [(Source, f64); 3] {
        let all = self.combined();
        let share = |part: f64| if all > 0.0 { (part / all).powi(2) } else { 0.0 };
        // Of a single region nothing is known of the others: sampling is all of it.
        if self.sampling.is_infinite() {
            return [
                (Source::Sampling, 1.0),
                (Source::Scale, 0.0),
                (Source::Outline, 0.0),
            ];
        }
        [
            (Source::Sampling, share(self.sampling)),
            (Source::Scale, share(self.scale)),
            (Source::Outline, share(self.outline)),
        ]
    }

    /// The part that weighs most, with its share.
    pub(super) fn largest(&self) -> (Source, f64) {
        self.shares()
            .into_iter()
            .fold((Source::Sampling, 0.0), |most, part| {
                if part.1 > most.1 { part } else { most }
            })
    }
}

/// Relative standard uncertainty of a mean diameter from where the outlines lie.
///
/// An outline is read where the photo is half-way between wall and void, and then corrected twice;
/// both corrections grow with the blur σ (`blur_px`, in the pixels of the diameter d, `diameter_px`).
/// `wall` and `void` are the depths at which pure wall and pure void are seen, 0 and 1 where the local
/// means of light were right:
///
/// - Blur draws the half-depth outline of a round void inwards. A level line of a picture that a
///   Gaussian blurs moves with its curvature, dr/d(σ²) = −1/(2r) (the heat equation), so that the
///   radius loses σ²/(2r) and the diameter 2σ²/d² of itself.
/// - The levels of pure wall and pure void are corrected from local means to those that fit best.
///   That moves half depth by `shift` of the depth, and an edge, whose slope is 1/(σ√(2π)) there, by
///   shift·σ√(2π); the diameter by twice as much.
///
/// Each correction is as large as the photo asks for and no larger than twice that, nor is it the
/// wrong way round: a rectangular distribution of the correction's own half-width, standard
/// uncertainty 1/√3 of it (JCGM 100:2008, 4.3.7 and 6.3.1). It is common to all regions and does not
/// average down.
pub(super) fn of_outlines(blur_px: f64, wall: f64, void: f64, diameter_px: f64) -> f64 {
    if diameter_px <= 0.0 || void <= wall {
        return f64::INFINITY;
    }
    let blur = blur_px / diameter_px;
    let curvature = 2.0 * blur * blur;
    let shift = (f64::midpoint(void, wall) - 0.5) / (void - wall);
    let levels = 2.0 * shift.abs() * blur * (2.0 * std::f64::consts::PI).sqrt();
    curvature.hypot(levels) / 3.0_f64.sqrt()
}

/// Where the uncertainty comes from and what would help most, in one plain sentence; `None` where
/// nothing is uncertain. `things` are what was counted, `count` of them, where single ones were.
#[must_use]
pub fn sentence(budgets: &[Budget], things: &str, count: Option<usize>) -> Option<String> {
    let cause = |source: Source| match (source, count) {
        (Source::Sampling, Some(count)) => format!("having counted no more than {count} {things}"),
        (Source::Sampling, None) => "measuring only this piece of surface".to_owned(),
        (Source::Scale, _) => "the scale".to_owned(),
        (Source::Outline, _) => "soft edges".to_owned(),
    };
    let remedy = |source: Source| match source {
        Source::Sampling => "a larger area",
        Source::Scale => "a longer stretch for the scale",
        Source::Outline => "a sharper photo",
    };
    let of = |figure: Figure| {
        let budget = budgets.iter().find(|budget| budget.figure == figure)?;
        let (source, share) = budget.largest();
        (share > 0.0).then_some((source, share))
    };
    let extent = |share: f64| {
        if share > MOST {
            "Most"
        } else {
            "The largest part"
        }
    };
    match (of(Figure::PerMm), of(Figure::Diameter)) {
        (Some((counted, share)), Some((sized, _))) if counted != sized => Some(format!(
            "{} of the uncertainty of {things} per mm comes from {}, of the diameter from {}; {} and \
             {} would help most.",
            extent(share),
            cause(counted),
            cause(sized),
            remedy(counted),
            remedy(sized),
        )),
        (Some((source, share)), _) | (None, Some((source, share))) => Some(format!(
            "{} of the uncertainty comes from {}; {} would help most.",
            extent(share),
            cause(source),
            remedy(source)
        )),
        (None, None) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn budget(figure: Figure, sampling: f64, scale: f64, outline: f64) -> Budget {
        Budget {
            figure,
            sampling,
            scale,
            outline,
        }
    }

    /// JCGM 100:2008, H.1, the end gauge: 25 nm from the standard, 5.8, 3.9 and 6.7 nm from the
    /// comparator, 2.9 and 16.6 nm from temperature; 31.7 nm together (32 nm printed).
    #[test]
    fn parts_add_up_as_in_the_guide() {
        let gauge = budget(
            Figure::Diameter,
            25.0,
            5.8_f64.hypot(3.9).hypot(6.7),
            2.8868_f64.hypot(16.599),
        );
        assert!((gauge.combined() - 31.6639).abs() < 0.05, "{gauge:?}");
        let shares: f64 = gauge.shares().iter().map(|(_, share)| share).sum();
        assert!((shares - 1.0).abs() < 1e-12);
        // 1.96, the coverage factor of table G.1 for 95 % (1.960).
        assert!((gauge.half_width() / gauge.combined() - 1.96).abs() < 5e-4);
    }

    /// The share of a disc of radius `r` in a Gaussian of σ about a point at distance `from` from its
    /// centre, by adding up small squares.
    fn blurred_disc(r: f64, sigma: f64, from: f64) -> f64 {
        let step = r / 200.0;
        let mut sum = 0.0;
        for i in -200..200 {
            for j in -200..200 {
                let (x, y) = ((f64::from(i) + 0.5) * step, (f64::from(j) + 0.5) * step);
                if x.hypot(y) < r {
                    sum += (-0.5 * ((x - from).powi(2) + y * y) / (sigma * sigma)).exp();
                }
            }
        }
        sum * step * step / (2.0 * std::f64::consts::PI * sigma * sigma)
    }

    /// Where a blurred disc is half as dark, against what `of_outlines` takes off for curvature. The
    /// next term of the series is of the order (σ/r)² of it: 10 % at σ = r/4.
    #[test]
    fn blur_draws_a_round_outline_inwards_as_far_as_the_derivation_says() {
        let (r, sigma) = (8.0_f64, 2.0_f64);
        let (mut low, mut high) = (0.5 * r, 1.5 * r);
        for _ in 0..40 {
            let middle = f64::midpoint(low, high);
            if blurred_disc(r, sigma, middle) > 0.5 {
                low = middle;
            } else {
                high = middle;
            }
        }
        let lost = 1.0 - low / r;
        let derived = 3.0_f64.sqrt() * of_outlines(sigma, 0.0, 1.0, 2.0 * r);
        assert!((lost / derived - 1.0).abs() < 0.1, "{lost} for {derived}");
    }

    /// An edge blurred by σ is a cumulative normal distribution: 0.54 of the depth lies 0.1004 σ from
    /// the middle (table of the normal distribution; from memory). A shift of the level by 0.04.
    #[test]
    fn a_shifted_level_moves_an_edge_as_the_normal_distribution_says() {
        let (sigma, diameter) = (1.5, 13.5);
        // From wall to void are 1.4 of raw depth, so that 0.056 of it are 0.04 of the corrected one.
        let shifted = |by: f64| of_outlines(sigma, -0.2 + by, 1.2 + by, diameter);
        let levels = (shifted(0.056).powi(2) - shifted(0.0).powi(2)).sqrt() * 3.0_f64.sqrt();
        let expected = 2.0 * 0.1004 * sigma / diameter;
        assert!(
            (levels / expected - 1.0).abs() < 0.01,
            "{levels} for {expected}"
        );
    }

    #[test]
    fn the_sentence_names_the_largest_part_and_what_helps() {
        let told = |budgets: &[Budget]| sentence(budgets, "pores", Some(212));
        let count = budget(Figure::PerMm, 0.02, 0.01, 0.0);
        assert_eq!(
            told(&[count]).as_deref(),
            Some(
                "Most of the uncertainty comes from having counted no more than 212 pores; a larger area would \
                 help most."
            )
        );
        let both_scale = [
            budget(Figure::PerMm, 0.005, 0.02, 0.0),
            budget(Figure::Diameter, 0.005, 0.02, 0.01),
        ];
        let text = told(&both_scale).expect("a sentence");
        assert!(
            text.contains("comes from the scale; a longer stretch for the scale would"),
            "{text}"
        );
        let blurred = budget(Figure::Diameter, 0.01, 0.01, 0.06);
        let text = told(&[count, blurred]).expect("a sentence");
        assert!(
            text.contains(
                "of pores per mm comes from having counted no more than 212 pores, of the diameter from soft edges"
            ) && text.ends_with("a larger area and a sharper photo would help most."),
            "{text}"
        );
        let even = budget(Figure::PerMm, 0.011, 0.01, 0.01);
        assert!(
            told(&[even])
                .expect("a sentence")
                .starts_with("The largest part")
        );
        let gills = sentence(&[count], "gills", None).expect("a sentence");
        assert!(
            gills.contains("measuring only this piece of surface"),
            "{gills}"
        );
    }

    #[test]
    fn what_is_certain_gets_no_sentence_and_no_shares() {
        let certain = budget(Figure::PerMm, 0.0, 0.0, 0.0);
        assert_eq!(sentence(&[certain], "pores", Some(9)), None);
        assert!(
            certain
                .shares()
                .iter()
                .all(|(_, share)| share.abs() < f64::EPSILON)
        );
        let single = budget(Figure::Diameter, f64::INFINITY, 0.01, 0.02);
        assert!(single.shares().iter().all(|(_, share)| share.is_finite()));
    }
}
