//! Cards to fly by, and the leak checklist.

mod face;
mod mixture;
pub mod panel;
pub mod words;
