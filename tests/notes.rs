//! Notes and intervals on photos made with one trouble each, and on the same photo without it.

#[path = "render/mod.rs"]
mod render;

use image::{Rgb, RgbImage};
use imageproc::geometric_transformations::{Border, Interpolation, warp_with};
use poreline::area::{Area, Outline};
use poreline::findings::{Findings, Severity, place_of};
use poreline::geometry::{Point, Rect};
use poreline::photo::{self, Photo};
use poreline::progress::Progress;
use poreline::scale::Scale;
use poreline::surface::SurfaceType;
use poreline::units::Millimetres;
use render::camera::{Camera, Tissue, lit};
use render::packing::Packing;
use render::surface::{Kind, Surface};

/// Pores 24 px apart, 4 per mm, in even light.
fn surface() -> Surface {
    Surface {
        width_px: 720,
        height_px: 560,
        spacing_px: 24.0,
        px_per_mm: 96.0,
        seed: 41,
        ..Surface::default()
    }
}

fn camera() -> Camera {
    Camera {
        jpeg_quality: Some(92),
        ..Camera::default()
    }
}

fn opened(picture: &RgbImage, camera: &Camera) -> Photo {
    let folder = tempfile::tempdir().expect("a folder");
    let name = if camera.jpeg_quality.is_some() {
        "surface.jpg"
    } else {
        "surface.png"
    };
    let path = folder.path().join(name);
    std::fs::write(&path, camera.file(picture).expect("encoded")).expect("written");
    photo::open(&path).expect("a photo")
}

fn taken(surface: &Surface, camera: &Camera) -> Photo {
    let picture = camera.photograph(&surface.render(), &Tissue::default());
    opened(&picture, camera)
}

fn measured_in(photo: &Photo, scale: Scale, outline: Outline) -> Findings {
    let area = Area {
        outline,
        left_out: Vec::new(),
    };
    poreline::measure(photo, scale, &area, &Progress::default())
        .expect("an area on the photo")
        .findings
}

fn measured(photo: &Photo, px_per_mm: f64) -> Findings {
    let scale = Scale::given(px_per_mm).expect("a scale");
    measured_in(photo, scale, Outline::WholePhoto)
}

/// The severity of the note of that name, if it is there.
fn severity(findings: &Findings, code: &str) -> Option<Severity> {
    findings
        .notes
        .iter()
        .find(|note| note.code == code)
        .map(|note| note.severity)
}

fn codes(findings: &Findings) -> Vec<&'static str> {
    findings.notes.iter().map(|note| note.code).collect()
}

fn has_no_figures(findings: &Findings) -> bool {
    findings.pores.is_none()
        && findings.teeth.is_none()
        && findings.gills.is_none()
        && findings.maze.is_none()
        && findings.uncertainty.is_empty()
}

#[test]
fn a_good_photo_has_no_note_but_that_nothing_white_is_on_it() {
    for seed in [41, 42, 43] {
        let surface = Surface { seed, ..surface() };
        let findings = measured(&taken(&surface, &camera()), surface.px_per_mm);
        assert_eq!(findings.surface.kind, SurfaceType::Poroid);
        assert_eq!(codes(&findings), ["no-white"]);
        assert_eq!(severity(&findings, "no-white"), Some(Severity::Info));
    }
}

#[test]
fn pores_of_seven_pixels_get_a_caution_and_of_four_no_figure() {
    for (spacing_px, expected) in [
        (24.0, None),
        (7.0, Some(Severity::Caution)),
        (4.2, Some(Severity::Stop)),
    ] {
        let surface = Surface {
            spacing_px,
            px_per_mm: 4.0 * spacing_px,
            width_px: 400,
            height_px: 300,
            ..surface()
        };
        let camera = Camera {
            blur_px: 0.3,
            ..camera()
        };
        let findings = measured(&taken(&surface, &camera), surface.px_per_mm);
        assert_eq!(
            severity(&findings, "few-pixels"),
            expected,
            "{spacing_px} px: {:?}",
            findings.notes
        );
        assert_eq!(has_no_figures(&findings), expected == Some(Severity::Stop));
    }
}

#[test]
fn twenty_pores_are_few() {
    let photo = taken(&surface(), &camera());
    let scale = || Scale::given(96.0).expect("a scale");
    let window = |side: f64| {
        Outline::Rectangle(Rect {
            x: 200.0,
            y: 200.0,
            width: side,
            height: side,
        })
    };
    // A pore takes √3/2 · 24² = 499 px²: about 5 spacings square hold 29, more than 12 spacings hold 170.
    let few = measured_in(&photo, scale(), window(4.6 * 24.0));
    assert_eq!(
        severity(&few, "few-pores"),
        Some(Severity::Caution),
        "{:?}",
        few.notes
    );
    assert!(few.pores.is_some());
    let many = measured_in(&photo, scale(), window(12.0 * 24.0));
    assert_eq!(severity(&many, "few-pores"), None);
}

#[test]
fn a_smooth_surface_says_how_fine_pores_could_hide() {
    let smooth = Surface {
        kind: Kind::Smooth,
        ..surface()
    };
    let photo = taken(&smooth, &camera());
    // 8 px per pore: 20 px per mm show 2.5 per mm, 400 px per mm show 50.
    for (px_per_mm, finest, expected) in [
        (20.0, "2.5 per mm", Severity::Caution),
        (400.0, "50.0 per mm", Severity::Info),
    ] {
        let findings = measured(&photo, px_per_mm);
        assert_eq!(findings.surface.kind, SurfaceType::Smooth);
        assert_eq!(severity(&findings, "unseen-pores"), Some(expected));
        assert!(
            findings.notes.iter().any(|n| n.text.contains(finest)),
            "{:?}",
            findings.notes
        );
    }
    let poroid = measured(&taken(&surface(), &camera()), 20.0);
    assert_eq!(severity(&poroid, "unseen-pores"), None);
}

#[test]
fn blur_of_an_eighth_of_the_spacing_is_noted() {
    for (blur_px, expected) in [(0.8, None), (3.0, Some(Severity::Caution))] {
        let camera = Camera {
            blur_px,
            ..camera()
        };
        let findings = measured(&taken(&surface(), &camera), 96.0);
        assert_eq!(severity(&findings, "blurred"), expected, "{blur_px} px");
    }
}

/// The same light times ten overexposes most of the walls; the hollows pulled down by a tenth of full
/// scale, as a steep tone curve does, are black.
#[test]
fn light_beyond_the_files_range_is_noted() {
    let bright = Camera {
        exposure: 10.0,
        ..camera()
    };
    let findings = measured(&taken(&surface(), &bright), 96.0);
    assert_eq!(
        severity(&findings, "white-walls"),
        Some(Severity::Caution),
        "{:?}",
        codes(&findings)
    );
    assert_eq!(severity(&findings, "black-hollows"), None);

    let mut picture = camera().photograph(&surface().render(), &Tissue::default());
    for sample in picture.iter_mut() {
        *sample = sample.saturating_sub(105);
    }
    let findings = measured(&opened(&picture, &camera()), 96.0);
    assert_eq!(
        severity(&findings, "black-hollows"),
        Some(Severity::Caution),
        "{:?}",
        codes(&findings)
    );
    assert_eq!(severity(&findings, "white-walls"), None);
}

/// One corner of the photo has light beyond the file's range, another lies in the dark: the notes on them
/// point there.
#[test]
fn a_note_points_to_where_it_can_be_seen() {
    let mut picture = camera().photograph(&surface().render(), &Tissue::default());
    let bright = Rect::from_corners(Point::new(500.0, 20.0), Point::new(700.0, 200.0));
    let dark = Rect::from_corners(Point::new(20.0, 360.0), Point::new(220.0, 540.0));
    for (x, y, pixel) in picture.enumerate_pixels_mut() {
        let at = Point::new(f64::from(x) + 0.5, f64::from(y) + 0.5);
        for sample in &mut pixel.0 {
            if bright.contains(at) && *sample > 100 {
                *sample = 255;
            } else if dark.contains(at) {
                *sample /= 6;
            }
        }
    }
    let photo = opened(&picture, &camera());
    let area = Area::default();
    let traced = poreline::trace(&photo, &area, &Progress::default()).expect("an area");
    let middle = |code| {
        let place = place_of(code, &photo, &area, &traced).expect("a place");
        Point::new(place.x + place.width / 2.0, place.y + place.height / 2.0)
    };
    assert!(bright.contains(middle("white-walls")));
    assert!(dark.contains(middle("uneven-light")));
    // So dark a part is taken for something that lies there.
    assert!(dark.contains(middle("foreign-parts")));
    assert!(photo.bounds().contains(middle("blurred")));
    for code in ["hairs", "left-out", "short-mark", "no-white"] {
        assert_eq!(place_of(code, &photo, &area, &traced), None, "{code}");
    }
}

/// A third of the surface lies in shadow. With a third of the light it is no trouble; with a
/// 250th, under much noise, it is lost.
#[test]
fn parts_lost_in_the_dark_are_noted() {
    let surface = Surface {
        spacing_px: 12.0,
        px_per_mm: 48.0,
        ..surface()
    };
    for (shadow, noise, expected) in [
        (0.33, 0.01, None),
        (0.33, 0.05, None),
        (0.004, 0.05, Some(Severity::Caution)),
    ] {
        let camera = Camera { noise, ..camera() };
        let mut picture = lit(&surface.render(), &Tissue::default(), camera.light_deg);
        for index in 0..surface.width_px * surface.height_px {
            if index % surface.width_px > 480 {
                picture.scale(index, shadow);
            }
        }
        let findings = measured(&opened(&camera.expose(&picture), &camera), 48.0);
        assert_eq!(
            severity(&findings, "uneven-light"),
            expected,
            "{shadow}, {noise}: {:?}",
            codes(&findings)
        );
    }
}

#[test]
fn blocks_of_strong_compression_are_noted() {
    for (quality, expected) in [(95, None), (75, None), (5, Some(Severity::Caution))] {
        let camera = Camera {
            jpeg_quality: Some(quality),
            ..camera()
        };
        let findings = measured(&taken(&surface(), &camera), 96.0);
        assert_eq!(
            severity(&findings, "jpeg-blocks"),
            expected,
            "quality {quality}"
        );
    }
}

/// A picture of `surface` as a pinhole camera sees it that looks along x at an angle: x' = x/(1 + kx),
/// y' = y/(1 + kx), so that lengths shrink to the right by 1 + kx along y and by its square along x.
fn at_an_angle(k: f32) -> Photo {
    let picture = camera().photograph(&surface().render(), &Tissue::default());
    let warped = warp_with(
        &picture,
        |x, y| (x / (1.0 - k * x), y / (1.0 - k * x)),
        Interpolation::Bicubic,
        Border::Constant(Rgb([0, 0, 0])),
    );
    // What is seen of the surface, without what lies beside it.
    let shown = 1.0 + k * 720.0;
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a few hundred pixels"
    )]
    let (width, height) = ((720.0 / shown) as u32, (560.0 / shown) as u32);
    let cut = image::imageops::crop_imm(&warped, 0, 0, width, height).to_image();
    opened(&cut, &camera())
}

#[test]
fn a_photo_at_an_angle_is_noted() {
    let straight = measured(&at_an_angle(0.0), 96.0);
    assert_eq!(severity(&straight, "tilted"), None);
    // 25 % in y, 56 % in x from one side to the other.
    let tilted = measured(&at_an_angle(0.25 / 720.0), 96.0);
    assert_eq!(
        severity(&tilted, "tilted"),
        Some(Severity::Caution),
        "{:?}",
        codes(&tilted)
    );
}

#[test]
fn a_scale_from_a_short_mark_is_noted() {
    let photo = taken(&surface(), &camera());
    // 2.5, 9 and 11 spacings of 24 px, at 96 px per mm. Ends set to ±1 px make 1.4 % of 60 px and 0.4 %
    // of 216 px (standard uncertainty); counting some 600 pores in fair order makes between 0.4 and 1 %.
    for (length_px, expected) in [
        (60.0, Some(Severity::Caution)),
        (216.0, Some(Severity::Info)),
        (264.0, None),
    ] {
        let ends = [Point::new(10.0, 10.0), Point::new(10.0 + length_px, 10.0)];
        let scale = Scale::from_points(ends[0], ends[1], Millimetres(length_px / 96.0));
        let findings = measured_in(&photo, scale.expect("a scale"), Outline::WholePhoto);
        assert_eq!(
            severity(&findings, "short-mark"),
            expected,
            "{length_px} px"
        );
    }
}

/// The page for reviewers explains every note there is, and none that there is not.
#[test]
fn every_note_is_explained_in_the_page_for_reviewers() {
    let source = include_str!("../src/findings/notes.rs");
    let page = include_str!("../docs/how-far-to-trust.md");
    let is_code =
        |word: &&str| !word.is_empty() && word.bytes().all(|b| b.is_ascii_lowercase() || b == b'-');
    let mut in_source: Vec<&str> = source
        .split("#[cfg(test)]")
        .next()
        .expect("the notes")
        .lines()
        .filter_map(|line| {
            let line = line.trim().trim_start_matches("code: ");
            line.strip_prefix('"')
                .and_then(|line| line.strip_suffix("\","))
                .or_else(|| line.split_once(": &str = \"")?.1.strip_suffix("\";"))
        })
        .filter(is_code)
        .collect();
    let mut explained: Vec<&str> = page
        .split("## What the notes mean")
        .nth(1)
        .expect("the table of notes")
        .lines()
        .filter_map(|line| line.strip_prefix("| `")?.split('`').next())
        .filter(is_code)
        .collect();
    for codes in [&mut in_source, &mut explained] {
        codes.sort_unstable();
        codes.dedup();
    }
    assert!(in_source.len() > 10, "{in_source:?}");
    assert_eq!(in_source, explained);
}

/// What an interval is made of is what it is wide: the combined uncertainty times 1.96, but for the
/// skew of the square root and of resampling.
#[test]
fn intervals_are_as_wide_as_their_budgets() {
    let photo = taken(&surface(), &camera());
    let scale = Scale::from_points(
        Point::new(0.0, 0.0),
        Point::new(480.0, 0.0),
        Millimetres(5.0),
    );
    let findings = measured_in(&photo, scale.expect("a scale"), Outline::WholePhoto);
    let pores = findings.pores.as_ref().expect("pores");
    for (estimate, budget) in [pores.per_mm, pores.diameter_mm.mean]
        .iter()
        .zip(&findings.uncertainty)
    {
        let half = (estimate.high - estimate.low) / 2.0 / estimate.value;
        assert!(
            (half / budget.half_width() - 1.0).abs() < 0.02,
            "{half}, {budget:?}"
        );
        assert!((budget.scale - findings.scale.relative_uncertainty()).abs() < 1e-12);
    }
    assert!(
        findings.uncertainty[0].outline.abs() < f64::EPSILON,
        "counts do not rest on outlines"
    );
    assert!(findings.uncertainty[1].outline > 0.0);
}

/// 95 % intervals of the mean diameter, on twelve photos that no other test uses. If 95 % hold the
/// truth, 9 of 12 or fewer do in 2 of 100 runs (binomial distribution), so 10 are asked for.
#[test]
fn intervals_of_diameters_hold_the_truth() {
    let mut holding = 0;
    for seed in 0..12_u32 {
        let share = f64::from(seed) / 11.0;
        let surface = Surface {
            spacing_px: 14.0 + 14.0 * share,
            px_per_mm: 70.0,
            wall_share: [0.35, 0.45, 0.6][seed as usize % 3],
            packing: [Packing::Relaxed { steps: 3 }, Packing::Relaxed { steps: 1 }]
                [seed as usize % 2],
            seed: 900 + u64::from(seed),
            ..surface()
        };
        let camera = Camera {
            blur_px: surface.spacing_px * [0.02, 0.05, 0.08, 0.1][seed as usize % 4],
            noise: 0.02,
            seed: 950 + u64::from(seed),
            ..camera()
        };
        let pattern = surface.render();
        let photo = opened(&camera.photograph(&pattern, &Tissue::default()), &camera);
        let rect = pattern.whole().inset(2.0 * surface.spacing_px);
        let outline = Outline::Rectangle(Rect {
            x: rect.x,
            y: rect.y,
            width: rect.w,
            height: rect.h,
        });
        let findings = measured_in(&photo, Scale::given(70.0).expect("a scale"), outline);
        let truth = pattern.truth(rect).mean_diameter_mm.expect("pores");
        let Some(pores) = findings.pores else {
            println!("{seed}: {}", findings.surface.kind.word());
            continue;
        };
        let mean = pores.diameter_mm.mean;
        let holds = (mean.low..=mean.high).contains(&truth);
        holding += u32::from(holds);
        println!(
            "{seed}: {:+.2} %, ± {:.2} %, {}",
            100.0 * (mean.value / truth - 1.0),
            100.0 * findings.uncertainty[1].half_width(),
            if holds { "holds" } else { "misses" }
        );
    }
    assert!(holding >= 10, "{holding} of 12");
}
