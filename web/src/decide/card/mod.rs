//! The shutter card.

pub mod panel;
pub mod words;
