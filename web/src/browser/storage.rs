//! The browser's own storage: the page's state survives a reload. Failing is never fatal.

use crate::state::{State, document};
use coolpath_core::document::design::Design;
use web_sys::Storage;

/// Key of the page's state. All keys carry this prefix, since files opened from disk share one
/// storage.
pub const STATE_KEY: &str = "coolpath:state";
const UNREADABLE_KEY: &str = "coolpath:unreadable";
const STARTING_KEY: &str = "coolpath:starting";

/// Before the name of a kept design.
const KEPT_PREFIX: &str = "coolpath:kept:";

fn storage() -> Option<Storage> {
    web_sys::window()?.local_storage().ok().flatten()
}

/// Stores the state.
///
/// # Errors
/// A sentence for the builder.
pub fn save(state: &State) -> Result<(), String> {
    let kept = "What you typed is not kept when the page is closed. Save it to a file.";
    let storage = storage().ok_or_else(|| format!("This browser blocks storage. {kept}"))?;
    let text = document::stored_text(state).map_err(|error| error.to_string())?;
    storage
        .set_item(STATE_KEY, &text)
        .map_err(|_| format!("This browser's storage is full or blocked. {kept}"))
}

/// State to start with, and a sentence if something was wrong with the stored one.
#[must_use]
pub fn load() -> (State, Option<String>) {
    let Some(storage) = storage() else {
        return (State::default(), None);
    };
    let Ok(Some(text)) = storage.get_item(STATE_KEY) else {
        return (State::default(), None);
    };
    let broke_before = storage.get_item(STARTING_KEY).ok().flatten().is_some();
    let reason = match document::state_of(&text) {
        Ok(state) if !broke_before => {
            // Taken away by `started`; still there means that this state stopped the page.
            let _ = storage.set_item(STARTING_KEY, "1");
            return (state, None);
        }
        Ok(_) => "it stopped the page".to_owned(),
        Err(reason) => reason,
    };
    let _ = storage.set_item(UNREADABLE_KEY, &text);
    let _ = storage.remove_item(STARTING_KEY);
    let sentence = format!(
        "The inputs stored in this browser could not be used ({reason}). They are set aside, and \
         the example is shown."
    );
    (State::default(), Some(sentence))
}

/// Notes that the stored state has been shown without harm.
pub fn started() {
    if let Some(storage) = storage() {
        let _ = storage.remove_item(STARTING_KEY);
    }
}

/// Names of the designs kept in this browser, in alphabetical order.
#[must_use]
pub fn kept_names() -> Vec<String> {
    let Some(storage) = storage() else {
        return Vec::new();
    };
    let mut names: Vec<String> = (0..storage.length().unwrap_or(0))
        .filter_map(|at| storage.key(at).ok().flatten())
        .filter_map(|key| key.strip_prefix(KEPT_PREFIX).map(str::to_owned))
        .collect();
    names.sort();
    names
}

/// Keeps a design under its name; one of the same name is replaced.
///
/// # Errors
/// A sentence for the builder.
pub fn keep(design: &Design) -> Result<(), String> {
    let advice = "Nothing is lost: save the design to a file instead.";
    let storage = storage().ok_or_else(|| format!("This browser blocks storage. {advice}"))?;
    let text = document::file_text(design).map_err(|error| error.to_string())?;
    storage
        .set_item(&format!("{KEPT_PREFIX}{}", design.name.trim()), &text)
        .map_err(|_| format!("This browser's storage is full or blocked. {advice}"))
}

/// The kept design of a name.
///
/// # Errors
/// A sentence for the builder; what is kept is left as it is.
pub fn kept(name: &str) -> Result<Design, String> {
    let text = storage()
        .and_then(|storage| {
            storage
                .get_item(&format!("{KEPT_PREFIX}{name}"))
                .ok()
                .flatten()
        })
        .ok_or_else(|| format!("“{name}” is no longer kept in this browser."))?;
    document::design_of(&text)
}

/// Forgets the kept design of a name.
pub fn forget(name: &str) {
    if let Some(storage) = storage() {
        let _ = storage.remove_item(&format!("{KEPT_PREFIX}{name}"));
    }
}

/// Text under a key of its own; `None` where nothing is kept.
#[must_use]
pub fn text(key: &str) -> Option<String> {
    storage()?.get_item(key).ok().flatten()
}

/// Keeps a text under a key of its own; false where the browser does not.
pub fn keep_text(key: &str, text: &str) -> bool {
    storage().is_some_and(|storage| storage.set_item(key, text).is_ok())
}
