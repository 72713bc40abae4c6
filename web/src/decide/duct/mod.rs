//! "Widening duct": how long it must be, or how much wider the inlets without one.

pub mod panel;
pub mod words;
