//! Texts of the files in `reference/`.

use std::fs;
use std::path::PathBuf;

/// Text of a file of `reference/`.
pub(super) fn reference_text(file: &str) -> String {
    let path: PathBuf = [env!("CARGO_MANIFEST_DIR"), "..", "reference", file]
        .iter()
        .collect();
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}
