//! Leak of all flexible seals together, by the state in which they are, m².
//!
//! # Sources
//! New, worn and broken: derived from what builders report of heads before and after sealing (reports
//! R07, R45, R47), as is the default of the seals' gap. Aged, between them: from memory.

use crate::units::si::inch2;

/// New: overlapping, no light comes through.
pub const NEW_M2: f64 = inch2(6.0);
/// Some years old, wavy.
pub const AGED_M2: f64 = inch2(11.0);
/// Worn, curled away in places.
pub const WORN_M2: f64 = inch2(20.0);
/// Torn or missing in places.
pub const BROKEN_M2: f64 = inch2(30.0);
