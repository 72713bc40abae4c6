//! The model, fitted to some readings, checked on others that the fit has not seen.

pub mod panel;
mod tables;
pub mod words;
