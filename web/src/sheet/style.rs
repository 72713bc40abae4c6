//! The drawing's style: the rules of its classes, whose colours are the page's custom properties.

/// Rules of the drawing's classes.
pub const STYLE: &str = include_str!("sheet.css");
