//! The renderer of the sample photos tells the truth about what it renders.

#[path = "render/mod.rs"]
mod render;
