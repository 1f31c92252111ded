//! Turns a stored picture the way up its EXIF block says.

use image::metadata::Orientation;
use image::{DynamicImage, ImageBuffer, Pixel};
use rayon::prelude::*;

/// Side of the square blocks copied at a time, pixels: where rows become columns, a block of
/// either picture stays in the nearest cache. Row by row, turning takes as long as decoding.
const BLOCK: usize = 32;

/// Where the upright picture's pixels stand in the stored one: the index of its first pixel, and
/// how far a step to the right and a step down lead.
struct Walk {
    start: isize,
    right: isize,
    down: isize,
}

/// The picture turned or mirrored; untouched where nothing is to do.
pub(super) fn upright(stored: DynamicImage, turn: Orientation) -> DynamicImage {
    use DynamicImage as D;
    match stored {
        D::ImageLuma8(picture) => D::ImageLuma8(turned::<_, 1>(picture, turn)),
        D::ImageLuma16(picture) => D::ImageLuma16(turned::<_, 1>(picture, turn)),
        D::ImageRgb8(picture) => D::ImageRgb8(turned::<_, 3>(picture, turn)),
        D::ImageRgb16(picture) => D::ImageRgb16(turned::<_, 3>(picture, turn)),
        mut rare => {
            rare.apply_orientation(turn);
            rare
        }
    }
}

fn turned<P, const CHANNELS: usize>(
    stored: ImageBuffer<P, Vec<P::Subpixel>>,
    turn: Orientation,
) -> ImageBuffer<P, Vec<P::Subpixel>>
where
    P: Pixel,
    P::Subpixel: Send + Sync,
{
    if turn == Orientation::NoTransforms || stored.is_empty() {
        return stored;
    }
    let (width, height) = turned_size(stored.dimensions(), turn);
    let walk = walk(stored.dimensions(), turn);
    let source = stored.as_chunks::<CHANNELS>().0;
    let mut picture = ImageBuffer::new(width, height);
    let width = width as usize;

    picture
        .as_chunks_mut::<CHANNELS>()
        .0
        .par_chunks_mut(width * BLOCK)
        .enumerate()
        .for_each(|(band, rows)| {
            for left in (0..width).step_by(BLOCK) {
                let right = (left + BLOCK).min(width);
                for (row, pixels) in rows.chunks_exact_mut(width).enumerate() {
                    let y = band * BLOCK + row;
                    let mut from = walk.index(left, y);
                    for pixel in &mut pixels[left..right] {
                        *pixel = source[from.cast_unsigned()];
                        from += walk.right;
                    }
                }
            }
        });
    picture
}

impl Walk {
    fn index(&self, x: usize, y: usize) -> isize {
        self.start + x.cast_signed() * self.right + y.cast_signed() * self.down
    }
}

fn turned_size((width, height): (u32, u32), turn: Orientation) -> (u32, u32) {
    match turn {
        Orientation::NoTransforms
        | Orientation::FlipHorizontal
        | Orientation::Rotate180
        | Orientation::FlipVertical => (width, height),
        Orientation::Rotate90FlipH
        | Orientation::Rotate90
        | Orientation::Rotate270FlipH
        | Orientation::Rotate270 => (height, width),
    }
}

/// The eight cases of the tag `Orientation` (TIFF 6.0, tag 274; same in Exif), in its order.
fn walk((width, height): (u32, u32), turn: Orientation) -> Walk {
    let row = (width as usize).cast_signed();
    let last_in_row = row - 1;
    let last_row = ((height as usize).cast_signed() - 1) * row;
    let last = last_row + last_in_row;
    let (start, right, down) = match turn {
        Orientation::NoTransforms => (0, 1, row),
        Orientation::FlipHorizontal => (last_in_row, -1, row),
        Orientation::Rotate180 => (last, -1, -row),
        Orientation::FlipVertical => (last_row, 1, -row),
        Orientation::Rotate90FlipH => (0, row, 1),
        Orientation::Rotate90 => (last_row, -row, 1),
        Orientation::Rotate270FlipH => (last, -row, -1),
        Orientation::Rotate270 => (last_in_row, row, -1),
    };
    Walk { start, right, down }
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::{DynamicImage, GrayImage, RgbImage};

    /// The picture 1 2 3 / 4 5 6 as each value of the tag shows it: (value, width, pixels). Worked
    /// out from the tag's definition in TIFF 6.0, and the same as Pillow makes of it.
    const SHOWN: [(u8, u32, [u8; 6]); 8] = [
        (1, 3, [1, 2, 3, 4, 5, 6]),
        (2, 3, [3, 2, 1, 6, 5, 4]),
        (3, 3, [6, 5, 4, 3, 2, 1]),
        (4, 3, [4, 5, 6, 1, 2, 3]),
        (5, 2, [1, 4, 2, 5, 3, 6]),
        (6, 2, [4, 1, 5, 2, 6, 3]),
        (7, 2, [6, 3, 5, 2, 4, 1]),
        (8, 2, [3, 6, 2, 5, 1, 4]),
    ];

    #[test]
    fn all_eight_orientations_are_turned_upright() {
        for (value, width, pixels) in SHOWN {
            let stored = GrayImage::from_raw(3, 2, vec![1, 2, 3, 4, 5, 6]).unwrap();
            let turn = Orientation::from_exif(value).unwrap();
            let shown = upright(stored.into(), turn).into_luma8();
            assert_eq!(shown.width(), width, "orientation {value}");
            assert_eq!(shown.into_raw(), pixels, "orientation {value}");
        }
    }

    #[test]
    fn large_pictures_of_every_depth_agree_with_the_image_crate() {
        for (width, height) in [(67, 131), (64, 32), (1, 40), (200, 1)] {
            let rgb = RgbImage::from_fn(width, height, |x, y| {
                image::Rgb([x, y, x * 7 + y * 13].map(|v| v.to_le_bytes()[0]))
            });
            let rgb = DynamicImage::from(rgb);
            let depths = [
                rgb.to_luma8().into(),
                rgb.to_luma16().into(),
                rgb.to_rgb16().into(),
                rgb.to_rgb32f().into(),
                rgb,
            ];
            for stored in depths {
                for value in 1..=8 {
                    let turn = Orientation::from_exif(value).unwrap();
                    let mut expected = stored.clone();
                    expected.apply_orientation(turn);
                    assert_eq!(upright(stored.clone(), turn), expected);
                }
            }
        }
    }
}
