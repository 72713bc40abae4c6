//! The browser's own storage: the page's state survives a reload. Failing is never fatal.

use crate::browser::window;
use crate::state::document;
use crate::state::page::State;
use crate::state::slots;
use crate::state::slots::{Kept, Store, Trouble, Window};
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use std::cell::RefCell;
use web_sys::Storage;

/// Before the name of a kept design. All keys carry the first word, since files opened from disk
/// share one storage.
const KEPT_PREFIX: &str = "coolpath:kept:";

thread_local! {
    static WINDOW: RefCell<Option<Window>> = const { RefCell::new(None) };
    static OTHER: RefCell<Option<String>> = const { RefCell::new(None) };
}

/// The browser's store for all windows.
struct Common;

/// The browser's store for this window.
struct Own;

pub(super) fn storage() -> Option<Storage> {
    web_sys::window()?.local_storage().ok().flatten()
}

/// A page within a page shares the outer one's store, and so goes without.
fn own_storage() -> Option<Storage> {
    if window::is_framed() {
        return None;
    }
    web_sys::window()?.session_storage().ok().flatten()
}

fn keys_of(storage: &Storage) -> Vec<String> {
    (0..storage.length().unwrap_or(0))
        .filter_map(|at| storage.key(at).ok().flatten())
        .collect()
}

macro_rules! store {
    ($name:ident, $storage:ident) => {
        impl Store for $name {
            fn read(&self, key: &str) -> Option<String> {
                $storage()?.get_item(key).ok().flatten()
            }

            fn write(&self, key: &str, text: &str) -> bool {
                $storage().is_some_and(|storage| storage.set_item(key, text).is_ok())
            }

            fn remove(&self, key: &str) {
                if let Some(storage) = $storage() {
                    let _ = storage.remove_item(key);
                }
            }

            fn keys(&self) -> Vec<String> {
                $storage().map_or_else(Vec::new, |storage| keys_of(&storage))
            }
        }
    };
}

store!(Common, storage);
store!(Own, own_storage);

/// A mark that no other window has.
fn random_mark() -> String {
    let part = || (js_sys::Math::random() * 4_294_967_296.0) as u32;
    format!("{:08x}{:08x}", part(), part())
}

/// State to start with, and what the builder should know.
#[must_use]
pub fn load() -> (State, Option<String>) {
    let opened = slots::open(&Common, &Own, js_sys::Date::now(), &random_mark());
    WINDOW.with(|window| *window.borrow_mut() = Some(opened.window));
    OTHER.with(|other| *other.borrow_mut() = opened.other);
    (opened.state, opened.words)
}

/// Mark of another window whose state this one shows a copy of, if it is open.
#[must_use]
pub fn other_window() -> Option<String> {
    OTHER.with(|other| other.borrow().clone())
}

/// Stores the state.
///
/// # Errors
/// A sentence for the builder.
pub fn save(state: &State) -> Result<(), String> {
    if storage().is_none() {
        return Err(tr(
            "This browser blocks storage. What you typed is not kept when the page is \
                    closed. Save it to a file.",
        )
        .to_owned());
    }
    WINDOW
        .with(|window| match window.borrow_mut().as_mut() {
            Some(window) => slots::save(&Common, &Own, window, state, js_sys::Date::now()),
            None => Err(Trouble::NoRoom),
        })
        .map_err(|trouble| trouble.words().to_owned())
}

/// Notes that the stored state has been shown without harm.
pub fn started() {
    slots::came_through(&Own);
}

/// Key of questions that are half answered in this window.
const QUESTIONS: &str = "coolpath:questions";

/// Questions that were half answered in this window.
#[must_use]
pub fn half_answered() -> Option<String> {
    Own.read(QUESTIONS)
}

/// Keeps half answered questions over a reload, or forgets them.
pub fn keep_half_answered(text: Option<&str>) {
    match text {
        Some(text) => {
            // Where nothing can be kept a reload asks anew, as it always did.
            let _ = Own.write(QUESTIONS, text);
        }
        None => Own.remove(QUESTIONS),
    }
}

/// This window's mark.
#[must_use]
pub fn mark() -> Option<String> {
    WINDOW.with(|window| window.borrow().as_ref().map(|window| window.mark.clone()))
}

/// Notes that a window is open, or closed.
pub fn note_open(mark: &str, is_open: bool) {
    slots::note_open(&Common, mark, is_open);
}

/// States that can be brought back, the latest first, and what cannot be read: keys and texts.
#[must_use]
pub fn states() -> (Vec<Kept>, Vec<(String, String)>) {
    WINDOW.with(|window| match window.borrow().as_ref() {
        Some(window) => slots::kept(&Common, window),
        None => (Vec::new(), Vec::new()),
    })
}

/// Whether any state is kept here, or something that cannot be read.
#[must_use]
pub fn holds_any() -> bool {
    slots::holds_any(&Common)
}

/// The latest state of another window.
#[must_use]
pub fn state_of_window(mark: &str) -> Option<State> {
    slots::state_of_window(&Common, mark)
}

/// Names of the designs kept in this browser, in alphabetical order.
#[must_use]
pub fn kept_names() -> Vec<String> {
    let mut names: Vec<String> = Common
        .keys()
        .into_iter()
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
    let advice = tr("Nothing is lost: save the design to a file instead.");
    let storage = storage().ok_or_else(|| tr!("This browser blocks storage. {}", advice))?;
    let text = document::file_text(design).map_err(|error| error.to_string())?;
    storage
        .set_item(&format!("{KEPT_PREFIX}{}", design.name.trim()), &text)
        .map_err(|_| tr!("This browser's storage is full or blocked. {}", advice))
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
        .ok_or_else(|| tr!("“{}” is no longer kept in this browser.", name))?;
    document::design_of(&text)
}

/// Forgets the kept design of a name.
pub fn forget(name: &str) {
    Common.remove(&format!("{KEPT_PREFIX}{name}"));
}

/// Text that stands under the key of a kept design, as it is.
#[must_use]
pub fn kept_text(name: &str) -> Option<String> {
    Common.read(&format!("{KEPT_PREFIX}{name}"))
}

/// Forgets a text under a key of its own.
pub fn forget_text(key: &str) {
    Common.remove(key);
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
