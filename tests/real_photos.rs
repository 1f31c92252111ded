//! Real photographs with holes and without, from the folder that `PORELINE_PHOTOS` names, or
//! `../shared/photos`. Their counts are reported, not fitted. Says so when the folder is absent.

use poreline::Measurement;
use poreline::area::{Area, Outline};
use poreline::geometry::Rect;
use poreline::progress::Progress;
use poreline::scale::Scale;
use poreline::surface::SurfaceType;
use std::path::PathBuf;

fn measured(name: &str, px_per_mm: f64, outline: Outline) -> Option<Measurement> {
    let folder = std::env::var_os("PORELINE_PHOTOS").map_or_else(
        || PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../shared/photos"),
        PathBuf::from,
    );
    let path = folder.join(name);
    if !path.exists() {
        println!("{name} is absent, so nothing is checked");
        return None;
    }
    let photo = poreline::photo::open(&path).expect("a real photo opens");
    let area = Area {
        outline,
        left_out: Vec::new(),
    };
    let scale = Scale::given(px_per_mm).expect("greater than zero");
    Some(poreline::measure(&photo, scale, &area, &Progress::default()).expect("the area is on it"))
}

/// Textures from scikit-image's test data (CC0): not a pore among them.
#[test]
fn what_has_no_pores_is_not_called_poroid_with_confidence() {
    for name in ["brick.png", "gravel.png", "grass.png"] {
        if let Some(measurement) = measured(name, 100.0, Outline::WholePhoto) {
            let surface = &measurement.findings.surface;
            assert!(
                surface.kind != SurfaceType::Poroid || surface.confidence <= 0.8,
                "{name}: {surface:?}"
            );
        }
    }
}

/// Pores of two diatoms (Trofimov et al. 2019, npj Comput. Mater. 5: 67, CC BY 4.0), counted by
/// hand in a window; of those that its edge cuts, half count. Two careful people differ by some
/// per cent on forty pores, so ten per cent of pores per mm are allowed.
#[test]
fn pores_of_diatoms_are_counted_as_by_hand() {
    for (name, px_per_mm, [x, y, width, height], by_hand) in [
        (
            "diatom-pores-a.jpg",
            315.0,
            [0.0, 440.0, 160.0, 120.0],
            75.0_f64,
        ),
        (
            "diatom-pores-b.jpg",
            343.0,
            [380.0, 480.0, 200.0, 160.0],
            42.0,
        ),
    ] {
        let window = Rect {
            x,
            y,
            width,
            height,
        };
        let Some(measurement) = measured(name, px_per_mm, Outline::Rectangle(window)) else {
            continue;
        };
        let truth =
            poreline::statistics::pores_per_mm(by_hand * px_per_mm * px_per_mm / (width * height));
        let pores = measurement.findings.pores.expect("a poroid surface");
        let error = pores.per_mm.value / truth - 1.0;
        println!(
            "{name}: {:.2} pores per mm for {truth:.2} by hand, {:+.1} %",
            pores.per_mm.value,
            100.0 * error
        );
        assert!(error.abs() < 0.10, "{name}: {:?} for {truth}", pores.per_mm);
    }
}
