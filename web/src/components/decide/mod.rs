//! Deciding: sizes, comparisons, climb, shutter card.

pub mod compare;
pub mod size;
pub mod size_job;
