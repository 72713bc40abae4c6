//! Packages that stand in the program, and the licences they bring.

use crate::release::{ReleaseError, read};
use serde::Deserialize;
use std::fs;
use std::path::{Path, PathBuf};

/// A package of others.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Package {
    /// Its name.
    pub name: String,
    /// Its version.
    pub version: String,
    /// Its licence as its manifest states it.
    pub licence: String,
    /// Its authors as its manifest states them.
    pub authors: Vec<String>,
    /// Texts that it brings, by the name of their file.
    pub texts: Vec<(String, String)>,
}

#[derive(Deserialize)]
struct Manifest {
    package: Stated,
}

/// What a published manifest states; a workspace's member may leave it to the workspace.
#[derive(Deserialize)]
struct Stated {
    name: String,
    version: String,
    license: Option<String>,
    #[serde(rename = "license-file")]
    license_file: Option<PathBuf>,
    #[serde(default)]
    authors: Vec<String>,
}

/// The packages of others behind some manifests, by name.
pub(crate) fn packages(
    workspace_root: &Path,
    manifests: &[PathBuf],
) -> Result<Vec<Package>, ReleaseError> {
    let others = manifests
        .iter()
        .filter(|manifest| !manifest.starts_with(workspace_root));
    let mut packages = Vec::new();
    for manifest in others {
        packages.push(package(manifest)?);
    }
    packages.sort_by(|a, b| (&a.name, &a.version).cmp(&(&b.name, &b.version)));
    Ok(packages)
}

fn package(manifest: &Path) -> Result<Package, ReleaseError> {
    let refused = || ReleaseError::Manifest(manifest.to_owned());
    let text = String::from_utf8(read(manifest)?).map_err(|_| refused())?;
    let stated = toml::from_str::<Manifest>(&text)
        .map_err(|_| refused())?
        .package;
    let folder = manifest.parent().ok_or_else(refused)?;
    let mut texts = texts_in(folder)?;
    if let (true, Some(file)) = (texts.is_empty(), &stated.license_file) {
        texts.push(text_of(&folder.join(file))?);
    }
    let licence = match (stated.license, texts.is_empty()) {
        (Some(licence), _) => licence,
        (None, false) => "see its text".to_owned(),
        (None, true) => return Err(refused()),
    };
    Ok(Package {
        name: stated.name,
        version: stated.version,
        licence,
        authors: stated.authors,
        texts,
    })
}

/// How names of files begin that hold licences.
const NAMES: [&str; 5] = ["license", "licence", "copying", "unlicense", "notice"];

fn texts_in(folder: &Path) -> Result<Vec<(String, String)>, ReleaseError> {
    let failed = |source| ReleaseError::Read {
        path: folder.to_owned(),
        source,
    };
    let mut paths = Vec::new();
    for entry in fs::read_dir(folder).map_err(failed)? {
        let path = entry.map_err(failed)?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let name = name.to_lowercase();
        if path.is_file() && NAMES.iter().any(|start| name.starts_with(start)) {
            paths.push(path);
        }
    }
    paths.sort();
    paths.iter().map(|path| text_of(path)).collect()
}

fn text_of(path: &Path) -> Result<(String, String), ReleaseError> {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let bytes = read(path)?;
    let text = String::from_utf8_lossy(&bytes).replace("\r\n", "\n");
    Ok((name.into_owned(), text.trim_end().to_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_package_is_read_with_its_texts_and_our_own_are_left_out() {
        let folder = std::env::temp_dir().join(format!("coolpath-licence-{}", std::process::id()));
        let inner = folder.join("one-1.0.0");
        fs::create_dir_all(&inner).expect("a folder");
        let manifest = inner.join("Cargo.toml");
        let text = "[package]\nname = \"one\"\nversion = \"1.0.0\"\nlicense = \"MIT\"\n";
        fs::write(&manifest, text).expect("a file");
        fs::write(inner.join("LICENSE-MIT"), "Be free.\r\n").expect("a file");
        fs::write(inner.join("lib.rs"), "").expect("a file");
        let found = packages(Path::new("/elsewhere"), std::slice::from_ref(&manifest));
        let found = found.expect("packages");
        assert_eq!((found.len(), found[0].licence.as_str()), (1, "MIT"));
        let expected = ("LICENSE-MIT".to_owned(), "Be free.".to_owned());
        assert_eq!(found[0].texts, [expected]);
        let own = packages(&folder, std::slice::from_ref(&manifest)).expect("none");
        assert!(own.is_empty());
        fs::write(&manifest, "[package]\nname = \"one\"\n").expect("a file");
        let error = packages(Path::new("/elsewhere"), &[manifest]).expect_err("no version");
        assert!(matches!(error, ReleaseError::Manifest(_)));
        fs::remove_dir_all(&folder).expect("removed");
    }
}
