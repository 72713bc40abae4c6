//! Builds the page: compiles it, and writes the folder and the single file.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::bindings::{self, Bindings, BindingsError, PROGRAM_NAME};
use crate::compile::{self, Care, CompileError, Compiled};
use crate::origin::Origin;
use crate::parts::Part;
use crate::size::Size;
use crate::sources::{SourceError, Sources};
use crate::template::TemplateError;
use crate::wasm_target::{TargetError, Toolchain};
use crate::workspace::Workspace;
use crate::{folder, single_file};

/// Why the page was not built.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum BuildError {
    /// The toolchain cannot compile for the browser.
    #[error(transparent)]
    Target(#[from] TargetError),
    /// The page does not compile.
    #[error(transparent)]
    Compile(#[from] CompileError),
    /// The connecting script could not be made.
    #[error(transparent)]
    Bindings(#[from] BindingsError),
    /// A committed file is missing.
    #[error(transparent)]
    Source(#[from] SourceError),
    /// The page's template is not in order.
    #[error(transparent)]
    Template(#[from] TemplateError),
    /// A file of the built page cannot be written.
    #[error("{path} cannot be written: {source}")]
    Write {
        /// The file or folder.
        path: PathBuf,
        /// What the system says.
        source: io::Error,
    },
}

/// What a build wrote.
#[derive(Debug, Clone)]
pub struct Built {
    /// The folder.
    pub folder: PathBuf,
    /// Size of what the first answer needs of the page's program.
    pub program: Size,
    /// Sizes of its parts, by the names of their files.
    pub parts: Vec<(String, Size)>,
    /// Size of the single file.
    pub single_file: Size,
}

/// A file by its name.
pub type File = (String, Vec<u8>);

/// A page that is ready to be written.
#[derive(Debug, Clone)]
pub struct Page {
    /// The folder's files.
    pub folder: Vec<File>,
    /// The single file.
    pub single_file: File,
    /// What the first answer needs of the program that both hold.
    pub program: Vec<u8>,
    /// The rest of it.
    pub parts: Vec<Part>,
    /// Manifests of all packages that stand in it.
    pub packages: Vec<PathBuf>,
    /// Where it comes from.
    pub origin: Origin,
}

/// The program with its script and parts.
fn compiled(workspace: &Workspace, care: Care) -> Result<(Compiled, Bindings), BuildError> {
    Toolchain::of_folder(workspace.root()).ensure_wasm()?;
    let compiled = compile::program(workspace.root(), care)?;
    let bindings = bindings::of_program(&compiled.program, care)?;
    Ok((compiled, bindings))
}

/// Compiles the page and puts its files together.
///
/// # Arguments
/// * `notices` - file of the notices that will lie beside the page
///
/// # Errors
/// [`BuildError`] if any step fails.
pub fn page(workspace: &Workspace, notices: Option<&'static str>) -> Result<Page, BuildError> {
    let (compiled, bindings) = compiled(workspace, Care::Whole)?;
    let mut sources = Sources::read(workspace)?;
    sources.origin.notices = notices;
    let single = single_file::page(&sources, &bindings)?;
    Ok(Page {
        folder: folder::files(&sources, &bindings)?,
        single_file: (single_file::FILE_NAME.to_owned(), single.into_bytes()),
        program: bindings.program,
        parts: bindings.parts,
        packages: compiled.packages,
        origin: sources.origin,
    })
}

/// Builds the page into the workspace's `dist`, replacing what was there.
///
/// # Errors
/// [`BuildError`] if any step fails; `dist` is only touched when all content is ready.
pub fn build(workspace: &Workspace) -> Result<Built, BuildError> {
    write(workspace, &page(workspace, None)?)
}

/// Builds a draft of the page into the workspace's `dist`, replacing what was there: larger and slower,
/// without packed copies and without the single file, and soon ready.
///
/// # Returns
/// The folder.
///
/// # Errors
/// [`BuildError`] if any step fails; `dist` is only touched when all content is ready.
pub fn draft(workspace: &Workspace) -> Result<PathBuf, BuildError> {
    let (_, bindings) = compiled(workspace, Care::Draft)?;
    let files = folder::files(&Sources::read(workspace)?, &bindings)?;
    replace_folder(&workspace.dist(), &files)?;
    Ok(workspace.dist())
}

/// Writes a page into the workspace's `dist`, replacing what was there.
///
/// # Errors
/// [`BuildError::Write`] if a file cannot be written.
pub fn write(workspace: &Workspace, page: &Page) -> Result<Built, BuildError> {
    let built = Built {
        folder: workspace.dist(),
        program: Size::of(&page.program),
        parts: page
            .parts
            .iter()
            .map(|part| (part.name.clone(), Size::of(&part.program)))
            .collect(),
        single_file: Size::of(&page.single_file.1),
    };
    let alone = std::slice::from_ref(&page.single_file);
    let packed = folder::packed(&page.folder);
    replace_folder(
        &built.folder,
        page.folder.iter().chain(&packed).chain(alone),
    )?;
    Ok(built)
}

/// Puts files into a folder that holds nothing else afterwards.
///
/// # Errors
/// [`BuildError::Write`] with the file or folder.
pub fn replace_folder<'a>(
    folder: &Path,
    files: impl IntoIterator<Item = &'a File>,
) -> Result<(), BuildError> {
    let failed = |path: &Path| {
        let path = path.to_owned();
        move |source| BuildError::Write { path, source }
    };
    // Files of an earlier build must not survive in a folder that is published as it is.
    match fs::remove_dir_all(folder) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(failed(folder)(error)),
        _ => Ok(()),
    }?;
    fs::create_dir_all(folder).map_err(failed(folder))?;
    for (name, content) in files {
        let path = folder.join(name);
        fs::write(&path, content).map_err(failed(&path))?;
    }
    Ok(())
}

impl std::fmt::Display for Built {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let folder = self.folder.display();
        writeln!(formatter, "The page is in {folder}")?;
        writeln!(formatter, "  {PROGRAM_NAME}  {}", self.program)?;
        for (name, size) in &self.parts {
            writeln!(formatter, "  {name}  {size}")?;
        }
        write!(
            formatter,
            "  {}         {}, works from a disk",
            single_file::FILE_NAME,
            self.single_file
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_new_build_leaves_nothing_of_the_old_one() {
        let folder = std::env::temp_dir().join(format!("coolpath-dist-{}", std::process::id()));
        replace_folder(&folder, &[("old.js".to_owned(), b"1".to_vec())]).unwrap();
        replace_folder(&folder, &[("new.js".to_owned(), b"2".to_vec())]).unwrap();
        assert!(!folder.join("old.js").exists());
        assert_eq!(fs::read(folder.join("new.js")).unwrap(), b"2");
        fs::remove_dir_all(&folder).unwrap();
    }

    #[test]
    fn a_folder_that_cannot_be_written_is_named() {
        let file = std::env::temp_dir().join(format!("coolpath-file-{}", std::process::id()));
        fs::write(&file, "").unwrap();
        let error = replace_folder(&file.join("dist"), &[]).unwrap_err();
        assert!(
            error
                .to_string()
                .contains(&file.join("dist").display().to_string())
        );
        fs::remove_file(&file).unwrap();
    }
}
