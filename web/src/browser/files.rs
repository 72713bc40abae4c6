//! Saving to a file and opening one; everything stays on this machine.

use coolpath_core::language::tr;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, File, HtmlAnchorElement, Url};

/// Hands a text to the browser as a download, with its media type.
///
/// # Errors
/// What the browser says.
pub fn download(name: &str, media_type: &str, text: &str) -> Result<(), JsValue> {
    hand_over(name, &blob_of(media_type, text)?)
}

/// What is told of a file that was handed over as a download, or was refused.
#[must_use]
pub fn told(name: &str, done: Result<(), JsValue>) -> String {
    match done {
        Ok(()) => tr!("Saved as {}, in the browser's folder for downloads.", name),
        Err(error) => {
            // What a browser throws is an error with a message, or a text.
            let message = error
                .dyn_ref::<js_sys::Error>()
                .map(|error| String::from(error.message()))
                .or_else(|| error.as_string());
            tr!(
                "{} could not be saved: the browser refused the file{}.",
                name,
                message.map_or_else(String::new, |message| format!(" ({message})"))
            )
        }
    }
}

/// A text as the browser keeps a file, with its media type.
///
/// # Errors
/// What the browser says.
pub(super) fn blob_of(media_type: &str, text: &str) -> Result<Blob, JsValue> {
    let parts = js_sys::Array::of1(&JsValue::from_str(text));
    let kind = BlobPropertyBag::new();
    kind.set_type(media_type);
    Blob::new_with_str_sequence_and_options(&parts, &kind)
}

/// An element of a kind that stands nowhere on the page.
///
/// # Errors
/// What the browser says.
pub(super) fn loose_element<T: JsCast>(kind: &str) -> Result<T, JsValue> {
    let document = web_sys::window()
        .and_then(|window| window.document())
        .ok_or_else(|| JsValue::from_str("no document"))?;
    Ok(document.create_element(kind)?.unchecked_into())
}

/// Hands a file to the browser as a download.
///
/// # Errors
/// What the browser says.
pub(super) fn hand_over(name: &str, blob: &Blob) -> Result<(), JsValue> {
    let address = Url::create_object_url_with_blob(blob)?;
    let anchor: HtmlAnchorElement = loose_element("a")?;
    anchor.set_href(&address);
    anchor.set_download(name);
    anchor.click();
    Url::revoke_object_url(&address)
}

/// Text of a file that the builder picked.
///
/// # Errors
/// A sentence for the builder.
pub async fn text_of(file: File) -> Result<String, String> {
    const MOST_BYTES: f64 = 4e6;
    if file.size() > MOST_BYTES {
        return Err(tr!(
            "{} is too large for a design file. Nothing was changed.",
            file.name()
        ));
    }
    JsFuture::from(file.text())
        .await
        .ok()
        .and_then(|text| text.as_string())
        .ok_or_else(|| tr!("{} could not be read. Nothing was changed.", file.name()))
}
