//! Drives the built page in a real browser.
//!
//! A test is a closure that is handed a [`Page`]:
//!
//! ```no_run
//! use coolpath_tests::browser::{self, Site};
//!
//! browser::run(|page| async move {
//!     let site = Site::served("/")?;
//!     page.open(&site.url()).await?;
//!     page.wait_for_text("h1", "Coolpath").await?;
//!     page.expect_no_faults().await
//! });
//! ```

mod console;
mod driver;
mod error;
mod form;
mod page;
mod pdf;
mod site;
mod slow_line;
mod speaks;
mod stopwatch;
mod unfolded;
mod view;
mod visit;

pub use driver::Program;
pub use error::BrowserError;
pub use page::Page;
pub use pdf::{Segment, Sheet, sheets};
pub use site::{SingleFile, Site};
pub use slow_line::SlowLine;
pub use stopwatch::{Taken, numbers};
pub use unfolded::{DIALOGS, PLACES};
pub use view::{Medium, Theme};

use std::fs;
use std::future::Future;
use std::panic::{self, AssertUnwindSafe};
use std::path::PathBuf;
use std::thread;

use coolpath_tool::workspace::Workspace;
use driver::Driver;

/// Runs a test in a browser of its own.
///
/// The browser is closed whatever the test does. After a failure a picture of the page is left in
/// `target/page-failures`.
///
/// # Panics
/// If the browser does not start, or the test panics or returns an error.
pub fn run<T, F>(test: T)
where
    T: FnOnce(Page) -> F,
    F: Future<Output = Result<(), BrowserError>>,
{
    let program = match std::env::var("COOLPATH_BROWSER") {
        Ok(name) if name == "firefox" => Program::Firefox,
        _ => Program::Chromium,
    };
    if let Err(error) = session(program, test) {
        panic!("{error}");
    }
}

/// As [`run`], in Firefox: without what only Chromium offers, such as other window sizes, print and
/// the console's messages.
///
/// # Panics
/// As [`run`].
pub fn run_in_firefox<T, F>(test: T)
where
    T: FnOnce(Page) -> F,
    F: Future<Output = Result<(), BrowserError>>,
{
    if let Err(error) = session(Program::Firefox, test) {
        panic!("{error}");
    }
}

/// As [`run`], but the caller sees the error.
///
/// # Errors
/// [`BrowserError`] if the browser does not start, or what the closure returned.
pub fn session<T, F>(browser: Program, test: T) -> Result<(), BrowserError>
where
    T: FnOnce(Page) -> F,
    F: Future<Output = Result<(), BrowserError>>,
{
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .map_err(BrowserError::Start)?;
    let driver = Driver::start(browser)?;
    let page = runtime.block_on(Page::connect(&driver, browser))?;

    // A panic in the test must not leave a browser behind.
    let outcome = panic::catch_unwind(AssertUnwindSafe(|| runtime.block_on(test(page.clone()))));
    if !matches!(outcome, Ok(Ok(()))) {
        runtime.block_on(leave_picture(&page));
    }
    let closed = runtime.block_on(page.close());
    match outcome {
        Ok(result) => result.and(closed),
        Err(cause) => panic::resume_unwind(cause),
    }
}

async fn leave_picture(page: &Page) {
    let Ok(workspace) = Workspace::around_here() else {
        return;
    };
    let folder: PathBuf = workspace.root().join("target/page-failures");
    let name = thread::current()
        .name()
        .unwrap_or("page")
        .replace("::", "-");
    let path = folder.join(name).with_extension("png");
    if fs::create_dir_all(&folder).is_ok() && page.screenshot(&path).await.is_ok() {
        eprintln!("The page as it was: {}", path.display());
    }
}
