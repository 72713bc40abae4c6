//! Describing the aircraft, and its answers.

pub mod answers;
pub mod area;
pub mod drawing;
pub mod fields;
pub mod sections;
pub mod start_my_own;
pub mod withheld;
