//! How long the page takes, and keeps the browser from answering.

use serde_json::Value;

use super::{BrowserError, Page};

const WATCH: &str = "window.watch?.disconnect(); window.long = [];\
    window.watch = new PerformanceObserver((list) => {\
        window.long.push(...list.getEntries().map((entry) => entry.duration)); });\
    window.watch.observe({ entryTypes: ['longtask'] });\
    window.begun = 0; window.ended = 0;\
    const begin = () => { window.begun ||= performance.now(); };\
    addEventListener('click', begin, true); addEventListener('change', begin, true);\
    const [selector, part] = arguments;\
    window.sight?.disconnect();\
    window.sight = new MutationObserver(() => { if (window.begun && !window.ended\
        && document.querySelector(selector)?.textContent.includes(part)) window.ended = performance.now(); });\
    window.sight.observe(document.body, { childList: true, subtree: true, characterData: true });";

/// What a piece of work took.
#[derive(Debug, Clone, Copy)]
pub struct Taken {
    /// From the first click or choice to the text that ends the work, ms.
    pub whole_ms: f64,
    /// Longest task, ms; zero if none took 50 ms, which is what a browser reports.
    pub longest_task_ms: f64,
}

impl Page {
    /// Times a piece of work.
    ///
    /// # Arguments
    /// * `selector`, `part` - the element and the text in it that end the work
    /// * `work` - begins it by a click or a choice
    ///
    /// # Errors
    /// [`BrowserError`] if the text does not come.
    pub async fn timed(
        &self,
        selector: &str,
        part: &str,
        work: impl AsyncFnOnce(&Self) -> Result<(), BrowserError>,
    ) -> Result<Taken, BrowserError> {
        self.script(WATCH, vec![selector.into(), part.into()])
            .await?;
        work(self).await?;
        self.until(part, "return window.ended > 0;").await?;
        const FOUND: &str = "return [window.ended - window.begun, Math.max(0, ...window.long)];";
        let found = numbers(&self.script(FOUND, vec![]).await?);
        match found[..] {
            [whole_ms, longest_task_ms] => Ok(Taken {
                whole_ms,
                longest_task_ms,
            }),
            _ => Err(BrowserError::Script(format!("{found:?}"))),
        }
    }
}

/// The numbers of an array that a script returned.
pub fn numbers(found: &Value) -> Vec<f64> {
    found
        .as_array()
        .into_iter()
        .flatten()
        .filter_map(Value::as_f64)
        .collect()
}
