//! The script that connects the compiled program with the browser.

use std::path::Path;

use wasm_bindgen_cli_support::Bindgen;

use crate::compile::Care;
use crate::parts::{self, Part, PartsError};

/// Name of the script in the folder.
pub const SCRIPT_NAME: &str = "coolpath_web.js";

/// Name of the program in the folder.
pub const PROGRAM_NAME: &str = "coolpath_web_bg.wasm";

/// A compiled program together with the script it needs.
#[derive(Debug, Clone)]
pub struct Bindings {
    /// The script, an ECMAScript module.
    pub script: String,
    /// What the first answer needs of the program, in WebAssembly's binary format.
    pub program: Vec<u8>,
    /// The rest of it.
    pub parts: Vec<Part>,
}

/// Why there are no bindings.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum BindingsError {
    /// The generator refused the program.
    #[error("the script for the page's program could not be generated: {0}")]
    Generator(Box<dyn std::error::Error + Send + Sync>),
    /// It could not be divided.
    #[error(transparent)]
    Parts(#[from] PartsError),
    /// A package brings script files along, which the single file could not import.
    #[error("the page must stand alone, but a package brings its own scripts: {0}")]
    ForeignScripts(String),
}

/// Generates the bindings of a compiled program; a draft keeps the names of its functions, for profiles and
/// backtraces.
///
/// # Errors
/// [`BindingsError`] if the generator fails, or the script would import others.
pub fn of_program(path: &Path, care: Care) -> Result<Bindings, BindingsError> {
    let divided = parts::divided(path, SCRIPT_NAME, care)?;
    let mut generator = Bindgen::new();
    generator
        .input_path(&divided.main)
        .out_name("coolpath_web")
        .typescript(false)
        // The parts share memory and functions with what comes first.
        .keep_lld_exports(true)
        .remove_name_section(care == Care::Whole)
        .remove_producers_section(true);
    let mut output = generator
        .web(true)
        .and_then(Bindgen::generate_output)
        .map_err(|error| BindingsError::Generator(error.into()))?;

    let foreign: Vec<&str> = output
        .snippets()
        .iter()
        // Every package is listed, most of them without any script.
        .filter(|(_, scripts)| !scripts.is_empty())
        .map(|(package, _)| package)
        .chain(output.local_modules().keys())
        .chain(output.npm_dependencies().keys())
        .map(String::as_str)
        .collect();
    if !foreign.is_empty() {
        return Err(BindingsError::ForeignScripts(foreign.join(", ")));
    }
    Ok(Bindings {
        program: output.wasm_mut().emit_wasm(),
        script: divided.joined(output.js())?,
        parts: divided.parts,
    })
}
