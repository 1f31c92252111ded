//! Where on the picture a note can be seen.

use super::parts::parts;
use super::{each_in_area, photo_pixel};
use crate::area::{Area, Reason};
use crate::findings::Traced;
use crate::geometry::{Point, Rect};
use crate::photo::Photo;
use crate::segmentation::{PX_PER_SPACING, Segmentation};

/// Side of the squares of which the one with most to see is shown, in spacings.
const SQUARE: f64 = 6.0;
/// A look at the surface itself is so many spacings wide.
const LOOK: f64 = 12.0;
/// Margin about what is shown, in spacings.
const MARGIN: f64 = 1.5;
/// Channel that decides on the ends of the range, as in `clipping`.
const GREEN: usize = 1;

/// The place, px of the picture that was measured, at which one sees best what the note of that code
/// tells of; `None` for notes that are of no place, such as those on the scale.
#[must_use]
pub fn place_of(code: &str, photo: &Photo, area: &Area, traced: &Traced) -> Option<Rect> {
    let segmentation = &traced.segmentation;
    let green = |[x, y]: [u32; 2]| photo.rgb.get_pixel(x, y).0[GREEN];
    let seen = match code {
        "left-out" => {
            let found = area.left_out.iter();
            found
                .filter(|part| !matches!(part.reason, Reason::ByHand | Reason::OffPhoto))
                .map(|part| part.outline.bounds())
                .max_by(|a, b| (a.width * a.height).total_cmp(&(b.width * b.height)))?
        }
        "foreign-parts" => traced
            .regions
            .iter()
            .filter(|region| region.oversized)
            .max_by(|a, b| a.moments.area.total_cmp(&b.moments.area))?
            .outline
            .bounds(),
        "hairs" => fullest(segmentation, |pixel, _, _| segmentation.hairs[pixel])?,
        "black-hollows" => fullest(segmentation, |_, at, hollow| hollow && green(at) == u8::MIN)?,
        "white-walls" => fullest(segmentation, |_, at, hollow| {
            !hollow && green(at) == u8::MAX
        })?,
        "uneven-light" => parts(segmentation)
            .iter()
            .min_by(|a, b| a.brightness().total_cmp(&b.brightness()))?
            .bounds(),
        "blurred" | "grainy" | "jpeg-blocks" | "few-pixels" | "second-opinion" | "undecided" => {
            look(area, photo, segmentation)?
        }
        _ => return None,
    };
    let margin = MARGIN * segmentation.spacing_px;
    Some(seen.shrunk(-margin).intersection(&photo.bounds()))
}

/// The square of the area with most pixels that are so; `None` where none is.
fn fullest(
    segmentation: &Segmentation,
    mut is_so: impl FnMut(usize, [u32; 2], bool) -> bool,
) -> Option<Rect> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "108 px"
    )]
    let side = (SQUARE * PX_PER_SPACING) as usize;
    let (width, height) = segmentation.frame.size();
    let across = width.div_ceil(side);
    let mut counts = vec![0_u32; across * height.div_ceil(side)];
    each_in_area(segmentation, |pixel, at, hollow| {
        let square = pixel / width / side * across + pixel % width / side;
        counts[square] += u32::from(is_so(pixel, at, hollow));
    });
    let (square, most) = counts.iter().enumerate().max_by_key(|(_, count)| **count)?;
    let (x, y) = (square % across * side, square / across * side);
    let (right, bottom) = ((x + side).min(width) - 1, (y + side).min(height) - 1);
    let corner = |x, y| {
        let [x, y] = photo_pixel(segmentation, x, y);
        Point::new(x.into(), y.into())
    };
    (*most > 0).then(|| Rect::from_corners(corner(x, y), corner(right, bottom)))
}

/// A close look at the surface, as near the middle of the area as it goes.
fn look(area: &Area, photo: &Photo, segmentation: &Segmentation) -> Option<Rect> {
    let bounds = area.bounds(photo.bounds()).ok()?;
    let middle = Point::new(
        bounds.x + bounds.width / 2.0,
        bounds.y + bounds.height / 2.0,
    );
    let mut nearest: Option<(f64, Point)> = None;
    each_in_area(segmentation, |_, [x, y], _| {
        let at = Point::new(x.into(), y.into());
        let distance = at.distance(middle);
        if nearest.is_none_or(|(least, _)| distance < least) {
            nearest = Some((distance, at));
        }
    });
    let (_, at) = nearest?;
    let half = LOOK / 2.0 * segmentation.spacing_px;
    Some(Rect::from_corners(
        Point::new(at.x - half, at.y - half),
        Point::new(at.x + half, at.y + half),
    ))
}
