//! Picks the window or the command line.

use poreline::cli::{self, Next};
use std::path::PathBuf;
use std::process::ExitCode;

fn main() -> ExitCode {
    match cli::run(std::env::args_os()) {
        Next::Exit(outcome) => outcome.into(),
        Next::Window(photos) => open_window(photos),
    }
}

#[cfg(feature = "window")]
fn open_window(photos: Vec<PathBuf>) -> ExitCode {
    match poreline::app::run(photos) {
        Ok(()) => cli::Outcome::Done.into(),
        Err(error) => {
            cli::say(&error.to_string());
            cli::Outcome::NothingDone.into()
        }
    }
}

#[cfg(not(feature = "window"))]
fn open_window(_photos: Vec<PathBuf>) -> ExitCode {
    cli::say(
        "this copy was built without its window. `poreline measure --help` tells how to measure \
         without one; to have the window, build with `cargo build --release`",
    );
    cli::Outcome::BadUsage.into()
}
