//! A design file from the disk or from standard input.

use coolpath_core::document::check::DesignError;
use coolpath_core::document::design::Design;
use coolpath_core::prove::log::encoding;
use encoding_rs::Encoding;
use std::fs;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// The name that stands for standard input.
pub const STANDARD_INPUT: &str = "-";

/// What is wrong with a file.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum FileError {
    /// It cannot be read.
    #[error("{file}: {error}", file = file.display())]
    Read {
        /// The file.
        file: PathBuf,
        /// Why.
        error: io::Error,
    },
    /// It is no JSON of the kind that was expected.
    #[error("{file}: this is no {what}: {error}", file = file.display())]
    Json {
        /// The file.
        file: PathBuf,
        /// What it should be.
        what: &'static str,
        /// Why it is not, with line and column.
        error: serde_json::Error,
    },
    /// The design is refused.
    #[error("{file}: {error}", file = file.display())]
    Design {
        /// The file.
        file: PathBuf,
        /// Why.
        error: DesignError,
    },
}

/// The design in a file, in today's format.
///
/// # Errors
/// [`FileError`] if it cannot be read or is refused.
pub fn design(file: &Path) -> Result<Design, FileError> {
    let text = text(file)?;
    let design: Design = serde_json::from_str(&text).map_err(|error| FileError::Json {
        file: file.to_owned(),
        what: "design file",
        error,
    })?;
    let design = design.renewed().0;
    design.check().map_err(|error| FileError::Design {
        file: file.to_owned(),
        error,
    })?;
    Ok(design)
}

/// Text of a file, decoded as the page would.
///
/// # Errors
/// [`FileError::Read`] if it cannot be read.
pub fn text(file: &Path) -> Result<String, FileError> {
    let bytes = bytes(file).map_err(|error| FileError::Read {
        file: file.to_owned(),
        error,
    })?;
    let label = encoding(&bytes).label();
    let known = Encoding::for_label(label.as_bytes()).unwrap_or(encoding_rs::UTF_8);
    let (text, ..) = known.decode(&bytes);
    Ok(text.into_owned())
}

fn bytes(file: &Path) -> io::Result<Vec<u8>> {
    if file.as_os_str() != STANDARD_INPUT {
        return fs::read(file);
    }
    let mut bytes = Vec::new();
    io::stdin().lock().read_to_end(&mut bytes)?;
    Ok(bytes)
}
