//! What is typed and shown: dimensions, parsing and formatting numbers, SI values of customary units.

pub mod feet_inches;
pub mod quantity;
pub mod si;
pub mod system;
pub mod typed;
mod unit;
