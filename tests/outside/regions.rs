//! Masks and polygons against scikit-image, `SciPy` and Shapely, and against figures published
//! with scikit-image's own tests.

use super::support::{Mask, near, near_relative, polygon, rows};
use poreline::geometry::{Feret, Polygon};
use poreline::segmentation::label::Connectivity;
use serde_json::Value;

/// Made by `fixtures/make_regions.py`, which says how each figure was had; versions inside.
const REGIONS: &str = include_str!("fixtures/regions.json");

/// Figures in the fixture carry 14 digits.
const ROUNDED: f64 = 1e-12;

/// Feret diameters in the fixture were found by a search over the angle.
const SEARCHED: f64 = 1e-7;

/// Second moment of a unit square about its own centre, px². Pixels are squares here and points
/// in scikit-image, so ours are larger by this much.
const UNIT_SQUARE: f64 = 1.0 / 12.0;

fn regions(kind: &str) -> Vec<Value> {
    let mut regions: Value = serde_json::from_str(REGIONS).expect("the fixture is JSON");
    let Value::Array(list) = regions[kind].take() else {
        panic!("the fixture has {kind}")
    };
    list
}

fn name(region: &Value) -> &str {
    region["name"].as_str().expect("a name")
}

fn number(region: &Value, key: &str) -> f64 {
    region[key]
        .as_f64()
        .unwrap_or_else(|| panic!("{}: {key}", name(region)))
}

fn pair(value: &Value) -> (f64, f64) {
    let at = |i: usize| value[i].as_f64().expect("a pair of numbers");
    (at(0), at(1))
}

fn mask(region: &Value) -> Mask {
    let rows = region["rows"].as_array().expect("rows");
    Mask::of_rows(rows.iter().map(|row| row.as_str().expect("a row")), '#')
}

#[test]
fn pixels_have_the_area_centroid_and_moments_of_scikit_image() {
    for region in regions("masks") {
        let name = name(&region);
        let ours = mask(&region).moments().expect(name);
        let tolerance = 1e-11 * number(&region, "fine_xx").max(number(&region, "fine_yy"));
        near(name, ours.area, number(&region, "area"), 0.0);
        let (x, y) = pair(&region["centroid"]);
        near_relative(name, ours.centroid.x, x, ROUNDED);
        near_relative(name, ours.centroid.y, y, ROUNDED);

        let centres = |key| number(&region, key);
        near(name, ours.xx - UNIT_SQUARE, centres("centre_xx"), tolerance);
        near(name, ours.yy - UNIT_SQUARE, centres("centre_yy"), tolerance);
        near(name, ours.xy, centres("centre_xy"), tolerance);
        // Cut into 16 × 16 points each, pixels are squares to scikit-image too, nearly.
        let left = UNIT_SQUARE / (16.0 * 16.0);
        near(name, ours.xx - left, centres("fine_xx"), tolerance);
        near(name, ours.yy - left, centres("fine_yy"), tolerance);
        near(name, ours.xy, centres("fine_xy"), tolerance);
    }
}

#[test]
fn the_ellipse_has_the_axes_of_scikit_image() {
    // A filled ellipse of full axis d has the second moment d²/16 along it.
    let shift = 16.0 * UNIT_SQUARE;
    for region in regions("masks") {
        let name = name(&region);
        let ours = mask(&region)
            .moments()
            .and_then(|moments| moments.ellipse())
            .expect(name);
        let (major, minor) = (number(&region, "major"), number(&region, "minor"));
        let tolerance = 1e-10 * major.max(1.0).powi(2);
        near(name, ours.major.powi(2) - shift, major.powi(2), tolerance);
        near(name, ours.minor.powi(2) - shift, minor.powi(2), tolerance);
        let elongation = ((major.powi(2) + shift) / (minor.powi(2) + shift)).sqrt();
        near_relative(name, ours.elongation(), elongation, 1e-9);
    }
}

#[test]
fn components_and_euler_numbers_are_those_of_scikit_image_and_scipy() {
    for region in regions("masks") {
        let mask = mask(&region);
        for (connectivity, components, euler) in [
            (Connectivity::Four, "components_4", "euler_4"),
            (Connectivity::Eight, "components_8", "euler_8"),
        ] {
            let labels = mask.labels(connectivity);
            let name = name(&region);
            assert_eq!(region[components], labels.count, "{name}: {components}");
            assert_eq!(region[euler], mask.euler(connectivity), "{name}: {euler}");
        }
    }
}

#[test]
fn hulls_of_pixel_corners_are_those_of_scipy() {
    for region in regions("masks") {
        check_hull(name(&region), &mask(&region).hull(), &region["corner_hull"]);
    }
}

#[test]
fn polygons_have_the_measures_of_shapely_and_scipy() {
    for region in regions("polygons") {
        let name = name(&region);
        let vertices = region["vertices"].as_array().expect("vertices");
        let ours = polygon(&vertices.iter().map(pair).collect::<Vec<_>>());
        // Shapely sums about the first corner too, yet in coordinates up to 3000 px.
        near_relative(name, ours.area(), number(&region, "area"), 1e-10);
        near_relative(
            name,
            ours.perimeter(),
            number(&region, "perimeter"),
            ROUNDED,
        );
        let centroid = ours.moments().expect(name).centroid;
        let (x, y) = pair(&region["centroid"]);
        near(name, centroid.x, x, 1e-9);
        near(name, centroid.y, y, 1e-9);
        let solidity = ours.area() / ours.hull().area();
        near_relative(name, solidity, number(&region, "solidity"), 1e-10);
        check_hull(name, &ours, &region["hull"]);
    }
}

fn check_hull(name: &str, polygon: &Polygon, want: &Value) {
    let hull = polygon.hull();
    let want = |key: &str| want.pointer(key).and_then(Value::as_f64).expect(name);
    near_relative(name, hull.area(), want("/area"), 1e-10);
    near_relative(name, hull.perimeter(), want("/perimeter"), ROUNDED);
    let Feret { min, max } = polygon.feret();
    near_relative(name, min, want("/feret/min"), SEARCHED);
    near_relative(name, max, want("/feret/max"), SEARCHED);
}

#[test]
fn euler_numbers_of_small_images_are_as_published() {
    // Source: facts/README.md.
    for row in rows(include_str!("facts/euler_images.csv")) {
        let name = row.text("name");
        let mask = Mask::of_rows(row.text("rows").split('/'), '1');
        let pixels = i64::try_from(mask.pixels().count()).expect(name);
        assert_eq!(pixels, row.integer("pixels"), "{name}");
        for (connectivity, other, suffix) in [
            (Connectivity::Four, Connectivity::Eight, "4"),
            (Connectivity::Eight, Connectivity::Four, "8"),
        ] {
            let fact = |what: &str| row.integer(&format!("{what}_{suffix}"));
            let components = i64::from(mask.labels(connectivity).count);
            assert_eq!(components, fact("components"), "{name}: components");
            // Of the background one component is the outside.
            let holes = i64::from(mask.background().labels(other).count) - 1;
            assert_eq!(holes, fact("holes"), "{name}: holes");
            assert_eq!(mask.euler(connectivity), fact("euler"), "{name}: Euler");
        }
    }
}

#[test]
fn the_sample_of_scikit_image_measures_as_published() {
    // scikit-image, test_regionprops.py, image SAMPLE (10 × 18): area, centroid (row, column)
    // from pixel centres, central moments, equivalent diameter, axes, eccentricity.
    let table = rows(include_str!("facts/euler_images.csv"));
    let sample = table
        .iter()
        .find(|row| row.text("name") == "skimage_SAMPLE")
        .expect("the sample is among the images");
    let moments = Mask::of_rows(sample.text("rows").split('/'), '1')
        .moments()
        .expect("the sample has pixels");
    near("area", moments.area, 72.0, 0.0);
    near("row", moments.centroid.y - 0.5, 5.666_666_7, 1e-7);
    near("column", moments.centroid.x - 0.5, 9.444_444_4, 1e-7);
    let central = |second: f64| second * moments.area;
    near("mu02", central(moments.yy - UNIT_SQUARE), 436.0, 1e-4);
    near("mu20", central(moments.xx - UNIT_SQUARE), 1259.7778, 1e-4);
    near("mu11", central(moments.xy), -87.3333, 1e-4);
    let diameter = (4.0 * moments.area / std::f64::consts::PI).sqrt();
    near("diameter", diameter, 9.574_614_729_63, 1e-9);
    let ellipse = moments.ellipse().expect("the sample has a width");
    let major = (ellipse.major.powi(2) - 16.0 * UNIT_SQUARE).sqrt();
    let minor = (ellipse.minor.powi(2) - 16.0 * UNIT_SQUARE).sqrt();
    near("major", major, 16.792_423_499_9, 1e-9);
    near("minor", minor, 9.739_302_807_263, 1e-9);
    let eccentricity = (1.0 - (minor / major).powi(2)).sqrt();
    near("eccentricity", eccentricity, 0.814_629_313_427, 1e-9);
}

#[test]
fn the_largest_feret_of_a_square_depends_on_where_its_outline_runs() {
    // scikit-image, test_regionprops.py: √(16² + 15²) for 16 × 16 pixels, as its outline runs
    // through the middles of the outer pixel sides and so cuts the corners off.
    let cut = polygon(&[
        (0.5, 0.0),
        (15.5, 0.0),
        (16.0, 0.5),
        (16.0, 15.5),
        (15.5, 16.0),
        (0.5, 16.0),
        (0.0, 15.5),
        (0.0, 0.5),
    ]);
    near_relative("cut", cut.feret().max, 481_f64.sqrt(), 1e-12);
    // Pixel squares reach into the corners (closed form).
    let row = "#".repeat(16);
    let square = Mask::of_rows([row.as_str(); 16], '#').hull();
    near_relative("square", square.feret().max, 16.0 * 2_f64.sqrt(), 1e-12);
    near_relative("square", square.feret().min, 16.0, 1e-12);
}
