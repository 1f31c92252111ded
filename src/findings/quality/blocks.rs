//! Borders of JPEG blocks that show.

use super::each_in_area;
use crate::photo::{JPEG_BLOCK_PX, Photo};
use crate::segmentation::Segmentation;

const BLOCK: usize = JPEG_BLOCK_PX as usize;
/// About so many rows, and as many columns, are looked along.
const LINES: usize = 256;

/// Mean step in light across the borders of blocks, beyond that at any other place in a block, as a
/// share of the contrast between hollows and walls; 0 where borders do not stand out, `None` where
/// the file is no JPEG or shows no contrast.
///
/// Borders must stand out both ways: a pattern that happens to repeat with the blocks would hardly
/// do so along rows and along columns alike.
pub(super) fn step(photo: &Photo, segmentation: &Segmentation) -> Option<f64> {
    let (left, top) = photo.jpeg_blocks_from?;
    let [mut hollow, mut wall] = [(0.0, 0.0); 2];
    let light = segmentation.frame.light.as_raw();
    // The photo's part that holds the area, pixels, ends included.
    let (mut from, mut to) = ([u32::MAX; 2], [0; 2]);
    each_in_area(segmentation, |pixel, place, is_hollow| {
        let (sum, count) = if is_hollow { &mut hollow } else { &mut wall };
        *sum += f64::from(light[pixel]);
        *count += 1.0;
        for axis in 0..2 {
            from[axis] = from[axis].min(place[axis]);
            to[axis] = to[axis].max(place[axis]);
        }
    });
    if hollow.1 == 0.0 || wall.1 == 0.0 {
        return None;
    }
    let contrast = wall.0 / wall.1 - hollow.0 / hollow.1;
    let (photo_width, raw) = (photo.light.width() as usize, photo.light.as_raw());
    let span = |axis: usize| from[axis] as usize..to[axis] as usize + 1;
    let across = outstanding(span(1), span(0), left as usize, |y, x| {
        raw[y * photo_width + x]
    });
    let down = outstanding(span(0), span(1), top as usize, |x, y| {
        raw[y * photo_width + x]
    });
    (contrast > 0.0).then(|| across.min(down).max(0.0) / contrast)
}

/// Mean step along lines at a block's border, less the greatest of the means at other places in it.
fn outstanding(
    lines: std::ops::Range<usize>,
    along: std::ops::Range<usize>,
    block_from: usize,
    light: impl Fn(usize, usize) -> f32,
) -> f64 {
    let mut steps = [(0.0_f64, 0.0_f64); BLOCK];
    let stride = (lines.len() / LINES).max(1);
    for line in lines.step_by(stride) {
        for at in along.clone().skip(1) {
            let (sum, count) = &mut steps[(at + BLOCK - block_from) % BLOCK];
            *sum += f64::from((light(line, at) - light(line, at - 1)).abs());
            *count += 1.0;
        }
    }
    let means = steps.map(|(sum, count)| sum / count.max(1.0));
    means[0] - means[1..].iter().copied().fold(0.0, f64::max)
}
