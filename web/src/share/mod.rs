//! A design as a link, a code or a QR code.

pub mod arrived;
pub mod code;
pub mod panel;
