//! What a test of this page begins with.

use super::{BrowserError, Page};
use std::path::Path;

/// The program of the view that is shown has come, or has been said not to; until it is known to take a
/// while, nothing at all stands in the view.
const ARRIVED: &str = "if (document.querySelector('.early')) return false;\
    const view = document.querySelector('.view:not([hidden])');\
    return view === null || view.childElementCount > 0\
        && view.querySelector(':scope > [role=status]') === null;";

impl Page {
    /// Opens the page, takes the example where nothing is stored yet, and waits for its verdict.
    ///
    /// # Errors
    /// [`BrowserError`] if it does not come.
    pub async fn visit(&self, url: &str) -> Result<(), BrowserError> {
        self.open(url).await?;
        // In one script with the look: the first visit's screen goes when its button is pressed.
        const BEGIN: &str = "const begin = [...document.querySelectorAll('.first-use button')]\
                .find((button) => button.textContent === 'Try the example');\
            if (begin) begin.click();\
            return document.querySelector('.verdict') !== null;";
        self.until("the page itself", BEGIN).await?;
        // A name of the example's, which is the same in every language.
        const COME: &str = "return document.body.innerText.includes('Take-off climb, hot day');";
        self.until("the example", COME).await?;
        self.until("the view", ARRIVED).await
    }

    /// Goes to a place of the page by its fragment, as its links do.
    ///
    /// # Errors
    /// [`BrowserError`] if its element does not come.
    pub async fn go(&self, place: &str) -> Result<(), BrowserError> {
        self.script("location.hash = arguments[0];", vec![place.into()])
            .await?;
        let shown = format!(
            "const place = document.getElementById('{place}');\
             return place !== null && place.checkVisibility();"
        );
        self.until(place, &shown).await?;
        self.until("the view", ARRIVED).await
    }

    /// Opens the menu of aircraft, files and designs kept.
    ///
    /// # Errors
    /// [`BrowserError`] if there is none.
    pub async fn open_menu(&self) -> Result<(), BrowserError> {
        self.unfold(".aircraft").await
    }

    /// As [`Page::visit`], then as [`Page::settle`].
    ///
    /// # Errors
    /// [`BrowserError`] if either does not come.
    pub async fn visit_and_settle(&self, url: &str) -> Result<(), BrowserError> {
        self.visit(url).await?;
        self.settle().await
    }

    /// Waits until nothing is being worked out any more: the table of answers and the charts have
    /// their bands.
    ///
    /// # Errors
    /// [`BrowserError`] if they do not come.
    pub async fn settle(&self) -> Result<(), BrowserError> {
        self.go("results").await?;
        self.wait_for_text(".answers .band", "…").await?;
        self.until(
            "bands on the charts",
            "return document.querySelectorAll('.chart polygon').length >= 6;",
        )
        .await
    }

    /// Unfolds a part of the page as soon as it is there.
    ///
    /// # Errors
    /// [`BrowserError::InVain`] if there is no such part.
    pub async fn unfold(&self, panel: &str) -> Result<(), BrowserError> {
        let script = format!(
            "const part = document.querySelector('{panel}');\
             if (part) part.open = true; return part !== null;"
        );
        self.until(panel, &script).await
    }

    /// Has the page read a log, and waits for its chart.
    ///
    /// # Errors
    /// [`BrowserError`] if it is not read.
    pub async fn read_log(&self, file: &Path) -> Result<(), BrowserError> {
        self.go("fly").await?;
        self.unfold("#log").await?;
        self.choose_file("Choose a log", file).await?;
        self.wait_for_text("#log figure", "Heads and oil over the log")
            .await?;
        Ok(())
    }

    /// Adds every stretch of the log that was read to the readings.
    ///
    /// # Errors
    /// [`BrowserError`] if the browser does not answer.
    pub async fn add_stretches(&self) -> Result<(), BrowserError> {
        const ADD: &str = "for (const button of document.querySelectorAll('#log button[aria-label]'))\
            if (button.ariaLabel.includes(arguments[0])) button.click();";
        self.script(ADD, vec![self.part("Add ").into()]).await?;
        Ok(())
    }
}
