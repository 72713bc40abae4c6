//! Deciding: sizes, comparisons, climb, shutter card.

pub mod card;
pub mod climb;
pub mod compare;
pub mod flight;
pub mod size;
pub mod size_job;
pub mod sure;
