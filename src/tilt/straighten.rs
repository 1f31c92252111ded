//! The photo as it would look squarely from above.

use super::homography::clipped;
use super::{Homography, Plane};
use crate::area::{Area, LeftOut, Outline, Reason};
use crate::corrections::Corrections;
use crate::geometry::{Point, Polygon, Rect};
use crate::photo::{self, Light, MAX_PIXELS, MAX_SIDE_PX, Photo};
use crate::progress::{Cancelled, Progress};
use crate::scale::{Scale, ScaleError};
use image::RgbImage;
use nalgebra::{Matrix2, Matrix3};
use rayon::prelude::*;
use std::sync::Arc;

/// Places farther off than this many times the distance of the middle are too coarse to be measured
/// with the rest, and towards the horizon they would take no end of pixels.
const FARTHEST: f64 = 3.0;
/// Most pixels of a straightened photo, in those of the photo: near parts come out as fine as they
/// are, far parts finer than they are.
const MOST_TIMES_LARGER: f64 = 2.0;
/// Slope of the cubic at distance 1, for which it agrees with the picture's Taylor series to the third
/// order (R. G. Keys 1981, Cubic convolution interpolation for digital image processing, IEEE Trans.
/// Acoust. Speech Signal Process. 29: 1153–1160).
const KEYS: f64 = -0.5;

/// What a person sees where the straightened picture reaches beyond the photo: a grey that no one takes
/// for surface.
const OFF_PHOTO: [u8; 3] = [118; 3];

/// A photo seen squarely from above.
#[derive(Debug, Clone)]
pub struct Straightened {
    /// The straightened picture, with the path and the SHA-256 of the photo's file.
    pub photo: Arc<Photo>,
    /// Its scale.
    pub scale: Scale,
    /// How far the camera was tilted, degrees.
    pub tilt_deg: f64,
    /// What belongs in no area: what the photo does not show and, last, what hides the specimen (px of
    /// the straightened picture).
    pub left_out: Vec<LeftOut>,
    /// From the straightened picture to the photo, px.
    to_photo: Homography,
    /// From the photo, px, to the plane, mm.
    to_plane: Homography,
    /// The photo, px.
    frame: Rect,
}

/// Takes the tilt out of a photo: resamples it on the plane with the finest resolution that it has
/// there, in linear light, turned as the photo is.
///
/// # Errors
/// [`ScaleError`] where the plane has no extent on the photo; [`Cancelled`].
pub fn straighten(
    photo: &Photo,
    plane: &Plane,
    progress: &Progress<'_>,
) -> Result<Result<Straightened, ScaleError>, Cancelled> {
    progress.check()?;
    let (to_plane, bounds) = (&plane.to_plane, photo.bounds());
    let kept = clipped(bounds.to_polygon().vertices(), |p| nearness(to_plane, p));
    let Some(layout) = Layout::of(to_plane, bounds, &kept) else {
        return Ok(Err(ScaleError::NoLength));
    };
    let scale = match Scale::on_plane(
        layout.px_per_mm,
        plane.relative_uncertainty,
        plane.how,
        plane.span_mm,
    ) {
        Ok(scale) => scale,
        Err(error) => return Ok(Err(error)),
    };
    let to_photo = layout.to_photo;
    let [width, height] = layout.size_px;
    let (rgb, light) = resampled(photo, &to_photo, width, height, progress)?;
    let from_photo = to_photo.inverse();
    let shown: Vec<Point> = kept.iter().map(|p| from_photo.map_point(*p)).collect();
    let mut left_out = vec![LeftOut {
        outline: around(&shown, Rect::of_size(width, height)),
        reason: Reason::OffPhoto,
    }];
    left_out.extend(plane.hidden.iter().map(|hidden| LeftOut {
        outline: from_photo.map_polygon(hidden),
        reason: Reason::Scale,
    }));
    Ok(Ok(Straightened {
        photo: Arc::new(Photo {
            path: photo.path.clone(),
            sha256: photo.sha256.clone(),
            rgb,
            light,
            taken: photo.taken.clone(),
            place: photo.place,
            camera: photo.camera.clone(),
            // Of the photo as it was taken.
            densities: Vec::new(),
            jpeg_blocks_from: None,
        }),
        scale,
        tilt_deg: plane.tilt.deg,
        left_out,
        to_photo,
        to_plane: to_plane.clone(),
        frame: bounds,
    }))
}

/// Not negative where a place of the photo is near enough to be straightened.
fn nearness(to_plane: &Homography, p: Point) -> f64 {
    FARTHEST * to_plane.depth([p.x, p.y]) - 1.0
}

impl Straightened {
    /// Where a place of the straightened picture lies on the photo.
    #[must_use]
    pub fn to_photo(&self, p: Point) -> Point {
        self.to_photo.map_point(p)
    }

    /// Where a place of the photo lies on the straightened picture.
    #[must_use]
    pub fn from_photo(&self, p: Point) -> Point {
        self.to_photo.inverse().map_point(p)
    }

    /// What the photo does not show of the straightened picture.
    #[must_use]
    pub fn beyond(&self) -> &LeftOut {
        &self.left_out[0]
    }

    /// What lies in the plane and hides the specimen, px of the straightened picture.
    #[must_use]
    pub fn hidden(&self) -> Option<&LeftOut> {
        self.left_out.get(1)
    }

    /// The whole photo it was made from, px.
    #[must_use]
    pub fn photo_bounds(&self) -> Rect {
        self.frame
    }

    /// The scale at the middle of the photo as it was taken, with its tilt. That the scale changes from
    /// place to place and with direction is in its uncertainty: it lies within the farthest that it goes
    /// in the corners, a rectangular distribution (JCGM 100:2008, 4.3.7).
    ///
    /// # Errors
    /// [`ScaleError::NotPositive`] where the photo reaches the horizon of the plane.
    pub fn scale_on_photo(&self) -> Result<Scale, ScaleError> {
        let along_axes = |p: Point| {
            let mm_per_px = self.to_plane.jacobian([p.x, p.y]).singular_values();
            [mm_per_px.max().recip(), mm_per_px.min().recip()]
        };
        let photo = self.frame;
        let middle = Point::new(photo.x + photo.width / 2.0, photo.y + photo.height / 2.0);
        let [smallest, greatest] = along_axes(middle);
        let scale = Scale::given((smallest * greatest).sqrt())?;
        let corners = photo.to_polygon();
        let farthest = corners
            .vertices()
            .iter()
            .copied()
            .chain([middle])
            .flat_map(along_axes)
            .map(|px_per_mm| (px_per_mm - scale.px_per_mm).abs())
            .fold(0.0, f64::max);
        let shared = self.scale.relative_uncertainty() * scale.px_per_mm;
        Ok(Scale {
            standard_uncertainty: shared.hypot(farthest / 3.0_f64.sqrt()),
            how: self.scale.how,
            ..scale
        })
    }

    /// The part of the photo that was straightened, px of the photo.
    #[must_use]
    pub fn kept(&self) -> Polygon {
        self.near(&self.frame.to_polygon())
    }

    /// An outline drawn on the photo, on the straightened picture.
    #[must_use]
    pub fn outline_from_photo(&self, outline: &Polygon) -> Polygon {
        self.to_photo.inverse().map_polygon(&self.near(outline))
    }

    /// An outline of the straightened picture, on the photo.
    #[must_use]
    pub fn outline_on_photo(&self, outline: &Polygon) -> Polygon {
        self.to_photo.map_polygon(outline)
    }

    /// An area drawn on the photo, on the straightened picture.
    #[must_use]
    pub fn area_from_photo(&self, area: &Area) -> Area {
        moved(area, |outline| self.outline_from_photo(outline))
    }

    /// An area of the straightened picture, on the photo. What the photo does not show is not in it;
    /// what lies too far off towards the horizon is left out.
    #[must_use]
    pub fn area_on_photo(&self, area: &Area) -> Area {
        let mut area = area.clone();
        area.left_out.retain(|part| part != self.beyond());
        let mut area = moved(&area, |outline| self.outline_on_photo(outline));
        let far = clipped(self.frame.to_polygon().vertices(), |p| {
            -nearness(&self.to_plane, p)
        });
        if far.len() >= 3 {
            area.left_out.push(LeftOut {
                outline: Polygon::new(far),
                reason: Reason::OffPhoto,
            });
        }
        area
    }

    /// Corrections made on the photo, on the straightened picture; those too far off towards the horizon
    /// are left behind.
    #[must_use]
    pub fn corrections_from_photo(&self, corrections: &Corrections) -> Corrections {
        corrections.moved(|p| (nearness(&self.to_plane, p) >= 0.0).then(|| self.from_photo(p)))
    }

    /// Corrections made on the straightened picture, on the photo.
    #[must_use]
    pub fn corrections_on_photo(&self, corrections: &Corrections) -> Corrections {
        corrections.moved(|p| Some(self.to_photo(p)))
    }

    /// The part of an outline that is near enough to be straightened.
    fn near(&self, outline: &Polygon) -> Polygon {
        Polygon::new(clipped(outline.vertices(), |p| nearness(&self.to_plane, p)))
    }
}

/// An area with every outline moved; rectangles become polygons.
fn moved(area: &Area, outline: impl Fn(&Polygon) -> Polygon) -> Area {
    Area {
        outline: match &area.outline {
            Outline::WholePhoto => Outline::WholePhoto,
            Outline::Rectangle(rect) => Outline::Polygon(outline(&rect.to_polygon())),
            Outline::Polygon(polygon) => Outline::Polygon(outline(polygon)),
        },
        left_out: area
            .left_out
            .iter()
            .map(|part| LeftOut {
                outline: outline(&part.outline),
                reason: part.reason,
            })
            .collect(),
    }
}

/// Everything in a rectangle but a polygon, as one outline: round the rectangle, along a seam, round
/// the polygon the other way, and back along the seam.
fn around(hole: &[Point], rect: Rect) -> Polygon {
    let mut outline = rect.to_polygon().vertices().to_vec();
    outline.push(outline[0]);
    // The rectangle's corners have a positive turning sum with y down.
    let turning: f64 = hole
        .iter()
        .zip(hole.iter().cycle().skip(1))
        .map(|(a, b)| a.x * b.y - b.x * a.y)
        .sum();
    let mut inner = hole.to_vec();
    if turning > 0.0 {
        inner.reverse();
    }
    outline.extend(&inner);
    outline.extend(inner.first());
    Polygon::new(outline)
}

/// Where the pixels of the straightened picture lie.
struct Layout {
    px_per_mm: f64,
    size_px: [u32; 2],
    /// From the straightened picture to the photo, px.
    to_photo: Homography,
}

impl Layout {
    /// `None` where nothing of the plane is to be seen.
    fn of(to_plane: &Homography, photo: Rect, kept: &[Point]) -> Option<Self> {
        if kept.len() < 3 {
            return None;
        }
        // Turned as the photo is: the rotation, or mirroring, in how the plane is seen in the middle.
        let middle = kept.iter().fold([0.0; 2], |sum, p| {
            let share = 1.0 / kept.len() as f64;
            [sum[0] + share * p.x, sum[1] + share * p.y]
        });
        let to_photo = to_plane.inverse();
        let svd = to_photo.jacobian(to_plane.map(middle)).svd(true, true);
        let turn: Matrix2<f64> = svd.u? * svd.v_t?;
        let turned = |p: &Point| {
            let [x, y] = to_plane.map([p.x, p.y]);
            turn * nalgebra::Vector2::new(x, y)
        };
        let corners: Vec<_> = kept.iter().map(turned).collect();
        let low = corners
            .iter()
            .fold([f64::MAX; 2], |low, c| [low[0].min(c.x), low[1].min(c.y)]);
        let high = corners.iter().fold([f64::MIN; 2], |high, c| {
            [high[0].max(c.x), high[1].max(c.y)]
        });
        let extent = [high[0] - low[0], high[1] - low[1]];
        let finest = kept
            .iter()
            .map(|p| {
                to_photo
                    .jacobian(to_plane.map([p.x, p.y]))
                    .singular_values()
                    .max()
            })
            .fold(0.0, f64::max);
        let most = (MOST_TIMES_LARGER * photo.width * photo.height).min(MAX_PIXELS as f64);
        let px_per_mm = finest
            .min((most / (extent[0] * extent[1])).sqrt())
            .min(f64::from(MAX_SIDE_PX - 1) / extent[0].max(extent[1]));
        if !(px_per_mm > 0.0 && px_per_mm.is_finite()) {
            return None;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between 1 and the longest side of a photo"
        )]
        let size_px = extent.map(|mm| (mm * px_per_mm).ceil().max(1.0) as u32);
        // Straightened picture → turned plane → plane → photo.
        let to_turned = Matrix3::new(
            1.0 / px_per_mm,
            0.0,
            low[0],
            0.0,
            1.0 / px_per_mm,
            low[1],
            0.0,
            0.0,
            1.0,
        );
        let back = turn.transpose().to_homogeneous();
        let matrix = to_photo.matrix() * back * to_turned;
        let [x, y] = [middle[0], middle[1]];
        let at = turned(&Point::new(x, y));
        let middle = [(at.x - low[0]) * px_per_mm, (at.y - low[1]) * px_per_mm];
        Some(Self {
            px_per_mm,
            size_px,
            to_photo: Homography::of(matrix, middle).ok()?,
        })
    }
}

/// The photo's pixels looked up for every pixel of the straightened picture.
fn resampled(
    photo: &Photo,
    to_photo: &Homography,
    width: u32,
    height: u32,
    progress: &Progress<'_>,
) -> Result<(RgbImage, Light), Cancelled> {
    let mut rgb = RgbImage::new(width, height);
    let mut light = Light::new(width, height);
    let columns = width as usize;
    rgb.par_chunks_mut(3 * columns)
        .zip(light.par_chunks_mut(columns))
        .enumerate()
        .try_for_each(|(row, (rgb, light))| {
            progress.check()?;
            let pixels = rgb.as_chunks_mut::<3>().0.iter_mut().zip(light);
            for (column, (rgb, light)) in pixels.enumerate() {
                let at = [column as f64 + 0.5, row as f64 + 0.5];
                if to_photo.depth(at) <= 0.0 {
                    continue;
                }
                let [red, green, blue, luminance] = looked_up(photo, to_photo, at);
                *rgb = if shows(photo, to_photo, at) {
                    [red, green, blue].map(photo::encoded_sample)
                } else {
                    OFF_PHOTO
                };
                *light = luminance;
            }
            Ok(())
        })?;
    Ok((rgb, light))
}

/// Whether a place of the straightened picture lies on the photo.
fn shows(photo: &Photo, to_photo: &Homography, at: [f64; 2]) -> bool {
    let [x, y] = to_photo.map(at);
    let bounds = photo.bounds();
    (0.0..=bounds.width).contains(&x) && (0.0..=bounds.height).contains(&y)
}

/// Linear red, green, blue and luminance of the photo where a place of the straightened picture lies.
/// Off the photo the light goes on as in a mirror along its edge, so that no edge is invented.
fn looked_up(photo: &Photo, to_photo: &Homography, at: [f64; 2]) -> [f32; 4] {
    let jacobian = to_photo.jacobian(at);
    let [x, y] = to_photo.map(at);
    let (width, height) = photo.rgb.dimensions();
    let across = Taps::of(x, jacobian.row(0).norm(), width);
    let down = Taps::of(y, jacobian.row(1).norm(), height);
    let (rgb, light) = (photo.rgb.as_raw(), photo.light.as_raw());
    let mut sum = [0.0_f32; 4];
    for (row, by_row) in down.iter() {
        let mut line = [0.0_f32; 4];
        for (column, by_column) in across.iter() {
            let pixel = row * width as usize + column;
            for (channel, line) in line[..3].iter_mut().enumerate() {
                *line += by_column * photo::linear_sample(rgb[3 * pixel + channel]);
            }
            line[3] += by_column * light[pixel];
        }
        for (sum, line) in sum.iter_mut().zip(line) {
            *sum += by_row * line;
        }
    }
    sum.map(|value| value.clamp(0.0, 1.0))
}

/// Pixels along one axis with their weights.
struct Taps {
    at: [usize; Self::MOST],
    weight: [f32; Self::MOST],
    count: usize,
}

impl Taps {
    /// Enough for pictures shrunk four times.
    const MOST: usize = 17;
    const WIDEST: f64 = 4.0;

    /// The cubic about a place; where the picture shrinks, as many times wider, so that what is finer
    /// than the new pixels is averaged and not picked at random.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "places on a photo, mirrored into it"
    )]
    fn of(place: f64, shrinks: f64, side: u32) -> Self {
        let wide = shrinks.clamp(1.0, Self::WIDEST);
        let place = place.clamp(-1e9, 1e9) - 0.5;
        let first = (place - 2.0 * wide).ceil();
        let mut taps = Self {
            at: [0; Self::MOST],
            weight: [0.0; Self::MOST],
            count: 0,
        };
        let mut sum = 0.0;
        for k in 0..Self::MOST {
            let pixel = first + k as f64;
            if pixel > place + 2.0 * wide {
                break;
            }
            let weight = cubic((pixel - place) / wide) as f32;
            taps.at[k] = mirrored(pixel as i64, i64::from(side)) as usize;
            taps.weight[k] = weight;
            taps.count = k + 1;
            sum += weight;
        }
        for weight in &mut taps.weight[..taps.count] {
            *weight /= sum;
        }
        taps
    }

    fn iter(&self) -> impl Iterator<Item = (usize, f32)> + '_ {
        self.at[..self.count]
            .iter()
            .copied()
            .zip(self.weight[..self.count].iter().copied())
    }
}

/// A pixel beyond the edge is that as far within it.
fn mirrored(pixel: i64, side: i64) -> i64 {
    let pixel = pixel.rem_euclid(2 * side);
    pixel.min(2 * side - 1 - pixel)
}

/// Keys' cubic.
fn cubic(x: f64) -> f64 {
    let x = x.abs();
    if x < 1.0 {
        ((KEYS + 2.0) * x - (KEYS + 3.0)) * x * x + 1.0
    } else if x < 2.0 {
        KEYS * (((x - 5.0) * x + 8.0) * x - 4.0)
    } else {
        0.0
    }
}

#[cfg(test)]
#[expect(clippy::cast_possible_truncation, reason = "tones up to 240")]
mod tests {
    use super::*;
    use image::Rgb;

    fn plane(corners: [[f64; 2]; 4], mm: [f64; 2], photo: &Photo) -> Plane {
        let corners = corners.map(|[x, y]| Point::new(x, y));
        Plane::from_corners(corners, mm, crate::scale::END_PLACEMENT_PX, photo.bounds())
            .expect("a rectangle")
    }

    fn straight(photo: &Photo, plane: &Plane) -> Straightened {
        straighten(photo, plane, &Progress::default())
            .expect("nobody cancels")
            .expect("a scale")
    }

    #[test]
    fn a_square_photo_stays_as_it_is() {
        let picture = RgbImage::from_fn(60, 40, |x, y| Rgb([(4 * x) as u8, (6 * y) as u8, 90]));
        let photo = Photo::from_rgb("square.png", picture);
        let corners = [[5.0, 5.0], [55.0, 5.0], [55.0, 35.0], [5.0, 35.0]];
        let straight = straight(&photo, &plane(corners, [5.0, 3.0], &photo));
        assert!((straight.scale.px_per_mm - 10.0).abs() < 1e-9);
        assert!(straight.tilt_deg < 1e-3);
        let (width, height) = straight.photo.rgb.dimensions();
        assert!(width.abs_diff(60) <= 1 && height.abs_diff(40) <= 1);
        for (x, y, pixel) in photo.rgb.enumerate_pixels() {
            let seen = straight.photo.rgb.get_pixel(x, y);
            let off = (0..3).map(|c| pixel.0[c].abs_diff(seen.0[c])).max();
            assert!(off <= Some(1), "{x}, {y}: {pixel:?} {seen:?}");
        }
    }

    /// A camera of 4000 px focal length, 120 mm above the plane that its axis meets, tilted by 4°. There
    /// a millimetre across the tilt has f/d px and one along it f/d · cos θ (Hartley & Zisserman 2004,
    /// 6.1); in the corners of the photo both are farther off, which the uncertainty has to hold.
    #[test]
    fn the_scale_of_a_tilted_photo_is_that_of_its_middle() {
        let (sin, cos) = 4.0_f64.to_radians().sin_cos();
        let (focal_px, distance_mm) = (4000.0, 120.0);
        let seen = |[x, y]: [f64; 2]| {
            let depth = distance_mm + y * sin;
            [
                800.0 + focal_px * x / depth,
                600.0 + focal_px * y * cos / depth,
            ]
        };
        let corners = [[-15.0, -10.0], [15.0, -10.0], [15.0, 10.0], [-15.0, 10.0]];
        let photo = Photo::from_rgb("a.png", RgbImage::from_pixel(1600, 1200, Rgb([120; 3])));
        let straight = straight(&photo, &plane(corners.map(seen), [30.0, 20.0], &photo));
        let scale = straight.scale_on_photo().expect("a scale");
        let expected = focal_px / distance_mm * cos.sqrt();
        assert!((scale.px_per_mm / expected - 1.0).abs() < 1e-9, "{scale:?}");
        // 18 mm towards the near edge, the depth is 18 · sin 4° = 1.26 mm less: 1.05 %.
        let relative = scale.relative_uncertainty() * 3.0_f64.sqrt();
        assert!((0.0105..0.03).contains(&relative), "{relative}");
    }

    #[test]
    fn the_horizon_takes_no_pixels() {
        let photo = Photo::from_rgb("steep.png", RgbImage::from_pixel(400, 300, Rgb([120; 3])));
        // A path that vanishes within the photo.
        let corners = [[180.0, 80.0], [220.0, 80.0], [340.0, 290.0], [60.0, 290.0]];
        let straight = straight(&photo, &plane(corners, [10.0, 40.0], &photo));
        let (width, height) = straight.photo.rgb.dimensions();
        assert!(f64::from(width) * f64::from(height) <= 2.01 * 400.0 * 300.0);
        let drawn = Area {
            outline: Outline::Rectangle(Rect {
                x: 0.0,
                y: 0.0,
                width: 400.0,
                height: 300.0,
            }),
            left_out: Vec::new(),
        };
        let mapped = straight.area_from_photo(&drawn);
        let Outline::Polygon(outline) = &mapped.outline else {
            panic!("a polygon");
        };
        assert!(
            outline
                .vertices()
                .iter()
                .all(|p| p.x.is_finite() && p.x.abs() < 1e6)
        );
        let back = straight.area_on_photo(&mapped);
        assert!(!back.contains(Point::new(200.0, 5.0), photo.bounds()));
        assert!(back.contains(Point::new(200.0, 200.0), photo.bounds()));
    }

    #[test]
    fn what_the_photo_does_not_show_is_left_out() {
        let photo = Photo::from_rgb("tilted.png", RgbImage::from_pixel(400, 300, Rgb([120; 3])));
        let corners = [[130.0, 80.0], [270.0, 80.0], [300.0, 220.0], [100.0, 220.0]];
        let straight = straight(&photo, &plane(corners, [20.0, 20.0], &photo));
        let bounds = straight.photo.bounds();
        let area = Area {
            left_out: straight.left_out.clone(),
            ..Area::default()
        };
        let mut seen = 0;
        for y in 0..30 {
            for x in 0..30 {
                let at = Point::new(
                    (f64::from(x) + 0.5) / 30.0 * bounds.width,
                    (f64::from(y) + 0.5) / 30.0 * bounds.height,
                );
                let shown = straight.kept().contains(straight.to_photo(at));
                assert_eq!(area.contains(at, bounds), shown, "{at:?}");
                seen += usize::from(shown);
            }
        }
        assert!((100..900).contains(&seen));
        let there_and_back = straight.from_photo(straight.to_photo(Point::new(50.0, 60.0)));
        assert!(there_and_back.distance(Point::new(50.0, 60.0)) < 1e-6);
    }

    #[test]
    fn cubic_weights_pass_through_the_pixels() {
        for (x, weight) in [
            (0.0, 1.0),
            (1.0, 0.0),
            (2.0, 0.0),
            (0.5, 0.5625),
            (1.5, -0.0625),
        ] {
            assert!((cubic(x) - weight).abs() < 1e-12, "{x}");
        }
        assert_eq!(
            [-1, -2, 0, 4, 5, 6].map(|p| mirrored(p, 5)),
            [0, 1, 0, 4, 4, 3]
        );
    }
}
