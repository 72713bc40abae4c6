//! The licences of all that stands in the program, each text once.

use crate::release::licences::Package;
use crate::release::{LIBRARY_NAME, ReleaseError};
use std::collections::BTreeMap;
use std::env;
use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

const RULE: &str =
    "--------------------------------------------------------------------------------";

/// The text of the notices, the standard library's licence among them.
///
/// # Arguments
/// * `toolchain` - folder of the texts that come with the compiler
pub(crate) fn text(packages: &[Package], toolchain: &Path) -> Result<String, ReleaseError> {
    let library = Package {
        name: "Rust standard library".to_owned(),
        version: env!("CARGO_PKG_RUST_VERSION").to_owned(),
        licence: "MIT OR Apache-2.0".to_owned(),
        authors: vec!["The Rust Project Developers".to_owned()],
        texts: Vec::new(),
    };
    let all: Vec<Package> = packages.iter().cloned().chain([library]).collect();
    written(&all, &|licence| {
        standard_text(&toolchain.join("licenses"), licence)
    })
}

/// Folder of the texts that come with the compiler of a project.
pub(crate) fn toolchain_folder(workspace_root: &Path) -> PathBuf {
    let rustc = env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    let output = Command::new(rustc)
        .args(["--print", "sysroot"])
        .current_dir(workspace_root)
        .output();
    let root = output.map(|output| String::from_utf8_lossy(&output.stdout).trim().to_owned());
    PathBuf::from(root.unwrap_or_default()).join("share/doc/rust")
}

fn written(
    packages: &[Package],
    standard: &dyn Fn(&str) -> Option<String>,
) -> Result<String, ReleaseError> {
    let mut texts: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let mut list = String::new();
    for package in packages {
        let name = format!("{} {}", package.name, package.version);
        let _ = writeln!(list, "{name}: {}", package.licence);
        for text in texts_of(package, standard)? {
            let users = texts.entry(text).or_default();
            if !users.contains(&name) {
                users.push(name.clone());
            }
        }
    }
    let mut each: Vec<_> = texts.into_iter().collect();
    each.sort_by(|a, b| a.1.cmp(&b.1));
    let mut notices = format!(
        "Coolpath holds packages of others, and the Rust standard library. Here are their licences; \
         those of the packages\nthat stand in the standard library are in {LIBRARY_NAME}.\n\n{list}\n"
    );
    for (text, users) in each {
        let _ = write!(
            notices,
            "{RULE}\n{}\n{RULE}\n\n{text}\n\n",
            users.join(", ")
        );
    }
    Ok(notices)
}

/// What a package brings; else the standard texts of one of its licences, with its authors.
fn texts_of(
    package: &Package,
    standard: &dyn Fn(&str) -> Option<String>,
) -> Result<Vec<String>, ReleaseError> {
    if !package.texts.is_empty() {
        return Ok(package.texts.iter().map(|(_, text)| text.clone()).collect());
    }
    // One of the licences is enough where the package leaves the choice.
    let choices = package.licence.split(" OR ").flat_map(|one| one.split('/'));
    let found = choices
        .map(|choice| choice.trim().trim_matches(['(', ')']))
        .find_map(|choice| Some((choice, standard(choice)?)));
    let (choice, text) = found.ok_or_else(|| ReleaseError::NoText {
        package: format!("{} {}", package.name, package.version),
        licence: package.licence.clone(),
    })?;
    let holders = if package.authors.is_empty() {
        format!("the authors of {}", package.name)
    } else {
        package.authors.join(", ")
    };
    Ok(vec![format!(
        "The package brings no text of its licence; this is the standard text of {choice}. Its \
         manifest names as authors: {holders}.\n\n{}",
        text.trim_end()
    )])
}

/// Standard text of a licence, from those that come with the compiler.
fn standard_text(folder: &Path, licence: &str) -> Option<String> {
    let plain = |sign: char| sign.is_ascii_alphanumeric() || "-.".contains(sign);
    if !licence.chars().all(plain) {
        return None;
    }
    fs::read_to_string(folder.join(format!("{licence}.txt"))).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn package(name: &str, licence: &str, texts: &[&str]) -> Package {
        Package {
            name: name.to_owned(),
            version: "1.0.0".to_owned(),
            licence: licence.to_owned(),
            authors: vec!["Somebody".to_owned()],
            texts: texts
                .iter()
                .map(|text| ("LICENSE".to_owned(), (*text).to_owned()))
                .collect(),
        }
    }

    #[test]
    fn a_text_that_several_bring_stands_once_with_all_their_names() {
        let packages = [
            package("one", "MIT", &["Be free."]),
            package("two", "MIT", &["Be free."]),
            package("three", "Zlib", &["Be nice."]),
        ];
        let text = written(&packages, &|_| None).expect("notices");
        assert_eq!(text.matches("Be free.").count(), 1);
        assert!(text.contains("one 1.0.0, two 1.0.0\n"));
        assert!(text.contains("three 1.0.0: Zlib\n") && text.contains("Be nice."));
    }

    #[test]
    fn a_package_without_a_text_gets_the_standard_one_or_no_release_is_made() {
        let bare = [package("bare", "0BSD OR MIT", &[])];
        let standard = |licence: &str| (licence == "MIT").then(|| "Standard.".to_owned());
        let text = written(&bare, &standard).expect("notices");
        assert!(text.contains("standard text of MIT") && text.contains("Somebody"));
        let error = written(&bare, &|_| None).expect_err("refused");
        assert!(error.to_string().contains("bare 1.0.0"), "{error}");
    }

    #[test]
    fn a_licence_is_never_a_path() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
        assert_eq!(standard_text(folder, "../Cargo"), None);
        assert_eq!(standard_text(folder, "MIT AND Apache-2.0"), None);
    }
}
