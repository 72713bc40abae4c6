//! Texts of the files in `reference/`.

use std::fs;
use std::path::PathBuf;

/// Text of a file of `reference/`.
///
/// # Panics
/// If it cannot be read.
#[must_use]
pub fn reference_text(file: &str) -> String {
    let path: PathBuf = [env!("CARGO_MANIFEST_DIR"), "..", "reference", file]
        .iter()
        .collect();
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// Asserts that a page of `reference/` is what the program makes today.
///
/// # Panics
/// At the first line that differs.
pub fn assert_committed(file: &str, made: &str) {
    let committed = reference_text(file);
    for (line, (old, new)) in committed.lines().zip(made.lines()).enumerate() {
        assert_eq!(
            old,
            new,
            "line {}: make it anew as reference/README.md says",
            line + 1
        );
    }
    assert_eq!(committed.lines().count(), made.lines().count());
}
