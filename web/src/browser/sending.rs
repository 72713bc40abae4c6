//! The system's own way of sending something on, such as to a messenger, where the browser has it.

use crate::browser::files::blob_of;
use js_sys::{Array, Function, Object, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// Something to send.
pub enum Parcel {
    /// A link, or a text that is none.
    Text(String),
    /// A file: its name and its text.
    File(String, String),
}

/// What came of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sent {
    /// It is on its way.
    Sent,
    /// Whoever was asked thought better of it.
    Cancelled,
    /// The system does not take it.
    Refused,
}

fn method(name: &str) -> Option<(JsValue, Function)> {
    let navigator: JsValue = web_sys::window()?.navigator().into();
    let found = Reflect::get(&navigator, &name.into()).ok()?;
    Some((navigator, found.dyn_into().ok()?))
}

/// Whether the browser can send anything.
#[must_use]
pub fn is_possible() -> bool {
    method("share").is_some()
}

/// What the browser is told of a parcel.
fn told(title: &str, parcel: &Parcel) -> Option<Object> {
    let what = Object::new();
    let set = |key: &str, value: &JsValue| Reflect::set(&what, &key.into(), value).ok();
    set("title", &title.into())?;
    match parcel {
        Parcel::Text(text) => {
            let key = if text.starts_with("http") {
                "url"
            } else {
                "text"
            };
            set(key, &text.as_str().into())?;
        }
        Parcel::File(name, text) => {
            let blob = blob_of("application/json", text).ok()?;
            let file = web_sys::File::new_with_blob_sequence(&Array::of1(&blob), name).ok()?;
            set("files", &Array::of1(&file))?;
        }
    }
    Some(what)
}

/// Hands a parcel to the system, which asks where to.
pub async fn sent(title: &str, parcel: &Parcel) -> Sent {
    let begun = || -> Option<Promise> {
        let (navigator, share) = method("share")?;
        let what = told(title, parcel)?;
        if matches!(parcel, Parcel::File(..)) {
            let (_, can_share) = method("canShare")?;
            let takes = can_share.call1(&navigator, &what).ok()?;
            takes.is_truthy().then_some(())?;
        }
        share.call1(&navigator, &what).ok()?.dyn_into().ok()
    };
    let Some(promise) = begun() else {
        return Sent::Refused;
    };
    match JsFuture::from(promise).await {
        Ok(_) => Sent::Sent,
        Err(error) => {
            let name = Reflect::get(&error, &"name".into()).ok();
            if name.and_then(|name| name.as_string()).as_deref() == Some("AbortError") {
                Sent::Cancelled
            } else {
                Sent::Refused
            }
        }
    }
}
