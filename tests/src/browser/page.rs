//! A browser tab and what a person can do with it.

use std::time::{Duration, Instant};

use serde_json::Value;
use thirtyfour::common::capabilities::chromium::ChromiumLikeCapabilities;
use thirtyfour::{By, DesiredCapabilities, LoggingPrefsLogLevel, WebDriver, WebElement};

use super::BrowserError;
use super::driver::{Driver, Program};
use super::speaks::Speaks;

/// How long a page may take to come to an expected state.
///
/// Generous, since two browsers and a compiler may share two cores.
const PATIENCE: Duration = Duration::from_secs(20);

/// Pause between two looks at the page.
const PAUSE: Duration = Duration::from_millis(40);

/// Nothing that needs a screen, a network, or a user's profile.
const SWITCHES: [&str; 9] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--window-size=1440,900",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
];

/// A browser tab; clones mean the same tab.
#[derive(Debug, Clone)]
pub struct Page {
    pub(super) driver: WebDriver,
    pub(super) browser: Program,
    pub(super) patience: Duration,
    pub(super) speaks: Speaks,
}

impl Page {
    pub(super) async fn connect(process: &Driver, browser: Program) -> Result<Self, BrowserError> {
        let driver = match browser {
            Program::Chromium => {
                let mut capabilities = DesiredCapabilities::chrome();
                for switch in SWITCHES {
                    capabilities.add_arg(switch)?;
                }
                capabilities.set_browser_log_level(LoggingPrefsLogLevel::All)?;
                WebDriver::new(process.url(), capabilities).await?
            }
            Program::Firefox => {
                let mut capabilities = DesiredCapabilities::firefox();
                capabilities.set_headless()?;
                WebDriver::new(process.url(), capabilities).await?
            }
        };
        Ok(Self {
            driver,
            browser,
            patience: PATIENCE,
            speaks: Speaks::English,
        })
    }

    /// The same tab, looked at for no longer than given when something is waited for.
    pub fn with_patience(&self, patience: Duration) -> Self {
        Self {
            patience,
            ..self.clone()
        }
    }

    pub(super) async fn close(self) -> Result<(), BrowserError> {
        Ok(self.driver.quit().await?)
    }

    /// Opens an address and waits until its files are loaded.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if the address cannot be reached.
    pub async fn open(&self, url: &str) -> Result<(), BrowserError> {
        Ok(self.driver.goto(url).await?)
    }

    /// Loads the page again.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if it cannot be reached any more.
    pub async fn reload(&self) -> Result<(), BrowserError> {
        Ok(self.driver.refresh().await?)
    }

    /// The address in the browser's address bar, with its fragment.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if the browser does not answer.
    pub async fn address(&self) -> Result<String, BrowserError> {
        Ok(self.driver.current_url().await?.to_string())
    }

    /// The first element that a CSS selector matches.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if there is none.
    pub async fn element(&self, selector: &str) -> Result<WebElement, BrowserError> {
        Ok(self.driver.find(By::Css(selector)).await?)
    }

    /// All elements that a CSS selector matches.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if the selector is not understood.
    pub async fn elements(&self, selector: &str) -> Result<Vec<WebElement>, BrowserError> {
        Ok(self.driver.find_all(By::Css(selector)).await?)
    }

    /// The text of an element as it is shown; empty while it is hidden.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if there is no such element.
    pub async fn text(&self, selector: &str) -> Result<String, BrowserError> {
        self.by_hand(selector, async |page: &Self| {
            Ok(page.element(selector).await?.text().await?)
        })
        .await
    }

    /// Clicks on the first element that a CSS selector matches.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if there is none, or it can't be clicked on.
    pub async fn click(&self, selector: &str) -> Result<(), BrowserError> {
        self.by_hand(selector, async |page: &Self| {
            Ok(page.element(selector).await?.click().await?)
        })
        .await
    }

    /// The value of a script's `return`.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if the script throws.
    pub async fn script(&self, body: &str, arguments: Vec<Value>) -> Result<Value, BrowserError> {
        let result = self.driver.execute(body, arguments).await?;
        Ok(result.json().clone())
    }

    /// Looks at the page until a probe returns something.
    ///
    /// # Arguments
    /// * `what` - what is waited for, in words, for the message
    /// * `probe` - returns `None` as long as it is not there
    ///
    /// # Errors
    /// [`BrowserError::InVain`] if it does not come, or the probe's own error.
    pub async fn wait_for<T>(
        &self,
        what: &str,
        mut probe: impl AsyncFnMut(&Self) -> Result<Option<T>, BrowserError>,
    ) -> Result<T, BrowserError> {
        let start = Instant::now();
        loop {
            if let Some(found) = probe(self).await? {
                return Ok(found);
            }
            if start.elapsed() > self.patience {
                return Err(BrowserError::InVain {
                    what: what.to_owned(),
                    limit: self.patience,
                });
            }
            tokio::time::sleep(PAUSE).await;
        }
    }

    /// Does something to an element, again from the start if the page replaces or moves the element under the
    /// hand: where the page as it was built gives way to the program, a view is drawn anew, or a panel grows.
    ///
    /// # Errors
    /// [`BrowserError::InVain`] if the element never stands still, or what the act returned.
    pub async fn by_hand<T>(
        &self,
        what: &str,
        mut act: impl AsyncFnMut(&Self) -> Result<T, BrowserError>,
    ) -> Result<T, BrowserError> {
        self.wait_for(what, async |page: &Self| match act(page).await {
            Err(error) if error.is_of_a_moving_page() => Ok(None),
            other => other.map(Some),
        })
        .await
    }

    /// Waits until a script returns true.
    ///
    /// # Arguments
    /// * `what` - what is waited for, in words, for the message
    ///
    /// # Errors
    /// [`BrowserError::InVain`] if it does not, or [`BrowserError::Driver`] if the script throws.
    pub async fn until(&self, what: &str, script: &str) -> Result<(), BrowserError> {
        self.wait_for(what, async |page: &Self| {
            let found = page.script(script, vec![]).await?;
            Ok(found.as_bool().unwrap_or_default().then_some(()))
        })
        .await
    }

    /// Waits until an element is shown with a text in it, and returns its whole text.
    ///
    /// # Errors
    /// [`BrowserError::InVain`] if that does not happen.
    pub async fn wait_for_text(&self, selector: &str, part: &str) -> Result<String, BrowserError> {
        let part = self.part(part);
        let what = format!("`{part}` in {selector}");
        self.wait_for(&what, async |page: &Self| {
            // In one script: an element held across two commands may be replaced in between.
            let shown = page.shown_texts(selector).await?;
            Ok(shown.into_iter().find(|text| text.contains(&part)))
        })
        .await
    }

    /// The texts of all elements that a CSS selector matches, as they are shown.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if the selector is not understood.
    pub async fn shown_texts(&self, selector: &str) -> Result<Vec<String>, BrowserError> {
        // What is out of sight may have no text until it is scrolled to, as a person would.
        const SHOWN: &str = "return Array.from(document.querySelectorAll(arguments[0]))\
            .filter((element) => element.checkVisibility())\
            .map((element) => { if (!element.innerText) element.scrollIntoView({ block: 'nearest' });\
                return element.innerText; });";
        let texts = self.script(SHOWN, vec![selector.into()]).await?;
        serde_json::from_value(texts.clone()).map_err(|_| BrowserError::Script(texts.to_string()))
    }
}
