//! What can go wrong with a page under test.

use std::io;
use std::path::PathBuf;
use std::time::Duration;

use coolpath_tool::serve::ServeError;
use coolpath_tool::workspace::NotFound;
use thirtyfour::error::{WebDriverError, WebDriverErrorInner};

/// Why a step of a page test failed.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum BrowserError {
    /// chromedriver could not be run.
    #[error("chromedriver could not be started ({0}); Debian has it as chromium-driver")]
    Start(io::Error),
    /// chromedriver ran but did not say on which port.
    #[error("chromedriver named no port")]
    NoPort,
    /// The browser refused a command.
    #[error("the browser refused a command: {0}")]
    Driver(Box<WebDriverError>),
    /// The project's folder was not found.
    #[error(transparent)]
    Workspace(#[from] NotFound),
    /// The page could not be served.
    #[error(transparent)]
    Serve(#[from] ServeError),
    /// A file could not be read or written.
    #[error("{path}: {source}")]
    File {
        /// The file.
        path: PathBuf,
        /// What the system says.
        source: io::Error,
    },
    /// Something did not come about in time.
    #[error("waited {limit:?} in vain for {what}")]
    InVain {
        /// What was waited for.
        what: String,
        /// How long.
        limit: Duration,
    },
    /// No label, or more than one, has the text.
    #[error("{count} labels read `{label}`; the page has: {present}")]
    Label {
        /// The text looked for.
        label: String,
        /// How many have it.
        count: usize,
        /// Texts of all labels.
        present: String,
    },
    /// The console holds errors, or violations of the content security policy.
    #[error("the console is not clean:\n{}", .0.join("\n"))]
    Console(Vec<String>),
    /// A script's result is not of the expected kind.
    #[error("a script returned {0}")]
    Script(String),
}

impl BrowserError {
    /// Whether the element that a command was for has been replaced in the page, or has moved under another
    /// one before the press: a person would look and press again.
    pub(super) fn is_of_a_moving_page(&self) -> bool {
        let Self::Driver(error) = self else {
            return false;
        };
        matches!(
            error.as_inner(),
            WebDriverErrorInner::StaleElementReference(_)
                | WebDriverErrorInner::ElementClickIntercepted(_)
        )
    }
}

impl From<WebDriverError> for BrowserError {
    fn from(error: WebDriverError) -> Self {
        Self::Driver(Box::new(error))
    }
}
