//! Deciding: sizes, comparisons, climb, shutter card, widening duct, inlet lip.

pub mod card;
pub mod chances;
pub mod climb;
pub mod compare;
pub mod duct;
pub mod lip;
pub mod measure;
pub mod minutes;
pub mod size;
pub mod view;
