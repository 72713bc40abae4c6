//! What a design answers in its conditions: temperatures, flows, drag, bands and why.

pub mod absurd;
pub mod band;
pub mod cabin;
pub mod detonation;
pub mod evaluate;
pub mod gas;
pub mod head_readings;
mod hold_oil;
pub mod known_point;
pub mod minutes;
pub mod model_error;
pub mod moments;
pub mod oil_point;
pub(crate) mod opening_band;
pub mod per_inch;
pub mod pieces;
pub mod prepare;
pub mod record;
pub mod sampling;
pub mod solve_condition;
pub mod solved;
pub mod spread;
pub mod sweep;
pub mod verdict;
pub mod warning;
mod warning_words;
pub mod why;
