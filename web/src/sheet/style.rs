//! The drawing's style: colours as custom properties, and the rules of its classes.

/// Colours that the drawing needs, light and dark; the page may define them itself.
pub const TOKENS: &str = include_str!("tokens.css");

/// Rules of the drawing's classes.
pub const STYLE: &str = include_str!("sheet.css");
