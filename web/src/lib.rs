//! The Coolpath page, as a library, so that tests can mount it where they like.

pub mod browser;
pub mod charts;
#[cfg(all(test, not(target_arch = "wasm32")))]
mod damaged_texts;
pub mod decide;
pub mod design;
pub mod engine;
pub mod fly;
pub mod kit;
#[cfg(all(test, not(target_arch = "wasm32")))]
mod nothing_is_lost;
pub mod report;
pub mod share;
pub mod sheet;
pub mod shell;
pub mod state;
pub mod workshop;

use web_sys::Element;
use yew::{AppHandle, Renderer};

use crate::shell::app::{App, Props};
use crate::shell::later::Fetch;

/// Identifier of the element that the page is mounted on.
pub const ROOT_ID: &str = "coolpath";

/// Mounts the page on an element, replacing what the element held.
///
/// # Arguments
/// * `fetch` - what brings the views
pub fn mount(root: Element, fetch: Fetch) -> AppHandle<App> {
    Renderer::<App>::with_root_and_props(root, Props { fetch }).render()
}
