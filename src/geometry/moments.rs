//! Area, centroid and second moments of a region, and the ellipse that has the same.

use super::Point;

/// Moments of a plane region up to order two, about its own centroid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moments {
    /// Area, px².
    pub area: f64,
    /// Centre of mass.
    pub centroid: Point,
    /// ∫(x − x̄)² dA / area, px².
    pub xx: f64,
    /// ∫(y − ȳ)² dA / area, px².
    pub yy: f64,
    /// ∫(x − x̄)(y − ȳ) dA / area, px².
    pub xy: f64,
}

/// The ellipse with the same area-normalised second moments as a region.
///
/// ISO 9276-6 calls it the Legendre ellipse; its *ellipse ratio* is the inverse of [`Ellipse::elongation`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ellipse {
    /// Longer full axis, px.
    pub major: f64,
    /// Shorter full axis, px.
    pub minor: f64,
    /// Direction of the longer axis against the x axis, radians in (−π/2, π/2], clockwise as seen (y down).
    pub angle: f64,
}

impl Ellipse {
    /// Longer over shorter axis, ≥ 1.
    #[must_use]
    pub fn elongation(&self) -> f64 {
        self.major / self.minor
    }
}

impl Moments {
    /// Moments of a set of whole pixels, given by column and row; `None` without pixels.
    ///
    /// Each pixel is a unit square, as everywhere in this crate, and brings its own second moment
    /// of 1/12 px² along both axes. So a rectangle of pixels has the moments of that rectangle,
    /// and a row one pixel wide still has a width. Values taken over pixel centres alone, as
    /// scikit-image takes them, are 1/12 px² smaller in `xx` and `yy`, equal in all else.
    #[must_use]
    pub fn of_pixels(pixels: impl IntoIterator<Item = (u32, u32)>) -> Option<Self> {
        const OF_UNIT_SQUARE: f64 = 1.0 / 12.0;
        let mut pixels = pixels
            .into_iter()
            .map(|(x, y)| (f64::from(x), f64::from(y)));
        let origin = pixels.next()?;
        // About the first pixel: small sets far from the origin keep their digits.
        let (mut n, mut sx, mut sy) = (1.0, 0.0, 0.0);
        let (mut sxx, mut syy, mut sxy) = (0.0, 0.0, 0.0);
        for (x, y) in pixels {
            let (x, y) = (x - origin.0, y - origin.1);
            n += 1.0;
            sx += x;
            sy += y;
            sxx += x * x;
            syy += y * y;
            sxy += x * y;
        }
        let (mean_x, mean_y) = (sx / n, sy / n);
        Some(Self {
            area: n,
            centroid: Point::new(origin.0 + mean_x + 0.5, origin.1 + mean_y + 0.5),
            xx: sxx / n - mean_x * mean_x + OF_UNIT_SQUARE,
            yy: syy / n - mean_y * mean_y + OF_UNIT_SQUARE,
            xy: sxy / n - mean_x * mean_y,
        })
    }

    /// The ellipse of the same second moments, or `None` when the region has no width.
    #[must_use]
    pub fn ellipse(&self) -> Option<Ellipse> {
        let mean = f64::midpoint(self.xx, self.yy);
        let spread = (0.5 * (self.xx - self.yy)).hypot(self.xy);
        let (large, small) = (mean + spread, mean - spread);
        // A filled ellipse of full axis d has the second moment d²/16 along it.
        (small > 0.0).then(|| Ellipse {
            major: 4.0 * large.sqrt(),
            minor: 4.0 * small.sqrt(),
            angle: 0.5 * (2.0 * self.xy).atan2(self.xx - self.yy),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::Rect;
    use super::*;

    #[test]
    fn a_rectangle_of_pixels_has_the_moments_of_the_rectangle() {
        let pixels = (10..17).flat_map(|x| (20..23).map(move |y| (x, y)));
        let of_pixels = Moments::of_pixels(pixels).unwrap();
        let rect = Rect {
            x: 10.0,
            y: 20.0,
            width: 7.0,
            height: 3.0,
        };
        let of_polygon = rect.to_polygon().moments().unwrap();
        for (what, pixels, polygon) in [
            ("area", of_pixels.area, of_polygon.area),
            ("x", of_pixels.centroid.x, of_polygon.centroid.x),
            ("y", of_pixels.centroid.y, of_polygon.centroid.y),
            ("xx", of_pixels.xx, of_polygon.xx),
            ("yy", of_pixels.yy, of_polygon.yy),
            ("xy", of_pixels.xy, of_polygon.xy),
        ] {
            assert!(
                (pixels - polygon).abs() < 1e-12,
                "{what}: {pixels} {polygon}"
            );
        }
    }

    #[test]
    fn no_pixel_has_no_moments_and_one_has_those_of_a_unit_square() {
        assert_eq!(Moments::of_pixels([]), None);
        assert_eq!(
            Moments::of_pixels([(3, 4)]),
            Some(Moments {
                area: 1.0,
                centroid: Point::new(3.5, 4.5),
                xx: 1.0 / 12.0,
                yy: 1.0 / 12.0,
                xy: 0.0,
            })
        );
    }
}
