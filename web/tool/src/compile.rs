//! Compiles the page's package for the browser.

use std::env;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use serde_json::Value;

use crate::wasm_target::TARGET;

/// Package, and binary in it, that is the page.
pub const PACKAGE: &str = "coolpath-web";

/// Cargo profile of the page.
pub const PROFILE: &str = "page";

/// Why the page did not compile.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum CompileError {
    /// Cargo could not be run.
    #[error("cargo could not be run: {0}")]
    NoCargo(std::io::Error),
    /// Cargo ended with errors, which it has printed.
    #[error("the page did not compile; cargo's messages above say why")]
    Failed,
    /// Cargo succeeded without naming a program.
    #[error("cargo built {PACKAGE} but named no .wasm file")]
    NoProgram,
}

/// Compiles the page and returns where cargo put the program.
///
/// # Errors
/// [`CompileError`] if cargo cannot be run or fails.
pub fn program(workspace_root: &Path) -> Result<PathBuf, CompileError> {
    let output = Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
        .args(["build", "--package", PACKAGE, "--bin", PACKAGE])
        .args(["--target", TARGET, "--profile", PROFILE])
        .arg("--message-format=json-render-diagnostics")
        .current_dir(workspace_root)
        .stdin(Stdio::null())
        .stderr(Stdio::inherit())
        .output()
        .map_err(CompileError::NoCargo)?;
    if !output.status.success() {
        return Err(CompileError::Failed);
    }
    program_named_in(&String::from_utf8_lossy(&output.stdout)).ok_or(CompileError::NoProgram)
}

/// The program among cargo's messages, one JSON object a line.
fn program_named_in(messages: &str) -> Option<PathBuf> {
    messages
        .lines()
        .filter_map(|line| serde_json::from_str::<Value>(line).ok())
        .filter(|message| {
            message["reason"] == "compiler-artifact"
                && message["target"]["name"] == PACKAGE
                && message["target"]["kind"][0] == "bin"
        })
        .flat_map(|message| message["filenames"].as_array().cloned().unwrap_or_default())
        .filter_map(|name| name.as_str().map(PathBuf::from))
        .find(|path| {
            path.extension()
                .is_some_and(|extension| extension == "wasm")
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_program_is_picked_among_other_artifacts() {
        let artifact = |name: &str, kind: &str, files: &str| {
            format!(
                r#"{{"reason":"compiler-artifact","target":{{"name":"{name}","kind":["{kind}"]}},"filenames":[{files}]}}"#
            )
        };
        let messages = [
            artifact("coolpath-web", "lib", r#""t/libcoolpath_web.rlib""#),
            artifact("other", "bin", r#""t/other.wasm""#),
            "a line that a build script printed".to_owned(),
            artifact(
                "coolpath-web",
                "bin",
                r#""t/coolpath-web.d","t/coolpath-web.wasm""#,
            ),
        ];
        assert_eq!(
            program_named_in(&messages.join("\n")),
            Some(PathBuf::from("t/coolpath-web.wasm"))
        );
        assert_eq!(program_named_in(&messages[..3].join("\n")), None);
    }
}
