//! Sizing inlets, exit and flap.

pub mod job;
pub mod panel;
pub mod request;
pub mod result;
