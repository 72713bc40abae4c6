//! What is handed out: the single file, the folder as an archive, the licences of all that stands
//! in them, a list of parts, and checksums.

mod archive;
mod licences;
mod notices;
mod parts;

use crate::page_build::{self, BuildError, File, Page};
use crate::remap;
use crate::workspace::Workspace;
use sha2::{Digest, Sha256};
use std::fmt::Write;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

pub use crate::release::licences::Package;

/// Name of the archive.
const ARCHIVE_NAME: &str = "coolpath.zip";
/// Folder inside it.
const ARCHIVE_FOLDER: &str = "coolpath";
/// Name of the licences' texts.
const NOTICES_NAME: &str = "NOTICES";
/// Name of the licences of the packages inside the standard library, as the compiler brings it.
const LIBRARY_NAME: &str = "NOTICES-rust-library.html";
/// Name of the list of parts.
const PARTS_NAME: &str = "coolpath.cdx.json";
/// Name of the checksums.
const SUMS_NAME: &str = "SHA256SUMS";
/// Name of the project's own licence.
const LICENSE_NAME: &str = "LICENSE";

/// Why there is no release.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ReleaseError {
    /// The page was not built.
    #[error(transparent)]
    Build(#[from] BuildError),
    /// A folder of this machine is named in the program.
    #[error("the program names folders of this machine: {0:?}")]
    Paths(Vec<PathBuf>),
    /// A file of a package cannot be read.
    #[error("{path} cannot be read: {source}")]
    Read {
        /// The file.
        path: PathBuf,
        /// What the system says.
        source: io::Error,
    },
    /// A package's manifest is not understood.
    #[error("{0} states no name, version and licence")]
    Manifest(PathBuf),
    /// No text of a licence is to be had.
    #[error("{package} brings no text of its licence, {licence}, and this toolchain holds none")]
    NoText {
        /// The package.
        package: String,
        /// The licence that its manifest names.
        licence: String,
    },
    /// The archive cannot be put together.
    #[error("the archive cannot be made: {0}")]
    Archive(#[from] zip::result::ZipError),
}

/// A release that was written.
#[derive(Debug, Clone)]
pub struct Released {
    /// The folder.
    pub folder: PathBuf,
    /// Version, commit and day.
    pub origin: String,
    /// How many packages of others stand in it.
    pub packages: usize,
    /// Names, sizes in bytes and sums of the files.
    pub files: Vec<(String, usize, String)>,
}

/// Builds the page into `dist`, and what is handed out into `dist/release`.
///
/// # Errors
/// [`ReleaseError`] if any step fails, or the program names a folder of this machine.
pub fn release(workspace: &Workspace) -> Result<Released, ReleaseError> {
    let page = page_build::page(workspace, Some(NOTICES_NAME))?;
    let names = remap::names(workspace.root());
    let parts = page.parts.iter().map(|part| &part.program);
    let left: Vec<PathBuf> = std::iter::once(&page.program)
        .chain(parts)
        .flat_map(|program| remap::left_in(program, &names))
        .collect();
    if !left.is_empty() {
        return Err(ReleaseError::Paths(left));
    }
    let packages = licences::packages(workspace.root(), &page.packages)?;
    let mut files = files(workspace, &page, &packages)?;
    let sums: Vec<_> = files
        .iter()
        .map(|(name, content)| (name.clone(), content.len(), sum(content)))
        .collect();
    files.push((SUMS_NAME.to_owned(), sums_text(&sums).into_bytes()));
    page_build::write(workspace, &page)?;
    let folder = workspace.dist().join("release");
    page_build::replace_folder(&folder, &files)?;
    Ok(Released {
        folder,
        origin: page.origin.to_string(),
        packages: packages.len(),
        files: sums,
    })
}

fn files(
    workspace: &Workspace,
    page: &Page,
    packages: &[Package],
) -> Result<Vec<File>, ReleaseError> {
    let own = read(&workspace.root().join(LICENSE_NAME))?;
    let toolchain = notices::toolchain_folder(workspace.root());
    let notices = notices::text(packages, &toolchain)?.into_bytes();
    let library = read(&toolchain.join("COPYRIGHT-library.html"))?;
    let mut inside = page.folder.clone();
    let beside = [
        (LICENSE_NAME, own),
        (NOTICES_NAME, notices),
        (LIBRARY_NAME, library),
    ]
    .map(|(name, content)| (name.to_owned(), content));
    inside.extend(beside.clone());
    let archive = archive::zipped(ARCHIVE_FOLDER, &inside)?;
    let list = parts::text(&page.origin, packages).into_bytes();
    let mut files = vec![page.single_file.clone(), (ARCHIVE_NAME.to_owned(), archive)];
    files.extend(beside);
    files.push((PARTS_NAME.to_owned(), list));
    Ok(files)
}

fn read(path: &Path) -> Result<Vec<u8>, ReleaseError> {
    fs::read(path).map_err(|source| ReleaseError::Read {
        path: path.to_owned(),
        source,
    })
}

fn sum(content: &[u8]) -> String {
    let mut text = String::new();
    for byte in Sha256::digest(content) {
        let _ = write!(text, "{byte:02x}");
    }
    text
}

/// Sums as `sha256sum --check` reads them.
fn sums_text(sums: &[(String, usize, String)]) -> String {
    let mut text = String::new();
    for (name, _, sum) in sums {
        let _ = writeln!(text, "{sum}  {name}");
    }
    text
}

impl std::fmt::Display for Released {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        writeln!(
            f,
            "Coolpath {} is in {}",
            self.origin,
            self.folder.display()
        )?;
        for (name, bytes, sum) in &self.files {
            writeln!(f, "  {name:25} {:>5} kB  {sum}", bytes.div_ceil(1000))?;
        }
        write!(f, "  {} packages of others stand in it", self.packages)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sums_are_written_as_the_usual_checker_reads_them() {
        // FIPS 180-2, appendix B.1.
        let abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(sum(b"abc"), abc);
        let text = sums_text(&[("a.txt".to_owned(), 3, sum(b"abc"))]);
        assert_eq!(text, format!("{abc}  a.txt\n"));
    }

    /// The notices name the standard library by the version that the packages ask for.
    #[test]
    fn the_pinned_compiler_is_the_one_that_the_packages_ask_for() {
        let pinned = include_str!("../../../../rust-toolchain.toml");
        let channel = format!("channel = \"{}.0\"", env!("CARGO_PKG_RUST_VERSION"));
        assert!(pinned.contains(&channel), "{channel}");
    }
}
