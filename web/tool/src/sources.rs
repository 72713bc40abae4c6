//! The committed files that a build of the page puts together.

use std::fs;
use std::io;
use std::path::PathBuf;

use crate::early;
use crate::guide;
use crate::languages::{self, Spoken};
use crate::origin::Origin;
use crate::workspace::Workspace;

/// Texts of the committed files, with plain line ends.
#[derive(Debug, Clone)]
pub struct Sources {
    /// Where they come from.
    pub origin: Origin,
    /// The page's template.
    pub template: String,
    /// The style sheet: the page's rules, the drawing's, then the guide's.
    pub style: String,
    /// The part of the starting script that both builds share.
    pub loader_common: String,
    /// The end of the starting script in the folder.
    pub loader_folder: String,
    /// The end of the starting script in the single file.
    pub loader_single: String,
    /// The script of a worker in the folder.
    pub engine: String,
    /// The service worker of the folder, without its version and list of files.
    pub worker: String,
    /// What a first visit sees before the program is there.
    pub early: String,
    /// A picture of the page, WebP.
    pub picture: Vec<u8>,
    /// Languages beside English.
    pub languages: Vec<Spoken>,
    /// The guide's chapters, one behind the other.
    pub guide: String,
}

/// A file of the project cannot be read.
#[derive(Debug, thiserror::Error)]
#[error("{path} cannot be read: {source}")]
pub struct SourceError {
    pub(crate) path: PathBuf,
    pub(crate) source: io::Error,
}

impl Sources {
    /// Reads the committed files.
    ///
    /// # Errors
    /// [`SourceError`] if one cannot be read.
    pub fn read(workspace: &Workspace) -> Result<Self, SourceError> {
        Ok(Self {
            origin: Origin::of(workspace.root()),
            template: text(workspace.template())?,
            style: text(workspace.style_sheet())?
                + &text(workspace.drawing_style_sheet())?
                + &text(workspace.guide("guide.css"))?,
            loader_common: text(workspace.loader("common.js"))?,
            loader_folder: text(workspace.loader("folder.js"))?,
            loader_single: text(workspace.loader("single.js"))?,
            engine: text(workspace.loader("engine.js"))?,
            picture: bytes(workspace.picture())?,
            early: early_look()?,
            worker: text(workspace.loader("worker.js"))?,
            languages: languages::read(workspace)?,
            guide: guide::CHAPTERS
                .into_iter()
                .map(|name| text(workspace.guide(name)))
                .collect::<Result<_, _>>()?,
        })
    }
}

fn early_look() -> Result<String, SourceError> {
    early::look().map_err(|source| SourceError {
        path: "what a first visit sees".into(),
        source,
    })
}

fn bytes(path: PathBuf) -> Result<Vec<u8>, SourceError> {
    fs::read(&path).map_err(|source| SourceError { path, source })
}

pub(crate) fn text(path: PathBuf) -> Result<String, SourceError> {
    match fs::read_to_string(&path) {
        // A browser hashes what it parsed, and parsing makes line ends plain.
        Ok(text) => Ok(text.replace("\r\n", "\n")),
        Err(source) => Err(SourceError { path, source }),
    }
}
