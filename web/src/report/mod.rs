//! The report view.

pub mod panel;
pub mod tables;
