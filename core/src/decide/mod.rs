//! What to cut, fit or set: sizes, comparisons, safe climb speed, shutter card, chances, the length of a
//! widening duct.

pub mod chances;
pub mod climb;
pub mod compare;
pub mod comparison;
pub mod cut;
pub mod duct_length;
pub mod next;
mod power;
pub mod shutter_card;
pub mod size;
