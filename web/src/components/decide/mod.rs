//! Deciding: sizes, comparisons, climb, shutter card.

pub mod size;
pub mod size_job;
