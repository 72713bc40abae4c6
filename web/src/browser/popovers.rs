//! What unfolds over the page, the menu of the aircraft and what is shared: it closes when something else is
//! touched, and by Escape.

use crate::browser::window::{heard, on_key};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, Node};

/// What unfolds over the page.
const POPOVERS: &str = "details.menu[open], details.share[open]";

fn unfolded() -> Vec<Element> {
    let Some(found) = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.query_selector_all(POPOVERS).ok())
    else {
        return Vec::new();
    };
    (0..found.length())
        .filter_map(|at| found.get(at)?.dyn_into().ok())
        .collect()
}

/// Whether it lies over the page; on a phone the menu is the page as long as it is open, the tools in it.
fn lies_over(popover: &Element) -> bool {
    let body = popover.last_element_child();
    let style = body
        .zip(web_sys::window())
        .and_then(|(body, window)| window.get_computed_style(&body).ok().flatten());
    style
        .and_then(|style| style.get_property_value("position").ok())
        .is_some_and(|position| position == "absolute" || position == "fixed")
}

fn close(popover: &Element) {
    // An attribute can always be taken away.
    let _ = popover.remove_attribute("open");
}

/// Closes them as said, until what is returned is called.
pub fn close_by_themselves() -> impl FnOnce() {
    let by_touch = heard("pointerdown", |event| {
        let touched: Option<Node> = event.target().and_then(|target| target.dyn_into().ok());
        for popover in unfolded() {
            if !popover.contains(touched.as_ref()) && lies_over(&popover) {
                close(&popover);
            }
        }
    });
    let by_key = on_key(|event| {
        if event.key() != "Escape" {
            return;
        }
        for popover in unfolded() {
            close(&popover);
            let summary = popover.query_selector("summary").ok().flatten();
            if let Some(summary) =
                summary.and_then(|summary| summary.dyn_into::<HtmlElement>().ok())
            {
                let _ = summary.focus();
            }
        }
    });
    move || {
        by_touch();
        by_key();
    }
}
