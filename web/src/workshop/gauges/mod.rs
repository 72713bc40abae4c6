//! What an airspeed indicator across the baffles reads.

pub mod panel;
pub mod words;
