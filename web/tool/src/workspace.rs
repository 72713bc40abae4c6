//! Where the project's files are.

use std::env;
use std::path::{Path, PathBuf};

/// The folder that holds the page's template and all packages.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Workspace {
    root: PathBuf,
}

/// No folder above the starting point is this project's.
#[derive(Debug, thiserror::Error)]
#[error("neither {0} nor a folder above it holds Coolpath's index.html and web/Cargo.toml")]
pub struct NotFound(PathBuf);

impl Workspace {
    /// The workspace around the package that cargo runs, or else around the current folder.
    ///
    /// # Errors
    /// [`NotFound`] if neither lies inside the project.
    pub fn around_here() -> Result<Self, NotFound> {
        // Cargo sets the variable when it runs the tool, wherever it was called from.
        let start = env::var_os("CARGO_MANIFEST_DIR")
            .map(PathBuf::from)
            .or_else(|| env::current_dir().ok())
            .unwrap_or_default();
        Self::around(&start)
    }

    /// The workspace that a folder lies in.
    ///
    /// # Errors
    /// [`NotFound`] if it lies in none.
    pub fn around(start: &Path) -> Result<Self, NotFound> {
        start
            .ancestors()
            .find(|folder| {
                folder.join("index.html").is_file() && folder.join("web/Cargo.toml").is_file()
            })
            .map(|root| Self {
                root: root.to_owned(),
            })
            .ok_or_else(|| NotFound(start.to_owned()))
    }

    /// The top folder.
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// The page's template.
    pub fn template(&self) -> PathBuf {
        self.root.join("index.html")
    }

    /// The page's style sheet.
    pub fn style_sheet(&self) -> PathBuf {
        self.root.join("web/style.css")
    }

    /// The rules of the drawing's classes, which stand beside the code that draws.
    pub fn drawing_style_sheet(&self) -> PathBuf {
        self.root.join("web/src/sheet/sheet.css")
    }

    /// One of the scripts that start the page.
    pub fn loader(&self, name: &str) -> PathBuf {
        self.root.join("web/loader").join(name)
    }

    /// One of the guide's files.
    pub fn guide(&self, name: &str) -> PathBuf {
        self.root.join("web/guide").join(name)
    }

    /// The texts in other languages, and the list of all texts.
    pub fn texts(&self) -> PathBuf {
        self.root.join("web/texts")
    }

    /// A picture of the page as it opens.
    pub fn picture(&self) -> PathBuf {
        self.root.join("reference/pictures/readme-light.webp")
    }

    /// The folder that the built page is written to.
    pub fn dist(&self) -> PathBuf {
        self.root.join("dist")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_workspace_is_found_from_inside_and_not_from_outside() {
        let package = Path::new(env!("CARGO_MANIFEST_DIR"));
        let found = Workspace::around(&package.join("src")).expect("inside the project");
        assert_eq!(Some(found.root()), package.ancestors().nth(2));
        assert!(found.style_sheet().is_file());
        assert!(found.drawing_style_sheet().is_file());

        let outside = found.root().parent().expect("a folder above");
        assert!(Workspace::around(outside).is_err());
    }
}
