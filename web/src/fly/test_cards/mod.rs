//! Cards to fly by.

pub mod panel;
pub mod words;
