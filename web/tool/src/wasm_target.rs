//! Makes sure that the toolchain can compile for the browser.

use std::env;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The target that the page is compiled for.
pub const TARGET: &str = "wasm32-unknown-unknown";

/// Why the page cannot be compiled on this machine.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum TargetError {
    /// The compiler could not be asked.
    #[error("the Rust compiler could not be run ({program}: {source})")]
    NoCompiler {
        /// What was tried.
        program: String,
        /// What the system says.
        source: std::io::Error,
    },
    /// The target is missing and `rustup` is not there to add it.
    #[error(
        "this toolchain lacks the standard library for {TARGET}, and rustup is not here to add it: \
         install Rust with rustup, or that library with the package manager that Rust came from \
         (Debian calls it libstd-rust-dev-wasm32)"
    )]
    NoRustup,
    /// `rustup` was asked to add the target and could not.
    #[error(
        "rustup could not add {TARGET}: connect to the network and run \
         `rustup target add {TARGET}`, then try again"
    )]
    NotAdded,
}

/// The programs that know about toolchains.
#[derive(Debug, Clone)]
pub struct Toolchain {
    rustc: OsString,
    rustup: OsString,
    folder: PathBuf,
}

impl Toolchain {
    /// The toolchain that applies in a folder.
    pub fn of_folder(folder: &Path) -> Self {
        Self {
            rustc: env::var_os("RUSTC").unwrap_or_else(|| "rustc".into()),
            rustup: "rustup".into(),
            folder: folder.to_owned(),
        }
    }

    /// Adds the browser's target unless it is there.
    ///
    /// # Errors
    /// [`TargetError`] if it is missing and cannot be added; its text says what to do.
    pub fn ensure_wasm(&self) -> Result<(), TargetError> {
        if self.has_wasm()? {
            return Ok(());
        }
        println!("Adding {TARGET} to the Rust toolchain.");
        // Installation by itself may be switched off, so it is asked for by name.
        let added = Command::new(&self.rustup)
            .args(["target", "add", TARGET])
            .current_dir(&self.folder)
            .status()
            .map_err(|_| TargetError::NoRustup)?;
        if added.success() && self.has_wasm()? {
            Ok(())
        } else {
            Err(TargetError::NotAdded)
        }
    }

    fn has_wasm(&self) -> Result<bool, TargetError> {
        let output = Command::new(&self.rustc)
            .args(["--print", "target-libdir", "--target", TARGET])
            .current_dir(&self.folder)
            .stderr(Stdio::inherit())
            .output()
            .map_err(|source| TargetError::NoCompiler {
                program: self.rustc.to_string_lossy().into_owned(),
                source,
            })?;
        // The folder is printed whether or not the target is installed.
        let folder = String::from_utf8_lossy(&output.stdout);
        Ok(output.status.success() && holds_standard_library(Path::new(folder.trim())))
    }
}

fn holds_standard_library(folder: &Path) -> bool {
    let Ok(entries) = fs::read_dir(folder) else {
        return false;
    };
    let names: Vec<String> = entries
        .flatten()
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .collect();
    ["libcore-", "libstd-"].iter().all(|library| {
        names
            .iter()
            .any(|name| name.starts_with(library) && name.ends_with(".rlib"))
    })
}

#[cfg(all(test, unix))]
mod tests {
    use std::os::unix::fs::PermissionsExt;

    use super::*;

    struct Fake {
        folder: PathBuf,
    }

    impl Fake {
        fn new(name: &str) -> Self {
            let folder =
                env::temp_dir().join(format!("coolpath-target-{name}-{}", std::process::id()));
            fs::create_dir_all(folder.join("lib")).unwrap();
            Self { folder }
        }

        fn script(&self, name: &str, body: &str) -> OsString {
            let path = self.folder.join(name);
            fs::write(&path, format!("#!/bin/sh\n{body}\n")).unwrap();
            fs::set_permissions(&path, fs::Permissions::from_mode(0o755)).unwrap();
            path.into()
        }

        fn toolchain(&self, rustup: OsString) -> Toolchain {
            Toolchain {
                rustc: self.script(
                    "rustc",
                    &format!("echo '{}'", self.folder.join("lib").display()),
                ),
                rustup,
                folder: self.folder.clone(),
            }
        }

        fn adding_rustup(&self) -> OsString {
            let lib = self.folder.join("lib");
            self.script(
                "rustup",
                &format!(
                    "test \"$*\" = 'target add {TARGET}' && touch '{0}/libcore-1.rlib' '{0}/libstd-1.rlib'",
                    lib.display()
                ),
            )
        }
    }

    impl Drop for Fake {
        fn drop(&mut self) {
            let _ = fs::remove_dir_all(&self.folder);
        }
    }

    #[test]
    fn a_missing_target_is_added_once() {
        let fake = Fake::new("added");
        let toolchain = fake.toolchain(fake.adding_rustup());
        assert!(!toolchain.has_wasm().unwrap());
        toolchain.ensure_wasm().unwrap();

        // Present now, so that a rustup that fails is not even called.
        fake.script("rustup", "exit 1");
        toolchain.ensure_wasm().unwrap();
    }

    #[test]
    fn half_a_standard_library_is_none() {
        let fake = Fake::new("half");
        fs::write(fake.folder.join("lib/libcore-1.rlib"), "").unwrap();
        assert!(!holds_standard_library(&fake.folder.join("lib")));
        fs::write(fake.folder.join("lib/libstd-1.rlib"), "").unwrap();
        assert!(holds_standard_library(&fake.folder.join("lib")));
    }

    #[test]
    fn without_rustup_the_message_says_what_to_install() {
        let fake = Fake::new("none");
        let toolchain = fake.toolchain("coolpath-no-such-rustup".into());
        let error = toolchain.ensure_wasm().unwrap_err();
        assert!(matches!(error, TargetError::NoRustup));
        assert!(error.to_string().contains("install Rust with rustup"));
    }

    #[test]
    fn a_rustup_that_fails_or_only_claims_success_is_reported() {
        let fake = Fake::new("failing");
        for body in ["exit 1", "exit 0"] {
            let toolchain = fake.toolchain(fake.script("rustup", body));
            let error = toolchain.ensure_wasm().unwrap_err();
            assert!(matches!(error, TargetError::NotAdded));
            assert!(
                error
                    .to_string()
                    .contains(&format!("rustup target add {TARGET}"))
            );
        }
    }

    #[test]
    fn a_missing_compiler_is_named() {
        let fake = Fake::new("compiler");
        let mut toolchain = fake.toolchain("rustup".into());
        toolchain.rustc = "coolpath-no-such-compiler".into();
        let error = toolchain.ensure_wasm().unwrap_err();
        assert!(error.to_string().contains("coolpath-no-such-compiler"));
    }
}
