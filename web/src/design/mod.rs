//! Describing the aircraft, and its answers.

pub mod answers;
pub mod area;
pub mod bench;
pub mod choice_sketches;
pub mod dimension_editor;
pub mod drawing_pane;
pub mod fields;
pub mod gain;
pub mod half_answered;
mod oil_point;
pub mod part_panel;
pub mod parts;
pub mod sections;
pub mod start_my_own;
pub mod strip;
pub mod withheld;
