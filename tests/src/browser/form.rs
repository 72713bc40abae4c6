//! Fields, choices and buttons, found by the words a person sees.

use std::path::Path;

use serde_json::Value;
use thirtyfour::{By, Key, WebElement};

use super::{BrowserError, Page};

/// Marks the controls of all labels that read as asked, and returns all labels' texts.
const MARK_BY_LABEL: &str = "\
    const wanted = arguments[0];\
    const read = (label) => label.textContent.replace(/\\s+/g, ' ').trim();\
    const labels = Array.from(document.querySelectorAll('label')).filter((label) => label.control);\
    let found = labels.filter((label) => read(label) === wanted);\
    if (found.length === 0) found = labels.filter((label) => read(label).startsWith(wanted));\
    return { controls: found.map((label) => label.control), texts: labels.map(read) };";

impl Page {
    /// The field whose label reads as given, or else begins so.
    ///
    /// # Errors
    /// [`BrowserError::Label`] unless there is exactly one.
    pub async fn field(&self, label: &str) -> Result<WebElement, BrowserError> {
        let found = self
            .script(MARK_BY_LABEL, vec![self.whole(label).into()])
            .await?;
        let controls = found["controls"].as_array().cloned().unwrap_or_default();
        if let [control] = &controls[..] {
            return Ok(WebElement::from_json(
                control.clone(),
                self.driver.handle().clone(),
            )?);
        }
        let texts: Vec<&str> = found["texts"]
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(Value::as_str)
            .collect();
        Err(BrowserError::Label {
            label: label.to_owned(),
            count: controls.len(),
            present: texts.join(" | "),
        })
    }

    /// What a field holds; nothing if it has no value.
    ///
    /// # Errors
    /// [`BrowserError`] unless the selector finds an element.
    pub async fn value(&self, selector: &str) -> Result<String, BrowserError> {
        self.by_hand(selector, async |page: &Self| {
            let held = page.element(selector).await?.value().await?;
            Ok(held.unwrap_or_default())
        })
        .await
    }

    /// Replaces a field's text key by key, as a person would.
    ///
    /// # Errors
    /// [`BrowserError`] if there is no such field or it takes no text.
    pub async fn type_into(&self, label: &str, text: &str) -> Result<(), BrowserError> {
        self.by_hand(label, async |page: &Self| {
            replace(&page.field(label).await?, text).await
        })
        .await
    }

    /// As [`Page::type_into`], for the field that a CSS selector matches.
    ///
    /// # Errors
    /// [`BrowserError`] if there is no such field or it takes no text.
    pub async fn retype(&self, selector: &str, text: &str) -> Result<(), BrowserError> {
        self.by_hand(selector, async |page: &Self| {
            replace(&page.element(selector).await?, text).await
        })
        .await
    }

    /// The text that stands in a field.
    ///
    /// # Errors
    /// [`BrowserError`] if there is no such field.
    pub async fn typed(&self, label: &str) -> Result<String, BrowserError> {
        self.by_hand(label, async |page: &Self| {
            let held = page.field(label).await?.value().await?;
            Ok(held.unwrap_or_default())
        })
        .await
    }

    /// Chooses an option of a list by its text.
    ///
    /// # Errors
    /// [`BrowserError`] if there is no such list or option.
    pub async fn choose(&self, label: &str, option: &str) -> Result<(), BrowserError> {
        let literal = xpath_literal(option);
        let path = format!("./option[normalize-space()={literal}]");
        self.by_hand(label, async |page: &Self| {
            let list = page.field(label).await?;
            let option = list.find(By::XPath(path.as_str())).await?;
            Ok(option.click().await?)
        })
        .await
    }

    /// Presses the button that reads as given.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if there is none.
    pub async fn press(&self, button: &str) -> Result<(), BrowserError> {
        let path = format!(
            "//button[normalize-space()={}]",
            xpath_literal(&self.whole(button))
        );
        // Away from what stays at the top and the bottom, where a person would have it.
        const MIDDLE: &str = "arguments[0].scrollIntoView({ block: 'center' });";
        self.by_hand(button, async |page: &Self| {
            let element = page.driver.find(By::XPath(path.as_str())).await?;
            page.script(MIDDLE, vec![element.to_json()?]).await?;
            Ok(element.click().await?)
        })
        .await
    }

    /// Puts a file into a file field.
    ///
    /// # Errors
    /// [`BrowserError`] if there is no such field.
    pub async fn choose_file(&self, label: &str, file: &Path) -> Result<(), BrowserError> {
        let field = self.field(label).await?;
        Ok(field.send_keys(file.display().to_string()).await?)
    }

    /// Saves what the page offers for download in a folder, without asking.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if the browser refuses.
    pub async fn save_downloads_in(&self, folder: &Path) -> Result<(), BrowserError> {
        let behaviour = serde_json::json!({ "behavior": "allow", "downloadPath": folder });
        self.driver
            .cdp()
            .send_raw("Browser.setDownloadBehavior", behaviour)
            .await?;
        Ok(())
    }
}

/// Replaces the text of a field key by key.
async fn replace(field: &WebElement, text: &str) -> Result<(), BrowserError> {
    field.send_keys(Key::Control + "a").await?;
    if text.is_empty() {
        field.send_keys(Key::Delete + "").await?;
    } else {
        field.send_keys(text).await?;
    }
    Ok(())
}

/// A string for an XPath expression, which knows no escapes.
fn xpath_literal(text: &str) -> String {
    if text.contains('\'') {
        format!("concat('{}')", text.replace('\'', "', \"'\", '"))
    } else {
        format!("'{text}'")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_with_quotes_becomes_a_concatenation() {
        assert_eq!(xpath_literal("Save"), "'Save'");
        assert_eq!(
            xpath_literal("the \"builder's\""),
            r#"concat('the "builder', "'", 's"')"#
        );
    }
}
