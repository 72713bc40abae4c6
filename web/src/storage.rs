//! The browser's own storage: the page's state survives a reload. Failing is never fatal.

use crate::state::{State, document};
use web_sys::Storage;

/// All keys carry this prefix, since files opened from disk share one storage.
const STATE_KEY: &str = "coolpath:state";
const UNREADABLE_KEY: &str = "coolpath:unreadable";
const STARTING_KEY: &str = "coolpath:starting";

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
