//! Other windows of the page, told of each other through what they store.

use crate::browser::storage;
use crate::browser::window;

/// Asks whether a window is open; the text is its mark and a word that is never said twice.
const ASK: &str = "coolpath:ask";
/// The answer of a window that is.
const HERE: &str = "coolpath:here";
/// Tells a window that another one goes on with its design.
const TAKEN: &str = "coolpath:taken";

/// What another window says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Said {
    /// The window with this mark is open.
    IsOpen(String),
    /// Another window goes on with this one's design.
    Taken,
}

fn say(key: &str, mark: &str) {
    let word = js_sys::Math::random();
    storage::keep_text(key, &format!("{mark} {word}"));
}

/// Asks whether a window is open.
pub fn ask(mark: &str) {
    say(ASK, mark);
}

/// Tells a window that this one goes on with its design.
pub fn take(mark: &str) {
    say(TAKEN, mark);
}

/// Answers other windows, and calls back with what they say, until what is returned is called.
pub fn listen(heard: impl Fn(Said) + 'static) -> impl FnOnce() {
    window::on_stored_elsewhere(move |key, text| {
        let Some((mark, _)) = text.split_once(' ') else {
            return;
        };
        let is_mine = storage::mark().as_deref() == Some(mark);
        match key {
            ASK if is_mine => say(HERE, mark),
            HERE => heard(Said::IsOpen(mark.to_owned())),
            TAKEN if is_mine => heard(Said::Taken),
            _ => {}
        }
    })
}

/// Notes that this window is open for as long as it is, until what is returned is called.
pub fn note_while_open() -> impl FnOnce() {
    window::on_leaving(|is_shown| {
        if let Some(mark) = storage::mark() {
            storage::note_open(&mark, is_shown);
        }
    })
}
