//! What a design answers in its conditions: temperatures, flows, drag, bands and why.

pub mod band;
pub mod detonation;
pub mod evaluate;
mod hold_oil;
pub mod known_point;
pub mod minutes;
pub mod oil_circuit;
pub mod per_inch;
pub mod prepare;
pub mod sampling;
pub mod solve_condition;
pub mod solved;
pub mod sweep;
pub mod warning;
pub mod why;
