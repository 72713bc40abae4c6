//! What to cut, fit or set: sizes, comparisons, safe climb speed, shutter card, chances.

pub mod chances;
pub mod climb;
pub mod compare;
pub mod comparison;
pub mod cut;
pub mod next;
pub mod shutter_card;
pub mod size;
