//! Names for this machine's folders, so that none of them stands in what is compiled, and the same
//! sources give the same bytes wherever they lie.

use std::env;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use serde_json::{Value, json};

use crate::wasm_target::TARGET;

/// Separates flags in cargo's variable.
const SEPARATOR: char = '\x1f';

/// A folder and the name that stands for it; of two that fit, the later one counts.
type Name = (PathBuf, String);

/// Folders of this machine and their names.
///
/// Packages are fetched first where none has been yet, since the folders of their sources are named
/// one by one.
#[must_use]
pub fn names(workspace_root: &Path) -> Vec<Name> {
    let mut names: Vec<Name> = Vec::new();
    if let Some(home) = home() {
        names.push((home, "home".to_owned()));
    }
    if let Some(cargo) = cargo_home() {
        let sources = cargo.join("registry").join("src");
        let mut folders = folders_in(&sources);
        if folders.is_empty() && fetched(workspace_root) {
            folders = folders_in(&sources);
        }
        names.push((cargo, "cargo".to_owned()));
        names.extend(
            folders
                .into_iter()
                .map(|folder| (folder, "crates".to_owned())),
        );
    }
    names.push((workspace_root.to_owned(), "coolpath".to_owned()));
    names.extend(target_folder(workspace_root).map(|folder| (folder, "target".to_owned())));
    names
}

/// Each registry has a folder of its own.
fn folders_in(sources: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(sources).into_iter().flatten().flatten();
    let mut folders: Vec<PathBuf> = entries.map(|entry| entry.path()).collect();
    folders.sort();
    folders
}

/// Fetches the page's packages; where that fails the build says why.
fn fetched(workspace_root: &Path) -> bool {
    cargo(workspace_root)
        .args(["fetch", "--target", TARGET])
        .status()
        .is_ok_and(|status| status.success())
}

fn cargo(workspace_root: &Path) -> Command {
    let mut cargo = Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    cargo.current_dir(workspace_root).stdin(Stdio::null());
    cargo
}

/// Sets a cargo command up to compile for the browser under these names.
pub fn apply(command: &mut Command, names: &[Name]) {
    let flags: Vec<String> = names
        .iter()
        .map(|(folder, name)| format!("--remap-path-prefix={}={name}", folder.display()))
        .collect();
    // What the variables hold goes before any configuration, so that ours must join them there.
    if let Some(encoded) = env::var_os("CARGO_ENCODED_RUSTFLAGS") {
        let own = flags.join(&SEPARATOR.to_string());
        command.env("CARGO_ENCODED_RUSTFLAGS", joined(encoded, &own));
    } else if let Some(plain) = env::var_os("RUSTFLAGS") {
        let words: Vec<String> = plain
            .to_string_lossy()
            .split_whitespace()
            .map(str::to_owned)
            .chain(flags)
            .collect();
        command.env(
            "CARGO_ENCODED_RUSTFLAGS",
            words.join(&SEPARATOR.to_string()),
        );
    } else {
        command.arg("--config");
        command.arg(format!("target.{TARGET}.rustflags={}", json!(flags)));
    }
}

fn joined(before: OsString, own: &str) -> OsString {
    let mut all = before;
    if !all.is_empty() {
        all.push(SEPARATOR.to_string());
    }
    all.push(own);
    all
}

/// Folders of this machine whose names stand in some content all the same.
#[must_use]
pub fn left_in(content: &[u8], names: &[Name]) -> Vec<PathBuf> {
    let stands = |text: &[u8]| content.windows(text.len()).any(|part| part == text);
    names
        .iter()
        .filter(|(folder, _)| {
            let text = folder.to_string_lossy();
            // A folder such as `/` says nothing of anybody.
            text.len() > 2 && stands(text.as_bytes())
        })
        .map(|(folder, _)| folder.clone())
        .collect()
}

fn home() -> Option<PathBuf> {
    env::home_dir().filter(|home| home.components().count() > 1)
}

fn cargo_home() -> Option<PathBuf> {
    let own = env::var_os("CARGO_HOME").filter(|folder| !folder.is_empty());
    own.map(PathBuf::from)
        .or_else(|| home().map(|home| home.join(".cargo")))
}

fn target_folder(workspace_root: &Path) -> Option<PathBuf> {
    let output = cargo(workspace_root)
        .args(["metadata", "--format-version=1", "--no-deps", "--offline"])
        .stderr(Stdio::null())
        .output()
        .ok()?;
    let metadata: Value = serde_json::from_slice(&output.stdout).ok()?;
    metadata["target_directory"].as_str().map(PathBuf::from)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inner_folders_stand_after_those_around_them() {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
        let root = root.canonicalize().expect("the project");
        let names = names(&root);
        for (at, (folder, _)) in names.iter().enumerate() {
            let before = &names[..at];
            assert!(
                before
                    .iter()
                    .all(|(earlier, _)| !earlier.starts_with(folder) || earlier == folder),
                "{}",
                folder.display()
            );
        }
        assert!(names.iter().any(|(_, name)| name == "crates"));
        assert!(names.iter().any(|(folder, _)| *folder == root));
    }

    #[test]
    fn a_folder_that_is_left_is_found() {
        let names = vec![
            (PathBuf::from("/home/somebody"), "home".to_owned()),
            (PathBuf::from("/"), "root".to_owned()),
        ];
        let found = left_in(b"\0asm at /home/somebody/x.rs", &names);
        assert_eq!(found, [PathBuf::from("/home/somebody")]);
        assert!(left_in(b"\0asm at home/x.rs", &names).is_empty());
    }

    #[test]
    fn flags_that_were_there_stay() {
        let joined = |before: &str| joined(before.into(), "b");
        assert_eq!(joined("a"), OsString::from("a\x1fb"));
        assert_eq!(joined(""), OsString::from("b"));
    }
}
