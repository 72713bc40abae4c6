//! Pieces that every panel uses.

pub mod after_pause;
pub mod controls;
pub mod format;
pub mod refused;
pub mod svg_text;
pub mod verdict;
