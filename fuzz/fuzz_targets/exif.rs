#![no_main]

use libfuzzer_sys::fuzz_target;

#[path = "../inputs.rs"]
mod inputs;

fuzz_target!(|bytes: &[u8]| inputs::exif(bytes));
