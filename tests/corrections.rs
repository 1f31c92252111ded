//! Corrections by hand change just what they say, and are told of.
//!
//! Photos are rendered, so that pores are known by their outlines and not by measuring. Bounds, written
//! before the first run: counts are exact; the area of a drawn pore is that of its outline within 1 %, and
//! that of a pore added by a click, whose floor lies at a third of the depth of the others, within 15 % of
//! the truth on tissue without relief. On tissue with relief that bound was not met: there the area was off
//! by a third, which `docs/how-far-to-trust.md` says, and only the count is checked.

#[path = "render/mod.rs"]
mod render;

use poreline::area::Area;
use poreline::corrections::{Correction, Corrections, File, Kind, LeastWall};
use poreline::export::json;
use poreline::geometry::{Point, Polygon};
use poreline::photo::Photo;
use poreline::pores::Pore;
use poreline::progress::Progress;
use poreline::scale::Scale;
use poreline::segmentation::{Phase, Preview, Segmentation};
use poreline::{Measurement, figure, measure, measure_corrected, trace_corrected};
use render::camera::{Camera, Tissue, lit};
use render::outline::Region;
use render::packing::Packing;
use render::surface::{Pattern, Surface};
use std::sync::Arc;

const DRAWN_AREA: f64 = 0.01;
const ADDED_AREA: f64 = 0.15;
const SPACING_PX: f64 = 24.0;
const PX_PER_MM: f64 = 96.0;

/// 25 × 19 spacings on a slightly uneven lattice.
fn surface() -> Surface {
    Surface {
        width_px: 600,
        height_px: 450,
        spacing_px: SPACING_PX,
        px_per_mm: PX_PER_MM,
        packing: Packing::Lattice { jitter: 0.04 },
        ..Surface::default()
    }
}

fn camera() -> Camera {
    Camera {
        jpeg_quality: None,
        ..Camera::default()
    }
}

fn photo(pattern: &Pattern) -> Photo {
    let picture = lit(pattern, &Tissue::default(), camera().light_deg);
    Photo::from_rgb("lattice.png", camera().expose(&picture))
}

fn scale() -> Scale {
    Scale::given(PX_PER_MM).expect("greater than zero")
}

fn corrected(photo: &Photo, corrections: &Corrections) -> Measurement {
    let (area, progress) = (Area::default(), Progress::default());
    measure_corrected(photo, scale(), &area, corrections, &progress).expect("the whole photo")
}

fn by_hand(corrections: impl IntoIterator<Item = Correction>) -> Corrections {
    Corrections {
        by_hand: corrections.into_iter().collect(),
        ..Corrections::default()
    }
}

fn correction(kind: Kind, places: &[[f64; 2]]) -> Correction {
    let places = places.iter().map(|[x, y]| Point::new(*x, *y));
    Correction::new(kind, places).expect("as many places as the kind takes")
}

fn count(measured: &Measurement) -> usize {
    measured.findings.pores.as_ref().expect("pores").count
}

fn has_note(measured: &Measurement, code: &str) -> bool {
    measured.findings.notes.iter().any(|n| n.code == code)
}

/// Drawn pores well inside the photo, in the order in which they were drawn.
fn inner(pattern: &Pattern) -> Vec<&Region> {
    let surface = &pattern.surface;
    let (width, height) = (surface.width_px as f64, surface.height_px as f64);
    let reach = 3.0 * SPACING_PX;
    let is_inner = |at: f64, side: f64| at > reach && at < side - reach;
    pattern
        .regions
        .iter()
        .filter(|r| is_inner(r.centroid[0], width) && is_inner(r.centroid[1], height))
        .collect()
}

/// A pore and the one nearest to it.
fn neighbours(pattern: &Pattern) -> [[f64; 2]; 2] {
    let first = inner(pattern)[5].centroid;
    let distance = |r: &Region| (r.centroid[0] - first[0]).hypot(r.centroid[1] - first[1]);
    let nearest = pattern
        .regions
        .iter()
        .filter(|r| distance(r) > 1.0)
        .min_by(|a, b| distance(a).total_cmp(&distance(b)))
        .expect("another pore");
    [first, nearest.centroid]
}

/// A stroke between two places, at right angles to the way from one to the other.
fn between([a, b]: [[f64; 2]; 2]) -> [[f64; 2]; 2] {
    let middle = [f64::midpoint(a[0], b[0]), f64::midpoint(a[1], b[1])];
    let across = [a[1] - b[1], b[0] - a[0]];
    [-0.5, 0.5].map(|side| [middle[0] + side * across[0], middle[1] + side * across[1]])
}

fn region_at(measured: &Measurement, [x, y]: [f64; 2]) -> Option<&Pore> {
    let place = Point::new(x, y);
    measured.regions.iter().find(|r| r.outline.contains(place))
}

/// Without this one pore.
fn without(mut pattern: Pattern, lost: &Region) -> Pattern {
    let [x, y] = lost.centroid;
    pattern
        .regions
        .retain(|r| (r.centroid[0] - x).hypot(r.centroid[1] - y) > 1e-9);
    for value in &mut pattern.void.values {
        *value = 0.0;
    }
    for region in &pattern.regions {
        region.cover(&mut pattern.void);
    }
    pattern
}

#[test]
fn deleting_pores_lowers_the_density_by_just_so_many() {
    let pattern = surface().render();
    let photo = photo(&pattern);
    let before = corrected(&photo, &Corrections::default());
    let lost: Vec<Correction> = inner(&pattern)
        .into_iter()
        .step_by(17)
        .map(|region| correction(Kind::Delete, &[region.centroid]))
        .collect();
    assert!(lost.len() > 5, "{}", lost.len());
    let number = lost.len();
    let after = corrected(&photo, &by_hand(lost));
    assert_eq!(count(&before) - number, count(&after));
    let per_mm2 = |m: &Measurement| m.findings.pores.as_ref().expect("pores").per_mm2;
    let mm2 = before.findings.area.mm2;
    assert!((before.findings.area.mm2 - after.findings.area.mm2).abs() < 1e-12);
    assert!((per_mm2(&before) - per_mm2(&after) - number as f64 / mm2).abs() < 1e-9);
    let void = |m: &Measurement| m.findings.pores.as_ref().expect("pores").void_fraction;
    assert!(void(&after) < void(&before), "what was deleted is wall");
    assert!(has_note(&after, "corrected"));
    let facts = after.findings.corrections.expect("corrections");
    assert_eq!(facts.effective(Kind::Delete), number);
    assert_eq!(facts.counted_by_hand, 0);
}

#[test]
fn joining_two_pores_and_splitting_them_again_gives_back_the_count() {
    let pattern = surface().render();
    let photo = photo(&pattern);
    let pair = neighbours(&pattern);
    let plain = corrected(&photo, &Corrections::default());
    let join = correction(Kind::Join, &pair);
    let joined = corrected(&photo, &by_hand([join.clone()]));
    assert_eq!(count(&joined), count(&plain) - 1);
    let one = region_at(&joined, pair[0]).expect("a pore");
    assert!(one.by_hand && one.outline.contains(Point::new(pair[1][0], pair[1][1])));
    let area = |m: &Measurement| -> f64 {
        let mut areas = pair
            .iter()
            .map(|p| region_at(m, *p).expect("a pore").moments.area);
        areas.by_ref().sum()
    };
    // Both places lie in the one pore now.
    assert!(
        area(&joined) / 2.0 >= area(&plain),
        "joined they are no smaller"
    );

    let split = correction(Kind::Split, &between(pair));
    let parted = corrected(&photo, &by_hand([join, split]));
    assert_eq!(count(&parted), count(&plain));
    let off = area(&parted) / area(&plain) - 1.0;
    assert!(off.abs() < 0.1, "{off}");
    let facts = parted.findings.corrections.expect("corrections");
    assert_eq!(facts.had_effect, [true, true]);
    assert_eq!(facts.counted_by_hand, 2);
}

#[test]
fn a_stroke_right_across_a_pore_makes_two_and_one_that_ends_in_it_none() {
    let pattern = surface().render();
    let photo = photo(&pattern);
    let [x, y] = inner(&pattern)[8].centroid;
    let plain = corrected(&photo, &Corrections::default());
    let across = correction(Kind::Split, &[[x - 11.0, y - 1.0], [x + 11.0, y + 2.0]]);
    let two = corrected(&photo, &by_hand([across]));
    assert_eq!(count(&two), count(&plain) + 1);
    let halves: f64 = [[x, y - 4.0], [x, y + 4.0]]
        .map(|p| region_at(&two, p).expect("half a pore").moments.area)
        .iter()
        .sum();
    let whole = region_at(&plain, [x, y]).expect("a pore").moments.area;
    assert!((halves / whole - 1.0).abs() < 0.1, "{halves} of {whole}");

    let into = correction(Kind::Split, &[[x - 11.0, y], [x, y]]);
    let same = corrected(&photo, &by_hand([into]));
    assert_eq!(count(&same), count(&plain));
    assert_eq!(
        same.findings.corrections.as_ref().expect("told").had_effect,
        [false]
    );
    assert!(has_note(&same, "correction-without-effect") && !has_note(&same, "corrected"));
}

#[test]
fn a_drawn_pore_is_as_large_as_its_outline() {
    let whole = surface().render();
    let lost = inner(&whole)[20].clone();
    let photo = photo(&without(whole.clone(), &lost));
    let plain = corrected(&photo, &Corrections::default());
    assert!(
        region_at(&plain, lost.centroid).is_none(),
        "there is no pore there"
    );
    let drawn = corrected(&photo, &by_hand([correction(Kind::Draw, &lost.outline)]));
    assert_eq!(count(&drawn), count(&plain) + 1);
    let pore = region_at(&drawn, lost.centroid).expect("the drawn pore");
    for (what, area) in [
        ("cover", pore.moments.area),
        ("outline", pore.outline.area()),
    ] {
        let off = area / lost.area_px2 - 1.0;
        let bound = if what == "cover" { DRAWN_AREA } else { 0.05 };
        assert!(off.abs() < bound, "{what}: {off}");
    }

    // Drawn over a pore that is seen, a little inside its edge, it takes that one's place.
    let seen = inner(&whole)[33];
    let [cx, cy] = seen.centroid;
    let smaller: Vec<[f64; 2]> = (seen.outline.iter())
        .map(|[x, y]| [cx + 0.8 * (x - cx), cy + 0.8 * (y - cy)])
        .collect();
    let redrawn = corrected(&photo, &by_hand([correction(Kind::Draw, &smaller)]));
    assert_eq!(count(&redrawn), count(&plain));
    let pore = region_at(&redrawn, seen.centroid).expect("the drawn pore");
    let off = pore.moments.area / (0.64 * seen.area_px2) - 1.0;
    assert!(off.abs() < DRAWN_AREA, "{off}");
}

/// A narrow pore drawn across another leaves two of that one, on either side.
#[test]
fn a_pore_drawn_across_another_parts_it() {
    let pattern = surface().render();
    let photo = photo(&pattern);
    let [x, y] = inner(&pattern)[25].centroid;
    let plain = corrected(&photo, &Corrections::default());
    let across = [
        [x - 12.0, y - 2.0],
        [x + 12.0, y - 2.0],
        [x + 12.0, y + 2.0],
        [x - 12.0, y + 2.0],
    ];
    let three = corrected(&photo, &by_hand([correction(Kind::Draw, &across)]));
    assert_eq!(count(&three), count(&plain) + 2);
    let places = [[x, y - 5.0], [x, y], [x, y + 5.0]];
    let found: Vec<&Pore> = places
        .iter()
        .filter_map(|p| region_at(&three, *p))
        .collect();
    assert_eq!(found.len(), 3);
    assert!(found[0] != found[2] && found.iter().all(|pore| pore.whole));
}

#[test]
fn a_click_adds_a_pore_too_shallow_to_be_seen_and_none_where_one_is_or_nothing_is() {
    let whole = surface().render();
    let shallow = inner(&whole)[20].clone();
    let mut pattern = without(whole, &shallow);
    let mut dimple = render::plane::Plane::uniform(600, 450, 0.0);
    shallow.cover(&mut dimple);
    for (void, dimple) in pattern.void.values.iter_mut().zip(&dimple.values) {
        *void += 0.33 * dimple;
    }
    let [x, y] = shallow.centroid;
    let add = correction(Kind::Add, &[[x + 2.0, y - 1.0]]);
    let off = |tissue: &Tissue| {
        let picture = lit(&pattern, tissue, camera().light_deg);
        let photo = Photo::from_rgb("lattice.png", camera().expose(&picture));
        let plain = corrected(&photo, &Corrections::default());
        assert!(
            region_at(&plain, shallow.centroid).is_none(),
            "it is not seen"
        );
        let added = corrected(&photo, &by_hand([add.clone()]));
        assert_eq!(count(&added), count(&plain) + 1);
        let pore = region_at(&added, shallow.centroid).expect("the added pore");
        pore.moments.area / shallow.area_px2 - 1.0
    };
    println!("with relief {:.3}", off(&Tissue::default()));
    let without_relief = off(&Tissue::plain(0.6, 0.3));
    assert!(without_relief.abs() < ADDED_AREA, "{without_relief}");

    let photo = photo(&pattern);
    let added = corrected(&photo, &by_hand([add.clone()]));
    // A second click finds a pore there already, and so does one in any other pore.
    let other = inner(&pattern)[3].centroid;
    let again = by_hand([add.clone(), add, correction(Kind::Add, &[other])]);
    let again = corrected(&photo, &again);
    assert_eq!(count(&again), count(&added));
    let facts = again.findings.corrections.expect("corrections");
    assert_eq!(facts.had_effect, [true, false, false]);
}

#[test]
fn corrections_that_find_nothing_are_kept_and_counted() {
    let pattern = surface().render();
    let photo = photo(&pattern);
    let plain = corrected(&photo, &Corrections::default());
    let inner = inner(&pattern);
    let far = [inner[0].centroid, inner[inner.len() - 1].centroid];
    let lost = inner[12].centroid;
    let all = by_hand([
        correction(Kind::Join, &far),
        correction(Kind::Delete, &[lost]),
        correction(Kind::Delete, &[lost]),
        correction(Kind::Join, &[lost, inner[13].centroid]),
        correction(
            Kind::Draw,
            &[[-90.0, -90.0], [-60.0, -90.0], [-60.0, -60.0]],
        ),
        correction(Kind::Add, &[[-40.0, 3.0]]),
    ]);
    let measured = corrected(&photo, &all);
    assert_eq!(count(&measured), count(&plain) - 1);
    let facts = measured.findings.corrections.clone().expect("corrections");
    assert_eq!(facts.made, all);
    assert_eq!(facts.had_effect, [false, true, false, false, false, false]);
    assert_eq!(facts.without_effect(), 5);
    assert!(has_note(&measured, "correction-without-effect"));
    // Deleted and drawn again, it is counted again.
    let back = by_hand([
        correction(Kind::Delete, &[lost]),
        correction(Kind::Draw, &inner[12].outline),
    ]);
    assert_eq!(count(&corrected(&photo, &back)), count(&plain));
}

#[test]
fn the_usual_height_of_walls_gives_the_same_findings_to_the_byte_and_so_does_coming_back_to_it() {
    let photo = photo(&surface().render());
    let (area, progress) = (Area::default(), Progress::default());
    let written = |m: &Measurement| json::findings(&m.findings).to_string();
    let plain = measure(&photo, scale(), &area, &progress).expect("the whole photo");
    let usual = Corrections {
        least_wall: LeastWall::new(1.0).expect("in range"),
        ..Corrections::default()
    };
    assert_eq!(written(&corrected(&photo, &usual)), written(&plain));

    let seen = Arc::new(Segmentation::of(&photo.light, &area, &progress).expect("the photo"));
    let fainter = Corrections {
        least_wall: LeastWall::new(0.5).expect("in range"),
        ..Corrections::default()
    };
    let there = trace_corrected(&photo, &area, &seen, &fainter, &progress).expect("traced");
    assert!(has_note(
        &figure(&photo, &area, &there, scale()),
        "least-wall"
    ));
    let back = trace_corrected(&photo, &area, &there.segmentation, &usual, &progress);
    let back = figure(&photo, &area, &back.expect("traced"), scale());
    assert_eq!(written(&back), written(&plain));
    assert_eq!(back.regions, plain.regions);
}

/// Walls of unlike height: pairs of pores whose wall has sunk to a third are one where high walls are asked
/// for and two where faint ones do.
#[test]
fn fainter_walls_part_more_pores_and_the_preview_shows_it() {
    let mut pattern = surface().render();
    // Every other column of walls is half sunk.
    let width = pattern.void.width;
    for (index, void) in pattern.void.values.iter_mut().enumerate() {
        if ((index % width) / 48).is_multiple_of(2) {
            *void = 0.72 + 0.28 * *void;
        }
    }
    let photo = photo(&pattern);
    let (area, progress) = (Area::default(), Progress::default());
    let seen = Segmentation::of(&photo.light, &area, &progress).expect("the photo");
    let preview = Preview::of(&seen, Phase::Void);
    let at = |multiple: f64| {
        let least_wall = LeastWall::new(multiple).expect("in range");
        let previewed = preview.count(&preview.joined(least_wall));
        let seen = seen.with_least_wall(least_wall);
        (seen.regions(Phase::Void, &[]).basins.count(), previewed)
    };
    let counts = [0.5, 1.0, 2.0].map(at);
    println!("{counts:?}");
    assert!(counts[0].0 > counts[2].0, "{counts:?}");
    assert!(
        counts.is_sorted_by(|a, b| a.0 >= b.0 && a.1 >= b.1),
        "{counts:?}"
    );
}

#[test]
fn the_preview_outlines_what_is_measured() {
    let pattern = surface().render();
    let photo = photo(&pattern);
    let (area, progress) = (Area::default(), Progress::default());
    let seen = Segmentation::of(&photo.light, &area, &progress).expect("the photo");
    let preview = Preview::of(&seen, Phase::Void);
    let joined = preview.joined(LeastWall::USUAL);
    let lines = preview.outlines(&joined, [600, 450], Point::new);
    // Blur leaves half depth where the outline was drawn, give or take the pixel and the smoothing.
    for region in inner(&pattern) {
        let outline = region.outline.iter().map(|[x, y]| Point::new(*x, *y));
        let outline = Polygon::new(outline.collect());
        let [cx, cy] = region.centroid;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "well inside the photo"
        )]
        let near = |x: f64, y: f64| lines[y as usize * 600 + x as usize];
        let mut drawn = 0;
        for y in -14..=14 {
            for x in -14..=14 {
                let place = Point::new(cx + f64::from(x), cy + f64::from(y));
                if near(place.x, place.y) && outline.distance(place) < 3.0 {
                    drawn += 1;
                }
            }
        }
        assert!(drawn > 20, "{drawn} px about {:?}", region.centroid);
        assert!(
            !near(cx, cy),
            "no line in the middle of {:?}",
            region.centroid
        );
    }
}

mod command_line {
    use super::*;
    use assert_cmd::Command;
    use std::fs;
    use tempfile::TempDir;

    fn poreline(folder: &TempDir, typed: &[&str]) -> Command {
        let mut command = Command::cargo_bin("poreline").expect("the program");
        command
            .current_dir(folder.path())
            .arg("measure")
            .args(typed);
        command
    }

    fn folder(pattern: &Pattern) -> (TempDir, Photo) {
        let folder = TempDir::new().expect("a folder");
        let path = folder.path().join("lattice.png");
        let picture = lit(pattern, &Tissue::default(), camera().light_deg);
        let file = camera().file(&camera().expose(&picture)).expect("encoded");
        fs::write(&path, file).expect("written");
        let photo = poreline::photo::open(&path).expect("a photo");
        (folder, photo)
    }

    #[test]
    fn corrections_of_a_file_give_the_same_findings_to_the_byte() {
        let pattern = surface().render();
        let (folder, photo) = folder(&pattern);
        let corrections = Corrections {
            least_wall: LeastWall::new(0.9).expect("in range"),
            by_hand: vec![
                correction(Kind::Join, &neighbours(&pattern)),
                correction(Kind::Delete, &[inner(&pattern)[40].centroid]),
            ],
        };
        let file = File::new(&photo.sha256, &corrections);
        let written = serde_json::to_value(&file).expect("JSON");
        let schema: serde_json::Value =
            serde_json::from_str(include_str!("../assets/schema/corrections-1.schema.json"))
                .expect("a schema");
        assert!(jsonschema::is_valid(&schema, &written), "{written}");
        fs::write(folder.path().join("c.json"), written.to_string()).expect("written");

        let typed = [
            "lattice.png",
            "--px-per-mm",
            "96",
            "--whole-photo",
            "--json",
        ];
        let out = poreline(
            &folder,
            &[&typed[..], &["--corrections", "c.json"]].concat(),
        )
        .assert()
        .success();
        let mut ours = corrected(&photo, &corrections);
        ours.findings.photo.path = "lattice.png".into();
        assert_eq!(
            String::from_utf8_lossy(&out.get_output().stdout).trim_end(),
            json::findings(&ours.findings).to_string()
        );
        let out = poreline(
            &folder,
            &[&typed[..4], &["--corrections", "c.json"]].concat(),
        )
        .assert()
        .success();
        let page = String::from_utf8_lossy(&out.get_output().stdout).into_owned();
        let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(page.contains("By hand 1 joined, 1 deleted"), "{page}");
        assert!(page.contains("0.9 times the usual height"), "{page}");
    }

    #[test]
    fn corrections_of_another_photo_or_of_none_are_refused() {
        let (folder, _) = folder(&surface().render());
        let typed = ["lattice.png", "--px-per-mm", "96", "--corrections"];
        for (contents, status, words) in [
            (
                serde_json::to_string(&File::new(&"0".repeat(64), &Corrections::default())),
                1,
                "made on another photo",
            ),
            (Ok("{}".to_owned()), 2, "holds no corrections"),
        ] {
            fs::write(folder.path().join("c.json"), contents.expect("JSON")).expect("written");
            let refused = poreline(&folder, &[&typed[..], &["c.json"]].concat())
                .assert()
                .code(status);
            let said = String::from_utf8_lossy(&refused.get_output().stderr).into_owned();
            assert!(said.contains(words), "{said}");
        }
        let refused = poreline(
            &folder,
            &["lattice.png", "--px-per-mm", "96", "--least-wall", "3"],
        )
        .assert()
        .code(2);
        let said = String::from_utf8_lossy(&refused.get_output().stderr).into_owned();
        assert!(said.contains("between 0.5 and 2"), "{said}");
    }
}
