//! Alternatives side by side.

pub mod panel;
mod sheet;
pub mod words;
