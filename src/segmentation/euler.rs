//! Euler number of a mask: components less holes.

use super::label::Connectivity;
use rayon::prelude::*;

/// Euler number of the pixels for which `inside(x, y)` holds: components less holes, where the
/// outside of the image counts as background.
///
/// Components hang together as `connectivity` says, and the background that makes the holes
/// hangs together the other way round: a four-connected mask has eight-connected holes. Hence the
/// number of a mask in one connectivity is 1 less the number of its background, taken with a rim
/// one pixel wide about the image, in the other.
///
/// Counted from the 2 × 2 windows of the image (bit quads): with Q₁ windows that hold one pixel
/// of the mask, Q₃ that hold three and `Q_D` that hold two on a diagonal, it is
/// (Q₁ − Q₃ ± 2 `Q_D`)/4, plus for four-connected masks and minus for eight-connected ones.
/// Source: Gray 1971, Local properties of binary images in two dimensions, IEEE Trans. Comput.
/// C-20: 551–561.
#[must_use]
pub fn euler_number(
    width: u32,
    height: u32,
    inside: impl Fn(u32, u32) -> bool + Sync,
    connectivity: Connectivity,
) -> i64 {
    let diagonal = match connectivity {
        Connectivity::Four => 2,
        Connectivity::Eight => -2,
    };
    // The window's right and lower column and row are at x and y, its left and upper ones lie one
    // pixel back; both may hang over the edge, where there is background.
    let quarters_along = |y: u32| {
        let column = |x: u32| {
            (
                y > 0 && x < width && inside(x, y - 1),
                y < height && x < width && inside(x, y),
            )
        };
        let mut quarters = 0;
        let mut left = (false, false);
        for x in 0..=width {
            let right = column(x);
            quarters += match (left, right) {
                ((true, false), (false, true)) | ((false, true), (true, false)) => diagonal,
                _ => match [left.0, left.1, right.0, right.1]
                    .iter()
                    .filter(|held| **held)
                    .count()
                {
                    1 => 1,
                    3 => -1,
                    _ => 0,
                },
            };
            left = right;
        }
        quarters
    };
    let quarters: i64 = (0..=height).into_par_iter().map(quarters_along).sum();
    quarters / 4
}

#[cfg(test)]
mod tests {
    use super::*;

    fn numbers(rows: &[&[u8]]) -> (i64, i64) {
        let inside = |x: u32, y: u32| rows[y as usize][x as usize] == b'#';
        let width = u32::try_from(rows[0].len()).unwrap();
        let height = u32::try_from(rows.len()).unwrap();
        (
            euler_number(width, height, inside, Connectivity::Four),
            euler_number(width, height, inside, Connectivity::Eight),
        )
    }

    #[test]
    fn components_count_up_and_holes_count_down() {
        assert_eq!(numbers(&[b"#"]), (1, 1), "one pixel");
        assert_eq!(numbers(&[b"#.#"]), (2, 2), "two apart");
        assert_eq!(numbers(&[b"###", b"#.#", b"###"]), (0, 0), "a ring");
    }

    #[test]
    fn corners_join_components_or_holes_but_not_both() {
        assert_eq!(numbers(&[b"#.", b".#"]), (2, 1), "two on a diagonal");
        assert_eq!(
            numbers(&[b".#.", b"#.#", b".#."]),
            (4, 0),
            "a diamond: four pixels without a hole, or one ring"
        );
    }

    #[test]
    fn nothing_has_the_number_zero() {
        assert_eq!(euler_number(0, 0, |_, _| true, Connectivity::Four), 0);
        assert_eq!(euler_number(4, 0, |_, _| true, Connectivity::Eight), 0);
        assert_eq!(numbers(&[b"..."]), (0, 0));
    }
}
