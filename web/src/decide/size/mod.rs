//! Sizing inlets, exit and flap.

mod map;
pub mod panel;
pub mod request;
pub mod result;
mod trial;
