//! Compiles the page's package for the browser.

use std::env;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use serde_json::Value;

use crate::remap;
use crate::wasm_target::TARGET;

/// Package, and binary in it, that is the page.
pub const PACKAGE: &str = "coolpath-web";

/// How much time compiling may take.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Care {
    /// As small and quick as it gets: for users.
    Whole,
    /// Ready soon: for who works on it.
    Draft,
}

impl Care {
    /// The cargo profile.
    const fn profile(self) -> &'static str {
        match self {
            Self::Whole => "page",
            Self::Draft => "draft",
        }
    }
}

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

/// A compiled page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Compiled {
    /// The program.
    pub program: PathBuf,
    /// Manifests of all packages that stand in it, in order, its own among them.
    pub packages: Vec<PathBuf>,
}

/// Compiles the page.
///
/// # Errors
/// [`CompileError`] if cargo cannot be run or fails.
pub fn program(workspace_root: &Path, care: Care) -> Result<Compiled, CompileError> {
    let mut cargo = Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    cargo
        .args(["rustc", "--package", PACKAGE, "--bin", PACKAGE])
        .args(["--target", TARGET, "--profile", care.profile()])
        .arg("--message-format=json-render-diagnostics");
    remap::apply(&mut cargo, &remap::names(workspace_root));
    // What divides the program must know which function uses which.
    cargo.args(["--", "-Clink-arg=--emit-relocs"]);
    let output = cargo
        .current_dir(workspace_root)
        .stdin(Stdio::null())
        .stderr(Stdio::inherit())
        .output()
        .map_err(CompileError::NoCargo)?;
    if !output.status.success() {
        return Err(CompileError::Failed);
    }
    let messages = String::from_utf8_lossy(&output.stdout);
    Ok(Compiled {
        program: program_named_in(&messages).ok_or(CompileError::NoProgram)?,
        packages: packages_named_in(&messages),
    })
}

/// Manifests of the packages that were compiled for the browser; what only helps to compile, such
/// as macros, is compiled for this machine.
fn packages_named_in(messages: &str) -> Vec<PathBuf> {
    let mut packages: Vec<PathBuf> = messages
        .lines()
        .filter_map(|line| serde_json::from_str::<Value>(line).ok())
        .filter(|message| {
            let files = message["filenames"].as_array();
            let for_browser = |file: &Value| {
                let path = file.as_str().map(Path::new);
                path.is_some_and(|path| path.iter().any(|part| part == TARGET))
            };
            message["reason"] == "compiler-artifact"
                && files.is_some_and(|files| files.iter().any(for_browser))
        })
        .filter_map(|message| message["manifest_path"].as_str().map(PathBuf::from))
        .collect();
    packages.sort();
    packages.dedup();
    packages
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

    #[test]
    fn packages_are_those_compiled_for_the_browser() {
        let artifact = |name: &str, folder: &str| {
            format!(
                r#"{{"reason":"compiler-artifact","manifest_path":"/c/{name}/Cargo.toml","filenames":["/t/{folder}/lib{name}.rlib"]}}"#
            )
        };
        let messages = [
            artifact("b", "wasm32-unknown-unknown/page"),
            artifact("macros", "page"),
            artifact("a", "wasm32-unknown-unknown/page"),
            artifact("b", "wasm32-unknown-unknown/page"),
        ];
        assert_eq!(
            packages_named_in(&messages.join("\n")),
            [
                PathBuf::from("/c/a/Cargo.toml"),
                PathBuf::from("/c/b/Cargo.toml")
            ]
        );
    }
}
