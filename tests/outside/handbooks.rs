//! Published counts and widths of pores: surfaces drawn as they are described must be read as they
//! were published, and in the words of the trade.

use super::drawing::{Canvas, Shape, mean_and_error, packed};
use super::support::{near, near_relative, rows};
use poreline::area::Area;
use poreline::findings::PoreFindings;
use poreline::geometry::Point;
use poreline::progress::Progress;
use poreline::scale::Scale;
use poreline::statistics::{CountLine, Spread, diameter_phrase, phrase};
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use std::f64::consts::TAU;

/// A surface of round pores closely packed, drawn and measured.
fn measured(
    spacing_mm: f64,
    diameter_mm: f64,
    px_per_mm: f64,
    side_px: usize,
    seed: u64,
) -> PoreFindings {
    let mut random = Pcg64Mcg::seed_from_u64(seed);
    let mut canvas = Canvas::new(side_px, side_px);
    for place in packed(&mut random, side_px, side_px, spacing_mm * px_per_mm, 0.05) {
        canvas.cut(Shape::Disc, diameter_mm * px_per_mm, place, 0.0);
    }
    let scale = Scale::given(px_per_mm).expect("more than zero");
    poreline::measure(
        &canvas.photo(),
        scale,
        &Area::default(),
        &Progress::default(),
    )
    .expect("the area lies on the photo")
    .findings
    .pores
    .expect("pores")
}

#[test]
fn ten_contiguous_pores_are_as_long_as_hood_measured_them() {
    // facts/hood_1985.csv: mean and range of the length of ten contiguous pores over so many
    // basidiomata; the range of n normal values is on average `normal_range` standard deviations
    // (Tippett 1925). As many surfaces are drawn from that distribution here and measured.
    // Bounds, before the run: the mean lies within three standard errors, SD/√n, of the published
    // one, and within 1 % of what was drawn.
    for row in rows(include_str!("facts/hood_1985.csv")) {
        let what = row.text("group");
        let published = row.number("ten_pores_mm");
        let deviation =
            (row.number("greatest_mm") - row.number("least_mm")) / row.number("normal_range");
        let px_per_mm = 18.0 / (published / 10.0);
        let mut random = Pcg64Mcg::seed_from_u64(1985);
        let (mut drawn, mut found) = (Vec::new(), Vec::new());
        for seed in 0..row.integer("basidiomata") {
            let radius = (-2.0 * (1.0 - random.random::<f64>()).ln()).sqrt();
            let ten = published + deviation * radius * (TAU * random.random::<f64>()).cos();
            let seed = u64::try_from(seed).expect("a count");
            let pores = measured(ten / 10.0, 0.065 * ten, px_per_mm, 200, seed);
            drawn.push(ten);
            found.push(10.0 / pores.per_mm.value);
        }
        let (drawn, _) = mean_and_error(&drawn);
        let (found, _) = mean_and_error(&found);
        near_relative(what, found, drawn, 0.01);
        let n = row.number("basidiomata");
        near(what, found, published, 3.0 * deviation / n.sqrt());
    }
}

#[test]
fn pores_and_walls_are_as_wide_as_corner_gives_them() {
    // Corner, Ad Polyporaceas (as reproduced in MycoBank), Bjerkandera adusta: pores 120–190 µm
    // wide, walls 55–110 µm, hence 3.3–5.7 per mm. That speaks for handbooks that count 4–6 and
    // against one that counts 6–7.
    // Bounds, before the run: 1 % of the width of pores, of pores per mm, and of the distance between
    // middles for walls, which is all of what both edges may be off by.
    for (pore_mm, wall_mm) in [(0.120, 0.055), (0.155, 0.0825), (0.190, 0.110)] {
        let spacing_mm = pore_mm + wall_mm;
        let pores = measured(spacing_mm, pore_mm, 120.0, 720, 1987);
        let what = format!("{pore_mm} mm");
        near_relative(&what, pores.diameter_mm.mean.value, pore_mm, 0.01);
        let wall = pores.wall_mm_median.expect("walls between neighbours");
        near(&what, wall, wall_mm, 0.01 * spacing_mm);
        near_relative(&what, pores.per_mm.value, 1.0 / spacing_mm, 0.01);
        assert!(pores.per_mm.high < 6.0, "{what}: {:?}", pores.per_mm);
    }
}

/// The figures of a phrase such as `(2–)3–4(–5) per mm`, or `None` if it is of another form.
fn parsed(phrase: &str) -> Option<[f64; 4]> {
    let figures = phrase.strip_suffix(" per mm")?;
    let (least, figures) = match figures.strip_prefix('(') {
        Some(rest) => {
            let (least, rest) = rest.split_once("–)")?;
            (Some(least), rest)
        }
        None => (None, figures),
    };
    let (figures, greatest) = match figures.split_once("(–") {
        Some((rest, greatest)) => (rest, Some(greatest.strip_suffix(')')?)),
        None => (figures, None),
    };
    let (low, high) = figures.split_once('–').unwrap_or((figures, figures));
    let number = |text: &str| text.parse::<f64>().ok();
    Some([
        number(least.unwrap_or(low))?,
        number(low)?,
        number(high)?,
        number(greatest.unwrap_or(high))?,
    ])
}

#[test]
fn pores_per_cm_and_the_phrase_are_read_off_as_published() {
    // Peintner et al. 2019, IMA Fungus 10: 17, Fomes inzengae: 32–40 pores per cm. Closely packed
    // pores lie 10 mm over that number apart. Bound, before the run: 1 %; the phrase has the form of
    // the trade (Tulloss & Lindgren 2005, Mycotaxon 91: 193–194) and holds the count, its inner
    // range as wide as whole numbers make it.
    for per_cm in [32.0, 36.0, 40.0] {
        let pores = measured(10.0 / per_cm, 6.5 / per_cm, 80.0, 720, 2019);
        near_relative("per cm", 10.0 * pores.per_mm.value, per_cm, 0.01);
        let phrase = pores.handbook.0.as_str();
        let [least, low, high, greatest] =
            parsed(phrase).unwrap_or_else(|| panic!("{phrase} is no handbook's phrase"));
        assert!(least <= low && low <= high && high <= greatest, "{phrase}");
        assert!(
            low <= per_cm / 10.0 && per_cm / 10.0 <= high,
            "{phrase}: {per_cm} per cm"
        );
        assert!(high - low <= 3.0, "{phrase}: {per_cm} per cm");
    }
}

#[test]
fn counts_are_put_into_the_phrases_that_handbooks_print() {
    // facts/handbook_phrases.csv. Tulloss & Lindgren 2005: the 5th and 95th percentile outside the
    // brackets, the extremes inside, and left out where they are the same.
    for row in rows(include_str!("facts/handbook_phrases.csv")) {
        let (low, high) = (row.integer("low"), row.integer("high"));
        let figure = |n: i64| usize::try_from(n).expect("a count");
        let line = |pores| CountLine {
            from: Point::new(0.0, 0.0),
            to: Point::new(1.0, 0.0),
            pores: figure(pores),
        };
        // Four hundred lines: one in a hundred at either extreme, the rest evenly within.
        let lines: Vec<CountLine> = (0..4)
            .map(|_| row.integer("least"))
            .chain((0..392).map(|k| low + k % (high - low + 1)))
            .chain((0..4).map(|_| row.integer("greatest")))
            .map(line)
            .collect();
        let phrase = phrase(&lines).expect("pores on every line");
        assert_eq!(
            phrase.0,
            format!("{} per mm", row.text("per_mm")),
            "{}",
            row.text("taxon")
        );
    }
}

#[test]
fn large_pores_are_given_in_the_widths_that_handbooks_print() {
    // Ryvarden & Johansen 1980, A Preliminary Polypore Flora of East Africa: 504, Cerioporus
    // squamosus: pores 0.5–2(–3) mm. Tenths are always written out here.
    let widths = Spread {
        p5: 0.5,
        median: 1.1,
        p95: 2.0,
    };
    assert_eq!(diameter_phrase(0.5, widths, 3.0).0, "0.5–2.0(–3.0) mm wide");
}
