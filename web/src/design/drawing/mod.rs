//! The side view of the cowl, drawn from the design's own numbers.

pub mod geometry;
pub mod labels;
pub mod view;

pub use crate::design::drawing::view::{CowlDrawing, Part};
