//! The built page, served or as a file.

use std::env;
use std::fs;
use std::path::{Path, PathBuf};
use std::process;
use std::sync::atomic::{AtomicU32, Ordering};

use coolpath_tool::bindings::PROGRAM_NAME;
use coolpath_tool::serve::Server;
use coolpath_tool::single_file;
use coolpath_tool::workspace::Workspace;

use super::BrowserError;

/// The built folder behind a web server of its own, for as long as this lives.
pub struct Site {
    // Before the folder, so that serving ends before its files go.
    server: Server,
    _copy: Option<OwnFolder>,
}

impl Site {
    /// Serves the built page.
    ///
    /// # Arguments
    /// * `prefix` - path to serve it under, `/` or such as `/a/b/`
    ///
    /// # Errors
    /// [`BrowserError::Serve`] if the page has not been built.
    pub fn served(prefix: &str) -> Result<Self, BrowserError> {
        let server = Server::start(built_folder()?, prefix, 0)?;
        Ok(Self {
            server,
            _copy: None,
        })
    }

    /// Serves the page with its compiled program missing.
    ///
    /// # Errors
    /// [`BrowserError`] if the page has not been built or cannot be copied.
    pub fn without_program() -> Result<Self, BrowserError> {
        let copy = OwnFolder::new()?;
        let built = built_folder()?;
        for entry in fs::read_dir(&built).map_err(file_error(&built))?.flatten() {
            let name = entry.file_name();
            if !name.to_string_lossy().starts_with(PROGRAM_NAME) {
                copied(&entry.path(), &copy.path)?;
            }
        }
        let server = Server::start(copy.path.clone(), "/", 0)?;
        Ok(Self {
            server,
            _copy: Some(copy),
        })
    }

    /// Serves a copy of the built page that a test may change; its folder beside it.
    ///
    /// # Errors
    /// [`BrowserError`] if the page has not been built or cannot be copied.
    pub fn of_own(prefix: &str) -> Result<(Self, PathBuf), BrowserError> {
        let copy = OwnFolder::new()?;
        let built = built_folder()?;
        for entry in fs::read_dir(&built).map_err(file_error(&built))?.flatten() {
            copied(&entry.path(), &copy.path)?;
        }
        let folder = copy.path.clone();
        let server = Server::start(folder.clone(), prefix, 0)?;
        let site = Self {
            server,
            _copy: Some(copy),
        };
        Ok((site, folder))
    }

    /// The page's address.
    pub fn url(&self) -> String {
        self.server.url()
    }
}

/// The single file alone in a folder, as after a download.
pub struct SingleFile {
    folder: OwnFolder,
}

impl SingleFile {
    /// Copies the built file to where nothing else is.
    ///
    /// # Errors
    /// [`BrowserError::File`] if the page has not been built.
    pub fn downloaded() -> Result<Self, BrowserError> {
        let folder = OwnFolder::new()?;
        copied(&built_folder()?.join(single_file::FILE_NAME), &folder.path)?;
        Ok(Self { folder })
    }

    /// The file's address on the disk.
    pub fn url(&self) -> String {
        let path = self.folder.path.join(single_file::FILE_NAME);
        format!("file://{}", path.display())
    }
}

/// A folder that goes when this is dropped.
struct OwnFolder {
    path: PathBuf,
}

impl OwnFolder {
    fn new() -> Result<Self, BrowserError> {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let path = env::temp_dir().join(format!("coolpath-page-{}-{number}", process::id()));
        fs::create_dir_all(&path).map_err(file_error(&path))?;
        Ok(Self { path })
    }
}

impl Drop for OwnFolder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.path);
    }
}

fn built_folder() -> Result<PathBuf, BrowserError> {
    Ok(Workspace::around_here()?.dist())
}

/// Copies a file; folders, such as that of a release, are no part of the page.
fn copied(file: &Path, folder: &Path) -> Result<(), BrowserError> {
    if file.is_dir() {
        return Ok(());
    }
    let name = file.file_name().unwrap_or_default();
    fs::copy(file, folder.join(name))
        .map(drop)
        .map_err(file_error(file))
}

fn file_error(path: &Path) -> impl FnOnce(std::io::Error) -> BrowserError {
    let path = path.to_owned();
    move |source| BrowserError::File { path, source }
}
