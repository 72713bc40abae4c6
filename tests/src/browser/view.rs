//! How the page is shown: width, colours, paper, and pictures of it.

use std::fs;
use std::path::Path;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};

use super::{BrowserError, Page};

/// Colours that the system prefers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Theme {
    /// Dark on light.
    Light,
    /// Light on dark.
    Dark,
}

impl Theme {
    /// The theme's name in style sheets.
    pub fn name(self) -> &'static str {
        match self {
            Self::Light => "light",
            Self::Dark => "dark",
        }
    }
}

/// What the page is shown on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Medium {
    /// A screen.
    Screen,
    /// Paper.
    Print,
}

impl Medium {
    fn name(self) -> &'static str {
        match self {
            Self::Screen => "screen",
            Self::Print => "print",
        }
    }
}

impl Page {
    /// Sets the size of the visible part of the page, in CSS pixels.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if the browser refuses.
    pub async fn set_viewport(&self, width_px: u32, height_px: u32) -> Result<(), BrowserError> {
        let metrics = json!({
            "width": width_px,
            "height": height_px,
            "deviceScaleFactor": 1,
            "mobile": width_px < 600,
        });
        self.command("Emulation.setDeviceMetricsOverride", metrics)
            .await?;
        Ok(())
    }

    /// Lets the processor seem so many times slower, for scripts and layout.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if the browser refuses.
    pub async fn slow_processor(&self, times: f64) -> Result<(), BrowserError> {
        self.command("Emulation.setCPUThrottlingRate", json!({ "rate": times }))
            .await?;
        Ok(())
    }

    /// Runs a script in every document that is opened from now on, before its own.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if the browser refuses.
    pub async fn begin_documents_with(&self, script: &str) -> Result<(), BrowserError> {
        self.command(
            "Page.addScriptToEvaluateOnNewDocument",
            json!({ "source": script }),
        )
        .await?;
        Ok(())
    }

    /// Shows the page on a medium, for someone who prefers a theme.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if the browser refuses.
    pub async fn show(&self, theme: Theme, medium: Medium) -> Result<(), BrowserError> {
        let media = json!({
            "media": medium.name(),
            "features": [{ "name": "prefers-color-scheme", "value": theme.name() }],
        });
        self.command("Emulation.setEmulatedMedia", media).await?;
        Ok(())
    }

    /// How far the page is wider than its visible part, px; 0 if nothing must be scrolled sideways.
    ///
    /// # Errors
    /// [`BrowserError`] if the browser does not answer.
    pub async fn sideways_overflow_px(&self) -> Result<i64, BrowserError> {
        const OVERFLOW: &str = "const root = document.documentElement;\
            return Math.ceil(root.scrollWidth - root.clientWidth);";
        let overflow = self.script(OVERFLOW, vec![]).await?;
        overflow
            .as_i64()
            .ok_or_else(|| BrowserError::Script(overflow.to_string()))
    }

    /// Writes a picture of the whole page, PNG, also of what must be scrolled to.
    ///
    /// # Errors
    /// [`BrowserError`] if the picture cannot be taken or the file not be written.
    pub async fn screenshot(&self, file: &Path) -> Result<(), BrowserError> {
        // Measured by a script, which brings the layout up to date first.
        const SIZE: &str = "const root = document.documentElement;\
            return [Math.max(root.scrollWidth, root.clientWidth),\
                Math.max(root.scrollHeight, root.clientHeight)];";
        let size = self.script(SIZE, vec![]).await?;
        let clip = json!({ "x": 0, "y": 0, "width": size[0], "height": size[1], "scale": 1 });
        let how = json!({ "captureBeyondViewport": true, "clip": clip });
        self.capture(how, file).await
    }

    /// Takes the scroll bars away, for what is opened afterwards.
    ///
    /// # Errors
    /// [`BrowserError::Driver`] if the browser refuses.
    pub async fn hide_scrollbars(&self) -> Result<(), BrowserError> {
        self.command("Emulation.setScrollbarsHidden", json!({ "hidden": true }))
            .await?;
        Ok(())
    }

    /// Writes a picture of what the window shows, WebP, small enough for a page about the program.
    ///
    /// # Errors
    /// [`BrowserError`] if the picture cannot be taken or the file not be written.
    pub async fn window_picture(&self, file: &Path) -> Result<(), BrowserError> {
        self.capture(json!({ "format": "webp", "quality": 82 }), file)
            .await
    }

    async fn capture(&self, how: Value, file: &Path) -> Result<(), BrowserError> {
        let picture = self.command("Page.captureScreenshot", how).await?;
        let bytes = picture["data"]
            .as_str()
            .and_then(|text| STANDARD.decode(text).ok())
            .ok_or_else(|| BrowserError::Script("no picture".to_owned()))?;
        fs::write(file, bytes).map_err(|source| BrowserError::File {
            path: file.to_owned(),
            source,
        })
    }

    async fn command(&self, method: &str, parameters: Value) -> Result<Value, BrowserError> {
        Ok(self.driver.cdp().send_raw(method, parameters).await?)
    }
}
