//! A flight minute by minute.

pub mod panel;
pub mod plan;
