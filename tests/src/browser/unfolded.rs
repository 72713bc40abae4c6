//! The page with everything that it can show at once.

use std::path::Path;

use super::{BrowserError, Page};

/// Places of the page that differ in what they show, by their fragments.
pub const PLACES: [&str; 7] = [
    "design", "inputs", "results", "decide", "fly", "workshop", "report",
];
/// Dialogs, by the button or the list that opens them.
pub const DIALOGS: [&str; 3] = ["Keyboard shortcuts", "About", "Units"];

impl Page {
    /// Goes to a place, has it show what it can, and unfolds all of it.
    ///
    /// # Arguments
    /// * `place` - one of [`PLACES`]
    /// * `log` - a flight log for the view that reads one
    ///
    /// # Errors
    /// [`BrowserError`] if something of it does not come.
    pub async fn go_and_unfold(&self, place: &str, log: &Path) -> Result<(), BrowserError> {
        self.go(place).await?;
        match place {
            "results" => {
                self.wait_for_text(".answers .band", "…").await?;
            }
            "decide" => self.compare_and_size().await?,
            "fly" => self.prove(log).await?,
            "report" => {
                self.wait_for_text("#report .report", "Numbers put in")
                    .await?;
            }
            _ => {}
        }
        self.unfold_view().await
    }

    async fn unfold_view(&self) -> Result<(), BrowserError> {
        const UNFOLD: &str = "document.querySelectorAll('.view:not([hidden]) details')\
            .forEach((part) => { part.open = true; });";
        self.script(UNFOLD, vec![]).await?;
        Ok(())
    }

    async fn compare_and_size(&self) -> Result<(), BrowserError> {
        const ADD: &str = "for (const button of document.querySelectorAll('#compare .phrases button'))\
            if (button.textContent.includes(arguments[0])\
                && !document.querySelector('#alternative-0')) button.click();";
        self.script(ADD, vec![self.part("Hard plenum").into()])
            .await?;
        self.wait_for_text("#card td", "of 6").await?;
        self.wait_for_text("#size figure", "CHT, oil and drag over")
            .await?;
        self.jobs_are_drawn().await
    }

    /// Waits for what the three jobs of the decide view find by themselves, which makes their panels longer.
    ///
    /// # Errors
    /// [`BrowserError`] if something of it does not come.
    pub async fn jobs_are_drawn(&self) -> Result<(), BrowserError> {
        self.wait_for_text("#size figure", "you are here").await?;
        self.wait_for_text("#compare .compare-charts", "Hottest CHT, exit as it is")
            .await?;
        self.wait_for_text("#card > .figure", "Oil with a jammed shutter")
            .await?;
        Ok(())
    }

    async fn prove(&self, log: &Path) -> Result<(), BrowserError> {
        // Panels are drawn one after another; this is the last.
        self.wait_for_text(".view:not([hidden])", "Change log")
            .await?;
        self.unfold_view().await?;
        self.choose_file("Choose a log", log).await?;
        self.wait_for_text("#log figure", "Heads and oil").await?;
        self.add_stretches().await?;
        self.press_anywhere("Find the values").await?;
        self.wait_for_text("#calibrate figure", "Predicted against")
            .await?;
        self.press_anywhere("Correct the readings").await?;
        self.wait_for_text("#hot-day table", "By the rule").await?;
        self.press_anywhere("Add a change").await
    }

    /// Opens one of [`DIALOGS`].
    ///
    /// # Errors
    /// [`BrowserError`] if it does not come.
    pub async fn open_dialog(&self, name: &str) -> Result<(), BrowserError> {
        if name == "Units" {
            self.open_menu().await?;
            const LAST: &str = "const list = document.querySelector('#units');\
                list.selectedIndex = list.options.length - 1;\
                list.dispatchEvent(new Event('change', { bubbles: true }));";
            self.script(LAST, vec![]).await?;
        } else {
            self.press_anywhere(name).await?;
        }
        self.wait_for_text("dialog[open]", "Close").await?;
        Ok(())
    }

    /// Closes the dialog that is open.
    ///
    /// # Errors
    /// [`BrowserError`] if there is none, or it stays.
    pub async fn close_dialog(&self) -> Result<(), BrowserError> {
        self.script("document.querySelector('dialog').close();", vec![])
            .await?;
        self.until(
            "no dialog",
            "return document.querySelector('dialog') === null;",
        )
        .await
    }

    /// Presses a button wherever it stands, even under the line at the bottom of a phone's window.
    async fn press_anywhere(&self, button: &str) -> Result<(), BrowserError> {
        const PRESS: &str = "[...document.querySelectorAll('button')]\
            .find((button) => button.textContent.trim() === arguments[0]).click();";
        self.script(PRESS, vec![self.whole(button).into()]).await?;
        Ok(())
    }
}
