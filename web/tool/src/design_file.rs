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
        file: told(file),
        what: "design file",
        error,
    })?;
    let design = design.renewed().0;
    design.check().map_err(|error| FileError::Design {
        file: told(file),
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
        file: told(file),
        error,
    })?;
    let label = encoding(&bytes).label();
    let known = Encoding::for_label(label.as_bytes()).unwrap_or(encoding_rs::UTF_8);
    let (text, ..) = known.decode(&bytes);
    Ok(text.into_owned())
}

/// A file as it is named to people.
fn told(file: &Path) -> PathBuf {
    if file.as_os_str() == STANDARD_INPUT {
        PathBuf::from("standard input")
    } else {
        file.to_owned()
    }
}

fn bytes(file: &Path) -> io::Result<Vec<u8>> {
    if file.as_os_str() != STANDARD_INPUT {
        return fs::read(file);
    }
    let mut bytes = Vec::new();
    io::stdin().lock().read_to_end(&mut bytes)?;
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(name: &str, text: &str) -> String {
        let file = std::env::temp_dir().join(format!("coolpath-{name}-{}", std::process::id()));
        fs::write(&file, text).expect("a file");
        let error = design(&file).expect_err("refused").to_string();
        fs::remove_file(&file).expect("removed");
        error
    }

    #[test]
    fn a_fault_is_told_with_its_line_and_column_or_its_name_and_range() {
        let open = refused("open", "{\n \"coolpath_design\": 2,\n");
        assert!(
            open.contains("coolpath-open") && open.contains("line 3 column 0"),
            "{open}"
        );
        let misspelt = refused(
            "misspelt",
            "{\n \"coolpath_design\": 2,\n \"nam\": \"x\"\n}",
        );
        assert!(
            misspelt.contains("`nam`") && misspelt.contains("line 3 column 6"),
            "{misspelt}"
        );
        let far = refused(
            "far",
            r#"{"coolpath_design": 2, "conditions": [{"oat_k": 5}]}"#,
        );
        assert!(
            far.contains("condition.oat_k") && far.contains("it is 5"),
            "{far}"
        );
    }

    #[test]
    fn standard_input_is_named_in_words() {
        assert_eq!(told(Path::new("-")), Path::new("standard input"));
        assert_eq!(told(Path::new("d.json")), Path::new("d.json"));
    }
}
