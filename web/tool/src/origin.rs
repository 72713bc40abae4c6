//! Which version of the sources a page is built from.

use std::path::Path;
use std::process::{Command, Stdio};

/// Version, commit and its day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Origin {
    /// Version of the packages.
    pub version: &'static str,
    /// Commit, with a plus sign behind it where files were changed since; `None` outside a
    /// repository.
    pub commit: Option<String>,
    /// Day of the commit, as 2026-01-31: it does not change with the day of the build.
    pub date: Option<String>,
    /// File of the notices that lies beside the page, where there is one.
    pub notices: Option<&'static str>,
}

impl Origin {
    /// The origin of the sources in a folder.
    #[must_use]
    pub fn of(workspace_root: &Path) -> Self {
        let git = |words: &[&str]| {
            let output = Command::new("git")
                .args(words)
                .current_dir(workspace_root)
                .stdin(Stdio::null())
                .stderr(Stdio::null())
                .output()
                .ok()?;
            let text = String::from_utf8(output.stdout).ok()?;
            output.status.success().then(|| text.trim().to_owned())
        };
        let changed = git(&["status", "--porcelain", "--untracked-files=no"])
            .is_some_and(|list| !list.is_empty());
        let commit = git(&["log", "-1", "--format=%H"]).filter(|commit| !commit.is_empty());
        Self {
            version: env!("CARGO_PKG_VERSION"),
            commit: commit.map(|commit| {
                let short: String = commit.chars().take(12).collect();
                if changed { short + "+" } else { short }
            }),
            date: git(&["log", "-1", "--format=%cs"]).filter(|date| !date.is_empty()),
            notices: None,
        }
    }

    /// Elements that tell it in a page's head: `coolpath-version`, and `coolpath-commit`,
    /// `coolpath-date` and `coolpath-notices` where they are known.
    #[must_use]
    pub fn meta_elements(&self) -> String {
        let known = [
            ("version", Some(self.version)),
            ("commit", self.commit.as_deref()),
            ("date", self.date.as_deref()),
            ("notices", self.notices),
        ];
        let elements: Vec<String> = known
            .into_iter()
            .filter_map(|(name, value)| {
                Some(format!(
                    "<meta name=\"coolpath-{name}\" content=\"{}\">",
                    value?
                ))
            })
            .collect();
        elements.join("\n")
    }
}

impl std::fmt::Display for Origin {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.version)?;
        for part in [&self.commit, &self.date].into_iter().flatten() {
            write!(f, " {part}")?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn outside_a_repository_the_version_is_told_alone() {
        let origin = Origin::of(Path::new("/"));
        assert_eq!(origin.commit, None);
        assert_eq!(origin.to_string(), env!("CARGO_PKG_VERSION"));
        assert_eq!(origin.meta_elements().lines().count(), 1);
    }

    #[test]
    fn commit_and_day_are_told_where_they_are_known() {
        let origin = Origin {
            version: "1.2.3",
            commit: Some("abcdef".to_owned()),
            date: Some("2026-01-31".to_owned()),
            notices: Some("NOTICES"),
        };
        let text = origin.meta_elements();
        assert!(
            text.contains("<meta name=\"coolpath-commit\" content=\"abcdef\">"),
            "{text}"
        );
        assert!(
            text.contains("<meta name=\"coolpath-date\" content=\"2026-01-31\">"),
            "{text}"
        );
        assert!(text.ends_with("<meta name=\"coolpath-notices\" content=\"NOTICES\">"));
        assert_eq!(origin.to_string(), "1.2.3 abcdef 2026-01-31");
    }
}
