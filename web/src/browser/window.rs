//! The browser's window: its width, and going to a section.

use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use web_sys::{HtmlElement, StorageEvent};
use yew::prelude::*;

/// Room that the page's margins take, CSS pixels.
const MARGINS: f64 = 44.0;

fn width() -> u32 {
    web_sys::window()
        .and_then(|window| window.inner_width().ok())
        .and_then(|width| width.as_f64())
        .map_or(640, |width| (width - MARGINS).max(0.0) as u32)
}

/// Width for charts, CSS pixels, followed as the window changes.
#[hook]
pub fn use_width() -> u32 {
    let current = use_state(width);
    {
        let current = current.clone();
        use_effect_with((), move |()| heard("resize", move |_| current.set(width())));
    }
    *current
}

/// Calls back at every event of a kind that the window hears, until what is returned is called.
fn heard(kind: &'static str, call: impl Fn(Event) + 'static) -> impl FnOnce() {
    let listener = Closure::<dyn Fn(Event)>::new(call);
    if let Some(window) = web_sys::window() {
        let _ = window.add_event_listener_with_callback(kind, listener.as_ref().unchecked_ref());
    }
    move || {
        if let Some(window) = web_sys::window() {
            let _ =
                window.remove_event_listener_with_callback(kind, listener.as_ref().unchecked_ref());
        }
    }
}

/// Scrolls to an element and gives it the focus.
pub fn go_to(id: &str) {
    let element = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id(id));
    if let Some(element) = element {
        element.scroll_into_view();
        if let Ok(element) = element.dyn_into::<HtmlElement>() {
            let _ = element.focus();
        }
    }
}

/// Scrolls to the top of the page.
pub fn to_top() {
    if let Some(window) = web_sys::window() {
        window.scroll_to_with_x_and_y(0.0, 0.0);
    }
}

/// Goes to a place by the link's fragment, as a link would.
pub fn set_fragment(place: &str) {
    if let Some(window) = web_sys::window() {
        let _ = window.location().set_hash(place);
    }
}

/// Prints what is shown.
pub fn print() {
    if let Some(window) = web_sys::window() {
        let _ = window.print();
    }
}

/// Prints with a class on the body, so that the style sheet shows one part alone.
pub fn print_only(class: &str) {
    let Some(window) = web_sys::window() else {
        return;
    };
    if let Some(body) = window.document().and_then(|document| document.body()) {
        let before = body.class_name();
        body.set_class_name(class);
        // Returns when the browser's own dialogue is done.
        let _ = window.print();
        body.set_class_name(&before);
    }
}

/// Address of the page without query and fragment, if it came from a server.
#[must_use]
pub fn address() -> Option<String> {
    let location = web_sys::window()?.location();
    let protocol = location.protocol().ok()?;
    if protocol != "http:" && protocol != "https:" {
        return None;
    }
    Some(format!(
        "{}{}",
        location.origin().ok()?,
        location.pathname().ok()?
    ))
}

/// The address's fragment, without its `#`; empty where there is none.
#[must_use]
pub fn fragment() -> String {
    web_sys::window()
        .and_then(|window| window.location().hash().ok())
        .map_or_else(String::new, |hash| hash.trim_start_matches('#').to_owned())
}

/// Takes the fragment out of the address, so that a reload does not ask again.
pub fn drop_fragment() {
    let Some(window) = web_sys::window() else {
        return;
    };
    if let (Ok(history), Ok(path)) = (window.history(), window.location().pathname()) {
        // Files from a disk refuse this; then the question comes again with a reload.
        let _ = history.replace_state_with_url(&wasm_bindgen::JsValue::NULL, "", Some(&path));
    }
}

/// Calls back when the link's fragment changes, until what is returned is called.
pub fn on_fragment(changed: impl Fn() + 'static) -> impl FnOnce() {
    heard("hashchange", move |_| changed())
}

/// Today, as year-month-day.
#[must_use]
pub fn today() -> String {
    let now = js_sys::Date::new_0();
    format!(
        "{:04}-{:02}-{:02}",
        now.get_full_year(),
        now.get_month() + 1,
        now.get_date()
    )
}

/// Calls back when another window of this page stores something under a key, until what is
/// returned is called.
pub fn on_stored_elsewhere(key: &'static str, stored: impl Fn() + 'static) -> impl FnOnce() {
    heard("storage", move |event| {
        let other = event.dyn_ref::<StorageEvent>().and_then(StorageEvent::key);
        if other.as_deref() == Some(key) {
            stored();
        }
    })
}
