//! Light at places between pixel centres.

use super::Light;

/// Light between pixel centres, by their nearness (bilinear); the photo's edge goes on beyond it.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held within the photo"
)]
pub(crate) fn light_between(light: &Light, x: f64, y: f64) -> f64 {
    let (width, height) = light.dimensions();
    let hold = |p: f64, side: u32| (p - 0.5).clamp(0.0, f64::from(side) - 1.0);
    let (x, y) = (hold(x, width), hold(y, height));
    let (column, row) = (x.floor(), y.floor());
    let (right, down) = (x - column, y - row);
    let at = |dx: u32, dy: u32| {
        let x = (column as u32 + dx).min(width - 1);
        let y = (row as u32 + dy).min(height - 1);
        f64::from(light.get_pixel(x, y).0[0])
    };
    (at(0, 0) * (1.0 - right) + at(1, 0) * right) * (1.0 - down)
        + (at(0, 1) * (1.0 - right) + at(1, 1) * right) * down
}
