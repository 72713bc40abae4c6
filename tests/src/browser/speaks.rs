//! The language of the page as a test looks at it.

use super::{BrowserError, Page};
use crate::texts::made_up;

/// A language that a test reads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Speaks {
    /// As the tests name what they look for.
    English,
    /// The made-up language.
    MadeUp,
}

impl Page {
    /// Has the page speak the made-up language from now on, and looks for that; the page's site must have it.
    ///
    /// # Errors
    /// [`BrowserError`] if the page does not come again.
    pub async fn in_made_up(&self) -> Result<Self, BrowserError> {
        const CHOOSE: &str = "localStorage.setItem('coolpath:language', arguments[0]);";
        self.script(CHOOSE, vec![made_up::CODE.into()]).await?;
        self.reload().await?;
        let script = format!(
            "return document.documentElement.lang === '{}';",
            made_up::CODE
        );
        self.until("the made-up language", &script).await?;
        Ok(Self {
            speaks: Speaks::MadeUp,
            ..self.clone()
        })
    }

    /// What stands on the page in place of an English text.
    #[must_use]
    pub fn whole(&self, english: &str) -> String {
        match self.speaks {
            Speaks::English => english.to_owned(),
            Speaks::MadeUp => made_up::in_words(english),
        }
    }

    /// What stands on the page in place of a part of an English text.
    #[must_use]
    pub fn part(&self, english: &str) -> String {
        match self.speaks {
            Speaks::English => english.to_owned(),
            Speaks::MadeUp => made_up::accented(english),
        }
    }
}
