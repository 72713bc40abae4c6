//! What the page says in the browser's console.

use thirtyfour::BrowserLogEntry;

use super::{BrowserError, Page, Program};

impl Page {
    /// Errors, and violations of the content security policy, since the last call.
    ///
    /// None in Firefox, whose driver does not tell them.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if the browser does not answer.
    pub async fn console_faults(&self) -> Result<Vec<String>, BrowserError> {
        if self.browser == Program::Firefox {
            return Ok(Vec::new());
        }
        let entries = self.driver.browser_log().await?;
        Ok(entries
            .into_iter()
            .filter(is_fault)
            .map(|entry| format!("{}: {}", entry.level, entry.message))
            .collect())
    }

    /// Fails if the console holds errors or violations of the content security policy.
    ///
    /// # Errors
    /// [`BrowserError::Console`] with the messages.
    pub async fn expect_no_faults(&self) -> Result<(), BrowserError> {
        let faults = self.console_faults().await?;
        if faults.is_empty() {
            Ok(())
        } else {
            Err(BrowserError::Console(faults))
        }
    }
}

fn is_fault(entry: &BrowserLogEntry) -> bool {
    // Some violations are reported as plain warnings.
    entry.level == "SEVERE" || entry.message.contains("Content Security Policy")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(level: &str, message: &str) -> BrowserLogEntry {
        BrowserLogEntry {
            level: level.to_owned(),
            message: message.to_owned(),
            timestamp: 0,
            source: None,
        }
    }

    #[test]
    fn errors_and_violations_are_faults_and_remarks_are_not() {
        assert!(is_fault(&entry("SEVERE", "Uncaught Error")));
        assert!(is_fault(&entry(
            "WARNING",
            "violates the Content Security Policy"
        )));
        assert!(!is_fault(&entry("WARNING", "slow")));
        assert!(!is_fault(&entry("INFO", "hello")));
    }
}
