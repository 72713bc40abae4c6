//! Engine oil: the fluid, the cooler and the thermostatic bypass.

pub mod bypass;
pub mod cooler;
pub mod fluid;
