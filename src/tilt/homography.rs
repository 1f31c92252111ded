//! Homographies: how one plane is seen on another.

use super::TiltError;
use crate::geometry::{Point, Polygon};
use nalgebra::{DMatrix, Matrix2, Matrix3, Vector3};

/// Smallest singular values, as shares of the largest, that still fix a homography: far above
/// rounding, far below what four clicked corners give.
const FIXED: f64 = 1e-9;
/// Rounds of weighting by depth; the weights stand still after two.
const ROUNDS: usize = 3;
/// Share of the depth in the middle below which a place is as good as behind the camera.
const NEAREST_DEPTH: f64 = 1e-3;

/// How places on one plane are seen on another: straight lines stay straight.
///
/// Hartley & Zisserman, chapter 4. The sign is such that [`Homography::depth`] is 1 in the middle of
/// the places it was made from.
#[derive(Debug, Clone, PartialEq)]
pub struct Homography {
    forward: Matrix3<f64>,
    back: Matrix3<f64>,
}

/// A place on the first plane that is known to lie on a line of the second: `across` · place = `offset`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sighting {
    /// Where it is seen.
    pub at: [f64; 2],
    /// Unit vector at right angles to the line.
    pub across: [f64; 2],
    /// Distance of the line from the origin along `across`.
    pub offset: f64,
}

impl Homography {
    /// Through pairs of places, the first of each pair on the first plane: exact for four, least squares
    /// for more (normalised direct linear transformation, Hartley & Zisserman, algorithm 4.2).
    ///
    /// # Errors
    /// [`TiltError::TooFew`] below four pairs, or where too many of them lie on one line.
    pub fn through(pairs: &[([f64; 2], [f64; 2])]) -> Result<Self, TiltError> {
        let sightings: Vec<Sighting> = pairs
            .iter()
            .flat_map(|&(at, [x, y])| {
                [([1.0, 0.0], x), ([0.0, 1.0], y)].map(|(across, offset)| Sighting {
                    at,
                    across,
                    offset,
                })
            })
            .collect();
        Self::from_sightings(&sightings)
    }

    /// From places known to lie on lines, by least squares of their distances from these lines.
    ///
    /// # Errors
    /// [`TiltError::TooFew`] where they leave the plane open.
    pub fn from_sightings(sightings: &[Sighting]) -> Result<Self, TiltError> {
        if sightings.len() < 8 {
            return Err(TiltError::TooFew);
        }
        // Both planes about their middle and in units of their extent keep the digits (algorithm 4.2).
        let first = normalising(sightings.iter().map(|s| s.at));
        let second = normalising(
            sightings
                .iter()
                .map(|s| s.across.map(|across| across * s.offset)),
        );
        let (shift, scale) = ([second[(0, 2)], second[(1, 2)]], second[(0, 0)]);
        let rows: Vec<([f64; 9], Vector3<f64>)> = sightings
            .iter()
            .map(|sighting| {
                let p = first * Vector3::new(sighting.at[0], sighting.at[1], 1.0);
                let [nx, ny] = sighting.across;
                let offset = scale * sighting.offset + nx * shift[0] + ny * shift[1];
                let row = std::array::from_fn(|k| [nx, ny, -offset][k / 3] * p[k % 3]);
                (row, p)
            })
            .collect();
        let mut depths = vec![1.0; rows.len()];
        let mut solved = Matrix3::identity();
        for _ in 0..ROUNDS {
            solved = null_vector(&rows, &depths)?;
            for (depth, (_, p)) in depths.iter_mut().zip(&rows) {
                *depth = (solved.row(2) * p)[0];
            }
            let same_side = depths.iter().all(|d| *d > 0.0) || depths.iter().all(|d| *d < 0.0);
            if !same_side {
                return Err(TiltError::TooFew);
            }
        }
        let back_to_second = second.try_inverse().ok_or(TiltError::TooFew)?;
        let whole = back_to_second * solved * first;
        let middle = sightings.iter().fold([0.0; 2], |sum, s| {
            [0, 1].map(|k| sum[k] + s.at[k] / sightings.len() as f64)
        });
        Self::of(whole, middle)
    }

    /// From a matrix, its sign and size so that the depth of `middle` is 1.
    pub(super) fn of(matrix: Matrix3<f64>, middle: [f64; 2]) -> Result<Self, TiltError> {
        let depth = (matrix.row(2) * Vector3::new(middle[0], middle[1], 1.0))[0];
        let forward = matrix / depth;
        let back = forward
            .try_inverse()
            .filter(|back| back.iter().all(|v| v.is_finite()))
            .ok_or(TiltError::TooFew)?;
        let seen = forward * Vector3::new(middle[0], middle[1], 1.0);
        let depth = (back.row(2) * seen)[0];
        Ok(Self {
            forward,
            back: back / depth,
        })
    }

    /// The other way.
    #[must_use]
    pub fn inverse(&self) -> Self {
        Self {
            forward: self.back,
            back: self.forward,
        }
    }

    /// The matrix, for places as (x, y, 1).
    #[must_use]
    pub fn matrix(&self) -> &Matrix3<f64> {
        &self.forward
    }

    /// Where a place of the first plane is seen on the second. Makes sense where [`Self::depth`] is
    /// positive.
    #[must_use]
    pub fn map(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let seen = self.forward * Vector3::new(x, y, 1.0);
        [seen.x / seen.z, seen.y / seen.z]
    }

    /// How near the horizon a place is: 1 in the middle, 0 at the horizon, negative beyond.
    #[must_use]
    pub fn depth(&self, [x, y]: [f64; 2]) -> f64 {
        (self.forward.row(2) * Vector3::new(x, y, 1.0))[0]
    }

    /// How places about a place move on the second plane as they move on the first (Jacobian).
    #[must_use]
    pub fn jacobian(&self, at: [f64; 2]) -> Matrix2<f64> {
        let h = &self.forward;
        let depth = self.depth(at);
        let [u, v] = self.map(at);
        Matrix2::new(
            h[(0, 0)] - u * h[(2, 0)],
            h[(0, 1)] - u * h[(2, 1)],
            h[(1, 0)] - v * h[(2, 0)],
            h[(1, 1)] - v * h[(2, 1)],
        ) / depth
    }

    /// A polygon as it is seen on the second plane, without what lies beyond the horizon.
    #[must_use]
    pub fn map_polygon(&self, polygon: &Polygon) -> Polygon {
        let visible = clipped(polygon.vertices(), |p| {
            self.depth([p.x, p.y]) - NEAREST_DEPTH
        });
        Polygon::new(visible.into_iter().map(|p| self.map_point(p)).collect())
    }

    /// [`Self::map`] for px on both sides.
    #[must_use]
    pub fn map_point(&self, p: Point) -> Point {
        let [x, y] = self.map([p.x, p.y]);
        Point::new(x, y)
    }

    /// How far a sighting lies off its line, in units of the second plane.
    #[must_use]
    pub fn residual(&self, sighting: &Sighting) -> f64 {
        let [x, y] = self.map(sighting.at);
        sighting.across[0] * x + sighting.across[1] * y - sighting.offset
    }
}

/// The part of a polygon where a linear function is not negative (Sutherland & Hodgman 1974,
/// Reentrant polygon clipping, Commun. ACM 17: 32–42).
pub(super) fn clipped(vertices: &[Point], inside: impl Fn(Point) -> f64) -> Vec<Point> {
    let next = vertices.iter().cycle().skip(1);
    let mut kept = Vec::with_capacity(vertices.len() + 2);
    for (&a, &b) in vertices.iter().zip(next) {
        let (at_a, at_b) = (inside(a), inside(b));
        if at_a >= 0.0 {
            kept.push(a);
        }
        if (at_a >= 0.0) != (at_b >= 0.0) {
            let share = at_a / (at_a - at_b);
            kept.push(Point::new(
                a.x + share * (b.x - a.x),
                a.y + share * (b.y - a.y),
            ));
        }
    }
    kept
}

/// Moves the middle of places to the origin and makes their mean square distance from it 2.
fn normalising(places: impl Iterator<Item = [f64; 2]> + Clone) -> Matrix3<f64> {
    let count = places.clone().count() as f64;
    let [x, y] = places.clone().fold([0.0; 2], |sum, p| {
        [sum[0] + p[0] / count, sum[1] + p[1] / count]
    });
    let square = places
        .map(|p| ((p[0] - x).powi(2) + (p[1] - y).powi(2)) / count)
        .sum::<f64>();
    let scale = if square > 0.0 {
        (2.0 / square).sqrt()
    } else {
        1.0
    };
    Matrix3::new(
        scale,
        0.0,
        -scale * x,
        0.0,
        scale,
        -scale * y,
        0.0,
        0.0,
        1.0,
    )
}

/// The homography of least squares, every row weighted by the inverse of its depth.
fn null_vector(
    rows: &[([f64; 9], Vector3<f64>)],
    depths: &[f64],
) -> Result<Matrix3<f64>, TiltError> {
    // A row of zeros keeps the matrix from being wider than high.
    let matrix = DMatrix::from_fn(rows.len().max(9), 9, |i, j| {
        rows.get(i).map_or(0.0, |(row, _)| row[j] / depths[i])
    });
    let svd = matrix.svd(false, true);
    let right = svd.v_t.ok_or(TiltError::TooFew)?;
    let mut order: Vec<usize> = (0..9).collect();
    order.sort_by(|a, b| svd.singular_values[*a].total_cmp(&svd.singular_values[*b]));
    if svd.singular_values[order[1]] <= FIXED * svd.singular_values[order[8]] {
        return Err(TiltError::TooFew);
    }
    let h = Matrix3::from_fn(|i, j| right[(order[0], 3 * i + j)]);
    let values = h.singular_values();
    if values.min() <= FIXED * values.max() {
        return Err(TiltError::TooFew);
    }
    Ok(h)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn is_near(homography: &Homography, expected: [f64; 9], tolerance: f64) {
        let h = homography.matrix() / homography.matrix()[(2, 2)];
        for (k, expected) in expected.into_iter().enumerate() {
            let value = h[(k / 3, k % 3)];
            let off = (value - expected).abs() / expected.abs().max(1.0);
            assert!(off < tolerance, "h{}{}: {value}", k / 3 + 1, k % 3 + 1);
        }
    }

    /// Computed with `OpenCV` 4 and with an own solution of the 8 × 8 system, which agree to 1e-14; the
    /// points are those of a widely taught exercise, `from memory`.
    #[test]
    fn four_pairs_give_the_homography_that_opencv_gives() {
        let pairs = [
            ([56.0, 65.0], [0.0, 0.0]),
            ([368.0, 52.0], [300.0, 0.0]),
            ([28.0, 387.0], [0.0, 300.0]),
            ([389.0, 390.0], [300.0, 300.0]),
        ];
        let homography = Homography::through(&pairs).expect("four corners");
        let expected = [
            1.055_873_761_296_42,
            0.091_815_109_677_949_5,
            -65.096_912_766_166_2,
            0.046_901_004_937_543_7,
            1.125_624_118_501_04,
            -75.792_023_979_070_3,
            1.832_514_481_695_2e-4,
            5.133_370_013_304_12e-4,
            1.0,
        ];
        is_near(&homography, expected, 1e-10);
    }

    /// By hand: the unit square onto the trapezium (0,0) (2,0) (1.5,1) (0.5,1).
    #[test]
    fn a_trapezium_by_hand() {
        let pairs = [
            ([0.0, 0.0], [0.0, 0.0]),
            ([1.0, 0.0], [2.0, 0.0]),
            ([1.0, 1.0], [1.5, 1.0]),
            ([0.0, 1.0], [0.5, 1.0]),
        ];
        let homography = Homography::through(&pairs).expect("four corners");
        is_near(
            &homography,
            [2.0, 1.0, 0.0, 0.0, 2.0, 0.0, 0.0, 1.0, 1.0],
            1e-12,
        );
        let [x, y] = homography.map([0.5, 0.5]);
        assert!((x - 1.0).abs() < 1e-12 && (y - 2.0 / 3.0).abs() < 1e-12);
        let [x, y] = homography.map([0.25, 0.75]);
        assert!((x - 0.714_285_7).abs() < 1e-7 && (y - 0.857_142_9).abs() < 1e-7);
        let back = homography.inverse().map([x, y]);
        assert!((back[0] - 0.25).abs() < 1e-12 && (back[1] - 0.75).abs() < 1e-12);
    }

    /// Errors of the places average out as least squares lets them.
    #[test]
    fn more_pairs_than_needed_are_fitted() {
        let exact = Homography::through(&[
            ([100.0, 120.0], [0.0, 0.0]),
            ([900.0, 80.0], [40.0, 0.0]),
            ([850.0, 700.0], [40.0, 30.0]),
            ([160.0, 650.0], [0.0, 30.0]),
        ])
        .expect("four corners");
        let to_photo = exact.inverse();
        let pairs: Vec<_> = (0..63)
            .map(|k| {
                let place = [f64::from(k % 9) * 5.0, f64::from(k / 9) * 5.0];
                let off = if k % 2 == 0 { 0.4 } else { -0.4 };
                let [x, y] = to_photo.map(place);
                ([x + off, y - off], place)
            })
            .collect();
        let fitted = Homography::through(&pairs).expect("many places");
        for place in [[2.0, 3.0], [20.0, 15.0], [38.0, 28.0]] {
            let [x, y] = fitted.map(to_photo.map(place));
            // 0.4 px are 0.02 mm there; over 63 places some 0.005 remain.
            assert!((x - place[0]).hypot(y - place[1]) < 0.01, "{place:?}");
        }
    }

    #[test]
    fn places_on_one_line_are_refused() {
        let square = [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]];
        let line = [[0.0, 0.0], [50.0, 50.0], [100.0, 100.0], [0.0, 100.0]];
        let pairs = |places: [[f64; 2]; 4]| places.into_iter().zip(square).collect::<Vec<_>>();
        assert_eq!(Homography::through(&pairs(line)), Err(TiltError::TooFew));
        assert_eq!(
            Homography::through(&pairs(square)[..3]),
            Err(TiltError::TooFew)
        );
    }

    #[test]
    fn lines_seen_at_many_places_fix_the_plane_as_corners_do() {
        let corners = [
            ([120.0, 90.0], [0.0, 0.0]),
            ([880.0, 150.0], [20.0, 0.0]),
            ([800.0, 640.0], [20.0, 15.0]),
            ([90.0, 600.0], [0.0, 15.0]),
        ];
        let expected = Homography::through(&corners).expect("four corners");
        let to_photo = expected.inverse();
        let sides = [
            ([0.0, 1.0], 0.0),
            ([0.0, 1.0], 15.0),
            ([1.0, 0.0], 0.0),
            ([1.0, 0.0], 20.0),
            ([1.0, 0.0], 10.0),
            ([0.0, 1.0], 5.0),
        ];
        let sightings: Vec<Sighting> = sides
            .into_iter()
            .flat_map(|(across, offset)| (0..7).map(move |k| (across, offset, 2.0 * f64::from(k))))
            .map(|(across, offset, along)| Sighting {
                at: to_photo.map([
                    across[0] * offset + across[1] * along,
                    across[1] * offset + across[0] * along,
                ]),
                across,
                offset,
            })
            .collect();
        let fitted = Homography::from_sightings(&sightings).expect("six lines");
        for (at, place) in corners {
            let [x, y] = fitted.map(at);
            assert!((x - place[0]).hypot(y - place[1]) < 1e-8);
        }
    }
}
