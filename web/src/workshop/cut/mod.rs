//! Cut plan: templates at full size, as drawings in millimetres that are written as SVG, as DXF, or
//! on sheets. Pure.

pub mod advice;
pub mod drawing;
pub mod duct;
pub mod dxf;
pub mod exit;
pub mod inlet;
pub mod lines;
pub mod panel;
pub mod sheets;
pub mod steps;
pub mod svg;

pub use crate::workshop::cut::drawing::{Drawing, Item, Point, Stroke};
pub use crate::workshop::cut::lines::{Line, LineKind};
