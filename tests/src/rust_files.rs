//! The Rust files of a folder.

use std::path::{Path, PathBuf};

/// The Rust files of a folder and of those inside, in the order of their names.
///
/// # Panics
/// If a folder cannot be read.
#[must_use]
pub fn rust_files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    collect(folder, &mut found);
    found
}

fn collect(folder: &Path, found: &mut Vec<PathBuf>) {
    let mut entries: Vec<_> = std::fs::read_dir(folder)
        .expect("the folder can be read")
        .map(|entry| entry.expect("an entry").path())
        .collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            collect(&path, found);
        } else if path.extension().is_some_and(|end| end == "rs") {
            found.push(path);
        }
    }
}
