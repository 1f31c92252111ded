//! What files say of their scale, against the libraries that wrote them: Pillow and tifffile, by
//! `fixtures/make_stated.py`; their versions stand in `fixtures/stated.json`.
//!
//! Written before the first run: every density comes back to 1 part in 2000 (PNG and JFIF round to whole
//! pixels per metre and inch), and files that say none give none.

use poreline::photo::{self, Camera, Photo};
use poreline::scale::How;
use poreline::stated::{StatedError, stated};
use serde_json::Value;
use std::path::Path;

const EXACT: f64 = 0.0005;

fn opened(name: &str) -> Photo {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/outside/fixtures/stated");
    photo::open(&folder.join(name)).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn densities_come_back_as_they_were_written() {
    let said: Value = serde_json::from_str(include_str!("fixtures/stated.json")).unwrap();
    let files = said["px_per_mm"].as_object().unwrap();
    assert_eq!(files.len(), 16);
    for (name, written) in files {
        let found = opened(name).densities;
        let Some(written) = written.as_array() else {
            assert_eq!(found, [], "{name}");
            continue;
        };
        let found = found.first().unwrap_or_else(|| panic!("{name}: nothing"));
        for (found, written) in found.px_per_mm.iter().zip(written) {
            let written = written.as_f64().unwrap();
            assert!((found / written - 1.0).abs() < EXACT, "{name}: {found}");
        }
    }
}

#[test]
fn what_can_be_believed_is_a_scale() {
    for (name, px_per_mm) in [
        ("ome.tif", 1000.0 / 8.4459),
        ("ome-big.tif", 1000.0 / 8.4459),
        ("ome-big-endian.tif", 100.0),
        ("cm.tif", 118.4),
        ("cm-big.tif", 118.4),
        ("inch.tif", 1200.0 / 25.4),
        ("metre.png", 118.4),
        ("jfif.jpg", 1200.0 / 25.4),
        ("exif.jpg", 2400.0 / 25.4),
    ] {
        let scale = stated(&opened(name)).expect(name).scale;
        assert!((scale.px_per_mm / px_per_mm - 1.0).abs() < EXACT, "{name}");
        assert_eq!(scale.how, How::Metadata);
    }
    for name in ["print.tif", "screen.png"] {
        let error = stated(&opened(name)).expect_err(name);
        assert!(
            matches!(error, StatedError::FilledIn { .. }),
            "{name}: {error}"
        );
    }
    for name in ["no-unit.tif", "nothing.tif", "nothing.png", "nothing.jpg"] {
        assert_eq!(stated(&opened(name)), Err(StatedError::Nothing), "{name}");
    }
    let error = stated(&opened("uneven.tif")).expect_err("not square");
    assert!(matches!(error, StatedError::NotSquare { .. }), "{error}");
}

#[test]
fn the_camera_comes_back_as_it_was_written() {
    let photo = opened("exif.jpg");
    let camera = Camera {
        make: Some("Acorn".to_owned()),
        model: Some("A1".to_owned()),
        focal_length_mm: Some(100.0),
    };
    assert_eq!(photo.camera, Some(camera));
    // Turned by a quarter.
    assert_eq!(photo.rgb.dimensions(), (6, 8));
    assert_eq!(opened("nothing.jpg").camera, None);
}
