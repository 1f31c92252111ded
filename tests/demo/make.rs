//! Makes the demo book: `cargo run --example demo-book FOLDER`.

use poreline::demo;
use poreline::progress::Progress;
use std::error::Error;
use std::path::PathBuf;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args_os()
        .nth(1)
        .ok_or("name the folder to make the book in")?;
    let book = demo::write(&PathBuf::from(folder), &Progress::default())?;
    println!(
        "{}: {} vouchers, {} walks",
        book.folder().display(),
        book.vouchers().len(),
        book.forays().len()
    );
    Ok(())
}
