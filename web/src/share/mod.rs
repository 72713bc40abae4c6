//! A design as a link, a code or a QR code.

pub mod code;
pub mod panel;
