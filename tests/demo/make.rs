//! Makes the demo book: `cargo run --example demo-book FOLDER`.

mod book;

use std::error::Error;
use std::path::{Path, PathBuf};

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args_os()
        .nth(1)
        .ok_or("name the folder to make the book in")?;
    let samples = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-images");
    let book = book::write(&PathBuf::from(folder), &samples)?;
    println!(
        "{}: {} vouchers, {} walks",
        book.folder().display(),
        book.vouchers().len(),
        book.forays().len()
    );
    Ok(())
}
