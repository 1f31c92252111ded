//! Properties that hold for any mask and any polygon, from an image without pixels on.

use super::support::{Mask, near, near_relative, placed};
use poreline::geometry::{Point, Polygon};
use poreline::segmentation::label::Connectivity;
use proptest::prelude::*;
use std::f64::consts::TAU;

/// Masks of up to 12 × 12 px, as sparse or dense as they come.
fn masks() -> impl Strategy<Value = Mask> {
    (0_u32..=12, 0_u32..=12, 0.0..=1.0).prop_flat_map(|(width, height, share)| {
        prop::collection::vec(prop::bool::weighted(share), (width * height) as usize).prop_map(
            move |inside| Mask {
                width,
                height,
                inside,
            },
        )
    })
}

/// Star-shaped polygons of 3 to 30 corners about the origin, px.
fn stars() -> impl Strategy<Value = Polygon> {
    prop::collection::vec(2.0..40.0_f64, 3..=30).prop_map(|radii| {
        let count = f64::from(u32::try_from(radii.len()).expect("few"));
        let corner = |(k, radius): (u32, f64)| {
            let angle = TAU * f64::from(k) / count;
            Point::new(radius * angle.cos(), radius * angle.sin())
        };
        Polygon::new((0..).zip(radii).map(corner).collect())
    })
}

/// Labels by walking from pixel to pixel, as plainly as it can be done.
fn walked(mask: &Mask, connectivity: Connectivity) -> Vec<u32> {
    let steps: &[(i64, i64)] = match connectivity {
        Connectivity::Four => &[(0, -1), (-1, 0), (1, 0), (0, 1)],
        Connectivity::Eight => &[
            (-1, -1),
            (0, -1),
            (1, -1),
            (-1, 0),
            (1, 0),
            (-1, 1),
            (0, 1),
            (1, 1),
        ],
    };
    let (width, height) = (i64::from(mask.width), i64::from(mask.height));
    let index = |x: i64, y: i64| usize::try_from(y * width + x).expect("on the image");
    let mut labels = vec![0; mask.inside.len()];
    let mut count = 0;
    for (x, y) in mask.pixels() {
        let mut open = vec![(i64::from(x), i64::from(y))];
        if labels[index(open[0].0, open[0].1)] != 0 {
            continue;
        }
        count += 1;
        while let Some((x, y)) = open.pop() {
            let off = x < 0 || y < 0 || x >= width || y >= height;
            if off || !mask.inside[index(x, y)] || labels[index(x, y)] != 0 {
                continue;
            }
            labels[index(x, y)] = count;
            open.extend(steps.iter().map(|(dx, dy)| (x + dx, y + dy)));
        }
    }
    labels
}

proptest! {
    #[test]
    fn labels_part_the_mask_into_what_hangs_together(mask in masks()) {
        for connectivity in [Connectivity::Four, Connectivity::Eight] {
            let labels = mask.labels(connectivity);
            prop_assert_eq!((labels.width, labels.height), (mask.width, mask.height));
            let held: Vec<bool> = labels.of_pixel.iter().map(|label| *label > 0).collect();
            prop_assert_eq!(&held, &mask.inside);
            for label in 1..=labels.count {
                prop_assert!(labels.of_pixel.contains(&label), "{} is missing", label);
            }
            prop_assert_eq!(&labels.of_pixel, &walked(&mask, connectivity));
        }
    }

    #[test]
    fn corners_can_only_join_components(mask in masks()) {
        let four = mask.labels(Connectivity::Four).count;
        prop_assert!(four >= mask.labels(Connectivity::Eight).count);
        prop_assert!(mask.euler(Connectivity::Four) >= mask.euler(Connectivity::Eight));
    }

    #[test]
    fn the_euler_number_is_components_less_holes(mask in masks()) {
        let background = mask.background();
        for (connectivity, other) in [
            (Connectivity::Four, Connectivity::Eight),
            (Connectivity::Eight, Connectivity::Four),
        ] {
            let components = i64::from(mask.labels(connectivity).count);
            let holes = i64::from(background.labels(other).count) - 1;
            prop_assert_eq!(mask.euler(connectivity), components - holes);
            prop_assert_eq!(mask.euler(connectivity), 1 - background.euler(other));
        }
    }

    #[test]
    fn turning_and_mirroring_a_mask_changes_only_what_it_must(mask in masks()) {
        let (turned, mirrored) = (mask.turned(), mask.mirrored());
        for connectivity in [Connectivity::Four, Connectivity::Eight] {
            let count = mask.labels(connectivity).count;
            prop_assert_eq!(turned.labels(connectivity).count, count);
            prop_assert_eq!(mirrored.labels(connectivity).count, count);
            prop_assert_eq!(turned.euler(connectivity), mask.euler(connectivity));
            prop_assert_eq!(mirrored.euler(connectivity), mask.euler(connectivity));
        }
        let Some(moments) = mask.moments() else {
            prop_assert_eq!(turned.moments(), None);
            prop_assert_eq!(mirrored.moments(), None);
            return Ok(());
        };
        let (width, height) = (f64::from(mask.width), f64::from(mask.height));
        let turned = turned.moments().expect("as many pixels");
        near("area", turned.area, moments.area, 0.0);
        near("x", turned.centroid.x, height - moments.centroid.y, 1e-9);
        near("y", turned.centroid.y, moments.centroid.x, 1e-9);
        near("xx", turned.xx, moments.yy, 1e-9);
        near("yy", turned.yy, moments.xx, 1e-9);
        near("xy", turned.xy, -moments.xy, 1e-9);
        let mirrored = mirrored.moments().expect("as many pixels");
        near("area", mirrored.area, moments.area, 0.0);
        near("x", mirrored.centroid.x, width - moments.centroid.x, 1e-9);
        near("y", mirrored.centroid.y, moments.centroid.y, 1e-9);
        near("xx", mirrored.xx, moments.xx, 1e-9);
        near("yy", mirrored.yy, moments.yy, 1e-9);
        near("xy", mirrored.xy, -moments.xy, 1e-9);
        // One pixel is as long as it is wide; nothing is thinner than a row of pixels.
        let ellipse = moments.ellipse().expect("pixels have a width");
        prop_assert!(ellipse.elongation() >= 1.0);
        prop_assert!(ellipse.minor >= 4.0 / 12_f64.sqrt() - 1e-6);
    }

    #[test]
    fn a_polygon_measures_the_same_wherever_it_lies(
        star in stars(),
        angle in 0.0..TAU,
        dx in 0.0..10_000.0_f64,
        dy in 0.0..10_000.0_f64,
    ) {
        let moved = placed(&star, angle, dx, dy);
        near_relative("area", moved.area(), star.area(), 1e-8);
        near_relative("outline", moved.perimeter(), star.perimeter(), 1e-9);
        near_relative("hull", moved.hull().area(), star.hull().area(), 1e-8);
        near_relative("least width", moved.feret().min, star.feret().min, 1e-8);
        near_relative("greatest width", moved.feret().max, star.feret().max, 1e-9);
        let moments = |polygon: &Polygon| polygon.moments().expect("a star has an area");
        let (before, after) = (moments(&star), moments(&moved));
        let centroid = placed(&Polygon::new(vec![before.centroid]), angle, dx, dy).vertices()[0];
        near("centroid", after.centroid.distance(centroid), 0.0, 1e-7);
        // Trace and determinant of the second moments do not turn.
        near_relative("trace", after.xx + after.yy, before.xx + before.yy, 1e-7);
        let determinant = |m: &poreline::geometry::Moments| m.xx * m.yy - m.xy * m.xy;
        near_relative("determinant", determinant(&after), determinant(&before), 1e-6);
    }

    #[test]
    fn a_hull_holds_its_polygon_and_is_no_longer(star in stars()) {
        let hull = star.hull();
        prop_assert!(hull.area() >= star.area() * (1.0 - 1e-12));
        prop_assert!(hull.perimeter() <= star.perimeter() * (1.0 + 1e-12));
        let feret = star.feret();
        prop_assert!(feret.min <= feret.max);
        // Cauchy: the mean width of a convex figure is its outline over π.
        let mean = hull.perimeter() / std::f64::consts::PI;
        prop_assert!(feret.min <= mean * (1.0 + 1e-12) && mean <= feret.max * (1.0 + 1e-12));
    }
}
