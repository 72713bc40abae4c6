//! The engine's formulas in plain SI numbers: breathing, mixture, EGT, heads, oil, cooler, bypass.

pub mod breathing;
pub mod bypass;
pub mod cooler;
pub mod cooler_pair;
pub mod cylinders;
pub mod egt;
pub mod heads;
pub mod mixture;
pub mod oil;
pub mod uneven;
