//! Light beyond what the file can hold: pure black and pure white.

use super::each_in_area;
use crate::photo::Photo;
use crate::segmentation::Segmentation;

/// Channel that decides: green carries 72 % of the luminance (IEC 61966-2-1), so where it stands at
/// the end of its range the luminance is guessed, whatever red and blue say.
const GREEN: usize = 1;

/// Share of the hollows' pixels in which the file says 0, and of the walls' in which it says its
/// greatest number.
///
/// Looked up as a screen shows the photo, in 8 bits. Of a file with more bits, that takes in what
/// lies within 1/510 of an end, which no half depth can tell from the end itself.
pub(super) fn ends_of_range(photo: &Photo, segmentation: &Segmentation) -> (f64, f64) {
    let [mut hollows, mut black, mut walls, mut white] = [0_u32; 4];
    each_in_area(segmentation, |_, [x, y], hollow| {
        let green = photo.rgb.get_pixel(x, y).0[GREEN];
        if hollow {
            hollows += 1;
            black += u32::from(green == u8::MIN);
        } else {
            walls += 1;
            white += u32::from(green == u8::MAX);
        }
    });
    let share = |part: u32, all: u32| f64::from(part) / f64::from(all.max(1));
    (share(black, hollows), share(white, walls))
}
