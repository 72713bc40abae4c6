//! Sizing inlets, exit and flap.

pub mod job;
mod map;
pub mod panel;
pub mod request;
pub mod result;
mod trial;
