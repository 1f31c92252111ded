//! Makes the sample images and what is true of them: `cargo run --example render-samples`.
//!
//! Every run writes the same bytes. A folder may be given as the only argument.

#[path = "mod.rs"]
mod render;

use render::camera::{Camera, Colour, GREY, PALE, TAN, Tissue, VIOLET, lit};
use render::packing::Packing;
use render::plane::Rect;
use render::scene::{self, Backdrop, Card};
use render::surface::{Kind, Margin, Surface, Truth};
use serde_json::{Map, Value, json};
use std::error::Error;
use std::path::{Path, PathBuf};

const FONT: &[u8] = include_bytes!("../../assets/fonts/Inter-Regular.otf");

/// One photo: what is on it, how it was taken, and the part of it that is nothing but surface.
struct Sample {
    file: &'static str,
    surface: Surface,
    tissue: Tissue,
    camera: Camera,
    backdrop: Option<(Backdrop, Colour)>,
    card: Card,
    crumbs: usize,
    fibres: usize,
    area: Rect,
}

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args_os().nth(1).map_or_else(
        || Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-images"),
        PathBuf::from,
    );
    std::fs::create_dir_all(&folder)?;
    let mut truths = Map::new();
    for sample in samples() {
        let (bytes, truth) = sample.make()?;
        std::fs::write(folder.join(sample.file), &bytes)?;
        println!("{} {} kB", sample.file, bytes.len() / 1000);
        truths.insert(sample.file.to_owned(), truth);
    }
    let mut text = serde_json::to_string_pretty(&Value::Object(truths))?;
    text.push('\n');
    std::fs::write(folder.join("truth.json"), text)?;
    Ok(())
}

impl Sample {
    /// The file's bytes and its entry in `truth.json`.
    fn make(&self) -> Result<(Vec<u8>, Value), Box<dyn Error>> {
        if !self.surface.even_in(self.area) {
            return Err(format!("{}: the area reaches into the margin", self.file).into());
        }
        let pattern = self.surface.render();
        let light = self.camera.light_deg;
        let seed = self.surface.seed;
        let mut picture = lit(&pattern, &self.tissue, light);
        if let (Some(margin), Some((backdrop, rim))) = (&self.surface.margin, self.backdrop) {
            scene::lay_backdrop(&mut picture, margin, backdrop, rim, light, seed);
        }
        scene::strew(&mut picture, self.crumbs, self.fibres, light, seed);
        let bar = self
            .card
            .lay(&mut picture, self.surface.px_per_mm, light, FONT)?;
        let bytes = self.camera.file(&self.camera.expose(&picture))?;

        let area = self.area;
        let entry = json!({
            "kind": self.surface.kind.name(),
            "px_per_mm": self.surface.px_per_mm,
            "bar": {
                "left_px": bar.left.map(|v| rounded(v, 2)),
                "right_px": bar.right.map(|v| rounded(v, 2)),
                "length_mm": self.card.length_mm,
            },
            "area_px": [area.x, area.y, area.w, area.h],
            "within_area": within_area(&pattern.truth(area)),
        });
        Ok((bytes, entry))
    }
}

/// The figures that mean something on this kind of surface.
fn within_area(truth: &Truth) -> Value {
    let mut entry = Map::new();
    let mut put = |name: &str, value: Option<f64>, places: i32| {
        if let Some(value) = value {
            entry.insert(name.to_owned(), rounded(value, places));
        }
    };
    put("area_mm2", Some(truth.area_mm2), 2);
    let [per_mm, per_mm2] = match truth.kind {
        Kind::Toothed => ["teeth_per_mm", "teeth_per_mm2"],
        Kind::MazeLike => ["voids_per_mm", ""],
        Kind::Gilled => ["gills_per_mm", ""],
        Kind::Poroid | Kind::Smooth => ["pores_per_mm", "pores_per_mm2"],
    };
    put(per_mm, truth.per_mm, 3);
    put(per_mm2, truth.per_mm2, 3);
    put("mean_diameter_mm", truth.mean_diameter_mm, 4);
    put("median_elongation", truth.median_elongation, 3);
    put("void_fraction", truth.void_fraction, 3);
    if let Some(count) = truth.count {
        entry.insert("count".to_owned(), json!(count));
    }
    Value::Object(entry)
}

fn rounded(value: f64, places: i32) -> Value {
    let unit = 10_f64.powi(places);
    json!((value * unit).round() / unit)
}

fn card(centre: [f64; 2], length_mm: f64, angle_deg: f64) -> Card {
    Card {
        centre,
        length_mm,
        label: format!("{length_mm} mm"),
        angle_deg,
    }
}

#[allow(clippy::too_many_lines, reason = "a list")]
fn samples() -> Vec<Sample> {
    let photo = Surface {
        width_px: 1600,
        height_px: 1200,
        ..Surface::default()
    };
    vec![
        Sample {
            file: "fine-pores.jpg",
            surface: Surface {
                px_per_mm: 104.0,
                spacing_px: 23.0,
                wall_share: 0.5,
                packing: Packing::Relaxed { steps: 8 },
                rounding: 0.85,
                seed: 11,
                ..photo.clone()
            },
            tissue: Tissue {
                wall: PALE,
                void_ratio: 0.19,
                seed: 12,
                ..Tissue::default()
            },
            camera: Camera {
                light_deg: 35.0,
                falloff: 0.72,
                blur_px: 1.0,
                ..Camera::default()
            },
            backdrop: None,
            card: card([1400.0, 1110.0], 2.0, 0.0),
            crumbs: 24,
            fibres: 5,
            area: Rect {
                x: 100.0,
                y: 80.0,
                w: 1400.0,
                h: 900.0,
            },
        },
        Sample {
            file: "coarse-angular-pores.jpg",
            surface: Surface {
                px_per_mm: 64.0,
                spacing_px: 54.0,
                wall_share: 0.34,
                rounding: 0.3,
                size_variation: 0.1,
                wobble: 0.16,
                elongation: 1.12,
                elongation_spread: 0.12,
                direction_deg: 70.0,
                margin: Some(Margin {
                    centre: [800.0, -1080.0],
                    radius_px: 2130.0,
                    wave_px: 60.0,
                    sterile_px: 70.0,
                }),
                seed: 21,
                ..photo.clone()
            },
            tissue: Tissue {
                wall: [0.60, 0.47, 0.29],
                void_ratio: 0.13,
                tube_light: 0.5,
                seed: 22,
                ..Tissue::default()
            },
            camera: Camera {
                light_deg: 40.0,
                falloff: 0.8,
                ..Camera::default()
            },
            backdrop: Some((Backdrop::Bark, [0.66, 0.56, 0.40])),
            card: card([1320.0, 1120.0], 5.0, -1.2),
            crumbs: 30,
            fibres: 6,
            area: Rect {
                x: 80.0,
                y: 60.0,
                w: 1440.0,
                h: 600.0,
            },
        },
        Sample {
            file: "elongated-pores.jpg",
            surface: Surface {
                px_per_mm: 82.0,
                spacing_px: 44.0,
                wall_share: 0.42,
                rounding: 0.45,
                elongation: 2.1,
                elongation_spread: 0.15,
                direction_deg: 62.0,
                wobble: 0.1,
                seed: 31,
                ..photo.clone()
            },
            tissue: Tissue {
                wall: TAN,
                void_ratio: 0.16,
                tube_light: 0.4,
                seed: 32,
                ..Tissue::default()
            },
            camera: Camera {
                light_deg: 160.0,
                falloff: 0.7,
                exposure: 1.25,
                ..Camera::default()
            },
            backdrop: None,
            card: card([270.0, 1110.0], 5.0, 0.0),
            crumbs: 26,
            fibres: 7,
            area: Rect {
                x: 100.0,
                y: 70.0,
                w: 1400.0,
                h: 920.0,
            },
        },
        Sample {
            file: "toothed.jpg",
            surface: Surface {
                kind: Kind::Toothed,
                px_per_mm: 76.0,
                spacing_px: 42.0,
                wall_share: 0.46,
                rounding: 0.8,
                elongation: 1.25,
                elongation_spread: 0.35,
                direction_deg: 80.0,
                size_variation: 0.12,
                wobble: 0.16,
                merged: 0.22,
                seed: 41,
                ..photo.clone()
            },
            tissue: Tissue {
                wall: [0.68, 0.58, 0.43],
                void_ratio: 0.15,
                rim_light: 0.3,
                seed: 42,
                ..Tissue::default()
            },
            camera: Camera {
                light_deg: 25.0,
                falloff: 0.75,
                ..Camera::default()
            },
            backdrop: None,
            card: card([1330.0, 95.0], 5.0, 1.5),
            crumbs: 22,
            fibres: 8,
            area: Rect {
                x: 90.0,
                y: 210.0,
                w: 1420.0,
                h: 900.0,
            },
        },
        Sample {
            file: "maze-like.jpg",
            surface: Surface {
                kind: Kind::MazeLike,
                px_per_mm: 58.0,
                spacing_px: 56.0,
                wall_share: 0.52,
                margin: Some(Margin {
                    centre: [-700.0, 400.0],
                    radius_px: 2130.0,
                    wave_px: 70.0,
                    sterile_px: 60.0,
                }),
                seed: 51,
                ..photo.clone()
            },
            tissue: Tissue {
                wall: [0.55, 0.42, 0.26],
                void_ratio: 0.13,
                tube_light: 0.4,
                rim_light: 0.2,
                seed: 52,
                ..Tissue::default()
            },
            camera: Camera {
                light_deg: 200.0,
                falloff: 0.75,
                exposure: 1.1,
                ..Camera::default()
            },
            backdrop: Some((Backdrop::Cloth, [0.58, 0.46, 0.31])),
            card: card([1280.0, 1110.0], 5.0, 0.0),
            crumbs: 24,
            fibres: 6,
            area: Rect {
                x: 70.0,
                y: 70.0,
                w: 1040.0,
                h: 940.0,
            },
        },
        Sample {
            file: "gilled.jpg",
            surface: Surface {
                kind: Kind::Gilled,
                px_per_mm: 60.0,
                spacing_px: 54.0,
                wall_share: 0.45,
                direction_deg: 97.0,
                waviness: 0.35,
                forks: 1.3,
                seed: 61,
                ..photo.clone()
            },
            tissue: Tissue {
                wall: [0.62, 0.51, 0.35],
                void_ratio: 0.13,
                tube_light: 0.45,
                rim_light: 0.2,
                seed: 62,
                ..Tissue::default()
            },
            camera: Camera {
                light_deg: 20.0,
                falloff: 0.7,
                ..Camera::default()
            },
            backdrop: None,
            card: card([230.0, 95.0], 5.0, -1.0),
            crumbs: 20,
            fibres: 7,
            area: Rect {
                x: 80.0,
                y: 210.0,
                w: 1440.0,
                h: 900.0,
            },
        },
        Sample {
            file: "smooth-crust.jpg",
            surface: Surface {
                kind: Kind::Smooth,
                px_per_mm: 72.0,
                spacing_px: 34.0,
                warts: 40,
                cracks: 7,
                seed: 71,
                ..photo.clone()
            },
            tissue: Tissue {
                wall: [0.52, 0.40, 0.30],
                mottling: 0.1,
                grain: 0.035,
                hue_variation: 0.022,
                seed: 72,
                ..Tissue::default()
            },
            camera: Camera {
                light_deg: 30.0,
                falloff: 0.7,
                exposure: 1.1,
                ..Camera::default()
            },
            backdrop: None,
            card: card([1330.0, 1105.0], 5.0, 0.0),
            crumbs: 34,
            fibres: 8,
            area: Rect {
                x: 80.0,
                y: 60.0,
                w: 1440.0,
                h: 920.0,
            },
        },
        Sample {
            file: "blurred-tilted-light.jpg",
            surface: Surface {
                px_per_mm: 92.0,
                spacing_px: 29.0,
                wall_share: 0.5,
                rounding: 0.6,
                margin: Some(Margin {
                    centre: [900.0, 2150.0],
                    radius_px: 1960.0,
                    wave_px: 60.0,
                    sterile_px: 60.0,
                }),
                seed: 81,
                ..photo.clone()
            },
            tissue: Tissue {
                wall: VIOLET,
                void_ratio: 0.3,
                mottling: 0.07,
                seed: 82,
                ..Tissue::default()
            },
            camera: Camera {
                light_deg: 10.0,
                falloff: 0.35,
                exposure: 1.25,
                blur_px: 1.9,
                blur_right_px: Some(2.8),
                noise: 0.014,
                ..Camera::default()
            },
            backdrop: Some((Backdrop::Cloth, [0.42, 0.33, 0.38])),
            card: card([300.0, 1110.0], 5.0, 0.0),
            crumbs: 20,
            fibres: 5,
            area: Rect {
                x: 80.0,
                y: 580.0,
                w: 1440.0,
                h: 440.0,
            },
        },
        Sample {
            file: "irregular-pores.png",
            surface: Surface {
                width_px: 760,
                height_px: 570,
                px_per_mm: 60.0,
                spacing_px: 26.0,
                wall_share: 0.55,
                packing: Packing::Lattice { jitter: 0.17 },
                rounding: 0.7,
                size_variation: 0.1,
                wobble: 0.12,
                seed: 91,
                ..photo
            },
            tissue: Tissue {
                wall: GREY,
                void_ratio: 0.18,
                seed: 92,
                ..Tissue::default()
            },
            camera: Camera {
                light_deg: 120.0,
                falloff: 0.85,
                exposure: 1.3,
                jpeg_quality: None,
                noise: 0.006,
                ..Camera::default()
            },
            backdrop: None,
            card: card([570.0, 500.0], 5.0, 0.0),
            crumbs: 8,
            fibres: 3,
            area: Rect {
                x: 40.0,
                y: 40.0,
                w: 680.0,
                h: 390.0,
            },
        },
    ]
}
