//! The browser's window: its width, and going to a section.

use coolpath_core::language::tr;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use web_sys::{Element, HtmlElement, HtmlInputElement, KeyboardEvent, StorageEvent};
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
pub(super) fn heard(kind: &'static str, call: impl Fn(Event) + 'static) -> impl FnOnce() {
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

/// What a hand does to a page.
const BY_HAND: [&str; 4] = ["wheel", "touchstart", "pointerdown", "keydown"];

/// Calls when the page is touched, by a wheel, a finger, a pointer or a key.
///
/// # Returns
/// What ends it.
pub fn on_hand(call: impl Fn() + Clone + 'static) -> impl FnOnce() {
    let ends = BY_HAND.map(|kind| {
        let call = call.clone();
        heard(kind, move |_| call())
    });
    move || ends.into_iter().for_each(|end| end())
}

fn element(id: &str) -> Option<Element> {
    web_sys::window()?.document()?.get_element_by_id(id)
}

/// How far an element stands below the top of the page, and how long the page is, CSS px; `None` if it is not
/// here or not shown.
#[must_use]
pub fn place_of(id: &str) -> Option<(f64, i32)> {
    let element = element(id)?;
    let area = element.get_bounding_client_rect();
    (area.width() > 0.0).then_some(())?;
    let scrolled_px = web_sys::window()?.scroll_y().ok()?;
    let whole = element.owner_document()?.document_element()?;
    Some((area.top() + scrolled_px, whole.scroll_height()))
}

/// Scrolls to an element.
pub fn scroll_to(id: &str) {
    if let Some(element) = element(id) {
        element.scroll_into_view();
    }
}

/// Scrolls to an element and gives it the focus.
pub fn go_to(id: &str) {
    scroll_to(id);
    if let Some(element) = element(id).and_then(|element| element.dyn_into::<HtmlElement>().ok()) {
        let _ = element.focus();
    }
}

/// What was begun before the program was there: `data-begun` of the document.
#[must_use]
pub fn begun_early() -> Option<String> {
    web_sys::window()?
        .document()?
        .document_element()?
        .get_attribute("data-begun")
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

/// What the page's head says under a name.
#[must_use]
pub fn meta(name: &str) -> Option<String> {
    let document = web_sys::window()?.document()?;
    let element = document.query_selector(&format!("meta[name={name}]"));
    element.ok()??.get_attribute("content")
}

/// Address of a file that lies beside the page's scripts, wherever the page itself was opened.
#[must_use]
pub fn beside_scripts(name: &str) -> String {
    let script = || {
        let document = web_sys::window()?.document()?;
        let script = document.query_selector("script[type=module][src]").ok()??;
        let own: web_sys::HtmlScriptElement = script.dyn_into().ok()?;
        let address = own.src();
        let folder = address.rsplit_once('/')?.0.to_owned();
        Some(format!("{folder}/{name}"))
    };
    script().unwrap_or_else(|| name.to_owned())
}

/// How the browser calls itself.
#[must_use]
pub fn browser() -> String {
    web_sys::window()
        .and_then(|window| window.navigator().user_agent().ok())
        .unwrap_or_else(|| tr("not known").to_owned())
}

/// Value of a colour, or another variable, of the style sheet by its name.
#[must_use]
pub fn style_variable(name: &str) -> String {
    web_sys::window()
        .and_then(|window| {
            let root = window.document()?.document_element()?;
            window.get_computed_style(&root).ok().flatten()
        })
        .and_then(|style| style.get_property_value(name).ok())
        .unwrap_or_default()
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

/// Whether the page stands in a frame of another.
#[must_use]
pub fn is_framed() -> bool {
    let Some(window) = web_sys::window() else {
        return false;
    };
    let parent = window.parent().ok().flatten();
    parent.is_some_and(|parent| parent != window)
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

/// Calls back with key and text when another window of this page stores something, until what is
/// returned is called.
pub fn on_stored_elsewhere(stored: impl Fn(&str, &str) + 'static) -> impl FnOnce() {
    heard("storage", move |event| {
        if let Some(event) = event.dyn_ref::<StorageEvent>()
            && let (Some(key), Some(text)) = (event.key(), event.new_value())
        {
            stored(&key, &text);
        }
    })
}

/// Calls back when the page is left (`false`) and when it is shown again (`true`), until what is
/// returned is called.
pub fn on_leaving(changed: impl Fn(bool) + 'static) -> impl FnOnce() {
    let changed = std::rc::Rc::new(changed);
    let again = changed.clone();
    let (left, shown) = (
        heard("pagehide", move |_| changed(false)),
        heard("pageshow", move |_| again(true)),
    );
    move || {
        left();
        shown();
    }
}

/// Calls back at every key that is pressed, until what is returned is called.
pub fn on_key(pressed: impl Fn(KeyboardEvent) + 'static) -> impl FnOnce() {
    heard("keydown", move |event| {
        if let Ok(event) = event.dyn_into::<KeyboardEvent>() {
            pressed(event);
        }
    })
}

/// Name of the field in which one types now.
#[must_use]
pub fn typed_in() -> Option<String> {
    let element = web_sys::window()?.document()?.active_element()?;
    let is_text = match element.dyn_ref::<HtmlInputElement>() {
        Some(input) => matches!(input.type_().as_str(), "text" | "search" | "number" | "url"),
        None => element.tag_name() == "TEXTAREA",
    };
    is_text.then(|| element.id())
}

/// Asks the browser to keep this page's storage even when room is short; whether it promises.
pub async fn ask_to_persist() -> Option<bool> {
    let manager = web_sys::window()?.navigator().storage();
    // Old browsers, and pages that are not served securely, have none.
    if manager.is_undefined() {
        return None;
    }
    let asked = manager.persist().ok()?;
    wasm_bindgen_futures::JsFuture::from(asked)
        .await
        .ok()?
        .as_bool()
}

/// A time, ms since 1970, as the builder's clock shows it.
#[must_use]
pub fn clock_time(ms: f64) -> String {
    if ms <= 0.0 {
        return tr("time not noted").to_owned();
    }
    let date = js_sys::Date::new(&wasm_bindgen::JsValue::from_f64(ms));
    format!(
        "{:04}-{:02}-{:02} {:02}:{:02}",
        date.get_full_year(),
        date.get_month() + 1,
        date.get_date(),
        date.get_hours(),
        date.get_minutes()
    )
}
