//! Alternatives side by side.

pub mod panel;
pub mod words;
