//! Photos of undersides made by rule, with truth known by construction. It shares no code with
//! what it is used to test.

#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    clippy::many_single_char_names,
    clippy::must_use_candidate,
    reason = "places in a picture are whole numbers one moment, x and y and the like the next"
)]
#![allow(dead_code, reason = "each program that includes it uses another part")]

pub mod camera;
pub mod outline;
pub mod packing;
pub mod plane;
pub mod scene;
pub mod stripes;
pub mod surface;
