//! The clipboard, and how the browser's language writes a number.

use coolpath_core::language::decimal_mark;
use wasm_bindgen_futures::JsFuture;

/// Puts a text into the clipboard; whether the browser let it.
pub async fn copied(text: &str) -> bool {
    let Some(window) = web_sys::window() else {
        return false;
    };
    let clipboard = window.navigator().clipboard();
    // Pages from a disk and pages that are not served securely may have none.
    if clipboard.is_undefined() {
        return false;
    }
    JsFuture::from(clipboard.write_text(text)).await.is_ok()
}

/// Whether the page's language, or the browser's, has a decimal comma.
#[must_use]
pub fn has_decimal_comma() -> bool {
    if decimal_mark() == ',' {
        return true;
    }
    let language = web_sys::window().and_then(|window| window.navigator().language());
    let number = js_sys::Number::from(1.5);
    let text = number.to_locale_string(language.as_deref().unwrap_or("en"));
    String::from(text).contains(',')
}
