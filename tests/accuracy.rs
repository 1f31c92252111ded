//! How do you know? Photos whose truth is known by construction, over the range the tool is meant
//! for, measured as a user would and held against bounds that were written down before the run.
//!
//! `cargo test --test accuracy -- --nocapture` prints the summary; with `PORELINE_REGENERATE=1` it
//! also writes the tables and the plot in `assets/accuracy/`.

#[path = "render/mod.rs"]
mod render;

mod accuracy {
    mod bounds;
    mod checks;
    mod coverage;
    mod grid;
    mod nuisances;
    mod plot;
    mod shot;
    mod table;
}
