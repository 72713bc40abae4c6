//! What the page knows: the design, what was typed, and how it is shown. Pure; no browser here.

pub mod action;
pub mod choices;
mod compared;
pub mod differences;
pub mod document;
pub mod faults;
pub mod field;
pub mod field_key;
pub mod history;
pub mod json;
pub mod keys;
pub mod page;
pub mod panel_texts;
pub mod patch;
pub mod questions;
pub mod range;
pub mod readings;
pub mod reduce;
pub mod slots;
#[cfg(all(test, not(target_arch = "wasm32")))]
mod stored_slots;
#[cfg(test)]
mod tests;

pub use action::{Action, List};
pub use field_key::FieldKey;
pub use page::{Drafts, Snapshot, State};
pub use range::Range;
pub use readings::{ChangeEdit, ReadingEdit};
