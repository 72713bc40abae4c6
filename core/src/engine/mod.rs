//! The engine's formulas in plain SI numbers: mixture, power, heads, oil, cooler, thermostatic bypass.

pub mod bypass;
pub mod cooler;
pub mod heads;
pub mod mixture;
pub mod oil;
pub mod power;
