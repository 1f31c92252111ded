//! Data flows one way: a module names only what stands above it in this list.

use std::fs;
use std::path::{Path, PathBuf};

/// Top to bottom.
const LAYERS: [&str; 33] = [
    "units",
    "geometry",
    "progress",
    "reading",
    "photo",
    "scale",
    "stated",
    "area",
    "corrections",
    "tilt",
    "segmentation",
    "bar",
    "ruler",
    "card",
    "set_up",
    "usable",
    "pores",
    "colour",
    "statistics",
    "surface",
    "findings",
    "basis",
    "settings",
    "ranges",
    "book",
    "export",
    "reporting",
    "batch",
    "demo",
    "wording",
    "session",
    "cli",
    "app",
];

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            files.extend(sources(&path));
        } else if path.extension().is_some_and(|e| e == "rs") {
            files.push(path);
        }
    }
    files
}

/// The module a source file belongs to: the first part of its path below `src`.
fn module(file: &Path, src: &Path) -> String {
    let below = file.strip_prefix(src).expect("below src");
    let first = below.components().next().expect("a name");
    first
        .as_os_str()
        .to_string_lossy()
        .trim_end_matches(".rs")
        .to_owned()
}

#[test]
fn no_module_names_a_later_one() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut wrong = Vec::new();
    for file in sources(&src) {
        let module = module(&file, &src);
        if module == "lib" || module == "main" {
            continue;
        }
        let own = LAYERS
            .iter()
            .position(|layer| *layer == module)
            .unwrap_or_else(|| panic!("{module} has no place in the order of modules"));
        let text = fs::read_to_string(&file).expect("source text");
        for (line, text) in text.lines().enumerate() {
            if text.trim_start().starts_with("//") {
                continue;
            }
            for later in &LAYERS[own + 1..] {
                if text.contains(&format!("crate::{later}::")) {
                    wrong.push(format!(
                        "{}:{}: `{module}` must not know `{later}`",
                        file.display(),
                        line + 1
                    ));
                }
            }
        }
    }
    // The command line and the window do not know each other.
    for file in sources(&src.join("app")) {
        let text = fs::read_to_string(&file).expect("source text");
        if text.contains("crate::cli") {
            wrong.push(format!("{}: `app` must not know `cli`", file.display()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
