//! Alternatives side by side.

pub mod panel;
mod table_text;
pub mod words;
