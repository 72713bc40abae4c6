//! The Coolpath page, as a library, so that tests can mount it where they like.

pub mod app;
pub mod area_rows;
pub mod charts;
pub mod choices;
pub mod comparison;
pub mod components;
pub mod cut;
pub mod drawing;
pub mod files;
pub mod flight_plan;
pub mod format;
pub mod gauge_words;
pub mod guesses;
#[cfg(all(test, not(target_arch = "wasm32")))]
mod hostile;
pub mod log_memory;
pub mod markup;
pub mod pace;
pub mod share;
pub mod sheet;
pub mod shutter_words;
pub mod size_request;
pub mod starter;
pub mod state;
pub mod storage;
pub mod test_cards;
pub mod window;

use web_sys::Element;
use yew::{AppHandle, Renderer};

use crate::app::App;

/// Identifier of the element that the page is mounted on.
pub const ROOT_ID: &str = "coolpath";

/// Mounts the page on an element, replacing what the element held.
pub fn mount(root: Element) -> AppHandle<App> {
    Renderer::<App>::with_root(root).render()
}
